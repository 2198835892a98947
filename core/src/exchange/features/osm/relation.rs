//! Landmarks whose outline is made of several ways: multipolygons that wait for their ways.
//!
//! # References
//! OpenStreetMap wiki, "Relation:multipolygon": ways of the role `outer` end to end make closed rings (from memory).

use std::collections::{HashMap, HashSet};

use super::super::closed::middle;
use super::super::error::{ImportError, Part, Record};
use super::super::gather::{Found, Gather, MOST_POINTS};
use super::super::shape::{Pos, Shape, checked};
use super::super::tags::Tags;
use super::SPREAD_M;
use super::block::Way;
use super::way::{Ways, copied};

/// Most relations that wait, most outer ways of one, and of all, a way counted for each that names it.
const MOST_RELATIONS: usize = 50_000;
const MOST_OF_ONE: usize = 500;
const MOST_MEMBERS: usize = 500_000;

/// A relation with a copy of the tags that count.
struct Waiting {
    id: i64,
    tags: Vec<(String, String)>,
    outer: Vec<i64>,
}

/// The relations that are wanted, and the ways they name.
#[derive(Default)]
pub(super) struct Relations {
    waiting: Vec<Waiting>,
    /// Outer ways of all.
    named: usize,
    /// Where the nodes of each way lie among those of all, once it was met.
    members: HashMap<i64, Option<(usize, usize)>>,
}

impl Relations {
    pub(super) fn is_empty(&self) -> bool {
        self.waiting.is_empty()
    }

    pub(super) fn add(&mut self, id: i64, tags: &Tags<'_>, outer: Vec<i64>) -> Result<(), ImportError> {
        self.members.extend(outer.iter().map(|way| (*way, None)));
        self.named += outer.len();
        if self.waiting.len() >= MOST_RELATIONS || self.named > MOST_MEMBERS {
            return Err(ImportError::TooMany { most: MOST_RELATIONS });
        }
        self.waiting.push(Waiting { id, tags: copied(tags), outer });
        Ok(())
    }

    /// Keeps the nodes of a way that one of them names.
    pub(super) fn meet(&mut self, way: &Way<'_>, ways: &mut Ways) -> Result<(), ImportError> {
        if let Some(member) = self.members.get_mut(&way.id) {
            *member = Some(ways.hold(way, None)?);
        }
        Ok(())
    }

    /// Hands all over as shapes. One whose outline is a landmark by itself is that one; one whose rings do not close, or lack ways or
    /// nodes in a cut-out of the map, is left out.
    pub(super) fn take_all(&self, ways: &Ways, gather: &mut Gather<'_>) -> Result<(), ImportError> {
        let outlines: HashSet<i64> = ways.outlines().collect();
        // One way may be named over and over.
        let mut drawn = 0;
        for relation in &self.waiting {
            if relation.outer.iter().any(|way| outlines.contains(way)) {
                gather.records += 1;
                continue;
            }
            let tags = Tags::new(relation.tags.iter().map(|(key, value)| (key.as_str(), value.as_str())));
            let record = Record::new(Part::Relation, relation.id).named(tags.name());
            let of_way = |way: &i64| ways.nodes_of(self.members.get(way).copied().flatten()?);
            gather.tick(1, 1)?;
            let parts: Option<Vec<&[i64]>> = relation.outer.iter().take(MOST_OF_ONE + 1).map(of_way).collect();
            drawn += parts.iter().flatten().map(|part| part.len()).sum::<usize>();
            if drawn > MOST_POINTS {
                return Err(ImportError::TooMany { most: MOST_POINTS });
            }
            let rings = parts.filter(|parts| parts.len() <= MOST_OF_ONE).and_then(rings).unwrap_or_default();
            let places = rings.iter().filter_map(|ring| ring.iter().map(|node| ways.found(*node)).collect::<Option<Vec<Pos>>>());
            let places: Vec<Vec<Pos>> = places.collect();
            for (lat, lon) in places.iter().flatten() {
                checked(*lat, *lon).map_err(|fault| record.clone().fault(fault))?;
            }
            let wide_m = |ring: &Vec<Pos>| middle(std::slice::from_ref(ring)).map_or(0.0, |middle| middle.spread_m);
            let widest = places.into_iter().max_by(|a, b| wide_m(a).total_cmp(&wide_m(b)));
            let shape = Shape { areas: widest.into_iter().map(|ring| vec![ring]).collect(), ..Shape::default() };
            if shape.is_nothing() {
                gather.leave_out_cut(&record);
                continue;
            }
            let found =
                Found { record, tags: &tags, layer: None, spread_m: SPREAD_M, is_recorded: false, is_noded: true, may_be_on_line: false };
            gather.take(shape, &found)?;
        }
        Ok(())
    }
}

/// Closed rings of ways laid end to end; nothing when one stays open.
fn rings(mut parts: Vec<&[i64]>) -> Option<Vec<Vec<i64>>> {
    let mut rings = Vec::new();
    while let Some(first) = parts.pop() {
        let mut ring = first.to_vec();
        while ring.first() != ring.last() {
            let end = ring.last().copied();
            let next = parts.iter().position(|part| part.first().copied() == end || part.last().copied() == end)?;
            let part = parts.swap_remove(next);
            if part.first().copied() == end {
                ring.extend(part.iter().skip(1));
            } else {
                ring.extend(part.iter().rev().skip(1));
            }
        }
        rings.push(ring);
    }
    Some(rings)
}

#[cfg(test)]
mod tests {
    use super::rings;

    #[test]
    fn ways_end_to_end_make_rings_and_an_open_one_makes_none() {
        let two = rings(vec![&[1, 2, 3], &[5, 4, 3], &[5, 6, 1], &[7, 8, 9, 7]]);
        assert_eq!(two, Some(vec![vec![7, 8, 9, 7], vec![5, 6, 1, 2, 3, 4, 5]]));
        assert_eq!(rings(vec![&[1, 2, 3], &[3, 4]]), None);
        assert_eq!(rings(Vec::new()), Some(Vec::new()));
    }
}
