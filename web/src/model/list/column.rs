//! The table of columns: what a list of aids may say, in one place.
//!
//! Headings, keys of the JSON form, template, schema and documentation all read this table; which family of aids needs
//! which column, and in what range, stands in [`super::family`].

/// A column.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "each is described in the table below, where people read it")]
pub enum Column {
    Id,
    Name,
    Family,
    Power,
    Addition,
    FrontSurface,
    BackSurface,
    Thickness,
    Index,
    Design,
    Magnification,
    ReadingCap,
    Objective,
    TubeLength,
    Barrel,
    RealField,
    NearestFocus,
    ClearDiameter,
    Width,
    Height,
    BarLength,
    Radius,
    Enlargement,
    ImageBelowLens,
    StandHeight,
    CameraToPrint,
    CameraField,
    DisplayField,
    DisplayImage,
    DisplayPixels,
    CameraPixels,
    LightThrough,
    LensToGlasses,
    EyeToPage,
    EyeToScreen,
    Glasses,
    HandsFree,
    Worn,
    BothEyes,
    Walking,
    Shines,
    Weight,
    Note,
}

/// What stands in the cells of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Words of at most so many characters.
    Text(usize),
    /// A number in this unit, one of those in `UNITS`.
    Number(&'static str),
    /// One of these words; its place is its meaning.
    Words(&'static [&'static str]),
}

/// What is to be known of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct About {
    /// The column.
    pub column: Column,
    /// Its heading without the unit.
    pub name: &'static str,
    /// What its cells hold.
    pub kind: Kind,
    /// What it means.
    pub help: &'static str,
}

/// No and yes, in the order of their meaning.
pub const NO_YES: &[&str] = &["no", "yes"];
/// The glasses that are worn with an aid.
pub const GLASSES: &[&str] = &["none", "far", "near"];
/// Designs of a telescope.
pub const DESIGNS: &[&str] = &["galilean", "keplerian"];
/// How far an aid may be used while walking.
pub const WALKING: &[&str] = &["no", "spotting", "yes"];
/// How many hands are left free.
pub const HANDS: &[&str] = &["0", "1", "2"];

const fn number(column: Column, name: &'static str, unit: &'static str, help: &'static str) -> About {
    About { column, name, kind: Kind::Number(unit), help }
}
const fn words(
    column: Column,
    name: &'static str,
    words: &'static [&'static str],
    help: &'static str,
) -> About {
    About { column, name, kind: Kind::Words(words), help }
}
const fn text(column: Column, name: &'static str, most: usize, help: &'static str) -> About {
    About { column, name, kind: Kind::Text(most), help }
}

