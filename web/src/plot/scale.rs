//! From quantities to places in a picture: straight scales, round bar lengths, room for words, numbers as text.
//!
//! Numbers print with fixed decimals, so that the same picture is the same text everywhere.

use super::shape::number as coordinate;
use arcminute_core::math;
use arcminute_core::unit::Length;

/// Height of the words in every picture, in units of its view box.
///
/// The style sheet sets this size too. A narrow picture is 320 to 360 units wide, so at 320 px its words are 14 px or more.
pub const TEXT: f64 = 16.0;

/// A straight scale: where a value lies in the picture.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Linear {
    start: f64,
    place: f64,
    per_unit: f64,
}

impl Linear {
    /// The scale that puts `values.0` at `places.0` and `values.1` at `places.1`.
    ///
    /// Values that are equal or no numbers all land in the middle of the places.
    #[must_use]
    pub fn new(values: (f64, f64), places: (f64, f64)) -> Self {
        let per_unit = (places.1 - places.0) / (values.1 - values.0);
        if per_unit.is_finite() && values.0.is_finite() {
            Self { start: values.0, place: places.0, per_unit }
        } else {
            Self { start: 0.0, place: (places.0 + places.1) / 2.0, per_unit: 0.0 }
        }
    }

    /// The place of a value; of what is no finite number, the place of the scale's start.
    #[must_use]
    pub fn at(&self, value: f64) -> f64 {
        if value.is_finite() { self.place + (value - self.start) * self.per_unit } else { self.place }
    }

    /// Length in the picture of a difference of one; negative where the scale runs backwards.
    #[must_use]
    pub fn per_unit(&self) -> f64 {
        self.per_unit
    }
}

/// The longest of 1, 2, 5, 10, 20, 50… and 0.5, 0.2, 0.1… that is not above `most`; 1 for what is not above zero.
#[must_use]
pub fn round_at_most(most: f64) -> f64 {
    if !(most.is_finite() && 0.0 < most) {
        return 1.0;
    }
    let exponent = math::floor(math::log10(most) + 1e-9);
    let in_decade = most / math::pow(10.0, exponent) * (1.0 + 1e-9);
    let head = [5.0, 2.0].into_iter().find(|head| *head <= in_decade).unwrap_or(1.0);
    // Dividing by a whole power keeps 0.2 as 0.2.
    if exponent < 0.0 { head / math::pow(10.0, -exponent) } else { head * math::pow(10.0, exponent) }
}

/// A number with this many decimals; never `-0.0`, and a dash for what is no finite number.
#[must_use]
pub fn number(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".into();
    }
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(size) if size.bytes().all(|byte| matches!(byte, b'0' | b'.')) => size.into(),
        Some(size) => format!("−{size}"),
        None => text,
    }
}

/// A length in the unit that suits it: `1.25 m`, `40 cm`, `2.5 mm`.
#[must_use]
pub fn length_words(length: Length) -> String {
    let size = math::abs(length.m());
    if size < 0.0995 {
        format!("{} mm", number(length.mm(), 1))
    } else if size < 0.995 {
        format!("{} cm", number(length.cm(), 0))
    } else {
        format!("{} m", number(length.m(), 2))
    }
}

/// A round length for a scale bar: `50 cm`, `2 m`, `10 mm`.
#[must_use]
pub fn bar_words(length: Length) -> String {
    let size = length.m();
    let (value, unit) = if size < 0.01 - 1e-12 {
        (length.mm(), "mm")
    } else if size < 1.0 - 1e-12 {
        if size < 0.1 - 1e-12 { (length.mm(), "mm") } else { (length.cm(), "cm") }
    } else {
        (length.m(), "m")
    };
    let decimals = if value < 0.95 { 1 } else { 0 };
    format!("{} {unit}", number(value, decimals))
}

/// Room that words take at a size, a little more than they do: widths of the page's typeface with tabular figures.
#[must_use]
pub fn text_width(words: &str, size: f64) -> f64 {
    let em: f64 = words
        .chars()
        .map(|letter| match letter {
            '0'..='9' | '+' | '−' | '±' | '…' | '✓' => 0.66,
            ' ' | '.' | ',' | ':' | ';' | '\'' | 'i' | 'j' | 'l' | '°' | 'f' | 't' | 'r' | '(' | ')' => 0.36,
            '/' | '-' => 0.45,
            'm' | 'w' | 'M' | 'W' => 0.86,
            'A'..='Z' | '→' => 0.72,
            'a'..='z' => 0.58,
            _ => 1.0,
        })
        .sum();
    em * size
}

/// The words, cut to the room there is and closed with `…` where they are too long.
#[must_use]
pub fn fitted(words: &str, room: f64, size: f64) -> String {
    if text_width(words, size) <= room {
        return words.into();
    }
    let mut cut = String::new();
    for letter in words.chars() {
        let longer = format!("{cut}{letter}");
        if room < text_width(&longer, size) + text_width("…", size) {
            break;
        }
        cut = longer;
    }
    format!("{}…", cut.trim_end())
}

