//! The records: one for each command, as JSON. The schema is in `DEVELOPERS.md`, "Records and replies".

use serde::{Deserialize, Serialize};

use super::record_sheet::{PhotoRecord, SheetRecord};
use super::record_sighting::{SightingRecord, sightings};

/// A command as it comes in. `at` is RFC 3339 with its zone.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(tag = "do", rename_all = "kebab-case", deny_unknown_fields)]
pub enum Record {
    /// Takes a sheet in and opens a trip on it.
    Carry {
        /// When.
        at: Option<String>,
        /// `geojson` or `toml`.
        format: String,
        /// The whole text of the file.
        text: String,
    },
    /// Brings a file in: lines and landmarks onto the sheet, or heights under it.
    Import {
        /// When.
        at: Option<String>,
        /// The file's name, without its folders; it tells the corner of a `.hgt` tile.
        name: String,
        /// What is in it, in base 64 (RFC 4648).
        base64: String,
        /// The grid of heights whose file does not say it; `EPSG:4326` for degrees.
        grid: Option<String>,
        /// South, west, north and east border of what is wanted, degrees; everything when absent, of heights what lies within
        /// 2 km of the sheet.
        area_deg: Option<Vec<f64>>,
        /// Kinds of lines and landmarks that are wanted; all when absent.
        kinds: Option<Vec<String>>,
        /// Where heights come from: srtm, aster, third-arc-second or laser; by the file when absent. It gives their spread.
        source: Option<String>,
        /// What covers the ground there: open or forest; open when absent.
        cover: Option<String>,
        /// Whom to name for the data; kept with the sheet.
        credit: Option<String>,
    },
    /// Makes a sheet by hand, or adds to the one that is open: what is read off the paper map, as little at a time as one likes.
    Sheet(SheetRecord),
    /// Lays a photo of the paper map over its grid by marked crossings; taps on it become places, or lines and landmarks of a sheet.
    Photo(PhotoRecord),
    /// Sets the walker's pace.
    Pace {
        /// When.
        at: Option<String>,
        /// Double paces to 100 m.
        double_paces_per_100_m: Option<f64>,
        /// Single paces to 100 m.
        single_paces_per_100_m: Option<f64>,
        /// One sigma of that figure in per cent.
        spread_percent: Option<f64>,
    },
    /// Checks a compass; keeps what it reads too much when that is asked.
    Compass(CompassRecord),
    /// Takes a fix on a line, on one of several, or in the open.
    Fix {
        /// When.
        at: Option<String>,
        /// Which line; needed when the sheet has several.
        line: Option<String>,
        /// Instead of `line`: all lines that it may be.
        lines: Option<Vec<String>>,
        /// The walker's own odds for each of `lines`, any positive numbers; by their length when absent.
        line_odds: Option<Vec<f64>>,
        /// Whether one stands on no line at all: the place is sought in the plane, and no line is named.
        open: Option<bool>,
        /// sighting, baseplate, quick or phone.
        instrument: Option<String>,
        /// What was observed.
        #[serde(default, deserialize_with = "sightings")]
        sightings: Vec<SightingRecord>,
    },
    /// Holds an independent place against the last fix: typed from the map, or told by a receiver.
    Check {
        /// When.
        at: Option<String>,
        /// The place.
        place: String,
        /// One sigma per axis, metres; that of the reference's square when absent.
        spread_m: Option<f64>,
    },
    /// Keeps a place of the last fix as the place of the car; the log begins.
    Keep {
        /// When.
        at: Option<String>,
        /// Which place of the fix, from 1.
        stretch: Option<u32>,
        /// The walker's word for what stands there.
        name: Option<String>,
    },
    /// Logs a leg.
    Leg(LegRecord),
    /// Asks where one is.
    Where {
        /// When.
        at: Option<String>,
    },
    /// Asks for landmarks by their names: those with these words in them, as they are listed to be sighted.
    Sights {
        /// A part of the name, small letters or large, with accents or without; all when empty.
        named: String,
    },
    /// Asks for lines by their names: those with these words in them, as they are listed to be stood on.
    Lines {
        /// A part of the name, small letters or large, with accents or without; all when empty.
        named: String,
    },
    /// Asks for known points of lines, named ones and where lines meet, as they are listed to be counted from.
    Points(PointsRecord),
    /// Asks for the way back.
    Back {
        /// When.
        at: Option<String>,
    },
    /// Begins the way back by the reversed log.
    TurnRound {
        /// When.
        at: Option<String>,
    },
    /// Tells that the end of the next leg of the way back is reached.
    Reached {
        /// When.
        at: Option<String>,
    },
    /// Keeps what is half typed, so that it is there again after a kill; an empty text forgets it.
    Draft {
        /// What is typed, in the shell's own form.
        text: String,
    },
    /// Strikes the last entry.
    Undo {
        /// When.
        at: Option<String>,
    },
    /// Closes the trip.
    Close {
        /// When.
        at: Option<String>,
    },
    /// Draws a chart of the fix, or of the walk with the way back.
    Chart {
        /// `fix` or `walk`.
        of: String,
        /// day, night or high.
        theme: Option<String>,
    },
    /// Asks whether metal or a current is near: a phone's magnetometer at rest, in its axes x right, y to the top edge, z out of the screen.
    Attraction {
        /// When.
        at: Option<String>,
        /// The place; the trip's likeliest when absent.
        place: Option<String>,
        /// The magnetic field, three parts, microtesla.
        field_ut: Vec<f64>,
        /// The direction away from the ground, three parts in any unit.
        up: Option<Vec<f64>>,
        /// The direction to the ground, instead of `up`.
        down: Option<Vec<f64>>,
    },
    /// Holds a receiver's place beside the fix; nothing is written.
    Witness {
        /// When it is asked.
        at: Option<String>,
        /// Degrees north, WGS 84.
        lat_deg: f64,
        /// Degrees east, WGS 84.
        lon_deg: f64,
        /// The receiver's own claim: a radius that holds 68 %, metres.
        accuracy_m: f64,
        /// When the receiver saw it.
        seen_at: String,
    },
    /// Asks what should be seen from a place, by the heights of the sheet.
    Seen {
        /// When; the date tells the declination.
        at: Option<String>,
        /// The place; the trip's likeliest when absent.
        place: Option<String>,
        /// Height of the eye above the ground, metres; 1.7 when absent.
        eye_m: Option<f64>,
        /// Landmarks farther than this are left out, metres; 10 km when absent.
        within_m: Option<f64>,
        /// The north from which bearings are told: mag, grid or true; the compass's when absent.
        to: Option<String>,
    },
    /// Asks for the heights along the way from one place to another.
    Profile {
        /// From.
        from: String,
        /// To.
        to: String,
        /// From height to height, metres; as far as from post to post when absent.
        step_m: Option<f64>,
        /// Height of an eye above the ground at `from`, metres: what it cannot see of the way is told too.
        eye_m: Option<f64>,
    },
    /// Asks how the ground lies at a place.
    Ground {
        /// When; needed where bearings are told from another north than the true one: the date tells the declination.
        at: Option<String>,
        /// The place; the trip's likeliest when absent.
        place: Option<String>,
        /// The north from which bearings are told: mag, grid or true; true when absent.
        to: Option<String>,
    },
    /// Asks for the contours of the sheet's heights.
    Contours {
        /// From contour to contour, metres; 10 when absent.
        interval_m: Option<f64>,
        /// The same in feet; 40 when absent on a sheet whose grid is in feet.
        interval_ft: Option<f64>,
        /// Whether they are drawn over the sheet as SVG too.
        svg: Option<bool>,
        /// day, night or high, for the drawing.
        theme: Option<String>,
    },
    /// Asks for the three norths at a place.
    Norths {
        /// The place.
        place: String,
        /// The date.
        date: String,
        /// Metres above the ellipsoid.
        height_m: Option<f64>,
        /// The grid; the UTM or UPS grid of the place when absent.
        grid: Option<String>,
        /// What the margin of a map prints, to be held against the model.
        printed: Option<PrintedRecord>,
    },
    /// Asks for the light that is left at a place from an instant on; over the heights of the sheet where they reach.
    Light {
        /// When.
        at: Option<String>,
        /// The place.
        place: String,
        /// Metres above the sea, for the sun's refraction.
        height_m: Option<f64>,
        /// Pressure of the air there, hectopascal; the standard atmosphere's when absent.
        pressure_hpa: Option<f64>,
        /// Its temperature, degrees Celsius; the standard atmosphere's when absent.
        temperature_c: Option<f64>,
    },
    /// Asks for the mean of several readings of one bearing.
    Mean {
        /// The readings, each with its north.
        bearings: Vec<String>,
    },
    /// Asks for a place in other terms. Here as in the questions for norths and ways the open sheet completes a short reference.
    Place {
        /// The place.
        place: String,
        /// Zone and square letters that complete a short reference.
        beginning: Option<String>,
        /// Digits of the grid reference: 2, 4, 6, 8 or 10.
        digits: Option<u8>,
        /// The grid; the UTM or UPS grid of the place when absent.
        grid: Option<String>,
    },
    /// Asks for distance and bearings from one place to another on the ellipsoid.
    Between {
        /// From.
        from: String,
        /// To.
        to: String,
        /// The grid; the UTM or UPS grid of the first place when absent.
        grid: Option<String>,
        /// The date of the magnetic bearing; none is told when absent.
        date: Option<String>,
    },
    /// Turns a bearing from one north to another.
    Turn(TurnRecord),
    /// Reckons legs in the plane of the grid, without a sheet.
    Reckon {
        /// The legs.
        legs: Vec<LegRecord>,
        /// Double paces to 100 m.
        double_paces_per_100_m: Option<f64>,
        /// Declination, degrees, east positive.
        #[serde(default)]
        declination_deg: f64,
        /// Grid convergence, degrees, east positive.
        #[serde(default)]
        convergence_deg: f64,
        /// Each leg's own bearing error, one sigma in degrees.
        leg_bearing_spread_deg: f64,
        /// Each leg's own distance error, one sigma in per cent.
        leg_distance_spread_percent: f64,
        /// The bearing error that all legs share, one sigma in degrees.
        #[serde(default)]
        shared_bearing_spread_deg: f64,
        /// The distance error that all legs share, one sigma in per cent.
        #[serde(default)]
        shared_distance_spread_percent: f64,
    },
}

