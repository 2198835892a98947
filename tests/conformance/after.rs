//! What a closed trip comes to: what was logged, and how it closed.

use gatepost_conformance::root;
use gatepost_core::engine::{Config, Engine};
use serde_json::{Value, json};

/// The trip of the demo's valley after a kept fix and these records.
fn closed(records: &[Value]) -> Value {
    let mut engine = Engine::open(&Config::default()).unwrap();
    let sheet = std::fs::read_to_string(root().join("tests/demo/velm-valley.toml")).unwrap();
    let sightings = json!([{ "landmark": "Sorn chapel", "bearing": "016 mag" }, { "landmark": "Hallik mast", "bearing": "088 mag" }]);
    let begun = [
        json!({ "do": "carry", "format": "toml", "text": sheet }),
        json!({ "do": "fix", "line": "Velm Road", "instrument": "sighting", "sightings": sightings }),
        json!({ "do": "keep" }),
    ];
    let mut last = Value::Null;
    for (minute, record) in begun.iter().chain(records).enumerate() {
        let mut record = record.clone();
        record["at"] = json!(format!("2026-09-12T08:{minute:02}:00Z"));
        last = serde_json::from_str(&engine.tell_json(&record.to_string())).unwrap();
        assert_eq!(last["ok"], json!(true), "{record}: {last}");
    }
    last
}

/// A square of 300 m, its second side counted as so many metres.
fn square(second_m: f64) -> Vec<Value> {
    let leg = |bearing: &str, metres: f64| json!({ "do": "leg", "bearing": bearing, "metres": metres });
    vec![leg("000 mag", 300.0), leg("090 mag", second_m), leg("180 mag", 300.0), leg("270 mag", 300.0), json!({ "do": "close" })]
}

fn told(after: &Value, number: usize) -> String {
    after["told"][number].as_str().unwrap().replace('\u{a0}', " ")
}

/// A square closes; with a hundred double paces of 1.6 m lost in one side it is off by those 160 m along that side.
#[test]
fn legs_that_lead_round_tell_their_closing_error() {
    let reply = closed(&square(300.0));
    let after = &reply["snapshot"]["after"];
    assert!(after["closing"]["off_m"].as_f64().unwrap() < 0.5, "{after}");
    assert_eq!(after["closing"]["verdict"], "fits");
    assert_eq!(told(after, 0), "4 legs, 1200 m of log; set out from the fix of 08:01, the last leg closed at 08:06.");
    assert!(told(after, 1).starts_with("If you are back at the car, the legs miss it by 0 m in 1200 m."), "{after}");
    assert!(reply["said"].as_array().unwrap().contains(&after["told"][1]), "the desk tells it too");

    let reply = closed(&square(140.0));
    let after = &reply["snapshot"]["after"];
    assert!((after["closing"]["off_m"].as_f64().unwrap() - 160.0).abs() < 0.5, "{after}");
    assert!((after["closing"]["one_in"].as_f64().unwrap() - 1040.0 / 160.0).abs() < 0.05, "{after}");
    assert_eq!(after["closing"]["verdict"], "misfit");
    assert_eq!(after["closing"]["off_told"].as_str().unwrap().replace('\u{a0}', " "), "160 m");
    assert!(told(after, 1).ends_with("look for a leg whose bearing or count is off."), "{after}");
}

/// A log followed back closes on itself, whatever was walked: no closing error is told of it.
#[test]
fn a_log_followed_back_has_no_closing_error() {
    let leg = json!({ "do": "leg", "bearing": "052 mag", "paces": 90 });
    let (turn, reached, close) = (json!({ "do": "turn-round" }), json!({ "do": "reached" }), json!({ "do": "close" }));
    let whole = closed(&[leg.clone(), leg.clone(), turn.clone(), reached.clone(), reached.clone(), close.clone()]);
    let after = &whole["snapshot"]["after"];
    assert!(after["closing"].is_null(), "{after}");
    assert!(told(after, 1).starts_with("The log was followed back to its end. It leads to the car within ±"), "{after}");
    let part = closed(&[leg.clone(), leg, turn, reached, close]);
    assert_eq!(told(&part["snapshot"]["after"], 1), "The log was followed back for 1 of 2 legs.");
}

#[test]
fn a_trip_without_a_leg_comes_to_nothing() {
    assert!(closed(&[json!({ "do": "close" })])["snapshot"]["after"].is_null());
}
