//! The sightings of a fix, from the arguments that name them.

use serde_json::{Value, json};

use crate::args::FixArgs;

/// The record of a fix.
pub(crate) fn fix_record(fix: &FixArgs) -> Value {
    let lines: Vec<&String> = fix.on.iter().chain(&fix.or).collect();
    let on = if fix.or.is_empty() { json!({ "line": fix.on }) } else { json!({ "lines": lines }) };
    let open = fix.open.then_some(true);
    let mut record = json!({ "do": "fix", "instrument": fix.instrument, "open": open, "sightings": sightings(fix) });
    if let (Some(record), Value::Object(on)) = (record.as_object_mut(), on) {
        record.extend(on);
    }
    record
}

fn sightings(fix: &FixArgs) -> Vec<Value> {
    let spread_deg = fix.spread_deg;
    let cuts_off = (fix.trip_cuts_off || fix.trip_nearest).then_some(fix.trip_cuts_off);
    let named = |typed: &str| typed.split(',').map(|name| name.trim().to_owned()).collect::<Vec<String>>();
    let mut all: Vec<Value> = Vec::new();
    all.extend(pairs(&fix.sight, |mark, bearing| json!({ "landmark": mark, "bearing": bearing, "spread_deg": spread_deg })));
    all.extend(pairs(&fix.one_of, |marks, bearing| json!({ "one_of": named(marks), "bearing": bearing, "spread_deg": spread_deg })));
    all.extend(pairs(
        &fix.rough,
        |place, bearing| json!({ "place": place, "spread_m": fix.rough_spread_m, "bearing": bearing, "spread_deg": spread_deg }),
    ));
    all.extend(fix.running.chunks(4).map(|one| match one {
        [mark, first, second, run_m] => json!({
            "what": "running", "landmark": mark, "first": first, "second": second, "run_m": number(run_m), "towards": fix.towards
        }),
        _ => Value::Null,
    }));
    all.extend(fix.line_run.iter().map(|bearing| json!({ "what": "line-run", "bearing": bearing })));
    all.extend(fix.angle.chunks(3).map(|one| match one {
        [left, right, angle] => json!({ "what": "angle", "left": left, "right": right, "angle_deg": number(angle) }),
        _ => Value::Null,
    }));
    all.extend(pairs(&fix.side, |mark, side| json!({ "what": "side", "landmark": mark, "side": side, "towards": fix.towards })));
    all.extend(fix.seen.iter().map(|mark| json!({ "what": "seen", "landmark": mark })));
    all.extend(fix.not_seen.iter().map(|mark| json!({ "what": "not-seen", "landmark": mark })));
    all.extend(fix.witness.iter().map(|place| json!({ "what": "witness", "place": place })));
    all.extend(fix.here.iter().map(|known| json!({ "what": "here", "known": known })));
    all.extend(pairs(&fix.trip, |from, metres| {
        json!({ "what": "trip", "from": from, "distance_m": number(metres), "step_m": fix.trip_step_m, "cuts_off": cuts_off, "towards": fix.towards })
    }));
    all.extend(pairs(
        &fix.paced,
        |from, paces| json!({ "what": "paces", "from": from, "paces": number(paces), "pace_kind": fix.pace_kind, "towards": fix.towards }),
    ));
    all.extend(ground(fix));
    all
}

/// What the ground shows, and what lies at a distance.
fn ground(fix: &FixArgs) -> Vec<Value> {
    let mut all: Vec<Value> = fix.here_kind.iter().map(|kind| json!({ "what": "here", "kind": kind })).collect();
    all.extend(pairs(
        &fix.distance,
        |mark, metres| json!({ "what": "distance", "landmark": mark, "distance_m": number(metres), "spread_m": fix.distance_spread_m }),
    ));
    all.extend(pairs(&fix.slope, |ground, bearing| json!({ "what": "slope", "ground": ground, "towards": bearing })));
    all.extend(triples(
        &fix.steep,
        |ground, bearing, degrees| json!({ "what": "slope", "ground": ground, "towards": bearing, "slope_deg": number(degrees) }),
    ));
    all.extend(triples(
        &fix.landform,
        |kind, bearing, metres| json!({ "what": "landform", "kind": kind, "bearing": bearing, "distance_m": number(metres) }),
    ));
    all.extend(fix.landform_here.iter().map(|kind| json!({ "what": "landform", "kind": kind })));
    all.extend(fix.aspect.iter().map(|falls| json!({ "what": "aspect", "falls": falls })));
    all.extend(fix.height.map(|read_m| {
        json!({
            "what": "height", "read_m": read_m, "spread_m": fix.height_spread_m, "set_at": fix.height_set_at,
            "set_m": fix.height_set_m, "hours_since_set": fix.height_hours, "drift_m_per_hour": fix.height_drift_m
        })
    }));
    all
}

fn triples(typed: &[String], one: impl Fn(&str, &str, &str) -> Value) -> Vec<Value> {
    let triple = |triple: &[String]| match triple {
        [first, second, third] => one(first, second, third),
        _ => Value::Null,
    };
    typed.chunks(3).map(triple).collect()
}

fn pairs(typed: &[String], one: impl Fn(&str, &str) -> Value) -> Vec<Value> {
    let pair = |pair: &[String]| match pair {
        [first, second] => one(first, second),
        _ => Value::Null,
    };
    typed.chunks(2).map(pair).collect()
}

/// A number as a number; anything else goes on as it was typed, and the engine says what is wrong with it.
fn number(typed: &str) -> Value {
    typed.trim().parse::<f64>().map_or_else(|_| json!(typed), |value| json!(value))
}
