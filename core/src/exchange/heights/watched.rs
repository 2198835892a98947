//! The bytes of a picture under a watch: a degree of heights may lie in one piece, and its reading be told and broken off all the same.

use std::cell::RefCell;
use std::io::{self, Cursor, Read, Seek, SeekFrom};
use std::rc::Rc;

use super::HeightsProgress;
use super::white::white_is_zero;

/// So many bytes are read before it is told anew.
const STEP: u64 = 16 * 1024;

/// Bytes, and who is told of them.
pub(super) struct Watched<'a> {
    bytes: Cursor<&'a [u8]>,
    /// Where the number stands that calls zero white: it is read as one.
    white: Option<u64>,
    watch: Rc<RefCell<Watch<'a>>>,
}

/// How far the reading is.
pub(super) struct Watch<'a> {
    progress: &'a mut HeightsProgress<'a>,
    /// Pieces that are read, and how many there are.
    done: usize,
    of: usize,
    /// Bytes of the piece at hand: read, read when it was told last, and all.
    read: u64,
    told: u64,
    all: u64,
    stopped: bool,
}

impl<'a> Watch<'a> {
    pub(super) fn new(progress: &'a mut HeightsProgress<'a>) -> Rc<RefCell<Self>> {
        Rc::new(RefCell::new(Self { progress, done: 0, of: 1, read: 0, told: 0, all: 0, stopped: false }))
    }

    /// A piece of so many bytes begins, after others.
    pub(super) fn begin(&mut self, done: usize, of: usize, all: u64) {
        (self.done, self.of, self.read, self.told, self.all) = (done, of.max(1), 0, 0, all);
    }

    /// The piece is read; what is read until the next begins is none. Whether to go on.
    pub(super) fn end(&mut self) -> bool {
        self.all = 0;
        self.tell(1.0)
    }

    /// Whether the reading was broken off.
    pub(super) fn is_stopped(&self) -> bool {
        self.stopped
    }

    fn passed(&mut self, count: usize) -> io::Result<()> {
        self.read += count as u64;
        if self.all == 0 || self.read - self.told < STEP {
            return Ok(());
        }
        self.told = self.read;
        // A packing may be read a little beyond its piece.
        let share = (self.read as f64 / self.all as f64).min(1.0);
        if self.tell(share) { Ok(()) } else { Err(io::Error::other("stopped")) }
    }

    fn tell(&mut self, share: f64) -> bool {
        let whole = (self.done as f64 + share) / self.of as f64;
        self.stopped |= (self.progress)(whole).is_break();
        !self.stopped
    }
}

impl<'a> Watched<'a> {
    pub(super) fn new(bytes: &'a [u8], watch: Rc<RefCell<Watch<'a>>>) -> Self {
        Self { bytes: Cursor::new(bytes), white: white_is_zero(bytes), watch }
    }
}

impl Read for Watched<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        // What is not packed would be read in one go.
        let (most, from) = (buffer.len().min(STEP as usize), self.bytes.position());
        let count = self.bytes.read(buffer.get_mut(..most).unwrap_or_default())?;
        let white = self.white.and_then(|at| usize::try_from(at.checked_sub(from)?).ok()).filter(|at| *at < count);
        if let Some(byte) = white.and_then(|at| buffer.get_mut(at)) {
            *byte = 1;
        }
        self.watch.borrow_mut().passed(count)?;
        Ok(count)
    }
}

impl Seek for Watched<'_> {
    fn seek(&mut self, to: SeekFrom) -> io::Result<u64> {
        self.bytes.seek(to)
    }
}

#[cfg(test)]
mod tests {
    #![allow(
        clippy::expect_used,
        clippy::float_cmp,
        clippy::indexing_slicing,
        clippy::unwrap_used,
        reason = "a test may stop where it fails"
    )]

    use std::io::Cursor;
    use std::ops::ControlFlow;

    use tiff::encoder::{Compression, DeflateLevel, TiffEncoder, colortype};
    use tiff::tags::Tag;

    use crate::exchange::heights::{HeightsFileError, WantedHeights, read_heights};

    const SIDE: u32 = 600;

    /// Heights that pack badly, all in one strip.
    fn one_strip(packing: Compression) -> Vec<u8> {
        let mut bytes = Cursor::new(Vec::new());
        let mut encoder = TiffEncoder::new(&mut bytes).unwrap().with_compression(packing);
        let mut image = encoder.new_image::<colortype::GrayI16>(SIDE, SIDE).unwrap();
        image.rows_per_strip(SIDE).unwrap();
        image.encoder().write_tag(Tag::ModelPixelScaleTag, &[50.0, 40.0, 0.0][..]).unwrap();
        image.encoder().write_tag(Tag::ModelTiepointTag, &[0.0, 0.0, 0.0, 400_000.0, 5_100_000.0, 0.0][..]).unwrap();
        let keys = [1_u16, 1, 0, 3, 1024, 0, 1, 1, 1025, 0, 1, 1, 3072, 0, 1, 32_633];
        image.encoder().write_tag(Tag::GeoKeyDirectoryTag, &keys[..]).unwrap();
        let heights: Vec<i16> = (0..SIDE * SIDE).map(|post| (post.wrapping_mul(2_654_435_761) >> 20) as i16).collect();
        image.write_data(&heights).unwrap();
        bytes.into_inner()
    }

    #[test]
    fn the_reading_of_one_strip_is_told_and_can_be_broken_off() {
        for packing in [Compression::Uncompressed, Compression::Lzw, Compression::Deflate(DeflateLevel::Balanced)] {
            let bytes = one_strip(packing);
            let mut told = Vec::new();
            let read = read_heights("a.tif", &bytes, &WantedHeights::default(), &mut |share| {
                told.push(share);
                ControlFlow::Continue(())
            });
            assert!(read.is_ok_and(|heights| heights.layout().rows == SIDE as usize));
            assert!(told.is_sorted() && told.last() == Some(&1.0), "{told:?}");
            let widest = told.windows(2).map(|pair| pair[1] - pair[0]).fold(told[0], f64::max);
            assert!(told.len() >= 5 && widest < 0.25, "{told:?}");
            let mut asked = 0;
            let stopped = read_heights("a.tif", &bytes, &WantedHeights::default(), &mut |share| {
                asked += 1;
                if share > 0.4 { ControlFlow::Break(()) } else { ControlFlow::Continue(()) }
            });
            assert_eq!(stopped, Err(HeightsFileError::Cancelled));
            assert!(asked < told.len(), "{asked} of {}", told.len());
        }
    }
}
