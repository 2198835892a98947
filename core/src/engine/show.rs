//! From the state to the snapshot: values copied into records, nothing reckoned.

use super::car::{Car, Stands};
use super::light::SunAndGround;
use super::state::{CheckedCompass, TakenFix, Trip};
use super::view::{BackLegView, CarView, HereView, LegView, LightView, PaceView, SheetView, Snapshot, Stage, WayBackView};
use super::view_fix::{AccountView, CrossingView, FixView, IdentityView, LineShareView, PlaceView, SightingView, SlipView};
use super::{held, lines, show_after, show_open, sights, strip};
use crate::earth::{Compass, DIGITS_FULL, Instant, LatLon, Light, light_from, mgrs_of};
use crate::fix::{Account, CrossingReport, Off, PlaceReport, SightedReport, Slip, SlipPlace, Slips};
use crate::homeward::{BackLeg, Here, WayBack};
use crate::measure::{LINE_95, NamedBearing, PLANE_95, Point};
use crate::sheet::Sheet;
use crate::travel::{Leg, LegEnd, Pace, Reckoning, Side};
use crate::words::{Words, date_told};

pub(super) fn full(at: LatLon) -> String {
    mgrs_of(at, DIGITS_FULL)
}

fn side_word(side: Side) -> String {
    match side {
        Side::Left => "left".into(),
        Side::Right => "right".into(),
    }
}

/// A count that a shell shows; none of them comes near the limit.
pub(super) fn small(count: usize) -> u32 {
    u32::try_from(count).unwrap_or(u32::MAX)
}

/// What a snapshot shows beside the trip.
pub(super) struct Beside {
    pub(super) revision: u64,
    /// The time of the last record.
    pub(super) now: Option<Instant>,
    pub(super) undo: Option<String>,
    pub(super) draft: String,
}

fn stage(trip: Option<&Trip>) -> Stage {
    match trip {
        None => Stage::Before,
        Some(trip) if trip.closed => Stage::Afterwards,
        Some(trip) if trip.back.is_some() => Stage::WayBack,
        Some(trip) if trip.car.is_some() => Stage::OnFoot,
        Some(_) => Stage::BesideTheLine,
    }
}

/// The snapshot of a trip, or of none; with the way back when it is asked for or begun.
pub(super) fn snapshot(beside: Beside, trip: Option<&Trip>, words: &Words, with_way_back: bool) -> Snapshot {
    let reckoned = trip.and_then(Trip::here);
    let light = trip.zip(beside.now).map(|(trip, now)| TripLight::of(trip, now));
    let way_back = trip.filter(|trip| with_way_back || trip.back.is_some()).and_then(|trip| way_back_view(trip, words));
    let (sights, sights_left) = trip.map_or_else(Default::default, |trip| sights::listed(trip, words));
    Snapshot {
        revision: beside.revision,
        stage: stage(trip),
        sheet: trip.map(|trip| sheet_view(trip, beside.now, words)),
        pace: pace_view(&trip.map_or_else(Pace::default, |trip| trip.pace), words),
        compass: trip.and_then(|trip| trip.compass.as_ref()).map(|compass| compass_told(compass, words)),
        fix: trip.and_then(|trip| Some(fix_view(trip.fix.as_deref()?, trip.car.is_some(), words))),
        open_fix: trip.and_then(|trip| Some(show_open::view(trip.open.as_deref()?, trip.car.is_some(), words))),
        check: trip.and_then(|trip| held::check_view(trip, words)),
        car: trip.and_then(|trip| trip.car.as_ref()).map(|car| car_view(car, words)),
        legs: trip.zip(reckoned.as_ref()).map_or_else(Vec::new, |(trip, (car, walk, _))| leg_views(trip, car, walk, words)),
        here: trip.zip(reckoned.as_ref()).map(|(trip, (car, walk, here))| here_view(trip, car, walk, here, words)),
        way_back,
        after: trip.and_then(|trip| show_after::view(trip, words)),
        sights,
        sights_left,
        next_sights: trip.map_or_else(Vec::new, |trip| sights::next(trip, words)),
        strip: strip::view(trip, beside.now, light.as_ref(), words),
        caution: trip.and_then(|trip| caution(trip, words)),
        light: light.map(|light| light_view(&light, words)),
        undo: beside.undo,
        draft: beside.draft,
    }
}

