//! The boundary: the engine of `gatepost-core` for Kotlin, Swift and Python.
//!
//! One object, opened with a configuration record; calls are synchronous and take one record each.
//! No panic crosses: it is caught, reported as [`GatepostError::Inside`], and the engine is opened
//! anew from the logbook, which holds every acknowledged entry.

use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use gatepost_core::chart::{Size, bytes};
use gatepost_core::engine::{Brought, Config, Engine, Record, Refusal, Reply, Snapshot};
use gatepost_core::words::Words;

mod mirror;
pub mod told;

uniffi::setup_scaffolding!("gatepost");

/// How the field book is opened.
#[derive(Debug, Clone, uniffi::Record)]
pub struct OpenConfig {
    /// Path of the logbook file; in memory when absent.
    #[uniffi(default = None)]
    pub logbook_path: Option<String>,
    /// Minutes that the walker's clock is ahead of UTC; times of day are told by it.
    #[uniffi(default = 0)]
    pub utc_offset_min: i32,
    /// How bearings are written in sentences: deg, mil, gon or quadrant; degrees when absent.
    #[uniffi(default = None)]
    pub unit: Option<String>,
}

/// Why a call did not do what was asked. Each variant asks another thing of the shell.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error, uniffi::Error)]
pub enum GatepostError {
    /// The record was refused: show the sentence, keep what was typed; nothing was changed.
    #[error("{sentence}")]
    Refused {
        /// Short identifier in kebab-case.
        code: String,
        /// What a person is told.
        sentence: String,
    },
    /// The logbook file cannot be opened: show the sentence, change nothing, offer another file.
    #[error("{sentence}")]
    Logbook {
        /// Short identifier in kebab-case.
        code: String,
        /// What a person is told.
        sentence: String,
    },
    /// The book was shut: open it again.
    #[error("{sentence}")]
    Shut {
        /// What a person is told.
        sentence: String,
    },
    /// A fault inside: report it; the logbook is intact and open again.
    #[error("{sentence}")]
    Inside {
        /// What a person is told.
        sentence: String,
    },
}

/// A file to be brought in, with what its bytes do not say.
#[derive(Debug, Clone, uniffi::Record)]
pub struct IncomingFile {
    /// Its name, by whose ending its format is known.
    pub name: String,
    /// All of it.
    pub bytes: Vec<u8>,
    /// The grid that heights lie in, as a record has it.
    #[uniffi(default = None)]
    pub grid: Option<String>,
    /// South, west, north and east border of what is wanted, in degrees; all of it when absent.
    #[uniffi(default = None)]
    pub area_deg: Option<Vec<f64>>,
    /// Where heights come from, as a record has it.
    #[uniffi(default = None)]
    pub source: Option<String>,
    /// What covers the ground, as a record has it.
    #[uniffi(default = None)]
    pub cover: Option<String>,
    /// Whose data it is.
    #[uniffi(default = None)]
    pub credit: Option<String>,
}

/// Watches while a file is brought in, and may break it off. The book waits for its answer: it may not call the book.
#[uniffi::export(with_foreign)]
pub trait Watch: Send + Sync {
    /// Told how much is done, 0 to 1; answers whether to go on.
    fn goes_on(&self, share: f64) -> bool;
}

/// An open field book: one engine on one logbook.
#[derive(Debug, uniffi::Object)]
pub struct FieldBook {
    config: Config,
    engine: Mutex<Option<Engine>>,
}

#[uniffi::export]
impl FieldBook {
    /// Opens the logbook and resumes its newest trip.
    ///
    /// # Errors
    /// [`GatepostError::Logbook`] when the file is newer, damaged, foreign or cannot be written.
    #[uniffi::constructor]
    pub fn open(config: OpenConfig) -> Result<Self, GatepostError> {
        let config = Config { logbook: config.logbook_path.map(PathBuf::from), utc_offset_min: config.utc_offset_min, unit: config.unit };
        let engine = guarded(|| Engine::open(&config))?.map_err(|refusal| trouble(&refusal))?;
        Ok(Self { config, engine: Mutex::new(Some(engine)) })
    }

    /// Takes one record.
    ///
    /// # Errors
    /// [`GatepostError::Refused`] when it was not taken, [`GatepostError::Shut`] after [`FieldBook::shut`],
    /// [`GatepostError::Inside`] after a fault.
    pub fn take(&self, record: Record) -> Result<Reply, GatepostError> {
        if matches!(record, Record::Seen { .. }) {
            return self.look(&record);
        }
        self.with_engine(|engine| engine.tell(&record).map_err(|refusal| refused(engine, &refusal)))?
    }

    /// Takes one record as JSON and answers with one reply as JSON: `{"ok":true,…}` or
    /// `{"ok":false,"refusal":{"code":…,"sentence":…}}`. For case files and scripts.
    ///
    /// # Errors
    /// [`GatepostError::Shut`] and [`GatepostError::Inside`] as [`FieldBook::take`].
    pub fn tell(&self, record: &str) -> Result<String, GatepostError> {
        self.with_engine(|engine| engine.tell_json(record))
    }

