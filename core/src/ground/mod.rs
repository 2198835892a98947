//! Floor 3. Heights of the ground as a grid, and what they show.

mod along;
mod altimeter;
mod blocks;
mod chance;
mod clearance;
mod contours;
mod crown;
mod dead;
mod dead_doubt;
mod field;
mod gap;
mod heights;
mod horizon;
mod landform;
mod layout;
mod normal;
mod passed;
mod profile;
mod ray;
mod sightline;
mod slope;
mod spacing;
mod stand;
mod steep;
mod unit;
mod window;

pub use altimeter::{AltimeterReading, AltimeterSet};
pub use contours::{Contour, ContourError, INDEX_EVERY, Interval, LabelPlace};
pub use dead::{DeadGround, DeadStretch};
pub use dead_doubt::DoubtedGround;
pub use gap::Gap;
pub use heights::{HeightSpread, Heights};
pub use landform::Aspect as AspectUnderfoot;
pub use landform::{
    Around, CutFill, CutFillError, CutOrFill, Extent, Footing, Form, Landform, LandformKind, LandformScale, LandformTable, Rise,
    SeenLandform, Steps, Trend, aspect_log_likelihood, cuts_and_fills, forms, landforms, landforms_around, landforms_from, landforms_near,
    least_cliff_m, rise_log_likelihood, steepness_log_likelihood,
};
pub use layout::{HeightsError, Lattice, Layout, Post};
pub use profile::{ErrorsAlone, Profile, ProfileError, Sample, SteepestStep};
pub use sightline::{CLEAR_CHANCE, HIDDEN_CHANCE, OnSight, Seen, Sight, SightIndex, Sightlines, Untold};
pub use slope::{Aspect, Slope};
pub use stand::Stand;
pub use unit::HeightUnit;
pub use window::{Bounds, Window};

/// Mean radius of the earth, metres (IUGG mean radius R1 of GRS 80; Moritz 2000, J. Geodesy 74, 128-133).
const EARTH_RADIUS_M: f64 = 6_371_008.8;
/// Share of the curvature that the usual bending of light takes back.
///
/// # References
/// 0.13 is the classical coefficient of refraction for levelling by day (Gauss; from memory).
const REFRACTION: f64 = 0.13;

/// How far the earth's curve drops below a level sight over a distance, refraction taken off, metres.
///
/// # Accuracy
/// Within 1 % up to 30 km in ordinary air; over hot ground or snow the refraction may be half or twice.
#[must_use]
pub fn curvature_drop_m(distance_m: f64) -> f64 {
    distance_m * distance_m * (1.0 - REFRACTION) / (2.0 * EARTH_RADIUS_M)
}

#[cfg(test)]
mod tests;

#[cfg(test)]
mod drop_tests {
    use super::curvature_drop_m;

    /// Rows computed with 0.0675 m per km² (`NumPy`); this coefficient gives 0.0683, so 2 % are allowed.
    #[test]
    fn the_drop_over_a_distance() {
        for (km, drop_m) in [(1.0, 0.0675), (3.0, 0.61), (5.0, 1.69), (10.0, 6.75), (20.0, 27.0)] {
            assert!((curvature_drop_m(km * 1000.0) / drop_m - 1.0).abs() < 0.02, "{km} km");
        }
        assert!((curvature_drop_m(20_000.0) - 27.3).abs() < 0.05, "20 km at 0.13");
    }
}
