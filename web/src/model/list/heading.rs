//! The row of headings: which column is which, however it is typed, and what was left out.

use super::column::{self, Column, Kind, unit};
use super::near::{nearest, same_word};
use super::trouble::Wrong;

/// Most characters that are looked at as a heading.
const LONGEST: usize = 100;

/// The column that a heading means.
///
/// Capitals, blanks, hyphens and low lines do not count. The unit may be left out; one that is written, in brackets or
/// behind the name, has to be the column's.
///
/// # Errors
/// [`Wrong::UnknownColumn`], [`Wrong::ColumnUnit`].
pub(super) fn column(heading: &str) -> Result<Column, Wrong> {
    let heading = heading.trim();
    if heading.chars().nth(LONGEST).is_some() {
        return Err(Wrong::UnknownColumn(None));
    }
    let named = |name: &str| column::ALL.iter().find(|about| same_word(name, about.name));
    let written = in_brackets(heading).or_else(|| behind(heading));
    let (about, written) = match (named(heading), written) {
        (Some(about), _) => (about, None),
        (None, Some((name, written))) => match named(name) {
            Some(about) => (about, Some(written)),
            None => return Err(unknown(name)),
        },
        (None, None) => return Err(unknown(heading)),
    };
    match (about.kind, written) {
        (Kind::Number(own), Some(written)) if unit(written) != Some(own) => {
            Err(Wrong::ColumnUnit(about.column))
        }
        _ => Ok(about.column),
    }
}

/// The name and what stands in brackets behind it.
fn in_brackets(heading: &str) -> Option<(&str, &str)> {
    let inside = heading.strip_suffix([')', ']'])?;
    inside.rsplit_once(['(', '['])
}

/// The name and a unit behind it, without brackets, as in the keys of the JSON form.
fn behind(heading: &str) -> Option<(&str, &str)> {
    let (name, last) = heading.rsplit_once(|c: char| c.is_whitespace() || c == '_')?;
    unit(last).is_some().then_some((name, last))
}

fn unknown(name: &str) -> Wrong {
    let known = column::ALL.iter().map(|about| about.name);
    let near = nearest(name, known).and_then(|place| column::ALL.get(place));
    Wrong::UnknownColumn(near.map(|about| about.column))
}

/// The columns of a row of headings; in the place of one that is left out nothing. With it what was wrong, by place.
pub(super) fn columns(row: &[String]) -> (Vec<Option<Column>>, Vec<(usize, Wrong)>) {
    let mut columns: Vec<Option<Column>> = Vec::with_capacity(row.len());
    let mut wrong = Vec::new();
    for (place, heading) in row.iter().enumerate() {
        let found = match column(heading) {
            _ if heading.trim().is_empty() => None,
            Ok(column) if columns.contains(&Some(column)) => {
                wrong.push((place, Wrong::ColumnTwice(column)));
                None
            }
            Ok(column) => Some(column),
            Err(why) => {
                wrong.push((place, why));
                None
            }
        };
        columns.push(found);
    }
    (columns, wrong)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_heading_is_understood_with_its_unit_and_without() {
        for about in column::ALL {
            let asked = about.column;
            for heading in [asked.heading(), asked.key(), about.name.into(), asked.heading().to_uppercase()] {
                let times = heading.replace("_times", " x").replace("_TIMES", " X");
                assert_eq!(column(&heading), Ok(asked), "{heading}");
                assert_eq!(column(&times), Ok(asked), "{times}");
            }
        }
    }

    #[test]
    fn headings_are_understood_as_people_type_them() {
        for (heading, wanted) in [
            (" Clear  Diameter(mm) ", Column::ClearDiameter),
            ("clear-diameter [MM]", Column::ClearDiameter),
            ("clear diameter mm", Column::ClearDiameter),
            ("Power (dioptres)", Column::Power),
            ("power (dpt)", Column::Power),
            ("light through %", Column::LightThrough),
            ("Real field (°)", Column::RealField),
            ("Walking (yes, no or spotting)", Column::Walking),
            ("\u{feff}ID", Column::Id),
        ] {
            assert_eq!(column(heading), Ok(wanted), "{heading}");
        }
    }

    #[test]
    fn another_unit_is_refused() {
        for heading in
            ["clear diameter (cm)", "Clear diameter (inch)", "clear_diameter_cm", "clear diameter (D)"]
        {
            assert_eq!(column(heading), Err(Wrong::ColumnUnit(Column::ClearDiameter)), "{heading}");
        }
        assert_eq!(column("weight (oz)"), Err(Wrong::ColumnUnit(Column::Weight)));
        assert_eq!(column("power (x)"), Err(Wrong::ColumnUnit(Column::Power)), "no power is in times");
        assert_eq!(column("index (mm)"), Err(Wrong::ColumnUnit(Column::Index)), "a plain number");
    }

    #[test]
    fn an_unknown_heading_is_told_with_the_nearest() {
        for (heading, near) in [
            ("clear diametre (mm)", Some(Column::ClearDiameter)),
            ("familly", Some(Column::Family)),
            ("clear", Some(Column::ClearDiameter)),
            ("price", None),
            ("shelf (cm)", None),
        ] {
            assert_eq!(column(heading), Err(Wrong::UnknownColumn(near)), "{heading}");
        }
    }

    #[test]
    fn what_stands_twice_or_is_empty_is_left_out() {
        let row = ["id", "Power", "", "power (D)", "price"].map(String::from);
        let (found, wrong) = columns(&row);
        assert_eq!(found, [Some(Column::Id), Some(Column::Power), None, None, None]);
        assert_eq!(wrong, [(3, Wrong::ColumnTwice(Column::Power)), (4, Wrong::UnknownColumn(None))]);
    }
}
