//! Thick lenses: computed values, and what a label overstates.

use crate::support::rounds_to;
use arcminute_core::Error;
use arcminute_core::optics::{ThickLens, ThickLensPowers};
use arcminute_core::unit::{Length, Vergence};

fn powers(front: f64, back: f64, thickness: f64) -> Result<ThickLensPowers, Error> {
    let d = Vergence::from_dioptres;
    let thickness = Length::from_mm(thickness);
    ThickLens { front: d(front), back: d(back), thickness, index: 1.498 }.powers()
}

/// Source: exact paraxial, computed.
#[test]
fn near_case_08_three_powers_of_a_strong_lens() -> Result<(), Error> {
    let lens = powers(14.0, 7.0, 10.0)?;
    rounds_to(lens.equivalent.dioptres(), "20.346");
    rounds_to(lens.back_vertex.dioptres(), "22.443");
    rounds_to(lens.front_vertex.dioptres(), "21.343");
    rounds_to(lens.print_to_front.expect("a plus lens").mm(), "46.85");
    rounds_to(100.0 * (lens.label_over_equivalent - 1.0), "10.3");
    Ok(())
}

/// Source: exact paraxial, computed: the back vertex power over the equivalent power.
#[test]
fn what_a_vertex_label_overstates() -> Result<(), Error> {
    rounds_to(100.0 * (powers(20.0, 12.0, 16.0)?.label_over_equivalent - 1.0), "27");
    let twelve = powers(8.0, 4.5, 6.0)?;
    rounds_to(100.0 * (twelve.label_over_equivalent - 1.0), "3.3");
    rounds_to(twelve.back_vertex / twelve.equivalent, "1.033");
    Ok(())
}

/// Source: exact paraxial, computed: with the flat side to the eye the print stands at the equivalent focal length.
#[test]
fn plano_convex_with_the_curve_to_the_print() -> Result<(), Error> {
    let lens = powers(20.0, 0.0, 12.0)?;
    rounds_to(lens.equivalent.dioptres(), "20.0000");
    rounds_to(lens.front_vertex.dioptres(), "20.0000");
    rounds_to(lens.print_to_front.expect("a plus lens").mm(), "50.00");
    assert!(20.0 < lens.back_vertex.dioptres(), "the label says more: {lens:?}");
    // Turned round, the label is right and the print nearer.
    let turned = powers(0.0, 20.0, 12.0)?;
    rounds_to(turned.back_vertex.dioptres(), "20.0000");
    rounds_to(turned.front_vertex / lens.back_vertex, "1.0000");
    Ok(())
}
