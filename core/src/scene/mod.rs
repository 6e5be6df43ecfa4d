//! Things looked at in a room or a street: faces, signs, boards.
//!
//! The same letter asks for little from near and for much from far. Height, distance and acuity are tied by one angle:
//! who knows two of them knows the third.
//!
//! ```text
//!    letter ─┬─
//!     h      |<---------------- D ---------------->| eye        detail = h / 5, seen from D
//!           ─┴─
//! ```
//!
//! * [`reading_distance`], [`letter_height`] and [`acuity_for_letter`] turn height, distance and acuity of letters into
//!   each other, exactly and by the short rule `D/h = 687.5/(MAR·reserve)`; [`SIGN_RULES`] are rules of sign makers.
//! * [`board_acuity`] turns the demand of a board into the acuity to have; [`BOARDS`] are demands that were measured.
//! * [`face_range`] says from how far a face may be known, always as a range; [`face_detail`] what of it has to be seen.
//!
//! Distances run from the eye to the thing; a letter's critical height is the x-height in lower case and the height of
//! the capitals in capitals, five details high. A reserve is size over least size seen, 1 only just.
//!
//! Then read [`crate::task`]: a wish as one record.

mod board;
mod face;
mod letter;
mod road;

pub use board::{
    ADAMS_BACK, ADAMS_FRONT, BOARDS, Board, BoardAcuity, CLASSROOM_DAY, ClassroomDay, EDO_FARTHEST,
    EDO_NEAREST, NARAYANASAMY_BOARD, NARAYANASAMY_DESK, NEGILONI_BOARD, Statistic, board_acuity,
};
pub use face::{
    CYCLE_BANDS, CycleBand, FACE_DISTANCES, FaceAt, FaceCaution, FaceDetail, FaceDistance, FaceRange,
    USUAL_CYCLES, face_detail, face_range, usual_face_widths,
};
pub use letter::{
    AcuityForLetter, LetterHeight, ReadingDistance, acuity_for_letter, letter_height, reading_distance,
};
pub use road::{LOWER_CASE_OF_CAPITALS, SIGN_RULES, SignLetter, SignRule, sign_letter};
