"""measure/angles and measure/mean: bearings in mils, gradians, quadrants, minutes and seconds; the mean of readings."""

import math
from fractions import Fraction

import numpy
from scipy import stats

from casefile import case, numbered, refused, tolerances

TURN = {"do": "turn", "to": "mag", "declination_deg": 0, "convergence_deg": 0}
CIRCLE = {"mil": 6400, "gon": 400, "deg": 360}
# The four legs of a published traverse, as its bearings are printed (C-6 of the notes: read in a surveying text).
LEGS = {"N76E": 76, "S36E": 144, "S61W": 241, "N38W": 322}


def in_degrees(count, unit):
    """A bearing counted in parts of the circle, exactly."""
    return float(Fraction(str(count)) * 360 / CIRCLE[unit])


def dms(degrees, minutes=0, seconds=0):
    """Degrees, minutes and seconds, exactly until the last step."""
    return float(Fraction(str(degrees)) + Fraction(str(minutes)) / 60 + Fraction(str(seconds)) / 3600)


def in_quadrant(text):
    """A quadrant bearing as degrees: from north or south, so many degrees towards east or west."""
    start, angle, towards = text[0], Fraction(text[1:-1].strip()), text[-1]
    from_north = angle if start == "N" else 180 - angle
    return float((from_north if towards == "E" else -from_north) % 360)


READ = (
    # typed, degrees, note
    ("0 mil mag", in_degrees(0, "mil"), None),
    ("800 mil mag", in_degrees(800, "mil"), "read in TC 3-25.26: 45 degrees are 800 mils"),
    ("3200 mil mag", in_degrees(3200, "mil"), "read in TC 3-25.26: 6400 mils to the circle"),
    ("3559 mil mag", in_degrees(3559, "mil"), None),
    ("6400 mil mag", 0.0, "the whole circle is north again"),
    ("17.78 mils mag", in_degrees("17.78", "mil"), "read in TC 3-25.26: one degree is 17.78 mils, to the digits printed"),
    ("1600mil mag", 90.0, "no blank before the unit"),
    ("200 gon mag", in_degrees(200, "gon"), "read in a surveying text: 400 to the circle"),
    ("50.5 gon mag", in_degrees("50.5", "gon"), None),
    ("399.9 grad mag", in_degrees("399.9", "gon"), None),
    ("400 gon mag", 0.0, "the whole circle"),
    ("214 deg mag", 214.0, None),
    ("214\u00b0 mag", 214.0, None),
    ("S36E mag", 144.0, None),
    ("S 36 E mag", 144.0, "with blanks"),
    ("s36e MAG", 144.0, "lower and upper case"),
    ("N0E mag", 0.0, None),
    ("N90W mag", 270.0, None),
    ("S90E mag", 90.0, None),
    ("S0W mag", 180.0, None),
    ("S 36 30 E mag", dms(143, 30), "degrees and minutes inside a quadrant"),
    ("N 38.25 W mag", 321.75, None),
    ("S 61 00 30 W mag", dms(241, 0, 30), "degrees, minutes and seconds inside a quadrant"),
    ("306 52 05.4 mag", dms(306, 52, "5.4"), "degrees, minutes, seconds"),
    ("306\u00b052'05.4\" mag", dms(306, 52, "5.4"), "with the marks"),
    ("306\u00b0 52\u2032 05.4\u2033 mag", dms(306, 52, "5.4"), "with the typographic marks"),
    ("44 40 mag", dms(44, 40), "degrees and minutes"),
    ("225 20 mag", dms(225, 20), None),
    ("359 59 59.9 mag", dms(359, 59, "59.9"), "a breath below north"),
    ("000 00 00 mag", 0.0, None),
    ("127 10 25.07 mag", dms(127, 10, "25.07"), "the bearing back of a published line"),
)

