"""earth/grid: UTM, UPS and MGRS against GeoConvert, PROJ and GEOTRANS."""

import math
import random
import re
import warnings

import mgrs
import pyproj
from geographiclib.geodesic import Geodesic

from casefile import case, numbered, published, refused, tolerances
from grid import (
    GEOTRANS,
    PROJ_SOURCE,
    UNITS,
    code_of,
    degrees_text,
    grid_expect,
    near_metre_edge,
    reference,
    safe_reference,
    utm,
)

SEED = 20260701

# Pairs on both sides of an edge of a zone or band, and the exceptions of Norway and Svalbard.
EDGES = (
    (46.5, 11.999999, "zone 32, at its eastern edge"),
    (46.5, 12.0, "zone 33: an edge belongs to the zone east of it"),
    (46.5, -120.0, "zone 11, at its western edge"),
    (10.2, -180.0, "zone 1, at its western edge"),
    (10.2, 179.999999, "zone 60, at its eastern edge"),
    (48.0, 10.1, "band U: an edge belongs to the band north of it"),
    (47.999999, 10.1, "band T"),
    (0.000001, 25.3, "band N, 11 cm north of the equator"),
    (-0.00001, 25.3, "band M, 1.1 m south of the equator"),
    (-79.999999, 20.3, "band C, the southern end of UTM"),
    (83.999999, 20.3, "band X, the northern end of UTM"),
    (56.0, 3.0, "Norway: zone 32"),
    (55.999999, 3.1, "south of the Norway exception: zone 31"),
    (63.999999, 5.2, "Norway: zone 32"),
    (64.0, 5.2, "north of the Norway exception: zone 31"),
    (60.39, 5.32, "Norway: 32V west of the zone's usual edge"),
    (59.9, 11.999999, "Norway: zone 32"),
    (59.9, 12.0, "east of the Norway exception: zone 33"),
    (71.999999, 8.9, "south of the Svalbard exceptions: zone 32"),
    (72.0, 8.9, "Svalbard: zone 31"),
    (72.0, 9.0, "Svalbard: zone 33"),
    (78.2, 20.999999, "Svalbard: zone 33"),
    (78.2, 21.0, "Svalbard: zone 35"),
    (78.2, 32.999999, "Svalbard: zone 35"),
    (78.2, 33.0, "Svalbard: zone 37"),
    (78.2, 42.0, "east of the Svalbard exceptions: zone 38"),
    (85.0, 30.0, "UPS north, half Z"),
    (88.4, -120.5, "UPS north, half Y"),
    (-85.0, -100.0, "UPS south, half A"),
    (-89.2, 45.25, "UPS south, half B"),
)

# A reference at 1 m, its steps, and what is known of each step.
LADDERS = {
    "18TWL8566411315": {
        "18TWL81": "published precision ladder",
        "18TWL8511": "published precision ladder",
        "18TWL856113": "published precision ladder",
        "18TWL85661131": "published precision ladder",
        "18TWL8566411315": "published precision ladder",
    },
    "18SUJ8362601432": {
        "18SUJ80": "constructed by cutting; the digits of a published ladder in the square UJ",
        "18SUJ8301": "constructed by cutting; the published ladder prints 8401, rounded against its own rule",
        "18SUJ836014": "constructed by cutting; as published",
        "18SUJ83620143": "constructed by cutting; the published ladder prints 83630143, rounded too",
        "18SUJ8362601432": "constructed by cutting; as published",
    },
}

UNREADABLE = (
    ("18IWL8566411315", "I is no band letter", True),
    ("18OWL8566411315", "O is no band letter", True),
    ("18TIL8566411315", "I is no column letter", True),
    ("18TWO8566411315", "O is no row letter", True),
    ("18TWW8566411315", "row letters end at V", True),
    ("18TAL8566411315", "column A does not occur in zone 18", True),
    ("18TWA8566411315", "row A does not occur in band T of an even zone", True),
    ("18SUU8362601432", "published with the row letters of the old NAD27 lettering; no row U in 18S on WGS84", True),
    ("61TWL8566411315", "zones end at 60", True),
    ("00TWL8566411315", "zones begin at 1", True),
    ("18TWL856641131", "odd number of digits", True),
    ("18TWL85664I1315", "letter I for the digit 1", True),
    ("18TWL85664-1315", "a sign is no digit", True),
    ("18T WL 856 11315", "unequal groups: eight digits in all, but not four and four", False),
    ("18T WL 8566412 1131542", "7 + 7 digits: finer than any square we write", False),
    ("18T", "a zone and band alone are no place", False),
    ("", "nothing", False),
    ("abc", "no reference at all", True),
    ("18TWL8566411315 18TWL8566411315", "two references", False),
    ("18\u0422WL8566411315", "a Cyrillic letter that looks like T", False),
    ("18TWL\uff18566411315", "a full-width digit", False),
    ("91, 10", "latitude beyond the pole", False),
    ("-90.000001, 10", "latitude beyond the pole", False),
    ("nan, 10", "not a number", False),
    ("40.748333", "a latitude alone", False),
    ("40,748333, -73,985278", "decimal commas", False),
)


