"""travel/reversed_log: dead reckoning in the plane, its spread, and the log read backwards, by numpy."""

import math

import numpy

from casefile import case, numbered, refused, tolerances

WALK = ((63, 420), (118, 310), (40, 560), (350, 275))
PER_100_M = 62.5
# The project had computed these before: (bearing spread, distance spread in percent) -> major, minor axis.
KNOWN_AXES = {(2, 2): (26.0, 19.8), (3, 5): (42.1, 41.1), (5, 10): (79.0, 73.6)}


def unit(bearing_deg):
    """East and north of one metre along a grid bearing."""
    angle = math.radians(bearing_deg)
    return numpy.array([math.sin(angle), math.cos(angle)])


def right_of(vector):
    """The vector turned a right angle clockwise."""
    return numpy.array([vector[1], -vector[0]])


def metres_of(record, leg, measure):
    """Metres of a leg or a detour, from metres or from paces of the leg's kind."""
    if "metres" in measure:
        return measure["metres"]
    double = measure["paces"] / (2 if leg["pace_kind"] == "single" else 1)
    return double / record["double_paces_per_100_m"] * 100


def grid_bearing(record, text):
    """A bearing text as a grid bearing."""
    value, north = text.split()
    declination, convergence = record["declination_deg"], record["convergence_deg"]
    return float(value) + {"grid": 0, "mag": declination - convergence, "true": -convergence}[north]


def covariance(record, legs):
    """Spread of the end: each leg's own errors, then what all legs share, to first order."""
    total = numpy.zeros((2, 2))
    for bearing, metres in legs:
        along = metres * record["leg_distance_spread_percent"] / 100 * unit(bearing)
        across = metres * math.radians(record["leg_bearing_spread_deg"]) * right_of(unit(bearing))
        total += numpy.outer(along, along) + numpy.outer(across, across)
    end = sum(metres * unit(bearing) for bearing, metres in legs)
    scale = record["shared_distance_spread_percent"] / 100 * end
    turn = math.radians(record["shared_bearing_spread_deg"]) * right_of(end)
    return total + numpy.outer(scale, scale) + numpy.outer(turn, turn)


def walked_back(record):
    """The log in reverse: back bearings, last leg first, a detour's side changed over."""
    other = {"right": "left", "left": "right"}
    for leg in reversed(record["legs"]):
        side = leg.get("detour", {}).get("side")
        bearing = (grid_bearing(record, leg["bearing"]) + 180) % 360
        yield bearing, metres_of(record, leg, leg), other.get(side)


def answer(record):
    """Everything a reckon record must answer; a detour's side only where there is a detour."""
    legs = [(grid_bearing(record, leg["bearing"]), metres_of(record, leg, leg)) for leg in record["legs"]]
    boxes = [2 * metres_of(record, leg, leg["detour"]) for leg in record["legs"] if "detour" in leg]
    end = sum(metres * unit(bearing) for bearing, metres in legs)
    minor, major = numpy.sqrt(numpy.maximum(numpy.linalg.eigvalsh(covariance(record, legs)), 0))
    direct = math.degrees(math.atan2(end[0], end[1])) % 360
    home = end + sum(metres * unit(bearing) for bearing, metres, _ in walked_back(record))
    found = {
        "east_m": round(float(end[0]), 3),
        "north_m": round(float(end[1]), 3),
        "direct_m": round(float(numpy.hypot(*end)), 3),
        "direct_bearing_deg_grid": round(direct, 3),
        "home_bearing_deg_grid": round((direct + 180) % 360, 3),
        "walked_m": round(sum(metres for _, metres in legs) + sum(boxes), 3),
        "axis_major_m": round(float(major), 3),
        "axis_minor_m": round(float(minor), 3),
        "closes_m": round(float(numpy.hypot(*home)), 3),
    }
    grid_magnetic = record["declination_deg"] - record["convergence_deg"]
    for number, (bearing, metres, side) in enumerate(walked_back(record)):
        found[f"back.{number}.bearing_deg_grid"] = round(bearing, 3)
        found[f"back.{number}.bearing_deg_mag"] = round((bearing - grid_magnetic) % 360, 3)
        found[f"back.{number}.metres"] = round(metres, 3)
        if side:
            found[f"back.{number}.detour_side"] = side
    return {path: value + 0.0 if isinstance(value, float) else value for path, value in found.items()}


