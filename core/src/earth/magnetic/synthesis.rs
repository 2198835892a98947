//! From coefficients to the field at a place: spherical harmonics, Schmidt semi-normalised.
//!
//! The functions of an order are divided by the sine of the colatitude where they multiply a longitude's change,
//! so that a pole is a place like any other.
//!
//! # References
//! Technical report of the WMM, equations 4 to 20 (numbers from memory); recursion of the Schmidt functions:
//! J. M. Winch and others (2005), Geophysical Journal International 160, 487-504 (from memory).

use super::release::Term;
use crate::earth::LatLon;

/// Semi-axes of WGS 84, kilometres, the lesser by the flattening: rounded to 0.1 mm it would move the field by 1e-6 nT.
const EQUATOR_KM: f64 = 6_378.137;
const POLE_KM: f64 = EQUATOR_KM * (1.0 - 1.0 / 298.257_223_563);
/// The geomagnetic reference radius, kilometres.
const REFERENCE_KM: f64 = 6_371.2;

/// A vector in the horizon of a place, nanotesla (or nanotesla per year).
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Vector {
    pub(super) north: f64,
    pub(super) east: f64,
    pub(super) down: f64,
}

impl Vector {
    pub(super) fn dot(self, other: Self) -> f64 {
        self.north * other.north + self.east * other.east + self.down * other.down
    }

    pub(super) fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    fn plus(self, other: Self) -> Self {
        Self { north: self.north + other.north, east: self.east + other.east, down: self.down + other.down }
    }

    fn times(self, factor: f64) -> Self {
        Self { north: self.north * factor, east: self.east * factor, down: self.down * factor }
    }
}

/// The field and its yearly change `since_epoch` years after the model's epoch. The terms come by order, then degree.
pub(super) fn field_and_rate(terms: &[Term], at: LatLon, height_m: f64, since_epoch: f64) -> (Vector, Vector) {
    let spherical = Spherical::of(at, height_m);
    let (epoch, rate) = terms
        .chunk_by(|a, b| a.order == b.order)
        .map(|order| spherical.sum_order(order, at.lon_deg().to_radians()))
        .fold((Vector::default(), Vector::default()), |sum, part| (sum.0.plus(part.0), sum.1.plus(part.1)));
    (spherical.in_horizon(epoch.plus(rate.times(since_epoch))), spherical.in_horizon(rate))
}

/// A place in geocentric coordinates.
struct Spherical {
    /// Cosine and sine of the colatitude.
    cosine: f64,
    sine: f64,
    /// Reference radius over the distance from the earth's centre.
    ratio: f64,
    /// Geocentric less geodetic latitude.
    tilt_rad: f64,
}

impl Spherical {
    fn of(at: LatLon, height_m: f64) -> Self {
        let height_km = height_m / 1_000.0;
        let (sin_lat, cos_lat) = sine_cosine(at.lat_deg());
        let (a2, b2) = (EQUATOR_KM * EQUATOR_KM, POLE_KM * POLE_KM);
        let curvature_km = a2 / (a2 * cos_lat * cos_lat + b2 * sin_lat * sin_lat).sqrt();
        let out_km = (curvature_km + height_km) * cos_lat;
        let up_km = (curvature_km * b2 / a2 + height_km) * sin_lat;
        let distance_km = out_km.hypot(up_km);
        Self {
            cosine: up_km / distance_km,
            sine: out_km / distance_km,
            ratio: REFERENCE_KM / distance_km,
            tilt_rad: (up_km * cos_lat - out_km * sin_lat).atan2(out_km * cos_lat + up_km * sin_lat),
        }
    }

