//! What the acuity box makes of an entry: its state, its words, and what of it reaches the sums.

use arcminute_web::model::answer::{Answer, FieldState};
use arcminute_web::model::draft::Draft;
use arcminute_web::model::field::FieldId;
use arcminute_web::model::summary;

const BOX: FieldId = FieldId::Acuity(true);

fn typed(text: &str) -> Answer {
    let mut draft = Draft::default();
    BOX.set_text(&mut draft, text.into());
    let answer = Answer::of(&draft);
    assert_eq!(BOX.text(&draft), text, "the text stays as it was typed");
    answer
}

#[track_caller]
fn understood(text: &str, echo: &str, log_mar: f64, power: &str) {
    let answer = typed(text);
    assert_eq!(answer.field(BOX), FieldState::Understood { echo: echo.into(), unusual: None });
    let got = answer.right.log_mar().expect("it has a size").log();
    assert!((got - log_mar).abs() < 1e-12, "{text} is {got}");
    assert_eq!(summary::power(&answer), power);
}

/// Nothing of it reaches the sums.
#[track_caller]
fn unused(answer: &Answer) {
    assert_eq!(answer.right.log_mar(), None);
    assert_eq!(answer.needed, None);
    assert!(answer.powers.is_empty() && answer.bench.is_empty(), "nothing is predicted");
    assert!(answer.undecided.iter().any(|item| item.waits_for == [BOX]), "the page says what it waits for");
}

#[track_caller]
fn refused(text: &str, message: &str, hint: &str) {
    let answer = typed(text);
    assert_eq!(answer.field(BOX), FieldState::Refused { message: message.into(), hint: hint.into() });
    assert_eq!(answer.troubles(), 1);
    unused(&answer);
}

#[test]
fn fractions_are_understood_and_echoed() {
    understood(
        "20/200-2",
        "20/200-2 = 20/220 = 6/66 = logMAR 1.04",
        1.04,
        "5.5x is needed; the next whole power is 6x.",
    );
    understood("6/60", "6/60 = 20/200 = logMAR 1.00", 1.0, "5x is needed.");
}

#[test]
fn a_bare_number_is_asked_about() {
    for text in ["0,1", "0.1"] {
        let answer = typed(text);
        let FieldState::Ask { question, choices } = answer.field(BOX) else {
            panic!("{:?}", answer.field(BOX))
        };
        assert_eq!(question, format!("{text} can mean more than one thing. Choose one."));
        let said: Vec<(&str, &str)> =
            choices.iter().map(|choice| (choice.label.as_str(), choice.text.as_str())).collect();
        assert_eq!(
            said,
            [
                ("decimal 0.1, decimal acuity: 20/200", "decimal 0.1"),
                ("logMAR 0.10, logMAR: 20/25", "logMAR 0.10"),
            ]
        );
        assert_eq!(answer.troubles(), 1);
        unused(&answer);
        for (choice, log_mar) in choices.iter().zip([1.0, 0.1]) {
            let chosen = typed(&choice.text);
            let got = chosen.right.log_mar().expect("a choice is understood").log();
            assert!((got - log_mar).abs() < 1e-12, "{} is {got}", choice.text);
        }
    }
}

#[test]
fn counting_fingers_is_kept_and_not_turned_into_a_size() {
    let answer = typed("CF 1m");
    let echo = "CF 1 m: a category, no size; it cannot be used in a sum";
    assert_eq!(answer.field(BOX), FieldState::Understood { echo: echo.into(), unusual: None });
    assert_eq!(answer.troubles(), 0, "it is a good record");
    unused(&answer);
    let what = "the power needed: a category has no size, so an acuity measured nearer is needed";
    assert!(answer.undecided.iter().any(|item| item.what == what), "{:?}", answer.undecided);
}

#[test]
fn what_cannot_be_used_says_why_and_what_to_do() {
    refused(
        "1,250",
        "Acuity `1,250` can mean two numbers a thousand times apart.",
        "Write it without a thousands sign, and with fewer or more than three digits after the decimal sign.",
    );
    refused("-", "Acuity `-` was not understood.", "Type for example `20/200`.");
    refused("20/200 maybe", "Acuity `20/200 maybe` was understood only in part.", "Take away `maybe`.");
    refused("20/0", "Part of the fraction `0` is not possible.", "Use 0.1 to 20000.");
}

#[test]
fn ten_kilobytes_are_refused_in_a_short_sentence() {
    // 41 bytes and the dots, never half a character.
    for (junk, quoted) in
        [("9", "9".repeat(41)), ("x/", format!("{}x", "x/".repeat(20))), ("٣", "٣".repeat(20))]
    {
        let text = junk.repeat(10_240 / junk.len());
        refused(
            &text,
            &format!("Acuity `{quoted}…` is too long to be an entry."),
            "Use at most 200 characters.",
        );
    }
}

#[test]
fn an_empty_box_is_no_error() {
    for text in ["", "  ", "\t"] {
        let answer = typed(text);
        assert_eq!(answer.field(BOX), FieldState::Empty { assumed: None }, "{text:?}");
        assert_eq!(answer.troubles(), 0);
        unused(&answer);
        assert_eq!(summary::power(&answer), "", "nothing is said of it");
    }
}