/// What to mind where the trip is: before the first bearing, on the way back, and when the car is not found.
fn caution(trip: &Trip, words: &Words) -> Option<String> {
    let general = match (stage(Some(trip)), trip.back) {
        (Stage::BesideTheLine, _) if trip.fix.is_none() && trip.open.is_none() => Some("caution-first-bearing"),
        (Stage::WayBack, Some(walked)) if walked >= trip.legs.len() => Some("caution-lost"),
        (Stage::WayBack, _) => Some("caution-walk-back"),
        (Stage::OnFoot, _) => return trip.car.as_ref().and_then(Car::doubt).map(|doubt| words.say(&doubt)),
        (Stage::Before | Stage::BesideTheLine | Stage::Afterwards, _) => None,
    };
    general.map(|id| words.say_by_name(id))
}

fn compass_told(compass: &CheckedCompass, words: &Words) -> String {
    words.compass_taken_off(compass.row.error_deg, compass.row.error_spread_deg)
}

/// The light at the likeliest place of a trip: what the strip and the snapshot tell.
pub(super) struct TripLight {
    pub(super) level: Light,
    pub(super) ground: SunAndGround,
}

impl TripLight {
    fn of(trip: &Trip, now: Instant) -> Self {
        let at = trip.likeliest();
        let level = light_from(at, now, None);
        Self { level, ground: SunAndGround::of(trip, at, now, &level) }
    }
}

fn light_view(light: &TripLight, words: &Words) -> LightView {
    LightView {
        sunset_unix_ms: light.level.sunset.map(Instant::unix_ms),
        dark_unix_ms: light.level.dark.map(Instant::unix_ms),
        behind_ground_unix_ms: light.ground.until().map(|(until, _)| until.unix_ms()),
        behind_ground_is_latest: light.ground.until().map(|(_, is_latest)| is_latest),
        comes_again_unix_ms: light.ground.again().map(Instant::unix_ms),
        behind_ground_told: light.ground.told(words),
    }
}

fn sheet_view(trip: &Trip, now: Option<Instant>, words: &Words) -> SheetView {
    let sheet = &trip.sheet;
    let (lines, lines_left) = lines::listed(trip);
    SheetView {
        name: sheet.name.clone(),
        grid: sheet.grid.name().into(),
        norths: now.map_or_else(Vec::new, |now| norths_told(sheet, now, words)),
        ground: ground_told(trip, now, words),
        lines,
        lines_left,
    }
}

/// What heights the sheet has.
fn ground_told(trip: &Trip, now: Option<Instant>, words: &Words) -> Vec<String> {
    let heights = match (&trip.ground, &trip.ground_trouble) {
        (Some(ground), _) => words.heights(&ground.heights, &ground.row.origin.source, &ground.row.origin.credit),
        (None, Some(refusal)) => vec![refusal.view(words).sentence],
        (None, None) => Vec::new(),
    };
    let paper = &trip.sheet.paper;
    let spots = words.spots(paper, trip.ground.as_ref().map(|ground| &*ground.heights));
    let from_ellipsoid = trip.ellipsoid_minded().map(|message| words.say(&message));
    heights.into_iter().chain(from_ellipsoid).chain(spots).chain(words.paper(paper, now.map(Instant::decimal_year))).collect()
}

/// The norths at the sheet's middle, and what its printed diagram is worth.
pub(super) fn norths_told(sheet: &Sheet, now: Instant, words: &Words) -> Vec<String> {
    let Ok(norths) = sheet.norths(now.date()) else { return Vec::new() };
    let outside = date_told(&norths).map(|message| words.say(&message));
    let told = words.diagram(&norths.diagram(Point::default()), norths.by());
    std::iter::once(told).chain(outside).chain(printed_told(sheet, now, words)).collect()
}

