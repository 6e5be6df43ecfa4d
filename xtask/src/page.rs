//! Fills in `index.html`: the policy, what belongs in the head, and what belongs at the end of the body.

use crate::Outcome;

/// What goes in place of the three markers.
pub(crate) struct Parts<'a> {
    pub(crate) policy: &'a str,
    pub(crate) head: &'a str,
    pub(crate) body: &'a str,
}

/// Fills in the shell. Each marker must be there exactly once, the policy's before anything it must govern.
pub(crate) fn fill(shell: &str, parts: &Parts) -> Outcome<String> {
    let policy = format!("<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">", parts.policy);
    let (before, after) = split(shell, "policy")?;
    if ["<script", "<style", "<link", "<img"].iter().any(|tag| before.contains(tag)) {
        return Err(
            "index.html loads something before its policy; move `<!-- build: policy -->` up, above it".into(),
        );
    }
    let (head, after) = split(after, "head")?;
    let (body, end) = split(after, "body")?;
    Ok([before, &policy, head, parts.head, body, parts.body, end].concat())
}

fn split<'a>(text: &'a str, marker: &str) -> Outcome<(&'a str, &'a str)> {
    let comment = format!("<!-- build: {marker} -->");
    let misplaced = || {
        format!("index.html must hold `{comment}` exactly once, in the order policy, head, body; put it back")
    };
    let (before, after) = text.split_once(&comment).ok_or_else(misplaced)?;
    if after.contains(&comment) { Err(misplaced()) } else { Ok((before, after)) }
}

/// An inline script or style. Its text must not be able to end the element early: the hash in the policy covers the text, so it
/// cannot be escaped afterwards.
pub(crate) fn inline(element: &str, text: &str) -> Outcome<String> {
    let lower = text.to_lowercase();
    if lower.contains(&format!("</{element}")) || (element == "script" && lower.contains("<!--")) {
        return Err(format!(
            "the {element} holds `</{element}` or `<!--`, which would cut it short inside the page; write it in two pieces"
        ));
    }
    Ok(format!("<{element}>{text}</{element}>"))
}

#[cfg(test)]
mod tests {
    use super::*;

    const PARTS: Parts = Parts { policy: "default-src 'none'", head: "HEAD", body: "BODY" };

    #[test]
    fn the_markers_are_filled_in() {
        let shell = "<a><!-- build: policy --><b><!-- build: head --><c><!-- build: body --><d>";
        let policy = "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'\">";
        assert_eq!(fill(shell, &PARTS), Ok(format!("<a>{policy}<b>HEAD<c>BODY<d>")));
    }

    #[test]
    fn a_missing_or_doubled_marker_is_an_error() {
        for shell in [
            "<!-- build: policy --><!-- build: head -->",
            "<!-- build: policy --><!-- build: head --><!-- build: body --><!-- build: body -->",
            "<!-- build: head --><!-- build: policy --><!-- build: body -->",
        ] {
            assert!(fill(shell, &PARTS).is_err(), "{shell}");
        }
    }

    #[test]
    fn nothing_loads_before_the_policy() {
        let shell = "<link rel=icon><!-- build: policy --><!-- build: head --><!-- build: body -->";
        assert!(fill(shell, &PARTS).expect_err("this must fail").contains("before its policy"));
    }

    #[test]
    fn an_inline_script_cannot_end_early() {
        assert_eq!(inline("script", "a < b"), Ok("<script>a < b</script>".into()));
        assert!(inline("script", "'</SCRIPT>'").is_err());
        assert!(inline("script", "'<!--'").is_err());
        assert!(inline("style", "a{content:'</style>'}").is_err());
    }

    #[test]
    fn our_own_shell_fits() {
        let shell = include_str!("../../index.html");
        let page = fill(shell, &PARTS).expect("index.html holds the markers");
        assert!(page.contains("lang=\"en\"") && page.contains("content=\"no-referrer\""));
    }
}
