//! From blocks to leaves: what finds room on which page, so that "page x of y" is said before anything is printed.
//!
//! Heights are reckoned from the widths of letters and the measures of the style sheet, a little generously; a test in a
//! browser holds every leaf against its paper. Lengths are millimetres.

use super::{Block, Sheet};
use crate::model::draft::Paper;
use arcminute_core::math;
use arcminute_core::unit::Length;

/// What a sheet is printed on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// Paper.
    pub paper: Paper,
    /// Large letters.
    pub large: bool,
    /// Height of the drawing of the front, where there is one that fits.
    pub drawing: Option<Length>,
    /// Letters in the name of the build, which stands in every foot.
    pub build: usize,
}

/// One page.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Leaf {
    /// What stands on it.
    pub blocks: Vec<Block>,
    /// Number of the first step on it, where it has one.
    pub first_step: usize,
}

/// Measures of the style sheet.
struct Measures {
    /// Size of the letters.
    em: f64,
    /// Line to line, of letters.
    line: f64,
    /// Between the margins.
    width: f64,
    /// Room under the head and over the foot.
    room: f64,
    /// A line to write on.
    write: f64,
    large: bool,
}

/// Between the margins to the sides.
const SIDES: f64 = 28.0;
/// Paper kept free in reckoning, for what rounding adds.
const SPARE: f64 = 2.5;
/// A table's line: padding above and below, and its rule.
const ROW: f64 = 0.88;
/// Between two columns.
const GAP: f64 = 3.0;

/// Width of a letter in the bold of the page's typeface, of its size; generous.
fn letter(c: char) -> f64 {
    match c {
        'i' | 'j' | 'l' | '\'' | '|' | '!' | '.' | ',' | ':' | ';' | ' ' => 0.31,
        'f' | 't' | 'r' | '(' | ')' | '[' | ']' | '-' | '/' | 'I' | '°' | '"' | '“' | '”' => 0.41,
        'm' | 'w' | 'M' | 'W' | '@' | '%' | '…' => 0.92,
        'A'..='Z' | '0'..='9' => 0.67,
        'c' | 'k' | 's' | 'v' | 'x' | 'y' | 'z' => 0.53,
        'a' | 'e' | 'h' | 'n' | 'o' | 'u' => 0.57,
        c if c.is_ascii() => 0.6,
        // Other scripts may be as wide as they are high.
        c if c < '\u{250}' => 0.72,
        _ => 1.05,
    }
}

/// Width of a letter that is not bold, over that of a bold one; generous.
const PLAIN: f64 = 0.95;

/// Lines that a text takes in a width, letters of this size.
fn lines(text: &str, em: f64, width: f64) -> f64 {
    let (mut lines, mut used) = (1.0, 0.0);
    for word in text.split(' ') {
        let long: f64 = word.chars().map(letter).sum::<f64>() * em;
        let space = if used == 0.0 { 0.0 } else { 0.31 * em };
        if used + space + long <= width {
            used += space + long;
        } else if long <= width {
            lines += 1.0;
            used = long;
        } else {
            // A word that no line holds is parted where a line ends.
            lines += math::floor(long / width) + if used == 0.0 { 0.0 } else { 1.0 };
            used = long - width * math::floor(long / width);
        }
    }
    lines
}

/// Shares of the width that the columns of a table take.
fn columns(count: usize) -> &'static [f64] {
    match count {
        0..=2 => &[0.34, 0.66],
        3 => &[0.28, 0.36, 0.36],
        _ => &[0.34, 0.22, 0.22, 0.22],
    }
}

impl Measures {
    fn of(sheet: &Sheet, setting: &Setting) -> Self {
        let large = setting.large;
        let (em, line) = if large { (6.35, 1.285) } else { (3.3515, 1.265) };
        let (width, height, top) = match setting.paper {
            Paper::A4 => (210.0, 296.0, 11.0),
            Paper::Letter => (215.9, 278.4, 7.0),
        };
        let width = width - SIDES;
        let mut measures = Self { em, line, width, room: 0.0, write: if large { 15.2 } else { 8.2 }, large };
        let title = lines(&sheet.title, em * 1.37, width) * em * 1.37 * 1.25;
        let told = sheet.label.chars().count() + 50;
        let second = lines(&"n".repeat(told), em, width) * em * line + 2.0;
        let again = if sheet.stop.is_empty() { 0.0 } else { em * line + 6.0 };
        let foot = lines(&"n".repeat(setting.build + 80), em, width) * em * line + 9.5;
        measures.room = height - top - foot - title - second - again - SPARE;
        measures
    }

