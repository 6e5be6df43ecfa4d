//! The search: which set of a given size is best.
//!
//! It looks at the wish that the fewest aids serve. One of those aids is in the set, or the wish stays unserved: each is
//! tried in turn, and an aid that was tried is out of the question from then on, so no set is met twice. A branch is left
//! as soon as the most that its aids could still add would not make it the best.

use super::pool::{Aid, Set, Weights, is_in};
use super::{Exactness, MOST_AIDS, MOST_WISHES};
use crate::list::List;
use core::cmp::Ordering;

/// What decides between sets of one size, but for the order of the list.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Score {
    pub(super) weight: u32,
    pub(super) hands_free: u32,
    pub(super) hundredths: f64,
    pub(super) kinds: usize,
}

impl Score {
    /// Greater is better.
    fn against(&self, other: &Self) -> Ordering {
        let most = self.weight.cmp(&other.weight).then(self.hands_free.cmp(&other.hands_free));
        most.then(other.hundredths.total_cmp(&self.hundredths)).then(other.kinds.cmp(&self.kinds))
    }
}

/// The best set of its size that was found.
#[derive(Clone, Debug)]
pub(super) struct Found {
    pub(super) places: List<usize, MOST_WISHES>,
    pub(super) covered: u32,
    pub(super) hands_free: u32,
    pub(super) score: Score,
    pub(super) exactness: Exactness,
    pub(super) nodes: u32,
}

/// A set that is being put together.
#[derive(Clone, Copy, Debug, Default)]
struct Partial {
    size: usize,
    covered: u32,
    hands_free: u32,
    weight: u32,
    hundredths: f64,
    kinds: usize,
}

impl Partial {
    fn score(&self) -> Score {
        Score {
            weight: self.weight,
            hands_free: self.hands_free.count_ones(),
            hundredths: self.hundredths,
            kinds: self.kinds,
        }
    }
}

pub(super) struct Search<'a> {
    aids: &'a [Aid],
    /// For each wish the aids that serve it.
    serving: [Set; MOST_WISHES],
    weights: &'a Weights,
    /// The aids of the set that is being put together; as many count as it has.
    picked: [usize; MOST_WISHES],
    best: Option<Found>,
    /// Weight that a set must have to be of interest.
    floor: u32,
    nodes: u32,
    most_nodes: u32,
}

impl<'a> Search<'a> {
    pub(super) fn new(aids: &'a [Aid], weights: &'a Weights) -> Self {
        let mut serving = [Set::default(); MOST_WISHES];
        for (wish, set) in (0..32).zip(&mut serving) {
            for (place, _) in (0..MOST_AIDS).zip(aids).filter(|(_, aid)| is_in(aid.covers, wish)) {
                set.put(place);
            }
        }
        Self {
            aids,
            serving,
            weights,
            picked: [0; MOST_WISHES],
            best: None,
            floor: 0,
            nodes: 0,
            most_nodes: 0,
        }
    }

    /// The best set of so many aids, none of which adds nothing; none does in a best set that is not too large.
    ///
    /// After `most_nodes` steps it is the best one found till then.
    pub(super) fn best_of(&mut self, size: usize, most_nodes: u32) -> Found {
        (self.best, self.nodes, self.most_nodes) = (None, 0, most_nodes);
        let mut all = Set::default();
        (0..self.aids.len()).for_each(|place| all.put(place));
        self.start_from(all, size);
        // First only what serves everything: where there is such a set it is the answer, and far fewer are tried.
        let everything = self.weights.of(self.aids.iter().fold(0, |all, aid| all | aid.covers));
        self.floor = everything;
        self.search(all, &Partial::default(), size);
        if self.best.as_ref().is_none_or(|best| best.score.weight < everything) {
            self.floor = 0;
            self.search(all, &Partial::default(), size);
        }
        let nodes = self.nodes;
        let exactness = if nodes < most_nodes { Exactness::Proved } else { Exactness::LimitReached };
        let nothing = Found {
            places: List::new(),
            covered: 0,
            hands_free: 0,
            score: Partial::default().score(),
            exactness,
            nodes,
        };
        self.best.take().map_or(nothing, |best| Found { exactness, nodes, ..best })
    }

    /// A first set to beat: each time the aid that adds most.
    fn start_from(&mut self, all: Set, size: usize) {
        let mut partial = Partial::default();
        while partial.size < size {
            let mut next: Option<(usize, Partial)> = None;
            for place in all.iter() {
                let Some(with) = self.with(&partial, place) else { continue };
                let better = |(_, best): &(usize, Partial)| best.score().against(&with.score()).is_lt();
                if next.as_ref().is_none_or(better) {
                    next = Some((place, with));
                }
            }
            // Nothing adds anything: there is no such set.
            let Some((place, with)) = next else { return };
            self.pick(&partial, place);
            partial = with;
        }
        self.consider(&partial);
    }

