//! Choosing a stand magnifier and an addition for each other, and what a misread height does.

use super::{StandData, StandOptics, bare_lens, from_image, stand_optics};
use crate::bounds;
use crate::error::{Error, Why};
#[cfg(feature = "alloc")]
use crate::explain::{Explain, Named, Step, Unit, formula};
use crate::optics::{Element, Sight, Train, view};
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// The stand magnifier that an addition and a wanted power ask for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandDesign {
    /// The addition, and any accommodation that is to be used with it.
    pub add: Vergence,
    /// Equivalent viewing power wanted.
    pub wanted: Vergence,
    /// Image to lens.
    pub image_to_lens: Length,
    /// Enlargement the stand has to have; a pure ratio.
    pub enlargement: f64,
    /// Lens to the plane of the addition: the only distance at which that addition is right.
    pub lens_to_add: Length,
    /// Power of the lens of such a stand.
    pub power: Vergence,
    /// Its height above the page.
    pub print_to_lens: Length,
}

/// The stand magnifier that gives `wanted` with this addition, if its image lies `image_to_lens` below the lens.
///
/// `ER = EVP/A` and `z = 1/A − v`, to the plane of the addition. A stronger addition forces the eye nearer; beyond
/// `1/v` it cannot be used at all. Source: Bailey 2004 (equivalent power is addition times enlargement); paraxial.
///
/// # Errors
/// [`Why::NoSolution`] when the addition cannot be used with such an image, or alone gives what is wanted;
/// [`Why::OutOfRange`] for what no magnifier has.
///
/// ```
/// use arcminute_core::device::stand_for_add;
/// use arcminute_core::unit::{Length, Vergence};
/// let d = Vergence::from_dioptres;
/// // 12 D with a +4.00 addition and the image 10 cm below the lens: enlargement 3, eye 15 cm away (computed).
/// let stand = stand_for_add(d(4.0), d(12.0), Length::from_cm(10.0))?;
/// assert!((stand.enlargement - 3.0).abs() < 1e-12);
/// assert!((stand.lens_to_add.cm() - 15.0).abs() < 1e-12);
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn stand_for_add(add: Vergence, wanted: Vergence, image_to_lens: Length) -> Result<StandDesign, Error> {
    bounds::ADD.check(add.dioptres())?;
    bounds::MAGNIFIER_POWER.check(wanted.dioptres())?;
    bounds::IMAGE_TO_LENS.check(image_to_lens.mm())?;
    let lens_to_add = distance_for(add, image_to_lens)?;
    let enlargement = wanted / add;
    if enlargement <= 1.0 {
        let why = Why::NoSolution { because: "the addition alone gives as much" };
        return Err(Error::about("equivalent power", format_args!("{} D", wanted.dioptres()), why));
    }
    let (power, print_to_lens) = from_image(enlargement, image_to_lens);
    bounds::MAGNIFIER_POWER.check(power.dioptres())?;
    Ok(StandDesign { add, wanted, image_to_lens, enlargement, lens_to_add, power, print_to_lens })
}

/// From the lens to the plane of an addition that is right there: `1/A − v`.
fn distance_for(add: Vergence, image_to_lens: Length) -> Result<Length, Error> {
    let refused =
        |because| Error::about("add", format_args!("{} D", add.dioptres()), Why::NoSolution { because });
    if add <= Vergence::ZERO {
        return Err(refused(
            "without an addition or accommodation the image of a stand magnifier is not sharp",
        ));
    }
    let lens_to_add = add.focal_length() - image_to_lens;
    if lens_to_add < Length::ZERO {
        return Err(refused("it is too strong for this image at any eye distance: weaken it"));
    }
    Ok(lens_to_add)
}

#[cfg(feature = "alloc")]
impl Explain for StandDesign {
    fn steps(&self) -> Vec<Step> {
        let dioptre = |symbol, power: Vergence| Named::new(symbol, power.dioptres(), Unit::Dioptre);
        let mm = |symbol, length: Length| Named::new(symbol, length.mm(), Unit::Millimetre);
        let (a, v) = (dioptre("A", self.add), mm("v", self.image_to_lens));
        let er = Named::new("ER", self.enlargement, Unit::Times);
        alloc::vec![
            Step::formula(&formula::STAND_ENLARGEMENT_WANTED, er, [dioptre("EVP", self.wanted), a]),
            Step::formula(&formula::STAND_EYE_DISTANCE, mm("z", self.lens_to_add), [a, v]),
            Step::formula(&formula::STAND_POWER, dioptre("F", self.power), [er, v]),
            Step::formula(&formula::STAND_HEIGHT, mm("u", self.print_to_lens), [v, er]),
        ]
    }
}

