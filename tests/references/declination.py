"""earth/declination and earth/norths: the World Magnetic Model against its published test values and pygeomag."""

import datetime
import math

import pygeomag

import grid
from casefile import case, numbered, published, refused, tolerances

SOURCE_2025 = (
    "WMM2025 test values and test table of the technical report, NOAA NCEI and British Geological Survey, not subject"
    " to copyright; every row recomputed with pygeomag 1.1.0 (MIT licence)"
)
# Two programs in double precision agree this far; the test values are printed finer.
COMPUTED_NT = 0.001
SINGLE_PRECISION_DEG = 0.0002
SINGLE_PRECISION_NT = 0.2
PRINTED_DEG = 0.005
ANGLE_TOLERANCE_DEG = 0.006
FIELD_TOLERANCE_NT = 0.5
COMPONENTS = {"D": "d", "I": "i", "H": "h", "X": "x", "Y": "y", "Z": "z", "F": "f"}
ANSWERS = {"D": "declination_deg", "I": "inclination_deg", "H": "horizontal_nt", "F": "total_nt"}


def decimal_year(date):
    """The decimal year of the beginning of a day."""
    return pygeomag.decimal_year_from_date(date)


def field(lat, lon, height_km, year):
    """The model's field at a decimal year, with the coefficients in force then."""
    model = pygeomag.GeoMag(base_year=int(year))
    return model.calculate(glat=lat, glon=lon, alt=height_km, time=year)


def day_of(year):
    """The whole day a record can name for a printed year: 1 January, or 2 July for a half."""
    whole = int(year)
    return datetime.date(whole, 7, 2) if year > whole else datetime.date(whole, 1, 1)


def completed(row):
    """A published row as numbers; D, I, H and F worked out from X, Y, Z where they were not taken down."""
    values = {key: float(value) for key, value in row.items() if value}
    x, y, z = values["X"], values["Y"], values["Z"]
    h = math.hypot(x, y)
    derived = {
        "D": round(math.degrees(math.atan2(y, x)), 4),
        "I": round(math.degrees(math.atan2(z, h)), 4),
        "H": round(h, 3),
        "F": round(math.hypot(h, z), 3),
    }
    return {**derived, **values}, "D" not in values


def check_row(tally, name, row, printed_nt):
    """A published row against pygeomag at its printed year, and the budget that the tolerances claim."""
    lon = (row["lon"] + 180) % 360 - 180
    then = field(row["lat"], lon, row["height_km"], row["year"])
    day = field(row["lat"], lon, row["height_km"], decimal_year(day_of(row["year"])))
    for key, attribute in COMPONENTS.items():
        step = PRINTED_DEG if key in "DI" else printed_nt
        tally.near(f"{name} {key}", getattr(then, attribute), row[key], step + 1e-6)
    for key in ANSWERS:
        angle = key in "DI"
        moved = abs(getattr(day, COMPONENTS[key]) - getattr(then, COMPONENTS[key]))
        budget = moved + (PRINTED_DEG + SINGLE_PRECISION_DEG if angle else printed_nt + SINGLE_PRECISION_NT)
        limit = ANGLE_TOLERANCE_DEG if angle else FIELD_TOLERANCE_NT
        tally.check(f"{name} {key} budget", budget <= limit, f"{budget} is more than {limit}")


def spread_deg(result):
    """The model's own spread of the declination, one sigma, by its published error model."""
    return round(result.calculate_uncertainty().d, 3)


def published_case(row, note):
    """One published row as a case."""
    lon = (row["lon"] + 180) % 360 - 180
    record = {
        "do": "norths",
        "place": grid.degrees_text(row["lat"], lon),
        "date": day_of(row["year"]).isoformat(),
        "height_m": int(row["height_km"] * 1000),
    }
    expect = {f"answer.{answer}": row[key] for key, answer in ANSWERS.items()}
    spread = math.hypot(0.26, 5417 / row["H"])
    return case(record, {**expect, "answer.declination_spread_deg": round(spread, 3)}, note)


