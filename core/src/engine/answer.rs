//! The answers to questions, with the unit in each name; the schema is in `DEVELOPERS.md`.

use serde::Serialize;

use super::buffers::{AnswerSamples, AnswerSeenLandmarks};
use super::view::{KnownPointView, LineView, SightView};

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
        inclination_deg: Option<f64>,
        horizontal_nt: Option<f64>,
        total_nt: Option<f64>,
        north_nt: Option<f64>,
        east_nt: Option<f64>,
        down_nt: Option<f64>,
        inclination_spread_deg: Option<f64>,
        horizontal_spread_nt: Option<f64>,
        total_spread_nt: Option<f64>,
        declination_change_deg_per_year: Option<f64>,
        model: Option<String>,
        convergence_deg: f64,
        grid_magnetic_deg: f64,
        grid_name: String,
        printed: Option<AnswerPrinted>,
    },
    /// To `light`: what is left from the time asked on, then the day's. Each height of the sun by itself, `day` or `night` where it
    /// stays above or below it all day. `touches`: the sun only touches the horizon then, as near as the air's bend differs. `ground` is
    /// the horizon that the heights of the sheet raise: a time is the latest or earliest where they end nearer (`known`) than ground
    /// that could hide the sun (`enough`). `ground_gaps`: when the ground hides the sun of that day between its rise and its set, or, where
    /// it stays up, at any time of it; `ground_gaps_to_come`: the same from the time asked on until it sets, or for a day.
    Light {
        sunset_unix_ms: Option<i64>,
        sunset_95_s: Option<f64>,
        dark_unix_ms: Option<i64>,
        dawn_unix_ms: Option<i64>,
        touches_unix_ms: Option<i64>,
        is_down: bool,
        is_dark: bool,
        azimuth_deg_true: f64,
        elevation_deg: f64,
        sunrise_unix_ms: Option<i64>,
        day_sunset_unix_ms: Option<i64>,
        touches_before_noon_unix_ms: Option<i64>,
        touches_after_noon_unix_ms: Option<i64>,
        civil_dawn_unix_ms: Option<i64>,
        civil_dusk_unix_ms: Option<i64>,
        nautical_dawn_unix_ms: Option<i64>,
        nautical_dusk_unix_ms: Option<i64>,
        polar: Option<String>,
        civil_polar: Option<String>,
        nautical_polar: Option<String>,
        behind_ground_unix_ms: Option<i64>,
        behind_ground_95_s: Option<f64>,
        behind_ground_is_latest: Option<bool>,
        ground_horizon_deg: Option<f64>,
        ground_known_to_m: Option<f64>,
        ground_enough_to_m: Option<f64>,
        ground_sunrise_unix_ms: Option<i64>,
        ground_sunrise_is_earliest: Option<bool>,
        ground_sunset_unix_ms: Option<i64>,
        ground_sunset_is_latest: Option<bool>,
        ground_gaps: Vec<AnswerGroundGap>,
        ground_gaps_to_come: Vec<AnswerGroundGap>,
    },
    /// To `mean`: one reading's spread, the mean's and its half-width at 95 %, the greatest deviation and which reading (from 1)
    /// it is, and readings that were left out because they point the other way.
    Mean {
        bearing_deg: f64,
        north: String,
        spread_deg: f64,
        mean_spread_deg: f64,
        half_95_deg: f64,
        count: u32,
        widest_deg: f64,
        widest: u32,
        reversed: Vec<u32>,
    },
    /// To `compass`: what it reads too much, one sigma and half-width at 95 %; one reading's spread; stations and lines.
    Compass {
        error_deg: Option<f64>,
        error_spread_deg: Option<f64>,
        error_95_deg: Option<f64>,
        reading_spread_deg: f64,
        count: u32,
        stations: Vec<AnswerStation>,
        lines: Vec<AnswerCompassLine>,
    },
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
        scale_factor: f64,
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
        distance_spread_m: f64,
        bearing_spread_deg: f64,
        bearing_deg_true: f64,
        arrival_deg_true: f64,
        back_deg_true: f64,
        bearing_deg_grid: f64,
        bearing_deg_mag: Option<f64>,
        grid_name: String,
    },
    /// To `attraction`: what was felt, what the model has, one sigma of their differences; the heading also as a ready text, and as
    /// whole degrees to be typed.
    Attraction {
        strength_nt: f64,
        dip_deg: f64,
        heading_deg_mag: Option<f64>,
        heading_told: Option<String>,
        heading_figures: Option<String>,
        caution_told: Option<String>,
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
    /// To `import` of lines and landmarks: how many of each came in, how many records of the file were left out, and whom to name.
    ImportedFeatures { lines: u32, landmarks: u32, known_points: u32, already: u32, left_out: u32, credit: Option<String> },
    /// To `import` of heights: posts that came in, the distance from post to post, one sigma of a height and how far errors stay alike,
    /// and the share of the file that lies outside of the sheet and 2 km around it, or of the area that was named, and was left out.
    ImportedHeights {
        columns: u32,
        rows: u32,
        spacing_east_m: f64,
        spacing_south_m: f64,
        spread_m: f64,
        correlation_m: f64,
        left_out_share: f64,
        credit: Option<String>,
    },
    /// To `photo`: how it is laid (`affine`, `projective`), one sigma of a mark and of a tap in the middle, by how much each mark
    /// misses, and the places that were tapped.
    Photo { kind: String, spread_px: f64, spread_m: f64, marks: Vec<AnswerPhotoMark>, places: Vec<AnswerPhotoPlace> },
    /// To `seen`: the place, its landmarks and the landforms near; and in words what of the ground near is only counted or cannot be told.
    Seen { mgrs: String, landmarks: AnswerSeenLandmarks, landforms: Vec<AnswerSeenLandform>, untold: Vec<String> },
    /// To `sights`: 24 at the most beside those that were read, and how many more there are.
    Sights { sights: Vec<SightView>, left: u32 },
    /// To `lines`: 24 at the most, and how many more there are.
    Lines { lines: Vec<LineView>, left: u32 },
    /// To `points`: 24 at the most, and how many more there are.
    Points { points: Vec<KnownPointView>, left: u32 },
    /// To `profile`: heights along the way, the sums of rises and falls from one to the next, how much of each errors of the heights alone make
    /// of level ground, and the steepest step (up positive) with its half-width at 95 %, null where such errors may make it; with an eye the
    /// stretches that it does not see, those that it may not see by the spread of the heights, and those of which that cannot be told: beyond a
    /// gap what known ground does not hide.
    Profile {
        length_m: f64,
        climb_m: f64,
        descent_m: f64,
        errors_m: f64,
        steepest_deg: Option<f64>,
        steepest_half_width_deg: Option<f64>,
        steepest_from_m: Option<f64>,
        samples: AnswerSamples,
        dead: Vec<AnswerDead>,
        perhaps_dead: Vec<AnswerDead>,
        untold: Vec<AnswerDead>,
    },
    /// To `ground`: the height there, the slope and where it falls to, the rise in eight directions, and cuts and fills of lines near; none of
    /// those are told where posts stand more than 10 m apart.
    Ground {
        mgrs: String,
        height_m: f64,
        height_spread_m: f64,
        slope_deg: Option<f64>,
        slope_spread_deg: Option<f64>,
        falls_to_deg_true: Option<f64>,
        falls_to_spread_deg: Option<f64>,
        rises: Vec<AnswerRise>,
        cuts_and_fills: Vec<AnswerCutOrFill>,
    },
    /// To `contours`: lines with `height_m`, `index` and `depression`, which marks a ring round lower ground (and `height_ft` where they are counted in feet), as GeoJSON; the drawing when it was asked for.
    Contours { geojson: String, count: u32, interval_m: f64, svg: Option<String> },
    /// To `turn`: `spread_deg` is that of the bearing told, one sigma; without one of the bearing as read that of the turning alone. It and
    /// those of the angles are null where they are not known.
    Turn {
        bearing_deg: f64,
        spread_deg: Option<f64>,
        north: String,
        back_deg: f64,
        grid_magnetic_deg: Option<f64>,
        declination_deg: Option<f64>,
        declination_spread_deg: Option<f64>,
        convergence_deg: Option<f64>,
        told: String,
    },
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

/// A stretch of the way in [`Answer::Profile`].
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerDead {
    pub from_m: f64,
    pub to_m: f64,
}

/// By how much a mark misses in [`Answer::Photo`]: pixels, and metres on the ground from the fitted crossing to the mark.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerPhotoMark {
    pub off_px: f64,
    pub off_east_m: f64,
    pub off_north_m: f64,
}

