//! A device as light meets it: lenses, gaps and stops in a row.

use super::RayMatrix;
use crate::error::{Error, Why};
use crate::list::List;
use crate::unit::{Length, Vergence};
#[cfg(feature = "alloc")]
use alloc::vec::Vec;

/// One part of a train.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Element {
    /// A thin lens; `clear_diameter` is `None` where the rim never limits the light.
    Lens {
        /// Power in air.
        power: Vergence,
        /// Diameter that lets light through.
        clear_diameter: Option<Length>,
    },
    /// Air, or the air-equivalent length of an erecting path.
    Gap(Length),
    /// Glass or plastic between two surfaces; the surfaces are lenses beside it.
    Glass {
        /// Along the axis.
        thickness: Length,
        /// Refractive index, above zero; a pure ratio.
        index: f64,
    },
    /// A round opening.
    Stop(Length),
}

/// Most parts of a train; the last place is kept for the gap to the eye.
const MOST: usize = 16;

/// Lenses, gaps, glass and stops in the order light meets them; at most 15, and the gap to the eye. It needs no allocator.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Train {
    elements: List<Element, MOST>,
}

/// An opening as the eye's end of the train sees it: the height there is `alpha·y_eye + beta·slope_eye`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Aperture {
    pub(crate) alpha: f64,
    pub(crate) beta: Length,
    pub(crate) radius: Length,
}

