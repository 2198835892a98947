//! Why a place could not be read.

use super::example::Example;
use super::{PlaceReading, Terms, completed, degrees, odd};
use crate::measure::{Message, Telling};

/// Why a place could not be read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PlaceError {
    /// Latitude or longitude outside the earth.
    #[error("place-off-earth")]
    OffEarth {
        /// Degrees north as given.
        lat_deg: f64,
        /// Degrees east as given.
        lon_deg: f64,
    },
    /// A text with something wrong in it.
    #[error("reference-unreadable")]
    Reference {
        /// The text as typed.
        typed: String,
        /// Which part is wrong: the identifier of a sentence.
        part: &'static str,
        /// How it may be written.
        example: Box<Example>,
    },
    /// A reference without its square letters that may lie in either of two squares.
    #[error("reference-unreadable")]
    TwoSquares {
        /// The text as typed.
        typed: String,
        /// The reference in either.
        squares: [String; 2],
        /// How it may be written.
        example: Box<Example>,
    },
}

impl Telling for PlaceError {
    fn message(&self) -> Message {
        match self {
            Self::OffEarth { lat_deg, lon_deg } => {
                let part = degrees::beyond(*lat_deg, *lon_deg);
                let message = Message::new("reference-unreadable").text("typed", format!("{lat_deg}, {lon_deg}")).text("part", part);
                Example::on(&Terms::default()).told(message)
            }
            Self::TwoSquares { typed, squares: [one, other], example } => {
                let message = Message::new("reference-unreadable").text("typed", typed.clone()).text("part", "part-two-squares");
                example.told(message.text("one", one.clone()).text("other", other.clone()))
            }
            Self::Reference { typed, part, example } => {
                let message = Message::new("reference-unreadable").text("typed", typed.clone()).text("part", *part);
                let message = example.told(message);
                let odd = odd::odd_in(typed).filter(|odd| odd.part == *part);
                let said = |character: Option<char>| character.map_or_else(String::new, String::from);
                let character = match *part {
                    "part-odd-in-angle" => odd::odd_in_angle(&super::plain(typed)),
                    _ => odd.map(|odd| odd.character),
                };
                message.text("character", said(character)).text("meant", said(odd.and_then(|odd| odd.meant)))
            }
        }
    }
}

impl PlaceError {
    pub(super) fn wrong(text: &str, part: &'static str, terms: &Terms) -> Self {
        Self::Reference { typed: text.trim().into(), part, example: Box::new(Example::on(terms)) }
    }

    /// That a reference without its square letters may be either of two.
    #[must_use]
    pub fn two_squares(text: &str, readings: [&PlaceReading; 2], terms: &Terms) -> Self {
        let squares = readings.map(|reading| completed(text, reading, terms));
        Self::TwoSquares { typed: text.trim().into(), squares, example: Box::new(Example::on(terms)) }
    }
}
