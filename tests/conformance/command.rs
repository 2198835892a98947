//! The desk command as a person and a script use it: files, exit codes, kill and resume.

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use std::sync::OnceLock;

use gatepost_conformance::root;
use serde::Deserialize;
use serde_json::{Value, json};

/// The command, built once.
fn gatepost() -> Command {
    static BUILT: OnceLock<PathBuf> = OnceLock::new();
    let path = BUILT.get_or_init(|| {
        let built = Command::new(env!("CARGO")).args(["build", "-q", "--workspace"]).current_dir(root()).status().unwrap();
        assert!(built.success(), "the command does not build");
        // This test lies in target/PROFILE/deps.
        std::env::current_exe().unwrap().parent().unwrap().parent().unwrap().join("gatepost")
    });
    let mut command = Command::new(path);
    command.current_dir(root()).stdin(Stdio::null());
    command
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8(bytes.to_vec()).unwrap()
}

fn records(logbook: &Path, lines: &str) -> Output {
    let mut command = gatepost();
    command.arg("--logbook").arg(logbook).arg("records").stdin(Stdio::piped()).stdout(Stdio::piped()).stderr(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let mut input = child.stdin.take().unwrap();
    let lines = lines.to_owned();
    let writer = std::thread::spawn(move || input.write_all(lines.as_bytes()));
    let output = child.wait_with_output().unwrap();
    let _ = writer.join();
    output
}

fn walk() -> String {
    std::fs::read_to_string(root().join("tests/demo/walk.jsonl")).unwrap()
}

#[derive(Deserialize)]
struct BadCommand {
    #[serde(default)]
    setup: Vec<Vec<String>>,
    args: Vec<String>,
    stdin: Option<String>,
    exit: i32,
    says: String,
}

fn filled(args: &[String], folder: &Path) -> Vec<String> {
    let demo = root().join("tests/demo");
    args.iter().map(|arg| arg.replace("{dir}", &folder.to_string_lossy()).replace("{demo}", &demo.to_string_lossy())).collect()
}

fn run_bad(case: &BadCommand) -> Result<(), String> {
    let folder = tempfile::tempdir().unwrap();
    for args in &case.setup {
        let output = gatepost().args(filled(args, folder.path())).output().unwrap();
        if !output.status.success() {
            return Err(format!("the set-up {args:?} was refused: {}", text(&output.stderr)));
        }
    }
    let mut command = gatepost();
    command.args(filled(&case.args, folder.path())).stdout(Stdio::piped()).stderr(Stdio::piped());
    if case.stdin.is_some() {
        command.stdin(Stdio::piped());
    }
    let mut child = command.spawn().unwrap();
    if let (Some(mut input), Some(lines)) = (child.stdin.take(), &case.stdin) {
        input.write_all(lines.as_bytes()).unwrap();
    }
    let output = child.wait_with_output().unwrap();
    let told = text(&output.stderr) + &text(&output.stdout);
    let calm = !told.contains("panicked") && !told.contains("part-") && !told.contains("fault-");
    let held = output.status.code() == Some(case.exit) && told.contains(&case.says) && calm;
    if held { Ok(()) } else { Err(format!("{:?}: exit {:?}, said {told:?}", case.args, output.status.code())) }
}

#[test]
fn bad_commands_end_with_one_clear_sentence() {
    let text = std::fs::read_to_string(root().join("tests/demo/bad_commands.json")).unwrap();
    let cases: Vec<BadCommand> = serde_json::from_str(&text).unwrap();
    assert!(cases.len() >= 100, "only {} cases", cases.len());
    let wrong: Vec<String> = cases.iter().filter_map(|case| run_bad(case).err()).collect();
    assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), cases.len(), wrong.join("\n"));
}

