//! The parts of a train as they are drawn: lenses, blocks and openings, and what they are called.

use super::RaysInput;
use arcminute_core::math;
use arcminute_core::optics::{Element, Train};
use arcminute_core::unit::Vergence;

/// A solid lens or block: two surfaces and what lies between them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Solid {
    pub(super) thickness: f64,
    pub(super) index: f64,
    pub(super) front: Vergence,
    pub(super) back: Vergence,
}

impl Solid {
    /// A block has its flat face in front.
    pub(super) fn is_block(&self) -> bool {
        self.front == Vergence::ZERO
    }

    /// Radius of a surface, in millimetres; `None` for a flat one.
    pub(super) fn radius_of(&self, surface: Vergence) -> Option<f64> {
        let radius = 1000.0 * (self.index - 1.0) / surface.dioptres();
        (radius.is_finite() && 1e-6 < math::abs(radius)).then_some(radius)
    }

    /// How high the sphere of the back stands over the flat face: the greatest half height of a block.
    fn half_height(&self) -> Option<f64> {
        let radius = self.radius_of(self.back).filter(|radius| 0.0 < *radius)?;
        let left = radius - self.thickness;
        let half = if left <= 0.0 { radius } else { math::sqrt(radius * radius - left * left) };
        (self.is_block() && half.is_finite()).then_some(half)
    }
}

/// A lens of the train; thin lenses that touch are one, and so are the surfaces of a solid one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Part {
    /// Front of it, from the front of the train.
    pub(super) place: f64,
    /// Power of a thin one, equivalent power of a solid one.
    pub(super) power: Vergence,
    /// Half of the opening, where it has a rim.
    pub(super) radius: Option<f64>,
    /// What it is made of, where that has a thickness.
    pub(super) solid: Option<Solid>,
    /// How many thin lenses with power it is.
    pub(super) lenses: usize,
    /// Its last element in the train.
    pub(super) last: usize,
}

impl Part {
    /// Where the light leaves it.
    pub(super) fn back(&self) -> f64 {
        self.place + self.solid.map_or(0.0, |solid| solid.thickness)
    }

    /// Half the height that it is known to have: that of its rim, or of its block.
    pub(super) fn known_half_height(&self) -> Option<f64> {
        let half = self.radius.or_else(|| self.solid.and_then(|solid| solid.half_height()));
        half.filter(|half| half.is_finite())
    }
}

/// A round opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct OpeningAt {
    pub(super) place: f64,
    pub(super) radius: f64,
}

/// What a train is drawn as.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Parts {
    pub(super) lenses: Vec<Part>,
    pub(super) names: Vec<String>,
    /// Whether the last lens is the glasses that are worn.
    pub(super) glasses: bool,
    pub(super) stops: Vec<OpeningAt>,
}

impl Parts {
    pub(super) fn of(input: &RaysInput<'_>) -> Self {
        let (mut lenses, stops) = found(input.train);
        // What bends nothing and limits nothing is glass in a frame at most.
        lenses.retain(|lens| {
            lens.solid.is_some() || lens.radius.is_some() || lens.power.abs() != Vergence::ZERO
        });
        let rimless = lenses.last().is_some_and(|lens| lens.radius.is_none() && lens.solid.is_none());
        let glasses = rimless && (input.afocal.is_none() || 2 < lenses.len());
        let mut parts = Self { lenses, names: Vec::new(), glasses, stops };
        parts.names = (0..parts.lenses.len())
            .map(|index| match input.names.get(index) {
                Some(name) if !name.is_empty() => (*name).into(),
                _ => parts.own_name(index, input.afocal.is_some()),
            })
            .collect();
        parts
    }

    /// The lenses of the aid itself, without the glasses.
    pub(super) fn of_aid(&self) -> &[Part] {
        let worn = usize::from(self.glasses);
        self.lenses.get(..self.lenses.len() - worn).unwrap_or_default()
    }

    /// The last lens of the aid, or the glasses where they are all there is, with its name.
    pub(super) fn last(&self) -> Option<(&Part, &str)> {
        let place = self.of_aid().len().max(1) - 1;
        Some((self.lenses.get(place)?, self.names.get(place)?))
    }

    fn own_name(&self, index: usize, telescope: bool) -> String {
        let aid = self.of_aid();
        let Some(lens) = aid.get(index) else { return "glasses".into() };
        let is_last = index + 1 == aid.len();
        match (telescope, index, is_last) {
            (true, 0, false) if 1 < lens.lenses => "cap, objective".into(),
            (true, 0, false) => "objective".into(),
            (true, 1.., true) => "eyepiece".into(),
            (true, 1.., false) => "middle lens".into(),
            _ => {
                let name = if lens.solid.is_some_and(|solid| solid.is_block()) { "block" } else { "lens" };
                if 1 < aid.len() { format!("{name} {}", index + 1) } else { name.into() }
            }
        }
    }
}

fn found(train: &Train) -> (Vec<Part>, Vec<OpeningAt>) {
    let (mut lenses, mut stops) = (Vec::<Part>::new(), Vec::new());
    let mut place = 0.0;
    // Whether the element before was glass: then a lens is its back.
    let mut behind_glass = false;
    for (index, element) in train.elements().iter().enumerate() {
        let was_glass = std::mem::take(&mut behind_glass);
        match *element {
            Element::Gap(gap) if gap.is_finite() => place += gap.mm(),
            Element::Gap(_) => {}
            Element::Stop(diameter) => stops.push(OpeningAt { place, radius: diameter.mm() / 2.0 }),
            Element::Glass { thickness, index: n } => {
                let thickness = if thickness.is_finite() { thickness.mm() } else { 0.0 };
                let front = lenses.pop_if(|lens| lens.solid.is_none() && place - lens.place < 1e-6);
                let solid = Solid {
                    thickness,
                    index: n,
                    front: front.map_or(Vergence::ZERO, |front| front.power),
                    back: Vergence::ZERO,
                };
                lenses.push(Part {
                    place,
                    power: solid.front,
                    radius: front.and_then(|front| front.radius),
                    solid: Some(solid),
                    lenses: 1,
                    last: index,
                });
                place += thickness;
                behind_glass = true;
            }
            Element::Lens { power, clear_diameter } => {
                let radius = clear_diameter.map(|diameter| diameter.mm() / 2.0);
                let powered = usize::from(power != Vergence::ZERO);
                match lenses.last_mut() {
                    Some(Part { solid: Some(solid), power: whole, radius: rim, last, .. }) if was_glass => {
                        solid.back = power;
                        let path = Vergence::from_dioptres(
                            solid.front.dioptres() * power.dioptres() * solid.thickness
                                / (1000.0 * solid.index),
                        );
                        *whole = solid.front + power - path;
                        *rim = radius.or(*rim);
                        *last = index;
                    }
                    Some(lens) if lens.solid.is_none() && place - lens.place < 1e-6 => {
                        lens.power = lens.power + power;
                        lens.radius = lens.radius.or(radius);
                        lens.lenses += powered;
                        lens.last = index;
                    }
                    _ => {
                        lenses.push(Part { place, power, radius, solid: None, lenses: powered, last: index })
                    }
                }
            }
        }
    }
    (lenses, stops)
}
