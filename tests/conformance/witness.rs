//! A place held against a fix: the slip that spoiled its figures is named first, and a sound one raises no alarm. Simulated, on an invented road.

use gatepost_core::earth::{Counted, Grid, LatLon, LocalFrame, Norths, OldDatum, date_of, mgrs_of, read_place, spaced};
use gatepost_core::fix::{
    BearingSighting, Beside, Check, Fix, Instrument, OnOther, Scene, Sighting, There, Told, Verdict, WitnessSlip, WitnessSlipKind,
    WitnessSlips, slips, slips_beside_place, take, witness_along, witness_slips,
};
use gatepost_core::measure::{NamedBearing, North, Point};
use gatepost_core::sheet::{Landmark, Line, Sheet, SheetDraft};

use crate::fix::Dice;

/// One sigma per axis of the place that is told, metres: a receiver under trees.
pub(crate) const SPREAD_M: f64 = 6.0;

#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Wrong {
    Exchanged,
    Misread,
    Swapped,
    Datum,
    Corner,
    Stale,
}

pub(crate) const ALL: [Wrong; 6] = [Wrong::Exchanged, Wrong::Misread, Wrong::Swapped, Wrong::Datum, Wrong::Corner, Wrong::Stale];

fn is_named(wrong: Wrong, slip: &WitnessSlip) -> bool {
    match wrong {
        Wrong::Exchanged => slip.kind == WitnessSlipKind::Exchanged,
        Wrong::Misread => slip.kind == WitnessSlipKind::Misread,
        Wrong::Swapped => slip.kind == WitnessSlipKind::Swapped,
        Wrong::Datum => matches!(slip.kind, WitnessSlipKind::Datum(_)),
        Wrong::Corner => slip.kind == WitnessSlipKind::Corner,
        // A place elsewhere on the road cannot tell which of the two is wrong.
        Wrong::Stale => matches!(slip.kind, WitnessSlipKind::Stale | WitnessSlipKind::FixWrong),
    }
}

/// A sheet of one winding road of 16 km, in the west of the United States, where maps on NAD27 are still about.
pub(crate) fn sheet(dice: &mut Dice) -> (Sheet, Norths) {
    let frame = LocalFrame::around(LatLon::new(44.31 + 0.4 * dice.even(), -120.77 + 0.5 * dice.even()).unwrap());
    let mut at = Point::new(-7_000.0, 0.0);
    let mut points = vec![at];
    for _ in 0..40 {
        at = at.plus(Point::polar(400.0, 80.0 + 40.0 * dice.normal()));
        points.push(at);
    }
    let coordinates: Vec<String> =
        points.iter().map(|point| frame.to_earth(*point)).map(|at| format!("[{},{}]", at.lon_deg(), at.lat_deg())).collect();
    let text = format!(
        r#"{{"type":"FeatureCollection","sheet":{{"name":"Road"}},"features":[{{"type":"Feature","properties":{{"name":"Road","kind":"road"}},"geometry":{{"type":"LineString","coordinates":[{}]}}}}]}}"#,
        coordinates.join(",")
    );
    let draft: SheetDraft = gatepost_core::exchange::read_sheet(&text, gatepost_core::exchange::SheetFormat::GeoJson).unwrap().draft;
    let sheet = Sheet::build(&draft).unwrap();
    let norths = Norths::over(sheet.frame, Grid::of_place(sheet.frame.origin()), date_of("2026-07-01").unwrap()).unwrap();
    (sheet, norths)
}

/// Where one stands, two bearings there, and the fix from them.
fn fixed<'a>(line: &'a Line, norths: &'a Norths, dice: &mut Dice) -> Option<(Point, Scene<'a>, Fix)> {
    let (at, sightings) = sighted(line, norths, dice)?;
    let scene = Scene::on(line, sightings, norths, Instrument::Sighting.trust());
    let fix = take(&scene).ok()?;
    Some((at, scene, fix))
}

