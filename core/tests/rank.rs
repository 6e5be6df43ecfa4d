//! Dominance is a strict partial order, the front explains what is not on it, and a list has one order.

#[path = "law/cases.rs"]
mod cases;

use arcminute_core::predict::Reach;
use arcminute_core::rank::{
    Beaten, Chance, Criteria, Criterion, Extent, FreeHands, Merits, SeenAtOnce, Standing, compare, dominates,
    folded, in_order, known_somewhere,
};
use arcminute_core::unit::{Angle, Length, LogMar, Magnification, Vergence};
use proptest::prelude::*;
use std::cmp::Ordering;

/// Seldom unknown, and of few values some of which differ by less than counts, so that many pairs are comparable.
fn maybe<T: Clone + std::fmt::Debug + 'static>(values: Vec<T>) -> impl Strategy<Value = Option<T>> {
    prop::option::weighted(0.95, prop::sample::select(values))
}

fn merits() -> impl Strategy<Value = Merits> {
    let chance = |share, reach| Chance { share, reach };
    let chances = vec![
        chance(0.001, Reach::No),
        chance(0.3, Reach::BetterEnd),
        chance(0.499, Reach::BetterEnd),
        chance(0.501, Reach::Middle),
        chance(0.7, Reach::Middle),
        chance(0.704, Reach::Middle),
        chance(0.98, Reach::WholeBand),
    ];
    let seen = prop_oneof![
        8 => prop::sample::select(vec![4.0, 4.2, 4.4, 9.0]).prop_map(SeenAtOnce::Characters),
        1 => Just(SeenAtOnce::ShareOfWidth(0.5)),
        1 => Just(SeenAtOnce::Field(Angle::from_degrees(10.0))),
        1 => Just(SeenAtOnce::Everything),
    ];
    let extents = |step: f64| {
        let lengths = [1.0, 1.3, 2.0].map(|steps| Extent::Of(Length::from_mm(steps * step)));
        lengths.into_iter().chain([Extent::Unlimited]).collect::<Vec<_>>()
    };
    let blur = [0.0, 0.02, 0.5].map(Vergence::from_dioptres).to_vec();
    let loss = [0.0, 0.004, 0.3].map(LogMar::from_log).to_vec();
    let power = [-4.0, 2.0, 4.0, 4.01].map(Magnification::from_times).to_vec();
    (
        (maybe(chances), prop::option::weighted(0.95, seen), maybe(extents(5.0)), maybe(blur)),
        (maybe(extents(1.0)), maybe(vec![0.5, 0.503, 0.9]), maybe(loss), maybe(power)),
        maybe(vec![FreeHands::None, FreeHands::One, FreeHands::Both]),
        (maybe(vec![false, true]), maybe(vec![false, true])),
    )
        .prop_map(
            |((chance, seen_at_once, hand_room, out_of_focus), others, hands_free, (both_eyes, walking))| {
                let (depth, light, motion_loss, power) = others;
                Merits {
                    chance,
                    seen_at_once,
                    hand_room,
                    out_of_focus,
                    depth,
                    light,
                    hands_free,
                    both_eyes,
                    motion_loss,
                    walking,
                    power,
                }
            },
        )
}

/// Of few criteria more is beaten.
fn criteria() -> impl Strategy<Value = Criteria> {
    let some = prop::sample::subsequence(Criterion::ALL.to_vec(), 0..4);
    prop_oneof![4 => some.prop_map(|some| Criteria::of(&some)), 1 => Just(Criteria::ALL)]
}

fn beats(a: &Merits, b: &Merits, criteria: Criteria) -> bool {
    dominates(a, b, criteria).is_some()
}

