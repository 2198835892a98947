"""earth/compass: the instrument's own error and the pull at a station, from known lines, the sun and back bearings."""

import datetime
import math

import numpy as np
import pyproj
from scipy.stats import t as student
from geographiclib.geodesic import Geodesic

import grid
from angles import circular_mean
from casefile import case, numbered, refused, tolerances
from compass_stations import Stations, arc, closures_of, rounding_deg
from declination import decimal_year, field
from light import position

AT = "2026-07-02T00:00:00Z"
DAY = datetime.date(2026, 7, 2)
LINE = (36.59, -84.25)
SUN_AIR = (0, 1013, 10)
# Taken from the core, common practice without a source: what a reading is usually worth, and the least share of it that
# readings which happen to agree may claim.
USUAL_DEG = {"sighting": 1.5, "baseplate": 2.5}
LEAST_SHARE = 0.25


def norths(tally):
    """Declination and convergence at the place of the cases."""
    return field(*LINE, 0, decimal_year(DAY)).d, grid.utm(tally, *LINE).convergence_deg


def record(**parts):
    """A compass record."""
    return {"do": "compass", "at": AT, "place": grid.degrees_text(*LINE), **parts}


def errors_expected(tally, reads, known, turned, instrument="sighting", known_deg=()):
    """The shared error and its spreads from readings against what they should be; turned: how many were not magnetic.

    The spread of the error holds that of the declination by the share of the readings that rest on it, and once; that of the
    known bearings as written is no part of the readings' own.
    """
    near, off = circular_mean([read - value for read, value in zip(reads, known)])
    mean = float((near + off.mean() + 180) % 360 - 180)
    spread = float(off.std(ddof=1))
    least = LEAST_SHARE * USUAL_DEG[instrument]
    tally.check("readings scatter more than the least", spread > least, f"{spread} of {least}")
    known_variance = float(np.mean(np.square(known_deg or 0)))
    own = max(math.sqrt(max(spread**2 - known_variance, 0)), least)
    shared = field(*LINE, 0, decimal_year(DAY)).calculate_uncertainty().d * turned / len(reads)
    return {
        "error_deg": round(mean, 6),
        "reading_spread_deg": round(own, 6),
        "error_spread_deg": round(math.hypot(math.sqrt((own**2 + known_variance) / len(reads)), shared), 6),
        "count": len(reads),
    }


def known_case(tally, reads, known, shift, note):
    """Readings of known lines, each known with its north; shift brings bearings of a north to magnetic north."""
    readings = [{"read": f"{read:g} mag", "known": f"{value:g} {north}"} for read, (value, north) in zip(reads, known)]
    turned = sum(north != "mag" for _, north in known)
    written = [rounding_deg(value) for value, _ in known]
    expect = errors_expected(tally, reads, [value - shift[north] for value, north in known], turned, known_deg=written)
    asked = record(readings=readings, instrument="sighting")
    return case(asked, {f"answer.{key}": value for key, value in expect.items()}, note)


def by(north, *bearings):
    """Bearings that all count from one north."""
    return [(bearing, north) for bearing in bearings]


def known_cases(tally):
    """Readings of lines whose bearing is known by each north."""
    declination, convergence = norths(tally)
    shift = {"mag": 0, "grid": declination - convergence, "true": declination}
    mixed = by("mag", 214, 89) + by("true", 293.9) + by("grid", 3.2)
    rows = (
        ((216, 90.5, 302.2, 11), by("mag", 214, 89, 300, 10), "constructed: about 1.7 degrees too much"),
        ((358.5, 1, 359.2), by("mag", 0, 2.2, 1.5), "constructed: too little, over north"),
        ((216, 90.5, 301.8), by("grid", 206.5, 81, 293), "constructed: grid bearings"),
        ((216, 90.5, 301.8), by("true", 208.2, 81.5, 293.9), "constructed: true bearings"),
        ((91, 269, 2, 181), by("mag", 270, 90, 180, 359.5), "constructed: read at the wrong end of the needle"),
        ((216, 90.5, 301.0, 13.4), mixed, "constructed: each north; half of the declination's spread"),
    )
    return [known_case(tally, reads, known, shift, note) for reads, known, note in rows]


ENDS = ((36.601234, -84.201234), (36.551234, -84.271234), (36.621234, -84.311234))


