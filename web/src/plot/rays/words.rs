//! The rays in words.

use super::super::scale::{length_words, number};
use super::parts::{OpeningAt, Part};
use super::path::{Course, Image, Leaving};
use super::{RaysInput, Shown};
use arcminute_core::math;
use arcminute_core::unit::{Length, Vergence};

fn mm(value: f64) -> String {
    format!("{} mm", number(value, 1))
}

/// Millimetres where they are few, else what suits.
fn away(value: f64) -> String {
    if value < 1000.0 { mm(value) } else { length_words(Length::from_mm(value)) }
}

fn dioptres(power: Vergence) -> String {
    let sign = if 0.0 < power.dioptres() { "+" } else { "" };
    format!("{sign}{} D", number(power.dioptres(), 1))
}

/// A factor of size, such as `10.0x` or `0.29x`.
fn times(larger: f64) -> String {
    let decimals = if math::abs(larger) < 0.1 { 3 } else { 1 + usize::from(math::abs(larger) < 1.0) };
    format!("{}x", number(larger, decimals))
}

/// Where a thing stands seen from the last lens of the aid.
fn beside(place: f64, course: &Course) -> String {
    let Some((lens, name)) = course.parts.last() else { return "at the front".into() };
    let behind = place - lens.back();
    let side = if behind < 0.0 { "before" } else { "behind" };
    format!("{} {side} the {name}", mm(math::abs(behind)))
}

/// Whether the picture leaves prisms out.
fn has_prisms(input: &RaysInput<'_>) -> bool {
    input.afocal.is_some_and(|afocal| afocal.magnification.times() < 0.0)
}

/// Where the thing is, from the first part of the aid, or from the eye where there is none.
fn before_first(object: f64, course: &Course) -> String {
    match course.parts.names.first() {
        None => format!("{} before the eye", away(object + course.length)),
        Some(name) if object <= 0.0 => format!("on which the {name} lies"),
        Some(name) => {
            let first = course.parts.lenses.first().map_or(0.0, |lens| lens.place);
            format!("{} before the {name}", away(object + first))
        }
    }
}

/// What sends the light.
fn sender(input: &RaysInput<'_>, course: &Course) -> String {
    let where_it_is = course.object.map(|object| before_first(object, course));
    match (input.shown, where_it_is) {
        (Shown::Thing, None) => "a thing far off".into(),
        (Shown::Thing, Some(place)) if input.afocal.is_some() => {
            let away = course.object.map_or(place, |object| length_words(Length::from_mm(object)));
            format!("the {} {away} away", input.thing)
        }
        (Shown::Thing, Some(place)) => format!("the {}, {place}", input.thing),
        (Shown::Copy { larger }, None) => {
            format!("a copy of the {}, {} its size, far off", input.thing, times(larger))
        }
        (Shown::Copy { larger }, Some(place)) => {
            format!("a copy of the {}, {} its size, {place}", input.thing, times(larger))
        }
        (Shown::Screen { .. }, None) => "a screen that is seen as if it were far off".into(),
        (Shown::Screen { .. }, Some(place)) => format!("a screen {place}"),
    }
}

/// What a lens is.
fn lens_words(lens: &Part) -> String {
    let wide = lens.radius.map_or(String::new(), |radius| format!(", {} wide", mm(2.0 * radius)));
    match lens.solid {
        None => format!("{}{wide}", dioptres(lens.power)),
        Some(solid) if solid.is_block() => {
            format!("top {}{wide}, {} high", dioptres(solid.back), mm(solid.thickness))
        }
        Some(solid) => format!(
            "{} ({} and {}){wide}, {} thick",
            dioptres(lens.power),
            dioptres(solid.front),
            dioptres(solid.back),
            mm(solid.thickness)
        ),
    }
}