def point_case(tally, lat, lon, note):
    """A place in degrees on its UTM or UPS grid."""
    place = utm(tally, lat, lon)
    text = safe_reference(tally, lat, lon, place)
    return case({"do": "place", "place": degrees_text(lat, lon)}, grid_expect(place, lat, lon, 0, text), note)


def geoconvert_cases(tally):
    """The GeoConvert rows: their references as they are, the rest from PROJ, compared first."""
    cases = []
    for row in published("geoconvert.csv"):
        lat, lon = float(row["lat"]), float(row["lon"])
        place = utm(tally, lat, lon)
        where = f"GeoConvert row {row['mgrs']}"
        tally.near(f"{where} easting", place.easting_m, float(row["easting"]), 1e-5)
        tally.near(f"{where} northing", place.northing_m, float(row["northing"]), 1e-5)
        tally.check(f"{where} reference", reference(tally, lat, lon, place) == row["mgrs"], "GEOTRANS differs")
        note = "; ".join(filter(None, ("GeoConvert, GeographicLib 2.7", row["note"])))
        record = {"do": "place", "place": degrees_text(lat, lon)}
        cases.append(case(record, grid_expect(place, lat, lon, 0, row["mgrs"]), note))
    return cases


def factor_cases(tally):
    """The points whose convergence and scale the project had computed before."""
    cases = []
    for row in published("utm_factors.csv"):
        lat, lon = float(row["lat"]), float(row["lon"])
        made = point_case(tally, lat, lon, None)
        place = utm(tally, lat, lon)
        where = f"factors at {lat}, {lon}"
        tally.near(f"{where} easting", place.easting_m, float(row["easting"]), 0.00051)
        tally.near(f"{where} northing", place.northing_m, float(row["northing"]), 0.00051)
        tally.near(f"{where} convergence", place.convergence_deg, float(row["convergence_deg"]), 5.1e-6)
        tally.near(f"{where} scale", place.scale, float(row["scale"]), 5.1e-8)
        cases.append(made)
    return cases


def leg_case(tally):
    """The far end of a true leg of 2350 m: grid bearing and grid distance differ from the true ones."""
    end = Geodesic.WGS84.Direct(36.2, -81.7, 63, 2350)
    lat, lon = round(end["lat2"], 9), round(end["lon2"], 9)
    start, place = utm(tally, 36.2, -81.7), utm(tally, lat, lon)
    de, dn = place.easting_m - start.easting_m, place.northing_m - start.northing_m
    tally.near("leg, grid bearing", math.degrees(math.atan2(de, dn)), 63.4135, 0.00006)
    tally.near("leg, grid distance", math.hypot(de, dn), 2349.171, 0.0006)
    note = "end of the leg from 36.2, -81.7, true 63, 2350 m (geographiclib 2.1): grid 63.4135, 2349.171 m"
    return point_case(tally, lat, lon, note)


def random_cases(tally, count=44):
    """Places strewn over the UTM part of the globe, the same at every run."""
    dice = random.Random(SEED)
    cases = []
    while len(cases) < count:
        lat, lon = round(dice.uniform(-80, 84), 6), round(dice.uniform(-180, 180), 6)
        if not near_metre_edge(utm(tally, lat, lon)):
            cases.append(point_case(tally, lat, lon, f"random, seed {SEED}"))
    return cases


def digits_of(text):
    """How many digits follow the letters of a reference."""
    return len(re.search(r"[0-9]*$", text).group())


