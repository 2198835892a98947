//! Where letters find room: right, left, below or above of what they name, or nowhere.

use super::geometry::every;
use super::lettering::{ASCENT, DESCENT, LEADING, text_width};
use super::{Anchor, Area, Ink, Item, Spot};

/// Between a thing and its name, dp.
const GAP: f64 = 4.0;
/// Room between two names, dp.
const APART: f64 = 2.0;
/// Names stay so far inside the drawing's edge, dp.
pub(super) const EDGE: f64 = 4.0;
/// Lines are remembered as places so far apart, dp.
const LINE_STEP: f64 = 4.0;

/// A name of one or more rows.
#[derive(Debug, Clone)]
pub(super) struct Label {
    /// Each row with its ink.
    pub(super) rows: Vec<(String, Ink)>,
    /// Size of the letters, dp.
    pub(super) size: f64,
    /// Bold letters.
    pub(super) bold: bool,
}

impl Label {
    pub(super) fn new(text: &str, ink: Ink, size: f64) -> Self {
        Self { rows: vec![(text.to_owned(), ink)], size, bold: false }
    }

    pub(super) fn bold(self) -> Self {
        Self { bold: true, ..self }
    }

    pub(super) fn and(mut self, row: &str, ink: Ink) -> Self {
        self.rows.push((row.to_owned(), ink));
        self
    }

    /// The same name without its last row; nothing when it has but one.
    pub(super) fn shorter(&self) -> Option<Self> {
        let rows = self.rows.get(..self.rows.len().saturating_sub(1)).filter(|rows| !rows.is_empty())?;
        Some(Self { rows: rows.to_vec(), size: self.size, bold: self.bold })
    }

    pub(super) fn width(&self) -> f64 {
        self.rows.iter().map(|(text, _)| text_width(text, self.size, self.bold)).fold(0.0, f64::max)
    }

    pub(super) fn height(&self) -> f64 {
        let between = self.rows.len().saturating_sub(1) as f64 * LEADING;
        (ASCENT + DESCENT + between) * self.size
    }

    /// The letters in a block of the label's own size.
    pub(super) fn items(&self, block: &Area, anchor: Anchor) -> Vec<Item> {
        let x = match anchor {
            Anchor::Start => block.x,
            Anchor::Middle => block.middle().x,
            Anchor::End => block.right(),
        };
        let row = |(index, (text, ink)): (usize, &(String, Ink))| {
            let y = block.y + (ASCENT + LEADING * index as f64) * self.size;
            letters(text, Spot::new(x, y), anchor, self.size, *ink, self.bold)
        };
        self.rows.iter().enumerate().map(row).collect()
    }
}

/// Upright letters with a halo.
pub(super) fn letters(text: &str, at: Spot, anchor: Anchor, size: f64, ink: Ink, bold: bool) -> Item {
    Item::Text { at, anchor, size, ink, halo: true, italic: false, bold, rotation_deg: 0.0, text: text.to_owned() }
}

/// What of the drawing is taken already.
#[derive(Debug, Clone)]
pub(super) struct Board {
    frame: Area,
    taken: Vec<Area>,
    lines: Vec<Spot>,
}

impl Board {
    pub(super) fn new(area: &Area) -> Self {
        Self { frame: area.inset(EDGE), taken: Vec::new(), lines: Vec::new() }
    }

    /// The part of the drawing that names may stand on.
    pub(super) fn frame(&self) -> &Area {
        &self.frame
    }

    /// No name may stand here any more.
    pub(super) fn take(&mut self, area: Area) {
        self.taken.push(area);
    }

    /// No name may stand on this path, so wide to each side; squares reach farther at their corners, so they are smaller.
    pub(super) fn take_path(&mut self, path: &[Spot], half_width: f64) {
        let half = 0.8 * half_width;
        self.taken.extend(every(path, half.max(2.0)).into_iter().map(|(spot, _)| Area::around(spot, half, half)));
    }

    /// Names stand off this path where they can.
    pub(super) fn avoid(&mut self, path: &[Spot]) {
        self.lines.extend(every(path, LINE_STEP).into_iter().map(|(spot, _)| spot));
    }

    pub(super) fn is_free(&self, area: &Area) -> bool {
        self.frame.holds_area(area) && self.is_apart(area, APART)
    }

    /// Whether nothing taken lies nearer to the area than this.
    pub(super) fn is_apart(&self, area: &Area, by: f64) -> bool {
        let wanted = area.inset(-by);
        !self.taken.iter().any(|taken| taken.meets(&wanted))
    }

