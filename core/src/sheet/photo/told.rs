//! What is wrong with a photographed sheet, and what one should know about it, as messages.

use super::{MOST_MARKS, PhotoCaution, PhotoError};
use crate::measure::{Arg, Message, Point, Telling};

impl Telling for PhotoError {
    fn message(&self) -> Message {
        let count = |number: usize| Arg::Count(number as i64);
        match self {
            Self::TooFew { marks, needed } => Message::new("photo-too-few").with("marks", count(*marks)).with("needed", count(*needed)),
            Self::TooMany(marks) => Message::new("photo-too-many").with("marks", count(*marks)).with("most", count(MOST_MARKS)),
            Self::InLine => Message::new("photo-in-line"),
            Self::Twice { first, second } => Message::new("photo-twice").with("first", count(*first)).with("second", count(*second)),
            Self::NoNumber => Message::new("photo-no-number"),
            Self::NoView => Message::new("photo-no-view"),
            Self::Beyond => Message::new("photo-beyond"),
            Self::OffLines(mark) => Message::new("photo-off-lines").with("mark", count(*mark)),
            Self::Grid(error) => error.message(),
        }
    }
}

impl Telling for PhotoCaution {
    fn message(&self) -> Message {
        let count = |number: usize| Arg::Count(number as i64);
        match self {
            Self::Unchecked => Message::new("photo-unchecked"),
            Self::UncheckedSlant => Message::new("photo-unchecked-slant"),
            Self::Slant { spread_px, instead } => {
                Message::new("photo-slant").with("pixels", Arg::Number(*spread_px, 0)).with("instead", count(instead.unwrap_or_default()))
            }
            Self::Mirrored => Message::new("photo-mirrored"),
            Self::OneWrong { spread_px, either } => {
                let (first, second) = either.unwrap_or_default();
                let told = Message::new("photo-one-wrong").with("pixels", Arg::Number(*spread_px, 0));
                told.with("first", Arg::Count(first as i64)).with("second", Arg::Count(second as i64))
            }
            Self::Slip { mark, east, north } => Message::new("photo-slip")
                .with("mark", count(*mark))
                .with("across", Arg::Count(i64::from(east.unsigned_abs())))
                .text("across-way", if *east < 0 { "west" } else { "east" })
                .with("along", Arg::Count(i64::from(north.unsigned_abs())))
                .text("along-way", if *north < 0 { "south" } else { "north" }),
            Self::Misfit { mark, off_px, off_m } => Message::new("photo-misfit")
                .with("mark", count(*mark))
                .with("pixels", Arg::Number(off_px.length_m(), 0))
                .text("way", way_back(*off_px))
                .with("off", Arg::Metres(*off_m)),
            Self::SlantOrWrong { spread_px } => Message::new("photo-slant-or-wrong").with("pixels", Arg::Number(*spread_px, 0)),
            Self::Loose { spread_px, first } => {
                Message::new("photo-loose").with("pixels", Arg::Number(*spread_px, 0)).with("first", count(first.unwrap_or_default()))
            }
            Self::Outside => Message::new("photo-outside"),
        }
    }
}

/// Which way on the photo leads from a mark to its crossing, when it lies so many pixels to the right and down of it.
fn way_back(off_px: Point) -> &'static str {
    const WAYS: [&str; 8] = ["up", "up-right", "right", "down-right", "down", "down-left", "left", "up-left"];
    // Up on the photo is what north is on the ground.
    let eighth = (Point::new(-off_px.east_m, off_px.north_m).bearing_deg() / 45.0).round() as usize;
    WAYS.get(eighth % WAYS.len()).copied().unwrap_or("up")
}
