//! The sun against published positions and times, and the days that have no sunrise of their own.

#![allow(
    clippy::expect_used,
    clippy::float_cmp,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::unwrap_used,
    clippy::wildcard_enum_match_arm,
    reason = "a test may stop where it fails"
)]

mod over_ground;

use super::{Air, Daylight, Polar, SunError, daylight, light_from, sun_position, sun_position_at};
use crate::earth::{Instant, LatLon, date_of};

fn place(lat: f64, lon: f64) -> LatLon {
    LatLon::new(lat, lon).expect("on earth")
}

fn time(text: &str) -> Instant {
    Instant::parse(text).expect("time")
}

fn day(lat: f64, lon: f64, date: &str) -> Daylight {
    daylight(place(lat, lon), date_of(date).expect("date"), None).expect("daylight")
}

fn seconds_off(told: Option<Instant>, printed: &str) -> f64 {
    (told.expect("an event").unix_ms() - time(printed).unix_ms()) as f64 / 1_000.0
}

/// Zenith 50.11162°, azimuth 194.340241°, elevation without air 39.872046°.
///
/// # References
/// NREL/TP-560-34302, appendix A.5: the example (the elevation without air is that report's `e0`, from memory).
#[test]
fn the_example_of_the_algorithms_authors() {
    let air = Air { pressure_hpa: 820.0, temperature_c: 11.0 };
    let at = place(39.742_476, -105.178_6);
    let sun = sun_position_at(at, 1_830.14, time("2003-10-17T12:30:30-07:00"), air, Some(67.0)).expect("sun");
    assert!((90.0 - sun.elevation_deg - 50.111_62).abs() < 1e-5, "{}", 90.0 - sun.elevation_deg);
    assert!((sun.azimuth.degrees() - 194.340_241).abs() < 1e-6, "{}", sun.azimuth.degrees());
    assert!((sun.elevation_geometric_deg - 39.872_046).abs() < 1e-5, "{}", sun.elevation_geometric_deg);
    let estimated = sun_position(at, 1_830.14, time("2003-10-17T12:30:30-07:00"), air).expect("sun");
    assert!((estimated.azimuth.degrees() - sun.azimuth.degrees()).abs() < 1e-4);
}

/// Sunrise and sunset to the printed second, which is cut, not rounded (one lies 0.05 s before it). The example of the algorithm's report is one of the
/// day of Greenwich: its sunset of 17 October, 17:20:19 in Colorado, is that of the evening of the 16th there.
///
/// # References
/// Rows of the test suite of pvlib 0.16.1 (BSD-3), among them a calculator's page for Golden; the example of
/// NREL/TP-560-34302 (its sunrise and sunset from memory).
#[test]
fn sunrise_and_sunset_to_the_printed_second() {
    let golden = (39.742_476, -105.178_6);
    for ((lat, lon), date, rises, printed) in [
        ((-35.0, 0.0), "1996-07-05", true, "1996-07-05T07:08:15Z"),
        ((-35.0, 0.0), "1996-07-05", false, "1996-07-05T17:01:04Z"),
        ((-35.0, 0.0), "2004-12-04", true, "2004-12-04T04:38:57Z"),
        ((-35.0, 0.0), "2004-12-04", false, "2004-12-04T19:02:02Z"),
        ((35.0, 0.0), "1994-01-02", true, "1994-01-02T07:08:12Z"),
        ((35.0, 0.0), "1994-01-02", false, "1994-01-02T16:59:55Z"),
        (golden, "2003-10-17", true, "2003-10-17T06:12:43-07:00"),
        (golden, "2003-10-16", false, "2003-10-16T17:20:19-07:00"),
        (golden, "2015-01-02", true, "2015-01-02T07:21:55-07:00"),
        (golden, "2015-01-02", false, "2015-01-02T16:47:43-07:00"),
    ] {
        let told = day(lat, lon, date);
        let off = seconds_off(if rises { told.sunrise } else { told.sunset }, printed);
        assert!((-0.05..1.0).contains(&off), "{printed}: {off} s");
    }
}

/// Printed to the minute, mountain standard time.
///
/// # References
/// Tables of the US Naval Observatory, as carried by the test suite of pvlib 0.16.1.
#[test]
fn sunrise_and_sunset_to_the_printed_minute() {
    for (date, rise, set) in [
        ("2015-01-02", "07:19", "16:49"),
        ("2015-04-02", "05:43", "18:24"),
        ("2015-08-02", "05:01", "19:10"),
        ("2015-12-02", "07:01", "16:38"),
    ] {
        let told = day(39.0, -105.0, date);
        let off =
            [seconds_off(told.sunrise, &format!("{date}T{rise}:00-07:00")), seconds_off(told.sunset, &format!("{date}T{set}:00-07:00"))];
        assert!(off.iter().all(|off| off.abs() <= 30.0), "{date}: {off:?}");
    }
}

