//! Photographs of a sheet against `NumPy` and `SciPy`: `tests/rasters/photo.json`, made by the script beside it.

use gatepost_conformance::root;
use gatepost_core::earth::Grid;
use gatepost_core::measure::{Arg, Message, Point, Telling};
use gatepost_core::sheet::{PhotoFit, PhotoKind, PhotoMark, PhotoTerms};
use gatepost_core::words::Words;
use serde::Deserialize;

/// Least squares ended by differences of 1e-13 of a pixel; the file is written to 1e-9.
const WITHIN_PX: f64 = 1e-6;
/// A thousandth of a pixel's place, in metres.
const WITHIN_M: f64 = 1e-3;
/// Central differences in the script.
const WITHIN_SHARE: f64 = 1e-4;

#[derive(Deserialize)]
struct File {
    cases: Vec<Case>,
}

#[derive(Deserialize)]
struct Case {
    name: String,
    grid: String,
    kind: String,
    mark_spread_px: f64,
    square: f64,
    marks: Vec<[f64; 4]>,
    residuals_px: Vec<f64>,
    spread_px: f64,
    cautions: Vec<String>,
    taps: Vec<Tap>,
}

#[derive(Deserialize)]
struct Tap {
    tap: [f64; 2],
    at: [f64; 2],
    covariance: [f64; 3],
}

/// A caution as the file writes it: its identifier and the counts in it.
fn written(message: &Message) -> String {
    let counts = message.args.iter().filter_map(|(_, arg)| if let Arg::Count(count) = arg { Some(format!(" {count}")) } else { None });
    format!("{}{}", message.id, counts.collect::<String>())
}

fn check(case: &Case) {
    let near = |found: f64, wanted: f64, within: f64, what: &str| {
        assert!((found - wanted).abs() <= within, "{}, {what}: {found} instead of {wanted}", case.name);
    };
    let marks: Vec<PhotoMark> = case.marks.iter().map(|[x, y, e, n]| PhotoMark { x_px: *x, y_px: *y, at: Point::new(*e, *n) }).collect();
    let kind = Some(if case.kind == "affine" { PhotoKind::Affine } else { PhotoKind::Projective });
    let terms = PhotoTerms { kind, mark_spread_px: case.mark_spread_px, square: case.square };
    let grid = Grid::named(&case.grid).unwrap();
    let fit = PhotoFit::of(&marks, &grid, &terms).unwrap();
    near(fit.spread_px(), case.spread_px, WITHIN_PX, "spread");
    assert_eq!(fit.residuals().len(), case.residuals_px.len());
    for (residual, wanted) in fit.residuals().iter().zip(&case.residuals_px) {
        near(residual.px, *wanted, WITHIN_PX, "residual");
    }
    let words = Words::english();
    let told: Vec<String> = fit.cautions().iter().map(|caution| written(&caution.message())).collect();
    assert_eq!(told, case.cautions, "{}: {:?}", case.name, fit.cautions().iter().map(|c| words.say(&c.message())).collect::<Vec<_>>());
    for tap in &case.taps {
        let place = fit.place(tap.tap[0], tap.tap[1]).unwrap();
        near(place.grid_at.east_m, tap.at[0], WITHIN_M, "easting");
        near(place.grid_at.north_m, tap.at[1], WITHIN_M, "northing");
        // The script tells square units of the grid; its scale on the ground is taken off.
        let unit_m = 1.0 / grid.factors(place.at).unwrap().scale;
        let greatest = tap.covariance[0].max(tap.covariance[2]);
        for (found, wanted) in [place.spread.east2, place.spread.east_north, place.spread.north2].into_iter().zip(tap.covariance) {
            near(found / (unit_m * unit_m), wanted, WITHIN_SHARE * greatest, "covariance");
        }
        let (x, y) = fit.pixel_of(place.grid_at).unwrap();
        near(x, tap.tap[0], WITHIN_PX, "there and back");
        near(y, tap.tap[1], WITHIN_PX, "there and back");
    }
}

#[test]
fn photographs_agree_with_numpy_and_scipy() {
    let text = std::fs::read_to_string(root().join("tests/rasters/photo.json")).unwrap();
    let file: File = serde_json::from_str(&text).unwrap();
    assert!(file.cases.len() >= 10);
    file.cases.iter().for_each(check);
}

/// By hand: nine crossings of a scan, one marked 20 pixels too far to the right, or typed one square too far south.
#[test]
fn a_wrong_mark_is_told_in_a_sentence_that_says_which_how_far_which_way_and_what_to_do() {
    let grid = Grid::named("33N").unwrap();
    let terms = PhotoTerms { kind: Some(PhotoKind::Affine), ..PhotoTerms::default() };
    let place = |n: u8| (f64::from(n % 3), f64::from(n / 3));
    let mark = |(e, n)| PhotoMark {
        x_px: 100.0 + 400.0 * e,
        y_px: 900.0 - 400.0 * n,
        at: Point::new(420_000.0 + 2000.0 * e, 5_090_000.0 + 2000.0 * n),
    };
    let nine: Vec<PhotoMark> = (0..9).map(place).map(mark).collect();
    let told = |change: fn(&mut PhotoMark)| {
        let mut marks = nine.clone();
        change(&mut marks[3]);
        let cautions = PhotoFit::of(&marks, &grid, &terms).unwrap().cautions().to_vec();
        cautions.iter().map(|caution| Words::english().say(&caution.message())).collect::<Vec<_>>().join(" ")
    };
    let moved = told(|mark| mark.x_px += 20.0);
    assert!(moved.starts_with("Mark 4 does not fit the others: by them its crossing lies 20 pixels to the left of the spot"), "{moved}");
    assert!(moved.contains("100\u{a0}m on the ground") && moved.contains("mark it again there"), "{moved}");
    let typed = told(|mark| mark.at.north_m -= 1000.0);
    assert!(typed.contains("the reference typed for it lies one square too far south. Read that crossing's numbers"), "{typed}");
    assert!(!typed.contains("east") && !typed.contains('-'), "{typed}");
}
