"""The World Magnetic Model against its published values and pygeomag: earth/declination, declination_table, norths."""

import datetime
import math
from pathlib import Path

import numpy
import pygeomag
from numpy.polynomial import legendre

import grid
from casefile import case, numbered, published, refused, tolerances

CORE = Path(__file__).resolve().parents[2] / "core" / "src" / "earth" / "wmm"
SOURCE_2025 = (
    "NOAA NCEI and British Geological Survey, not subject to copyright; every row recomputed with pygeomag 1.1.0"
    " (MIT licence)"
)
# The test values are printed to 1e-6 nT. pygeomag comes this near to their north, horizontal and total strength.
COMPUTED_NT = {"H": 0.0005, "X": 0.0005, "Y": 1e-6, "Z": 2e-6, "F": 0.0005}
# Its lesser semi-axis is rounded to 0.1 mm, which moves the field by 1e-6 nT; the report's example is printed to 1e-10.
EXAMPLE_NT = 2e-6
PRINTED_DEG = 0.005
PRINTED_TABLE_NT = dict.fromkeys("HXYZF", 0.05)
COMPONENTS = {"D": "d", "I": "i", "H": "h", "X": "x", "Y": "y", "Z": "z", "F": "f"}
ANSWERS = {
    "D": "declination_deg",
    "I": "inclination_deg",
    "H": "horizontal_nt",
    "X": "north_nt",
    "Y": "east_nt",
    "Z": "down_nt",
    "F": "total_nt",
}
SPREADS = {
    "d": "declination_spread_deg",
    "i": "inclination_spread_deg",
    "h": "horizontal_spread_nt",
    "f": "total_spread_nt",
}
UNITS = {
    "declination_deg": "degrees, east positive",
    "inclination_deg": "degrees, down positive",
    "horizontal_nt": "nanotesla",
    "north_nt": "nanotesla, towards true north",
    "east_nt": "nanotesla",
    "down_nt": "nanotesla",
    "total_nt": "nanotesla",
    "declination_spread_deg": "degrees, one sigma: sqrt(0.26^2 + (5417 nT / H)^2); 5625 nT before 2025",
    "inclination_spread_deg": "degrees, one sigma",
    "horizontal_spread_nt": "nanotesla, one sigma",
    "total_spread_nt": "nanotesla, one sigma",
    "height_m": "metres above the WGS84 ellipsoid",
}
SPREAD_TOLERANCES = {
    "declination_spread_deg": (0.0006, "half the last digit written; the published error model is exact"),
    "inclination_spread_deg": (1e-6, "a constant of the published error model; single precision moves it by 3e-9"),
    "horizontal_spread_nt": (1e-6, "a constant of the published error model"),
    "total_spread_nt": (1e-6, "a constant of the published error model"),
}


def decimal_year(date):
    """The decimal year of the beginning of a day."""
    return pygeomag.decimal_year_from_date(date)


def model_of(year):
    """The coefficients in force at a decimal year; the last instant of WMM2025, 2030.0, has no newer ones."""
    return pygeomag.GeoMag(base_year=min(int(year), 2029))


def field(lat, lon, height_km, year):
    """The model's field at a decimal year, with the coefficients in force then."""
    model = model_of(year)
    return model.calculate(glat=lat, glon=lon, alt=height_km, time=year)


def change_deg_per_year(lat, lon, height_km, year):
    """How fast the declination changes: X and Y run straight in time within a model, so a difference is exact."""
    model = model_of(year)
    beyond = {"allow_date_outside_lifespan": True}
    here, before, after = (model.calculate(lat, lon, height_km, year + step, **beyond) for step in (0, -0.25, 0.25))
    north, east = (after.x - before.x) / 0.5, (after.y - before.y) / 0.5
    return math.degrees((here.x * east - here.y * north) / (here.x**2 + here.y**2))


def spreads(result):
    """The model's own spreads, one sigma, by its published error model."""
    uncertainty = result.calculate_uncertainty()
    return {f"answer.{name}": round(getattr(uncertainty, key), 3) for key, name in SPREADS.items()}


