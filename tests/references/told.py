"""earth/told: whole sentences, their figures by other libraries.

A number is bound to its unit by a no-break space, as is a bearing to its north. A sentence is compared letter by letter: its
figures are rounded as a person reads them, and every case checks that none lies so near an edge that rounding decides.
"""

import datetime
import math
import re
import statistics
import warnings

import pyproj
from geographiclib.geodesic import Geodesic

from attraction import MODEL_DEG, MODEL_NT, SENSOR_DEG, SENSOR_NT
import grid
from casefile import case, numbered
from declination import change_deg_per_year, decimal_year, field

DATE = "2026-07-01"
LINE_95 = statistics.NormalDist().inv_cdf(0.975)
# A degree of latitude on the ground, as the core rounds it: it says what the last digit typed is worth.
METRES_PER_DEGREE = 111_200
BOUND = "\u00a0"


def rounded(tally, value, decimals):
    """A figure; checked that it does not lie on an edge."""
    apart = abs(value * 10**decimals % 1 - 0.5)
    tally.check(f"{value} to {decimals} decimals", apart > 0.002 or value == 0, "rounding decides")
    return f"{value:.{decimals}f}"


def metres(tally, value):
    """A distance: to the centimetre below 10 m, whole to 10 km, then kilometres."""
    if value < 9.995:
        return f"{rounded(tally, value, 2)}{BOUND}m"
    if value < 9_999.5:
        return f"{rounded(tally, value, 0)}{BOUND}m"
    return f"{rounded(tally, value / 1000, 1)}{BOUND}km"


def spread_told(tally, half_m, half_deg):
    """The sentence of a way's half-widths: no bearing is told to 0.0 degrees."""
    deg = rounded(tally, half_deg, 3 if half_deg < 0.05 else 1)
    half = f"±{BOUND}{metres(tally, half_m)} in distance and ±{BOUND}{deg}° in bearing (95{BOUND}%)."
    return f"Both places as written: {half}"


def bearing(tally, degrees, north):
    """A bearing: three figures and at most one decimal."""
    tenths = round(degrees * 10) % 3600
    tally.check(f"{degrees} to a tenth", abs(degrees * 10 % 1 - 0.5) > 0.002, "rounding decides")
    part = f".{tenths % 10}" if tenths % 10 else ""
    return f"{tenths // 10:03d}{part}°{BOUND}{north}"


def told(record, *sentences, note):
    """A case of sentences; after the last of them nothing more is said."""
    expect = {f"said.{index}": sentence for index, sentence in enumerate(sentences)}
    return case(record, {**expect, f"said.{len(sentences)}": None}, note)


def turned_deg(spread_m, line):
    """Half-width of a bearing at 95 %: of neighbours the arc whose sine is that of the distance over the distance.

    Of 200,000 pairs drawn from two neighbouring squares 95 % lie within 52.5 degrees of the bearing between their middles.
    """
    near = math.degrees(math.asin(min(1.0, LINE_95 * spread_m / line["s12"])))
    return max(near, LINE_95 * math.degrees(math.atan2(spread_m, line["m12"])))


def way(tally, start, end, spread_m, named=None, date=None):
    """The sentence of a way and that of its spread, by geodesics, the convergence of PROJ and the declination of pygeomag.

    The model's own part: sigma = sqrt(0.26² + (5417 / H)²) degrees (WMM2025 technical report, section 3).
    """
    line = Geodesic.WGS84.Inverse(*start, *end, Geodesic.ALL)
    forward = grid.named(tally, named, *start) if named else grid.utm(tally, *start)
    true = line["azi1"] % 360
    by = named or f"UTM {grid.zone_of(*start)} north"
    parts = [bearing(tally, true, "true"), f"{bearing(tally, (true - forward.convergence_deg) % 360, 'grid')} ({by})"]
    if date:
        year = date if isinstance(date, float) else decimal_year(datetime.date.fromisoformat(date))
        declination = field(*start, 0, year).d
        parts.append(bearing(tally, (true - declination) % 360, "mag"))
    back = bearing(tally, (line["azi2"] + 180) % 360, "true")
    sentences = [f"{metres(tally, line['s12'])} on {', '.join(parts)}; back {back}."]
    half_m, half_deg = LINE_95 * spread_m, turned_deg(spread_m, line)
    if half_m >= 0.5 or half_deg >= 0.05:
        sentences.append(spread_told(tally, half_m, half_deg))
    if date:
        model_deg = LINE_95 * math.hypot(0.26, 5417 / field(*start, 0, year).h)
        off = f"±{BOUND}{rounded(tally, model_deg, 1)}° (95{BOUND}%)"
        sentences.append(f"The magnetic bearing is also off by what the World Magnetic Model is: {off}.")
    return sentences


