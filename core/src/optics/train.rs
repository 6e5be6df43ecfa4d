//! A device as light meets it: lenses, gaps and stops in a row.

use super::RayMatrix;
use crate::unit::{Length, Vergence};
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
    /// Air, or glass at its air-equivalent length.
    Gap(Length),
    /// A round opening.
    Stop(Length),
}

/// Lenses, gaps and stops in the order light meets them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Train {
    /// The parts, first met first.
    pub elements: Vec<Element>,
}

/// An opening as the eye's end of the train sees it: the height there is `alpha·y_eye + beta·slope_eye`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Aperture {
    pub(crate) alpha: f64,
    pub(crate) beta: Length,
    pub(crate) radius: Length,
}

impl Train {
    /// A train of these parts.
    #[must_use]
    pub fn new(elements: impl Into<Vec<Element>>) -> Self {
        Self { elements: elements.into() }
    }

    /// The same train with a gap behind it, up to the eye.
    #[must_use]
    pub fn to_eye(mut self, last_part_to_eye: Length) -> Self {
        self.elements.push(Element::Gap(last_part_to_eye));
        self
    }

    /// Matrix from the front of the first part to the back of the last.
    #[must_use]
    pub fn matrix(&self) -> RayMatrix {
        matrix_of(&self.elements)
    }

    /// Sum of the gaps.
    #[must_use]
    pub fn length(&self) -> Length {
        self.elements.iter().fold(Length::ZERO, |sum, element| match element {
            Element::Gap(gap) => sum + *gap,
            Element::Lens { .. } | Element::Stop(_) => sum,
        })
    }

    /// Path of a ray that enters at `height` with `slope`: distance from the front and height, at each part.
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
                Element::Stop(_) => {}
            }
        }
        path
    }

    /// Every opening in it, seen from the end of the train.
    pub(crate) fn apertures(&self) -> Vec<Aperture> {
        let mut apertures = Vec::new();
        for (index, element) in self.elements.iter().enumerate() {
            let diameter = match element {
                Element::Lens { clear_diameter: Some(diameter), .. } | Element::Stop(diameter) => *diameter,
                Element::Lens { clear_diameter: None, .. } | Element::Gap(_) => continue,
            };
            // Height is the same on both faces of a thin lens, so the lens itself may be counted as behind the opening.
            let to_end = matrix_of(&self.elements[index..]);
            apertures.push(Aperture { alpha: to_end.d, beta: -to_end.b, radius: diameter / 2.0 });
        }
        apertures
    }
}

fn matrix_of(elements: &[Element]) -> RayMatrix {
    elements.iter().fold(RayMatrix::identity(), |so_far, element| match element {
        Element::Lens { power, .. } => so_far.then(RayMatrix::lens(*power)),
        Element::Gap(gap) => so_far.then(RayMatrix::gap(*gap)),
        Element::Stop(_) => so_far,
    })
}
