//! Posts of one kind that lie together, merged into landforms no wider than a walker overlooks.

use std::collections::VecDeque;

use super::LandformKind;
use super::mesh::Mesh;

/// Shorter lines are no ridge, spur, valley or draw, metres from their point to their farthest post (our own choice, no source).
const LEAST_REACH_M: f64 = 50.0;

/// What a post belongs to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Mark {
    pub(super) kind: LandformKind,
    /// Its relief, metres.
    pub(super) relief_m: f32,
    /// How far its shape stands out of the ground around, metres.
    pub(super) stands_out_m: f32,
}

impl Mark {
    /// The lesser of its relief and of how far it stands out, metres.
    pub(super) fn least_m(&self) -> f64 {
        f64::from(self.relief_m.min(self.stands_out_m))
    }
}

/// Posts of one kind around the one with the most relief.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Piece {
    pub(super) kind: LandformKind,
    pub(super) post: usize,
    pub(super) relief_m: f64,
    pub(super) stands_out_m: f64,
    /// How far its posts reach from that one, metres.
    pub(super) reach_m: f64,
    /// All of its posts.
    pub(super) posts: Vec<usize>,
}

/// Merges marked posts that stand out far enough: the one with the most relief takes all of its kind that hang together with it within `reach_m`, then the next.
pub(super) fn pieces(mesh: &Mesh<'_>, marked: &mut [Option<Mark>], least_relief_m: f64, reach_m: f64) -> Vec<Piece> {
    let mut order: Vec<(f32, usize)> = marked
        .iter()
        .enumerate()
        .filter_map(|(post, mark)| mark.map(|mark| (mark, post)))
        .filter(|(mark, _)| mark.least_m() >= least_relief_m)
        .map(|(mark, post)| (mark.relief_m, post))
        .collect();
    order.sort_unstable_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
    joined(mesh, order.into_iter().filter_map(|(_, post)| take(mesh, marked, post, reach_m)).collect())
}

/// What is left over between longer pieces goes to one of them, so that one line stays one; a short piece by itself is left out.
fn joined(mesh: &Mesh<'_>, pieces: Vec<Piece>) -> Vec<Piece> {
    let (mut long, mut short): (Vec<Piece>, Vec<Piece>) = pieces.into_iter().partition(|piece| piece.is_long());
    let mut owner: Vec<u32> = vec![u32::MAX; mesh.columns * mesh.rows];
    let own = |owner: &mut Vec<u32>, piece: usize, posts: &[usize]| {
        for post in posts {
            if let Some(of_post) = owner.get_mut(*post) {
                *of_post = piece as u32;
            }
        }
    };
    long.iter().enumerate().for_each(|(number, piece)| own(&mut owner, number, &piece.posts));
    loop {
        let before = short.len();
        short.retain(|rest| {
            let beside = rest.posts.iter().flat_map(|post| mesh.neighbours(*post)).filter_map(|post| owner.get(post).copied());
            let same = beside.map(|number| number as usize).find(|number| long.get(*number).is_some_and(|piece| piece.kind == rest.kind));
            let Some((number, piece)) = same.and_then(|number| Some((number, long.get_mut(number)?))) else { return true };
            piece.posts.extend(&rest.posts);
            own(&mut owner, number, &rest.posts);
            false
        });
        if short.is_empty() || short.len() == before {
            return long;
        }
    }
}

impl Piece {
    fn is_long(&self) -> bool {
        self.kind == LandformKind::Cliff || self.reach_m >= LEAST_REACH_M
    }
}

/// Takes a post and what hangs together with it off the marks.
pub(super) fn take(mesh: &Mesh<'_>, marked: &mut [Option<Mark>], from: usize, reach_m: f64) -> Option<Piece> {
    let Mark { kind, relief_m, stands_out_m } = marked.get_mut(from)?.take()?;
    let mut piece =
        Piece { kind, post: from, relief_m: f64::from(relief_m), stands_out_m: f64::from(stands_out_m), reach_m: 0.0, posts: vec![from] };
    let mut open = VecDeque::from([from]);
    while let Some(post) = open.pop_front() {
        for other in mesh.neighbours(post) {
            let same = marked.get(other).is_some_and(|mark| mark.is_some_and(|mark| mark.kind == kind));
            let apart_m = if same { mesh.apart_m(from, other) } else { f64::INFINITY };
            if apart_m <= reach_m {
                if let Some(mark) = marked.get_mut(other) {
                    *mark = None;
                }
                piece.reach_m = piece.reach_m.max(apart_m);
                piece.posts.push(other);
                open.push_back(other);
            }
        }
    }
    Some(piece)
}