/// A tapped place in [`Answer::Photo`]; easting and northing in the grid's own unit, one sigma along the worse axis, and whether it
/// lies outside the marks.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerPhotoPlace {
    pub name: String,
    pub lat_deg: f64,
    pub lon_deg: f64,
    pub mgrs: String,
    pub easting: f64,
    pub northing: f64,
    pub spread_m: f64,
    pub outside: bool,
}

/// A cut or fill of a line.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AnswerCutOrFill {
    /// The line.
    pub line: String,
    /// cut or fill.
    pub kind: String,
    /// Where it begins, metres along the line.
    pub from_m: f64,
    /// Where it ends, metres along the line.
    pub to_m: f64,
    /// Where it is deepest or highest, metres along the line.
    pub most_at_m: f64,
    /// That place.
    pub mgrs: String,
    /// Its depth or height there, metres.
    pub most_m: f64,
    /// How far to trust it, 0 to 1.
    pub strength: f64,
}

/// How the ground rises towards a bearing in [`Answer::Ground`]; negative where it falls.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerRise {
    pub bearing_deg_true: f64,
    pub distance_m: f64,
    pub rise_m: f64,
    pub rise_spread_m: f64,
}

/// A landform in [`Answer::Seen`]; its strength from 0 to 1; and in words.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerSeenLandform {
    pub kind: String,
    pub bearing_deg_mag: f64,
    pub distance_m: f64,
    pub relief_m: f64,
    pub strength: f64,
    pub told: String,
}

