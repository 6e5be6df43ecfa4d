//! Reads the boxes of a draft and keeps what became of each.

use crate::model::draft::{BareAcuity, Draft};
use crate::model::entry;
use crate::model::field::{FieldId, Kind};
use crate::model::format;
use arcminute_core::acuity::{Acuity, BareNumber, Notation, Parsed, Reading, Scale, written};
use arcminute_core::bounds::{self, Bound};
use arcminute_core::print::{self, NRule, SizedPrint};
use arcminute_core::refraction::{Prescription, Refraction};
use arcminute_core::unit::{Length, Vergence};
use arcminute_core::{Error, Why};

/// What became of what stands in a box.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum FieldState {
    /// Nothing was asked of it.
    #[default]
    Unread,
    /// Empty; what is taken instead, with its unit.
    Empty {
        /// The value taken, if one is.
        assumed: Option<String>,
    },
    /// Understood.
    Understood {
        /// In words.
        echo: String,
        /// Said when it is outside what is usually met.
        unusual: Option<String>,
    },
    /// It can mean several things.
    Ask {
        /// What is asked.
        question: String,
        /// The meanings.
        choices: Vec<Choice>,
    },
    /// It cannot be used.
    Refused {
        /// What was read and why it cannot be used.
        message: String,
        /// What to do.
        hint: String,
    },
}

/// One meaning of an ambiguous entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Choice {
    /// What the button says.
    pub label: String,
    /// What stands in the box once it is chosen.
    pub text: String,
}

impl FieldState {
    /// Whether something stands in the box that cannot be used as it is.
    #[must_use]
    pub fn is_trouble(&self) -> bool {
        matches!(self, Self::Ask { .. } | Self::Refused { .. })
    }

    fn refused(error: &Error) -> Self {
        Self::Refused { message: sentence(&error.to_string()), hint: sentence(&error.hint().to_string()) }
    }
}

