//! Which tags of OpenStreetMap mean which kind, as the map features page of its wiki describes them (from memory).

use super::kinds::{LandmarkKind, LineKind};
use super::tags::Tags;

/// A key, the values that count ("*" for any but a no), and the kind they mean. The first that fits is taken.
pub(super) type Rule<K> = (&'static str, &'static str, K);

/// Tags of lines.
pub(super) const LINES: [Rule<LineKind>; 17] = [
    ("highway", "track", LineKind::Track),
    ("highway", "path|footway|bridleway|steps|cycleway|via_ferrata|pedestrian", LineKind::Path),
    ("highway", "motorway|trunk|primary|secondary|tertiary|unclassified|residential|living_street|service|road|busway", LineKind::Road),
    ("highway", "motorway_link|trunk_link|primary_link|secondary_link|tertiary_link", LineKind::Road),
    ("waterway", "stream|ditch|drain|tidal_channel", LineKind::Creek),
    ("waterway", "river", LineKind::River),
    ("waterway", "canal", LineKind::Canal),
    ("railway", "rail|light_rail|narrow_gauge|tram|funicular|preserved|disused|abandoned|monorail", LineKind::Railway),
    ("natural", "ridge|arete", LineKind::Ridge),
    ("natural", "cliff", LineKind::Cliff),
    ("power", "line|minor_line", LineKind::PowerLine),
    ("barrier", "fence", LineKind::Fence),
    ("barrier", "wall|city_wall|retaining_wall", LineKind::Wall),
    ("barrier", "hedge", LineKind::Hedge),
    ("man_made", "embankment|dyke", LineKind::Ridge),
    ("man_made", "cutline", LineKind::Cutline),
    ("aerialway", "cable_car|gondola|mixed_lift|chair_lift|drag_lift|t-bar|j-bar|platter|rope_tow|goods|zip_line", LineKind::Cableway),
];

/// Tags of landmarks.
pub(super) const LANDMARKS: [Rule<LandmarkKind>; 40] = [
    ("natural", "peak|volcano|hill", LandmarkKind::Summit),
    ("natural", "saddle", LandmarkKind::Saddle),
    ("mountain_pass", "*", LandmarkKind::Saddle),
    ("man_made", "mast|communications_tower|antenna", LandmarkKind::Mast),
    ("man_made", "chimney", LandmarkKind::Chimney),
    ("man_made", "water_tower", LandmarkKind::WaterTower),
    ("man_made", "windmill", LandmarkKind::Windmill),
    ("man_made", "lighthouse", LandmarkKind::Lighthouse),
    ("man_made", "silo", LandmarkKind::Silo),
    ("man_made", "storage_tank|gasometer", LandmarkKind::Tank),
    ("man_made", "survey_point", LandmarkKind::SurveyMark),
    ("man_made", "cross", LandmarkKind::Cross),
    ("man_made", "tower", LandmarkKind::Tower),
    ("man_made", "bridge", LandmarkKind::Bridge),
    ("generator:source", "wind", LandmarkKind::WindTurbine),
    ("power", "tower", LandmarkKind::PowerPylon),
    ("aerialway", "pylon", LandmarkKind::CablePylon),
    ("building", "church|chapel|cathedral|monastery", LandmarkKind::Church),
    ("religion", "christian", LandmarkKind::Church),
    ("amenity", "place_of_worship", LandmarkKind::Worship),
    ("building", "mosque|temple|synagogue|shrine", LandmarkKind::Worship),
    ("historic", "wayside_cross", LandmarkKind::Cross),
    ("summit:cross", "*", LandmarkKind::Cross),
    ("man_made", "cairn", LandmarkKind::Cairn),
    ("natural", "cave_entrance", LandmarkKind::Cave),
    ("natural", "spring", LandmarkKind::Spring),
    ("waterway", "waterfall", LandmarkKind::Waterfall),
    ("natural", "rock|stone", LandmarkKind::Rock),
    ("historic", "castle|fort|tower", LandmarkKind::Castle),
    ("historic", "ruins", LandmarkKind::Ruin),
    ("historic", "monument|memorial", LandmarkKind::Monument),
    ("tourism", "alpine_hut|wilderness_hut", LandmarkKind::Hut),
    ("amenity", "shelter", LandmarkKind::Hut),
    ("building", "ruins", LandmarkKind::Ruin),
    ("building", "*", LandmarkKind::Building),
    ("ford", "*", LandmarkKind::Ford),
    ("bridge", "*", LandmarkKind::Bridge),
    ("information", "guidepost", LandmarkKind::Signpost),
    ("tourism", "viewpoint", LandmarkKind::Viewpoint),
    ("denotation", "landmark|natural_monument", LandmarkKind::Tree),
];

/// Keys under which a way that is none of [`LINES`] says that nobody walks along it: a border, an outline, a coast (our choice). What a
/// value of the other keys means as a line is told, and taken as a track.
pub(super) const NO_LINES: [&str; 12] =
    ["boundary", "building", "landuse", "leisure", "natural", "man_made", "waterway", "barrier", "power", "aerialway", "aeroway", "route"];

/// Other keys by which something says what it is, so that what is left out can be told by its kind.
pub(super) const OTHERS: [&str; 12] = [
    "leisure",
    "landuse",
    "boundary",
    "place",
    "aeroway",
    "geological",
    "shop",
    "craft",
    "office",
    "emergency",
    "public_transport",
    "route",
];

/// What `type` says of a relation, and so not what it is on the ground (OpenStreetMap wiki, "Types of relation", from memory).
pub(super) const OF_RELATIONS: [&str; 3] = ["multipolygon", "boundary", "route"];

/// Keys that speak of the data, not of what is on the ground.
pub(super) const OF_DATA: [&str; 8] = ["created_by", "source", "note", "fixme", "FIXME", "attribution", "comment", "import"];

/// Values by which a file says that something is not so.
const NO: [&str; 7] = ["", "no", "none", "false", "0", "f", "n"];

/// Whether a value says that something is not so.
pub(super) fn is_no(value: &str) -> bool {
    NO.iter().any(|no| value.trim().eq_ignore_ascii_case(no))
}

/// Values that say nothing without their key.
const UNDER_THEIR_KEY: [&str; 8] = ["line", "disused", "abandoned", "preserved", "wind", "goods", "landmark", "natural_monument"];

/// The kind that a value means under whatever key a file writes it; a grade after a track counts for nothing.
pub(super) fn by_value<K: Copy>(rules: &[Rule<K>], value: &str) -> Option<K> {
    let value = value.trim().to_lowercase();
    if UNDER_THEIR_KEY.contains(&value.as_str()) {
        return None;
    }
    let plain = value.split("_grade").next().unwrap_or_default();
    let fits = |(_, values, _): &&Rule<K>| *values != "*" && values.split('|').any(|known| known == plain);
    rules.iter().find(fits).map(|(_, _, kind)| *kind)
}

/// The kind that the first fitting rule gives.
pub(super) fn first<K: Copy>(rules: &[Rule<K>], tags: &Tags<'_>) -> Option<K> {
    let fits = |(key, values, _): &&Rule<K>| {
        tags.get(key).is_some_and(|found| match *values {
            "*" => !is_no(found),
            some => some.split('|').any(|value| value == found),
        })
    };
    rules.iter().find(fits).map(|(_, _, kind)| *kind)
}
