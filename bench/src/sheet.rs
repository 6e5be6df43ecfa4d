//! The table of the comparison as a spreadsheet: the closed forms as cell formulas, written as one would by hand.
//!
//! The eye stands in column B, an aid in each row from [`FIRST`] on; what the wish changes too stands in blocks of a column
//! for each wish, with the wish above it. A word in braces in a formula is a cell by its name.

use crate::export::{OF_BOTH, numbers, table};
use arcminute_bench::cases;
use std::fmt::Write as _;

/// Rows of the labels, of what the wishes ask for, and of the first aid; counted from one.
const LABELS: usize = 18;
const TALL: usize = 19;
const WANTED: usize = 20;
const FIRST: usize = 21;
/// Most numbers of an aid.
const NUMBERS: usize = 6;
/// Stands for a rim or a window that limits nothing.
const NO_LIMIT: &str = "1E+30";

/// Formulas of the eye alone, below its numbers.
const OF_EYE: [(&str, &str); 8] = [
    ("mean", "{sphere}+{cylinder}/2"),
    ("worn", "{mean}+{add}"),
    ("relaxed", "-{mean}/(1-{to_eye}*{mean})"),
    ("own", "10^{acuity}"),
    ("square", "{own}^2*(10^0.2-1)/1.25^2"),
    ("tolerance", "SQRT({square}/(1+SQRT(1+{square}))/1.08)"),
    ("arcmin", "PI()/10800"),
    ("print", "TAN(5*{arcmin})"),
];

/// What stands before the lens of an aid, the lens, and what stands behind it, by kind. `p0` to `p5` are its numbers.
const SYSTEM: [&str; 9] = ["at", "path", "power", "rim", "gap", "behind", "larger", "window", "clear"];

fn system(kind: &str) -> [&'static str; 9] {
    let no = NO_LIMIT;
    match kind {
        "nearer" => ["{p0}-{to_eye}", "0", "{worn}", no, "0", "0", "{p1}", no, "1"],
        "screen" => ["{p0}-{to_eye}", "0", "{worn}", no, "0", "0", "{p1}", "{p2}/{p1}", "1"],
        "high-plus" => {
            let print_at = "1/({power}+({relaxed}+{p1})/(1-{to_eye}*({relaxed}+{p1})))";
            [print_at, "0", "{mean}+{p0}", "{p2}", "0", "0", "1", no, "{p3}"]
        }
        "held" => ["1/{p0}", "0", "{p0}", "{p2}", "{p1}", "{worn}", "1", no, "{p3}"],
        "stand" => ["{p1}", "0", "{p0}", "{p3}", "{p2}", "{worn}", "1", no, "{p4}"],
        "dome" => {
            let (surface, above) = ("({p2}-1)/{p0}", "{p3}-{to_eye}-{p1}");
            ["0", "{p1}/{p2}", surface, "{p4}", above, "{worn}", "1", no, "{p5}"]
        }
        _ => {
            let (surface, above) = ("({p2}-1)/{p0}", "{p3}-{to_eye}-{p1}");
            ["0", "{p1}/{p2}", surface, no, above, "{worn}", "1", "{p4}", "{p5}"]
        }
    }
}

