//! The chance that a sight is clear while the heights below it may be wrong.
//!
//! The errors of the posts are normal and their correlation falls as `exp(-distance / length)`; between posts they are bilinear as the ground
//! is. What decides is the error at a place less its share of the errors at both ends, so that near the ends the sight is surer than
//! one height would make it, and over a long stretch near grazing less sure than the place of the least clearance alone.
//!
//! That all places stay clear is reckoned from the likeliest to be hidden outwards: each next place given that the one before it and the
//! likeliest are clear, by the chances of every two of the three, and given all places so far, by what they leave of its mean and spread.

use super::HeightSpread;
use super::clearance::{Line, Span};
use super::field::{Field, Spot};
use super::normal::{both, quick, quick_exp};
use super::passed::{Next, Passed};
use super::ray::Ray;

/// A clearance of more sigmas than this has no part in the chance: above it lies 0.0005 of a normal distribution.
const SURE_SIGMAS: f64 = 3.3;
/// What is left out when a bound tells the chance without summing.
const LEFT_OUT: f64 = 0.001;
/// Below this the chance of being clear is less than that.
const HIDDEN_SIGMAS: f64 = -3.1;
/// Given a clear place, one beside it that so many sigmas would have to hide is clear.
const IMPLIED_SIGMAS: f64 = 2.5;
/// Posts from either end of a sight within which it is looked at inside a piece of ground too, and not only where it is lowest: what decides
/// there grows as fast as the clearance.
const END_POSTS: f64 = 4.0;
/// Of two places so many posts from each other only the lower counts, but for those near an end.
const BESIDE_POSTS: f64 = 0.5;
/// Where a piece of ground is looked at there, in shares of it; its lowest place comes to them.
const INSIDE: [f64; 3] = [0.25, 0.5, 0.75];
/// Places so few posts from an end of a sight are that end.
const HAIR_POSTS: f64 = 1e-3;
/// A clearance that bends by less than this over a piece counts as straight, sigmas of a height.
const STRAIGHT_SIGMAS: f64 = 0.05;
/// The same close to the object, where a sight comes down to the ground it stands on.
const AT_END: [f64; 2] = [0.875, 0.9375];

/// The errors of the ground along one ray, and what must stay clear of it.
#[derive(Debug)]
pub(super) struct Errors<'a> {
    ray: Ray,
    /// Where the ground begins that is the object itself, metres from the eye.
    until_m: f64,
    sigma_m: f64,
    length_m: f64,
    field: &'a Field,
    ends: Ends,
    limits: Vec<Limit>,
    /// Whether some ground leaves hardly a chance, so that no other matters.
    hidden: bool,
}

/// No place of a sight has an error of more than this, one sigma in metres: the ground's at three places.
fn most_m(sigma_m: f64) -> f64 {
    std::f64::consts::SQRT_2 * sigma_m
}

/// Ground this far above a sight leaves a chance below 0.001 whatever the errors at both ends share with it, metres.
pub(super) fn surely_hidden_m(spread: HeightSpread) -> f64 {
    -HIDDEN_SIGMAS * most_m(spread.sigma_m) + super::clearance::GRAZE_M
}

/// Both ends of a ray: their places, the variance of each and what they share.
#[derive(Debug, Clone, Copy)]
struct Ends {
    eye: Spot,
    object: Spot,
    eye2: f64,
    object2: f64,
    shared: f64,
}

/// A place that must stay clear.
#[derive(Debug, Clone, Copy)]
struct Limit {
    /// Share of the way.
    at: f64,
    spot: Spot,
    /// What its own error shares with those at both ends.
    eye: f64,
    object: f64,
    /// Sigma of what decides, in sigmas of a height.
    sigma: f64,
    /// The clearance in those sigmas, and the chance of being clear.
    room: f64,
    clear: f64,
}

impl<'a> Errors<'a> {
    /// The errors along a sight.
    pub(super) fn along(line: &Line, field: &'a Field, spread: HeightSpread) -> Self {
        let (ray, until_m) = (line.ray, line.until_m);
        let (eye, object) = (Spot::at(ray.post(0.0)), Spot::at(ray.post(ray.length_m)));
        let (eye2, object2) = (field.shared(&eye, &eye), field.shared(&object, &object));
        let ends = Ends { eye, object, eye2, object2, shared: field.shared(&eye, &object) };
        Self { ray, until_m, sigma_m: spread.sigma_m, length_m: spread.correlation_m, field, ends, limits: Vec::new(), hidden: false }
    }

