//! Legs, the reckoned place and the way back in sentences.

use super::Words;
use crate::homeward::{BackLeg, Here, Home, WayBack};
use crate::measure::{Arg, Message, NamedBearing, PLANE_95};
use crate::travel::{Distance, Leg, LegEnd, Pace, PaceKind, Side};

fn side_word(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

impl Words {
    /// The pace with its spread: "62.5 double paces to 100 m, ± 3.7 (95 %)".
    #[must_use]
    pub fn pace(&self, pace: &Pace) -> String {
        let is_whole = (pace.double_per_100_m - pace.double_per_100_m.round()).abs() < 0.05;
        let message = Message::new("pace-told")
            .with("count", Arg::Number(pace.double_per_100_m, if is_whole { 0 } else { 1 }))
            .with("spread", Arg::Number(pace.double_95_per_100_m(), 1));
        self.say(&message)
    }

    /// What is left of a leg of so many double paces after so many of them: "28 double paces to go".
    #[must_use]
    pub fn paces_to_go(&self, of_leg: f64, counted: u32) -> String {
        let left = of_leg.round() as i64 - i64::from(counted);
        let message = match left {
            1.. => Message::new("paces-to-go"),
            0 => Message::new("paces-full"),
            ..0 => Message::new("paces-past"),
        };
        self.say(&message.with("count", Arg::Count(left.abs())))
    }

    /// A distance as it was counted, and in metres: "140 double paces (224 m)".
    fn counted(&self, distance: Distance, pace: &Pace) -> String {
        match distance {
            Distance::Metres(metres) => self.metres(metres),
            Distance::Paces { count, kind } => {
                let id = if kind == PaceKind::Double { "double-paces" } else { "single-paces" };
                let counted = Message::new(id).with("count", Arg::Number(count, 0));
                self.say(&counted.with("metres", Arg::Metres(distance.metres(pace))))
            }
        }
    }

    /// The place where the car stands, kept.
    #[must_use]
    pub fn kept(&self, name: &str, reference: &str, spread_95_m: f64, on_line: bool) -> Vec<String> {
        let message = if on_line { Message::new("kept") } else { Message::new("kept-in-the-open") };
        let kept = message.text("name", name).text("reference", reference).with("spread", Arg::Metres(spread_95_m));
        vec![self.say(&kept)]
    }

    /// A leg as it was logged, with its number and what it counts for.
    #[must_use]
    pub fn leg(&self, number: usize, leg: &Leg, end: &LegEnd, pace: &Pace) -> String {
        let message = Message::new("leg-logged")
            .with("number", Arg::Count(number as i64))
            .with("bearing", Arg::Bearing(leg.bearing))
            .text("distance", self.counted(leg.distance, pace))
            .with("spread", Arg::Metres(PLANE_95 * end.covariance.ellipse().major_m))
            .text("detour", leg.detour.map_or("none", |detour| side_word(detour.side)))
            .text("out", leg.detour.map_or_else(String::new, |detour| self.counted(detour.out, pace)))
            .text("has-met", if leg.met.is_some() { "yes" } else { "no" })
            .text("met", leg.met.clone().unwrap_or_default());
        self.say(&message)
    }

    /// The reckoned place after `walked_m` metres, and how far it is home.
    #[must_use]
    pub fn here(&self, here: &Here, walked_m: f64, car: &str) -> Vec<String> {
        let message = Message::new("here")
            .text("reference", here.reference.clone())
            .with("major", Arg::Metres(here.half_axes_95_m.0))
            .with("minor", Arg::Metres(here.half_axes_95_m.1));
        let home = here.home.map_or_else(
            || self.say(&Message::new(if walked_m > 0.0 { "here-round" } else { "here-at-car" }).text("car", car)),
            |home| self.home(&home, car),
        );
        vec![self.say(&message), home]
    }

    fn home(&self, home: &Home, car: &str) -> String {
        let message = Message::new("here-home")
            .text("car", car)
            .with("distance", Arg::Metres(home.distance_m))
            .with("spread", Arg::Metres(home.distance_95_m))
            .with("magnetic", Arg::Bearing(NamedBearing::Magnetic(home.magnetic)))
            .with("grid", Arg::Bearing(NamedBearing::Grid(home.grid)))
            .with("off", Arg::Turn(home.across_95_m.atan2(home.distance_m).to_degrees(), 0));
        self.say(&message)
    }

    /// The way back by the reversed log, leg by leg.
    #[must_use]
    pub fn way_back(&self, way: &WayBack, pace: &Pace, car: &str, along_line_95_m: Option<(f64, &str)>) -> Vec<String> {
        let mut said = vec![self.way_head(way)];
        said.extend(self.way_legs(way, pace, car));
        said.push(self.way_miss(way, car, along_line_95_m));
        said.push(self.say(&Message::new("way-closes").with("closes", Arg::Number(way.closes_m, 1))));
        said.push(self.say(&Message::new("caution-way-back")));
        said
    }

    /// What comes next on the way back, after `walked` of its legs; at the end, how far to look along the line.
    #[must_use]
    pub fn next_back_leg(&self, way: &WayBack, walked: usize, pace: &Pace, car: &str, along_line_95_m: Option<(f64, &str)>) -> Vec<String> {
        let leg = self.way_legs(way, pace, car).into_iter().nth(walked);
        leg.map_or_else(
            || vec![self.way_end(way, pace, car, along_line_95_m), self.say(&Message::new("caution-way-back"))],
            |leg| vec![leg],
        )
    }

    /// How many legs the way back has, and how far it is.
    #[must_use]
    pub fn way_head(&self, way: &WayBack) -> String {
        let total_m = way.legs.last().map_or(0.0, |leg| leg.total_m);
        let head = Message::new("way-head")
            .with("legs", Arg::Count(way.legs.len() as i64))
            .with("walk", Arg::Metres(way.walk_m))
            .text("longer", if way.walk_m - total_m > 0.5 { "yes" } else { "no" });
        self.say(&head)
    }

    /// Each leg of the way back; the last one ends at the car.
    #[must_use]
    pub fn way_legs(&self, way: &WayBack, pace: &Pace, car: &str) -> Vec<String> {
        let last = way.legs.len();
        way.legs.iter().enumerate().map(|(index, leg)| self.back_leg(index + 1, leg, pace, (index + 1 == last).then_some(car))).collect()
    }

    /// How far the way back may miss.
    #[must_use]
    pub fn way_miss(&self, way: &WayBack, car: &str, along_line_95_m: Option<(f64, &str)>) -> String {
        let miss_m = PLANE_95 * way.miss.ellipse().major_m;
        let message = along_line_95_m.map_or_else(
            || Message::new("way-miss-open"),
            |(along_m, line)| Message::new("way-miss").with("along", Arg::Metres(along_m)).text("line", line),
        );
        self.say(&message.text("car", car).with("miss", Arg::Metres(miss_m)))
    }

    /// What to do at the end of the way back, and how far to look.
    #[must_use]
    pub fn way_end(&self, way: &WayBack, pace: &Pace, car: &str, along_line_95_m: Option<(f64, &str)>) -> String {
        let miss_m = PLANE_95 * way.miss.ellipse().major_m;
        let (message, far_m) = along_line_95_m.map_or_else(
            || (Message::new("way-at-end-open"), miss_m),
            |(along_m, line)| (Message::new("way-at-line").text("line", line), along_m),
        );
        let message = message.text("car", car).with("along", Arg::Metres(far_m));
        self.say(&message.with("paces", Arg::Number(pace.double_paces(far_m), 0)))
    }

    /// What a leg of the way back leads to, beside its bearing and its paces.
    #[must_use]
    pub fn way_goals(&self, way: &WayBack, pace: &Pace, car: &str) -> Vec<String> {
        let last = way.legs.len();
        let goal = |(index, leg): (usize, &BackLeg)| self.say(&to_goal("way-leg-goal", leg, pace, (index + 1 == last).then_some(car)));
        way.legs.iter().enumerate().map(goal).collect()
    }

    fn back_leg(&self, number: usize, leg: &BackLeg, pace: &Pace, car: Option<&str>) -> String {
        let message = to_goal("way-leg", leg, pace, car)
            .with("number", Arg::Count(number as i64))
            .with("magnetic", Arg::Bearing(NamedBearing::Magnetic(leg.magnetic)))
            .with("paces", Arg::Number(leg.double_paces, 0))
            .with("of-leg", Arg::Count(leg.of_leg as i64))
            .with("total", Arg::Metres(leg.total_m))
            .with("total-paces", Arg::Number(leg.total_double_paces, 0));
        self.say(&message)
    }
}

/// How far a leg of the way back leads, round what and to what; the last one to the car.
fn to_goal(id: &'static str, leg: &BackLeg, pace: &Pace, car: Option<&str>) -> Message {
    let goal = match (car, &leg.meets) {
        (Some(car), _) => ("car", car.to_owned()),
        (None, Some(met)) => ("met", met.clone()),
        (None, None) => ("turn", String::new()),
    };
    let out_m = leg.detour.map_or(0.0, |(_, out_m)| out_m);
    Message::new(id)
        .with("grid", Arg::Bearing(NamedBearing::Grid(leg.grid)))
        .with("metres", Arg::Metres(leg.metres))
        .text("detour", leg.detour.map_or("none", |(side, _)| side_word(side)))
        .with("out-paces", Arg::Number(pace.double_paces(out_m), 0))
        .with("out", Arg::Metres(out_m))
        .text("goal", goal.0)
        .text("met", goal.1)
}
