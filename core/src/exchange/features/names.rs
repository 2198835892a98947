//! Names that a sheet can hold: no two lines and no two landmarks are called alike.

use std::collections::{HashMap, HashSet};

use crate::measure::turns_text;

/// Longest name, characters.
const MOST_CHARACTERS: usize = 80;

/// A name in one line of plain characters, none of which turns the others about; nothing when there is none to read.
pub(super) fn clean(name: &str) -> Option<String> {
    let plain = |c: char| if c.is_control() { ' ' } else { c };
    let start: String = name.chars().take(8 * MOST_CHARACTERS).filter(|c| !turns_text(*c)).map(plain).collect();
    let words = start.split_whitespace().collect::<Vec<_>>().join(" ");
    let short: String = words.chars().take(MOST_CHARACTERS).collect();
    let short = short.trim().to_owned();
    (!short.is_empty()).then_some(short)
}

/// Names that are given already, as a sheet compares them.
#[derive(Debug, Default)]
pub(super) struct Given {
    taken: HashSet<String>,
    last: HashMap<String, usize>,
}

impl Given {
    pub(super) fn of<'a>(names: impl Iterator<Item = &'a String>) -> Self {
        Self { taken: names.map(|name| compared(name)).collect(), last: HashMap::new() }
    }

    /// The name as it is when it is free, else with the first number from 2 that makes it free.
    pub(super) fn unlike(&mut self, name: &str) -> String {
        if self.taken.insert(compared(name)) {
            return name.to_owned();
        }
        self.numbered(name, 2)
    }

    /// A name for what has none: its kind and a number from 1.
    pub(super) fn invented(&mut self, word: &str) -> String {
        self.numbered(word, 1)
    }

    fn numbered(&mut self, name: &str, first: usize) -> String {
        let last = self.last.entry(format!("{first}{}", compared(name))).or_insert(first - 1);
        loop {
            *last += 1;
            let candidate = format!("{name} {last}");
            if self.taken.insert(compared(&candidate)) {
                return candidate;
            }
        }
    }
}

/// Names are told apart without case and outer blanks.
pub(super) fn compared(name: &str) -> String {
    name.trim().to_lowercase()
}

/// Names for all: first those that have one, so that an invented one never takes a real one's place.
pub(super) fn all(given: &mut Given, wanted: &[(Option<&str>, &str)]) -> Vec<String> {
    let mut names: Vec<Option<String>> = wanted.iter().map(|(name, _)| name.map(|name| given.unlike(name))).collect();
    for (name, (_, word)) in names.iter_mut().zip(wanted) {
        name.get_or_insert_with(|| given.invented(word));
    }
    names.into_iter().flatten().collect()
}

/// What stands before a number at the end of a name.
pub(super) fn before_number(name: &str) -> Option<&str> {
    let (base, number) = name.rsplit_once(' ')?;
    number.parse::<usize>().is_ok().then_some(base)
}