    fn pick(&mut self, partial: &Partial, place: usize) {
        if let Some(slot) = self.picked.get_mut(partial.size) {
            *slot = place;
        }
    }

    fn picked(&self, partial: &Partial) -> impl Iterator<Item = &Aid> + Clone {
        self.picked.iter().take(partial.size).filter_map(|place| self.aids.get(*place))
    }

    /// The set and one aid more; nothing when that adds nothing.
    fn with(&self, partial: &Partial, place: usize) -> Option<Partial> {
        let aid = self.aids.get(place)?;
        let gained = aid.covers & !partial.covered;
        if gained == 0 {
            return None;
        }
        let is_new = self.picked(partial).all(|picked| picked.kind != aid.kind);
        Some(Partial {
            size: partial.size.saturating_add(1),
            covered: partial.covered | gained,
            hands_free: partial.hands_free | aid.hands_free,
            weight: partial.weight.saturating_add(self.weights.of(gained)),
            hundredths: partial.hundredths + aid.hundredths,
            kinds: partial.kinds.saturating_add(usize::from(is_new)),
        })
    }

    /// Takes the aids picked as the best set, if they are.
    fn consider(&mut self, partial: &Partial) {
        let score = partial.score();
        let order = self.best.as_ref().map_or(Ordering::Greater, |best| score.against(&best.score));
        if order.is_lt() {
            return;
        }
        let places = rising(self.picked(partial).map(|aid| aid.place), MOST_WISHES);
        let earlier = self.best.as_ref().is_none_or(|best| places.as_slice() < best.places.as_slice());
        if order.is_gt() || earlier {
            let Partial { covered, hands_free, .. } = *partial;
            let (exactness, nodes) = (Exactness::Proved, 0);
            self.best = Some(Found { places, covered, hands_free, score, exactness, nodes });
        }
    }

    /// Tries every set of `left` more aids out of `allowed`.
    fn search(&mut self, mut allowed: Set, partial: &Partial, left: usize) {
        let after = match left {
            0 => return self.consider(partial),
            1 => return self.last(&allowed, partial),
            _ => left.saturating_sub(1),
        };
        loop {
            self.nodes = self.nodes.saturating_add(1);
            if self.most_nodes <= self.nodes {
                return;
            }
            let gains = self.greatest_gains(&allowed, partial, left);
            let gain = |count| gains.iter().take(count).fold(0, |sum: u32, gain| sum.saturating_add(*gain));
            let most = partial.weight.saturating_add(gain(left));
            if most < self.needed() {
                return;
            }
            let (reach, rarest) = self.reach(&allowed, partial);
            let most = most.min(partial.weight.saturating_add(self.weights.of(reach)));
            if reach == 0 || most < self.needed() || self.loses_tie(&allowed, partial, left, most) {
                return;
            }
            let others = gain(after);
            for place in rarest.iter() {
                allowed.take(place);
                let Some(with) = self.with(partial, place) else { continue };
                if self.needed() <= with.weight.saturating_add(others) {
                    self.pick(partial, place);
                    self.search(allowed, &with, after);
                }
            }
            // From here on that wish stays unserved: all that serve it are out of the question.
        }
    }

    /// Tries every set of one more aid.
    fn last(&mut self, allowed: &Set, partial: &Partial) {
        self.nodes = self.nodes.saturating_add(1);
        for place in allowed.iter() {
            let Some(aid) = self.aids.get(place) else { continue };
            let needed = self.needed().saturating_sub(partial.weight);
            if aid.weight < needed {
                // The others serve less still.
                return;
            }
            if needed <= self.weights.of(aid.covers & !partial.covered)
                && let Some(with) = self.with(partial, place)
            {
                self.pick(partial, place);
                self.consider(&with);
            }
        }
    }

    /// Weight that a set must have to be of interest.
    fn needed(&self) -> u32 {
        self.best.as_ref().map_or(0, |best| best.score.weight).max(self.floor)
    }

    /// The greatest weights that so many of these aids could add, greatest first, as if no two served the same.
    fn greatest_gains(&self, allowed: &Set, partial: &Partial, count: usize) -> [u32; MOST_WISHES] {
        let mut greatest = [0; MOST_WISHES];
        let mut least = 0;
        for aid in allowed.iter().filter_map(|place| self.aids.get(place)) {
            if aid.weight <= least {
                // The others serve less still.
                break;
            }
            let mut gain = self.weights.of(aid.covers & !partial.covered);
            for slot in greatest.iter_mut().take(count) {
                (*slot, gain) = ((*slot).max(gain), (*slot).min(gain));
                least = *slot;
            }
        }
        greatest
    }

