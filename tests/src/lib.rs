//! Reads the case files of `tests/vectors` and runs one case against the engine.
//!
//! A case file states its source, units and tolerances; the runners in the other languages read the same files.

#![allow(clippy::expect_used, reason = "a case file that cannot be read must stop the tests")]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use gatepost_core::engine::{Config, Engine};
use serde::Deserialize;
use serde_json::Value;

/// A case file.
#[derive(Debug, Deserialize)]
pub struct CaseFile {
    /// What it is about: area and topic.
    pub topic: String,
    /// Where the expected values come from.
    pub source: String,
    /// Absolute tolerance by path.
    #[serde(default)]
    pub tolerance: BTreeMap<String, f64>,
    /// What must be answered.
    #[serde(default)]
    pub cases: Vec<Case>,
    /// What must be refused.
    #[serde(default)]
    pub invalid: Vec<Invalid>,
}

/// A record and what its reply must hold.
#[derive(Debug, Deserialize)]
pub struct Case {
    /// Its number.
    pub id: String,
    /// Records told first to a fresh logbook.
    #[serde(default)]
    pub before: Vec<Value>,
    /// The record.
    pub record: Value,
    /// Expected values by dotted path.
    pub expect: BTreeMap<String, Value>,
}

/// A record that must be refused, and the code of the refusal.
#[derive(Debug, Deserialize)]
pub struct Invalid {
    /// Its number.
    pub id: String,
    /// Records told first to a fresh logbook.
    #[serde(default)]
    pub before: Vec<Value>,
    /// The record.
    pub record: Value,
    /// The code.
    pub refusal: String,
}

/// The repository's root.
#[must_use]
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("tests lie in the root").to_path_buf()
}

/// All files below a folder with one ending, sorted.
#[must_use]
pub fn files_below(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let mut found = Vec::new();
    let mut open = vec![folder.to_path_buf()];
    while let Some(folder) = open.pop() {
        for entry in std::fs::read_dir(&folder).expect("folder").flatten() {
            let path = entry.path();
            if path.is_dir() {
                open.push(path);
            } else if path.extension().is_some_and(|found| found == ending) {
                found.push(path);
            }
        }
    }
    found.sort();
    found
}

/// Reads a case file.
#[must_use]
pub fn read(path: &Path) -> CaseFile {
    let text = std::fs::read_to_string(path).expect("case file");
    serde_json::from_str(&text).unwrap_or_else(|error| unreadable(path, &error))
}

#[allow(clippy::panic, reason = "a case file that cannot be read must stop the tests")]
fn unreadable(path: &Path, error: &serde_json::Error) -> CaseFile {
    panic!("{}: {error}", path.display())
}

/// Tells records to a fresh engine; the reply to the last one.
#[must_use]
pub fn reply(before: &[Value], record: &Value) -> Value {
    let mut engine = Engine::open(&Config::default()).expect("engine in memory");
    for earlier in before {
        let line = engine.tell_json(&earlier.to_string());
        assert!(line.starts_with(r#"{"ok":true"#), "the case's own set-up was refused: {line}");
    }
    serde_json::from_str(&engine.tell_json(&record.to_string())).expect("a reply is JSON")
}

/// The value at a dotted path.
#[must_use]
pub fn at<'a>(reply: &'a Value, path: &str) -> Option<&'a Value> {
    reply.pointer(&format!("/{}", path.replace('.', "/")))
}

/// What differs between a reply and what a case expects.
#[must_use]
pub fn differences(reply: &Value, case: &Case, tolerance: &BTreeMap<String, f64>) -> Vec<String> {
    let differs = |(path, wanted): (&String, &Value)| {
        let found = at(reply, path);
        let equal = match (found.and_then(Value::as_f64), wanted.as_f64()) {
            (Some(found), Some(wanted)) => tolerance.get(path).is_some_and(|within| (found - wanted).abs() <= *within),
            _ => found == Some(wanted) || (found.is_none() && wanted.is_null()),
        };
        (!equal).then(|| format!("{path}: {} instead of {wanted} within {:?}", found.unwrap_or(&Value::Null), tolerance.get(path)))
    };
    case.expect.iter().filter_map(differs).collect()
}
