//! What a record says of itself by keys and values.

use super::kinds::{LandmarkKind, LineKind};
use super::names::clean;
use super::tag_rules::{LANDMARKS, LINES, NO_LINES, OF_DATA, OF_RELATIONS, OTHERS, by_value, first, is_no};
use crate::sheet::LEVEL_ALONE;

/// Keys that are looked at; readers need not keep others.
const KEPT: [&str; 17] = [
    "kind",
    "type",
    "fclass",
    "class",
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
    "location",
    "tunnel",
];

/// Words for what is not there yet or no longer, as values of what it is (of what stands all but the abandoned), as keys of their own
/// ("demolished=yes") and as prefixes of a key ("razed:building=church") (OpenStreetMap wiki,
/// "Lifecycle prefix" and "Key:highway", from memory).
const GONE: [&str; 9] = ["proposed", "planned", "construction", "abandoned", "razed", "demolished", "dismantled", "destroyed", "removed"];
/// Keys that say what something is for or has on it, not that it stands.
const FOR_WHAT: [&str; 9] =
    ["religion", "amenity", "tourism", "generator:source", "summit:cross", "mountain_pass", "ford", "information", "denotation"];

/// No place is less sure, metres (our choice).
pub(super) const MOST_SPREAD_M: f64 = 10_000.0;

/// Keys and values of one record, borrowed from it.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Tags<'a> {
    pairs: Vec<(&'a str, &'a str)>,
    /// Whether any of them speaks of what is on the ground, looked at or not.
    pub(super) is_said: bool,
}

/// Whether a key is ever looked at.
pub(super) fn is_kept(key: &str) -> bool {
    KEPT.iter().any(|name| key.eq_ignore_ascii_case(name))
        || key == "building:levels"
        || GONE.contains(&key)
        || OTHERS.contains(&key)
        || is_ruled(key)
        || out_of_force(key).is_some_and(is_ruled)
}

/// Whether a key is one of those that say what something is.
fn is_ruled(key: &str) -> bool {
    LINES.iter().map(|rule| rule.0).chain(LANDMARKS.iter().map(|rule| rule.0)).any(|name| key.eq_ignore_ascii_case(name))
}

/// The key behind a prefix by which a tag is not in force yet, or no longer.
fn out_of_force(key: &str) -> Option<&str> {
    key.split_once(':').filter(|(prefix, _)| GONE.contains(prefix)).map(|(_, rest)| rest)
}

impl<'a> Tags<'a> {
    /// Tags from pairs; the first of a key counts.
    pub(super) fn new(pairs: impl Iterator<Item = (&'a str, &'a str)>) -> Self {
        const MOST: usize = KEPT.len() + LINES.len() + LANDMARKS.len() + OTHERS.len();
        let mut is_said = false;
        let of_data = |key: &str| OF_DATA.contains(&key.split(':').next().unwrap_or_default());
        let looked_at = pairs.inspect(|(key, _)| is_said |= !of_data(key)).filter(|(key, _)| is_kept(key));
        let pairs = looked_at.take(MOST).collect();
        Self { pairs, is_said }
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

    /// The words by which the file itself says what it is.
    fn words(&self) -> impl Iterator<Item = &'a str> + '_ {
        ["kind", "type", "fclass", "class"].iter().filter_map(|key| self.get(key)).map(str::trim).filter(|word| !word.is_empty())
    }

    /// The first of them.
    pub(super) fn word(&self) -> Option<&'a str> {
        self.words().next()
    }

    /// What a line is, and in which word; nothing when the file does not say.
    pub(super) fn line(&self, layer: Option<&str>) -> Option<(Option<LineKind>, String)> {
        let named = |kind: LineKind| (Some(kind), kind.word().to_owned());
        let meant = |word: &str| LineKind::meant(word).or_else(|| by_value(&LINES, word)).map(named);
        let said = self.words().find_map(meant);
        let tagged = || first(&LINES, self).map(|kind| (Some(kind), kind.word().to_owned()));
        said.or_else(tagged).or_else(|| layer.and_then(meant)).or_else(|| self.own_word().map(|word| (None, word)))
    }