    /// Wishes, not served yet, that one of these aids serves; and the aids for the one that fewest serve.
    fn reach(&self, allowed: &Set, partial: &Partial) -> (u32, Set) {
        let (mut reach, mut rarest, mut fewest) = (0, Set::default(), u32::MAX);
        for (wish, serving) in (0..32).map(|wish| 1_u32.rotate_left(wish)).zip(&self.serving) {
            let serving = allowed.and(serving);
            let count = serving.count();
            if partial.covered & wish != 0 || count == 0 {
                continue;
            }
            reach |= wish;
            if count < fewest {
                (rarest, fewest) = (serving, count);
            }
        }
        (reach, rarest)
    }

    /// Whether a set of the weight that is needed would still be no better than the best.
    ///
    /// The most is reckoned for each rule by itself: as if no two aids served the same hands free, as if the weakest could
    /// be taken, then those of the fewest kinds, then the earliest.
    fn loses_tie(&self, allowed: &Set, partial: &Partial, left: usize, most: u32) -> bool {
        let Some(best) = self.best.as_ref().filter(|best| most == best.score.weight) else { return false };
        let mut free = [0_u32; MOST_WISHES];
        let mut hundredths = [f64::INFINITY; MOST_WISHES];
        let mut all_free = partial.hands_free;
        for aid in self.useful(allowed, partial) {
            all_free |= aid.hands_free;
            let mut gain = (aid.hands_free & !partial.hands_free).count_ones();
            let mut power = aid.hundredths;
            for (free, hundredths) in free.iter_mut().zip(&mut hundredths).take(left) {
                (*free, gain) = ((*free).max(gain), (*free).min(gain));
                (*hundredths, power) = (hundredths.min(power), hundredths.max(power));
            }
        }
        let gained = free.iter().fold(0, |sum: u32, gain| sum.saturating_add(*gain));
        let at_most = Score {
            weight: most,
            hands_free: partial.hands_free.count_ones().saturating_add(gained).min(all_free.count_ones()),
            hundredths: hundredths.iter().take(left).fold(partial.hundredths, |sum, power| sum + power),
            kinds: 0,
        };
        let tie = Score { kinds: 0, ..best.score };
        match at_most.against(&tie) {
            Ordering::Less => true,
            Ordering::Greater => false,
            Ordering::Equal => {
                let kinds = partial.kinds.saturating_add(self.least_new_kinds(allowed, partial, left));
                match kinds.cmp(&best.score.kinds) {
                    Ordering::Less => false,
                    Ordering::Greater => true,
                    Ordering::Equal => {
                        let earliest = self.earliest(allowed, partial, left);
                        best.places.as_slice() <= earliest.as_slice()
                    }
                }
            }
        }
    }

    /// Those of the aids allowed that would add something.
    fn useful(&self, allowed: &Set, partial: &Partial) -> impl Iterator<Item = &Aid> + Clone {
        let covered = partial.covered;
        let aids = allowed.iter().filter_map(|place| self.aids.get(place));
        aids.filter(move |aid| aid.covers & !covered != 0)
    }

    /// Kinds that so many more aids bring in at least, a count: first those of the kinds there are, then the others, each
    /// kind taken for as frequent as the most frequent one.
    fn least_new_kinds(&self, allowed: &Set, partial: &Partial, left: usize) -> usize {
        let is_known = |aid: &Aid| self.picked(partial).any(|picked| picked.kind == aid.kind);
        let (mut known, mut most_alike) = (0_usize, 1);
        let mut alike = [0_usize; MOST_AIDS];
        for aid in self.useful(allowed, partial) {
            if is_known(aid) {
                known = known.saturating_add(1);
            } else if let Some(count) = alike.get_mut(aid.kind_place) {
                *count = count.saturating_add(1);
                most_alike = most_alike.max(*count);
            }
        }
        // Rounded up.
        let new = left.saturating_sub(known).saturating_add(most_alike).saturating_sub(1);
        new.checked_div(most_alike).unwrap_or_default()
    }

    /// The earliest places that a set could have: those picked, and so many of the earliest others.
    fn earliest(&self, allowed: &Set, partial: &Partial, left: usize) -> List<usize, MOST_WISHES> {
        let others = rising(self.useful(allowed, partial).map(|aid| aid.place), left);
        let picked = self.picked(partial).map(|aid| aid.place);
        rising(picked.chain(others.iter().copied()), MOST_WISHES)
    }
}

/// The least of these numbers, so many of them, rising; each once.
fn rising(numbers: impl Iterator<Item = usize> + Clone, count: usize) -> List<usize, MOST_WISHES> {
    let mut sorted = List::new();
    let mut last = None;
    while sorted.len() < count {
        let next = numbers.clone().filter(|number| last.is_none_or(|last| last < *number)).min();
        let Some(number) = next else { break };
        last = Some(number);
        if sorted.try_push(number).is_err() {
            break;
        }
    }
    sorted
}
