//! Bytes that came as text.

use crate::measure::{Message, Telling};

/// Why a text holds no bytes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum Base64Error {
    /// A letter that does not belong to it, or a text of a wrong length.
    #[error("base64-unreadable")]
    Unreadable,
}

impl Telling for Base64Error {
    fn message(&self) -> Message {
        Message::new("base64-unreadable")
    }
}

/// Reads bytes in base 64, with or without the padding; ends of lines are passed over.
///
/// # Errors
/// [`Base64Error`] for a letter outside the alphabet, or bits left over that are not zero.
///
/// # References
/// RFC 4648 (2006), section 4; a decoder may pass over ends of lines where its specification says so (section 3.3).
pub fn read_base64(text: &str) -> Result<Vec<u8>, Base64Error> {
    let mut bytes = Vec::with_capacity(text.len() / 4 * 3 + 3);
    let (mut held, mut bits) = (0_u32, 0_u32);
    let body = text.trim_end().trim_end_matches('=');
    for letter in body.bytes().filter(|letter| !matches!(letter, b'\r' | b'\n')) {
        held = (held << 6) | sextet(letter).ok_or(Base64Error::Unreadable)?;
        bits += 6;
        if bits >= 8 {
            bits -= 8;
            bytes.push((held >> bits) as u8);
            held &= (1 << bits) - 1;
        }
    }
    if bits < 6 && held == 0 { Ok(bytes) } else { Err(Base64Error::Unreadable) }
}

fn sextet(letter: u8) -> Option<u32> {
    let number = match letter {
        b'A'..=b'Z' => letter - b'A',
        b'a'..=b'z' => letter - b'a' + 26,
        b'0'..=b'9' => letter - b'0' + 52,
        b'+' => 62,
        b'/' => 63,
        _ => return None,
    };
    Some(u32::from(number))
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

    use super::{Base64Error, read_base64};

    /// The test vectors of RFC 4648, section 10.
    #[test]
    fn the_published_vectors_are_read() {
        let vectors =
            [("", ""), ("Zg==", "f"), ("Zm8=", "fo"), ("Zm9v", "foo"), ("Zm9vYg==", "foob"), ("Zm9vYmE=", "fooba"), ("Zm9vYmFy", "foobar")];
        for (text, bytes) in vectors {
            assert_eq!(read_base64(text), Ok(bytes.as_bytes().to_vec()), "{text}");
            assert_eq!(read_base64(text.trim_end_matches('=')), Ok(bytes.as_bytes().to_vec()), "{text} without padding");
        }
        assert_eq!(read_base64("Zm9v\r\nYmFy\n"), Ok(b"foobar".to_vec()));
        assert_eq!(read_base64("+/+/"), Ok(vec![0xfb, 0xff, 0xbf]));
    }

    #[test]
    fn what_is_no_base_64_is_refused() {
        for text in ["Zm9v!", "Z", "Zh==", "Zm=v", "-_-_", "Zm9vé"] {
            assert_eq!(read_base64(text), Err(Base64Error::Unreadable), "{text}");
        }
    }
}