/// Formulas of an aid and the eye.
const OF_AID: [(&str, &str); 28] = [
    ("a", "1-{gap}*{power}-{to_eye}*({power}+{behind}*(1-{gap}*{power}))"),
    ("b", "{gap}+{to_eye}*(1-{gap}*{behind})"),
    ("c", "-{power}-{behind}*(1-{gap}*{power})"),
    ("d", "1-{gap}*{behind}"),
    ("height", "{a}*({at}+{path})+{b}"),
    ("slope", "{c}*({at}+{path})+{d}"),
    ("evd", "ABS({height})/{larger}"),
    ("demand", "{slope}/{height}"),
    ("needed", "{demand}-{relaxed}"),
    ("defocus", "{needed}-MIN(MAX({needed};0);{accommodation})"),
    ("rise", "1.08*{defocus}^2"),
    ("mar", "SQRT({own}^2+1.25^2*{rise}*(2+{rise}))"),
    ("bundle", "ABS({d}-{b}*{demand})*{pupil}"),
    ("spread", "MIN({bundle};{rim})"),
    ("full_in", "MIN(2*{evd}*MAX(({rim}+{bundle})/2-{spread};0)/{b};{window})"),
    ("half_in", "MIN(2*{evd}*MAX(({rim}+{bundle})/2-{spread}/2;0)/{b};{window})"),
    ("last_in", "MIN(2*{evd}*({rim}+{bundle})/2/{b};{window})"),
    ("full", "IF({full_in}>1E+9;-1;{full_in})"),
    ("half", "IF({half_in}>1E+9;-1;{half_in})"),
    ("last", "IF({last_in}>1E+9;-1;{last_in})"),
    ("strong", "({demand}+{tolerance})*{a}-{c}"),
    ("weak", "({demand}-{tolerance})*{a}-{c}"),
    ("x_near", "({d}-({demand}+{tolerance})*{b})/{strong}-{path}"),
    ("x_far", "({d}-({demand}-{tolerance})*{b})/{weak}-{path}"),
    ("endless", "IF({strong}*{weak}<=0;1;0)"),
    ("nearest", "IF(AND({x_far}<=0;{endless}=0);-1;MAX({x_near};0))"),
    ("farthest", "IF(OR({endless}=1;{x_far}<=0);-1;{x_far})"),
    ("light", "{clear}*MIN({rim}/{bundle};1)^2"),
];

/// Formulas of an aid, the eye and a wish, in the order of [`OF_BOTH`].
const BLOCKS: [&str; 5] = [
    "2*ATAN({tall}/5/{evd}/2)/{arcmin}",
    "{detail}/{mar}",
    "{tall}/{reserve}",
    "LEGACY.NORMSDIST((LOG10({detail}/{wanted})-LOG10({mar}))*1.959963984540054/{limit})",
    "IF({half}=-1;-1;{half}*1000/(1.3*{tall}/{print}))",
];

/// Where things stand.
struct Places {
    eye: Vec<&'static str>,
    columns: Vec<String>,
    wishes: usize,
}

impl Places {
    /// A formula with its names as cells, seen from a row and, in a block, from the column of a wish.
    fn formula(&self, text: &str, row: usize, wish: usize) -> String {
        let mut formula = String::from("of:=");
        for (place, piece) in text.split(['{', '}']).enumerate() {
            if place % 2 == 0 {
                formula += piece;
            } else {
                let _ = write!(formula, "[.{}]", self.cell(piece, row, wish));
            }
        }
        formula
    }

    fn cell(&self, name: &str, row: usize, wish: usize) -> String {
        if let Some(place) = self.eye.iter().position(|known| *known == name) {
            return format!("$B${}", place + 1);
        }
        if let Some(place) = self.columns.iter().position(|known| known == name) {
            return format!("${}{row}", letters(place));
        }
        match name {
            "tall" => format!("{}${TALL}", letters(self.block(0) + wish)),
            "wanted" => format!("{}${WANTED}", letters(self.block(0) + wish)),
            _ => {
                let block = OF_BOTH.iter().position(|known| *known == name).expect("a name of a block");
                format!("{}{row}", letters(self.block(block) + wish))
            }
        }
    }

    /// First column of a block.
    fn block(&self, block: usize) -> usize {
        self.columns.len() + block * self.wishes
    }
}

/// A column by its place, from zero: A to Z, then AA.
fn letters(place: usize) -> String {
    let last = char::from(b'A' + u8::try_from(place % 26).unwrap_or_default());
    if place < 26 { last.to_string() } else { letters(place / 26 - 1) + &last.to_string() }
}

