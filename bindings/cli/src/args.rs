//! The arguments. Their help texts come from the words room; see [`command`].

use std::path::PathBuf;

use clap::{Arg, ArgGroup, Args, Command, CommandFactory, Parser, Subcommand};
use gatepost_core::words::Words;

use crate::values::{angle, finite, unit, whole};

#[derive(Debug, Parser)]
#[command(name = "gatepost", version, arg_required_else_help = true, subcommand_required = true, disable_help_subcommand = true)]
pub(crate) struct Cli {
    #[arg(long, global = true, env = "GATEPOST_LOGBOOK", default_value = "field.gatepost")]
    pub(crate) logbook: PathBuf,
    #[arg(long, global = true)]
    pub(crate) json: bool,
    #[arg(long, global = true)]
    pub(crate) at: Option<String>,
    #[arg(value_parser = unit, long, global = true)]
    pub(crate) unit: Option<String>,
    #[command(subcommand)]
    pub(crate) task: Task,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Task {
    Sheet { file: PathBuf },
    Import(ImportArgs),
    Draw(Box<DrawArgs>),
    Photo(PhotoArgs),
    Pace(PaceArgs),
    Fix(Box<FixArgs>),
    Check(CheckArgs),
    Keep(KeepArgs),
    Leg(LegArgs),
    Where,
    Back,
    TurnRound,
    Reached,
    Undo,
    Close,
    Chart(ChartArgs),
    Seen(SeenArgs),
    Sights(SightsArgs),
    Lines(LinesArgs),
    Points(PointsArgs),
    Profile(ProfileArgs),
    Ground(GroundArgs),
    Contours(ContoursArgs),
    Norths(NorthsArgs),
    Light(LightArgs),
    Place(PlaceArgs),
    Between(BetweenArgs),
    Turn(TurnArgs),
    Compass(CompassArgs),
    Mean(MeanArgs),
    Attraction(AttractionArgs),
    Witness(WitnessArgs),
    Records,
}

#[derive(Debug, Args)]
pub(crate) struct ImportArgs {
    pub(crate) file: PathBuf,
    #[arg(long, value_name = "EPSG")]
    pub(crate) grid: Option<String>,
    #[arg(value_parser = finite, long, num_args = 4, value_names = ["SOUTH", "WEST", "NORTH", "EAST"], allow_hyphen_values = true)]
    pub(crate) area: Option<Vec<f64>>,
    #[arg(long, num_args = 1.., value_name = "KIND")]
    pub(crate) kinds: Option<Vec<String>>,
    #[arg(long)]
    pub(crate) source: Option<String>,
    #[arg(long)]
    pub(crate) cover: Option<String>,
    #[arg(long, value_name = "WHOM")]
    pub(crate) credit: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct DrawArgs {
    #[arg(long)]
    pub(crate) name: Option<String>,
    #[arg(long)]
    pub(crate) beginning: Option<String>,
    #[arg(long)]
    pub(crate) grid: Option<String>,
    #[arg(value_parser = finite, long)]
    pub(crate) scale: Option<f64>,
    #[arg(value_parser = finite, long)]
    pub(crate) printed_year: Option<f64>,
    #[arg(value_parser = angle, long, allow_hyphen_values = true, requires = "diagram_year", conflicts_with = "printed_grid_magnetic_deg")]
    pub(crate) printed_declination_deg: Option<f64>,
    #[arg(value_parser = angle, long, allow_hyphen_values = true, requires = "diagram_year")]
    pub(crate) printed_grid_magnetic_deg: Option<f64>,
    #[arg(value_parser = finite, long)]
    pub(crate) diagram_year: Option<f64>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true, requires = "diagram_year")]
    pub(crate) printed_change_min: Option<f64>,
    #[arg(long, num_args = 4.., value_names = ["KIND", "NAME", "REFERENCES"])]
    pub(crate) line: Vec<String>,
    /// The same, each line by itself: as many words as it has points, which the parser hands over in one row.
    #[arg(skip)]
    pub(crate) lines: Vec<Vec<String>>,
    #[arg(long, num_args = 3, value_names = ["KIND", "NAME", "REFERENCE"])]
    pub(crate) landmark: Vec<String>,
    #[arg(value_parser = finite, long)]
    pub(crate) height_m: Option<f64>,
    #[arg(long, num_args = 3, value_names = ["LINE", "NAME", "REFERENCE"])]
    pub(crate) known: Vec<String>,
    #[arg(long, num_args = 2, value_names = ["WHERE", "METRES"], allow_hyphen_values = true)]
    pub(crate) spot: Vec<String>,
    #[arg(long, num_args = 2, value_names = ["WHERE", "FEET"], allow_hyphen_values = true)]
    pub(crate) spot_ft: Vec<String>,
    #[arg(long, value_name = "NAME")]
    pub(crate) strike: Vec<String>,
}

