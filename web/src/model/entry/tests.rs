//! What people type, and what they are told: every message spelled out.

use super::*;
use arcminute_core::acuity::{Parsed, Reading};
use arcminute_core::bounds;
use arcminute_core::{Error, refraction as rx};

#[track_caller]
fn measures(text: &str, bare: BareNumber, recorded: &str, log: f64) {
    let Parsed::Understood(Reading::Measured(read)) = acuity(text, bare) else {
        panic!("{text} gave {:?}", acuity(text, bare))
    };
    assert_eq!(read.to_string(), recorded, "{text}");
    assert!((read.log_mar.log() - log).abs() < 5e-4, "{text} is {log}, got {:?}", read.log_mar);
}

#[track_caller]
fn refused(error: &Error, message: &str, hint: &str) {
    assert_eq!((error.to_string().as_str(), error.hint().to_string().as_str()), (message, hint));
}

#[track_caller]
fn acuity_refused(text: &str, message: &str, hint: &str) {
    match acuity(text, BareNumber::Ask) {
        Parsed::Refused(error) => refused(&error, message, hint),
        other => panic!("{text} gave {other:?}"),
    }
}

#[test]
fn entry_feet_with_letters() {
    for text in [
        "20/200-2",
        "20/200 − 2",
        "20/200⁻²",
        "２０／２００－２",
        "٢٠/٢٠٠-٢",
        "२०/२००–२",
        "20/200 ft-2",
        "20⁄200-2",
    ] {
        measures(text, BareNumber::Ask, "20/200-2", 1.04);
    }
}

#[test]
fn entry_metres() {
    measures("6/60", BareNumber::Ask, "6/60", 1.0);
    measures("6/9,5", BareNumber::Ask, "6/9.5", 0.1996);
}

#[test]
fn entry_bare_number_is_asked() {
    for text in ["0.1", "0,1", ".1", ",1"] {
        let Parsed::Ask { choices } = acuity(text, BareNumber::Ask) else { panic!("{text} must be asked") };
        let choices: Vec<String> = choices.iter().map(ToString::to_string).collect();
        assert_eq!(choices, ["decimal 0.1", "logMAR 0.10"], "{text}");
    }
}

#[test]
fn entry_bare_number_by_setting() {
    measures("0,1", BareNumber::Decimal, "decimal 0.1", 1.0);
    measures("0.1", BareNumber::LogMar, "logMAR 0.10", 0.1);
    measures("-0.1", BareNumber::Ask, "logMAR -0.10", -0.1);
    let Parsed::Ask { choices } = acuity("0", BareNumber::Ask) else {
        panic!("0 is written for blindness too")
    };
    assert_eq!(choices.iter().map(ToString::to_string).collect::<Vec<_>>(), ["logMAR 0.00"]);
}

#[test]
fn entry_counts_fingers() {
    let Parsed::Understood(reading @ Reading::Category(category)) = acuity("CF 1m", BareNumber::Ask) else {
        panic!("a category")
    };
    assert_eq!(category.to_string(), "CF 1 m");
    refused(
        &reading.measured().expect_err("no size"),
        "acuity `CF 1 m` is a category, not a size, and cannot be used in this sum",
        "enter an acuity measured with letters or rings, nearer if need be",
    );
}

#[test]
fn entry_thousands_or_decimal() {
    let hint =
        "write it without a thousands sign, and with fewer or more than three digits after the decimal sign";
    for text in ["1,250", "1,250.5", "1.250,5", "1,250,000"] {
        acuity_refused(text, &format!("acuity `{text}` can mean two numbers a thousand times apart"), hint);
    }
    let error = length("1,250", &bounds::TASK_HEIGHT).expect_err("1.25 or 1250");
    refused(&error, "letter height `1,250` can mean two numbers a thousand times apart", hint);
    measures("1.250", BareNumber::LogMar, "logMAR 1.25", 1.25);
    measures("0,125", BareNumber::Decimal, "decimal 0.125", 0.9031);
}

#[test]
fn entry_sign_alone() {
    for text in ["-", "−"] {
        acuity_refused(text, "acuity `-` was not understood", "type for example `20/200`");
    }
}

#[test]
fn entry_empty() {
    for text in ["", " ", "\u{a0}\t", "\u{200b}"] {
        assert_eq!(acuity(text, BareNumber::Ask), Parsed::Empty, "{text:?}");
        assert_eq!(number(text, &bounds::POWER), Ok(None), "{text:?}");
        assert_eq!(length(text, &bounds::TASK_DISTANCE), Ok(None), "{text:?}");
        assert_eq!(dioptres(text, &bounds::SPHERE), Ok(None), "{text:?}");
        assert_eq!(refraction(text), RefractionEntry::Empty, "{text:?}");
        assert_eq!(pd(text), PdParsed::Empty, "{text:?}");
    }
}