def between_case(tally):
    """Readings between mapped points: the true bearing of the geodesic, less the declination."""
    declination, _ = norths(tally)
    lines = [Geodesic.WGS84.Inverse(*LINE, *end)["azi1"] % 360 for end in ENDS]
    reads = [round(true - declination + error, 1) for true, error in zip(lines, (1.2, 2.9, 2.0))]
    readings = [
        {"read": f"{read:g} mag", "from": f"{LINE[0]:.6f}, {LINE[1]:.6f}", "to": grid.degrees_text(*end)}
        for read, end in zip(reads, ENDS)
    ]
    expect = errors_expected(tally, reads, [true - declination for true in lines], len(lines))
    asked = record(readings=readings, instrument="sighting")
    return case(asked, {f"answer.{key}": value for key, value in expect.items()}, "between mapped points")


def named_case(tally):
    """The same to a landmark of the sheet by its name."""
    declination, _ = norths(tally)
    true = Geodesic.WGS84.Inverse(*LINE, *ENDS[0])["azi1"] % 360
    read = round(true - declination + 1.2, 1)
    here, mast = f"{LINE[0]:.6f}, {LINE[1]:.6f}", grid.degrees_text(*ENDS[0])
    text = f'name = "Road"\n[[line]]\nname = "Road"\npoints = ["{here}", "36.600000, -84.200000"]\n[[landmark]]\nname = "Mast"\nat = "{mast}"\n'
    carried = {"do": "carry", "at": AT, "format": "toml", "text": text}
    asked = record(readings=[{"read": f"{read:g} mag", "from": here, "to": "mast"}], instrument="sighting")
    return {"before": [carried], **case(asked, {"answer.error_deg": round(read - (true - declination), 6)}, "a landmark by its name")}


def grid_case(tally):
    """A bearing known from the north of a grid that is named, 3 degrees off that of UTM; and what the kept error makes of a turned bearing."""
    declination, _ = norths(tally)
    code = "EPSG:2274"
    convergence = grid.named(tally, code, *LINE).convergence_deg
    readings = [{"read": "214 mag", "known": "200 grid"}, {"read": "91 mag", "known": "77 grid"}, {"read": "14.5 mag", "known": "0 grid"}]
    reads, known = [214, 91, 14.5], [200, 77, 0]
    expect = {"answer.error_deg": round(sum(read - (value + convergence - declination) for read, value in zip(reads, known)) / 3, 6)}
    named = case({**record(readings=readings, instrument="sighting"), "grid": code}, expect, "known from the north of a grid that is named")
    text = f'name = "Road"\n[[line]]\nname = "Road"\npoints = ["{LINE[0]:.6f}, {LINE[1]:.6f}", "36.600000, -84.200000"]\n'
    carried = {"do": "carry", "at": AT, "format": "toml", "text": text}
    reads, known = (214, 90.5, 298.5), (212, 87, 298)
    pairs = [{"read": f"{read:g} mag", "known": f"{value} mag"} for read, value in zip(reads, known)]
    keep = record(readings=pairs, instrument="sighting", keep=True)
    spread = errors_expected(tally, reads, known, 0, known_deg=[rounding_deg(value) for value in known])["error_spread_deg"]
    half = student.ppf(0.975, len(reads) - 1) * spread
    kept = f"Your sighting compass, as it was checked, reads 2.0\u00b0 \u00b1\u00a0{half:.1f}\u00b0 (95\u00a0%) too high, which is not in this"
    turns = []
    for bearing, to, told in (
        ("214 mag", "true", "with it taken off what was read this is 212\u00b0\u00a0true."),
        ("214 true", "mag", "set 216\u00b0\u00a0mag on that one."),
    ):
        turn = {"do": "turn", "bearing": bearing, "to": to, "declination_deg": 0, "declination_spread_deg": 0}
        turns.append({"before": [carried, keep], **case(turn, {"said.1": f"{kept}: {told}"}, "a kept error is told beside a turned bearing")})
    one = record(readings=[{"read": "102 mag", "known": "100 mag"}], instrument="sighting", keep=True)
    wide = f"The error is known to \u00b1\u00a0{1.96 * math.hypot(1.5, rounding_deg(100)):.1f}\u00b0 (95\u00a0%) only, less surely than that of a"
    wide += " sighting compass which was never checked (\u00b1\u00a02.0\u00b0): read more known bearings and keep again."
    caution = {"before": [carried], **case(one, {"said.2": wide}, "kept from one reading, less sure than never checked")}
    return [named, *turns, caution, far_grid_case()]