#[derive(Debug, Args)]
pub(crate) struct PhotoArgs {
    #[arg(long, num_args = 3, value_names = ["X", "Y", "REFERENCE"], required = true)]
    pub(crate) mark: Vec<String>,
    #[arg(long, num_args = 2, value_names = ["X", "Y"])]
    pub(crate) tap: Vec<String>,
    #[arg(long)]
    pub(crate) grid: Option<String>,
    #[arg(long)]
    pub(crate) kind: Option<String>,
}

#[derive(Debug, Args)]
#[command(group = ArgGroup::new("count").required(true))]
pub(crate) struct PaceArgs {
    #[arg(value_parser = finite, long, group = "count", allow_hyphen_values = true)]
    pub(crate) double: Option<f64>,
    #[arg(value_parser = finite, long, group = "count", allow_hyphen_values = true)]
    pub(crate) single: Option<f64>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) spread_percent: Option<f64>,
}

#[derive(Debug, Args)]
pub(crate) struct FixArgs {
    #[arg(long)]
    pub(crate) on: Option<String>,
    #[arg(long, requires = "on", value_name = "LINE")]
    pub(crate) or: Vec<String>,
    #[arg(long)]
    pub(crate) open: bool,
    #[arg(long, num_args = 2, value_names = ["LANDMARK", "BEARING"], allow_hyphen_values = true)]
    pub(crate) sight: Vec<String>,
    #[arg(long, num_args = 2, value_names = ["LANDMARKS", "BEARING"], allow_hyphen_values = true)]
    pub(crate) one_of: Vec<String>,
    #[arg(long, num_args = 2, value_names = ["PLACE", "BEARING"], allow_hyphen_values = true)]
    pub(crate) rough: Vec<String>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) rough_spread_m: Option<f64>,
    #[arg(long, num_args = 4, value_names = ["LANDMARK", "FIRST", "SECOND", "METRES"], allow_hyphen_values = true)]
    pub(crate) running: Vec<String>,
    #[arg(long, value_name = "BEARING", allow_hyphen_values = true)]
    pub(crate) line_run: Vec<String>,
    #[arg(long, num_args = 3, value_names = ["LEFT", "RIGHT", "DEGREES"], allow_hyphen_values = true)]
    pub(crate) angle: Vec<String>,
    #[arg(long, num_args = 2, value_names = ["LANDMARK", "SIDE"])]
    pub(crate) side: Vec<String>,
    #[arg(long, value_name = "LANDMARK")]
    pub(crate) seen: Vec<String>,
    #[arg(long, value_name = "LANDMARK")]
    pub(crate) not_seen: Vec<String>,
    #[arg(long, value_name = "PLACE", allow_hyphen_values = true)]
    pub(crate) witness: Vec<String>,
    #[arg(long, value_name = "KNOWN_POINT")]
    pub(crate) here: Vec<String>,
    #[arg(long, value_name = "KIND")]
    pub(crate) here_kind: Vec<String>,
    #[arg(long, num_args = 2, value_names = ["LANDMARK", "METRES"], allow_hyphen_values = true)]
    pub(crate) distance: Vec<String>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) distance_spread_m: Option<f64>,
    #[arg(long, num_args = 2, value_names = ["GROUND", "BEARING"], allow_hyphen_values = true)]
    pub(crate) slope: Vec<String>,
    #[arg(long, num_args = 3, value_names = ["GROUND", "BEARING", "DEGREES"], allow_hyphen_values = true)]
    pub(crate) steep: Vec<String>,
    #[arg(long, num_args = 3, value_names = ["KIND", "BEARING", "METRES"], allow_hyphen_values = true)]
    pub(crate) landform: Vec<String>,
    #[arg(long, value_name = "KIND")]
    pub(crate) landform_here: Vec<String>,
    #[arg(long, value_name = "BEARING", allow_hyphen_values = true)]
    pub(crate) aspect: Vec<String>,
    #[arg(value_parser = finite, long, value_name = "METRES", allow_hyphen_values = true)]
    pub(crate) height: Option<f64>,
    #[arg(value_parser = finite, long, requires = "height", allow_hyphen_values = true)]
    pub(crate) height_spread_m: Option<f64>,
    #[arg(long, requires = "height", value_name = "PLACE", allow_hyphen_values = true)]
    pub(crate) height_set_at: Option<String>,
    #[arg(value_parser = finite, long, requires = "height", allow_hyphen_values = true)]
    pub(crate) height_set_m: Option<f64>,
    #[arg(value_parser = finite, long, requires = "height", allow_hyphen_values = true)]
    pub(crate) height_hours: Option<f64>,
    #[arg(value_parser = finite, long, requires = "height", allow_hyphen_values = true)]
    pub(crate) height_drift_m: Option<f64>,
    #[arg(long, num_args = 2, value_names = ["KNOWN_POINT", "METRES"], allow_hyphen_values = true)]
    pub(crate) trip: Vec<String>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) trip_step_m: Option<f64>,
    #[arg(long, requires = "trip")]
    pub(crate) trip_cuts_off: bool,
    #[arg(long, requires = "trip", conflicts_with = "trip_cuts_off")]
    pub(crate) trip_nearest: bool,
    #[arg(long, num_args = 2, value_names = ["KNOWN_POINT", "PACES"], allow_hyphen_values = true)]
    pub(crate) paced: Vec<String>,
    #[arg(long)]
    pub(crate) pace_kind: Option<String>,
    #[arg(long, value_name = "KNOWN_POINT")]
    pub(crate) towards: Option<String>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) spread_deg: Option<f64>,
    #[arg(long)]
    pub(crate) instrument: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct CheckArgs {
    #[arg(allow_hyphen_values = true)]
    pub(crate) place: String,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) spread_m: Option<f64>,
}