    /// Brings a file in: lines and landmarks onto the sheet, or heights under it; answers like `take`. The book waits until it
    /// is done, so this is not called where a screen is drawn.
    ///
    /// # Errors
    /// As [`FieldBook::take`]; an import that `watch` broke off is refused.
    #[uniffi::method(default(watch = None))]
    pub fn bring(&self, at: &str, file: &IncomingFile, watch: Option<Arc<dyn Watch>>) -> Result<Reply, GatepostError> {
        let IncomingFile { name, bytes, grid, area_deg, source, cover, credit } = file;
        let (grid, area_deg, source) = (grid.as_deref(), area_deg.as_deref(), source.as_deref());
        let (cover, credit) = (cover.as_deref(), credit.as_deref());
        let file = Brought { at: Some(at), name, bytes, grid, area_deg, source, cover, credit, ..Brought::default() };
        let mut goes_on = |share: f64| watch.as_ref().is_none_or(|watch| watch.goes_on(share));
        self.with_engine(|engine| engine.bring(&file, &mut goes_on).map_err(|refusal| refused(engine, &refusal)))?
    }

    /// The snapshot as it stands; at a time (RFC 3339), ages and light are told for it.
    ///
    /// # Errors
    /// As [`FieldBook::take`].
    #[uniffi::method(default(at = None))]
    pub fn snapshot(&self, at: Option<String>) -> Result<Snapshot, GatepostError> {
        self.with_engine(|engine| engine.snapshot(at.as_deref()).map_err(|refusal| refused(engine, &refusal)))?
    }

    /// The chart of the last fix (`fix`) or of the walk (`walk`) as the bytes of a display list; sizes in dp.
    ///
    /// The layout is that of `core/src/chart/bytes.rs`.
    ///
    /// # Errors
    /// As [`FieldBook::take`].
    pub fn chart(&self, of: &str, width: f64, height: f64, letters: f64) -> Result<Vec<u8>, GatepostError> {
        let size = Size::new(width, height).lettered(letters);
        self.with_engine(|engine| engine.chart_list(of, size).map(|list| bytes(&list)).map_err(|refusal| refused(engine, &refusal)))?
    }

    /// Shuts the logbook file. Shutting twice does nothing.
    pub fn shut(&self) {
        *self.lock() = None;
    }
}

impl FieldBook {
    /// Runs a call on the open engine. After a fault the engine is opened anew from the logbook.
    fn with_engine<T>(&self, call: impl FnOnce(&mut Engine) -> T) -> Result<T, GatepostError> {
        let mut engine = self.lock();
        let Some(open) = engine.as_mut() else { return Err(GatepostError::Shut { sentence: say("book-shut") }) };
        let told = guarded(|| call(open));
        if told.is_err() {
            *engine = guarded(|| Engine::open(&self.config).ok()).unwrap_or_default();
        }
        told
    }

    /// What should be seen takes seconds over fine heights: while it is found out the engine takes other calls.
    fn look(&self, record: &Record) -> Result<Reply, GatepostError> {
        let asked = self.with_engine(|engine| engine.ask_seen(record).map_err(|refusal| refused(engine, &refusal)))??;
        let Some(asked) = asked else { return Err(GatepostError::Inside { sentence: say("internal") }) };
        let seen = guarded(|| asked.look())?;
        let reply = |engine: &mut Engine| engine.reply_seen(&asked, &seen?);
        self.with_engine(|engine| reply(engine).map_err(|refusal| refused(engine, &refusal)))?
    }

    /// A fault in an earlier call leaves the engine replaced, so a poisoned lock is sound.
    fn lock(&self) -> MutexGuard<'_, Option<Engine>> {
        self.engine.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// Runs a call so that no panic crosses the boundary.
fn guarded<T>(call: impl FnOnce() -> T) -> Result<T, GatepostError> {
    catch_unwind(AssertUnwindSafe(call)).map_err(|_| GatepostError::Inside { sentence: say("internal") })
}

fn trouble(refusal: &Refusal) -> GatepostError {
    let view = refusal.view(&Words::english());
    GatepostError::Logbook { code: view.code, sentence: view.sentence }
}

fn refused(engine: &Engine, refusal: &Refusal) -> GatepostError {
    let view = refusal.view(engine.words());
    GatepostError::Refused { code: view.code, sentence: view.sentence }
}

fn say(id: &str) -> String {
    Words::english().say_by_name(id)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::panic, clippy::unwrap_used, reason = "a test may stop where it fails, and one panics on purpose")]

    use gatepost_core::engine::Record;

    use super::{FieldBook, GatepostError, OpenConfig};

    /// A fault inside is reported; the book is open again and holds what was acknowledged before.
    #[test]
    fn no_panic_crosses_and_the_logbook_stays_whole() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("fault.gatepost").to_str().map(String::from);
        let book = FieldBook::open(OpenConfig { logbook_path: path, utc_offset_min: 0, unit: None }).unwrap();
        let text = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../tests/demo/velm-valley.toml")).unwrap();
        let carried = book.take(Record::Carry { at: Some("2026-09-12T08:00:00Z".into()), format: "toml".into(), text }).unwrap();
        let fault = book.with_engine(|_| -> () { panic!("made for this test") });
        assert!(matches!(&fault, Err(GatepostError::Inside { sentence }) if !sentence.is_empty()), "{fault:?}");
        let after = book.snapshot(Some("2026-09-12T08:00:00Z".into())).unwrap();
        assert_eq!((after.sheet, after.stage), (carried.snapshot.sheet, carried.snapshot.stage));
    }
}
