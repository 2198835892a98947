//! Whether metal or a current is near: a phone's magnetometer held against the model of the earth's field.

use super::MagneticField;
use crate::measure::{LINE_95, MagneticBearing};

/// What a phone feels at rest, in its own axes: x to the right, y to the top edge, z out of the screen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FieldReading {
    /// The magnetic field, nanotesla.
    pub field_nt: [f64; 3],
    /// The direction away from the ground, in any unit.
    pub up: [f64; 3],
}

/// How a reading agrees with the model.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Attraction {
    /// Strength that was felt, nanotesla.
    pub strength_nt: f64,
    /// Dip below the horizon that was felt, degrees.
    pub dip_deg: f64,
    /// Where the top edge points, when the phone lies flat enough to say so.
    pub heading: Option<MagneticBearing>,
    /// One sigma of the difference in strength, model and sensor together, nanotesla.
    pub strength_spread_nt: f64,
    /// One sigma of the difference in dip, degrees.
    pub dip_spread_deg: f64,
    /// Chi-square of strength and dip, two degrees of freedom.
    pub chi_square: f64,
    /// Probability that metal or a current is near, 0 to 1.
    pub share: f64,
    /// The level part of the field, which alone points: of what was felt and the model's the weaker, nanotesla.
    pub level_nt: f64,
    /// Whether the reading would agree with the vertical turned round: up was given for down, or an axis the wrong way.
    pub is_upside_down: bool,
}

/// What an [`Attraction`] says.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Attracted {
    /// Strength and dip are those of the model.
    Clean,
    /// Not to be told: read again some steps away.
    Doubtful,
    /// Metal or a current is near.
    Near,
}

impl Attracted {
    /// clean, doubtful or attracted.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Clean => "clean",
            Self::Doubtful => "doubtful",
            Self::Near => "attracted",
        }
    }
}

/// One sigma of a calibrated sensor's strength, nanotesla. Common practice, no source; a steady field felt by a walker's
/// sensor varies by 2 % (scikit-kinematics 0.10.4, walking data), which is 1,000 nT at mid-latitudes.
pub const SENSOR_STRENGTH_NT: f64 = 1_500.0;
/// One sigma of a calibrated sensor's dip, degrees. Common practice, no source.
pub const SENSOR_DIP_DEG: f64 = 2.0;
/// One sigma of the strength that near metal adds, nanotesla. Common practice, no source.
const METAL_STRENGTH_NT: f64 = 10_000.0;
/// One sigma of the dip that near metal adds, degrees. Common practice, no source.
const METAL_DIP_DEG: f64 = 10.0;
/// How often a reading beside a road is taken too near to metal. Common practice, no source.
const METAL_PRIOR: f64 = 0.2;
/// A reading is clean below this probability of metal (our choice).
const CLEAN_BELOW: f64 = 0.2;
/// Below this length across the vertical the top edge points nowhere.
const LEAST_LEVEL: f64 = 0.5;

impl Attraction {
    /// What the probability says: below a fifth clean, above four fifths near.
    #[must_use]
    pub fn verdict(&self) -> Attracted {
        if self.share < CLEAN_BELOW {
            Attracted::Clean
        } else if self.share <= 0.8 {
            Attracted::Doubtful
        } else {
            Attracted::Near
        }
    }

    /// Half-width at 95 % of the heading, degrees, from the spreads of a reading and of the error that all readings share; nothing
    /// where the level part of the field is so weak that the sensor's own error may point it anywhere.
    ///
    /// # Accuracy
    /// The shared error is that of mid-latitudes. An error of the field across the needle turns it by the arc whose sine is that
    /// error over the level field, so that the spread grows towards the magnetic poles; the greater of the two counts.
    #[must_use]
    pub fn heading_half_95_deg(&self, reading_spread_deg: f64, shared_spread_deg: f64) -> Option<f64> {
        let across = LINE_95 * self.strength_spread_nt / self.level_nt;
        let turned_deg = (across < 1.0).then(|| across.asin().to_degrees())?;
        Some((LINE_95 * reading_spread_deg).hypot(turned_deg.max(LINE_95 * shared_spread_deg)))
    }
}

/// Holds a reading against the model's field at its place and date; nothing when it has no length or no direction.
///
/// Strength and dip do not depend on where the phone points. The odds compare a clean reading (model and sensor
/// spreads) with one near metal (spreads of 10 µT and 10° more), 1 in 5 beforehand.
///
/// Accuracy: the odds rest on the spreads named in this file, of which only the model's own is published. A reading
/// that agrees proves nothing: iron may turn the needle and leave strength and dip as they were.
#[must_use]
pub fn attraction(reading: &FieldReading, model: &MagneticField) -> Option<Attraction> {
    let strength_nt = length(reading.field_nt);
    let up = unit(reading.up)?;
    let field = unit(reading.field_nt)?;
    let dip_deg = (-dot(field, up)).clamp(-1.0, 1.0).asin().to_degrees();
    let strength_spread_nt = model.total_spread_nt.hypot(SENSOR_STRENGTH_NT);
    let dip_spread_deg = model.inclination_spread_deg.hypot(SENSOR_DIP_DEG);
    let off = [strength_nt - model.total_nt, dip_deg - model.inclination_deg];
    let clean = [strength_spread_nt, dip_spread_deg];
    let metal = [strength_spread_nt.hypot(METAL_STRENGTH_NT), dip_spread_deg.hypot(METAL_DIP_DEG)];
    let (share, turned) = (near_metal(off, clean, metal), near_metal([off[0], -dip_deg - model.inclination_deg], clean, metal));
    Some(Attraction {
        strength_nt,
        dip_deg,
        heading: heading(field, up),
        strength_spread_nt,
        dip_spread_deg,
        chi_square: chi_square(off, clean),
        share,
        level_nt: model.horizontal_nt.min(strength_nt * dip_deg.to_radians().cos()),
        is_upside_down: share >= CLEAN_BELOW && turned < CLEAN_BELOW,
    })
}

