//! The attraction of each station by least squares over the lines that join it to stations held free.

use nalgebra::DMatrix;

use super::adjustment::{Adjusted, adjust};
use super::reference::{Reference, reference_of};
use super::stations::{Line, groups, members, numbered};
use super::{AGREES_WITHIN_SIGMAS, CompassCheckError, CompassReadings, CorrectedLine, MOST_STATIONS, Pair, Station, Untold, Verdict};
use crate::measure::{MagneticBearing, signed_difference_deg};

/// What the pairs tell.
pub(super) struct Surveyed {
    pub(super) stations: Vec<Station>,
    pub(super) untold: Vec<Untold>,
    /// Sum of the squared misfits of the lines, in terms of one reading, and how many of them are free.
    pub(super) squares: f64,
    pub(super) freedom: usize,
    lines: Vec<Line>,
    /// Covariances of the attractions for a reading of one degree's spread.
    unit: DMatrix<f64>,
    limit_deg: f64,
}

/// Lays the attraction of every station out from those that are free.
pub(super) fn survey(readings: &CompassReadings) -> Result<Surveyed, CompassCheckError> {
    let (names, lines) = numbered(&readings.pairs);
    if names.len() > MOST_STATIONS {
        return Err(CompassCheckError::TooMany);
    }
    let closure_spread_deg = readings.reading_spread_deg * 2f64.sqrt();
    let mut surveyed = Surveyed::unjudged(names, lines, AGREES_WITHIN_SIGMAS * closure_spread_deg);
    for chain in members(&groups(surveyed.stations.len(), &surveyed.lines)) {
        surveyed.judge_chain(&chain, closure_spread_deg);
    }
    surveyed.untold.extend(surveyed.contradictions(&readings.pairs));
    Ok(surveyed)
}

impl Surveyed {
    fn unjudged(names: Vec<String>, lines: Vec<Line>, limit_deg: f64) -> Self {
        let unit = DMatrix::zeros(names.len(), names.len());
        let unknown = |name| Station { name, attraction_deg: 0.0, spread_deg: 0.0, verdict: Verdict::NotToBeTold };
        let stations = names.into_iter().map(unknown).collect();
        Self { stations, untold: Vec::new(), squares: 0.0, freedom: 0, lines, unit, limit_deg }
    }

    /// Judges stations that lines join, directly or through others.
    fn judge_chain(&mut self, chain: &[usize], closure_spread_deg: f64) {
        let lines: Vec<Line> = self.lines.iter().copied().filter(|line| chain.contains(&line.from)).collect();
        match self.reference_of(chain, &lines, closure_spread_deg) {
            Ok(free) => self.lay_out(chain, &free, &lines, closure_spread_deg),
            Err(untold) => self.untold.push(untold),
        }
    }

    /// The stations of a chain that are held free.
    fn reference_of(&self, chain: &[usize], lines: &[Line], closure_spread_deg: f64) -> Result<Vec<usize>, Untold> {
        match reference_of(chain, lines, |line| self.agrees(line), closure_spread_deg) {
            Reference::Free(stations) => Ok(stations),
            Reference::Nothing => Err(Untold::NoAgreement(self.name(chain))),
            Reference::Tied(stations) => Err(Untold::GroupsTie(self.name(&stations))),
        }
    }

    fn name(&self, stations: &[usize]) -> String {
        let first = stations.first().and_then(|first| self.stations.get(*first));
        first.map_or_else(String::new, |station| station.name.clone())
    }

    fn agrees(&self, line: Line) -> bool {
        line.closure_deg.abs() <= self.limit_deg
    }

    /// Least squares with the reference held free: its stations have no unknown.
    fn lay_out(&mut self, chain: &[usize], free: &[usize], lines: &[Line], closure_spread_deg: f64) {
        let unknowns: Vec<usize> = chain.iter().copied().filter(|station| !free.contains(station)).collect();
        let Some(adjusted) = adjust(lines, free, &unknowns) else { return };
        self.keep_covariances(&unknowns, &adjusted);
        for station in free {
            self.settle(*station, 0.0, 0.0);
        }
        for (station, attraction_deg, cofactor) in adjusted.stations() {
            self.settle(station, attraction_deg, cofactor.sqrt() * closure_spread_deg);
        }
        self.count_scatter(lines, unknowns.len());
    }

