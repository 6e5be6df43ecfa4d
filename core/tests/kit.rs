//! The smallest set of aids by a second road: brute force over all subsets.
//!
//! Every set of so many aids is put together and the best of each size is kept, by the rules as they are told and with
//! nothing of the search.

#[path = "law/cases.rs"]
mod cases;

use arcminute_core::kit::{Exactness, Kit, KitAid, MOST_NODES, Plan, Wishes, smallest_kit};
use arcminute_core::unit::Magnification;
use proptest::prelude::*;
use std::cmp::Reverse;

fn planned(aids: &[KitAid], wishes: Wishes<'_>) -> Plan {
    smallest_kit(aids, wishes).expect("few aids")
}

fn places(kit: &Kit) -> Vec<usize> {
    kit.chosen.iter().map(|one| one.place).collect()
}

/// What decides, greatest first: weight, hands free, then less power (in hundredths), fewer kinds, earlier places.
type Order = (u32, u32, Reverse<u64>, Reverse<usize>, Reverse<Vec<usize>>);

fn order(aids: &[KitAid], wishes: Wishes<'_>, subset: &[usize]) -> Order {
    let all = |mask: fn(&KitAid) -> u32| subset.iter().fold(0, |all, place| all | mask(&aids[*place]));
    let covered = all(|aid| aid.covers) & wishes.wanted;
    let free = all(|aid| aid.covers & aid.hands_free) & wishes.wanted;
    let served = (0..32).filter(|wish| covered & (1 << wish) != 0);
    let weight = served.map(|wish| u32::from(wishes.weights.get(wish).copied().unwrap_or(1).max(1))).sum();
    let hundredths = subset.iter().map(|place| (aids[*place].power.size() * 100.0).round() as u64).sum();
    let mut kinds: Vec<_> = subset.iter().map(|place| aids[*place].kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    (weight, free.count_ones(), Reverse(hundredths), Reverse(kinds.len()), Reverse(subset.to_vec()))
}

/// The best set of each size, up to the smallest that serves all that can be served.
fn by_brute_force(aids: &[KitAid], wishes: Wishes<'_>) -> Vec<Order> {
    let all: Vec<_> = (0..aids.len()).collect();
    let everything = order(aids, wishes, &all).0;
    let mut best: Vec<Option<Order>> = vec![None; aids.len() + 1];
    for chosen in 0_u32..1 << aids.len() {
        let subset: Vec<_> = all.iter().copied().filter(|place| chosen & (1 << place) != 0).collect();
        let slot = &mut best[subset.len()];
        *slot = slot.take().max(Some(order(aids, wishes, &subset)));
    }
    let best: Vec<_> = best.into_iter().map(|order| order.expect("one of each size")).collect();
    let smallest = best.iter().position(|order| order.0 == everything).expect("all of them");
    best[..=smallest].to_vec()
}

/// Few powers, kinds and weights, so that ties of every sort come up.
fn aids(most: usize, wishes: u32) -> impl Strategy<Value = Vec<KitAid>> {
    let mask = move || prop_oneof![0..1_u32 << wishes, (0..wishes).prop_map(|wish| 1 << wish)];
    let aid = (mask(), mask(), 1..4_u8, 0..3_u16).prop_map(|(covers, hands_free, power, kind)| KitAid {
        covers,
        hands_free,
        power: Magnification::from_times(-f64::from(power) / 2.0),
        kind,
    });
    prop::collection::vec(aid, 0..=most)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: cases::cases(1_000), ..ProptestConfig::default() })]

    /// The set of every size is the one that brute force finds, with what is said of it.
    #[test]
    fn the_plan_is_what_brute_force_finds(
        aids in aids(12, 8),
        wanted in prop_oneof![Just(0xff_u32), 0..0x100_u32],
        weights in prop::collection::vec(0..4_u16, 0..9),
    ) {
        let wishes = Wishes { wanted, weights: &weights };
        let plan = planned(&aids, wishes);
        prop_assert_eq!(plan.exactness, Exactness::Proved);
        let found: Vec<_> = plan.smaller.iter().chain([&plan.best]).collect();
        let wanted_sets = by_brute_force(&aids, wishes);
        prop_assert_eq!(found.len(), wanted_sets.len(), "{:?}", plan);
        for (kit, best) in found.into_iter().zip(wanted_sets) {
            prop_assert_eq!(order(&aids, wishes, &places(kit)), best.clone(), "{:?}", kit);
            prop_assert_eq!((kit.weight, kit.hands_free.count_ones(), kit.kinds), (best.0, best.1, best.3.0));
            prop_assert!((kit.power.times() * 100.0 - best.2.0 as f64).abs() < 1e-9, "{:?}", kit);
            prop_assert_eq!(kit.exactness, Exactness::Proved);
        }
    }

    /// What is said to be lost is what the set without that aid does not serve; what only it serves, nothing else does.
    #[test]
    fn what_an_aid_is_there_for_is_told(aids in aids(12, 8)) {
        let plan = planned(&aids, Wishes { wanted: 0xff, weights: &[] });
        let served = |places: &[usize]| places.iter().fold(0, |all, place| all | aids[*place].covers);
        let all: Vec<_> = (0..aids.len()).collect();
        prop_assert_eq!(plan.uncoverable, 0xff & !served(&all));
        for kit in plan.smaller.iter().chain([&plan.best]) {
            let chosen = places(kit);
            prop_assert_eq!(kit.covered, served(&chosen) & 0xff);
            for one in &kit.chosen {
                let without = |places: &[usize]| {
                    let rest: Vec<_> = places.iter().copied().filter(|place| *place != one.place).collect();
                    served(&rest)
                };
                prop_assert_eq!(one.lost, kit.covered & !without(&chosen));
                prop_assert_eq!(one.only, 0xff & served(&all) & !without(&all));
                prop_assert!(one.lost != 0, "{:?} is in it for nothing", one);
            }
        }
    }

    /// In whatever order the wishes are put, the same aids come out.
    #[test]
    fn the_order_of_the_wishes_does_not_matter(
        aids in aids(20, 10),
        weights in prop::collection::vec(1..4_u16, 10),
        order in Just((0..10_usize).collect::<Vec<_>>()).prop_shuffle(),
    ) {
        let moved = |mask: u32| {
            order.iter().enumerate().filter(|(from, _)| mask & (1 << from) != 0).fold(0, |all, (_, to)| all | 1 << to)
        };
        let moved_aids: Vec<_> = aids
            .iter()
            .map(|aid| KitAid { covers: moved(aid.covers), hands_free: moved(aid.hands_free), ..*aid })
            .collect();
        let mut moved_weights = vec![0; 10];
        for (from, to) in order.iter().enumerate() {
            moved_weights[*to] = weights[from];
        }
        let plan = planned(&aids, Wishes { wanted: 0x3ff, weights: &weights });
        let other = planned(&moved_aids, Wishes { wanted: 0x3ff, weights: &moved_weights });
        prop_assert_eq!(places(&plan.best), places(&other.best));
        prop_assert_eq!(plan.smaller.len(), other.smaller.len());
        for (one, other) in plan.smaller.iter().zip(&other.smaller) {
            prop_assert_eq!(places(one), places(other));
        }
    }

    /// One aid more, that serves nothing new, never makes the set larger; and the best of each size is never worse.
    #[test]
    fn an_aid_more_never_makes_the_set_larger(aids in aids(20, 10), place in 0..100_usize) {
        prop_assume!(!aids.is_empty());
        let mut fewer = aids.clone();
        fewer.remove(place % aids.len());
        let wishes = Wishes { wanted: fewer.iter().fold(0, |all, aid| all | aid.covers), weights: &[] };
        let (plan, less) = (planned(&aids, wishes), planned(&fewer, wishes));
        prop_assert!(plan.best.chosen.len() <= less.best.chosen.len());
        for (one, other) in plan.smaller.iter().zip(&less.smaller) {
            prop_assert!(other.weight <= one.weight, "{:?} and {:?}", one, other);
        }
    }
}