    /// How many remembered places of lines the area covers.
    pub(super) fn crossed(&self, area: &Area) -> usize {
        let wanted = area.inset(-1.0);
        self.lines.iter().filter(|spot| wanted.holds(**spot)).count()
    }

    /// Sets a name beside a thing, or leaves it out.
    pub(super) fn place(&mut self, thing: &Area, label: &Label) -> Option<Vec<Item>> {
        let blocks = self.blocks_around(thing, label);
        self.place_in(&blocks, label)
    }

    /// Sets a name into the free one of these blocks that covers least of the lines; the first of equals.
    pub(super) fn place_in(&mut self, blocks: &[(Area, Anchor)], label: &Label) -> Option<Vec<Item>> {
        let free = blocks.iter().filter(|(block, _)| self.is_free(block));
        let (block, anchor) = free.min_by_key(|(block, _)| self.crossed(block)).copied()?;
        self.take(block);
        Some(label.items(&block, anchor))
    }

    /// Sets a name into the free one of these blocks that is nearest to a place, each remembered place of a line that it covers counting as
    /// so many dp; the first of equals. Where it stands, and its letters.
    pub(super) fn place_near(&mut self, blocks: &[(Area, Anchor)], label: &Label, to: Spot, crossed_dp: f64) -> Option<(Area, Vec<Item>)> {
        let far = |block: &Area| block.nearest(to).distance(to) + crossed_dp * self.crossed(block) as f64;
        let free = blocks.iter().filter(|(block, _)| self.is_free(block));
        let (block, anchor) = free.min_by(|(a, _), (b, _)| far(a).total_cmp(&far(b))).copied()?;
        self.take(block);
        Some((block, label.items(&block, anchor)))
    }

    /// Right, left, below, above, then right and left half a height and a whole one higher and lower, last below and above, but
    /// to one side of the thing's middle, where a ray leaves it; those at the sides move up and down to stay inside, those below and above sideways.
    fn blocks_around(&self, thing: &Area, label: &Label) -> Vec<(Area, Anchor)> {
        let (width, height) = (label.width(), label.height());
        let middle = thing.middle();
        let beside = |x: f64, up: f64| {
            let block = Area::new(x, middle.y - height * (0.5 + up), width, height);
            block.moved_into(&self.upright())
        };
        let (right, left) = (thing.right() + GAP, thing.x - GAP - width);
        let over = |x: f64, y: f64| Area::new(x, y, width, height).moved_into(&self.sideways());
        let (below, above) = (thing.bottom() + GAP, thing.y - GAP - height);
        let straight = [
            (beside(right, 0.0), Anchor::Start),
            (beside(left, 0.0), Anchor::End),
            (over(middle.x - width / 2.0, below), Anchor::Middle),
            (over(middle.x - width / 2.0, above), Anchor::Middle),
        ];
        let higher = [0.5, -0.5, 1.0, -1.0];
        let corners = higher.map(|up| [(beside(right, up), Anchor::Start), (beside(left, up), Anchor::End)]);
        let aside = [below, above].map(|y| [(over(middle.x + GAP, y), Anchor::Start), (over(middle.x - GAP - width, y), Anchor::End)]);
        straight.into_iter().chain(corners.into_iter().chain(aside).flatten()).collect()
    }

    /// The frame without end above and below: a block moved into it only moves sideways.
    fn sideways(&self) -> Area {
        Area { y: -1e6, height: 2e6, ..self.frame }
    }

    /// The same to the left and right.
    fn upright(&self) -> Area {
        Area { x: -1e6, width: 2e6, ..self.frame }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A landmark at the upper edge, its ray straight down, something else on either side of it: the only room is beside the ray.
    #[test]
    fn a_name_stands_beside_a_ray_rather_than_on_it() {
        let mut board = Board::new(&Area::new(0.0, 0.0, 200.0, 100.0));
        let thing = Area::around(Spot::new(100.0, 12.0), 7.0, 7.0);
        board.take(Area::new(0.0, 0.0, 90.0, 18.0));
        board.take(Area::new(110.0, 0.0, 90.0, 18.0));
        board.avoid(&[Spot::new(100.0, 19.0), Spot::new(98.0, 100.0)]);
        let label = Label::new("Sorn chapel", Ink::Text, 14.0);
        let items = board.place(&thing, &label).unwrap_or_default();
        let at = |item: &Item| if let Item::Text { at, anchor, .. } = item { Some((*anchor, at.x > 100.0)) } else { None };
        assert_eq!(items.iter().find_map(at), Some((Anchor::Start, true)), "{items:?}");
        let block = board.taken.last().copied();
        assert_eq!(block.map(|block| board.crossed(&block)), Some(0));
    }
}
