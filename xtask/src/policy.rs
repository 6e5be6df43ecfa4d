//! The content security policies and the response headers. Nothing may be loaded, and nothing sent, that is not named here.
//!
//! No policy stops a page from navigating away (`location = …`), and none covers WebRTC; [`crate::gate`] and `site/belt.js` deal
//! with those two.

/// The policy of the one-file page: its own script and style, by hash, and no connection to anything.
pub(crate) fn one_file(script: &str, style: &str) -> String {
    let script = crate::encode::sha256(script);
    let style = crate::encode::sha256(style);
    format!(
        "default-src 'none'; script-src '{script}' 'wasm-unsafe-eval'; style-src '{style}'; img-src data: blob:; \
         font-src data:; connect-src 'none'; base-uri 'none'; form-action 'none'"
    )
}

/// The policy of the site's page: files from its own folder, and no connection, not even to the host it came from.
pub(crate) const SITE: &str = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; \
     img-src data: blob:; font-src 'self'; connect-src 'none'; manifest-src 'self'; worker-src 'self'; base-uri 'none'; \
     form-action 'none'";

/// The service worker stores the site's files for offline use, so it alone may connect, and only to its own host.
const WORKER: &str = "default-src 'none'; connect-src 'self'";

const EVERY_FILE: &[(&str, &str)] = &[
    ("X-Content-Type-Options", "nosniff"),
    ("Referrer-Policy", "no-referrer"),
    ("Cross-Origin-Opener-Policy", "same-origin"),
    ("X-Frame-Options", "DENY"),
    ("Permissions-Policy", "camera=(), microphone=(), geolocation=(), payment=(), usb=()"),
];

/// The headers that suit a file of the site, by its address within the site.
pub(crate) fn headers(name: &str) -> Vec<(&'static str, String)> {
    let mut headers: Vec<_> = EVERY_FILE.iter().map(|(key, value)| (*key, (*value).to_owned())).collect();
    match name {
        "" | "index.html" => {
            headers.push(("Content-Security-Policy", format!("{SITE}; frame-ancestors 'none'")));
            headers.push(("Cache-Control", "no-cache".into()));
        }
        "sw.js" => {
            headers.push(("Content-Security-Policy", WORKER.into()));
            headers.push(("Cache-Control", "no-cache".into()));
        }
        _ => {}
    }
    headers
}

/// The same headers in the `_headers` form that several static hosts read; for others it is a list to copy from.
pub(crate) fn header_file() -> String {
    let mut text = String::from(
        "# Response headers for this site. The page carries its own policy; these add what a page cannot say of itself.\n\
         # Hosts that do not read this file: set the same headers in their own way. Serve .js and .html as UTF-8.\n",
    );
    let of_every_file = headers("*");
    for (address, name) in [("/*", "*"), ("/", ""), ("/index.html", "index.html"), ("/sw.js", "sw.js")] {
        text += &format!("{address}\n");
        let own = headers(name).into_iter().filter(|header| name == "*" || !of_every_file.contains(header));
        for (key, value) in own {
            text += &format!("  {key}: {value}\n");
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_pages_forbid_every_connection() {
        for policy in [SITE.to_owned(), one_file("script", "style")] {
            assert!(policy.starts_with("default-src 'none';"), "{policy}");
            assert!(policy.contains("connect-src 'none'"), "{policy}");
            assert!(policy.contains("form-action 'none'"), "{policy}");
            assert!(!policy.contains("unsafe-inline") && !policy.contains("'unsafe-eval'"), "{policy}");
            assert!(!policy.contains("http") && !policy.contains('*'), "{policy}");
        }
    }

    #[test]
    fn the_one_file_page_names_its_parts_by_hash() {
        assert!(
            one_file("abc", "").contains("script-src 'sha256-ungWv48Bz+pBQUDeXa4iI7ADYaOWF3qctBD/YfIAFa0=' ")
        );
    }

    #[test]
    fn only_the_worker_may_connect() {
        let text = header_file();
        assert_eq!(text.matches("connect-src 'self'").count(), 1);
        assert!(
            text.contains("/sw.js\n  Content-Security-Policy: default-src 'none'; connect-src 'self'\n"),
            "{text}"
        );
        assert!(text.contains("frame-ancestors 'none'"));
    }
}
