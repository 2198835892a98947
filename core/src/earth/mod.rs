//! Floor 2. Places on the earth, geodesics, grid references and the sheet's own grid,
//! the magnetic field and the three norths.

mod attraction;
mod frame;
mod geodesic;
mod grid;
mod instant;
mod magnetic;
mod norths;
mod place;
mod printed;
mod reference;
mod sun;

#[cfg(test)]
mod tests;

pub use attraction::{Attracted, Attraction, FieldReading, attraction};
pub use frame::LocalFrame;
pub use geodesic::{geodesic_between, geodesic_from};
pub use grid::{Grid, GridError, GridFactors};
pub use instant::{Instant, InstantError, date_of, decimal_year};
pub use magnetic::{Caution, MagneticError, MagneticField, magnetic_field};
pub use norths::{Compass, Norths};
pub use place::LatLon;
pub use printed::{OLD_YEARS, PrintedNorths, PrintedReport};
pub use reference::{
    DIGITS_FULL, PlaceError, PlaceReading, Terms, degrees_minutes, degrees_minutes_seconds, digits_for_spread, mgrs_of, read_place, spaced,
    utm_of,
};
pub use sun::{Light, light_from};
