//! What is dear to make stays at hand, within limits that keep the memory small.

use std::collections::HashMap;
use std::rc::Rc;

use super::GridError;

/// Most that are kept, some 4 MB each: a sheet needs one or two, a list of places from all over the earth many.
const MOST_KEPT: usize = 64;
/// Most refusals that are remembered, and the longest definition among them, bytes.
const MOST_REFUSED: usize = 512;
const LONGEST_REFUSED: usize = 64;

/// What was made by definition, the last used in front, and what was refused. A refusal is remembered because the binding
/// of PROJ never frees what it took up for a definition that PROJ refuses (0.31: the context, about 0.1 MB each time).
pub(super) struct Shelf<T> {
    kept: Vec<(String, Rc<T>)>,
    refused: HashMap<String, GridError>,
}

impl<T> Shelf<T> {
    pub(super) fn new() -> Self {
        Self { kept: Vec::new(), refused: HashMap::new() }
    }

    /// What has this definition; made when it is not at hand.
    pub(super) fn take(&mut self, definition: &str, make: impl FnOnce(&str) -> Result<T, GridError>) -> Result<Rc<T>, GridError> {
        if let Some(found) = self.at_hand(definition) {
            return Ok(found);
        }
        if let Some(refusal) = self.refused.get(definition) {
            return Err(refusal.clone());
        }
        let made = Rc::new(make(definition).inspect_err(|refusal| self.remember(definition, refusal))?);
        self.kept.truncate(MOST_KEPT - 1);
        self.kept.insert(0, (definition.into(), Rc::clone(&made)));
        Ok(made)
    }

    fn at_hand(&mut self, definition: &str) -> Option<Rc<T>> {
        let place = self.kept.iter().position(|(kept, _)| kept == definition)?;
        self.kept.get_mut(..=place)?.rotate_right(1);
        self.kept.first().map(|(_, found)| Rc::clone(found))
    }

    fn remember(&mut self, definition: &str, refusal: &GridError) {
        if self.refused.len() >= MOST_REFUSED {
            self.refused.clear();
        }
        if definition.len() <= LONGEST_REFUSED {
            self.refused.insert(definition.into(), refusal.clone());
        }
    }
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use super::*;

    /// Definitions in turn, and how often something was made for them.
    fn made(definitions: &[&str], make: impl Fn(&str) -> Result<usize, GridError>) -> (Shelf<usize>, usize) {
        let (mut shelf, count) = (Shelf::new(), Cell::new(0));
        for definition in definitions {
            let taken = shelf.take(definition, |wanted| {
                count.set(count.get() + 1);
                make(wanted)
            });
            assert_eq!(taken.as_deref().copied().map_err(Clone::clone), make(definition), "{definition}");
        }
        (shelf, count.get())
    }

    fn by_length(definition: &str) -> Result<usize, GridError> {
        Ok(definition.len())
    }

    fn refuse(definition: &str) -> Result<usize, GridError> {
        Err(GridError::Unknown(definition.into()))
    }

    #[test]
    fn what_was_made_or_refused_is_not_asked_for_again() {
        assert_eq!(made(&["a", "bb", "a", "bb", "a"], by_length).1, 2);
        assert_eq!(made(&["a", "bb", "a", "bb", "a"], refuse).1, 2);
    }

    #[test]
    fn the_shelf_stays_small_and_keeps_the_last_used() {
        let names: Vec<String> = (0..10 * MOST_KEPT).map(|number| format!("EPSG:{number}")).collect();
        let in_turn: Vec<&str> = names.iter().flat_map(|name| ["first", name.as_str()]).collect();
        let (shelf, count) = made(&in_turn, by_length);
        assert_eq!((shelf.kept.len(), count), (MOST_KEPT, names.len() + 1));
    }

    #[test]
    fn refusals_are_remembered_within_limits() {
        let names: Vec<String> = (0..=MOST_REFUSED).map(|number| format!("EPSG:{number}")).collect();
        let (shelf, _) = made(&names.iter().map(String::as_str).collect::<Vec<_>>(), refuse);
        assert_eq!(shelf.refused.len(), 1);
        let long = "+".repeat(LONGEST_REFUSED + 1);
        assert!(made(&[&long], refuse).0.refused.is_empty());
    }
}