/// Numbers that look random, the same in each run.
struct Random(u64);

impl Random {
    fn below(&mut self, end: u32) -> u32 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        u32::try_from((self.0 >> 16) % u64::from(end)).expect("below a number of 32 bits")
    }
    fn mask(&mut self, wishes: u32, count: u32) -> u32 {
        let mut mask = 0_u32;
        while mask.count_ones() < count {
            mask |= 1 << self.below(wishes);
        }
        mask
    }
    fn aid(&mut self, wishes: u32, served: std::ops::RangeInclusive<u32>) -> KitAid {
        let count = served.start() + self.below(served.end() - served.start() + 1);
        let covers = self.mask(wishes, count);
        KitAid {
            covers,
            hands_free: if self.below(2) == 0 { covers } else { 0 },
            power: Magnification::from_times(1.0 + f64::from(self.below(190)) / 10.0),
            kind: u16::try_from(self.below(8)).expect("small"),
        }
    }
}

fn steps(plan: &Plan) -> u32 {
    plan.smaller.iter().map(|kit| kit.nodes).sum::<u32>() + plan.best.nodes
}

/// A clinic's list for a long list of wishes, all proved in a small part of the steps there are.
#[test]
fn two_hundred_aids_for_thirty_wishes_are_no_trouble() {
    let mut random = Random(0x2545_f491_4f6c_dd1d);
    let mut most = 0;
    for _ in 0..cases::cases(20) {
        let aids: Vec<_> = (0..200).map(|_| random.aid(30, 3..=12)).collect();
        let plan = planned(&aids, Wishes { wanted: (1 << 30) - 1, weights: &[] });
        assert_eq!(plan.exactness, Exactness::Proved);
        assert_eq!(plan.uncoverable, 0);
        most = most.max(steps(&plan));
    }
    assert!(most < MOST_NODES / 10, "{most} steps");
}

