//! Long lists in an [`Answer`](super::Answer); through the boundary each is one byte buffer. Answers only go out: no shell hands one in.

use serde::Serialize;

/// A height in [`Answer::Profile`](super::Answer::Profile); none where it is not known.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerSample {
    pub distance_m: f64,
    pub height_m: Option<f64>,
}

/// The heights of [`Answer::Profile`](super::Answer::Profile).
///
/// Little endian, 12 bytes for each height: the distance from the beginning in metres as a 64-bit float, and the height in metres as a
/// 32-bit float, which is not a number where the height is not known.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(transparent)]
pub struct AnswerSamples(pub Vec<AnswerSample>);

impl AnswerSamples {
    /// The buffer.
    #[must_use]
    pub fn bytes(&self) -> Vec<u8> {
        let of = |one: &AnswerSample| {
            let height_m = one.height_m.map_or(f32::NAN, |height_m| height_m as f32);
            one.distance_m.to_le_bytes().into_iter().chain(height_m.to_le_bytes())
        };
        self.0.iter().flat_map(of).collect()
    }
}

/// A landmark in [`Answer::Seen`](super::Answer::Seen): `in-sight`, `hidden` or `uncertain`; the chance of being in sight, none when it
/// cannot be told; the least clearance over the ground, and how far the ground is that hides it.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[allow(missing_docs, reason = "each field carries its meaning and unit in its name")]
pub struct AnswerSeenLandmark {
    pub landmark: String,
    pub kind: String,
    pub seen: String,
    pub chance: Option<f64>,
    pub margin_m: Option<f64>,
    pub hidden_at_m: Option<f64>,
    pub distance_m: f64,
    pub bearing_deg_mag: f64,
    pub bearing_deg_grid: f64,
}

/// The landmarks of [`Answer::Seen`](super::Answer::Seen).
///
/// Little endian; for each landmark the chance, the clearance, how far the ground is that hides it, the distance, the magnetic and the grid
/// bearing as 64-bit floats, not a number where there is none; then `landmark`, `kind` and `seen`, each as a 32-bit count of bytes and
/// as many bytes of UTF-8.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(transparent)]
pub struct AnswerSeenLandmarks(pub Vec<AnswerSeenLandmark>);

impl AnswerSeenLandmarks {
    /// The buffer.
    #[must_use]
    pub fn bytes(&self) -> Vec<u8> {
        let mut buffer = Vec::new();
        for one in &self.0 {
            let or_none = |value: Option<f64>| value.unwrap_or(f64::NAN);
            let numbers = [or_none(one.chance), or_none(one.margin_m), or_none(one.hidden_at_m)];
            let numbers = numbers.into_iter().chain([one.distance_m, one.bearing_deg_mag, one.bearing_deg_grid]);
            buffer.extend(numbers.flat_map(f64::to_le_bytes));
            for text in [&one.landmark, &one.kind, &one.seen] {
                buffer.extend((text.len() as u32).to_le_bytes());
                buffer.extend_from_slice(text.as_bytes());
            }
        }
        buffer
    }
}
