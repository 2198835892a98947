//! The marks of the chart: wedge, cradle, ring, bars, arrows, scale and north.

use super::{Area, Cap, Ink, Item, Spot, Stroke};

impl Stroke {
    /// A whole stroke with plain ends.
    #[must_use]
    pub fn plain(ink: Ink, width: f64) -> Self {
        Self { ink, width, dash: Vec::new(), cap: Cap::Butt }
    }

    /// The same stroke with dashes and gaps, dp.
    #[must_use]
    pub fn dashed(self, dash: &[f64]) -> Self {
        Self { dash: dash.to_vec(), ..self }
    }

    /// The same stroke with other ends.
    #[must_use]
    pub fn capped(self, cap: Cap) -> Self {
        Self { cap, ..self }
    }
}

impl Item {
    /// An open path.
    #[must_use]
    pub fn line(points: Vec<Spot>, stroke: Stroke) -> Self {
        Self::Path { points, closed: false, stroke: Some(stroke), fill: None }
    }

    /// A closed shape.
    #[must_use]
    pub fn shape(points: Vec<Spot>, stroke: Option<Stroke>, fill: Option<Ink>) -> Self {
        Self::Path { points, closed: true, stroke, fill }
    }

    /// A filled disc.
    #[must_use]
    pub fn disc(centre: Spot, radius: f64, fill: Ink) -> Self {
        Self::Circle { centre, radius, stroke: None, fill: Some(fill) }
    }
}

/// Height of the landmark's wedge, dp.
const WEDGE_HEIGHT: f64 = 15.0;

/// A tall narrow wedge on a foot bar, whose middle is the landmark's place: filled when sighted.
pub(super) fn wedge(foot: Spot, sighted: bool) -> Vec<Item> {
    let corner = |dx: f64, dy: f64| Spot::new(foot.x + dx, foot.y + dy);
    let body = vec![corner(-4.5, -1.0), corner(0.0, -WEDGE_HEIGHT), corner(4.5, -1.0)];
    let bar = vec![corner(-8.0, 0.0), corner(8.0, 0.0)];
    let fill = if sighted { Ink::Landmark } else { Ink::Paper };
    vec![
        Item::shape(body.clone(), Some(Stroke::plain(Ink::Paper, 6.0)), None),
        Item::line(bar.clone(), Stroke::plain(Ink::Paper, 6.0).capped(Cap::Square)),
        Item::shape(body, Some(Stroke::plain(Ink::Landmark, 2.0)), Some(fill)),
        Item::line(bar, Stroke::plain(Ink::Landmark, 2.6)),
    ]
}

/// The room that a wedge takes.
pub(super) fn wedge_area(foot: Spot) -> Area {
    Area::new(foot.x - 9.0, foot.y - WEDGE_HEIGHT - 1.0, 18.0, WEDGE_HEIGHT + 3.0)
}

/// Half the height of the car's cradle, dp.
pub(super) const CRADLE: f64 = 12.0;

/// Two upright posts joined at the foot, a disc held between them.
pub(super) fn cradle(middle: Spot) -> Vec<Item> {
    let corner = |dx: f64, dy: f64| Spot::new(middle.x + dx, middle.y + dy);
    let posts = vec![corner(-9.5, -8.0), corner(-9.5, 9.0), corner(9.5, 9.0), corner(9.5, -8.0)];
    vec![
        Item::shape(posts.clone(), Some(Stroke::plain(Ink::Paper, 7.0)), Some(Ink::Paper)),
        Item::line(posts, Stroke::plain(Ink::Car, 3.6).capped(Cap::Square)),
        Item::disc(middle, 4.4, Ink::Car),
    ]
}

/// The walker: a ring with a dot, no larger than the spread that it stands in.
pub(super) fn ring(middle: Spot, radius: f64) -> Vec<Item> {
    let stroke = Stroke::plain(Ink::Text, (radius / 3.0).min(2.6));
    let ring = Item::Circle { centre: middle, radius, stroke: Some(stroke), fill: Some(Ink::Paper) };
    vec![ring, Item::disc(middle, (radius / 3.0).min(2.4), Ink::Text)]
}

/// A bar across a line.
pub(super) fn cross_bar(middle: Spot, way: Spot, half: f64, stroke: Stroke) -> Item {
    let aside = way.right().times(half);
    Item::line(vec![middle.minus(aside), middle.plus(aside)], stroke)
}

/// An open arrow whose tip points along `way`.
pub(super) fn arrow(tip: Spot, way: Spot, length: f64, stroke: Stroke) -> Item {
    let side = |turn: f64| tip.minus(way.times(length)).plus(way.right().times(turn * length));
    Item::line(vec![side(-0.8), tip, side(0.8)], stroke)
}

/// A plain stroke with a bar at its head, turned to grid north; the letters come beside it.
pub(super) fn north_stroke(middle: Spot, degrees: f64) -> Vec<Item> {
    let up = Spot::polar(NORTH_HALF, degrees);
    let (head, foot) = (middle.plus(up), middle.minus(up));
    let stroke = || Stroke::plain(Ink::Text, 1.8);
    let halo = Item::line(vec![foot, head], Stroke::plain(Ink::Paper, 5.0).capped(Cap::Square));
    vec![halo, Item::line(vec![foot, head], stroke()), cross_bar(head, up.unit(), 5.0, stroke())]
}

/// Half the length of the north stroke, dp.
pub(super) const NORTH_HALF: f64 = 12.0;

/// A bar with two upright ends.
pub(super) fn scale_bar(left: Spot, length: f64) -> Vec<Item> {
    let corner = |dx: f64, dy: f64| Spot::new(left.x + dx, left.y + dy);
    let bar = vec![corner(0.0, -SCALE_RISE), left, corner(length, 0.0), corner(length, -SCALE_RISE)];
    vec![Item::line(bar.clone(), Stroke::plain(Ink::Paper, 6.0).capped(Cap::Square)), Item::line(bar, Stroke::plain(Ink::Text, 2.0))]
}

/// Height of the scale bar's ends, dp.
pub(super) const SCALE_RISE: f64 = 6.0;
