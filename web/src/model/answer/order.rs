//! What is ordered and what was delivered, understood.

use super::reader::{FieldState, Reader};
use crate::model::draft::{CarrierChoice, EyeChoice};
use crate::model::field::FieldId;
use arcminute_core::delivery::Lens;
use arcminute_core::refraction::{Prescription, Refraction};
use arcminute_core::unit::{Length, Prism, Vergence};

/// What is ordered and what was delivered.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct OrderAnswer {
    /// Cap for near; none when the box is empty or cannot be used.
    pub cap: Option<Vergence>,
    /// Base-in prism worked on each lens; none when the box cannot be used.
    pub base_in: Option<Prism>,
    /// The carrier of the right eye and of the left.
    pub carriers: [CarrierAnswer; 2],
    /// Lens to what is looked at, for near.
    pub from_lens: Option<Length>,
}

/// The carrier lens of one eye.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct CarrierAnswer {
    /// As typed, or the refraction where no other was typed; of a lens without a place for an add, without it.
    /// `None` when neither can be used.
    pub typed: Option<Lens>,
    /// Whether nothing was typed anywhere: plano is taken.
    pub is_assumed: bool,
    /// What goes on the order: moved to the plane in which it is worn, where that is another.
    pub ordered: Option<Lens>,
    /// How far the worn lens is nearer to the eye than at the refraction.
    pub towards_eye: Length,
    /// As measured when it was delivered.
    pub delivered: Option<Lens>,
}

impl OrderAnswer {
    /// The carrier of an eye.
    #[must_use]
    pub fn carrier(&self, eye: EyeChoice) -> &CarrierAnswer {
        match eye {
            EyeChoice::Right => &self.carriers[0],
            EyeChoice::Left => &self.carriers[1],
        }
    }
}

/// What stands in a box of a lens; `None` when it is empty or cannot be used.
fn lens(reader: &mut Reader<'_>, field: FieldId) -> Option<Lens> {
    let Prescription { refraction, add } = reader.prescription(field)?;
    let is_empty = matches!(reader.state(field), FieldState::Empty { .. });
    (!is_empty).then_some(Lens { refraction, add })
}

pub(super) fn order(reader: &mut Reader<'_>, vertex: Option<Length>) -> OrderAnswer {
    let words = [
        FieldId::OrderFrame,
        FieldId::OrderLens,
        FieldId::FollowUp,
        FieldId::PersonSheetNotes,
        FieldId::SchoolNotes,
    ];
    for field in words {
        reader.words(field);
    }
    let worn = match reader.length(FieldId::WornVertex) {
        None if reader.state(FieldId::WornVertex).is_trouble() => None,
        worn => worn.or(vertex),
    };
    let towards_eye = vertex.zip(worn).map(|(vertex, worn)| vertex - worn);
    OrderAnswer {
        cap: reader.number(FieldId::Cap).map(Vergence::from_dioptres),
        base_in: reader.number(FieldId::BaseIn).map(Prism::from_prism_dioptres),
        carriers: [true, false].map(|right| carrier(reader, right, towards_eye)),
        from_lens: reader.length(FieldId::FromLens),
    }
}

fn carrier(reader: &mut Reader<'_>, right: bool, towards_eye: Option<Length>) -> CarrierAnswer {
    let has_place_for_add = reader.draft().fit.carrier != CarrierChoice::SingleVision;
    let (own, refraction) = (FieldId::CarrierRx(right), FieldId::Refraction(right));
    let its_own = lens(reader, own);
    let trouble = reader.state(own).is_trouble();
    let from_refraction = lens(reader, refraction);
    let nothing = Lens { refraction: Refraction::default(), add: None };
    let mut is_assumed = false;
    let typed = match (its_own, from_refraction) {
        (Some(lens), _) => Some(lens),
        _ if trouble || reader.state(refraction).is_trouble() => None,
        (None, Some(lens)) => Some(Lens { add: lens.add.filter(|_| has_place_for_add), ..lens }),
        (None, None) => {
            is_assumed = true;
            Some(nothing)
        }
    };
    let moved = |lens: Lens, by: Length| {
        if by == Length::ZERO {
            return Some(lens);
        }
        lens.refraction.moved(by).ok().map(|moved| Lens { refraction: moved.to, ..lens })
    };
    CarrierAnswer {
        typed,
        is_assumed,
        ordered: typed.zip(towards_eye).and_then(|(lens, by)| moved(lens, by)),
        towards_eye: towards_eye.unwrap_or_default(),
        delivered: lens(reader, FieldId::Delivered(right)),
    }
}

#[cfg(test)]
mod tests {
    use crate::model::answer::Answer;
    use crate::model::draft::{CarrierChoice, Draft, EyeChoice};

    fn right(draft: &Draft) -> super::CarrierAnswer {
        *Answer::of(draft).order.carrier(EyeChoice::Right)
    }

    #[test]
    fn the_carrier_is_its_own_or_the_refraction_and_never_something_that_cannot_be_used() {
        let mut draft = Draft::default();
        assert!(right(&draft).is_assumed && right(&draft).typed.is_some(), "nothing typed: plano");
        draft.person.right.refraction = "+2.00 -1.50 x 090 add +2.50".into();
        let without_add = right(&draft).typed.expect("the refraction");
        assert!(!right(&draft).is_assumed && without_add.add.is_none(), "no place for an add");
        draft.fit.carrier = CarrierChoice::Bifocal;
        assert!(right(&draft).typed.is_some_and(|lens| lens.add.is_some()), "a place for it");
        draft.order.carrier_right = "?".into();
        assert_eq!(
            (right(&draft).typed, right(&draft).ordered),
            (None, None),
            "not the refraction in its place"
        );
        draft.order.carrier_right = String::new();
        draft.person.right.refraction = "?".into();
        assert_eq!(right(&draft).typed, None, "not plano in its place");
    }

    /// 12/(1 − 0.003·12) = 12.448; worn where it was found it stays.
    #[test]
    fn what_is_worn_elsewhere_is_moved_and_what_is_not_known_moves_nothing() {
        let mut draft = Draft::default();
        draft.order.carrier_right = "+12.00".into();
        let ordered = |draft: &Draft| right(draft).ordered.map(|lens| lens.refraction.sphere.dioptres());
        assert_eq!(ordered(&draft), Some(12.0), "13 mm are assumed in both places");
        draft.fit.worn_vertex_mm = "10".into();
        assert!(
            ordered(&draft).is_some_and(|sphere| (sphere - 12.448).abs() < 5e-4),
            "{:?}",
            ordered(&draft)
        );
        draft.fit.worn_vertex_mm = "?".into();
        assert_eq!(ordered(&draft), None, "not taken as empty");
        draft.fit.worn_vertex_mm = String::new();
        draft.person.vertex_mm = "?".into();
        assert_eq!(ordered(&draft), None, "nor the one of the refraction");
    }
}
