//! From records to values: every word and number checked, every refusal named.

use super::Refusal;
use super::record::{DetourRecord, LegRecord};
use crate::earth::Instant;
use crate::measure::{AngleUnit, Message, NamedBearing, North};
use crate::travel::{Detour, Distance, Leg, Pace, PaceKind, Side};

pub(super) fn instant(at: Option<&String>) -> Result<Instant, Refusal> {
    let text = at.ok_or_else(|| Refusal::plain("time-missing"))?;
    Ok(Instant::parse(text)?)
}

pub(super) fn north(word: &str) -> Result<North, Refusal> {
    let typed = word.trim().to_lowercase();
    match typed.strip_suffix("north").map_or(typed.as_str(), str::trim_end) {
        "mag" | "magnetic" => Ok(North::Magnetic),
        "grid" => Ok(North::Grid),
        "true" => Ok(North::True),
        _ => Err(Refusal::named("north-unknown", word)),
    }
}

/// How bearings are to be written; degrees when nothing is said.
pub(super) fn unit(word: Option<&str>) -> Result<AngleUnit, Refusal> {
    let Some(word) = word else { return Ok(AngleUnit::Degrees) };
    AngleUnit::named(word).ok_or_else(|| Refusal::named("unit-unknown", word.trim()))
}

/// A grid as `Grid::named` takes it: a number alone is one of the EPSG register, and so are two joined by "+".
pub(super) fn numbered_grid(name: &str) -> String {
    let name = name.trim();
    let number = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    if name.split('+').all(number) { format!("EPSG:{name}") } else { name.to_owned() }
}

/// A number that must lie within bounds, low and high.
pub(super) fn bounded(name: &str, value: f64, bounds: (f64, f64)) -> Result<f64, Refusal> {
    let (low, high) = bounds;
    if (low..=high).contains(&value) {
        return Ok(value);
    }
    let message = Message::new("number-unreadable").text("name", name);
    Err(Refusal::new(message.text("low", low.to_string()).text("high", high.to_string())))
}

pub(super) fn leg(record: &LegRecord) -> Result<Leg, Refusal> {
    let bearing = NamedBearing::parse(&record.bearing)?;
    let kind = pace_kind(record.pace_kind.as_deref())?;
    let distance = distance(record.paces, kind, record.metres, "distance-missing")?;
    let detour = record.detour.as_ref().map(|detour| self::detour(detour, kind)).transpose()?;
    let met = record.met.as_ref().map(|met| met.trim().to_owned()).filter(|met| !met.is_empty());
    Ok(Leg { bearing, distance, detour, met })
}

pub(super) fn pace_kind(word: Option<&str>) -> Result<PaceKind, Refusal> {
    match word.map(|word| word.trim().to_lowercase()).as_deref() {
        None | Some("double") => Ok(PaceKind::Double),
        Some("single") => Ok(PaceKind::Single),
        Some(other) => Err(Refusal::named("pace-kind-unknown", other)),
    }
}

fn distance(paces: Option<f64>, kind: PaceKind, metres: Option<f64>, missing: &'static str) -> Result<Distance, Refusal> {
    match (paces, metres) {
        (Some(count), None) => Ok(Distance::Paces { count, kind }.checked()?),
        (None, Some(metres)) => Ok(Distance::Metres(metres).checked()?),
        (None, None) => Err(Refusal::plain(missing)),
        (Some(_), Some(_)) => Err(Refusal::plain("distance-twice")),
    }
}

fn detour(record: &DetourRecord, leg_kind: PaceKind) -> Result<Detour, Refusal> {
    let side = match record.side.trim().to_lowercase().as_str() {
        "left" => Side::Left,
        "right" => Side::Right,
        _ => return Err(Refusal::named("side-unknown", &record.side)),
    };
    let kind = record.pace_kind.as_deref().map_or(Ok(leg_kind), |word| pace_kind(Some(word)))?;
    Ok(Detour { side, out: distance(record.paces, kind, record.metres, "detour-missing")? })
}

pub(super) fn pace(double: Option<f64>, single: Option<f64>, spread_percent: Option<f64>) -> Result<Pace, Refusal> {
    let spread = spread_percent.map(|percent| percent / 100.0);
    match (double, single) {
        (Some(count), None) => Ok(Pace::measured(count, PaceKind::Double, spread)?),
        (None, Some(count)) => Ok(Pace::measured(count, PaceKind::Single, spread)?),
        (None, None) => Err(Refusal::plain("pace-missing")),
        (Some(_), Some(_)) => Err(Refusal::plain("pace-twice")),
    }
}
