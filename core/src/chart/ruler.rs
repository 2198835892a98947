//! The ruler under the chart: the road run out straight, the odds standing on it.

use super::band::{LEAST_SHARE, is_told};
use super::hill::Hill;
use super::label::{Board, EDGE, Label};
use super::view::{View, runs};
use super::{Anchor, Area, Cap, Ink, Item, Lettering, Size, Spot, Stroke};
use crate::fix::{Fix, Stretch};
use crate::sheet::Line;

/// The ruler's ends stand so far from the edge of the drawing, dp.
const SIDE: f64 = 16.0;
/// Height of the highest hill, dp.
const HILL: f64 = 28.0;
/// Ticks stand at least so far apart, dp.
const LEAST_TICK: f64 = 7.0;
/// Figures stand at least so far apart, in sizes of their letters.
const LEAST_FIGURE: f64 = 4.5;
/// Each so many ticks a figure, the least that leaves room: on a ruler of many ticks, and of few.
const TICKS_A_FIGURE: ([f64; 2], [f64; 4]) = ([5.0, 10.0], [1.0, 2.0, 5.0, 10.0]);
/// Metres between ticks, 100 or the next that leaves room.
const TICKS_M: [f64; 10] = [10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0, 2000.0, 5000.0, 10_000.0];
/// A ruler shorter than this has ticks closer than 100 m.
const CLOSE_M: f64 = 300.0;
/// More ticks than this are never drawn.
const MOST_TICKS: usize = 400;

/// Height of the ruler for letters of a size, dp.
pub(super) fn ruler_height(letters: f64) -> f64 {
    HILL + 22.0 + 2.0 * letters
}

/// The ruler in the making.
struct Ruler<'a> {
    line: &'a Line,
    fix: &'a Fix,
    lettering: &'a dyn Lettering,
    letters: f64,
    /// The part of the line that the chart shows, metres along it.
    range_m: (f64, f64),
    /// Whether the line's direction runs from right to left on the chart.
    turned: bool,
    width: f64,
    base: f64,
    origin_m: f64,
    board: Board,
    items: Vec<Item>,
}

/// The part of the line that chart and ruler show: from where it enters the window before the first
/// stretch to where it leaves it after the last.
pub(super) fn shown_range_m(view: &View, line: &Line, fix: &Fix) -> (f64, f64) {
    let told = || fix.stretches.iter().filter(|stretch| stretch.share >= LEAST_SHARE && fix.line_of(stretch) == line.name);
    let first_m = told().map(|stretch| stretch.limits_95_m.0).fold(f64::INFINITY, f64::min);
    let last_m = told().map(|stretch| stretch.limits_95_m.1).fold(f64::NEG_INFINITY, f64::max);
    let seen = runs(view, line, (0.0, line.length_m()), 0.0);
    let from = seen.iter().find(|run| run.to_m >= first_m).map_or(first_m, |run| run.from_m.min(first_m));
    let to = seen.iter().rev().find(|run| run.from_m <= last_m).map_or(last_m, |run| run.to_m.max(last_m));
    let once_round = if line.is_ring() { to.min(from + line.length_m()) } else { to };
    if from < to { (from, once_round) } else { (0.0, line.length_m()) }
}

/// Draws the ruler below the chart.
pub(super) fn ruler(view: &View, line: &Line, fix: &Fix, lettering: &dyn Lettering, size: Size) -> Vec<Item> {
    let range_m = shown_range_m(view, line, fix);
    let top = view.area.bottom();
    let height = (size.height - top).max(0.0);
    let (start, end) = (view.spot(line.at(range_m.0).at), view.spot(line.at(range_m.1).at));
    let mut ruler = Ruler {
        line,
        fix,
        lettering,
        letters: size.letters,
        range_m,
        turned: start.x > end.x,
        width: size.width,
        base: top + height - size.letters - 15.0,
        origin_m: origin_m(line, fix),
        board: Board::new(&Area::new(0.0, top, size.width, height)),
        items: vec![Item::line(vec![Spot::new(0.0, top), Spot::new(size.width, top)], Stroke::plain(Ink::Divider, 1.0))],
    };
    ruler.draw();
    ruler.items
}

/// The known point that is nearest to the best place, or the line's beginning.
fn origin_m(line: &Line, fix: &Fix) -> f64 {
    let best_m = fix.stretches.first().map_or(0.0, |stretch| stretch.best.along_m);
    let away = |along_m: &f64| (along_m - best_m).abs();
    let passes = line.known_points.iter().flat_map(|known| line.passes_m(known.along_m));
    passes.min_by(|a, b| away(a).total_cmp(&away(b))).unwrap_or(0.0)
}

