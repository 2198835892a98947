//! Ridge or spur, valley or draw: what a post of a long landform belongs to.

use super::form::{Form, Lookout, Ray};
use super::mesh::Mesh;
use super::pieces::Marked;
use super::window::Surroundings;
use super::{LandformKind, LandformScale};

/// The kind and relief of every post that lies on a ridge, spur, valley or draw.
pub(super) fn lines(mesh: &Mesh<'_>, around: &Surroundings, scale: &LandformScale) -> Vec<Marked> {
    let mut found = Vec::with_capacity(mesh.columns * mesh.rows);
    for row in 0..mesh.rows {
        let lookout = Lookout::new(mesh, row, scale);
        let of_column = |column: usize| {
            let rays = lookout.look(column)?;
            kind(mesh, around, row * mesh.columns + column, lookout.form(&rays), &rays)
        };
        found.extend((0..mesh.columns).map(of_column));
    }
    found
}

/// Ground may turn back by this share of a side's relief before the side begins: the post still lies on the crest, not beside it.
const TURN_BACK: f32 = 0.25;

/// A ridge or valley goes on to two sides: it falls (rises) there by at most this share of its relief. A round hill does not.
const GOES_ON: f32 = 0.5;

/// The eight lines of sight with a valley turned over, so that it is looked at as a ridge.
struct Sides {
    /// Fall to each side that begins at the post, metres; 0 where it begins farther off.
    falls_m: [f32; 8],
    /// Deepest ground to each side, metres.
    deepest_m: [f32; 8],
}

impl Sides {
    fn of_ridge(rays: &[Ray; 8]) -> Self {
        let fall_m = |ray: Ray| if ray.hump_m <= -ray.lowest_m * TURN_BACK { -ray.lowest_m } else { 0.0 };
        Self { falls_m: rays.map(fall_m), deepest_m: rays.map(|ray| -ray.lowest_m) }
    }

    fn of_valley(rays: &[Ray; 8]) -> Self {
        let rise_m = |ray: Ray| if -ray.dip_m <= ray.highest_m * TURN_BACK { ray.highest_m } else { 0.0 };
        Self { falls_m: rays.map(rise_m), deepest_m: rays.map(|ray| ray.highest_m) }
    }

    /// The lesser fall to two sides at least 135° apart, as great as it gets.
    fn relief_m(&self) -> f32 {
        opposite(&self.falls_m).map(|(one, other)| one.min(other)).fold(0.0, f32::max)
    }

    /// The greater fall along the line, the two ways on at least 135° apart and chosen so that it falls least.
    fn along_m(&self) -> f32 {
        opposite(&self.deepest_m).map(|(one, other)| one.max(other)).fold(f32::INFINITY, f32::min)
    }

    /// Whether it is the major or the minor kind, given how far the ground around reaches beyond it (above a ridge, below a valley).
    fn kind(&self, beyond_m: f64, [major, minor]: [LandformKind; 2]) -> Marked {
        let relief_m = self.relief_m();
        if beyond_m > f64::from(relief_m) {
            return Some((minor, relief_m));
        }
        (self.along_m() <= GOES_ON * relief_m).then_some((major, relief_m))
    }
}

/// Pairs of values at least 135° apart; lines lead to all sides in steps of 45°.
fn opposite(values_m: &[f32; 8]) -> impl Iterator<Item = (f32, f32)> {
    let of = |line: usize| values_m.get(line % 8).copied().unwrap_or(0.0);
    (0..8).flat_map(|line| [(line, line + 3), (line, line + 4)]).map(move |(one, other)| (of(one), of(other)))
}

/// A minor line leads to higher (or lower) ground farther off than it stands out from its own sides.
fn kind(mesh: &Mesh<'_>, around: &Surroundings, post: usize, form: Form, rays: &[Ray; 8]) -> Marked {
    let height_m = mesh.height_m(post);
    match form {
        Form::Ridge | Form::Spur => {
            Sides::of_ridge(rays).kind(around.highest_m(post) - height_m, [LandformKind::Ridge, LandformKind::Spur])
        }
        // A bend of a narrow valley is higher all around: the lines of sight do not bend.
        Form::Valley | Form::Hollow | Form::Pit => {
            Sides::of_valley(rays).kind(height_m - around.lowest_m(post), [LandformKind::Valley, LandformKind::Draw])
        }
        // A summit hangs a ridge together and stands for the hill, not for the ridge.
        Form::Summit => Some((LandformKind::Ridge, 0.0)),
        Form::Flat | Form::Shoulder | Form::Slope | Form::Footslope => None,
    }
}
