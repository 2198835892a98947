//! What was told in a fix in the open, and how it entered.

use super::observe::Observer;
use super::open::Equated;
use super::open_ground::OverPlane;
use super::record_sighting::SightingRecord;
use crate::fix::{OpenSighting, told_apart};
use crate::measure::{NamedBearing, Point};

/// One thing told, and how it entered.
#[derive(Debug, Clone)]
pub(super) struct ToldOpen {
    pub(super) what: &'static str,
    pub(super) of: String,
    /// The same, told apart from others alike.
    pub(super) name: String,
    /// Which of the report's measurements it is.
    pub(super) measured: Option<usize>,
    /// How well the ground of the likeliest place fits, against where it fits best.
    pub(super) fits: Option<f64>,
    /// What was read, of a bearing to a landmark.
    pub(super) read: Option<NamedBearing>,
}

/// What was told, in its order, and how it entered.
pub(super) fn told(
    observer: &Observer<'_>,
    records: &[SightingRecord],
    measured: &Equated,
    over: &[OverPlane<'_>],
    at: Point,
) -> Vec<ToldOpen> {
    let one = |(index, record): (usize, &SightingRecord)| {
        let ground = over.iter().find(|one| one.record == Some(index));
        let position = measured.iter().position(|(record, _)| *record == index);
        let sighting = position.and_then(|position| measured.get(position)).map(|(_, sighting)| sighting);
        ToldOpen {
            what: what(record),
            name: String::new(),
            of: sighting.map_or_else(|| of(observer, record), OpenSighting::name),
            measured: position,
            fits: ground.map(|one| ((one.likelihood)(at) / one.most).clamp(0.0, 1.0)),
            read: if let Some(OpenSighting::Bearing(bearing)) = sighting { Some(bearing.reading) } else { None },
        }
    };
    let mut told: Vec<ToldOpen> = records.iter().enumerate().map(one).collect();
    let names = told_apart(told.iter().enumerate().map(|(index, one)| (index, one.what, one.of.clone())));
    told.iter_mut().zip(names).for_each(|(one, name)| one.name = name);
    told
}

/// What a sighting that is not measured is of, as the sheet or the walker names it.
fn of(observer: &Observer<'_>, record: &SightingRecord) -> String {
    match record {
        SightingRecord::Seen { landmark } | SightingRecord::NotSeen { landmark } => {
            observer.landmark(landmark).map_or_else(|_| landmark.clone(), |landmark| landmark.name)
        }
        SightingRecord::Slope { towards, .. } => towards.trim().into(),
        SightingRecord::Landform { kind, .. } => kind.trim().to_lowercase(),
        SightingRecord::Aspect { falls, .. } => falls.trim().into(),
        SightingRecord::Witness { place, .. } => place.trim().into(),
        SightingRecord::Bearing { .. }
        | SightingRecord::Running { .. }
        | SightingRecord::LineRun { .. }
        | SightingRecord::Angle { .. }
        | SightingRecord::Side { .. }
        | SightingRecord::Here { .. }
        | SightingRecord::Trip { .. }
        | SightingRecord::Paces { .. }
        | SightingRecord::Distance { .. }
        | SightingRecord::Height { .. } => String::new(),
    }
}

/// The word for the kind of a record.
pub(super) fn what(record: &SightingRecord) -> &'static str {
    match record {
        SightingRecord::Bearing { .. } => "bearing",
        SightingRecord::Running { .. } => "running",
        SightingRecord::LineRun { .. } => "line-run",
        SightingRecord::Angle { .. } => "angle",
        SightingRecord::Side { .. } => "side",
        SightingRecord::Seen { .. } => "seen",
        SightingRecord::NotSeen { .. } => "not-seen",
        SightingRecord::Here { .. } => "here",
        SightingRecord::Trip { .. } => "trip",
        SightingRecord::Paces { .. } => "paces",
        SightingRecord::Witness { .. } => "witness",
        SightingRecord::Distance { .. } => "distance",
        SightingRecord::Slope { .. } => "slope",
        SightingRecord::Landform { .. } => "landform",
        SightingRecord::Aspect { .. } => "aspect",
        SightingRecord::Height { .. } => "height",
    }
}
