//! What the compass readings say at many places of a line: all of them, and without each sighting.

use super::directed::Group;
use super::on_line::OnLine;
use super::shared::Here;
use crate::measure::in_parts;

/// The groups that are left when a sighting is left out, by their number: those of the line, and after them the shortened ones.
#[derive(Debug)]
struct LeftOut {
    groups: Vec<usize>,
}

/// Logarithms at places in their order: of everything, and without each sighting.
type Logs = (Vec<f64>, Vec<Vec<f64>>);

impl<'a> OnLine<'a> {
    /// The logarithm of what the compass readings say at each place; with `apart`, also without each of the sightings.
    pub(super) fn ln_at_all(&self, along_m: &[f64], apart: bool) -> Logs {
        let sightings = if apart { self.directed_sightings() } else { Vec::new() };
        let (shortened, left_out) = self.left_out(&sightings);
        let terms = self.groups.iter().chain(&shortened).map(|group| group.candidates.len()).sum();
        let (mut ln, mut without) = (Vec::with_capacity(along_m.len()), vec![Vec::with_capacity(along_m.len()); left_out.len()]);
        for (part, part_without) in in_parts(along_m, terms, |along_m| self.ln_at_some(along_m, &shortened, &left_out)) {
            ln.extend(part);
            without.iter_mut().zip(part_without).for_each(|(all, part)| all.extend(part));
        }
        (ln, without)
    }

    fn ln_at_some(&self, along_m: &[f64], shortened: &[Group<'a>], left_out: &[LeftOut]) -> Logs {
        let all = self.all_groups();
        let (mut here, mut ln) = (Here::default(), Vec::with_capacity(along_m.len()));
        let mut without = vec![Vec::with_capacity(along_m.len()); left_out.len()];
        for spot in along_m.iter().filter_map(|along_m| self.spot(*along_m)) {
            self.shared.look(self.groups.iter().chain(shortened), &spot, &mut here);
            ln.push(self.shared.ln_likelihood(&mut here, &all));
            for (out, without) in left_out.iter().zip(&mut without) {
                without.push(self.shared.ln_likelihood(&mut here, &out.groups));
            }
        }
        (ln, without)
    }

    /// The sightings that have readings, in the order of [`Curve::without`].
    pub(super) fn directed_sightings(&self) -> Vec<usize> {
        let mut all: Vec<usize> = self.groups.iter().flat_map(|group| group.sightings.iter().copied()).collect();
        all.sort_unstable();
        all
    }

    /// What is left without each of the sightings: groups that lose one of several readings are made anew.
    fn left_out(&self, sightings: &[usize]) -> (Vec<Group<'a>>, Vec<LeftOut>) {
        let mut shortened: Vec<Group<'a>> = Vec::new();
        let of = |sighting: &usize| {
            let mut groups = Vec::new();
            for (index, group) in self.groups.iter().enumerate() {
                match group.without(*sighting) {
                    None => groups.push(index),
                    Some(rest) if rest.readings.is_empty() => {}
                    Some(rest) => {
                        groups.push(self.groups.len() + shortened.len());
                        shortened.push(rest);
                    }
                }
            }
            LeftOut { groups }
        };
        let left_out = sightings.iter().map(of).collect();
        (shortened, left_out)
    }
}