    /// What a landmark is, and in which word; nothing when the file does not say.
    pub(super) fn landmark(&self, layer: Option<&str>) -> Option<(LandmarkKind, String)> {
        let named = |kind: LandmarkKind| (kind, kind.word().to_owned());
        let meant = |word: &str| LandmarkKind::meant(word).or_else(|| by_value(&LANDMARKS, word)).map(named);
        let said = self.words().find_map(meant);
        let tagged = || first(&LANDMARKS, self).map(|kind| (kind, kind.word().to_owned()));
        let own = || self.own_word().map(|word| (LandmarkKind::Landmark, word));
        said.or_else(tagged).or_else(|| layer.and_then(meant)).or_else(own)
    }

    /// In which word a line says what it is, where that is not known: under one of the usual keys, or as a tag.
    pub(super) fn said_line(&self) -> Option<String> {
        let tagged = || LINES.iter().find_map(|(key, _, _)| Some(format!("{key}={}", self.get(key).filter(|value| !is_no(value))?)));
        self.word().map(str::to_owned).or_else(tagged)
    }

    /// What it is by the keys of OpenStreetMap, known here or not: "natural=tree".
    pub(super) fn said_kind(&self) -> Option<String> {
        let keys = LINES.iter().map(|rule| rule.0).chain(LANDMARKS.iter().map(|rule| rule.0)).chain(OTHERS).chain(["type"]);
        keys.filter_map(|key| self.said(key)).next()
    }

    /// A key with its value, unless that is a no.
    fn said(&self, key: &str) -> Option<String> {
        const MOST_CHARACTERS: usize = 40;
        let value = clean(self.get(key).filter(|value| !is_no(value))?)?;
        Some(format!("{key}={}", value.chars().take(MOST_CHARACTERS).collect::<String>()))
    }

    /// What it is where that is said, is no line that is known, and is under a key of what nobody walks along.
    pub(super) fn no_line(&self, layer: Option<&str>) -> Option<String> {
        let word = self.word().filter(|word| !OF_RELATIONS.contains(word));
        let is_line = self.line(layer).is_some() || word.is_some() || self.said("highway").or_else(|| self.said("railway")).is_some();
        if is_line { None } else { NO_LINES.iter().find_map(|key| self.said(key)) }
    }

    /// Whether it is only planned or being built, or is gone: by the value of what it is, by a tag of its own, or because what it is
    /// stands under such a prefix and the rest says only what it is for.
    pub(super) fn is_gone(&self) -> bool {
        let is = |value: &str| GONE.iter().any(|gone| value.trim().eq_ignore_ascii_case(gone));
        let road = || self.get("highway").or_else(|| self.word()).is_some_and(is);
        let stands = |key: &str| self.get(key).is_some_and(|value| is(value) && !value.trim().eq_ignore_ascii_case("abandoned"));
        let of_its_own = || {
            GONE.iter().any(|key| *key != "abandoned" && self.get(key).is_some_and(|value| matches!(value.trim(), "yes" | "true" | "1")))
        };
        road() || ["building", "man_made", "power", "aerialway", "barrier"].into_iter().any(stands) || of_its_own() || self.was()
    }

    /// Whether the tag that said what it is was put out of force, and no other says that it stands.
    fn was(&self) -> bool {
        let says_what = |key: &str| !FOR_WHAT.contains(&key) && is_ruled(key);
        self.pairs.iter().any(|(key, value)| out_of_force(key).is_some_and(says_what) && !is_no(value))
            && !self.pairs.iter().any(|(key, value)| says_what(key) && !is_no(value))
    }

    /// Whether it runs under the ground, through what it passes.
    ///
    /// # References
    /// OpenStreetMap wiki, "Key:tunnel", "Key:location" (from memory).
    pub(super) fn is_covered(&self) -> bool {
        self.get("tunnel").is_some_and(|value| !is_no(value) && value != "building_passage") || self.get("location") == Some("underground")
    }

