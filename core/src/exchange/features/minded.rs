//! What a file says that was not understood, or not believed, and what was made of it.

use std::collections::BTreeMap;

use super::error::Record;
use super::shape::{Pos, from_line_m};
use crate::measure::{Arg, Message};
use crate::sheet::SheetDraft;

/// So many of a sort are named.
const MOST_NAMED: usize = 5;
/// So many kinds are told apart, so that a file made to take memory cannot.
const MOST_KINDS: usize = 1000;

/// What must be told of the records of a file beyond how many came in.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Minded {
    /// How many records have a kind that is not known, by its word and the word that stands for it on the sheet.
    kinds: BTreeMap<(String, String), usize>,
    /// Lines of which the file says no kind, and the word that stands for it.
    unsaid: (Named, String),
    /// What is only planned, or gone.
    gone: usize,
    /// Stretches of water and of ways that run under the ground, and their metres.
    covered: [(usize, f64); 2],
    /// Ways and outlines that lack points which the file does not hold.
    cut: Named,
    /// Heights that cannot be read, or cannot be: what has them.
    heights: Named,
    /// Lines that come over their own ground again.
    unfolded: Named,
    /// Lines that were left without what another has.
    shared: Named,
    /// Lines of two names over the same ground.
    in_common: Named,
    /// Lines that lie in several pieces.
    in_pieces: Named,
    /// Ways with a level of their own, on no bridge and in no tunnel.
    level_alone: Named,
    /// Lines of which a stretch has a single point.
    single: Named,
    /// Layers that are views, not tables.
    views: Named,
    /// The first records that were left out.
    left: Named,
    /// How many were left out as no sheet takes their kind, by it.
    left_kinds: BTreeMap<String, usize>,
    /// Records without a place.
    placeless: Named,
    /// Records of which an area or a line was left out.
    in_part: Named,
    /// Links to other files.
    links: Named,
    /// Names that several landmarks of the file have.
    same_names: Named,
    /// Landmarks of which the file says neither name nor kind.
    unnamed: Named,
    /// What has its name from its kind and a number.
    invented: Vec<Invented>,
}

/// What has its name from its kind and a number, which may be another one on a sheet.
#[derive(Debug, Clone, PartialEq)]
struct Invented {
    is_line: bool,
    name: String,
    at: Pos,
}

impl Invented {
    /// Its name on a sheet.
    fn on<'a>(&self, draft: &'a SheetDraft) -> Option<&'a String> {
        const SAME_M: f64 = 1.0;
        if self.is_line {
            let nearest = draft.lines.iter().map(|line| (from_line_m(self.at, &line.points, SAME_M), &line.name));
            return nearest.filter(|near| near.0 <= SAME_M).min_by(|a, b| a.0.total_cmp(&b.0)).map(|near| near.1);
        }
        let is_there = |at: Pos| (at.0 - self.at.0).abs() + (at.1 - self.at.1).abs() <= 0.0;
        draft.landmarks.iter().rev().find(|mark| is_there(mark.at)).map(|mark| &mark.name)
    }
}

/// The first of some records by their names, and how many there are.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Named {
    names: Vec<String>,
    count: usize,
}

impl Named {
    pub(super) fn add(&mut self, name: String) {
        self.count += 1;
        if self.names.len() < MOST_NAMED {
            self.names.push(name);
        }
    }

    /// A message with them and their count; none where there are none.
    pub(super) fn message(&self, id: &'static str) -> Option<Message> {
        let count = Arg::Count(i64::try_from(self.count).unwrap_or(i64::MAX));
        (self.count > 0).then(|| Message::new(id).with("count", count).text("names", self.told()))
    }

    /// Calls one of them otherwise.
    fn rename(&mut self, was: &str, name: &str) {
        self.names.iter_mut().filter(|one| *one == was).for_each(|one| name.clone_into(one));
    }

    fn told(&self) -> String {
        let all = self.names.join(", ");
        if self.count > self.names.len() { format!("{all}, …") } else { all }
    }
}