impl Record {
    /// Whether it only looks at the trip and writes nothing.
    #[must_use]
    pub fn only_looks(&self) -> bool {
        matches!(
            self,
            Self::Where { .. }
                | Self::Sights { .. }
                | Self::Lines { .. }
                | Self::Points(_)
                | Self::Back { .. }
                | Self::Chart { .. }
                | Self::Compass(CompassRecord { keep: None | Some(false), .. })
                | Self::Attraction { .. }
                | Self::Witness { .. }
                | Self::Seen { .. }
                | Self::Light { .. }
                | Self::Profile { .. }
                | Self::Ground { .. }
                | Self::Contours { .. }
        ) || matches!(self, Self::Photo(photo) if photo.only_asks())
    }

    /// Whether it only asks, and touches no logbook.
    #[must_use]
    pub fn is_question(&self) -> bool {
        matches!(
            self,
            Self::Norths { .. } | Self::Place { .. } | Self::Between { .. } | Self::Mean { .. } | Self::Turn(_) | Self::Reckon { .. }
        )
    }
}

/// A bearing to be turned in [`Record::Turn`], and the diagram through which it is: what is typed of it counts before what the
/// place and the date tell. What does not lie between the two norths may be left out.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TurnRecord {
    /// The bearing with its north.
    pub bearing: String,
    /// mag, grid or true.
    pub to: String,
    /// How the answer is written: deg, mil, gon or quadrant.
    pub unit: Option<String>,
    /// One sigma of the bearing as it was read, degrees.
    pub spread_deg: Option<f64>,
    /// Declination, degrees, east positive.
    pub declination_deg: Option<f64>,
    /// One sigma of it, degrees.
    pub declination_spread_deg: Option<f64>,
    /// Grid convergence, degrees, east positive.
    pub convergence_deg: Option<f64>,
    /// One sigma of it, degrees.
    pub convergence_spread_deg: Option<f64>,
    /// A place: its grid tells the convergence, with a date the magnetic model the declination.
    pub place: Option<String>,
    /// The date of the diagram.
    pub date: Option<String>,
    /// The grid whose north is meant there; the sheet's, else that of the zone, when absent.
    pub grid: Option<String>,
}

