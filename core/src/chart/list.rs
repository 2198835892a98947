//! The display list: a finished drawing as plain data in its final coordinates.

/// A place on the drawing, dp, y downwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// To the right.
    pub x: f64,
    /// Downwards.
    pub y: f64,
}

/// An upright rectangle of the drawing, dp.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Area {
    /// Left edge.
    pub x: f64,
    /// Upper edge.
    pub y: f64,
    /// To the right.
    pub width: f64,
    /// Downwards.
    pub height: f64,
}

/// What a stroke or a filling stands for. A painter turns it into a colour of its theme.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// The ground of the sheet.
    Paper,
    /// Works of man: roads, tracks, fences.
    Works,
    /// What can be sighted.
    Landmark,
    /// The shape of the ground.
    Contour,
    /// Creeks.
    Water,
    /// A bearing that was read.
    Sighting,
    /// Odds along a line.
    Stretch,
    /// Spread in the open.
    Spread,
    /// A leg that was walked.
    LegWalked,
    /// A leg that is planned.
    LegAhead,
    /// The way back.
    WayBack,
    /// The car, or whatever the walk begins at.
    Car,
    /// Letters and the walker's own mark.
    Text,
    /// Letters of less weight.
    TextMuted,
    /// A caution.
    Warning,
    /// A ruled line between two parts.
    Divider,
}

/// How a stroke ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Cap {
    /// At the last point.
    Butt,
    /// With a half disc around it.
    Round,
    /// With half a square beyond it.
    Square,
}

/// A stroke. Its joins are round.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// What it stands for.
    pub ink: Ink,
    /// Width, dp.
    pub width: f64,
    /// Lengths of dash and gap in turn, dp; empty for a whole line.
    pub dash: Vec<f64>,
    /// How it and its dashes end.
    pub cap: Cap,
}

/// Which part of a text stands at its place.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// One thing to draw. Painters decide nothing: each is one exhaustive match over these.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// Straight pieces from point to point.
    Path {
        /// Its points.
        points: Vec<Spot>,
        /// Whether the last point is joined to the first.
        closed: bool,
        /// How it is stroked; the filling comes first.
        stroke: Option<Stroke>,
        /// What fills it.
        fill: Option<Ink>,
    },
    /// A circle.
    Circle {
        /// Its middle.
        centre: Spot,
        /// Its radius, dp.
        radius: f64,
        /// How it is stroked; the filling comes first.
        stroke: Option<Stroke>,
        /// What fills it.
        fill: Option<Ink>,
    },
    /// One line of letters, figures all of one width.
    Text {
        /// Where its base line is anchored.
        at: Spot,
        /// Which part of it stands there.
        anchor: Anchor,
        /// Size of the letters, dp.
        size: f64,
        /// What it stands for.
        ink: Ink,
        /// Whether an edge of paper, [`HALO_DP`] wide, parts it from what lies below.
        halo: bool,
        /// Slanted letters.
        italic: bool,
        /// Weight 700 instead of 500.
        bold: bool,
        /// Turn about its place, degrees clockwise.
        rotation_deg: f64,
        /// The letters.
        text: String,
    },
    /// Items of which only what lies in an area is drawn.
    Clip {
        /// The area.
        area: Area,
        /// The items, drawn in order.
        items: Vec<Item>,
    },
}

/// Width of the paper's edge around letters with a halo, dp on each side.
pub const HALO_DP: f64 = 2.0;

/// What a target of the drawing belongs to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Touched {
    /// A stretch of the fix, counted from 0.
    Stretch(usize),
    /// A landmark, by name.
    Landmark(String),
    /// A known point of a line, by name.
    KnownPoint(String),
    /// The end of a leg, counted from 1.
    Turn(usize),
    /// The car.
    Car,
}

/// A part of the drawing that can be touched or read out.
#[derive(Debug, Clone, PartialEq)]
pub struct Target {
    /// Where it is, at least [`TARGET_DP`] each way unless the drawing is smaller.
    pub area: Area,
    /// What it belongs to.
    pub what: Touched,
    /// What a screen reader says.
    pub spoken: String,
}

/// Least side of a target, dp.
pub const TARGET_DP: f64 = 64.0;

/// A finished drawing.
#[derive(Debug, Clone, PartialEq)]
pub struct DisplayList {
    /// Width, dp.
    pub width: f64,
    /// Height, dp.
    pub height: f64,
    /// What to draw, in order.
    pub items: Vec<Item>,
    /// What can be touched; where two meet, the earlier one is meant.
    pub targets: Vec<Target>,
    /// The whole drawing in words.
    pub spoken: String,
}

/// The room that a shell has for a drawing.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// Width, dp.
    pub width: f64,
    /// Height, dp.
    pub height: f64,
    /// Size of the letters, dp: 14 at the usual text size, 20 at twice that size.
    pub letters: f64,
}

impl Size {
    /// Room with letters of the usual size.
    #[must_use]
    pub fn new(width: f64, height: f64) -> Self {
        Self { width, height, letters: 14.0 }
    }

    /// The same room with letters of another size, dp.
    #[must_use]
    pub fn lettered(self, letters: f64) -> Self {
        Self { letters, ..self }
    }
}
