//! The outer layer of a PBF file: blobs, packed or not.

use std::io::Read;

use super::super::error::Fault;
use super::wire::{Fields, Value};

/// The largest header of a blob, bytes ("PBF Format").
const MOST_HEADER: usize = 64 * 1024;
/// The largest blob, packed or unpacked, bytes ("PBF Format").
const MOST_BLOB: usize = 32 * 1024 * 1024;

/// One blob as it lies in the file.
pub(super) struct Blob<'a> {
    pub(super) kind: &'a str,
    /// Where it begins in the file.
    pub(super) from: usize,
    raw: Option<&'a [u8]>,
    zlib: Option<&'a [u8]>,
}

/// The blobs of a file one after the other.
pub(super) struct Blobs<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Blobs<'a> {
    pub(super) fn new(bytes: &'a [u8]) -> Self {
        Self { bytes, at: 0 }
    }

    fn take(&mut self, length: usize, most: usize) -> Result<&'a [u8], Fault> {
        if length > most {
            return Err(Fault::Swollen);
        }
        let end = self.at.checked_add(length).ok_or(Fault::Cut)?;
        let taken = self.bytes.get(self.at..end).ok_or(Fault::Cut)?;
        self.at = end;
        Ok(taken)
    }

    fn blob(&mut self) -> Result<Blob<'a>, Fault> {
        let from = self.at;
        let length: [u8; 4] = self.take(4, 4)?.try_into().map_err(|_| Fault::Cut)?;
        let header = self.take(u32::from_be_bytes(length) as usize, MOST_HEADER)?;
        let (mut kind, mut size) = ("", None);
        for field in Fields::new(header) {
            match field? {
                (1, Value::Bytes(text)) => kind = std::str::from_utf8(text).map_err(|_| Fault::Cut)?,
                (3, Value::Number(number)) => size = usize::try_from(number).ok(),
                _ => {}
            }
        }
        let body = self.take(size.ok_or(Fault::Cut)?, MOST_BLOB)?;
        let mut blob = Blob { kind, from, raw: None, zlib: None };
        for field in Fields::new(body) {
            match field? {
                (1, Value::Bytes(raw)) => blob.raw = Some(raw),
                (3, Value::Bytes(packed)) => blob.zlib = Some(packed),
                _ => {}
            }
        }
        Ok(blob)
    }
}

impl<'a> Iterator for Blobs<'a> {
    type Item = Result<Blob<'a>, Fault>;

    fn next(&mut self) -> Option<Self::Item> {
        if self.at >= self.bytes.len() {
            return None;
        }
        let blob = self.blob();
        if blob.is_err() {
            self.at = self.bytes.len();
        }
        Some(blob)
    }
}

impl Blob<'_> {
    /// What the blob holds. It never grows beyond what the format allows, whatever it claims.
    pub(super) fn unpacked(&self) -> Result<Vec<u8>, Fault> {
        match (self.raw, self.zlib) {
            (Some(raw), _) => Ok(raw.to_vec()),
            (None, Some(packed)) => {
                let mut unpacked = Vec::new();
                let most = MOST_BLOB as u64 + 1;
                flate2::read::ZlibDecoder::new(packed).take(most).read_to_end(&mut unpacked).map_err(|_| Fault::Cut)?;
                if unpacked.len() > MOST_BLOB { Err(Fault::Swollen) } else { Ok(unpacked) }
            }
            (None, None) => Err(Fault::Packed),
        }
    }
}
