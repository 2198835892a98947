//! The lines of the sheet as they are listed to be stood on.

use super::answer::Answer;
use super::commands::Done;
use super::show::small;
use super::sights::{LISTED, is_named};
use super::state::Trip;
use super::view::LineView;
use super::{Engine, Refusal};
use crate::measure::{Arg, Message};
use crate::sheet::Line;

/// The lines that a walker is shown, and how many are left: all in the order of the sheet, of many those of the fix and the nearest.
pub(super) fn listed(trip: &Trip) -> (Vec<LineView>, u32) {
    first(trip, trip.sheet.lines.iter().enumerate().collect())
}

fn first(trip: &Trip, mut lines: Vec<(usize, &Line)>) -> (Vec<LineView>, u32) {
    let left = lines.len().saturating_sub(LISTED);
    if left > 0 {
        let here = trip.sheet.frame.to_plane(trip.likeliest());
        let of_fix = trip.fix.as_ref().map_or(&[][..], |taken| &taken.lines);
        let rank = |index: usize, line: &Line| (!of_fix.contains(&index), line.nearest(here).at.minus(here).length_m());
        let mut ranked: Vec<_> = lines.iter().map(|&(index, line)| (rank(index, line), index, line)).collect();
        ranked.sort_by(|((a, a_m), ..), ((b, b_m), ..)| a.cmp(b).then(a_m.total_cmp(b_m)));
        lines = ranked.into_iter().map(|(_, index, line)| (index, line)).take(LISTED).collect();
    }
    (lines.into_iter().map(|(_, line)| view(line)).collect(), small(left))
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
        let count = lines.len() + left as usize;
        let told = Message::new(if named.trim().is_empty() { "lines-all" } else { "lines-named" })
            .with("count", Arg::Count(count as i64))
            .with("left", Arg::Count(left.into()));
        let rows = lines.iter().map(|one| {
            let row = Message::new("line-listed").text("line", &one.name).text("kind", &one.kind);
            self.words.say(&row.with("length", Arg::Metres(one.length_m)))
        });
        let said = std::iter::once(self.words.say(&told)).chain(rows).collect();
        Ok(Done::answered(said, Answer::Lines { lines, left }))
    }
}