#[test]
fn noon_lies_between_and_twilights_come_in_order() {
    let told = day(39.742_476, -105.178_6, "2015-01-02");
    assert!(seconds_off(Some(told.noon), "2015-01-02T12:04:45-07:00").abs() < 1.0);
    let all = [told.nautical_dawn, told.civil_dawn, told.sunrise, Some(told.noon), told.sunset, told.civil_dusk, told.nautical_dusk];
    assert!(all.windows(2).all(|two| two[0].is_some() && two[0] < two[1]), "{told:?}");
    assert_eq!(told.polar, None);
}

/// Far from Greenwich the day is the place's own: its sunrise and sunset enclose its noon, everywhere.
#[test]
fn every_day_has_its_own_sunrise_and_sunset() {
    for lon in [-180.0, -120.0, -75.0, 0.0, 60.0, 151.2, 180.0] {
        for date in ["2026-01-15", "2026-05-10", "2026-11-02"] {
            let told = day(-33.9, lon, date);
            let [rise, noon, set] = [told.sunrise.expect("rise"), told.noon, told.sunset.expect("set")].map(Instant::unix_ms);
            assert!(rise < noon && noon < set && set - rise < 86_400_000, "{lon} {date}");
            let mean_noon = time(&format!("{date}T12:00:00Z")).unix_ms() - (lon * 240_000.0) as i64;
            assert!((noon - mean_noon).abs() < 17 * 60_000, "{lon} {date}");
        }
    }
}

/// Longyearbyen lies at 78° north.
#[test]
fn polar_day_and_polar_night() {
    let (summer, winter) = (day(78.2, 15.6, "2026-06-21"), day(78.2, 15.6, "2026-12-21"));
    assert_eq!((summer.sunrise, summer.sunset, summer.polar), (None, None, Some(Polar::Day)));
    assert_eq!((summer.civil_dawn, summer.nautical_dusk), (None, None));
    assert_eq!((winter.sunrise, winter.sunset, winter.polar), (None, None, Some(Polar::Night)));
    assert_eq!((winter.civil_dusk, winter.civil_polar, winter.nautical_polar), (None, Some(Polar::Night), None));
    assert_eq!((summer.civil_polar, summer.nautical_polar), (Some(Polar::Day), Some(Polar::Day)));
    assert!(winter.nautical_dawn.is_some() && winter.nautical_dusk.is_some());
    assert_eq!((day(90.0, 0.0, "2026-06-21").polar, day(-90.0, 0.0, "2026-06-21").polar), (Some(Polar::Day), Some(Polar::Night)));
}

/// Near the polar circle the sun of summer sets after midnight by the clock (three hours before Greenwich at 25.7° east),
/// and on one date of July it sets twice: soon after midnight the sun of the day before, late in the evening its own.
#[test]
fn a_sunset_after_midnight_belongs_to_the_day_before() {
    let clock = |time: Instant| Instant::from_unix_ms(time.unix_ms() + 3 * 3_600_000).date().to_string();
    let dates: Vec<chrono::NaiveDate> = date_of("2026-07-01").expect("date").iter_days().take(31).collect();
    let days: Vec<Daylight> = dates.iter().map(|date| daylight(place(66.0, 25.7), *date, None).expect("daylight")).collect();
    for two in days.windows(2) {
        let [before, after] = [two[0], two[1]];
        assert!(before.sunset > Some(before.noon) && before.sunset < after.sunrise && after.sunrise < Some(after.noon));
    }
    let sets: Vec<String> = days.iter().map(|told| clock(told.sunset.expect("set"))).collect();
    let late = dates.iter().zip(&sets).filter(|(date, set)| date.to_string() < **set).count();
    assert!(late > 5 && late < 31, "{late} sunsets after midnight");
    assert_eq!(sets.windows(2).filter(|two| two[0] == two[1]).count(), 1, "one date with two sunsets");
}

/// Over a year near the circle no rise is lost or told twice: rises and sets alternate through all days.
#[test]
fn rises_and_sets_alternate_through_a_year() {
    for lat in [64.0, 66.0, 67.4, 69.6, -68.0] {
        let mut events: Vec<(i64, bool)> = Vec::new();
        for date in date_of("2026-01-01").expect("date").iter_days().take(365) {
            let told = daylight(place(lat, 25.0), date, None).expect("daylight");
            events.extend(told.sunrise.map(|time| (time.unix_ms(), true)));
            events.extend(told.sunset.map(|time| (time.unix_ms(), false)));
        }
        events.sort_unstable();
        assert!(events.windows(2).all(|two| two[0].1 != two[1].1), "{lat}");
    }
}

