//! GPX: tracks and routes are lines, waypoints are landmarks or known points of a line that passes close by.
//!
//! # References
//! GPX 1.1 schema (2004); the elements that are read are those of GPX 1.0 too.

use roxmltree::Node;

use super::error::{Fault, ImportError, Part, Record, Unread};
use super::gather::{Found, Gather};
use super::shape::{Pos, Shape, checked};
use super::tags::Tags;
use super::xml::{below, children, is, parse, text_of, tick};

/// One sigma per axis of a place that a receiver has written down, metres (common practice, no source).
const SPREAD_M: f64 = 5.0;

pub(super) fn read(bytes: &[u8], gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let text = super::encoding::text(bytes)?;
    let document = parse(&text)?;
    let root = document.root_element();
    if !is(root, "gpx") {
        return Err(ImportError::Unreadable { line: 1, why: Unread::Without("<gpx>") });
    }
    for (index, track) in children(root, "trk").enumerate() {
        let record = record(Part::Track, index, track);
        let pieces: Result<Vec<_>, _> = below(track, "trkseg").map(|piece| points(piece, "trkpt", &record)).collect();
        take(track, Shape { lines: pieces?, ..Shape::default() }, record, gather)?;
        tick(gather, index, track)?;
    }
    for (index, route) in children(root, "rte").enumerate() {
        let record = record(Part::Route, index, route);
        let lines = vec![points(route, "rtept", &record)?];
        take(route, Shape { lines, ..Shape::default() }, record, gather)?;
        tick(gather, index, route)?;
    }
    for (index, waypoint) in children(root, "wpt").enumerate() {
        let record = record(Part::Waypoint, index, waypoint);
        let points = vec![place(waypoint).map_err(|fault| record.clone().fault(fault))?];
        take(waypoint, Shape { points, ..Shape::default() }, record, gather)?;
        tick(gather, index, waypoint)?;
    }
    Ok(())
}

fn record(part: Part, index: usize, node: Node<'_, '_>) -> Record {
    Record::new(part, index as i64 + 1).named(text_of(node, "name"))
}

/// The words of an element that say what it is; `sym` names a picture, which in practice names the thing.
fn tags<'a>(node: Node<'a, '_>) -> Tags<'a> {
    let said = [("name", "name"), ("type", "type"), ("sym", "fclass"), ("ele", "ele")];
    Tags::new(said.into_iter().filter_map(|(element, key)| text_of(node, element).map(|text| (key, text))))
}

fn take(node: Node<'_, '_>, shape: Shape, record: Record, gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let (is_recorded, may_be_on_line) = (record.part == Part::Track, record.part == Part::Waypoint);
    gather.take(shape, &Found { record, tags: &tags(node), layer: None, spread_m: SPREAD_M, is_recorded, is_noded: false, may_be_on_line })
}

fn points(node: Node<'_, '_>, name: &'static str, record: &Record) -> Result<Vec<Pos>, ImportError> {
    children(node, name).map(|point| place(point).map_err(|fault| record.clone().fault(fault))).collect()
}

fn place(node: Node<'_, '_>) -> Result<Pos, Fault> {
    let number = |name: &str| node.attribute(name).and_then(|text| text.trim().parse::<f64>().ok()).ok_or(Fault::NoPosition);
    checked(number("lat")?, number("lon")?)
}
