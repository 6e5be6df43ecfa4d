//! What the search works on: the aids that may be needed, sets of them, and what wishes weigh.

use super::MOST_AIDS;
use crate::list::{List, NoRoom};
use core::cmp::Ordering;

/// What the wishes of each byte of a mask weigh together.
pub(super) struct Weights([[u32; 256]; 4]);

impl Weights {
    /// From the weight of each wish; a missing one and one of zero count as one.
    pub(super) fn new(weights: &[u16]) -> Self {
        let mut bytes = [[0; 256]; 4];
        for (first, table) in [0, 8, 16, 24].into_iter().zip(&mut bytes) {
            let of_byte = weights.get(first..).unwrap_or_default().iter().map(|weight| (*weight).max(1));
            for (byte, together) in (0..256).zip(table) {
                let wishes = (0..8).zip(of_byte.clone().chain([1; 8])).filter(|(bit, _)| is_in(byte, *bit));
                *together = wishes.fold(0, |sum, (_, weight)| u32::from(weight).saturating_add(sum));
            }
        }
        Self(bytes)
    }

    /// What these wishes weigh together.
    pub(super) fn of(&self, wishes: u32) -> u32 {
        let bytes = self.0.iter().zip(wishes.to_le_bytes());
        bytes.fold(0, |sum, (table, byte)| {
            table.get(usize::from(byte)).copied().unwrap_or_default().saturating_add(sum)
        })
    }
}

/// An aid, cut to what is wanted.
#[derive(Clone, Copy, Debug)]
pub(super) struct Aid {
    pub(super) covers: u32,
    /// Weight of those.
    pub(super) weight: u32,
    pub(super) hands_free: u32,
    pub(super) hundredths: f64,
    pub(super) kind: u16,
    /// A number of its kind, below [`MOST_AIDS`]; set for the aids that are kept.
    pub(super) kind_place: usize,
    pub(super) place: usize,
}

pub(super) type Aids = List<Aid, MOST_AIDS>;

impl Aid {
    /// Whether a best set never needs `other` while there is `self`: with it in place of the other, a set serves no less,
    /// hands free no less, and takes less power, or else the same, of the same kinds, and stands earlier in the list. A
    /// set that holds both is no best one: the other adds nothing, and any aid for a wish not served would.
    fn replaces(&self, other: &Self) -> bool {
        let serves = other.covers & !self.covers == 0 && other.hands_free & !self.hands_free == 0;
        serves
            && (self.hundredths < other.hundredths
                || (self.hundredths <= other.hundredths
                    && self.kind == other.kind
                    && self.place < other.place))
    }

    /// Which of two is looked at first: the one that serves more.
    fn before(&self, other: &Self) -> bool {
        let served = |aid: &Self| (aid.weight, aid.hands_free.count_ones());
        match served(other).cmp(&served(self)) {
            Ordering::Less => true,
            Ordering::Greater => false,
            Ordering::Equal => (self.hundredths, self.place) < (other.hundredths, other.place),
        }
    }
}

/// The aids that none replaces, the most serving first.
pub(super) fn without_replaceable<I: Iterator<Item = Aid>>(all: impl Fn() -> I) -> Result<Aids, NoRoom> {
    let mut kept = Aids::new();
    for aid in all() {
        if !all().any(|other| other.replaces(&aid)) {
            kept.try_push(aid).map_err(|_| NoRoom)?;
        }
    }
    let mut sorted = kept.clone();
    for aid in &kept {
        let same_kind = kept.iter().position(|other| other.kind == aid.kind);
        // As many stand before it as are looked at first: no two share that number.
        let before = kept.iter().filter(|other| other.before(aid));
        let before = before.fold(0_usize, |count, _| count.saturating_add(1));
        if let Some(slot) = sorted.get_mut(before) {
            *slot = Aid { kind_place: same_kind.unwrap_or_default(), ..*aid };
        }
    }
    Ok(sorted)
}

/// Aids by their place in the list that is searched.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Set([u64; MOST_AIDS / 64]);

impl Set {
    fn bit(place: usize) -> (usize, u64) {
        (place / 64, 1_u64.rotate_left(u32::try_from(place % 64).unwrap_or_default()))
    }
    pub(super) fn put(&mut self, place: usize) {
        let (word, bit) = Self::bit(place);
        if let Some(word) = self.0.get_mut(word) {
            *word |= bit;
        }
    }
    pub(super) fn take(&mut self, place: usize) {
        let (word, bit) = Self::bit(place);
        if let Some(word) = self.0.get_mut(word) {
            *word &= !bit;
        }
    }
    pub(super) fn and(self, other: &Self) -> Self {
        let mut both = self;
        both.0.iter_mut().zip(other.0).for_each(|(word, other)| *word &= other);
        both
    }
    pub(super) fn count(&self) -> u32 {
        self.0.iter().fold(0, |count, word| word.count_ones().saturating_add(count))
    }
    /// Places in it, rising.
    pub(super) fn iter(&self) -> impl Iterator<Item = usize> + Clone + use<> {
        (0..MOST_AIDS).step_by(64).zip(self.0).flat_map(|(first, bits)| {
            core::iter::successors((bits != 0).then_some(bits), |bits| {
                let rest = bits & bits.wrapping_sub(1);
                (rest != 0).then_some(rest)
            })
            .map(move |bits| first.saturating_add(bits.trailing_zeros() as usize))
        })
    }
}

/// Whether a wish, counted from zero, is among these.
pub(super) fn is_in(wishes: u32, wish: u32) -> bool {
    wishes & 1_u32.rotate_left(wish) != 0
}
