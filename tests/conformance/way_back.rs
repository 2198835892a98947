//! The way back leg by leg: what each leads to, beside the bearing and the paces that a shell shows on their own.

use gatepost_conformance::root;
use gatepost_core::engine::{Config, Engine};
use serde_json::{Value, json};

/// The goals of the way back of the demo's walk, with plain blanks where they may not be parted.
fn goals() -> Vec<String> {
    let mut engine = Engine::open(&Config::default()).unwrap();
    let sheet = std::fs::read_to_string(root().join("tests/demo/velm-valley.toml")).unwrap();
    let carried = json!({ "do": "carry", "at": "2026-09-12T08:00:00Z", "format": "toml", "text": sheet }).to_string();
    let walk = std::fs::read_to_string(root().join("tests/demo/walk.jsonl")).unwrap();
    let mut last = Value::Null;
    for record in std::iter::once(carried.as_str()).chain(walk.lines().skip(1)) {
        last = serde_json::from_str(&engine.tell_json(record)).unwrap();
        assert_eq!(last["ok"], json!(true), "{record}: {last}");
    }
    let legs = last["snapshot"]["way_back"]["legs"].as_array().unwrap();
    legs.iter().map(|leg| leg["goal_told"].as_str().unwrap().replace('\u{a0}', " ")).collect()
}

/// What was met, the way round and the car are those of the log in `tests/demo/walk.jsonl`, in reverse order; a detour to the right on
/// the way out lies to the left on the way back. Metres are the log's paces at 61 double paces to 100 m: 110 are 180 m.
#[test]
fn each_leg_tells_what_it_leads_to() {
    let goals = goals();
    assert_eq!(goals.len(), 5);
    let begins = |index: usize, words: &str| assert!(goals[index].starts_with(words), "{}", goals[index]);
    begins(0, "To spring: 180 m in all.");
    begins(1, "To old fence: 156 m in all.");
    begins(2, "To the next turn: 197 m in all.");
    begins(3, "Go round to the left by 40 double paces (66 m), to split boulder: 246 m in all.");
    begins(4, "To the car: 148 m in all.");
    for goal in goals {
        assert!(!goal.contains("grid") && !goal.contains("mag"), "{goal}");
    }
}