#[test]
fn entry_ten_kilobytes_of_junk() {
    let junk = "9x²,٣/".repeat(1250);
    assert!(junk.len() >= 10_000, "{} bytes", junk.len());
    // 44 bytes are kept, the dots among them.
    let start: String = junk.chars().take(31).collect();
    acuity_refused(
        &junk,
        &format!("acuity `{start}…` is too long to be an entry"),
        "use at most 200 characters",
    );
}

#[test]
fn entry_other_acuities_that_cannot_be_used() {
    let example = "type for example `20/200`";
    acuity_refused("20/", "acuity `20/` needs a number after the stroke", example);
    acuity_refused("/200", "acuity `/200` needs a number before the stroke", example);
    acuity_refused("20/0", "part of the fraction `0` is not possible", "use 0.1 to 20000");
    acuity_refused("20/-5", "part of the fraction `-5` is not possible", "use 0.1 to 20000");
    acuity_refused("1e9", "acuity `1e9` was understood only in part", "take away `e9`");
    acuity_refused("NaN", "acuity `NaN` was not understood", example);
    acuity_refused("inf", "acuity `inf` was not understood", example);
    acuity_refused("35", "acuity `35` needs its notation beside it", example);
    acuity_refused("J5", "acuity `J5` was not understood", example);
    acuity_refused("20/200 OD", "acuity `20/200 OD` was understood only in part", "take away `OD`");
    acuity_refused("20/20²", "acuity `20/20²` was understood only in part", "take away `²`");
    acuity_refused(
        "20/200-",
        "acuity `20/200-` needs the number of letters after its sign",
        "type for example `20/200-2`",
    );
    acuity_refused(
        "20/200-30",
        "letters beside the line `-30 letters` is not possible",
        "use -9 to 9 letters",
    );
    acuity_refused("20/5", "acuity `20/5` is not possible", "use -0.5 to 3 logMAR");
    acuity_refused("logMAR", "acuity `logMAR` needs a number", "type for example `logMAR 1.0`");
    acuity_refused("logMAR 4", "logMAR `4` is not possible", "use -0.5 to 3");
    acuity_refused("120 letters", "letters read `120 letters` is not possible", "use 0 to 110 letters");
    acuity_refused("CF 1", "distance of the hand `1` needs a unit", "type for example `CF 1 m`");
    acuity_refused(
        "CF @",
        "distance of the hand `@` needs a distance after it",
        "type for example `CF @ 1 m`",
    );
    acuity_refused("1 250", "acuity `1 250` was understood only in part", "take away `250`");
}

#[test]
fn lengths() {
    let mm = |text: &str| length(text, &bounds::TASK_HEIGHT);
    for (text, wanted) in [
        ("63", 63.0),
        ("6,3cm", 63.0),
        ("16\"", 406.4),
        ("16 in", 406.4),
        ("16 1/2 in", 419.1),
        ("16½″", 419.1),
        ("1/2 in", 12.7),
        ("1 ft", 304.8),
        ("2.5 MM", 2.5),
        ("0.4 m", 400.0),
    ] {
        let read = mm(text).unwrap_or_else(|error| panic!("{error}")).expect("not empty").mm();
        assert!((read - wanted).abs() < 1e-9, "{text} gave {read} mm");
    }
    let refuse = |text: &str, message: &str, hint: &str| {
        refused(&mm(text).expect_err(text), message, hint);
    };
    refuse("5 kg", "letter height `5 kg` has a unit that does not fit", "use mm, cm, m, in or ft");
    refuse("5 D", "letter height `5 D` has a unit that does not fit", "use mm, cm, m, in or ft");
    refuse("mm", "letter height `mm` was not understood", "type for example `12.5`");
    refuse("-3 mm", "letter height `-3 mm` is not possible", "use 0.1 to 20000 mm");
    refuse("63/60", "letter height `63/60` was understood only in part", "take away `/60`");
    refuse("1'250", "letter height `1'250` was understood only in part", "take away `250`");
}