TURNED = (
    # typed, declination, convergence, to, degrees, note
    ("3200 mil mag", 9, 0, "grid", 189.0, "C-1 of the notes in mils: a magnetic 3200 with 9 E"),
    ("391.1 gon mag", 9, 0, "grid", float(Fraction("391.1") * 9 / 10 + 9 - 360), "over north in gradians"),
    ("N37E mag", -4, 0, "true", 33.0, "read in NAVEDTRA 14069: compass N37E, needle pulled 4 W: N33E"),
    ("S36E mag", -5.993, 1.64, "grid", float(144 - Fraction("7.633")), "quadrant through declination and convergence"),
    ("306 52 05.37 true", 0, 1.5, "grid", dms(305, 22, "5.37"), "degrees, minutes, seconds less a convergence"),
)


def turn_case(typed, degrees, note, changes=None):
    """A bearing in some unit, read as degrees; its back bearing from the same north."""
    record = {**TURN, "bearing": typed, **(changes or {})}
    expect = {
        "answer.bearing_deg": degrees,
        "answer.north": record["to"],
        "answer.back_deg": (degrees + 180) % 360,
        "answer.grid_magnetic_deg": record["declination_deg"] - record["convergence_deg"],
    }
    return case(record, expect, note)


def read_cases(tally):
    """Every way of writing, the published legs among them."""
    for text, degrees in LEGS.items():
        tally.check(f"quadrant {text}", in_quadrant(text) == degrees, f"{in_quadrant(text)}")
    legs = [turn_case(f"{text} mag", degrees, "leg of a published traverse") for text, degrees in LEGS.items()]
    turned = [
        turn_case(typed, degrees, note, {"declination_deg": declination, "convergence_deg": convergence, "to": to})
        for typed, declination, convergence, to, degrees, note in TURNED
    ]
    return [turn_case(*row) for row in READ] + legs + turned


# Blanks are told as no-break spaces, so that a bearing is not torn at the end of a line.
TOLD = (
    # typed, unit, how it is told, note
    ("200.2 mag", "mil", "3559 mil mag", "3559.1 mils, to the whole mil"),
    ("45 mag", "mil", "0800 mil mag", "mils have four figures"),
    ("359.99 mag", "mil", "0000 mil mag", "6399.8 mils round to the whole circle, which is 0"),
    ("143.5 mag", "quadrant", "S 36.5\u00b0 E mag", None),
    ("76 mag", "quadrant", "N 76\u00b0 E mag", None),
    ("241 mag", "quadrant", "S 61\u00b0 W mag", None),
    ("322 mag", "quadrant", "N 38\u00b0 W mag", None),
    ("3200 mil mag", "deg", "180\u00b0 mag", None),
    ("45 mag", "deg", "045\u00b0 mag", "degrees have three figures"),
    ("359.99 mag", "deg", "000\u00b0 mag", "rounds to the whole circle, which is 0"),
    ("180 mag", "gon", "200 gon mag", None),
    ("359.99 mag", "gon", "000 gon mag", "399.99 gradians round to the whole circle, which is 0"),
)


def told_cases():
    """A bearing told in a unit."""
    return [
        case({**TURN, "bearing": typed, "unit": unit}, {"answer.told": told.replace(" ", "\u00a0")}, note)
        for typed, unit, told, note in TOLD
    ]


