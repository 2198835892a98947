"""earth/minded: what is said beside an answer: squares, zones, suns, readings that stand out, the age of a map, dates without a model."""

import datetime
import math
import warnings

import mgrs
import numpy
import pyproj
from geographiclib.geodesic import Geodesic
from scipy import stats

import grid
from casefile import case, numbered, refused
from declination import change_deg_per_year, decimal_year, field
from light import position
from told import BOUND, DATE, bearing, centre, diagram_told, metres, rounded

AT = f"{DATE}T09:00:00Z"
GEOTRANS = mgrs.MGRS()
LINE_95 = stats.norm.ppf(0.975)
# Taken from the core, its choices or common practice without a source.
WILD_SPREADS, LEAST_DEG, WATCH_S, USUAL_DEG, LEAST_SHARE = 3.5, 0.5, 30, 1.5, 0.25
PRINTED_DEG, PRINTED_DEG_PER_YEAR = 0.25, 0.1
HERE = (47.5, 11.2)
# Where the declination has changed by as much since 1986 as the case of a change's sign says.
PLACE_OF_CHANGE = (60.0, 30.0)


def sheet(points, landmark=None, **more):
    """A sheet with a road, drawn by hand."""
    marks = [{"name": "Mast", "kind": "mast", "at": landmark}] if landmark else []
    return {"do": "sheet", "at": AT, "name": "Edge", "position_spread_m": 10, "lines": [{"name": "Edge road", "points": points}], "landmarks": marks, **more}


def squares(tally):
    """A short reference read over the edge of the sheet's square of 100 km: the whole one by GEOTRANS."""
    before = [sheet(["980 490", "990 492"], beginning="33TVK")]
    east = GEOTRANS.toMGRS(*centre("EPSG:32633", 502_050, 4_949_550), MGRSPrecision=3)
    south = GEOTRANS.toMGRS(*centre("EPSG:32633", 498_050, 4_899_950), MGRSPrecision=3)
    british = [sheet(["SU 990 567", "SU 995 570"], grid="EPSG:27700")]
    said = lambda typed, read: f'"{typed}" is read as {read}, in another 100{BOUND}km square than those of the sheet, as it lies nearest there. If that is wrong, write its square letters.'
    spaced = lambda whole: f"{whole[:3]} {whole[3:5]} {whole[5:8]} {whole[8:]}"
    check = {"do": "norths", "date": DATE}
    return [
        {"before": before, **case({"do": "place", "place": "020 495"}, {"said.2": said("020 495", spaced(east))}, "over the eastern edge of the sheet's square")},
        {"before": before, **case({**check, "place": "020 495"}, {"said.1": said("020 495", spaced(east))}, "the same, asked for its norths")},
        {"before": before, **case({"do": "between", "from": "985 491", "to": "020 495"}, {"said.2": said("020 495", spaced(east))}, "and for the way there")},
        {"before": before, **case({"do": "place", "place": "980999"}, {"said.2": said("980999", spaced(south))}, "over the southern edge")},
        {"before": before, **case({"do": "place", "place": "960 480"}, {"said.3": None}, "in the sheet's own square nothing is said")},
        {"before": before, **case({"do": "place", "place": "33TWK 020 495"}, {"said.3": None}, "nor where the letters were written")},
        {"before": before, **case({"do": "place", "place": "020 495", "beginning": "33TWK"}, {"said.3": None}, "nor where they were told")},
        {"before": [sheet(["PT 6500 6300", "PT 6600 6400"], beginning="32T")], **case({"do": "place", "place": "PT 6550 6350"}, {"answer.mgrs": "32TPT65506350"}, "a beginning of zone and band, every reference with its letters")},
        {"before": british, **case({"do": "place", "place": "010 567"}, {"said.3": said("010 567", "TQ 010 567")}, "letters of the British grid: TQ lies east of SU")},
    ]


