//! What a record says of a file to come, as its readers want it: borders and the system of heights.

use super::{Refusal, understand};
use crate::earth::{Flat, Grid, LatLon, System};
use crate::exchange::{Area, HeightsFileError, ImageFault};
use crate::ground::{Bounds, Lattice};

/// Names of latitude and longitude on WGS 84.
const DEGREES: [&str; 3] = ["EPSG:4326", "4326", "OGC:CRS84"];

fn borders(degrees: &[f64]) -> Result<[f64; 4], Refusal> {
    <[f64; 4]>::try_from(degrees).map_err(|_| Refusal::plain("import-area-off"))
}

pub(super) fn area(degrees: &[f64]) -> Result<Area, Refusal> {
    let [south, west, north, east] = borders(degrees)?;
    Ok(Area::new(south, west, north, east)?)
}

pub(super) fn bounds(degrees: &[f64]) -> Result<Bounds, Refusal> {
    area(degrees)?;
    let [south, west, north, east] = borders(degrees)?;
    Ok(Bounds { south_west: LatLon::new(south, west)?, north_east: LatLon::new(north, east)? })
}

/// In which coordinates heights lie and what they count in, as far as a text names it: degrees, a grid, a grid with its heights
/// ("EPSG:2227+6360"), heights alone, or the text of a `.prj` file.
pub(super) fn named_system(name: &str) -> Result<(Option<Lattice>, Option<f64>), Refusal> {
    if DEGREES.contains(&name.trim().to_uppercase().as_str()) {
        return Ok((Some(Lattice::Geographic), None));
    }
    let text = understand::numbered_grid(name);
    let Some(system) = (!text.starts_with('+')).then(|| System::named(&text).ok()).flatten() else {
        return Ok((Some(Lattice::Projected(Grid::of_file(&text)?)), None));
    };
    if system.heights.is_some_and(|axis| !axis.upward) {
        return Err(HeightsFileError::Image(ImageFault::Depths).into());
    }
    let lattice = match system.flat {
        Some(Flat::Grid(grid)) => Some(Lattice::Projected(grid)),
        Some(Flat::Degrees) => Some(Lattice::Geographic),
        Some(Flat::OtherDegrees(name)) => return Err(HeightsFileError::Datum(name).into()),
        None => None,
    };
    Ok((lattice, system.heights.map(|axis| axis.unit_m)))
}

/// Whether a text names a system that counts heights from its ellipsoid.
pub(super) fn is_from_ellipsoid(name: &str) -> bool {
    System::named(&understand::numbered_grid(name)).is_ok_and(|system| system.is_ellipsoidal)
}
