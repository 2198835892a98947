//! What is to be minded with a fix before all else: a sentence or two that a walker reads first, the rest of the cautions after a touch.

use gatepost_conformance::root;
use gatepost_core::engine::{Config, Engine};
use serde_json::{Value, json};

/// A tired walker reads so many words, and no more.
const MOST_WORDS: usize = 15;

/// The replies to a fix in the demo's valley from these sightings, and to what is told after it.
fn replies(on: &Value, sightings: &Value, after: &[Value]) -> Vec<Value> {
    let mut engine = Engine::open(&Config::default()).unwrap();
    let sheet = std::fs::read_to_string(root().join("tests/demo/velm-valley.toml")).unwrap();
    let carry = json!({ "do": "carry", "at": "2026-09-12T08:00:00Z", "format": "toml", "text": sheet });
    let mut fix = json!({ "do": "fix", "at": "2026-09-12T08:10:00Z", "instrument": "sighting", "sightings": sightings });
    fix.as_object_mut().unwrap().extend(on.as_object().unwrap().clone());
    let tell = |record: &Value| {
        let reply: Value = serde_json::from_str(&engine.tell_json(&record.to_string())).unwrap();
        assert_eq!(reply["ok"], json!(true), "{record}: {reply}");
        reply
    };
    [carry, fix].iter().chain(after).map(tell).skip(1).collect()
}

/// The fix of the demo's valley from these sightings.
fn fix(on: &Value, sightings: &Value) -> Value {
    let snapshot = &replies(on, sightings, &[])[0]["snapshot"];
    if snapshot["fix"].is_null() { snapshot["open_fix"].clone() } else { snapshot["fix"].clone() }
}

fn texts(value: &Value) -> Vec<String> {
    value.as_array().unwrap().iter().map(|text| text.as_str().unwrap().to_owned()).collect()
}

/// One bearing read from the wrong end of the needle among others, and one read to another landmark.
#[test]
fn a_misfit_is_told_in_two_short_sentences() {
    let road = json!({ "line": "Velm Road" });
    let open = json!({ "open": true });
    let chapel = json!({ "landmark": "Sorn chapel", "bearing": "016 mag" });
    let mast = json!({ "landmark": "Hallik mast", "bearing": "088 mag" });
    let kiln = |bearing: &str| json!({ "landmark": "Old kiln", "bearing": bearing });
    for (on, kiln) in [(&road, kiln("242 mag")), (&open, kiln("092 mag"))] {
        let fix = fix(on, &json!([chapel, mast, kiln]));
        let (first, cautions) = (texts(&fix["minded_first"]), texts(&fix["cautions"]));
        assert_eq!(first.len(), 2, "{first:?}");
        assert_eq!(first[0], fix["misfit_told"].as_str().unwrap());
        assert!(first[0].contains("Old kiln"), "what is to be read again: {first:?}");
        for sentence in &first {
            assert!(sentence.split_whitespace().count() <= MOST_WORDS, "{sentence}");
        }
        assert!(cautions.len() > 1 && cautions.iter().all(|caution| !first.contains(caution)), "{cautions:?}");
    }
}

/// Two places by one bearing: nothing is misread, and what is to be minded is the cautions themselves.
#[test]
fn without_a_misfit_the_cautions_come_first() {
    let fix = fix(&json!({ "line": "Velm Road" }), &json!([{ "landmark": "Sorn chapel", "bearing": "016 mag" }]));
    assert_eq!(texts(&fix["minded_first"]), ["Do not choose between 2 places by liking. Take another sighting."]);
    assert_eq!(fix["minded_first"], fix["cautions"]);
    // Each place is told in its own sentence, not in the one that tells how many there are.
    assert_eq!(texts(&fix["field"])[0], "You may stand in 2 places on Velm Road.");
    assert_eq!(fix["where_told"], fix["field"][0]);
}

/// Who keeps a place of readings that do not agree is told so, then and for as long as the log is reckoned from it.
#[test]
fn a_place_kept_from_readings_that_do_not_agree_stays_in_doubt() {
    let at = "2026-09-12T08:20:00Z";
    let leg = json!({ "do": "leg", "at": at, "bearing": "031 mag", "metres": 300 });
    let after = [json!({ "do": "keep", "at": at }), leg, json!({ "do": "where", "at": at }), json!({ "do": "back", "at": at })];
    for (on, wrong) in [(json!({ "line": "Velm Road" }), "242 mag"), (json!({ "open": true }), "092 mag")] {
        for (kiln, is_doubted) in [(wrong, true), ("062 mag", false)] {
            let sightings = json!([
                { "landmark": "Sorn chapel", "bearing": "016 mag" },
                { "landmark": "Hallik mast", "bearing": "088 mag" },
                { "landmark": "Old kiln", "bearing": kiln },
            ]);
            let replies = replies(&on, &sightings, &after);
            let is_told = |reply: &Value| texts(&reply["said"]).iter().any(|said| said.contains("may stand elsewhere"));
            assert_eq!([1, 3, 4].map(|index| is_told(&replies[index])), [is_doubted; 3], "{on} {kiln}: {replies:?}");
            let caution = &replies[2]["snapshot"]["caution"];
            assert_eq!(caution.as_str().is_some_and(|said| said.contains("may stand elsewhere")), is_doubted, "{caution}");
            // What does not fit is looked at again before anything else is sighted.
            let snapshot = &replies[0]["snapshot"];
            let field = texts(if snapshot["fix"].is_null() { &snapshot["open_fix"]["field"] } else { &snapshot["fix"]["field"] });
            let next = field.last().unwrap();
            assert_eq!(next.starts_with("If it reads the same again, "), is_doubted && next.contains("would leave"), "{field:?}");
            assert!(!is_doubted || !next.starts_with("Next "), "{field:?}");
        }
    }
}