/// The sheet's printed diagram beside the model; nothing without one.
fn printed_told(sheet: &Sheet, now: Instant, words: &Words) -> Vec<String> {
    let report = sheet.printed_norths(now.date());
    let told = |(printed, report)| words.printed_norths(printed, &report, &now.date().to_string());
    sheet.printed.as_ref().zip(report).map(told).unwrap_or_default()
}

/// What to mind of the sheet's norths with a fix: that the model does not hold, that the diagram or the map is old.
pub(super) fn norths_minded(sheet: &Sheet, now: Instant, words: &Words) -> Vec<String> {
    let outside = sheet.norths(now.date()).ok().and_then(|norths| date_told(&norths)).map(|message| words.say(&message));
    let doubtful = sheet.printed_norths(now.date()).is_some_and(|report| report.is_doubtful());
    let printed = if doubtful { printed_told(sheet, now, words) } else { Vec::new() };
    outside.into_iter().chain(printed).chain(words.paper_age(&sheet.paper, now.decimal_year())).collect()
}

fn pace_view(pace: &Pace, words: &Words) -> PaceView {
    PaceView { double_paces_per_100_m: pace.double_per_100_m, spread_percent: pace.spread_share * 100.0, told: words.pace(pace) }
}

fn fix_view(taken: &TakenFix, is_kept: bool, words: &Words) -> FixView {
    let diagram = &taken.report.diagram;
    FixView {
        at_unix_ms: taken.at.unix_ms(),
        line: taken.fix.line().into(),
        field: words.fix_in_the_field(&taken.fix, &taken.report, &taken.slips, (!is_kept).then_some(taken.next.as_slice())),
        where_told: words.where_in_the_field(&taken.fix, &taken.report, &taken.slips),
        misfit_told: words.misfit_in_the_field(&taken.fix, &taken.slips),
        minded_first: words.fix_minded(&taken.fix, &taken.slips),
        places: taken.report.places.iter().map(|place| place_view(place, words)).collect(),
        elsewhere_share: taken.fix.elsewhere,
        sightings: taken.report.sighted.iter().map(|one| sighting_view(one, words)).collect(),
        accounts: taken.fix.accounts.iter().map(|one| account_view(one, words)).collect(),
        lines: taken.fix.lines.iter().map(|line| line_share_view(&line.name, line.share, words)).collect(),
        no_slip_share: taken.slips.none,
        slips: slip_views(&taken.slips, &taken.report.slip_places, words),
        cautions: words.fix_cautions(&taken.fix, &taken.report, &taken.slips),
        rest_told: words.fix_rest(&taken.report),
        declination_deg: diagram.declination_deg,
        declination_spread_deg: diagram.declination_spread_deg,
        convergence_deg: diagram.convergence_deg,
        grid_magnetic_deg: diagram.grid_magnetic_deg(),
    }
}

fn line_share_view(name: &str, share: f64, words: &Words) -> LineShareView {
    LineShareView { name: name.into(), share, told: words.share(share) }
}

fn account_view(account: &Account, words: &Words) -> AccountView {
    let odds = |landmark: &String, share: f64| IdentityView { landmark: landmark.clone(), share, told: words.share(share) };
    let identity = account.identity.iter().map(|(landmark, share)| odds(landmark, *share));
    AccountView {
        what: account.what.into(),
        residual: account.fit.and_then(|fit| fit.off).map(Off::value),
        verdict: account.fit.map(|fit| fit.verdict().word().into()),
        moves_m: account.moves_m,
        identity: identity.collect(),
        told: words.account(account),
    }
}

/// The slips of a fix of either kind, each with where one would then stand.
pub(super) fn slip_views(slips: &Slips, places: &[Option<SlipPlace>], words: &Words) -> Vec<SlipView> {
    slips.found.iter().zip(places).map(|(slip, place)| slip_view(slip, place.as_ref(), words)).collect()
}

fn slip_view(slip: &Slip, place: Option<&SlipPlace>, words: &Words) -> SlipView {
    SlipView {
        kind: slip.kind.word().into(),
        sighting: slip.sighting.map(|index| index as u32 + 1),
        also: slip.also.iter().map(|also| also.kind.word().into()).collect(),
        chance: slip.chance,
        exposed: slip.exposed,
        told: words.slip(slip, place),
    }
}