    /// Height of a bold text.
    fn bold(&self, text: &str, width: f64) -> f64 {
        lines(text, self.em, width) * self.em * self.line
    }

    /// Height of a text that is not bold, of letters of a size against the others.
    fn text(&self, text: &str, width: f64, size: f64) -> f64 {
        let em = self.em * size;
        lines(text, em * PLAIN, width) * em * self.line
    }

    fn height(&self, block: &Block, setting: &Setting) -> f64 {
        let small = if self.large { 1.0 } else { 0.9 };
        match block {
            Block::Heading(words) => lines(words, self.em * 1.1, self.width) * self.em * 1.1 * 1.25 + 2.8,
            Block::Row(cells) | Block::Columns(cells) => {
                let shares = columns(cells.len());
                let bold = matches!(block, Block::Columns(_));
                let tall = |(place, (cell, share)): (usize, (&String, &f64))| {
                    let width = self.width * share - GAP;
                    match place {
                        _ if cell.is_empty() => 0.0,
                        0 if !bold => self.text(cell, width, 1.0),
                        _ => self.bold(cell, width),
                    }
                };
                let tallest = cells.iter().zip(shares).enumerate().map(tall).fold(0.0, f64::max);
                let to_write = matches!(block, Block::Row(_)) && cells.iter().skip(1).any(String::is_empty);
                if to_write { self.write.max(tallest + ROW) } else { tallest + ROW }
            }
            Block::Text(words) => self.text(words, self.width, 1.0) + 1.6,
            Block::Point(head, words) => {
                self.text(&format!("{head}: {words}"), self.width - 1.5 * self.em, small) + 0.4
            }
            Block::Step(words) => self.text(words, self.width - 1.5 * self.em, 1.0) + 0.4,
            Block::Stop(head, words) | Block::Again(head, words) => {
                self.text(&format!("{head}{words}"), self.width - 6.5, 1.0) + 7.0
            }
            Block::Drawing => {
                let said = "Measure this bar: it is 100 mm long. If it is not, the print is not at true size; do not mark from the drawing.";
                let drawing = setting.drawing.map_or(4.0 * self.em * self.line, Length::mm);
                drawing + 13.0 + self.text(said, self.width, 1.0)
            }
            Block::Small(words) => self.text(words, self.width, small) + 1.6,
        }
    }
}

/// Lays a sheet out on leaves. A heading stays with what follows it, and no leaf holds one thing alone.
#[must_use]
pub fn pages(sheet: &Sheet, setting: &Setting) -> Vec<Leaf> {
    let measures = Measures::of(sheet, setting);
    // What must not be parted: headings, and the line that says what the columns are, with what follows.
    let mut groups: Vec<(Vec<Block>, f64)> = Vec::new();
    let mut open = false;
    for block in &sheet.blocks {
        let tall = measures.height(block, setting);
        match groups.last_mut().filter(|_| open) {
            Some((group, height)) => {
                group.push(block.clone());
                *height += tall;
            }
            None => groups.push((vec![block.clone()], tall)),
        }
        open = matches!(block, Block::Heading(_) | Block::Columns(_));
    }
    let mut leaves: Vec<Vec<(Vec<Block>, f64)>> = vec![Vec::new()];
    let mut used = 0.0;
    for group in groups {
        if measures.room < used + group.1 && 0.0 < used {
            leaves.push(Vec::new());
            used = 0.0;
        }
        used += group.1;
        if let Some(leaf) = leaves.last_mut() {
            leaf.push(group);
        }
    }
    keep_company(&mut leaves, measures.room);
    let mut steps = 0;
    leaves
        .into_iter()
        .map(|groups| {
            let blocks: Vec<Block> = groups.into_iter().flat_map(|(blocks, _)| blocks).collect();
            // A list of steps that goes on from the leaf before goes on counting.
            let goes_on = matches!(blocks.first(), Some(Block::Step(_)));
            let first_step = if goes_on { steps + 1 } else { 1 };
            let last = blocks.iter().rposition(|block| !matches!(block, Block::Step(_)));
            let trailing = blocks.len() - last.map_or(0, |last| last + 1);
            steps = if last.is_none() { first_step - 1 + trailing } else { trailing };
            Leaf { blocks, first_step }
        })
        .collect()
}

