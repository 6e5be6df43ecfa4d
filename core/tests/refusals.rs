//! What has no answer is refused in words that say why; and rays, rounding and messages by hand where no law reaches.

use arcminute_core::acuity::{BareNumber, Parsed, Reading, parse};
use arcminute_core::device::{CorrectionPlace, Viewer, evaluate_telescope};
use arcminute_core::optics::{
    Design, Element, Label, Sight, Telescope, Train, correction_on_objective, lenses_from_length, reading_cap,
};
use arcminute_core::refraction::Refraction;
use arcminute_core::task::{Goal, demand};
use arcminute_core::unit::{Angle, Length, LogMar, Magnification, Vergence};
use arcminute_core::{Error, Why, tolerance};

fn d(dioptres: f64) -> Vergence {
    Vergence::from_dioptres(dioptres)
}

fn mm(millimetres: f64) -> Length {
    Length::from_mm(millimetres)
}

/// What is said of it, and what to do.
#[track_caller]
fn refused<T>(result: Result<T, Error>, message: &str) {
    let Err(error) = result else { panic!("it must be refused: {message}") };
    assert_eq!(error.to_string(), message);
    assert_eq!(error.hint().to_string(), "change one of the values it depends on");
}

fn galilean() -> Telescope {
    Telescope::from_lenses(d(10.0), d(-40.0), mm(20.0)).expect("four times")
}

#[test]
fn lenses_that_make_no_telescope() {
    let lenses = |objective, eyepiece| Telescope::from_lenses(d(objective), d(eyepiece), mm(20.0));
    for (objective, eyepiece) in [(10, -10), (20, -10), (0, -40), (10, 0), (-10, -40)] {
        refused(
            lenses(f64::from(objective), f64::from(eyepiece)),
            &format!(
                "telescope `{objective} D and {eyepiece} D` has no solution: the lenses leave no tube between them"
            ),
        );
    }
    assert!(lenses(10.0, -10.1).is_ok(), "the shortest of tubes is one");
    assert!(lenses(f64::NAN, -40.0).is_err(), "not-a-number is refused");
}

#[test]
fn labels_that_no_telescope_carries() {
    let good = Label {
        design: Design::Keplerian,
        power: Magnification::from_times(4.0),
        objective_diameter: mm(12.0),
        real_field: Some(Angle::from_degrees(12.0)),
        near_focus: Some(Length::from_m(0.5)),
        length: Some(mm(60.0)),
        transmittance: 0.9,
    };
    assert!(Telescope::from_label(&good).is_ok());
    let bad: [(Label, &str); 7] = [
        (Label { power: Magnification::from_times(-7.0), ..good }, "power `-7 x`"),
        (Label { power: Magnification::from_times(0.05), ..good }, "power `0.05 x`"),
        (Label { objective_diameter: mm(-12.0), ..good }, "objective diameter `-12 mm`"),
        (Label { real_field: Some(Angle::from_degrees(f64::NAN)), ..good }, "real field `NaN degrees`"),
        (Label { near_focus: Some(Length::ZERO), ..good }, "nearest focus `0 m`"),
        (Label { length: Some(mm(f64::INFINITY)), ..good }, "tube length `inf mm`"),
        (Label { transmittance: 1.5, ..good }, "transmittance `1.5`"),
    ];
    for (label, begins) in bad {
        let error = Telescope::from_label(&label).expect_err(begins).to_string();
        assert!(error.starts_with(begins), "`{error}` should begin with `{begins}`");
    }
}

#[test]
fn a_telescope_that_nothing_limits() {
    let endless = Telescope::from_lenses(d(10.0), d(-40.0), mm(f64::NAN)).expect("its lenses are possible");
    let viewer = Viewer {
        acuity: LogMar::from_log(1.0),
        retest_limit: LogMar::from_log(0.15),
        pupil: mm(3.0),
        sphere: Vergence::ZERO,
        cylinder: Vergence::ZERO,
        spectacle_to_eye: mm(15.0),
        eyepiece_to_eye: mm(15.0),
        correction: CorrectionPlace::ByFocusing,
    };
    refused(
        evaluate_telescope(&endless, &viewer, &demand(Goal::Acuity(LogMar::from_log(0.3)))),
        "field `none` has no solution: nothing limits the field",
    );
}

