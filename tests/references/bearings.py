"""measure/bearings: the sums of the hand-written rows, and what its invalid rows stand for."""

import math

from casefile import read

NORTHS = ("mag", "grid", "true")


def to_true(value, north, declination, convergence):
    """A bearing from true north; angles are east positive."""
    return value + {"mag": declination, "grid": convergence, "true": 0}[north]


def turned(record):
    """What a turn record must answer: bearing, back bearing, grid-magnetic angle."""
    value, north = record["bearing"].split()
    declination, convergence = record["declination_deg"], record["convergence_deg"]
    true = to_true(float(value), north, declination, convergence)
    bearing = true - to_true(0, record["to"], declination, convergence)
    return bearing % 360, (bearing + 180) % 360, declination - convergence


def turn_apart(one, other):
    """The angle between two bearings."""
    return abs((one - other + 180) % 360 - 180)


def check_case(tally, item):
    """One row: its sums, and that a bearing is written from 0 up to but not 360."""
    name = f"measure/bearings {item['id']}"
    bearing, back, grid_magnetic = turned(item["record"])
    expect = item["expect"]
    off = max(
        turn_apart(expect["answer.bearing_deg"], bearing),
        turn_apart(expect["answer.back_deg"], back),
        abs(expect["answer.grid_magnetic_deg"] - grid_magnetic),
    )
    tally.check(f"{name} sums", off < 1e-9, f"{bearing}, {back}, {grid_magnetic}")
    in_circle = all(0 <= expect[f"answer.{key}"] < 360 for key in ("bearing_deg", "back_deg"))
    tally.check(f"{name} in the circle", in_circle, "a bearing is not in 0 up to 360")
    tally.check(f"{name} north", expect["answer.north"] == item["record"]["to"], "wrong north")


def refusal_of(text):
    """The refusal a bearing deserves by the rule, or None where it is a good one."""
    words = text.split()
    north = words[-1] if words and words[-1] in NORTHS else None
    number = " ".join(words[:-1] if north else words)
    try:
        value = float(number) if number.isascii() else math.nan
    except ValueError:
        value = math.nan
    if "," in number:
        return "bearing-comma"
    if math.isnan(value):
        return "bearing-unreadable"
    if north is None:
        return "bearing-without-north"
    return None if 0 <= value <= 360 else "bearing-out-of-range"


def check_invalid(tally, item):
    """One invalid row: the code follows from the rule; a good bearing is refused for its record alone."""
    code = refusal_of(item["record"]["bearing"])
    if code is None and item["record"]["to"] not in NORTHS:
        code = "north-unknown"
    tally.check(f"measure/bearings invalid {item['id']}", code == item["refusal"], f"the rule says {code}")


def check(tally):
    """Check the hand-written file and return it."""
    document = read("measure/bearings")
    for item in document["cases"]:
        check_case(tally, item)
    for item in document["invalid"]:
        check_invalid(tally, item)
    return document
