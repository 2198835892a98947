//! The odds along lines against an independent reckoning of the same scenes.
//!
//! # References
//! `tests/references/fix_model.py` (`NumPy`, `SciPy`): cells of a quarter of a metre, the shared compass error by a fine rule of
//! trapezia. The scenes are drawn at random and say so.

use std::collections::BTreeMap;

use gatepost_core::earth::{Grid, LatLon, LocalFrame, Norths, date_of};
use gatepost_core::fix::{
    BearingSighting, Choice, Counter, Facing, Figure, Fits, Fix, GroundSighting, MeasuredSighting, Quarter, Run, RunningSighting, Scene,
    Sighting, Spot, Table, Trust, WRONG_READING, Way, take,
};
use gatepost_core::measure::{NamedBearing, North, Point, normal_density, normal_share};
use gatepost_core::sheet::{Landmark, Line};
use serde_json::Value;

/// On the equator the plane's north is true north everywhere, and here the model's own spread is below 0.3°.
fn norths() -> Norths {
    let frame = LocalFrame::around(LatLon::new(0.0, 120.0).unwrap());
    Norths::over(frame, Grid::of_place(frame.origin()), date_of("2026-07-01").unwrap()).unwrap()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

fn numbers(value: &Value) -> Vec<f64> {
    value.as_array().unwrap().iter().map(number).collect()
}

fn bearing(degrees: f64) -> NamedBearing {
    NamedBearing::new(degrees, North::True)
}

fn way(value: &Value) -> Way {
    match value.as_i64() {
        Some(1) => Way::Onward,
        Some(-1) => Way::Backward,
        _ => Way::Either,
    }
}

struct Told<'a> {
    scene: &'a Value,
    lines: &'a [Line],
}