def step_spread_m(decimals, lat):
    """One sigma an axis of two places in degrees with so many decimals: the larger step of each, uniform."""
    steps = METRES_PER_DEGREE * 10**-decimals * max(1.0, math.cos(math.radians(lat)))
    return math.hypot(steps, steps) / math.sqrt(12)


def centre(code, easting, northing):
    """Latitude and longitude of a point of a grid."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        lon, lat = pyproj.Transformer.from_crs(code, "EPSG:4326", always_xy=True).transform(easting, northing)
    return lat, lon


def squares(tally, easting, northing, east_m, side_m, **asked):
    """A way between the middles of two squares of zone 33."""
    ends = [centre("EPSG:32633", easting + step + side_m / 2, northing + side_m / 2) for step in (0, east_m)]
    return way(tally, *ends, math.sqrt(2) * side_m / math.sqrt(12), **asked)


def between_cases(tally):
    """What is said of the way between two places."""
    asked = {"do": "between"}
    near = {**asked, "from": "46.500, 13.500", "to": "46.5005, 13.5000"}
    spread_m = METRES_PER_DEGREE * math.hypot(0.001, 0.0001) / math.sqrt(12)
    apart_m = Geodesic.WGS84.Inverse(46.5, 13.5, 46.5005, 13.5)["s12"]
    tally.check("nearer than they are known", apart_m < LINE_95 * spread_m, f"{apart_m} m")
    too_near = (
        f"The places as written are good to ±{BOUND}{metres(tally, LINE_95 * spread_m)} (95{BOUND}%) and lie {metres(tally, apart_m)}"
        " apart: no bearing can be told from one to the other. Give more digits."
    )
    same_m = LINE_95 * math.sqrt(2) * 100 / math.sqrt(12)
    same = f"Both ends are the same place as written, ±{BOUND}{metres(tally, same_m)} (95{BOUND}%): no bearing leads from one to the other."
    pole = "One end is at a pole: bearings there change from step to step. Count them from a grid."
    british = [centre("EPSG:27700", *point) for point in ((530050, 180050), (533050, 181250))]
    return [
        told(
            {**asked, "from": "33TVM 5650 5650", "to": "33TVM 5950 5650", "date": DATE},
            *squares(tally, 456_500, 5_156_500, 3000, 10, date=DATE),
            note="squares of 10 m, 3 km apart",
        ),
        told(
            {**asked, "from": "33TVM 56500 56500", "to": "33TVM 56501 56500"},
            *squares(tally, 456_500, 5_156_500, 1, 1),
            note="neighbouring squares of 1 m: a bearing, and how little it is worth",
        ),
        told(
            {**asked, "from": "33TVM 5650 5650", "to": "33TVM 5950 5650", "date": "2026.5"},
            *squares(tally, 456_500, 5_156_500, 3000, 10, date=2026.5),
            note="the date as a decimal year",
        ),
        told({**asked, "from": "33TVM 565 565", "to": "33tvm565565"}, same, note="one place twice"),
        told(near, too_near, note="typed to 111 m, 56 m apart"),
        told(
            {**asked, "from": "46.5000000, 13.5000000", "to": "46.5000040, 13.5000000"},
            *way(tally, (46.5, 13.5), (46.500004, 13.5), step_spread_m(7, 46.5)),
            note="less than half a metre is no 0 m",
        ),
        told(
            {**asked, "from": "TQ 300 800", "to": "TQ 330 812", "grid": "EPSG:27700"},
            *way(tally, *british, math.sqrt(2) * 100 / math.sqrt(12), named="EPSG:27700"),
            note="references of the grid that is named",
        ),
        told(
            {**asked, "from": "90.0000, 0.0000", "to": "89.5000, 20.0000"},
            *pole_way(tally),
            pole,
            note="from the pole: the grid there is UPS",
        ),
        told(
            {**asked, "from": "0.0000, 0.0000", "to": "0.5000, 179.7000"},
            *way(tally, (0, 0), (0.5, 179.7), step_spread_m(4, 0)),
            far_told(tally, (0, 0), (0.5, 179.7)),
            note="nearly antipodes: bearings spread over the far side",
        ),
        told(
            {**asked, "from": "0.0000, 0.0000", "to": "0.0000, 179.0000"},
            *way(tally, (0, 0), (0, 179), step_spread_m(4, 0)),
            far_told(tally, (0, 0), (0, 179)),
            note="111 km from the point opposite the equator is the shortest way, and no other",
        ),
        told(
            {**asked, "from": "0.000000, 10.000000", "to": "0.000000, -170.000000"},
            undetermined(tally, (0, 10), (0, -170)),
            note="antipodes: as far over either pole",
        ),
    ]


def pole_way(tally):
    """From the North Pole the meridian given is true north and grid north alike."""
    line = Geodesic.WGS84.Inverse(90, 0, 89.5, 20, Geodesic.ALL)
    true, back = line["azi1"] % 360, (line["azi2"] + 180) % 360
    spread_m = step_spread_m(4, 90)
    half_deg = turned_deg(spread_m, line)
    ways = f"{bearing(tally, true, 'true')}, {bearing(tally, true, 'grid')} (UPS north); back {bearing(tally, back, 'true')}."
    return [f"{metres(tally, line['s12'])} on {ways}", spread_told(tally, LINE_95 * spread_m, half_deg)]


def shift_area(used, lat, lon):
    """The area in words for which the registered shift within an operation was made, and whether its box holds the place."""
    for step in used.operations or [used]:
        if " to " in step.name and step.area_of_use and "Ballpark" not in step.name:
            box = step.area_of_use
            name = box.name.rstrip(".")
            return name, box.south <= lat <= box.north and box.west <= lon <= box.east
    return None


# By this the register says that an accuracy is not known (EPSG Guidance Note 7-1, from memory).
NOT_KNOWN_M = 999.0


def shift_sentence(tally, code, lat, lon):
    """What is said of a datum shift, by what PROJ states of the operation it used; nothing where there is none to make."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        there = pyproj.Transformer.from_crs("EPSG:4326", code, always_xy=True)
        there.transform(lon, lat)
    used = there.get_last_used_operation()
    named = f"The shift between WGS 84 and the datum of {code} is"
    if used.accuracy > 0:
        area = shift_area(used, lat, lon)
        if area is None:
            return (
                f"{code} counts on another datum than WGS 84, and the shift between them is good to {used.accuracy:g}{BOUND}m."
                " Compare a place that you know with the map."
            )
        told, is_within = area
        # A long list of parts is left out.
        if len(told) > 120 and re.search("[;,]", told):
            told = re.split("[;,]", told)[0].rsplit(" - ", 1)[0]
        if is_within and used.accuracy >= NOT_KNOWN_M:
            return (
                f"{named} registered for {told} without a figure of what it is good to: places may be off by tens of metres or more."
                " Compare a place that you know with the map."
            )
        if is_within:
            return (
                f"{code} counts on another datum than WGS 84, and the shift between them is good to {used.accuracy:g}{BOUND}m within {told};"
                " beside that nobody states it. Compare a place that you know with the map."
            )
        return (
            f"No shift between WGS 84 and the datum of {code} is made for this place: the one used is made for {told}. How good it is here"
            " nobody states: check the grid, and compare a place that you know with the map."
        )
    if used.accuracy == 0:
        return None
    if "Ballpark" in used.description:
        return f"No shift between WGS 84 and the datum of {code} is known here: places may be off by hundreds of metres."
    return f"{named} the one in its definition; how good it is nobody states."