    /// A clearance that can be in doubt anywhere on the ray, metres.
    pub(super) fn doubt_m(&self) -> f64 {
        SURE_SIGMAS * most_m(self.sigma_m)
    }

    /// Takes the clearance of a span into account, where it may be in doubt.
    pub(super) fn take(&mut self, span: &Span) {
        // Nothing is in doubt on ground that is not known.
        let known = !(self.hidden || span.height_m.is_nan()) && self.sigma_m > 0.0;
        if !known || self.sure(span.lowest().1) {
            return;
        }
        let last = span.from_m + span.length_m >= self.until_m - self.hair_m();
        self.limit(span.from_m, span.height_m);
        // Where the clearance runs straight its ends tell all.
        if span.bend * span.length_m * span.length_m < STRAIGHT_SIGMAS * self.sigma_m {
            return;
        }
        let near_end = self.near_end(span.from_m, span.from_m + span.length_m);
        for share in INSIDE.iter().filter(|_| near_end).chain(AT_END.iter().filter(|_| last)) {
            self.limit(span.from_m + span.length_m * share, span.at(span.length_m * share));
        }
        if let Some((at_m, room_m)) = span.bottom() {
            self.limit(at_m, room_m);
        }
    }

    fn near_end(&self, from_m: f64, to_m: f64) -> bool {
        from_m.min(self.ray.length_m - to_m) < END_POSTS * self.ray.step_m()
    }

    /// A sight that ends at a post comes to it by rounding a hair before or behind it.
    fn hair_m(&self) -> f64 {
        HAIR_POSTS * self.ray.step_m()
    }

    /// Whether a place lies so close behind one that the lower of the two tells all.
    fn beside(&self, last: &Limit, at_m: f64) -> bool {
        at_m - last.at * self.ray.length_m < BESIDE_POSTS * self.ray.step_m()
    }

    fn sure(&self, room_m: f64) -> bool {
        room_m > self.doubt_m()
    }

    fn limit(&mut self, at_m: f64, room_m: f64) {
        let at = at_m / self.ray.length_m;
        let sure_m = SURE_SIGMAS * self.sigma_m * self.most_sigmas(at_m);
        // At an end itself nothing decides: its error is that of the end.
        if at_m <= self.hair_m() || at_m >= self.ray.length_m - self.hair_m() || room_m > sure_m {
            return;
        }
        if let Some(last) = self.limits.last().filter(|last| !self.near_end(at_m, at_m) && self.beside(last, at_m)) {
            if room_m >= last.room * last.sigma * self.sigma_m {
                return;
            }
            self.limits.pop();
        }
        let spot = Spot::at(self.ray.post(at_m));
        let ends = &self.ends;
        let (eye, object) = (self.field.shared(&spot, &ends.eye), self.field.shared(&spot, &ends.object));
        let both = (1.0 - at) * (1.0 - at) * ends.eye2 + at * at * ends.object2 + 2.0 * at * (1.0 - at) * ends.shared;
        let square = self.field.shared(&spot, &spot) + both - 2.0 * (1.0 - at) * eye - 2.0 * at * object;
        let sigma = square.max(1e-12).sqrt();
        let room = room_m / (self.sigma_m * sigma);
        self.hidden |= room < HIDDEN_SIGMAS;
        if room < SURE_SIGMAS {
            self.limits.push(Limit { at, spot, eye, object, sigma, room, clear: quick(room) });
        }
    }

    /// What decides at a place has at most this sigma, in sigmas of a height: by the nearer end.
    fn most_sigmas(&self, at_m: f64) -> f64 {
        let away_m = at_m.min(self.ray.length_m - at_m);
        let apart = 2.0 * (1.0 - quick_exp(-away_m / self.length_m));
        (apart.sqrt() + std::f64::consts::SQRT_2 * away_m / self.ray.length_m).min(std::f64::consts::SQRT_2)
    }

