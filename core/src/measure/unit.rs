//! The units in which bearings are written.

/// How a bearing is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum AngleUnit {
    /// 360 to the circle.
    #[default]
    Degrees,
    /// 6400 to the circle, as on military dials.
    ///
    /// # References
    /// US Army TC 3-25.26 (2013): 6400 mils, 17.78 to the degree.
    Mils,
    /// 400 to the circle.
    Gradians,
    /// Degrees from north or south towards east or west: S 36° E.
    Quadrant,
}

/// The words of units, the longer of two that begin alike first.
pub(super) const UNIT_WORDS: [(&str, AngleUnit); 12] = [
    ("mils", AngleUnit::Mils),
    ("mil", AngleUnit::Mils),
    ("gradians", AngleUnit::Gradians),
    ("gradian", AngleUnit::Gradians),
    ("grads", AngleUnit::Gradians),
    ("grad", AngleUnit::Gradians),
    ("gons", AngleUnit::Gradians),
    ("gon", AngleUnit::Gradians),
    ("degrees", AngleUnit::Degrees),
    ("degree", AngleUnit::Degrees),
    ("deg", AngleUnit::Degrees),
    ("quadrant", AngleUnit::Quadrant),
];

impl AngleUnit {
    /// The unit of a word, whatever its case: `mil`, `gon`, `deg`, `quadrant` and their like.
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        UNIT_WORDS.iter().find(|(known, _)| known.eq_ignore_ascii_case(word.trim())).map(|(_, unit)| *unit)
    }

    /// Units to the circle; of quadrants degrees.
    pub(super) fn circle(self) -> f64 {
        match self {
            Self::Degrees | Self::Quadrant => 360.0,
            Self::Mils => MILS,
            Self::Gradians => GRADIANS,
        }
    }
}

/// Mils to the circle.
pub const MILS: f64 = 6_400.0;
/// Gradians to the circle.
pub const GRADIANS: f64 = 400.0;
