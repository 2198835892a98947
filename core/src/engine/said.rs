//! From records of what the ground shows to what the fix room weighs: words understood, numbers checked.

use super::record_sighting::SightingRecord;
use super::state::Trip;
use super::{Refusal, understand};
use crate::earth::{Norths, read_place};
use crate::fix::{GroundSaid, HereKind, Lay, Sighting, said_along};
use crate::ground::{AltimeterReading, AltimeterSet, Heights, LandformKind, Rise, Trend};
use crate::measure::{Message, NamedBearing, Point};
use crate::sheet::{Line, Sheet};

/// One sigma of a slope measured in degrees with what a walker carries (common practice, no source).
const SLOPE_SPREAD_DEG: f64 = 4.0;
/// One sigma of the bearing to the middle of a landform (common practice, no source).
const LANDFORM_SPREAD_DEG: f64 = 10.0;
/// How far a landform is of which no distance is told, metres, and the factor by which that may be wrong (common practice, no source).
const LANDFORM_ANYWHERE: (f64, f64) = (300.0, 3.0);
/// The factor by which a distance estimated by eye may be wrong (common practice, no source).
const BY_EYE_FACTOR: f64 = 1.5;
/// A landform underfoot: within 20 m, and the factor by which that may be wrong (common practice, no source).
const UNDERFOOT: (f64, f64) = (20.0, 2.0);
/// One sigma of where the slope underfoot is seen to fall, degrees (common practice, no source).
const ASPECT_SPREAD_DEG: f64 = 20.0;
/// One sigma of an altimeter that nobody set today, and of one that was set, metres (common practice, no source).
const ALTIMETER_SPREAD_M: (f64, f64) = (30.0, 5.0);
/// One sigma of an altimeter's drift with the weather, metres an hour: the air's pressure changes by about half a hectopascal an
/// hour (common practice, no source), and 1 hPa is 8 m (ICAO Doc 7488, from memory).
const DRIFT_M_PER_HOUR: f64 = 5.0;

/// The sheet with its heights, by which words about the ground are understood.
pub(super) struct OnGround<'a> {
    pub(super) sheet: &'a Sheet,
    pub(super) heights: &'a Heights,
    /// Whether the heights are counted from the ellipsoid.
    pub(super) is_ellipsoidal: bool,
}

/// Something said of the ground, and what it is of, as the walker named it.
pub(super) type Said = (GroundSaid, String);

impl Trip {
    /// What was said of the ground, in the place of each record; nothing for the others.
    pub(super) fn said_of_ground(&self, records: &[SightingRecord]) -> Result<Vec<Option<Said>>, Refusal> {
        let one = |record: &SightingRecord| {
            if !is_of_ground(record) {
                return Ok(None);
            }
            let ground = self.heights()?;
            let is_ellipsoidal = ground.row.origin.is_ellipsoidal;
            let on_ground = OnGround { sheet: &self.sheet, heights: &ground.heights, is_ellipsoidal };
            on_ground.said(record)
        };
        records.iter().map(one).collect()
    }

    /// The ground of an area, prepared for all that was said of it.
    pub(super) fn lay<'a>(&'a self, norths: &'a Norths, area: (Point, f64), said: &[Option<Said>]) -> Result<Option<Lay<'a>>, Refusal> {
        let said: Vec<GroundSaid> = said.iter().flatten().map(|(said, _)| *said).collect();
        if said.is_empty() {
            return Ok(None);
        }
        Ok(Some(Lay::new((self.sheet.frame, norths), &self.heights()?.heights, area, &said)?))
    }

    /// What was said of the ground as sightings along lines, in the place of each record.
    pub(super) fn said_on_lines(
        &self,
        norths: &Norths,
        lines: &[&Line],
        records: &[SightingRecord],
    ) -> Result<Vec<Option<Sighting>>, Refusal> {
        let said = self.said_of_ground(records)?;
        let Some(lay) = self.lay(norths, middle_and_reach(lines), &said)? else { return Ok(records.iter().map(|_| None).collect()) };
        let one = |said: Option<Said>| {
            let Some((said, of)) = said else { return Ok(None) };
            let found = said_along(&lay, &said, of, lines).ok_or_else(|| Refusal::plain("heights-elsewhere"))?;
            Ok(Some(Sighting::Ground(found)))
        };
        said.into_iter().map(one).collect()
    }
}