#[test]
fn what_is_out_of_reach_is_refused() {
    let air = Air::standard(0.0);
    let at = |height_m, time, air| sun_position(place(40.0, 0.0), height_m, time, air).map(|_| ());
    let now = time("2026-07-01");
    assert_eq!(at(0.0, now, air), Ok(()));
    assert_eq!(at(f64::NAN, now, air), Err(SunError::Height));
    assert_eq!(at(0.0, Instant::from_unix_ms(i64::MAX), air), Err(SunError::Time));
    assert_eq!(at(0.0, time("5026-07-01"), air), Err(SunError::Time));
    for (pressure_hpa, temperature_c) in [(0.0, 10.0), (f64::NAN, 10.0), (1_000.0, -101.0), (1_000.0, f64::INFINITY)] {
        assert_eq!(at(0.0, now, Air { pressure_hpa, temperature_c }), Err(SunError::Air));
    }
    for date in [chrono::NaiveDate::MIN, chrono::NaiveDate::MAX] {
        assert_eq!(daylight(place(40.0, 179.0), date, None), Err(SunError::Time));
    }
}

/// 898.75 hPa at 1,000 m.
///
/// # References
/// ISO 2533:1975, table (from memory).
#[test]
fn the_standard_air_thins_with_height() {
    let air = Air::standard(1_000.0);
    assert!((air.pressure_hpa - 898.75).abs() < 0.05 && (air.temperature_c - 8.5).abs() < 1e-9, "{air:?}");
    assert_eq!(Air::standard(f64::NEG_INFINITY), Air::standard(0.0));
}

/// The half-width grows as the sun sinks more slantwise, and there is none where the air decides whether it sets at all.
///
/// On the equator at an equinox the sun sinks 15° an hour: 1.96 times 0.16° are 75 s. Elsewhere the slope is
/// `15° an hour times the cosine of the latitude times the sine of the azimuth` (spherical triangle, any text on it).
#[test]
fn the_half_width_of_sunset_grows_with_latitude() {
    let half = |lat: f64, at: &str| light_from(place(lat, 0.0), time(at), None).sunset_95_s;
    let equator = half(0.0, "2026-03-20T15:00:00Z").expect("sets");
    assert!((equator - 75.3).abs() < 0.5, "{equator}");
    let mut before = equator;
    for lat in [30.0, 46.0, 55.0, 60.0] {
        let from = time("2026-06-21T12:00:00Z");
        let told = light_from(place(lat, 0.0), from, None);
        let set = told.sunset.expect("sets");
        let azimuth = sun_position(place(lat, 0.0), 0.0, set, Air::standard(0.0)).expect("sun").azimuth;
        let slope = 15.0 / 3_600.0 * lat.to_radians().cos() * azimuth.degrees().to_radians().sin().abs();
        let (half_s, wanted) = (told.sunset_95_s.expect("half-width"), 1.96 * 0.16 / slope);
        assert!(half_s > before && (half_s / wanted - 1.0).abs() < 0.06, "{lat}: {half_s} against {wanted}");
        before = half_s;
    }
    assert_eq!(half(65.7, "2026-06-21T12:00:00Z"), None, "it grazes the horizon");
}

/// In the polar night of 70° north there is twilight at noon, at 80° there is none at all; in summer it does not get dark.
#[test]
fn each_twilight_of_a_polar_night_is_told_by_itself() {
    let light = |lat: f64, at: &str| light_from(place(lat, 20.0), time(at), None);
    let noon = light(70.0, "2026-12-21T10:40:00Z");
    assert!(noon.is_down && !noon.is_dark && noon.sunset.is_none() && noon.dark.is_some() && noon.dawn.is_some());
    let deep = light(80.0, "2026-12-21T10:40:00Z");
    assert!(deep.is_down && deep.is_dark && deep.dark.is_none() && deep.dawn.is_none());
    let summer = light(70.0, "2026-06-21T22:40:00Z");
    assert!(!summer.is_down && !summer.is_dark && summer.sunset.is_none() && summer.dark.is_none());
}

/// Thin, warm air bends less: 820 hPa and 30 °C leave 27.6′ × 283/303 of the 34′, and the sun sets earlier by the rest.
#[test]
fn air_moves_sunset() {
    let at = place(39.742_476, -105.178_6);
    let set = |air| light_from(at, time("2003-10-17T12:30:30-07:00"), air).sunset.expect("sets").unix_ms();
    let thin = Air { pressure_hpa: 820.0, temperature_c: 30.0 };
    let (usual, early) = (set(None), set(Some(thin)));
    let less_deg = 34.0 / 60.0 * (1.0 - 820.0 / 1_010.0 * 283.0 / 303.0);
    let height = |ms: i64| {
        let sun = sun_position(at, 0.0, Instant::from_unix_ms(ms), Air::standard(0.0)).expect("sun");
        sun.elevation_geometric_deg
    };
    assert!((height(early) - height(usual) - less_deg).abs() < 1e-3, "{} s earlier", (usual - early) / 1000);
    assert_eq!(set(Some(Air { pressure_hpa: 1_010.0, temperature_c: 10.0 })), usual);
}
