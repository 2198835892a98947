//! Heights that would take the place of others: never where something would be lost or the two contradict each other.

use super::Refusal;
use super::state::Ground;
use crate::exchange::CommonPosts;
use crate::ground::{Heights, Post};
use crate::measure::{Arg, Message};

/// Posts that stand farther apart by less than this are as fine.
const SAME_SPACING: f64 = 1.05;
/// Fields of a side of the chequer by which the reach of two files is compared.
const LOOKED_AT: usize = 32;

/// Whether heights may take the place of those there: only where they are as fine and leave out none of what those know.
pub(super) fn may_replace(name: &str, new: &Heights, old: &Ground) -> Result<(), Refusal> {
    let spacing_m = |heights: &Heights| heights.layout().spacing_in_middle_m().map(|(east_m, south_m)| east_m.max(south_m));
    let (new_m, old_m) = (spacing_m(new)?, spacing_m(&old.heights)?);
    let why = if new_m > old_m * SAME_SPACING {
        "coarser"
    } else if leaves_out(new, &old.heights) {
        "narrower"
    } else {
        return Ok(());
    };
    let refused = Message::new("import-heights-worse").text("name", name).text("why", why).text("source", old.row.origin.source.clone());
    Err(Refusal::new(refused.with("new", Arg::Metres(new_m)).with("old", Arg::Metres(old_m))))
}

/// Whether heights may be joined with those there: not where the two contradict each other.
pub(super) fn may_join(name: &str, common: &CommonPosts, old: &Ground) -> Result<(), Refusal> {
    if common.agree() {
        return Ok(());
    }
    let refused = Message::new("heights-contradict").text("name", name).text("source", old.row.origin.source.clone());
    let refused = refused.with("count", Arg::Count(common.count as i64)).with("median", Arg::Height(common.median_m, 1));
    Err(Refusal::new(refused.with("worst", Arg::Height(common.worst_m, 1)).with("allowed", Arg::Height(common.allowed_m, 1))))
}

/// Whether some of the known heights lie where others know none, by the middles of a chequer of [`LOOKED_AT`] fields a side.
fn leaves_out(new: &Heights, old: &Heights) -> bool {
    let layout = old.layout();
    let middle = |field: usize, posts: usize| (field as f64 + 0.5) / LOOKED_AT as f64 * posts.saturating_sub(1) as f64;
    let places = (0..LOOKED_AT).flat_map(|row| (0..LOOKED_AT).map(move |column| (column, row)));
    let mut known = places.filter_map(|(column, row)| {
        let post = Post { column: middle(column, layout.columns), row: middle(row, layout.rows) };
        old.at_post_m(post).and_then(|_| layout.place_of(post).ok())
    });
    known.any(|at| new.at_m(at).is_none())
}
