//! A sheet typed from the paper map: grid references in a TOML file.

use serde::Deserialize;

use super::typed::{Typed, TypedCaution, TypedKnownPoint, TypedLandmark, TypedLine, TypedSpot, add_typed};
use super::{ExchangeError, checked_name, checked_paper, checked_spread};
use crate::earth::{Grid, PrintedNorths, Terms};
use crate::sheet::{Paper, SheetDraft};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TypedSheet {
    name: String,
    /// Zone, band and square letters that complete short references.
    beginning: Option<String>,
    grid: Option<String>,
    position_spread_m: Option<f64>,
    scale: Option<f64>,
    printed_year: Option<f64>,
    norths: Option<PrintedNorths>,
    #[serde(default)]
    line: Vec<TypedLine>,
    #[serde(default)]
    known_point: Vec<TypedKnownPoint>,
    #[serde(default)]
    landmark: Vec<TypedLandmark>,
    #[serde(default)]
    spot: Vec<TypedSpot>,
}

pub(super) fn read(text: &str) -> Result<(SheetDraft, Vec<TypedCaution>), ExchangeError> {
    let sheet: TypedSheet = toml::from_str(text).map_err(|error| told(&error, text))?;
    let grid = sheet.grid.as_deref().map(Grid::named).transpose().map_err(ExchangeError::Grid)?;
    let terms = Terms { beginning: sheet.beginning.as_deref(), grid: grid.as_ref(), ..Terms::default() };
    let typed = Typed { lines: &sheet.line, known_points: &sheet.known_point, landmarks: &sheet.landmark, spots: &sheet.spot };
    let mut draft = SheetDraft::default();
    let cautions = add_typed(&mut draft, &typed, &terms)?;
    checked_spread(sheet.position_spread_m, "sheet")?;
    let paper = checked_paper(sheet.scale, sheet.printed_year)?;
    let draft = SheetDraft {
        name: checked_name(&sheet.name, 0)?,
        grid: sheet.grid,
        position_spread_m: sheet.position_spread_m,
        norths: sheet.norths,
        paper: Paper { spots: draft.paper.spots, beginning: draft.paper.beginning, ..paper },
        ..draft
    };
    Ok((draft, cautions))
}

/// What the reader says, with the number of the line it stopped at.
fn told(error: &toml::de::Error, text: &str) -> ExchangeError {
    let line = error.span().and_then(|span| text.get(..span.start)).map_or(0, |before| before.matches('\n').count() + 1);
    let said = error.message().lines().next().unwrap_or_default();
    let kind = said.strip_prefix("invalid type: ").and_then(|said| said.split(", expected ").next());
    let missing = said.strip_prefix("missing field ").map(|key| key.trim_matches('`'));
    let (why, detail) = match (kind, missing) {
        (Some("map"), _) => ("kind", "{}"),
        (Some("sequence"), _) => ("kind", "[]"),
        (Some(kind), _) => ("kind", kind),
        (None, Some(key)) => ("missing", key),
        (None, None) => ("told", said),
    };
    ExchangeError::Unreadable { line, why, detail: detail.into() }
}