def zones(tally):
    """A place far from a grid's zone, and coordinates on a zone's edge: distances by geodesics."""
    lat, lon = 47.5, 20.2
    far = metres(tally, Geodesic.WGS84.Inverse(lat, lon, lat, 18.0)["s12"])
    polar = metres(tally, Geodesic.WGS84.Inverse(81.5, 10.0, 84.0, 10.0)["s12"])
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        east, north = pyproj.Transformer.from_crs("EPSG:4326", "EPSG:32631", always_xy=True).transform(6.0, 50.0)
    east, north = math.ceil(east), round(north)
    beyond = Geodesic.WGS84.Inverse(50.0, 6.0, *centre("EPSG:32631", east, north))["s12"]
    tally.check("less than a metre beyond zone 31", beyond < 1, beyond)
    outside = lambda far, name: f"This place lies {far} outside {name}, farther than maps are counted on in one zone: check the grid and every figure."
    edge = "These coordinates lie on the edge of zone 31 and belong to zone 32. They are told by UTM 32 north."
    return [
        case({"do": "place", "place": f"{lat:.5f}, {lon:.5f}", "grid": "33N"}, {"said.1": outside(far, "UTM 33 north")}, "beyond the zone's eastern edge"),
        case({"do": "place", "place": "81.50000, 10.00000", "grid": "EPSG:32661"}, {"said.1": outside(polar, "EPSG:32661")}, "south of the polar area"),
        case({"do": "place", "place": "54.490000, -3.100000", "grid": "EPSG:5041"}, {"said.1": f"This place lies {metres(tally, Geodesic.WGS84.Inverse(54.49, -3.1, 60.0, -3.1)['s12'])} outside the area that EPSG:5041 is made for: check every figure, and the grid. How good its numbers are there nobody states."}, "an area that goes round the pole, from 60 degrees on"),
        case({"do": "place", "place": "47.50000, 18.90000", "grid": "33N"}, {"said.2": None}, "68 km beyond the edge maps are still counted on"),
        case({"do": "place", "place": f"31 north {east} {north}"}, {"said.1": edge}, "coordinates on the edge of their zone, not 0 m beyond it"),
    ]


def poles():
    """References that do not exist near the poles: where their middles lie by PROJ, letters by GEOTRANS."""
    asked = {"do": "place"}
    rows = (
        ("AJZ 12 34", "its square lies north of 80° S"),
        ("ZGP 99 99", "its square lies south of 84° N"),
        ("AAN 12 34", "the columns of zone A begin with J"),
        ("YAH 12 34", "those of zone Y with R"),
        ("ZMH 12 34", "those of zone Z end with J"),
        ("BZZ 12 34", "those of zone B with R"),
        ("Y 2500000 2000000", "Y is the western half"),
        ("Z 1500000 2000000", "Z is the eastern half"),
        ("UPS south 3250000 2000000", "north of 80° S"),
    )
    return [refused({**asked, "place": typed}, "reference-unreadable", note) for typed, note in rows]


def check_poles(tally):
    """The squares that are refused lie out of the polar areas, those that are read within."""
    for code, east, north, is_polar in (
        ("EPSG:5042", 812_500, 3_134_500, False), ("EPSG:5041", 2_499_500, 2_699_500, False), ("EPSG:5042", 3_250_000, 2_000_000, False),
        ("EPSG:5041", 2_012_500, 1_334_500, True),
    ):
        lat = abs(centre(code, east, north)[0])
        tally.check(f"{code} {east} {north}: {lat}", (lat > (83.5 if code == "EPSG:5041" else 79.5)) == is_polar, lat)


def half_sun_deg(place, at, seconds):
    """Half of what the sun's bearing goes on by from so many seconds before an instant to as many after, by the ephemeris."""
    ends = [position(place, at + datetime.timedelta(seconds=step), (0, 1013, 15))[0] for step in (-seconds, seconds)]
    return ((ends[1] - ends[0] + 180) % 360 - 180) / 2


HIGH = ((29.25, -100.25), "2026-05-21T18:37:00Z")
LOW = ((47.5, 11.2), "2026-07-01T06:00:00Z")