def completed(row):
    """A published row as numbers; D, I, H and F worked out from X, Y, Z where they were not taken down."""
    values = {key: float(value) for key, value in row.items() if value}
    x, y, z = values["X"], values["Y"], values["Z"]
    h = math.hypot(x, y)
    derived = {
        "D": round(math.degrees(math.atan2(y, x)), 4),
        "I": round(math.degrees(math.atan2(z, h)), 4),
        "H": round(h, 6),
        "F": round(math.hypot(h, z), 6),
    }
    return {**derived, **values}, "D" not in values


def computed(tally, name, row, printed_nt):
    """The field at a published row by pygeomag, held to each printed value."""
    lon = (row["lon"] + 180) % 360 - 180
    then = field(row["lat"], lon, row["height_km"], row["year"])
    for key, attribute in COMPONENTS.items():
        step = PRINTED_DEG if key in "DI" else printed_nt[key]
        tally.near(f"{name} {key}", getattr(then, attribute), row[key], step)
    return then


def published_case(row, then, note):
    """One published row as a case; the spreads by the published error model."""
    lon = (row["lon"] + 180) % 360 - 180
    record = {
        "do": "norths",
        "place": grid.degrees_text(row["lat"], lon),
        "date": f"{row['year']:.1f}",
        "height_m": int(row["height_km"] * 1000),
    }
    expect = {f"answer.{answer}": row[key] for key, answer in ANSWERS.items()}
    return case(record, {**expect, **spreads(then), "answer.model": "WMM2025"}, note)


EQUATOR_KM, FLATTENING, REFERENCE_KM = 6378.137, 1 / 298.257223563, 6371.2
PRINT = 5e-7


def geocentric(lat, height_km):
    """Geocentric latitude and distance of a geodetic latitude and height, radians and kilometres."""
    sine, cosine = math.sin(math.radians(lat)), math.cos(math.radians(lat))
    squared = FLATTENING * (2 - FLATTENING)
    normal = EQUATOR_KM / math.sqrt(1 - squared * sine * sine)
    out, up = (normal + height_km) * cosine, (normal * (1 - squared) + height_km) * sine
    return math.atan2(up, out), math.hypot(out, up)


def schmidt(degree, order, sine):
    """The Schmidt semi-normalised function, by numpy's Legendre series."""
    series = legendre.legder([0] * degree + [1], order)
    norm = math.sqrt((2 if order else 1) * math.factorial(degree - order) / math.factorial(degree + order))
    return norm * (1 - sine * sine) ** (order / 2) * float(legendre.legval(sine, series))


def coefficients(year):
    """Degree, order, g and h of the model at a decimal year."""
    text = (CORE / "WMM2025.COF").read_text(encoding="ascii").splitlines()[1:]
    rows = [[float(word) for word in line.split()] for line in text if not line.startswith("9999")]
    since = year - 2025
    return [(int(n), int(m), g + since * more_g, h + since * more_h) for n, m, g, h, more_g, more_h in rows]


def harmonics(lat_rad, distance_km, lon, terms):
    """The sums of the potential, of its change eastwards and of its change downwards, nanotesla, at a geocentric place."""
    total = numpy.zeros(3)
    for n, m, g, h in terms:
        cosine, sine = math.cos(m * math.radians(lon)), math.sin(m * math.radians(lon))
        scale = (REFERENCE_KM / distance_km) ** (n + 2) * schmidt(n, m, math.sin(lat_rad))
        along, across = g * cosine + h * sine, m * (g * sine - h * cosine)
        total += scale * numpy.array([along, across / math.cos(lat_rad), -(n + 1) * along])
    return total


def northward(lat_rad, distance_km, lon, terms, step=1e-3):
    """The geocentric north component: the slope of the potential, by differences over seven points."""
    at = {k: harmonics(lat_rad + k * step, distance_km, lon, terms)[0] for k in (-3, -2, -1, 1, 2, 3)}
    odd = {k: at[k] - at[-k] for k in (1, 2, 3)}
    return -(45 * odd[1] - 9 * odd[2] + odd[3]) / (60 * step)