/// What the light does behind the last lens.
fn leaving(course: &Course, name: &str) -> Option<String> {
    Some(match course.leaving.as_ref()? {
        Leaving::Parallel => format!("The light leaves the {name} parallel, as from an image far off."),
        Leaving::Towards(behind) => {
            format!("The light runs together towards a point {} behind the {name}.", away(*behind))
        }
        Leaving::From(image) => {
            let larger = image.larger.map_or(String::new(), |larger| format!(", {} as large", times(larger)));
            let drawn = if course.image().is_some() { "" } else { ", too far off to be drawn" };
            let before = image_place(image);
            format!("The light seems to come from an image {before} before the {name}{larger}{drawn}.")
        }
    })
}

fn image_place(image: &Image) -> String {
    away(image.before)
}

/// What the light asks of the eye.
fn demand(course: &Course) -> String {
    let demand = course.demand.dioptres();
    let how = if !demand.is_finite() {
        "without forming an image".into()
    } else if math::abs(demand) < 0.005 {
        "parallel".into()
    } else if demand < 0.0 {
        "converging".into()
    } else {
        format!("as from {} away", away(1000.0 / demand))
    };
    format!("The light reaches the eye {how} (demand {} D).", number(demand, 2))
}

/// Where the dashed rays come from, and what is seen at once.
fn dashed(input: &RaysInput<'_>, course: &Course) -> Option<String> {
    let width = course.width.filter(|width| width.is_finite() && input.afocal.is_none());
    let seen = width.map_or(String::new(), |width| {
        format!(": {} of the {} is seen at once", length_words(width), input.thing)
    });
    if course.off_axis.is_empty() {
        return None;
    }
    Some(if course.at_edge {
        format!("The dashed rays come from the edge of the field, where half of the light is left{seen}.")
    } else {
        let beside = mm(math::abs(course.arrow));
        format!("The dashed rays come from {beside} beside the middle; the field reaches further{seen}.")
    })
}

/// Tells what the numbers are and how it is drawn.
pub(super) fn summary(input: &RaysInput<'_>, course: &Course, factor: f64) -> String {
    let through = input.afocal.map_or(String::new(), |afocal| {
        let design = if has_prisms(input) { "Keplerian" } else { "Galilean" };
        let reversed = if afocal.magnification.size() < 1.0 { ", used in reverse" } else { "" };
        format!(" through the {}x {design} telescope{reversed}", number(afocal.magnification.size(), 1))
    });
    let in_place = course.object.is_none() || course.object_to_scale(input.afocal.is_some());
    let scale = if in_place { "lengths to scale" } else { "lengths behind the break to scale" };
    let mut words = format!("Rays from {}{through}, {scale}", sender(input, course));
    let mut parts = Vec::new();
    for (index, (lens, name)) in course.parts.lenses.iter().zip(&course.parts.names).enumerate() {
        let place = if index == 0 { String::new() } else { format!(", {} behind the first", mm(lens.place)) };
        parts.push(format!("{name} {}{place}", lens_words(lens)));
    }
    if let Some(pupil) = course.exit_pupil {
        parts.push(format!("exit pupil {} wide, {}", mm(2.0 * pupil.radius), beside(pupil.place, course)));
    }
    let place = course.parts.last().map_or(String::new(), |_| format!(", {}", beside(course.length, course)));
    parts.push(format!("the eye's pupil, {} wide{place}", mm(input.pupil.mm())));
    words += &format!(": {}.", parts.join("; "));
    if let Shown::Screen { larger, width } = input.shown {
        let (larger, width) = (times(larger), length_words(width));
        words += &format!(
            " The screen shines by itself; it shows the {} {larger} its size, {width} of it at once, and only the \
             middle of the screen is drawn.",
            input.thing
        );
    }
    let name = course.parts.last().map_or("", |(_, name)| name);
    let sentences = leaving(course, name)
        .into_iter()
        .chain([demand(course), format!("{}.", heights(factor))])
        .chain(dashed(input, course));
    for sentence in sentences {
        words += &format!(" {sentence}");
    }
    if has_prisms(input) {
        words += " The prisms that set the image upright are not drawn: their path is shown unfolded, at its length in air.";
    }
    words
}

/// How heights are drawn.
pub(super) fn heights(factor: f64) -> String {
    if math::abs(factor - 1.0) < 1e-9 {
        "Heights drawn true".into()
    } else {
        format!("Heights drawn {factor}x")
    }
}

