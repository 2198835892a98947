//! What a file says that was not understood, or not believed, and what was made of it.

use std::collections::BTreeMap;

use super::error::Record;
use crate::measure::{Arg, Message};

/// So many of a sort are named.
const MOST_NAMED: usize = 5;
/// So many kinds are told apart, so that a file made to take memory cannot.
const MOST_KINDS: usize = 1000;

/// What must be told of the records of a file beyond how many came in.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Minded {
    /// How many records have a kind that is not known, by its word and the word that stands for it on the sheet.
    kinds: BTreeMap<(String, String), usize>,
    /// Roads that are only planned, or gone.
    planned: usize,
    /// Heights that cannot be read, or cannot be: what has them.
    heights: Named,
    /// Lines that come over their own ground again.
    unfolded: Named,
    /// Lines that were left without what another has.
    shared: Named,
    /// Lines of two names over the same ground.
    in_common: Named,
    /// The first records that were left out.
    left: Named,
}

/// The first of some records by their names, and how many there are.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
struct Named {
    names: Vec<String>,
    count: usize,
}

impl Named {
    fn add(&mut self, name: String) {
        self.count += 1;
        if self.names.len() < MOST_NAMED {
            self.names.push(name);
        }
    }

    fn told(&self) -> String {
        let all = self.names.join(", ");
        if self.count > self.names.len() { format!("{all}, …") } else { all }
    }
}

/// Metres in tens.
fn tens(metres: f64) -> String {
    format!("{:.0}\u{a0}m", (metres / 10.0).round() * 10.0)
}

impl Minded {
    /// A kind that is not known, and the word that stands for it.
    pub(super) fn kind(&mut self, word: &str, made: &str) {
        let key = (word.chars().take(40).collect(), made.to_owned());
        if self.kinds.len() < MOST_KINDS || self.kinds.contains_key(&key) {
            *self.kinds.entry(key).or_default() += 1;
        }
    }

    pub(super) fn planned(&mut self) {
        self.planned += 1;
    }

    pub(super) fn height(&mut self, record: &Record, stated: &str) {
        self.heights.add(format!("{} \"{}\"", record.called(), stated.chars().take(20).collect::<String>()));
    }

    /// A line that came over its own ground again, for so many metres.
    pub(super) fn unfolded(&mut self, record: &Record, again_m: f64) {
        self.unfolded.add(format!("{} ({})", record.called(), tens(again_m)));
    }

    /// A line of which another has a stretch already.
    pub(super) fn shared(&mut self, name: &str) {
        self.shared.add(name.to_owned());
    }

    /// Lines of two names that have so many metres in common.
    pub(super) fn in_common(&mut self, first: &str, other: &str, metres: f64) {
        self.in_common.add(format!("{first} / {other} ({})", tens(metres)));
    }

    pub(super) fn left_out(&mut self, record: &Record) {
        self.left.add(record.called());
    }

    /// The sentences for it.
    #[must_use]
    pub fn messages(&self) -> Vec<Message> {
        let mut kinds: Vec<(&(String, String), &usize)> = self.kinds.iter().collect();
        kinds.sort_by(|a, b| b.1.cmp(a.1));
        let told = |((word, made), count): &(&(String, String), &usize)| {
            if word == made { format!("{word} ({count})") } else { format!("{word} ({count}: {made})") }
        };
        let mut list = kinds.iter().take(MOST_NAMED).map(told).collect::<Vec<_>>().join(", ");
        if kinds.len() > MOST_NAMED {
            list.push_str(", …");
        }
        let counted = |id: &'static str, count: usize| Message::new(id).with("count", Arg::Count(i64::try_from(count).unwrap_or(i64::MAX)));
        let named = |id: &'static str, named: &Named| (named.count > 0).then(|| counted(id, named.count).text("names", named.told()));
        [
            (!kinds.is_empty()).then(|| Message::new("import-kinds-odd").text("list", list)),
            (self.planned > 0).then(|| counted("import-planned", self.planned)),
            named("import-heights-odd", &self.heights),
            named("import-unfolded", &self.unfolded),
            named("import-shared", &self.shared),
            named("import-in-common", &self.in_common),
            named("import-left", &self.left),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}
