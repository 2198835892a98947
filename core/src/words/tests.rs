//! Every sentence can be made, and figures look as a person expects.

use super::{Words, numbers};
use crate::measure::{Arg, Message, NamedBearing, North};

#[test]
fn the_resource_has_no_errors() {
    for text in [super::ENGLISH, super::ENGLISH_LABELS] {
        assert!(fluent_bundle::FluentResource::try_new(text.into()).is_ok());
    }
}

#[test]
fn figures() {
    assert_eq!(numbers::bearing_figures(359.96), "000°");
    assert_eq!(numbers::bearing_figures(7.54), "007.5°");
    assert_eq!(numbers::metres(12_345.0), "12.3\u{a0}km");
    assert_eq!(numbers::metres(-0.2), "0\u{a0}m");
    assert_eq!(numbers::share(0.996), ">\u{a0}99\u{a0}%");
    assert_eq!(numbers::share(0.002), "<\u{a0}1\u{a0}%");
}

#[test]
fn a_bearing_never_goes_without_its_north() {
    let words = Words::english();
    for (north, word) in [(North::Magnetic, "mag"), (North::Grid, "grid"), (North::True, "true")] {
        assert_eq!(words.bearing(NamedBearing::new(19.0, north)), format!("019°\u{a0}{word}"));
    }
}

#[test]
fn an_unknown_message_shows_its_identifier() {
    assert_eq!(Words::english().say(&Message::new("no-such").with("x", Arg::Count(1))), "no-such");
}
