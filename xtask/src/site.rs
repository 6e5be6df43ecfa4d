//! The two flavours: a static site that works offline after the first visit, and one self-contained file.

use crate::bundle::{self, Parts};
use crate::encode;
use crate::page::{self, fill, inline};
use crate::{Outcome, gate, policy};

const START_ONE_FILE: &str = include_str!("../site/start-one-file.js");
const START_SITE: &str = include_str!("../site/start-site.js");
const WORKER: &str = include_str!("../site/sw.js");
const MANIFEST: &str = include_str!("../site/manifest.webmanifest");

/// A file of the site: its name, and what is in it.
pub(crate) struct File {
    pub(crate) name: &'static str,
    pub(crate) content: Vec<u8>,
    /// Whether a first visit loads it.
    pub(crate) first_load: bool,
}

/// The page as one file that needs nothing beside it.
pub(crate) fn one_file(parts: &Parts) -> Outcome<String> {
    let script = [&parts.script, START_ONE_FILE].concat();
    gate::script("the script of the one-file page", &script, bundle::BELT, &[])?;
    let style = parts.style_with_font();
    // Inside a script element these two would be read as markup.
    let notice = parts.notice.replace("</", "< /").replace("<!", "< !");
    let body = format!(
        "<script type=\"text/plain\" id=\"program\" data-bytes=\"{}\">{}</script>\n{}\n\
         <script type=\"text/plain\" id=\"notice\">\n{notice}</script>",
        parts.wasm.len(),
        encode::base64(encode::squeezed(&parts.wasm)?),
        inline("script", &script)?,
    );
    let head = format!("<link rel=\"icon\" href=\"{}\">\n{}", parts.icon, inline("style", &style)?);
    let policy = policy::one_file(&script, &style);
    fill(&parts.shell, &page::Parts { policy: &policy, head: &head, body: &body })
}

/// The files of the static site.
pub(crate) fn site(parts: &Parts) -> Outcome<Vec<File>> {
    let script = [&parts.script, START_SITE].concat();
    gate::script("app.js", &script, bundle::BELT, &[])?;
    let program = encode::base64(encode::squeezed(&parts.wasm)?);
    let program = format!("arcminute.unpack(\"{program}\", {});\n", parts.wasm.len());
    let head = format!(
        "<link rel=\"icon\" href=\"{}\">\n\
         <link rel=\"manifest\" href=\"manifest.webmanifest\">\n\
         <link rel=\"preload\" href=\"{}\" as=\"font\" type=\"font/woff2\" crossorigin>\n\
         <link rel=\"stylesheet\" href=\"app.css\">\n\
         <script src=\"app.js\" defer></script>\n\
         <script src=\"app.wasm.js\" defer></script>",
        parts.icon,
        bundle::FONT,
    );
    let index = fill(&parts.shell, &page::Parts { policy: policy::SITE, head: &head, body: "" })?;
    let mut files = vec![
        file("index.html", index, true),
        file("app.css", &*parts.style, true),
        file("app.js", script, true),
        file("app.wasm.js", program, true),
        file(bundle::FONT, &*parts.font, true),
        file("manifest.webmanifest", MANIFEST.replace("@ICON@", &parts.icon), true),
        file("notice.txt", &*parts.notice, false),
    ];
    let worker = worker(&files);
    gate::script("sw.js", &worker, "", &["fetch"])?;
    files.push(file("sw.js", worker, true));
    files.push(file("_headers", policy::header_file(), false));
    Ok(files)
}

fn file(name: &'static str, content: impl Into<Vec<u8>>, first_load: bool) -> File {
    File { name, content: content.into(), first_load }
}

/// The service worker with the list of files it keeps, each with its hash: those that the page loads. The page itself is
/// kept under the folder's address.
fn worker(files: &[File]) -> String {
    let line = |file: &File| {
        let name = if file.name == "index.html" { "./" } else { file.name };
        format!("    ['{name}', '{}'],\n", encode::sha256(&file.content))
    };
    let list: String = files.iter().filter(|file| file.first_load).map(line).collect();
    WORKER.replace("@VERSION@", &encode::short_hash(&list)).replace("@FILES@", &format!("[\n{list}]"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bundle::BELT;

    fn parts() -> Parts {
        Parts {
            shell: include_str!("../../index.html").into(),
            script: format!("{BELT}let wasm_bindgen;\n"),
            wasm: b"\0asm program".to_vec(),
            style: "@font-face { src: url(fonts/arcminute-text.woff2) }".into(),
            font: b"font".to_vec(),
            icon: "data:image/svg+xml;base64,AAAA".into(),
            notice: "licences </script>\n".into(),
        }
    }

    #[test]
    fn the_one_file_page_names_no_other_file() {
        let page = one_file(&parts()).expect("the parts fit together");
        for address in ["src=", "url(fonts", "href=\"app", "http:", "https:"] {
            assert!(!page.contains(address), "{address}");
        }
        assert!(page.contains("url(data:font/woff2;base64,Zm9udA==)"));
        assert_eq!(page.matches("</script>").count(), 3);
    }

    #[test]
    fn the_worker_keeps_every_file_that_the_page_loads() {
        let files = site(&parts()).expect("the parts fit together");
        let text = |name: &str| {
            let file = files.iter().find(|file| file.name == name).expect(name);
            String::from_utf8(file.content.clone()).expect("text")
        };
        let worker = text("sw.js");
        assert!(!worker.contains('@'), "{worker}");
        for file in
            files.iter().filter(|file| file.first_load && !["index.html", "sw.js"].contains(&file.name))
        {
            assert!(worker.contains(&format!("['{}', 'sha256-", file.name)), "{}", file.name);
        }
        assert!(!worker.contains("notice.txt"), "who wants the licences fetches them");
        let index = text("index.html");
        for name in ["app.css", "app.js", "app.wasm.js", "manifest.webmanifest"] {
            assert!(index.contains(&format!("=\"{name}\"")), "{name}");
        }
    }

    #[test]
    fn a_change_in_any_file_is_a_new_version() {
        let first = worker(&[file("app.js", "a", true)]);
        let second = worker(&[file("app.js", "b", true)]);
        assert_ne!(
            first.lines().find(|l| l.contains("VERSION =")),
            second.lines().find(|l| l.contains("VERSION ="))
        );
    }

    #[test]
    fn a_leaking_script_does_not_come_out() {
        let leaking = Parts { script: format!("{BELT}fetch('x');\n"), ..parts() };
        assert!(one_file(&leaking).expect_err("this must fail").contains("fetch"));
        assert!(site(&leaking).is_err());
        let beltless = Parts { script: "let wasm_bindgen;\n".into(), ..parts() };
        assert!(one_file(&beltless).is_err() && site(&beltless).is_err());
    }
}