impl Told<'_> {
    fn landmark(&self, id: &Value) -> Landmark {
        let all = self.scene["landmarks"].as_array().unwrap();
        let mark = all.iter().find(|mark| mark["id"] == *id).unwrap();
        landmark(id.as_str().unwrap(), mark)
    }

    fn spots(&self, id: &Value) -> Vec<Spot> {
        let all = self.scene["known_points"].as_array().unwrap().iter().filter(|point| point["id"] == *id);
        all.map(|point| Spot { line: point["line"].as_u64().unwrap() as usize, along_m: number(&point["along_m"]) }).collect()
    }

    fn tables(&self, likelihood: impl Fn(usize, f64) -> f64) -> Sighting {
        let table = |(index, line): (usize, &Line)| {
            let count = line.length_m().ceil() as usize + 1;
            Table { step_m: 1.0, values: (0..count).map(|metre| likelihood(index, metre as f64)).collect() }
        };
        let tables = self.lines.iter().enumerate().map(table).collect();
        Sighting::Ground(GroundSighting {
            what: "slope",
            of: String::new(),
            tables,
            fits: Fits::Most(1.0),
            in_feet: None,
            misplaced: Vec::new(),
        })
    }

    fn sightings(&self, one: &Value) -> Vec<Sighting> {
        let spread_deg = one["spread_deg"].as_f64();
        let read = |candidates: Vec<Landmark>| {
            let each = |degrees: f64| BearingSighting { candidates: candidates.clone(), reading: bearing(degrees), spread_deg };
            numbers(&one["readings_deg"]).into_iter().map(|degrees| Sighting::Bearing(each(degrees))).collect::<Vec<_>>()
        };
        match one["kind"].as_str().unwrap() {
            "bearing" => read(vec![self.landmark(&one["landmark"])]),
            "bearing_one_of" => read(one["candidates"].as_array().unwrap().iter().map(|id| self.landmark(id)).collect()),
            "bearing_vague" => read(vec![landmark("somewhere there", one)]),
            "run_of_line" => vec![Sighting::LineRun { reading: bearing(number(&one["reading_deg"])), spread_deg }],
            "feature_here" => {
                vec![Sighting::Here {
                    known: String::new(),
                    places: self.spots(&one["known_point"]),
                    spread_m: number(&one["spread_m"]),
                    others: Vec::new(),
                }]
            }
            "trip_meter" => {
                vec![self.measured(
                    one,
                    "reading_m",
                    Counter::Meter { step_m: number(&one["step_m"]), figure: Figure::Nearest },
                    "scale_spread",
                )]
            }
            "paces" => vec![self.measured(one, "distance_m", Counter::Paces { each_m: 1.6 }, "spread_share")],
            "altimeter" => vec![self.altimeter(one)],
            "side" => vec![self.side(one)],
            "angle_between" => vec![Sighting::Angle {
                left: self.landmark(&one["from"]),
                right: self.landmark(&one["to"]),
                angle_deg: number(&one["angle_deg"]),
                spread_deg,
            }],
            "running_fix" => vec![self.running(one)],
            seen @ ("seen" | "not_seen") => vec![Sighting::Seen { landmark: self.landmark(&one["landmark"]), seen: seen == "seen" }],
            "slope_towards" => vec![self.slope(one)],
            other => panic!("no such sighting: {other}"),
        }
    }

    fn measured(&self, one: &Value, distance: &str, counter: Counter, share: &str) -> Sighting {
        Sighting::Measured(MeasuredSighting {
            known: String::new(),
            from: self.spots(&one["known_point"]).into_iter().map(|spot| (spot, way(&one["way"]))).collect(),
            distance_m: number(&one[distance]),
            counter,
            scale_share: number(&one[share]),
            others: Vec::new(),
        })
    }

    fn running(&self, one: &Value) -> Sighting {
        Sighting::Running(RunningSighting {
            landmark: self.landmark(&one["landmark"]),
            first: bearing(number(&one["first_deg"])),
            second: bearing(number(&one["second_deg"])),
            spread_deg: one["spread_deg"].as_f64(),
            run_m: number(&one["run_m"]),
            run_spread_share: number(&one["run_spread_share"]),
            run: Run::Straight(bearing(number(&one["run_bearing_deg"]))),
        })
    }

    fn side(&self, one: &Value) -> Sighting {
        let quarter = match one["side"].as_str().unwrap() {
            "left" => Quarter::Left,
            "right" => Quarter::Right,
            "ahead" => Quarter::Ahead,
            _ => Quarter::Behind,
        };
        let facing = Facing::Way(if number(&one["facing"]) > 0.0 { Way::Onward } else { Way::Backward });
        Sighting::Side { landmark: self.landmark(&one["landmark"]), quarter, facing, spread_deg: number(&one["spread_deg"]) }
    }

    fn altimeter(&self, one: &Value) -> Sighting {
        self.tables(|line, along_m| {
            let told = &self.scene["lines"][line]["heights"];
            let spread_m = number(&one["spread_m"]).hypot(number(&told["spread_m"]));
            normal_density(number(&one["height_m"]) - table(&told["height_m"], told).at(along_m), spread_m)
        })
    }

    fn slope(&self, one: &Value) -> Sighting {
        let spread_deg = number(&one["spread_deg"]);
        self.tables(|line, along_m| {
            let slope_deg = table(&one["slopes_deg"][line], one).at(along_m);
            match (one["slope_deg"].as_f64(), one["says"].as_str()) {
                (Some(told_deg), _) => normal_density(told_deg - slope_deg, spread_deg),
                (None, Some("rises")) => 0.98 * normal_share(slope_deg / spread_deg) + 0.01,
                _ => 0.98 * normal_share(-slope_deg / spread_deg) + 0.01,
            }
        })
    }

    fn in_sight(&self) -> BTreeMap<String, Vec<Table>> {
        let all = self.scene["landmarks"].as_array().unwrap().iter().filter(|mark| mark["in_sight"].is_object());
        let tables = |told: &Value| told["chance"].as_array().unwrap().iter().map(|chance| table(chance, told)).collect();
        all.map(|mark| (mark["id"].as_str().unwrap().to_owned(), tables(&mark["in_sight"]))).collect()
    }
}

