//! The subjects of the sheet, in the order in which they are taught, and which formulas belong to each.

use arcminute_core::explain::{FORMULAS, Formula};

/// A subject.
#[derive(Clone, Copy, Debug)]
pub struct Subject {
    /// Its heading.
    pub title: &'static str,
    /// What it is about.
    pub about: &'static str,
    /// Formulas that begin a stretch of the catalogue that belongs to it; the stretch ends where another begins.
    pub from: &'static [&'static str],
}

const fn subject(title: &'static str, about: &'static str, from: &'static [&'static str]) -> Subject {
    Subject { title, about, from }
}

/// All of them.
pub const SUBJECTS: &[Subject] = &[
    subject(
        "Seeing small things",
        "How fine a detail an eye sees, in every notation, and what is made of it.",
        &["mar-from-fraction"],
    ),
    subject(
        "How large print is",
        "Print as a height, and as an angle from where it is read.",
        &["print-height"],
    ),
    subject(
        "How much reserve",
        "Print read with ease is larger than print only just read; the reserve says how much.",
        &["acuity-reserve"],
    ),
    subject(
        "Rules of thumb for reading",
        "Quick rules, each beside what they stand for, with how far they miss.",
        &["kestenbaum"],
    ),
    subject(
        "Speed of reading",
        "How fast print of a size is read, and which size is read as fast as any.",
        &["speed-linear"],
    ),
    subject(
        "Goals and everyday things",
        "What letters, boards, signs and faces ask of an eye.",
        &["mar-of-detail"],
    ),
    subject(
        "Beside the middle of sight",
        "What a healthy retina sees off its centre, and how steadily an eye is held there.",
        &["eccentric-letter"],
    ),
    subject("Contrast", "How light differs from dark, on paper and on screens.", &["weber"]),
    subject(
        "Light, pupil and filters",
        "Light on the page, in the eye, and behind a filter.",
        &["illuminance"],
    ),
    subject(
        "Accommodation",
        "What an eye can add by itself, and what a lens has to add.",
        &["amplitude-least"],
    ),
    subject("Lenses before the eye", "Sphere and cylinder, moved and tilted.", &["mean-sphere"]),
    subject(
        "Blur and depth of field",
        "What is lost out of focus, and how far from focus is near enough.",
        &["blur-disc"],
    ),
    subject(
        "What an aid should reach",
        "The power a goal needs, the acuity to expect, and its chance.",
        &["power-needed"],
    ),
    subject(
        "Telescopes",
        "Power, length, exit pupil, field, focusing and the refraction behind them.",
        &["magnification-from-lenses", "light", "cylinder-blur", "ring-width"],
    ),
    subject("Steadiness", "What motion of head or hand takes from a magnified image.", &["retinal-slip"]),
    subject("Minifiers", "Wider fields for smaller images.", &["minus-lens-alone"]),
    subject("Hand magnifiers", "A plus lens in the hand, before glasses or without.", &["magnifier-and-add"]),
    subject(
        "Stand magnifiers",
        "A plus lens on legs: where its image lies, and what an eye makes of it.",
        &["stand-emergent"],
    ),
    subject(
        "High-plus spectacles and thick lenses",
        "Strong lenses on the face, and the three powers of a thick one.",
        &["evp-of-spectacles"],
    ),
    subject("Domes and bars", "Solid blocks that lie on the page.", &["dome-surface"]),
    subject(
        "Screens and cameras",
        "Enlargement on screens, from paper to head-mounted displays.",
        &["width-of-screen"],
    ),
    subject(
        "Labels, and one measure for all aids",
        "What “5x” may mean, and the equivalent viewing power and distance behind it.",
        &["evp-of-evd"],
    ),
    subject(
        "What is seen through any aid",
        "Focus, detail, reserve, characters and light, the same for every family.",
        &["detail-seen"],
    ),
    subject(
        "Two eyes",
        "How far both eyes turn in behind strong lenses and telescopes, and the prism that spares it.",
        &["bare-convergence"],
    ),
    subject("Prisms", "Where a flat prism sends light that does not meet it straight.", &["prism-deviation"]),
    subject(
        "The power of an unmarked aid",
        "Found with a ruler, squared paper, a trial lens or a lamp.",
        &["power-from-exit-pupil"],
    ),
    subject(
        "Frame and fitting",
        "Where lenses and a mounted telescope sit in a frame, before a face.",
        &["frame-pd"],
    ),
];

/// The formulas of a subject.
///
/// # Errors
/// The formula that begins none of the catalogue, as it was renamed or left out.
pub(super) fn formulas(subject: &Subject) -> Result<Vec<&'static Formula>, String> {
    let starts: Vec<&str> = SUBJECTS.iter().flat_map(|subject| subject.from).copied().collect();
    let mut found = Vec::new();
    for start in subject.from {
        let at = FORMULAS.iter().position(|formula| formula.id == *start);
        let at = at.ok_or_else(|| format!("subject {}: there is no formula {start}", subject.title))?;
        let ends = |formula: &&&Formula| formula.id == *start || !starts.contains(&formula.id);
        found.extend(FORMULAS.iter().skip(at).take_while(ends).copied());
    }
    Ok(found)
}
