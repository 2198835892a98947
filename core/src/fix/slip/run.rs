//! What a running fix would have been without a slip.

use super::SlipKind;
use super::meant::{Meant, other_figures};
use crate::fix::{Facing, Run, RunningSighting, Sighting, Way};
use crate::measure::{NamedBearing, signed_difference_deg};

/// Every way in which a running fix may have gone wrong: the figures of its readings, their order, and the way that was run.
pub(in crate::fix) fn of_run(running: &RunningSighting) -> Vec<Meant> {
    let with = |change: &dyn Fn(&mut RunningSighting)| {
        let mut meant = running.clone();
        change(&mut meant);
        Sighting::Running(meant)
    };
    let figures = |told: NamedBearing, put: &dyn Fn(&mut RunningSighting, NamedBearing)| {
        let meant = |(kind, reading, among): (SlipKind, NamedBearing, f64)| Meant {
            kind,
            sighting: with(&|meant| put(meant, reading)),
            shift: signed_difference_deg(reading.degrees(), told.degrees()).abs(),
            among,
            read: Some((told, reading)),
        };
        other_figures(told).into_iter().map(meant).collect::<Vec<_>>()
    };
    let mut all = figures(running.first, &|meant, reading| meant.first = reading);
    all.extend(figures(running.second, &|meant, reading| meant.second = reading));
    // Both readings are off by how far the landmark turned on the run.
    let turned_deg = signed_difference_deg(running.second.degrees(), running.first.degrees()).abs();
    let order = |kind: SlipKind, sighting: Sighting| Meant { kind, sighting, shift: turned_deg, among: 1.0, read: None };
    let exchanged = with(&|meant| (meant.first, meant.second) = (running.second, running.first));
    all.push(order(SlipKind::BearingsExchanged, exchanged));
    match &running.run {
        Run::Along(facing) if *facing != Facing::Way(Way::Either) => {
            all.push(order(SlipKind::OtherWay, with(&|meant| meant.run = Run::Along(facing.turned()))));
        }
        Run::Along(_) => {}
        Run::Straight(course) => all.extend(figures(*course, &|meant, reading| meant.run = Run::Straight(reading))),
    }
    all
}
