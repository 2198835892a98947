//! Floor 2. Places on the earth, geodesics, grid references and the sheet's own grid,
//! the magnetic field and the three norths.

mod attraction;
mod frame;
mod geodesic;
mod grid;
mod gridref;
mod instant;
mod magnetic;
mod norths;
mod place;
mod sun;

#[cfg(test)]
mod tests;

pub use attraction::{Attracted, Attraction, FieldReading, attraction};
pub use frame::LocalFrame;
pub use geodesic::{geodesic_between, geodesic_from};
pub use grid::{Grid, GridError, GridFactors};
pub use gridref::{DIGITS_FULL, Square, digits_for_spread, mgrs_of, spaced};
pub use instant::{Instant, InstantError, date_of};
pub use magnetic::{Caution, MagneticError, MagneticField, magnetic_field};
pub use norths::{Compass, Norths};
pub use place::{LatLon, PlaceError, PlaceReading, read_place};
pub use sun::{Light, light_from};
