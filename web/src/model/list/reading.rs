//! Reading a list: row by row, the good ones kept and each of the others told.

use super::aid::{Fault, ListedAid, family, is_id};
use super::column::Column;
use super::family::Family;
use super::trouble::{Place, Trouble, Wrong, shown};
use super::{MOST_AIDS, MOST_BYTES, MOST_COLUMNS, MOST_ROWS, MOST_TROUBLES, cell, heading, json, split};

/// What a file gave.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reading {
    /// What the file says of itself; only the JSON form does.
    pub about: String,
    /// The aids of the rows that are in order.
    pub list: Vec<ListedAid>,
    /// Rows that hold anything, the headings left out.
    pub rows: usize,
    /// What was not taken, at most 200 of it.
    pub troubles: Vec<Trouble>,
    /// How much more there was of that.
    pub more: usize,
}

impl Reading {
    /// How many rows were left out whole.
    #[must_use]
    pub fn left_out(&self) -> usize {
        self.rows.saturating_sub(self.list.len())
    }

    /// What to say below the troubles listed; nothing if all are.
    #[must_use]
    pub fn and_more(&self) -> Option<String> {
        (self.more != 0).then(|| format!("and {} more", self.more))
    }
}

/// A reading as it grows.
#[derive(Debug, Default)]
pub(super) struct Reader {
    pub(super) reading: Reading,
    /// Where each aid that was taken stands.
    places: Vec<Place>,
}

/// One row on its way to become an aid.
#[derive(Debug)]
pub(super) struct Row {
    place: Place,
    pub(super) aid: ListedAid,
    family: String,
    faults: Vec<Fault>,
}

impl Row {
    pub(super) fn at(place: Place) -> Self {
        let aid = ListedAid::new("", "", Family::Nearer);
        Self { place, aid, family: String::new(), faults: Vec::new() }
    }

    /// Takes one of the texts.
    pub(super) fn text(&mut self, column: Column, text: String) {
        match column {
            Column::Id => self.aid.id = text,
            Column::Name => self.aid.name = text,
            Column::Family => self.family = text,
            _ => self.aid.note = text,
        }
    }

    pub(super) fn fault(&mut self, column: Column, found: &str, wrong: Wrong) {
        self.faults.push((Some(column), found.into(), wrong));
    }

    /// Takes a cell of a table.
    fn cell(&mut self, column: Column, cell: &str, separator: char) {
        if cell.trim().is_empty() {
            return;
        }
        let faulty = match column.about().kind {
            super::column::Kind::Text(most) => cell::text(cell, most).map(|text| self.text(column, text)),
            _ => cell::value(column, cell, separator).map(|value| self.aid.say(column, value)),
        };
        if let Err(wrong) = faulty {
            self.fault(column, cell.trim(), wrong);
        }
    }

    /// Looks at the row as a whole.
    fn look(&mut self) {
        let faulty = |faults: &[Fault], column| faults.iter().any(|(other, ..)| *other == Some(column));
        let texts = [
            (Column::Id, self.aid.id.is_empty()),
            (Column::Name, self.aid.name.is_empty()),
            (Column::Family, self.family.is_empty()),
        ];
        for (column, empty) in texts {
            if empty && !faulty(&self.faults, column) {
                self.fault(column, "", Wrong::Unnamed);
            }
        }
        if !self.aid.id.is_empty() && !is_id(&self.aid.id) {
            self.faults.push((Some(Column::Id), self.aid.id.clone(), Wrong::NotAnId));
        }
        if self.family.is_empty() {
            return;
        }
        match family(&self.family) {
            Ok(family) => {
                self.aid.family = family;
                // What could not be read is not missed as well, and only what is whole can be tried.
                let missed = self.aid.faults();
                let known = |fault: &Fault| match fault.0 {
                    Some(column) => faulty(&self.faults, column),
                    None => !self.faults.is_empty(),
                };
                let told: Vec<Fault> = missed.into_iter().filter(|fault| !known(fault)).collect();
                self.faults.extend(told);
            }
            Err(wrong) => self.faults.push((Some(Column::Family), self.family.clone(), wrong)),
        }
    }
}

impl Reader {
    pub(super) fn tell(&mut self, place: Place, column: Option<Column>, found: &str, wrong: Wrong) {
        if self.reading.troubles.len() < MOST_TROUBLES {
            self.reading.troubles.push(Trouble { place, column, found: shown(found), wrong });
        } else {
            self.reading.more += 1;
        }
    }

