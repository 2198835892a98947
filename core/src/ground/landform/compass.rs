//! Looks around from posts in twenty-four directions.

#![allow(clippy::indexing_slicing, reason = "indices are those of posts side by side and of directions, below their number")]

use super::LandformScale;
use super::abreast::{ABREAST, Abreast, abreast, higher};
use super::broad::Broad;
use super::mesh::Mesh;
use super::rose::{DIRECTIONS, PARTS, Rose};

/// Steps along each direction at the most: finer posts show nothing more at the scale of a landform.
const MOST_STEPS: f64 = 25.0;

/// Ground may turn back by this share of a side's fall before the side begins: the post still lies on the crest, not beside it.
const TURN_BACK: f32 = 0.25;

/// A place between four posts, counted from a post.
struct Sample {
    offset: isize,
    east: f32,
    south: f32,
}

/// What is needed to look around from the posts of one row.
pub(super) struct Compass<'a> {
    values_m: &'a [f32],
    broad_m: &'a [f32],
    columns: usize,
    row: usize,
    /// Direction by direction, from near to far.
    samples: Vec<Sample>,
    steps: usize,
    /// Columns that the farthest sample reaches to each side.
    reach: usize,
}

impl<'a> Compass<'a> {
    /// `None` where the sight from this row leaves the grid.
    pub(super) fn new(mesh: &'a Mesh<'a>, broad: &'a Broad, row: usize, scale: &LandformScale) -> Option<Self> {
        let (east_m, south_m) = mesh.spacing_m(row);
        let step_m = east_m.min(south_m).max(scale.sight_m / MOST_STEPS);
        let steps = ((scale.sight_m / step_m).floor() as usize).max(1);
        let far_m = steps as f64 * step_m;
        let (reach, tall) = ((far_m / east_m).ceil() as usize + 1, (far_m / south_m).ceil() as usize + 1);
        if row < tall || row + tall >= mesh.rows {
            return None;
        }
        let sample = |place: usize| {
            let (sin, cos) = ((place / steps) as f64 * std::f64::consts::TAU / DIRECTIONS as f64).sin_cos();
            let away_m = (place % steps + 1) as f64 * step_m;
            let (right, down) = (away_m * sin / east_m, -away_m * cos / south_m);
            let offset = down.floor() as isize * mesh.columns as isize + right.floor() as isize;
            Sample { offset, east: (right - right.floor()) as f32, south: (down - down.floor()) as f32 }
        };
        let samples = (0..DIRECTIONS * steps).map(sample).collect();
        Some(Self { values_m: mesh.values_m(), broad_m: broad.values_m(), columns: mesh.columns, row, samples, steps, reach })
    }

    /// What lies around the posts of the row side by side from this column on. Of a turn of 1 ridges are looked at, of -1 valleys as if they
    /// were ridges.
    pub(super) fn look(&self, column: usize, turns: &Abreast) -> Roses {
        let post = self.row * self.columns + column;
        let (eyes_m, broad_m) = (abreast(self.values_m, post), abreast(self.broad_m, post));
        let ends = PARTS.map(|part| self.steps.div_ceil(part));
        let mut roses = Roses {
            inside: std::array::from_fn(|lane| column + lane >= self.reach && column + lane + self.reach < self.columns),
            own_m: std::array::from_fn(|lane| turns[lane] * (broad_m[lane] - eyes_m[lane])),
            known: [0.0; ABREAST],
            falls_m: [[0.0; ABREAST]; DIRECTIONS],
            means_m: [[[0.0; ABREAST]; DIRECTIONS]; PARTS.len()],
            downs_m: [[[0.0; ABREAST]; DIRECTIONS]; PARTS.len()],
        };
        for (direction, samples) in self.samples.chunks(self.steps).enumerate() {
            let mut way = Way::new();
            for (step, sample) in (1..).zip(samples) {
                way.meet(&eyes_m, turns, &self.at(post, sample));
                let parts = roses.means_m.iter_mut().zip(&mut roses.downs_m).zip(ends);
                for ((means_m, downs_m), _) in parts.filter(|(_, end)| step == *end) {
                    means_m[direction] = way.sum_m.map(|sum_m| sum_m / step as f32);
                    downs_m[direction] = way.down_m.map(|sum_m| sum_m / step as f32);
                }
            }
            roses.falls_m[direction] = way.falls_m();
            for (known, sum_m) in roses.known.iter_mut().zip(way.sum_m) {
                *known += sum_m;
            }
        }
        roses
    }

