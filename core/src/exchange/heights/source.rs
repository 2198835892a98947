//! Where heights come from, and how far such heights may be wrong.

use crate::ground::HeightSpread;

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
    /// A grid of 5 m or finer from airborne laser scanning.
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
