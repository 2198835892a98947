//! Puts landmarks onto a sheet: each stands for the one of its kind and name that is there already, within the spreads of both.

use std::collections::{BTreeMap, HashMap, HashSet};

use super::join::JOIN_M;
use super::names::{Given, all, before_number, compared};
use super::onto::Added;
use super::shape::{METRES_PER_DEG, Pos, distance_m};
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
    let left: Vec<(&Option<String>, DraftLandmark)> =
        own_names.iter().zip(new).filter(|(own, mark)| !known.takes(&draft.landmarks, own.as_deref(), mark)).collect();
    added.already += own_names.len() - left.len();
    let mut given = Given::of(draft.landmarks.iter().map(|mark| &mark.name));
    let wanted: Vec<(Option<&str>, &str)> = left.iter().map(|(own, mark)| (own.as_deref(), mark.kind.as_str())).collect();
    let names = all(&mut given, &wanted);
    added.landmarks += names.len();
    for ((_, mut mark), name) in left.into_iter().zip(names) {
        let height_m = above_sea_m.get(&mark.name).copied();
        mark.name = name;
        draft.paper.spots.extend(height_m.map(|height_m| Spot { name: Some(mark.name.clone()), at: mark.at, height_m }));
        draft.landmarks.push(mark);
    }
}

/// The landmarks of a sheet by their kind and place; each stands for one that comes in.
struct Marks {
    cells: HashMap<(String, i64, i64), Vec<usize>>,
    taken: HashSet<usize>,
}

/// No landmark of a kind counts as another farther off than this, metres.
const MOST_APART_M: f64 = 100.0;

impl Marks {
    fn of(marks: &[DraftLandmark]) -> Self {
        let mut cells: HashMap<_, Vec<usize>> = HashMap::new();
        for (number, mark) in marks.iter().enumerate() {
            let (row, column) = cell(mark.at);
            cells.entry((mark.kind.clone(), row, column)).or_default().push(number);
        }
        Self { cells, taken: HashSet::new() }
    }

    /// Whether a mark is the nearest of those of the sheet that may be it: of its kind, of its name where it has one, within
    /// the spreads of both. That one is none other then.
    fn takes(&mut self, marks: &[DraftLandmark], own: Option<&str>, mark: &DraftLandmark) -> bool {
        let (row, column) = cell(mark.at);
        let cells = (-1..=1).flat_map(|up| (-1..=1).map(move |right| (mark.kind.clone(), row + up, column + right)));
        let may_be = |known: &DraftLandmark| match own {
            Some(name) => {
                compared(name) == compared(&known.name) || before_number(&known.name).is_some_and(|base| compared(base) == compared(name))
            }
            None => true,
        };
        let near = cells.filter_map(|cell| self.cells.get(&cell)).flatten().filter(|number| !self.taken.contains(number));
        let near = near.filter_map(|number| Some((*number, marks.get(*number)?)));
        let apart = near.filter(|(_, known)| may_be(known)).map(|(number, known)| {
            let within_m = known.spread_m.hypot(mark.spread_m).clamp(JOIN_M, MOST_APART_M);
            (number, distance_m(known.at, mark.at), within_m)
        });
        let nearest = apart.filter(|(_, far_m, within_m)| far_m <= within_m).min_by(|a, b| a.1.total_cmp(&b.1));
        nearest.is_some_and(|(taken, _, _)| self.taken.insert(taken))
    }
}

/// The cell of a place in a raster as wide as the greatest distance.
fn cell((lat, lon): Pos) -> (i64, i64) {
    let size = MOST_APART_M / METRES_PER_DEG;
    ((lat / size).floor() as i64, (lon * lat.to_radians().cos() / size).floor() as i64)
}
