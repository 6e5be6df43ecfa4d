//! Files: a case that is read is written and read back as it was; a telescope of a list is possible or refused.

use crate::check;
use arcminute_web::model::case_file;
use arcminute_web::model::devices::{Device, DeviceList};

/// A case file.
pub(crate) fn case_file(text: &str) {
    match case_file::read(text) {
        Ok(file) => {
            let goals = file.case.goals.len();
            assert!((1..=case_file::MOST_GOALS).contains(&goals), "{goals} goals");
            let written = case_file::write(&file.about, &file.case);
            assert_eq!(case_file::read(&written), Ok(file), "what was written is not read back");
        }
        Err(error) => assert!(10 < error.to_string().len(), "{error:?} says nothing"),
    }
}

/// A list of telescopes.
pub(crate) fn telescopes(text: &str) {
    let Ok(list) = serde_json::from_str::<DeviceList>(text) else { return };
    let written = serde_json::to_string(&list).expect("a list that was read can be written");
    let again = serde_json::from_str::<DeviceList>(&written).expect("what was written is read back");
    assert_eq!(again.telescopes.len(), list.telescopes.len(), "none is lost");
    list.telescopes.iter().for_each(telescope);
}

fn telescope(device: &Device) {
    let telescope = match device.telescope() {
        Ok(telescope) => telescope,
        Err(error) => return check::refusal(&error),
    };
    let afocal = telescope.afocal();
    check::same("the marked power", afocal.magnification.size(), device.power_times);
    for (what, value) in [
        ("length", afocal.length.mm()),
        ("exit pupil", afocal.exit_pupil.mm()),
        ("place of the exit pupil", afocal.exit_pupil_behind_eyepiece.mm()),
        ("objective", telescope.objective_diameter.mm()),
        ("transmittance", telescope.transmittance),
        ("near focus", telescope.near_focus.map_or(0.0, |distance| distance.m())),
    ] {
        assert!(value.is_finite(), "{what} of {device:?}: {value}");
    }
    assert!(0.0 < afocal.exit_pupil.mm() && 0.0 <= afocal.length.mm(), "{device:?}: {afocal:?}");
    check::working(&afocal);
    assert!(!device.marking().is_empty(), "a telescope has a marking");
}