/// Every column, in the order in which a list is written.
pub static ALL: &[About] = &[
    text(
        Column::Id,
        "id",
        40,
        "Your own key for the aid: letters, digits, `-`, `_` and `.`; no two aids share one.",
    ),
    text(Column::Name, "name", 100, "What the aid is called."),
    text(Column::Family, "family", 60, "What kind of aid it is, in the words of the table of families."),
    number(Column::Power, "power", "D", "Equivalent power of the lens; a minus lens has its minus sign."),
    number(Column::Addition, "addition", "D", "Power that is added to the correction for far."),
    number(Column::FrontSurface, "front surface", "D", "Power of the front surface of a thick lens."),
    number(Column::BackSurface, "back surface", "D", "Power of the back surface of a thick lens."),
    number(Column::Thickness, "thickness", "mm", "Front to back of a thick lens, on its axis."),
    number(Column::Index, "index", "", "Refractive index of the glass or plastic."),
    words(Column::Design, "design", DESIGNS, "Galilean with a minus eyepiece, Keplerian with prisms."),
    number(Column::Magnification, "magnification", "x", "As marked; below 1 for a reversed telescope."),
    number(Column::ReadingCap, "reading cap", "D", "Power of the cap before the objective."),
    number(Column::Objective, "objective", "mm", "Clear diameter of the objective."),
    number(Column::TubeLength, "tube length", "mm", "Lens to lens in air, where it is known."),
    number(Column::Barrel, "barrel", "mm", "Diameter of the barrel where it passes the carrier lens."),
    number(Column::RealField, "real field", "degrees", "As marked, the full angle."),
    number(
        Column::NearestFocus,
        "nearest focus",
        "m",
        "Nearest distance it focuses for, from the eye; empty when it is fixed for far.",
    ),
    number(Column::ClearDiameter, "clear diameter", "mm", "Of the lens, inside its mount."),
    number(Column::Width, "width", "mm", "Of a sheet, of a screen, or of the clear face of a bar."),
    number(Column::Height, "height", "mm", "Of a screen; of a dome or bar, page to top."),
    number(Column::BarLength, "bar length", "mm", "Of a bar, along the line of print."),
    number(Column::Radius, "radius", "mm", "Of the curved face of a dome or bar."),
    number(
        Column::Enlargement,
        "enlargement",
        "x",
        "Height of what is shown over height of the print: of a copy, on a screen, or of the image of a stand magnifier.",
    ),
    number(
        Column::ImageBelowLens,
        "image below lens",
        "mm",
        "From the lens of a stand magnifier down to its image.",
    ),
    number(Column::StandHeight, "stand height", "mm", "From the page to the lens of a stand magnifier."),
    number(Column::CameraToPrint, "camera to print", "mm", "Room under the camera; empty for none."),
    number(Column::CameraField, "camera field", "degrees", "Full angle across that the camera takes in."),
    number(Column::DisplayField, "display field", "degrees", "Full angle across that the display fills."),
    number(
        Column::DisplayImage,
        "display image",
        "m",
        "Distance of the image of the display from the eye; empty when it is focused for far.",
    ),
    number(Column::DisplayPixels, "display pixels", "", "Pixels across the display."),
    number(Column::CameraPixels, "camera pixels", "", "Pixels across the camera's picture."),
    number(Column::LightThrough, "light through", "%", "Share of the light that the aid lets through."),
    number(
        Column::LensToGlasses,
        "lens to glasses",
        "mm",
        "As used: from the lens or the eyepiece to the glasses, or to where glasses would be.",
    ),
    number(Column::EyeToPage, "eye to page", "mm", "As used: from the page to the pupil of the eye."),
    number(Column::EyeToScreen, "eye to screen", "mm", "As used: from the screen to the pupil of the eye."),
    words(Column::Glasses, "glasses", GLASSES, "What is worn with it: none, those for far, those for near."),
    words(Column::HandsFree, "hands free", HANDS, "How many hands it leaves free."),
    words(Column::Worn, "worn", NO_YES, "Whether it is worn rather than held, laid down or stood up."),
    words(Column::BothEyes, "both eyes", NO_YES, "Whether both eyes can be used with it."),
    words(
        Column::Walking,
        "walking",
        WALKING,
        "Spotting: for a look while standing still, as through a telescope mounted above the line of sight.",
    ),
    words(
        Column::Shines,
        "shines",
        NO_YES,
        "Whether what it shows shines by itself, as a screen does; a lamp over the print does not count.",
    ),
    number(Column::Weight, "weight", "g", "Of what is held or worn."),
    text(Column::Note, "note", 200, "Anything else; never anything that names a person."),
];

/// Ways of writing each unit, the first as in headings; then units that none of our columns has, to know them when they
/// are met.
pub(super) static UNITS: &[&[&str]] = &[
    &["mm", "millimetre", "millimetres", "millimeter", "millimeters"],
    &["m", "metre", "metres", "meter", "meters"],
    &["D", "dpt", "dioptre", "dioptres", "diopter", "diopters"],
    &["degrees", "degree", "deg", "°"],
    &["x", "times", "×"],
    &["%", "percent", "per cent"],
    &["g", "gram", "grams", "gramme", "grammes"],
    &["cm", "centimetre", "centimetres", "centimeter", "centimeters"],
    &["in", "inch", "inches", "\"", "''"],
    &["ft", "foot", "feet", "'"],
    &["kg", "kilogram", "kilograms"],
    &["oz", "ounce", "ounces"],
    &["lb", "lbs", "pound", "pounds"],
    &["µm", "um"],
    &["rad", "radians"],
    &["F/4", "F4"],
];