def reckon(legs, leg=(2, 2), shared=(0, 0), declination=0, convergence=0, paced=False):
    """A reckon record; spreads as (degrees, percent)."""
    record = {
        "do": "reckon",
        "legs": legs,
        "declination_deg": declination,
        "convergence_deg": convergence,
        "leg_bearing_spread_deg": leg[0],
        "leg_distance_spread_percent": leg[1],
        "shared_bearing_spread_deg": shared[0],
        "shared_distance_spread_percent": shared[1],
    }
    return {**record, **({"double_paces_per_100_m": PER_100_M} if paced else {})}


def walk(north="grid"):
    """The legs of the example walk, their bearings told from one north."""
    return [{"bearing": f"{bearing} {north}", "metres": metres} for bearing, metres in WALK]


def asked(record, note, only=None, leave=()):
    """A case with the whole answer, or with the paths that begin with a word of `only`."""
    found = {
        path: value
        for path, value in answer(record).items()
        if (only is None or path.startswith(only)) and not path.startswith(leave)
    }
    return case(record, {f"answer.{path}": value for path, value in found.items()}, note)


def axes_cases(tally):
    """The example walk with three spreads, and two single legs that a pencil can check."""
    cases = []
    for spreads, known in KNOWN_AXES.items():
        made = asked(reckon(walk(), spreads), f"four legs, {spreads[0]} degrees and {spreads[1]} % per leg")
        for axis, value in zip(("axis_major_m", "axis_minor_m"), known):
            tally.near(f"{axis} at {spreads}", made["expect"][f"answer.{axis}"], value, 0.05)
        cases.append(made)
    one = cases[0]["expect"]
    known = {"east_m": 960.144, "north_m": 744.947, "direct_m": 1215.246, "direct_bearing_deg_grid": 52.193}
    known.update({"home_bearing_deg_grid": 232.193, "walked_m": 1565})
    for path, value in known.items():
        tally.near(f"four legs, {path}", one[f"answer.{path}"], value, 0.0006)
    backs = [(one[f"answer.back.{n}.bearing_deg_grid"], one[f"answer.back.{n}.metres"]) for n in range(4)]
    tally.check("four legs, log reversed", backs == [(170, 275), (220, 560), (298, 310), (243, 420)], backs)
    single = [{"bearing": "90 grid", "metres": 1000}]
    cases.append(asked(reckon(single, (2, 2)), "1 km: 2 degrees are 34.9 m across, 2 % are 20 m along"))
    note = "3 km, 4 degrees and 10 %: 300 by 209 m; a stored page claims 100 by 100 m"
    cases.append(asked(reckon([{"bearing": "0 grid", "metres": 3000}], (4, 10)), note))
    return cases


def shared_cases(tally):
    """Errors that all legs share turn or stretch the whole walk."""
    only = ("east", "north", "axis")
    turned = asked(reckon(walk(), (0, 0), (1.5, 3)), "only shared errors: 1215.246 m times 3 % and 1.5 degrees", only)
    tally.near("shared scale", turned["expect"]["answer.axis_major_m"], 1215.246 * 0.03, 0.002)
    tally.near("shared turn", turned["expect"]["answer.axis_minor_m"], 1215.246 * math.radians(1.5), 0.002)
    both = asked(reckon(walk(), (2, 2), (1.5, 3)), "own and shared errors together", only)
    square = [{"bearing": f"{bearing} grid", "metres": 250} for bearing in (0, 90, 180, 270)]
    closed = asked(reckon(square, (0, 0), (1.5, 3)), "a closed square: shared errors cancel", ("east", "north", "axis"))
    own = asked(reckon(square, (2, 2)), "a closed square: own errors stay", ("east", "north", "walked", "axis"))
    return [turned, both, closed, own]


def miss_cases(tally):
    """One compass walk under three declinations: how far a declination left out or turned round leads astray."""
    true_one, ignored, backwards = (
        asked(reckon(walk("mag"), declination=declination), note)
        for declination, note in (
            (-7.63, "the walk by compass, declination 7.63 W applied"),
            (0, "declination ignored: ends 161.7 m from the place of the case before"),
            (7.63, "declination applied backwards: ends 322.7 m from that place"),
        )
    )
    for name, wrong, known in (("ignored", ignored, 161.7), ("backwards", backwards, 322.7)):
        ends = [made["expect"] for made in (true_one, wrong)]
        de, dn = (ends[0][f"answer.{axis}"] - ends[1][f"answer.{axis}"] for axis in ("east_m", "north_m"))
        tally.near(f"declination {name}", math.hypot(de, dn), known, 0.05)
    convergence = reckon(walk("mag"), declination=-5.993, convergence=1.64)
    return [true_one, ignored, backwards, asked(convergence, "declination and convergence together: 7.633 W")]


