//! In which unit a `GeoTIFF` counts its heights.
//!
//! # References
//! OGC 19-008r4 `GeoTIFF` 1.1: keys 4096 (vertical system) and 4099 (its unit); GDAL's tag 42112 (metadata) as its `GTiff`
//! driver documents it.

use tiff::tags::Tag;

use super::geokeys::{DEFINED_BY_USER, Keys, OF_THREE_AXES, Picture, VERTICAL_SYSTEM, text};
use super::{HeightsFileError, ImageFault};
use crate::earth::System;

const VERTICAL_UNIT: u16 = 4099;
/// GDAL's description of the numbers.
const GDAL_METADATA: Tag = Tag::Unknown(42_112);
const FOOT_M: f64 = 0.3048;
const FOOT_US_M: f64 = 1200.0 / 3937.0;
/// Units of height by their EPSG code, in metres: metre, international foot, US survey foot.
const UNITS: [(u16, f64); 3] = [(9001, 1.0), (9002, FOOT_M), (9003, FOOT_US_M)];
/// Two statements of one unit may differ by this share: that of the two feet is 2e-6.
const SAME: f64 = 1e-5;

/// Metres in the unit that the file names for its heights, if it names one. A scale, an unknown unit, depths or two units
/// are refused rather than overlooked.
pub(super) fn stated_unit_m(picture: &mut Picture) -> Result<Option<f64>, HeightsFileError> {
    let metadata = text(picture, GDAL_METADATA).unwrap_or_default();
    let differs = |role: &str, plain: f64| {
        item(&metadata, role).is_some_and(|told| told.parse::<f64>().ok().is_none_or(|it| (it - plain).abs() > 0.0))
    };
    if differs("scale", 1.0) || differs("offset", 0.0) {
        return Err(HeightsFileError::Image(ImageFault::Scaled));
    }
    let keys = Keys::of(picture);
    let by_unit = keys.value(VERTICAL_UNIT).filter(|code| *code != 0).map(by_code).transpose()?;
    let by_word = item(&metadata, "unittype").filter(|unit| !unit.is_empty()).map(by_word).transpose()?;
    let system = keys.value(VERTICAL_SYSTEM).filter(|code| *code != 0);
    let by_system = match system.map(|code| (code, by_system(code))) {
        None => None,
        Some((_, Ok(unit_m))) => Some(unit_m),
        // A system of the walker's own, or one of the first edition's numbers: its unit must stand beside it.
        Some((code, Err(ImageFault::Unit(_)))) if by_unit.or(by_word).is_none() => return Err(unknown(format!("EPSG:{code}"))),
        Some((_, Err(ImageFault::Unit(_)))) => None,
        Some((_, Err(fault))) => return Err(HeightsFileError::Image(fault)),
    };
    let stated: Vec<f64> = [by_word, by_unit, by_system].into_iter().flatten().collect();
    let first = stated.first().copied();
    let agree = first.is_none_or(|first| stated.iter().all(|unit_m| (unit_m / first - 1.0).abs() < SAME));
    if agree { Ok(first) } else { Err(HeightsFileError::Image(ImageFault::Units)) }
}

fn unknown(unit: String) -> HeightsFileError {
    HeightsFileError::Image(ImageFault::Unit(unit))
}

fn by_code(code: u16) -> Result<f64, HeightsFileError> {
    UNITS.iter().find(|(known, _)| *known == code).map(|(_, metres)| *metres).ok_or_else(|| unknown(format!("EPSG:{code}")))
}

fn by_word(unit: &str) -> Result<f64, HeightsFileError> {
    match unit.to_ascii_lowercase().as_str() {
        "m" | "metre" | "meter" | "metres" | "meters" => Ok(1.0),
        "ft" | "foot" | "feet" => Ok(FOOT_M),
        "us survey foot" | "us-ft" | "ftus" => Ok(FOOT_US_M),
        _ => Err(unknown(unit.to_owned())),
    }
}

fn by_system(code: u16) -> Result<f64, ImageFault> {
    let named = || ImageFault::Unit(format!("EPSG:{code}"));
    if code == DEFINED_BY_USER {
        return Err(named());
    }
    // Told as what it is when the heights are doubted.
    if OF_THREE_AXES.contains(&code) {
        return Ok(1.0);
    }
    let axis = System::named(&format!("EPSG:{code}")).ok().and_then(|system| system.heights).ok_or_else(named)?;
    if axis.upward { Ok(axis.unit_m) } else { Err(ImageFault::Depths) }
}

/// The text of the item with a role in GDAL's description.
fn item<'a>(metadata: &'a str, role: &str) -> Option<&'a str> {
    let (_, after) = metadata.split_once(&format!("role=\"{role}\""))?;
    let (_, text) = after.split_once('>')?;
    text.split_once('<').map(|(text, _)| text.trim())
}
