"""earth/attraction: what a phone's magnetometer feels in the model's field, and near iron."""

import datetime
import math
import statistics

import numpy

import grid
from casefile import case, numbered, refused, tolerances
from declination import decimal_year, field

AT = "2026-07-02T00:00:00Z"
DAY = datetime.date(2026, 7, 2)
SEATTLE, SYDNEY, EQUATOR = (47.6, -122.3), (-33.9, 151.2), (0.5, 21.0)
# Where the level field is 4,887 and 2,151 nT.
WEAK, WEAKER = (70.0, -100.0), (80.0, -100.0)

# Taken from the core, common practice without a source: a calibrated sensor's spreads, those that near iron adds, and
# how often a reading by a road is taken too near to iron.
SENSOR_NT, SENSOR_DEG = 1500.0, 2.0
IRON_NT, IRON_DEG = 10_000.0, 10.0
IRON_BEFORE = 0.2
# And what a heading of the phone is worth: one sigma of a reading, and of the error that all its readings share.
HEADING_DEG, SHARED_DEG = 5.0, 4.0
LINE_95 = statistics.NormalDist().inv_cdf(0.975)
# The model's error model (WMM2025), one sigma of total strength and dip.
MODEL_NT, MODEL_DEG = 138.0, 0.20


def earth_frame(model):
    """The field as east, north (magnetic), up, in microtesla."""
    return numpy.array([0.0, model.h, -model.z]) / 1000


def attitude(heading_deg, pitch_deg=0.0, roll_deg=0.0):
    """Rows: the phone's axes x, y, z in the frame east, north, up.

    Heading turns the top edge clockwise from north, pitch lifts the top edge, roll turns about it, right edge down.
    """
    h, p, r = (math.radians(angle) for angle in (heading_deg, pitch_deg, roll_deg))
    top = numpy.array([math.sin(h) * math.cos(p), math.cos(h) * math.cos(p), math.sin(p)])
    right = numpy.array([math.cos(h), -math.sin(h), 0.0])
    out = numpy.cross(right, top)
    return numpy.array([math.cos(r) * right - math.sin(r) * out, top, math.cos(r) * out + math.sin(r) * right])


def felt(model, axes, iron=(0.0, 0.0, 0.0), factor=1.0):
    """Field and vertical in the phone's axes, rounded as a sensor gives them; iron adds in the phone's own axes."""
    reading = axes @ earth_frame(model) * factor + numpy.array(iron)
    return [round(float(value), 4) for value in reading], [round(float(value), 6) for value in axes[:, 2]]


def odds(off, clean, iron):
    """Probability of iron by Bayes, two independent normal densities each way."""
    def density(spreads):
        return math.prod(math.exp(-((x / s) ** 2) / 2) / s for x, s in zip(off, spreads))

    near, far = IRON_BEFORE * density(iron), (1 - IRON_BEFORE) * density(clean)
    return near / (near + far) if near + far else 1.0


def heading_told(figures, verdict, strength_spread_nt, level_nt):
    """The heading in words: no spread where metal may be near, or where the level field is too weak to point."""
    across = LINE_95 * strength_spread_nt / level_nt
    if verdict != "clean" or across >= 1:
        return f"{figures}\u00b0\u00a0mag, spread not known"
    shared = max(LINE_95 * SHARED_DEG, math.degrees(math.asin(across)))
    return f"{figures}\u00b0\u00a0mag \u00b1\u00a0{math.hypot(LINE_95 * HEADING_DEG, shared):.0f}\u00b0 (95\u00a0%), if no iron turns it"