def published_cases(tally):
    """Both published tables, each row checked before it is taken."""
    cases = []
    for name, printed_nt in (("wmm2025_test_values", COMPUTED_NT), ("wmm2025_report_table", 0.05)):
        for number, text in enumerate(published(f"{name}.csv"), 1):
            row, derived = completed(text)
            check_row(tally, f"{name} row {number}", row, printed_nt)
            note = f"{name.replace('_', ' ')}, row {number}, year {row['year']}"
            if row["lon"] > 180:
                note += f", longitude printed as {row['lon']:g}"
            if derived:
                note += "; D, I, H, F worked out from X, Y, Z"
            cases.append(published_case(row, note))
    return cases


INVALID_DATES = (
    ("2019-12-31", "date-outside-model", "the day before the first model carried (2020 to 2024)"),
    ("2030-01-01", "date-outside-model", "the day after the last"),
    ("1993-07-01", "date-outside-model", "the date of an old paper map"),
    ("2026-13-01", "date-unreadable", "no thirteenth month"),
    ("2026-02-30", "date-unreadable", None),
    ("2025-02-29", "date-unreadable", "not a leap year"),
    ("yesterday", "date-unreadable", None),
    ("", "date-unreadable", None),
)


def build_published(tally):
    """The case file of the published values."""
    tolerance, why = tolerances(
        declination_deg=(
            ANGLE_TOLERANCE_DEG,
            "0.005 half the last printed digit + at most 0.0008 because a record names a whole day (2 July 0 h stands"
            " for the printed half year and lies half a day before it) + 0.0002 for a model computed in single"
            " precision; the script adds these up for every row",
        ),
        inclination_deg=(ANGLE_TOLERANCE_DEG, "as the declination"),
        horizontal_nt=(
            FIELD_TOLERANCE_NT,
            "the model library in use computes in single precision (about 0.05 nT observed); 0.05 half the last"
            " printed digit; at most 0.12 for the whole day",
        ),
        total_nt=(FIELD_TOLERANCE_NT, "as the horizontal intensity"),
        declination_spread_deg=(
            0.002,
            "half the last digit written, and 0.5 nT of H moves the spread by 0.0012 where H is least (1504 nT)",
        ),
    )
    return {
        "topic": "earth/declination",
        "about": "Declination, inclination and intensity at the published test points of the World Magnetic Model.",
        "source": SOURCE_2025,
        "made_by": "tests/references/declination.py",
        "units": {
            "declination_deg": "degrees, east positive",
            "declination_spread_deg": "degrees, one sigma: sqrt(0.26^2 + (5417 nT / H)^2), the model's error model",
            "inclination_deg": "degrees, down positive",
            "horizontal_nt": "nanotesla",
            "total_nt": "nanotesla",
            "height_m": "metres above the WGS84 ellipsoid",
        },
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(published_cases(tally)),
        "invalid": numbered(
            [
                refused({"do": "norths", "place": "36.59, -84.25", "date": date}, code, note)
                for date, code, note in INVALID_DATES
            ]
        ),
    }


EVERYDAY = (
    # latitude, longitude, day, height in metres, named grid or None, note
    (36.59, -84.25, "2025-01-01", 0, None, "first day of WMM2025; just west of a zone edge"),
    (36.59, -84.25, "2026-07-02", 0, None, "declination alone would be 1.64 degrees off the grid"),
    (36.59, -84.25, "2029-12-31", 0, None, "last day of WMM2025"),
    (36.59, -84.25, "2024-12-31", 0, None, "last day of WMM2020"),
    (36.59, -84.25, "2020-01-01", 0, None, "first day of WMM2020"),
    (36.59, -83.75, "2026-07-02", 0, None, "just east of the zone edge: the convergence changes sign"),
    (36.2, -81.7, "2026-07-02", 1000, None, None),
    (47.6, -122.3, "2026-07-02", 0, None, None),
    (39.742476, -105.1786, "2026-07-02", 1830, None, None),
    (44.8, -68.8, "2026-07-02", 0, None, None),
    (61.25, -149.65, "2026-07-02", 0, None, None),
    (32.36, -84.95, "2026-07-02", 0, None, None),
    (-33.9, 151.2, "2027-03-15", 0, None, None),
    (-50.98, -73.0, "2028-02-29", 3000, None, "a leap day"),
    (46.2, 6.1, "2026-07-02", 400, "EPSG:2056", "Swiss grid"),
    (54.5, -3.1, "2026-07-02", 0, "EPSG:27700", "British National Grid"),
    (45.2, 5.7, "2026-07-02", 0, "EPSG:2154", "French grid: convergence of nearly two degrees"),
)