#[derive(Debug, Args)]
pub(crate) struct LightArgs {
    #[arg(allow_hyphen_values = true)]
    pub(crate) place: String,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) height_m: Option<f64>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) pressure_hpa: Option<f64>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) temperature_c: Option<f64>,
}

#[derive(Debug, Args)]
pub(crate) struct KeepArgs {
    #[arg(value_parser = whole::<u32>, long, allow_hyphen_values = true)]
    pub(crate) place: Option<u32>,
    #[arg(long)]
    pub(crate) name: Option<String>,
}

#[derive(Debug, Args)]
#[command(allow_negative_numbers = true)]
pub(crate) struct LegArgs {
    #[arg(allow_hyphen_values = true)]
    pub(crate) bearing: String,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) paces: Option<f64>,
    #[arg(long)]
    pub(crate) pace_kind: Option<String>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) metres: Option<f64>,
    #[arg(long, num_args = 2, value_names = ["SIDE", "OUT"])]
    pub(crate) detour: Vec<String>,
    #[arg(long)]
    pub(crate) met: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct ChartArgs {
    pub(crate) of: String,
    pub(crate) file: PathBuf,
    #[arg(long)]
    pub(crate) theme: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct SeenArgs {
    #[arg(allow_hyphen_values = true)]
    pub(crate) place: Option<String>,
    #[arg(value_parser = finite, long)]
    pub(crate) eye_m: Option<f64>,
    #[arg(value_parser = finite, long)]
    pub(crate) within_m: Option<f64>,
    #[arg(long)]
    pub(crate) to: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct SightsArgs {
    pub(crate) named: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct LinesArgs {
    pub(crate) named: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct PointsArgs {
    pub(crate) named: Option<String>,
    #[arg(long)]
    pub(crate) line: Vec<String>,
    #[arg(long, value_name = "POINT")]
    pub(crate) from: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct ProfileArgs {
    #[arg(allow_hyphen_values = true)]
    pub(crate) from: String,
    #[arg(allow_hyphen_values = true)]
    pub(crate) to: String,
    #[arg(value_parser = finite, long)]
    pub(crate) step_m: Option<f64>,
    #[arg(value_parser = finite, long)]
    pub(crate) eye_m: Option<f64>,
}

#[derive(Debug, Args)]
pub(crate) struct GroundArgs {
    #[arg(allow_hyphen_values = true)]
    pub(crate) place: Option<String>,
    #[arg(long)]
    pub(crate) to: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct ContoursArgs {
    pub(crate) file: PathBuf,
    #[arg(value_parser = finite, long)]
    pub(crate) interval_m: Option<f64>,
    #[arg(value_parser = finite, long)]
    pub(crate) interval_ft: Option<f64>,
    #[arg(long)]
    pub(crate) theme: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct NorthsArgs {
    #[arg(allow_hyphen_values = true)]
    pub(crate) place: String,
    pub(crate) date: String,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) height_m: Option<f64>,
    #[arg(long)]
    pub(crate) grid: Option<String>,
    #[arg(value_parser = angle, long, allow_hyphen_values = true, requires = "printed_year", conflicts_with = "printed_grid_magnetic_deg")]
    pub(crate) printed_declination_deg: Option<f64>,
    #[arg(value_parser = angle, long, allow_hyphen_values = true, requires = "printed_year")]
    pub(crate) printed_grid_magnetic_deg: Option<f64>,
    #[arg(value_parser = finite, long)]
    pub(crate) printed_year: Option<f64>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true, requires = "printed_year")]
    pub(crate) printed_change_min: Option<f64>,
}

#[derive(Debug, Args)]
pub(crate) struct BetweenArgs {
    #[arg(allow_hyphen_values = true)]
    pub(crate) from: String,
    #[arg(allow_hyphen_values = true)]
    pub(crate) to: String,
    #[arg(long)]
    pub(crate) grid: Option<String>,
    #[arg(long)]
    pub(crate) date: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct PlaceArgs {
    #[arg(allow_hyphen_values = true)]
    pub(crate) place: String,
    #[arg(long)]
    pub(crate) beginning: Option<String>,
    #[arg(value_parser = whole::<u8>, long, allow_hyphen_values = true)]
    pub(crate) digits: Option<u8>,
    #[arg(long)]
    pub(crate) grid: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct TurnArgs {
    #[arg(allow_hyphen_values = true)]
    pub(crate) bearing: String,
    #[arg(long)]
    pub(crate) to: String,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) spread_deg: Option<f64>,
    #[arg(value_parser = angle, long, allow_hyphen_values = true)]
    pub(crate) declination_deg: Option<f64>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) declination_spread_deg: Option<f64>,
    #[arg(value_parser = angle, long, allow_hyphen_values = true)]
    pub(crate) convergence_deg: Option<f64>,
    #[arg(value_parser = finite, long, allow_hyphen_values = true)]
    pub(crate) convergence_spread_deg: Option<f64>,
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) place: Option<String>,
    #[arg(long)]
    pub(crate) date: Option<String>,
    #[arg(long, requires = "place")]
    pub(crate) grid: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct CompassArgs {
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) place: Option<String>,
    #[arg(long)]
    pub(crate) instrument: Option<String>,
    #[arg(value_parser = finite, long)]
    pub(crate) reading_spread_deg: Option<f64>,
    #[arg(long, num_args = 2, value_names = ["READ", "KNOWN"], allow_hyphen_values = true)]
    pub(crate) known: Vec<String>,
    #[arg(long, num_args = 2, value_names = ["READ", "PLACE"], allow_hyphen_values = true)]
    pub(crate) point: Vec<String>,
    #[arg(long, num_args = 2, value_names = ["READ", "TIME"], allow_hyphen_values = true)]
    pub(crate) sun: Vec<String>,
    #[arg(value_parser = finite, long, requires = "sun")]
    pub(crate) time_spread_s: Option<f64>,
    #[arg(long, num_args = 4, value_names = ["FROM", "TO", "FORE", "BACK"], allow_hyphen_values = true)]
    pub(crate) line: Vec<String>,
    #[arg(long)]
    pub(crate) grid: Option<String>,
    #[arg(long)]
    pub(crate) keep: bool,
}

#[derive(Debug, Args)]
pub(crate) struct MeanArgs {
    #[arg(required = true)]
    pub(crate) bearings: Vec<String>,
}

#[derive(Debug, Args)]
pub(crate) struct AttractionArgs {
    #[arg(value_parser = finite, long, num_args = 3, required = true, value_names = ["X", "Y", "Z"], allow_hyphen_values = true)]
    pub(crate) field_ut: Vec<f64>,
    #[arg(value_parser = finite, long, num_args = 3, required = true, value_names = ["X", "Y", "Z"], allow_hyphen_values = true)]
    pub(crate) up: Vec<f64>,
    #[arg(long, allow_hyphen_values = true)]
    pub(crate) place: Option<String>,
}

#[derive(Debug, Args)]
pub(crate) struct WitnessArgs {
    #[arg(value_parser = finite, allow_hyphen_values = true)]
    pub(crate) lat: f64,
    #[arg(value_parser = finite, allow_hyphen_values = true)]
    pub(crate) lon: f64,
    #[arg(value_parser = finite, long)]
    pub(crate) accuracy_m: f64,
    #[arg(long)]
    pub(crate) seen_at: Option<String>,
}

/// The command with its help texts in place. A minus begins a number everywhere: what a value cannot be is for the engine to say.
pub(crate) fn command(words: &Words) -> Command {
    let root = Cli::command().about(words.say_by_name("help")).mut_args(|arg| helped(words, "help", arg));
    let names: Vec<String> = root.get_subcommands().map(|sub| sub.get_name().to_owned()).collect();
    names.into_iter().fold(root, |root, name| {
        let key = format!("help-{name}");
        let helped = |sub: Command| sub.about(words.say_by_name(&key)).mut_args(|arg| helped(words, &key, arg));
        root.mut_subcommand(&name, |sub| helped(sub).allow_negative_numbers(true))
    })
}

fn helped(words: &Words, key: &str, arg: Arg) -> Arg {
    let id = arg.get_id().as_str();
    if matches!(id, "help" | "version") {
        return arg;
    }
    let text = words.say_by_name(&format!("{key}-{}", id.replace('_', "-")));
    arg.help(text)
}
