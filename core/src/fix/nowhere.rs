//! When there is no fix: no bearing meets a line, or nothing fits any place of it.

use super::account::Account;
use super::crossing::crossings;
use super::directed::Ray;
use super::fit::fit_of;
use super::on_line::OnLine;
use super::scene::Scene;
use super::slip::{Meant, all_reversed, misread, of_run};
use super::steps::Steps;
use super::stretch::stretches;
use super::take::Met;
use super::weigh::{prepared, weigh};
use super::{BearingSighting, Fit, FixError, Sighting, SlipKind, Stretch, Verdict};
use crate::measure::NamedBearing;
use crate::sheet::{Line, LinePlace};

/// A bearing that misses the whole line by more than this many of its sigmas meets no line.
const MISS_SIGMAS: f64 = 3.0;
/// The likeliest place that is so near an end of the line lies there, metres: places are steps apart.
const END_M: f64 = 20.0;
/// Places on each line at which a slip is weighed.
const PLACES: f64 = 1_500.0;

/// A fix from bearings alone needs one that meets a line, or nearly.
pub(super) fn refuse_if_all_miss(scene: &Scene<'_>, met: &[Met<'_>]) -> Result<(), FixError> {
    let mut refusal = None;
    for sighting in &scene.sightings {
        let Sighting::Bearing(bearing) = sighting else { return Ok(()) };
        let Some(landmark) = bearing.sure() else { return Ok(()) };
        refusal = Some((landmark.name.clone(), bearing.reading));
    }
    let Some((landmark, reading)) = refusal else { return Ok(()) };
    let nearest = met.iter().flat_map(|met| met.rays().map(move |ray| (met.line, nearest_miss(met.line, &ray), crosses(met.line, &ray))));
    let all: Vec<(&Line, (f64, f64), bool)> = nearest.collect();
    if all.iter().any(|(_, (miss_deg, spread_deg), crosses)| *crosses || *miss_deg <= MISS_SIGMAS * spread_deg) {
        return Ok(());
    }
    let last = all.last().map_or((String::new(), 180.0), |(line, (miss_deg, _), _)| (line.name.clone(), *miss_deg));
    Err(FixError::NoCrossing { landmark, line: last.0, reading, miss_deg: last.1, meant: meets_if(scene).map(Box::new) })
}

/// That all bearings would meet a line turned round, or the likeliest slip of figures with which the last would.
fn meets_if(scene: &Scene<'_>) -> Option<(SlipKind, NamedBearing)> {
    let Some(Sighting::Bearing(bearing)) = scene.sightings.last() else { return None };
    if let Some(all) = all_reversed(&scene.sightings)
        && all.iter().all(|one| meets(scene, one.clone()))
        && let Some(Sighting::Bearing(last)) = all.last()
    {
        return Some((SlipKind::AllReversed, last.reading));
    }
    let meets = |reading: NamedBearing| meets(scene, Sighting::Bearing(BearingSighting { reading, ..bearing.clone() }));
    misread(bearing).into_iter().find(|(_, reading)| meets(*reading))
}

/// Whether a bearing alone meets one of the lines.
fn meets(scene: &Scene<'_>, bearing: Sighting) -> bool {
    let alone = Scene { sightings: vec![bearing], ..scene.clone() };
    prepared(&alone).iter().map(|line| Met::new(&alone, line)).any(|met| met.rays().any(|ray| crosses(met.line, &ray)))
}