def centre_of(tally, text):
    """The centre of the square of a reference and the square's side: GEOTRANS and PROJ agree on it."""
    lat, lon = GEOTRANS.toLatLon(text)
    square = 10 ** (5 - digits_of(text) // 2)
    place = utm(tally, lat, lon)
    place.easting_m, place.northing_m = (
        math.floor(value / square) * square + square / 2 for value in (place.easting_m, place.northing_m)
    )
    projection = pyproj.Proj(code_of(lat, lon))
    exact_lon, exact_lat = projection(place.easting_m, place.northing_m, inverse=True)
    tally.near(f"{text} latitude of the centre", lat, exact_lat, 2e-9)
    tally.near(f"{text} longitude of the centre", lon, exact_lon, 2e-9)
    return place, round(exact_lat, 9), round(exact_lon, 9), square


def decode_case(tally, text, digits, written, note, spelt=None):
    """A reference read as the centre of its square, and written again with so many digits.

    The centre of a square of 10 m or more lies on whole metres: written finer than it was read, its reference would
    hang on rounding, and is not asked for.
    """
    place, lat, lon, square = centre_of(tally, text)
    record = {"do": "place", "place": spelt or text, "digits": digits}
    return case(record, grid_expect(place, lat, lon, square, written), note)


SPACED = {"18T WL 856 113": "18TWL856113", "33T VM 5696 4953": "33TVM56964953", "33T VM 56964 95349": "33TVM5696495349"}


def decode_cases(tally):
    """Reading references of every size, with and without spaces, in UTM and UPS."""
    texts = [step for steps in LADDERS.values() for step in steps]
    texts += [row["mgrs"] for row in published("geoconvert.csv")] + ["ZCC7772818959", "ASM52980354"]
    note = "read and written as fine as it was read: the same again"
    cases = [decode_case(tally, text, digits_of(text), text, note) for text in dict.fromkeys(texts)]
    for spelt, text in SPACED.items():
        cases.append(decode_case(tally, text, digits_of(text), text, "with spaces", spelt))
    cases.append(decode_case(tally, "18TWL81", 10, None, "the centre of a 10 km square"))
    return cases


def ladder_cases(tally):
    """Truncation: each step is the square that holds the point, never the rounded one."""
    cases = []
    for source, steps in LADDERS.items():
        lat, lon = GEOTRANS.toLatLon(source)
        for step, note in steps.items():
            theirs = GEOTRANS.toMGRS(lat, lon, MGRSPrecision=digits_of(step) // 2)
            tally.check(f"{source} as {step}", theirs == step, f"GEOTRANS writes {theirs}")
            cases.append(decode_case(tally, source, digits_of(step), step, note))
    lat, lon = 40.748333, -73.985278
    place = utm(tally, lat, lon)
    for step, note in LADDERS["18TWL8566411315"].items():
        record = {"do": "place", "place": degrees_text(lat, lon), "digits": digits_of(step)}
        cases.append(case(record, grid_expect(place, lat, lon, 0, step), f"{note}, from degrees"))
    return cases


def geotrans_refuses(text):
    """Whether GEOTRANS too will not read a reference, or only with a warning."""
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        try:
            GEOTRANS.toLatLon(text)
        except (mgrs.core.MGRSError, RuntimeWarning):
            return True
    return False


def unreadable_cases(tally):
    """References that no one may read as a place; GEOTRANS is asked too where the rule is not ours."""
    cases = []
    for text, note, asked in UNREADABLE:
        if asked:
            tally.check(f"GEOTRANS refuses {text}", geotrans_refuses(text), "it reads it")
        cases.append(refused({"do": "place", "place": text}, "reference-unreadable", note))
    return cases


def build(tally):
    """The case file of UTM, UPS and MGRS."""
    cases = geoconvert_cases(tally) + factor_cases(tally) + [leg_case(tally)]
    cases += [point_case(tally, *row) for row in EDGES] + random_cases(tally)
    cases += ladder_cases(tally) + decode_cases(tally)
    tolerance, why = tolerances(
        lat_deg=(1e-8, "1 mm on the ground; centres of squares are written to nine decimals"),
        lon_deg=(1e-8, "as the latitude; less than 1 mm on the ground"),
        easting_m=(0.001, "half the last digit written, doubled; two exact series agree to a micrometre"),
        northing_m=(0.001, "as the easting"),
        convergence_deg=(0.00002, "half the last digit written, and what a numerical derivative may lose"),
        scale=(2e-7, "half the last digit written, and what a numerical derivative may lose"),
        square_m=(0, "a power of ten"),
    )
    document = {
        "topic": "earth/grid",
        "about": "UTM, UPS and MGRS: coordinates, convergence, scale, squares cut and read as their centre.",
        "source": f"{PROJ_SOURCE}; GeoConvert of GeographicLib 2.7 (MIT licence); MGRS where PROJ's coordinates spelt"
        " out and mgrs 1.6.0 (GEOTRANS 3.10 of NGA) agree",
        "made_by": "tests/references/utm_mgrs.py",
        "units": UNITS,
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": numbered(unreadable_cases(tally)),
    }
    return [document]