WRONG = (
    # typed, code, note
    ("6401 mil mag", "bearing-out-of-range", "beyond the circle of mils"),
    ("401 gon mag", "bearing-out-of-range", "beyond the circle of gradians"),
    ("-1 mil mag", "bearing-out-of-range", None),
    ("361 00 mag", "bearing-out-of-range", None),
    ("3200 mil", "bearing-without-north", None),
    ("S36E", "bearing-without-north", None),
    ("mil mag", "bearing-unreadable", "a unit alone"),
    ("S91E mag", "bearing-quarter", "a quadrant has 90 degrees"),
    ("E36S mag", "bearing-unreadable", "a quadrant begins at north or south"),
    ("S36 mag", "bearing-unreadable", "towards where?"),
    ("36E mag", "bearing-unreadable", "from where?"),
    ("SE mag", "bearing-unreadable", "how far?"),
    ("44 60 mag", "bearing-minutes", "60 minutes are the next degree"),
    ("44 40 60 mag", "bearing-minutes", "60 seconds are the next minute"),
    ("44.5 40 mag", "bearing-unreadable", "a fraction of a degree, and minutes beside it"),
    ("44 40 10 5 mag", "bearing-unreadable", "four parts"),
    ("44'40 mag", "bearing-unreadable", "the mark of minutes behind the degrees"),
    ("3200 mil gon mag", "bearing-unreadable", "two units"),
    ("S -36 E mag", "bearing-unreadable", "a sign inside a quadrant"),
)


def build_angles(tally):
    """The case file of ways to write a bearing."""
    cases = read_cases(tally) + told_cases()
    invalid = [refused({**TURN, "bearing": typed}, code, note) for typed, code, note in WRONG]
    invalid.append(refused({**TURN, "bearing": "200 mag", "unit": "furlong"}, "unit-unknown"))
    exact = (1e-9, "exact fractions but for the last binary digits")
    tolerance, why = tolerances(bearing_deg=exact, back_deg=exact, grid_magnetic_deg=exact)
    return {
        "topic": "measure/angles",
        "about": "Bearings in mils (6400), gradians (400), quadrants, degrees with minutes and seconds; told in each unit.",
        "source": "rows whose note says 'read in': TC 3-25.26 (US Army) and NAVEDTRA 14069 (US Navy), public domain, and a"
        " surveying text whose name was not taken down; the rest is constructed, by exact fractions",
        "made_by": "tests/references/angles.py",
        "units": {
            "bearing_deg": "degrees from the north named in answer.north, 0 up to but not 360",
            "back_deg": "degrees from the same north",
            "grid_magnetic_deg": "degrees, east positive: declination - convergence",
            "told": "text: the bearing in the unit asked for, with its north",
        },
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": numbered(invalid),
    }


READINGS = (
    # readings, degrees, note
    (("214 mag", "216 mag", "215 mag"), (214, 216, 215), None),
    (("214 mag", "216 mag"), (214, 216), "two readings"),
    (("358 mag", "002 mag", "003 mag"), (358, 2, 3), "over north: the plain mean, 121, would be nonsense"),
    (("359.5 grid", "0.5 grid"), (359.5, 0.5), "north itself, told as 0"),
    (("179 true", "181 true", "180 true", "184 true"), (179, 181, 180, 184), None),
    (("3200 mil mag", "S1E mag", "180 30 mag"), (180, 179, 180.5), "three ways of writing"),
    (("87 mag", "91 mag", "89.5 mag", "90 mag", "88 mag", "92.5 mag"), (87, 91, 89.5, 90, 88, 92.5), "six readings"),
    (("214 mag", "214 mag", "214 mag"), (214, 214, 214), "no spread at all"),
    (("10 mag", "12 mag", "50 mag"), (10, 12, 50), "one reading far off shows in widest_deg"),
    (("214.2 mag", "214.3 mag"), (214.2, 214.3), "tenths"),
    (("3800 mil mag", "3810 mil mag", "3805 mil mag"), (213.75, 214.3125, 214.03125), "mils"),
    (("214 mag", "34 mag", "215 mag", "217 mag"), (214, 215, 217), "the second is reversed and left out", (2,)),
)
# What the last figure of each row's readings is worth, where it is not a degree.
STEPS_DEG = {"359.5 grid": 0.5, "87 mag": 0.5, "3200 mil mag": 0.5, "214.2 mag": 0.1, "3800 mil mag": 360 / 6400}


def circular_mean(degrees):
    """The direction of the sum of unit vectors, and each reading's difference from it."""
    unit = numpy.exp(1j * numpy.radians(degrees))
    mean = numpy.degrees(numpy.angle(unit.sum()))
    return mean, (numpy.asarray(degrees) - mean + 180) % 360 - 180


