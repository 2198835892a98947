"""earth/geodesics and earth/bearings_between: distance and bearings on the ellipsoid, and bearings by the other norths."""

import datetime
import random
from decimal import Decimal

import pyproj
from geographiclib.geodesic import Geodesic
from geographiclib.test.test_geodesic import GeodesicTest

import grid
from casefile import case, numbered, refused, tolerances
from declination import decimal_year, field

SEED = 20260702
DATE = "2026-07-01"
FLINDERS = ("37 57 03.72030 S, 144 25 29.52440 E", -(37 + 57 / 60 + 3.72030 / 3600), 144 + 25 / 60 + 29.52440 / 3600)
BUNINYONG = ("37 39 10.15610 S, 143 55 35.38390 E", -(37 + 39 / 60 + 10.15610 / 3600), 143 + 55 / 60 + 35.38390 / 3600)
# As printed for GRS80, to the millimetre and the hundredth of a second; WGS84 is the same within a micrometre here.
FLINDERS_M = 54972.271
FLINDERS_BEARINGS_DEG = (306 + 52 / 60 + 5.37 / 3600, 127 + 10 / 60 + 25.07 / 3600)
SECOND_DEG = 0.005 / 3600

UNITS = {
    "distance_m": "metres along the shortest line on the ellipsoid of WGS84",
    "bearing_deg_true": "degrees, at the place it leaves from",
    "arrival_deg_true": "degrees, onward at the place it ends",
    "back_deg_true": "degrees, from the end to where it left",
    "bearing_deg_grid": "degrees, at the place it leaves from: true - convergence",
    "bearing_deg_mag": "degrees, at the place it leaves from: true - declination",
}


def inside(lon):
    """A longitude brought inside 180 degrees, digit by digit."""
    exact = Decimal(str(lon))
    return exact - 360 if exact > 180 else exact + 360 if exact < -180 else exact


def circle(bearing):
    """A bearing from 0 up to but not 360, digit by digit: a float would lose what is asked for."""
    return float(Decimal(repr(bearing)) % 360 + (360 if bearing < 0 else 0)) % 360


def line_of(lat1, lon1, lat2, lon2):
    """Distance, bearing and bearing onward by geographiclib."""
    line = Geodesic.WGS84.Inverse(lat1, lon1, lat2, lon2)
    return line["s12"], line["azi1"], line["azi2"]


def row_case(tally, row, number):
    """A row of geographiclib's own test, as it stands there, and as the package computes it."""
    lat1, lon1, bearing, lat2, lon2, onward, distance = row[:7]
    lons = inside(lon1), inside(lon2)
    got = line_of(lat1, float(lons[0]), lat2, float(lons[1]))
    name = f"geographiclib row {number}"
    tally.near(f"{name} distance", got[0], distance, 1e-8)
    tally.near(f"{name} bearing", got[1], bearing, 1e-12)
    tally.near(f"{name} onward", got[2], onward, 1e-12)
    record = {"do": "between", "from": f"{lat1}, {lons[0]}", "to": f"{lat2}, {lons[1]}"}
    expect = {
        "answer.distance_m": distance,
        "answer.bearing_deg_true": circle(bearing),
        "answer.arrival_deg_true": circle(onward),
        "answer.back_deg_true": circle(onward + 180),
        "answer.bearing_deg_mag": None,
    }
    moved = " (longitude brought inside 180)" if lons != (Decimal(str(lon1)), Decimal(str(lon2))) else ""
    return case(record, expect, f"row {number} of the package's own test{moved}")


def build_geodesics(tally):
    """The case file of the package's own rows."""
    cases = [row_case(tally, row, number) for number, row in enumerate(GeodesicTest.testcases, 1)]
    angle = (1e-12, "what the package's own test claims, 1e-13, and the last digits of a double in other hands")
    tolerance, why = tolerances(
        distance_m=(1e-8, "what the package's own test claims"),
        bearing_deg_true=angle,
        arrival_deg_true=angle,
        back_deg_true=angle,
    )
    return {
        "topic": "earth/geodesics",
        "about": "Geodesics over thousands of kilometres, to what the library claims.",
        "source": "test_geodesic.py of geographiclib 2.1 (MIT licence), its 20 rows, recomputed by the package",
        "made_by": "tests/references/geodesics.py",
        "units": {key: value for key, value in UNITS.items() if key.endswith(("_m", "_true"))},
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": numbered(invalid()),
    }


def invalid():
    """What is no line."""
    asked = {"do": "between", "from": "36.59, -84.25", "to": "36.2, -81.7"}
    return [
        refused({**asked, "from": "91, 10"}, "reference-unreadable"),
        refused({**asked, "to": "there"}, "reference-unreadable"),
        refused({**asked, "to": ""}, "reference-unreadable"),
        refused({**asked, "grid": "EPSG:999999"}, "grid-unknown"),
        refused({**asked, "grid": "EPSG:27700"}, "place-outside-grid", "North America on the British grid"),
        refused({**asked, "date": "1993-07-01"}, "date-outside-model"),
        refused({**asked, "date": "someday"}, "date-unreadable"),
    ]


