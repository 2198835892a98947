//! Ridge or spur, valley or draw: what a post of a long landform belongs to.

use super::abreast::ABREAST;
use super::broad::Broad;
use super::compass::Compass;
use super::form::{Form, Lookout};
use super::mesh::Mesh;
use super::pieces::Mark;
use super::rose::Rose;
use super::window::Surroundings;
use super::{LandformKind, LandformScale};

/// The kind and relief of every post that lies on a ridge, spur, valley or draw.
pub(super) fn lines(mesh: &Mesh<'_>, around: &Surroundings, broad: &Broad, scale: &LandformScale) -> Vec<Option<Mark>> {
    let mut found = Vec::with_capacity(mesh.columns * mesh.rows);
    for row in 0..mesh.rows {
        match Compass::new(mesh, broad, row, scale) {
            None => found.resize(found.len() + mesh.columns, None),
            Some(compass) => {
                let lookout = Lookout::new(mesh, row, scale);
                for column in (0..mesh.columns).step_by(ABREAST) {
                    let marks = marks((mesh, around, scale), (&lookout, &compass), (column, row));
                    found.extend(marks.into_iter().take(mesh.columns - column));
                }
            }
        }
    }
    found
}

/// What the posts of a row side by side from a column on belong to.
fn marks(
    (mesh, around, scale): (&Mesh<'_>, &Surroundings, &LandformScale),
    (lookout, compass): (&Lookout<'_>, &Compass<'_>),
    (column, row): (usize, usize),
) -> [Option<Mark>; ABREAST] {
    let Some(look) = lookout.look(column) else { return [None; ABREAST] };
    let seen: [Option<Seen>; ABREAST] = std::array::from_fn(|lane| look.form(lane).and_then(Seen::of));
    if seen.iter().all(Option::is_none) {
        return [None; ABREAST];
    }
    let roses = compass.look(column, &seen.map(|seen| if seen == Some(Seen::Low) { -1.0 } else { 1.0 }));
    let post = row * mesh.columns + column;
    let mark = |(lane, seen): (usize, Option<Seen>)| mark((mesh, around, scale), post + lane, seen?, &roses.of(lane)?);
    let mut marks = seen.into_iter().enumerate().map(mark);
    std::array::from_fn(|_| marks.next().flatten())
}

/// What the eight lines of sight from a post let one look for.
#[derive(Clone, Copy, PartialEq)]
enum Seen {
    High,
    /// Lower all around: a summit, or a ridge that runs between the eight lines of sight.
    Top,
    /// A bend of a narrow valley is higher all around: the lines of sight do not bend.
    Low,
}

impl Seen {
    fn of(form: Form) -> Option<Self> {
        match form {
            Form::Ridge | Form::Spur => Some(Self::High),
            Form::Summit => Some(Self::Top),
            Form::Valley | Form::Hollow | Form::Pit => Some(Self::Low),
            Form::Flat | Form::Shoulder | Form::Slope | Form::Footslope => None,
        }
    }
}

/// Of a ridge or valley: its ways on keep at least this share of its relief. A round hill does not (our own choice).
const GOES_ON: f32 = 0.5;

/// Of a spur or draw: it stands out by at least this share of its relief; on an even slope its contour lines then turn by 45° or more
/// (our own choice). The flank of a round hill does not.
const TURNS: f32 = 0.2;

/// What a post belongs to.
fn mark((mesh, around, scale): (&Mesh<'_>, &Surroundings, &LandformScale), post: usize, seen: Seen, rose: &Rose) -> Option<Mark> {
    let height_m = mesh.height_m(post);
    let high = || kind(rose, around.highest_m(post) - height_m, scale, [LandformKind::Ridge, LandformKind::Spur]);
    match seen {
        Seen::High => high(),
        // A summit hangs a ridge together and stands for the hill, not for the ridge.
        Seen::Top => high().or(Some(Mark { kind: LandformKind::Ridge, relief_m: 0.0, stands_out_m: 0.0 })),
        Seen::Low => kind(rose, height_m - around.lowest_m(post), scale, [LandformKind::Valley, LandformKind::Draw]),
    }
}

/// The major or the minor kind, given how far the ground around reaches beyond it (above a ridge, below a valley): a minor line leads to
/// higher (or lower) ground farther off than it stands out from its own sides. A post that hardly stands out belongs to none, though one beside it does.
fn kind(rose: &Rose, beyond_m: f64, scale: &LandformScale, [major, minor]: [LandformKind; 2]) -> Option<Mark> {
    let (relief_m, stands_out_m) = (rose.relief_m(), rose.stands_out_m());
    let (kind, least) = if beyond_m > f64::from(relief_m) { (minor, TURNS) } else { (major, GOES_ON) };
    let is_told = stands_out_m >= least * relief_m && f64::from(stands_out_m) >= scale.least_relief_m;
    is_told.then_some(Mark { kind, relief_m, stands_out_m })
}
