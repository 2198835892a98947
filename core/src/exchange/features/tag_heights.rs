//! What a record says of heights: above the ground, of storeys, above the sea.

use super::tags::Tags;

/// Height of a storey where only their number is stated, metres (common practice, no source).
const STOREY_M: f64 = 3.0;
/// Nothing that stands on the earth is higher, metres.
const MOST_HEIGHT_M: f64 = 1000.0;
/// Metres to a foot.
const FOOT_M: f64 = 0.3048;
/// Inches to a foot.
const INCHES: f64 = 12.0;

impl<'a> Tags<'a> {
    /// Height above the ground, metres: stated, or from the number of storeys.
    pub(super) fn height_m(&self) -> Option<f64> {
        let storeys = || self.get("building:levels").and_then(length_m).map(|levels| levels * STOREY_M);
        self.stated_height().and_then(length_m).filter(can_be).or_else(|| storeys().filter(can_be))
    }

    fn stated_height(&self) -> Option<&'a str> {
        self.get("height_m").or_else(|| self.get("height")).map(str::trim).filter(|stated| !stated.is_empty())
    }

    /// A height above the ground that is stated but cannot be read, or cannot be.
    pub(super) fn odd_height(&self) -> Option<&'a str> {
        self.stated_height().filter(|stated| !length_m(stated).as_ref().is_some_and(can_be))
    }

    /// Height above the sea, metres.
    pub(super) fn above_sea_m(&self) -> Option<f64> {
        self.get("ele").or_else(|| self.get("elevation")).and_then(length_m).filter(|height| (-500.0..=9000.0).contains(height))
    }
}

/// Whether something that stands on the earth can be so high, metres.
fn can_be(height_m: &f64) -> bool {
    *height_m > 0.0 && *height_m <= MOST_HEIGHT_M
}

/// "12", "12.5 m", "40 ft", "40'" or "40'6\"" in metres.
///
/// # References
/// OpenStreetMap wiki, "Map features/Units": feet and inches as 12'6" (from memory).
fn length_m(text: &str) -> Option<f64> {
    let (number, unit) = number_and_unit(text)?;
    match unit {
        "" | "m" => Some(number),
        "ft" | "'" => Some(number * FOOT_M),
        unit => {
            let (inches, unit) = number_and_unit(unit.strip_prefix('\'')?)?;
            let sound = ["\"", "''"].contains(&unit) && (0.0..INCHES).contains(&inches) && number >= 0.0;
            sound.then_some((number + inches / INCHES) * FOOT_M)
        }
    }
}

fn number_and_unit(text: &str) -> Option<(f64, &str)> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-')).unwrap_or(text.len());
    Some((text.get(..end)?.parse().ok()?, text.get(end..)?.trim()))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::float_cmp, reason = "stated figures")]

    use super::*;

    #[test]
    fn heights_are_read_with_their_unit() {
        for (text, metres) in [("12", 12.0), ("12.5 m", 12.5), ("40 ft", 12.192), ("40'", 12.192), ("164'6\"", 50.1396), ("5' 3''", 1.6002)]
        {
            let tags = Tags::new([("height", text)].into_iter());
            assert!(tags.height_m().is_some_and(|height| (height - metres).abs() < 1e-9), "{text}");
        }
        for text in ["high", "12 yd", "-3", "1e3", "5000", "12,5", "0", "5'12\"", "5'6"] {
            let tags = Tags::new([("height", text)].into_iter());
            assert_eq!((tags.height_m(), tags.odd_height()), (None, Some(text)), "{text}");
        }
        for text in ["", " ", "35"] {
            assert_eq!(Tags::new([("height", text)].into_iter()).odd_height(), None, "{text}");
        }
    }

    #[test]
    fn storeys_count_where_no_height_is_stated() {
        let both = Tags::new([("building:levels", "4"), ("height", "11")].into_iter());
        assert_eq!(both.height_m(), Some(11.0));
        assert_eq!(Tags::new([("building:levels", "4")].into_iter()).height_m(), Some(12.0));
    }
}
