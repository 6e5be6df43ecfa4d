//! What each sheet says, against numbers worked out here.

use super::{first_number, line, of, words};
use crate::reading::case;
use arcminute_core::math;
use arcminute_web::model::answer::Answer;
use arcminute_web::model::compared::{Asked, LookedAt};
use arcminute_web::model::draft::Draft;
use arcminute_web::model::sheets::{Block, Sheet, SheetKind};
use arcminute_web::model::words::CAUTIONS;
use arcminute_web::model::{demo, format, list, shown};

/// The cells of a line.
#[track_caller]
fn cells<'a>(sheet: &'a Sheet, what: &str) -> &'a [String] {
    let found = sheet.blocks.iter().find_map(|block| match block {
        Block::Row(cells) if cells.first().is_some_and(|first| first == what) => Some(cells.as_slice()),
        _ => None,
    });
    found.unwrap_or_else(|| panic!("no line {what:?} on {}:\n{}", sheet.title, words(sheet)))
}

#[test]
fn the_order_says_what_it_must() {
    for one in demo::CASES {
        let sheet = of(SheetKind::Order, &one.case());
        let text = words(&sheet);
        for what in [
            "Eye that looks through it",
            "Telescope",
            "Class, magnification, objective",
            "Focus range",
            "Exit pupil",
            "Sideways",
            "Height",
            "Opening",
            "Tilt from the carrier lens",
            "Pantoscopic angle",
            "Face form angle",
            "Vertex distance, worn",
            "Carrier prescription, RIGHT",
            "Carrier prescription, LEFT",
            "Box width A",
            "Box height B",
            "Bridge DBL",
            "Effective diameter ED",
            "PD, far, from the middle of the bridge",
            "Lens material, tint, coating",
            "Frame: shape, colour, sides",
            "Correction in the eyepiece",
            "Cap for near",
            "Filter",
            "Extras",
            "May be off by, either way",
            "Ordered by, licence number, date",
            "Checked by a second person",
            "Prediction",
            "Chance of the goal at a test",
        ] {
            line(&sheet, what);
        }
        assert!(text.contains("measured from"), "what the tilt is measured from: {text}");
        assert!(
            line(&sheet, "May be off by, either way").contains("from a summary of the 2015 text"),
            "{text}"
        );
        assert!(!text.contains(" OD ") && !text.contains(" OS "), "eyes are spelled out");
        for caution in CAUTIONS.iter().filter(|caution| caution.place.on_order()) {
            assert!(text.contains(caution.text), "{}", caution.head);
        }
        let refused = one.id == "frame-too-shallow";
        assert_eq!(text.contains("DO NOT ORDER. "), refused, "{}: {text}", one.id);
        assert_eq!(text.contains("VOID"), refused, "{}: {text}", one.id);
        let check = of(SheetKind::Delivery, &one.case());
        assert_eq!(words(&check).contains("VOID. "), refused, "{}", one.id);
    }
}

/// The prediction is that of Bench and no second one.
#[test]
fn the_order_predicts_what_bench_predicts() {
    for one in demo::CASES {
        let draft = one.case();
        let answer = Answer::of(&draft);
        let aid = list::demo_aid(&draft.bench.telescope).expect("it is in the list");
        let looked = LookedAt::of(&Asked::of(&answer), answer.goal, aid).expect("it can be judged");
        let facts = shown::looked_facts(&answer, &looked);
        let reads =
            &facts.iter().find(|fact| fact.key == "looked-reads").expect("what would just be read").value;
        // An aid that is only looked at changes nothing.
        for looked_at in ["", "hand-12"] {
            let draft = Draft {
                bench: arcminute_web::model::draft::BenchDraft {
                    aid: looked_at.into(),
                    ..draft.bench.clone()
                },
                ..draft.clone()
            };
            let sheet = of(SheetKind::Order, &draft);
            assert!(line(&sheet, "Prediction").contains(reads.as_str()), "{}: {reads}", one.id);
            let chance = format::chance(looked.seen().expect("it serves").outcome.prediction.chance);
            assert_eq!(line(&sheet, "Chance of the goal at a test"), chance, "{}", one.id);
        }
    }
}