/// Where one stands, and two bearings from there.
fn sighted(line: &Line, norths: &Norths, dice: &mut Dice) -> Option<(Point, Vec<Sighting>)> {
    let at = line.at((0.2 + 0.6 * dice.even()) * line.length_m()).at;
    let trust = Instrument::Sighting.trust();
    let sightings = [20.0, 110.0].map(|off_deg| {
        let mark = at.plus(Point::polar(800.0 + 1_500.0 * dice.even(), off_deg + 60.0 * dice.even()));
        let landmark = Landmark { name: format!("mark {off_deg}"), kind: "mast".into(), at: mark, spread_m: 5.0, height_m: None };
        let read_deg = mark.minus(at).bearing_deg() - norths.plane_minus_magnetic_deg(at) + dice.normal() * trust.spread_deg();
        Sighting::Bearing(BearingSighting::to(landmark, NamedBearing::new(read_deg.round(), North::Magnetic), None))
    });
    Some((at, sightings.to_vec()))
}

/// How a place that was told is held against a fix, and what would explain it; nothing where it fits.
fn explained(text: &str, sheet: &Sheet, scene: &Scene<'_>, fix: &Fix, on_others: &[OnOther]) -> Option<(Check, WitnessSlips)> {
    let reading = read_place(text, &sheet.terms()).ok()?;
    let place = sheet.frame.to_plane(reading.at);
    let check = fix.check(place, SPREAD_M).filter(|check| check.verdict() == Verdict::Misfit)?;
    let lines: Vec<&Line> = scene.lines.iter().map(|choice| choice.line).collect();
    let of_fix = slips_beside_place(scene, &[], fix.best()?, witness_along("", place, SPREAD_M, &lines));
    let there = There::of(scene, fix, place, SPREAD_M);
    let told = Told { text, reading, spread_m: SPREAD_M, earlier: &[], of_fix: &of_fix, on_others, there };
    Some((check, witness_slips(&fix.standings(), &lines, sheet, &told)))
}

fn with_figures(reference: &str, change: impl FnOnce(&mut Vec<char>)) -> String {
    let mut characters: Vec<char> = reference.chars().collect();
    change(&mut characters);
    characters.into_iter().collect()
}

/// The reference as it is told by one who errs.
pub(crate) fn told(wrong: Option<Wrong>, at: LatLon, elsewhere: LatLon, dice: &mut Dice) -> String {
    let full = mgrs_of(at, 10);
    let figures = full.len() - 10;
    let nth = figures + (dice.even() * 10.0) as usize;
    match wrong {
        None => spaced(&full),
        Some(Wrong::Exchanged) => {
            let nth = figures + (dice.even() * 4.0) as usize + if dice.even() < 0.5 { 0 } else { 5 };
            with_figures(&full, |characters| characters.swap(nth, nth + 1))
        }
        Some(Wrong::Misread) => with_figures(&full, |characters| {
            let told = characters[nth].to_digit(10).unwrap();
            characters[nth] = char::from_digit((told + 1 + (dice.even() * 9.0) as u32) % 10, 10).unwrap();
        }),
        Some(Wrong::Swapped) => format!("{}{}{}", &full[..figures], &full[figures + 5..], &full[figures..figures + 5]),
        Some(Wrong::Corner) => format!("{}{}000{}000", &full[..figures], &full[figures..figures + 2], &full[figures + 5..figures + 7]),
        Some(Wrong::Datum) => {
            // Numbers of NAD27 for the place: found by going the other way until they lead here.
            let nad27 = OldDatum::in_use_at(at)[0];
            let frame = LocalFrame::around(at);
            let mut numbers = at;
            for _ in 0..4 {
                let off = frame.to_plane(nad27.as_if_on(numbers, Counted::Utm).unwrap());
                numbers = frame.to_earth(frame.to_plane(numbers).minus(off));
            }
            mgrs_of(numbers, 10)
        }
        Some(Wrong::Stale) => mgrs_of(elsewhere, 10),
    }
}

