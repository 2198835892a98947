//! Floor 2. Places on the earth, geodesics, grid references and the sheet's own grid,
//! the magnetic field and the three norths.

mod attraction;
mod compass_check;
mod datum;
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

pub use attraction::{Attracted, Attraction, FieldReading, SENSOR_DIP_DEG, SENSOR_STRENGTH_NT, attraction};
pub use compass_check::{
    AGREES_WITHIN_SIGMAS, CLEAN_BELOW, CompassCheck, CompassCheckError, CompassReadings, CorrectedLine, Implausible, KnownReading,
    MOST_STATIONS, NAMED_FROM, Pair, ReadingSpread, SharedError, Station, StationAttraction, SunKnown, SunSight, TURNED_DEG, TimeSlip,
    Untold, Unusual, Verdict, WildReadings, check_compass, sun_known, suns_minded, time_slip,
};
pub use datum::{Counted, OldDatum};
pub use frame::LocalFrame;
pub use geodesic::{geodesic_between, geodesic_from, reduced_length_m};
pub use grid::{Axes, Axis, DatumShift, FarFromMiddle, Flat, Grid, GridError, GridFactors, HeightAxis, ShiftArea, System};
pub use instant::{Instant, InstantError, date_of};
pub use magnetic::{Caution, DecimalYear, MagneticError, MagneticField, magnetic_field, nearest_modelled, nearest_modelled_day};
pub use norths::{Compass, DeclinationBy, Norths};
pub use place::LatLon;
pub use printed::{BesideModel, Compared, OLD_YEARS, PrintedFault, PrintedNorths, PrintedReport, TurnedSign};
pub use reference::{
    DIGITS_FULL, FAR_M, FarPart, Names, PlaceDoubt, PlaceError, PlaceReading, Terms, beyond_zone_m, completed, cut, degrees_minutes,
    degrees_minutes_seconds, digits_for_spread, doubt_of, exchanged_in_grid, figure_doubt_of, half_read, mgrs_in_zone, mgrs_of, read_place,
    spaced, utm_of, zone_and_band, zone_and_square, zone_in, zone_of,
};
pub use sun::{
    Air, Daylight, GroundHorizon, HILL_M, LONGEST_S, Light, OverGround, Polar, Shown, SunError, SunPosition, daylight, light_from,
    sun_over_ground, sun_position, sun_position_at,
};
