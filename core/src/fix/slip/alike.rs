//! Slips that no other sighting tells apart: with either of them the sighting would say the same.

use crate::fix::{MeasuredSighting, Run, Sighting, Spot, Trust, Way};
use crate::measure::{NamedBearing, signed_difference_deg};

/// Whether two sightings say the same of where one stands, to within one sigma of what such a sighting is worth by itself: a place known
/// without error then gives odds of five to three between them on the geometric mean, `exp(1/2)`, and any other less.
pub(super) fn says_the_same(one: &Sighting, other: &Sighting, trust: &Trust) -> bool {
    match (one, other) {
        (Sighting::Bearing(one), Sighting::Bearing(other)) => {
            one.candidates == other.candidates && is_near(one.reading, other.reading, trust.own_deg(one.spread_deg))
        }
        (Sighting::Running(one), Sighting::Running(other)) => {
            let own_deg = trust.own_deg(one.spread_deg);
            let run = match (&one.run, &other.run) {
                (Run::Straight(course), Run::Straight(again)) => is_near(*course, *again, own_deg),
                (run, again) => run == again,
            };
            run && is_near(one.first, other.first, own_deg) && is_near(one.second, other.second, own_deg)
        }
        (Sighting::Measured(one), Sighting::Measured(other)) => are_near(&ends(one), &ends(other), one.own_m()),
        (Sighting::Here { places, spread_m, .. }, Sighting::Here { places: others, .. }) => are_near(places, others, *spread_m),
        _ => one == other,
    }
}

fn is_near(one: NamedBearing, other: NamedBearing, own_deg: f64) -> bool {
    one.north() == other.north() && signed_difference_deg(one.degrees(), other.degrees()).abs() <= own_deg
}

/// Where a distance ends, counted from each of its points.
fn ends(measured: &MeasuredSighting) -> Vec<Spot> {
    let distance_m = measured.middle_m();
    let end = |(spot, way): &(Spot, Way)| {
        let steps_m = match way {
            Way::Onward => vec![distance_m],
            Way::Backward => vec![-distance_m],
            Way::Either => vec![distance_m, -distance_m],
        };
        let (line, from_m) = (spot.line, spot.along_m);
        steps_m.into_iter().map(move |step_m| Spot { line, along_m: from_m + step_m })
    };
    measured.from.iter().flat_map(end).collect()
}

/// Whether each place of either has one of the other near.
fn are_near(some: &[Spot], others: &[Spot], own_m: f64) -> bool {
    let near = |one: &Spot, all: &[Spot]| all.iter().any(|other| one.line == other.line && (one.along_m - other.along_m).abs() <= own_m);
    some.iter().all(|one| near(one, others)) && others.iter().all(|one| near(one, some))
}

#[cfg(test)]
mod tests {
    use super::says_the_same;
    use crate::fix::{BearingSighting, Counter, Instrument, MeasuredSighting, Sighting, Spot, Way};
    use crate::measure::{NamedBearing, North, Point};
    use crate::sheet::Landmark;

    fn read(degrees: f64) -> Sighting {
        let mark = Landmark { name: "Mast".into(), kind: "mast".into(), at: Point::new(0.0, 900.0), spread_m: 5.0, height_m: None };
        Sighting::Bearing(BearingSighting::to(mark, NamedBearing::new(degrees, North::Magnetic), None))
    }

    fn counted(from_m: f64, way: Way, distance_m: f64) -> Sighting {
        let from = vec![(Spot { line: 0, along_m: from_m }, way)];
        Sighting::Measured(MeasuredSighting {
            known: String::new(),
            from,
            distance_m,
            counter: Counter::Paces { each_m: 1.6 },
            scale_share: 0.03,
            others: Vec::new(),
        })
    }

    /// One sigma of a sighting compass is 1.5° and of its rounding 0.3° (`Instrument`).
    #[test]
    fn readings_within_what_one_is_worth_say_the_same() {
        let trust = Instrument::Sighting.trust();
        assert!(says_the_same(&read(359.5), &read(0.9), &trust));
        assert!(!says_the_same(&read(10.0), &read(12.0), &trust));
    }

    /// 3 % of 500 m are 15 m.
    #[test]
    fn distances_that_end_at_one_place_say_the_same() {
        let trust = Instrument::Sighting.trust();
        let one = counted(300.0, Way::Onward, 500.0);
        assert!(says_the_same(&one, &counted(1_100.0, Way::Backward, 310.0), &trust));
        assert!(!says_the_same(&one, &counted(1_100.0, Way::Backward, 330.0), &trust));
        assert!(!says_the_same(&one, &counted(300.0, Way::Either, 500.0), &trust));
    }
}
