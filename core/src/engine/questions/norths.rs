//! Declination, convergence, and what a printed diagram is worth.

use super::declination::Declination;
use super::grids::{Asked, counted_grid, named_grid};
use super::{Answer, Answered, Refusal, understand};
use crate::earth::{DecimalYear, Grid, LatLon, MagneticField, PrintedNorths, Terms, geodesic_between, read_place};
use crate::engine::answer::AnswerPrinted;
use crate::engine::record::PrintedRecord;
use crate::measure::{Arg, LINE_95, Message, NorthDiagram, Telling};
use crate::words::printed_told;

/// What [`answer_norths`] is asked.
pub(super) struct NorthsQuestion<'a> {
    pub(super) place: &'a str,
    pub(super) date: &'a str,
    pub(super) height_m: Option<f64>,
    pub(super) grid: Option<&'a String>,
    pub(super) printed: Option<&'a PrintedRecord>,
    pub(super) sheet: &'a Terms<'a>,
    /// The diagram that the sheet prints, for places on it.
    pub(super) of_sheet: Option<&'a PrintedNorths>,
}

/// The three norths at a place.
pub(super) fn answer_norths(asked: &NorthsQuestion) -> Answered {
    let named = named_grid(asked.grid)?;
    let by = Asked { named: named.as_ref(), sheet: asked.sheet };
    let reading = read_place(asked.place, &by.terms())?;
    let at = reading.at;
    let height_m = understand::bounded("height_m", asked.height_m.unwrap_or(0.0), (-1_000.0, 850_000.0))?;
    let year = DecimalYear::parse(asked.date)?;
    let grid = by.grid_at(&reading, counted_grid);
    let convergence_deg = grid.factors(at)?.convergence_deg;
    let printed = asked.printed.map(printed).transpose()?.or(printed_there(asked.of_sheet, asked.sheet, at).copied());
    let declination = Declination::at((at, height_m), year, (printed.as_ref(), convergence_deg))?;
    let diagram = NorthDiagram {
        declination_deg: declination.deg,
        declination_spread_deg: declination.spread_deg,
        convergence_deg,
        year: Some(declination.year.years()),
        ..NorthDiagram::default()
    };
    let report = printed.map(|printed| (printed, printed.report(at, convergence_deg, year)));
    let mut told = vec![norths_told(&diagram, &grid, declination.field.as_ref())];
    told.extend(by.cautions(&reading, &grid));
    told.extend(report.iter().flat_map(|(printed, report)| printed_told(printed, report, asked.date.trim())));
    told.extend(declination.minded(asked.date.trim()));
    let field = declination.field;
    let answer = Answer::Norths {
        lat_deg: at.lat_deg(),
        lon_deg: at.lon_deg(),
        declination_deg: diagram.declination_deg,
        declination_spread_deg: diagram.declination_spread_deg,
        inclination_deg: field.map(|field| field.inclination_deg),
        horizontal_nt: field.map(|field| field.horizontal_nt),
        total_nt: field.map(|field| field.total_nt),
        north_nt: field.map(|field| field.north_nt),
        east_nt: field.map(|field| field.east_nt),
        down_nt: field.map(|field| field.down_nt),
        inclination_spread_deg: field.map(|field| field.inclination_spread_deg),
        horizontal_spread_nt: field.map(|field| field.horizontal_spread_nt),
        total_spread_nt: field.map(|field| field.total_spread_nt),
        declination_change_deg_per_year: field.map(|field| field.declination_deg_per_year),
        model: field.map(|field| field.model.into()),
        convergence_deg: diagram.convergence_deg,
        grid_magnetic_deg: diagram.grid_magnetic_deg(),
        grid_name: grid.name().into(),
        printed: report.map(|(_, report)| AnswerPrinted {
            age_years: report.age_years,
            declination_deg: report.declination_deg,
            declination_spread_deg: report.off.map(|off| off.spread_deg),
            grid_magnetic_deg: report.grid_magnetic_deg,
            differs_deg: report.beside.map(|beside| beside.differs_deg),
            differs_spread_deg: report.beside.map(|beside| beside.spread_deg),
            old: report.is_old(),
        }),
    };
    Ok((answer, told))
}

/// The diagram that the sheet prints, for a place on the sheet.
pub(in crate::engine) fn printed_there<'a>(of_sheet: Option<&'a PrintedNorths>, sheet: &Terms, at: LatLon) -> Option<&'a PrintedNorths> {
    of_sheet.filter(|_| sheet.near.is_some_and(|near| geodesic_between(near, at).0 <= REACH_M))
}

/// A sheet's diagram holds no farther from its middle, metres (our choice).
const REACH_M: f64 = 50_000.0;

fn norths_told(diagram: &NorthDiagram, grid: &Grid, field: Option<&MagneticField>) -> Message {
    let told = Message::new("norths-told")
        .with("declination", Arg::Turn(diagram.declination_deg, 2))
        .with("spread", Arg::Turn(LINE_95 * diagram.declination_spread_deg, 1))
        .with("convergence", Arg::Turn(diagram.convergence_deg, 2))
        .text("grid", grid.name())
        .with("angle", Arg::Turn(diagram.grid_magnetic_deg(), 2));
    match field {
        Some(field) => with_field(told, field),
        None => told.text("field", "no"),
    }
}

/// Dip and strength of the field, with the spreads of the model's error model.
fn with_field(told: Message, field: &MagneticField) -> Message {
    told.text("field", if field.inclination_deg < 0.0 { "above" } else { "below" })
        .with("dip", Arg::Degrees(field.inclination_deg.abs(), 1))
        .with("dip-spread", Arg::Degrees(LINE_95 * field.inclination_spread_deg, 1))
        .with("horizontal", Arg::Number(field.horizontal_nt, 0))
        .with("horizontal-spread", Arg::Number(LINE_95 * field.horizontal_spread_nt, 0))
        .with("total", Arg::Number(field.total_nt, 0))
        .with("total-spread", Arg::Number(LINE_95 * field.total_spread_nt, 0))
        .text("model", field.model)
}

pub(in crate::engine) fn printed(record: &PrintedRecord) -> Result<PrintedNorths, Refusal> {
    let printed = PrintedNorths {
        declination_deg: record.declination_deg,
        grid_magnetic_deg: record.grid_magnetic_deg,
        year: record.year,
        annual_change_min: record.annual_change_min,
    };
    printed.fault().map_or(Ok(printed), |fault| Err(Refusal::new(fault.message())))
}
