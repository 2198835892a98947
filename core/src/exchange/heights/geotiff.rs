//! `GeoTIFF`: one number to a pixel, in strips or tiles, plain or packed without loss.

use std::cell::RefCell;
use std::rc::Rc;

use tiff::decoder::{ChunkType, Decoder, DecodingResult, Limits};
use tiff::tags::{CompressionMethod, PhotometricInterpretation, Tag};
use tiff::{ColorType, TiffError, TiffFormatError, TiffUnsupportedError};

use super::geokeys::{self, Keys, Picture};
use super::part::{Part, Voids};
use super::vertical;
use super::watched::{Watch, Watched};
use super::{HeightsFileError, HeightsProgress, ImageFault, WantedHeights};

/// What one piece of a picture and one value of its directory may take, bytes: enough for a degree of one second in one strip.
const MOST_PIECE: usize = 128 * 1024 * 1024;
const MOST_PACKED: usize = 64 * 1024 * 1024;
const MOST_DIRECTORY: usize = 4 * 1024 * 1024;
/// Pictures of one file that are looked at for masks.
const MOST_PICTURES: usize = 64;
/// What the packings that are read can at most squeeze a piece by, with a reserve: deflate 1032 to 1, LZW less than 2800 to 1.
const MOST_SQUEEZED: usize = 4096;

pub(super) fn read(bytes: &[u8], wanted: &WantedHeights, progress: &mut HeightsProgress) -> Result<Part, HeightsFileError> {
    let watch = Watch::new(progress);
    let mut picture = open(bytes, &watch)?;
    let (columns, rows) = picture.dimensions().map_err(beginning)?;
    let whole = geokeys::layout(&mut picture, columns as usize, rows as usize, wanted)?;
    let unit_m = match vertical::stated_unit_m(&mut picture)? {
        Some(unit_m) => unit_m,
        None => super::unsaid_unit_m(wanted, &whole.lattice)?,
    };
    let voids = Voids { named: geokeys::void(&mut picture).or(wanted.void), unit_m };
    let mut part = Part::of(&whole, wanted)?;
    let pieces = Pieces::of(&mut picture, columns as usize, rows as usize)?;
    if pieces.is_unwritten(&part) {
        return Err(HeightsFileError::Gaps);
    }
    if pieces.is_hollow(&part, bytes.len()) {
        return Err(HeightsFileError::Damaged { row: 1, detail: "too short".into() });
    }
    part.fill();
    let needed: Vec<usize> = (0..pieces.count()).filter(|piece| pieces.touches(*piece, &part)).collect();
    for (done, piece) in needed.iter().enumerate() {
        watch.borrow_mut().begin(done, needed.len(), pieces.bytes_of(*piece));
        if pieces.is_there(*piece) {
            let stopped = |error| if watch.borrow().is_stopped() { HeightsFileError::Cancelled } else { error };
            take(&mut picture, &pieces, *piece, &mut part, voids).map_err(stopped)?;
        }
        if !watch.borrow_mut().end() {
            return Err(HeightsFileError::Cancelled);
        }
    }
    if has_mask(&mut picture) { Err(HeightsFileError::Image(ImageFault::Masked)) } else { Ok(part) }
}

/// Whether the bytes are those of such a file with numbers of 8 bits.
pub(super) fn is_of_8_bits(bytes: &[u8]) -> bool {
    let colours = Decoder::new(std::io::Cursor::new(bytes)).ok().and_then(|mut picture| picture.colortype().ok());
    colours == Some(ColorType::Gray(8))
}

/// Whether the bytes are those of such a file that counts its heights from the ellipsoid.
pub(super) fn is_ellipsoidal(bytes: &[u8]) -> bool {
    let keys = Decoder::new(std::io::Cursor::new(bytes)).ok().map(|mut picture| Keys::of(&mut picture));
    keys.is_some_and(|keys| keys.are_ellipsoidal())
}