/// The same merits, a step better or worse here and there; most are comparable.
fn near(base: Merits, steps: &[i8]) -> Merits {
    let step = |place: usize| f64::from(steps[place]);
    Merits {
        light: base.light.map(|light| light + 0.007 * step(0)),
        motion_loss: base.motion_loss.map(|loss| loss + LogMar::from_log(0.006 * step(1))),
        out_of_focus: base.out_of_focus.map(|left| left + Vergence::from_dioptres(0.03 * step(2))),
        power: base.power.map(|power| power * (1.0 + 0.02 * step(3))),
        ..base
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: cases::cases(20_000), ..ProptestConfig::default() })]

    /// Nothing beats itself, and of two only one can beat the other.
    #[test]
    fn dominance_goes_one_way((a, b, on) in (merits(), merits(), criteria())) {
        prop_assert_eq!(dominates(&a, &a, on), None);
        prop_assert!(!(beats(&a, &b, on) && beats(&b, &a, on)));
        if let Some(Beaten { on: better }) = dominates(&a, &b, on) {
            prop_assert!(!better.is_empty() && better.and(on) == better, "{:?} of {:?}", better, on);
        }
    }

    /// What beats a second that beats a third beats the third; whatever steps lie between them.
    #[test]
    fn dominance_carries_over(
        (a, b, c) in (merits(), merits(), merits()),
        on in criteria(),
        steps in prop::collection::vec(-2..3_i8, 8),
    ) {
        for (a, b, c) in [(a, b, c), (a, near(a, &steps[..4]), near(a, &steps[4..]))] {
            let orders = [(a, b, c), (a, c, b), (b, a, c), (b, c, a), (c, a, b), (c, b, a)];
            for (one, two, three) in orders {
                if beats(&one, &two, on) && beats(&two, &three, on) {
                    prop_assert!(beats(&one, &three, on), "{:?}\n{:?}\n{:?}", one, two, three);
                }
            }
        }
    }

    /// What is not known of one of two keeps either from beating the other.
    #[test]
    fn the_unknown_beats_nothing_and_is_beaten_by_nothing((a, b) in (merits(), merits()), on in criteria()) {
        let unknown = Criterion::ALL.into_iter().filter(|criterion| {
            let known = |merits: &Merits| known_somewhere(&[*merits]).contains(*criterion);
            on.contains(*criterion) && !(known(&a) && known(&b))
        });
        if unknown.count() != 0 {
            prop_assert!(!beats(&a, &b, on) && !beats(&b, &a, on));
        }
    }

    /// On the front is what nothing beats; whatever is not is beaten by one on the front, on what is said, and by none
    /// on the front that stands earlier.
    #[test]
    fn the_front_explains_what_is_not_on_it(list in prop::collection::vec(merits(), 0..12), on in criteria()) {
        let compared = on.and(known_somewhere(&list));
        let standings = folded(&list, on);
        prop_assert_eq!(standings.len(), list.len());
        for (merits, standing) in list.iter().zip(&standings) {
            let beaters = || list.iter().enumerate().filter(|(_, other)| beats(other, merits, compared));
            match *standing {
                Standing::Front => prop_assert_eq!(beaters().count(), 0),
                Standing::Beaten { by, on } => {
                    prop_assert_eq!(standings[by], Standing::Front);
                    prop_assert_eq!(dominates(&list[by], merits, compared), Some(Beaten { on }));
                    let on_front = |(place, _): &(usize, &Merits)| standings[*place] == Standing::Front;
                    prop_assert_eq!(beaters().find(on_front).map(|(place, _)| place), Some(by));
                }
            }
        }
        prop_assert!(list.is_empty() || standings.contains(&Standing::Front));
    }

    /// Of any two places one comes first, and over three the order carries over; a list is put in that order, and each
    /// place stands in it once.
    #[test]
    fn a_list_has_one_order(
        list in prop::collection::vec(merits(), 3..10),
        priorities in prop::sample::subsequence(Criterion::ALL.to_vec(), 0..4).prop_shuffle(),
    ) {
        let order = |one: usize, other: usize| compare((one, &list[one]), (other, &list[other]), &priorities);
        for one in 0..list.len() {
            prop_assert_eq!(order(one, one), Ordering::Equal);
            for other in (0..list.len()).filter(|other| *other != one) {
                prop_assert_ne!(order(one, other), Ordering::Equal);
                prop_assert_eq!(order(one, other), order(other, one).reverse());
                for third in 0..list.len() {
                    if order(one, other).is_lt() && order(other, third).is_lt() {
                        prop_assert_eq!(order(one, third), Ordering::Less);
                    }
                }
            }
        }
        let mut places = vec![0; list.len()];
        in_order(&list, &priorities, &mut places).expect("room for all");
        prop_assert!(places.is_sorted_by(|one, next| order(*one, *next).is_lt()), "{:?}", places);
        places.sort_unstable();
        prop_assert!(places.into_iter().eq(0..list.len()));
    }

    /// What is beaten on everything comes later in the list, whatever matters most.
    #[test]
    fn what_is_beaten_on_everything_comes_later(
        (a, b) in (merits(), merits()),
        steps in prop::collection::vec(-2..3_i8, 4),
        priorities in prop::sample::subsequence(Criterion::ALL.to_vec(), 0..4).prop_shuffle(),
    ) {
        for (a, b) in [(a, b), (a, near(a, &steps))] {
            if beats(&a, &b, Criteria::ALL) {
                prop_assert_eq!(compare((1, &a), (0, &b), &priorities), Ordering::Less);
            }
        }
    }
}

/// So that the laws are not true of nothing: among random merits much is beaten, and chains of three are met.
#[test]
fn random_merits_do_beat_each_other() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let (mut beaten, mut chains) = (0, 0);
    for _ in 0..2000 {
        let inputs = (merits(), merits(), merits(), criteria());
        let (a, b, c, on) = inputs.new_tree(&mut runner).expect("they can be made").current();
        beaten += u32::from(beats(&a, &b, on));
        chains += u32::from(beats(&a, &b, on) && beats(&b, &c, on));
    }
    assert!(200 < beaten && 15 < chains, "{beaten} beaten, {chains} chains");
}
