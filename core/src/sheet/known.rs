//! Every place of a line that has a name: what the sheet names there, and where lines meet.

use super::junctions::reach_m;
use super::{Junction, JunctionKind, KnownPoint, Line, Sheet};

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
    /// The known places of all lines, in the order of the lines and the distance along them.
    ///
    /// A junction where one of its lines has a named point (within one spread of the line, 2 to 30 m) goes by that name on all of them.
    #[must_use]
    pub fn known_places(&self, junctions: &[Junction]) -> Vec<KnownPlace> {
        let mut found: Vec<Vec<KnownPlace>> = self.lines.iter().enumerate().map(|(number, line)| named(number, line)).collect();
        for junction in junctions {
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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

    use crate::sheet::{DraftKnownPoint, DraftLine, JunctionKind, SheetDraft};

    fn line(name: &str, points: &[(f64, f64)]) -> DraftLine {
        DraftLine { name: name.into(), kind: "road".into(), points: points.to_vec(), spread_m: 0.0 }
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
        let places = sheet.known_places(&sheet.junctions());
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
}