/// A check of a compass in [`Record::Compass`].
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompassRecord {
    /// When.
    pub at: Option<String>,
    /// Where; the trip's likeliest place when absent.
    pub place: Option<String>,
    /// sighting, baseplate, quick or phone.
    pub instrument: Option<String>,
    /// One sigma of a reading, degrees; the instrument's own when absent.
    pub reading_spread_deg: Option<f64>,
    /// Readings whose true answer is known.
    #[serde(default)]
    pub readings: Vec<CompassReadingRecord>,
    /// Lines read from both their ends.
    #[serde(default)]
    pub pairs: Vec<CompassPairRecord>,
    /// Whether the error is kept and taken off from now on.
    pub keep: Option<bool>,
    /// The grid from whose north known bearings with grid are counted; the sheet's, else that of the place's zone, when absent.
    pub grid: Option<String>,
}

/// A reading whose answer is known: by a bearing, by a point sighted, or by the sun. One of the three is given.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompassReadingRecord {
    /// Where it was read, when there are pairs too.
    pub station: Option<String>,
    /// What the compass said: "214 mag".
    pub read: String,
    /// The bearing by the map: "207.5 grid".
    pub known: Option<String>,
    /// From this place, the check's own when absent,
    pub from: Option<String>,
    /// to this one.
    pub to: Option<String>,
    /// The sun was sighted at this time.
    pub sun_at: Option<String>,
    /// One sigma of the known bearing, degrees.
    pub spread_deg: Option<f64>,
    /// One sigma of the time when the sun was sighted, seconds; half a minute when absent.
    pub time_spread_s: Option<f64>,
}

