//! The values of options: how each is read, and the sentence for one that cannot be.

use std::ffi::OsString;
use std::str::FromStr;

use clap::ArgMatches;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use gatepost_core::measure::{AngleUnit, Message, read_turn_deg};
use gatepost_core::words::Words;

/// A number that a record can carry: `nan` and `inf` would be lost on the way.
pub(crate) fn finite(text: &str) -> Result<f64, String> {
    match text.trim().parse::<f64>() {
        Ok(number) if number.is_finite() => Ok(number),
        Ok(_) => why("number-not-finite"),
        Err(_) => why("number-typed"),
    }
}

/// An angle between norths, as a person writes it.
pub(crate) fn angle(text: &str) -> Result<f64, String> {
    read_turn_deg(text).map_or_else(|| why("angle-typed"), Ok)
}

/// A whole number.
pub(crate) fn whole<N: FromStr>(text: &str) -> Result<N, String> {
    text.trim().parse().or_else(|_| why("number-whole"))
}

/// The name of a unit of angles.
pub(crate) fn unit(text: &str) -> Result<String, String> {
    AngleUnit::named(text).map_or_else(|| why("unit-typed"), |_| Ok(text.to_owned()))
}

fn why<T>(id: &str) -> Result<T, String> {
    Err(Words::english().say_by_name(id))
}

/// The sentence for a value that an option does not take; none for other mistakes, which the parser tells.
pub(crate) fn value_off(error: &clap::Error, words: &Words) -> Option<String> {
    let said = |kind| match error.get(kind) {
        Some(ContextValue::String(text)) => Some(text.as_str()),
        _ => None,
    };
    let why = std::error::Error::source(error).filter(|_| error.kind() == ErrorKind::ValueValidation)?;
    // "--scale <SCALE>" is the option and the name of its value.
    let option = said(ContextKind::InvalidArg)?.split_whitespace().next()?;
    let message = Message::new("option-off").text("option", option).text("value", said(ContextKind::InvalidValue)?);
    Some(words.say(&message.text("why", why.to_string())))
}

/// Latitude and longitude of the south or the west begin as an option does: with a blank before them they are taken for a place, whose
/// blanks do not matter. A number alone stays as it is.
pub(crate) fn told_from_options(typed: OsString) -> OsString {
    let is_place =
        |text: &str| text.strip_prefix('-').is_some_and(|rest| rest.starts_with(|c: char| c.is_ascii_digit()) && rest.contains(','));
    match typed.to_str() {
        Some(text) if is_place(text) => format!(" {text}").into(),
        _ => typed,
    }
}

/// Options whose field in the record has another name.
const FIELDS: [(&str, &str); 7] = [
    ("read_m", "height"),
    ("set_m", "height-set-m"),
    ("hours_since_set", "height-hours"),
    ("drift_m_per_hour", "height-drift-m"),
    ("slope_deg", "steep"),
    ("distance_factor", "landform"),
    ("angle_deg", "angle"),
];

/// A refusal names the field of a record, a person at the desk typed an option: the sentence with the option in the field's place.
pub(crate) fn by_options(sentence: &str, matches: &ArgMatches) -> String {
    let typed = matches.subcommand().into_iter().flat_map(|(_, typed)| typed.ids());
    let own = typed.map(|id| (id.as_str().to_owned(), id.as_str().replace('_', "-")));
    let renamed = FIELDS.iter().map(|(field, option)| ((*field).to_owned(), (*option).to_owned()));
    own.chain(renamed).fold(sentence.to_owned(), |told, (field, option)| told.replace(&format!("\"{field}\""), &format!("\"--{option}\"")))
}
