//! What the ground says in the open, is seen on it or witnessed: likelihoods over the plane.

use super::Refusal;
use super::observe::Observer;
use super::record_sighting::SightingRecord;
use super::said;
use super::state::Trip;
use crate::fix::{Bounds, GroundSaid, Lattice, Lay, Misplaced, OpenGround, OpenWitness, misplaced, seen_likelihood, witness_likelihood};
use crate::ground::{Heights, Post, Sightlines, Stand};
use crate::measure::Point;
use crate::sheet::{EYE_M, Landmark};

/// The finest and the widest lattice at which the ground is asked, metres: half of what lies between two posts.
const LATTICE_M: (f64, f64) = (20.0, 25.0);
/// From node to node of the lattice at which it is asked what is in sight, metres: a sight takes much longer to reckon.
const SIGHTS_M: f64 = 50.0;

/// How far off something is at a place, and one sigma of that, metres; nothing where it cannot be told.
type Off<'a> = Box<dyn Fn(Point) -> Option<(f64, f64)> + 'a>;

/// What the ground says, as a likelihood over the plane.
pub(super) struct OverPlane<'a> {
    pub(super) likelihood: Box<dyn Fn(Point) -> f64 + 'a>,
    pub(super) most: f64,
    /// What is finer than this does not change it much, metres.
    detail_m: f64,
    /// The place from which it only falls, where there is one.
    falls_from: Option<Point>,
    /// Which of the records said so; none when it follows from another.
    pub(super) record: Option<usize>,
    /// The landmark of which it says that it is in sight.
    sight_of: Option<String>,
    /// By how much what was told is off at a place, and one sigma of that, metres; nothing for what is not told in metres.
    off_m: Option<Off<'a>>,
    /// The same if the metres that were told were feet.
    pub(super) in_feet: Option<Box<OverPlane<'a>>>,
    /// Of an independent place: as it was told, and the slips that it may have been told with.
    witness: Option<(String, Vec<Misplaced>)>,
}

impl Trip {
    /// From node to node of a lattice over the heights, metres.
    pub(super) fn lattice_m(&self) -> f64 {
        let spacing = self.ground.as_ref().and_then(|ground| ground.heights.layout().spacing_in_middle_m().ok());
        spacing.map_or(LATTICE_M.1, |(east_m, south_m)| (east_m.min(south_m) / 2.0).clamp(LATTICE_M.0, LATTICE_M.1))
    }

    /// What was seen, looked for and not seen, and what must be in sight because a bearing or a distance is told of it.
    pub(super) fn over_sights<'a>(
        &'a self,
        sights: Option<&'a Sightlines<'a>>,
        observer: &Observer<'_>,
        records: &[SightingRecord],
        bounds: &Bounds,
    ) -> Result<Vec<OverPlane<'a>>, Refusal> {
        let (Some(sights), Some(ground)) = (sights, &self.ground) else { return Ok(Vec::new()) };
        let eyes = Eyes { sights, heights: &ground.heights, frame: self.sheet.frame };
        let mut all = Vec::new();
        for (landmark, seen, record) in sighted(observer, records)? {
            let lattice = Lattice::over(bounds, SIGHTS_M, eyes.sees(&landmark, seen));
            let sight_of = seen.then(|| landmark.name.clone());
            all.extend(lattice.map(|lattice| OverPlane { sight_of, ..OverPlane::of(lattice, 1.0, record) }));
        }
        Ok(all)
    }
}

/// The eyes of one who may stand anywhere.
struct Eyes<'a> {
    sights: &'a Sightlines<'a>,
    heights: &'a Heights,
    frame: crate::earth::LocalFrame,
}

impl<'a> Eyes<'a> {
    /// How likely it was to see a landmark, or not to see it, from a place; nothing where the heights cannot tell.
    fn sees(&self, landmark: &Landmark, seen: bool) -> impl Fn(Point) -> Option<f64> + 'a {
        let (sights, layout, frame) = (self.sights, self.heights.layout(), self.frame);
        let post = move |at: Point| layout.post_of(frame.to_earth(at)).unwrap_or(Post { column: f64::NAN, row: f64::NAN });
        let object = landmark.stand(post(landmark.at));
        move |at: Point| {
            let sight = sights.sight(Stand::at(post(at), EYE_M), object);
            sight.chance.map(|chance| seen_likelihood(chance, seen))
        }
    }
}

impl<'a> OverPlane<'a> {
    fn of(lattice: Lattice<'a>, most: f64, record: Option<usize>) -> Self {
        let detail_m = lattice.step_m();
        Self {
            likelihood: Box::new(move |at| lattice.at(at)),
            most,
            detail_m,
            falls_from: None,
            record,
            sight_of: None,
            off_m: None,
            in_feet: None,
            witness: None,
        }
    }

    pub(super) fn as_sighted<'b>(&'b self, again: f64, in_feet: Option<&'b OpenGround<'b>>) -> OpenGround<'b> {
        OpenGround {
            likelihood: self.likelihood.as_ref(),
            most: self.most,
            detail_m: self.detail_m,
            falls_from: self.falls_from,
            again,
            implied: self.record.is_none(),
            sight_of: self.sight_of.as_deref(),
            off_m: self.off_m.as_deref(),
            in_feet,
            witness: self.witness.as_ref().map(|(of, misplaced)| OpenWitness { of, misplaced, slip: None }),
        }
    }
}