/// The middle of the lines, and how far they reach from it, metres.
fn middle_and_reach(lines: &[&Line]) -> (Point, f64) {
    let points: Vec<Point> = lines.iter().flat_map(|line| line.points()).collect();
    let first = points.first().copied().unwrap_or_default();
    let grow = |(low, high): (Point, Point), at: &Point| {
        let least = Point::new(low.east_m.min(at.east_m), low.north_m.min(at.north_m));
        (least, Point::new(high.east_m.max(at.east_m), high.north_m.max(at.north_m)))
    };
    let (low, high) = points.iter().fold((first, first), grow);
    (low.plus(high).times(0.5), high.minus(low).length_m() / 2.0)
}

fn is_of_ground(record: &SightingRecord) -> bool {
    matches!(
        record,
        SightingRecord::Slope { .. } | SightingRecord::Landform { .. } | SightingRecord::Aspect { .. } | SightingRecord::Height { .. }
    )
}

impl OnGround<'_> {
    fn said(&self, record: &SightingRecord) -> Result<Option<Said>, Refusal> {
        match record {
            SightingRecord::Slope { ground, towards, slope_deg, spread_deg, over_m } => {
                let slope = slope(ground, (*slope_deg, *spread_deg))?;
                let (bearing, over_m) = (NamedBearing::parse(towards)?, over_m.unwrap_or(Rise::USUAL_M));
                let over_m = understand::bounded("over_m", over_m, (10.0, 2_000.0))?;
                Ok(Some((GroundSaid::Slope { towards: bearing, trend: slope.0, steep_deg: slope.1, over_m }, towards.trim().into())))
            }
            SightingRecord::Landform { kind, bearing, spread_deg, distance_m, distance_factor } => {
                let bearing = bearing.as_deref().map(NamedBearing::parse).transpose()?;
                let bearing = bearing.map(|bearing| Ok::<_, Refusal>((bearing, spread(*spread_deg, LANDFORM_SPREAD_DEG)?))).transpose()?;
                let kind = landform_kind(kind)?;
                let (distance_m, distance_factor) = landform_distance(bearing.is_some(), *distance_m, *distance_factor)?;
                Ok(Some((GroundSaid::Landform { kind, bearing, distance_m, distance_factor }, kind.word().into())))
            }
            SightingRecord::Aspect { falls, spread_deg } => {
                let spread_deg = spread(*spread_deg, ASPECT_SPREAD_DEG)?;
                Ok(Some((GroundSaid::Aspect { falls: NamedBearing::parse(falls)?, spread_deg }, falls.trim().into())))
            }
            SightingRecord::Height { .. } => self.height(record).map(Some),
            SightingRecord::Bearing { .. }
            | SightingRecord::Running { .. }
            | SightingRecord::LineRun { .. }
            | SightingRecord::Angle { .. }
            | SightingRecord::Side { .. }
            | SightingRecord::Seen { .. }
            | SightingRecord::NotSeen { .. }
            | SightingRecord::Here { .. }
            | SightingRecord::Trip { .. }
            | SightingRecord::Paces { .. }
            | SightingRecord::Witness { .. }
            | SightingRecord::Distance { .. } => Ok(None),
        }
    }

    fn height(&self, record: &SightingRecord) -> Result<Said, Refusal> {
        let SightingRecord::Height { read_m, spread_m, set_at, set_m, hours_since_set, drift_m_per_hour } = record else {
            return Err(Refusal::plain("sighted-what"));
        };
        let heights_m = (-500.0, 9_000.0);
        let read_m = understand::bounded("read_m", *read_m, heights_m)?;
        let set_m = set_m.map(|set_m| understand::bounded("set_m", set_m, heights_m)).transpose()?;
        let set_at = set_at.as_deref().map(|name| self.place(name)).transpose()?;
        let set = self.set(set_at, set_m)?;
        // Only a climb from a height that was told leaves out what the ellipsoid and the sea differ by.
        let is_of_climb = matches!(set, AltimeterSet::At { .. }) && set_m.is_some();
        if self.is_ellipsoidal && !is_of_climb {
            return Err(Refusal::plain("altimeter-ellipsoid"));
        }
        let usual_m = if set == AltimeterSet::Unknown { ALTIMETER_SPREAD_M.0 } else { ALTIMETER_SPREAD_M.1 };
        let own_m = understand::bounded("spread_m", spread_m.unwrap_or(usual_m), (0.5, 500.0))?;
        let hours = understand::bounded("hours_since_set", hours_since_set.unwrap_or(0.0), (0.0, 240.0))?;
        let drift_m = understand::bounded("drift_m_per_hour", drift_m_per_hour.unwrap_or(DRIFT_M_PER_HOUR), (0.0, 100.0))?;
        let reading = AltimeterReading { read_m, spread_m: own_m.hypot(hours * drift_m), set };
        Ok((GroundSaid::Height { reading, set_at }, String::new()))
    }

    fn set(&self, set_at: Option<Point>, set_m: Option<f64>) -> Result<AltimeterSet, Refusal> {
        let Some(at) = set_at else { return Ok(set_m.map_or(AltimeterSet::Unknown, AltimeterSet::To)) };
        let ground_m = self.heights.layout().post_of(self.sheet.to_earth(at)).ok().and_then(|post| self.heights.at_post_m(post));
        match (ground_m, set_m) {
            (Some(ground_m), set_m) => Ok(AltimeterSet::At { ground_m, to_m: set_m.unwrap_or(ground_m) }),
            (None, Some(set_m)) => Ok(AltimeterSet::To(set_m)),
            (None, None) => Err(Refusal::plain("altimeter-set")),
        }
    }

    /// A place as it is typed from this sheet.
    fn place(&self, name: &str) -> Result<Point, Refusal> {
        Ok(self.sheet.frame.to_plane(read_place(name, &self.sheet.terms())?.at))
    }
}

