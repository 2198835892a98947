//! The known points of lines as they are listed to be counted from, faced and stood at.

use super::answer::Answer;
use super::commands::Done;
use super::listed::{is_named, nearest, of_named, told};
use super::observe::{Observer, is_same};
use super::record::PointsRecord;
use super::show::small;
use super::state::Trip;
use super::view::KnownPointView;
use super::{Engine, Refusal};
use crate::measure::{Arg, Message};
use crate::sheet::{JunctionKind, KnownPlace, Line};

impl Engine {
    /// The known points of these lines with these words in their names, in the order of the lines and along them.
    pub(super) fn points(&self, asked: &PointsRecord) -> Result<Done, Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        let lines = lines(trip, asked)?;
        let is_asked = |place: &&KnownPlace| {
            let is_there = line_of(trip, place).is_some_and(|on| lines.iter().any(|line| line.name == on.name));
            let is_itself = asked.from.as_deref().is_some_and(|from| is_same(&place.name, from));
            is_there && !is_itself && is_named(&place.name, &asked.named)
        };
        let found: Vec<&KnownPlace> = trip.sheet.known_places().iter().filter(is_asked).collect();
        let count = found.len();
        let points: Vec<KnownPointView> = first(trip, found).into_iter().map(|place| view(trip, place)).collect();
        let left = small(count - points.len());
        let row = |one: &KnownPointView| {
            let row = Message::new("point-listed").text("point", &one.name).text("line", &one.line);
            self.words.say(&row.with("along", Arg::Metres(one.along_m)))
        };
        let said = told(&self.words, of_named(&asked.named, "points-all", "points-named"), left, points.iter().map(row).collect());
        Ok(Done::answered(said, Answer::Points { points, left }))
    }
}

/// The lines that are asked about: all of the sheet when none is named; with a known point those of them that it lies on.
fn lines<'a>(trip: &'a Trip, asked: &PointsRecord) -> Result<Vec<&'a Line>, Refusal> {
    let named: Vec<&Line> = asked.lines.iter().map(|name| trip.sheet.line(Some(name))).collect::<Result<_, _>>()?;
    let lines = if named.is_empty() { trip.sheet.lines.iter().collect() } else { named };
    let Some(from) = &asked.from else { return Ok(lines) };
    let observer = Observer { sheet: &trip.sheet, lines: &lines, pace: &trip.pace };
    let spots = observer.spots(from)?;
    Ok(spots.iter().filter_map(|spot| lines.get(spot.line).copied()).collect())
}

/// As many as are listed: those that the sheet names first, then the nearest to where the walker is; in their order.
fn first<'a>(trip: &Trip, found: Vec<&'a KnownPlace>) -> Vec<&'a KnownPlace> {
    let here = trip.sheet.frame.to_plane(trip.likeliest());
    // Whether the sheet names it does not, and how far it is.
    let rank = |(_, place): &(usize, &KnownPlace)| match line_of(trip, place) {
        Some(line) => (line.known(&place.name).is_none(), line.at(place.along_m).at.minus(here).length_m()),
        None => (true, f64::INFINITY),
    };
    let mut listed = nearest(found.into_iter().enumerate().collect(), rank);
    listed.sort_by_key(|(index, _)| *index);
    listed.into_iter().map(|(_, place)| place).collect()
}

fn line_of<'a>(trip: &'a Trip, place: &KnownPlace) -> Option<&'a Line> {
    trip.sheet.lines.get(place.line)
}

fn view(trip: &Trip, place: &KnownPlace) -> KnownPointView {
    KnownPointView {
        name: place.name.clone(),
        kind: place.kind.map_or("named", JunctionKind::word).into(),
        line: line_of(trip, place).map_or_else(String::new, |line| line.name.clone()),
        along_m: place.along_m,
    }
}