def expected(model, reading, up):
    """What a reading says, by numpy."""
    reading, up = numpy.array(reading), numpy.array(up)
    strength = float(numpy.linalg.norm(reading)) * 1000
    vertical = up / numpy.linalg.norm(up)
    dip = math.degrees(math.asin(-float(reading @ vertical) / (strength / 1000)))
    level = reading - (reading @ vertical) * vertical
    north = level / numpy.linalg.norm(level)
    east = numpy.cross(north, vertical)
    heading = math.degrees(math.atan2(east[1], north[1])) % 360
    spreads = math.hypot(MODEL_NT, SENSOR_NT), math.hypot(MODEL_DEG, SENSOR_DEG)
    iron = math.hypot(spreads[0], IRON_NT), math.hypot(spreads[1], IRON_DEG)
    off = strength - model.f, dip - model.i
    share = odds(off, spreads, iron)
    tells = math.hypot(east[1], north[1]) >= 0.5
    verdict = "clean" if share < 0.2 else "doubtful" if share <= 0.8 else "attracted"
    figures = f"{round(heading) % 360:03d}"
    values = {
        "strength_nt": round(strength, 1),
        "dip_deg": round(dip, 4),
        "heading_deg_mag": round(heading, 3) % 360 if tells else None,
        "heading_told": heading_told(figures, verdict, spreads[0], min(model.h, 1000 * float(numpy.linalg.norm(level)))) if tells else None,
        "heading_figures": figures if tells else None,
        "model_strength_nt": round(model.f, 2),
        "model_dip_deg": round(model.i, 4),
        "strength_spread_nt": round(spreads[0], 3),
        "dip_spread_deg": round(spreads[1], 5),
        "chi_square": round((off[0] / spreads[0]) ** 2 + (off[1] / spreads[1]) ** 2, 3),
        "attracted_share": round(share, 4),
        "verdict": verdict,
    }
    return values


CASES = (
    # place, (heading, pitch, roll), iron in microtesla, factor, note
    (SEATTLE, (0, 0, 0), (0, 0, 0), 1, "flat, top edge to magnetic north"),
    (SEATTLE, (90, 0, 0), (0, 0, 0), 1, "flat, east"),
    (SEATTLE, (214, 0, 0), (0, 0, 0), 1, "flat"),
    (SEATTLE, (359, 0, 0), (0, 0, 0), 1, "a degree short of north"),
    (SEATTLE, (123, 20, -15), (0, 0, 0), 1, "held at a slant: heading, strength and dip must not change"),
    (SEATTLE, (123, -40, 30), (0, 0, 0), 1, "held at a steep slant"),
    (SEATTLE, (10, 88, 0), (0, 0, 0), 1, "held on edge: the top edge points nowhere"),
    (SEATTLE, (214, 5, 5), (0.5, -0.4, 0.3), 1, "noise of a sensor: nothing to tell"),
    (SEATTLE, (214, 0, 0), (0, 0, 4), 1, "something near, too little to be told"),
    (SEATTLE, (214, 0, 0), (0, 0, -4.5), 1, "near, the other way"),
    (SEATTLE, (214, 0, 0), (30, 0, 0), 1, "iron to the right"),
    (SEATTLE, (214, 0, 0), (0, 0, 0), 1.5, "half as strong again, the dip as it was"),
    (SEATTLE, (214, 0, 0), (0, 0, 0), 0.9, "a tenth too weak"),
    (SEATTLE, (214, 10, 0), (40, -30, 60), 1, "a magnet beside the phone"),
    (SYDNEY, (45, 10, 10), (0, 0, 0), 1, "the southern half: the field points up"),
    (SYDNEY, (45, 10, 10), (15, 15, -15), 1, "iron in the southern half"),
    (EQUATOR, (300, -5, 2), (0, 0, 0), 1, "a weak field near the equator"),
    (WEAK, (214, 0, 0), (0, 0, 0), 1, "a level field so weak that the sensor's error turns the heading far"),
    (WEAKER, (214, 0, 0), (0, 0, 0), 1, "a level field too weak to point"),
)


def reading_case(place, turned, iron, factor, note):
    """A reading held against the model."""
    model = field(*place, 0, decimal_year(DAY))
    reading, up = felt(model, attitude(*turned), iron, factor)
    record = {"do": "attraction", "at": AT, "place": grid.degrees_text(*place), "field_ut": reading, "up": up}
    values = expected(model, reading, up)
    told = values["heading_told"]
    points = f"The phone's top edge points to {told}." if told else "The phone is not held flat enough to tell where its top edge points."
    return case(record, {f"answer.{key}": value for key, value in values.items()} | {"said.2": points}, note)