fn landmark(name: &str, told: &Value) -> Landmark {
    let at = Point::new(number(&told["east_m"]), number(&told["north_m"]));
    Landmark { name: name.into(), kind: String::new(), at, spread_m: number(&told["spread_m"]), height_m: None }
}

fn table(values: &Value, told: &Value) -> Table {
    Table { step_m: number(&told["step_m"]), values: numbers(values) }
}

fn line(told: &Value) -> Line {
    let points = told["points"].as_array().unwrap().iter().map(|point| Point::new(number(&point[0]), number(&point[1])));
    Line::new("line", "road", points.collect(), number(&told["spread_across_m"])).unwrap()
}

fn fix(scene: &Value, norths: &Norths) -> Fix {
    let lines: Vec<Line> = scene["lines"].as_array().unwrap().iter().map(line).collect();
    let told = Told { scene, lines: &lines };
    let instrument = &scene["instrument"];
    let shared_deg = number(&instrument["shared_spread_deg"]);
    let model_deg = norths.declination_spread_deg();
    let trust = Trust {
        reading_spread_deg: number(&instrument["reading_spread_deg"]),
        graduation_deg: number(&instrument["graduation_deg"]),
        shared_spread_deg: (shared_deg * shared_deg - model_deg * model_deg).sqrt(),
    };
    let odds = |index: usize| scene["lines"][index]["odds"].as_f64();
    take(&Scene {
        lines: lines.iter().enumerate().map(|(index, line)| Choice { line, odds: odds(index) }).collect(),
        sightings: scene["sightings"].as_array().unwrap().iter().flat_map(|one| told.sightings(one)).collect(),
        norths,
        trust,
        in_sight: told.in_sight(),
        wrong_share: WRONG_READING,
    })
    .unwrap()
}

/// Half the sum of what the two tables differ by, in bins along each line.
fn distance(scene: &Value, fix: &Fix, bin_m: f64) -> f64 {
    let mut sum = 0.0;
    for (line, runs) in fix.lines.iter().zip(scene["posterior"]["lines"].as_array().unwrap()) {
        let length_m = line.odds.step_m * line.odds.per_m.len() as f64;
        let mut bins = vec![0.0; (length_m / bin_m).ceil() as usize + 1];
        for (index, per_m) in line.odds.per_m.iter().enumerate() {
            // A tenth of a step at a time: steps and bins do not begin together.
            for tenth in 0..10 {
                let along_m = (index as f64 + (f64::from(tenth) + 0.5) / 10.0) * line.odds.step_m;
                bins[(along_m / bin_m) as usize] += per_m * line.odds.step_m / 10.0;
            }
        }
        for run in runs.as_array().unwrap() {
            let first = run[0].as_u64().unwrap() as usize;
            for (offset, millionths) in numbers(&run[1]).into_iter().enumerate() {
                bins[first + offset] -= millionths / 1e6;
            }
        }
        sum += bins.iter().map(|bin| bin.abs()).sum::<f64>();
    }
    sum / 2.0
}

#[test]
fn two_hundred_scenes_have_the_odds_of_an_independent_reckoning() {
    let file: Value = serde_json::from_str(include_str!("../tables/fix/scenes.json")).unwrap();
    let (norths, bin_m) = (norths(), number(&file["bin_m"]));
    let scenes = file["scenes"].as_array().unwrap();
    assert_eq!(scenes.len(), 200);
    let mut far = Vec::new();
    for scene in scenes {
        let distance = distance(scene, &fix(scene, &norths), bin_m);
        if distance >= 0.01 {
            let kinds: Vec<&str> = scene["sightings"].as_array().unwrap().iter().map(|one| one["kind"].as_str().unwrap()).collect();
            far.push(format!("{}: {distance:.4} {kinds:?}", scene["id"]));
        }
    }
    assert!(far.is_empty(), "{} of 200:\n{}", far.len(), far.join("\n"));
}
