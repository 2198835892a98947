//! What was observed, as JSON: one sighting of a `fix` record.

use serde::{Deserialize, Serialize};

/// A sighting in a [`Record::Fix`], told apart by `what`; a bearing when that is absent.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "what", rename_all = "kebab-case", deny_unknown_fields)]
pub enum SightingRecord {
    /// A bearing to a landmark, to one of several, or to a feature that is only roughly placed. One of the three is given.
    Bearing {
        /// The landmark's name on the sheet.
        landmark: Option<String>,
        /// Names of all landmarks that it may be.
        one_of: Option<Vec<String>>,
        /// Roughly where the feature lies.
        place: Option<String>,
        /// One sigma per axis of that place, metres.
        spread_m: Option<f64>,
        /// The bearing with its north: "214 mag".
        bearing: String,
        /// One sigma of the reading, degrees.
        spread_deg: Option<f64>,
    },
    /// A running fix: two bearings to one landmark with a run between.
    Running {
        /// The landmark's name.
        landmark: String,
        /// The first bearing.
        first: String,
        /// The second one, read here.
        second: String,
        /// Length of the run, metres.
        run_m: f64,
        /// One sigma of that in per cent; 3 when absent.
        run_spread_percent: Option<f64>,
        /// The bearing of a straight run; along the line when absent,
        run: Option<String>,
        /// towards this known point of the line.
        towards: Option<String>,
        /// One sigma of each reading, degrees.
        spread_deg: Option<f64>,
    },
    /// The bearing of the line itself here, either way.
    LineRun {
        /// The bearing with its north.
        bearing: String,
        /// One sigma, degrees.
        spread_deg: Option<f64>,
    },
    /// The angle between two landmarks, for which no north is needed.
    Angle {
        /// The left landmark.
        left: String,
        /// The right one.
        right: String,
        /// Degrees clockwise from left to right.
        angle_deg: f64,
        /// One sigma, degrees; that of two readings when absent.
        spread_deg: Option<f64>,
    },
    /// On which side a landmark stands for one who faces along the line.
    Side {
        /// The landmark.
        landmark: String,
        /// left, right, ahead or behind.
        side: String,
        /// The known point of the line that is faced; either way when absent.
        towards: Option<String>,
    },
    /// A landmark is seen.
    Seen {
        /// The landmark.
        landmark: String,
    },
    /// A landmark was looked for and is not seen.
    NotSeen {
        /// The landmark.
        landmark: String,
    },
    /// A bend, junction, bridge or crossing is here: one that the sheet names, or any of its kind. One of the two is given.
    Here {
        /// The known point.
        known: Option<String>,
        /// bend, junction, crossroads, bridge, ford or stream (crossed in any way).
        kind: Option<String>,
        /// One sigma of standing at it, metres; 15 when absent.
        spread_m: Option<f64>,
    },
    /// The trip meter from a known point.
    Trip {
        /// The known point.
        from: String,
        /// What it shows since then, metres.
        distance_m: f64,
        /// Step of its display, metres; 100 when absent.
        step_m: Option<f64>,
        /// Whether it shows a figure until the next one is full, as digital ones mostly do, or (false) the nearest one; either is weighed when absent.
        cuts_off: Option<bool>,
        /// One sigma of its scale in per cent; 2 when absent.
        scale_percent: Option<f64>,
        /// The known point that was driven towards; either way when absent.
        towards: Option<String>,
    },
    /// Paces along the line from a known point.
    Paces {
        /// The known point.
        from: String,
        /// How many.
        paces: f64,
        /// single or double.
        pace_kind: Option<String>,
        /// The known point that was walked towards; either way when absent.
        towards: Option<String>,
    },
    /// An independent place, weighed in on the walker's word: a receiver's, or a reference that another one read.
    Witness {
        /// The place.
        place: String,
        /// One sigma per axis, metres; that of the reference's square, at least 10, when absent.
        spread_m: Option<f64>,
    },
    /// The distance to a landmark.
    Distance {
        /// The landmark.
        landmark: String,
        /// Metres.
        distance_m: f64,
        /// One sigma, metres; a quarter of the distance, as by eye, when absent.
        spread_m: Option<f64>,
    },
    /// What the ground does towards a bearing, by the heights of the sheet.
    Slope {
        /// rises, falls or level.
        ground: String,
        /// The bearing with its north.
        towards: String,
        /// How steeply, degrees up or down; not said when absent.
        slope_deg: Option<f64>,
        /// One sigma of that, degrees; 4 when absent.
        spread_deg: Option<f64>,
        /// Over how many metres; 100 when absent.
        over_m: Option<f64>,
    },
    /// A landform by the heights of the sheet: at a bearing and a rough distance, or underfoot when neither is given.
    Landform {
        /// hill (knob), saddle, ridge, spur, valley, draw, depression or cliff.
        kind: String,
        /// The bearing to it with its north.
        bearing: Option<String>,
        /// One sigma of that, degrees; 10 when absent.
        spread_deg: Option<f64>,
        /// How far it is, metres; 300 within a factor of 3 when absent.
        distance_m: Option<f64>,
        /// The factor by which the distance may be wrong either way, one sigma; 1.5 when absent.
        distance_factor: Option<f64>,
    },
    /// Where the slope underfoot falls to, by the heights of the sheet.
    Aspect {
        /// The bearing that it falls towards, with its north.
        falls: String,
        /// One sigma, degrees; 20 when absent.
        spread_deg: Option<f64>,
    },
    /// An altimeter, by the heights of the sheet.
    Height {
        /// What it reads, metres above the sea.
        read_m: f64,
        /// One sigma of a reading, metres; 30 when absent, 5 when it was set since.
        spread_m: Option<f64>,
        /// Where it was set: a known point, a landmark or a place.
        set_at: Option<String>,
        /// What it was set to there, metres; the height of that place on the sheet when absent.
        set_m: Option<f64>,
        /// Hours since it was set.
        hours_since_set: Option<f64>,
        /// One sigma of its drift, metres an hour; 5 when absent.
        drift_m_per_hour: Option<f64>,
    },
}

