//! Where the crest of a ridge or the bed of a valley runs within its posts.

use super::LandformKind;
use super::mesh::Mesh;
use crate::ground::Post;

/// Steps across a post, columns and rows.
const ACROSS: [(isize, isize); 4] = [(1, 0), (1, 1), (0, 1), (-1, 1)];

/// The places where ridge, spur, valley or draw is highest (or lowest) from side to side; none of what is no line.
///
/// # Accuracy
/// Between three posts the ground is taken for a parabola: on ground without errors within a quarter of a step of the posts.
pub(super) fn crest(mesh: &Mesh<'_>, kind: LandformKind, posts: &[usize]) -> Vec<Post> {
    let up = match kind {
        LandformKind::Ridge | LandformKind::Spur => 1.0,
        LandformKind::Valley | LandformKind::Draw => -1.0,
        LandformKind::Hill | LandformKind::Saddle | LandformKind::Depression | LandformKind::Cliff => return Vec::new(),
    };
    posts.iter().filter_map(|post| highest_across(mesh, *post, up)).collect()
}

/// The highest place across a post the way on which the ground bends most; nothing where it is not beside the post.
fn highest_across(mesh: &Mesh<'_>, post: usize, up: f64) -> Option<Post> {
    let ((column, row), height_m) = (mesh.place(post), up * mesh.height_m(post));
    let (east_m, south_m) = mesh.spacing_m(row);
    let at_m = |columns: isize, rows: isize| {
        let place =
            column.checked_add_signed(columns).zip(row.checked_add_signed(rows)).filter(|(c, r)| *c < mesh.columns && *r < mesh.rows);
        place.map_or(f64::NAN, |(column, row)| up * mesh.height_m(row * mesh.columns + column))
    };
    let bent = |(columns, rows): (isize, isize)| {
        let (before_m, after_m) = (at_m(-columns, -rows), at_m(columns, rows));
        let length_m = (columns as f64 * east_m).hypot(rows as f64 * south_m);
        let bend = (2.0 * height_m - before_m - after_m) / (length_m * length_m);
        (bend, before_m, after_m, (columns as f64, rows as f64))
    };
    let (bend, before_m, after_m, (columns, rows)) = ACROSS.map(bent).into_iter().max_by(|a, b| a.0.total_cmp(&b.0))?;
    let is_top = bend > 0.0 && height_m >= before_m && height_m >= after_m;
    let off = (after_m - before_m) / (2.0 * (2.0 * height_m - before_m - after_m));
    is_top.then_some(Post { column: column as f64 + off * columns, row: row as f64 + off * rows })
}