impl Train {
    /// A train of these parts, first met first; more than 15 do not compile.
    ///
    /// ```
    /// use arcminute_core::{optics::{Element, Train}, unit::{Length, Vergence}};
    /// let lens = |power| Element::Lens { power: Vergence::from_dioptres(power), clear_diameter: None };
    /// // Two lenses of +10 D, 20 mm apart: 10 + 10 − 0.02·100 = 18 D together (computed).
    /// let pair = Train::new([lens(10.0), Element::Gap(Length::from_mm(20.0)), lens(10.0)]);
    /// assert!((pair.matrix().c.dioptres() + 18.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn new<const PARTS: usize>(elements: [Element; PARTS]) -> Self {
        const { assert!(PARTS < MOST, "a train has at most 15 parts") }
        let mut train = Self::default();
        // It fits, as just asserted.
        let _ = train.elements.try_push_all(&elements);
        train
    }

    /// A train of these parts, first met first.
    ///
    /// # Errors
    /// [`Why::NoSolution`] for more than 15 parts.
    ///
    /// ```
    /// use arcminute_core::{optics::{Element, Train}, unit::Length};
    /// let stop = Element::Stop(Length::from_mm(5.0));
    /// assert_eq!(Train::of(&[stop; 15])?.elements().len(), 15);
    /// let refused = Train::of(&[stop; 16]).unwrap_err();
    /// assert_eq!(refused.to_string(), "optical system `16 parts` has no solution: a train has at most 15 parts");
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn of(elements: &[Element]) -> Result<Self, Error> {
        Self::default().with(elements)
    }

    /// This train, then `behind`.
    ///
    /// # Errors
    /// [`Why::NoSolution`] for more than 15 parts in all.
    ///
    /// ```
    /// use arcminute_core::{optics::{Element, Train}, unit::{Length, Vergence}};
    /// let lens = |power| Element::Lens { power: Vergence::from_dioptres(power), clear_diameter: None };
    /// // 20 and 80 D, 62.5 mm apart: 4x, the wrong way up (computed).
    /// let objective = Train::of(&[lens(20.0), Element::Gap(Length::from_mm(62.5))])?;
    /// let whole = objective.then(&Train::of(&[lens(80.0)])?)?;
    /// assert!((whole.matrix().d + 4.0).abs() < 1e-12);
    /// # Ok::<(), arcminute_core::Error>(())
    /// ```
    pub fn then(self, behind: &Self) -> Result<Self, Error> {
        self.with(&behind.elements)
    }

    fn with(mut self, behind: &[Element]) -> Result<Self, Error> {
        let parts = self.elements.len().saturating_add(behind.len());
        if parts < MOST && self.elements.try_push_all(behind).is_ok() {
            return Ok(self);
        }
        let why = Why::NoSolution { because: "a train has at most 15 parts" };
        Err(Error::about("optical system", format_args!("{parts} parts"), why))
    }

    /// The parts, first met first.
    ///
    /// ```
    /// use arcminute_core::{optics::{Element, Train}, unit::Length};
    /// let stop = Element::Stop(Length::from_mm(5.0));
    /// let train = Train::new([stop]).to_eye(Length::from_mm(12.0));
    /// assert_eq!(train.elements(), [stop, Element::Gap(Length::from_mm(12.0))]);
    /// ```
    #[must_use]
    pub fn elements(&self) -> &[Element] {
        &self.elements
    }

    /// The same train with a gap behind it, up to the eye; a gap that stands last is lengthened.
    ///
    /// ```
    /// use arcminute_core::{optics::{Element, Train}, unit::Length};
    /// let cm = Length::from_cm;
    /// // 10 cm and then 2 cm more are one gap of 12 cm.
    /// let train = Train::new([Element::Gap(cm(10.0))]).to_eye(cm(2.0));
    /// assert_eq!(train.elements().len(), 1);
    /// assert!((train.length().cm() - 12.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn to_eye(mut self, last_part_to_eye: Length) -> Self {
        if let Some(Element::Gap(gap)) = self.elements.last_mut() {
            *gap = *gap + last_part_to_eye;
        } else {
            // There is always room: other parts never take the last place.
            let _ = self.elements.try_push(Element::Gap(last_part_to_eye));
        }
        self
    }

    /// Matrix from the front of the first part to the back of the last.
    ///
    /// ```
    /// use arcminute_core::{optics::{Element, Train}, unit::{Length, Vergence}};
    /// let lens = |power| Element::Lens { power: Vergence::from_dioptres(power), clear_diameter: None };
    /// // 20 and −50 D, 30 mm apart: no power of its own, slopes 2.5 times as steep (computed).
    /// let galilean = Train::new([lens(20.0), Element::Gap(Length::from_mm(30.0)), lens(-50.0)]).matrix();
    /// assert!(galilean.c.dioptres().abs() < 1e-12);
    /// assert!((galilean.d - 2.5).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn matrix(&self) -> RayMatrix {
        matrix_of(&self.elements)
    }

    /// From the front of the first part to the back of the last.
    ///
    /// ```
    /// use arcminute_core::{optics::{Element, Train}, unit::Length};
    /// let mm = Length::from_mm;
    /// // Glass counts by its thickness, not by its air-equivalent.
    /// let train = Train::new([Element::Glass { thickness: mm(9.0), index: 1.5 }, Element::Gap(mm(11.0))]);
    /// assert!((train.length().mm() - 20.0).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn length(&self) -> Length {
        self.elements.iter().fold(Length::ZERO, |sum, element| match element {
            Element::Gap(gap) => sum + *gap,
            Element::Glass { thickness, .. } => sum + *thickness,
            Element::Lens { .. } | Element::Stop(_) => sum,
        })
    }

    /// Path of a ray that enters at `height` with `slope`: distance from the front and height, at the front and
    /// behind each gap and glass. `slope` is a pure ratio; no opening stops the ray.
    ///
    /// ```
    /// use arcminute_core::{optics::{Element, Train}, unit::{Length, Vergence}};
    /// let mm = Length::from_mm;
    /// // A level ray 10 mm up meets the axis 50 mm behind a +20 D lens.
    /// let lens = Train::new([Element::Lens { power: Vergence::from_dioptres(20.0), clear_diameter: None }]);
    /// let path = lens.to_eye(mm(50.0)).trace(mm(10.0), 0.0);
    /// assert_eq!(path[0], (Length::ZERO, mm(10.0)));
    /// assert!((path[1].0 - mm(50.0)).mm().abs() < 1e-12 && path[1].1.mm().abs() < 1e-12);
    /// ```
    #[cfg(feature = "alloc")]
    #[must_use]
    pub fn trace(&self, height: Length, slope: f64) -> Vec<(Length, Length)> {
        let (mut z, mut y, mut u) = (Length::ZERO, height, slope);
        let mut path = alloc::vec![(z, y)];
        for element in &self.elements {
            match element {
                Element::Lens { power, .. } => u -= power.dioptres() * y.m(),
                Element::Gap(gap) => {
                    z = z + *gap;
                    y = y + *gap * u;
                    path.push((z, y));
                }
                Element::Glass { thickness, index } => {
                    z = z + *thickness;
                    y = y + *thickness * (u / index);
                    path.push((z, y));
                }
                Element::Stop(_) => {}
            }
        }
        path
    }

    /// Every opening in it, seen from the end of the train.
    pub(crate) fn apertures(&self) -> List<Aperture, MOST> {
        let mut apertures = List::new();
        let mut to_end = RayMatrix::identity();
        for element in self.elements.iter().rev() {
            // Height is the same on both faces of a thin lens, so the lens itself may be counted as behind the opening.
            to_end = matrix_of(core::slice::from_ref(element)).then(to_end);
            if let Element::Lens { clear_diameter: Some(diameter), .. } | Element::Stop(diameter) = element {
                // Never full: there are no more openings than parts.
                let _ = apertures.try_push(Aperture {
                    alpha: to_end.d,
                    beta: -to_end.b,
                    radius: *diameter / 2.0,
                });
            }
        }
        apertures
    }
}

fn matrix_of(elements: &[Element]) -> RayMatrix {
    elements.iter().fold(RayMatrix::identity(), |so_far, element| match element {
        Element::Lens { power, .. } => so_far.then(RayMatrix::lens(*power)),
        Element::Gap(gap) => so_far.then(RayMatrix::gap(*gap)),
        Element::Glass { thickness, index } => so_far.then(RayMatrix::gap(*thickness / *index)),
        Element::Stop(_) => so_far,
    })
}