/// Capital in front, full stop behind.
fn sentence(fragment: &str) -> String {
    let mut letters = fragment.chars();
    let first = letters.next().map(|letter| letter.to_ascii_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

/// What became of each box; few enough to look through.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Fields(Vec<(FieldId, FieldState)>);

impl Fields {
    /// What became of a box.
    #[must_use]
    pub fn get(&self, field: FieldId) -> FieldState {
        self.0.iter().find(|(other, _)| *other == field).map(|(_, state)| state.clone()).unwrap_or_default()
    }
    /// All boxes that were read.
    pub fn iter(&self) -> impl Iterator<Item = (FieldId, &FieldState)> {
        self.0.iter().map(|(field, state)| (*field, state))
    }
    fn insert(&mut self, field: FieldId, state: FieldState) {
        match self.0.iter_mut().find(|(other, _)| *other == field) {
            Some((_, old)) => *old = state,
            None => self.0.push((field, state)),
        }
    }
}

pub(super) struct Reader<'a> {
    draft: &'a Draft,
    states: Fields,
}

impl<'a> Reader<'a> {
    pub(super) fn new(draft: &'a Draft) -> Self {
        Self { draft, states: Fields::default() }
    }
    pub(super) fn draft(&self) -> &'a Draft {
        self.draft
    }
    pub(super) fn into_states(self) -> Fields {
        self.states
    }
    pub(super) fn state(&self, field: FieldId) -> FieldState {
        self.states.get(field)
    }
    fn keep<T>(&mut self, field: FieldId, state: FieldState, value: Option<T>) -> Option<T> {
        self.states.insert(field, state);
        value
    }

    pub(super) fn words(&mut self, field: FieldId) {
        self.states.insert(field, FieldState::Unread);
    }

    pub(super) fn refuse_category(&mut self, field: FieldId, found: &str) {
        let error = Error::new("acuity", found, Why::NotUsableInSum);
        self.states.insert(field, FieldState::refused(&error));
    }

    /// A distance that was read and lies before the one it should lie behind.
    pub(super) fn refuse_nearer(&mut self, field: FieldId, found: Length, least: Length) {
        let (_, most) = bounds::TASK_DISTANCE.possible;
        let why = Why::OutOfRange { min: least.m(), max: most, unit: bounds::TASK_DISTANCE.unit };
        let error = Error::about("farthest distance", format_args!("{} m", found.m()), why);
        self.states.insert(field, FieldState::refused(&error));
    }

    pub(super) fn acuity(&mut self, field: FieldId) -> Option<Reading> {
        let bare = match self.draft.person.bare_acuity {
            BareAcuity::Ask => BareNumber::Ask,
            BareAcuity::Decimal => BareNumber::Decimal,
            BareAcuity::LogMar => BareNumber::LogMar,
        };
        match entry::acuity(field.text(self.draft), bare) {
            Parsed::Empty => self.keep(field, FieldState::Empty { assumed: None }, None),
            Parsed::Understood(reading) => {
                let state = FieldState::Understood { echo: reading_words(&reading), unusual: None };
                self.keep(field, state, Some(reading))
            }
            Parsed::Ask { choices } => {
                let typed = field.text(self.draft).trim();
                let question = if choices.len() == 1 {
                    format!("{typed} is also written for blindness. Is this meant?")
                } else {
                    format!("{typed} can mean more than one thing. Choose one.")
                };
                let choices = choices.iter().map(meaning).collect();
                self.keep(field, FieldState::Ask { question, choices }, None)
            }
            Parsed::Refused(error) => self.keep(field, FieldState::refused(&error), None),
        }
    }

    /// A length, or what is assumed for an empty box.
    pub(super) fn length(&mut self, field: FieldId) -> Option<Length> {
        let info = field.info();
        let Kind::Length(bound) = info.kind else { return None };
        let in_unit = |value: f64| match bound.unit {
            "m" => Length::from_m(value),
            "cm" => Length::from_cm(value),
            _ => Length::from_mm(value),
        };
        let read = entry::length(field.text(self.draft), bound);
        let value_in_unit = |length: Length| match bound.unit {
            "m" => length.m(),
            "cm" => length.cm(),
            _ => length.mm(),
        };
        match read {
            Ok(None) => self.empty(field, info.assumed, bound).map(in_unit),
            Ok(Some(length)) => {
                let value = value_in_unit(length);
                self.keep(field, understood(value, bound), Some(length))
            }
            Err(error) => self.keep(field, FieldState::refused(&error), None),
        }
    }

    /// A number, or what is assumed for an empty box.
    pub(super) fn number(&mut self, field: FieldId) -> Option<f64> {
        self.number_or(field, field.info().assumed)
    }

    /// A number, or what is assumed for an empty box in this case.
    pub(super) fn number_or(&mut self, field: FieldId, assumed: Option<f64>) -> Option<f64> {
        let info = field.info();
        let Kind::Number(bound) = info.kind else { return None };
        match entry::number(field.text(self.draft), bound) {
            Ok(None) => self.empty(field, assumed, bound),
            Ok(Some(value)) => self.keep(field, understood(value, bound), Some(value)),
            Err(error) => self.keep(field, FieldState::refused(&error), None),
        }
    }

    fn empty(&mut self, field: FieldId, assumed: Option<f64>, bound: &Bound) -> Option<f64> {
        let words = assumed.map(|value| with_unit(value, bound.unit));
        self.keep(field, FieldState::Empty { assumed: words }, assumed)
    }

    /// The print, by the usual rule where N notation is written.
    pub(super) fn print(&mut self, field: FieldId) -> Option<SizedPrint> {
        match entry::print(field.text(self.draft)) {
            print::Parsed::Empty => self.keep(field, FieldState::Empty { assumed: None }, None),
            print::Parsed::Understood(read) => match read.size(NRule::Convention) {
                Ok(sized) => {
                    let state = FieldState::Understood { echo: print_words(&sized), unusual: None };
                    self.keep(field, state, Some(sized))
                }
                Err(error) => self.keep(field, FieldState::refused(&error), None),
            },
            print::Parsed::Ask { choices } => {
                let question = "This can mean more than one size. Choose what is meant.".into();
                let choices = choices
                    .iter()
                    .map(|choice| Choice { label: choice.to_string(), text: choice.to_string() })
                    .collect();
                self.keep(field, FieldState::Ask { question, choices }, None)
            }
            print::Parsed::Refused(error) => self.keep(field, FieldState::refused(&error), None),
        }
    }

    /// Sphere, cylinder and add; zero and no add for an empty box.
    pub(super) fn prescription(&mut self, field: FieldId) -> Option<Prescription> {
        let zero = Prescription { refraction: Refraction::of_sphere(Vergence::ZERO), add: None };
        match entry::refraction(field.text(self.draft)) {
            entry::RefractionEntry::Empty => {
                self.keep(field, FieldState::Empty { assumed: None }, Some(zero))
            }
            entry::RefractionEntry::Understood { refraction, add, unusual } => {
                let read = Prescription { refraction, add };
                let state = FieldState::Understood { echo: read.to_string(), unusual };
                self.keep(field, state, Some(read))
            }
            entry::RefractionEntry::Ask { choices } => {
                let question = "The sign or the decimal point is missing. Choose what is meant.".into();
                let choices = choices
                    .iter()
                    .map(|choice| Choice { label: choice.to_string(), text: choice.to_string() })
                    .collect();
                self.keep(field, FieldState::Ask { question, choices }, None)
            }
            entry::RefractionEntry::Refused(error) => self.keep(field, FieldState::refused(&error), None),
        }
    }
}

