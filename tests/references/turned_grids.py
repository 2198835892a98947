"""earth/turned_grids: grids whose numbers count west and south, by PROJ in the order of the register."""

import math
import warnings
from decimal import ROUND_FLOOR, Decimal

import pyproj

import grid
from casefile import case, numbered, refused, tolerances

LO = "+proj=tmerc +lat_0=0 +lon_0=27 +k=1 +x_0=0 +y_0=0 +axis=wsu +ellps=WGS84 +units=m"

GRIDS = (
    # code, latitude, longitude, decimals typed, note
    ("EPSG:2065", 50.087, 14.421, 1, "Krovak, counted from Ferro: southing, westing"),
    ("EPSG:2065", 48.9, 18.1, 0, "Krovak, far from its middle meridian"),
    ("EPSG:5513", 49.6, 15.6, 1, "Krovak from Greenwich: southing, westing"),
    ("EPSG:2046", -22.9, 14.5, 1, "Lo15 of Hartebeesthoek94: westing, southing"),
    ("EPSG:2048", -33.925, 18.424, 1, "Lo19, west of its meridian: a positive westing"),
    ("EPSG:2053", -25.747, 28.188, 2, "Lo29, west of its meridian"),
    ("EPSG:2053", -26.204, 29.5, 0, "Lo29, east of its meridian: a negative westing"),
    ("EPSG:2055", -28.3, 32.4, 1, "Lo33"),
    ("EPSG:22279", -33.925, 18.424, 1, "Lo19 of the Cape datum"),
    ("EPSG:29377", -22.57, 17.08, 1, "Lo of Namibia in German legal metres"),
    (LO, -26.204, 28.047, 1, "written out, with the directions of its axes"),
)


def forward_of(code):
    """The two numbers of a place in the order of the register, and the same counted to east and north."""
    crs = pyproj.CRS(code)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        shift = pyproj.Transformer.from_crs("EPSG:4326", crs)

    def numbers(lat, lon):
        return shift.transform(lat, lon)

    def to_east_and_north(lon, lat):
        counted = {}
        for axis, value in zip(crs.axis_info, numbers(lat, lon)):
            sign = -1 if axis.direction in ("west", "south") else 1
            counted["across" if axis.direction in ("east", "west") else "along"] = sign * value
        return counted["across"], counted["along"]

    return crs, shift, numbers, to_east_and_north


def check_convergence(tally, where, crs, lat, lon, convergence):
    """Of a transverse Mercator grid by the formula of the sphere, whose sign nobody doubts."""
    if "Transverse Mercator" not in crs.coordinate_operation.method_name:
        return
    parameters = {one.name: one.value for one in crs.coordinate_operation.params}
    east = math.radians(lon - parameters["Longitude of natural origin"])
    sphere = math.degrees(math.atan(math.tan(east) * math.sin(math.radians(lat))))
    tally.near(f"{where}, convergence on the sphere", convergence, sphere, 0.01)


def there_case(tally, code, lat, lon, note):
    """A place in degrees, told by the numbers of the grid."""
    crs, shift, numbers, forward = forward_of(code)
    east, north = forward(lon, lat)
    convergence = grid.convergence_by_geodesic(forward, lat, lon)
    check_convergence(tally, f"{code} at {lat}, {lon}", crs, lat, lon, convergence)
    accuracy = shift.get_last_used_operation().accuracy
    own = grid.whole_text(numbers(lat, lon))
    values = {
        "easting_m": round(east, 3),
        "northing_m": round(north, 3),
        "convergence_deg": round(convergence, 5),
        "scale": round(grid.scale_by_geodesic(forward, lat, lon), 7),
        "accuracy_m": accuracy if accuracy >= 0 else None,
        "own": own,
    }
    record = {"do": "place", "place": grid.degrees_text(lat, lon), "grid": code}
    return case(record, {f"answer.{key}": value for key, value in values.items()}, note)


def back_case(tally, code, lat, lon, decimals, note):
    """The two numbers of the grid in the order of its register, read as a place."""
    crs, _, numbers, _ = forward_of(code)
    typed = [f"{value:.{decimals}f}" for value in numbers(lat, lon)]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        back = pyproj.Transformer.from_crs(crs, "EPSG:4326")
        lat2, lon2 = back.transform(*(float(text) for text in typed))
    tally.near(f"{code} at {lat}, {lon} there and back", max(abs(lat2 - lat), abs(lon2 - lon)), 0, 1e-5)
    expect = {"answer.lat_deg": round(lat2, 9), "answer.lon_deg": round(lon2, 9), "answer.square_m": 0}
    return case({"do": "place", "place": " ".join(typed), "grid": code}, expect, f"{note}, read"), expect


