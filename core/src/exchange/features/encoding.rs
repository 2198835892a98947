//! Bytes of a text file to text.

use std::borrow::Cow;

use super::error::{ImportError, Unread};

/// The text of a file in UTF-8, or in ISO 8859-1 where its XML declaration says so.
pub(super) fn text(bytes: &[u8]) -> Result<Cow<'_, str>, ImportError> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    if declared_latin(bytes) {
        // The 256 characters of ISO 8859-1 are the first 256 of Unicode, in order.
        return Ok(Cow::Owned(bytes.iter().map(|byte| char::from(*byte)).collect()));
    }
    std::str::from_utf8(bytes).map(Cow::Borrowed).map_err(|error| {
        let before = bytes.get(..error.valid_up_to()).unwrap_or_default();
        let line = before.split(|byte| *byte == b'\n').count();
        ImportError::Unreadable { line, why: Unread::NotUtf8 }
    })
}

fn declared_latin(bytes: &[u8]) -> bool {
    let head = bytes.get(..bytes.len().min(120)).unwrap_or_default();
    let head = String::from_utf8_lossy(head).to_lowercase();
    let declaration = head.split("?>").next().unwrap_or_default();
    declaration.starts_with("<?xml") && declaration.contains("iso-8859-1")
}
