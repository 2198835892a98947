//! OpenStreetMap PBF: ways as lines and landmarks, nodes as landmarks, multipolygons as landmarks. Who mapped what is never looked at.
//!
//! The file is gone through once for the ways, the landmarks among the nodes and the multipolygons, where there are any once for the ways
//! that those name, and once for the places of the nodes that all these ways name. Only these are held.
//!
//! # References
//! OpenStreetMap wiki, "PBF Format": the layout of blobs and blocks.

mod blob;
mod block;
mod relation;
mod way;
mod wire;

use super::error::{Fault, ImportError, Part, Record};
use super::gather::{Found, Gather};
use super::shape::{Shape, checked};
use super::tags::Tags;
use block::{Block, Node, Relation, Wants, Way};
use relation::Relations;
use way::{Ways, wanted};

/// One sigma per axis of a place in OpenStreetMap, metres (common practice, no source).
const SPREAD_M: f64 = 5.0;

/// Most bytes that a file may grow to when it is unpacked; an honest one of the largest size grows to a third of it.
const MOST_UNPACKED: usize = 2_000_000_000;

/// What a file must be able to do to be read; others are told as packed in a way that is not read.
const KNOWN: [&str; 2] = ["OsmSchema-V0.6", "DenseNodes"];

pub(super) fn read(bytes: &[u8], gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let mut ways = Ways::default();
    let mut relations = Relations::default();
    each_block(bytes, 0, gather, &mut |block, gather| block.each(&mut Take { ways: &mut ways, relations: &mut relations, gather }))?;
    if !relations.is_empty() {
        each_block(bytes, 1, gather, &mut |block, _| block.each(&mut Members { ways: &mut ways, relations: &mut relations }))?;
    }
    ways.sort();
    if !ways.is_empty() {
        each_block(bytes, 2, gather, &mut |block, _| block.each(&mut Place { ways: &mut ways }))?;
    }
    ways.take_all(gather)?;
    relations.take_all(&ways, gather)
}

/// What is to be done with a block.
type OfBlock<'a> = &'a mut dyn FnMut(&Block<'_>, &mut Gather<'_>) -> Result<(), ImportError>;

/// So often a file is gone through at most.
const MOST_TIMES: u64 = 3;

fn each_block(bytes: &[u8], time: u64, gather: &mut Gather<'_>, of_block: OfBlock<'_>) -> Result<(), ImportError> {
    let whole = bytes.len() as u64;
    let mut unpacked_bytes = 0_usize;
    for (index, blob) in blob::Blobs::new(bytes).enumerate() {
        let fault = |fault: Fault| Record::new(Part::Block, index as i64 + 1).fault(fault);
        let blob = blob.map_err(fault)?;
        gather.tick(time * whole + blob.from as u64, MOST_TIMES * whole)?;
        // Blobs of other kinds are to be passed over.
        if !matches!(blob.kind, "OSMHeader" | "OSMData") {
            continue;
        }
        let unpacked = blob.unpacked().map_err(fault)?;
        unpacked_bytes += unpacked.len();
        if unpacked_bytes > MOST_UNPACKED {
            return Err(fault(Fault::Swollen));
        }
        if blob.kind == "OSMHeader" {
            check_header(&unpacked).map_err(fault)?;
        } else {
            of_block(&Block::new(&unpacked, index as i64 + 1).map_err(fault)?, gather)?;
        }
    }
    Ok(())
}

/// Field 4 of the header names what a reader must know.
fn check_header(header: &[u8]) -> Result<(), Fault> {
    for field in wire::Fields::new(header) {
        if let (4, wire::Value::Bytes(feature)) = field?
            && !KNOWN.iter().any(|known| known.as_bytes() == feature)
        {
            return Err(Fault::Packed);
        }
    }
    Ok(())
}

/// The first way through: landmarks among the nodes, and the ways and multipolygons that are wanted.
struct Take<'w, 'g, 'a> {
    ways: &'w mut Ways,
    relations: &'w mut Relations,
    gather: &'g mut Gather<'a>,
}

