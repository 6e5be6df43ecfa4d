//! What aids are compared on, and sets of it.

/// One thing that a person would weigh; on each more is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[repr(u16)]
pub enum Criterion {
    /// Chance that the wish is reached.
    Chance = 1,
    /// How much is seen at once.
    SeenAtOnce = 1 << 1,
    /// Room between the thing and the aid.
    HandRoom = 1 << 2,
    /// Sharpness: the less is left out of focus beyond what does no harm, the better.
    Focus = 1 << 3,
    /// How far the thing may move and still be in focus.
    Depth = 1 << 4,
    /// Light that is let through.
    Light = 1 << 5,
    /// Hands left free.
    HandsFree = 1 << 6,
    /// Used with both eyes.
    BothEyes = 1 << 7,
    /// The less movement of head or hand costs, the better.
    Steadiness = 1 << 8,
    /// Can be worn while walking.
    Walking = 1 << 9,
    /// The less power, the better: power is paid for.
    LowPower = 1 << 10,
}

impl Criterion {
    /// All of them, in the order in which a list that knows of no other is put.
    pub const ALL: [Self; 11] = [
        Self::Chance,
        Self::SeenAtOnce,
        Self::HandRoom,
        Self::Focus,
        Self::Depth,
        Self::Light,
        Self::HandsFree,
        Self::BothEyes,
        Self::Steadiness,
        Self::Walking,
        Self::LowPower,
    ];

    /// Its stable key.
    ///
    /// ```
    /// use arcminute_core::rank::Criterion;
    /// assert_eq!(Criterion::SeenAtOnce.key(), "seen-at-once");
    /// ```
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::Chance => "chance",
            Self::SeenAtOnce => "seen-at-once",
            Self::HandRoom => "hand-room",
            Self::Focus => "focus",
            Self::Depth => "depth",
            Self::Light => "light",
            Self::HandsFree => "hands-free",
            Self::BothEyes => "both-eyes",
            Self::Steadiness => "steadiness",
            Self::Walking => "walking",
            Self::LowPower => "low-power",
        }
    }
}

/// A set of criteria.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Criteria(u16);

impl Criteria {
    /// None of them.
    pub const NONE: Self = Self(0);
    /// All of them.
    pub const ALL: Self = Self((1 << Criterion::ALL.len()) - 1);

    /// These; one named twice counts once.
    ///
    /// ```
    /// use arcminute_core::rank::{Criteria, Criterion};
    /// assert_eq!(Criteria::of(&Criterion::ALL), Criteria::ALL);
    /// assert!(Criteria::of(&[]).is_empty());
    /// ```
    #[must_use]
    pub fn of(criteria: &[Criterion]) -> Self {
        criteria.iter().fold(Self::NONE, |set, criterion| set.with(*criterion))
    }
    /// The same and this one.
    ///
    /// ```
    /// use arcminute_core::rank::{Criteria, Criterion};
    /// assert!(Criteria::NONE.with(Criterion::Light).contains(Criterion::Light));
    /// ```
    #[must_use]
    pub fn with(self, criterion: Criterion) -> Self {
        Self(self.0 | criterion as u16)
    }
    /// The same without this one.
    ///
    /// ```
    /// use arcminute_core::rank::{Criteria, Criterion};
    /// let but_light = Criteria::ALL.without(Criterion::Light);
    /// assert!(!but_light.contains(Criterion::Light) && but_light.contains(Criterion::Depth));
    /// ```
    #[must_use]
    pub fn without(self, criterion: Criterion) -> Self {
        Self(self.0 & !(criterion as u16))
    }
    /// What is in both.
    ///
    /// ```
    /// use arcminute_core::rank::{Criteria, Criterion};
    /// let (one, other) = ([Criterion::Light, Criterion::Depth], [Criterion::Depth, Criterion::Focus]);
    /// assert_eq!(Criteria::of(&one).and(Criteria::of(&other)), Criteria::of(&[Criterion::Depth]));
    /// ```
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }
    /// Whether it is one of them.
    ///
    /// ```
    /// use arcminute_core::rank::{Criteria, Criterion};
    /// let set = Criteria::of(&[Criterion::Light]);
    /// assert!(set.contains(Criterion::Light) && !set.contains(Criterion::Depth));
    /// ```
    #[must_use]
    pub fn contains(self, criterion: Criterion) -> bool {
        self.0 & criterion as u16 != 0
    }
    /// Whether there is none.
    ///
    /// ```
    /// use arcminute_core::rank::Criteria;
    /// assert!(Criteria::NONE.is_empty() && !Criteria::ALL.is_empty());
    /// ```
    #[must_use]
    pub fn is_empty(self) -> bool {
        self == Self::NONE
    }
    /// Each of them, in the order of [`Criterion::ALL`].
    ///
    /// ```
    /// use arcminute_core::rank::{Criteria, Criterion};
    /// let set = Criteria::of(&[Criterion::Light, Criterion::SeenAtOnce]);
    /// assert!(set.iter().eq([Criterion::SeenAtOnce, Criterion::Light]));
    /// ```
    pub fn iter(self) -> impl Iterator<Item = Criterion> {
        Criterion::ALL.into_iter().filter(move |criterion| self.contains(*criterion))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use alloc::collections::BTreeSet;
    use alloc::vec::Vec;

    #[test]
    fn each_has_a_key_and_a_bit_of_its_own() {
        let keys: BTreeSet<_> = Criterion::ALL.map(Criterion::key).into();
        assert_eq!(keys.len(), Criterion::ALL.len(), "a key stands twice");
        for (place, criterion) in Criterion::ALL.into_iter().enumerate() {
            assert_eq!(criterion as u16, 1 << place, "{criterion:?} is out of order");
        }
    }

    #[test]
    fn a_set_holds_what_was_put_in() {
        for bits in 0..1_u16 << Criterion::ALL.len() {
            let wanted = Criterion::ALL.into_iter().filter(|criterion| *criterion as u16 & bits != 0);
            let wanted: Vec<_> = wanted.collect();
            let set = Criteria::of(&wanted);
            assert!(set.iter().eq(wanted.iter().copied()), "{wanted:?}");
            assert_eq!(set.is_empty(), wanted.is_empty());
            for criterion in Criterion::ALL {
                assert!(
                    set.with(criterion).contains(criterion) && !set.without(criterion).contains(criterion)
                );
                assert_eq!(set.contains(criterion), wanted.contains(&criterion));
            }
            assert_eq!((set.and(Criteria::ALL), set.and(Criteria::NONE)), (set, Criteria::NONE));
        }
    }
}