/// Where every sighting is off by more than chance allows at the likeliest place, there is no likeliest place.
pub(super) fn refuse_if_nothing_fits(scene: &Scene<'_>, accounts: &[Account], best: &Stretch) -> Result<(), FixError> {
    let told = || accounts.iter().filter_map(|account| Some((account, account.fit?)));
    let Some((account, fit)) = told().min_by(|a, b| a.1.sigmas.total_cmp(&b.1.sigmas)) else { return Ok(()) };
    // What the ground shows is known too roughly to leave no place: it is told as a misfit.
    if fit.off.is_none() && account.what != "side" {
        return Ok(());
    }
    let by_compass = |account: &Account| matches!(account.what, "bearing" | "running" | "line-run");
    // Several readings of a compass may be turned alike: that is told as a slip.
    let turned = by_compass(account) && (fit.sigmas <= MISS_SIGMAS || told().filter(|(one, _)| by_compass(one)).count() > 1);
    if fit.verdict() != Verdict::Misfit || turned {
        return Ok(());
    }
    // Alone it may fit badly all along; the likeliest place is then any.
    let least = least_misfit(scene, account).filter(|(_, _, least)| least.sigmas < fit.sigmas && least.verdict() == Verdict::Misfit);
    let (line, place, fit) = least.unwrap_or((best.line, best.best, fit));
    let line = scene.lines.get(line).map(|choice| choice.line);
    Err(FixError::FitsNowhere {
        what: account.what,
        of: account.of.clone(),
        line: line.map_or_else(String::new, |line| line.name.clone()),
        off: fit.off,
        at_end: line.is_some_and(|line| is_at_end(line, place)),
        meant: fits_if(scene, account.sighting).map(Box::new),
    })
}

/// Which line and place of it a sighting fits best by itself, and how well.
fn least_misfit(scene: &Scene<'_>, account: &Account) -> Option<(usize, LinePlace, Fit)> {
    let on_line = |(index, line): (usize, OnLine<'_>)| {
        let (length_m, most) = (line.line.length_m(), PLACES as u32);
        let places = (0..=most).map(|place| line.line.at(length_m * f64::from(place) / PLACES));
        let fits = places.filter_map(|place| Some((index, place, fit_of(&line, place, account.sighting, account.likeliest())?)));
        fits.min_by(|a, b| a.2.sigmas.total_cmp(&b.2.sigmas))
    };
    prepared(scene).into_iter().enumerate().filter_map(on_line).min_by(|a, b| a.2.sigmas.total_cmp(&b.2.sigmas))
}

fn is_at_end(line: &Line, place: LinePlace) -> bool {
    !line.is_ring() && place.along_m.min(line.length_m() - place.along_m) < END_M
}

/// The likeliest slip with which a running fix would fit a place of the lines, and the reading that it would be.
fn fits_if(scene: &Scene<'_>, sighting: usize) -> Option<(SlipKind, Option<NamedBearing>)> {
    let Sighting::Running(running) = scene.sightings.get(sighting)? else { return None };
    let mut all = of_run(running);
    all.sort_by(|a, b| (b.kind.chance() / b.among).total_cmp(&(a.kind.chance() / a.among)));
    let fits = |meant: &Meant| {
        let meant = Scene { sightings: vec![meant.sighting.clone()], ..scene.clone() };
        best_fit(&meant).is_some_and(|fit| fit.verdict() == Verdict::Fits)
    };
    let meant = all.into_iter().find(fits)?;
    Some((meant.kind, meant.read.map(|(_, meant)| meant)))
}

/// How the only sighting of a scene fits its likeliest place.
fn best_fit(scene: &Scene<'_>) -> Option<Fit> {
    let steps: Vec<Steps> = scene.lines.iter().map(|choice| Steps::coarse(choice.line, PLACES)).collect();
    let weighed = weigh(scene, &steps)?;
    let lines: Vec<&Line> = scene.lines.iter().map(|choice| choice.line).collect();
    let (places, _) = stretches(&lines, &weighed);
    let best = places.first()?;
    fit_of(prepared(scene).get(best.line)?, best.best, 0, None)
}

fn crosses(line: &Line, ray: &Ray<'_>) -> bool {
    !crossings(line, ray).is_empty()
}

/// The least residual over the line's vertices and its sigma, degrees.
fn nearest_miss(line: &Line, from: &Ray<'_>) -> (f64, f64) {
    let ends = line.pieces().enumerate().flat_map(|(index, (start, end))| [(index, 0.0, start), (index, 1.0, end)]);
    let misses = ends.map(|(index, share, place)| (from.residual_deg(index, share, place).abs(), from.angle_spread_deg(place)));
    misses.min_by(|a, b| (a.0 / a.1).total_cmp(&(b.0 / b.1))).unwrap_or((180.0, 1.0))
}
