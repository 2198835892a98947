//! The lines of the sheet as they are listed to be stood on.

use super::answer::Answer;
use super::commands::Done;
use super::listed::{is_named, nearest, of_named, told};
use super::show::small;
use super::state::Trip;
use super::view::LineView;
use super::{Engine, Refusal};
use crate::measure::{Arg, Message};
use crate::sheet::Line;

/// The lines that a walker is shown, and how many are left: all in the order of the sheet, of many those of the fix and the nearest.
pub(super) fn listed(trip: &Trip) -> (Vec<LineView>, u32) {
    first(trip, trip.sheet.lines.iter().enumerate().collect())
}

fn first(trip: &Trip, lines: Vec<(usize, &Line)>) -> (Vec<LineView>, u32) {
    let count = lines.len();
    let here = trip.sheet.frame.to_plane(trip.likeliest());
    let of_fix = trip.fix.as_ref().map_or(&[][..], |taken| &taken.lines);
    let lines = nearest(lines, |(index, line)| (!of_fix.contains(index), line.nearest(here).at.minus(here).length_m()));
    (lines.iter().map(|(_, line)| view(line)).collect(), small(count - lines.len()))
}

fn view(line: &Line) -> LineView {
    LineView { name: line.name.clone(), kind: line.kind.clone(), length_m: line.length_m() }
}

impl Engine {
    /// The lines with these words in their names, in the order of the list.
    pub(super) fn lines(&self, named: &str) -> Result<Done, Refusal> {
        let trip = self.trip.as_ref().ok_or_else(|| Refusal::plain("sheet-needed"))?;
        let found = trip.sheet.lines.iter().enumerate().filter(|(_, line)| is_named(&line.name, named)).collect();
        let (lines, left) = first(trip, found);
        let row = |one: &LineView| {
            let row = Message::new("line-listed").text("line", &one.name).text("kind", &one.kind);
            self.words.say(&row.with("length", Arg::Metres(one.length_m)))
        };
        let said = told(&self.words, of_named(named, "lines-all", "lines-named"), left, lines.iter().map(row).collect());
        Ok(Done::answered(said, Answer::Lines { lines, left }))
    }
}