/// A line read from both its ends.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CompassPairRecord {
    /// The station of the fore bearing.
    pub from: String,
    /// The station of the back bearing.
    pub to: String,
    /// Read at the first: "044 40 mag".
    pub fore: String,
    /// Read at the second: "225 20 mag".
    pub back: String,
}

/// A printed north diagram in a [`Record::Norths`]; angles east positive.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PrintedRecord {
    /// Declination, degrees. This or the next.
    pub declination_deg: Option<f64>,
    /// Grid-magnetic angle, degrees.
    pub grid_magnetic_deg: Option<f64>,
    /// The year it is printed for.
    pub year: f64,
    /// Change, minutes of arc a year.
    pub annual_change_min: Option<f64>,
}

/// What is asked in a [`Record::Points`].
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PointsRecord {
    /// A part of the name, small letters or large, with accents or without; all when empty.
    #[serde(default)]
    pub named: String,
    /// Only of these lines; of all when none is named.
    #[serde(default)]
    pub lines: Vec<String>,
    /// A known point: the others of the lines that it lies on.
    pub from: Option<String>,
}

/// A leg in a [`Record::Leg`] or [`Record::Reckon`].
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LegRecord {
    /// When it was closed; needed in the log, idle in a question.
    pub at: Option<String>,
    /// The bearing with its north: "063 mag".
    pub bearing: String,
    /// How many paces.
    pub paces: Option<f64>,
    /// single or double.
    pub pace_kind: Option<String>,
    /// How many metres.
    pub metres: Option<f64>,
    /// The box walked round something.
    pub detour: Option<DetourRecord>,
    /// What was met at the end.
    pub met: Option<String>,
}

/// A detour in a [`LegRecord`].
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct DetourRecord {
    /// left or right.
    pub side: String,
    /// How many paces out, of the leg's kind unless `pace_kind` says another.
    pub paces: Option<f64>,
    /// single or double.
    pub pace_kind: Option<String>,
    /// How many metres out.
    pub metres: Option<f64>,
}