/// Many small aids and no large one: where it cannot be proved in time, that is said, and what is given still serves all.
#[test]
fn a_search_that_is_given_up_says_so_and_still_serves_all() {
    let mut random = Random(0x9e37_79b9_7f4a_7c15);
    let aids: Vec<_> = (0..500).map(|_| random.aid(32, 3..=3)).collect();
    let plan = planned(&aids, Wishes { wanted: u32::MAX, weights: &[] });
    assert_eq!(plan.exactness, Exactness::LimitReached);
    assert_eq!((plan.best.covered, plan.uncoverable), (u32::MAX, 0));
    assert!(steps(&plan) <= MOST_NODES + 1000, "{} steps", steps(&plan));
    for kit in plan.smaller.iter().take(3) {
        assert_eq!(kit.exactness, Exactness::Proved, "small sets are proved all the same: {kit:?}");
    }
}

#[test]
fn more_aids_than_there_is_room_for_are_refused() {
    // All pairs of 32 wishes, twice, hands free or at less power: 992 aids, and none replaces another.
    let pairs = (0..32_u32).flat_map(|one| (0..one).map(move |other| 1 << one | 1 << other));
    let aids: Vec<_> = pairs
        .flat_map(|covers: u32| {
            let free = KitAid { covers, hands_free: covers, power: Magnification::from_times(2.0), kind: 0 };
            [free, KitAid { hands_free: 0, power: Magnification::from_times(1.0), ..free }]
        })
        .collect();
    assert_eq!(aids.len(), 992);
    let wishes = Wishes { wanted: u32::MAX, weights: &[] };
    assert_eq!(smallest_kit(&aids, wishes), Err(arcminute_core::list::NoRoom));
    assert!(smallest_kit(&aids[..512], wishes).is_ok(), "as many as there is room for");
}