/// What the ground does, and its slope, up positive, with one sigma.
fn slope(ground: &str, (slope_deg, spread_deg): (Option<f64>, Option<f64>)) -> Result<(Trend, Option<(f64, f64)>), Refusal> {
    let trend = Trend::named(ground).ok_or_else(|| Refusal::named("trend-unknown", ground))?;
    let Some(slope_deg) = slope_deg else { return Ok((trend, None)) };
    let slope_deg = understand::bounded("slope_deg", slope_deg, (0.0, 80.0))?;
    let signed_deg = match trend {
        Trend::Rises => slope_deg,
        Trend::Falls => -slope_deg,
        Trend::Level => return Err(Refusal::plain("slope-level")),
    };
    Ok((trend, Some((signed_deg, spread(spread_deg, SLOPE_SPREAD_DEG)?))))
}

fn landform_kind(name: &str) -> Result<LandformKind, Refusal> {
    let known = || LandformKind::ALL.map(LandformKind::word).join(", ");
    LandformKind::named(name).ok_or_else(|| Refusal::new(Message::new("landform-unknown").text("name", name).text("known", known())))
}

fn landform_distance(has_bearing: bool, distance_m: Option<f64>, factor: Option<f64>) -> Result<(f64, f64), Refusal> {
    let (usual_m, usual_factor) = match (has_bearing, distance_m) {
        (true, Some(distance_m)) => (distance_m, BY_EYE_FACTOR),
        (true, None) => LANDFORM_ANYWHERE,
        (false, None) => UNDERFOOT,
        (false, Some(_)) => return Err(Refusal::plain("landform-where")),
    };
    let distance_m = understand::bounded("distance_m", usual_m, (1.0, 5_000.0))?;
    Ok((distance_m, understand::bounded("distance_factor", factor.unwrap_or(usual_factor), (1.05, 5.0))?))
}

/// What may be here, of a kind.
pub(super) fn here_kind(name: &str) -> Result<HereKind, Refusal> {
    let known = || HereKind::ALL.map(HereKind::word).join(", ");
    HereKind::named(name).ok_or_else(|| Refusal::new(Message::new("here-kind-unknown").text("name", name).text("known", known())))
}

fn spread(told_deg: Option<f64>, usual_deg: f64) -> Result<f64, Refusal> {
    Ok(super::observe::spread(told_deg)?.unwrap_or(usual_deg))
}
