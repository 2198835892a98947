//! Puts features onto a sheet: what it has already is left out, and a line that goes on where one of the sheet ends is one with it.

use std::collections::{BTreeMap, HashMap, HashSet};

use super::Features;
use super::course::{Course, MOST_LOOKED, course, middle};
use super::drawn::new_stretches;
use super::join::{JOIN_M, join};
use super::minded::Named;
use super::names::{Given, all, before_number, compared};
use super::onto_marks::add_landmarks;
use super::piece::Piece;
use super::shape::{Pos, distance_m, from_line_m};
use crate::measure::Message;
use crate::sheet::{DraftKnownPoint, DraftLine, SheetDraft};

/// A named point nearer than this to one of the same name on the same line is that one, metres.
const SAME_POINT_M: f64 = 30.0;

/// How much of a file came onto a sheet.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Added {
    /// Lines of which something was new.
    pub lines: usize,
    /// Landmarks.
    pub landmarks: usize,
    /// Named points on lines.
    pub known_points: usize,
    /// What was on the sheet already, or came twice in the file.
    pub already: usize,
    /// Landmarks and lines that are on the sheet already, and otherwise than in the file.
    pub(super) differing: Named,
    pub(super) differing_lines: Named,
    /// Lines that are on the sheet already, and run otherwise in the file, with how far apart.
    pub(super) courses: Named,
    /// What has the name and kind of one on the sheet that the file does not have where it is there.
    pub(super) beside: Named,
    /// What may be one on the sheet that the file does not have where it is: of its name and another kind, or of its kind at its place.
    pub(super) twins: Named,
}

impl Added {
    /// Tells of what stays on the sheet otherwise than in the file, and of what came in beside one of its name.
    pub fn differing(&self) -> impl Iterator<Item = Message> + use<> {
        let differing = [self.differing.message("import-differing"), self.differing_lines.message("import-differing-lines")];
        let courses = self.courses.message("import-other-course");
        let beside = [self.beside.message("import-beside"), self.twins.message("import-twins")];
        differing.into_iter().chain([courses]).chain(beside).flatten()
    }

    /// Something of the file that has the name of one on the sheet so far off, under the name that it has now.
    pub(super) fn came_beside(&mut self, on_sheet: &str, name: &str, metres: f64) {
        self.beside.add(format!("{on_sheet} → {name} ({metres:.0}\u{a0}m)"));
    }

    /// Something of the file that may be one on the sheet so far off, each with its name and kind.
    pub(super) fn came_as_twin(&mut self, (on_sheet, was): (&str, &str), (name, kind): (&str, &str), metres: f64) {
        self.twins.add(format!("{on_sheet} ({was}) → {name} ({kind}), {metres:.0}\u{a0}m"));
    }

    /// Whether the sheet stays as it was.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        self.lines + self.landmarks + self.known_points == 0
    }
}

/// Adds features to a sheet under names that it does not have yet.
pub(super) fn add(features: Features, draft: &mut SheetDraft) -> Added {
    let mut added = Added { already: features.already, ..Added::default() };
    let Features { lines, own_names, known_points, landmarks, own_mark_names, above_sea_m, .. } = features;
    let on_sheet = add_lines(lines, own_names, draft, &mut added);
    for known in known_points {
        add_known_point(known, &on_sheet, draft, &mut added);
    }
    add_landmarks(landmarks, &own_mark_names, &above_sea_m, draft, &mut added);
    added
}

/// For each line of the file by its name there, its kind and the names of the lines of the sheet that it has become; none when all of
/// it was there.
type OnSheet = HashMap<String, (String, Vec<String>)>;

