//! All readings of one north turned alike: another north was meant, or the angle between the norths was applied the wrong way, or twice.

use super::SlipKind;
use crate::earth::Norths;
use crate::fix::{BearingSighting, Run, RunningSighting, Sighting};
use crate::measure::{NamedBearing, North, Point, signed_difference_deg};

/// Two norths that are no farther apart are one, degrees.
const LEAST_TURN_DEG: f64 = 0.05;
const NORTHS: [North; 3] = [North::Magnetic, North::Grid, North::True];

/// One way in which all readings of one north may have been turned.
pub(in crate::fix) struct Turned {
    pub(in crate::fix) kind: SlipKind,
    /// The north that they were told from.
    pub(in crate::fix) told: North,
    /// What must be added to them, degrees.
    pub(in crate::fix) by_deg: f64,
    /// All sightings as they would have been.
    pub(in crate::fix) sightings: Vec<Sighting>,
}

/// Every way in which the norths of all readings may have been mixed up at a place; none for a north that no reading is told from.
pub(in crate::fix) fn turned(sightings: &[Sighting], norths: &Norths, at: Point) -> Vec<Turned> {
    let diagram = norths.diagram(at);
    let true_deg = |north: North| diagram.to_true(NamedBearing::new(0.0, north)).degrees();
    let from_to_deg = |from: North, to: North| signed_difference_deg(true_deg(to), true_deg(from));
    let of_north = |told: North| {
        let mut all: Vec<Turned> = Vec::new();
        let mut add = |kind: SlipKind, by_deg: f64, turn: &dyn Fn(NamedBearing) -> NamedBearing| {
            let sightings = with_readings(sightings, &|reading| if reading.north() == told { turn(reading) } else { reading });
            all.push(Turned { kind, told, by_deg, sightings });
        };
        for meant in NORTHS.into_iter().filter(|meant| *meant != told) {
            let other = |reading: NamedBearing| NamedBearing::new(reading.degrees(), meant);
            add(SlipKind::OtherNorth { told, meant }, from_to_deg(told, meant), &other);
        }
        let by = |by_deg: f64| move |reading: NamedBearing| NamedBearing::new(reading.degrees() + by_deg, told);
        // What turns a reading of the needle into one of the north that was told; of a dial that is set off for the sheet's, the other way.
        let applied_deg = from_to_deg(told, North::Magnetic);
        if told == North::Magnetic {
            let wrong_deg = from_to_deg(North::Grid, North::Magnetic);
            add(SlipKind::WrongWay { told }, wrong_deg, &by(wrong_deg));
        } else {
            add(SlipKind::WrongWay { told }, 2.0 * applied_deg, &by(2.0 * applied_deg));
            add(SlipKind::Twice { told }, -applied_deg, &by(-applied_deg));
        }
        all
    };
    let told_so = NORTHS.into_iter().filter(|north| sightings.iter().any(|one| readings(one).contains(north)));
    told_so.flat_map(of_north).filter(|one| one.by_deg.abs() > LEAST_TURN_DEG).collect()
}

/// The norths of what a compass read.
fn readings(sighting: &Sighting) -> Vec<North> {
    match sighting {
        Sighting::Bearing(bearing) => vec![bearing.reading.north()],
        Sighting::Running(running) => vec![running.first.north(), running.second.north()],
        Sighting::LineRun { reading, .. } => vec![reading.north()],
        Sighting::Angle { .. }
        | Sighting::Side { .. }
        | Sighting::Seen { .. }
        | Sighting::Here { .. }
        | Sighting::Measured(_)
        | Sighting::Ground(_) => Vec::new(),
    }
}