def farthest(off):
    """Which reading lies farthest from the mean, from 1; of equals the first."""
    widest = float(abs(off).max())
    return next(number for number, value in enumerate(off.tolist(), 1) if abs(value) > widest - 1e-9)


def half_95_deg(step, spread, count):
    """Student's limits of the mean (scipy) and the rounding: shared by readings that scatter less than half a step."""
    rounding = step / 12**0.5 / (1 if spread < step / 2 else count**0.5)
    return math.hypot(stats.t.ppf(0.975, count - 1) * spread / count**0.5, stats.norm.ppf(0.975) * rounding)


def mean_case(typed, degrees, note, reversed_ones=()):
    """The mean of readings: direction of the vector sum; spreads from the differences, n - 1."""
    mean, off = circular_mean(degrees)
    spread = float(numpy.sqrt((off**2).sum() / (len(off) - 1)))
    values = {
        "bearing_deg": round(float(mean) % 360, 9) % 360,
        "north": typed[0].split()[-1],
        "spread_deg": round(spread, 9),
        "mean_spread_deg": round(spread / len(off) ** 0.5, 9),
        "half_95_deg": round(half_95_deg(STEPS_DEG.get(typed[0], 1.0), spread, len(off)), 6),
        "reversed": list(reversed_ones),
        "count": len(off),
        "widest_deg": round(float(off[farthest(off) - 1]), 9),
        "widest": [number for number in range(1, len(typed) + 1) if number not in reversed_ones][farthest(off) - 1],
    }
    record = {"do": "mean", "bearings": list(typed)}
    return case(record, {f"answer.{key}": value for key, value in values.items()}, note)


def build_mean():
    """The case file of repeated readings."""
    angle = (1e-6, "written to 1e-9; sums in another order")
    tolerance, why = tolerances(
        bearing_deg=angle, spread_deg=angle, mean_spread_deg=angle, widest_deg=angle, count=(0, "a count"), widest=(0, "a number"),
        half_95_deg=(0.004, "the quantile of Student is a series in the core, good to 0.004 of itself"),
    )
    invalid = [
        refused({"do": "mean", "bearings": []}, "mean-too-few", "nothing to take a mean of"),
        refused({"do": "mean", "bearings": ["214 mag"]}, "mean-too-few", "one reading has no spread"),
        refused({"do": "mean", "bearings": ["214 mag", "216 grid"]}, "mean-mixed-norths", "two norths"),
        refused({"do": "mean", "bearings": ["214 mag", "361 mag"]}, "bearing-out-of-range"),
        refused({"do": "mean", "bearings": ["214 mag", "216"]}, "bearing-without-north"),
        refused({"do": "mean", "bearings": ["0 mag", "180 mag"]}, "mean-no-direction", "opposite readings have no mean"),
    ]
    return {
        "topic": "measure/mean",
        "about": "The mean of repeated readings on the circle, its spread, and the spread of one reading.",
        "source": "constructed; vector sums by numpy 2.4.6, quantiles by scipy 1.17.1 (both BSD-3-Clause)",
        "made_by": "tests/references/angles.py",
        "units": {
            "bearing_deg": "degrees, direction of the sum of unit vectors",
            "spread_deg": "degrees, one sigma of one reading (n - 1)",
            "mean_spread_deg": "degrees, one sigma of the mean",
            "half_95_deg": "degrees, half-width of the mean at 95 %, rounding of the readings in it",
            "reversed": "readings left out because they point the other way, from 1",
            "widest_deg": "degrees, the largest difference of a reading from the mean, with its sign",
            "widest": "which reading that is, from 1; of equals the first",
        },
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered([mean_case(*row) for row in READINGS]),
        "invalid": numbered(invalid),
    }


def build(tally):
    """Both case files of this script."""
    return [build_angles(tally), build_mean()]