/// What would stand alone on the last leaf gets company from the one before: at least three things, and of a short rest the
/// whole section that it belongs to.
fn keep_company(leaves: &mut [Vec<(Vec<Block>, f64)>], room: f64) {
    let [.., before, last] = leaves else { return };
    while last.len() < 3 && 3 < before.len() {
        let Some(group) = before.pop() else { return };
        last.insert(0, group);
    }
    let is_section = |(blocks, _): &(Vec<Block>, f64)| matches!(blocks.first(), Some(Block::Heading(_)));
    let Some(from) = before.iter().rposition(is_section).filter(|from| 3 < *from) else { return };
    let tall = |groups: &[(Vec<Block>, f64)]| groups.iter().map(|group| group.1).sum::<f64>();
    let rest = tall(last);
    let is_short = rest < room / 4.0 && rest + tall(before.get(from..).unwrap_or_default()) < room * 0.6;
    if is_short && !last.first().is_some_and(is_section) {
        let section = before.split_off(from);
        last.splice(0..0, section);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::sheets::SheetKind;

    fn of(blocks: Vec<Block>) -> Sheet {
        Sheet {
            kind: SheetKind::Trial,
            title: "A sheet".into(),
            label: "CASE-1".into(),
            digest: "00000000".into(),
            stop: "",
            blanks: Vec::new(),
            open: Vec::new(),
            blocks,
        }
    }

    const NORMAL: Setting = Setting { paper: Paper::A4, large: false, drawing: None, build: 12 };

    #[test]
    fn words_are_broken_where_lines_end() {
        let em = 1.0;
        let is = |text: &str, width: f64, wanted: f64| (lines(text, em, width) - wanted).abs() < 1e-9;
        assert!(is("", 10.0, 1.0), "an empty line is a line");
        assert!(is("aaaa aaaa", 4.9, 1.0), "8 letters of 0.57 and a blank of 0.31: 4.87");
        assert!(is("aaaa aaaa", 4.8, 2.0), "the second word goes down");
        assert!(is(&"a".repeat(100), 10.0, 6.0), "57 of width in lines of 10");
    }

    #[test]
    fn nothing_is_lost_and_headings_stay_with_what_follows() {
        let mut blocks = Vec::new();
        for section in 0..30 {
            blocks.push(Block::Heading(format!("Section {section}")));
            blocks.extend((0..section % 7 + 1).map(|row| Block::Row(vec![format!("{row}"), "value".into()])));
        }
        for large in [false, true] {
            for paper in [Paper::A4, Paper::Letter] {
                let sheet = of(blocks.clone());
                let leaves = pages(&sheet, &Setting { paper, large, ..NORMAL });
                assert!(1 < leaves.len(), "more than a page");
                let all: Vec<Block> = leaves.iter().flat_map(|leaf| leaf.blocks.clone()).collect();
                assert_eq!(all, sheet.blocks, "in order, and whole");
                for leaf in &leaves {
                    assert!(
                        !matches!(leaf.blocks.last(), Some(Block::Heading(_))),
                        "a heading alone at the foot"
                    );
                    assert!(2 < leaf.blocks.len(), "alone on a leaf: {leaf:?}");
                }
            }
        }
    }

    #[test]
    fn steps_go_on_counting_on_the_next_leaf() {
        let sheet = of((0..90).map(|step| Block::Step(format!("Step {step}"))).collect());
        let leaves = pages(&sheet, &NORMAL);
        assert_eq!(leaves.iter().map(|leaf| leaf.first_step).collect::<Vec<_>>().first(), Some(&1));
        for pair in leaves.windows(2) {
            assert_eq!(pair[1].first_step, pair[0].first_step + pair[0].blocks.len(), "counted on");
        }
    }
}
