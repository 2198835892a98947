//! Landforms: what the ground does around a place, at the scale a walker means it, and how well that fits what was said.
//!
//! | kind | rule | its point |
//! |---|---|---|
//! | hill | highest post of its surroundings; relief is the height above the saddle towards higher ground, above the lowest place of the highest way out of the surroundings, or above the lowest ground around, whichever is least | the summit; a flat top is cut into pieces |
//! | depression | the same upside down; ground beyond the border or a void counts as an outlet | its lowest post |
//! | saddle | the highest way between two hills; the ground rises on to both of them, whichever way their crest runs, and falls to both sides between within sight; relief is the lesser of the two rises within the surroundings | its lowest along the ridge, highest across it |
//! | ridge, spur | line-of-sight pattern of a ridge, spur or summit, and the ground folds there: its two ways on stand above the ground between them on both sides; relief is the lesser fall to two opposite sides. A spur when higher ground around stands farther above it than it above its sides | the post with the most relief |
//! | valley, draw | the same upside down: pattern of a valley, hollow or pit; relief is the lesser rise of two opposite sides. A draw when the ground around falls farther below it than its sides stand above it | the post with the most relief |
//! | cliff | ground between neighbouring posts steeper than 45°; relief is the drop of the steep run | the post with the greatest drop |
//!
//! Ridges, spurs, valleys, draws and cliffs are long: they are cut into pieces that reach no farther from their point than half the sight.

mod abreast;
mod aspect;
mod broad;
mod chance;
mod cliff;
mod compass;
mod crest;
mod cut;
mod extent;
mod faces;
mod find;
mod footing;
mod form;
mod hilltop;
mod islands;
mod lines;
mod mesh;
mod nearest;
mod pieces;
mod rise;
mod rose;
mod saddle;
mod table;
mod told;
mod window;

pub use aspect::{Aspect, aspect_log_likelihood};
pub use cliff::least_cliff_m;
pub use cut::{CutFill, CutFillError, CutOrFill, cuts_and_fills};
pub use extent::Extent;
pub use find::{Around, landforms, landforms_around, landforms_from, landforms_near};
pub use footing::{Footing, Steps};
pub use form::{Form, forms};
pub use rise::{Rise, Trend, rise_log_likelihood, steepness_log_likelihood};
pub use table::{LandformTable, SeenLandform};

use super::Post;
use crate::earth::LatLon;

/// What a walker calls a shape of the ground.
///
/// # References
/// The terrain features of US Army FM 3-25.26 (2001): five major, three minor; cut and fill are [`CutFill`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum LandformKind {
    /// High ground that falls away on all sides; a knob when small.
    Hill,
    /// The low between two hills, ground falling away on both sides.
    Saddle,
    /// A line of high ground.
    Ridge,
    /// A minor ridge that comes down from higher ground.
    Spur,
    /// A groove between higher ground on both sides.
    Valley,
    /// A minor valley that climbs: ground rises on three sides.
    Draw,
    /// Ground that is lower than all around it.
    Depression,
    /// A nearly vertical drop.
    Cliff,
}

impl LandformKind {
    /// Every kind.
    pub const ALL: [Self; 8] = [Self::Hill, Self::Saddle, Self::Ridge, Self::Spur, Self::Valley, Self::Draw, Self::Depression, Self::Cliff];

    /// The kind of this name, as a walker writes it; a knob is a hill.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let name = name.trim().to_lowercase();
        let name = if name == "knob" { "hill" } else { name.as_str() };
        Self::ALL.into_iter().find(|kind| kind.word() == name)
    }

    /// The word by which sentences select it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Hill => "hill",
            Self::Saddle => "saddle",
            Self::Ridge => "ridge",
            Self::Spur => "spur",
            Self::Valley => "valley",
            Self::Draw => "draw",
            Self::Depression => "depression",
            Self::Cliff => "cliff",
        }
    }
}

/// A landform and the point that stands for it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Landform {
    /// What it is.
    pub kind: LandformKind,
    /// Its point on the earth.
    pub at: LatLon,
    /// Its point among the posts.
    pub post: Post,
    /// Height of its point, metres.
    pub height_m: f64,
    /// How far it stands out from the ground around, metres; the table at the head of this room says from what.
    pub relief_m: f64,
    /// How far to trust it, 0 to 1: a half when what it stands out by is two and a half times the spread of that. A ridge, spur, valley or draw stands out
    /// by its fold, a hill, saddle or depression by the mean of the ground 50 m around; neither by more than its relief.
    pub strength: f64,
    /// How far its posts reach from its point, metres.
    pub reach_m: f64,
}

/// At which scale landforms are looked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LandformScale {
    /// How far one looks along the ground to tell its shape, metres. A valley whose floor is wider than twice this is not found.
    pub sight_m: f64,
    /// Within what the ground around is compared: it tells ridge from spur and valley from draw, metres.
    pub around_m: f64,
    /// Sums of the steepest rise and fall of a line of sight within this are level, degrees.
    pub level_deg: f64,
    /// Less relief is no landform, metres.
    pub least_relief_m: f64,
    /// Weaker landforms are left out.
    pub least_strength: f64,
}

/// # References
/// 100 m to 1 km is what a person on foot overlooks: common practice, no source. 1° is the threshold of Jasiewicz and Stepinski
/// (2013), Geomorphology 182, 147-156.
impl Default for LandformScale {
    fn default() -> Self {
        Self { sight_m: 500.0, around_m: 1000.0, level_deg: 1.0, least_relief_m: 3.0, least_strength: 0.2 }
    }
}

#[cfg(test)]
mod tests;
