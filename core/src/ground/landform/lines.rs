//! Ridge or spur, valley or draw: what a post of a long landform belongs to.

use super::broad::Broad;
use super::form::{Form, Lookout};
use super::mesh::Mesh;
use super::pieces::Mark;
use super::rose::{Compass, Rose};
use super::window::Surroundings;
use super::{LandformKind, LandformScale};

/// The kind and relief of every post that lies on a ridge, spur, valley or draw.
pub(super) fn lines(mesh: &Mesh<'_>, around: &Surroundings, broad: &Broad, scale: &LandformScale) -> Vec<Option<Mark>> {
    let mut found = Vec::with_capacity(mesh.columns * mesh.rows);
    for row in 0..mesh.rows {
        let lookout = Lookout::new(mesh, row, scale);
        let compass = Compass::new(mesh, broad, row, scale);
        let of_column = |column: usize| {
            let form = lookout.form(&lookout.look(column)?);
            mark(mesh, around, compass.as_ref()?, (column, row), form)
        };
        found.extend((0..mesh.columns).map(of_column));
    }
    found
}

/// Of a ridge or valley: its ways on keep at least this share of its relief. A round hill does not (our own choice).
const GOES_ON: f32 = 0.5;

/// Of a spur or draw: it stands out by at least this share of its relief; on an even slope its contour lines then turn by 45° or more
/// (our own choice). The flank of a round hill does not.
const TURNS: f32 = 0.2;

/// What a post belongs to, given which shape the eight lines of sight show.
fn mark(mesh: &Mesh<'_>, around: &Surroundings, compass: &Compass<'_>, (column, row): (usize, usize), form: Form) -> Option<Mark> {
    let post = row * mesh.columns + column;
    let height_m = mesh.height_m(post);
    match form {
        Form::Ridge | Form::Spur => {
            kind(&compass.look(column, 1.0)?, around.highest_m(post) - height_m, [LandformKind::Ridge, LandformKind::Spur])
        }
        // A ridge between the eight lines of sight falls along all of them. A summit hangs a ridge together and stands for the hill, not
        // for the ridge.
        Form::Summit => {
            let rose = compass.look(column, 1.0)?;
            let line = kind(&rose, around.highest_m(post) - height_m, [LandformKind::Ridge, LandformKind::Spur]);
            line.or(Some(Mark { kind: LandformKind::Ridge, relief_m: 0.0, stands_out_m: 0.0 }))
        }
        // A bend of a narrow valley is higher all around: the lines of sight do not bend.
        Form::Valley | Form::Hollow | Form::Pit => {
            kind(&compass.look(column, -1.0)?, height_m - around.lowest_m(post), [LandformKind::Valley, LandformKind::Draw])
        }
        Form::Flat | Form::Shoulder | Form::Slope | Form::Footslope => None,
    }
}

/// The major or the minor kind, given how far the ground around reaches beyond it (above a ridge, below a valley): a minor line leads to
/// higher (or lower) ground farther off than it stands out from its own sides.
fn kind(rose: &Rose, beyond_m: f64, [major, minor]: [LandformKind; 2]) -> Option<Mark> {
    let (relief_m, stands_out_m) = (rose.relief_m(), rose.stands_out_m());
    let (kind, least) = if beyond_m > f64::from(relief_m) { (minor, TURNS) } else { (major, GOES_ON) };
    (stands_out_m >= least * relief_m).then_some(Mark { kind, relief_m, stands_out_m })
}
