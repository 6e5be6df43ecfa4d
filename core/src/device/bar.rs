//! A bar: a half cylinder that lies on a line of print.
//!
//! Across its length it is a dome, along its length a slab: heights grow, widths do not. So as many characters are seen as
//! its length covers, and the letters are not larger in both directions; how much of the enlargement helps reading has not
//! been found published.

use super::dome::{above_top, block_image, parts};
use super::{Arrangement, BlockImage, Eye};
use crate::error::Error;
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, RealDome, Sight, Train, View, view};
#[cfg(feature = "alloc")]
use crate::source;
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// A bar magnifier with its flat face on the print, along the lines.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Section across the length: radius, print to top, and index.
    pub section: RealDome,
    /// Length, along the lines of print.
    pub length: Length,
    /// Clear width, across the lines.
    pub clear_width: Length,
    /// Share of the light it lets through; a pure ratio.
    pub transmittance: f64,
}

/// A bar in use.
#[derive(Clone, Debug, PartialEq)]
pub struct BarInUse {
    /// The bar.
    pub bar: Bar,
    /// Its image across the length.
    pub image: BlockImage,
    /// Top to the spectacle plane.
    pub top_to_spectacle: Length,
    /// Spectacle plane to the eye's entrance pupil.
    pub spectacle_to_eye: Length,
    /// Page to the eye's entrance pupil.
    pub page_to_eye: Length,
    /// Power that stands in the spectacle plane.
    pub worn: Vergence,
    /// Distance at which bare print would look as high, to the eye's entrance pupil.
    pub distance_for_heights: Length,
    /// Demand of the light that makes the heights, at the eye's entrance pupil.
    pub demand_of_heights: Vergence,
    /// Distance at which bare print would look as wide, to the eye's entrance pupil.
    pub distance_for_widths: Length,
    /// Demand of the light that makes the widths; the difference to the other reaches the eye as a cylinder.
    pub demand_of_widths: Vergence,
    /// What is seen of heights, with the length as the window: for [`look`](super::look).
    pub arrangement: Arrangement,
    /// The same with the clear width as the rim, and no window: for how much is seen across the lines.
    pub across: Arrangement,
}

/// A bar on the page, along a line, the eye's entrance pupil `page_to_eye` above the page.
///
/// Source: one surface across, a slab along; paraxial.
///
/// # Errors
/// Those of [`block_image`]; [`crate::Why::NoSolution`] when the bar would reach into the glasses.
///
/// ```
/// use arcminute_core::device::{Bar, Eye, lay_bar};
/// use arcminute_core::{optics::RealDome, unit::{Length, LogMar}};
/// let mm = Length::from_mm;
/// let bar = Bar {
///     section: RealDome { radius: mm(15.0), thickness: mm(15.0), index: 1.49 },
///     length: mm(200.0),
///     clear_width: mm(30.0),
///     transmittance: 0.92,
/// };
/// let eye = Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2));
/// let used = lay_bar(bar, &eye, Length::from_cm(40.0))?;
/// // Half a cylinder: heights 1.49 times; along it the slab only lifts the page by t − t/n (computed).
/// assert!((used.page_to_eye / used.distance_for_heights - 1.49).abs() < 1e-9);
/// assert!((used.distance_for_widths.mm() - (400.0 - 15.0 + 15.0 / 1.49)).abs() < 1e-9);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn lay_bar(bar: Bar, eye: &Eye, page_to_eye: Length) -> Result<BarInUse, Error> {
    let image = block_image(bar.section)?;
    let top_to_spectacle = above_top(bar.section, eye, page_to_eye)?;
    let worn = eye.worn_power();
    let rest = [Element::Gap(top_to_spectacle), Element::Lens { power: worn, clear_diameter: None }];
    let across = |clear_width| {
        let ([glass, top], [gap, glasses]) = (parts(bar.section, clear_width), rest);
        let train = Train::new([glass, top, gap, glasses]).to_eye(eye.spectacle_to_eye);
        Arrangement {
            hand_room: Some(Length::ZERO),
            transmittance: bar.transmittance,
            ..Arrangement::of(train, Sight::At(Length::ZERO))
        }
    };
    let ([glass, _], [gap, glasses]) = (parts(bar.section, None), rest);
    let along = Train::new([glass, gap, glasses]).to_eye(eye.spectacle_to_eye);
    let arrangement = Arrangement { window: Some(bar.length), ..across(None) };
    let (heights, widths) = (arrangement.view(), view(&along, Sight::At(Length::ZERO)));
    let distance = |seen: View| seen.equivalent_viewing_distance.unwrap_or(page_to_eye);
    Ok(BarInUse {
        bar,
        image,
        top_to_spectacle,
        spectacle_to_eye: eye.spectacle_to_eye,
        page_to_eye,
        worn,
        distance_for_heights: distance(heights),
        demand_of_heights: heights.focus_demand,
        distance_for_widths: distance(widths),
        demand_of_widths: widths.focus_demand,
        arrangement,
        across: across(Some(bar.clear_width)),
    })
}

