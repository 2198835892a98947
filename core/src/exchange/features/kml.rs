//! KML: placemarks with points, lines, areas and recorded tracks. Links to other files are not followed.
//!
//! # References
//! OGC 12-007r2, KML 2.3; the elements that are read are those of KML 2.2 (OGC 07-147r2) and its `gx` tracks.

use roxmltree::Node;

use super::error::{Fault, ImportError, Part, Record, Unread};
use super::gather::{Found, Gather, MOST_POINTS};
use super::other_tags;
use super::shape::{Pos, Shape, checked};
use super::tags::Tags;
use super::xml::{below, children, is, parse, text_of, tick};

/// One sigma per axis of a place drawn over a picture from above, metres (common practice, no source).
const SPREAD_M: f64 = 10.0;

pub(super) fn read(bytes: &[u8], gather: &mut Gather<'_>) -> Result<(), ImportError> {
    let text = super::encoding::text(bytes)?;
    let document = parse(&text)?;
    let root = document.root_element();
    if !is(root, "kml") {
        return Err(ImportError::Unreadable { line: 1, why: Unread::Without("<kml>") });
    }
    // A placemark holds no other: one inside another would be gone through again and again.
    let mut end = 0;
    let outer = below(root, "Placemark").filter(|placemark| {
        let outside = placemark.range().start >= end;
        end = end.max(placemark.range().end);
        outside
    });
    for (index, placemark) in outer.enumerate() {
        let name = text_of(placemark, "name");
        let record = Record::new(Part::Placemark, index as i64 + 1).named(name);
        let shape = shape(placemark).map_err(|fault| record.clone().fault(fault))?;
        let own = || name.map(|name| ("name", name)).into_iter().chain(said(placemark));
        let others = other_tags::beside(own());
        let tags = Tags::new(own().chain(others.iter().map(|(key, value)| (key.as_str(), value.as_str()))));
        let is_recorded = below(placemark, "Track").next().is_some();
        gather.take(
            shape,
            &Found { record, tags: &tags, layer: None, spread_m: SPREAD_M, is_recorded, is_noded: false, may_be_on_line: false },
        )?;
        tick(gather, index, placemark)?;
    }
    leave_out_beside(root, gather);
    Ok(())
}

/// Counts links to other files and pictures over the ground, which stand beside the placemarks.
fn leave_out_beside(root: Node<'_, '_>, gather: &mut Gather<'_>) {
    let record = |index: usize, node| Record::new(Part::Placemark, index as i64 + 1).named(text_of(node, "name"));
    for (index, link) in below(root, "NetworkLink").enumerate() {
        gather.leave_out_link(&record(index, link));
    }
    for (index, picture) in below(root, "GroundOverlay").chain(below(root, "PhotoOverlay")).enumerate() {
        gather.leave_out(&record(index, picture));
    }
}

/// Keys and values of the extended data.
fn said<'a>(placemark: Node<'a, 'a>) -> impl Iterator<Item = (&'a str, &'a str)> {
    placemark.descendants().filter_map(|node| {
        let key = node.attribute("name")?;
        let value = if is(node, "Data") {
            text_of(node, "value")
        } else if is(node, "SimpleData") {
            node.text()
        } else {
            None
        };
        value.map(|value| (key, value))
    })
}

fn shape(placemark: Node<'_, '_>) -> Result<Shape, Fault> {
    let mut shape = Shape::default();
    for node in placemark.descendants().filter(Node::is_element) {
        match node.tag_name().name() {
            "Point" => shape.points.extend(coordinates(node)?.first()),
            "LineString" => shape.lines.push(coordinates(node)?),
            "LinearRing" if !in_area(node) => shape.lines.push(coordinates(node)?),
            "Polygon" => shape.areas.push(rings(node)?),
            "Track" => shape.lines.push(track(node)?),
            _ => {}
        }
    }
    Ok(shape)
}

fn in_area(ring: Node<'_, '_>) -> bool {
    ring.parent().is_some_and(|border| is(border, "outerBoundaryIs") || is(border, "innerBoundaryIs"))
}

/// The rings of an area, the outer one first.
fn rings(area: Node<'_, '_>) -> Result<Vec<Vec<Pos>>, Fault> {
    let borders = children(area, "outerBoundaryIs").chain(children(area, "innerBoundaryIs"));
    borders.flat_map(|border| children(border, "LinearRing")).map(coordinates).collect()
}

/// "lon,lat[,height]" apart by blanks.
fn coordinates(node: Node<'_, '_>) -> Result<Vec<Pos>, Fault> {
    let text = text_of(node, "coordinates").unwrap_or_default();
    // One more than is taken, so that the count of all tells of it.
    text.split_whitespace().take(MOST_POINTS + 1).map(|tuple| pair(&mut tuple.split(','))).collect()
}

/// A recorded track: "lon lat height" in each `coord`.
fn track(node: Node<'_, '_>) -> Result<Vec<Pos>, Fault> {
    children(node, "coord").map(|coord| pair(&mut coord.text().unwrap_or_default().split_whitespace())).collect()
}

fn pair(numbers: &mut dyn Iterator<Item = &str>) -> Result<Pos, Fault> {
    let mut next = || numbers.next().and_then(|text| text.trim().parse::<f64>().ok()).ok_or(Fault::NoPosition);
    let (lon, lat) = (next()?, next()?);
    checked(lat, lon)
}