fn add_lines(new: Vec<DraftLine>, own_names: Vec<Option<String>>, draft: &mut SheetDraft, added: &mut Added) -> OnSheet {
    let old = draft.lines.len();
    let mut own = own_names_on(&draft.lines);
    own.extend(own_names);
    let whole: Vec<DraftLine> = std::mem::take(&mut draft.lines).into_iter().chain(new).collect();
    let NewPieces { pieces, beside, copies, courses } = new_pieces(&whole, &own, old);
    let name_of = |number: usize| whole.get(number).map(|line| line.name.clone()).unwrap_or_default();
    for (known, line) in copies.iter().filter_map(|(line, known)| whole.get(*known).zip(whole.get(*line))) {
        tell_difference(known, line, added);
    }
    for (known, away_m) in courses.iter().filter_map(|(known, away_m)| whole.get(*known).zip(Some(away_m))) {
        added.courses.add(format!("{} ({away_m:.0}\u{a0}m)", known.name));
    }
    let alone: HashMap<usize, Option<(usize, f64)>> =
        beside.iter().flat_map(|(piece, known)| piece.was.iter().map(|number| (*number, *known))).collect();
    let made_of: HashSet<usize> = pieces.iter().flat_map(|piece| piece.was.iter().copied()).chain(alone.keys().copied()).collect();
    let mut on_sheet = OnSheet::new();
    for (number, line) in whole.iter().enumerate().skip(old) {
        let is_new = made_of.contains(&number);
        added.lines += usize::from(is_new);
        added.already += usize::from(!is_new);
        on_sheet.insert(compared(&line.name), (line.kind.clone(), Vec::new()));
    }
    let mut joined = join(pieces, &|a, b| (a.first_was() < old) != (b.first_was() < old));
    joined.extend(beside.into_iter().map(|(piece, _)| piece));
    joined.sort_by_key(Piece::first_was);
    let (kept, fresh): (Vec<Piece>, Vec<Piece>) = joined.into_iter().partition(|piece| piece.first_was() < old);
    let mut given = Given::default();
    kept.iter().for_each(|piece| drop(given.unlike(&name_of(piece.first_was()))));
    let wanted: Vec<(Option<&str>, &str)> = fresh.iter().map(|piece| (piece.name.as_deref(), piece.word.as_str())).collect();
    let fresh_names = all(&mut given, &wanted);
    let names = kept.iter().map(|piece| name_of(piece.first_was())).chain(fresh_names.iter().cloned()).collect::<Vec<_>>();
    let on_its_way: HashSet<(String, String)> = (old..whole.len())
        .filter(|number| !made_of.contains(number))
        .filter_map(|number| Some((compared(own.get(number)?.as_deref()?), whole.get(number)?.kind.clone())))
        .collect();
    let called = |(line, own): (&DraftLine, &Option<String>)| Some((compared(own.as_deref()?), line.kind.clone()));
    let in_file: HashSet<(String, String)> = whole.iter().zip(&own).skip(old).filter_map(called).collect();
    let mut known: HashMap<String, Vec<&DraftLine>> = HashMap::new();
    for (line, name) in whole.iter().zip(&own).take(old).filter_map(|(line, own)| Some((line, compared(own.as_deref()?)))) {
        known.entry(name).or_default().push(line);
    }
    for (piece, name) in fresh.iter().zip(&fresh_names) {
        let Some(called) = piece.name.as_deref().map(compared) else {
            let beside = piece.was.iter().find_map(|number| alone.get(number).copied().flatten());
            let known = beside.and_then(|(known, away_m)| whole.get(known).zip(Some(away_m)));
            known.iter().for_each(|(known, away_m)| added.came_beside(&known.name, name, *away_m));
            continue;
        };
        let (Some(known), Some(middle)) = (known.get(&called), middle(&piece.points)) else { continue };
        let key = |kind: &String| (called.clone(), kind.clone());
        let away_m = |line: &DraftLine| from_line_m(middle, &line.points, f64::MAX);
        if let Some(line) = known.iter().rfind(|line| line.kind == piece.word) {
            if !on_its_way.contains(&key(&piece.word)) || piece.was.iter().any(|number| alone.contains_key(number)) {
                added.came_beside(&line.name, name, away_m(line));
            }
        } else if let Some(line) = known.iter().find(|line| !in_file.contains(&key(&line.kind))) {
            added.came_as_twin((&line.name, &line.kind), (name, &piece.word), away_m(line));
        }
    }
    let mut renamed = HashMap::new();
    for (piece, name) in kept.into_iter().chain(fresh).zip(names) {
        for number in &piece.was {
            let was = compared(&name_of(*number));
            if *number < old {
                renamed.insert(was, name.clone());
            } else {
                on_sheet.entry(was).or_default().1.push(name.clone());
            }
        }
        let known = whole.get(piece.first_was()).filter(|_| piece.first_was() < old);
        let part_of = known.map_or_else(|| piece.part_of(&name), |line| line.part_of.clone());
        let Piece { word: kind, points, spread_m, levels, noded, .. } = piece;
        draft.lines.push(DraftLine { name, kind, points, spread_m, levels, part_of, noded });
    }
    move_known_points(&renamed, draft);
    on_sheet
}