#[cfg(feature = "alloc")]
impl Explain for BarInUse {
    fn steps(&self) -> Vec<Step> {
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let (z, v) = (mm("z", self.top_to_spectacle), mm("v", self.image.image_to_top));
        let (s, f_w) = (mm("s", self.spectacle_to_eye), dioptre("F_w", self.worn));
        let (t, n) =
            (mm("t", self.bar.section.thickness), Named::new("n", self.bar.section.index, Unit::Plain));
        let er = Named::new("ER", self.image.enlargement, Unit::Times);
        let heights = mm("EVD", self.distance_for_heights);
        let widths = mm("EVD_w", self.distance_for_widths);
        let (a, a_w) = (dioptre("A", self.demand_of_heights), dioptre("A_w", self.demand_of_widths));
        let mut steps = self.image.steps();
        steps.push(Step::formula(&formula::STAND_EVD_BEHIND_GLASSES, heights, [z, v, s, f_w, er]));
        steps.push(Step::formula(&formula::STAND_DEMAND_BEHIND_GLASSES, a, [z, v, s, f_w]));
        steps.push(Step::formula(&formula::BAR_EVD_OF_WIDTHS, widths, [z, t, n, s, f_w]));
        steps.push(Step::formula(&formula::BAR_DEMAND_OF_WIDTHS, a_w, [z, t, n, s, f_w]));
        steps.push(Step::Rule { because: "heights-grow-widths-do-not", source: &source::PARAXIAL });
        steps
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::device::{Detail, Worn, look};
    use crate::unit::{LogMar, PrintSize};
    use alloc::string::ToString;

    fn mm(value: f64) -> Length {
        Length::from_mm(value)
    }
    fn bar(thickness: f64) -> Bar {
        Bar {
            section: RealDome { radius: mm(15.0), thickness: mm(thickness), index: 1.49 },
            length: mm(195.0),
            clear_width: mm(28.0),
            transmittance: 0.92,
        }
    }
    fn eye(worn: Worn) -> Eye {
        Eye {
            sphere: Vergence::from_dioptres(-3.0),
            worn,
            ..Eye::corrected(LogMar::from_log(1.0), LogMar::from_log(0.2))
        }
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for worn in [Worn::Nothing, Worn::Distance, Worn::Near { add: Vergence::from_dioptres(2.0) }] {
            for thickness in [5.0, 14.0, 20.0] {
                let used = lay_bar(bar(thickness), &eye(worn), mm(350.0))?;
                assert_eq!(used.steps().len(), 9, "four of the image, four in use, one rule");
                for step in used.steps() {
                    assert_eq!(step.check(), Ok(()), "{worn:?} {thickness} mm");
                }
            }
        }
        Ok(())
    }

    #[test]
    fn characters_are_those_that_its_length_covers() -> Result<(), Error> {
        let used = lay_bar(bar(20.0), &eye(Worn::Distance), mm(400.0))?;
        let print = Detail { height: PrintSize::from_m_units(1.0).x_height(), distance: None, reserve: 1.0 };
        let seen = look(&used.arrangement, &eye(Worn::Distance), print)?;
        assert!((seen.characters.expect("a window") - 150.0).abs() < 1e-9, "195 mm over 1.30 mm: {seen:?}");
        assert_eq!(used.arrangement.hand_room, Some(Length::ZERO));
        assert!((used.arrangement.transmittance - 0.92).abs() < 1e-15, "that of the bar");
        // Across the lines the rim limits, as a lens does: d·EVD/z, z from the top to the eye.
        let bare = eye(Worn::Nothing);
        let used = lay_bar(bar(20.0), &bare, mm(400.0))?;
        let lines = look(&used.across, &bare, print)?.widths.expect("a rim");
        let wanted = 28.0 * used.distance_for_heights.mm() / 380.0;
        assert!((lines.half.mm() - wanted).abs() < 1e-9, "{lines:?} against {wanted}");
        assert_eq!(used.across.window, None, "the rim alone");
        Ok(())
    }

    #[test]
    fn what_is_no_bar_is_refused() {
        let error = lay_bar(bar(30.0), &eye(Worn::Distance), mm(400.0)).expect_err("a whole cylinder");
        assert_eq!(
            error.to_string(),
            "dome height `30 mm` has no solution: a sphere of this radius is not so high"
        );
        let error = lay_bar(bar(15.0), &eye(Worn::Distance), mm(29.0)).expect_err("in the glasses");
        assert_eq!(
            error.to_string(),
            "page to eye `29 mm` has no solution: the magnifier would reach into the glasses"
        );
        assert_eq!(error.hint().to_string(), "change one of the values it depends on");
    }
}
