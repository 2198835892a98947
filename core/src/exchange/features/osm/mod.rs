//! OpenStreetMap PBF: ways as lines and landmarks, nodes as landmarks. Relations are left out. Who mapped what is
//! never looked at.
//!
//! The file is gone through twice: once for the ways and the landmarks among the nodes, once for the places of the
//! nodes that those ways name. Only these are held.
//!
//! # References
//! OpenStreetMap wiki, "PBF Format": the layout of blobs and blocks.

mod blob;
mod block;
mod way;
mod wire;

use super::error::{Fault, ImportError, Part, Record};
use super::gather::{Found, Gather};
use super::shape::{Shape, checked};
use super::tags::Tags;
use block::{Block, Node, Way};
use way::{Ways, wanted};

/// One sigma per axis of a place in OpenStreetMap, metres (common practice, no source).
const SPREAD_M: f64 = 5.0;

/// Most bytes that a file may grow to when it is unpacked; an honest one of the largest size grows to a third of it.
const MOST_UNPACKED: usize = 2_000_000_000;

/// What a file must be able to do to be read; others are told as packed in a way that is not read.
const KNOWN: [&str; 2] = ["OsmSchema-V0.6", "DenseNodes"];

pub(super) fn read(bytes: &[u8], gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let mut ways = Ways::default();
    each_block(bytes, false, gather, &mut |block, gather| block.each(&mut Take { ways: &mut ways, gather }))?;
    ways.sort();
    if !ways.is_empty() {
        each_block(bytes, true, gather, &mut |block, _| block.each(&mut Place { ways: &mut ways }))?;
    }
    ways.take_all(gather)
}

/// What is to be done with a block.
type OfBlock<'a> = &'a mut dyn FnMut(&Block<'_>, &mut Gather<'_>) -> Result<(), ImportError>;

fn each_block(bytes: &[u8], again: bool, gather: &mut Gather<'_>, of_block: OfBlock<'_>) -> Result<(), ImportError> {
    let whole = bytes.len() as u64;
    let before = if again { whole } else { 0 };
    let mut unpacked_bytes = 0_usize;
    for (index, blob) in blob::Blobs::new(bytes).enumerate() {
        let fault = |fault: Fault| Record::new(Part::Block, index as i64 + 1).fault(fault);
        let blob = blob.map_err(fault)?;
        gather.tick(before + blob.from as u64, 2 * whole)?;
        match blob.kind {
            "OSMHeader" => check_header(&blob.unpacked().map_err(fault)?).map_err(fault)?,
            "OSMData" => {
                let unpacked = blob.unpacked().map_err(fault)?;
                unpacked_bytes += unpacked.len();
                if unpacked_bytes > MOST_UNPACKED {
                    return Err(fault(Fault::Swollen));
                }
                of_block(&Block::new(&unpacked, index as i64 + 1).map_err(fault)?, gather)?;
            }
            // Blobs of other kinds are to be passed over.
            _ => {}
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

/// The first way through: landmarks among the nodes, and the ways that are wanted.
struct Take<'w, 'g, 'a> {
    ways: &'w mut Ways,
    gather: &'g mut Gather<'a>,
}

impl block::Visit for Take<'_, '_, '_> {
    fn node(&mut self, node: &Node, tags: &Tags<'_>) -> Result<(), ImportError> {
        if tags.landmark(None).is_none() {
            return Ok(());
        }
        let record = Record::new(Part::Node, node.id).named(tags.name());
        let at = checked(node.lat, node.lon).map_err(|fault| record.clone().fault(fault))?;
        let shape = Shape { points: vec![at], ..Shape::default() };
        self.gather.take(shape, &Found { record, tags, layer: None, spread_m: SPREAD_M, is_recorded: false, may_be_on_line: false })
    }

    fn way(&mut self, way: &Way<'_>, tags: &Tags<'_>) -> Result<(), ImportError> {
        match wanted(tags, self.gather.wanted) {
            Some(as_area) => self.ways.add(way, tags, as_area),
            None => {
                if tags.is_planned() {
                    self.gather.minded.planned();
                }
                self.gather.left_out += 1;
                Ok(())
            }
        }
    }

    fn wants_ways(&self) -> bool {
        true
    }
}

/// The second way through: places of the nodes that ways name.
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

    fn wants_ways(&self) -> bool {
        false
    }
}
