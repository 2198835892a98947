//! The command `gatepost`: the engine at a desk.
//!
//! Human text by default, `--json` for the reply as it is; `records` takes JSON Lines on standard input.
//! It leaves with 0, with 1 when a record was refused, with 2 when the arguments make no sense.

mod args;
mod output;
mod sightings;
mod told;
mod values;

use std::io::{BufRead, Write};
use std::process::ExitCode;

use clap::{ArgMatches, FromArgMatches};
use gatepost_core::engine::{Config, Engine, Refusal};
use gatepost_core::measure::Message;
use gatepost_core::words::Words;

use args::{Cli, Task};

/// PROJ writes its own complaints to standard error unless this says 0 when it first looks.
const PROJ_SILENCE: &str = "PROJ_DEBUG";

/// Starts itself again with PROJ silenced, so that a refusal is one sentence and nothing else.
#[cfg(unix)]
fn silence_proj() {
    use std::os::unix::process::CommandExt;
    let silent = std::env::var_os(PROJ_SILENCE).is_some_and(|value| value == "0");
    if let (false, Ok(program)) = (silent, std::env::current_exe()) {
        // On success this does not return; a failure only leaves PROJ talkative.
        let _ = std::process::Command::new(program).args(std::env::args_os().skip(1)).env(PROJ_SILENCE, "0").exec();
    }
}

#[cfg(not(unix))]
fn silence_proj() {}

fn main() -> ExitCode {
    silence_proj();
    let words = Words::english();
    let typed = std::env::args_os().map(values::told_from_options);
    let matches = match args::command(&words).try_get_matches_from(typed) {
        Ok(matches) => matches,
        Err(error) => return mistyped(&error, &words),
    };
    let Ok(mut cli) = Cli::from_arg_matches(&matches) else { return ExitCode::from(2) };
    if let (args::Task::Draw(ask), Some((_, typed))) = (&mut cli.task, matches.subcommand()) {
        let lines = typed.get_occurrences::<String>("line").into_iter().flatten();
        ask.lines = lines.map(|words| words.cloned().collect()).collect();
    }
    match run(&cli, &matches) {
        Ok(code) => code,
        Err(refusal) => refuse(&cli, &words, &refusal),
    }
}

/// Arguments that make no sense: a value by a sentence of our own, the rest by the parser's.
fn mistyped(error: &clap::Error, words: &Words) -> ExitCode {
    let Some(sentence) = values::value_off(error, words) else { error.exit() };
    let _ = writeln!(std::io::stderr(), "{sentence}");
    ExitCode::from(2)
}

fn refuse(cli: &Cli, words: &Words, refusal: &Refusal) -> ExitCode {
    let view = refusal.view(words);
    if cli.json {
        let line = serde_json::json!({ "ok": false, "refusal": { "code": view.code, "sentence": view.sentence } });
        let _ = print_line(&line.to_string());
    } else {
        // Nothing is left to be done when even standard error is gone.
        let _ = writeln!(std::io::stderr(), "{}", view.sentence);
    }
    ExitCode::FAILURE
}

/// Writes a line; false when nobody can read it.
fn print_line(line: &str) -> bool {
    writeln!(std::io::stdout(), "{line}").is_ok()
}

fn run(cli: &Cli, matches: &ArgMatches) -> Result<ExitCode, Refusal> {
    let output = output::output(&cli.task);
    output.as_ref().map_or(Ok(()), |output| output.check(&cli.logbook))?;
    let mut engine = Engine::open(&Config { logbook: told::logbook(cli), unit: cli.unit.clone(), ..Config::default() })?;
    if matches!(cli.task, Task::Records) {
        return records(&mut engine, cli);
    }
    let line = if let Task::Import(ask) = &cli.task {
        told::bring(&mut engine, cli, ask)?
    } else {
        engine.tell_json(&told::record(cli)?.to_string())
    };
    let reply: serde_json::Value = serde_json::from_str(&line).unwrap_or_default();
    let taken = reply.get("ok").and_then(serde_json::Value::as_bool).unwrap_or(false);
    let replaced = output.as_ref().map_or(Ok(None), |output| output.write(&reply))?;
    let read = show(cli, matches, &line, &reply);
    if let Some(replaced) = replaced.filter(|_| !cli.json) {
        // As with a refusal, nothing is left to be done when standard error is gone.
        let _ = writeln!(std::io::stderr(), "{}", engine.words().say(&replaced));
    }
    Ok(if taken && read { ExitCode::SUCCESS } else { ExitCode::FAILURE })
}

/// Shows a reply; false when nobody can read it.
fn show(cli: &Cli, typed: &ArgMatches, line: &str, reply: &serde_json::Value) -> bool {
    if cli.json {
        return print_line(line);
    }
    let sentences = reply.get("said").and_then(serde_json::Value::as_array);
    let read = sentences.into_iter().flatten().filter_map(serde_json::Value::as_str).all(print_line);
    if let Some(sentence) = reply.pointer("/refusal/sentence").and_then(serde_json::Value::as_str) {
        let _ = writeln!(std::io::stderr(), "{}", values::by_options(sentence, typed));
    }
    read
}

/// JSON Lines: one reply a line. Leaves with 1 when any line was refused.
fn records(engine: &mut Engine, cli: &Cli) -> Result<ExitCode, Refusal> {
    let mut code = ExitCode::SUCCESS;
    let mut output = std::io::BufWriter::new(std::io::stdout().lock());
    for line in std::io::stdin().lock().split(b'\n') {
        let unreadable = |detail: String| Refusal::new(Message::new("input-unreadable").text("detail", detail));
        let bytes = line.map_err(|error| unreadable(error.to_string()))?;
        let reply = match String::from_utf8(bytes) {
            Ok(text) if text.trim().is_empty() => continue,
            Ok(text) => match told::completed(&text, cli) {
                Ok(record) => engine.tell_json(&record),
                Err(refusal) => told::refused(engine.words(), &refusal),
            },
            Err(error) => {
                let unreadable = Message::new("record-unreadable").text("json", "no").text("detail", error.to_string());
                told::refused(engine.words(), &Refusal::new(unreadable))
            }
        };
        if reply.starts_with(r#"{"ok":false"#) {
            code = ExitCode::FAILURE;
        }
        if writeln!(output, "{reply}").and_then(|()| output.flush()).is_err() {
            return Ok(ExitCode::FAILURE);
        }
    }
    Ok(code)
}
