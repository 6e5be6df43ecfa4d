//! Sets up what a step needs, and only what is missing, saying so. Test tools go into `.tools/`, Rust targets to rustup,
//! browsers to the system's own packages where that is possible.

mod browser;
mod cpp;
pub(crate) mod engines;
mod npm;
pub(crate) mod programs;
mod python;
mod rust;
mod system;

use std::path::PathBuf;

use crate::Outcome;

/// Something a step cannot do without.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Need {
    /// rustfmt and clippy.
    Components,
    /// The target of the page.
    WasmTarget,
    /// The target that proves the core needs no standard library.
    BareTarget,
    /// Python with the packages that the reference tests compare with.
    Python,
    /// The accessibility checker that the browser tests put into the page.
    Axe,
    /// The validator of FHIR resources that the reference tests compare with, and what runs it.
    Fhir,
    /// A Chromium browser and its driver.
    Chromium,
    /// The command-line programs that read a printed PDF back.
    PdfTools,
    /// A C++ compiler, for the engine of the fuzzer.
    Cpp,
    /// The compiler's own tools that read coverage counters.
    LlvmTools,
}

/// Where the tools are that tests are told about.
#[derive(Debug, Default)]
pub(crate) struct Tools {
    pub(crate) python: Option<PathBuf>,
    pub(crate) axe: Option<PathBuf>,
    pub(crate) fhir: Option<PathBuf>,
    pub(crate) chromium: Option<PathBuf>,
    pub(crate) chromedriver: Option<PathBuf>,
}

/// Makes sure of all that is needed.
pub(crate) fn ensure(needs: &[Need]) -> Outcome<Tools> {
    let mut tools = Tools::default();
    for need in needs {
        match need {
            Need::Components => rust::components(&["rustfmt", "clippy"])?,
            Need::WasmTarget => rust::target("wasm32-unknown-unknown")?,
            Need::BareTarget => rust::target("thumbv7em-none-eabi")?,
            Need::Python => tools.python = python::environment()?,
            Need::Axe => tools.axe = npm::axe()?,
            Need::Fhir => tools.fhir = npm::fhir()?,
            Need::Chromium => {
                let (chromium, driver) = browser::chromium()?;
                (tools.chromium, tools.chromedriver) = (Some(chromium), Some(driver));
            }
            Need::PdfTools => browser::pdf_tools()?,
            Need::Cpp => cpp::compiler()?,
            Need::LlvmTools => rust::llvm_tools()?,
        }
    }
    Ok(tools)
}

/// Whether a tool was set up from exactly this list before. The list is kept beside the tool.
fn is_current(kept: &std::path::Path, wanted: &str) -> bool {
    std::fs::read_to_string(kept).is_ok_and(|text| text == wanted)
}
