//! Where a `GeoTIFF` lies: its tags and geo keys.
//!
//! # References
//! OGC 19-008r4 `GeoTIFF` 1.1: tags 33550, 33922, 34264 and 34735, key identifiers and codes (annexes B and C).
//! GDAL's own tag 42113 (no data) as its `GTiff` driver documents it.

use std::io::{Read, Seek};

use tiff::decoder::Decoder;
use tiff::decoder::ifd::Value;
use tiff::tags::Tag;

use super::watched::Watched;
use super::{HeightsFileError, ImageFault, WantedHeights};
use crate::earth::Grid;
use crate::ground::{Lattice, Layout};

/// A picture file being read.
pub(super) type Picture<'a> = Decoder<Watched<'a>>;

/// Keys of the directory that count here.
const MODEL_TYPE: u16 = 1024;
const RASTER_TYPE: u16 = 1025;
const GEODETIC: u16 = 2048;
const PROJECTED: u16 = 3072;
/// Their values.
const MODEL_PROJECTED: u16 = 1;
const MODEL_GEOGRAPHIC: u16 = 2;
const POSTS_ARE_POINTS: u16 = 2;
pub(super) const DEFINED_BY_USER: u16 = 32_767;
/// WGS 84, and datums that agree with it within about 2 m: NAD83 and its realisations, ETRS89, GDA94, GDA2020, NZGD2000,
/// SIRGAS 2000 (from memory).
const LIKE_WGS_84: [u16; 14] = [4326, 4979, 4269, 4152, 4759, 6318, 4258, 4937, 4283, 7844, 4167, 4674, 4617, 4955];

/// Of these the systems with a height above the ellipsoid, in metres: WGS 84, ETRS89, NAD83(CSRS) (from memory), and the codes of the first edition of
/// the standard for heights above ellipsoids, 5001 to 5033.
pub(super) const OF_THREE_AXES: [u16; 3] = [4979, 4937, 4955];
const OF_ELLIPSOIDS: std::ops::RangeInclusive<u16> = 5001..=5033;
pub(super) const VERTICAL_SYSTEM: u16 = 4096;

/// The keys whose value stands in the directory itself.
pub(super) struct Keys(Vec<u16>);

impl Keys {
    pub(super) fn of<R: Read + Seek>(picture: &mut Decoder<R>) -> Self {
        Self(picture.get_tag_u16_vec(Tag::GeoKeyDirectoryTag).unwrap_or_default())
    }

    /// A key's value; entries are identifier, tag of the value (0: here), count, value.
    pub(super) fn value(&self, key: u16) -> Option<u16> {
        let entries = self.0.get(4..).unwrap_or_default().chunks_exact(4);
        entries.filter_map(|entry| <[u16; 4]>::try_from(entry).ok()).find(|[id, tag, ..]| *id == key && *tag == 0).map(|[.., value]| value)
    }
}

impl Keys {
    /// Whether heights are counted from the ellipsoid: in a system of three axes, or by one of the first edition's ellipsoids.
    pub(super) fn are_ellipsoidal(&self) -> bool {
        let has_three_axes = |key: u16| self.value(key).is_some_and(|code| OF_THREE_AXES.contains(&code));
        let by_ellipsoid = self.value(VERTICAL_SYSTEM).is_some_and(|code| OF_ELLIPSOIDS.contains(&code));
        by_ellipsoid || has_three_axes(VERTICAL_SYSTEM) || has_three_axes(GEODETIC)
    }
}

/// The layout of a whole picture of so many columns and rows.
pub(super) fn layout(picture: &mut Picture, columns: usize, rows: usize, wanted: &WantedHeights) -> Result<Layout, HeightsFileError> {
    let keys = Keys::of(picture);
    let (west, north, step_east, step_south) = corner_and_steps(picture)?;
    // The tags give corners of pixels, unless the pixels are said to be points.
    let half = if keys.value(RASTER_TYPE) == Some(POSTS_ARE_POINTS) { 0.0 } else { 0.5 };
    let lattice = lattice(&keys, wanted)?;
    Ok(Layout { lattice, columns, rows, west: west + half * step_east, north: north - half * step_south, step_east, step_south })
}

fn numbers(picture: &mut Picture, tag: Tag) -> Vec<f64> {
    picture.get_tag_f64_vec(tag).unwrap_or_default()
}

/// Of pixel 0, 0, from a scale with one tie point, or from a matrix.
fn corner_and_steps(picture: &mut Picture) -> Result<(f64, f64, f64, f64), HeightsFileError> {
    let scale = numbers(picture, Tag::ModelPixelScaleTag);
    let tie = numbers(picture, Tag::ModelTiepointTag);
    let matrix = numbers(picture, Tag::ModelTransformationTag);
    let found = match (scale.as_slice(), tie.as_slice(), matrix.as_slice()) {
        ([east, south, ..], [column, row, _, x, y, ..], _) => (x - column * east, y + row * south, *east, *south),
        (_, _, [east, turn_a, _, x, turn_b, south, _, y, ..]) => {
            if turn_a.abs() > 0.0 || turn_b.abs() > 0.0 {
                return Err(HeightsFileError::Image(ImageFault::Turned));
            }
            (*x, *y, *east, -south)
        }
        _ => return Err(HeightsFileError::Image(ImageFault::NoPlace)),
    };
    let upright = found.2 > 0.0 && found.3 > 0.0;
    if upright { Ok(found) } else { Err(HeightsFileError::Image(ImageFault::Turned)) }
}

/// What the file states counts; what is wanted only where it states nothing.
fn lattice(keys: &Keys, wanted: &WantedHeights) -> Result<Lattice, HeightsFileError> {
    let stated = |key: u16| keys.value(key).filter(|code| *code != DEFINED_BY_USER && *code != 0);
    let (projected, geodetic) = (stated(PROJECTED), stated(GEODETIC));
    let model = keys.value(MODEL_TYPE);
    if let Some(code) = projected.filter(|_| model != Some(MODEL_GEOGRAPHIC)) {
        return Grid::of_file(&format!("EPSG:{code}")).map(Lattice::Projected).map_err(HeightsFileError::Grid);
    }
    if let Some(code) = geodetic.filter(|_| model == Some(MODEL_GEOGRAPHIC)) {
        return if LIKE_WGS_84.contains(&code) { Ok(Lattice::Geographic) } else { Err(HeightsFileError::Datum(format!("EPSG:{code}"))) };
    }
    let own = [PROJECTED, GEODETIC].iter().any(|key| keys.value(*key) == Some(DEFINED_BY_USER));
    let unsaid = if own { HeightsFileError::GridOwn } else { HeightsFileError::GridNeeded };
    let named = wanted.lattice.clone().ok_or(unsaid)?;
    let fits = match named {
        Lattice::Geographic => model != Some(MODEL_PROJECTED),
        Lattice::Projected(_) => model != Some(MODEL_GEOGRAPHIC),
    };
    if fits { Ok(named) } else { Err(HeightsFileError::GridNeeded) }
}

/// The number that stands for no height.
pub(super) fn void(picture: &mut Picture) -> Option<f64> {
    text(picture, Tag::GdalNodata)?.trim_matches(['\0', ' ']).parse().ok()
}

pub(super) fn text(picture: &mut Picture, tag: Tag) -> Option<String> {
    match picture.find_tag(tag) {
        Ok(Some(Value::Ascii(text))) => Some(text),
        _ => None,
    }
}
