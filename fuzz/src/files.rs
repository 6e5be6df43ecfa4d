//! Files: a case that is read is written and read back as it was.

use arcminute_web::model::case_file;

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
