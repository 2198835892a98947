//! Where heights come from, and how far such heights may be wrong.

use crate::ground::HeightSpread;
use crate::measure::{Arg, Message, Telling};

/// Where heights come from.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub enum HeightSource {
    /// Not known: the widest spread of the satellite grids is taken.
    #[default]
    Unknown,
    /// The Shuttle Radar Topography Mission of 2000 and what was made from it.
    Srtm,
    /// The grid from the pictures of the ASTER camera, version 3.
    Aster,
    /// The seamless 1/3 arc-second grid of the US 3D Elevation Program.
    ThirdArcSecond,
    /// A grid of 10 m or finer from airborne laser scanning.
    Laser,
    /// A spread that the person states.
    Stated(HeightSpread),
}

/// What covers the ground. Radar and pictures see the tops of trees.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Cover {
    /// Fields, rock, scrub.
    #[default]
    Open,
    /// Forest.
    Forest,
}

/// Errors of satellite grids stay alike over this distance, metres. Common practice, no source.
const SATELLITE_CORRELATION_M: f64 = 300.0;
/// The same for grids from aerial survey, metres. Common practice, no source.
const AERIAL_CORRELATION_M: f64 = 50.0;
/// What dense forest adds to heights by radar, one sigma in metres. A published field comparison whose name was not taken down.
const CANOPY_M: f64 = 10.0;
/// What forest makes of the spread of a grid that is meant to show the ground below it. Common practice, no source.
const BELOW_TREES: f64 = 2.0;

/// An arc-second of latitude, metres.
const ARC_SECOND_M: f64 = 30.9;
/// Grids of metres made of such are a little closer or wider: 25 m or 100 m (own choice).
const RESAMPLED: f64 = 1.25;

/// Posts that stand otherwise apart than those of the source that was named for them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OtherSpacing {
    source: HeightSource,
    spacing_m: f64,
    closest_m: f64,
    widest_m: f64,
}

impl Telling for OtherSpacing {
    fn message(&self) -> Message {
        let spread_m = self.source.spread(Cover::Open).sigma_m;
        let range = if self.closest_m <= 0.0 {
            "up-to"
        } else if self.closest_m < self.widest_m {
            "between"
        } else {
            "one"
        };
        Message::new("import-heights-spacing")
            .text("source", self.source.word())
            .text("range", range)
            .with("spacing", Arg::Metres(self.spacing_m))
            .with("closest", Arg::Metres(self.closest_m))
            .with("widest", Arg::Metres(self.widest_m))
            .with("spread", Arg::Height(spread_m, 1))
    }
}

impl Cover {
    /// The cover of this name: open or forest.
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        match word.trim().to_lowercase().as_str() {
            "open" => Some(Self::Open),
            "forest" => Some(Self::Forest),
            _ => None,
        }
    }
}

impl HeightSource {
    /// The source of this name: unknown, srtm, aster, third-arc-second or laser.
    #[must_use]
    pub fn named(word: &str) -> Option<Self> {
        match word.trim().to_lowercase().as_str() {
            "unknown" => Some(Self::Unknown),
            "srtm" => Some(Self::Srtm),
            "aster" => Some(Self::Aster),
            "third-arc-second" => Some(Self::ThirdArcSecond),
            "laser" => Some(Self::Laser),
            _ => None,
        }
    }

    /// The word for it in records.
    fn word(self) -> &'static str {
        match self {
            Self::Unknown | Self::Stated(_) => "unknown",
            Self::Srtm => "srtm",
            Self::Aster => "aster",
            Self::ThirdArcSecond => "third-arc-second",
            Self::Laser => "laser",
        }
    }

    /// How far apart the posts of its grids stand as they are published, the closest and the widest, metres.
    ///
    /// # References
    /// SRTM: 1 and 3 arc-seconds (NASA/USGS). ASTER: 1 arc-second (version 3, NASA/METI). 1/3 arc-second: its name. Laser: common practice,
    /// no source. An arc-second of latitude is 30.9 m.
    fn spacings_m(self) -> Option<(f64, f64)> {
        match self {
            Self::Unknown | Self::Stated(_) => None,
            Self::Srtm => Some((ARC_SECOND_M, 3.0 * ARC_SECOND_M)),
            Self::Aster => Some((ARC_SECOND_M, ARC_SECOND_M)),
            Self::ThirdArcSecond => Some((ARC_SECOND_M / 3.0, ARC_SECOND_M / 3.0)),
            Self::Laser => Some((0.0, 10.0)),
        }
    }

    /// What speaks against posts that stand so far apart being of this source; nothing where they may be.
    #[must_use]
    pub fn other_spacing(self, spacing_m: f64) -> Option<OtherSpacing> {
        let (closest_m, widest_m) = self.spacings_m()?;
        let fits = (closest_m / RESAMPLED..=widest_m * RESAMPLED).contains(&spacing_m);
        (!fits).then_some(OtherSpacing { source: self, spacing_m, closest_m, widest_m })
    }

    /// How far heights of this source may be wrong.
    ///
    /// # Units
    /// Metres, one sigma.
    ///
    /// # References
    /// SRTM: the mission's specification, 16 m at 90 %, hence 16 / 1.645 = 9.73 m; field comparisons found 5.7 to 7.5 m.
    /// ASTER: validation of version 3 by USGS, root mean square error 8.52 m. 1/3 arc-second: USGS, 1.55 m (2013; 0.82 m for
    /// the state of 2022, not taken because older parts remain). Laser: 1 m, common practice, no source.
    #[must_use]
    pub fn spread(self, cover: Cover) -> HeightSpread {
        let satellite = |sigma_m: f64| {
            let sigma_m = if cover == Cover::Forest { sigma_m.hypot(CANOPY_M) } else { sigma_m };
            HeightSpread { sigma_m, correlation_m: SATELLITE_CORRELATION_M }
        };
        let aerial = |sigma_m: f64| {
            let sigma_m = if cover == Cover::Forest { sigma_m * BELOW_TREES } else { sigma_m };
            HeightSpread { sigma_m, correlation_m: AERIAL_CORRELATION_M }
        };
        match self {
            Self::Unknown | Self::Srtm => satellite(9.73),
            Self::Aster => satellite(8.52),
            Self::ThirdArcSecond => aerial(1.55),
            Self::Laser => aerial(1.0),
            Self::Stated(spread) => spread,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::HeightSource;

    /// By the table: what is published, a little resampled, passes; a tenth or nine times of it does not.
    #[test]
    fn a_source_is_doubted_by_how_far_apart_posts_stand() {
        let cases: [(HeightSource, &[f64], &[f64]); 5] = [
            (HeightSource::Srtm, &[25.0, 30.9, 90.0, 100.0], &[10.0, 500.0]),
            (HeightSource::Aster, &[30.0], &[10.0, 90.0]),
            (HeightSource::ThirdArcSecond, &[10.0, 10.3], &[1.0, 30.0, 90.0]),
            (HeightSource::Laser, &[0.5, 5.0, 10.0], &[30.0, 90.0]),
            (HeightSource::Unknown, &[1.0, 1000.0], &[]),
        ];
        for (source, fit, other) in cases {
            assert!(fit.iter().all(|spacing_m| source.other_spacing(*spacing_m).is_none()), "{source:?}");
            assert!(other.iter().all(|spacing_m| source.other_spacing(*spacing_m).is_some()), "{source:?}");
        }
    }
}