BESSEL = "+proj=tmerc +lon_0=9 +x_0=3500000 +ellps=bessel +units=m"
SHIFTS = (
    ("EPSG:32633", 46.512345, 13.523456, "WGS 84 needs no shift, and 0 m is not said"),
    ("EPSG:27700", 51.5, -0.1, "a stated shift"),
    ("EPSG:2056", 47.9, 9.5, "beside the box for which its only shift is made"),
    ("EPSG:26713", 39.0, -105.0, "a stated shift to NAD27"),
    ("EPSG:3893", 33.0, 44.0, "a shift of which the register says that its accuracy is not known"),
    ("EPSG:26710", 38.706, -125.028, "no shift registered"),
    (BESSEL, 48.5, 9.5, "an ellipsoid without a shift"),
    (f"{BESSEL} +towgs84=598.1,73.7,418.2,0.202,0.045,-2.455,6.7", 48.5, 9.5, "a shift of the definition's own"),
)


# Places off the rectangle that the register gives a grid, and what is said: a figure lost, a place far off.
OUTSIDE = (
    ("EPSG:2180", "56000 500000", "a figure of the easting lost"),
    ("EPSG:27700", "52.5, 6.5", "a place beyond the sea"),
    ("EPSG:31467", "49.0, 20.0", "three zones off"),
    ("EPSG:2227+6360", "34.0, -119.0", "a grid joined with its heights"),
    ("EPSG:27700", "49.7, -5.0", "beside the rectangle: nothing is said of it"),
)