def own_field(row):
    """North, east and down by the sums above, and the tilt of the geocentric horizon."""
    lat_rad, distance_km = geocentric(row["lat"], row["height_km"])
    terms = coefficients(row["year"])
    tilt = lat_rad - math.radians(row["lat"])
    _, east, down = harmonics(lat_rad, distance_km, row["lon"], terms)
    north = northward(lat_rad, distance_km, row["lon"], terms)
    turned = north * math.cos(tilt) - down * math.sin(tilt), north * math.sin(tilt) + down * math.cos(tilt)
    return turned[0], float(east), turned[1], tilt


def check_example(tally):
    """The report's own example, to 1e-10 nT, by the sums and by pygeomag."""
    (text,) = published("wmm2025_report_example.csv")
    row, _ = completed(text)
    north, east, down, _ = own_field(row)
    for key, got, within in (("X", north, 2e-8), ("Y", east, 2e-10), ("Z", down, 2e-10)):
        tally.near(f"report example {key}, by sums", got, row[key], within)
    computed(tally, "report example", row, dict.fromkeys("HXYZF", EXAMPLE_NT))


def check_residue(tally):
    """Why the test values' north is not met to its print: what it is off lies in the slope of the potential alone.

    East is met to half the last digit; down is too, once what north is off is turned into it by the tilt of the horizon.
    """
    worst = 0
    for number, text in enumerate(published("wmm2025_test_values.csv"), 1):
        row, _ = completed(text)
        north, east, down, tilt = own_field(row)
        off = (row["X"] - north) / math.cos(tilt)
        tally.near(f"test values, row {number} Y, by sums", east, row["Y"], PRINT)
        tally.near(f"test values, row {number} Z, by sums", down + off * math.sin(tilt), row["Z"], PRINT)
        worst = max(worst, abs(off))
    tally.check("the print's north is off, else hold it to its print", 4e-4 < worst < 4.5e-4, worst)


def published_cases(tally, name, printed_nt):
    """A published table, each row checked before it is taken."""
    cases = []
    for number, text in enumerate(published(f"{name}.csv"), 1):
        row, derived = completed(text)
        then = computed(tally, f"{name} row {number}", row, printed_nt)
        note = f"{name.replace('_', ' ')}, row {number}, year {row['year']}"
        if row["lon"] > 180:
            note += f", longitude printed as {row['lon']:g}"
        if derived:
            note += "; D, I, H, F worked out from X, Y, Z"
        cases.append(published_case(row, then, note))
    return cases


INVALID_DATES = (
    ("2019-12-31", "date-outside-model", "the day before the first model carried (2020 to 2024)"),
    ("2019.99", "date-outside-model", "before the first model carried, as a decimal year"),
    ("2030-01-01", "date-outside-model", "the day after the last"),
    ("2030.0", "date-outside-model", "the same instant"),
    ("2030.01", "date-outside-model", None),
    ("1993-07-01", "date-outside-model", "the date of an old paper map"),
    ("1993.5", "date-outside-model", "the date of an old paper map"),
    ("2026-13-01", "date-unreadable", "no thirteenth month"),
    ("2026-02-30", "date-unreadable", None),
    ("2025-02-29", "date-unreadable", "not a leap year"),
    ("2026,5", "date-unreadable", "decimal comma"),
    ("2026.5.1", "date-unreadable", "neither a day nor a year"),
    ("26", "date-unreadable", "of which century?"),
    ("2026-07", "date-unreadable", "a month without its day"),
    ("2.0265e3", "date-unreadable", "a year is written out"),
    ("nan", "date-unreadable", None),
    ("yesterday", "date-unreadable", None),
    ("", "date-unreadable", None),
)