/// Moves things along a line so that none overlap: each has a wanted centre and a width; the result keeps their order,
/// stays within `room` if they all fit, and moves little.
#[must_use]
pub fn spread(wanted: &[(f64, f64)], room: (f64, f64)) -> Vec<f64> {
    let mut order: Vec<usize> = Vec::new();
    for (index, (centre, _)) in wanted.iter().enumerate() {
        let place = order.iter().position(|other| centre < &wanted[*other].0);
        order.insert(place.unwrap_or(order.len()), index);
    }
    let mut placed: Vec<f64> = wanted.iter().map(|(centre, _)| *centre).collect();
    let mut least = room.0;
    for &index in &order {
        let half = wanted[index].1 / 2.0;
        placed[index] = placed[index].max(least + half);
        least = placed[index] + half;
    }
    let mut most = room.1;
    for &index in order.iter().rev() {
        let half = wanted[index].1 / 2.0;
        placed[index] = placed[index].min(most - half);
        most = placed[index] - half;
    }
    placed
}

/// Path data of slanted lines that fill a box: a shade that is still one without colour, and that stands out of it nowhere.
#[must_use]
pub fn hatch(left: f64, top: f64, width: f64, height: f64, gap: f64) -> String {
    let mut path = String::new();
    let lines = math::ceil((width + height) / gap);
    if !lines.is_finite() {
        return path;
    }
    let mut line = 1.0;
    while line < lines {
        // From the left or lower side up to the upper or right one, at 45 degrees.
        let along = line * gap;
        let (x1, y1) = if along < height { (0.0, along) } else { (along - height, height) };
        let (x2, y2) = if along < width { (along, 0.0) } else { (width, along - width) };
        for (command, x, y) in [("M", x1, y1), ("L", x2, y2)] {
            path.push_str(&format!("{command}{} {}", coordinate(left + x), coordinate(top + y)));
        }
        line += 1.0;
    }
    path
}

/// Puts a short list in order, keeping the order of equals; a sort of the library takes more room on the page.
pub fn put_in_order<T>(list: &mut [T], comes_before: impl Fn(&T, &T) -> bool) {
    for end in 1..list.len() {
        let mut place = end;
        while 0 < place && comes_before(&list[place], &list[place - 1]) {
            list.swap(place, place - 1);
            place -= 1;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_scale_hits_both_ends_and_never_breaks() {
        let scale = Linear::new((1.0, 0.0), (100.0, 300.0));
        for (value, place) in [(1.0, 100.0), (0.0, 300.0), (0.5, 200.0), (1.1, 80.0)] {
            assert!(math::abs(scale.at(value) - place) < 1e-9, "{value} at {}", scale.at(value));
        }
        for values in [(2.0, 2.0), (f64::NAN, 1.0), (0.0, f64::INFINITY)] {
            let at = Linear::new(values, (0.0, 10.0)).at(2.0);
            assert!((0.0..=10.0).contains(&at), "{values:?} put it at {at}");
        }
        assert!(scale.at(f64::NAN).is_finite(), "no number, no place outside");
    }

    #[test]
    fn bars_are_round() {
        for (most, bar) in [
            (0.73, 0.5),
            (1.0, 1.0),
            (2.0, 2.0),
            (4.99, 2.0),
            (0.2, 0.2),
            (37.0, 20.0),
            (0.0, 1.0),
            (f64::NAN, 1.0),
        ] {
            assert!(math::abs(round_at_most(most) - bar) < 1e-12, "{most} gave {}", round_at_most(most));
        }
    }

    #[test]
    fn numbers_and_lengths_as_words() {
        assert_eq!(number(-0.04, 1), "0.0");
        assert_eq!(number(-1.5, 1), "−1.5");
        assert_eq!(number(f64::INFINITY, 1), "–");
        for (mm, words) in
            [(2.5, "2.5 mm"), (99.4, "99.4 mm"), (99.6, "10 cm"), (400.0, "40 cm"), (1250.0, "1.25 m")]
        {
            assert_eq!(length_words(Length::from_mm(mm)), words);
        }
        for (mm, words) in
            [(10.0, "10 mm"), (0.5, "0.5 mm"), (500.0, "50 cm"), (2000.0, "2 m"), (100.0, "10 cm")]
        {
            assert_eq!(bar_words(Length::from_mm(mm)), words);
        }
    }

    #[test]
    fn words_are_cut_to_their_room() {
        assert_eq!(fitted("20/40", 80.0, TEXT), "20/40");
        let cut = fitted("the writing on the board at the back", 120.0, TEXT);
        assert!(cut.ends_with('…') && text_width(&cut, TEXT) <= 120.0, "{cut}");
    }

    #[test]
    fn a_hatch_stays_in_its_box() {
        assert_eq!(
            hatch(10.0, 0.0, 4.0, 6.0, 3.0),
            "M10.000 3.000L13.000 0.000M10.000 6.000L14.000 2.000M13.000 6.000L14.000 5.000"
        );
        assert!(hatch(0.0, 0.0, f64::NAN, 1.0, 3.0).is_empty(), "no box, no lines");
        assert!(hatch(0.0, 0.0, 4.0, 4.0, 0.0).is_empty(), "no gap, no lines");
    }

    #[test]
    fn spread_keeps_order_and_room() {
        let placed = spread(&[(10.0, 20.0), (12.0, 20.0), (95.0, 20.0)], (0.0, 100.0));
        assert_eq!(placed, [10.0, 30.0, 90.0]);
        assert_eq!(spread(&[(50.0, 20.0), (50.0, 20.0)], (0.0, 60.0)), [30.0, 50.0]);
        assert!(spread(&[], (0.0, 1.0)).is_empty(), "nothing to place");
    }
}
