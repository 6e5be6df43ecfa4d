//! One aid of a list: what its row says, what is assumed beside it, and whether such an aid can be.

use super::cell::{Value, too_many_digits};
use super::column::{Column, Kind};
use super::family::{self, Family, Need, PAIRS, Walking};
use super::near::{nearest, same_word};
use super::purpose::{For, Wears};
use super::trouble::Wrong;
use crate::model::words::Where;
use arcminute_core::unit::Length;

/// An aid as a list gives it.
#[derive(Clone, Debug, PartialEq)]
pub struct ListedAid {
    /// Stable key.
    pub id: String,
    /// What the list calls it.
    pub name: String,
    /// What kind of aid it is.
    pub family: Family,
    /// Anything else that the list says.
    pub note: String,
    /// What its row says, in the order of the columns.
    said: Vec<(Column, Value)>,
}

/// What a family of aids is to be used like, told by a row or assumed of its family.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Traits {
    /// How many hands it leaves free: 0, 1 or 2.
    pub hands_free: u8,
    /// Whether it is worn rather than held, laid down or stood up.
    pub worn: bool,
    /// Whether both eyes can be used with it.
    pub both_eyes: bool,
    /// How far it may be used while walking; never [`Walking::Yes`] for anything before the eye.
    pub walking: Walking,
    /// Whether what it shows shines by itself.
    pub shines: bool,
    /// What is worn with it.
    pub glasses: Wears,
}

/// One thing that is wrong with an aid: the column, where it is one, what was read there, and why not.
pub(super) type Fault = (Option<Column>, String, Wrong);

/// Nearer to the glasses than this, a lens in the hand is as near to the page as spectacles are. Assumed.
const CLOSE_MM: f64 = 100.0;

impl ListedAid {
    /// An aid of which nothing is said but what it is.
    #[must_use]
    pub fn new(id: &str, name: &str, family: Family) -> Self {
        Self { id: id.into(), name: name.into(), family, note: String::new(), said: Vec::new() }
    }

    /// Says something in a column, in place of what was said there; the texts of an aid are its fields.
    pub fn say(&mut self, column: Column, value: Value) {
        self.said.retain(|(other, _)| *other != column);
        let place = self.said.iter().take_while(|(other, _)| *other < column).count();
        self.said.insert(place, (column, value));
    }

    /// What its row says in a column.
    #[must_use]
    pub fn said(&self, column: Column) -> Option<Value> {
        self.said.iter().find(|(other, _)| *other == column).map(|(_, value)| *value)
    }

    /// Everything that its row says, texts left out, in the order of the columns.
    pub fn all_said(&self) -> impl Iterator<Item = (Column, Value)> {
        self.said.iter().copied()
    }

    /// The number of a column: what its row says, or what is assumed of its family.
    #[must_use]
    pub fn number(&self, column: Column) -> Option<f64> {
        if let Some(Value::Number(number)) = self.said(column) {
            return Some(number);
        }
        match self.family.measure(column)?.need {
            Need::Assumed(number) => Some(number),
            _ => None,
        }
    }

    /// The measures that its row does not say and that are assumed of its family, and what they are taken to be.
    #[must_use]
    pub fn assumed(&self) -> Vec<(Column, f64)> {
        let assumed = |measure: &family::Measure| match measure.need {
            Need::Assumed(number) if self.said(measure.column).is_none() => Some((measure.column, number)),
            _ => None,
        };
        self.family.about().measures.iter().filter_map(assumed).collect()
    }

    /// The place of a word that its row says.
    pub(super) fn word(&self, column: Column) -> Option<usize> {
        match self.said(column) {
            Some(Value::Word(place)) => Some(place),
            _ => None,
        }
    }

    /// How it is used: what its row says of it, and for the rest what is assumed of its family.
    #[must_use]
    pub fn traits(&self) -> Traits {
        let about = self.family.about();
        let yes = |column, otherwise| self.word(column).map_or(otherwise, |place| place == 1);
        Traits {
            hands_free: self
                .word(Column::HandsFree)
                .map_or(about.hands_free, |free| u8::try_from(free).unwrap_or(2)),
            worn: yes(Column::Worn, about.worn),
            both_eyes: yes(Column::BothEyes, about.both_eyes),
            walking: self.word(Column::Walking).map_or(about.walking, walking),
            shines: yes(Column::Shines, about.shines),
            glasses: match self.word(Column::Glasses) {
                None => about.glasses,
                Some(0) => Wears::Nothing,
                Some(1) => Wears::Distance,
                Some(_) => Wears::Add,
            },
        }
    }

    /// What it is for.
    #[must_use]
    pub fn serves(&self) -> For {
        self.family.about().serves
    }

    /// Its name with the marking of a telescope before it, unless the name says it: `4x12 Keplerian`.
    #[must_use]
    pub fn title(&self) -> String {
        match self.device().map(|device| device.marking()) {
            Some(marking) if !self.name.contains(&marking) => format!("{marking} {}", self.name),
            _ => self.name.clone(),
        }
    }