/// Effective power, worked by hand: +12.00 D from 13 mm to 10 mm is 12/(1 − 0.003·12) = +12.448, −12.00 is −11.583.
#[test]
fn a_carrier_is_moved_to_the_plane_in_which_it_is_worn() {
    let mut draft = case("adult-20-160");
    draft.person.vertex_mm = "13".into();
    draft.order.carrier_right = "+12.00".into();
    draft.order.carrier_left = "-12.00".into();
    let right = |draft: &Draft| line(&of(SheetKind::Order, draft), "Carrier prescription, RIGHT").to_owned();
    assert_eq!(right(&draft), "+12.00", "worn where it was found");
    draft.fit.worn_vertex_mm = "10".into();
    assert_eq!(right(&draft), "+12.45 as worn, 3.0 mm nearer to the eye; +12.00 at the refraction");
    let left = line(&of(SheetKind::Order, &draft), "Carrier prescription, LEFT").to_owned();
    assert_eq!(left, "-11.58 as worn, 3.0 mm nearer to the eye; -12.00 at the refraction");
    draft.fit.worn_vertex_mm = "16".into();
    // 12/(1 + 0.003·12) = +11.583.
    assert_eq!(right(&draft), "+11.58 as worn, 3.0 mm farther from the eye; +12.00 at the refraction");
    draft.fit.worn_vertex_mm = "?".into();
    assert_eq!(right(&draft), "not filled in", "a distance that cannot be used moves nothing");
    // What comes is held against what was ordered, not against what was typed.
    draft.fit.worn_vertex_mm = "10".into();
    draft.order.delivered_right = "+12.50".into();
    let check = of(SheetKind::Delivery, &draft);
    assert_eq!(cells(&check, "Sphere"), ["Sphere", "+0.05 D", "0.25 D", "within"], "2 % of 12.448 is 0.249");
}

/// Limits of the summary, worked by hand for +2.00 −1.50 x090 add +2.50: 0.13 D of sphere and of cylinder, 3°, 0.12 D.
#[test]
fn what_came_is_held_against_its_order_item_by_item() {
    let mut draft = case("adult-20-160");
    draft.order.carrier_right = "+2.00 -1.50 x 090 add +2.50".into();
    for (came, item, wanted) in [
        ("+2.13 -1.50 x 093 add +2.62", "Sphere", ["+0.13 D", "0.13 D", "within"]),
        ("+2.13 -1.50 x 093 add +2.62", "Axis", ["3°", "3°", "within"]),
        ("+2.13 -1.50 x 093 add +2.62", "Add", ["+0.12 D", "0.12 D", "within"]),
        ("+2.14 -1.50 x 090 add +2.50", "Sphere", ["+0.14 D", "0.13 D", "OUTSIDE"]),
        ("+2.00 -1.64 x 090 add +2.50", "Cylinder", ["-0.14 D", "0.13 D", "OUTSIDE"]),
        ("+2.00 -1.50 x 094 add +2.50", "Axis", ["4°", "3°", "OUTSIDE"]),
        // The other notation is the same lens.
        ("+0.50 +1.50 x 180 add +2.50", "Sphere", ["+0.00 D", "0.13 D", "within"]),
    ] {
        draft.order.delivered_right = came.into();
        let check = of(SheetKind::Delivery, &draft);
        assert_eq!(cells(&check, item)[1..], wanted, "{came}: {item}");
        let outside = wanted[2] == "OUTSIDE";
        assert_eq!(line(&check, "This lens"), if outside { "OUTSIDE" } else { "within" }, "{came}");
    }
    draft.order.delivered_right = "+2.00 -1.50 x 090".into();
    let text = words(&of(SheetKind::Delivery, &draft));
    assert!(text.contains("add ordered `+2.50` needs the add measured"), "{text}");
    draft.order.delivered_right = String::new();
    let check = of(SheetKind::Delivery, &draft);
    assert_eq!(line(&check, "Measured"), "", "room to write");
}

