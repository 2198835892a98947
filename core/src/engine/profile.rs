//! The profile of a way: its heights, what rises and falls of them, and what an eye at its beginning does not see.

use super::answer::{Answer, AnswerDead};
use super::buffers::{AnswerSample, AnswerSamples};
use super::commands::Done;
use super::relief::spacing_m;
use super::{Engine, Refusal, questions, understand};
use crate::earth::LatLon;
use crate::ground::{DeadStretch, DoubtedGround, Heights, Profile, Sample, Sightlines, Stand, SteepestStep};
use crate::measure::{Arg, Message};

impl Engine {
    /// The heights along the way from one place to another.
    pub(super) fn profile(&self, from: &str, to: &str, step_m: Option<f64>, eye_m: Option<f64>) -> Result<Done, Refusal> {
        let (trip, heights) = self.on_sheet()?;
        let doubts = [from, to].map(|place| questions::doubt_on(place, Some(&trip.sheet)));
        let typed = [from, to];
        let (from, to) = (trip.place(from)?, trip.place(to)?);
        let profile = heights.profile(from, to, step_m.unwrap_or(spacing_m(heights)?))?;
        let eye_m = eye_m.map(|eye_m| understand::bounded("eye_m", eye_m, (0.0, 100.0))).transpose()?;
        if profile.samples.iter().all(|one| one.height_m.is_none()) {
            return Err(Refusal::plain("profile-off-heights"));
        }
        let without = [from, to].into_iter().zip(typed).find(|(place, _)| heights.at_m(*place).is_none());
        if let Some((_, typed)) = without.filter(|_| eye_m.is_some()) {
            return Err(Refusal::named("profile-end-unknown", typed));
        }
        let seen = eye_m.map(|eye_m| dead(heights, from, to, eye_m)).transpose()?;
        let samples = profile.samples.iter().map(|one| AnswerSample { distance_m: one.distance_m, height_m: one.height_m });
        let steepest = profile.steepest.filter(SteepestStep::is_told);
        let answer = Answer::Profile {
            length_m: profile.length_m,
            climb_m: profile.climb_m,
            descent_m: profile.descent_m,
            errors_m: profile.errors_m.mean_m,
            steepest_deg: steepest.map(|step| step.slope_deg),
            steepest_half_width_deg: steepest.map(|step| step.half_width_deg),
            steepest_from_m: steepest.map(|step| step.from_m),
            samples: AnswerSamples(samples.collect()),
            dead: seen.as_ref().map_or_else(Vec::new, |seen| stretches(&seen.dead)),
            perhaps_dead: seen.as_ref().map_or_else(Vec::new, |seen| stretches(&seen.perhaps)),
            untold: seen.as_ref().map_or_else(Vec::new, |seen| stretches(&seen.untold)),
        };
        let mut told = profile_told(&profile, heights.spread().sigma_m);
        told.extend(seen.iter().flat_map(dead_told));
        told.extend(trip.ellipsoid_minded());
        told.extend(doubts.into_iter().flatten());
        Ok(Done::answered(self.told(&told), answer))
    }
}

/// Ground on the way that an eye at its beginning does not see.
fn dead(heights: &Heights, from: LatLon, to: LatLon, eye_m: f64) -> Result<DoubtedGround, Refusal> {
    let layout = heights.layout();
    let eye = Stand::at(layout.post_of(from)?, eye_m);
    let found = Sightlines::over(heights)?.doubted_ground(eye, layout.post_of(to)?);
    found.ok_or_else(|| Refusal::plain("ground-unknown"))
}

fn stretches(all: &[DeadStretch]) -> Vec<AnswerDead> {
    all.iter().map(|stretch| AnswerDead { from_m: stretch.from_m, to_m: stretch.to_m }).collect()
}

/// What the eye does not see, and of how much that cannot be told.
fn dead_told(seen: &DoubtedGround) -> Vec<Message> {
    let length_m = |all: &[DeadStretch]| all.iter().map(DeadStretch::length_m).sum();
    let first_m = |all: &[DeadStretch]| all.first().map_or(0.0, |stretch| stretch.from_m);
    let until = |all: &[DeadStretch]| Arg::Metres(first_m(all));
    let (has_gap, in_doubt) = (!seen.untold.is_empty(), !seen.perhaps.is_empty());
    let dead = Message::new("profile-dead")
        .with("count", Arg::Count(seen.dead.len() as i64))
        .with("hidden", Arg::Metres(length_m(&seen.dead)))
        .with("first", until(&seen.dead))
        .with("until", until(&seen.untold))
        .text(
            "doubt",
            if in_doubt {
                "spread"
            } else if has_gap {
                "gap"
            } else {
                "none"
            },
        );
    let told = |id: &'static str, all: &[DeadStretch]| {
        let message = Message::new(id).with("length", Arg::Metres(length_m(all))).with("until", until(all));
        (!all.is_empty()).then_some(message)
    };
    let others = [told("profile-perhaps-dead", &seen.perhaps), told("profile-untold", &seen.untold)];
    std::iter::once(dead).chain(others.into_iter().flatten()).collect()
}

/// What the way rises and falls, how high it lies, and what of that errors of the heights may make.
fn profile_told(profile: &Profile, sigma_m: f64) -> Vec<Message> {
    let told = Message::new("profile-told")
        .with("length", Arg::Metres(profile.length_m))
        .with("climb", Arg::Height(profile.climb_m, 0))
        .with("descent", Arg::Height(profile.descent_m, 0));
    let errors = (sigma_m > 0.0).then(|| {
        Message::new("profile-errors")
            .with("spread", Arg::Height(sigma_m, 1))
            .with("errors", Arg::Height(profile.errors_m.mean_m, 0))
            .text("all", if profile.may_be_errors() { "yes" } else { "no" })
    });
    let unknown = profile.samples.iter().filter(|sample| sample.height_m.is_none()).count();
    let share = unknown as f64 / profile.samples.len().max(1) as f64;
    let gaps = (unknown > 0).then(|| Message::new("profile-gaps").with("length", Arg::Metres(profile.length_m * share)));
    let all = [Some(told), heights_told(profile), errors, profile.steepest.as_ref().map(steepest_told), gaps];
    all.into_iter().flatten().collect()
}

/// How high both ends of the way lie, and its highest and lowest places.
fn heights_told(profile: &Profile) -> Option<Message> {
    let (highest, lowest) = (profile.highest()?, profile.lowest()?);
    let end = |sample: Option<&Sample>| {
        sample.and_then(|sample| sample.height_m).map_or(Arg::Text("unknown".into()), |height_m| Arg::Height(height_m, 0))
    };
    let height = |sample: Sample| Arg::Height(sample.height_m.unwrap_or_default(), 0);
    let message = Message::new("profile-heights")
        .with("begin", end(profile.samples.first()))
        .with("end", end(profile.samples.last()))
        .with("highest", height(highest))
        .with("highest-at", Arg::Metres(highest.distance_m))
        .with("lowest", height(lowest));
    Some(message.with("lowest-at", Arg::Metres(lowest.distance_m)))
}

fn steepest_told(step: &SteepestStep) -> Message {
    let message = Message::new(if step.is_told() { "profile-steepest" } else { "profile-steepest-unsure" });
    message
        .text("way", if step.slope_deg < 0.0 { "down" } else { "up" })
        .with("slope", Arg::Degrees(step.slope_deg.abs(), 0))
        .with("spread", Arg::Degrees(step.half_width_deg, 0))
        .with("from", Arg::Metres(step.from_m))
}