fn open<'a>(bytes: &'a [u8], watch: &Rc<RefCell<Watch<'a>>>) -> Result<Picture<'a>, HeightsFileError> {
    let limits = || {
        let mut limits = Limits::default();
        (limits.decoding_buffer_size, limits.intermediate_buffer_size, limits.ifd_value_size) = (MOST_PIECE, MOST_PACKED, MOST_DIRECTORY);
        limits
    };
    let mut picture = Decoder::new(Watched::new(bytes, Rc::clone(watch))).map_err(beginning)?.with_limits(limits());
    let packing = picture.find_tag_unsigned::<u16>(Tag::Compression).map_err(beginning)?.unwrap_or(1);
    if !is_read(packing) {
        return Err(HeightsFileError::Image(ImageFault::Packing(packing_name(packing))));
    }
    let colours = picture.colortype().map_err(beginning)?;
    let one_number = matches!(colours, ColorType::Gray(8 | 16 | 32 | 64));
    if one_number { Ok(picture) } else { Err(HeightsFileError::Image(ImageFault::Numbers)) }
}

fn is_read(packing: u16) -> bool {
    use CompressionMethod::{Deflate, LZW, None, OldDeflate, PackBits};
    [None, LZW, Deflate, OldDeflate, PackBits].iter().any(|method| method.to_u16() == packing)
}

/// The names under which such packings are known; the others by their number.
fn packing_name(packing: u16) -> String {
    match packing {
        7 => "JPEG".into(),
        34_887 => "LERC".into(),
        34_925 => "LZMA".into(),
        50_000 => "ZSTD".into(),
        50_001 => "WebP".into(),
        other => other.to_string(),
    }
}

fn beginning(error: TiffError) -> HeightsFileError {
    at_row(error, 0)
}

fn at_row(error: TiffError, row: usize) -> HeightsFileError {
    match &error {
        TiffError::UnsupportedError(TiffUnsupportedError::UnsupportedCompressionMethod(method)) => {
            HeightsFileError::Image(ImageFault::Packing(packing_name(method.to_u16())))
        }
        TiffError::UnsupportedError(_) => HeightsFileError::Image(ImageFault::Numbers),
        TiffError::LimitsExceeded => HeightsFileError::Image(ImageFault::Pieces),
        TiffError::FormatError(TiffFormatError::InvalidDimensions(..)) => HeightsFileError::Image(ImageFault::Numbers),
        TiffError::IoError(end) if end.kind() == std::io::ErrorKind::UnexpectedEof => {
            HeightsFileError::Damaged { row, detail: String::new() }
        }
        TiffError::FormatError(_) | TiffError::IoError(_) | TiffError::IntSizeError | TiffError::UsageError(_) => {
            HeightsFileError::Damaged { row, detail: error.to_string() }
        }
    }
}

/// Strips or tiles: their size, how many stand beside each other, and how many bytes each takes.
struct Pieces {
    width: usize,
    height: usize,
    across: usize,
    bytes: Vec<u64>,
}

impl Pieces {
    fn of(picture: &mut Picture, columns: usize, rows: usize) -> Result<Self, HeightsFileError> {
        let (width, height) = picture.chunk_dimensions();
        let (width, height) = (width as usize, (height as usize).min(rows));
        let tag = match picture.get_chunk_type() {
            ChunkType::Strip => Tag::StripByteCounts,
            ChunkType::Tile => Tag::TileByteCounts,
        };
        let bytes = picture.get_tag_u64_vec(tag).map_err(beginning)?;
        let across = columns.div_ceil(width.max(1));
        let sound = width > 0 && height > 0 && bytes.len() == across.saturating_mul(rows.div_ceil(height.max(1)));
        if sound { Ok(Self { width, height, across, bytes }) } else { Err(HeightsFileError::Damaged { row: 0, detail: "pieces".into() }) }
    }

    fn count(&self) -> usize {
        self.bytes.len()
    }

    fn bytes_of(&self, piece: usize) -> u64 {
        self.bytes.get(piece).copied().unwrap_or_default()
    }

