//! A block of nodes, ways and relations.

use super::super::error::{Fault, ImportError, Part, Record};
use super::super::tags::Tags;
use super::wire::{Fields, Packed, Value, zigzag};

/// A node: its number and its place in degrees.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    pub(super) id: i64,
    pub(super) lat: f64,
    pub(super) lon: f64,
}

/// A way: its number and its nodes as running sums.
pub(super) struct Way<'a> {
    pub(super) id: i64,
    pub(super) nodes: Packed<'a>,
}

/// A relation: its number, and the ways on its outer edge.
pub(super) struct Relation<'a> {
    pub(super) id: i64,
    roles: Packed<'a>,
    members: Packed<'a>,
    types: Packed<'a>,
    texts: &'a [&'a str],
}

impl Relation<'_> {
    /// The ways of the role `outer`, or of none, at most so many.
    pub(super) fn outer(&self, most: usize) -> Result<Vec<i64>, Fault> {
        const WAY: u64 = 1;
        let mut outer = Vec::new();
        let (mut roles, mut types) = (self.roles.clone(), self.types.clone());
        for member in self.members.clone().sums().take(most) {
            let (member, role, kind) = (member?, roles.next().unwrap_or(Err(Fault::Cut))?, types.next().unwrap_or(Err(Fault::Cut))?);
            let role = usize::try_from(role).ok().and_then(|role| self.texts.get(role)).copied().unwrap_or_default();
            if kind == WAY && matches!(role, "outer" | "") {
                outer.push(member);
            }
        }
        Ok(outer)
    }
}

/// What is done with nodes, ways and relations.
pub(super) trait Visit {
    /// Takes a node.
    fn node(&mut self, node: &Node, tags: &Tags<'_>) -> Result<(), ImportError>;
    /// Takes a way.
    fn way(&mut self, way: &Way<'_>, tags: &Tags<'_>) -> Result<(), ImportError>;
    /// Takes a relation.
    fn relation(&mut self, relation: &Relation<'_>, tags: &Tags<'_>) -> Result<(), ImportError>;
    /// What is looked at.
    fn wants(&self) -> Wants;
}

/// What a way through the file looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Wants {
    /// Nodes, ways and relations with their tags.
    All,
    /// Ways without their tags.
    Ways,
    /// The places of nodes.
    Places,
}

/// A block with its table of texts and its scale.
pub(super) struct Block<'a> {
    number: i64,
    texts: Vec<&'a str>,
    groups: Vec<&'a [u8]>,
    granularity: i64,
    lat_offset: i64,
    lon_offset: i64,
}

/// Most texts of one block. A block of the format holds 8,000 things; this leaves room for every tag of each.
const MOST_TEXTS: usize = 1_000_000;
/// Most groups of one block: more than things.
const MOST_GROUPS: usize = 1_000_000;

impl<'a> Block<'a> {
    pub(super) fn new(message: &'a [u8], number: i64) -> Result<Self, Fault> {
        let mut block = Self { number, texts: Vec::new(), groups: Vec::new(), granularity: 100, lat_offset: 0, lon_offset: 0 };
        for field in Fields::new(message) {
            match field? {
                (1, Value::Bytes(table)) => block.texts = texts(table)?,
                (2, Value::Bytes(_)) if block.groups.len() >= MOST_GROUPS => return Err(Fault::Swollen),
                (2, Value::Bytes(group)) => block.groups.push(group),
                (17, Value::Number(step)) => block.granularity = step as i64,
                (19, Value::Number(offset)) => block.lat_offset = offset as i64,
                (20, Value::Number(offset)) => block.lon_offset = offset as i64,
                _ => {}
            }
        }
        Ok(block)
    }

    fn fault(&self, fault: Fault) -> ImportError {
        Record::new(Part::Block, self.number).fault(fault)
    }

    /// Hands everything that is wanted to a visitor.
    pub(super) fn each(&self, visit: &mut dyn Visit) -> Result<(), ImportError> {
        let wants = visit.wants();
        for group in &self.groups {
            for field in Fields::new(group) {
                match field.map_err(|fault| self.fault(fault))? {
                    (1, Value::Bytes(node)) if wants != Wants::Ways => self.node(node, visit)?,
                    (2, Value::Bytes(dense)) if wants != Wants::Ways => self.dense(dense, visit)?,
                    (3, Value::Bytes(way)) if wants != Wants::Places => self.way(way, visit)?,
                    (4, Value::Bytes(relation)) if wants == Wants::All => self.relation(relation, visit)?,
                    _ => {}
                }
            }
        }
        Ok(())
    }

    /// Degrees of a coordinate, which is written in steps of so many billionths of a degree.
    fn degrees(&self, value: i64, offset: i64) -> f64 {
        let billionths = i128::from(offset) + i128::from(self.granularity) * i128::from(value);
        billionths as f64 / 1e9
    }

    fn place(&self, id: i64, lat: i64, lon: i64) -> Node {
        Node { id, lat: self.degrees(lat, self.lat_offset), lon: self.degrees(lon, self.lon_offset) }
    }