def everyday_case(tally, lat, lon, day, height_m, named, note):
    """One everyday place: the field from pygeomag, the convergence from PROJ."""
    result = field(lat, lon, height_m / 1000, decimal_year(datetime.date.fromisoformat(day)))
    record = {"do": "norths", "place": grid.degrees_text(lat, lon), "date": day, "height_m": height_m}
    if named:
        record["grid"] = named
        convergence = grid.named(tally, named, lat, lon).convergence_deg
    else:
        convergence = grid.utm(tally, lat, lon).convergence_deg
    expect = {
        "answer.lat_deg": lat,
        "answer.lon_deg": lon,
        "answer.declination_deg": round(result.d, 4),
        "answer.declination_spread_deg": spread_deg(result),
        "answer.inclination_deg": round(result.i, 4),
        "answer.horizontal_nt": round(result.h, 1),
        "answer.total_nt": round(result.f, 1),
        "answer.convergence_deg": round(convergence, 5),
        "answer.grid_magnetic_deg": round(result.d - convergence, 4),
    }
    return case(record, expect, note)


def build_everyday(tally):
    """The case file of everyday places."""
    cases = [everyday_case(tally, *row) for row in EVERYDAY]
    known = cases[1]["expect"]
    tally.near("D of the notes, mid 2026", known["answer.declination_deg"], -5.993, 0.0006)
    tally.near("grid-magnetic of the notes, mid 2026", known["answer.grid_magnetic_deg"], -7.633, 0.0006)
    tolerance, why = tolerances(
        lat_deg=(1e-9, "the place is given in degrees and comes back as it was given"),
        lon_deg=(1e-9, "as the latitude"),
        declination_deg=(0.0005, "0.00005 half the last digit written + 0.0002 for a model in single precision"),
        inclination_deg=(0.0005, "as the declination"),
        horizontal_nt=(FIELD_TOLERANCE_NT, "the model library in use computes in single precision"),
        total_nt=(FIELD_TOLERANCE_NT, "as the horizontal intensity"),
        declination_spread_deg=(0.001, "half the last digit written, doubled; the published error model is exact"),
        convergence_deg=(
            0.002,
            "on a named grid the projection's own convergence at WGS84 or at local coordinates differs by up to 0.002;"
            " on UTM earth/grid holds it to 0.00002",
        ),
        grid_magnetic_deg=(0.0025, "the sum of the tolerances of declination and convergence"),
    )
    return {
        "topic": "earth/norths",
        "about": "The three norths at everyday places: declination, convergence and the grid-magnetic angle.",
        "source": "pygeomag 1.1.0 (MIT licence) with the WMM2020 and WMM2025 coefficients; convergence: "
        + grid.PROJ_SOURCE,
        "made_by": "tests/references/declination.py",
        "units": {
            "declination_deg": "degrees, east positive",
            "declination_spread_deg": "degrees, one sigma: the error model of WMM2025, or WMM2020 before 2025",
            "inclination_deg": "degrees, down positive",
            "horizontal_nt": "nanotesla",
            "total_nt": "nanotesla",
            "convergence_deg": "degrees, positive where grid north lies east of true north",
            "grid_magnetic_deg": "degrees, east positive: declination - convergence",
            "height_m": "metres above the WGS84 ellipsoid",
        },
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": numbered(
            [
                refused({"do": "norths", "place": "91, 10", "date": "2026-07-01"}, "reference-unreadable"),
                refused({"do": "norths", "place": "61TWL8566411315", "date": "2026-07-01"}, "reference-unreadable"),
                refused(
                    {"do": "norths", "place": "54.5, -3.1", "date": "2026-07-01", "grid": "EPSG:999999"},
                    "grid-unknown",
                ),
            ]
        ),
    }


def build(tally):
    """Both case files of this script."""
    return [build_published(tally), build_everyday(tally)]