impl block::Visit for Take<'_, '_, '_> {
    fn node(&mut self, node: &Node, tags: &Tags<'_>) -> Result<(), ImportError> {
        let record = Record::new(Part::Node, node.id).named(tags.name());
        if tags.landmark(None).is_none() && !tags.is_gone() {
            if tags.is_said {
                leave_out(self.gather, &record, tags);
            }
            return Ok(());
        }
        let at = checked(node.lat, node.lon).map_err(|fault| record.clone().fault(fault))?;
        let shape = Shape { points: vec![at], ..Shape::default() };
        self.gather.take(
            shape,
            &Found { record, tags, layer: None, spread_m: SPREAD_M, is_recorded: false, is_noded: true, may_be_on_line: false },
        )
    }

    fn way(&mut self, way: &Way<'_>, tags: &Tags<'_>) -> Result<(), ImportError> {
        match wanted(tags, self.gather.wanted) {
            Some(as_area) => self.ways.add(way, tags, as_area),
            None => {
                if tags.is_said {
                    leave_out(self.gather, &Record::new(Part::Way, way.id).named(tags.name()), tags);
                }
                Ok(())
            }
        }
    }

    fn relation(&mut self, relation: &Relation<'_>, tags: &Tags<'_>) -> Result<(), ImportError> {
        const MOST_MEMBERS: usize = 10_000;
        if tags.get("type") != Some("multipolygon") || wanted(tags, self.gather.wanted) != Some(true) {
            if tags.is_said {
                leave_out(self.gather, &Record::new(Part::Relation, relation.id).named(tags.name()), tags);
            }
            return Ok(());
        }
        let fault = |fault: Fault| Record::new(Part::Relation, relation.id).named(tags.name()).fault(fault);
        self.relations.add(relation.id, tags, relation.outer(MOST_MEMBERS).map_err(fault)?)
    }

    fn wants(&self) -> Wants {
        Wants::All
    }
}

/// Counts what is not taken: as gone, as not wanted, or by a kind that no sheet takes. What has no tags only lends its places to others.
fn leave_out(gather: &mut Gather<'_>, record: &Record, tags: &Tags<'_>) {
    if tags.is_gone() {
        gather.minded.gone();
    }
    let is_known = tags.is_gone() || tags.line(None).is_some() || tags.landmark(None).is_some();
    match tags.said_kind().filter(|_| !is_known) {
        Some(kind) => gather.leave_out_kind(kind),
        None => gather.leave_out(record),
    }
}

/// The second way through: ways that multipolygons name.
struct Members<'w> {
    ways: &'w mut Ways,
    relations: &'w mut Relations,
}

impl block::Visit for Members<'_> {
    fn node(&mut self, _: &Node, _: &Tags<'_>) -> Result<(), ImportError> {
        Ok(())
    }

    fn way(&mut self, way: &Way<'_>, _: &Tags<'_>) -> Result<(), ImportError> {
        self.relations.meet(way, self.ways)
    }

    fn relation(&mut self, _: &Relation<'_>, _: &Tags<'_>) -> Result<(), ImportError> {
        Ok(())
    }

    fn wants(&self) -> Wants {
        Wants::Ways
    }
}

/// The last way through: places of the nodes that ways name.
struct Place<'w> {
    ways: &'w mut Ways,
}

impl block::Visit for Place<'_> {
    fn node(&mut self, node: &Node, _: &Tags<'_>) -> Result<(), ImportError> {
        self.ways.place(node.id, node.lat, node.lon);
        Ok(())
    }

    fn way(&mut self, _: &Way<'_>, _: &Tags<'_>) -> Result<(), ImportError> {
        Ok(())
    }

    fn relation(&mut self, _: &Relation<'_>, _: &Tags<'_>) -> Result<(), ImportError> {
        Ok(())
    }

    fn wants(&self) -> Wants {
        Wants::Places
    }
}
