//! Tiles of one degree, `.hgt`: 16-bit heights, greatest byte first, row by row from the north-west; the name gives the corner.
//!
//! # References
//! NASA/USGS, `SRTM_Topo`: 1201 or 3601 posts a side with the edges shared by neighbours, voids -32768, heights in metres,
//! the name that of the post in the south-western corner.

use super::part::{Part, Voids, tell};
use super::{HeightsFileError, HeightsProgress, WantedHeights};
use crate::ground::{Lattice, Layout};

/// Posts along a side: three seconds and one second.
const SIDES: [usize; 2] = [1201, 3601];
const BYTES_A_POST: usize = 2;
const VOIDS: Voids = Voids { named: Some(-32_768.0), unit_m: 1.0 };

pub(super) fn read(name: &str, bytes: &[u8], wanted: &WantedHeights, progress: &mut HeightsProgress) -> Result<Part, HeightsFileError> {
    let (south, west) = corner(name).ok_or_else(|| HeightsFileError::Name(name.into()))?;
    let side = SIDES.into_iter().find(|side| side * side * BYTES_A_POST == bytes.len());
    let side = side.ok_or_else(|| HeightsFileError::Length { name: name.into(), bytes: bytes.len() })?;
    let step = 1.0 / (side - 1) as f64;
    let (west, north) = (f64::from(west), f64::from(south) + 1.0);
    let whole = Layout { lattice: Lattice::Geographic, columns: side, rows: side, west, north, step_east: step, step_south: step };
    let mut part = Part::of(&whole, wanted)?;
    part.reserve(bytes.len());
    let window = part.window;
    let rows = bytes.chunks_exact(side * BYTES_A_POST).enumerate().skip(window.top).take(window.rows);
    for (row, line) in rows {
        for (column, post) in line.chunks_exact(BYTES_A_POST).enumerate().skip(window.left).take(window.columns) {
            let number = post.iter().fold(0_u16, |number, byte| number << 8 | u16::from(*byte));
            part.values_m.push(VOIDS.at(f64::from(number.cast_signed()), column, row)?);
        }
        tell(progress, row + 1 - window.top, window.rows)?;
    }
    Ok(part)
}

/// Latitude and longitude of the south-western post from a name as `N46E013.hgt`; folders before it do not count.
fn corner(name: &str) -> Option<(i16, i16)> {
    let file = name.rsplit(['/', '\\']).next()?;
    let stem = file.split('.').next()?;
    let (latitude, longitude) = (part_of(stem, 0, 2, ['N', 'S'])?, part_of(stem, 3, 3, ['E', 'W'])?);
    let whole = stem.len() == 7 && (-90..90).contains(&latitude) && (-180..180).contains(&longitude);
    whole.then_some((latitude, longitude))
}

/// A letter, the first of a pair or its opposite, and a number of so many digits.
fn part_of(stem: &str, at: usize, digits: usize, [ahead, opposite]: [char; 2]) -> Option<i16> {
    let letter = stem.get(at..=at)?.chars().next()?.to_ascii_uppercase();
    let figures = stem.get(at + 1..=at + digits)?;
    let number: i16 = figures.chars().all(|figure| figure.is_ascii_digit()).then(|| figures.parse().ok()).flatten()?;
    if letter == ahead { Some(number) } else { (letter == opposite).then_some(-number) }
}

#[cfg(test)]
mod tests {
    use super::corner;

    #[test]
    fn the_name_gives_the_corner() {
        for (name, at) in [
            ("N46E013.hgt", Some((46, 13))),
            ("tiles/s01w180.HGT", Some((-1, -180))),
            ("a\\N00E000.SRTMGL1.hgt", Some((0, 0))),
            ("S90E179.hgt", Some((-90, 179))),
            ("N90E000.hgt", None),
            ("N46E180.hgt", None),
            ("N46W181.hgt", None),
            ("E46N013.hgt", None),
            ("N4éE08.hgt", None),
            ("N+6E013.hgt", None),
            ("N46E0130.hgt", None),
            (".hgt", None),
        ] {
            assert_eq!(corner(name), at, "{name}");
        }
    }
}
