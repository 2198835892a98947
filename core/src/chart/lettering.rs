//! The words that a drawing needs, and how much room they take.

use super::Walk;
use crate::fix::{Fix, OpenFix, Stretch};
use crate::ground::HeightUnit;
use crate::measure::NamedBearing;
use crate::sheet::Line;

/// Gives the words of a drawing. No word of any language is made in this room.
pub trait Lettering {
    /// A share of the probability, 0 to 1: "65 %".
    fn share(&self, share: f64) -> String;
    /// A distance on a scale or a ruler: "200 m", "1.5 km".
    fn metres(&self, metres: f64) -> String;
    /// A half-width at 95 %: "± 98 m".
    fn plus_minus(&self, metres: f64) -> String;
    /// A bearing with its north: "214° mag".
    fn bearing(&self, bearing: NamedBearing) -> String;
    /// The height of a contour: the figure alone in the sheet's own unit, as maps have it.
    fn height(&self, height: f64, unit: HeightUnit) -> String;
    /// How far contours lie apart: "contours 10 m".
    fn interval(&self, interval: f64, unit: HeightUnit) -> String;
    /// What the hatching stands for: "hatched: no heights".
    fn no_heights(&self) -> String;
    /// What the north stroke points to: "grid N".
    fn grid_north(&self) -> String;
    /// The walker's own word for where the walk begins: "car".
    fn car(&self) -> String;
    /// A whole fix, spoken.
    fn spoken_fix(&self, line: &Line, fix: &Fix) -> String;
    /// One stretch of a fix, spoken.
    fn spoken_stretch(&self, line: &Line, stretch: &Stretch) -> String;
    /// A whole fix in the open, spoken.
    fn spoken_open_fix(&self, fix: &OpenFix) -> String;
    /// A whole walk, spoken.
    fn spoken_walk(&self, walk: &Walk<'_>) -> String;
    /// The sheet with contours so far apart, spoken.
    fn spoken_ground(&self, interval: f64, unit: HeightUnit) -> String;
    /// The end of a leg, counted from 1, spoken.
    fn spoken_turn(&self, walk: &Walk<'_>, number: usize) -> String;
}

/// Width of a small letter as a share of its size. The core never measures text: these are means of
/// common sans-serif faces, a little wide on purpose.
const SMALL_EM: f64 = 0.54;
/// The same for figures and capitals.
const TALL_EM: f64 = 0.63;
/// Bold letters are wider by this factor.
const BOLD: f64 = 1.07;
/// From here on Unicode's letters are mostly as wide as they are high.
const WIDE_FROM: char = '\u{1100}';

/// Estimated width of a text, dp.
pub(super) fn text_width(text: &str, size: f64, bold: bool) -> f64 {
    text.chars().map(em).sum::<f64>() * size * if bold { BOLD } else { 1.0 }
}

fn em(letter: char) -> f64 {
    if letter >= WIDE_FROM {
        1.05
    } else if letter.is_numeric() || letter.is_uppercase() {
        TALL_EM
    } else {
        SMALL_EM
    }
}

/// From the base line up to the tallest letters, as a share of the size.
pub(super) const ASCENT: f64 = 0.76;
/// From the base line down to the lowest letters, as a share of the size.
pub(super) const DESCENT: f64 = 0.22;
/// From one base line to the next, as a share of the size.
pub(super) const LEADING: f64 = 1.12;
