//! The answers to questions, with the unit in each name; the schema is in `DEVELOPERS.md`.

use serde::Serialize;

/// The answer to a question, with the unit in each name.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name; the schema is in DEVELOPERS.md")]
pub enum Answer {
    /// To `norths`.
    Norths {
        lat_deg: f64,
        lon_deg: f64,
        declination_deg: f64,
        declination_spread_deg: f64,
        inclination_deg: f64,
        horizontal_nt: f64,
        total_nt: f64,
        convergence_deg: f64,
        grid_magnetic_deg: f64,
        grid_name: String,
        printed: Option<AnswerPrinted>,
    },
    /// To `light`.
    Light { sunset_unix_ms: Option<i64>, dark_unix_ms: Option<i64> },
    /// To `place`.
    Place {
        lat_deg: f64,
        lon_deg: f64,
        mgrs: String,
        grid_name: String,
        easting_m: f64,
        northing_m: f64,
        convergence_deg: f64,
        scale: f64,
        square_m: f64,
        utm: String,
        dm: String,
        dms: String,
        own: String,
        accuracy_m: Option<f64>,
    },
    /// To `between`.
    Between {
        distance_m: f64,
        bearing_deg_true: f64,
        arrival_deg_true: f64,
        back_deg_true: f64,
        bearing_deg_grid: f64,
        bearing_deg_mag: Option<f64>,
        grid_name: String,
    },
    /// To `attraction`: what was felt, what the model has, one sigma of their differences.
    Attraction {
        strength_nt: f64,
        dip_deg: f64,
        heading_deg_mag: Option<f64>,
        model_strength_nt: f64,
        model_dip_deg: f64,
        strength_spread_nt: f64,
        dip_spread_deg: f64,
        chi_square: f64,
        attracted_share: f64,
        verdict: String,
    },
    /// To `witness`: the place with ready texts, and how it lies to the fix when there is one.
    Witness {
        mgrs: String,
        place: String,
        spread_m: f64,
        age_s: f64,
        stale: bool,
        distance_m: Option<f64>,
        chance: Option<f64>,
        verdict: Option<String>,
        reference: String,
        spread_told: String,
        age_told: String,
    },
    /// To `turn`.
    Turn { bearing_deg: f64, north: String, back_deg: f64, grid_magnetic_deg: f64, told: String },
    /// To `reckon`.
    Reckon {
        east_m: f64,
        north_m: f64,
        direct_m: f64,
        direct_bearing_deg_grid: f64,
        home_bearing_deg_grid: f64,
        walked_m: f64,
        axis_major_m: f64,
        axis_minor_m: f64,
        back: Vec<AnswerBackLeg>,
        closes_m: f64,
    },
    /// To `chart`: the drawing as SVG.
    Chart { svg: String },
}

/// A printed diagram brought to the date in [`Answer::Norths`]: printed minus model is `differs_deg`; old above 20 years.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerPrinted {
    pub age_years: f64,
    pub declination_deg: f64,
    pub grid_magnetic_deg: f64,
    pub differs_deg: f64,
    pub old: bool,
}

/// A leg of the way back in [`Answer::Reckon`].
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerBackLeg {
    pub bearing_deg_grid: f64,
    pub bearing_deg_mag: f64,
    pub metres: f64,
    pub detour_side: Option<String>,
}