def detour_cases(tally):
    """The detour box: out at a right angle, on, and the same distance back; only the middle counts."""
    leave = ("axis",)
    paces = {"bearing": "063 mag", "paces": 140, "pace_kind": "double", "detour": {"side": "right", "paces": 60}}
    single = {**paces, "paces": 280, "pace_kind": "single", "detour": {"side": "right", "paces": 120}}
    metres = {"bearing": "063 mag", "metres": 224, "detour": {"side": "left", "metres": 96}}
    notes = (
        "right on 153 for 60 paces, 063 for 140, 333 for 60: gains 140 double paces at 62.5 per 100 m, 224 m",
        "the same told in single paces",
        "the same box to the left, in metres",
    )
    legs = zip((paces, single, metres), notes)
    cases = [asked(reckon([leg], paced="paces" in leg), note, leave=leave) for leg, note in legs]
    for made in cases:
        tally.near("box, direct", made["expect"]["answer.direct_m"], 224, 0.0006)
        tally.near("box, walked", made["expect"]["answer.walked_m"], 416, 0.0006)
    inside = walk()
    inside[1]["detour"] = {"side": "left", "metres": 80}
    note = "a detour on the second of four legs: the end is that of the walk without it"
    cases.append(asked(reckon(inside), note, leave=leave))
    for axis, value in (("east_m", 960.144), ("north_m", 744.947)):
        tally.near(f"box inside, {axis}", cases[-1]["expect"][f"answer.{axis}"], value, 0.0006)
    return cases


INVALID = (
    ({"bearing": "63 grid"}, "distance-missing", "neither metres nor paces"),
    ({"bearing": "63 grid", "metres": -5}, "distance-unreadable", "less than nothing"),
    ({"bearing": "63", "metres": 420}, "bearing-without-north", None),
    ({"bearing": "361 grid", "metres": 420}, "bearing-out-of-range", None),
    ({"bearing": "north-east grid", "metres": 420}, "bearing-unreadable", None),
)


def build(tally):
    """The case file of this script."""
    cases = axes_cases(tally) + shared_cases(tally) + miss_cases(tally) + detour_cases(tally)
    plane = "half the last digit written, doubled; the sums are exact in the plane"
    paths = {"east_m": "metres, grid east", "north_m": "metres, grid north", "direct_m": "metres"}
    paths |= {"direct_bearing_deg_grid": "degrees from grid north", "home_bearing_deg_grid": "degrees from grid north"}
    paths |= {"walked_m": "metres along the ground, detours walked in full", "closes_m": "metres from the start after"
              " the log has been walked back"}
    tolerance, why = tolerances(
        **{path: (0.001, plane) for path in paths},
        axis_major_m=(0.01, "first-order propagation; a centimetre leaves room for another order of sums"),
        axis_minor_m=(0.01, "as the major axis"),
        **{
            f"back.{number}.{path}": (0.001, plane)
            for number in range(4)
            for path in ("bearing_deg_grid", "bearing_deg_mag", "metres")
        },
    )
    return [
        {
            "topic": "travel/reversed_log",
            "about": "Dead reckoning from (0, 0): the end of a walk, its spread, and the log read backwards.",
            "source": "constructed, computed with numpy 2.4.6; the detour box after Emergency Management Australia"
            " Manual 7 (procedure only, numbers constructed)",
            "made_by": "tests/references/reckon.py",
            "units": {
                **paths,
                "axis_major_m": "metres, one sigma",
                "axis_minor_m": "metres, one sigma",
                "back.N.bearing_deg_grid": "degrees from grid north",
                "back.N.bearing_deg_mag": "degrees from magnetic north",
                "back.N.metres": "metres gained",
            },
            "tolerance": tolerance,
            "tolerance_why": why,
            "cases": numbered(cases),
            "invalid": numbered([refused(reckon([leg]), code, note) for leg, code, note in INVALID]),
        }
    ]