    /// A piece of no bytes was never written: it holds no heights.
    fn is_there(&self, piece: usize) -> bool {
        self.bytes_of(piece) > 0
    }

    /// Column and row of a piece's first post in the whole picture.
    fn first(&self, piece: usize) -> (usize, usize) {
        (piece % self.across * self.width, piece / self.across * self.height)
    }

    fn touches(&self, piece: usize, part: &Part) -> bool {
        let (left, top) = self.first(piece);
        let window = part.window;
        let columns = left < window.left + window.columns && left + self.width > window.left;
        columns && top < window.top + window.rows && top + self.height > window.top
    }

    /// Whether far more posts are claimed than the bytes of the file can hold, so that nothing is made ready for them.
    fn is_hollow(&self, part: &Part, bytes: usize) -> bool {
        let claimed = (0..self.count()).filter(|piece| self.touches(*piece, part)).count();
        let there = (0..self.count()).filter(|piece| self.is_there(*piece) && self.touches(*piece, part)).count();
        claimed > 0 && part.window.posts() / claimed * there > bytes.saturating_mul(MOST_SQUEEZED)
    }

    /// Whether none of the pieces that are wanted was ever written.
    fn is_unwritten(&self, part: &Part) -> bool {
        !(0..self.count()).any(|piece| self.is_there(piece) && self.touches(piece, part))
    }
}

/// Decodes one piece and puts its wanted posts in their places.
fn take(picture: &mut Picture, pieces: &Pieces, piece: usize, part: &mut Part, voids: Voids) -> Result<(), HeightsFileError> {
    let (left, top) = pieces.first(piece);
    let number = u32::try_from(piece).map_err(|_| HeightsFileError::Damaged { row: top + 1, detail: "pieces".into() })?;
    let width = picture.chunk_data_dimensions(number).0 as usize;
    let decoded = picture.read_chunk(number).map_err(|error| at_row(error, top + 1))?;
    let place = Place { left, top, width: width.max(1) };
    match &decoded {
        DecodingResult::U8(all) => place.put(all.iter().copied().map(f64::from), part, voids),
        DecodingResult::I8(all) => place.put(all.iter().copied().map(f64::from), part, voids),
        DecodingResult::U16(all) => place.put(all.iter().copied().map(f64::from), part, voids),
        DecodingResult::I16(all) => place.put(all.iter().copied().map(f64::from), part, voids),
        DecodingResult::U32(all) => place.put(all.iter().copied().map(f64::from), part, voids),
        DecodingResult::I32(all) => place.put(all.iter().copied().map(f64::from), part, voids),
        DecodingResult::F32(all) => place.put(all.iter().copied().map(f64::from), part, voids),
        DecodingResult::F64(all) => place.put(all.iter().copied(), part, voids),
        DecodingResult::U64(_) | DecodingResult::I64(_) | DecodingResult::F16(_) => Err(HeightsFileError::Image(ImageFault::Numbers)),
    }
}

/// Where a decoded piece lies.
struct Place {
    left: usize,
    top: usize,
    width: usize,
}

impl Place {
    fn put(&self, numbers: impl Iterator<Item = f64>, part: &mut Part, voids: Voids) -> Result<(), HeightsFileError> {
        for (at, number) in numbers.enumerate() {
            let (column, row) = (self.left + at % self.width, self.top + at / self.width);
            let place = part.index(column, row).and_then(|index| part.values_m.get_mut(index));
            if let Some(place) = place {
                *place = voids.at(number, column, row)?;
            }
        }
        Ok(())
    }
}

/// Whether a later picture of the file masks the first.
fn has_mask(picture: &mut Picture) -> bool {
    let mask = PhotometricInterpretation::TransparencyMask.to_u16();
    for _ in 0..MOST_PICTURES {
        if !picture.more_images() || picture.next_image().is_err() {
            return false;
        }
        if picture.find_tag_unsigned::<u16>(Tag::PhotometricInterpretation).ok().flatten() == Some(mask) {
            return true;
        }
    }
    false
}