    /// The heights at a sample from posts side by side, bilinear.
    fn at(&self, post: usize, sample: &Sample) -> Abreast {
        let first = post.wrapping_add_signed(sample.offset);
        let of = |on: usize| abreast(self.values_m, first.wrapping_add(on));
        let [a, b, c, d] = [&*of(0), &*of(1), &*of(self.columns), &*of(self.columns + 1)];
        let mut found_m = [0.0; ABREAST];
        for lane in 0..ABREAST {
            let (upper, lower) = (a[lane] + (b[lane] - a[lane]) * sample.east, c[lane] + (d[lane] - c[lane]) * sample.east);
            found_m[lane] = upper + (lower - upper) * sample.south;
        }
        found_m
    }
}

/// One direction from posts side by side, as far as it was followed.
struct Way {
    sum_m: Abreast,
    /// The sum of the lowest ground so far, step by step.
    down_m: Abreast,
    fall_m: Abreast,
    /// The highest ground before the greatest fall.
    hump_m: Abreast,
    highest_m: Abreast,
}

impl Way {
    fn new() -> Self {
        let none = [0.0; ABREAST];
        Self { sum_m: none, down_m: none, fall_m: none, hump_m: none, highest_m: none }
    }

    fn meet(&mut self, eyes_m: &Abreast, turns: &Abreast, ground_m: &Abreast) {
        for lane in 0..ABREAST {
            let rise_m = turns[lane] * (ground_m[lane] - eyes_m[lane]);
            let deeper = -rise_m > self.fall_m[lane];
            self.fall_m[lane] = if deeper { -rise_m } else { self.fall_m[lane] };
            self.hump_m[lane] = if deeper { self.highest_m[lane] } else { self.hump_m[lane] };
            self.highest_m[lane] = higher(self.highest_m[lane], rise_m);
            self.sum_m[lane] += rise_m;
            self.down_m[lane] -= self.fall_m[lane];
        }
    }

    /// Falls that begin at the posts, 0 where they begin farther off.
    fn falls_m(&self) -> Abreast {
        std::array::from_fn(|lane| if self.hump_m[lane] <= TURN_BACK * self.fall_m[lane] { self.fall_m[lane] } else { 0.0 })
    }
}

/// What lies around posts side by side.
pub(super) struct Roses {
    inside: [bool; ABREAST],
    own_m: Abreast,
    /// The sum of all that was met, no number where a void is among it.
    known: Abreast,
    falls_m: [Abreast; DIRECTIONS],
    means_m: [[Abreast; DIRECTIONS]; PARTS.len()],
    downs_m: [[Abreast; DIRECTIONS]; PARTS.len()],
}

impl Roses {
    /// What lies around one of the posts; `None` where the sight leaves the known ground.
    pub(super) fn of(&self, lane: usize) -> Option<Rose> {
        if !self.inside[lane] || self.known[lane].is_nan() {
            return None;
        }
        let lane_of = |all: &[Abreast; DIRECTIONS]| all.each_ref().map(|one| one[lane]);
        let [means_m, downs_m] = [&self.means_m, &self.downs_m].map(|all| all.each_ref().map(lane_of));
        Some(Rose { falls_m: lane_of(&self.falls_m), own_m: self.own_m[lane], means_m, downs_m })
    }
}
