//! The odds along a line: on both its sides, the line itself left as a slit.

use super::geometry::every;
use super::label::Label;
use super::scene::{BEYOND, Scene, slit_width};
use super::symbol::cross_bar;
use super::view::{Run, runs};
use super::{Anchor, Area, Ink, Item, Spot, Stroke, Touched};
use crate::fix::{Fix, Stretch};
use crate::sheet::{Line, Sheet};

/// Width of a rail of the ladder, dp.
const RAIL: f64 = 1.6;
/// Width of the band, dp: rungs of 13 dp between two rails.
const WIDTH: f64 = 13.0 + 2.0 * RAIL;
/// A rung and the gap behind it, dp.
const RUNGS: [f64; 2] = [1.8, 4.2];
/// Between two pairs of dots along the line, dp.
const DOT_STEP: f64 = 9.0;
/// The likelier half is drawn at least so long, dp.
const LEAST_SOLID: f64 = 3.0;
/// Below this share no figure is set.
pub(super) const LEAST_SHARE: f64 = 0.01;
/// From here on neither: it would read 100 %, which no fix is.
const MOST_SHARE: f64 = 0.995;
/// Each remembered place of a line under a share counts as if it stood so much farther off its stretch, dp.
const CROSSED: f64 = 3.0;
/// A share stands so far off the middle of its stretch's band at most without a line that leads to it, dp.
const MOST_OFF: f64 = 15.0;
/// Ends of runs nearer to each other than this are one, dp.
const JOINED: f64 = 0.1;

/// Whether the share of a stretch is set in figures.
pub(super) fn is_told(stretch: &Stretch) -> bool {
    (LEAST_SHARE..MOST_SHARE).contains(&stretch.share)
}

/// The line that a stretch lies on: that of its name on the sheet, else the one that is drawn.
pub(super) fn line_of<'a>(sheet: &'a Sheet, drawn: &'a Line, fix: &Fix, stretch: &Stretch) -> &'a Line {
    let name = fix.line_of(stretch);
    if drawn.name == name { drawn } else { sheet.lines.iter().find(|line| line.name == name).unwrap_or(drawn) }
}

/// Draws the odds of every stretch along its own line, the likeliest last, and the slits for the lines.
pub(super) fn odds_band(scene: &mut Scene<'_>, sheet: &Sheet, drawn: &Line, fix: &Fix) {
    for stretch in fix.stretches.iter().rev() {
        let line = line_of(sheet, drawn, fix, stretch);
        let (low, high) = stretch.limits_95_m;
        dots(scene, line, (stretch.reach_m.0, low));
        dots(scene, line, (high, stretch.reach_m.1));
        ladder(scene, line, stretch.limits_95_m);
        solid(scene, line, at_least(stretch.limits_50_m, LEAST_SOLID / scene.view.dp_per_m));
    }
    for stretch in &fix.stretches {
        let line = line_of(sheet, drawn, fix, stretch);
        let slit = Stroke::plain(Ink::Paper, slit_width(line));
        let slits = visible(scene, line, stretch.reach_m).into_iter().map(|run| Item::line(run.spots, slit.clone()));
        scene.draw(slits);
    }
}

fn visible(scene: &Scene<'_>, line: &Line, range_m: (f64, f64)) -> Vec<Run> {
    let parts = line.parts_m(range_m).into_iter().map(|part_m| runs(&scene.view, line, part_m, BEYOND));
    parts.reduce(joined).unwrap_or_default()
}

/// The parts of a stretch that lies over the beginning of a ring are one where both are in the window.
fn joined(mut before: Vec<Run>, mut after: Vec<Run>) -> Vec<Run> {
    let met = before.last().and_then(|run| run.spots.last()).zip(after.first().and_then(|run| run.spots.first()));
    if met.is_some_and(|(end, start)| end.distance(*start) < JOINED)
        && let Some(last) = before.last_mut()
    {
        let next = after.remove(0);
        last.to_m += next.to_m - next.from_m;
        last.spots.extend(next.spots.into_iter().skip(1));
    }
    before.extend(after);
    before
}

fn at_least(range_m: (f64, f64), length_m: f64) -> (f64, f64) {
    let wanting = (length_m - (range_m.1 - range_m.0)).max(0.0) / 2.0;
    (range_m.0 - wanting, range_m.1 + wanting)
}

/// Pairs of dots: where one hardly stands.
fn dots(scene: &mut Scene<'_>, line: &Line, range_m: (f64, f64)) {
    for run in visible(scene, line, range_m) {
        for (spot, way) in every(&run.spots, DOT_STEP) {
            let aside = way.right().times(6.2);
            scene.draw([spot.plus(aside), spot.minus(aside)].map(|at| Item::disc(at, 2.0, Ink::Stretch)));
        }
        scene.board.take_path(&run.spots, WIDTH / 2.0 + 1.0);
    }
}

/// Two rails with rungs: up to 95 %.
fn ladder(scene: &mut Scene<'_>, line: &Line, range_m: (f64, f64)) {
    let stretch = |width: f64| Stroke::plain(Ink::Stretch, width);
    for run in visible(scene, line, range_m) {
        let spots = &run.spots;
        scene.board.take_path(spots, WIDTH / 2.0 + 1.0);
        scene.draw([
            Item::line(spots.clone(), stretch(WIDTH)),
            Item::line(spots.clone(), Stroke::plain(Ink::Paper, WIDTH - 2.0 * RAIL)),
            Item::line(spots.clone(), stretch(WIDTH).dashed(&RUNGS)),
        ]);
        scene.draw(ends(spots).map(|(end, way)| cross_bar(end, way, WIDTH / 2.0, stretch(2.4))));
    }
}