def far_grid_case():
    """A grid that is named and not made for where the compass is checked: how far its area lies off."""
    place, code = (47.2, 11.4), "EPSG:27700"
    area = pyproj.CRS(code).area_of_use
    away = Geodesic.WGS84.Inverse(*place, max(place[0], area.south), area.east)["s12"]
    told = f"This place lies {away / 1000:.1f}\u00a0km outside the area that {code} is made for: check every figure, and the grid. How good its numbers are there nobody states."
    asked = {"do": "compass", "at": AT, "place": "47.2, 11.4", "readings": [{"read": "100 mag", "known": "95 grid"}], "grid": code}
    return case(asked, {"said.3": told}, "a grid that is not made for that place")


def own_place_case(tally):
    """A point sighted from the place of the check: what that place is typed to is part of the known bearing's spread."""
    model = field(*LINE, 0, decimal_year(DAY))
    line = Geodesic.WGS84.Inverse(*LINE, *ENDS[0])
    # A uniform step of a hundredth of a degree each way against one of a millionth.
    across_m = 111_200 * math.hypot(0.01, 1e-6) / math.sqrt(12)
    known_deg = math.degrees(math.atan2(across_m, line["s12"]))
    read = round(line["azi1"] % 360 - model.d + 1, 1)
    own_deg = math.hypot(USUAL_DEG["sighting"], known_deg)
    expect = {
        "error_deg": round(read - (line["azi1"] % 360 - model.d), 6),
        "error_spread_deg": round(math.hypot(own_deg, model.calculate_uncertainty().d), 6),
        "count": 1,
    }
    asked = record(readings=[{"read": f"{read:g} mag", "to": grid.degrees_text(*ENDS[0])}], instrument="sighting")
    return case(asked, {f"answer.{key}": value for key, value in expect.items()}, "from a place typed to a hundredth of a degree")


SUN_TIMES = ("2026-07-02T12:30:00Z", "2026-07-02T13:45:30Z", "2026-07-02T22:10:00Z")


def sun_case(tally):
    """Readings of the sun: its azimuth by the ephemeris, less the declination."""
    declination, _ = norths(tally)
    trues, heights = zip(*(position(LINE, datetime.datetime.fromisoformat(moment), SUN_AIR) for moment in SUN_TIMES))
    reads = [round(true - declination + error, 1) for true, error in zip(trues, (-1.6, -0.3, -0.9))]
    readings = [{"read": f"{read:g} mag", "sun_at": moment} for read, moment in zip(reads, SUN_TIMES)]
    # A sight held aslant by one degree turns each by the tangent of its height.
    aslant = [math.tan(math.radians(height)) for height in heights]
    expect = errors_expected(tally, reads, [true - declination for true in trues], len(trues), known_deg=aslant)
    # One watch, half a minute off, moves them all: half of what the sun goes on by in a minute, on the mean.
    step = datetime.timedelta(seconds=30)
    moments = [datetime.datetime.fromisoformat(moment) for moment in SUN_TIMES]
    moved = [(position(LINE, moment + step, SUN_AIR)[0] - position(LINE, moment - step, SUN_AIR)[0]) / 2 for moment in moments]
    expect["error_spread_deg"] = round(math.hypot(expect["error_spread_deg"], float(np.mean(moved))), 6)
    asked = record(readings=readings, instrument="sighting")
    return case(asked, {f"answer.{key}": value for key, value in expect.items()}, "the sun thrice")


# Read in a surveying text whose name was not taken down: fore and back bearings of an open traverse, in degrees and
# minutes, the pull at its stations, and the bearings corrected.
PAIRS = (
    ("A", "B", (44, 40), (225, 20)),
    ("B", "C", (96, 20), (274, 18)),
    ("C", "D", (30, 40), (212, 2)),
    ("D", "E", (320, 12), (140, 12)),
)
PULL = {"A": 0.0, "B": arc(0, 40), "C": -arc(1, 22), "D": 0.0, "E": 0.0}
CORRECTED = (arc(44, 40), arc(95, 40), arc(32, 2), arc(320, 12))


def pull_by_sums(pairs, clean):
    """Each station's pull carried along the traverse from clean ones: fore and back bearings must part by 180."""
    pull = dict.fromkeys(clean, 0.0)
    for _ in pairs:
        for start, end, fore, back in pairs:
            apart = (arc(*back) - arc(*fore)) % 360 - 180
            if start in pull and end not in pull:
                pull[end] = pull[start] + apart
            if end in pull and start not in pull:
                pull[start] = pull[end] - apart
    return pull