def outside_cases(tally):
    """What is said of a place outside the area of use of a grid, and that no accuracy is told there."""
    cases = []
    for code, typed, note in OUTSIDE:
        alone = code.split("+")[0]
        area = pyproj.CRS(alone).area_of_use
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            lat, lon = (float(part) for part in typed.split(",")) if "," in typed else reversed(
                pyproj.Transformer.from_crs(alone, "EPSG:4326", always_xy=True).transform(*(float(part) for part in typed.split()))
            )
        nearest = min(max(lat, area.south), area.north), min(max(lon, area.west), area.east)
        far_m = Geodesic.WGS84.Inverse(lat, lon, *nearest)["s12"]
        is_said = far_m > 20_000
        tally.check(f"{code} at {typed}: {far_m} m outside", is_said == ("nothing" not in note), far_m)
        far = metres(tally, far_m)
        sentence = f"This place lies {far} outside the area that {code} is made for: check every figure, and the grid. How good its numbers are there nobody states."
        record = {"do": "place", "place": typed, "grid": code}
        if is_said:
            cases.append(case(record, {"said.1": sentence, "answer.accuracy_m": None}, note))
        else:
            cases.append(second_told(record, shift_sentence(tally, code, lat, lon), note))
    return cases


def second_told(record, sentence, note):
    """A case of the second sentence; None when there is none but that of how the grid lies, the last one."""
    return case(record, {"said.1": sentence} if sentence else {"said.2": None}, note)