/// A stand magnifier with an addition that is right for it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StandWithAdd {
    /// The stand.
    pub optics: StandOptics,
    /// The addition, and any accommodation that is used with it.
    pub add: Vergence,
    /// Image to lens.
    pub image_to_lens: Length,
    /// Enlargement of the stand; a pure ratio.
    pub enlargement: f64,
    /// Lens to the plane of the addition: there the image is sharp.
    pub lens_to_add: Length,
    /// Equivalent viewing power there.
    pub equivalent_viewing_power: Vergence,
}

impl StandOptics {
    /// How far from this stand an addition is right, and what the two are worth together.
    ///
    /// `z = 1/A − v`, `EVP = ER·A`, wherever the eye is behind the addition. Source: Bailey 2004; paraxial.
    ///
    /// # Errors
    /// [`Why::NoSolution`] when the addition is too strong for the stand, or the image is infinitely far and needs none.
    ///
    /// ```
    /// use arcminute_core::device::{StandData, stand_optics};
    /// use arcminute_core::unit::Vergence;
    /// let d = Vergence::from_dioptres;
    /// let stand = stand_optics(StandData::PowerAndEnlargement { power: d(20.0), enlargement: 3.0 })?;
    /// let with_add = stand.with_add(d(2.5))?;
    /// assert!((with_add.lens_to_add.cm() - 30.0).abs() < 1e-9); // computed
    /// assert!((with_add.equivalent_viewing_power.dioptres() - 7.5).abs() < 1e-9);
    /// assert!(stand.with_add(d(10.5)).is_err(), "the image is 10 cm below the lens");
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn with_add(self, add: Vergence) -> Result<StandWithAdd, Error> {
        bounds::ADD.check(add.dioptres())?;
        let Some(image) = self.image else {
            let why = Why::NoSolution { because: "the image is infinitely far and needs none" };
            return Err(Error::about("add", format_args!("{} D", add.dioptres()), why));
        };
        let lens_to_add = distance_for(add, image.to_lens)?;
        let train = Train::new([bare_lens(self.power), Element::Gap(lens_to_add), bare_lens(add)]);
        let seen = view(&train, Sight::At(self.print_to_lens));
        Ok(StandWithAdd {
            optics: self,
            add,
            image_to_lens: image.to_lens,
            enlargement: image.enlargement,
            lens_to_add,
            equivalent_viewing_power: Vergence::of_focal_length(
                seen.equivalent_viewing_distance.unwrap_or(self.print_to_lens),
            ),
        })
    }
}

#[cfg(feature = "alloc")]
impl Explain for StandWithAdd {
    fn steps(&self) -> Vec<Step> {
        let a = Named::new("A", self.add.dioptres(), Unit::Dioptre);
        let v = Named::new("v", self.image_to_lens.mm(), Unit::Millimetre);
        let er = Named::new("ER", self.enlargement, Unit::Times);
        let z = Named::new("z", self.lens_to_add.mm(), Unit::Millimetre);
        let evp = Named::new("EVP", self.equivalent_viewing_power.dioptres(), Unit::Dioptre);
        let mut steps = self.optics.steps();
        steps.push(Step::formula(&formula::STAND_EYE_DISTANCE, z, [a, v]));
        steps.push(Step::formula(&formula::STAND_EVP_WITH_ADD, evp, [er, a]));
        steps
    }
}

/// A stand as read, and as it is if the height was misread by so much either way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeightMisread {
    /// Misreading, either way.
    pub misread: Length,
    /// As read, less the misreading.
    pub shorter: StandOptics,
    /// As read.
    pub as_read: StandOptics,
    /// As read, and the misreading more.
    pub taller: StandOptics,
}

/// What a misread stand height does to image and enlargement: why measured data are worth more than nominal ones.
///
/// # Errors
/// [`Why::NoSolution`] when the page might lie beyond the focus; [`Why::OutOfRange`] for what no magnifier has.
///
/// ```
/// use arcminute_core::device::misread_height;
/// use arcminute_core::unit::{Length, Vergence};
/// let mm = Length::from_mm;
/// // One millimetre either way at +20 D and 40 mm: image 177 or 228 mm, enlargement 4.55 or 5.56 (computed).
/// let reading = misread_height(Vergence::from_dioptres(20.0), mm(40.0), mm(1.0))?;
/// let image = |stand: arcminute_core::device::StandOptics| stand.image.map(|image| image.to_lens.mm().round());
/// assert_eq!((image(reading.shorter), image(reading.taller)), (Some(177.0), Some(228.0)));
/// # Ok::<(), arcminute_core::Error>(())
/// ```
pub fn misread_height(
    power: Vergence,
    print_to_lens: Length,
    misread: Length,
) -> Result<HeightMisread, Error> {
    let stand = |print_to_lens| stand_optics(StandData::Nominal { power, print_to_lens });
    Ok(HeightMisread {
        misread,
        shorter: stand(print_to_lens - misread)?,
        as_read: stand(print_to_lens)?,
        taller: stand(print_to_lens + misread)?,
    })
}