    /// What the terms of one order give in the geocentric horizon, and their rates.
    fn sum_order(&self, terms: &[Term], lon_rad: f64) -> (Vector, Vector) {
        let order = terms.first().map_or(0, |term| term.order);
        let (sin_lon, cos_lon) = (f64::from(order) * lon_rad).sin_cos();
        let functions = Legendre::of_order(order, self.cosine, self.sine).skip_while(|value| value.degree == 0);
        let mut sums = (Vector::default(), Vector::default());
        for (term, value) in terms.iter().zip(functions) {
            let scale = self.ratio.powi(i32::from(term.degree) + 2);
            let part = |g: f64, h: f64| value.part(g * cos_lon + h * sin_lon, g * sin_lon - h * cos_lon).times(scale);
            sums = (sums.0.plus(part(term.cosine, term.sine)), sums.1.plus(part(term.cosine_rate, term.sine_rate)));
        }
        sums
    }

    /// Turns a vector of the geocentric horizon into that of the ellipsoid.
    fn in_horizon(&self, geocentric: Vector) -> Vector {
        let (sin, cos) = self.tilt_rad.sin_cos();
        Vector {
            north: geocentric.north * cos - geocentric.down * sin,
            east: geocentric.east,
            down: geocentric.north * sin + geocentric.down * cos,
        }
    }
}

/// Sine and cosine of a latitude, exact at the poles, where a rounded quarter turn would leave 1e-17 of a cosine.
fn sine_cosine(lat_deg: f64) -> (f64, f64) {
    if lat_deg.abs() >= 90.0 { (lat_deg.signum(), 0.0) } else { lat_deg.to_radians().sin_cos() }
}

/// The Schmidt functions of one order at a colatitude, degree after degree.
struct Legendre {
    order: f64,
    cosine: f64,
    sine: f64,
    last: Value,
    before: Value,
}

/// One function: its value and its slope by the colatitude; for orders above 0 the value is held divided by the sine.
#[derive(Clone, Copy, Default)]
struct Value {
    degree: u8,
    order: f64,
    value: f64,
    over_sine: f64,
    slope: f64,
}

impl Value {
    /// North, east and down for the two sums over a longitude, without the power of the distance.
    fn part(&self, along: f64, across: f64) -> Vector {
        Vector {
            north: along * self.slope,
            east: self.order * across * self.over_sine,
            down: -(f64::from(self.degree) + 1.0) * along * self.value,
        }
    }
}

impl Legendre {
    /// Begins with the degree that equals the order.
    fn of_order(order: u8, cosine: f64, sine: f64) -> Self {
        let first = if order == 0 { Value { value: 1.0, ..Value::default() } } else { Self::diagonal(order, cosine, sine) };
        Self { order: f64::from(order), cosine, sine, last: first, before: Value::default() }
    }

    /// `P(m,m) = k sine^m` with `k² = 2 · 1·3·…·(2m-1) / (2·4·…·2m)` for `m` above 0.
    fn diagonal(order: u8, cosine: f64, sine: f64) -> Value {
        let norm: f64 = (2..=order).map(|m| (1.0 - 0.5 / f64::from(m)).sqrt()).product();
        let over_sine = norm * sine.powi(i32::from(order) - 1);
        let m = f64::from(order);
        Value { degree: order, order: m, value: over_sine * sine, over_sine, slope: m * cosine * over_sine }
    }

    /// `r(n) P(n) = (2n-1) cosine P(n-1) - r(n-1) P(n-2)` with `r(n)² = n² - m²`, and the same for its parts.
    fn next_value(&self) -> Value {
        let n = f64::from(self.last.degree) + 1.0;
        let root = |degree: f64| (degree * degree - self.order * self.order).max(0.0).sqrt();
        let up = |last: f64, before: f64| ((2.0 * n - 1.0) * last - root(n - 1.0) * before) / root(n);
        Value {
            degree: self.last.degree + 1,
            order: self.order,
            value: up(self.cosine * self.last.value, self.before.value),
            over_sine: up(self.cosine * self.last.over_sine, self.before.over_sine),
            slope: up(self.cosine * self.last.slope - self.sine * self.last.value, self.before.slope),
        }
    }
}

impl Iterator for Legendre {
    type Item = Value;

    fn next(&mut self) -> Option<Value> {
        let here = self.last;
        let next = self.next_value();
        self.before = here;
        self.last = next;
        Some(here)
    }
}