def zone_cases(tally):
    """What is said of squares and coordinates whose place belongs to another zone than was typed."""
    square = centre("EPSG:32632", 735_000, 5_155_000)
    beyond, within = centre("EPSG:32633", 45_696, 4_949_535), centre("EPSG:32633", 456_965, 4_949_535)
    tally.check("the square's middle lies in zone 33", grid.zone_of(*square) == 33, square)
    tally.check("the coordinates lead into zone 32", grid.zone_of(*beyond) == 32, beyond)
    tally.check("the coordinates lie in their zone", grid.zone_of(*within) == 33, within)
    far = metres(tally, Geodesic.WGS84.Inverse(*beyond, beyond[0], 12.0)["s12"])
    edge = "The square lies on a zone's edge: its middle belongs to zone 33. It is told by UTM 33 north."
    into = f"These coordinates lie {far} beyond zone 33, in zone 32. They are told by UTM 32 north. Check the zone and the figures."
    outside = centre("EPSG:32633", 745_050, 4_949_050)
    far = metres(tally, Geodesic.WGS84.Inverse(*outside, outside[0], 18.0)["s12"])
    past = f"This square lies {far} beyond zone 33, in zone 34. It is told by UTM 34 north. Check the zone and the figures."
    asked = {"do": "place"}
    return [
        second_told({**asked, "place": "32TQS 3 5"}, edge, "a square of 10 km across the edge of its zone"),
        second_told({**asked, "place": "33 north 45696 4949535"}, into, "a figure of the easting left out"),
        second_told({**asked, "place": "33 north 456965 4949535"}, None, "in their zone nothing is said"),
        second_told({**asked, "place": "33N 456965 4949535"}, half_told("33N 456965 4949535", "N", "northern"), "N is north: the band N ends at 8 degrees"),
        second_told({**asked, "place": "33S 456965 4949535"}, half_told("33S 456965 4949535", "S", "southern"), "S is south: the band S ends at 40 degrees north"),
        second_told({**asked, "place": "33N 456965 449535"}, None, "in the band N both are one"),
        second_told({**asked, "place": "45 30.000 N, 13 15.000 E"}, None, "degrees name no zone"),
        second_told({**asked, "place": "3 5", "beginning": "32TQS"}, edge, "a short reference counts in the zone of its beginning"),
        second_told({**asked, "place": "33TYK 450 490"}, past, "a square beyond the edge"),
        second_told({**asked, "place": "33TVM 565 565"}, f"It is a square of 100{BOUND}m: its middle is told, off by at most 50{BOUND}m to east and to north.", "a square"),
    ]


def half_told(typed, letter, half):
    """The sentence of a letter behind the zone that was read as a half of the earth; bands by NGA.STND.0037."""
    return (
        f'The {letter} behind the zone of "{typed}" is read as the {half} half of the earth, as its northing does not lie in the latitude band {letter}.'
        " If a band was meant, check the northing and the letter."
    )


def undetermined(tally, start, end):
    """Antipodes on the equator: the end moved by a metre to the north or south, the shortest way leaves over that pole."""
    step = math.degrees(1 / 6_378_137)
    ways = [Geodesic.WGS84.Inverse(*start, end[0] + side, end[1])["azi1"] % 360 for side in (step, -step)]
    length = metres(tally, Geodesic.WGS84.Inverse(*start, *end)["s12"])
    over = " and on ".join(bearing(tally, way, "true") for way in ways)
    return f"{length} to the other side of the earth: no bearing is determined. For all that is known of the two places, ways that leave on {over} are equally short."


def far_told(tally, start, end):
    """The sentence of a way to the far side of the earth: how far its end lies from the point opposite, and what a turn of 1° moves it by, of the reduced length."""
    line = Geodesic.WGS84.Inverse(*start, *end, Geodesic.ALL)
    off = metres(tally, abs(line["m12"]) * math.sin(math.radians(1)))
    apart = metres(tally, Geodesic.WGS84.Inverse(-start[0], start[1] + 180, *end)["s12"])
    return f"The far place lies {apart} from the point opposite on the earth: about there a bearing turns fast with the places. Turned by 1° the way ends {off} away."


def diagram_told(tally, place, printed, year, date):
    """The sentence of a diagram without a yearly change up to its age: what it is good to, its difference from the model, and whether that is more than both
    are good for. One sigma: a quarter of a degree as printed, the model's own, what the model changes since, a tenth of a degree a year at least, and
    what it changes within the diagram's own year where that is a whole one."""
    at = decimal_year(datetime.date.fromisoformat(date[:10]))
    convergence, model = grid.utm(tally, *place).convergence_deg, field(*place, 0, at)
    rate, own = change_deg_per_year(*place, 0, at), model.calculate_uncertainty().d
    is_whole = year == int(year)
    changed = max(0.1, abs(rate)) * abs(at - (year + 0.5 if is_whole else year))
    spread = math.hypot(0.25, own, changed, rate / math.sqrt(12) if is_whole else 0.0)
    half, more, joint = (LINE_95 * sigma for sigma in (spread, changed, math.hypot(spread, own)))
    differs = printed - model.d
    asked = "do not turn bearings by it before its figures, signs and year have been compared with the margin"
    beyond = f", which is more than both are good for, ±{BOUND}{rounded(tally, joint, 1)}° together (95{BOUND}%): {asked}"
    wrong = beyond if abs(differs) > joint else f": {asked}" if abs(differs) >= 2 else ""
    return (
        f"The sheet's diagram ({year:g}) brought to {date} without a yearly change, as none was given; that may make up ±{BOUND}{rounded(tally, more, 1)}° since"
        f" its year: grid-magnetic angle {rounded(tally, printed - convergence, 1)}° ±{BOUND}{rounded(tally, half, 1)}° (95{BOUND}%),"
        f" {rounded(tally, differs, 1)}° from the model{wrong}."
    )


