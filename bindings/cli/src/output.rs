//! The files that a desk writes, and those that they must not replace.

use std::io::Read;
use std::path::{Path, PathBuf};

use gatepost_core::chart::begins_as_svg;
use gatepost_core::engine::Refusal;
use gatepost_core::exchange::begins_as_contours;
use gatepost_core::measure::Message;
use serde_json::Value;

use crate::args::Task;

/// A text of the reply that goes into a file.
pub(crate) struct Output<'a> {
    file: &'a Path,
    /// Where the text stands in the reply.
    pointer: &'static str,
    /// Whether a file that begins so is one of its kind, by this program.
    is_ours: fn(&[u8]) -> bool,
}

/// What the task writes; `None` when it only tells.
pub(crate) fn output(task: &Task) -> Option<Output<'_>> {
    let drawing = |file| Output { file, pointer: "/answer/svg", is_ours: begins_as_svg };
    if let Task::Chart(ask) = task {
        return Some(drawing(&ask.file));
    }
    let Task::Contours(ask) = task else { return None };
    let geojson = || Output { file: &ask.file, pointer: "/answer/geojson", is_ours: begins_as_contours };
    Some(if drawn(&ask.file) { drawing(&ask.file) } else { geojson() })
}

/// Whether contours are written as a drawing: by the file's ending.
pub(crate) fn drawn(file: &Path) -> bool {
    file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("svg"))
}

/// The logbook, and what SQLite keeps beside it under its name with these endings.
const LOGBOOK_ENDINGS: [&str; 4] = ["", "-wal", "-shm", "-journal"];

/// So much of a file tells whose it is, bytes.
const BEGINNING: u64 = 1024;

impl Output<'_> {
    /// Refuses a file that would be lost: the logbook, or one that this program did not write so.
    pub(crate) fn check(&self, logbook: &Path) -> Result<(), Refusal> {
        let refused = |code| Err(Refusal::new(Message::new(code).text("path", self.file.to_string_lossy())));
        let beside = |ending: &str| {
            let mut name = resolved(logbook).into_os_string();
            name.push(ending);
            PathBuf::from(name)
        };
        if LOGBOOK_ENDINGS.iter().any(|ending| is_same(&beside(ending), self.file)) {
            return refused("output-logbook");
        }
        if self.replaces_another() { refused("output-taken") } else { Ok(()) }
    }

    /// Whether a file is there that holds something else. One that cannot be read is left to the refusal of writing it.
    fn replaces_another(&self) -> bool {
        let is_file = self.file.metadata().is_ok_and(|found| found.is_file());
        let mut beginning = Vec::new();
        let mut read = || std::fs::File::open(self.file).and_then(|file| file.take(BEGINNING).read_to_end(&mut beginning));
        is_file && (read().is_err() || !(beginning.is_empty() || (self.is_ours)(&beginning)))
    }

    /// Writes it, when the reply holds it. Tells where it stands now in place of another text: that may have been changed by hand.
    pub(crate) fn write(&self, reply: &Value) -> Result<Option<Message>, Refusal> {
        let Some(text) = reply.pointer(self.pointer).and_then(Value::as_str) else { return Ok(None) };
        let before = std::fs::read(self.file).unwrap_or_default();
        let replaced = !before.is_empty() && before != text.as_bytes();
        let unwritable = |error: std::io::Error| {
            Refusal::new(Message::new("file-unwritable").text("path", self.file.to_string_lossy()).text("detail", error.to_string()))
        };
        std::fs::write(self.file, text).map_err(unwritable)?;
        Ok(replaced.then(|| Message::new("output-replaced").text("path", self.file.to_string_lossy())))
    }
}

/// A path without links and detours, also of a file that is not there yet.
fn resolved(path: &Path) -> PathBuf {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let in_folder = || Some(folder.canonicalize().ok()?.join(path.file_name()?));
    path.canonicalize().ok().or_else(in_folder).unwrap_or_else(|| path.to_owned())
}

/// Whether two paths lead to one file: by their names, or as two names of it.
fn is_same(one: &Path, other: &Path) -> bool {
    resolved(one) == resolved(other) || is_one_file(one, other)
}

#[cfg(unix)]
fn is_one_file(one: &Path, other: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let number = |path: &Path| path.metadata().map(|found| (found.dev(), found.ino())).ok();
    number(one).is_some_and(|first| number(other) == Some(first))
}

#[cfg(not(unix))]
fn is_one_file(_: &Path, _: &Path) -> bool {
    false
}
