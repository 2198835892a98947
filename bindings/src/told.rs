//! What is told without an open book: figures as they are typed, labels, the parts of a reference, what a file holds.

use std::sync::OnceLock;

use gatepost_core::earth::zone_and_square;
use gatepost_core::exchange::Format;
use gatepost_core::words::Words;

use super::guarded;

static WORDS: OnceLock<Words> = OnceLock::new();

/// What the words say; what was given stays as it is should they fail, for there is no book here to report a fault from.
fn told(given: &str, say: impl FnOnce(&Words) -> String) -> String {
    guarded(|| say(WORDS.get_or_init(Words::english))).unwrap_or_else(|_| given.to_owned())
}

/// What is left of a leg of so many double paces after so many of them, in words: "28 double paces to go".
#[uniffi::export]
#[must_use]
pub fn paces_to_go(of_leg: f64, counted: u32) -> String {
    told("", |words| words.paces_to_go(of_leg, counted))
}

/// A bearing as it was typed, to be read: "52 mag" is "052° mag". What is no bearing stays as it is.
#[uniffi::export]
#[must_use]
pub fn bearing_told(typed: &str) -> String {
    told(typed, |words| words.typed_bearing(typed))
}

/// A distance, to be read: "430 m".
#[uniffi::export]
#[must_use]
pub fn metres_told(metres: f64) -> String {
    told("", |words| words.metres(metres))
}

/// A count of double paces, to be read: "90 double paces".
#[uniffi::export]
#[must_use]
pub fn paces_told(double_paces: f64) -> String {
    told("", |words| words.double_paces(double_paces))
}

/// A grid reference in two parts, to be read.
#[derive(Debug, Clone, PartialEq, Eq, uniffi::Record)]
pub struct ReferenceTold {
    /// The zone, which one knows; empty where the reference has none.
    pub zone: String,
    /// What is read off the sheet.
    pub square: String,
}

/// A grid reference that is spaced for reading, with its zone parted off: "43T" and "EG 567 491".
#[uniffi::export]
#[must_use]
pub fn reference_told(spaced: &str) -> ReferenceTold {
    let (zone, square) = guarded(|| zone_and_square(spaced)).unwrap_or(("", spaced));
    ReferenceTold { zone: zone.into(), square: square.into() }
}

/// A share, to be read: "40 %".
#[uniffi::export]
#[must_use]
pub fn share_told(share: f64) -> String {
    told("", |words| words.share(share))
}

/// An angle, to be read: "72°".
#[uniffi::export]
#[must_use]
pub fn degrees_told(degrees: f64) -> String {
    told("", |words| words.degrees(degrees))
}

/// The label of a control, by an identifier that begins with `label-`; `name` is what it speaks of.
#[uniffi::export(default(name = ""))]
#[must_use]
pub fn label(id: &str, name: &str) -> String {
    told(id, |words| words.label(id, name))
}

/// Whether a file holds heights, by its first 4,096 bytes: then it is asked where they come from before it is brought in. Lines
/// and landmarks, of any format that is read, are none.
#[uniffi::export]
#[must_use]
pub fn holds_heights(beginning: Vec<u8>) -> bool {
    guarded(|| Format::sniffed(&beginning).is_none()).unwrap_or(false)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::panic, reason = "one panics on purpose")]

    use super::told;

    #[test]
    fn no_panic_of_the_words_crosses() {
        assert_eq!(told("052 mag", |_| panic!("made for this test")), "052 mag");
    }
}
