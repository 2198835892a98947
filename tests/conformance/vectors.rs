//! The case files of `tests/vectors`, run through the engine. The runners in Python and later on the
//! phones read the same files.

use gatepost_conformance::{differences, files_below, read, reply, root};
use serde_json::Value;

#[test]
fn every_case_file_holds() {
    let mut wrong = Vec::new();
    let mut count = 0;
    for path in files_below(&root().join("tests/vectors"), "json") {
        let file = read(&path);
        assert!(!file.source.is_empty(), "{} names no source", path.display());
        for case in &file.cases {
            let told = reply(&case.before, &case.record);
            let found = differences(&told, case, &file.tolerance);
            wrong.extend(found.iter().map(|difference| format!("{} case {}: {difference}", file.topic, case.id)));
            if told["ok"] != Value::Bool(true) {
                wrong.push(format!("{} case {}: refused: {}", file.topic, case.id, told["refusal"]));
            }
            count += 1;
        }
        for case in &file.invalid {
            let told = reply(&case.before, &case.record);
            if told["refusal"]["code"] != Value::String(case.refusal.clone()) {
                wrong.push(format!("{} invalid {}: {} instead of {}", file.topic, case.id, told["refusal"], case.refusal));
            }
            count += 1;
        }
    }
    assert!(count > 200, "only {count} cases were found");
    assert!(wrong.is_empty(), "{} of {count} cases:\n{}", wrong.len(), wrong.join("\n"));
}