def field_tolerances(within_nt, why_nt):
    """Tolerances of a published table."""
    return tolerances(
        declination_deg=(PRINTED_DEG, "half the last printed digit"),
        inclination_deg=(PRINTED_DEG, "half the last printed digit"),
        **{ANSWERS[key]: (within_nt[key], why_nt) for key in "HXYZF"},
        **SPREAD_TOLERANCES,
    )


def build_published(tally):
    """The case file of the published test values."""
    tolerance, why = field_tolerances(
        COMPUTED_NT,
        "the print's north component is off by up to 0.00044 nT, and horizontal and total strength with it: it is not the"
        " slope of the model's own potential, see the script; east is met to its print, down takes in what the tilt of"
        " the horizon turns into it",
    )
    check_example(tally)
    check_residue(tally)
    return {
        "topic": "earth/declination",
        "about": "The field at the published test values of the World Magnetic Model, all seven components, with spreads.",
        "source": f"WMM2025 test values, {SOURCE_2025}",
        "made_by": "tests/references/declination.py",
        "units": UNITS,
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(published_cases(tally, "wmm2025_test_values", COMPUTED_NT)),
        "invalid": numbered(
            [
                refused({"do": "norths", "place": "36.59, -84.25", "date": date}, code, note)
                for date, code, note in INVALID_DATES
            ]
        ),
    }


def build_table(tally):
    """The case file of the report's test table."""
    tolerance, why = field_tolerances(PRINTED_TABLE_NT, "half the last printed digit")
    return {
        "topic": "earth/declination_table",
        "about": "The field at the test table of the World Magnetic Model's technical report, to the last printed digit.",
        "source": f"test table of the WMM2025 technical report, {SOURCE_2025}",
        "made_by": "tests/references/declination.py",
        "units": UNITS,
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(published_cases(tally, "wmm2025_report_table", PRINTED_TABLE_NT)),
        "invalid": [],
    }


EVERYDAY = (
    # latitude, longitude, day or decimal year, height in metres, named grid or None, note
    (36.59, -84.25, "2025-01-01", 0, None, "first day of WMM2025; just west of a zone edge"),
    (36.59, -84.25, "2025.0", 0, None, "the same instant as a decimal year"),
    (36.59, -84.25, "2026-07-02", 0, None, "declination alone would be 1.64 degrees off the grid"),
    (36.59, -84.25, "2029-12-31", 0, None, "last day of WMM2025"),
    (36.59, -84.25, "2029.99", 0, None, None),
    (36.59, -84.25, "2024-12-31", 0, None, "last day of WMM2020"),
    (36.59, -84.25, "2024.999", 0, None, "the last of WMM2020"),
    (36.59, -84.25, "2020-01-01", 0, None, "first day of WMM2020"),
    (36.59, -84.25, "2020.0", 0, None, "the same instant as a decimal year"),
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
    (90.0, 0.0, "2026.5", 0, None, "the North Pole: the meridian of the longitude given stands for true north"),
    (-90.0, 0.0, "2026.5", 0, None, "the South Pole, likewise"),
    (86.0, 142.0, "2026.5", 0, None, "inside the blackout zone round the dip pole: H below 2000 nT"),
    (-70.0, 136.0, "2026.5", 2000, None, "inside the caution zone of the south: H from 2000 to 6000 nT"),
)


def year_of(date):
    """The decimal year that a record's date stands for."""
    return decimal_year(datetime.date.fromisoformat(date)) if "-" in date else float(date)


def convergence_of(tally, lat, lon, named):
    """The convergence on a named grid, or on UTM or UPS."""
    if named:
        return grid.named(tally, named, lat, lon).convergence_deg
    return 0.0 if abs(lat) == 90 and lon == 0 else grid.utm(tally, lat, lon).convergence_deg