/// 6/48 sees 8 minutes: letters of 5 times that, by the tangent: 23.3 mm at 2 m, 46.5 at 4 m, 69.8 at 6 m; twice with ease.
/// Print of M units is distance in metres times minutes: 2 M at 25 cm and 3.2 M at 40 cm, at the least size seen.
#[test]
fn the_letter_to_the_school_says_how_high_letters_have_to_be() {
    let draft = case("pupil-reads-the-board");
    let sheet = of(SheetKind::School, &draft);
    let eye = 8.0;
    let tangent = math::tan(eye / 60.0 * math::PI / 180.0 / 2.0) * 2.0;
    // The telescope of the case, with its tube set for the refraction and for 6 m: about 4.25 times.
    for (metres, aided) in [(2.0, 5.5), (4.0, 11.0), (6.0, 16.5)] {
        let cells = cells(&sheet, &format!("{metres} m from the board"));
        let height = 5.0 * metres * 1000.0 * tangent;
        let said = format!("{height:.0} mm; with ease {:.0} mm", 2.0 * height);
        assert_eq!(cells[1], said, "{metres} m without");
        let with = first_number(&cells[2]);
        assert!((with - aided).abs() <= 0.06 * aided + 0.5, "{metres} m with the aid: {with}, about {aided}");
    }
    for (cm, least) in [
        ("25 cm (9.8 in) to the eye, usual glasses", 2.0),
        ("40 cm (15.7 in) to the eye, usual glasses", 3.2),
    ] {
        let cells = cells(&sheet, cm);
        for (cell, reserve) in [(&cells[1], 1.3), (&cells[2], 2.5)] {
            let m = least * reserve;
            assert!((first_number(cell) - m).abs() <= 0.051, "{cell}: {m} M");
            // 1 M is 9.16 points of Times, whose small letters are 0.45 of the body: 1.454/0.45/0.3528.
            let (_, points) = cell.split_once(": ").expect("points of a typeface");
            assert!((first_number(points) - m * 9.16).abs() <= 0.6, "{cell}: {} points", m * 9.16);
        }
    }
    let text = words(&sheet);
    for part in [
        "Seat:",
        "Light:",
        "How long at a time",
        "Who trains its use",
        "Who carries, cleans and stores it",
        "What does not help this pupil",
        "Never look at the sun",
        "Whom to ask",
        "This letter holds no diagnosis",
    ] {
        assert!(text.contains(part), "{part:?} is missing:\n{text}");
    }
    assert!(
        !text.contains("6/48") && !text.contains("Invented child"),
        "no acuity, no notes of the person:\n{text}"
    );
}

/// A near aid is none for the board, and a telescope is none so near as it cannot be focused.
#[test]
fn the_letter_to_the_school_says_what_the_aid_is_not_for() {
    let mut draft = case("pupil-reads-the-board");
    draft.bench.aid = "dome".into();
    let sheet = of(SheetKind::School, &draft);
    assert_eq!(cells(&sheet, "2 m from the board")[2], "not for the board");
    assert!(
        first_number(&cells(&sheet, "With the aid, at its distance")[1]) < 4.2,
        "smaller print than without"
    );
    draft.bench.aid = String::new();
    draft.bench.telescope = "g22-20".into();
    // An eye that neither focuses nor is short-sighted, which would see near things through it.
    draft.person.right.accommodation_d = "0".into();
    draft.person.right.refraction = String::new();
    let sheet = of(SheetKind::School, &draft);
    assert_eq!(
        cells(&sheet, "2 m from the board")[2],
        "not sharp, or not to be used, so near",
        "fixed for far"
    );
}

#[test]
fn the_trial_sheet_has_room_beside_each_prediction() {
    for one in demo::CASES {
        let sheet = of(SheetKind::Trial, &one.case());
        for what in ["Would just read", "Seen at once", "Distance", "Light", "Focusing asked for"] {
            let cells = cells(&sheet, what);
            assert!(cells.len() == 3 && !cells[1].is_empty() && cells[2].is_empty(), "{}: {cells:?}", one.id);
        }
        for what in ["Comfort", "Verdict of the person", "Tried next, and why"] {
            assert_eq!(line(&sheet, what), "", "{}: room to write", one.id);
        }
        let steps = sheet.blocks.iter().filter(|block| matches!(block, Block::Step(_))).count();
        assert_eq!(steps, 6, "what to do when it falls short");
        assert!(words(&sheet).contains("Test acuity through"), "the caution beside a prediction");
    }
    let mut near = case("adult-20-160");
    near.bench.goal = 1;
    near.bench.aid = "high-plus".into();
    let sheet = of(SheetKind::Trial, &near);
    assert!(line(&sheet, "Working distance").contains("page to eye"), "{}", words(&sheet));
    assert!(words(&sheet).contains("It is sharp only near the distance said"), "the caution of a close aid");
}