    /// The chance that the sight is clear.
    ///
    /// # Accuracy
    /// Against draws of the errors of all posts, over open heights: 0.006 on the mean of sights near grazing, 0.07 at worst, where a long
    /// sight skims many crests; 0.001 where a bound alone tells it.
    ///
    /// # References
    /// H. Joe (1995), Approximations to multivariate normal rectangle probabilities based on conditional expectations, J. Am. Stat.
    /// Assoc. 90, 957-964 (from memory).
    pub(super) fn chance(&mut self) -> f64 {
        if self.hidden {
            return 0.0;
        }
        self.limits.sort_by(|a, b| a.at.total_cmp(&b.at));
        let over: f64 = self.limits.iter().map(|limit| 1.0 - limit.clear).sum();
        let least = self.limits.iter().enumerate().min_by(|a, b| a.1.room.total_cmp(&b.1.room));
        match least {
            Some((index, least)) if over >= LEFT_OUT => {
                let (before, after) = (self.limits.get(..index), self.limits.get(index + 1..));
                let [before, after] = [before, after].map(Option::unwrap_or_default);
                let mut passed = Passed::nothing(self.ends.eye2, self.ends.object2, self.ends.shared);
                passed.first(&self.next(least, [0.0; 3]));
                let one = self.onwards(least, &mut passed, before.iter().rev());
                passed.turn();
                least.clear * one * self.onwards(least, &mut passed, after.iter())
            }
            _ => 1.0,
        }
    }

    /// The chance that places on one side of the likeliest to be hidden are clear, given that it is.
    ///
    /// Each is reckoned in two ways, which both leave some of the chance out: by the chances of every two of it, the one before it and the
    /// likeliest, which forgets the places farther off; and by the mean and spread that all places so far have left, which forgets how
    /// sharply they were cut. The greater counts.
    fn onwards<'b>(&self, least: &'b Limit, passed: &mut Passed, places: impl Iterator<Item = &'b Limit>) -> f64 {
        let mut chance = 1.0;
        // The place before, and its chance of being clear together with the likeliest to be hidden.
        let mut last = (least, least.clear);
        let mut before = None;
        for place in places {
            let of_errors = self.field.shared(&place.spot, &last.0.spot);
            let shared = self.decides(place, last.0, of_errors);
            if place.room - shared * last.0.room > IMPLIED_SIGMAS * (1.0 - shared * shared).max(0.0).sqrt() {
                continue;
            }
            let with_last = both(place.room, last.0.room, shared);
            let first = std::ptr::eq(last.0, least);
            let of_least = if first { of_errors } else { self.field.shared(&place.spot, &least.spot) };
            let with_least = if first { with_last } else { both(place.room, least.room, self.decides(place, least, of_least)) };
            let by_pairs = if first {
                with_last / least.clear
            } else {
                given(place.clear, (last.0.clear, least.clear, last.1), (with_last, with_least))
            };
            let of_last = if first { 0.0 } else { of_errors };
            let of_before = before.map_or(0.0, |before: &Limit| self.field.shared(&place.spot, &before.spot));
            let by_all = passed.next(&self.next(place, [of_least, of_last, of_before]));
            chance *= by_pairs.max(by_all).clamp(0.0, 1.0);
            if chance * least.clear < LEFT_OUT {
                return 0.0;
            }
            before = (!first).then_some(last.0);
            last = (place, with_least);
        }
        chance
    }

    /// A place with what its error shares with the likeliest to be hidden, the last and the one before.
    fn next(&self, place: &Limit, [least, last, before]: [f64; 3]) -> Next {
        let square = self.field.shared(&place.spot, &place.spot);
        Next { at: place.at, room: place.room * place.sigma, square, shared: [place.eye, place.object, least, last, before] }
    }

    /// The correlation of what decides at two places, by what their errors share.
    fn decides(&self, a: &Limit, b: &Limit, of_errors: f64) -> f64 {
        let ends = &self.ends;
        let (eye_a, eye_b) = (1.0 - a.at, 1.0 - b.at);
        let of_ends = eye_a * eye_b * ends.eye2 + a.at * b.at * ends.object2 + (eye_a * b.at + eye_b * a.at) * ends.shared;
        let crossed = eye_b * a.eye + b.at * a.object + eye_a * b.eye + a.at * b.object;
        (of_errors + of_ends - crossed) / (a.sigma * b.sigma)
    }
}

/// The chance of a place to be clear, given that two others are: by how each hangs together with the others.
///
/// Of both others: the chances of the one, of the other and of both together; then those of the place with each of them.
fn given(clear: f64, (one, other, together): (f64, f64, f64), (with_one, with_other): (f64, f64)) -> f64 {
    let (one2, other2, cross) = (one * (1.0 - one), other * (1.0 - other), together - one * other);
    let (to_one, to_other) = (with_one - clear * one, with_other - clear * other);
    let all = one2 * other2 - cross * cross;
    if all <= 1e-6 * one2 * other2 {
        return with_other / other;
    }
    let by_one = (to_one * other2 - to_other * cross) / all;
    let by_other = (to_other * one2 - to_one * cross) / all;
    clear + by_one * (1.0 - one) + by_other * (1.0 - other)
}
