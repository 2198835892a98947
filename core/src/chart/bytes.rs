//! A display list as one byte buffer, for shells that paint it.
//!
//! Little endian; `f` is a 32-bit float, `n` a 32-bit unsigned count, `b` a byte, text is `n` bytes of UTF-8 after its count.
//! The buffer is `"GPC1"`, width `f`, height `f`, the items, the targets, the spoken description as text.
//! Items are `n` and then each:
//!
//! | first byte | then |
//! |---|---|
//! | 1 path | flags `b` (1 closed, 2 stroke, 4 fill), stroke if flagged, fill ink `b` if flagged, `n` points of x `f`, y `f` |
//! | 2 circle | flags `b` (2 stroke, 4 fill), x `f`, y `f`, radius `f`, stroke, fill ink as above |
//! | 3 text | x `f`, y `f`, size `f`, rotation in degrees `f`, anchor `b` (0 start, 1 middle, 2 end), ink `b`, flags `b` (1 halo, 2 italic, 4 bold), text |
//! | 4 clip | x, y, width, height `f`, items |
//!
//! A stroke is ink `b`, width `f`, cap `b` (0 butt, 1 round, 2 square), `n` dashes `f`. An ink is its place in [`Ink`], from 0.
//! Targets are `n` and then each: x, y, width, height `f`, kind `b` (0 stretch, 1 landmark, 2 known point, 3 turn, 4 car),
//! number `n` (stretch from 0, turn from 1, else 0), name text, spoken text.

use super::{Anchor, Area, Cap, DisplayList, Ink, Item, Stroke, Target, Touched};

/// The buffer of a display list.
#[must_use]
pub fn bytes(list: &DisplayList) -> Vec<u8> {
    let mut buffer = Buffer(b"GPC1".to_vec());
    buffer.float(list.width);
    buffer.float(list.height);
    buffer.items(&list.items);
    buffer.count(list.targets.len());
    list.targets.iter().for_each(|target| buffer.target(target));
    buffer.text(&list.spoken);
    buffer.0
}

struct Buffer(Vec<u8>);

impl Buffer {
    fn byte(&mut self, value: u8) {
        self.0.push(value);
    }

    fn float(&mut self, value: f64) {
        self.0.extend_from_slice(&(value as f32).to_le_bytes());
    }

    fn count(&mut self, value: usize) {
        self.0.extend_from_slice(&u32::try_from(value).unwrap_or(u32::MAX).to_le_bytes());
    }

    fn text(&mut self, text: &str) {
        self.count(text.len());
        self.0.extend_from_slice(text.as_bytes());
    }

    fn ink(&mut self, ink: Ink) {
        self.byte(ink as u8);
    }

    fn area(&mut self, area: Area) {
        [area.x, area.y, area.width, area.height].into_iter().for_each(|value| self.float(value));
    }

    fn stroke(&mut self, stroke: &Stroke) {
        self.ink(stroke.ink);
        self.float(stroke.width);
        self.byte(match stroke.cap {
            Cap::Butt => 0,
            Cap::Round => 1,
            Cap::Square => 2,
        });
        self.count(stroke.dash.len());
        stroke.dash.iter().for_each(|dash| self.float(*dash));
    }

    fn paint(&mut self, stroke: Option<&Stroke>, fill: Option<Ink>) {
        if let Some(stroke) = stroke {
            self.stroke(stroke);
        }
        if let Some(ink) = fill {
            self.ink(ink);
        }
    }

    fn items(&mut self, items: &[Item]) {
        self.count(items.len());
        items.iter().for_each(|item| self.item(item));
    }

    fn item(&mut self, item: &Item) {
        let flags = |closed: bool, stroke: &Option<Stroke>, fill: &Option<Ink>| {
            u8::from(closed) | (u8::from(stroke.is_some()) << 1) | (u8::from(fill.is_some()) << 2)
        };
        match item {
            Item::Path { points, closed, stroke, fill } => {
                self.byte(1);
                self.byte(flags(*closed, stroke, fill));
                self.paint(stroke.as_ref(), *fill);
                self.count(points.len());
                points.iter().flat_map(|spot| [spot.x, spot.y]).for_each(|value| self.float(value));
            }
            Item::Circle { centre, radius, stroke, fill } => {
                self.byte(2);
                self.byte(flags(false, stroke, fill));
                [centre.x, centre.y, *radius].into_iter().for_each(|value| self.float(value));
                self.paint(stroke.as_ref(), *fill);
            }
            Item::Text { at, anchor, size, ink, halo, italic, bold, rotation_deg, text } => {
                self.byte(3);
                [at.x, at.y, *size, *rotation_deg].into_iter().for_each(|value| self.float(value));
                self.anchor(*anchor);
                self.ink(*ink);
                self.byte(u8::from(*halo) | (u8::from(*italic) << 1) | (u8::from(*bold) << 2));
                self.text(text);
            }
            Item::Clip { area, items } => {
                self.byte(4);
                self.area(*area);
                self.items(items);
            }
        }
    }

    fn anchor(&mut self, anchor: Anchor) {
        self.byte(match anchor {
            Anchor::Start => 0,
            Anchor::Middle => 1,
            Anchor::End => 2,
        });
    }

    fn target(&mut self, target: &Target) {
        let (kind, number, name) = match &target.what {
            Touched::Stretch(index) => (0, *index, ""),
            Touched::Landmark(name) => (1, 0, name.as_str()),
            Touched::KnownPoint(name) => (2, 0, name.as_str()),
            Touched::Turn(number) => (3, *number, ""),
            Touched::Car => (4, 0, ""),
        };
        self.area(target.area);
        self.byte(kind);
        self.count(number);
        self.text(name);
        self.text(&target.spoken);
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Spot, Stroke};
    use super::{DisplayList, Ink, Item, bytes};

    #[test]
    fn the_layout_is_as_documented() {
        let path = Item::line(vec![Spot::new(1.0, 2.0), Spot::new(3.0, 4.0)], Stroke::plain(Ink::Works, 3.0));
        let list = DisplayList { width: 10.0, height: 20.0, items: vec![path], targets: vec![], spoken: "é".into() };
        let mut expected = b"GPC1".to_vec();
        let float = |value: f32| value.to_le_bytes();
        expected.extend([float(10.0), float(20.0), 1_u32.to_le_bytes()].concat());
        expected.extend([1, 2, Ink::Works as u8]);
        expected.extend(float(3.0));
        expected.push(0);
        expected.extend([0_u32.to_le_bytes(), 2_u32.to_le_bytes()].concat());
        expected.extend([float(1.0), float(2.0), float(3.0), float(4.0)].concat());
        expected.extend([0_u32.to_le_bytes(), 2_u32.to_le_bytes()].concat());
        expected.extend("é".as_bytes());
        assert_eq!(bytes(&list), expected);
    }
}
