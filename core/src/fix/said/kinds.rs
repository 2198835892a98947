//! Bends, junctions and crossings of a kind: any of them may be the one that is stood at.

use super::along::here_along;
use crate::fix::GroundSighting;
use crate::sheet::{JunctionKind, Line, Sheet};

/// Share of such things that a sheet does not show (common practice, no source).
const UNDRAWN: f64 = 0.1;
/// A bridge or ford of the sheet that lies so near to a line is on it, metres.
const ON_LINE_M: f64 = 30.0;
/// Two that are nearer to each other are one, metres.
const APART_M: f64 = 15.0;

/// What may be here, of a kind.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HereKind {
    /// The line turns by 30° and more within 100 m.
    Bend,
    /// Ways meet, no water among them; not where one only runs on under another name.
    Junction,
    /// Four and more ways lead away.
    Crossroads,
    /// A way passes over another, or water is crossed by a bridge, or the sheet does not say by what.
    Bridge,
    /// Water is crossed by a ford, or the sheet does not say by what.
    Ford,
    /// Water is crossed in any way.
    Stream,
}

impl HereKind {
    /// Every kind.
    pub const ALL: [Self; 6] = [Self::Bend, Self::Junction, Self::Crossroads, Self::Bridge, Self::Ford, Self::Stream];

    /// The kind of this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        let name = name.trim().to_lowercase();
        Self::ALL.into_iter().find(|kind| kind.word() == name)
    }

    /// The word for it in records.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Bend => "bend",
            Self::Junction => "junction",
            Self::Crossroads => "crossroads",
            Self::Bridge => "bridge",
            Self::Ford => "ford",
            Self::Stream => "stream",
        }
    }

    fn takes(self, junction: JunctionKind) -> bool {
        match junction {
            JunctionKind::T => self == Self::Junction,
            JunctionKind::X => matches!(self, Self::Junction | Self::Crossroads),
            JunctionKind::Water => matches!(self, Self::Bridge | Self::Ford | Self::Stream),
            JunctionKind::Over => self == Self::Bridge,
            JunctionKind::Bridge => matches!(self, Self::Bridge | Self::Stream),
            JunctionKind::Ford => matches!(self, Self::Ford | Self::Stream),
            JunctionKind::EndOn
            | JunctionKind::Levels
            | JunctionKind::Confluence
            | JunctionKind::Corner
            | JunctionKind::Fence
            | JunctionKind::Ridge
            | JunctionKind::Wire => false,
        }
    }

    /// Where on a line of a sheet there are such, metres along it.
    fn on(self, sheet: &Sheet, line: &Line) -> Vec<f64> {
        if self == Self::Bend {
            return line.bends_m();
        }
        let number = sheet.lines.iter().position(|other| other.name == line.name);
        let junctions = sheet.junctions();
        let of = |takes: &dyn Fn(JunctionKind) -> bool| {
            let met = junctions.iter().filter(|junction| takes(junction.kind)).flat_map(|junction| &junction.lines);
            met.filter(|(index, _)| Some(*index) == number).map(|(_, along_m)| *along_m).collect::<Vec<f64>>()
        };
        let met = of(&|kind| self.takes(kind));
        let over_m = of(&|kind| kind == JunctionKind::Over);
        // A bridge where ways pass over each other is over no water.
        let bridge = |along_m: f64| {
            if over_m.iter().any(|over| (over - along_m).abs() <= ON_LINE_M) { JunctionKind::Over } else { JunctionKind::Bridge }
        };
        let beside = sheet.landmarks.iter().filter_map(|mark| {
            let place = line.nearest(mark.at);
            let kind = match mark.kind.trim().to_lowercase().as_str() {
                "bridge" => bridge(place.along_m),
                "ford" => JunctionKind::Ford,
                _ => return None,
            };
            (self.takes(kind) && place.at.minus(mark.at).length_m() <= ON_LINE_M).then_some(place.along_m)
        });
        let mut found: Vec<f64> = Vec::new();
        for along_m in met.into_iter().chain(beside) {
            if found.iter().all(|other| (other - along_m).abs() > APART_M) {
                found.push(along_m);
            }
        }
        found
    }
}

/// That something of a kind is here, along each of the lines; nothing when none of them has any.
///
/// # Accuracy
/// Each is as likely as another, with one sigma of standing at it; one in ten of them is taken to be missing on the sheet.
#[must_use]
pub fn kinds_along(sheet: &Sheet, kind: HereKind, spread_m: f64, lines: &[&Line]) -> Option<GroundSighting> {
    let places_m: Vec<Vec<f64>> = lines.iter().map(|line| kind.on(sheet, line)).collect();
    places_m.iter().any(|places| !places.is_empty()).then(|| here_along(kind, &places_m, spread_m, UNDRAWN, lines))
}