def suns(tally):
    """The watch in the spread of a sun's bearing, and a clock that is hours off."""
    cases = []
    for (place, moment), seconds, typed in ((HIGH, WATCH_S, None), (HIGH, 5, 5), (LOW, WATCH_S, None)):
        at = datetime.datetime.fromisoformat(moment)
        azimuth, height = position(place, at, (0, 1013, 15))
        model = field(*place, 0, decimal_year(at.date()))
        read = round((azimuth - model.d + 1) % 360, 1)
        clock = half_sun_deg(place, at, seconds)
        # A place to a hundred-thousandth of a degree moves the sun's bearing by its spread over the radius times the tangent.
        place_deg = math.degrees(111_200 * 1e-5 / math.sqrt(12) / 6_371_008.8) * math.tan(math.radians(height))
        # A sight held aslant by one degree turns it by the tangent, too.
        own = math.hypot(USUAL_DEG, place_deg, math.tan(math.radians(height)))
        record = {"do": "compass", "at": moment, "place": f"{place[0]:.5f}, {place[1]:.5f}", "instrument": "sighting",
                  "readings": [{"read": f"{read:g} mag", "sun_at": moment, **({"time_spread_s": typed} if typed else {})}]}
        expect = {
            "answer.error_deg": round(float((read + model.d - azimuth + 180) % 360 - 180), 6),
            "answer.error_spread_deg": round(float(math.hypot(own, clock, model.calculate_uncertainty().d)), 6),
        }
        if height > 60:
            rate = 2 * abs(half_sun_deg(place, at, 30))
            # A watch that moves the bearing by less than a degree at 95 % does not matter.
            aslant = "the watch must be right, and a sight held aslant turns it too" if LINE_95 * abs(clock) > 1 else "a sight held aslant turns it"
            expect["said.2"] = (
                f"The sun at {moment} stood {rounded(tally, height, 0)}° high and its bearing went on by {rounded(tally, rate, 1)}° a minute: {aslant}. Sight the sun when it stands low."
            )
        cases.append(case(record, expect, f"the sun {height:.0f} degrees high, the watch good to {seconds} s: {clock:.2f} degrees"))
    return cases + [clock_case(tally)]


def clock_case(tally):
    """Two suns told in summer time as if it were UTC: the same readings by a clock two hours earlier leave the compass's own error."""
    place, spoken = LOW[0], ("2026-07-01T08:00:00Z", "2026-07-01T09:30:00Z")
    declination = field(*place, 0, decimal_year(datetime.date(2026, 7, 1))).d
    real = [position(place, datetime.datetime.fromisoformat(moment) - datetime.timedelta(hours=2), (0, 1013, 15))[0] for moment in spoken]
    reads = [round((azimuth - declination + off) % 360, 1) for azimuth, off in zip(real, (1.1, 0.6))]
    error = sum((read + declination - azimuth + 180) % 360 - 180 for read, azimuth in zip(reads, real)) / 2
    record = {"do": "compass", "at": AT, "place": "47.50000, 11.20000", "readings": [{"read": f"{read:g} mag", "sun_at": moment} for read, moment in zip(reads, spoken)]}
    sentence = f"By a clock 2{BOUND}h earlier the error would be {rounded(tally, error, 1)}°: is the time of the sun right, its zone, and summer time?"
    return case(record, {"said.2": sentence}, "summer time taken for UTC")


def modified_scores(values, least):
    """How many robust spreads each value lies from the median: scipy's scaled median absolute deviation, no less than a floor."""
    spread = max(stats.median_abs_deviation(values, scale="normal"), least)
    return abs(numpy.asarray(values) - numpy.median(values)) / spread


def without(values, scores):
    """The values that do not stand out, and the numbers of those that do."""
    kept = [value for value, score in zip(values, scores) if score <= WILD_SPREADS]
    return kept, [number for number, score in enumerate(scores, 1) if score > WILD_SPREADS]


def wild(tally):
    """One wild reading of several, in a compass check and in a mean: the modified z-score of Iglewicz and Hoaglin by scipy."""
    offs = [3, 3.5, 25, 2.5, 3]
    kept, numbers = without(offs, modified_scores(offs, math.hypot(USUAL_DEG, 1 / math.sqrt(12))))
    tally.check("one known reading stands out", numbers == [3], numbers)
    # Known to whole degrees: that is no part of the readings' own spread.
    known_variance = 1 / 12
    spread = max(math.sqrt(max(float(numpy.var(kept, ddof=1)) - known_variance, 0)), LEAST_SHARE * USUAL_DEG)
    half = stats.t.ppf(0.975, len(kept) - 1) * math.sqrt((spread**2 + known_variance) / len(kept))
    known = [10, 60, 120, 200, 250]
    readings = [{"read": f"{(at + off) % 360:g} mag", "known": f"{at} mag"} for at, off in zip(known, offs)]
    record = {"do": "compass", "at": AT, "place": "47.50000, 11.20000", "instrument": "sighting", "readings": readings}
    error = float(numpy.mean(kept))
    sentence = (
        f"Known reading 3 lies {rounded(tally, 25 - error, 0)}° from what the others agree on: iron near, or read wrongly? Without it this compass"
        f" reads {rounded(tally, error, 1)}° too high, ±{BOUND}{rounded(tally, half, 1)}° (95{BOUND}%). Read again what stands out."
    )
    low = [{"read": f"{(at - off) % 360:g} mag", "known": f"{at} mag"} for at, off in zip(known, offs)]
    return [
        case({**record, "readings": low}, {"said.2": sentence.replace("too high", "too low"), "answer.count": 5}, "the same the other way round"),
        case(record, {"said.2": sentence, "answer.count": 5}, "one reading 22 degrees from four that agree; the mean of all is told beside it"),
        mean_case(tally),
        many_case(tally),
        case({"do": "mean", "bearings": ["214 mag", "216 mag", "217 mag", "213 mag"]}, {"said.1": None}, "none stands out"),
    ]


