//! Summits and the saddles between them: the sea sinks, islands rise and join, and at each joining the lower one ends.

use super::mesh::Mesh;

/// A top whose island joined a higher one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Top {
    /// Place of the highest post in the list.
    pub(super) top: usize,
    /// Place of the post where its island joined that of a higher top; none for the highest of all.
    pub(super) saddle: Option<usize>,
    /// Height of the top above the saddle, metres; unbounded without one.
    pub(super) relief_m: f64,
}

/// Whether hills are looked for, or depressions: the same on the ground turned upside down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Up,
    /// Unknown ground beyond the edge drains every depression that reaches it.
    Down,
}

/// Islands as trees: each post points towards the top of its island.
struct Islands<'a> {
    mesh: &'a Mesh<'a>,
    turn: f32,
    /// The post one step nearer to the top; itself at a top; `SUNK` while below the sea. The last entry is the ground outside.
    towards: Vec<u32>,
    outside: u32,
}

const SUNK: u32 = u32::MAX;

impl Islands<'_> {
    /// The top of a post's island, the way to it shortened.
    fn top_of(&mut self, post: u32) -> u32 {
        let mut at = post;
        loop {
            let next = self.next(at);
            if next == at {
                return at;
            }
            let after = self.next(next);
            self.set(at, after);
            at = after;
        }
    }

    fn next(&self, post: u32) -> u32 {
        self.towards.get(post as usize).copied().unwrap_or(SUNK)
    }

    fn set(&mut self, post: u32, towards: u32) {
        if let Some(place) = self.towards.get_mut(post as usize) {
            *place = towards;
        }
    }

    fn height(&self, post: u32) -> f32 {
        self.mesh.values_m().get(post as usize).map_or(f32::INFINITY, |value| value * self.turn)
    }

    /// Whether the island of `a` stands above that of `b`; the ground outside above all, equal heights by their place.
    fn above(&self, a: u32, b: u32) -> bool {
        let by_height = self.height(a).total_cmp(&self.height(b));
        a == self.outside || (b != self.outside && by_height.then(b.cmp(&a)).is_gt())
    }

    /// A post rises from the sea and joins what stands around it; returns the tops that end there.
    fn rise(&mut self, post: u32, edge: bool) -> Vec<u32> {
        let mut tops: Vec<u32> = Vec::with_capacity(4);
        let risen: Vec<u32> =
            self.mesh.neighbours(post as usize).map(|other| other as u32).filter(|other| self.next(*other) != SUNK).collect();
        for other in risen.into_iter().chain(edge.then_some(self.outside)) {
            let top = self.top_of(other);
            if !tops.contains(&top) {
                tops.push(top);
            }
        }
        let best = tops.iter().copied().reduce(|best, top| if self.above(top, best) { top } else { best }).unwrap_or(post);
        self.set(post, best);
        tops.retain(|top| *top != best);
        tops.iter().for_each(|top| self.set(*top, best));
        tops
    }
}

/// Every hill (or depression) with at least so much relief above its saddle.
pub(super) fn tops(mesh: &Mesh<'_>, side: Side, least_relief_m: f64) -> Vec<Top> {
    let turn = if side == Side::Up { 1.0 } else { -1.0 };
    let values = mesh.values_m();
    let outside = values.len() as u32;
    let mut islands = Islands { mesh, turn, towards: vec![SUNK; values.len() + 1], outside };
    islands.set(outside, outside);
    let mut found = Vec::new();
    for post in from_the_highest(values, turn) {
        let edge = side == Side::Down && mesh.at_the_edge(post as usize);
        for top in islands.rise(post, edge) {
            let relief_m = f64::from(islands.height(top) - islands.height(post));
            if relief_m >= least_relief_m {
                found.push(Top { top: top as usize, saddle: Some(post as usize), relief_m });
            }
        }
    }
    let whole = (0..outside).filter(|post| islands.next(*post) == *post);
    found.extend(whole.map(|post| Top { top: post as usize, saddle: None, relief_m: f64::INFINITY }));
    found
}

/// Posts that are no voids, from the highest to the lowest.
fn from_the_highest(values: &[f32], turn: f32) -> Vec<u32> {
    let mut keyed: Vec<(f32, u32)> =
        values.iter().zip(0_u32..).filter(|(value, _)| !value.is_nan()).map(|(v, at)| (v * turn, at)).collect();
    keyed.sort_unstable_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    keyed.into_iter().map(|(_, at)| at).collect()
}