fn with_unit(value: f64, unit: &str) -> String {
    let number = format::trimmed(value, 2);
    match unit {
        "" => number,
        "degrees" => format!("{number}°"),
        "times" => format!("{number}x"),
        unit => format!("{number} {unit}"),
    }
}

fn understood(value: f64, bound: &Bound) -> FieldState {
    let unusual = bound.is_unusual(value).then(|| {
        let (low, high) = bound.usual;
        format!(
            "Unusual: {} to {} is usual. It is used as typed.",
            format::trimmed(low, 2),
            with_unit(high, bound.unit)
        )
    });
    FieldState::Understood { echo: with_unit(value, bound.unit), unusual }
}

fn reading_words(reading: &Reading) -> String {
    match reading {
        Reading::Category(category) => format!("{category}: a category, no size; it cannot be used in a sum"),
        Reading::Measured(acuity) => {
            let mut ways = vec![acuity.notation.to_string()];
            for way in [
                written(acuity.log_mar, Scale::Feet).to_string(),
                written(acuity.log_mar, Scale::Metres).to_string(),
                format!("logMAR {}", written(acuity.log_mar, Scale::LogMar)),
            ] {
                if !ways.contains(&way) {
                    ways.push(way);
                }
            }
            ways.join(" = ")
        }
    }
}

fn print_words(sized: &SizedPrint) -> String {
    let (print, m) = (sized.print.to_string(), format!("{} M", format::trimmed(sized.size.m_units(), 2)));
    let height = format!("x-height {} mm", format::decimals(sized.height.mm(), 2));
    if print == m { format!("{m}, {height}") } else { format!("{print} = {m}, {height}") }
}

fn meaning(acuity: &Acuity) -> Choice {
    let text = acuity.notation.to_string();
    let kind = match acuity.notation {
        Notation::Decimal(_) => "decimal acuity",
        Notation::LogMar { .. } => "logMAR",
        _ => "",
    };
    let label = format!("{text}, {kind}: {}", written(acuity.log_mar, Scale::Feet));
    Choice { label, text }
}