/// All sightings with other readings of the compass.
fn with_readings(sightings: &[Sighting], turn: &dyn Fn(NamedBearing) -> NamedBearing) -> Vec<Sighting> {
    let turned = |sighting: &Sighting| match sighting {
        Sighting::Bearing(bearing) => Sighting::Bearing(BearingSighting { reading: turn(bearing.reading), ..bearing.clone() }),
        Sighting::Running(running) => {
            let run = match &running.run {
                Run::Straight(course) => Run::Straight(turn(*course)),
                Run::Along(facing) => Run::Along(facing.clone()),
            };
            Sighting::Running(RunningSighting { first: turn(running.first), second: turn(running.second), run, ..running.clone() })
        }
        Sighting::LineRun { reading, spread_deg } => Sighting::LineRun { reading: turn(*reading), spread_deg: *spread_deg },
        Sighting::Angle { .. }
        | Sighting::Side { .. }
        | Sighting::Seen { .. }
        | Sighting::Here { .. }
        | Sighting::Measured(_)
        | Sighting::Ground(_) => sighting.clone(),
    };
    sightings.iter().map(turned).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, reason = "a test fails by it")]

    use super::turned;
    use crate::earth::{Compass, Grid, LatLon, LocalFrame, Norths, date_of};
    use crate::fix::{BearingSighting, Sighting, SlipKind};
    use crate::measure::{NamedBearing, North, Point, signed_difference_deg};
    use crate::sheet::Landmark;

    /// What the needle shows when it is turned by declination or the grid-magnetic angle as it should not be; the definition of each slip.
    #[test]
    fn each_way_of_mixing_the_norths_is_undone() {
        let frame = LocalFrame::around(LatLon::new(61.2, -149.3).unwrap());
        let norths = Norths::over(frame, Grid::of_place(frame.origin()), date_of("2026-07-01").unwrap()).unwrap();
        let at = Point::default();
        let diagram = norths.diagram(at);
        let (needle_deg, to_grid_deg) = (77.0, diagram.grid_magnetic_deg());
        let to_true_deg = signed_difference_deg(diagram.to_true(NamedBearing::new(0.0, North::Magnetic)).degrees(), 0.0);
        assert!(to_true_deg > 10.0 && (to_true_deg - to_grid_deg).abs() > 0.05);
        let plane_deg = norths.to_plane_deg(NamedBearing::new(needle_deg, North::Magnetic), at);
        let (mag, grid, true_north) = (North::Magnetic, North::Grid, North::True);
        let cases = [
            (mag, SlipKind::OtherNorth { told: mag, meant: grid }, needle_deg + to_grid_deg),
            (mag, SlipKind::OtherNorth { told: mag, meant: true_north }, needle_deg + to_true_deg),
            (grid, SlipKind::OtherNorth { told: grid, meant: mag }, needle_deg),
            (true_north, SlipKind::OtherNorth { told: true_north, meant: mag }, needle_deg),
            (mag, SlipKind::WrongWay { told: mag }, needle_deg - to_grid_deg),
            (grid, SlipKind::WrongWay { told: grid }, needle_deg - to_grid_deg),
            (true_north, SlipKind::WrongWay { told: true_north }, needle_deg - to_true_deg),
            (grid, SlipKind::Twice { told: grid }, needle_deg + 2.0 * to_grid_deg),
            (true_north, SlipKind::Twice { told: true_north }, needle_deg + 2.0 * to_true_deg),
        ];
        let mark = Landmark { name: "Mast".into(), kind: "mast".into(), at: Point::new(900.0, 0.0), spread_m: 5.0, height_m: None };
        for (told, kind, told_deg) in cases {
            let sighting = Sighting::Bearing(BearingSighting::to(mark.clone(), NamedBearing::new(told_deg, told), None));
            let all = turned(&[sighting], &norths, at);
            let undone = all.iter().find(|one| one.kind == kind).unwrap_or_else(|| panic!("{kind:?} is not asked"));
            let [Sighting::Bearing(bearing)] = undone.sightings.as_slice() else { panic!("{kind:?} changed the sightings") };
            let off_deg = signed_difference_deg(norths.to_plane_deg(bearing.reading, at), plane_deg);
            assert!(off_deg.abs() < 1e-6, "{kind:?}: {off_deg}");
        }
    }
}