def many_case(tally):
    """Ninety-nine readings in tenths of a degree, drawn out evenly: their mean is worth hundredths."""
    reads = [214 + (37 * number % 101 - 43) / 100 for number in range(1, 100)]
    reads = [round(read, 1) for read in reads]
    mean, spread = float(numpy.mean(reads)), float(numpy.std(reads, ddof=1))
    limits = stats.t.ppf(0.975, len(reads) - 1) * spread / math.sqrt(len(reads))
    half = math.hypot(limits, LINE_95 * 0.1 / math.sqrt(12 * len(reads)))
    off = numpy.asarray(reads) - mean
    tally.check("the mean of so many is worth hundredths", 0.01 < half < 0.095, half)
    widest = float(abs(off).max())
    number = next(number for number, value in enumerate(off.tolist(), 1) if abs(value) > widest - 1e-9)
    sentence = (
        f"Mean of {len(reads)} readings: {rounded(tally, mean, 2)}°{BOUND}mag ±{BOUND}{rounded(tally, half, 2)}° (95{BOUND}%). One reading strays"
        f" {rounded(tally, spread, 1)}° (one sigma); number {number} lies {rounded(tally, float(off[number - 1]), 1)}° off."
    )
    return case({"do": "mean", "bearings": [f"{read} mag" for read in reads]}, {"said.0": sentence}, "as many figures as the spread needs")


def mean_case(tally):
    """A reading far from others of one bearing."""
    reads = [10, 11, 12, 60, 11]
    kept, numbers = without(reads, modified_scores(reads, 1.0))
    tally.check("one of several readings stands out", numbers == [4], numbers)
    spread = float(numpy.std(kept, ddof=1))
    half = math.hypot(stats.t.ppf(0.975, len(kept) - 1) * spread / 2, LINE_95 / math.sqrt(12) / 2)
    sentence = (
        f"Number 4 stands out of the others, which agree: read it again. Without it the mean of 4 readings is {bearing(tally, float(numpy.mean(kept)), 'mag')}"
        f" ±{BOUND}{rounded(tally, half, 1)}° (95{BOUND}%)."
    )
    return case({"do": "mean", "bearings": [f"{read} mag" for read in reads]}, {"said.1": sentence}, "one reading far from the others")


def maps(tally):
    """A printed diagram's sign, and the age of a map."""
    model = field(*HERE, 0, decimal_year(datetime.date.fromisoformat(DATE))).d
    asked = {"do": "norths", "place": "47.50000, 11.20000", "date": DATE}
    turned = f"With the other sign of its angle it would agree with the model: east is positive, west is negative. As it was given it differs by {rounded(tally, 4.2 + model, 1)}°."
    against = lambda deg, year, age: f"{diagram_told(tally, HERE, deg, year, DATE)} {age}."
    points = ["32T PT 6500 6300", "32T PT 6600 6400"]
    old = "The map is of 1985, 41 years old: what was built or felled since is not on it, and a north diagram that it prints is not to be relied on."
    later = "The map is said to be of 2050, a year to come: check the year, and the date."
    fresh = "The map is of 2015: what was built or felled since is not on it."
    norths = {"do": "norths", "place": "32T PT 6550 6350", "date": DATE}
    made = sheet(points, printed_year=1985)
    mid = field(*HERE, 0, 2026.5)
    within = math.hypot(mid.calculate_uncertainty().d, change_deg_per_year(*HERE, 0, 2026.5) / math.sqrt(12))
    of_year = "2026 is a year without a day: its middle is meant, and what the declination changes in half a year is in its ±."
    spreads = {"answer.declination_deg": round(mid.d, 6), "answer.declination_spread_deg": round(within, 6), "said.1": of_year}
    toml = 'name = "Edge"\nprinted_year = 1985\n[[line]]\nname = "Edge road"\nkind = "road"\npoints = ["32T PT 6500 6300", "32T PT 6600 6400"]\n'
    return [
        case({**asked, "printed": {"declination_deg": -4.2, "year": 2026}}, {"said.1": against(-4.2, 2026, "It is less than a year old"), "said.2": turned}, "west for east"),
        case({**asked, "printed": {"declination_deg": 14.2, "year": 2025}}, {"said.1": against(14.2, 2025, "It is one year old"), "said.2": None}, "ten degrees too many"),
        case({**asked, "printed": {"declination_deg": 4.2, "year": 2026}}, {"said.2": None}, "east as it is"),
        case({**asked, "date": "2026"}, spreads, "a year without a day"),
        case({**asked, "date": "2026.5"}, {"answer.declination_deg": round(mid.d, 6), "said.1": None}, "its middle as a decimal year"),
        case(made, {"said.1": old}, "an old map drawn"),
        case({"do": "carry", "at": AT, "format": "toml", "text": toml}, {"said.1": old}, "an old map carried"),
        case(sheet(points, printed_year=2050), {"said.1": later}, "a map of a year to come"),
        case(sheet(points, printed_year=2015), {"said.1": fresh}, "a map of eleven years"),
        {"before": [made], **case(norths, {"said.1": old}, "norths on an old map")},
        {"before": [sheet(points, printed_year=2015)], **case(norths, {"said.1": None}, "norths on a map of eleven years")},
    ]