#[test]
fn the_summary_holds_what_was_measured_chosen_and_reached() {
    let mut draft = case("adult-20-160");
    draft.order.follow_up = "In four weeks".into();
    let sheet = of(SheetKind::Summary, &draft);
    assert_eq!(cells(&sheet, "Best corrected acuity")[1..], ["20/160 (logMAR 0.90)", "20/400 (logMAR 1.30)"]);
    assert_eq!(line(&sheet, "Follow-up"), "In four weeks");
    assert_eq!(line(&sheet, "Fit"), "The fit is possible.");
    assert!(
        line(&sheet, "To mark and order").starts_with("sideways 31.5 mm; height 32.5 mm; tilt"),
        "{}",
        words(&sheet)
    );
    assert_eq!(line(&sheet, "Trial"), "nothing entered yet");
    let looked_at = "4x13 Keplerian, focusing, bright (looked at)";
    assert!(cells(&sheet, looked_at)[1].ends_with("probably"), "{}", words(&sheet));
    draft.trial.aid = draft.bench.telescope.clone();
    draft.trial.acuity = "20/40".into();
    let sheet = of(SheetKind::Summary, &draft);
    assert!(line(&sheet, "Trial").starts_with("As predicted"), "{}", line(&sheet, "Trial"));
}

/// The cautions stand on every sheet that hands over or orders an aid, where its risk arises.
#[test]
fn the_sun_and_the_fire_stand_on_paper() {
    let mut draft = case("adult-20-160");
    for (id, near) in [
        ("k40-13", false),
        ("hand-telescope-40", false),
        ("hand-12", true),
        ("stand", true),
        ("dome", true),
        ("high-plus", true),
        ("reading-cap", true),
    ] {
        draft.bench.aid = id.into();
        draft.bench.goal = usize::from(near);
        for kind in [SheetKind::Trial, SheetKind::Person, SheetKind::School] {
            let text = words(&of(kind, &draft)).to_lowercase();
            assert!(text.contains("sun"), "{id}: {kind:?} says nothing of the sun");
            assert!(text.contains("fire") || text.contains("alight"), "{id}: {kind:?} says nothing of fire");
        }
    }
    for (id, word) in [
        ("k40-13", "walk"),
        ("high-plus", "walk"),
        ("k40-13", "drive"),
        ("high-plus", "one distance"),
        ("head-mounted", "walk"),
    ] {
        draft.bench.aid = id.into();
        let text = words(&of(SheetKind::Person, &draft));
        assert!(text.contains(word), "{id}: nothing of {word}");
    }
    for one in SheetKind::ALL {
        let text = words(&of(one, &draft)).to_lowercase();
        for verdict in ["recommended for", "prescribed for", "clinically proven", "improves vision"] {
            assert!(!text.contains(verdict), "{one:?}: {verdict}");
        }
    }
}

/// Spectacles for near before one eye have one lens: the other is neither ordered nor a blank.
#[test]
fn spectacles_for_near_are_ordered_and_checked_lens_by_lens() {
    let mut draft = case("adult-20-160");
    draft.bench.goal = 1;
    draft.bench.aid = "high-plus".into();
    let order = of(SheetKind::Order, &draft);
    assert!(order.title.contains("spectacles for near, RIGHT eye"), "{}", order.title);
    let lens = line(&order, "Lens for near, RIGHT").to_owned();
    // +10 D on −1.00 −0.50 x180, worn where it was found.
    assert_eq!(lens, "+9.00 -0.50 x180 as worn");
    assert!(line(&order, "Lens to the print").starts_with("10 cm (3.9 in)"), "{}", words(&order));
    assert!(order.blanks.is_empty() && order.stop.is_empty(), "{:?}", order.blanks);
    draft.order.delivered_right = "+9.25 -0.50 x 180".into();
    let check = of(SheetKind::Delivery, &draft);
    assert!(check.blanks.is_empty(), "the left eye has no lens: {:?}", check.blanks);
    // 2 % of 9.00 is 0.18.
    assert_eq!(cells(&check, "Sphere"), ["Sphere", "+0.25 D", "0.18 D", "OUTSIDE"]);
    assert!(!words(&check).contains("LEFT eye"), "{}", words(&check));
    assert_eq!(cells(&check, "RIGHT eye: optical centre")[2], "", "room to write");
}
