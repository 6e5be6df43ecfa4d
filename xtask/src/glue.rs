//! The script that wasm-bindgen writes, less its ways to load a program by address. The page hands over bytes, so those ways are
//! dead code, and dead code that could connect has no place in a page that promises not to.

use crate::Outcome;

struct Cut {
    what: &'static str,
    from: &'static str,
    to: &'static str,
    instead: &'static str,
}

/// Each cut takes out the text from `from` up to, not including, `to`.
const CUTS: &[Cut] = &[
    Cut {
        what: "loading by address",
        from: "        if (typeof module_or_path === 'string' ||",
        to: "        const { instance, module } = await __wbg_load(",
        instead: "",
    },
    Cut {
        what: "loading from a response",
        from: "        if (typeof Response === 'function' && module instanceof Response) {",
        to: "            const instance = await WebAssembly.instantiate(module, imports);",
        instead: "        {\n",
    },
    Cut {
        what: "the check of a response's type",
        from: "        function expectedResponseType(type) {",
        to: "    function initSync(",
        instead: "    }\n\n",
    },
];

/// Makes all the cuts. One that does not fit exactly once is an error, so that a new wasm-bindgen cannot slip past.
pub(crate) fn without_loading(glue: &str) -> Outcome<String> {
    let mut text = glue.to_owned();
    for cut in CUTS {
        text = made(&text, cut).ok_or_else(|| {
            format!(
                "the script written by wasm-bindgen has changed: the part for {} is not where it was; \
                 look at the emitted script and mend CUTS in xtask/src/glue.rs",
                cut.what
            )
        })?;
    }
    Ok(text)
}

fn made(text: &str, cut: &Cut) -> Option<String> {
    let (before, rest) = text.split_once(cut.from)?;
    let end = rest.find(cut.to)?;
    (!rest.contains(cut.from)).then(|| format!("{before}{}{}", cut.instead, &rest[end..]))
}

#[cfg(test)]
mod tests {
    use super::*;

    const EMITTED: &str = include_str!("../testdata/glue.js");

    #[test]
    fn the_cuts_leave_nothing_that_connects() {
        assert!(
            crate::gate::script("app.js", EMITTED, "", &[]).is_err(),
            "the sample should hold what is to be cut"
        );
        let cut = without_loading(EMITTED).expect("the cuts fit");
        assert_eq!(crate::gate::script("app.js", &cut, "", &[]), Ok(()));
        for gone in ["Response", "instantiateStreaming", "arrayBuffer"] {
            assert!(!cut.contains(gone), "{gone} is still there");
        }
    }

    #[test]
    fn braces_stay_balanced() {
        let cut = without_loading(EMITTED).expect("the cuts fit");
        assert_eq!(cut.matches('{').count(), cut.matches('}').count());
    }

    #[test]
    fn a_changed_script_is_refused() {
        let changed =
            EMITTED.replace("typeof module_or_path === 'string'", "typeof module_or_path == 'string'");
        let error = without_loading(&changed).expect_err("this must fail");
        assert!(error.contains("the part for loading by address is not where it was"), "{error}");
        let twice = format!("{EMITTED}{EMITTED}");
        assert!(without_loading(&twice).is_err());
    }
}
