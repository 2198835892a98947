//! The house: a room imports only from floors below its own, sentences live in `words`, functions stay short.

use std::collections::BTreeMap;
use std::path::Path;

use gatepost_conformance::{files_below, root};

/// Rooms of the core by floor, ground floor first (DEVELOPERS.md, "The house").
const FLOORS: [&[&str]; 8] = [
    &["measure"],
    &["earth"],
    &["ground"],
    &["sheet"],
    &["fix", "travel"],
    &["homeward"],
    &["logbook", "exchange", "chart", "words"],
    &["engine"],
];

fn floors() -> BTreeMap<&'static str, usize> {
    FLOORS.iter().enumerate().flat_map(|(floor, rooms)| rooms.iter().map(move |room| (*room, floor))).collect()
}

fn room_of(path: &Path) -> Option<String> {
    let inside = path.strip_prefix(root().join("core/src")).ok()?;
    (inside.components().count() > 1).then(|| inside.components().next().unwrap().as_os_str().to_string_lossy().into_owned())
}

/// Names after `crate::`, and rooms after `super::super::`, in code; comments left out.
fn rooms_named(text: &str) -> Vec<String> {
    let code = text.lines().filter(|line| !line.trim_start().starts_with("//")).collect::<Vec<_>>().join("\n");
    let word = |rest: &str| rest.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect::<String>();
    let by_root = code.split("crate::").skip(1).map(word);
    // Up through the parents one can leave a room too; what is named there counts when it is a room.
    let rooms = floors();
    let by_parents = code.split("super::super::").skip(1).map(word).filter(|named| rooms.contains_key(named.as_str()));
    by_root.chain(by_parents).collect()
}

#[test]
fn a_room_imports_only_from_floors_below() {
    let floors = floors();
    let mut wrong = Vec::new();
    for path in files_below(&root().join("core/src"), "rs") {
        let Some(room) = room_of(&path) else { continue };
        let own = floors.get(room.as_str()).unwrap_or_else(|| panic!("{room} stands on no floor"));
        for named in rooms_named(&std::fs::read_to_string(&path).unwrap()) {
            let allowed = named == room || floors.get(named.as_str()).is_some_and(|floor| floor < own);
            if !allowed {
                wrong.push(format!("{} imports {named}", path.display()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_top_level_holds_what_the_card_allows_and_nothing_else() {
    let allowed = ["Cargo.toml", "Cargo.lock", "README.md", "DEVELOPERS.md", "core", "bindings", "android", "ios", "tests", "target"];
    let names: Vec<String> =
        std::fs::read_dir(root()).unwrap().flatten().map(|entry| entry.file_name().to_string_lossy().into_owned()).collect();
    let extra: Vec<&String> = names.iter().filter(|name| !name.starts_with('.') && !allowed.contains(&name.as_str())).collect();
    assert!(extra.is_empty(), "{extra:?}");
    for needed in allowed.iter().filter(|name| **name != "target") {
        assert!(names.iter().any(|name| name == needed), "{needed} is missing");
    }
}

#[test]
fn only_the_logbook_knows_sqlite() {
    for path in files_below(&root().join("core/src"), "rs") {
        let text = std::fs::read_to_string(&path).unwrap();
        assert!(!text.contains("rusqlite") || room_of(&path).as_deref() == Some("logbook"), "{}", path.display());
    }
}

/// Identifiers of messages in the code: every one must have its sentence, every sentence its use.
#[test]
fn every_message_has_its_sentence_and_every_sentence_its_use() {
    let words = gatepost_core::words::Words::english();
    let resource = std::fs::read_to_string(root().join("core/src/words/en.ftl")).unwrap();
    let sources: String = ["core/src", "bindings/src", "bindings/cli/src"]
        .iter()
        .flat_map(|folder| files_below(&root().join(folder), "rs"))
        .map(|path| std::fs::read_to_string(path).unwrap())
        .collect();
    let shells: String = [("android/app/src/main", "kt"), ("ios/App", "swift"), ("ios/Sources", "swift")]
        .iter()
        .flat_map(|(folder, ending)| files_below(&root().join(folder), ending))
        .map(|path| std::fs::read_to_string(path).unwrap())
        .collect();
    let labels = std::fs::read_to_string(root().join("core/src/words/en_labels.ftl")).unwrap();
    for id in labels.lines().filter_map(|line| line.split_once(" = ")).map(|(id, _)| id).filter(|id| id.starts_with("label-")) {
        assert!(shells.contains(&format!("\"{id}\"")), "no use for the label {id}");
    }
    for id in shells.split("\"label-").skip(1).filter_map(|rest| rest.split('"').next()) {
        assert!(words.knows(&format!("label-{id}")), "no label for label-{id}");
    }
    let told = ["Message::new(\"", "Refusal::plain(\"", "Refusal::named(\"", "Refusal::number(\"", "renamed(\""];
    for id in told.iter().flat_map(|start| sources.split(start).skip(1)).filter_map(|rest| rest.split('"').next()) {
        assert!(words.knows(id) || id == "no-such", "no sentence for {id}");
    }
    let ids = resource.lines().filter_map(|line| line.split_once(" = ")).map(|(id, _)| id).filter(|id| !id.contains([' ', '#', '[']));
    for id in ids.filter(|id| !id.starts_with("help")) {
        let told = sources.contains(&format!("\"{id}\"")) || resource.contains(&format!("{{ {id} }}"));
        assert!(told, "no use for the sentence {id}");
    }
    for part in sources.split("\"part-").skip(1).chain(sources.split("\"fault-").skip(1)).filter_map(|rest| rest.split('"').next()) {
        let known = resource.contains(&format!("[part-{part}]")) || resource.contains(&format!("[fault-{part}]"));
        assert!(known || resource.contains(&format!("*[part-{part}]")) || resource.contains(&format!("*[fault-{part}]")), "{part}");
    }
}

/// Lines of each function body in a source text formatted by rustfmt: from its signature's brace to the brace at its indent.
fn function_lengths(text: &str) -> Vec<usize> {
    let lines: Vec<&str> = text.lines().collect();
    let mut lengths = Vec::new();
    for (start, line) in lines.iter().enumerate() {
        let trimmed = line.trim_start();
        let indent = line.len() - trimmed.len();
        let is_function = ["fn ", "pub fn ", "pub(super) fn ", "pub(crate) fn "].iter().any(|start| trimmed.starts_with(start));
        if !is_function || trimmed.ends_with(';') {
            continue;
        }
        let closing = format!("{}}}", " ".repeat(indent));
        let one_line = trimmed.ends_with('}') && trimmed.contains('{');
        let length = if one_line { 1 } else { lines[start..].iter().position(|line| *line == closing).map_or(1, |end| end.max(2) - 1) };
        lengths.push(length);
    }
    lengths.sort_unstable();
    lengths
}

#[test]
fn functions_of_the_core_stay_short() {
    let files = files_below(&root().join("core/src"), "rs").into_iter().filter(|path| !path.ends_with("tests.rs"));
    let mut lengths: Vec<usize> = files.flat_map(|path| function_lengths(&std::fs::read_to_string(path).unwrap())).collect();
    lengths.sort_unstable();
    let (median, high) = (lengths[lengths.len() / 2], lengths[lengths.len() * 95 / 100]);
    assert!(median <= 8, "median {median}");
    assert!(high <= 40, "95th percentile {high}");
}
