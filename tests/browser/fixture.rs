//! Small pages of our own to try the harness on, under the same policies as the product.

use crate::temp::TempDir;
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest, Sha256};

const STYLE: &str = include_str!("fixture/page.css");
const SCRIPT: &str = include_str!("fixture/page.js");
const BODY: &str = include_str!("fixture/body.html");
const WORKER: &str = include_str!("fixture/sw.js");

/// A page in one file: script and style inside, allowed by their hashes.
pub(crate) fn single_file() -> String {
    single_file_with(BODY)
}

/// The same page with another body.
pub(crate) fn single_file_with(body: &str) -> String {
    let policy = format!(
        "default-src 'none'; script-src '{}' 'wasm-unsafe-eval'; style-src '{}'; img-src data: blob:; \
         connect-src 'none'; base-uri 'none'; form-action 'none'",
        hash(SCRIPT),
        hash(STYLE)
    );
    page(&policy, &format!("<style>{STYLE}</style>"), &format!("{body}<script>{SCRIPT}</script>"))
}

/// The page as a folder with a service worker, for a web server.
pub(crate) fn site() -> TempDir {
    let policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
                  img-src 'self' data: blob:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; \
                  base-uri 'none'; form-action 'none'";
    let folder = TempDir::new();
    let head = "<link rel=\"stylesheet\" href=\"page.css\">";
    folder.write("index.html", page(policy, head, &format!("{BODY}<script src=\"page.js\"></script>")));
    folder.write("page.css", STYLE);
    folder.write("page.js", format!("{SCRIPT}\nnavigator.serviceWorker.register('sw.js');\n"));
    folder.write("sw.js", WORKER);
    folder
}

fn page(policy: &str, head: &str, body: &str) -> String {
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n<link rel=\"icon\" href=\"data:,\">\n\
         <title>Harness fixture</title>\n{head}\n</head>\n<body>\n{body}\n</body>\n</html>\n"
    )
}

fn hash(text: &str) -> String {
    format!("sha256-{}", STANDARD.encode(Sha256::digest(text)))
}
