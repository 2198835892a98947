//! What is dear to make stays at hand, within limits that keep the memory small.

use std::collections::HashMap;
use std::rc::Rc;

use super::GridError;

/// Most that are kept: a sheet needs one or two, a list of places from all over the earth many.
const MOST_KEPT: usize = 64;
/// So many stay when there is no more room. The binding of PROJ closes its database with whatever is dropped (0.31), and
/// what is made next opens it anew, some 3 MB; dropped together, what is made after them shares one.
const KEPT_THEN: usize = MOST_KEPT / 2;
/// Most memory that refusals may hold, bytes; when it is full they are forgotten and gathered anew.
const MOST_REFUSED_BYTES: usize = 1 << 20;
/// What a refusal holds beside its definition, bytes, roughly.
const BESIDE: usize = 128;

/// What was made by definition, the last used in front, and what was refused. A refusal is remembered because the binding
/// of PROJ never frees what it took up for a definition that PROJ refuses (0.31: the context).
pub(super) struct Shelf<T> {
    kept: Vec<(String, Rc<T>)>,
    refused: HashMap<String, GridError>,
    refused_bytes: usize,
}

impl<T> Shelf<T> {
    pub(super) fn new() -> Self {
        Self { kept: Vec::new(), refused: HashMap::new(), refused_bytes: 0 }
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
        if self.kept.len() >= MOST_KEPT {
            self.kept.truncate(KEPT_THEN);
        }
        self.kept.insert(0, (definition.into(), Rc::clone(&made)));
        Ok(made)
    }

    fn at_hand(&mut self, definition: &str) -> Option<Rc<T>> {
        let place = self.kept.iter().position(|(kept, _)| kept == definition)?;
        self.kept.get_mut(..=place)?.rotate_right(1);
        self.kept.first().map(|(_, found)| Rc::clone(found))
    }

    fn remember(&mut self, definition: &str, refusal: &GridError) {
        // Twice: the refusal holds the definition too.
        let bytes = 2 * definition.len() + BESIDE;
        if self.refused_bytes + bytes > MOST_REFUSED_BYTES {
            self.refused.clear();
            self.refused_bytes = 0;
        }
        self.refused.insert(definition.into(), refusal.clone());
        self.refused_bytes += bytes;
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
        assert_eq!(count, names.len() + 1);
        assert!((KEPT_THEN..=MOST_KEPT).contains(&shelf.kept.len()), "{}", shelf.kept.len());
    }

    #[test]
    fn refusals_are_remembered_within_limits() {
        let long = |number: usize| format!("{number}{}", "+".repeat(4000));
        let few = MOST_REFUSED_BYTES / (2 * 4010 + BESIDE);
        let names: Vec<String> = (0..few).map(long).collect();
        let twice: Vec<&str> = names.iter().chain(&names).map(String::as_str).collect();
        assert_eq!(made(&twice, refuse).1, few, "long ones too are asked for once");
        let many: Vec<String> = (0..3 * few).map(long).collect();
        let (shelf, _) = made(&many.iter().map(String::as_str).collect::<Vec<_>>(), refuse);
        let held: usize = shelf.refused.keys().map(|definition| 2 * definition.len() + BESIDE).sum();
        assert!(held == shelf.refused_bytes && held <= MOST_REFUSED_BYTES && shelf.refused.len() > 1, "{held}");
    }
}