    fn text(&self, index: u64) -> &'a str {
        usize::try_from(index).ok().and_then(|index| self.texts.get(index)).copied().unwrap_or_default()
    }

    /// Tags from two lists of text numbers, as many in the one as in the other.
    fn tags(&self, keys: &[u8], values: &[u8]) -> Result<Tags<'a>, Fault> {
        let count = |list| Packed::new(list).try_fold(0_usize, |count, number| number.map(|_| count + 1));
        if count(keys)? != count(values)? {
            return Err(Fault::Cut);
        }
        let numbers = |list| Packed::new(list).map_while(Result::ok);
        Ok(Tags::new(numbers(keys).zip(numbers(values)).map(|(key, value)| (self.text(key), self.text(value)))))
    }

    fn node(&self, message: &[u8], visit: &mut dyn Visit) -> Result<(), ImportError> {
        let (mut id, mut lat, mut lon) = (0, 0, 0);
        let (mut keys, mut values) = ([].as_slice(), [].as_slice());
        for field in Fields::new(message) {
            match field.map_err(|fault| self.fault(fault))? {
                (1, Value::Number(number)) => id = zigzag(number),
                (2, Value::Bytes(list)) => keys = list,
                (3, Value::Bytes(list)) => values = list,
                (8, Value::Number(number)) => lat = zigzag(number),
                (9, Value::Number(number)) => lon = zigzag(number),
                _ => {}
            }
        }
        let tags = self.tags(keys, values).map_err(|fault| Record::new(Part::Node, id).fault(fault))?;
        visit.node(&self.place(id, lat, lon), &tags)
    }

    fn way(&self, message: &[u8], visit: &mut dyn Visit) -> Result<(), ImportError> {
        let mut id = 0;
        let (mut keys, mut values, mut nodes) = ([].as_slice(), [].as_slice(), [].as_slice());
        for field in Fields::new(message) {
            match field.map_err(|fault| self.fault(fault))? {
                (1, Value::Number(number)) => id = number as i64,
                (2, Value::Bytes(list)) => keys = list,
                (3, Value::Bytes(list)) => values = list,
                (8, Value::Bytes(list)) => nodes = list,
                _ => {}
            }
        }
        let tags = self.tags(keys, values).map_err(|fault| Record::new(Part::Way, id).fault(fault))?;
        visit.way(&Way { id, nodes: Packed::new(nodes) }, &tags)
    }

    fn relation(&self, message: &[u8], visit: &mut dyn Visit) -> Result<(), ImportError> {
        let mut id = 0;
        let [mut keys, mut values, mut roles, mut members, mut types] = [[].as_slice(); 5];
        for field in Fields::new(message) {
            match field.map_err(|fault| self.fault(fault))? {
                (1, Value::Number(number)) => id = number as i64,
                (2, Value::Bytes(list)) => keys = list,
                (3, Value::Bytes(list)) => values = list,
                (8, Value::Bytes(list)) => roles = list,
                (9, Value::Bytes(list)) => members = list,
                (10, Value::Bytes(list)) => types = list,
                _ => {}
            }
        }
        let [roles, members, types] = [roles, members, types].map(Packed::new);
        let tags = self.tags(keys, values).map_err(|fault| Record::new(Part::Relation, id).fault(fault))?;
        visit.relation(&Relation { id, roles, members, types, texts: &self.texts }, &tags)
    }

    /// Nodes as columns of differences; the tags of all in one list, ended by a 0 for each node.
    fn dense(&self, message: &[u8], visit: &mut dyn Visit) -> Result<(), ImportError> {
        let (mut ids, mut lats, mut lons, mut tags) = ([].as_slice(), [].as_slice(), [].as_slice(), [].as_slice());
        for field in Fields::new(message) {
            match field.map_err(|fault| self.fault(fault))? {
                (1, Value::Bytes(list)) => ids = list,
                (8, Value::Bytes(list)) => lats = list,
                (9, Value::Bytes(list)) => lons = list,
                (10, Value::Bytes(list)) => tags = list,
                _ => {}
            }
        }
        let mut tags = Packed::new(tags);
        let (mut lats, mut lons) = (Packed::new(lats).sums(), Packed::new(lons).sums());
        for id in Packed::new(ids).sums() {
            let column = |next: Option<Result<i64, Fault>>| next.unwrap_or(Err(Fault::Cut)).map_err(|fault| self.fault(fault));
            let node = self.place(column(Some(id))?, column(lats.next())?, column(lons.next())?);
            let own = if visit.wants() == Wants::All { self.next_tags(&mut tags)? } else { Tags::default() };
            visit.node(&node, &own)?;
        }
        Ok(())
    }

    fn next_tags(&self, list: &mut Packed<'_>) -> Result<Tags<'a>, ImportError> {
        let mut pairs = Vec::new();
        while let Some(key) = list.next() {
            let key = key.map_err(|fault| self.fault(fault))?;
            if key == 0 {
                break;
            }
            let value = list.next().unwrap_or(Err(Fault::Cut)).map_err(|fault| self.fault(fault))?;
            if pairs.len() < 256 {
                pairs.push((self.text(key), self.text(value)));
            }
        }
        Ok(Tags::new(pairs.into_iter()))
    }
}

/// The table of texts; one that is no text counts as empty.
fn texts(table: &[u8]) -> Result<Vec<&str>, Fault> {
    let mut texts = Vec::new();
    for field in Fields::new(table) {
        if let (1, Value::Bytes(text)) = field? {
            texts.push(std::str::from_utf8(text).unwrap_or_default());
        }
        if texts.len() > MOST_TEXTS {
            return Err(Fault::Swollen);
        }
    }
    Ok(texts)
}