def printed_spread(place, years):
    """One sigma of a diagram so many years after the middle of its own, past the model: as printed, the model's own at its last day, a fifth of its change,
    and 9 minutes within its own year of which no day is known."""
    last = decimal_year(datetime.date(2029, 12, 31))
    own = field(*place, 0, last).calculate_uncertainty().d
    per_year = max(PRINTED_DEG_PER_YEAR, 0.2 * abs(change_deg_per_year(*place, 0, last)))
    return math.hypot(PRINTED_DEG, own, per_year * years, 9 / 60 / math.sqrt(12))


def diagrams(tally):
    """The sheet's own diagram: asked with the norths, told with a fix when it is old, and alone where the model does not hold."""
    east, north = 665_000, 5_263_000
    landmark = "32T PT 6700 6300"
    points = ["32T PT 6500 6300", "32T PT 6600 6400"]
    printed = {"declination_deg": 4.25, "year": 2024, "annual_change_min": 9}
    before = [sheet(points, landmark, norths=printed)]
    place = centre("EPSG:32632", east + 505, north + 505)
    convergence = grid.utm(tally, *place).convergence_deg
    then = decimal_year(datetime.date(2031, 7, 1))
    declination = 4.25 + (then - 2024.5) * 9 / 60
    spread = printed_spread(HERE, then - 2024.5)
    fix = lambda north, at: {"do": "fix", "at": at, "line": "Edge road", "sightings": [{"landmark": "Mast", "bearing": f"110 {north}"}]}
    later = "2031-07-01T09:00:00Z"
    outside = "2031-07-01 is outside the magnetic model (2020-01-01 to 2029-12-31)"
    told = f"{outside}: magnetic bearings are turned by the sheet's own diagram alone, {then - 2024.5:.0f} years old: check them by a bearing whose answer is known."
    rough = (
        f"{outside}: what is told from magnetic north is only rough, and magnetic bearings cannot be used. Check the date; use grid or true bearings, or give the"
        " sheet its printed north diagram."
    )
    carried = {**sheet(points, landmark), "at": later}
    grid_magnetic = declination - convergence
    sighted = "snapshot.fix.sightings.0"
    # The fix's place is its own: the convergence there is that of the middle of the road within 0.01 degrees.
    return [
        {"before": before, **case(fix("mag", later), {f"{sighted}.bearing_deg_grid": round(110 + grid_magnetic, 3)}, "turned by the diagram: the model does not hold in 2031")},
        case({**before[0], "at": later}, {"said.2": told}, "drawn when the model does not hold"),
        case(carried, {"said.2": rough}, "the same without a diagram"),
        {"before": [carried], **case(fix("grid", later), {f"{sighted}.bearing_deg_grid": 110.0}, "a grid bearing needs no model")},
        {"before": [sheet(points, landmark)], **case(fix("grid", "1970-01-01T00:00:00Z"), {f"{sighted}.bearing_deg_grid": 110.0}, "nor before it")},
    ], [{"before": [carried], **refused(fix("mag", later), "date-outside-model", "a magnetic bearing without model and diagram")}], spread


