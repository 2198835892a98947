//! Puts landmarks onto a sheet: each stands for the one of its kind and name that is there already, within the spreads of both.

use std::collections::{BTreeMap, HashMap, HashSet};

use super::cells::Cells;
use super::join::JOIN_M;
use super::names::{Given, all, before_number, compared};
use super::onto::Added;
use super::shape::distance_m;
use crate::sheet::{DraftLandmark, SheetDraft, Spot};

/// Adds landmarks to a sheet under names that it does not have yet; what it has already is counted.
pub(super) fn add_landmarks(
    new: Vec<DraftLandmark>,
    own_names: &[Option<String>],
    above_sea_m: &BTreeMap<String, f64>,
    draft: &mut SheetDraft,
    added: &mut Added,
) {
    let mut known = Marks::of(&draft.landmarks);
    let mut left: Vec<(&Option<String>, DraftLandmark)> = own_names.iter().zip(new).collect();
    // Who finds one of its own kind leaves those of another kind to the others.
    for same_kind in [true, false] {
        left.retain(|(own, mark)| {
            let found = known.take(&draft.landmarks, own.as_deref(), mark, same_kind);
            found.iter().for_each(|found| tell_difference(found, mark, added));
            found.is_none()
        });
    }
    added.already += own_names.len() - left.len();
    let mut given = Given::of(draft.landmarks.iter().map(|mark| &mark.name));
    let wanted: Vec<(Option<&str>, &str)> = left.iter().map(|(own, mark)| (own.as_deref(), mark.kind.as_str())).collect();
    let names = all(&mut given, &wanted);
    added.landmarks += names.len();
    let missed = known.not_taken(&draft.landmarks);
    for ((own, mark), name) in left.iter().zip(&names) {
        let away_m = |known: &DraftLandmark| distance_m(known.at, mark.at);
        let of_name = own.as_deref().and_then(|own| missed.get(&compared(own))).map_or(&[][..], Vec::as_slice);
        if let Some(same) = of_name.iter().rfind(|known| known.kind == mark.kind) {
            added.came_beside(&same.name, name, away_m(same));
        } else if let Some(twin) = of_name.first().copied().or_else(|| known.in_its_place(&draft.landmarks, mark)) {
            added.came_as_twin((&twin.name, &twin.kind), (name, &mark.kind), away_m(twin));
        }
    }
    for ((_, mut mark), name) in left.into_iter().zip(names) {
        let height_m = above_sea_m.get(&mark.name).copied();
        mark.name = name;
        draft.paper.spots.extend(height_m.map(|height_m| Spot { name: Some(mark.name.clone()), at: mark.at, height_m }));
        draft.landmarks.push(mark);
    }
}

/// Tells what the file says otherwise of a landmark that is on the sheet.
fn tell_difference(known: &DraftLandmark, mark: &DraftLandmark, added: &mut Added) {
    let height = |height_m: Option<f64>| height_m.map_or_else(|| "–".to_owned(), |height_m| format!("{height_m:.0}\u{a0}m"));
    let word = |kind: &str| if kind.is_empty() { "–".to_owned() } else { kind.to_owned() };
    let kind = (known.kind != mark.kind).then(|| format!("{} → {}", word(&known.kind), word(&mark.kind)));
    let is_other = |height_m: &f64| known.height_m.is_none_or(|known_m| (known_m - height_m).abs() >= LEAST_DIFFERENCE_M);
    let height = mark.height_m.filter(is_other).map(|height_m| format!("{} → {}", height(known.height_m), height(Some(height_m))));
    let spread = |spread_m: f64| format!("±{spread_m:.0}\u{a0}m");
    let spread = (known.spread_m.max(mark.spread_m) > MOST_USUAL_RATIO * known.spread_m.min(mark.spread_m))
        .then(|| format!("{} → {}", spread(known.spread_m), spread(mark.spread_m)));
    let all: Vec<String> = kind.into_iter().chain(height).chain(spread).collect();
    if !all.is_empty() {
        added.differing.add(format!("{} ({})", known.name, all.join(", ")));
    }
}

/// The landmarks of a sheet by their place; each stands for one that comes in.
struct Marks {
    cells: Cells<usize>,
    taken: HashSet<usize>,
}

/// Heights above the ground that differ by less are one, metres: they are told in whole ones.
const LEAST_DIFFERENCE_M: f64 = 0.5;

/// Where a file states no spread that of its format stands for it; these differ by no more than so many times.
const MOST_USUAL_RATIO: f64 = 2.0;

/// No landmark of a kind counts as another farther off than this, metres.
const MOST_APART_M: f64 = 100.0;

impl Marks {
    fn of(marks: &[DraftLandmark]) -> Self {
        let mut cells = Cells::within(MOST_APART_M);
        for (number, mark) in marks.iter().enumerate() {
            cells.add(mark.at, number);
        }
        Self { cells, taken: HashSet::new() }
    }

    /// Those of the sheet that the file does not have where they are, by name.
    fn not_taken<'a>(&self, marks: &'a [DraftLandmark]) -> HashMap<String, Vec<&'a DraftLandmark>> {
        let mut left: HashMap<String, Vec<&DraftLandmark>> = HashMap::new();
        for (_, mark) in marks.iter().enumerate().filter(|(number, _)| !self.taken.contains(number)) {
            left.entry(compared(&mark.name)).or_default().push(mark);
        }
        left
    }

    /// The nearest of those of the kind of a mark, under whatever name, within the spreads of both.
    fn in_its_place<'a>(&self, marks: &'a [DraftLandmark], mark: &DraftLandmark) -> Option<&'a DraftLandmark> {
        marks.get(self.nearest(marks, mark, &|known| known.kind == mark.kind)?)
    }

    /// The nearest of those of the sheet that a mark may be: of its kind, or of another, of its name where it has one, within
    /// the spreads of both. That one is none other then.
    fn take<'a>(
        &mut self,
        marks: &'a [DraftLandmark],
        own: Option<&str>,
        mark: &DraftLandmark,
        same_kind: bool,
    ) -> Option<&'a DraftLandmark> {
        let is_called = |known: &DraftLandmark, name: &str| {
            compared(name) == compared(&known.name) || before_number(&known.name).is_some_and(|base| compared(base) == compared(name))
        };
        let may_be = |known: &DraftLandmark| match own {
            _ if (known.kind == mark.kind) != same_kind => false,
            Some(name) => is_called(known, name),
            None => same_kind,
        };
        let taken = self.nearest(marks, mark, &may_be)?;
        self.taken.insert(taken);
        marks.get(taken)
    }

    /// The number of the nearest of those that are not taken and that a mark may be, within the spreads of both.
    fn nearest(&self, marks: &[DraftLandmark], mark: &DraftLandmark, may_be: &dyn Fn(&DraftLandmark) -> bool) -> Option<usize> {
        let near = self.cells.about(mark.at).filter(|number| !self.taken.contains(number));
        let near = near.filter_map(|number| Some((*number, marks.get(*number)?)));
        let apart = near.filter(|(_, known)| may_be(known)).map(|(number, known)| {
            let within_m = known.spread_m.hypot(mark.spread_m).clamp(JOIN_M, MOST_APART_M);
            (number, distance_m(known.at, mark.at), within_m)
        });
        let nearest = apart.filter(|(_, far_m, within_m)| far_m <= within_m).min_by(|a, b| a.1.total_cmp(&b.1));
        nearest.map(|(number, _, _)| number)
    }
}
