//! Random bytes from the browser.

use crate::model::sealed::Fresh;
use leptos::prelude::*;

/// Bytes that no other file has; nothing where the browser gives none.
#[must_use]
pub fn fresh() -> Option<Fresh> {
    let source = window().crypto().ok()?;
    let mut bytes = [0; 28];
    source.get_random_values_with_u8_array(&mut bytes).ok()?;
    let (salt, nonce) = bytes.split_at(16);
    Some(Fresh { salt: salt.try_into().ok()?, nonce: nonce.try_into().ok()? })
}