impl Ruler<'_> {
    fn draw(&mut self) {
        self.hills();
        self.ticks();
        self.known_points();
        self.figures();
    }

    fn x(&self, along_m: f64) -> f64 {
        let share = (along_m - self.range_m.0) / self.length_m();
        let share = if self.turned { 1.0 - share } else { share };
        SIDE + share * (self.width - 2.0 * SIDE)
    }

    fn dp_per_m(&self) -> f64 {
        (self.width - 2.0 * SIDE) / self.length_m()
    }

    fn shows(&self, along_m: f64) -> bool {
        (self.range_m.0..=self.range_m.1).contains(&along_m)
    }

    fn upright(&mut self, along_m: f64, up: f64, down: f64, width: f64) {
        let x = self.x(along_m);
        let points = vec![Spot::new(x, self.base - up), Spot::new(x, self.base + down)];
        self.items.push(Item::line(points, Stroke::plain(Ink::Works, width)));
    }

    /// All hills are measured by the same height: odds per metre.
    fn hills(&mut self) {
        let per_dp_m = 1.0 / self.dp_per_m();
        let Some((best, odds)) = self.fix.best().and_then(|best| Some((best, &self.fix.lines.get(best.line)?.odds))) else { return };
        let on_line: Vec<&Stretch> = self.fix.stretches.iter().filter(|stretch| stretch.line == best.line).collect();
        let hills: Vec<Hill> = on_line.iter().map(|stretch| Hill::new(odds, stretch, per_dp_m)).collect();
        let peak = hills.iter().map(Hill::peak).fold(f64::MIN_POSITIVE, f64::max);
        for (hill, stretch) in hills.iter().zip(on_line) {
            let items = hill.items(&|along_m| self.x(along_m.clamp(self.range_m.0, self.range_m.1)), self.base - 1.5, HILL / peak);
            self.items.extend(items);
            if is_told(stretch) {
                self.share(self.x(stretch.best.along_m), hill.peak() * HILL / peak, stretch.share);
            }
        }
    }

    fn share(&mut self, x: f64, hill: f64, share: f64) {
        let label = Label::new(&self.lettering.share(share), Ink::Stretch, self.letters * 1.05).bold();
        let top = Area::around(Spot::new(x, self.base - 6.0 - hill - label.height() / 2.0), label.width() / 2.0, label.height() / 2.0);
        let block = top.moved_into(self.board.frame());
        if let Some(items) = self.board.place_in(&[(block, Anchor::Middle)], &label) {
            self.items.extend(items);
        }
    }

    fn ticks(&mut self) {
        self.items.push(Item::line(
            vec![Spot::new(SIDE, self.base), Spot::new(self.width - SIDE, self.base)],
            Stroke::plain(Ink::Works, 3.0).capped(Cap::Butt),
        ));
        let ticks_a_figure = self.ticks_a_figure();
        for (index, along_m) in self.steps(self.tick_m()) {
            let long = index.rem_euclid(ticks_a_figure) < 0.5;
            self.upright(along_m, 0.0, if long { 8.0 } else { 5.0 }, if long { 2.4 } else { 1.4 });
        }
        let ends = [0.0, self.line.length_m()].into_iter().filter(|_| !self.line.is_ring());
        for end_m in ends.filter(|end_m| self.shows(*end_m)).collect::<Vec<_>>() {
            self.upright(end_m, 6.0, 6.0, 3.0);
        }
    }

    /// 100 m where there is room; more on a long road, less where the chart has closed in.
    fn tick_m(&self) -> f64 {
        let least = TICKS_M.into_iter().find(|tick_m| tick_m * self.dp_per_m() >= LEAST_TICK).unwrap_or(10_000.0);
        if self.length_m() < CLOSE_M { least } else { least.max(100.0) }
    }

    fn length_m(&self) -> f64 {
        self.range_m.1 - self.range_m.0
    }

    fn ticks_a_figure(&self) -> f64 {
        let tick = self.tick_m() * self.dp_per_m();
        let (many, few) = TICKS_A_FIGURE;
        let wanted = if self.length_m() >= 10.0 * self.tick_m() { &many[..] } else { &few[..] };
        wanted.iter().copied().find(|count| count * tick >= LEAST_FIGURE * self.letters).unwrap_or(10.0)
    }

    /// Number and distance along the line of every tick, numbered from the known point.
    fn steps(&self, tick_m: f64) -> Vec<(f64, f64)> {
        let first = ((self.range_m.0 - self.origin_m) / tick_m).ceil();
        let all = (0..MOST_TICKS).map(|index| first + index as f64).map(|number| (number, self.origin_m + number * tick_m));
        all.take_while(|(_, along_m)| *along_m <= self.range_m.1).collect()
    }

    fn known_points(&mut self) {
        let named = self.line.known_points.iter();
        let mut known: Vec<(f64, String)> =
            named.flat_map(|known| self.line.passes_m(known.along_m).map(|along_m| (along_m, known.name.clone()))).collect();
        known.sort_by(|a, b| (a.0 - self.origin_m).abs().total_cmp(&(b.0 - self.origin_m).abs()));
        for (along_m, name) in known.into_iter().filter(|(along_m, _)| self.shows(*along_m)).collect::<Vec<_>>() {
            self.upright(along_m, 6.0, 8.0, 2.6);
            self.below(along_m, &name, self.width);
        }
    }

    fn figures(&mut self) {
        for (_, along_m) in self.steps(self.tick_m() * self.ticks_a_figure()) {
            let text = self.lettering.metres((along_m - self.origin_m).abs());
            self.below(along_m, &text, 6.0);
        }
    }

    /// Letters below the base line; near the edge they may move sideways so far.
    fn below(&mut self, along_m: f64, text: &str, most_moved: f64) {
        let label = Label::new(text, Ink::Text, self.letters);
        let x = self.x(along_m);
        let wanted = Area::new(x - label.width() / 2.0, self.base + 9.0, label.width(), label.height());
        let frame = Area::new(EDGE, wanted.y, self.width - 2.0 * EDGE, wanted.height);
        let block = wanted.moved_into(&frame);
        if (block.x - wanted.x).abs() > most_moved {
            return;
        }
        if let Some(items) = self.board.place_in(&[(block, Anchor::Middle)], &label) {
            self.items.extend(items);
        }
    }
}