    /// A word of the file's own under `kind`, kept as it is.
    fn own_word(&self) -> Option<String> {
        self.get("kind").and_then(super::names::clean)
    }

    /// Whether something with the tag of a bridge.
    pub(super) fn is_bridge(&self) -> bool {
        let alone = Tags::new(self.get("bridge").map(|value| ("bridge", value)).into_iter());
        first(&LANDMARKS, &alone).is_some()
    }

    /// On which level a line runs: as stated, else 1 on a bridge, -1 in a tunnel, 0 on the ground. See [`LEVEL_ALONE`] for one that is on
    /// neither.
    ///
    /// # References
    /// OpenStreetMap wiki, "Key:layer": a bridge without a layer is at least 1, a tunnel at most -1, -5 to 5 (from memory).
    pub(super) fn level(&self) -> i8 {
        let stated = self.get("layer").and_then(|text| text.trim().parse::<i8>().ok()).map(|level| level.clamp(-5, 5));
        match stated {
            Some(level) if level != 0 && !self.is_bridge() && !self.is_covered() => LEVEL_ALONE + level,
            Some(level) if level != 0 => level,
            Some(_) | None if self.is_bridge() => 1,
            Some(_) | None => -i8::from(self.is_covered()),
        }
    }

    /// The spread that the record states; the text of one that is no number.
    pub(super) fn spread_m(&self) -> Option<Result<f64, ()>> {
        let number = |text: &str| text.trim().parse::<f64>().ok().filter(|spread| (0.0..=MOST_SPREAD_M).contains(spread)).ok_or(());
        self.get("spread_m").map(number)
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
    fn what_runs_under_the_ground_is_told_in_two_ways() {
        let covered = |key: &str, value: &str| Tags::new([(key, value)].into_iter()).is_covered();
        assert!(covered("tunnel", "culvert") && covered("location", "underground"));
        assert!(!covered("tunnel", "no") && !covered("location", "overground"));
    }

    /// OpenStreetMap wiki, "Map features" (from memory): what a walker follows, stands at or sights, and what nobody walks along.
    #[test]
    fn what_a_walker_uses_is_taken_and_the_rest_told_by_its_kind() {
        let tags = |key: &'static str, value: &'static str| Tags::new([(key, value)].into_iter());
        for (key, value, kind) in [
            ("barrier", "hedge", LineKind::Hedge),
            ("man_made", "dyke", LineKind::Ridge),
            ("man_made", "cutline", LineKind::Cutline),
            ("aerialway", "chair_lift", LineKind::Cableway),
        ] {
            assert_eq!(tags(key, value).line(None).and_then(|(kind, _)| kind), Some(kind), "{key}={value}");
        }
        for (key, value, kind) in [
            ("man_made", "cairn", LandmarkKind::Cairn),
            ("natural", "spring", LandmarkKind::Spring),
            ("natural", "cave_entrance", LandmarkKind::Cave),
            ("waterway", "waterfall", LandmarkKind::Waterfall),
            ("natural", "rock", LandmarkKind::Rock),
            ("tourism", "viewpoint", LandmarkKind::Viewpoint),
            ("information", "guidepost", LandmarkKind::Signpost),
            ("denotation", "natural_monument", LandmarkKind::Tree),
        ] {
            assert_eq!(tags(key, value).landmark(None).map(|(kind, _)| kind), Some(kind), "{key}={value}");
        }
        for (key, value) in [("natural", "tree"), ("amenity", "bench"), ("place", "hamlet"), ("waterway", "dam"), ("natural", "coastline")]
        {
            let tags = tags(key, value);
            assert_eq!((tags.line(None), tags.landmark(None), tags.said_kind()), (None, None, Some(format!("{key}={value}"))));
        }
        let no_line = |key, value| tags(key, value).no_line(None);
        assert_eq!(no_line("boundary", "administrative").as_deref(), Some("boundary=administrative"));
        let route = Tags::new([("type", "route"), ("route", "hiking")].into_iter());
        assert_eq!(route.no_line(None).as_deref(), Some("route=hiking"));
        assert_eq!(
            [no_line("type", "route"), no_line("highway", "raceway"), no_line("barrier", "hedge"), no_line("building", "no")],
            [None, None, None, None]
        );
        assert!(tags("foo", "bar").is_said && !tags("source:name", "survey").is_said);
    }

    /// Words as files made from OpenStreetMap's tags write them, under the keys that they use.
    #[test]
    fn kinds_are_read_under_the_usual_keys_and_planned_roads_are_none() {
        let line = |key: &str, value: &str| Tags::new([(key, value)].into_iter()).line(None).and_then(|(kind, _)| kind);
        for (key, value, kind) in [
            ("fclass", "primary", LineKind::Road),
            ("fclass", "track_grade3", LineKind::Track),
            ("class", "river", LineKind::River),
            ("kind", "Primary", LineKind::Road),
            ("type", "footway", LineKind::Path),
            ("waterway", "stream", LineKind::Creek),
            ("natural", "cliff", LineKind::Cliff),
            ("natural", "arete", LineKind::Ridge),
            ("kind", "ar\u{ea}te", LineKind::Ridge),
        ] {
            assert_eq!(line(key, value), Some(kind), "{key}={value}");
        }
        let mark = |key: &str, value: &str| Tags::new([(key, value)].into_iter()).landmark(None).map(|(kind, _)| kind);
        assert_eq!(mark("fclass", "peak"), Some(LandmarkKind::Summit));
        assert_eq!(mark("class", "communications_tower"), Some(LandmarkKind::Mast));
        assert_eq!(line("fclass", "zeppelin"), None);
        let two = Tags::new([("type", "LineString"), ("class", "river")].into_iter());
        assert_eq!(two.line(None).and_then(|(kind, _)| kind), Some(LineKind::River));
        assert_eq!(Tags::new([("highway", "raceway")].into_iter()).said_line().as_deref(), Some("highway=raceway"));
        for (key, value, planned) in [("highway", "proposed", true), ("fclass", "abandoned", true), ("highway", "track", false)] {
            assert_eq!(Tags::new([(key, value)].into_iter()).is_gone(), planned, "{key}={value}");
        }
    }

    /// OpenStreetMap wiki, "Lifecycle prefix" (from memory): what has one is not there, whatever it was for; a way on an old railway is.
    #[test]
    fn what_is_gone_is_no_landmark_and_a_path_on_an_old_railway_is_a_path() {
        let gone: [&[(&str, &str)]; 6] = [
            &[("razed:building", "church"), ("religion", "christian"), ("amenity", "place_of_worship")],
            &[("building", "construction")],
            &[("building", "yes"), ("demolished", "yes")],
            &[("abandoned:man_made", "mast"), ("name", "Old mast")],
            &[("proposed:highway", "track")],
            &[("man_made", "proposed")],
        ];
        let there: [&[(&str, &str)]; 5] = [
            &[("highway", "path"), ("abandoned:railway", "rail")],
            &[("building", "yes"), ("demolished:man_made", "chimney")],
            &[("building", "abandoned")],
            &[("building", "church"), ("abandoned", "yes")],
            &[("building", "yes"), ("demolished", "no")],
        ];
        let is_gone = |tags: &[(&'static str, &'static str)]| Tags::new(tags.iter().copied()).is_gone();
        assert_eq!((gone.map(is_gone), there.map(is_gone)), ([true; 6], [false; 5]));
    }

    #[test]
    fn a_bridge_that_is_none_is_none() {
        assert!(Tags::new([("bridge", "viaduct")].into_iter()).is_bridge());
        assert!(!Tags::new([("bridge", "F")].into_iter()).is_bridge());
        assert!(!Tags::new([("bridge", "no")].into_iter()).is_bridge());
    }
}
