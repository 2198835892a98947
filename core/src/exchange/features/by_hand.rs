//! Lines that are typed or tapped, held to the rule of files: a way is on the ground once.

use super::join::join;
use super::kinds::LineKind;
use super::minded::Minded;
use super::names::{Given, compared};
use super::piece::Piece;
use super::shape::from_line_m;
use super::shared;
use super::unfold::{MOST_PAIRS, Unfolded, unfold};
use crate::sheet::{DraftLine, SheetDraft};

/// Takes the lines of a draft from the `first` on for what they are on the ground, as lines of a file are taken: there and back is the way
/// there, a spur is a line beside the one that goes on, under its name with a number. Known points go along. Tells of those lines, and of
/// lines of two names over the same ground.
///
/// Lines whose names are `unsaid` came without a kind: what they are taken as is told too.
pub fn lay_once(draft: &mut SheetDraft, first: usize, unsaid: &[&str]) -> Minded {
    let mut minded = Minded::default();
    unsaid.iter().for_each(|name| minded.unsaid_line((*name).to_owned(), LineKind::UNSAID.word()));
    let new = draft.lines.split_off(first.min(draft.lines.len()));
    let mut given = Given::of(draft.lines.iter().chain(&new).map(|line| &line.name));
    let mut left = MOST_PAIRS;
    let mut all: Vec<Piece> = Vec::new();
    for line in new {
        let Some(Unfolded { ways, again_m }) = unfold(&line.points, line.spread_m, false, &mut left) else {
            all.push(piece(&line, line.points.clone()));
            draft.lines.push(line);
            continue;
        };
        minded.unfolded(&line.name, again_m);
        let ways = join(ways.into_iter().map(|points| piece(&line, points)).collect(), &|_, _| true);
        if ways.len() > 1 {
            minded.in_pieces(&line.name, ways.len());
        }
        let from = draft.lines.len();
        for (number, way) in ways.into_iter().enumerate() {
            let name = if number == 0 { line.name.clone() } else { given.unlike(&line.name) };
            let part_of = way.part_of(&name);
            draft.lines.push(DraftLine { name, points: way.points.clone(), part_of, levels: way.levels.clone(), ..line.clone() });
            all.push(way);
        }
        stand_on_nearest(draft, &line.name, from);
    }
    shared::tell_in_common(&all, &mut minded);
    minded
}

/// The levels of a line as long as some points.
fn levels(line: &DraftLine, points: usize) -> Vec<i8> {
    line.levels.first().map_or_else(Vec::new, |level| vec![*level; points.saturating_sub(1)])
}

fn piece(line: &DraftLine, points: Vec<(f64, f64)>) -> Piece {
    let (name, word) = (Some(line.name.clone()), line.kind.clone());
    let levels = levels(line, points.len());
    Piece { name, word, points, spread_m: line.spread_m, levels, noded: false, was: Vec::new() }
}

/// Lets the known points of a line stand on the nearest of the lines from a number on that it has become.
fn stand_on_nearest(draft: &mut SheetDraft, name: &str, from: usize) {
    let SheetDraft { lines, known_points, .. } = draft;
    for known in known_points.iter_mut().filter(|known| compared(&known.on) == compared(name)) {
        let away_m = |line: &&DraftLine| from_line_m(known.at, &line.points, f64::MAX);
        let nearest = lines.iter().skip(from).min_by(|a, b| away_m(a).total_cmp(&away_m(b)));
        if let Some(line) = nearest {
            known.on.clone_from(&line.name);
        }
    }
}