/// The unit that is written so, as headings write it.
pub(super) fn unit(written: &str) -> Option<&'static str> {
    let written = written.trim();
    let is = |ways: &&&[&'static str]| ways.iter().any(|way| way.eq_ignore_ascii_case(written));
    UNITS.iter().find(is).and_then(|ways| ways.first()).copied()
}

impl Column {
    /// What is to be known of it.
    #[must_use]
    pub fn about(self) -> &'static About {
        &ALL[self as usize]
    }

    /// Its heading, with the unit: `clear diameter (mm)`.
    #[must_use]
    pub fn heading(self) -> String {
        match self.about().kind {
            Kind::Number(unit) if !unit.is_empty() => format!("{} ({unit})", self.about().name),
            _ => self.about().name.into(),
        }
    }

    /// Its key in the JSON form: `clear_diameter_mm`.
    #[must_use]
    pub fn key(self) -> String {
        let name = self.about().name.replace(' ', "_");
        let unit = match self.about().kind {
            Kind::Number("D") => "_d",
            Kind::Number("x") => "_times",
            Kind::Number("%") => "_percent",
            Kind::Number("degrees") => "_deg",
            Kind::Number("mm") => "_mm",
            Kind::Number("m") => "_m",
            Kind::Number("g") => "_g",
            _ => "",
        };
        name + unit
    }

    /// The unit of its numbers; empty where there is none.
    #[must_use]
    pub fn unit(self) -> &'static str {
        match self.about().kind {
            Kind::Number(unit) => unit,
            _ => "",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn the_table_is_in_the_order_of_the_columns() {
        for (place, about) in ALL.iter().enumerate() {
            assert_eq!(about.column as usize, place, "{}", about.name);
            assert_eq!(about.column.about(), about);
            assert!(about.help.ends_with('.'), "{}: a sentence", about.name);
        }
        assert_eq!(Column::Note as usize + 1, ALL.len(), "the last column is in it");
    }

    #[test]
    fn headings_and_keys_carry_their_units() {
        let both = |column: Column| (column.heading(), column.key());
        for (column, heading, key) in [
            (Column::Id, "id", "id"),
            (Column::Power, "power (D)", "power_d"),
            (Column::ClearDiameter, "clear diameter (mm)", "clear_diameter_mm"),
            (Column::Magnification, "magnification (x)", "magnification_times"),
            (Column::RealField, "real field (degrees)", "real_field_deg"),
            (Column::NearestFocus, "nearest focus (m)", "nearest_focus_m"),
            (Column::LightThrough, "light through (%)", "light_through_percent"),
            (Column::Weight, "weight (g)", "weight_g"),
            (Column::Index, "index", "index"),
            (Column::BothEyes, "both eyes", "both_eyes"),
        ] {
            assert_eq!(both(column), (heading.into(), key.into()));
        }
        let keys: BTreeSet<_> = ALL.iter().map(|about| about.column.key()).collect();
        let names: BTreeSet<_> = ALL.iter().map(|about| about.name).collect();
        assert_eq!((keys.len(), names.len()), (ALL.len(), ALL.len()), "no two alike, with units or without");
    }

    #[test]
    fn every_unit_of_the_table_is_known_and_no_two_are_written_alike() {
        for about in ALL {
            let unit_of = about.column.unit();
            assert!(unit_of.is_empty() || unit(unit_of) == Some(unit_of), "{}", about.name);
        }
        let ways: Vec<_> = UNITS.iter().flat_map(|ways| ways.iter().map(|way| way.to_lowercase())).collect();
        let apart: BTreeSet<_> = ways.iter().collect();
        assert_eq!(ways.len(), apart.len());
        assert_eq!((unit(" Dioptres "), unit("INCH"), unit("furlong")), (Some("D"), Some("in"), None));
    }
}