/// The whole sheet as one file of the open document format.
pub(crate) fn sheet() -> String {
    let (table, eye) = (table(), cases::eye());
    let of_eye = [
        ("acuity", eye.acuity.log()),
        ("limit", eye.retest_limit.log()),
        ("pupil", eye.pupil.m()),
        ("sphere", eye.sphere.dioptres()),
        ("cylinder", eye.cylinder.dioptres()),
        ("add", eye.add().dioptres()),
        ("to_eye", eye.spectacle_to_eye.m()),
        ("accommodation", eye.accommodation.dioptres()),
    ];
    let names = of_eye.iter().map(|(name, _)| *name).chain(OF_EYE.iter().map(|(name, _)| *name));
    let columns = ["label".to_owned(), "value".to_owned(), "kind".to_owned()];
    let numbered = (0..NUMBERS).map(|place| format!("p{place}"));
    let named = SYSTEM.iter().copied().chain(OF_AID.iter().map(|(name, _)| *name)).map(str::to_owned);
    let columns = columns.into_iter().chain(numbered).chain(named).collect();
    let places = Places { eye: names.collect(), columns, wishes: table.wishes.len() };

    let mut rows: Vec<String> = Vec::new();
    rows.extend(of_eye.map(|(name, value)| text(name) + &number(value)));
    let row = |(name, formula): &(&str, &str)| text(name) + &cell(&places.formula(formula, 0, 0));
    rows.extend(OF_EYE.iter().map(row));
    rows.resize(LABELS - 1, String::new());
    let labels = places.columns.iter().map(|name| text(name));
    let blocks = OF_BOTH.iter().flat_map(|name| vec![text(name); places.wishes]);
    rows.push(labels.chain(blocks).collect());
    let before: String = places.columns.iter().map(|_| text("")).collect();
    rows.push(before.clone() + &table.wishes.iter().map(|wish| number(wish.height.m())).collect::<String>());
    rows.push(before + &table.wishes.iter().map(|wish| number(wish.reserve)).collect::<String>());
    for (place, aid) in table.aids.iter().enumerate() {
        let (kind, mut values) = numbers(aid);
        values.resize(NUMBERS, 0.0);
        let at = FIRST + place;
        let mut row = text("") + &text("") + &text(kind);
        row.extend(values.into_iter().map(number));
        let formulas = system(kind).into_iter().chain(OF_AID.iter().map(|(_, formula)| *formula));
        row.extend(formulas.map(|formula| cell(&places.formula(formula, at, 0))));
        for formula in BLOCKS {
            row.extend((0..places.wishes).map(|wish| cell(&places.formula(formula, at, wish))));
        }
        rows.push(row);
    }
    let rows: String = rows
        .into_iter()
        .map(|row| if row.is_empty() { text("") } else { row })
        .map(|row| format!("<table:table-row>{row}</table:table-row>\n"))
        .collect();
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<office:document {NAMES} office:version=\"1.2\" \
         office:mimetype=\"application/vnd.oasis.opendocument.spreadsheet\"><office:body><office:spreadsheet>\
         <table:table table:name=\"Outcomes\">\n{rows}</table:table></office:spreadsheet></office:body></office:document>\n"
    )
}

const NAMES: &str = "xmlns:office=\"urn:oasis:names:tc:opendocument:xmlns:office:1.0\" \
                     xmlns:table=\"urn:oasis:names:tc:opendocument:xmlns:table:1.0\" \
                     xmlns:text=\"urn:oasis:names:tc:opendocument:xmlns:text:1.0\" \
                     xmlns:of=\"urn:oasis:names:tc:opendocument:xmlns:of:1.2\"";

fn text(words: &str) -> String {
    if words.is_empty() {
        return String::from("<table:table-cell/>");
    }
    format!("<table:table-cell office:value-type=\"string\"><text:p>{words}</text:p></table:table-cell>")
}

fn number(value: f64) -> String {
    format!("<table:table-cell office:value-type=\"float\" office:value=\"{value:?}\"/>")
}

fn cell(formula: &str) -> String {
    let formula = formula.replace('<', "&lt;").replace('>', "&gt;");
    format!("<table:table-cell table:formula=\"{formula}\" office:value-type=\"float\"/>")
}