def unmodelled(tally):
    """Norths, a bearing between places and a compass on a date that only a printed diagram reaches; held against the model of its own year."""
    later, printed = "2031-07-01", {"declination_deg": 4.25, "year": 2024, "annual_change_min": 9}
    years = decimal_year(datetime.date.fromisoformat(later)) - 2024.5
    declination = 4.25 + years * 9 / 60
    spread = printed_spread(HERE, years)
    then = field(*HERE, 0, 2024.5).d
    asked = {"do": "norths", "place": "47.50000, 11.20000", "date": later}
    own = field(*HERE, 0, 2024.5).calculate_uncertainty().d
    joint = rounded(tally, LINE_95 * math.hypot(PRINTED_DEG, own, own, 9 / 60 / math.sqrt(12)), 1)
    differs = lambda deg: f"In 2024, its own year, the sheet's diagram lies {rounded(tally, abs(deg - then), 1)}° from the model"
    both = f", no more than both are good for, ±{BOUND}{joint}° together (95{BOUND}%)."
    wrong = f", which is more than both are good for, ±{BOUND}{joint}° together (95{BOUND}%): do not turn bearings by it before its figures, signs and year have been compared with the margin."
    turned = f"With the other sign of its angle it would agree with the model: east is positive, west is negative. As it was given it differs by {rounded(tally, 4.25 + then, 1)}°."
    alone = "2031-07-01 is outside the magnetic model (2020-01-01 to 2029-12-31): magnetic bearings are turned by the sheet's own diagram alone, 7 years old: check them by a bearing whose answer is known."
    beyond = alone.split("alone, ")[0] + "alone, and it lies farther from the model than both are good for: do not turn bearings by it before its figures, signs and year have been compared with the margin."
    known = {
        "answer.declination_deg": round(declination, 6), "answer.declination_spread_deg": round(spread, 6),
        "answer.inclination_deg": None, "answer.total_nt": None, "answer.model": None, "said.1": differs(4.25) + both, "said.2": alone, "said.3": None,
    }
    before = [sheet(["32T PT 6500 6300", "32T PT 6600 6400"], norths=printed)]
    ends = [centre("EPSG:32632", 665_005, 5_263_005), centre("EPSG:32632", 666_005, 5_264_005)]
    way = Geodesic.WGS84.Inverse(*ends[0], *ends[1])["azi1"]
    between = {"do": "between", "from": "32T PT 6500 6300", "to": "32T PT 6600 6400", "date": later}
    compass = {"do": "compass", "at": f"{later}T09:00:00Z", "place": "32T PT 6500 6300", "instrument": "sighting"}
    magnetic = [{"read": "121.5 mag", "known": "120.0 mag"}]
    sighted = [{"read": f"{way - declination + 2:.1f} mag", "to": "32T PT 6600 6400"}]
    error = float(sighted[0]["read"][:-4]) - (way - declination)
    doubled = {"declination_deg": 9.0, "year": 1986, "annual_change_min": -4.5}
    back = 9.0 - (decimal_year(datetime.date.fromisoformat(DATE)) - 1986.5) * 4.5 / 60
    changed = "With the other sign of its yearly change it would agree with the model: east is positive, west is negative. As it was given it differs by"
    model = field(*PLACE_OF_CHANGE, 0, decimal_year(datetime.date.fromisoformat(DATE))).d
    tally.check("the change turned agrees", abs(18.0 - back - model) < 0.25 * abs(back - model) and abs(back - model) > 2, (back, model))
    return [
        case({**asked, "printed": printed}, known, "a printed diagram where the model does not hold"),
        case({**asked, "printed": {**printed, "declination_deg": -4.25}}, {"said.1": differs(-4.25) + wrong, "said.2": turned, "said.3": beyond}, "its sign turned: seen by the model of its own year"),
        case({**asked, "date": DATE, "place": f"{PLACE_OF_CHANGE[0]:.5f}, {PLACE_OF_CHANGE[1]:.5f}", "printed": doubled},
             {"said.2": f"{changed} {rounded(tally, abs(back - model), 1)}°."}, "the sign of its yearly change turned"),
        {"before": before, **case({"do": "norths", "place": "32T PT 6500 6300", "date": later}, {"answer.declination_deg": round(declination, 6)}, "the sheet's own, asked there")},
        {"before": before, **case(between, {"answer.bearing_deg_mag": round(way - declination, 6), "said.2": f"The magnetic bearing is also off by what the sheet's diagram brought to that date is: ±{BOUND}{rounded(tally, LINE_95 * spread, 1)}° (95{BOUND}%)."}, "a way on it")},
        case({**compass, "readings": magnetic}, {"answer.error_deg": 1.5, "said.2": None}, "a compass against a magnetic bearing needs no declination"),
        {"before": before, **case({**compass, "readings": sighted}, {"answer.error_deg": round(error, 6), "said.2": alone}, "a compass against a mapped point, by the sheet's diagram")},
    ], [refused({**compass, "readings": sighted}, "date-outside-model", "a mapped point without model and diagram")]


