//! Geometries in well-known binary, within a GeoPackage's envelope.
//!
//! # References
//! OGC 12-128r18, GeoPackage 1.3, 2.1.3 (the header); ISO/IEC 13249-3 (the numbers of the geometries, thousands for heights
//! and measures).

use super::error::Fault;
use super::shape::{Pos, Shape};

/// Collections whose parts may be curved or straight.
const MULTI_CURVE: u32 = 11;
const MULTI_SURFACE: u32 = 12;

/// Collections inside collections are opened this deep.
const DEEPEST: usize = 8;

/// A place of a grid on the earth.
pub(super) type ToEarth<'a> = &'a dyn Fn(f64, f64) -> Result<Pos, Fault>;

/// The shape in the blob of a GeoPackage; nothing when it is marked as empty.
pub(super) fn from_geopackage(blob: &[u8], to_earth: ToEarth<'_>) -> Result<Shape, Fault> {
    let mut shape = Shape::default();
    let (magic, flags) = match blob {
        [b'G', b'P', _version, flags, ..] => (true, *flags),
        _ => (false, 0),
    };
    if !magic {
        return Err(Fault::Geometry);
    }
    if flags & 0x20 != 0 {
        return Err(Fault::Geometry);
    }
    let envelope = match (flags >> 1) & 7 {
        0 => 0,
        1 => 32,
        2 | 3 => 48,
        4 => 64,
        _ => return Err(Fault::Cut),
    };
    if flags & 0x10 == 0 {
        let mut bytes = Bytes { rest: blob.get(8 + envelope..).ok_or(Fault::Cut)? };
        geometry(&mut bytes, to_earth, &mut shape, 0)?;
    }
    Ok(shape)
}

/// What is left to read.
struct Bytes<'a> {
    rest: &'a [u8],
}

impl Bytes<'_> {
    fn take<const N: usize>(&mut self) -> Result<[u8; N], Fault> {
        let (taken, rest) = self.rest.split_first_chunk::<N>().ok_or(Fault::Cut)?;
        self.rest = rest;
        Ok(*taken)
    }

    fn number(&mut self, little: bool) -> Result<u32, Fault> {
        let bytes = self.take()?;
        Ok(if little { u32::from_le_bytes(bytes) } else { u32::from_be_bytes(bytes) })
    }

    fn real(&mut self, little: bool) -> Result<f64, Fault> {
        let bytes = self.take()?;
        Ok(if little { f64::from_le_bytes(bytes) } else { f64::from_be_bytes(bytes) })
    }

    /// A count of things that take so many bytes each; more than the blob has room for cannot be.
    fn count(&mut self, little: bool, each: usize) -> Result<usize, Fault> {
        let count = self.number(little)? as usize;
        if count.saturating_mul(each) <= self.rest.len() { Ok(count) } else { Err(Fault::Cut) }
    }
}

/// The byte order and the numbers of a position.
#[derive(Clone, Copy)]
struct Layout {
    little: bool,
    numbers: usize,
}

fn geometry(bytes: &mut Bytes<'_>, to_earth: ToEarth<'_>, shape: &mut Shape, depth: usize) -> Result<(), Fault> {
    if depth > DEEPEST {
        return Err(Fault::Nested);
    }
    let [order] = bytes.take()?;
    let little = order == 1;
    let kind = bytes.number(little)?;
    let numbers = match kind / 1000 {
        0 => 2,
        1 | 2 => 3,
        3 => 4,
        _ => return Err(Fault::Geometry),
    };
    let layout = Layout { little, numbers };
    match kind % 1000 {
        1 => shape.points.extend(point(bytes, layout, to_earth)?),
        2 => shape.lines.push(line(bytes, layout, to_earth)?),
        3 => {
            let rings = bytes.count(little, 4)?;
            shape.areas.push((0..rings).map(|_| line(bytes, layout, to_earth)).collect::<Result<_, _>>()?);
        }
        4..=7 | MULTI_CURVE | MULTI_SURFACE => {
            // The least geometry is an empty one: order, number, count.
            let parts = bytes.count(little, 9)?;
            (0..parts).try_for_each(|_| geometry(bytes, to_earth, shape, depth + 1))?;
        }
        // Circular strings, compound curves, curved polygons, curves and surfaces.
        8..=10 | 13 | 14 => return Err(Fault::Curved),
        _ => return Err(Fault::Geometry),
    }
    Ok(())
}

/// A point; an empty one is written with numbers that are none.
fn point(bytes: &mut Bytes<'_>, layout: Layout, to_earth: ToEarth<'_>) -> Result<Option<Pos>, Fault> {
    let (x, y) = pair(bytes, layout)?;
    if x.is_nan() && y.is_nan() { Ok(None) } else { to_earth(x, y).map(Some) }
}

fn pair(bytes: &mut Bytes<'_>, layout: Layout) -> Result<(f64, f64), Fault> {
    let (x, y) = (bytes.real(layout.little)?, bytes.real(layout.little)?);
    for _ in 2..layout.numbers {
        bytes.real(layout.little)?;
    }
    Ok((x, y))
}

fn line(bytes: &mut Bytes<'_>, layout: Layout, to_earth: ToEarth<'_>) -> Result<Vec<Pos>, Fault> {
    let count = bytes.count(layout.little, 8 * layout.numbers)?;
    (0..count).map(|_| pair(bytes, layout).and_then(|(x, y)| to_earth(x, y))).collect()
}