/// How many records say what one says: the same answer, or any height, for the air is one.
pub(super) fn said_again(records: &[SightingRecord], one: usize) -> usize {
    let is_height = |record: &SightingRecord| matches!(record, SightingRecord::Height { .. });
    let Some(one) = records.get(one) else { return 1 };
    records.iter().filter(|other| *other == one || is_height(one) && is_height(other)).count()
}

/// Independent places that are weighed in.
pub(super) fn witnesses(observer: &Observer<'_>, records: &[SightingRecord]) -> Result<Vec<OverPlane<'static>>, Refusal> {
    let mut all = Vec::new();
    for (index, record) in records.iter().enumerate() {
        if let SightingRecord::Witness { place, spread_m } = record {
            let (reading, spread_m) = observer.witness(place, *spread_m)?;
            let misplaced = misplaced(observer.sheet, (place.trim(), reading), spread_m);
            let (told, place) = (place.trim().to_owned(), observer.sheet.frame.to_plane(reading.at));
            let likelihood = Box::new(move |at: Point| witness_likelihood(place.minus(at), spread_m));
            let most = witness_likelihood(Point::default(), spread_m);
            all.push(OverPlane {
                likelihood,
                most,
                detail_m: spread_m / 2.0,
                falls_from: Some(place),
                record: Some(index),
                sight_of: None,
                off_m: Some(Box::new(move |at: Point| Some((place.minus(at).length_m(), spread_m)))),
                in_feet: None,
                witness: Some((told, misplaced)),
            });
        }
    }
    Ok(all)
}

/// What was said of the ground, and the same in feet; it must be known somewhere in the area.
pub(super) fn over_ground<'a>(
    lay: Option<&'a Lay<'a>>,
    said: &'a [Option<said::Said>],
    in_feet: &'a [Option<GroundSaid>],
    bounds: &Bounds,
    step_m: f64,
) -> Result<Vec<OverPlane<'a>>, Refusal> {
    let Some(lay) = lay else { return Ok(Vec::new()) };
    let over = |record: usize, said: &'a GroundSaid| {
        let asked = lay.asks(said);
        let (most, off) = (asked.most(), asked.clone());
        let lattice = Lattice::over(bounds, step_m, move |at| asked.likelihood(at))?;
        Some(OverPlane { off_m: Some(Box::new(move |at| off.off_m(at))), ..OverPlane::of(lattice, most, Some(record)) })
    };
    let one = |(record, (said, feet)): (usize, (&'a Option<said::Said>, &'a Option<GroundSaid>))| {
        let told = over(record, &said.as_ref()?.0).ok_or_else(|| Refusal::plain("heights-elsewhere"));
        let in_feet = feet.as_ref().and_then(|feet| over(record, feet)).map(Box::new);
        Some(told.map(|told| OverPlane { in_feet, ..told }))
    };
    said.iter().zip(in_feet).enumerate().filter_map(one).collect()
}

/// A landmark, whether it was seen, and the record that says so: none when it follows from others.
type LookedFor = (Landmark, bool, Option<usize>);

/// Every landmark that was seen, or looked for and not seen; one that follows from other records once.
fn sighted(observer: &Observer<'_>, records: &[SightingRecord]) -> Result<Vec<LookedFor>, Refusal> {
    let mut all: Vec<LookedFor> = Vec::new();
    for (index, record) in records.iter().enumerate() {
        if let SightingRecord::Seen { landmark } | SightingRecord::NotSeen { landmark } = record {
            all.push((observer.landmark(landmark)?, matches!(record, SightingRecord::Seen { .. }), Some(index)));
        }
    }
    for name in records.iter().flat_map(must_be_seen) {
        let landmark = observer.landmark(name)?;
        if !all.iter().any(|(other, seen, _)| *seen && other.name == landmark.name) {
            all.push((landmark, true, None));
        }
    }
    Ok(all)
}

/// The landmarks that must be in sight for what was measured.
fn must_be_seen(record: &SightingRecord) -> Vec<&str> {
    match record {
        SightingRecord::Bearing { landmark: Some(name), .. } | SightingRecord::Distance { landmark: name, .. } => vec![name],
        SightingRecord::Angle { left, right, .. } => vec![left, right],
        SightingRecord::Bearing { landmark: None, .. }
        | SightingRecord::Seen { .. }
        | SightingRecord::NotSeen { .. }
        | SightingRecord::Running { .. }
        | SightingRecord::LineRun { .. }
        | SightingRecord::Side { .. }
        | SightingRecord::Here { .. }
        | SightingRecord::Trip { .. }
        | SightingRecord::Paces { .. }
        | SightingRecord::Witness { .. }
        | SightingRecord::Slope { .. }
        | SightingRecord::Landform { .. }
        | SightingRecord::Aspect { .. }
        | SightingRecord::Height { .. } => Vec::new(),
    }
}