#[test]
fn letters_beside_the_line_are_whole() {
    let Parsed::Refused(error) = parse("20/200-2.5", BareNumber::Ask) else { panic!("half a letter") };
    let message = "letters beside the line `2.5` was not understood";
    assert_eq!(
        (error.to_string().as_str(), error.hint().to_string().as_str()),
        (message, "type for example `20/200-2`")
    );
}

#[test]
fn a_negative_zero_is_zero() {
    for text in ["logMAR -0", "logMAR -0.00", "-0 logMAR"] {
        let read = parse(text, BareNumber::Ask);
        let Parsed::Understood(Reading::Measured(acuity)) = read else { panic!("{text}: {read:?}") };
        assert_eq!(acuity.log_mar.log().to_bits(), 0, "{text}");
    }
}

#[test]
fn tubes_that_no_two_lenses_fill() {
    for (times, millimetres) in [(1, 50), (0, 50), (4, 0), (4, -50)] {
        let lenses =
            lenses_from_length(mm(f64::from(millimetres)), Magnification::from_times(f64::from(times)));
        let message =
            format!("telescope `{times} x in {millimetres} mm` has no solution: no two lenses do this");
        refused(lenses, &message);
    }
    assert!(
        lenses_from_length(mm(50.0), Magnification::from_times(1.01)).is_ok(),
        "hardly a telescope, yet one"
    );
}

#[test]
fn what_a_telescope_cannot_be_made_to_do() {
    // M² + d·M·K is nothing at K = −16 / (0.075 · 4) = −53.3 D.
    refused(
        correction_on_objective(&galilean(), d(-60.0)),
        "ametropia `-60 D` has no solution: no lens on the objective corrects so much",
    );
    assert!(correction_on_objective(&galilean(), d(-53.0)).is_ok(), "just short of it");
    for (cap, said) in [(0.0, "0"), (-2.0, "-2")] {
        let message = format!("cap `{said} D` has no solution: it has no focus in front of it");
        refused(reading_cap(&galilean(), d(cap)), &message);
    }
    // Nearer than the objective's own focus nothing real is left for the eyepiece.
    refused(
        galilean().focused(Sight::At(Length::from_m(0.05)), Vergence::ZERO),
        "focus `0.05 m, 0 D` has no solution: no tube length focuses it",
    );
    refused(
        galilean().focused(Sight::Far, d(-50.0)),
        "focus `far, -50 D` has no solution: no tube length focuses it",
    );
}

#[test]
fn a_train_has_its_most() {
    let lens = Element::Lens { power: d(1.0), clear_diameter: None };
    let most = Train::of(&[lens; 15]).expect("fifteen are taken");
    assert_eq!(most.elements().len(), 15);
    assert_eq!(most.clone().to_eye(mm(12.0)).elements().len(), 16, "there is room for the way to the eye");
    let message =
        |parts: u8| format!("optical system `{parts} parts` has no solution: a train has at most 15 parts");
    refused(Train::of(&[lens; 16]), &message(16));
    refused(most.then(&Train::new([lens])), &message(16));
}

/// Computed by hand: +10 D bends a ray 10 mm high so that it meets the axis 100 mm on, glass counted by its reduced length.
#[test]
fn a_ray_by_hand() {
    let parts = [
        Element::Lens { power: d(10.0), clear_diameter: Some(mm(30.0)) },
        Element::Gap(mm(50.0)),
        Element::Glass { thickness: mm(15.0), index: 1.5 },
        Element::Stop(mm(8.0)),
        Element::Gap(mm(30.0)),
    ];
    let train = Train::of(&parts).expect("few parts");
    assert_eq!(train.elements(), parts);
    let train = train.to_eye(mm(10.0));
    assert_eq!(train.elements().len(), parts.len(), "the last gap is lengthened");
    assert!((train.length().mm() - 105.0).abs() < 1e-9, "{:?}", train.length());
    let path = train.trace(mm(10.0), 0.0);
    let wanted = [(0.0, 10.0), (50.0, 5.0), (65.0, 4.0), (105.0, 0.0)];
    assert_eq!(path.len(), wanted.len());
    for ((z, y), (far, high)) in path.iter().zip(wanted) {
        assert!((z.mm() - far).abs() < 1e-9 && (y.mm() - high).abs() < 1e-9, "{path:?}");
    }
    // One that enters on the axis with a slope of a tenth goes through the lens as it came.
    let last = train.trace(mm(0.0), 0.1).last().map(|(_, y)| y.mm());
    assert!(last.is_some_and(|y| (y - 10.0).abs() < 1e-9), "{last:?}");
}

