//! The area for which a datum shift was made.

use std::cell::RefCell;
use std::rc::Rc;

use proj::{Area, Proj};

use super::area::lies_in;
use super::known::known;
use super::shelf::Shelf;
use super::{Grid, GridError};
use crate::earth::LatLon;

thread_local! {
    static STEPS: RefCell<Shelf<Step>> = RefCell::new(Shelf::new());
}

/// A registered step from one datum to another.
struct Step {
    area: Area,
    /// That area in the words of the register.
    told: String,
    /// Held because what is dropped closes the database for all that is made after it (see [`Shelf`]).
    _held: Proj,
}

/// For which area a datum shift was made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShiftArea {
    /// In the words of the register: "Liechtenstein; Switzerland". What it does not name is often sea or another country in its box.
    pub told: String,
    /// Whether the place lies within the box about it. Where not, PROJ took the shift for want of another.
    pub is_within: bool,
    /// The area of the shift that leads farthest apart from it, of those that may hold at the place as well.
    pub rival: Option<String>,
}

fn step(name: &str) -> Option<Rc<Step>> {
    STEPS.with_borrow_mut(|shelf| shelf.take(name, make)).ok()
}

fn make(name: &str) -> Result<Step, GridError> {
    let unknown = || GridError::Unknown(name.into());
    let held = Proj::new(name).map_err(|_| unknown())?;
    match held.area_of_use() {
        Ok((Some(area), Some(told))) => Ok(Step { area, told: told.trim_end_matches('.').into(), _held: held }),
        _ => Err(unknown()),
    }
}

/// The names of the registered shifts in what PROJ says of an operation: "Inverse of OSGB36 to WGS 84 (6) + British National Grid".
pub(super) fn shifts_in(described: &str) -> impl Iterator<Item = &str> {
    let is_shift = |name: &&str| name.contains(" to ") && !name.starts_with("Ballpark") && !name.starts_with("Null");
    described.split(" + ").map(|part| part.strip_prefix("Inverse of ").unwrap_or(part)).filter(is_shift)
}

impl Grid {
    /// For which area the datum shift was made that PROJ uses at a place; nothing where it makes none, or none of the register.
    #[must_use]
    pub fn shift_area(&self, at: LatLon) -> Option<ShiftArea> {
        let known = known(self.definition()).ok().filter(|_| !self.is_utm_ups())?;
        known.point_of(at)?;
        let described = known.last_steps()?;
        let steps: Vec<Rc<Step>> = shifts_in(&described).filter_map(step).collect();
        // Of several the one that does not reach the place speaks.
        let told = steps.iter().find(|step| !lies_in(&step.area, at, 0.0)).or_else(|| steps.first())?;
        let rival = known.last_rival(at).and_then(|rival| step(rival.way.name)).map(|step| step.told.clone());
        Some(ShiftArea { told: told.told.clone(), is_within: lies_in(&told.area, at, 0.0), rival })
    }
}

#[cfg(test)]
mod tests {
    use super::shifts_in;

    /// Descriptions by PROJ 9.5.1 through pyproj 3.7.2.
    #[test]
    fn the_shifts_of_an_operation_are_its_registered_steps() {
        let shifts = |described| shifts_in(described).collect::<Vec<_>>();
        assert_eq!(shifts("Inverse of OSGB36 to WGS 84 (6) + British National Grid"), ["OSGB36 to WGS 84 (6)"]);
        assert!(shifts("Ballpark geographic offset from WGS 84 to ETRS89 + Europe Equal Area 2001").is_empty());
        assert!(shifts("UTM zone 33N").is_empty());
    }
}
