//! Cases of version 2: one telescope before one eye, in a carrier lens.

use crate::model::draft::{Draft, FitDraft, OrderDraft, PlacementChoice, TiltFrom, TrialDraft};

/// The case with what version 2 took for granted said: from what a tilt is measured, and which aid was tried.
///
/// # Errors
/// What version 2 did not have, in words.
pub(super) fn read(mut case: Draft) -> Result<Draft, &'static str> {
    let fit = FitDraft {
        segment_width_mm: String::new(),
        segment_inset_mm: String::new(),
        eyepiece_x_mm: String::new(),
        eyepiece_y_mm: String::new(),
        tilt_from: TiltFrom::NotSaid,
        both_eyes: false,
        from_lens_mm: String::new(),
        worn_vertex_mm: String::new(),
        face_form_deg: String::new(),
        base_in_pd: String::new(),
        carrier_turned: false,
        front_weight_g: String::new(),
        ..case.fit.clone()
    };
    let new_rule = matches!(case.fit.placement, PlacementChoice::Low | PlacementChoice::ByHand);
    if fit != case.fit || new_rule {
        return Err("such fit");
    }
    let order = OrderDraft {
        large_print: false,
        cap_d: String::new(),
        frame: String::new(),
        lens: String::new(),
        follow_up: String::new(),
        person_notes: String::new(),
        school_notes: String::new(),
        delivered_right: String::new(),
        delivered_left: String::new(),
        ..case.order.clone()
    };
    if order != case.order {
        return Err("such order");
    }
    if !case.trial.aid.is_empty() {
        return Err("aid of a trial");
    }
    if !case.fit.ordered_tilt_deg.trim().is_empty() {
        case.fit.tilt_from = TiltFrom::CarrierLens;
    }
    if case.trial != TrialDraft::default() {
        case.trial.aid = case.bench.looked_at().to_owned();
    }
    Ok(case)
}

#[cfg(test)]
mod tests {
    use crate::model::case_file::read;
    use crate::model::draft::TiltFrom;

    fn case(body: &str) -> String {
        format!(r#"{{ "format": "arcminute-case", "version": 2, "case": {{ {body} }} }}"#)
    }

    #[test]
    fn what_version_2_took_for_granted_is_said() {
        let old = case(
            r#""bench": { "telescope": "one", "aid": "two" }, "fit": { "ordered_tilt_deg": "10" }, "trial": { "acuity": "20/40" }"#,
        );
        let draft = read(&old).expect("version 2 is read").case;
        assert_eq!((draft.fit.tilt_from, draft.trial.aid.as_str()), (TiltFrom::CarrierLens, "two"));
        let empty = read(&case("")).expect("version 2 is read").case;
        assert_eq!((empty.fit.tilt_from, empty.trial.aid.as_str()), (TiltFrom::NotSaid, ""));
    }

    #[test]
    fn what_version_2_did_not_have_is_refused() {
        for (body, what) in [
            (r#""fit": { "both_eyes": true }"#, "such fit"),
            (r#""fit": { "placement": "low" }"#, "such fit"),
            (r#""fit": { "tilt_from": "straight_ahead" }"#, "such fit"),
            (r#""order": { "cap_d": "4" }"#, "such order"),
            (r#""order": { "large_print": true }"#, "such order"),
            (r#""trial": { "aid": "one" }"#, "aid of a trial"),
        ] {
            let told = read(&case(body)).expect_err("refused").to_string();
            assert_eq!(told, format!("the file says that it is of version 2, which had no {what}"), "{body}");
        }
    }
}