/// Of those whose slip makes the place not fit: how many there are, and in how many it is named first.
fn named_first(wrong: Wrong, count: usize, dice: &mut Dice) -> (usize, usize) {
    let (mut exposed, mut named) = (0, 0);
    for _ in 0..count {
        let (sheet, norths) = sheet(dice);
        let line = &sheet.lines[0];
        let Some((at, scene, fix)) = fixed(line, &norths, dice) else { continue };
        let received = at.plus(Point::new(SPREAD_M * dice.normal(), SPREAD_M * dice.normal()));
        let elsewhere = line.at(dice.even() * line.length_m()).at;
        let text = told(Some(wrong), sheet.frame.to_earth(received), sheet.frame.to_earth(elsewhere), dice);
        // What moves it by less than four of the spreads cannot be told from chance.
        let found = explained(&text, &sheet, &scene, &fix, &[]).filter(|(check, _)| check.chi_square >= 16.0);
        let Some((_, slips)) = found else { continue };
        exposed += 1;
        named += usize::from(slips.found.first().is_some_and(|slip| is_named(wrong, slip)));
    }
    (exposed, named)
}

#[test]
fn the_slip_that_spoiled_a_reference_is_named_first() {
    let mut dice = Dice(0x51A7_0BAD_51A7_0BAD);
    let shares: Vec<(Wrong, (usize, usize))> = ALL.into_iter().map(|wrong| (wrong, named_first(wrong, 60, &mut dice))).collect();
    let (exposed, named) = shares.iter().fold((0, 0), |sum, (_, (exposed, named))| (sum.0 + exposed, sum.1 + named));
    assert!(exposed > 200, "too few are exposed to tell: {shares:?}");
    assert!(named as f64 >= 0.9 * exposed as f64, "named first: {named} of {exposed}: {shares:?}");
}

/// Of two roads side by side one is named, and the walker stands on the other: what a receiver tells speaks for that road, from one bearing
/// alone, too. Invented; that the place is sound and the road wrong is how it was made.
#[test]
fn a_place_on_another_road_speaks_for_that_road() {
    let mut dice = Dice(0x2B2B_0A0A_7777_0001);
    let (mut asked, mut named) = (0, 0);
    for _ in 0..60 {
        let (sheet, norths) = sheet(&mut dice);
        let road = &sheet.lines[0];
        let apart_m = 80.0 + 320.0 * dice.even();
        let moved: Vec<Point> = road.points().map(|point| point.plus(Point::new(0.0, apart_m))).collect();
        let other = Line::new("Back road", "road", moved, road.spread_m).unwrap();
        let Some((at, sightings)) = sighted(&other, &norths, &mut dice) else { continue };
        let sightings = vec![sightings[0].clone()];
        let trust = Instrument::Sighting.trust();
        let scene = Scene::on(road, sightings.clone(), &norths, trust);
        let Ok(fix) = take(&scene) else { continue };
        let Some(best) = fix.best() else { continue };
        let beside = Beside { lines: vec![&other], sightings };
        let slips = slips(&scene, &[], best, Some(&beside));
        let received = at.plus(Point::new(SPREAD_M * dice.normal(), SPREAD_M * dice.normal()));
        let text = mgrs_of(sheet.frame.to_earth(received), 10);
        let Some((_, found)) = explained(&text, &sheet, &scene, &fix, &slips.on_others) else { continue };
        asked += 1;
        named += usize::from(found.found.first().is_some_and(|slip| slip.kind == WitnessSlipKind::OtherLine("Back road".into())));
    }
    assert!(asked > 30, "too few are exposed to tell: {asked}");
    assert!(named as f64 >= 0.9 * f64::from(asked), "named first: {named} of {asked}");
}

#[test]
fn a_sound_place_fits_and_asks_for_no_slip() {
    let mut dice = Dice(0x0DDB_A11F_0DDB_A11F);
    let (mut taken, mut misfits) = (0, 0);
    for _ in 0..200 {
        let (sheet, norths) = sheet(&mut dice);
        let Some((at, _, fix)) = fixed(&sheet.lines[0], &norths, &mut dice) else { continue };
        let received = at.plus(Point::new(SPREAD_M * dice.normal(), SPREAD_M * dice.normal()));
        let reading = read_place(&told(None, sheet.frame.to_earth(received), sheet.frame.to_earth(at), &mut dice), &sheet.terms()).unwrap();
        taken += 1;
        misfits +=
            usize::from(fix.check(sheet.frame.to_plane(reading.at), SPREAD_M).is_some_and(|check| check.verdict() == Verdict::Misfit));
    }
    assert!(misfits as f64 <= 0.03 * f64::from(taken), "{misfits} of {taken} sound places are told not to fit");
}