    /// Whether no more aids are taken; it is told once.
    pub(super) fn is_full(&mut self, place: Place) -> bool {
        let full = self.reading.list.len() == MOST_AIDS;
        if full {
            self.tell(place, None, "", Wrong::TooManyAids);
        }
        full
    }

    /// Takes the aid of a row that is in order, and tells what is wrong with one that is not.
    pub(super) fn take(&mut self, mut row: Row) {
        self.reading.rows += 1;
        row.look();
        let same = |aid: &ListedAid| aid.id.eq_ignore_ascii_case(&row.aid.id);
        if let Some(taken) = self.reading.list.iter().position(same).and_then(|at| self.places.get(at)) {
            row.faults.push((Some(Column::Id), row.aid.id.clone(), Wrong::IdTaken(*taken)));
        }
        if row.faults.is_empty() {
            self.reading.list.push(row.aid);
            self.places.push(row.place);
        }
        for (column, found, wrong) in row.faults {
            self.tell(row.place, column, &found, wrong);
        }
    }

    fn table(&mut self, text: &str) {
        let table = split::split(text, MOST_ROWS);
        let separator = table.separator;
        let is_empty = |row: &Vec<String>| row.iter().all(|cell| cell.trim().is_empty());
        let mut rows = (1..).zip(&table.rows).filter(|(_, row)| !is_empty(row));
        let Some((place, headings)) = rows.next() else {
            let wrong = if table.open_quote.is_some() { Wrong::OpenQuote } else { Wrong::Empty };
            return self.tell(table.open_quote.map_or(Place::File, Place::Row), None, "", wrong);
        };
        let (columns, wrong) = match headings.get(..MOST_COLUMNS) {
            Some(_) => Default::default(),
            None => heading::columns(headings),
        };
        if columns.iter().all(Option::is_none) {
            return self.tell(
                Place::Row(place),
                None,
                &headings.join(&separator.to_string()),
                Wrong::NoHeadings,
            );
        }
        for (at, why) in wrong {
            self.tell(Place::Heading(at + 1), None, headings.get(at).map_or("", String::as_str), why);
        }
        let lacking = [Column::Id, Column::Name, Column::Family]
            .into_iter()
            .filter(|column| !columns.contains(&Some(*column)))
            .collect::<Vec<_>>();
        if !lacking.is_empty() {
            return lacking
                .into_iter()
                .for_each(|column| self.tell(Place::File, None, "", Wrong::LacksColumn(column)));
        }
        let mut unheaded = Vec::new();
        for (place, row) in rows {
            if MOST_ROWS < place {
                self.tell(Place::Row(place), None, "", Wrong::TooManyRows);
                break;
            }
            if self.is_full(Place::Row(place)) {
                break;
            }
            self.row(Place::Row(place), row, (headings, &columns, separator), &mut unheaded);
        }
        if let Some(row) = table.open_quote {
            self.tell(Place::Row(row), None, "", Wrong::OpenQuote);
        }
    }

    fn row(
        &mut self,
        place: Place,
        cells: &[String],
        (headings, columns, separator): (&[String], &[Option<Column>], char),
        unheaded: &mut Vec<usize>,
    ) {
        if columns.len() < cells.len() {
            self.reading.rows += 1;
            let wrong = Wrong::TooManyCells { cells: cells.len(), headings: columns.len() };
            return self.tell(place, None, "", wrong);
        }
        let mut row = Row::at(place);
        for (at, (cell, column)) in cells.iter().zip(columns).enumerate() {
            let no_heading = headings.get(at).is_some_and(|heading| heading.trim().is_empty());
            match column {
                Some(column) => row.cell(*column, cell, separator),
                None if no_heading && !cell.trim().is_empty() && !unheaded.contains(&at) => {
                    unheaded.push(at);
                    self.tell(Place::Heading(at + 1), None, "", Wrong::NoHeading);
                }
                None => {}
            }
        }
        self.take(row);
    }
}

/// Reads a list: a table of text, cells separated by commas, semicolons or tabs, or the JSON form.
///
/// It takes bytes of any kind and never panics; rows that are in order are kept, and everything else is told.
#[must_use]
pub fn read(bytes: &[u8]) -> Reading {
    let mut reader = Reader::default();
    if MOST_BYTES < bytes.len() {
        reader.tell(Place::File, None, "", Wrong::TooLarge);
        return reader.reading;
    }
    match split::text(bytes) {
        Ok(text) if json::is_meant(text) => json::read(text, &mut reader),
        Ok(text) => reader.table(text),
        Err((row, wrong)) => reader.tell(row.map_or(Place::File, Place::Row), None, "", wrong),
    }
    reader.reading
}