/// The first and the last point of a path with the direction there.
fn ends(spots: &[Spot]) -> impl Iterator<Item = (Spot, Spot)> {
    let first = if let [a, b, ..] = spots { Some((*a, b.minus(*a).unit())) } else { None };
    let last = if let [.., a, b] = spots { Some((*b, b.minus(*a).unit())) } else { None };
    first.into_iter().chain(last)
}

/// The likelier half.
fn solid(scene: &mut Scene<'_>, line: &Line, range_m: (f64, f64)) {
    let solids = visible(scene, line, range_m).into_iter().map(|run| Item::line(run.spots, Stroke::plain(Ink::Stretch, WIDTH)));
    scene.draw(solids);
}

/// Sets the share beside each stretch.
pub(super) fn shares(scene: &mut Scene<'_>, sheet: &Sheet, drawn: &Line, fix: &Fix) {
    for (index, stretch) in fix.stretches.iter().enumerate() {
        let line = line_of(sheet, drawn, fix, stretch);
        if is_told(stretch) {
            write_share(scene, line, stretch, fix.lines_told().len() > 1);
        }
        let spoken = scene.lettering.spoken_stretch(line, stretch);
        scene.target(scene.view.spot(stretch.best.at), Touched::Stretch(index), spoken);
    }
}

/// The share beside its stretch; where several lines have one, with the line's name if there is room for it that no line crosses. Where
/// the next line is too near, it stands on its own line beyond the stretch. One that found no room at its stretch is led to it by a line.
fn write_share(scene: &mut Scene<'_>, line: &Line, stretch: &Stretch, of_several: bool) {
    let share = Label::new(&scene.lettering.share(stretch.share), Ink::Stretch, scene.letters * 1.25).bold();
    let named = share.clone().and(&line.name, Ink::Text);
    let mut with_name = if of_several { blocks_beside(scene, line, stretch, &named) } else { Vec::new() };
    with_name.retain(|(block, _)| scene.board.crossed(block) == 0);
    let beside = blocks_beside(scene, line, stretch, &share);
    let beyond = blocks_beyond(scene, line, stretch, &share);
    let best = scene.view.spot(stretch.best.at);
    let ways = [(with_name, &named), (beside, &share), (beyond, &share)];
    let placed = ways.iter().find_map(|(blocks, label)| scene.board.place_near(blocks, label, best, CROSSED));
    if let Some((block, letters)) = placed {
        lead(scene, line, stretch, &block);
        scene.overprint(letters);
    }
}

/// A thin line from a share that stands off its stretch to the nearest part of it.
fn lead(scene: &mut Scene<'_>, line: &Line, stretch: &Stretch, block: &Area) {
    let runs = visible(scene, line, stretch.limits_95_m);
    let spots = runs.iter().flat_map(|run| every(&run.spots, RUNGS[1])).map(|(spot, _)| spot);
    let off = |spot: &Spot| block.nearest(*spot).distance(*spot);
    let Some(end) = spots.min_by(|a, b| off(a).total_cmp(&off(b))).filter(|spot| off(spot) > MOST_OFF) else { return };
    let start = block.nearest(end);
    let path = vec![start, end.minus(end.minus(start).unit().times(WIDTH / 2.0))];
    scene.board.avoid(&path);
    scene.draw([Item::line(path.clone(), Stroke::plain(Ink::Paper, 4.0)), Item::line(path, Stroke::plain(Ink::Stretch, 1.4))]);
}

/// Blocks on both sides of the line: at the best place first, then elsewhere in the 95 % limits.
fn blocks_beside(scene: &Scene<'_>, line: &Line, stretch: &Stretch, label: &Label) -> Vec<(Area, Anchor)> {
    let (low, high) = stretch.limits_95_m;
    let alongs = [0.5, 0.35, 0.65, 0.2, 0.8, 0.0, 1.0].map(|share| low + (high - low) * share);
    let all = std::iter::once(stretch.best.along_m).chain(alongs);
    all.flat_map(|along_m| both_sides(scene, line, along_m, label)).collect()
}

/// Blocks over the line where the stretch has ended, at both ends.
fn blocks_beyond(scene: &Scene<'_>, line: &Line, stretch: &Stretch, label: &Label) -> Vec<(Area, Anchor)> {
    let off_m = (label.height().max(label.width()) / 2.0 + WIDTH) / scene.view.dp_per_m;
    let over = |along_m: f64| {
        let spot = scene.view.spot(line.at(along_m).at);
        (Area::around(spot, label.width() / 2.0, label.height() / 2.0), Anchor::Middle)
    };
    [0.6, 1.0, 1.5].into_iter().flat_map(|far| [stretch.reach_m.0 - far * off_m, stretch.reach_m.1 + far * off_m]).map(over).collect()
}

fn both_sides(scene: &Scene<'_>, line: &Line, along_m: f64, label: &Label) -> [(Area, Anchor); 2] {
    let place = line.at(along_m);
    let (spot, aside) = (scene.view.spot(place.at), scene.view.direction(place.direction).right());
    let (half_width, half_height) = (label.width() / 2.0, label.height() / 2.0);
    // A long block beside a line aslant has its corner at the place rather than its middle abreast of it.
    let corner = Spot::new((4.0 * aside.x).clamp(-1.0, 1.0) * half_width, (4.0 * aside.y).clamp(-1.0, 1.0) * half_height);
    let off = aside.times(WIDTH / 2.0 + 4.0).plus(corner);
    [-1.0, 1.0].map(|side| {
        let step = off.times(side);
        // Of several rows each begins at the stretch.
        let anchor = if step.x.abs() < half_width / 2.0 {
            Anchor::Middle
        } else if step.x > 0.0 {
            Anchor::Start
        } else {
            Anchor::End
        };
        (Area::around(spot.plus(step), half_width, half_height), anchor)
    })
}
