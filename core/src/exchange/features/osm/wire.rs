//! The encoding of Protocol Buffers, as far as the files use it.
//!
//! # References
//! Protocol Buffers documentation, "Encoding": variable-length numbers, zigzag, length-delimited fields.

use super::super::error::Fault;

/// The value of a field.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Value<'a> {
    /// A variable-length number.
    Number(u64),
    /// Bytes: a text, a message, a packed list.
    Bytes(&'a [u8]),
    /// A number of fixed length; none of those is needed.
    Fixed,
}

/// The fields of a message one after the other.
pub(super) struct Fields<'a> {
    rest: &'a [u8],
}

impl<'a> Fields<'a> {
    pub(super) fn new(message: &'a [u8]) -> Self {
        Self { rest: message }
    }

    fn field(&mut self) -> Result<(u64, Value<'a>), Fault> {
        let key = number(&mut self.rest)?;
        let value = match key & 7 {
            0 => Value::Number(number(&mut self.rest)?),
            1 => self.bytes(8).map(|_| Value::Fixed)?,
            2 => {
                let length = number(&mut self.rest)?;
                Value::Bytes(self.bytes(length)?)
            }
            5 => self.bytes(4).map(|_| Value::Fixed)?,
            _ => return Err(Fault::Cut),
        };
        Ok((key >> 3, value))
    }

    fn bytes(&mut self, length: u64) -> Result<&'a [u8], Fault> {
        let length = usize::try_from(length).map_err(|_| Fault::Cut)?;
        let (taken, rest) = self.rest.split_at_checked(length).ok_or(Fault::Cut)?;
        self.rest = rest;
        Ok(taken)
    }
}

impl<'a> Iterator for Fields<'a> {
    type Item = Result<(u64, Value<'a>), Fault>;

    fn next(&mut self) -> Option<Self::Item> {
        if self.rest.is_empty() {
            return None;
        }
        let field = self.field();
        if field.is_err() {
            self.rest = &[];
        }
        Some(field)
    }
}

/// A variable-length number: seven bits a byte, the lowest first.
fn number(rest: &mut &[u8]) -> Result<u64, Fault> {
    let mut value = 0_u64;
    for shift in (0..70).step_by(7) {
        let (byte, left) = rest.split_first().ok_or(Fault::Cut)?;
        *rest = left;
        value |= u64::from(byte & 0x7f).checked_shl(shift).unwrap_or(0);
        if byte & 0x80 == 0 {
            return Ok(value);
        }
    }
    Err(Fault::Cut)
}

/// A number whose sign is in its lowest bit.
pub(super) fn zigzag(value: u64) -> i64 {
    (value >> 1) as i64 ^ -((value & 1) as i64)
}

/// A packed list of variable-length numbers.
#[derive(Clone)]
pub(super) struct Packed<'a> {
    rest: &'a [u8],
}

impl<'a> Packed<'a> {
    pub(super) fn new(list: &'a [u8]) -> Self {
        Self { rest: list }
    }

    /// The running sums of a list of differences with sign.
    pub(super) fn sums(self) -> impl Iterator<Item = Result<i64, Fault>> {
        self.scan(0_i64, |sum, step| {
            Some(step.map(|step| {
                *sum = sum.wrapping_add(zigzag(step));
                *sum
            }))
        })
    }
}

impl Iterator for Packed<'_> {
    type Item = Result<u64, Fault>;

    fn next(&mut self) -> Option<Self::Item> {
        if self.rest.is_empty() {
            return None;
        }
        let value = number(&mut self.rest);
        if value.is_err() {
            self.rest = &[];
        }
        Some(value)
    }
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

    use super::*;

    /// The examples of the documentation, "Encoding": 150 is 96 01; zigzag of 4294967294 is 2147483647.
    #[test]
    fn the_documented_examples() {
        assert_eq!(number(&mut [0x96, 0x01].as_slice()), Ok(150));
        assert_eq!(zigzag(4_294_967_294), 2_147_483_647);
        assert_eq!([0, 1, 2, 3].map(zigzag), [0, -1, 1, -2]);
        let message = [0x12, 0x07, 0x74, 0x65, 0x73, 0x74, 0x69, 0x6e, 0x67];
        assert_eq!(Fields::new(&message).collect::<Vec<_>>(), [Ok((2, Value::Bytes(b"testing")))]);
    }

    #[test]
    fn a_number_that_never_ends_is_refused() {
        assert_eq!(number(&mut [0xff; 11].as_slice()), Err(Fault::Cut));
        assert_eq!(Fields::new(&[0x12, 0xff, 0xff, 0x03]).collect::<Vec<_>>(), [Err(Fault::Cut)]);
    }
}
