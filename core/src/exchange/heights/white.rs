//! Pictures whose zero is white: heights are numbers and no shades, so they are taken as they are written.

/// The tag by which a picture says what its numbers mean, and the kinds of number it may be written in.
const PHOTOMETRIC: u64 = 262;
const SHORT: u64 = 3;
const LONG: u64 = 4;

/// Where the number stands by which a picture of these bytes says that zero is white, its lowest byte; nothing where it does not. With one in its
/// place zero is black, and no reader turns what is written upside down.
///
/// # References
/// TIFF 6.0 (Adobe, 1992), section 2 and `PhotometricInterpretation`; of the large form, with 8-byte offsets, from memory. GDAL reads such files as
/// they are written, too (`tests/rasters`).
pub(super) fn white_is_zero(bytes: &[u8]) -> Option<u64> {
    let read = Read { bytes, is_little: bytes.starts_with(b"II") };
    let is_large = read.number(2, 2)? == 43;
    let (first, count_long, entry_long, value_at, wide) = if is_large { (8, 8, 20, 12, 8) } else { (4, 2, 12, 8, 4) };
    let directory = read.number(first, wide)?;
    let entries = read.number(directory, count_long)?.min(u64::from(u16::MAX));
    let at = |entry: u64| directory.checked_add(count_long + entry * entry_long);
    let entry = (0..entries).filter_map(at).find(|entry| read.number(*entry, 2) == Some(PHOTOMETRIC))?;
    let long = match read.number(entry + 2, 2)? {
        SHORT => 2,
        LONG => 4,
        _ => return None,
    };
    let value = entry + value_at;
    let lowest = if read.is_little { value } else { value + long - 1 };
    (read.number(value, long)? == 0).then_some(lowest)
}

/// Numbers of a file in its own order of bytes.
struct Read<'a> {
    bytes: &'a [u8],
    is_little: bool,
}

impl Read<'_> {
    fn number(&self, at: u64, long: u64) -> Option<u64> {
        let (at, long) = (usize::try_from(at).ok()?, usize::try_from(long).ok()?);
        let part = self.bytes.get(at..at.checked_add(long)?)?;
        let joined = |number: u64, byte: &u8| (number << 8) | u64::from(*byte);
        Some(if self.is_little { part.iter().rev().fold(0, joined) } else { part.iter().fold(0, joined) })
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::indexing_slicing, clippy::unwrap_used, reason = "a test may stop where it fails")]

    use std::io::Cursor;
    use std::ops::ControlFlow;

    use tiff::encoder::colortype::{ColorType, Gray8, Gray16, Gray32Float, GrayI16};
    use tiff::encoder::{TiffEncoder, TiffKind, TiffKindBig, TiffKindStandard, TiffValue};
    use tiff::tags::Tag;

    use super::white_is_zero;
    use crate::exchange::heights::{WantedHeights, read_heights};

    const SIDE: u32 = 12;

    /// A picture of heights with a zero that is black.
    fn picture<K: TiffKind, C: ColorType>(height: impl Fn(u32) -> C::Inner) -> Vec<u8>
    where
        [C::Inner]: TiffValue,
    {
        let mut bytes = Cursor::new(Vec::new());
        let mut encoder = TiffEncoder::<_, K>::new_generic(&mut bytes).unwrap();
        let mut image = encoder.new_image::<C>(SIDE, SIDE).unwrap();
        image.encoder().write_tag(Tag::ModelPixelScaleTag, &[50.0, 40.0, 0.0][..]).unwrap();
        image.encoder().write_tag(Tag::ModelTiepointTag, &[0.0, 0.0, 0.0, 400_000.0, 5_100_000.0, 0.0][..]).unwrap();
        let keys = [1_u16, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 32_633];
        image.encoder().write_tag(Tag::GeoKeyDirectoryTag, &keys[..]).unwrap();
        image.write_data(&(0..SIDE * SIDE).map(height).collect::<Vec<_>>()).unwrap();
        bytes.into_inner()
    }

    /// The same with a zero that is white: tag 262 of one short number, as the format writes it.
    fn white(mut bytes: Vec<u8>, large: bool) -> Vec<u8> {
        let (entry, number_at): (&[u8], usize) =
            if large { (&[6, 1, 3, 0, 1, 0, 0, 0, 0, 0, 0, 0, 1, 0], 12) } else { (&[6, 1, 3, 0, 1, 0, 0, 0, 1, 0], 8) };
        let found = bytes.windows(entry.len()).position(|window| window == entry).unwrap();
        bytes[found + number_at] = 0;
        assert_eq!(white_is_zero(&bytes), Some((found + number_at) as u64));
        bytes
    }

    fn heights(bytes: &[u8]) -> Vec<f32> {
        read_heights("a.tif", bytes, &WantedHeights::default(), &mut |_| ControlFlow::Continue(())).unwrap().values_m().to_vec()
    }

    #[test]
    fn heights_are_taken_as_they_are_written() {
        let float = picture::<TiffKindStandard, Gray32Float>(|post| 900.4 + post as f32);
        let signed = picture::<TiffKindStandard, GrayI16>(|post| 900 + post as i16);
        let words = picture::<TiffKindStandard, Gray16>(|post| 900 + post as u16);
        let eight = picture::<TiffKindStandard, Gray8>(|post| 40 + post as u8);
        for (black, first_m) in [(float, 900.4), (signed, 900.0), (words, 900.0), (eight, 40.0)] {
            assert_eq!(white_is_zero(&black), None);
            let expected: Vec<f32> = (0..SIDE * SIDE).map(|post| first_m + post as f32).collect();
            assert_eq!(heights(&black), expected);
            assert_eq!(heights(&white(black, false)), expected);
        }
        let large = picture::<TiffKindBig, Gray32Float>(|post| 900.4 + post as f32);
        assert_eq!(heights(&white(large.clone(), true)), heights(&large));
    }

    #[test]
    fn what_is_no_picture_says_nothing() {
        for bytes in [&b""[..], b"II", b"II*\0", b"MM\0*\xff\xff\xff\xff", b"II+\0\x08\0\0\0\xff\xff\xff\xff\xff\xff\xff\xff"] {
            assert_eq!(white_is_zero(bytes), None);
        }
    }
}