def traverse_expected(tally, pairs, pull, lines, note, sigma=USUAL_DEG["baseplate"]):
    """Pull at each station and corrected lines, after checking both by sums; the verdicts by weighing every set."""
    carried = pull_by_sums(pairs, [station for station, value in pull.items() if value == 0])
    for station, value in pull.items():
        tally.near(f"{note}: pull at {station}", carried[station], value, 1e-9)
    stations = Stations(closures_of(pairs), [], sigma)
    expect = stations.expected()
    for index, (station, value) in enumerate(pull.items()):
        told = expect[f"answer.stations.{index}.attraction_deg"]
        if told is not None:
            tally.near(f"{note}: told at {station}", told, value, 1e-8)
        verdict = expect[f"answer.stations.{index}.verdict"]
        tally.check(f"{note}: verdict at {station}", verdict != ("attracted" if value == 0 else "clean"), verdict)
    for index, ((start, end, fore, _), bearing) in enumerate(zip(pairs, lines)):
        tally.near(f"{note}: line {start}{end}", (arc(*fore) - pull[start]) % 360, bearing, 1e-9)
        expect[f"answer.lines.{index}.from"] = start
        expect[f"answer.lines.{index}.to"] = end
        expect[f"answer.lines.{index}.bearing_deg_mag"] = round(bearing, 9)
    return {**expect, "answer.error_deg": None, "answer.count": 0}


def typed(pairs):
    """Pairs as they are typed."""
    return [
        {"from": start, "to": end, "fore": f"{fore[0]}°{fore[1]:02d}' mag", "back": f"{back[0]}°{back[1]:02d}' mag"}
        for start, end, fore, back in pairs
    ]


def traverse_case(tally, pairs, pull, lines, note, **how):
    """A traverse of fore and back bearings."""
    sigma = how.get("reading_spread_deg", USUAL_DEG[how.get("instrument", "baseplate")])
    return case(record(pairs=typed(pairs), **how), traverse_expected(tally, pairs, pull, lines, note, sigma), note)


def published_case():
    """The published traverse by a hand compass, which does not show pulls of a degree: no station is accused, none called clean.

    With the fineness of its readings said, the next case, pull and corrected lines are the published ones.
    """
    expect = Stations(closures_of(PAIRS), [], USUAL_DEG["baseplate"]).expected()
    for index, (_, _, fore, back) in enumerate(PAIRS):
        apart = (arc(*back) - arc(*fore)) % 360 - 180
        expect[f"answer.lines.{index}.bearing_deg_mag"] = round(arc(*fore) + apart / 2, 9)
    note = "read in a surveying text, to two minutes of arc; a hand compass does not show such pulls: means of fore and back"
    return case(record(pairs=typed(PAIRS)), expect, note)


def weighed_case(closures, known, note, instrument="sighting"):
    """Lines of whole degrees with these closures, and known readings at stations: every station by weighing every set."""
    line = 40
    told = [
        {"from": a, "to": b, "fore": f"{(line + 70 * i + closure) % 360:g} mag", "back": f"{(line + 70 * i + 180) % 360:g} mag"}
        for i, ((a, b), closure) in enumerate(closures.items())
    ]
    readings = [
        {"read": f"{(25 + 60 * i + off) % 360:g} mag", "known": f"{(25 + 60 * i) % 360} mag", "station": name}
        for i, (name, off) in enumerate(known)
    ]
    expect = Stations(closures, known, USUAL_DEG[instrument]).expected()
    return case(record(pairs=told, readings=readings, instrument=instrument), expect, note)


RING = (("A", "B"), ("B", "C"), ("C", "D"), ("D", "E"), ("E", "A"))


KNOWN = (("A", 2.5), ("B", 1), ("C", 10.5), ("D", 3), ("E", 2))


def weighed_cases():
    """One of five stations turned by a few degrees, with readings that scatter."""
    return [
        weighed_case(dict(zip(RING, (1.5, -7, 8.5, -1, 0.5))), (), "constructed: a ring of lines, C reads eight too much"),
        weighed_case(dict(zip(RING, (1.5, -4, 5.5, -1, 0.5))), (), "constructed: the same, five too much: not to be told"),
        weighed_case({}, KNOWN, "constructed: one known bearing at each of five, C eight too much"),
        weighed_case(
            dict(zip(RING[:4], (1.5, -7, 8.5, -1))),
            KNOWN,
            "constructed: a chain and known bearings together",
        ),
        weighed_case({("A", "B"): 1}, (), "constructed: one line that agrees: both ends with a spread", "sighting"),
        weighed_case({("A", "B"): 1}, (), "constructed: the same by a baseplate compass: not to be told", "baseplate"),
    ]


