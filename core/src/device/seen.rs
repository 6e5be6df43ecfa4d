//! The working of what is seen through an arrangement.

use super::Outcome;
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::unit::{Angle, Length, PrintSize, Vergence};
use alloc::vec::Vec;

impl Explain for Outcome {
    fn steps(&self) -> Vec<Step> {
        let mut steps = self.focus_steps();
        steps.extend(self.blurred.steps());
        steps.extend(self.size_steps());
        steps.extend(self.prediction.steps());
        steps.extend(self.field_steps());
        steps
    }
}

fn mm(symbol: &'static str, length: Length) -> Named {
    Named::new(symbol, length.mm(), Unit::Millimetre)
}
fn metre(symbol: &'static str, length: Length) -> Named {
    Named::new(symbol, length.m(), Unit::Metre)
}
fn dioptre(symbol: &'static str, power: Vergence) -> Named {
    Named::new(symbol, power.dioptres(), Unit::Dioptre)
}
fn arcmin(symbol: &'static str, angle: Angle) -> Named {
    Named::new(symbol, angle.arcmin(), Unit::Arcmin)
}

impl Outcome {
    fn focus_steps(&self) -> Vec<Step> {
        let focus = &self.focus;
        let needed = dioptre("A_n", focus.needed);
        let inputs = [dioptre("A", focus.demand), dioptre("A_0", focus.relaxed)];
        alloc::vec![
            Step::formula(&formula::FOCUS_NEEDED, needed, inputs),
            Step::formula(
                &formula::DEFOCUS_LEFT,
                dioptre("E", focus.defocus),
                [needed, dioptre("A_u", focus.available)],
            ),
        ]
    }

    fn size_steps(&self) -> Vec<Step> {
        let seen = arcmin("MAR_seen", self.detail_seen);
        let reserve = Named::new("reserve", self.reserve_reached, Unit::Times);
        let mut steps = Vec::new();
        match (self.equivalent_viewing_distance, self.detail.distance) {
            (Some(evd), _) => steps.push(Step::formula(
                &formula::DETAIL_SEEN,
                seen,
                [mm("h", self.detail.height), mm("EVD", evd)],
            )),
            (None, Some(distance)) => steps.push(Step::formula(
                &formula::DETAIL_SEEN_FAR,
                seen,
                [
                    metre("h", self.detail.height),
                    metre("x", distance),
                    Named::new("M", self.angular.times(), Unit::Times),
                ],
            )),
            (None, None) => {}
        }
        let own = Named::new("S", self.own_magnification, Unit::Times);
        let in_glasses = arcmin("MAR_g", self.detail_in_glasses);
        steps.push(Step::formula(
            &formula::OWN_MAGNIFICATION,
            own,
            [mm("v", self.own_glasses_to_eye), dioptre("K", self.own_glasses)],
        ));
        steps.push(Step::formula(&formula::DETAIL_IN_GLASSES, in_glasses, [seen, own]));
        steps.push(Step::formula(
            &formula::RESERVE_REACHED,
            reserve,
            [in_glasses, arcmin("MAR_b", self.blurred.mar)],
        ));
        steps.push(Step::formula(
            &formula::LEAST_HEIGHT,
            mm("h_least", self.least_height),
            [mm("h", self.detail.height), reserve],
        ));
        steps
    }

    fn field_steps(&self) -> Vec<Step> {
        let mut steps = Vec::new();
        if let (Some(widths), Some(field), Some(evd), None) =
            (self.widths, self.field, self.equivalent_viewing_distance, self.arrangement.window)
        {
            let angle = Named::new("a", field.half.degrees(), Unit::Degree);
            steps.push(Step::formula(
                &formula::FIELD_WIDTH,
                metre("w", widths.half),
                [metre("EVD", evd), angle],
            ));
        }
        if let (Some(widths), Some(characters)) = (self.widths, self.characters) {
            let print = PrintSize::of_x_height(self.detail.height);
            steps.push(Step::formula(
                &formula::CHARACTERS,
                Named::new("n", characters, Unit::Plain),
                [mm("w", widths.half), Named::new("P", print.m_units(), Unit::PrintM)],
            ));
        }
        steps.push(Step::formula(
            &formula::LIGHT_OF_AID,
            Named::new("light", self.light, Unit::Plain),
            [
                Named::new("T", self.arrangement.transmittance, Unit::Plain),
                Named::new("s", self.share_of_pupil, Unit::Plain),
            ],
        ));
        steps
    }
}
