//! Refractions: what is understood is in range and is read back from its own print, in both cylinder forms.

use crate::check;
use arcminute_core::bounds;
use arcminute_core::refraction::{Parsed, Prescription, parse};
use arcminute_core::unit::Vergence;
use arcminute_web::model::entry;

/// A prescription as the core reads it, and as the page does.
pub(crate) fn any(text: &str) {
    let parsed = parse(text);
    match &parsed {
        Parsed::Empty => assert!(text.trim().is_empty(), "something was written"),
        Parsed::Understood(prescription) => understood(prescription),
        Parsed::Ask { choices } => {
            assert!(!choices.is_empty(), "there is something to confirm");
            for (index, choice) in choices.iter().enumerate() {
                understood(choice);
                assert!(!choices[..index].contains(choice), "{choice} stands twice");
            }
        }
        Parsed::Refused(error) => check::refusal(error),
    }
    // What is plain already means the same to the page.
    if entry::normalise(text).is_ok_and(|plain| plain == text) {
        assert_eq!(entry::prescription(text), parsed, "the page reads otherwise");
    } else if let Parsed::Refused(error) = entry::prescription(text) {
        check::refusal(&error);
    }
    if let entry::RefractionEntry::Understood { refraction, .. } = entry::refraction(text) {
        understood(&Prescription { refraction, add: None });
    }
}

fn understood(prescription: &Prescription) {
    let refraction = prescription.refraction;
    let (sphere, cylinder) = (refraction.sphere.dioptres(), refraction.cylinder.dioptres());
    assert!(
        bounds::SPHERE.check(sphere).is_ok() && bounds::CYLINDER.check(cylinder).is_ok(),
        "{prescription}"
    );
    assert!(prescription.add.is_none_or(|add| bounds::ADD.check(add.dioptres()).is_ok()), "{prescription}");
    assert!(refraction.axis.is_none_or(|axis| (1..=180).contains(&axis)), "{prescription}");
    assert!(
        refraction.axis.is_some() || refraction.cylinder == Vergence::ZERO,
        "{prescription} lacks its axis"
    );

    let printed = prescription.to_string();
    let Parsed::Understood(again) = parse(&printed) else { panic!("`{printed}` is not read back") };
    check::reprinted(&again.to_string(), &printed);
    assert_eq!(again.refraction.axis, refraction.axis, "{printed}");
    check::same("sphere", again.refraction.sphere.dioptres(), sphere);
    check::same("cylinder", again.refraction.cylinder.dioptres(), cylinder);
    assert_eq!(again.add.is_some(), prescription.add.is_some(), "{printed}");

    let (vector, turned) = (refraction.power_vector(), refraction.transposed().power_vector());
    check::working(&vector);
    check::same("mean sphere", vector.mean_sphere.dioptres(), turned.mean_sphere.dioptres());
    check::same("J0", vector.j0.dioptres(), turned.j0.dioptres());
    check::same("J45", vector.j45.dioptres(), turned.j45.dioptres());
    let back = refraction.transposed().transposed();
    assert_eq!(back.axis, refraction.axis, "{printed} turned over twice");
    check::same("sphere turned over twice", back.sphere.dioptres(), sphere);
}