def figures(tally):
    """Places off the sheet: five figures twice where coordinates have six and five, and what lies beyond the polar area."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        east, north = pyproj.Transformer.from_crs("EPSG:4326", "EPSG:32761", always_xy=True).transform(33.0, -79.8)
    east, north = round(east), round(north)
    beyond = metres(tally, Geodesic.WGS84.Inverse(-80.0, 33.0, *centre("EPSG:32761", east, north))["s12"])
    cornish = [sheet(["248500 54500", "249100 55300"], grid="EPSG:27700")]
    lost = '"24850 54500" is read as the reference SX 24850 54500, to the metre, off the sheet. If coordinates were meant, its easting lacks a figure: on the sheet it has six.'
    far = [sheet(["980 490", "990 492"], beginning="33TVK")]
    middle = centre("EPSG:32633", 498_550, 4_949_150)
    reach = Geodesic.WGS84.Inverse(*middle, *centre("EPSG:32633", 499_050, 4_949_250))["s12"]
    apart = Geodesic.WGS84.Inverse(*middle, *centre("EPSG:32633", 470_050, 4_949_550))["s12"] - reach
    tally.check("more than 7 km from the sheet", apart > 7_000, apart)
    return [
        case({"do": "place", "place": f"UPS south {east} {north}"}, {"said.1": f"These coordinates lie {beyond} beyond the polar area, in zone 36. They are told by UTM 36 south. Check the zone and the figures."}, "where the polar area and its neighbour overlap"),
        {"before": cornish, **case({"do": "norths", "place": "24850 54500", "date": DATE}, {"said.1": lost}, "a figure of the easting lost: read as a reference to the metre")},
        {"before": cornish, **case({"do": "norths", "place": "48700 54700", "date": DATE}, {"said.1": None}, "a reference to the metre on the sheet")},
        {"before": far, **case({"do": "place", "place": "33TVK 700 495"}, {"said.2": f'"33TVK 700 495" lies {metres(tally, apart)} from everything on the sheet: check the figures of its easting.'}, "far off the sheet in its own square")},
    ]


def others(tally):
    """The unit of a grid, the angle in its unit, a blank that may mean two bearings, a compass without readings."""
    turn = {"do": "turn", "bearing": "1600 mil mag", "to": "grid", "unit": "mil", "declination_deg": 9, "convergence_deg": 0}
    mils = f"1600{BOUND}mil{BOUND}mag is 1760{BOUND}mil{BOUND}grid (how far it may be off is not told: the spread of an angle that was given is not known); its back bearing is 4960{BOUND}mil{BOUND}grid (grid-magnetic angle {rounded(tally, 9 * 6400 / 360, 1)}{BOUND}mil, east positive)."
    cases = [case(turn, {"said.0": mils}, "the grid-magnetic angle in the unit that was asked")]
    invalid = [refused({**turn, "bearing": typed}, "bearing-blank", note) for typed, note in (
        ("2 14 mag", "214, or 2 degrees and 14 minutes"), ("3 30 mag", "330, or 3 degrees and 30 minutes"), ("S 0 45 E mag", "45, or 45 minutes"))]
    invalid.append(refused({"do": "compass", "at": AT, "place": "47.50000, 11.20000"}, "compass-no-readings", "nothing was read"))
    return cases, invalid


def kept():
    """A wild reading bends an error that would be kept."""
    readings = [{"read": f"{(at + off) % 360:g} mag", "known": f"{at} mag"} for at, off in zip((10, 60, 120, 200, 250), (3, 3.5, 25, 2.5, 3))]
    record = {"do": "compass", "at": AT, "place": "32T PT 6550 6350", "instrument": "sighting", "readings": readings, "keep": True}
    return {"before": [sheet(["32T PT 6500 6300", "32T PT 6600 6400"])], **refused(record, "compass-wild-not-kept", "one of five stands out")}


def names(tally):
    """What stands on the sheet is a place by its name wherever one is typed: as the coordinates that it was given."""
    lat, lon, spread_m = 44.7, 14.46, 10
    before = [sheet(["33TVK 5600 4900", "33TVK 5700 5000"], f"{lat:.6f}, {lon:.6f}")]
    there = {"answer.lat_deg": lat, "answer.lon_deg": lon}
    knows = f"mast stands on the sheet, which knows it to ±{BOUND}{metres(tally, LINE_95 * spread_m)} (95{BOUND}%)."
    way = Geodesic.WGS84.Inverse(lat, lon, 44.71, 14.48)
    azimuth, _ = position((lat, lon), datetime.datetime(2026, 7, 2, 9, tzinfo=datetime.timezone.utc), (0, 1013.25, 15))
    asked = [
        ({"do": "place", "place": "mast"}, {**there, "said.1": knows, "said.3": None}, "a landmark, in lower case"),
        ({"do": "norths", "place": "Mast", "date": DATE}, there, "its norths"),
        ({"do": "between", "from": "Mast", "to": "44.710000, 14.480000"}, {"answer.distance_m": way["s12"], "answer.bearing_deg_true": way["azi1"] % 360}, "the way from it"),
        ({"do": "light", "place": "Mast", "at": "2026-07-02T09:00:00Z"}, {"answer.azimuth_deg_true": azimuth}, "the light there"),
    ]
    nowhere = {"before": before, **refused({"do": "place", "place": "Nowhere"}, "reference-unreadable", "nothing on the sheet has this name")}
    return [{"before": before, **case(*one)} for one in asked], nowhere


def build(tally):
    """The case file."""
    check_poles(tally)
    by_diagram, without_model, _ = diagrams(tally)
    single, invalid = others(tally)
    by_print, no_print = unmodelled(tally)
    by_name, nowhere = names(tally)
    cases = squares(tally) + by_name + zones(tally) + suns(tally) + wild(tally) + maps(tally) + by_diagram + by_print + figures(tally) + single
    return [
        {
            "topic": "earth/minded",
            "about": "What is said beside an answer: a square, zone or half that was hardly meant, the watch in a sun's bearing, readings that stand out, the age of a map, dates on which the magnetic model does not hold.",
            "source": f"the wording is the core's own; figures: {grid.PROJ_SOURCE}, GEOTRANS by mgrs 1.6.0, geographiclib 2.1, skyfield 1.55 (DE421), pygeomag 1.1.0, scipy 1.17.1",
            "made_by": "tests/references/minded.py",
            "units": {
                "said": "text, with no-break spaces between a number and its unit; null where nothing more is said",
                "lat_deg": "degrees north, WGS 84",
                "lon_deg": "degrees east, WGS 84",
                "distance_m": "metres on the ellipsoid",
                "bearing_deg_true": "degrees from true north",
                "azimuth_deg_true": "degrees from true north",
                "error_deg": "degrees, what the compass reads too much",
                "error_spread_deg": "degrees, one sigma: the reading, the watch, the place and the declination",
                "bearing_deg_grid": "degrees from grid north",
                "bearing_deg_mag": "degrees from magnetic north",
                "declination_deg": "degrees, east positive",
                "declination_spread_deg": "degrees, one sigma",
            },
            "tolerance": {"answer.lat_deg": 1e-9, "answer.lon_deg": 1e-9, "answer.distance_m": 0.001, "answer.bearing_deg_true": 1e-4, "answer.azimuth_deg_true": 0.001, "answer.error_deg": 0.01, "answer.error_spread_deg": 0.005, "answer.count": 0, "answer.declination_deg": 1e-6, "answer.declination_spread_deg": 1e-6, "answer.bearing_deg_mag": 1e-6, "snapshot.fix.sightings.0.bearing_deg_grid": 0.01},
            "tolerance_why": {
                "answer.lat_deg": "a tenth of a millimetre: into the sheet's plane and back",
                "answer.lon_deg": "as the latitude",
                "answer.distance_m": "as the latitude, at 2 km",
                "answer.bearing_deg_true": "as the latitude, at 2 km",
                "answer.azimuth_deg_true": "SPA states 0.0003 degrees, DE421 is exact beside it; the difference of the earth's rotation is 0.0006",
                "answer.error_deg": "the sun's azimuth beside the zenith: 0.0006 degrees of its place make ten times as much there",
                "answer.error_spread_deg": "as the error, over a minute",
                "answer.count": "a count",
                "answer.declination_deg": "sums, printed to the sixth decimal",
                "answer.declination_spread_deg": "as the declination",
                "answer.bearing_deg_mag": "as the declination",
                "snapshot.fix.sightings.0.bearing_deg_grid": "the convergence at the fix beside that at the middle of the road",
            },
            "cases": numbered(cases),
            "invalid": numbered(poles() + without_model + no_print + invalid + [kept(), nowhere]),
        }
    ]
