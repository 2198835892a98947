//! One tile of heights as bytes: smaller by what neighbours share, and without loss.

use std::io::{Read, Write};

use flate2::Compression;
use flate2::read::ZlibDecoder;
use flate2::write::ZlibEncoder;

/// Posts along a side of a tile.
pub(super) const SIDE: usize = 256;
/// Stands for no height among whole numbers.
const NO_HEIGHT: i16 = i16::MIN;
/// Of 0 to 9: heights after the differences gain little from more (measured on a degree tile of one second).
const DEFLATE_LEVEL: u32 = 3;

/// How the posts of a tile are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Coding {
    /// Every height is a whole number of metres.
    Whole,
    /// Any height.
    Float,
}

impl Coding {
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Whole => "whole",
            Self::Float => "float",
        }
    }

    pub(super) fn named(word: &str) -> Option<Self> {
        [Self::Whole, Self::Float].into_iter().find(|coding| coding.word() == word)
    }
}

/// The bytes of a tile of so many columns.
pub(super) fn pack(values_m: &[f32], columns: usize) -> std::io::Result<(Coding, Vec<u8>)> {
    let whole: Option<Vec<i16>> = values_m.iter().copied().map(whole).collect();
    let (coding, plain) = match whole {
        Some(whole) => (Coding::Whole, differences(&whole, columns)),
        None => (Coding::Float, planes(values_m)),
    };
    let mut packer = ZlibEncoder::new(Vec::new(), Compression::new(DEFLATE_LEVEL));
    packer.write_all(&plain)?;
    Ok((coding, packer.finish()?))
}

/// The heights of a tile of so many columns and rows; `None` when the bytes are not those of such a tile.
pub(super) fn unpack(coding: Coding, bytes: &[u8], columns: usize, rows: usize) -> Option<Vec<f32>> {
    let posts = columns.checked_mul(rows).filter(|posts| (1..=SIDE * SIDE).contains(posts))?;
    let length = posts * if coding == Coding::Whole { size_of::<i16>() } else { size_of::<f32>() };
    let mut plain = Vec::with_capacity(length + 1);
    // One byte more than there may be shows that there are too many; the checksum of the format is read with the end.
    ZlibDecoder::new(bytes).take(length as u64 + 1).read_to_end(&mut plain).ok().filter(|read| *read == length)?;
    Some(match coding {
        Coding::Whole => sums(&plain, columns),
        Coding::Float => from_planes(&plain, posts),
    })
}

/// A whole number that gives back the same height. A negative zero is a zero.
#[allow(clippy::float_cmp, reason = "only what comes back exactly may be written so")]
fn whole(value_m: f32) -> Option<i16> {
    if value_m.is_nan() {
        return Some(NO_HEIGHT);
    }
    let number = value_m as i16;
    (f32::from(number) == value_m && number != NO_HEIGHT).then_some(number)
}

fn differences(numbers: &[i16], columns: usize) -> Vec<u8> {
    let of_row = |row: &[i16]| {
        let mut before = 0_i16;
        row.iter().flat_map(|number| number.wrapping_sub(std::mem::replace(&mut before, *number)).to_le_bytes()).collect::<Vec<u8>>()
    };
    numbers.chunks(columns.max(1)).flat_map(of_row).collect()
}

fn sums(plain: &[u8], columns: usize) -> Vec<f32> {
    let of_row = |row: &[u8]| {
        let mut sum = 0_i16;
        let add = |step: &[u8; 2]| {
            sum = sum.wrapping_add(i16::from_le_bytes(*step));
            if sum == NO_HEIGHT { f32::NAN } else { f32::from(sum) }
        };
        row.as_chunks::<2>().0.iter().map(add).collect::<Vec<f32>>()
    };
    plain.chunks(columns.max(1) * 2).flat_map(of_row).collect()
}

fn planes(values_m: &[f32]) -> Vec<u8> {
    let plane = |byte: usize| values_m.iter().filter_map(move |value| value.to_le_bytes().get(byte).copied());
    let mut before = 0_u8;
    (0..4).flat_map(plane).map(|byte| byte.wrapping_sub(std::mem::replace(&mut before, byte))).collect()
}

fn from_planes(plain: &[u8], posts: usize) -> Vec<f32> {
    let mut sum = 0_u8;
    let add = |step: &u8| {
        sum = sum.wrapping_add(*step);
        sum
    };
    let bytes: Vec<u8> = plain.iter().map(add).collect();
    let byte = |plane: usize, post: usize| bytes.get(plane * posts + post).copied().unwrap_or_default();
    (0..posts).map(|post| f32::from_le_bytes([byte(0, post), byte(1, post), byte(2, post), byte(3, post)])).collect()
}

#[cfg(test)]
mod tests {
    #![allow(
        clippy::expect_used,
        clippy::float_cmp,
        clippy::indexing_slicing,
        clippy::panic,
        clippy::unwrap_used,
        reason = "a test may stop where it fails"
    )]

    use super::{Coding, pack, unpack};

    fn there_and_back(values: &[f32], columns: usize) -> Coding {
        let (coding, bytes) = pack(values, columns).unwrap();
        let again = unpack(coding, &bytes, columns, values.len() / columns).unwrap();
        let bits = |all: &[f32]| all.iter().map(|value| value.to_bits()).collect::<Vec<u32>>();
        assert_eq!(bits(&again), bits(values));
        coding
    }

    #[test]
    fn heights_come_back_bit_by_bit() {
        assert_eq!(there_and_back(&[1.0, -32_767.0, f32::NAN, 32_767.0, 0.0, 8848.0], 3), Coding::Whole);
        assert_eq!(there_and_back(&[1.0, -32_768.0], 2), Coding::Float, "not to be taken for no height");
        assert_eq!(there_and_back(&[741.25, f32::NAN, -0.1, 3452.0, f32::MIN_POSITIVE, 1e9], 2), Coding::Float);
    }

    #[test]
    fn bytes_of_another_tile_are_refused() {
        let (coding, bytes) = pack(&[1.0, 2.0, 3.0, 4.0], 2).unwrap();
        assert!(unpack(coding, &bytes, 2, 2).is_some());
        for (columns, rows) in [(2, 1), (2, 3), (0, 2), (1000, 1000)] {
            assert!(unpack(coding, &bytes, columns, rows).is_none(), "{columns} {rows}");
        }
        let mut torn = bytes.clone();
        *torn.last_mut().unwrap() ^= 1;
        assert!(unpack(coding, &torn, 2, 2).is_none(), "the checksum is wrong");
        assert!(unpack(coding, &bytes[..bytes.len() - 2], 2, 2).is_none(), "cut short");
    }
}