    /// A closure holds two readings. Lines that contradict the rest are mistakes and say nothing about the scatter.
    fn count_scatter(&mut self, lines: &[Line], unknowns: usize) {
        let misfits: Vec<f64> = lines.iter().map(|line| self.misfit_deg(*line)).filter(|off| off.abs() <= self.limit_deg).collect();
        self.squares += misfits.iter().map(|off| off * off / 2.0).sum::<f64>();
        self.freedom += misfits.len().saturating_sub(unknowns);
    }

    fn settle(&mut self, number: usize, attraction_deg: f64, spread_deg: f64) {
        if let Some(station) = self.stations.get_mut(number) {
            let attracted = attraction_deg.abs() > AGREES_WITHIN_SIGMAS * spread_deg && spread_deg > 0.0;
            station.verdict = if attracted { Verdict::Attracted } else { Verdict::Clean };
            (station.attraction_deg, station.spread_deg) = (attraction_deg, spread_deg);
        }
    }

    /// A closure has twice the variance of a reading.
    fn keep_covariances(&mut self, unknowns: &[usize], adjusted: &Adjusted) {
        for (i, j) in unknowns.iter().flat_map(|i| unknowns.iter().map(move |j| (*i, *j))) {
            if let Some(to) = self.unit.get_mut((i, j)) {
                *to = 2.0 * adjusted.cofactor(i, j);
            }
        }
    }

    fn attraction_deg(&self, number: usize) -> f64 {
        self.stations.get(number).map_or(0.0, |station| station.attraction_deg)
    }

    /// What is left of a line's closure once the attractions of its ends are taken off, degrees.
    fn misfit_deg(&self, line: Line) -> f64 {
        signed_difference_deg(line.closure_deg, self.attraction_deg(line.from) - self.attraction_deg(line.to))
    }

    /// Whether known bearings read at a station speak of the compass: it is clean, or no line says anything about it.
    pub(super) fn speaks_of_compass(&self, name: &str) -> bool {
        self.stations.iter().find(|station| station.name == name).is_none_or(|station| station.verdict == Verdict::Clean)
    }

    fn is_told(&self, line: Line) -> bool {
        self.stations.get(line.from).is_some_and(|station| station.verdict != Verdict::NotToBeTold)
    }

    /// Lines that the rest says are free at both ends, or well carried on, and that still do not close.
    fn contradictions(&self, pairs: &[Pair]) -> Vec<Untold> {
        let wrong = |line: Line| self.is_told(line) && self.misfit_deg(line).abs() > self.limit_deg;
        let told = |(pair, _): (&Pair, &Line)| Untold::Contradicts { from: pair.from.clone(), to: pair.to.clone() };
        pairs.iter().zip(&self.lines).filter(|(_, line)| wrong(**line)).map(told).collect()
    }

    /// The lines with the attraction of their ends taken off.
    pub(super) fn corrected_lines(&self, readings: &CompassReadings) -> Vec<CorrectedLine> {
        let corrected = |(pair, line): (&Pair, &Line)| self.corrected_line(pair, *line, readings.reading_spread_deg);
        readings.pairs.iter().zip(&self.lines).map(corrected).collect()
    }

    fn corrected_line(&self, pair: &Pair, line: Line, reading_spread_deg: f64) -> CorrectedLine {
        let fore_deg = pair.fore_deg_mag - self.attraction_deg(line.from);
        // The mean of fore and back reversed lies half their difference from the fore bearing.
        let bearing = MagneticBearing::new(fore_deg - 0.5 * self.misfit_deg(line));
        CorrectedLine {
            from: pair.from.clone(),
            to: pair.to.clone(),
            closure_deg: line.closure_deg,
            agrees: self.agrees(line),
            corrected: self.is_told(line).then_some(bearing),
            spread_deg: reading_spread_deg * self.mean_variance(line).sqrt(),
        }
    }

    /// Variance of a corrected bearing for readings of one degree's spread: the mean of two readings, and of two
    /// attractions, which closures alone determine; sum and difference of two readings are independent.
    fn mean_variance(&self, line: Line) -> f64 {
        let unit = |i: usize, j: usize| self.unit.get((i, j)).copied().unwrap_or(0.0);
        0.5 + 0.25 * (unit(line.from, line.from) + unit(line.to, line.to) + 2.0 * unit(line.from, line.to))
    }
}