fn place_view(place: &PlaceReport, words: &Words) -> PlaceView {
    PlaceView {
        line: place.line.clone(),
        share: place.stretch.share,
        reference: place.reference.clone(),
        mgrs: full(place.at),
        lat_deg: place.at.lat_deg(),
        lon_deg: place.at.lon_deg(),
        along_m: place.stretch.best.along_m,
        from: place.along.from.clone(),
        from_m: place.along.distance_m,
        from_bearing_deg_grid: place.along_grid.degrees(),
        towards: place.along.towards.clone(),
        spread_along_m: place.stretch.spread_m,
        along_95_m: place.stretch.half_width_95_m(),
        across_95_m: place.across_95_m,
        low_50_m: place.stretch.limits_50_m.0,
        high_50_m: place.stretch.limits_50_m.1,
        low_95_m: place.stretch.limits_95_m.0,
        high_95_m: place.stretch.limits_95_m.1,
        told: words.place(place),
    }
}

fn sighting_view(one: &SightedReport, words: &Words) -> SightingView {
    SightingView {
        landmark: one.sighted.landmark.clone(),
        bearing_deg_mag: one.magnetic.degrees(),
        bearing_deg_grid: one.grid.degrees(),
        bearing_deg_true: one.r#true.degrees(),
        bearing_told: words.whole_bearing(NamedBearing::Magnetic(one.magnetic)),
        back_bearing_deg_mag: one.magnetic.back().degrees(),
        back_bearing_deg_grid: one.grid.back().degrees(),
        spread_deg: one.sighted.spread_deg,
        residual_deg: one.sighted.residual_deg,
        verdict: one.sighted.verdict().word().into(),
        distance_m: one.sighted.distance_m,
        cut_deg: one.sighted.cut_deg,
        crossings: one.crossings.iter().map(crossing_view).collect(),
    }
}

fn crossing_view(crossing: &CrossingReport) -> CrossingView {
    CrossingView {
        mgrs: full(crossing.at),
        lat_deg: crossing.at.lat_deg(),
        lon_deg: crossing.at.lon_deg(),
        along_m: crossing.crossing.place.along_m,
        from: crossing.along.from.clone(),
        from_m: crossing.along.distance_m,
        distance_m: crossing.crossing.distance_m,
        cut_deg: crossing.crossing.cut_deg,
        spread_along_m: crossing.crossing.spread_along_m,
    }
}

fn car_view(car: &Car, words: &Words) -> CarView {
    let (place, open_place) = match &car.stands {
        Stands::OnLine(place, _) => (Some(place_view(place, words)), None),
        Stands::InTheOpen(place) => (None, Some(show_open::place_view(place, words))),
    };
    CarView { name: car.name.clone(), place, open_place, line: car.line().map(str::to_owned), at_unix_ms: car.at.unix_ms() }
}

fn leg_views(trip: &Trip, car: &Car, walk: &Reckoning, words: &Words) -> Vec<LegView> {
    let numbered = trip.legs.iter().zip(&walk.ends).enumerate();
    numbered.map(|(index, ((at, leg), end))| leg_view((trip, car, words), small(index + 1), *at, leg, end)).collect()
}

fn leg_view((trip, car, words): (&Trip, &Car, &Words), number: u32, at: Instant, leg: &Leg, end: &LegEnd) -> LegView {
    let norths = &car.norths;
    let middle = end.at.minus(Point::polar(end.metres / 2.0, end.plane_deg));
    let place = trip.sheet.to_earth(end.at);
    let magnetic = norths.to_magnetic(end.plane_deg, middle);
    let double_paces = trip.pace.double_paces(end.metres);
    LegView {
        number,
        at_unix_ms: at.unix_ms(),
        bearing_deg_mag: magnetic.degrees(),
        bearing_deg_grid: norths.to_grid(end.plane_deg, middle).degrees(),
        distance_m: end.metres,
        double_paces,
        bearing_told: words.whole_bearing(NamedBearing::Magnetic(magnetic)),
        paces_told: words.double_paces(double_paces),
        told: words.leg(number as usize, leg, end, &trip.pace),
        detour_side: leg.detour.map(|detour| side_word(detour.side)),
        detour_m: end.detour_m,
        met: leg.met.clone(),
        end_mgrs: full(place),
        end_lat_deg: place.lat_deg(),
        end_lon_deg: place.lon_deg(),
        major_95_m: PLANE_95 * end.covariance.ellipse().major_m,
    }
}

