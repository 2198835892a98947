//! Refusals: a code, a sentence, and what kind of answer the shell should give.

use serde::Serialize;

use crate::measure::{Arg, Message, Telling};
use crate::words::Words;

/// Why a record was not taken. Nothing was changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Refusal {
    message: Message,
}

/// A refusal as it goes out.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RefusalView {
    /// Short identifier in kebab-case; it does not change with the language.
    pub code: String,
    /// One sentence or two: what is wrong, where, and what to do.
    pub sentence: String,
}

impl<T: Telling> From<T> for Refusal {
    fn from(error: T) -> Self {
        Self { message: error.message() }
    }
}

impl Refusal {
    /// A refusal by the engine itself.
    #[must_use]
    pub fn new(message: Message) -> Self {
        Self { message }
    }

    /// A refusal without arguments.
    pub(super) fn plain(id: &'static str) -> Self {
        Self::new(Message::new(id))
    }

    /// A refusal that names the word that was not understood.
    pub(super) fn named(id: &'static str, name: &str) -> Self {
        Self::new(Message::new(id).text("name", name))
    }

    /// A refusal of a number, shown as it came.
    pub(super) fn number(id: &'static str, value: f64) -> Self {
        Self::new(Message::new(id).with("typed", Arg::Text(value.to_string())))
    }

    /// Its code.
    #[must_use]
    pub fn code(&self) -> &'static str {
        self.message.id
    }

    /// The refusal in words.
    #[must_use]
    pub fn view(&self, words: &Words) -> RefusalView {
        RefusalView { code: self.code().into(), sentence: words.say(&self.message) }
    }
}