/// A reference that is wrong at random, 300 to 1,500 m off, beside the road or along it: two bearings exclude that place, and neither the fix
/// nor the line is accused, but where the bearings leave such a place open, nor one of the readings, but where another figure of it happens to
/// lead there (11 of 96 along the road).
#[test]
fn a_place_that_is_wrong_at_random_does_not_accuse_the_fix() {
    let mut dice = Dice(0x0FF5_E7A1_0FF5_E7A1);
    for along in [false, true] {
        let (mut asked, mut accused, mut misread) = (0, 0, 0);
        for _ in 0..100 {
            let (sheet, norths) = sheet(&mut dice);
            let line = &sheet.lines[0];
            let Some((at, scene, fix)) = fixed(line, &norths, &mut dice) else { continue };
            let off_m = 300.0 + 1_200.0 * dice.even();
            let along_m = line.nearest(at).along_m + if dice.even() < 0.5 { off_m } else { -off_m };
            let wrong = if along { line.at(along_m).at } else { at.plus(Point::polar(off_m, 360.0 * dice.even())) };
            let text = spaced(&mgrs_of(sheet.frame.to_earth(wrong), 8));
            let Some((_, found)) = explained(&text, &sheet, &scene, &fix, &[]) else { continue };
            asked += 1;
            let first = found.found.first().filter(|_| !found.leads_unknown());
            accused += usize::from(first.is_some_and(|slip| matches!(slip.kind, WitnessSlipKind::FixWrong | WitnessSlipKind::OffLine)));
            misread += usize::from(first.is_some_and(|slip| slip.kind == WitnessSlipKind::SlipOfFix));
        }
        assert!(asked > 80, "too few are exposed to tell: {asked}");
        assert!(accused * 10 <= asked, "along the road {along}: accused in {accused} of {asked}");
        assert!(misread * 20 <= 3 * asked, "along the road {along}: a reading is accused in {misread} of {asked}");
    }
}

/// A single bearing, misread by ten degrees, and a sound place: the reading is named. A sound bearing and a place from some hundred metres
/// back along the road: more often than not the place is, for what a dial could have said to hit it happens by chance, too.
#[test]
fn a_sound_place_speaks_against_one_misread_bearing_and_a_bearing_against_a_place_from_before() {
    let mut dice = Dice(0x0BEF_02E5_0BEF_02E5);
    for (is_misread, least) in [(true, 0.8), (false, 0.5)] {
        let (mut asked, mut named) = (0, 0);
        for _ in 0..80 {
            let (sheet, norths) = sheet(&mut dice);
            let line = &sheet.lines[0];
            let Some((at, sightings)) = sighted(line, &norths, &mut dice) else { continue };
            let Sighting::Bearing(mut bearing) = sightings[0].clone() else { continue };
            let by_deg = if dice.even() < 0.5 { 10.0 } else { -10.0 };
            let back_m = (300.0 + 600.0 * dice.even()) * if dice.even() < 0.5 { 1.0 } else { -1.0 };
            if is_misread {
                bearing.reading = NamedBearing::new(bearing.reading.degrees() + by_deg, North::Magnetic);
            }
            let stood = if is_misread { at } else { line.at(line.nearest(at).along_m + back_m).at };
            let scene = Scene::on(line, vec![Sighting::Bearing(bearing)], &norths, Instrument::Sighting.trust());
            let Ok(fix) = take(&scene) else { continue };
            let received = stood.plus(Point::new(SPREAD_M * dice.normal(), SPREAD_M * dice.normal()));
            let text = spaced(&mgrs_of(sheet.frame.to_earth(received), 10));
            let Some((_, found)) = explained(&text, &sheet, &scene, &fix, &[]) else { continue };
            let wanted = if is_misread { WitnessSlipKind::SlipOfFix } else { WitnessSlipKind::Stale };
            asked += 1;
            named += usize::from(found.found.first().is_some_and(|slip| slip.kind == wanted));
        }
        assert!(asked > 40, "too few are exposed to tell: {asked}");
        assert!(f64::from(named as u32) >= least * f64::from(asked), "misread {is_misread}: named first in {named} of {asked}");
    }
}