#[test]
fn a_refraction_is_rounded_to_steps() {
    let lens = Refraction::of(d(2.13), d(-0.62), Some(40)).expect("in range");
    assert_eq!(lens.rounded(d(0.25)).to_string(), "+2.25 -0.50 x040");
    assert_eq!(lens.rounded(d(0.125)).to_string(), "+2.125 -0.625 x040");
    let small = Refraction::of(d(2.1), d(-0.1), Some(40)).expect("in range");
    assert_eq!(small.rounded(d(0.25)).to_string(), "+2.00", "a cylinder of nothing takes its axis with it");
    for none in [0.0, -0.25, f64::NAN] {
        assert_eq!(lens.rounded(d(none)), lens, "steps of {none}");
    }
    let error = Refraction::of(d(2.0), d(-1.5), None).expect_err("a cylinder needs its axis");
    assert_eq!(error.to_string(), "cylinder `-1.50` needs an axis");
    assert_eq!(error.hint().to_string(), "type for example `+2.00 -1.50 x 090`");
}

#[test]
fn what_is_no_number_has_no_tolerance() {
    assert!(tolerance::sphere(d(f64::NAN)).dioptres().is_nan(), "nothing is allowed for nothing");
    assert!((tolerance::sphere(d(-12.0)).dioptres() - 0.24).abs() < 1e-12, "2 % of 12 D");
}

#[test]
fn every_reason_has_its_words() {
    for (why, message, hint) in [
        (
            Why::GroupedOrDecimal,
            "can mean two numbers a thousand times apart",
            "write it without a thousands sign, and with fewer or more than three digits after the decimal sign",
        ),
        (Why::WrongUnit { accepted: "mm or cm" }, "has a unit that does not fit", "use mm or cm"),
        (Why::TooLong { max: 200 }, "is too long to be an entry", "use at most 200 characters"),
        (Why::NotANumber { example: "12.5" }, "was not understood", "type for example `12.5`"),
        (Why::Missing { part: "a sign", example: "+2" }, "needs a sign", "type for example `+2`"),
        (Why::OutOfRange { min: 1.0, max: 2.5, unit: "" }, "is not possible", "use 1 to 2.5"),
        (Why::OutOfRange { min: 1.0, max: 2.5, unit: "mm" }, "is not possible", "use 1 to 2.5 mm"),
        (
            Why::NoSolution { because: "it is too near" },
            "has no solution: it is too near",
            "change one of the values it depends on",
        ),
    ] {
        let error = Error::new("box", "1,250", why);
        assert_eq!(error.to_string(), format!("box `1,250` {message}"));
        assert_eq!(error.hint().to_string(), hint);
    }
}

/// What an acuity box says to texts next to each other.
#[test]
fn acuities_next_to_each_other() {
    let said = |text: &str| match parse(text, BareNumber::Ask) {
        Parsed::Empty => "nothing".to_owned(),
        Parsed::Understood(reading) => {
            format!("{reading:?}").split('(').next().unwrap_or_default().to_owned()
        }
        Parsed::Ask { choices } => format!("ask {}", choices.len()),
        Parsed::Refused(error) => error.to_string(),
    };
    for (text, wanted) in [
        ("0", "ask 1"),
        ("-0", "Measured"),
        ("-0.1", "Measured"),
        ("+0.1", "Measured"),
        ("0.1", "ask 2"),
        ("CF at 2 ft", "Category"),
        ("CF @ 2 ft", "Category"),
        ("CF 2 ft", "Category"),
        ("CF @", "distance of the hand `@` needs a distance after it"),
        ("CF at", "distance of the hand `@` needs a distance after it"),
        ("CF 2", "distance of the hand `2` needs a unit"),
        ("20/200-9", "Measured"),
        ("20/200-10", "letters beside the line `-10 letters` is not possible"),
    ] {
        assert_eq!(said(text), wanted, "{text}");
    }
}