def lettered_case(tally, code, lat, lon, note):
    """The same by the letters of the register, in the other order."""
    (written, expect), crs = back_case(tally, code, lat, lon, 1, note), pyproj.CRS(code)
    first, second = written["record"]["place"].split()
    typed = f"{crs.axis_info[1].abbrev} {second} {crs.axis_info[0].abbrev} {first}"
    return case({"do": "place", "place": typed, "grid": code}, expect, f"{note}, by the letters of the register")


CUT = (
    # code, latitude, longitude, note
    ("EPSG:5514", 50.087, 14.421, "Krovak counted to east and north: both numbers negative"),
    ("EPSG:5513", 49.6, 15.6, "Krovak counted to south and west"),
    ("EPSG:2053", -26.204, 29.5, "Lo29, a negative westing"),
)


def cut_case(tally, code, lat, lon, digits, note):
    """The numbers as the register has them, with the square that the digits stand for: exact decimals, cut towards minus infinity."""
    _, _, numbers, _ = forward_of(code)
    step = Decimal(10 ** (5 - digits // 2))
    exact = [Decimal(value) for value in numbers(lat, lon)]
    apart = min(min(value % step, step - value % step) for value in map(abs, exact))
    tally.check(f"{code} at {digits} digits away from the step's edge", apart > Decimal("0.01"), apart)
    own = grid.square_text(exact, digits, "m")
    record = {"do": "place", "place": grid.degrees_text(lat, lon), "grid": code, "digits": digits}
    return case(record, {"answer.own": own}, f"{note}, {digits} digits")


UNREADABLE = (
    # typed, code, note
    ("743000 1043000", "EPSG:2065", "westing first, where the southing comes first"),
    ("-1043000 -743000", "EPSG:2065", "counted to east and north, as another grid has it"),
    ("2848000 81000", "EPSG:2053", "southing first, where the westing comes first"),
    ("81000 -2848000", "EPSG:2053", "a northing, where the southing is positive"),
    ("500000 1100000", "EPSG:5514", "the signs of the other Krovak grid left out"),
)


def build(tally):
    """The case file of turned grids."""
    cases = [there_case(tally, *row[:3], row[4]) for row in GRIDS] + [back_case(tally, *row)[0] for row in GRIDS]
    cases += [cut_case(tally, *row[:3], digits, row[3]) for row in CUT for digits in (2, 4, 6, 8, 10)]
    cases += [lettered_case(tally, *row[:3], row[4]) for row in (GRIDS[0], GRIDS[5])]
    tolerance, why = tolerances(
        easting_m=(0.01, "the same registered shift must give the same centimetre"),
        northing_m=(0.01, "as the easting"),
        convergence_deg=(0.002, "as in earth/named_grids"),
        scale=(1e-6, "half the last digit written, and the step of the numerical derivative"),
        accuracy_m=(0, "what the register states"),
        lat_deg=(1e-7, "a centimetre, as there"),
        lon_deg=(2e-7, "as the latitude"),
        square_m=(0, "exact"),
    )
    return [
        {
            "topic": "earth/turned_grids",
            "about": "Grids that count west and south: told from degrees and read again in the order and"
            " directions of the register; easting and northing of the answer count to east and north all the same.",
            "source": f"{grid.PROJ_SOURCE}, without its option always_xy, so that the order is the register's; convergence"
            " and scale by geodesic steps, the convergence of transverse Mercator grids also by the sphere",
            "made_by": "tests/references/turned_grids.py",
            "units": {
                **grid.UNITS,
                "easting_m": "in the grid's own unit, to the east: a westing is told as its negative",
                "northing_m": "as the easting, to the north",
                "scale": "grid units per metre on the ellipsoid of WGS84, at the point",
                "accuracy_m": "metres: what the register states for the shift in use; null when it states none",
                "own": "text: the two numbers in the order of the register",
            },
            "tolerance": tolerance,
            "tolerance_why": why,
            "cases": numbered(cases),
            "invalid": numbered(
                [
                    refused({"do": "place", "place": typed, "grid": code}, "reference-unreadable", note)
                    for typed, code, note in UNREADABLE
                ]
            ),
        }
    ]
