//! What a record says of a file to come, as its readers want it: borders and the system of heights.

use super::import::Brought;
use super::{Refusal, questions, understand};
use crate::earth::{DatumShift, Flat, Grid, LatLon, System, geodesic_between};
use crate::exchange::{Area, GridUsed, HeightsFileError, ImageFault};
use crate::ground::{Bounds, Lattice, Layout, Post};
use crate::measure::{Arg, Message};

/// The coordinates in which heights lie, and metres in the unit they count in, as far as they are named.
pub(super) type Coordinates = (Option<Lattice>, Option<f64>);

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

/// The system that is named for heights, else that of the `.prj` file beside them.
pub(super) fn system_of(file: &Brought<'_>) -> Result<Coordinates, Refusal> {
    match (file.grid, file.prj) {
        (Some(grid), _) => named_system(grid),
        (None, Some(prj)) => named_system(prj).map_err(|refusal| {
            let is_odd = refusal.code() == "grid-unknown";
            if is_odd { Refusal::named("import-prj-odd", file.name) } else { refusal }
        }),
        (None, None) => Ok((None, None)),
    }
}

/// What is to be minded of the grid that heights were taken in: another was named, the `.prj` file says another, or it is made for elsewhere.
pub(super) fn grid_minded(layout: &Layout, named: Option<&Lattice>, file: &Brought<'_>) -> Vec<Message> {
    let own = named.and_then(|named| differ("import-heights-own-grid", ("own", &layout.lattice), named, layout));
    // A text that cannot be read says nothing against what is named.
    let (beside, height_m) = file.prj.filter(|_| file.grid.is_some()).and_then(|text| named_system(text).ok()).unwrap_or_default();
    let prj = beside.as_ref().zip(named).and_then(|(beside, named)| {
        let differing = differ("import-heights-prj", ("beside", beside), named, layout)?;
        let (one, other) = (unit_of(beside), unit_of(named));
        let units = if one == other { "same" } else { "differ" };
        Some(differing.text("units", units).text("beside-unit", one).text("named-unit", other))
    });
    let taken_m = file.grid.and_then(|grid| named_system(grid).ok()?.1).unwrap_or(1.0);
    let heights = height_m.filter(|metres| (metres - taken_m).abs() > SAME_UNIT * taken_m).map(|metres| {
        Message::new("import-heights-prj-unit").with("beside", Arg::Number(metres, 4)).with("taken", Arg::Number(taken_m, 4))
    });
    own.into_iter().chain(prj).chain(heights).chain(outside_told(layout)).collect()
}

/// Grids that lead apart by less are one, metres, whatever they are called.
const SAME_GRID_M: f64 = 1.0;

/// Units of height that differ by a smaller share are one: the two feet do by 2e-6.
const SAME_UNIT: f64 = 1e-5;

/// The unit in which a grid counts, as its register names it.
fn unit_of(lattice: &Lattice) -> String {
    match lattice {
        Lattice::Geographic => "degree".to_owned(),
        Lattice::Projected(grid) => grid.unit().unwrap_or_else(|| "metre".to_owned()),
    }
}

/// A message with the names of two grids in which the numbers of a layout lead to two places.
fn differ(id: &'static str, (of, other): (&'static str, &Lattice), named: &Lattice, layout: &Layout) -> Option<Message> {
    let name = |lattice: &Lattice| match lattice {
        Lattice::Geographic => "WGS 84".to_owned(),
        Lattice::Projected(grid) => grid.name().to_owned(),
    };
    let at = |lattice: &Lattice| middle(&Layout { lattice: lattice.clone(), ..layout.clone() });
    let is_one = name(other) == name(named) || at(other).zip(at(named)).is_some_and(|(a, b)| geodesic_between(a, b).0 < SAME_GRID_M);
    (!is_one).then(|| Message::new(id).text(of, name(other)).text("named", name(named)))
}

fn middle(layout: &Layout) -> Option<LatLon> {
    layout.place_of(Post { column: layout.columns as f64 / 2.0, row: layout.rows as f64 / 2.0 }).ok()
}

/// That heights lie well outside of what their grid is made for, else how good its shift of the datum is.
fn outside_told(layout: &Layout) -> Option<Message> {
    let Lattice::Projected(grid) = &layout.lattice else { return None };
    Some(of_file(questions::grid_minded(grid, middle(layout)?)?, "import-heights-outside"))
}

/// The same of each grid in which a file gives the places of lines and landmarks.
pub(super) fn grids_minded(grids: &[GridUsed]) -> Vec<Message> {
    let minded = |(number, GridUsed { grid, at, layer }): (usize, &GridUsed)| {
        let told = of_file(questions::grid_minded(grid, *at)?, "import-outside");
        if told.id == "import-outside" {
            return Some(vec![told.text("of", if layer.is_empty() { "file" } else { "layer" }).text("layer", layer.clone())]);
        }
        // How good its shift is is told once of a grid.
        let is_told = grids.iter().take(number).any(|other| other.grid.name() == grid.name());
        let accuracy_m = grid.datum_shift(*at).ok().and_then(DatumShift::accuracy_m);
        let shift = accuracy_m.map(|metres| Message::new("import-shift-in-spread").with("spread", Arg::Metres(metres)));
        (!is_told).then(|| std::iter::once(told).chain(shift).collect())
    };
    grids.iter().enumerate().filter_map(minded).flatten().collect()
}

/// A caution of a place as one of a file.
fn of_file(told: Message, outside: &'static str) -> Message {
    let is_outside = told.args.iter().any(|(name, _)| *name == "far");
    if is_outside { told.renamed(outside) } else { told }
}

/// In which coordinates heights lie and what they count in, as far as a text names it: degrees, a grid, a grid with its heights
/// ("EPSG:2227+6360"), heights alone, or the text of a `.prj` file.
fn named_system(name: &str) -> Result<Coordinates, Refusal> {
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