/// The most frequent of some kinds, each as it is told; nothing where there is none.
fn most_of<K: Ord>(kinds: &BTreeMap<K, usize>, told: impl Fn(&K, usize) -> String) -> Option<String> {
    let mut all: Vec<(&K, &usize)> = kinds.iter().collect();
    all.sort_by(|a, b| b.1.cmp(a.1));
    let mut list = all.iter().take(MOST_NAMED).map(|(kind, count)| told(kind, **count)).collect::<Vec<_>>().join(", ");
    if all.len() > MOST_NAMED {
        list.push_str(", …");
    }
    (!all.is_empty()).then_some(list)
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

    /// A line of this name of which the file says no kind, and what it is taken as.
    pub(super) fn unsaid_line(&mut self, called: String, made: &str) {
        self.unsaid.0.add(called);
        made.clone_into(&mut self.unsaid.1);
    }

    pub(super) fn gone(&mut self) {
        self.gone += 1;
    }

    /// A stretch of so many metres under the ground.
    pub(super) fn covered(&mut self, is_water: bool, metres: f64) {
        let [water, ways] = &mut self.covered;
        let of = if is_water { water } else { ways };
        *of = (of.0 + 1, of.1 + metres);
    }

    /// A way or an outline of which the file does not hold all points.
    pub(super) fn cut(&mut self, record: &Record) {
        self.cut.add(record.called());
    }

    /// A way with a level of its own, of which nobody says by what.
    pub(super) fn level_alone(&mut self, record: &Record) {
        self.level_alone.add(record.called());
    }

    /// A line that lies in so many pieces.
    pub(super) fn in_pieces(&mut self, name: &str, pieces: usize) {
        self.in_pieces.add(format!("{name} ({pieces})"));
    }

    pub(super) fn height(&mut self, record: &Record, stated: &str) {
        self.heights.add(format!("{} \"{}\"", record.called(), stated.chars().take(20).collect::<String>()));
    }

    /// A line that came over its own ground again, for so many metres.
    pub(super) fn unfolded(&mut self, called: &str, again_m: f64) {
        self.unfolded.add(format!("{called} ({})", tens(again_m)));
    }

    /// A line of which another has a stretch already.
    pub(super) fn shared(&mut self, name: &str) {
        self.shared.add(name.to_owned());
    }

    /// Lines of two names that have so many metres in common.
    pub(super) fn in_common(&mut self, first: &str, other: &str, metres: f64) {
        self.in_common.add(format!("{first} / {other} ({})", tens(metres)));
    }

    /// A line of which so many stretches have a single point.
    pub(super) fn single(&mut self, record: &Record, stretches: usize) {
        self.single.add(format!("{} ({stretches})", record.called()));
    }

    /// How many layers are left out, as they are views.
    #[must_use]
    pub fn layers_left_out(&self) -> usize {
        self.views.count
    }

    /// A layer that is no table of its own.
    pub(super) fn view(&mut self, layer: String) {
        self.views.add(layer);
    }

    pub(super) fn left_out(&mut self, record: &Record) {
        self.left.add(record.called());
    }

    /// A record of a kind that no sheet takes.
    pub(super) fn left_kind(&mut self, kind: String) {
        if self.left_kinds.len() < MOST_KINDS || self.left_kinds.contains_key(&kind) {
            *self.left_kinds.entry(kind).or_default() += 1;
        }
    }

    /// A record without a place.
    pub(super) fn placeless(&mut self, record: &Record) {
        self.placeless.add(record.called());
    }

    /// A record of which an area or a line is not taken.
    pub(super) fn in_part(&mut self, record: &Record) {
        self.in_part.add(record.called());
    }

    /// A link to another file.
    pub(super) fn link(&mut self, record: &Record) {
        self.links.add(record.called());
    }

    /// A name that so many landmarks have.
    pub(super) fn same_name(&mut self, name: &str, count: usize) {
        self.same_names.add(format!("{name} ({count})"));
    }

    /// A landmark of which the file says neither name nor kind, under the name that it is given.
    pub(super) fn unnamed(&mut self, name: &str, at: Pos) {
        self.unnamed.add(name.to_owned());
        self.invented(false, name, at);
    }

    /// A line that has its name from its kind and a number, and a place on it.
    pub(super) fn invented_line(&mut self, name: &str, at: Pos) {
        self.invented(true, name, at);
    }

    fn invented(&mut self, is_line: bool, name: &str, at: Pos) {
        if self.invented.iter().filter(|one| one.is_line == is_line).count() < MOST_NAMED {
            self.invented.push(Invented { is_line, name: name.to_owned(), at });
        }
    }

    /// Calls what has its name from its kind and a number as the sheet does that it came onto.
    pub fn called_on(&mut self, draft: &SheetDraft) {
        for one in std::mem::take(&mut self.invented) {
            let Some(name) = one.on(draft) else { continue };
            let among = if one.is_line { &mut self.unsaid.0 } else { &mut self.unnamed };
            among.rename(&one.name, name);
        }
    }

    /// The sentences for it.
    #[must_use]
    pub fn messages(&self) -> Vec<Message> {
        let list = most_of(&self.kinds, |(word, made), count| format!("{word} ({count}: {made})"));
        let left_kinds = most_of(&self.left_kinds, |kind, count| format!("{kind} ({count})"));
        let of_kinds = self.left_kinds.values().sum::<usize>();
        let counted = |id: &'static str, count: usize| Message::new(id).with("count", Arg::Count(i64::try_from(count).unwrap_or(i64::MAX)));
        let named = |id: &'static str, named: &Named| named.message(id);
        let covered = |id, (count, metres)| (count > 0).then(|| counted(id, count).with("metres", Arg::Metres(metres)));
        [
            list.map(|list| Message::new("import-kinds-odd").text("list", list)),
            (self.gone > 0).then(|| counted("import-gone", self.gone)),
            covered("import-covered-water", self.covered[0]),
            covered("import-covered-way", self.covered[1]),
            named("import-cut", &self.cut),
            named("import-heights-odd", &self.heights),
            named("import-unfolded", &self.unfolded),
            named("import-shared", &self.shared),
            named("import-in-common", &self.in_common),
            named("import-in-pieces", &self.in_pieces),
            named("import-level-alone", &self.level_alone),
            named("import-single", &self.single),
            named("import-views", &self.views),
            named("import-left", &self.left),
            left_kinds.map(|list| counted("import-left-kinds", of_kinds).text("list", list)),
            named("import-placeless", &self.placeless),
            named("import-in-part", &self.in_part),
            named("import-links", &self.links),
            named("import-same-names", &self.same_names),
            named("import-unnamed", &self.unnamed),
            named("import-kind-unsaid", &self.unsaid.0).map(|message| message.text("kind", self.unsaid.1.clone())),
        ]
        .into_iter()
        .flatten()
        .collect()
    }
}