/// Sightings as they come in: one that does not say what it is, is a bearing.
pub(super) fn sightings<'de, D: serde::Deserializer<'de>>(from: D) -> Result<Vec<SightingRecord>, D::Error> {
    use serde::de::Error;
    let told = Vec::<serde_json::Map<String, serde_json::Value>>::deserialize(from)?;
    let one = |mut record: serde_json::Map<String, serde_json::Value>| {
        record.entry("what").or_insert_with(|| "bearing".into());
        serde_json::from_value(record.into()).map_err(D::Error::custom)
    };
    told.into_iter().map(one).collect()
}

impl SightingRecord {
    /// The place that is typed in it as a reference.
    #[allow(clippy::wildcard_enum_match_arm, reason = "the others name things of the sheet")]
    pub(super) fn typed_place(&self) -> Option<&str> {
        match self {
            Self::Bearing { place, .. } => place.as_deref(),
            Self::Witness { place, .. } => Some(place),
            Self::Height { set_at, .. } => set_at.as_deref(),
            _ => None,
        }
    }

    /// The bearings that are typed in it.
    pub(super) fn bearings(&self) -> Vec<&str> {
        match self {
            Self::Bearing { bearing, .. } | Self::LineRun { bearing, .. } => vec![bearing],
            Self::Running { first, second, run, .. } => [first, second].into_iter().chain(run).map(String::as_str).collect(),
            Self::Slope { towards, .. } => vec![towards],
            Self::Landform { bearing, .. } => bearing.as_deref().into_iter().collect(),
            Self::Aspect { falls, .. } => vec![falls],
            Self::Angle { .. }
            | Self::Side { .. }
            | Self::Seen { .. }
            | Self::NotSeen { .. }
            | Self::Here { .. }
            | Self::Trip { .. }
            | Self::Paces { .. }
            | Self::Witness { .. }
            | Self::Distance { .. }
            | Self::Height { .. } => Vec::new(),
        }
    }
}
