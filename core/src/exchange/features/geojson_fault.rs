//! What is wrong with a text that should be GeoJSON, in words of our own.

use serde_json::error::Category;

use super::error::{Fault, ImportError, Part, Record, Unread};
use super::geojson::before;

/// Words that programs write for what is no number; the notation has none (RFC 8259, 6).
const NO_NUMBERS: [&str; 5] = ["NaN", "nan", "Infinity", "-Infinity", "-NaN"];

/// Whether the reader found a whole document, and more behind it.
pub(super) fn goes_on(error: &serde_json::Error) -> bool {
    error.to_string().starts_with("trailing characters")
}

/// What stopped the reader in a part of a text, at its line of the whole.
pub(super) fn unreadable(whole: &str, part: &str, error: &serde_json::Error) -> ImportError {
    let from = before(part, whole);
    if let Some(at) = no_number(part, error) {
        return Record::new(Part::Feature, feature_at(whole, from + at)).fault(Fault::NoNumber);
    }
    let lines_before = whole.get(..from).map_or(0, |before| before.matches('\n').count());
    ImportError::Unreadable { line: lines_before + error.line(), why: why(error) }
}

fn why(error: &serde_json::Error) -> Unread {
    let told = error.to_string();
    let told = told.split(" at line ").next().unwrap_or_default();
    let kind = told.strip_prefix("invalid type: ").and_then(|told| told.split(", expected ").next());
    let kind = kind.map(|kind| match kind {
        "map" => "{}",
        "sequence" => "[]",
        other => other,
    });
    match (error.classify(), kind) {
        (Category::Eof, _) => Unread::Ends,
        (Category::Syntax, _) => Unread::Broken("JSON"),
        (_, Some(kind)) => Unread::Kind(kind.chars().take(80).collect()),
        (Category::Data | Category::Io, None) if told.starts_with("missing field `type`") => Unread::NoType,
        (Category::Data | Category::Io, None) => Unread::told(told),
    }
}

/// Where one of the words stands at which the reader stopped, bytes from the beginning of the part.
fn no_number(part: &str, error: &serde_json::Error) -> Option<usize> {
    if error.classify() != Category::Syntax {
        return None;
    }
    let line_from: usize = part.split_inclusive('\n').take(error.line().checked_sub(1)?).map(str::len).sum();
    let stopped = line_from + error.column();
    let begins = |at: &usize| part.get(*at..).is_some_and(|rest| NO_NUMBERS.iter().any(|word| rest.starts_with(word)));
    // The reader counts columns from 1, and stands on or behind the first character that it does not know.
    (stopped.saturating_sub(3)..=stopped).find(begins)
}

/// The number of the feature that a byte of a text stands in: how many objects begin before it in the list of an object, or else how many
/// documents do.
fn feature_at(whole: &str, at: usize) -> i64 {
    let (mut open, mut quoted, mut escaped) = (Vec::new(), false, false);
    let (mut features, mut documents) = (0, 0);
    for byte in whole.bytes().take(at) {
        match byte {
            _ if escaped => escaped = false,
            b'\\' if quoted => escaped = true,
            b'"' => quoted = !quoted,
            _ if quoted => {}
            b'{' | b'[' => {
                documents += i64::from(open.is_empty());
                features += i64::from(byte == b'{' && open == [b'{', b'[']);
                open.push(byte);
            }
            b'}' | b']' => drop(open.pop()),
            _ => {}
        }
    }
    if features > 0 { features } else { documents }
}