/// What is made of the lines of a sheet and of a file.
struct NewPieces {
    /// The lines of the sheet, and of those that come in the stretches that are new.
    pieces: Vec<Piece>,
    /// New stretches that are no part of the lines that they meet; of one without a name the line beside which it lies, and how far off.
    beside: Vec<(Piece, Option<(usize, f64)>)>,
    /// Which lines are copies of which under other names or kinds.
    copies: BTreeMap<usize, usize>,
    /// The lines of the sheet that run otherwise in the file, each with how far apart at the most, metres.
    courses: BTreeMap<usize, f64>,
}

fn new_pieces(whole: &[DraftLine], own: &[Option<String>], old: usize) -> NewPieces {
    let mut groups: BTreeMap<(Option<String>, &str), Vec<usize>> = BTreeMap::new();
    for (number, (line, name)) in whole.iter().zip(own).enumerate() {
        groups.entry((name.as_deref().map(compared), line.kind.as_str())).or_default().push(number);
    }
    let piece = |number: usize| {
        let (line, name) = (whole.get(number)?, own.get(number).cloned().flatten());
        let (word, points, levels) = (line.kind.clone(), line.points.clone(), line.levels.clone());
        Some(Piece { name, word, points, spread_m: line.spread_m, levels, noded: line.noded, was: vec![number] })
    };
    let copies = under_other_names(whole, own, old);
    let mut pieces: Vec<Piece> = (0..old).filter_map(piece).collect();
    let (mut beside, mut courses, mut looked) = (Vec::new(), BTreeMap::<usize, f64>::new(), MOST_LOOKED);
    for group in groups.values().filter(|group| group.last().is_some_and(|last| *last >= old)) {
        let first = group.partition_point(|number| *number < old);
        let lines: Vec<&[Pos]> = group.iter().filter_map(|number| whole.get(*number)).map(|line| line.points.as_slice()).collect();
        let new = group.iter().skip(first).zip(new_stretches(&lines, first)).filter(|(number, _)| !copies.contains_key(number));
        let known: Vec<(usize, &[Pos])> = group.iter().copied().zip(lines.iter().copied()).take(first).collect();
        for (number, left) in new {
            for stretch in piece(*number).iter().flat_map(|piece| left.iter().map(|stretch| piece.stretch(stretch.clone()))) {
                let of = |(known, line): &(usize, &[Pos])| Some((*known, course(&stretch.points, line, &mut looked)?));
                match known.iter().find_map(of) {
                    // Of two lines without a name nobody knows whether they are the same.
                    Some((known, Course::Between(away_m))) if stretch.name.is_none() => beside.push((stretch, Some((known, away_m)))),
                    Some((known, Course::Between(away_m))) => {
                        let most_m = courses.entry(known).or_default();
                        *most_m = most_m.max(away_m);
                    }
                    Some((_, Course::Beside)) => beside.push((stretch, None)),
                    None => pieces.push(stretch),
                }
            }
        }
    }
    pieces.sort_by_key(Piece::first_was);
    NewPieces { pieces, beside, copies, courses }
}

/// Tells what the file says otherwise of a line that is on the sheet. One without a name of its own says nothing against that of the sheet.
fn tell_difference(known: &DraftLine, line: &DraftLine, added: &mut Added) {
    let is_named = before_number(&line.name) != Some(line.kind.as_str()) && before_number(&line.name) != Some(known.name.as_str());
    let name = (is_named && !same(&known.name, &line.name)).then(|| line.name.clone());
    let kind = (known.kind != line.kind).then(|| format!("{} → {}", known.kind, line.kind));
    let all: Vec<String> = name.into_iter().map(|name| format!("→ {name}")).chain(kind).collect();
    if !all.is_empty() {
        added.differing_lines.add(format!("{} ({})", known.name, all.join(", ")));
    }
}