def printed_case(tally, year, date, ending, note):
    """The sentence of a diagram printed for a year, without a yearly change."""
    place, printed = (47.6, -122.3), 15.0
    record = {"do": "norths", "place": grid.degrees_text(*place), "date": date, "printed": {"declination_deg": printed, "year": year}}
    return second_told(record, diagram_told(tally, place, printed, year, date) + ending, note)


def printed_cases(tally):
    """What is said of a printed diagram's age."""
    later = " It is printed for a later year: check the year and the date."
    return [
        printed_case(tally, 2027.5, DATE, later, "printed for a year to come"),
        printed_case(tally, 2015, DATE, " It is 11 years old.", "eleven years old"),
        printed_case(tally, 1994, DATE, " It is 32 years old: do not rely on it.", "past twenty years"),
        printed_case(tally, 2015, f"{DATE}T09:30:00Z", " It is 11 years old.", "a time stands for its date"),
    ]


def iron_case(tally):
    """Beside a magnet nothing is told as certain."""
    place, felt = (46.5, 13.5), (10.0, 20.0, -42.0)
    model = field(*place, 0, decimal_year(datetime.date.fromisoformat(DATE)))
    strength = math.sqrt(sum(axis * axis for axis in felt))
    dip = -math.degrees(math.asin(felt[1] / strength))
    record = {"do": "attraction", "at": f"{DATE}T10:00:00Z", "place": "46.5, 13.5", "field_ut": felt, "up": [0.0, 9.8, 0.0]}
    own_ut, own_deg = rounded(tally, 1.959964 * SENSOR_NT / 1000, 1), rounded(tally, 1.959964 * SENSOR_DEG, 0)
    phone = f"The phone feels {rounded(tally, strength, 1)} ±{BOUND}{own_ut}{BOUND}µT, dip {rounded(tally, dip, 0)}° ±{BOUND}{own_deg}°, as phones are usually off"
    off_ut, off_deg = (rounded(tally, 1.959964 * sigma, 1) for sigma in (MODEL_NT / 1000, MODEL_DEG))
    strength, dip = rounded(tally, model.f / 1000, 1), rounded(tally, model.i, 1)
    earth = f"the model has {strength} ±{BOUND}{off_ut}{BOUND}µT, dip {dip}° ±{BOUND}{off_deg}° (all ±{BOUND}95{BOUND}%)"
    sentence = f"{phone}; {earth}: metal or a current is near (odds >{BOUND}99{BOUND}%)."
    return case(record, {"said.0": sentence}, "88 degrees off in dip: over 99 %, never 100 %")


def build(tally):
    """The case file of sentences."""
    shifts = [
        second_told({"do": "place", "place": grid.degrees_text(lat, lon), "grid": code}, shift_sentence(tally, code, lat, lon), note)
        for code, lat, lon, note in SHIFTS
    ]
    return [
        {
            "topic": "earth/told",
            "about": "Sentences of the way between two places, of zones and datum shifts, of a printed diagram's age.",
            "source": "the wording is the core's own; figures: geographiclib 2.1 (MIT licence), pygeomag 1.1.0 (MIT licence),"
            f" {grid.PROJ_SOURCE}",
            "made_by": "tests/references/told.py",
            "units": {"said": "text, with no-break spaces between a number and its unit; null where nothing more is said"},
            "tolerance": {},
            "tolerance_why": {},
            "cases": numbered(between_cases(tally) + zone_cases(tally) + shifts + outside_cases(tally) + printed_cases(tally) + [iron_case(tally)]),
            "invalid": [],
        }
    ]
