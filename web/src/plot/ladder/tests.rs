//! The ladder: by hand, in words, and whatever comes.

use super::super::laws::check_sound;
use super::*;
use arcminute_core::acuity::{Scale, written};
use arcminute_core::predict::predict;

fn feet(acuity: LogMar) -> String {
    written(acuity, Scale::Feet).to_string()
}

fn log(value: f64) -> LogMar {
    LogMar::from_log(value)
}

/// 20/160, the goal 20/40 and these powers, the first one chosen.
fn input(powers: &[f64]) -> LadderInput<'static> {
    let (person, goal, limit) = (log(math::log10(8.0)), log(math::log10(2.0)), log(0.2));
    let arrow = |(index, times): (usize, &f64)| {
        let magnification = Magnification::from_times(*times);
        let reaches = predict(person, magnification, goal, limit).reach;
        LadderArrow {
            label: format!("{}x", super::super::scale::number(*times, 2).trim_end_matches(".00")),
            magnification,
            reaches,
            chosen: index == 0,
        }
    };
    LadderInput {
        person,
        person_label: "20/160".into(),
        retest_limit: limit,
        goals: vec![("20/40".into(), goal)],
        arrows: powers.iter().enumerate().map(arrow).collect(),
        label: &feet,
    }
}

fn lines<'a>(drawing: &'a Drawing, class: &'a str) -> impl Iterator<Item = (f64, f64, f64, f64)> + 'a {
    drawing.shapes.iter().filter_map(move |shape| match shape {
        Shape::Line { x1, y1, x2, y2, class: has } if has.contains(class) => Some((*x1, *y1, *x2, *y2)),
        _ => None,
    })
}

#[test]
fn a_minute_at_the_ladder() {
    let mut input = input(&[4.0]);
    assert_eq!(
        ladder(&input).description,
        "Standing at 20/160; the goal 20/40 is 6.0 steps up; 4x climbs 6.0 steps: its middle reaches it. \
         A step is one line of a letter chart; higher on the ladder is finer detail."
    );
    input.goals[0].0 = "Board".into();
    assert_eq!(
        ladder(&input).rows,
        [
            ("Standing at".into(), "20/160; 95 % of repeats within 2.0 steps of it".into()),
            ("Goal: Board".into(), "20/40: 6.0 steps up".into()),
            (
                "4x (chosen)".into(),
                "climbs 6.0 steps, to 20/40; of Board (20/40): its middle reaches it".into()
            ),
        ]
    );
    input.goals.clear();
    let words = ladder(&input).description;
    assert!(words.starts_with("Standing at 20/160; 4x climbs 6.0 steps, to 20/40."), "{words}");
    input.arrows.clear();
    assert!(ladder(&input).description.starts_with("Standing at 20/160."), "alone");
}

/// By hand: the finest end of the band is 0.903 − 0.602 − 0.2 = 0.101, so the top rung is 0.0;
/// a tenth is 20 units.
#[test]
fn lengths_are_true() {
    let drawing = ladder(&input(&[4.0]));
    let (_, foot, _, tip) = lines(&drawing, "ladder-arrow").next().expect("an arrow");
    assert!(math::abs(foot - 180.618) < 1e-3 && math::abs(tip - 60.206) < 1e-3, "{foot} to {tip}");
    let (_, goal, ..) = lines(&drawing, "ladder-goal").next().expect("a goal");
    assert!(math::abs(goal - tip) < 1e-9, "four times is from 20/160 to 20/40");
    assert_eq!(lines(&drawing, "ladder-rung").count(), 14, "0.0 to 1.3");
}

#[test]
fn more_power_climbs_higher() {
    let drawing = ladder(&input(&[2.0, 3.0, 4.0, 5.0, 6.0]));
    let tips: Vec<f64> = lines(&drawing, "ladder-arrow").map(|line| line.3).collect();
    assert_eq!(tips.len(), 5);
    assert!(tips.is_sorted_by(|one, next| next < one), "{tips:?}");
}

#[test]
fn the_chosen_one_is_always_drawn() {
    let mut input = input(&[2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0]);
    input.arrows[0].chosen = false;
    input.arrows[6].chosen = true;
    let drawing = ladder(&input);
    assert_eq!(lines(&drawing, "ladder-arrow").count(), 5);
    assert_eq!(lines(&drawing, "ladder-arrow ladder-chosen").count(), 1);
    assert_eq!(drawing.rows.len(), 9, "all are in the rows");
}

#[test]
fn sound_whatever_comes() {
    let usual = input(&[4.0, 3.0, 5.0]);
    check_sound(&ladder(&usual));
    check_sound(&ladder_strip(&usual));
    for powers in [
        &[][..],
        &[1.0],
        &[0.5, 2.0],
        &[4.0, 4.0, 4.0, 4.0, 4.0],
        &[20.0, -8.0, 2.8, 2.75],
        &[0.0, f64::NAN, f64::INFINITY],
    ] {
        for (person, goals) in [
            (0.9, vec![]),
            (0.9, vec![0.9]),
            (0.9, vec![0.3, 0.3, 0.31, 0.9, 1.2, -0.3]),
            (3.0, vec![-0.5]),
            (f64::NAN, vec![f64::INFINITY]),
        ] {
            for limit in [0.0, 0.2, 1.0, f64::NAN] {
                let name = |at: &f64| ("Writing on the board from the back row".to_owned(), log(*at));
                let goals: Vec<_> = goals.iter().map(name).collect();
                let input =
                    LadderInput { person: log(person), retest_limit: log(limit), goals, ..input(powers) };
                check_sound(&ladder(&input));
                check_sound(&ladder_strip(&input));
            }
        }
    }
}

#[test]
fn what_is_reached_already_is_said_to_be() {
    let mut input = input(&[4.0]);
    input.goals[0] = ("Headlines".into(), log(math::log10(10.0)));
    assert!(
        ladder(&input).description.contains("the goal Headlines (20/200) is 1.0 step down: reached already")
    );
    input.goals[0].1 = input.person;
    assert!(ladder(&input).description.contains("the goal Headlines (20/160) is on the same rung"));
}

/// By hand: from 1.203 at 10 to 0.001 at 330, a tenth is 26.62 units; the person at 0.903 stands at 89.87, the tip at 250.13.
#[test]
fn the_strip_is_a_line_to_the_right() {
    let drawing = ladder_strip(&input(&[4.0, 8.0]));
    assert_eq!((drawing.view_box.width, drawing.view_box.height), (340.0, 60.0));
    let arrows: Vec<_> = lines(&drawing, "ladder-arrow").collect();
    let [(foot, _, tip, _)] = arrows[..] else { panic!("one arrow, not {arrows:?}") };
    assert!(math::abs(foot - 89.867) < 1e-2 && math::abs(tip - 250.133) < 1e-2, "{foot} to {tip}");
}
