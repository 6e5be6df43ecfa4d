//! From the compiled program and the project's files to the parts that both flavours of the page are made of.

use std::path::Path;

use wasm_bindgen_cli_support::Bindgen;

use crate::{Outcome, encode, gate, glue, paths};

/// First statement of every page script: takes away the connections that no policy covers.
pub(crate) const BELT: &str = include_str!("../site/belt.js");
const BOOT: &str = include_str!("../site/boot.js");
const UNPACK: &str = include_str!("../site/unpack.js");
const ICON: &str = include_str!("../site/icon.svg");

/// Where the style says the font is, and where it is.
const FONT_ADDRESS: &str = "url(fonts/arcminute-text.woff2)";
/// The font file's name, both under `web/` and in the site.
pub(crate) const FONT: &str = "fonts/arcminute-text.woff2";

/// The parts of the page.
pub(crate) struct Parts {
    /// `index.html` with its markers.
    pub(crate) shell: String,
    /// Belt, the script from wasm-bindgen, the unpacker and the boot script: everything but the flavour's last lines.
    pub(crate) script: String,
    /// The program.
    pub(crate) wasm: Vec<u8>,
    /// All style sheets in one, the font named by [`FONT_ADDRESS`].
    pub(crate) style: String,
    pub(crate) font: Vec<u8>,
    /// The icon as a `data:` address.
    pub(crate) icon: String,
    /// Licences of everything inside.
    pub(crate) notice: String,
}

impl Parts {
    /// The style with the font inside it.
    pub(crate) fn style_with_font(&self) -> String {
        let data = format!("url(data:font/woff2;base64,{})", encode::base64(&self.font));
        self.style.replace(FONT_ADDRESS, &data)
    }
}

/// Gathers the parts, and passes the program and the script through the gates. `folders` must not be found in the program.
pub(crate) fn parts(compiled: &Path, folders: &[String]) -> Outcome<Parts> {
    let (emitted, wasm) = bound(compiled)?;
    gate::folders(&wasm, folders)?;
    let script = [BELT, &glue::without_loading(&emitted)?, UNPACK, BOOT].concat();
    let font = std::fs::read(paths::root().join("web").join(FONT)).map_err(|error| {
        format!("cannot read web/{FONT}: {error}; web/fonts/README.md tells how it is made")
    })?;
    let style = style_sheets()?;
    if style.matches(FONT_ADDRESS).count() != 1 {
        return Err(format!(
            "the style sheets in web/style/ must name the font exactly once, as {FONT_ADDRESS}"
        ));
    }
    Ok(Parts {
        shell: paths::read("index.html")?,
        script,
        wasm,
        style,
        font,
        icon: format!("data:image/svg+xml;base64,{}", encode::base64(ICON.trim())),
        notice: paths::read("NOTICE")
            .map_err(|error| format!("{error}; make it with `cargo xtask notice`"))?,
    })
}

/// The script and the program as wasm-bindgen leaves them.
fn bound(compiled: &Path) -> Outcome<(String, Vec<u8>)> {
    let failed = |error| {
        format!("wasm-bindgen cannot read the compiled program: {error:#}; run `cargo clean`, then try again")
    };
    let mut bindgen = Bindgen::new();
    bindgen.no_modules(true).map_err(failed)?;
    bindgen
        .input_path(compiled)
        .typescript(false)
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .out_name("app");
    let mut output = bindgen.generate_output().map_err(failed)?;
    let snippets = output.snippets().iter().filter(|(_, scripts)| !scripts.is_empty()).map(|(name, _)| name);
    let foreign: Vec<&str> = snippets.chain(output.local_modules().keys()).map(String::as_str).collect();
    if !foreign.is_empty() {
        return Err(format!(
            "these bring their own script along (`inline_js` or `module = …`), which the gates cannot read: {}; \
             do the same with web-sys",
            foreign.join(", ")
        ));
    }
    gate::imports(output.wasm().imports.iter().map(|import| import.name.as_str()))?;
    let script = output.js().to_owned();
    Ok((script, output.wasm_mut().emit_wasm()))
}

/// Every `web/style/*.css`, in the order of their names.
fn style_sheets() -> Outcome<String> {
    let folder = paths::root().join("web/style");
    let entries = std::fs::read_dir(&folder).map_err(|error| format!("cannot list web/style: {error}"))?;
    let mut names: Vec<String> =
        entries.flatten().map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
    names.retain(|name| Path::new(name).extension().is_some_and(|extension| extension == "css"));
    names.sort();
    let sheets: Outcome<Vec<String>> =
        names.iter().map(|name| paths::read(&format!("web/style/{name}"))).collect();
    Ok(sheets?.concat())
}
