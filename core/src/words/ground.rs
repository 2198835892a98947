//! What should be seen, in words.

use super::Words;
use super::norths::age_word;
use crate::ground::{HIDDEN_CHANCE, Heights, Sight};
use crate::measure::{Arg, Message, NamedBearing, Telling};
use crate::sheet::{Paper, SeenLandmark};

/// Nearer than this one stands at a landmark, metres: no bearing to it means anything.
const UNDERFOOT_M: f64 = 5.0;

impl Words {
    /// Whether a landmark should be seen, with its bearing.
    #[must_use]
    pub fn seen_landmark(&self, one: &SeenLandmark<'_>, bearing: NamedBearing) -> String {
        if one.distance_m < UNDERFOOT_M {
            return self.say(&Message::new("seen-landmark-here").text("landmark", one.landmark.name.clone()));
        }
        let message = Message::new("seen-landmark")
            .text("landmark", one.landmark.name.clone())
            .with("bearing", Arg::Bearing(bearing))
            .with("distance", Arg::Metres(one.distance_m))
            .with("height", Arg::Height(one.landmark.top_m(), 0))
            .text("usual", if one.landmark.usual_height_m().is_some() { "yes" } else { "no" });
        self.say(&message.text("sight", self.sight(&one.sight)))
    }

    /// What the ground does to a sight: "in sight", "hidden by ground 1.2 km off", "perhaps hidden".
    #[must_use]
    pub fn sight(&self, sight: &Sight) -> String {
        let at_m = sight.nearest.map_or(0.0, |on| on.distance_m);
        let known = match sight.chance {
            None => "no",
            Some(chance) if chance <= HIDDEN_CHANCE => "hardly",
            Some(_) => "yes",
        };
        let chance = sight.chance.map_or_else(String::new, |chance| self.share(chance));
        let message = Message::new("sight-word").text("seen", sight.seen.word()).text("known", known);
        let gap = sight.void.map_or(Arg::Text("none".into()), |on| Arg::Metres(on.distance_m));
        self.say(&message.with("off", Arg::Metres(at_m)).text("chance", chance).with("gap", gap))
    }

    /// The heights of a sheet: where from, how many, how far apart, how far wrong; and whom to name.
    #[must_use]
    pub fn heights(&self, heights: &Heights, source: &str, credit: &str) -> Vec<String> {
        let layout = heights.layout();
        let (east_m, south_m) = layout.spacing_in_middle_m().unwrap_or_default();
        let told = Message::new("heights-told")
            .text("source", source)
            .with("across", Arg::Metres(east_m * (layout.columns - 1) as f64))
            .with("down", Arg::Metres(south_m * (layout.rows - 1) as f64))
            .text("even", if (east_m.round() - south_m.round()).abs() < 0.5 { "yes" } else { "no" })
            .with("east", Arg::Metres(east_m))
            .with("south", Arg::Metres(south_m))
            .with("spread", Arg::Height(heights.spread().sigma_m, 1));
        let credit = (!credit.is_empty()).then(|| Message::new("heights-credit").text("credit", credit));
        std::iter::once(told).chain(credit).map(|message| self.say(&message)).collect()
    }

    /// How old the map is in a decimal year, where that matters: more than twenty years, or said to be of a year to come.
    #[must_use]
    pub fn paper_age(&self, paper: &Paper, year: f64) -> Option<String> {
        let matters = paper.year.is_some_and(|printed| age_word(whole_years(year, printed)) != "no");
        paper_year(paper, Some(year)).filter(|_| matters).map(|message| self.say(&message))
    }

    /// What the paper prints beside the map, how old it is in a decimal year, and whom to name.
    #[must_use]
    pub fn paper(&self, paper: &Paper, year: Option<f64>) -> Vec<String> {
        let scale = paper.scale.map(|scale| Message::new("paper-scale").text("scale", format!("{scale:.0}")));
        let year = paper_year(paper, year);
        let credits = paper.credits.iter().map(|whom| Message::new("sheet-credit").text("credit", whom.clone()));
        scale.into_iter().chain(year).chain(credits).map(|message| self.say(&message)).collect()
    }

    /// What the spot heights of the map say of the heights of the sheet, and of each other; how many wait for heights when there are none.
    #[must_use]
    pub fn spots(&self, paper: &Paper, heights: Option<&Heights>) -> Vec<String> {
        let waiting = || Message::new("spots-waiting").with("count", Arg::Count(paper.spots.len() as i64));
        let told = match heights {
            None => (!paper.spots.is_empty()).then(waiting),
            Some(heights) => paper.check(heights).map(|check| check.message()),
        };
        told.into_iter().chain(paper.contradiction()).map(|message| self.say(&message)).collect()
    }

    /// A message with all of its bearings in whole degrees, as of landforms near: the points that stand for these are no sharper.
    #[must_use]
    pub fn with_whole_bearings(&self, mut message: Message) -> String {
        for (_, arg) in &mut message.args {
            if let Arg::Bearing(bearing) = arg {
                *arg = Arg::Text(self.whole_bearing(*bearing));
            }
        }
        self.say(&message)
    }
}

/// Of which year the map is, and its age.
fn paper_year(paper: &Paper, year: Option<f64>) -> Option<Message> {
    let printed = paper.year?;
    let age = year.map_or(0.0, |year| whole_years(year, printed));
    let message = Message::new("paper-year").text("year", format!("{printed:.0}")).with("age", Arg::Number(age, 0));
    Some(message.text("old", age_word(age)))
}

/// A map is of a whole year: it is of a later one only when that has not begun.
fn whole_years(year: f64, printed: f64) -> f64 {
    year.floor() - printed.floor()
}