#[test]
fn a_killed_command_loses_nothing_that_it_answered() {
    let folder = tempfile::tempdir().unwrap();
    let logbook = folder.path().join("walk.gatepost");
    for kept in [3, 6, 8, 10] {
        let _ = std::fs::remove_file(&logbook);
        let mut command = gatepost();
        command.arg("--logbook").arg(&logbook).arg("records").env("PROJ_DEBUG", "0").stdin(Stdio::piped()).stdout(Stdio::piped());
        let mut child = command.spawn().unwrap();
        let (mut input, mut replies) = (child.stdin.take().unwrap(), BufReader::new(child.stdout.take().unwrap()));
        for line in walk().lines().take(kept) {
            writeln!(input, "{line}").unwrap();
            let mut reply = String::new();
            replies.read_line(&mut reply).unwrap();
            assert!(reply.starts_with(r#"{"ok":true"#), "{reply}");
        }
        child.kill().unwrap();
        child.wait().unwrap();
        let rest: String = walk().lines().skip(kept).map(|line| format!("{line}\n")).collect();
        let output = records(&logbook, &rest);
        assert!(output.status.success(), "after {kept} records: {}", text(&output.stdout));
        let last: Value = serde_json::from_str(text(&output.stdout).lines().last().unwrap()).unwrap();
        assert_eq!(last["snapshot"]["legs"].as_array().unwrap().len(), 5, "after {kept} records");
        for end in ["-wal", "-shm"] {
            let _ = std::fs::remove_file(format!("{}{end}", logbook.display()));
        }
    }
}

#[test]
fn ten_thousand_fixes_run_in_one_process() {
    let folder = tempfile::tempdir().unwrap();
    let mut lines = walk().lines().take(1).map(|line| format!("{line}\n")).collect::<String>();
    for index in 0..10_000 {
        let bearing = format!("{:.1} mag", 12.0 + f64::from(index % 100) / 10.0);
        let sightings = json!([{ "landmark": "Sorn chapel", "bearing": bearing }]);
        lines += &format!("{}\n", json!({ "do": "fix", "at": "2026-09-12T08:10:00Z", "line": "Velm Road", "sightings": sightings }));
    }
    let output = records(&folder.path().join("many.gatepost"), &lines);
    let replies = text(&output.stdout);
    assert!(output.status.success());
    assert_eq!(replies.lines().filter(|line| line.starts_with(r#"{"ok":true"#)).count(), 10_001);
}

/// Whether a word is three digits, perhaps a tenth, and a degree sign: a bearing.
fn is_bearing(word: &str) -> bool {
    let figures = word.trim_end_matches('°');
    let (whole, tenth) = figures.split_once('.').unwrap_or((figures, "0"));
    word.ends_with('°') && whole.len() == 3 && tenth.len() == 1 && (whole.to_owned() + tenth).chars().all(|c| c.is_ascii_digit())
}

#[test]
fn every_bearing_said_names_its_north_and_every_spread_its_unit() {
    let folder = tempfile::tempdir().unwrap();
    let output = records(&folder.path().join("walk.gatepost"), &walk());
    let mut bearings = 0;
    for line in text(&output.stdout).lines() {
        let reply: Value = serde_json::from_str(line).unwrap();
        for sentence in reply["said"].as_array().unwrap().iter().filter_map(Value::as_str) {
            let words: Vec<&str> = sentence.split([' ', '\u{a0}', '(', ')', ',', ';', ':']).filter(|word| !word.is_empty()).collect();
            for (index, word) in words.iter().enumerate() {
                let next = words.get(index + 1).copied().unwrap_or_default();
                if is_bearing(word) {
                    bearings += 1;
                    assert!(["mag", "grid", "true"].contains(&next.trim_end_matches('.')), "{word} {next} in: {sentence}");
                }
                if *word == "±" {
                    let unit = words.get(index + 2).copied().unwrap_or_default();
                    let said = next.contains('°') || ["m", "km", "double", "%"].contains(&unit.trim_end_matches('.'));
                    assert!(said, "± {next} {unit} in: {sentence}");
                }
            }
        }
    }
    assert!(bearings > 30, "only {bearings} bearings");
}

/// What is written replaces what this program wrote, and neither a logbook, by whatever name, nor anything else.
#[test]
fn a_drawing_replaces_only_a_drawing() {
    let folder = tempfile::tempdir().unwrap();
    let (logbook, drawing) = (folder.path().join("walk.gatepost"), folder.path().join("walk.svg"));
    assert!(records(&logbook, &walk()).status.success());
    let draw = |file: &Path| gatepost().arg("--logbook").arg(&logbook).args(["chart", "walk"]).arg(file).output().unwrap();
    assert!(draw(&drawing).status.success());
    let first = std::fs::read(&drawing).unwrap();
    std::fs::write(&drawing, &first[..first.len() / 2]).unwrap();
    assert!(draw(&drawing).status.success() && std::fs::read(&drawing).unwrap() == first, "drawn anew over a half of it");
    let (empty, other) = (folder.path().join("empty.svg"), folder.path().join("other.svg"));
    std::fs::write(&empty, "").unwrap();
    assert!(draw(&empty).status.success(), "an empty file holds nothing");
    let theirs = "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"><path d=\"M0 0\"/></svg>";
    std::fs::write(&other, theirs).unwrap();
    let told = draw(&other);
    assert!(told.status.code() == Some(1) && text(&told.stderr).contains("did not write so"), "{}", text(&told.stderr));
    assert_eq!(std::fs::read_to_string(&other).unwrap(), theirs);
    let second_name = folder.path().join("second.svg");
    std::fs::hard_link(&logbook, &second_name).unwrap();
    let before = std::fs::read(&logbook).unwrap();
    for name in [&logbook, &second_name] {
        let told = draw(name);
        assert!(told.status.code() == Some(1) && text(&told.stderr).contains("is the logbook"), "{}", text(&told.stderr));
    }
    assert_eq!(std::fs::read(&logbook).unwrap(), before);
}

/// One that was changed by hand begins as before: it is written anew, and that is said.
#[test]
fn a_drawing_that_is_written_anew_says_so() {
    let folder = tempfile::tempdir().unwrap();
    let (logbook, drawing) = (folder.path().join("walk.gatepost"), folder.path().join("walk.svg"));
    assert!(records(&logbook, &walk()).status.success());
    let draw = || text(&gatepost().arg("--logbook").arg(&logbook).args(["chart", "walk"]).arg(&drawing).output().unwrap().stderr);
    assert_eq!((draw(), draw()), (String::new(), String::new()), "nothing was there, and then the same");
    let edited = std::fs::read_to_string(&drawing).unwrap().replace("</svg>", "<!-- by hand --></svg>");
    std::fs::write(&drawing, edited).unwrap();
    let told = draw();
    assert!(told.contains("is written anew") && told.contains("under another name"), "{told}");
}

/// A link that leads to the logbook leads to it.
#[cfg(unix)]
#[test]
fn a_drawing_does_not_follow_a_link_to_the_logbook() {
    let folder = tempfile::tempdir().unwrap();
    let (logbook, link) = (folder.path().join("walk.gatepost"), folder.path().join("walk.svg"));
    assert!(records(&logbook, &walk()).status.success());
    std::os::unix::fs::symlink(&logbook, &link).unwrap();
    let before = std::fs::read(&logbook).unwrap();
    let output = gatepost().arg("--logbook").arg(&logbook).args(["chart", "walk"]).arg(&link).output().unwrap();
    assert!(output.status.code() == Some(1) && text(&output.stderr).contains("is the logbook"), "{output:?}");
    // The logbook behind a link of its own is the same.
    let named = folder.path().join("named.gatepost");
    std::os::unix::fs::symlink(&logbook, &named).unwrap();
    let output = gatepost().arg("--logbook").arg(&named).args(["chart", "walk"]).arg(&logbook).output().unwrap();
    assert!(output.status.code() == Some(1) && text(&output.stderr).contains("is the logbook"), "{output:?}");
    assert_eq!(std::fs::read(&logbook).unwrap(), before);
}

/// Constructed: two lines and two landmarks in one command, as they are typed off a paper map.
#[test]
fn several_lines_are_drawn_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let mut command = gatepost();
    command.arg("--logbook").arg(folder.path().join("hand.gatepost")).args(["--json", "draw", "--name", "Hand", "--beginning", "33TVL"]);
    command.args(["--line", "road", "Mill road", "560950", "572962", "580990", "--line", "creek", "Velm", "575940", "565975"]);
    command.args(["--landmark", "mast", "Kiln", "569953", "--landmark", "church", "Ossel", "571957"]);
    let output = command.output().unwrap();
    let reply: Value = serde_json::from_slice(&output.stdout).unwrap();
    let sheet = &reply["snapshot"]["sheet"];
    assert_eq!(sheet["lines"].as_array().map(Vec::len), Some(2), "{reply}");
    assert_eq!((&sheet["lines"][1]["name"], &sheet["lines"][1]["kind"]), (&json!("Velm"), &json!("creek")));
    let landmarks: Vec<&Value> = reply["snapshot"]["sights"].as_array().unwrap().iter().map(|sight| &sight["landmark"]).collect();
    assert_eq!(landmarks, ["Kiln", "Ossel"]);
    // They cross once; the junction stands on both.
    let mut command = gatepost();
    let output = command.arg("--logbook").arg(folder.path().join("hand.gatepost")).args(["points", "--line", "Velm"]).output().unwrap();
    let told = String::from_utf8(output.stdout).unwrap();
    assert!(told.starts_with("One point is known there.\nMill road x Velm: ") && told.ends_with(" along Velm.\n"), "{told}");
}

/// What stands in the log of a database alone would be missing without a word.
#[test]
fn a_geopackage_with_a_log_beside_it_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let (file, log) = (folder.path().join("area.gpkg"), folder.path().join("area.gpkg-wal"));
    std::fs::copy(root().join("tests/fuzz/seeds/geopackage/whole"), &file).unwrap();
    let import = || gatepost().arg("--logbook").arg(folder.path().join("a.gatepost")).arg("import").arg(&file).output().unwrap();
    std::fs::write(&log, "not written back yet").unwrap();
    let output = import();
    assert!(output.status.code() == Some(1) && text(&output.stderr).contains("a part of it stands in area.gpkg-wal"), "{output:?}");
    std::fs::write(&log, "").unwrap();
    let output = import();
    assert!(output.status.success() && !text(&output.stdout).contains("log beside it"), "an empty log holds nothing: {output:?}");
}

/// A file that comes through a pipe, broken off while it comes: the keys of a terminal send the same signal.
#[cfg(unix)]
#[test]
fn an_import_that_is_broken_off_says_so_and_takes_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let (pipe, logbook) = (folder.path().join("road.geojson"), folder.path().join("a.gatepost"));
    assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    let mut command = gatepost();
    command.env("PROJ_DEBUG", "0").arg("--logbook").arg(&logbook).arg("import").arg(&pipe);
    let child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    // It is opened for writing once the command reads it.
    let mut input = std::fs::OpenOptions::new().write(true).open(&pipe).unwrap();
    let road = r#"{"type":"Feature","properties":{"highway":"track"},"geometry":{"type":"LineString","coordinates":[[13,46],[13.1,46]]}}"#;
    write!(input, r#"{{"type":"FeatureCollection","features":["#).unwrap();
    assert!(Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap().success());
    write!(input, "{road}]}}").unwrap();
    drop(input);
    let output = child.wait_with_output().unwrap();
    assert_eq!(output.status.code(), Some(1), "{output:?}");
    assert!(text(&output.stderr).contains("The import was cancelled. Nothing was changed."), "{output:?}");
    let lines = gatepost().arg("--logbook").arg(&logbook).arg("lines").output().unwrap();
    assert!(text(&lines.stderr).contains("No sheet is carried yet"), "{lines:?}");
}

/// Who presses the keys again while nothing comes through the pipe is out at once: 128 and the signal's number, as a shell tells it.
#[cfg(unix)]
#[test]
fn an_import_that_is_broken_off_twice_ends_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let (pipe, logbook) = (folder.path().join("road.geojson"), folder.path().join("a.gatepost"));
    assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success());
    let mut command = gatepost();
    command.env("PROJ_DEBUG", "0").arg("--logbook").arg(&logbook).arg("import").arg(&pipe);
    let mut child = command.stdout(Stdio::piped()).stderr(Stdio::piped()).spawn().unwrap();
    let input = std::fs::OpenOptions::new().write(true).open(&pipe).unwrap();
    // Two signals of one kind that come while none is looked at count once.
    for _ in 0..100 {
        assert!(Command::new("kill").args(["-INT", &child.id().to_string()]).status().unwrap().success());
        std::thread::sleep(std::time::Duration::from_millis(50));
        if child.try_wait().unwrap().is_some() {
            break;
        }
    }
    let output = child.wait_with_output().unwrap();
    drop(input);
    assert_eq!(output.status.code(), Some(130), "{output:?}");
    assert!(text(&output.stderr).contains("Ended at once."), "{output:?}");
}