def made(lines, pull):
    """The fore and back bearings that follow from lines in whole degrees and a pull at each station."""
    pairs = [
        (start, end, ((bearing + pull[start]) % 360, 0), ((bearing + 180 + pull[end]) % 360, 0))
        for (start, end), bearing in lines.items()
    ]
    return pairs, {station: float(value) for station, value in pull.items()}, [float(value) for value in lines.values()]


# The published traverse with one constructed line before it: a second pair of stations that are clean by their own line.
LONGER = (("Z", "A", (120, 0), (300, 0)), *PAIRS)
CLOSED = {("A", "B"): 72, ("B", "C"): 158, ("C", "D"): 247, ("D", "A"): 338}
OPEN = {("A", "B"): 355, ("B", "C"): 3, ("C", "D"): 90, ("D", "E"): 181, ("E", "F"): 270, ("F", "G"): 12}
# Two pairs of clean stations, as large as each other, that only attracted stations join.
PARTED = {("A", "B"): 355, ("B", "C"): 3, ("C", "D"): 90, ("D", "E"): 181, ("E", "F"): 270}


def contradicting_case():
    """Two pairs that are each free by their own line and of which one must be pulled, by two lines: nobody can say which."""
    closures = {("A", "B"): 0, ("B", "C"): -30, ("C", "D"): 0, ("D", "A"): 30}
    return weighed_case(closures, (), "constructed: two clean pairs that contradict each other are left open", "baseplate")


def traverse_cases(tally):
    """The published traverse, and two with a pull that a hand compass shows."""
    traverse_expected(tally, PAIRS, PULL, CORRECTED, "published traverse", 0.1)
    return [
        published_case(),
        traverse_case(
            tally, PAIRS, PULL, CORRECTED, "the published traverse, the fineness of its readings said", reading_spread_deg=0.1
        ),
        traverse_case(tally, *made(CLOSED, {"A": 0, "B": 0, "C": 15, "D": 0}), "constructed: a closed traverse, iron at C"),
        traverse_case(
            tally,
            *made(OPEN, {"A": 0, "B": 0, "C": -20, "D": 12, "E": 0, "F": 0, "G": 0}),
            "constructed: an open traverse over north, iron at C and D",
        ),
        traverse_case(
            tally,
            *made(PARTED, {"A": 0, "B": 0, "C": -20, "D": 12, "E": 0, "F": 0}),
            "constructed: a clean pair at either end, iron at C and D between them",
        ),
        traverse_case(
            tally,
            LONGER,
            {"Z": 0.0, **PULL},
            (120.0, *CORRECTED),
            "the published traverse with a constructed line before it: two clean pairs, the pulls between them as published",
            reading_spread_deg=0.1,
        ),
        contradicting_case(),
        placeless_case(tally),
    ]


def placeless_case(tally):
    """Lines read from both ends need no place: no declination stands between them."""
    note = "the published traverse without a place"
    by_place = traverse_case(tally, PAIRS, PULL, CORRECTED, note, reading_spread_deg=0.1)
    return {**by_place, "record": {key: value for key, value in by_place["record"].items() if key != "place"}}


