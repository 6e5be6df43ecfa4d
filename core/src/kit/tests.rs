//! The ends of what may be asked, and each rule for ties by hand.

use super::*;
use alloc::vec::Vec;

fn aid(covers: u32, hands_free: u32, power: f64, kind: u16) -> KitAid {
    KitAid { covers, hands_free, power: Magnification::from_times(power), kind }
}
fn plan(aids: &[KitAid], wanted: u32, weights: &[u16]) -> Plan {
    smallest_kit(aids, Wishes { wanted, weights }).expect("few aids")
}
fn places(kit: &Kit) -> Vec<usize> {
    kit.chosen.iter().map(|one| one.place).collect()
}

#[test]
fn where_nothing_is_wanted_or_nothing_is_there_the_set_is_empty() {
    let some = [aid(0b11, 0, 1.0, 0)];
    for (aids, wanted, uncoverable) in [(&some[..], 0, 0), (&[], 0b101, 0b101), (&some, 0b100, 0b100)] {
        let plan = plan(aids, wanted, &[]);
        assert_eq!((plan.best.chosen.len(), plan.smaller.len()), (0, 0), "{plan:?}");
        assert_eq!((plan.uncoverable, plan.exactness), (uncoverable, Exactness::Proved));
        assert_eq!((plan.best.covered, plan.best.weight, plan.best.kinds), (0, 0, 0));
        assert_eq!(plan.best.power, Magnification::ZERO);
    }
}

#[test]
fn ties_are_decided_in_the_order_told() {
    // All sets here have two aids: one for the first wish, one for the second.
    let second = aid(0b10, 0, 2.0, 7);
    for (one, other, why) in [
        (aid(0b01, 0b01, 9.0, 1), aid(0b01, 0, 1.0, 7), "hands free before power"),
        (aid(0b01, 0, 1.0, 1), aid(0b01, 0, 1.5, 7), "power before kinds"),
        (aid(0b01, 0, 1.0, 7), aid(0b01, 0, 1.0, 1), "fewer kinds"),
        (aid(0b01, 0, 1.001, 7), aid(0b01, 0, 1.0, 1), "power in hundredths only"),
        (aid(0b01, 0, -1.0, 7), aid(0b01, 0, 1.5, 7), "power without sign"),
        (aid(0b01, 0, 1e6, 1), aid(0b01, 0, f64::NAN, 1), "no number is the most"),
    ] {
        for aids in [[one, other, second], [other, one, second]] {
            let wanted = aids.iter().position(|aid| *aid == one).expect("it is there");
            assert_eq!(places(&plan(&aids, 0b11, &[]).best), [wanted, 2], "{why}");
        }
    }
    let alike = [aid(0b10, 0, 1.0, 3), aid(0b01, 0, 1.0, 3), aid(0b10, 0, 1.0, 3), aid(0b01, 0, 1.0, 3)];
    assert_eq!(places(&plan(&alike, 0b11, &[]).best), [0, 1], "earlier in the list");
}

#[test]
fn hands_free_counts_only_what_is_served_and_wanted() {
    let aids = [aid(0b001, 0b110, 1.0, 0), aid(0b001, 0b001, 2.0, 0)];
    let kit = plan(&aids, 0b001, &[]).best;
    assert_eq!((places(&kit), kit.hands_free), (alloc::vec![1], 0b001));
}

/// One heavy wish is worth more than two light ones, as long as there is room for one aid only.
#[test]
fn weights_decide_what_is_given_up() {
    let aids = [aid(0b011, 0, 1.0, 0), aid(0b100, 0, 1.0, 0)];
    let single = |weights: &[u16]| {
        let plan = plan(&aids, 0b111, weights);
        assert_eq!(places(&plan.best), [0, 1]);
        (places(&plan.smaller[1]), plan.smaller[1].weight)
    };
    assert_eq!(single(&[]), (alloc::vec![0], 2), "each counts one");
    assert_eq!(single(&[1, 1, 3]), (alloc::vec![1], 3));
    assert_eq!(single(&[0, 0, 0]), (alloc::vec![0], 2), "zero counts one as well");
    assert_eq!(single(&[u16::MAX]), (alloc::vec![0], 65_536));
}

#[test]
fn thirty_two_wishes_take_thirty_two_aids_at_most() {
    let aids: Vec<_> = (0..32).map(|wish| aid(1 << wish, 0, 20.0, wish)).collect();
    let plan = plan(&aids, u32::MAX, &[u16::MAX; 32]);
    assert!(places(&plan.best).into_iter().eq(0..32), "{plan:?}");
    assert_eq!((plan.best.weight, plan.best.kinds), (32 * 65_535, 32));
    assert!((plan.best.power.times() - 640.0).abs() < 1e-9);
    assert!(plan.best.chosen.iter().all(|one| one.lost == 1 << one.place && one.only == one.lost));
    assert!(plan.smaller.iter().enumerate().all(|(size, kit)| kit.chosen.len() == size));
    assert_eq!(plan.exactness, Exactness::Proved);
}
