//! What a record says of itself by keys and values.

use super::kinds::{LandmarkKind, LineKind};
use super::tag_rules::{LANDMARKS, LINES, first, is_no};

/// Keys that are looked at; readers need not keep others.
const KEPT: [&str; 15] = [
    "kind",
    "type",
    "fclass",
    "name",
    "title",
    "label",
    "ref",
    "on",
    "spread_m",
    "height",
    "height_m",
    "ele",
    "elevation",
    "layer",
    "tunnel",
];

/// Height of a storey where only their number is stated, metres (common practice, no source).
const STOREY_M: f64 = 3.0;
/// Nothing that stands on the earth is higher, metres.
const MOST_HEIGHT_M: f64 = 1000.0;
/// Metres to a foot.
const FOOT_M: f64 = 0.3048;

/// Keys and values of one record, borrowed from it.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Tags<'a> {
    pairs: Vec<(&'a str, &'a str)>,
}

/// Whether a key is ever looked at.
pub(super) fn is_kept(key: &str) -> bool {
    let known = |name: &&str| key.eq_ignore_ascii_case(name);
    KEPT.iter().any(known)
        || key == "building:levels"
        || LINES.iter().map(|rule| rule.0).chain(LANDMARKS.iter().map(|rule| rule.0)).any(|name| known(&name))
}

impl<'a> Tags<'a> {
    /// Tags from pairs; the first of a key counts.
    pub(super) fn new(pairs: impl Iterator<Item = (&'a str, &'a str)>) -> Self {
        Self { pairs: pairs.filter(|(key, _)| is_kept(key)).take(KEPT.len() + LINES.len() + LANDMARKS.len()).collect() }
    }

    /// The value of a key, small or large letters.
    pub(super) fn get(&self, key: &str) -> Option<&'a str> {
        self.pairs.iter().find(|(found, _)| found.eq_ignore_ascii_case(key)).map(|(_, value)| *value)
    }

    /// All pairs.
    pub(super) fn pairs(&self) -> impl Iterator<Item = (&'a str, &'a str)> + '_ {
        self.pairs.iter().copied()
    }

    /// Its name by the usual keys.
    pub(super) fn name(&self) -> Option<&'a str> {
        ["name", "title", "label"].iter().filter_map(|key| self.get(key)).find(|name| !name.trim().is_empty())
    }

    /// The word by which the file itself says what it is.
    fn word(&self) -> Option<&'a str> {
        ["kind", "type", "fclass"].iter().filter_map(|key| self.get(key)).map(str::trim).find(|word| !word.is_empty())
    }

    /// What a line is, and in which word; nothing when the file does not say.
    pub(super) fn line(&self, layer: Option<&str>) -> Option<(Option<LineKind>, String)> {
        let meant = |word: &str| LineKind::meant(word).map(|kind| (Some(kind), kind.word().to_owned()));
        let said = self.word().and_then(meant);
        let tagged = || first(&LINES, self).map(|kind| (Some(kind), kind.word().to_owned()));
        said.or_else(tagged).or_else(|| layer.and_then(meant)).or_else(|| self.own_word().map(|word| (None, word)))
    }

    /// What a landmark is, and in which word; nothing when the file does not say.
    pub(super) fn landmark(&self, layer: Option<&str>) -> Option<(LandmarkKind, String)> {
        let meant = |word: &str| LandmarkKind::meant(word).map(|kind| (kind, kind.word().to_owned()));
        let said = self.word().and_then(meant);
        let tagged = || first(&LANDMARKS, self).map(|kind| (kind, kind.word().to_owned()));
        let own = || self.own_word().map(|word| (LandmarkKind::Landmark, word));
        said.or_else(tagged).or_else(|| layer.and_then(meant)).or_else(own)
    }

    /// A word of the file's own under `kind`, kept as it is.
    fn own_word(&self) -> Option<String> {
        self.get("kind").and_then(super::names::clean)
    }

    /// Whether something with the tag of a bridge.
    pub(super) fn is_bridge(&self) -> bool {
        first(&LANDMARKS, &Tags { pairs: self.get("bridge").map(|value| ("bridge", value)).into_iter().collect() }).is_some()
    }

    /// On which level a line runs: as stated, else 1 on a bridge, -1 in a tunnel, 0 on the ground.
    ///
    /// # References
    /// OpenStreetMap wiki, "Key:layer": a bridge without a layer is at least 1, a tunnel at most -1, -5 to 5 (from memory).
    pub(super) fn level(&self) -> i8 {
        let stated = self.get("layer").and_then(|text| text.trim().parse::<i8>().ok()).map(|level| level.clamp(-5, 5));
        let in_tunnel = self.get("tunnel").is_some_and(|value| !is_no(value) && value != "building_passage");
        match stated {
            Some(level) if level != 0 => level,
            Some(_) | None if self.is_bridge() => 1,
            Some(_) | None => -i8::from(in_tunnel),
        }
    }

    /// Height above the ground, metres: stated, or from the number of storeys.
    pub(super) fn height_m(&self) -> Option<f64> {
        let stated = || self.get("height_m").or_else(|| self.get("height")).and_then(length_m);
        let storeys = || self.get("building:levels").and_then(length_m).map(|levels| levels * STOREY_M);
        stated().or_else(storeys).filter(|height| *height > 0.0 && *height <= MOST_HEIGHT_M)
    }

    /// Height above the sea, metres.
    pub(super) fn above_sea_m(&self) -> Option<f64> {
        self.get("ele").or_else(|| self.get("elevation")).and_then(length_m).filter(|height| (-500.0..=9000.0).contains(height))
    }

    /// The spread that the record states; the text of one that is no number.
    pub(super) fn spread_m(&self) -> Option<Result<f64, ()>> {
        let number = |text: &str| text.trim().parse::<f64>().ok().filter(|spread| (0.0..=10_000.0).contains(spread)).ok_or(());
        self.get("spread_m").map(number)
    }
}

/// "12", "12.5 m", "40 ft", "40'" in metres.
fn length_m(text: &str) -> Option<f64> {
    let text = text.trim();
    let end = text.find(|c: char| !(c.is_ascii_digit() || c == '.' || c == '-')).unwrap_or(text.len());
    let number: f64 = text.get(..end)?.parse().ok()?;
    let unit = text.get(end..)?.trim();
    match unit {
        "" | "m" => Some(number),
        "ft" | "'" => Some(number * FOOT_M),
        _ => None,
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

    #[test]
    fn heights_are_read_with_their_unit() {
        for (text, metres) in [("12", 12.0), ("12.5 m", 12.5), ("40 ft", 12.192), ("40'", 12.192)] {
            let tags = Tags::new([("height", text)].into_iter());
            assert!(tags.height_m().is_some_and(|height| (height - metres).abs() < 1e-9), "{text}");
        }
        for text in ["", "high", "12 yd", "-3", "1e3", "5000"] {
            assert_eq!(Tags::new([("height", text)].into_iter()).height_m(), None, "{text}");
        }
    }

    #[test]
    fn storeys_count_where_no_height_is_stated() {
        let both = Tags::new([("building:levels", "4"), ("height", "11")].into_iter());
        assert_eq!(both.height_m(), Some(11.0));
        assert_eq!(Tags::new([("building:levels", "4")].into_iter()).height_m(), Some(12.0));
    }

    #[test]
    fn a_bridge_that_is_none_is_none() {
        assert!(Tags::new([("bridge", "viaduct")].into_iter()).is_bridge());
        assert!(!Tags::new([("bridge", "F")].into_iter()).is_bridge());
        assert!(!Tags::new([("bridge", "no")].into_iter()).is_bridge());
    }
}