#[test]
fn numbers_angles_and_powers() {
    let unusual = number("12x", &bounds::POWER).expect("possible").expect("not empty");
    assert!(bounds::POWER.is_unusual(unusual), "12x is used, though seldom met");
    refused(
        &number("40", &bounds::POWER).expect_err("too much"),
        "power `40 x` is not possible",
        "use 0.1 to 20 x",
    );
    refused(
        &number("4x5", &bounds::POWER).expect_err("two numbers"),
        "power `4x5` was understood only in part",
        "take away `5`",
    );
    refused(
        &angle("8 mm", &bounds::PANTOSCOPIC).expect_err("no angle"),
        "pantoscopic angle `8 mm` was understood only in part",
        "take away `mm`",
    );
    refused(
        &dioptres("2.50", &bounds::SPHERE).expect_err("no sign"),
        "sphere `2.50` needs a sign",
        "type for example `+2.50`",
    );
    for (text, wanted) in [("0", 0.0), ("plano", 0.0), ("+2,50 D", 2.5), ("–0.75", -0.75)] {
        let read = dioptres(text, &bounds::SPHERE).expect(text).expect("not empty").dioptres();
        assert!((read - wanted).abs() < 1e-12, "{text} gave {read}");
    }
    assert!(dioptres("2.50", &bounds::ADD).is_ok(), "an add is always positive");
}

#[test]
fn pupillary_distances() {
    let says = |text: &str| match pd(text) {
        PdParsed::Empty => "empty".into(),
        PdParsed::Understood(pd) => pd.to_string(),
        PdParsed::Ask { choices } => choices.iter().map(|pd| format!("{pd}?")).collect::<Vec<_>>().join(" "),
        PdParsed::Refused(error) => format!("{error}; {}", error.hint()),
    };
    for (text, wanted) in [
        ("63", "63 mm, both eyes"),
        ("6,3 cm", "63 mm, both eyes"),
        ("31.5/32", "RIGHT 31.5 mm, LEFT 32 mm"),
        ("31,5 / 32 mm", "RIGHT 31.5 mm, LEFT 32 mm"),
        ("63/60", "63 mm far, 60 mm near"),
        ("60/63", "63 mm far, 60 mm near?"),
        ("42/42", "RIGHT 42 mm, LEFT 42 mm? 42 mm far, 42 mm near?"),
        ("42", "42 mm, both eyes?"),
        ("31.5", "PD `31.5` needs the other eye's beside it; type for example `31.5/32`"),
        ("31/62", "PD `31/62` was not understood; type for example `31.5/32`"),
        ("120", "PD `120 mm` is not possible; use 35 to 85 mm"),
        ("63/", "PD `63/` was not understood; type for example `12.5`"),
        ("63 kg", "PD `63 kg` has a unit that does not fit; use mm, cm, m, in or ft"),
        ("63/60/57", "PD `63/60/57` was understood only in part; take away `/57`"),
    ] {
        assert_eq!(says(text), wanted, "{text}");
    }
    assert!(matches!(pd("45.5"), PdParsed::Understood(pd) if pd.is_unusual()), "a small child's");
}

#[test]
fn refractions() {
    let says = |text: &str| match refraction(text) {
        RefractionEntry::Empty => "empty".into(),
        RefractionEntry::Understood { refraction, add: Some(add), unusual: None } => {
            format!("{refraction}; add {:.2}", add.dioptres())
        }
        RefractionEntry::Understood { refraction, unusual: None, .. } => refraction.to_string(),
        RefractionEntry::Understood { refraction, unusual: Some(unusual), .. } => {
            format!("{refraction}; {unusual}")
        }
        RefractionEntry::Ask { choices } => {
            choices.iter().map(|rx| format!("{rx}?")).collect::<Vec<_>>().join(" ")
        }
        RefractionEntry::Refused(error) => format!("{error}; {}", error.hint()),
    };
    for (text, wanted) in [
        ("+2,00 −1,50 × 090", "+2.00 -1.50 x090"),
        ("＋２．００ –1.50 @ ٩٠º", "+2.00 -1.50 x090"),
        ("plano", "plano"),
        ("2,00", "+2.00? -2.00?"),
        ("-150", "-1.50?"),
        (
            "+2,00 -1.50 x 90",
            "refraction `+2,00 -1.50 x 90` can mean two numbers a thousand times apart; \
          write it without a thousands sign, and with fewer or more than three digits after the decimal sign",
        ),
        ("+2.00 −1.50", "cylinder `-1.50` needs an axis; type for example `+2.00 -1.50 x 090`"),
        ("+2.00 -1.50 x 181", "axis `181 degrees` is not possible; use 0 to 180 degrees"),
        ("+2.30", "+2.30; Lenses are made in steps of 0.25 or 0.125 D. It is used as typed."),
        ("+2.00 x 90", "+2.00 0.00 x090; There is an axis but no cylinder. It is used as typed."),
        ("-22.00", "-22.00; Unusual sphere: -20 to 20 D is usual. It is used as typed."),
        ("+1.00 add 2.5", "+1.00; add 2.50"),
    ] {
        assert_eq!(says(text), wanted, "{text}");
    }
    let rx::Parsed::Understood(read) = prescription("+1.00 add 2.5") else { panic!("understood") };
    assert_eq!(read.to_string(), "+1.00 add +2.50");
}
