//! Every place of a line that has a name: what the sheet names there, and where lines meet.

use std::collections::HashMap;

use super::junctions::reach_m;
use super::{JunctionKind, KnownPoint, Line, Sheet};

/// A place on a line by which a walker counts.
#[derive(Debug, Clone, PartialEq)]
pub struct KnownPlace {
    /// Its name: that of the sheet, else the names of the lines that meet there.
    pub name: String,
    /// How lines meet there; `None` where the sheet names a place of a line that meets no other.
    pub kind: Option<JunctionKind>,
    /// The line by its number on the sheet.
    pub line: usize,
    /// Metres along it from its first point.
    pub along_m: f64,
}

impl Sheet {
    /// The known places of all lines, in the order of the lines and the distance along them; found when it is first asked.
    ///
    /// A junction where one of its lines has a named point (within one spread of the line, 2 to 30 m) goes by that name on all of them.
    /// A line that comes by twice has two places there, told apart by the metres along it: "Loop x Loop (350 m)".
    #[must_use]
    pub fn known_places(&self) -> &[KnownPlace] {
        self.made_out.known_places.get_or_init(|| self.all_known_places())
    }

    fn all_known_places(&self) -> Vec<KnownPlace> {
        let mut found: Vec<Vec<KnownPlace>> = self.lines.iter().enumerate().map(|(number, line)| named(number, line)).collect();
        for junction in self.junctions() {
            let on = |(number, along_m): &(usize, f64)| self.lines.get(*number).and_then(|line| named_at(line, *along_m));
            let name = junction.lines.iter().find_map(on).map_or(&junction.name, |(_, known)| &known.name);
            for (number, along_m) in &junction.lines {
                if let (Some(line), Some(places)) = (self.lines.get(*number), found.get_mut(*number)) {
                    let name = if line.known(name).is_some() { &junction.name } else { name };
                    let here = KnownPlace { name: name.clone(), kind: Some(junction.kind), line: *number, along_m: *along_m };
                    meet(line, places, here);
                }
            }
        }
        for places in &mut found {
            places.sort_by(|a, b| a.along_m.total_cmp(&b.along_m));
            tell_apart(places);
        }
        found.into_iter().flatten().collect()
    }
}

fn named(number: usize, line: &Line) -> Vec<KnownPlace> {
    let place = |known: &KnownPoint| KnownPlace { name: known.name.clone(), kind: None, line: number, along_m: known.along_m };
    line.known_points.iter().map(place).collect()
}

/// The named point of a line so near to a place of it that both are one; its number among them.
fn named_at(line: &Line, along_m: f64) -> Option<(usize, &KnownPoint)> {
    let away_m = |known: &KnownPoint| (known.along_m - along_m).abs();
    let after = line.known_points.partition_point(|known| known.along_m < along_m);
    let beside = [after.saturating_sub(1), after].into_iter().filter_map(|index| Some((index, line.known_points.get(index)?)));
    let near = beside.filter(|(_, known)| away_m(known) <= reach_m(line.spread_m, line.spread_m));
    near.min_by(|(_, a), (_, b)| away_m(a).total_cmp(&away_m(b)))
}

/// Tells the kind of the named point where lines meet, or adds the junction; the named points stand first, in their order.
fn meet(line: &Line, places: &mut Vec<KnownPlace>, here: KnownPlace) {
    match named_at(line, here.along_m).and_then(|(index, _)| places.get_mut(index)) {
        Some(place) => place.kind = place.kind.or(here.kind),
        None => places.push(here),
    }
}

/// Gives each of several places of one name the metres along the line, so that a walker can choose between them.
fn tell_apart(places: &mut [KnownPlace]) {
    let mut count: HashMap<String, usize> = HashMap::new();
    for place in places.iter() {
        *count.entry(place.name.clone()).or_default() += 1;
    }
    for place in places.iter_mut().filter(|place| count.get(&place.name).is_some_and(|count| *count > 1)) {
        place.name = format!("{} ({:.0} m)", place.name, place.along_m);
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::indexing_slicing, clippy::unwrap_used, reason = "a test may stop where it fails")]

    use crate::sheet::{DraftKnownPoint, DraftLine, JunctionKind, SheetDraft};

    fn line(name: &str, points: &[(f64, f64)]) -> DraftLine {
        DraftLine { name: name.into(), kind: "road".into(), points: points.to_vec(), spread_m: 0.0, ..DraftLine::default() }
    }

    /// Constructed: a road along a parallel, a track across it, another that ends on it.
    #[test]
    fn named_points_and_junctions_are_known_once() {
        let known = |name: &str, on: &str, at| DraftKnownPoint { name: name.into(), on: on.into(), at };
        let draft = SheetDraft {
            name: "Net".into(),
            lines: vec![
                line("Long Road", &[(45.0, 7.0), (45.0, 7.02)]),
                line("Mill track", &[(44.995, 7.01), (45.005, 7.01)]),
                line("Kiln lane", &[(45.0, 7.015), (45.01, 7.015)]),
            ],
            known_points: vec![known("Mill cross", "Long Road", (45.0, 7.01)), known("Milestone", "Long Road", (45.0, 7.005))],
            ..SheetDraft::default()
        };
        let sheet = crate::sheet::Sheet::build(&draft).unwrap();
        let places = sheet.known_places();
        let told: Vec<_> = places.iter().map(|place| (place.name.as_str(), place.kind, place.line)).collect();
        let wanted = [
            ("Milestone", None, 0),
            ("Mill cross", Some(JunctionKind::X), 0),
            ("Long Road x Kiln lane", Some(JunctionKind::T), 0),
            ("Mill cross", Some(JunctionKind::X), 1),
            ("Long Road x Kiln lane", Some(JunctionKind::T), 2),
        ];
        assert_eq!(told, wanted);
    }

    /// Constructed: a road whose end runs back over its beginning, 500 m east and 300 m north at the most (by the degrees
    /// of a sphere, 1e-5 of latitude are 1.11 m).
    #[test]
    fn a_line_that_crosses_itself_has_two_places_told_apart() {
        let east = |metres: f64| 7.0 + metres / 78_847.0;
        let north = |metres: f64| 45.0 + metres / 111_132.0;
        let road = [(0.0, 0.0), (500.0, 0.0), (500.0, 300.0), (200.0, 300.0), (200.0, -200.0)];
        let points: Vec<(f64, f64)> = road.iter().map(|(x, y)| (north(*y), east(*x))).collect();
        let draft = SheetDraft { name: "Net".into(), lines: vec![line("Loop", &points)], ..SheetDraft::default() };
        let sheet = crate::sheet::Sheet::build(&draft).unwrap();
        let places = sheet.known_places();
        // 200 m, and 500 + 300 + 300 + 300 m.
        assert_eq!(places.iter().map(|place| place.name.as_str()).collect::<Vec<_>>(), ["Loop x Loop (200 m)", "Loop x Loop (1400 m)"]);
        assert!((places[0].along_m - 200.0).abs() < 1.0 && (places[1].along_m - 1400.0).abs() < 1.0, "{places:?}");
    }
}
