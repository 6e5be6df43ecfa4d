//! Names of keys, as a person would say them: `Tab`, `Shift+Tab`, `ArrowDown`, `Control+a`.

/// The key values of a chord, in the order they go down (W3C `WebDriver`, section 17.4.2).
#[track_caller]
pub(crate) fn chord(text: &str) -> Vec<String> {
    // The plus key itself is written alone.
    if text == "+" {
        return vec!["+".to_owned()];
    }
    text.split('+').map(|name| key(name).unwrap_or_else(|| panic!("no key is called {name:?}"))).collect()
}

fn key(name: &str) -> Option<String> {
    let value = match name {
        "Backspace" => '\u{E003}',
        "Tab" => '\u{E004}',
        "Enter" => '\u{E006}',
        "Shift" => '\u{E008}',
        "Control" => '\u{E009}',
        "Alt" => '\u{E00A}',
        "Escape" => '\u{E00C}',
        "Space" => ' ',
        "PageUp" => '\u{E00E}',
        "PageDown" => '\u{E00F}',
        "End" => '\u{E010}',
        "Home" => '\u{E011}',
        "ArrowLeft" => '\u{E012}',
        "ArrowUp" => '\u{E013}',
        "ArrowRight" => '\u{E014}',
        "ArrowDown" => '\u{E015}',
        "Delete" => '\u{E017}',
        "F1" => '\u{E031}',
        "F8" => '\u{E038}',
        _ => {
            let mut letters = name.chars();
            let only = letters.next()?;
            if letters.next().is_some() {
                return None;
            }
            only
        }
    };
    Some(value.to_string())
}
