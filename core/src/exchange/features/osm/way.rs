//! Ways that wait for the places of their nodes.

use super::super::Wanted;
use super::super::error::{Fault, ImportError, Part, Record};
use super::super::gather::{Found, Gather, MOST_POINTS};
use super::super::shape::{Pos, Shape, checked};
use super::super::tags::Tags;
use super::SPREAD_M;
use super::block::Way;

/// A way with a copy of the tags that count.
struct Waiting {
    id: i64,
    tags: Vec<(String, String)>,
    as_area: bool,
    from: usize,
    to: usize,
}

/// The ways that are wanted, and the nodes they name.
#[derive(Default)]
pub(super) struct Ways {
    waiting: Vec<Waiting>,
    /// The nodes of all ways one after the other.
    refs: Vec<i64>,
    /// The same, sorted, each once.
    ids: Vec<i64>,
    places: Vec<Pos>,
    /// Bytes of all tags that are kept.
    tag_bytes: usize,
}

/// Most ways that wait.
const MOST_WAYS: usize = 200_000;
/// Most bytes of their tags.
const MOST_TAG_BYTES: usize = 32_000_000;

/// Whether a way is wanted, and if so whether it is the outline of a landmark.
pub(super) fn wanted(tags: &Tags<'_>, wanted: &Wanted) -> Option<bool> {
    if tags.is_gone() {
        return None;
    }
    if let Some((kind, _)) = tags.line(None) {
        let bridge = tags.is_bridge() && wanted.landmarks.contains(&super::super::LandmarkKind::Bridge);
        return (bridge || wanted.lines.contains(&kind.unwrap_or(wanted.unsaid))).then_some(false);
    }
    let (kind, _) = tags.landmark(None)?;
    wanted.landmarks.contains(&kind).then_some(true)
}

/// A copy of the tags that count.
pub(super) fn copied(tags: &Tags<'_>) -> Vec<(String, String)> {
    tags.pairs().map(|(key, value)| (key.to_owned(), value.chars().take(200).collect())).collect()
}

impl Ways {
    pub(super) fn is_empty(&self) -> bool {
        self.refs.is_empty()
    }

    pub(super) fn add(&mut self, way: &Way<'_>, tags: &Tags<'_>, as_area: bool) -> Result<(), ImportError> {
        let (from, to) = self.hold(way, tags.name())?;
        let tags = copied(tags);
        self.tag_bytes += tags.iter().map(|(key, value)| 64 + key.len() + value.len()).sum::<usize>();
        if self.waiting.len() >= MOST_WAYS || self.tag_bytes > MOST_TAG_BYTES {
            return Err(ImportError::TooMany { most: MOST_WAYS });
        }
        self.waiting.push(Waiting { id: way.id, tags, as_area, from, to });
        Ok(())
    }

    /// Keeps the nodes of a way: from where to where they lie among those of all.
    pub(super) fn hold(&mut self, way: &Way<'_>, name: Option<&str>) -> Result<(usize, usize), ImportError> {
        let from = self.refs.len();
        for node in way.nodes.clone().sums() {
            self.refs.push(node.map_err(|fault| Record::new(Part::Way, way.id).named(name).fault(fault))?);
            if self.refs.len() > MOST_POINTS {
                return Err(ImportError::TooMany { most: MOST_POINTS });
            }
        }
        Ok((from, self.refs.len()))
    }

    pub(super) fn nodes_of(&self, (from, to): (usize, usize)) -> Option<&[i64]> {
        self.refs.get(from..to)
    }

    /// The ways that are the outline of a landmark.
    pub(super) fn outlines(&self) -> impl Iterator<Item = i64> + '_ {
        self.waiting.iter().filter(|way| way.as_area).map(|way| way.id)
    }

    /// Makes the table of nodes whose places are wanted.
    pub(super) fn sort(&mut self) {
        self.ids = self.refs.clone();
        self.ids.sort_unstable();
        self.ids.dedup();
        self.places = vec![(f64::NAN, f64::NAN); self.ids.len()];
    }

    pub(super) fn place(&mut self, id: i64, lat: f64, lon: f64) {
        if let Ok(index) = self.ids.binary_search(&id)
            && let Some(place) = self.places.get_mut(index)
        {
            *place = (lat, lon);
        }
    }

    pub(super) fn found(&self, id: i64) -> Option<Pos> {
        let index = self.ids.binary_search(&id).ok()?;
        self.places.get(index).copied().filter(|(lat, _)| !lat.is_nan())
    }

    /// Hands all ways over as shapes.
    pub(super) fn take_all(&self, gather: &mut Gather<'_>) -> Result<(), ImportError> {
        for (index, way) in self.waiting.iter().enumerate() {
            if index.is_multiple_of(1024) {
                gather.tick(1, 1)?;
            }
            let tags = Tags::new(way.tags.iter().map(|(key, value)| (key.as_str(), value.as_str())));
            let record = Record::new(Part::Way, way.id).named(tags.name());
            let shape = self.shape(way).map_err(|fault| record.clone().fault(fault))?;
            if self.is_cut(way) {
                if shape.is_nothing() {
                    gather.leave_out_cut(&record);
                    continue;
                }
                gather.minded.cut(&record);
            }
            gather.take(
                shape,
                &Found { record, tags: &tags, layer: None, spread_m: SPREAD_M, is_recorded: false, is_noded: true, may_be_on_line: false },
            )?;
        }
        Ok(())
    }

    /// Whether the file lacks the place of one of its nodes.
    fn is_cut(&self, way: &Waiting) -> bool {
        self.nodes_of((way.from, way.to)).unwrap_or_default().iter().any(|node| self.found(*node).is_none())
    }

    /// The shape of a way. A cut-out of the map lacks nodes outside it: the way breaks off there.
    fn shape(&self, way: &Waiting) -> Result<Shape, Fault> {
        let mut lines = vec![Vec::new()];
        for id in self.refs.get(way.from..way.to).unwrap_or_default() {
            match (self.found(*id), lines.last_mut()) {
                (Some((lat, lon)), Some(line)) => line.push(checked(lat, lon)?),
                _ => lines.push(Vec::new()),
            }
        }
        if way.as_area {
            lines.retain(|ring| !ring.is_empty());
            return Ok(Shape { areas: lines.into_iter().map(|ring| vec![ring]).take(1).collect(), ..Shape::default() });
        }
        lines.retain(|line| line.len() >= 2);
        Ok(Shape { lines, ..Shape::default() })
    }
}