def everyday_case(tally, lat, lon, date, height_m, named, note):
    """One everyday place: the field from pygeomag, the convergence from PROJ."""
    year, height_km = year_of(date), height_m / 1000
    result = field(lat, lon, height_km, year)
    record = {"do": "norths", "place": grid.degrees_text(lat, lon), "date": date, "height_m": height_m}
    convergence = convergence_of(tally, lat, lon, named)
    parts = {ANSWERS[key]: round(getattr(result, COMPONENTS[key]), 4 if key in "DI" else 2) for key in ANSWERS}
    expect = {
        "answer.lat_deg": lat,
        "answer.lon_deg": lon,
        **{f"answer.{name}": value for name, value in parts.items()},
        **spreads(result),
        "answer.declination_change_deg_per_year": round(change_deg_per_year(lat, lon, height_km, year), 5),
        "answer.model": "WMM2025" if year >= 2025 else "WMM2020",
        "answer.convergence_deg": round(convergence, 5) + 0.0,
        "answer.grid_magnetic_deg": round((result.d - convergence + 180) % 360 - 180, 4),
    }
    return case({**record, **({"grid": named} if named else {})}, expect, note)


def check_zones(tally, cases):
    """The cases said to lie in a weak field do."""
    for item in cases:
        note, strength = item.get("note", ""), item["expect"]["answer.horizontal_nt"]
        if "blackout" in note:
            tally.check(note, strength < 2000, strength)
        if "caution" in note:
            tally.check(note, 2000 <= strength < 6000, strength)


def check_known(tally, cases):
    """The project's own earlier figures for one place."""
    expect = next(item["expect"] for item in cases if "1.64 degrees off" in item.get("note", ""))
    tally.near("D of the notes, mid 2026", expect["answer.declination_deg"], -5.993, 0.0006)
    tally.near("grid-magnetic of the notes, mid 2026", expect["answer.grid_magnetic_deg"], -7.633, 0.0006)


def everyday_tolerances():
    """Tolerances of the everyday places."""
    strength = (0.01, "half the last digit written, doubled")
    return tolerances(
        lat_deg=(1e-9, "the place is given in degrees and comes back as it was given"),
        lon_deg=(1e-9, "as the latitude"),
        declination_deg=(0.0001, "half the last digit written, doubled"),
        inclination_deg=(0.0001, "as the declination"),
        **{ANSWERS[key]: strength for key in "HXYZF"},
        **SPREAD_TOLERANCES,
        declination_change_deg_per_year=(0.00002, "half the last digit written, and a numerical difference"),
        convergence_deg=(
            0.002,
            "on a named grid the projection's own convergence at WGS84 or at local coordinates differs by up to 0.002;"
            " on UTM earth/grid holds it to 0.00002",
        ),
        grid_magnetic_deg=(0.0021, "the sum of the tolerances of declination and convergence"),
    )


INVALID_PLACES = (
    refused({"do": "norths", "place": "91, 10", "date": "2026-07-01"}, "reference-unreadable"),
    refused({"do": "norths", "place": "61TWL8566411315", "date": "2026-07-01"}, "reference-unreadable"),
    refused({"do": "norths", "place": "54.5, -3.1", "date": "2026-07-01", "grid": "EPSG:999999"}, "grid-unknown"),
)


def build_everyday(tally):
    """The case file of everyday places."""
    cases = [everyday_case(tally, *row) for row in EVERYDAY]
    check_known(tally, cases)
    check_zones(tally, cases)
    tolerance, why = everyday_tolerances()
    return {
        "topic": "earth/norths",
        "about": "The three norths at everyday places, at both ends of each model, at the poles and where the field is weak.",
        "source": "pygeomag 1.1.0 (MIT licence) with the WMM2020 and WMM2025 coefficients; convergence: "
        + grid.PROJ_SOURCE,
        "made_by": "tests/references/declination.py",
        "units": {
            **UNITS,
            "declination_change_deg_per_year": "degrees a year, east positive",
            "convergence_deg": "degrees, positive where grid north lies east of true north",
            "grid_magnetic_deg": "degrees, east positive: declination - convergence",
        },
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": numbered(INVALID_PLACES),
    }


def build(tally):
    """The case files of this script."""
    return [build_published(tally), build_table(tally), build_everyday(tally)]
