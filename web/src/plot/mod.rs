//! Pictures as data: shapes with coordinates and class names, and the same content in words and rows.
//!
//! Nothing here knows a framework or a browser. The page turns a [`Drawing`] into elements, the printed sheet takes
//! [`Drawing::svg`]; colours and line widths belong to the class names in the style sheet.

pub mod field_scene;
pub mod frame_front;
mod frame_words;
pub mod ladder;
#[cfg(test)]
mod laws;
pub mod near_front;
pub mod rays;
pub mod scale;
pub mod shape;
pub mod tradeoff;

pub use field_scene::{FieldSceneInput, Scene, Seen, field_scene};
pub use frame_front::{frame_front, lay_halo};
pub use ladder::{LadderArrow, LadderInput, ladder, ladder_strip};
pub use near_front::near_front;
pub use rays::{RaysInput, Shown, rays};
pub use scale::put_in_order;
pub use shape::{Anchor, Drawing, Shape, ViewBox};
pub use tradeoff::{Axis, TradeoffInput, TradeoffPoint, tradeoff};