NEAR = (
    # from, to, grid, note
    ((36.59, -84.25), (36.6, -84.2), None, "4.6 km, just west of a zone edge"),
    ((36.59, -84.01), (36.59, -83.99), None, "across a zone edge: the grid is that of the place it leaves from"),
    ((36.2, -81.7), (36.209612468, -81.676715291), None, "the leg of true 63, 2350 m"),
    ((54.5, -3.1), (54.46, -3.21), "EPSG:27700", "on the British grid"),
    ((46.95, 7.44), (46.55, 7.98), "EPSG:2056", "on the Swiss grid"),
    ((45.2, 5.7), (45.2, 5.8), "EPSG:2154", "due east on paper is not due east on the ground"),
    ((35.5, -79.9), (35.4, -79.7), "EPSG:2264", "on a state plane in feet: metres are asked for"),
    ((-33.9, 151.2), (-34.0, 151.2), None, "due south"),
    ((10.0, 179.99), (10.0, -179.99), None, "over the meridian of 180"),
    ((0.0, 10.0), (0.0, 10.5), None, "along the equator"),
    ((78.2, 15.6), (78.3, 15.0), None, "Svalbard"),
)


def convergence_of(tally, place, named):
    """The convergence at a place, on a named grid or on UTM or UPS."""
    return (grid.named(tally, named, *place) if named else grid.utm(tally, *place)).convergence_deg


def by_proj(tally, name, start, end, ours):
    """PROJ's own geodesics say the same."""
    bearing, back, distance = pyproj.Geod(ellps="WGS84").inv(start[1], start[0], end[1], end[0])
    tally.near(f"{name} distance by PROJ", distance, ours[0], 1e-6)
    for got, want in ((bearing, ours[1]), (back, ours[2] + 180)):
        tally.near(f"{name} bearing by PROJ", (got - want + 180) % 360, 180, 1e-9)


def between_case(tally, start, end, named, note, texts=None):
    """A line between two places, by all three norths."""
    ours = line_of(*start, *end)
    by_proj(tally, f"{start} to {end}", start, end, ours)
    declination = field(*start, 0, decimal_year(datetime.date.fromisoformat(DATE))).d
    convergence = convergence_of(tally, start, named)
    start_text, end_text = texts or (grid.degrees_text(*start), grid.degrees_text(*end))
    record = {"do": "between", "from": start_text, "to": end_text, "date": DATE}
    expect = {
        "answer.distance_m": round(ours[0], 7),
        "answer.bearing_deg_true": round(ours[1] % 360, 9),
        "answer.arrival_deg_true": round(ours[2] % 360, 9),
        "answer.back_deg_true": round((ours[2] + 180) % 360, 9),
        "answer.bearing_deg_grid": round((ours[1] - convergence) % 360, 5),
        "answer.bearing_deg_mag": round((ours[1] - declination) % 360, 4),
    }
    return case({**record, **({"grid": named} if named else {})}, expect, note)


def flinders_case(tally):
    """The line of the Australian geodetic manual, both ways of its bearings held to what is printed."""
    start, end = FLINDERS[1:], BUNINYONG[1:]
    distance, bearing, onward = line_of(*start, *end)
    tally.near("Flinders Peak, distance", distance, FLINDERS_M, 0.00051)
    for got, want in ((bearing % 360, FLINDERS_BEARINGS_DEG[0]), ((onward + 180) % 360, FLINDERS_BEARINGS_DEG[1])):
        tally.near("Flinders Peak, bearing", got, want, SECOND_DEG)
    note = "Flinders Peak to Buninyong: 54972.271 m, 306 52 05.37, back 127 10 25.07 (inputs from memory)"
    return between_case(tally, start, end, None, note, (FLINDERS[0], BUNINYONG[0]))


def random_cases(tally, count=24):
    """Lines of all lengths over the globe, half of them within a day's walk."""
    dice = random.Random(SEED)
    cases = []
    for number in range(count):
        start = round(dice.uniform(-79, 83), 6), round(dice.uniform(-180, 180), 6)
        reach = 0.2 if number % 2 else 60
        end = (
            round(max(-80, min(84, start[0] + dice.uniform(-reach, reach))), 6),
            round((start[1] + dice.uniform(-reach, reach) + 180) % 360 - 180, 6),
        )
        cases.append(between_case(tally, start, end, None, f"random, seed {SEED}"))
    return cases


def build_between(tally):
    """The case file of lines by all three norths."""
    cases = [flinders_case(tally)] + [between_case(tally, *row) for row in NEAR] + random_cases(tally)
    angle = (2e-9, "half the last digit written, and what two libraries part by; 2e-9 degrees is 0.2 mm at 6000 km")
    tolerance, why = tolerances(
        distance_m=(1e-6, "half the last digit written, and what two libraries part by"),
        bearing_deg_true=angle,
        arrival_deg_true=angle,
        back_deg_true=angle,
        bearing_deg_grid=(0.002, "the convergence on a named grid; on UTM earth/grid holds it to 0.00002"),
        bearing_deg_mag=(0.0001, "the declination as earth/norths holds it"),
    )
    return {
        "topic": "earth/bearings_between",
        "about": "Distance and bearings between two places, from true, grid and magnetic north.",
        "source": "geographiclib 2.1 (MIT licence), each line recomputed with the geodesics of PROJ; declination: pygeomag"
        f" 1.1.0 (MIT licence); convergence: {grid.PROJ_SOURCE}",
        "made_by": "tests/references/geodesics.py",
        "units": UNITS,
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": [],
    }


def build(tally):
    """Both case files of this script."""
    return [build_geodesics(tally), build_between(tally)]