/// What has to be said about the drawing beside its scale.
pub(super) fn captions(input: &RaysInput<'_>, course: &Course) -> Vec<String> {
    let telescope = input.afocal.is_some();
    let (to_scale, name) = (course.object_to_scale(telescope), input.name());
    let mut lines = vec![match (course.object, input.shown) {
        (None, Shown::Screen { .. }) => "from a screen seen as far off".into(),
        (None, _) => "from a far object".into(),
        (Some(mm), _) if telescope || !to_scale => {
            let scale = if to_scale { "" } else { ", not to scale" };
            format!("{name} {} away{scale}", length_words(Length::from_mm(mm)))
        }
        (Some(mm), _) if mm <= 0.0 => {
            format!("{name} under the {}", course.parts.names.first().map_or("aid", String::as_str))
        }
        (Some(mm), _) => format!("{name} {}", before_first(mm, course)),
    }];
    if !course.off_axis.is_empty() {
        let from = if course.at_edge { "the edge of the field" } else { "beside the middle" };
        lines.push(format!("dashed: from {from}"));
    }
    match &course.leaving {
        Some(Leaving::From(_)) if course.image().is_some() && super::draws_image(input) => {
            lines.push("fine dashes: back to the image".into());
        }
        Some(Leaving::From(image)) => lines.push(format!("image {} away, not drawn", image_place(image))),
        Some(Leaving::Parallel) => lines.push("image far off, not drawn".into()),
        Some(Leaving::Towards(_)) | None => {}
    }
    if has_prisms(input) {
        lines.push("prism path drawn unfolded".into());
    }
    lines
}

/// Every number in it.
pub(super) fn rows(input: &RaysInput<'_>, course: &Course, factor: f64) -> Vec<(String, String)> {
    let wide = |opening: &OpeningAt| mm(2.0 * opening.radius);
    let mut rows: Vec<(String, String)> = Vec::new();
    let mut row = |name: &str, value: String| rows.push((name.into(), value));
    if let Some(afocal) = input.afocal {
        row("Magnification", format!("{}x", number(afocal.magnification.times(), 1)));
    }
    match input.shown {
        Shown::Thing => {}
        Shown::Copy { larger } => row("size of the copy", times(larger)),
        Shown::Screen { larger, width } => {
            row("size on the screen", times(larger));
            row("shown at once", length_words(width));
        }
    }
    for (lens, name) in course.parts.lenses.iter().zip(&course.parts.names) {
        row(name, lens_words(lens));
    }
    if let [first, .., last] = &course.parts.lenses[..] {
        row("first to last lens", mm(last.place - first.place));
    }
    for stop in &course.parts.stops {
        row("field stop", format!("{} wide, {}", wide(stop), beside(stop.place, course)));
    }
    if let Some(pupil) = &course.exit_pupil {
        row("exit pupil", format!("{} wide, {}", wide(pupil), beside(pupil.place, course)));
    }
    let place = course.parts.last().map_or(String::new(), |_| format!(", {}", beside(course.length, course)));
    row("eye's pupil", format!("{} wide{place}", mm(input.pupil.mm())));
    if let (Some(Leaving::From(image)), Some((_, name))) = (&course.leaving, course.parts.last()) {
        let larger = image.larger.map_or(String::new(), |larger| format!(", {} as large", times(larger)));
        row("image", format!("{} before the {name}{larger}", image_place(image)));
    }
    row("demand at the eye", format!("{} D", number(course.demand.dioptres(), 2)));
    if let Some(field) = course.apparent {
        row("apparent field, half light", format!("{}°", number(field.half.degrees(), 1)));
    }
    if let Some(width) = course.width.filter(|width| width.is_finite()) {
        row("seen at once, half light", length_words(width));
    }
    let place = match course.object {
        None => "far".into(),
        Some(mm) if input.afocal.is_some() => length_words(Length::from_mm(mm)),
        Some(mm) if mm <= 0.0 => "under the aid".into(),
        Some(mm) => before_first(mm, course),
    };
    row("object", place);
    row("heights", heights(factor));
    rows
}