/// The lines from the `old`th on that are lines of the sheet under other names, or under the same with another kind, each with that one.
fn under_other_names(whole: &[DraftLine], own: &[Option<String>], old: usize) -> BTreeMap<usize, usize> {
    let called = |number: usize| own.get(number).and_then(Option::as_deref).map(compared);
    let is_it = |known: (usize, &DraftLine), line: (usize, &DraftLine)| {
        let same_name = called(known.0).zip(called(line.0)).is_some_and(|(a, b)| a == b);
        (known.1.kind == line.1.kind || same_name) && is_same_way(&known.1.points, &line.1.points)
    };
    let copy_of = |line: (usize, &DraftLine)| whole.iter().enumerate().take(old).find(|known| is_it(*known, line)).map(|known| known.0);
    whole.iter().enumerate().skip(old).filter_map(|line| Some((line.0, copy_of(line)?))).collect()
}

/// Whether two lines lie on each other from end to end.
fn is_same_way(a: &[Pos], b: &[Pos]) -> bool {
    let (Some((a_first, a_last)), Some((b_first, b_last))) = (a.first().zip(a.last()), b.first().zip(b.last())) else { return false };
    let meet = |a: &Pos, b: &Pos| (a.0 - b.0).abs() < 1e-4 && distance_m(*a, *b) <= JOIN_M;
    let ends = (meet(a_first, b_first) && meet(a_last, b_last)) || (meet(a_first, b_last) && meet(a_last, b_first));
    let lies_on = |line: &[Pos], other: &[Pos]| new_stretches(&[other, line], 1).iter().all(Vec::is_empty);
    ends && lies_on(a, b) && lies_on(b, a)
}

/// The names that the lines of a sheet had of their own: none where it was made of the kind and a number, without the number
/// where it was given because another line is called so.
fn own_names_on(lines: &[DraftLine]) -> Vec<Option<String>> {
    let taken: HashSet<(String, &str)> = lines.iter().map(|line| (compared(&line.name), line.kind.as_str())).collect();
    let own = |line: &DraftLine| match before_number(&line.name) {
        _ if line.part_of.is_some() => line.part_of.clone(),
        Some(word) if word == line.kind => None,
        Some(base) if taken.contains(&(compared(base), line.kind.as_str())) => Some(base.to_owned()),
        Some(_) | None => Some(line.name.clone()),
    };
    lines.iter().map(own).collect()
}

/// Known points of lines that are part of another now go along to it, under names that it does not have.
fn move_known_points(renamed: &HashMap<String, String>, draft: &mut SheetDraft) {
    let mut given: HashMap<String, Given> = HashMap::new();
    for known in &mut draft.known_points {
        if let Some(name) = renamed.get(&compared(&known.on)) {
            known.on.clone_from(name);
        }
        known.name = given.entry(compared(&known.on)).or_default().unlike(&known.name);
    }
}

fn same(a: &str, b: &str) -> bool {
    compared(a) == compared(b)
}

/// Puts a named point of the file's line onto the line of the sheet that lies there.
fn add_known_point(mut known: DraftKnownPoint, on_sheet: &OnSheet, draft: &mut SheetDraft, added: &mut Added) {
    let (kind, own) = on_sheet.get(&compared(&known.on)).cloned().unwrap_or_default();
    let lines = draft.lines.iter().filter(|line| if own.is_empty() { line.kind == kind } else { own.contains(&line.name) });
    // Where lines meet, the one of its own name.
    let away_m = |line: &DraftLine| from_line_m(known.at, &line.points, f64::MAX) - if same(&line.name, &known.on) { JOIN_M } else { 0.0 };
    let near = lines.map(|line| (away_m(line), line)).min_by(|a, b| a.0.total_cmp(&b.0));
    if let Some((_, line)) = near {
        known.on.clone_from(&line.name);
    }
    let beside = || draft.known_points.iter().filter(|other| same(&other.on, &known.on));
    if beside().any(|other| same(&other.name, &known.name) && distance_m(other.at, known.at) <= SAME_POINT_M) {
        added.already += 1;
        return;
    }
    known.name = Given::of(beside().map(|other| &other.name)).unlike(&known.name);
    draft.known_points.push(known);
    added.known_points += 1;
}