def invalid():
    """What tells nothing of a compass."""
    reading = {"read": "214 mag", "known": "212 mag"}
    pair = {"from": "A", "to": "B", "fore": "44 40 mag", "back": "225 20 mag"}
    near = {"read": "214 mag", "from": "36.59, -84.25", "to": "36.5900, -84.2501"}
    road = 'name = "Road"\n[[line]]\nname = "Road"\npoints = ["36.590, -84.250", "36.591, -84.240"]\n'
    carried = {"do": "carry", "at": AT, "format": "toml", "text": road}
    from_nowhere = {"do": "compass", "at": AT, "readings": [{"read": "214 mag", "to": "36.600000, -84.200000"}]}
    return [
        refused(record(readings=[{**reading, "read": "214 grid"}]), "compass-read-not-magnetic", "a compass reads magnetic"),
        refused({"do": "compass", "at": AT, "readings": [{**reading, "known": "212 grid"}]}, "place-missing", "a grid bearing is turned by the declination of a place"),
        refused(record(readings=[{"read": "214 mag"}]), "compass-known-needed", "nothing to hold it against"),
        refused(record(readings=[{**reading, "sun_at": AT}]), "compass-known-needed", "a known line and the sun"),
        refused(record(readings=[{**reading, "read": "361 mag"}]), "bearing-out-of-range"),
        refused(record(readings=[{**reading, "known": "212"}]), "bearing-without-north"),
        refused(record(readings=[near]), "compass-points-too-near", "nine metres off, by places good to a kilometre"),
        {"before": [carried], **refused(from_nowhere, "compass-place-needed", "a sheet is carried, and nothing says where one stands")},
        refused(record(pairs=[{**pair, "back": "225 20 true"}]), "compass-read-not-magnetic"),
        refused(record(pairs=[{**pair, "to": "A"}]), "compass-line-unusable", "a line from a station to itself"),
        refused(record(pairs=[{**pair, "to": ""}]), "compass-line-unusable", "a station without a name"),
        refused(record(readings=[reading], instrument="sextant"), "instrument-unknown"),
        refused(record(readings=[{**reading, "spread_deg": -1}]), "number-unreadable"),
        refused(
            record(readings=[{"read": "90 mag", "sun_at": "2026-07-02T06:00:00Z"}]),
            "compass-sun-down",
            "after midnight there; DE421 puts the sun 29 degrees below the horizon",
        ),
        refused(record(readings=[{"read": "90 mag", "sun_at": "2026-07-02"}]), "sun-time-needed", "the sun needs its hour"),
        refused(record(readings=[{"read": "34 mag", "known": "212 mag"}], keep=True), "compass-error-not-kept", "reversed"),
        refused(record(readings=[{"read": "272 mag", "known": "212 mag"}], keep=True), "compass-error-not-kept", "60 off"),
        refused(
            record(readings=[{"read": f"{read} mag", "known": "100 mag"} for read in (100, 109)], instrument="sighting", keep=True),
            "compass-wide-not-kept",
            "two readings nine degrees apart tell an error of 4.5 degrees to 57",
        ),
        refused(
            {**record(readings=[reading], keep=True), "place": "86.0, 140.0"},
            "compass-blackout-not-kept",
            "beside the magnetic pole: the horizontal field is below 2,000 nT",
        ),
    ]


def build(tally):
    """The case file of compass errors."""
    cases = known_cases(tally) + [between_case(tally), named_case(tally), *grid_case(tally), own_place_case(tally), sun_case(tally)] + traverse_cases(tally) + weighed_cases()
    exact = (1e-6, "sums of given angles, written to 1e-9")
    tolerance, why = tolerances(
        error_deg=(0.001, "what the declination and the sun's azimuth may differ: 0.0001 and 0.0006"),
        error_spread_deg=(0.001, "as the error"),
        reading_spread_deg=(0.001, "as the error"),
        count=(0, "a count"),
        **{f"stations.{index}.attraction_deg": exact for index in range(7)},
        **{f"stations.{index}.spread_deg": (1e-4, "sets below 2 % of the odds are left out of both") for index in range(7)},
        **{f"stations.{index}.attracted_share": (0.002, "sets below 0.001 % of the odds are left out in the core") for index in range(7)},
        **{f"lines.{index}.bearing_deg_mag": exact for index in range(6)},
    )
    return [
        {
            "topic": "earth/compass",
            "about": "The error that one compass shares in all its readings, its spread, and stations where iron pulls it.",
            "source": "local attraction: read in a surveying text whose name was not taken down; the rest is constructed"
            " with numpy 2.4.6, geographiclib 2.1, pygeomag 1.1.0 and skyfield 1.55 (DE421)",
            "made_by": "tests/references/compass.py",
            "units": {
                "error_deg": "degrees: what the compass reads minus what it should, positive when it reads too much",
                "reading_spread_deg": "degrees, one sigma of one reading (n - 1)",
                "error_spread_deg": "degrees, one sigma of the error: of the mean, and of the declination where a bearing was not magnetic",
                "attracted_share": "the share of the odds by which the station is turned",
                "attraction_deg": "degrees: what is read at the station minus what should be",
                "bearing_deg_mag": "degrees, corrected, in the direction of the fore bearing",
            },
            "tolerance": tolerance,
            "tolerance_why": why,
            "cases": numbered(cases),
            "invalid": numbered(invalid()),
        }
    ]