/// A station in [`Answer::Compass`]: `clean`, `attracted` or `not-to-be-told`. Both numbers are absent where
/// several explanations tell different ones; the share is that of the odds by which the station is turned.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerStation {
    pub station: String,
    pub attraction_deg: Option<f64>,
    pub spread_deg: Option<f64>,
    pub attracted_share: f64,
    pub verdict: String,
}

/// A line in [`Answer::Compass`], attraction taken off; no bearing where it cannot be told.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerCompassLine {
    pub from: String,
    pub to: String,
    pub closure_deg: f64,
    pub bearing_deg_mag: Option<f64>,
    pub spread_deg: f64,
}

/// A printed diagram brought to the date in [`Answer::Norths`]: printed minus model is `differs_deg`, on a day on which the model holds; each
/// spread is one sigma, `differs_spread_deg` that of both; old above 20 years.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerPrinted {
    pub age_years: f64,
    pub declination_deg: f64,
    pub declination_spread_deg: Option<f64>,
    pub grid_magnetic_deg: f64,
    pub differs_deg: Option<f64>,
    pub differs_spread_deg: Option<f64>,
    pub old: bool,
}

/// A time in [`Answer::Light`] during which the ground hides the sun. Without its beginning it began before the span, without its end
/// it goes on beyond. Where heights end nearer than ground that could hide the sun, the beginning is the latest and the end the earliest.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerGroundGap {
    pub from_unix_ms: Option<i64>,
    pub from_is_latest: Option<bool>,
    pub to_unix_ms: Option<i64>,
    pub to_is_earliest: Option<bool>,
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