fn here_view(trip: &Trip, car: &Car, walk: &Reckoning, here: &Here, words: &Words) -> HereView {
    HereView {
        reference: here.reference.clone(),
        mgrs: full(here.at),
        lat_deg: here.at.lat_deg(),
        lon_deg: here.at.lon_deg(),
        major_95_m: here.half_axes_95_m.0,
        minor_95_m: here.half_axes_95_m.1,
        walked_m: walk.walked_m,
        home_m: here.home.map_or(0.0, |home| home.distance_m),
        home_95_m: here.home_95_m(),
        home_bearing_deg_mag: here.home.map(|home| home.magnetic.degrees()),
        home_bearing_deg_grid: here.home.map(|home| home.grid.degrees()),
        home_bearing_told: here.home.map(|home| words.whole_bearing(NamedBearing::Magnetic(home.magnetic))),
        at_unix_ms: trip.known_at(car).unix_ms(),
    }
}

/// The way back of a trip as records.
fn way_back_view(trip: &Trip, words: &Words) -> Option<WayBackView> {
    let (car, _, way) = trip.way_back()?;
    let (ellipse, along) = (way.miss.ellipse(), miss_along(car, &way));
    let sentences = words.way_legs(&way, &trip.pace, &car.name).into_iter().zip(words.way_goals(&way, &trip.pace, &car.name));
    Some(WayBackView {
        walked: small(trip.back.unwrap_or(0)),
        legs: way.legs.iter().zip(sentences).map(|(leg, told)| back_leg_view(&trip.sheet, leg, told, words)).collect(),
        walk_m: way.walk_m,
        closes_m: way.closes_m,
        miss_major_95_m: PLANE_95 * ellipse.major_m,
        miss_minor_95_m: PLANE_95 * ellipse.minor_m,
        miss_along_95_m: along.map(|(along_m, _)| along_m),
        head_told: words.way_head(&way),
        miss_told: words.way_miss(&way, &car.name, along),
        end_told: words.way_end(&way, &trip.pace, &car.name, along),
        caution_told: words.say_by_name("caution-walk-back"),
    })
}

/// Half-width of the 95 % limits of the miss along the line on which the car stands, metres, and that line; none in the open.
pub(super) fn miss_along<'a>(car: &'a Car, way: &WayBack) -> Option<(f64, &'a str)> {
    match &car.stands {
        Stands::OnLine(place, direction) => Some((LINE_95 * way.miss.spread_along_m(*direction), place.line.as_str())),
        Stands::InTheOpen(_) => None,
    }
}

fn back_leg_view(sheet: &Sheet, leg: &BackLeg, (told, goal_told): (String, String), words: &Words) -> BackLegView {
    let end = sheet.to_earth(leg.end);
    BackLegView {
        of_leg: small(leg.of_leg),
        bearing_deg_mag: leg.magnetic.degrees(),
        bearing_deg_grid: leg.grid.degrees(),
        metres: leg.metres,
        double_paces: leg.double_paces,
        bearing_told: words.whole_bearing(NamedBearing::Magnetic(leg.magnetic)),
        paces_told: words.double_paces(leg.double_paces),
        detour_side: leg.detour.map(|(side, _)| side_word(side)),
        detour_m: leg.detour.map_or(0.0, |(_, out_m)| out_m),
        meets: leg.meets.clone(),
        total_m: leg.total_m,
        total_double_paces: leg.total_double_paces,
        end_lat_deg: end.lat_deg(),
        end_lon_deg: end.lon_deg(),
        told,
        goal_told,
    }
}