fn chi_square(off: [f64; 2], spreads: [f64; 2]) -> f64 {
    off.iter().zip(spreads).map(|(off, spread)| (off / spread).powi(2)).sum()
}

/// The posterior of "metal is near", by Bayes with normal densities; logarithms, so that no density vanishes.
fn near_metal(off: [f64; 2], clean: [f64; 2], metal: [f64; 2]) -> f64 {
    let log_density = |spreads: [f64; 2]| -chi_square(off, spreads) / 2.0 - spreads.iter().map(|spread| spread.ln()).sum::<f64>();
    let odds = ((1.0 - METAL_PRIOR) / METAL_PRIOR).ln() + log_density(clean) - log_density(metal);
    1.0 / (1.0 + odds.exp())
}

/// The bearing of the y axis: east is the field across the vertical, north the vertical across east.
fn heading(field: [f64; 3], up: [f64; 3]) -> Option<MagneticBearing> {
    let east = unit(cross(field, up))?;
    let [_, to_north, _] = cross(up, east);
    let [_, to_east, _] = east;
    (to_east.hypot(to_north) >= LEAST_LEVEL).then(|| MagneticBearing::new(to_east.atan2(to_north).to_degrees()))
}

fn dot(a: [f64; 3], b: [f64; 3]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

fn length(vector: [f64; 3]) -> f64 {
    dot(vector, vector).sqrt()
}

fn unit(vector: [f64; 3]) -> Option<[f64; 3]> {
    let length = length(vector);
    (length.is_finite() && length > 1e-9).then(|| vector.map(|part| part / length))
}

fn cross([ax, ay, az]: [f64; 3], [bx, by, bz]: [f64; 3]) -> [f64; 3] {
    [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx]
}

#[cfg(test)]
mod tests {
    #![allow(clippy::expect_used, reason = "a test may stop where it fails")]

    use super::{Attracted, FieldReading, attraction};
    use crate::earth::{LatLon, date_of, magnetic_field};

    const UP: [f64; 3] = [0.0, 0.0, 1.0];

    /// A phone held flat whose top edge points to a magnetic bearing feels the field of 47.6° N 122.3° W.
    fn turned(bearing_deg: f64, factor: f64) -> (FieldReading, crate::earth::MagneticField) {
        let date = date_of("2026-07-01").expect("date");
        let model = magnetic_field(LatLon::new(47.6, -122.3).expect("place"), 0.0, date).expect("field");
        let (sin, cos) = (-bearing_deg).to_radians().sin_cos();
        let down = model.total_nt * model.inclination_deg.to_radians().sin();
        let field_nt = [model.horizontal_nt * sin * factor, model.horizontal_nt * cos * factor, -down * factor];
        (FieldReading { field_nt, up: UP }, model)
    }

    #[test]
    fn a_clean_reading_tells_where_the_phone_points() {
        for bearing_deg in [0.0, 19.0, 123.0, 359.0] {
            let (reading, model) = turned(bearing_deg, 1.0);
            let told = attraction(&reading, &model).expect("told");
            assert!((told.heading.expect("flat").degrees() - bearing_deg).abs() < 1e-9);
            assert!(told.chi_square < 1e-3 && told.verdict() == Attracted::Clean);
        }
    }

    #[test]
    fn a_field_half_as_strong_again_is_near_metal() {
        let (reading, model) = turned(19.0, 1.5);
        assert_eq!(attraction(&reading, &model).expect("told").verdict(), Attracted::Near);
    }

    #[test]
    fn up_given_for_down_is_told_from_metal() {
        let (reading, model) = turned(19.0, 1.0);
        let told = attraction(&FieldReading { up: [0.0, 0.0, -1.0], ..reading }, &model).expect("told");
        assert!(told.is_upside_down && told.verdict() == Attracted::Near);
        let (metal, _) = turned(19.0, 1.5);
        assert!(!attraction(&metal, &model).expect("told").is_upside_down);
        assert!(!attraction(&reading, &model).expect("told").is_upside_down);
    }

    /// By hand: at 95 % an error of 2.95 µT turns a level field of 5 µT by asin(0.59) = 36.2°, and one below 2.95 µT anywhere.
    #[test]
    fn a_heading_is_worth_less_where_the_level_field_is_weak() {
        let (reading, mut model) = turned(19.0, 1.0);
        let half_deg = |model: &crate::earth::MagneticField| attraction(&reading, model).expect("told").heading_half_95_deg(5.0, 4.0);
        assert!((half_deg(&model).expect("told") - 13.4).abs() < 0.2, "{:?}", half_deg(&model));
        model.horizontal_nt = 5_000.0;
        assert!((half_deg(&model).expect("told") - 9.8f64.hypot(36.2)).abs() < 0.2, "{:?}", half_deg(&model));
        model.horizontal_nt = 150.0;
        assert_eq!(half_deg(&model), None);
    }

    #[test]
    fn a_phone_on_edge_points_nowhere_and_no_field_says_nothing() {
        let (reading, model) = turned(0.0, 1.0);
        let on_edge = FieldReading { up: [0.0, 1.0, 0.0], ..reading };
        assert!(attraction(&on_edge, &model).expect("told").heading.is_none());
        assert!(attraction(&FieldReading { field_nt: [0.0; 3], up: UP }, &model).is_none());
        assert!(attraction(&FieldReading { up: [f64::NAN; 3], ..reading }, &model).is_none());
    }
}
