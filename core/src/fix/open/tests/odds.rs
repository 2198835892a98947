//! The probability over the plane against a plain grid.

use serde_json::Value;

use super::super::likelihood::Likelihood;
use super::super::odds::{OpenOdds, moments};
use super::super::scene::{Bounds, OpenGround};
use super::{equations_of, list, number, vectors};
use crate::measure::Point;

type Ridge = Box<dyn Fn(Point) -> f64>;

fn ridge(told: &Value) -> Option<Ridge> {
    let one = told["readings"].as_array()?.iter().find(|one| one["kind"] == "ridge")?;
    let (through, along) = (list(one, "through"), Point::polar(1.0, number(one, "bearing_deg")));
    let (spread_m, floor) = (number(one, "spread_m"), number(one, "floor"));
    Some(Box::new(move |at: Point| {
        let off = at.minus(Point::new(through[0], through[1])).cross(along) / spread_m;
        floor + (1.0 - floor) * (-0.5 * off * off).exp()
    }))
}

fn total_variation(odds: &OpenOdds, boxes: &[f64], low: f64, side: f64) -> f64 {
    let mut own = vec![0.0; 64];
    for cell in &odds.cells {
        let (column, row) = ((cell.at.east_m - low) / side, (cell.at.north_m - low) / side);
        own[row as usize * 8 + column as usize] += cell.share();
    }
    own.iter().zip(boxes).map(|(one, known)| (one - known).abs()).sum::<f64>() / 2.0
}

#[test]
fn odds_are_those_of_a_plain_grid() {
    let file = vectors("fix/open_odds");
    let may = &file["tolerance"];
    for told in file["scenes"].as_array().expect("scenes") {
        let (low, high) = (number(told, "low"), number(told, "high"));
        let bounds = Bounds { low: Point::new(low, low), high: Point::new(high, high) };
        let (equations, ridge) = (equations_of(told).expect("equations"), ridge(told));
        let grounds = ridge.iter().map(|likelihood| OpenGround::of(likelihood, 1.0, 40.0)).collect();
        let likelihood =
            Likelihood::of(&equations, grounds, number(told, "shared_spread_deg"), (bounds.across().length_m(), crate::fix::WRONG_READING));
        let start = std::time::Instant::now();
        let odds = OpenOdds::over(&likelihood, &bounds).expect("odds");
        let took = start.elapsed();
        let (expect, id) = (&told["expect"], &told["id"]);
        let varies = total_variation(&odds, &list(expect, "boxes"), low, (high - low) / 8.0);
        let (mean, covariance) = moments(odds.cells.iter()).expect("moments");
        let known = list(expect, "mean_m");
        let known_covariance = list(expect, "covariance_m2");
        let trace = known_covariance[0] + known_covariance[2];
        let mean_off = mean.minus(Point::new(known[0], known[1])).length_m() / trace.sqrt();
        let level = odds.level_of_share(0.95);
        let area: f64 = odds.cells.iter().filter(|cell| cell.per_m2 >= level).map(|cell| cell.area_m2()).sum();
        let area_off = area / number(expect, "area_95_m2") - 1.0;
        let total = likelihood.at(odds.cells[0].at) / odds.peak();
        let probes = expect["probes"].as_array().expect("probes").iter().zip(list(expect, "density_per_m2"));
        let density_off = probes.map(|(at, known)| {
            let at = Point::new(at[0].as_f64().expect("east"), at[1].as_f64().expect("north"));
            (likelihood.at(at) / total / known - 1.0).abs()
        });
        let density_off = density_off.fold(0.0, f64::max);
        println!(
            "{id}: {} cells, {took:?}, variation {varies:.5}, mean {mean_off:.5}, area {area_off:.4}, density {density_off:.5}",
            odds.cells.len()
        );
        assert!(varies < number(may, "total_variation"), "{id}: {varies}");
        assert!(mean_off < number(may, "mean_sigmas"), "{id}: {mean:?} {known:?}");
        let got = [covariance.east2, covariance.east_north, covariance.north2];
        for (one, known) in got.iter().zip(&known_covariance) {
            assert!((one - known).abs() < number(may, "covariance_relative") * trace, "{id}: {got:?} {known_covariance:?}");
        }
        assert!(area_off.abs() < number(may, "area_relative"), "{id}: {area}");
        assert!(density_off < number(may, "density_relative"), "{id}: {density_off}");
    }
}