    /// Weight in grams, where the list gives it.
    #[must_use]
    pub fn weight_g(&self) -> Option<f64> {
        self.number(Column::Weight)
    }

    /// The risks that come with it. A lens held near the glasses is near the page as well.
    #[must_use]
    pub fn cautions(&self) -> Vec<Where> {
        let mut cautions = self.family.about().cautions.to_vec();
        let near = |mm: f64| mm < CLOSE_MM;
        if self.family == Family::Hand && self.number(Column::LensToGlasses).is_some_and(near) {
            cautions.insert(0, Where::Close);
        }
        cautions
    }

    /// Everything that is wrong with it; nothing where it can be used.
    pub(super) fn faults(&self) -> Vec<Fault> {
        let mut faults: Vec<Fault> = self.said.iter().filter_map(|said| self.fault(*said)).collect();
        for measure in self.family.about().measures {
            if measure.need == Need::Must && self.said(measure.column).is_none() {
                let wrong = Wrong::Missing(self.family, measure.bound);
                faults.push((Some(measure.column), String::new(), wrong));
            }
        }
        if self.family.is_telescope() && self.word(Column::Design).is_none() {
            faults.push((Some(Column::Design), String::new(), Wrong::NoDesign));
        }
        if self.family == Family::Stand && self.pair().is_none() {
            let given = PAIRS.as_flattened().iter().filter(|column| self.said(**column).is_some());
            let mut names: Vec<&str> = Vec::new();
            for column in given {
                let name = column.about().name;
                if !names.contains(&name) {
                    names.push(name);
                }
            }
            faults.push((None, names.join(", "), Wrong::NoPair));
        }
        if faults.is_empty()
            && let Err(error) = self.used(Length::from_mm(SPECTACLES_TO_EYE_MM), None)
        {
            faults.push((None, String::new(), Wrong::Impossible(Box::new(error))));
        }
        faults
    }

    /// What is wrong with one thing that is said.
    fn fault(&self, (column, value): (Column, Value)) -> Option<Fault> {
        let fault = |wrong| Some((Some(column), written(column, value), wrong));
        if !self.family.has(column) {
            return fault(Wrong::NotOfFamily(self.family));
        }
        match (value, column.about().kind, self.family.measure(column)) {
            (Value::Number(number), Kind::Number(unit), Some(measure)) => {
                if measure.bound.check(number).is_err() {
                    return fault(Wrong::OutOfRange(measure.bound, unit));
                }
                if too_many_digits(&number.to_string()) {
                    return fault(Wrong::TooManyDigits);
                }
            }
            (Value::Word(place), Kind::Words(words), _) => {
                if words.get(place).is_none() {
                    return fault(Wrong::UnknownWord(words));
                }
                if column == Column::Walking && self.family.about().walking_at_most < walking(place) {
                    return fault(Wrong::NotForWalking);
                }
            }
            (_, kind, _) => return fault(Wrong::OtherKind(kind)),
        }
        None
    }

    /// The two measures that say how strong a stand magnifier is; nothing where they do not, or where more are given
    /// than two, which can contradict each other.
    pub(super) fn pair(&self) -> Option<[Column; 2]> {
        let given = |column: &Column| self.said(*column).is_some();
        let others =
            |pair: &[Column; 2]| PAIRS.as_flattened().iter().any(|one| !pair.contains(one) && given(one));
        PAIRS.into_iter().find(|pair| pair.iter().all(given) && !others(pair))
    }
}

/// Where the glasses are taken to be when an aid is only looked at for whether it can be made. Assumed.
pub(super) const SPECTACLES_TO_EYE_MM: f64 = 15.0;

/// The meaning of a word of the column of walking.
fn walking(place: usize) -> Walking {
    match place {
        0 => Walking::No,
        1 => Walking::Spotting,
        _ => Walking::Yes,
    }
}

/// A value as the table writes it.
pub(super) fn written(column: Column, value: Value) -> String {
    match (value, column.about().kind) {
        (Value::Number(number), _) => number.to_string(),
        (Value::Word(place), Kind::Words(words)) => words.get(place).copied().unwrap_or_default().into(),
        (Value::Word(place), _) => place.to_string(),
    }
}

/// The family that a word means.
///
/// # Errors
/// [`Wrong::UnknownFamily`] with the nearest.
pub(super) fn family(word: &str) -> Result<Family, Wrong> {
    let is = |about: &&family::About| {
        same_word(word, about.name) || about.also.iter().any(|also| same_word(word, also))
    };
    let found = family::ALL.iter().find(is).map(|about| about.family);
    found.ok_or_else(|| {
        let near = nearest(word, family::ALL.iter().map(|about| about.name));
        Wrong::UnknownFamily(near.and_then(|place| family::ALL.get(place)).map(|about| about.family))
    })
}

/// Whether a key has only signs that a key may have.
pub(super) fn is_id(id: &str) -> bool {
    !id.is_empty() && id.chars().all(|c| c.is_alphanumeric() || "-_.".contains(c))
}