def check_frames(tally, item, turned):
    """A clean reading says where the phone was pointed, whatever its slant."""
    heading = item["expect"]["answer.heading_deg_mag"]
    if heading is not None:
        tally.near(f"heading of {turned}", (heading - turned[0] + 180) % 360, 180, 0.01)


def down_case(item):
    """The same reading with the vertical told the other way."""
    record = {key: value for key, value in item["record"].items() if key != "up"}
    record["down"] = [-value + 0.0 for value in item["record"]["up"]]
    return case(record, item["expect"], "the same with `down` for `up`")


def invalid():
    """What is no reading."""
    asked = {"do": "attraction", "at": AT, "place": "47.6, -122.3", "field_ut": [0, 19, -50], "up": [0, 0, 1]}
    without = {key: value for key, value in asked.items() if key != "up"}
    return [
        refused({**asked, "field_ut": [0, 0, 0]}, "attraction-unreadable", "no field at all"),
        refused({**asked, "up": [0, 0, 0]}, "attraction-unreadable", "no vertical"),
        refused({**asked, "field_ut": [0, 19]}, "attraction-unreadable", "two axes"),
        refused(without, "attraction-vertical", "neither up nor down"),
        refused({**asked, "down": [0, 0, -1]}, "attraction-vertical", "up and down at once"),
        refused({**asked, "at": "1993-07-01T00:00:00Z"}, "date-outside-model"),
        refused({**asked, "place": "91, 0"}, "reference-unreadable"),
    ]


def build(tally):
    """The case file of magnetometer readings."""
    cases = [reading_case(*row) for row in CASES]
    for item, row in zip(cases, CASES):
        if row[2] == (0, 0, 0):
            check_frames(tally, item, row[1])
    verdicts = {item["expect"]["answer.verdict"] for item in cases}
    tally.check("every verdict occurs", verdicts == {"clean", "doubtful", "attracted"}, verdicts)
    cases.append(down_case(cases[4]))
    tolerance, why = tolerances(
        strength_nt=(0.1, "half the last digit written, doubled"),
        dip_deg=(0.0002, "half the last digit written, doubled"),
        heading_deg_mag=(0.002, "half the last digit written, doubled"),
        model_strength_nt=(0.02, "as earth/norths holds it, and a day told by its first instant or its hour"),
        model_dip_deg=(0.0002, "as the strength"),
        strength_spread_nt=(0.002, "a root of two squares, half the last digit written"),
        dip_spread_deg=(0.00002, "as the strength's spread"),
        chi_square=(0.01, "what 0.02 nT and 0.00003 degrees make of the largest one here; half the last digit written"),
        attracted_share=(0.001, "half the last digit written, and what chi-square may differ"),
    )
    return [
        {
            "topic": "earth/attraction",
            "about": "A phone's magnetometer held against the model: strength and dip, the heading, the odds of iron near.",
            "source": "constructed: the field of pygeomag 1.1.0 (MIT licence) turned into the phone's axes by numpy 2.4.6"
            " (BSD-3-Clause). The spreads of sensor and iron and the odds beforehand are the core's own (common practice,"
            " no source): the cases hold the sums, not these choices",
            "made_by": "tests/references/attraction.py",
            "units": {
                "field_ut": "microtesla along x (right), y (top edge), z (out of the screen)",
                "strength_nt": "nanotesla",
                "dip_deg": "degrees below the horizon",
                "heading_deg_mag": "degrees from magnetic north to the top edge; null when it points up or down",
                "heading_told": "text: whole degrees and the half-width at 95 %, left out where metal may be near",
                "heading_figures": "text: whole degrees in three figures",
                "model_strength_nt": "nanotesla",
                "model_dip_deg": "degrees below the horizon",
                "strength_spread_nt": "nanotesla, one sigma of the difference",
                "dip_spread_deg": "degrees, one sigma of the difference",
                "chi_square": "two degrees of freedom",
                "attracted_share": "probability, 0 to 1",
            },
            "tolerance": tolerance,
            "tolerance_why": why,
            "cases": numbered(cases),
            "invalid": numbered(invalid()),
        }
    ]