#[cfg(feature = "alloc")]
impl Explain for HeightMisread {
    fn steps(&self) -> Vec<Step> {
        [self.shorter, self.as_read, self.taller].iter().flat_map(StandOptics::steps).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn d(value: f64) -> Vergence {
        Vergence::from_dioptres(value)
    }
    fn cm(value: f64) -> Length {
        Length::from_cm(value)
    }
    fn stand() -> StandOptics {
        stand_optics(StandData::PowerAndEnlargement { power: d(20.0), enlargement: 3.0 }).expect("a stand")
    }
    fn message<T: core::fmt::Debug>(result: Result<T, Error>) -> alloc::string::String {
        let error = result.expect_err("refused");
        alloc::format!("{error}; {}", error.hint())
    }

    #[test]
    fn working_agrees() -> Result<(), Error> {
        for add in [2.0, 4.0, 9.9] {
            for step in stand().with_add(d(add))?.steps() {
                assert_eq!(step.check(), Ok(()), "+{add} D");
            }
            for step in stand_for_add(d(add), d(3.0 * add), cm(10.0))?.steps() {
                assert_eq!(step.check(), Ok(()), "+{add} D");
            }
        }
        let misread = misread_height(d(20.0), Length::from_mm(40.0), Length::from_mm(1.0))?;
        assert_eq!(misread.steps().len(), 9, "three stands");
        for step in misread.steps() {
            assert_eq!(step.check(), Ok(()));
        }
        Ok(())
    }

    #[test]
    fn the_design_is_the_stand_that_was_asked_for() -> Result<(), Error> {
        let design = stand_for_add(d(4.0), d(12.0), cm(10.0))?;
        let made =
            stand_optics(StandData::Nominal { power: design.power, print_to_lens: design.print_to_lens })?;
        let used = made.with_add(d(4.0))?;
        assert!((used.equivalent_viewing_power.dioptres() - 12.0).abs() < 1e-9, "{used:?}");
        assert!((used.lens_to_add.cm() - 15.0).abs() < 1e-9, "{used:?}");
        Ok(())
    }

    #[test]
    fn an_addition_that_cannot_be_used_is_refused() {
        let too_strong = "add `11 D` has no solution: it is too strong for this image at any eye distance: weaken it; \
                          change one of the values it depends on";
        assert_eq!(message(stand().with_add(d(11.0))), too_strong);
        assert_eq!(message(stand_for_add(d(11.0), d(33.0), cm(10.0))), too_strong);
        assert!(stand_for_add(d(10.0), d(30.0), cm(10.0)).is_ok(), "the eye right at the lens");
        let none = "add `0 D` has no solution: without an addition or accommodation the image of a stand magnifier \
                    is not sharp; change one of the values it depends on";
        assert_eq!(message(stand().with_add(d(0.0))), none);
        assert_eq!(message(stand_for_add(d(0.0), d(12.0), cm(10.0))), none);
        let alone = "equivalent power `4 D` has no solution: the addition alone gives as much; \
                     change one of the values it depends on";
        assert_eq!(message(stand_for_add(d(4.0), d(4.0), cm(10.0))), alone);
        let far =
            stand_optics(StandData::Nominal { power: d(20.0), print_to_lens: cm(5.0) }).expect("in focus");
        assert_eq!(
            message(far.with_add(d(2.0))),
            "add `2 D` has no solution: the image is infinitely far and needs none; \
             change one of the values it depends on"
        );
        for (add, wanted, image, refused) in [
            (41.0, 50.0, 1.0, "add `41 D` is not possible; use 0 to 40 D"),
            (4.0, 121.0, 10.0, "magnifier power `121 D` is not possible; use 0.5 to 120 D"),
            (4.0, 12.0, 0.0, "image to lens `0 mm` is not possible; use 1 to 100000 mm"),
            // (20 − 1)/0.1 m.
            (2.0, 40.0, 10.0, "magnifier power `190 D` is not possible; use 0.5 to 120 D"),
        ] {
            assert_eq!(message(stand_for_add(d(add), d(wanted), cm(image))), refused);
        }
        assert_eq!(message(stand().with_add(d(-1.0))), "add `-1 D` is not possible; use 0 to 40 D");
    }

    #[test]
    fn a_misreading_beyond_the_focus_is_refused() {
        let mm = Length::from_mm;
        assert_eq!(
            message(misread_height(d(20.0), mm(49.5), mm(1.0))),
            "stand height `50.5 mm` has no solution: the page would lie beyond the focus of the lens; \
             change one of the values it depends on"
        );
        assert_eq!(
            message(misread_height(d(20.0), mm(40.0), mm(40.0))),
            "stand height `0 mm` is not possible; use 0.1 to 2000 mm"
        );
    }
}
