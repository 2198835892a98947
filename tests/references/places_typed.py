"""earth/places_typed and earth/own_grids: places as people type them, read and written again."""

import math
import warnings
from decimal import ROUND_FLOOR, Decimal
from fractions import Fraction

import pyproj
from convertbng import cutil as ostn15
from geographiclib.geodesic import Geodesic
import numpy

import grid
from casefile import case, numbered, refused, tolerances



def dms(degrees, minutes=0, seconds=0):
    """Degrees, minutes and seconds, exactly until the last step."""
    return float(Fraction(str(degrees)) + Fraction(str(minutes)) / 60 + Fraction(str(seconds)) / 3600)


def parts(value, halves, smallest, decimals):
    """An angle cut into degrees and minutes (60) or minutes and seconds (3600), rounded once, carried upward."""
    counted = int(Fraction(abs(value)) * smallest * 10**decimals + Fraction(1, 2))
    per_degree = smallest * 10**decimals
    rest = counted % per_degree
    half = halves[0] if value >= 0 else halves[1]
    return counted // per_degree, rest, half


def minutes_text(lat, lon):
    """Degrees and minutes with three decimals."""
    texts = []
    for value, halves in ((lat, "NS"), (lon, "EW")):
        degrees, rest, half = parts(value, halves, 60, 3)
        texts.append(f"{degrees}\u00b0{rest // 1000:02d}.{rest % 1000:03d}'{half}")
    return " ".join(texts)


def seconds_text(lat, lon):
    """Degrees, minutes and seconds with one decimal."""
    texts = []
    for value, halves in ((lat, "NS"), (lon, "EW")):
        degrees, rest, half = parts(value, halves, 3600, 1)
        minutes, tenths = divmod(rest, 600)
        texts.append(f"{degrees}\u00b0{minutes:02d}'{tenths // 10:02d}.{tenths % 10}\"{half}")
    return " ".join(texts)


def utm_text(place, lat, lon):
    """Zone, half and rounded metres."""
    zone = "UPS" if grid.is_polar(lat) else str(grid.zone_of(lat, lon))
    return f"{zone} {'north' if lat >= 0 else 'south'} {round(place.easting_m)} {round(place.northing_m)}"


DEGREES = (
    # typed, latitude, longitude, note
    ("-33.8568, 151.2153", -33.8568, 151.2153, None),
    ("\u201333.8568, \u2212151.2153", -33.8568, -151.2153, "a dash and a minus sign for the hyphen"),
    ("52\u02da30.258\u02b9N 13\u02da24.170\u00b4E", dms(52, "30.258"), dms(13, "24.170"), "a ring above, a prime and an accent for marks"),
    ("33.8568 S 151.2153 E", -33.8568, 151.2153, "the half of the world behind"),
    ("N 52.5 E 13.4", 52.5, 13.4, "the half of the world in front"),
    ("52.5deg N 13.4deg E", 52.5, 13.4, "the word for the mark"),
    ("52.5 degrees N, 13.4 Deg. E", 52.5, 13.4, "the word behind a blank"),
    ("52.5N, 13.4E", 52.5, 13.4, None),
    ("52 5.25 N, 13 6.75 E", 52.0875, 13.1125, "minutes of one figure with a point"),
    ("52°5'15\"N 13°6'45\"E", 52.0875, 13.1125, "minutes of one figure with their mark"),
    ("52.5\u00b0 N, 13.4\u00b0 E", 52.5, 13.4, None),
    ("52\u00ba5'15\"N 13\u00ba6'45\"E", 52.0875, 13.1125, "the ordinal sign for the degree's"),
    ("52d05m15s N 13d06m45s E", 52.0875, 13.1125, "letters for marks"),
    ("52.5 n 13.4 e", 52.5, 13.4, "lower case"),
    ("13.4 E 52.5 N", 52.5, 13.4, "longitude first, and said so"),
    ("  52.5 ,  -13.4  ", 52.5, -13.4, "blanks"),
    ("52 30.258 N, 13 24.170 E", dms(52, "30.258"), dms(13, "24.170"), "degrees and minutes"),
    ("52 30.258N 13 24.170E", dms(52, "30.258"), dms(13, "24.170"), "without the comma"),
    ("52\u00b030.258'N 13\u00b024.170'E", dms(52, "30.258"), dms(13, "24.170"), "with the marks"),
    ("N 52\u00b0 30.258' W 13\u00b0 24.170'", dms(52, "30.258"), -dms(13, "24.170"), "letters in front"),
    ("52 30 N 13 24 E", dms(52, 30), dms(13, 24), "whole minutes"),
    ("52\u00b030'15.5\"N 13\u00b024'10.2\"E", dms(52, 30, "15.5"), dms(13, 24, "10.2"), "degrees, minutes, seconds"),
    ("52 30 15.5 N 13 24 10.2 E", dms(52, 30, "15.5"), dms(13, 24, "10.2"), None),
    ("52\u00b030\u203215.5\u2033N, 13\u00b024\u203210.2\u2033E", dms(52, 30, "15.5"), dms(13, 24, "10.2"), "typographic marks"),
    ("33 51 24.5 S 151 12 55.1 W", -dms(33, 51, "24.5"), -dms(151, 12, "55.1"), "south and west"),
    ("00 00 01.0 S 000 00 01.0 W", -dms(0, 0, 1), -dms(0, 0, 1), "a sign with no degrees to carry it"),
    ("0.5 S 0.25 W", -0.5, -0.25, None),
    ("52 59 59.99 N 13 59 59.99 E", dms(52, 59, "59.99"), dms(13, 59, "59.99"), "told: 60 seconds carry into the degree"),
    ("45.99999999, -7.99999999", 45.99999999, -7.99999999, "told: 60 minutes carry into the degree"),
    ("52:30:15.5 N 13:24:10.2 E", dms(52, 30, "15.5"), dms(13, 24, "10.2"), "colons"),
    ("-33:51:24.5, 151:12:55.1", -dms(33, 51, "24.5"), dms(151, 12, "55.1"), "colons, signs and a comma"),
    ("5230N 01324E", dms(52, 30), dms(13, 24), "degrees and minutes run together"),
    ("N523015.5 W0132410.2", dms(52, 30, "15.5"), -dms(13, 24, "10.2"), "seconds run together, letters in front"),
    ("01324.170E, 5230.258S", -dms(52, "30.258"), dms(13, "24.170"), "minutes run together, longitude first, a comma"),
    ("geo:48.198634,16.371648;crs=wgs84;u=40", 48.198634, 16.371648, "a link by RFC 5870 with its uncertainty"),
    ("geo:48.2010,16.3695,183", 48.2010, 16.3695, "a link with a height, which is no part of the place"),
    ("90, 0", 90.0, 0.0, "the North Pole"),
    ("-90, 0", -90.0, 0.0, "the South Pole"),
)


def degrees_case(tally, typed, lat, lon, note):
    """A latitude and longitude read, and told in every form."""
    place = grid.OnGrid(2e6, 2e6, 0, 0.994) if abs(lat) == 90 else grid.utm(tally, lat, lon)
    expect = {
        "answer.lat_deg": lat,
        "answer.lon_deg": lon,
        "answer.square_m": 0,
        "answer.dm": minutes_text(lat, lon),
        "answer.dms": seconds_text(lat, lon),
        "answer.utm": utm_text(place, lat, lon),
    }
    return case({"do": "place", "place": typed}, expect, note)


UTM = (
    # typed, EPSG code, easting, northing, note
    ("33T 456789 4953012", 32633, 456789, 4953012, "zone and band"),
    ("33 T 456789 4953012", 32633, 456789, 4953012, None),
    ("33t 456789 4953012", 32633, 456789, 4953012, "lower case"),
    ("33 north 456789 4953012", 32633, 456789, 4953012, "zone and half of the world"),
    ("33N 456789mE 4953012mN", 32633, 456789, 4953012, "N for north: the band N ends at 885 km"),
    ("33 North 456789.25 4953012.75", 32633, 456789.25, 4953012.75, "decimals"),
    ("UTM 33T 456789 4953012", 32633, 456789, 4953012, "the system named in front"),
    ("UTM Zone 33T 456789 4953012", 32633, 456789, 4953012, "and the zone"),
    ("56H 334900 6252290", 32756, 334900, 6252290, None),
    ("56 south 334900 6252290", 32756, 334900, 6252290, None),
    ("56S 334900 6252290", 32756, 334900, 6252290, "S for south: the band S lies from 3540 to 4430 km north"),
    ("1 north 400000 10", 32601, 400000, 10, "just north of the equator"),
    ("60 south 400000 9999990", 32760, 400000, 9999990, "just south of the equator"),
    ("31 north 166021 0", 32631, 166021, 0, "on the equator"),
    ("UPS north 2000000 2000000", 5041, 2000000, 2000000, "the North Pole"),
    ("UPS north 2100000 1900000", 5041, 2100000, 1900000, None),
    ("UPS south 1800000 2100000", 5042, 1800000, 2100000, None),
)


def utm_case(tally, typed, code, easting, northing, note):
    """UTM or UPS coordinates read: PROJ's inverse, and back."""
    projection = pyproj.Proj(f"EPSG:{code}")
    lon, lat = projection(easting, northing, inverse=True)
    tally.near(f"{typed} there and back", math.dist(projection(lon, lat), (easting, northing)), 0, 1e-6)
    expect = {"answer.lat_deg": round(lat, 10), "answer.square_m": 0}
    if abs(lat) < 89.9999:
        expect["answer.lon_deg"] = round(lon, 10)
    return case({"do": "place", "place": typed}, expect, note)


SHORT = (
    # typed, beginning, whole reference, note
    ("5696 4953", "33TVM", "33TVM56964953", "zone and letters from the sheet"),
    ("56964953", "33TVM", "33TVM56964953", None),
    ("vm 5696 4953", "33TVM", "33TVM56964953", "the zone from the sheet"),
    ("WM 0196 4953", "33TVM", "33TWM01964953", "the neighbouring square, in the sheet's zone"),
    ("569 495", "33 T VM", "33TVM569495", "a beginning with blanks"),
    ("56 49", "33tvm", "33TVM5649", "a beginning in lower case"),
    ("33TVM 5696 4953", "18TWL", "33TVM56964953", "a whole reference needs no beginning"),
    ("18twl8566411315", None, "18TWL8566411315", "lower case"),
    ("18 T WL 85664 11315", None, "18TWL8566411315", "blanks"),
    ("MGRS 18TWL8566411315", None, "18TWL8566411315", "the name of the form before it"),
    ("mgrs: 18T WL 85664 11315", None, "18TWL8566411315", "and a colon"),
    ("55DEG6909", None, "55DEG6909", "the square EG in the band D is no word for degrees"),
    ("55 deg 69 09", None, "55DEG6909", "nor with blanks in lower case"),
)


def short_case(typed, beginning, whole, note):
    """A short reference completed: the centre of the square by PROJ."""
    lat, lon = grid.GEOTRANS.toLatLon(whole)
    digits = len(whole) - 5
    record = {"do": "place", "place": typed, "digits": digits}
    expect = {
        "answer.lat_deg": round(lat, 9),
        "answer.lon_deg": round(lon, 9),
        "answer.square_m": 10 ** (5 - digits // 2),
        "answer.mgrs": whole,
    }
    return case({**record, **({"beginning": beginning} if beginning else {})}, expect, note)


UNREADABLE = (
    # typed, note
    ("X 500000 4649776", "coordinates without their zone"),
    ("500000 4649776 33T", "their zone behind them"),
    ("33N 500km 4649km", "a unit behind the numbers"),
    ("33T 500,000 4,649,776", "commas that part thousands"),
    ("42°30'S -15°15'", "a letter with one angle and a sign with the other"),
    ("42 30 S 15 15", "a letter with one angle alone"),
    ("47.5, 11.2, 642", "a height behind them"),
    ("5.25e1, 13.4", "an exponent is no way to write a place"),
    ("(52.5, 13.4)", "brackets belong in no angle"),
    ("52-30-15N 13-24-10E", "nor do hyphens"),
    ("52 60.000 N, 13 24 E", "60 minutes are the next degree"),
    ("52 30 60 N 13 24 10 E", "60 seconds are the next minute"),
    ("52.5 30 N 13 24 E", "a fraction of a degree, and minutes beside it"),
    ("52 30.5 15 N 13 24 10 E", "a fraction of a minute, and seconds beside it"),
    ("N 52.5 N 13.4", "two latitudes"),
    ("52.5 E 13.4 E", "two longitudes"),
    ("-52.5 S 13.4 E", "a sign and a letter"),
    ("91 00.0 N 13 24 E", "beyond the pole"),
    ("52 30 N 181 00 E", "beyond 180"),
    ("90 00 00.1 N 13 24 00 E", "beyond the pole by three metres"),
    ("52 30 N", "a latitude alone"),
    ("52.5", "one number"),
    ("52d30m15s N", "a latitude alone, by letters"),
    ("52.5 N 13.4 N", "two latitudes"),
    ("N 52.5", "a latitude alone"),
    ("52.5 13.4", "two numbers of what? no comma, no letters, no grid"),
    ("52\u00b030' 13\u00b024'", "no halves of the world"),
    ("52'30\u00b0N 13\u00b024'E", "the marks in the wrong order"),
    ("52.5, 13.4, 200", "three numbers"),
    ("inf, 13.4", "no number"),
    ("52 30 15 10 N 13 24 10 E", "four parts"),
    ("61 north 456789 4953012", "zones end at 60"),
    ("0 north 456789 4953012", "zones begin at 1"),
    ("33 456789 4953012", "a zone without band or half"),
    ("33T 4953012 456789", "northing first, and nothing says so"),
    ("33 north 4953012 456789", "northing first"),
    ("33T 456789", "an easting alone"),
    ("33T 4567890 4953012", "an easting wider than a zone"),
    ("33T 456789 14953012", "a northing beyond the pole"),
    ("33I 456789 4953012", "I is no band"),
    ("33T 456789 1000", "band T does not reach the equator"),
    ("33S 456789 4000000", "south, or the band S of the north: both are places on earth"),
    ("33T -456789 4953012", "a sign"),
    ("UPS 2000000 2000000", "which pole?"),
    ("UPS north 9000000 2000000", "far outside UPS"),
    ("5696 4953", "a short reference without a beginning"),
    ("VM 5696 4953", "a short reference without a zone"),
    ("216600 771200", "two numbers of what grid?"),
    ("456789 4953012", "UTM without its zone"),
    ("456789.5 4953012.5", "the same with decimals"),
    ("1e6 2e6", "powers of ten"),
    ("456789ft 4953012ft", "a unit behind the numbers"),
    ("47 N 9 N", "two latitudes of whole degrees"),
    ("31DQ4811", "a letter too few"),
    ("5230N 1324E", "run together: 13 24 or 132 4"),
    ("5260N 01324E", "60 minutes run together"),
    ("NN 166 712", "letters of a grid that is not named"),
    ("31U 448251.5.5", "two points in a number"),
    ("31U 448 251 5 411 932", "figures grouped by blanks"),
    ("52:30:15 13:24:10", "colons without letters or comma"),
    ("52:30:60, 13:24:10", "60 seconds by colons"),
    ("geo:52.5", "a link with one angle"),
    ("geo:66,30;crs=moon-1999", "a link by another system of coordinates"),
    ("geo:52.5,13.4;u=some", "a link whose uncertainty is no number"),
    ("geo:0,0?q=52.5,13.4", "a search, no place"),
)


def lies_case(lat, lon, code, name, index):
    """How the grid lies and stretches at a place: the sentence told after all others."""
    factors = pyproj.Proj(code, preserve_units=False).get_factors(lon, lat)
    side = "west" if factors.meridian_convergence < 0 else "east"
    sentence = (
        f"Grid north of {name} lies {abs(factors.meridian_convergence):.2f}° {side} of true north there;"
        f" a kilometre at sea level is {1000 * factors.meridional_scale:.1f}\u00a0m on it."
    )
    return case({"do": "place", "place": f"{lat:.5f}, {lon:.5f}", "grid": code}, {f"said.{index}": sentence, f"said.{index + 1}": None}, "convergence and scale")


def build_typed(tally):
    """The case file of degrees, UTM coordinates and short references."""
    cases = [degrees_case(tally, *row) for row in DEGREES]
    cases += [
        lies_case(47.5, 11.5, "EPSG:32632", "EPSG:32632", 1),
        lies_case(-33.8568, 151.2153, "EPSG:32756", "EPSG:32756", 1),
        lies_case(40.7, -74.0, "EPSG:2263", "EPSG:2263", 2),
    ]
    cases += [utm_case(tally, *row) for row in UTM] + [short_case(*row) for row in SHORT]
    invalid = [refused({"do": "place", "place": typed}, "reference-unreadable", note) for typed, note in UNREADABLE]
    short = {"do": "place", "beginning": "33TVM"}
    invalid += [
        refused({**short, "place": "569 49"}, "reference-unreadable", "unequal groups after a beginning"),
        refused({**short, "place": "ZZ 569 495"}, "reference-unreadable", "no such square in the sheet's zone"),
        refused({**short, "place": ""}, "reference-unreadable", "nothing after a beginning"),
        refused({"do": "place", "place": "569 495", "beginning": "VM"}, "reference-unreadable", "a beginning without zone"),
    ]
    tolerance, why = tolerances(
        lat_deg=(1e-9, "written to nine or ten decimals: 0.1 mm; degrees come back as they were given"),
        lon_deg=(2e-9, "as the latitude"),
        square_m=(0, "a power of ten"),
    )
    return {
        "topic": "earth/places_typed",
        "about": "Places as people type them: degrees, minutes, seconds, UTM and UPS coordinates, short references; each"
        " told again in every form; what is ambiguous or impossible is refused.",
        "source": f"degrees: constructed, by exact fractions; UTM and UPS: {grid.PROJ_SOURCE}; references: mgrs 1.6.0"
        " (GEOTRANS 3.10 of NGA)",
        "made_by": "tests/references/places_typed.py",
        "units": {
            "lat_deg": "degrees, WGS84, north positive",
            "lon_deg": "degrees, WGS84, east positive",
            "square_m": "metres, the side of the square that was read; 0 for coordinates",
            "dm": "text: degrees and minutes, rounded to 0.001 minute",
            "dms": "text: degrees, minutes and seconds, rounded to 0.1 second",
            "utm": "text: zone, half of the world, easting and northing rounded to the metre",
        },
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": numbered(invalid),
    }


OWN = (
    # code, latitude, longitude, decimals typed, note
    ("EPSG:27700", 56.8, -5.0, 0, "British National Grid"),
    ("EPSG:27700", 52.2, 0.12, 1, "British National Grid"),
    ("EPSG:2056", 46.95, 7.44, 0, "Swiss grid of 1995"),
    ("EPSG:2056", 46.6, 10.3, 2, "Swiss grid of 1995"),
    ("EPSG:21781", 46.2, 6.1, 0, "Swiss grid of 1903"),
    ("EPSG:31467", 49.5, 9.2, 0, "Gauss-Krueger, zone 3: easting first, whatever the register's order of axes"),
    ("EPSG:31468", 48.1, 11.6, 0, "Gauss-Krueger, zone 4"),
    ("EPSG:2264", 35.5, -79.9, 0, "state plane of North Carolina in US survey feet"),
    ("EPSG:2264", 36.2, -81.7, 2, "state plane of North Carolina in US survey feet"),
    ("EPSG:26717", 36.2, -81.7, 0, "UTM on NAD27"),
    ("EPSG:26717", 38.9, -80.1, 1, "UTM on NAD27"),
    ("EPSG:32633", 44.73, 14.46, 0, "UTM on WGS84 as the sheet's grid"),
)


def shift_of(tally, code, lat, lon, easting, northing):
    """The place of grid coordinates by PROJ, with the operation that the way there chose; None for what it states."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        there = pyproj.Transformer.from_crs("EPSG:4326", code, always_xy=True)
        there.transform(lon, lat)
        back = pyproj.Transformer.from_crs(code, "EPSG:4326", always_xy=True)
        lon2, lat2 = back.transform(easting, northing)
        accuracy = there.get_last_used_operation().accuracy
    tally.near(f"{code} at {lat}, {lon} there and back", max(abs(lat2 - lat), abs(lon2 - lon)), 0, 2e-5)
    return lat2, lon2, accuracy if accuracy >= 0 else None


def whole_text_of(place):
    """Easting and northing to the nearest whole units."""
    return grid.whole_text((place.easting_m, place.northing_m))


def lettered(easting, northing, digits=5):
    """A reference of the British National Grid: letters of 500 and 100 km from the north-west, digits cut."""
    alphabet = "ABCDEFGHJKLMNOPQRSTUVWXYZ"
    column, row = math.floor(easting / 100_000) + 10, 19 - math.floor(northing / 100_000)
    letters = alphabet[row // 5 * 5 + column // 5] + alphabet[row % 5 * 5 + column % 5]
    step = 10 ** (5 - digits)
    cut = [math.floor(value % 100_000 / step) for value in (easting, northing)]
    return f"{letters} {cut[0]:0{digits}d} {cut[1]:0{digits}d}"


def own_of(code, place, lat, lon):
    """The reference as a sheet of this grid has it."""
    if code == "EPSG:27700":
        return lettered(place.easting_m, place.northing_m)
    if code.startswith("EPSG:326"):
        whole = grid.letters(lat, lon, place.easting_m, place.northing_m)
        return " ".join((whole[:3], whole[3:5], whole[5:10], whole[10:]))
    return whole_text_of(place)


def there_case(tally, code, lat, lon, note):
    """A place in degrees told in the sheet's own grid."""
    place = grid.named(tally, code, lat, lon)
    _, _, accuracy = shift_of(tally, code, lat, lon, place.easting_m, place.northing_m)
    values = {
        "easting_m": round(place.easting_m, 3),
        "northing_m": round(place.northing_m, 3),
        "convergence_deg": round(place.convergence_deg, 5),
        "scale": round(place.scale, 7),
        "accuracy_m": accuracy,
        "own": own_of(code, place, lat, lon),
    }
    record = {"do": "place", "place": grid.degrees_text(lat, lon), "grid": code}
    return case(record, {f"answer.{key}": value for key, value in values.items()}, f"{note}; {place.how}")


CUT = (
    # code, latitude, longitude, note
    ("EPSG:31468", 48.13743, 11.57549, "Gauss-Krueger"),
    ("EPSG:2056", 46.95108, 7.43864, "the Swiss grid"),
    ("EPSG:2227", 37.7741, -122.4193, "a state plane in US survey feet"),
    ("EPSG:27700", 49.9, -7.9, "the British grid west of its letters: a negative easting"),
    ("EPSG:26711", 36.2, -117.1, "UTM on NAD27"),
)


def cut_case(tally, code, lat, lon, digits, note):
    """The two numbers of a grid without letters, with the square that the digits stand for: exact decimals, cut towards minus infinity."""
    place = grid.named(tally, code, lat, lon)
    step = Decimal(10 ** (5 - digits // 2))
    exact = [Decimal(value) for value in (place.easting_m, place.northing_m)]
    apart = min(min(value % step, step - value % step) for value in map(abs, exact))
    tally.check(f"{code} at {digits} digits away from the step's edge", apart > Decimal("0.01"), apart)
    own = grid.square_text(exact, digits, "ft" if code == "EPSG:2227" else "m")
    record = {"do": "place", "place": grid.degrees_text(lat, lon), "grid": code, "digits": digits}
    return case(record, {"answer.own": own}, f"{note}, {digits} digits")


def back_case(tally, code, lat, lon, decimals, note):
    """Two numbers in the sheet's own grid, read as a place."""
    place = grid.named(tally, code, lat, lon)
    typed = [f"{value:.{decimals}f}" for value in (place.easting_m, place.northing_m)]
    lat2, lon2, _ = shift_of(tally, code, lat, lon, *(float(text) for text in typed))
    expect = {"answer.lat_deg": round(lat2, 9), "answer.lon_deg": round(lon2, 9), "answer.square_m": 0}
    return case({"do": "place", "place": " ".join(typed), "grid": code}, expect, f"{note}, read")


# Places beside the border of two registered shifts, where PROJ's way back takes another than its way there.
BORDER = (
    ("EPSG:26719", 43.397, -66.973, "NAD27: the mean shift of the United States beside that of eastern Canada"),
    ("EPSG:26720", 48.994, -65.999, "NAD27: two shifts of eastern Canada"),
    ("EPSG:26710", 38.706, -125.028, "NAD27 off the coast, where no shift is registered"),
    ("EPSG:23030", 43.834, -5.589, "ED50: two shifts of Spain"),
)


def border_case(tally, code, lat, lon, note):
    """Two numbers in the sheet's own grid: the place whose numbers they are on the way there."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        there = pyproj.Transformer.from_crs("EPSG:4326", code, always_xy=True)
        back = pyproj.Transformer.from_crs(code, "EPSG:4326", always_xy=True)
        typed = [f"{value:.3f}" for value in there.transform(lon, lat)]
        lon2, lat2 = back.transform(*(float(text) for text in typed))
    apart = Geodesic.WGS84.Inverse(lat, lon, lat2, lon2)["s12"]
    tally.check(f"{code} at {lat}, {lon}: PROJ there and back differ", apart > 1, f"{apart} m")
    expect = {"answer.lat_deg": lat, "answer.lon_deg": lon, "answer.square_m": 0}
    return case({"do": "place", "place": " ".join(typed), "grid": code}, expect, f"{note}; PROJ alone comes back {apart:.1f} m off")


def guessed_case():
    """A place where no shift is registered: PROJ takes the latitude and longitude over and states no accuracy."""
    code, lat, lon, _ = BORDER[2]
    record = {"do": "place", "place": grid.degrees_text(lat, lon), "grid": code}
    return case(record, {"answer.accuracy_m": None}, "no shift registered: the answer says so")


LETTERED = (
    # typed, easting and northing of the centre, side, note
    ("NN 166 712", 216650, 771250, 100, "the summit square of the highest mountain: letters and figures"),
    ("NN166712", 216650, 771250, 100, None),
    ("nn 16665 71285", 216665.5, 771285.5, 1, "to the metre, lower case"),
    ("NN 17", 215000, 775000, 10_000, "two digits"),
    ("TL 4475 5843", 544755, 258435, 10, None),
    ("SV 90 11", 90500, 11500, 1000, "the square in the south-west corner"),
    ("HP 61 16", 461500, 1216500, 1000, "Shetland: northing of seven figures"),
)


def lettered_case(tally, typed, easting, northing, side, note):
    """A lettered reference: the centre of its square by the registered shift, held to OSTN15."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        lon, lat = pyproj.Transformer.from_crs("EPSG:27700", "EPSG:4326", always_xy=True).transform(easting, northing)
    true_lon, true_lat = (float(axis[0]) for axis in ostn15.convert_lonlat(numpy.array([easting]), numpy.array([northing])))
    apart = math.hypot(lat - true_lat, (lon - true_lon) * math.cos(math.radians(lat))) * 111_200
    tally.check(f"{typed} by OSTN15", apart < 6, f"{apart} m")
    digits = round(5 - math.log10(side))
    values = {"lat_deg": round(lat, 9), "lon_deg": round(lon, 9), "square_m": side, "own": lettered(easting, northing, digits)}
    record = {"do": "place", "place": typed, "grid": "EPSG:27700", "digits": digits * 2}
    # Written as fine as it was read; the way there and back may cross the edge of a square of 1 m.
    if side == 1:
        del values["own"]
    return case(record, {f"answer.{key}": value for key, value in values.items()}, note)


SHORT_OWN = (
    # code, easting and northing of the centre, side, typed, note
    ("EPSG:25833", 456965, 4949535, 10, "5696 4953", "UTM on ETRS89, two groups"),
    ("EPSG:25833", 456965, 4949535, 10, "56964953", "UTM on ETRS89, in one"),
    ("EPSG:25833", 456950, 4949550, 100, "569 495", "UTM on ETRS89, six figures"),
    ("EPSG:26711", 456965, 3949535, 10, "5696 4953", "UTM on NAD27, two groups"),
    ("EPSG:26711", 456965, 3949535, 10, "56964953", "UTM on NAD27, in one"),
    ("EPSG:26711", 456950, 3949550, 100, "569495", "UTM on NAD27, six figures"),
    ("EPSG:23032", 656965, 5149535, 10, "5696 4953", "UTM on ED50"),
    ("EPSG:29193", 456965, 7449535, 10, "5696 4953", "UTM on SAD69, south of the equator"),
)


def short_own_cases(tally, code, easting, northing, side, typed, note):
    """A short reference off a sheet of UTM on another datum: the centre of the square by the sheet's own numbers.

    Asked with the beginning told, and without it on a sheet.
    """
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        there = pyproj.Transformer.from_crs("EPSG:4326", code, always_xy=True)
        back = pyproj.Transformer.from_crs(code, "EPSG:4326", always_xy=True)
        lon, lat = back.transform(easting, northing)
        east2, north2 = there.transform(lon, lat)
    tally.near(f"{code}, {typed} there and back", math.hypot(east2 - easting, north2 - northing), 0, 0.001)
    expect = {"answer.lat_deg": round(lat, 9), "answer.lon_deg": round(lon, 9), "answer.square_m": side}
    beginning = grid.GEOTRANS.toMGRS(lat, lon, MGRSPrecision=0)
    road = {"name": "Road", "points": [f"{easting + 3000} {northing + 2000}", f"{easting + 4000} {northing + 2500}"]}
    sheet = {"do": "sheet", "at": "2026-07-01T09:00:00Z", "name": "Short", "grid": code, "lines": [road]}
    return [
        case({"do": "place", "place": typed, "grid": code, "beginning": beginning}, expect, f"{note}, its beginning told"),
        {"before": [sheet], **case({"do": "place", "place": typed}, expect, f"{note}, on a sheet")},
        {"before": [sheet], **case({"do": "place", "place": f"{beginning[-2:]} {typed}"}, expect, f"{note}, with square letters")},
    ]


UNREADABLE_OWN = (
    # typed, code, note
    ("NI 166 712", "EPSG:27700", "I is no letter of the grid"),
    ("N1 166 712", "EPSG:27700", "a figure for a letter"),
    ("NN 16 712", "EPSG:27700", "unequal groups"),
    ("NN 16671", "EPSG:27700", "an odd number of figures"),
    ("NN", "EPSG:27700", "a square of 100 km alone"),
    ("NN 166651 712851", "EPSG:27700", "finer than a metre"),
    ("AA 166 712", "EPSG:27700", "a square far in the Atlantic"),
    ("NN 166 712", "EPSG:2056", "British letters on a Swiss sheet"),
    ("216600", "EPSG:27700", "an easting alone"),
    ("6500000 m 2100000 m", "EPSG:2227", "metres on a grid of feet"),
    ("216600 771200 100", "EPSG:27700", "three numbers"),
    ("9216600 771200", "EPSG:27700", "far outside the grid"),
    ("1200000 2600000", "EPSG:2056", "easting and northing the wrong way round"),
    ("771200 216600", "EPSG:27700", "easting and northing the wrong way round: a place in the sea off Holland, the other in Scotland"),
    ("4953012 456789", "EPSG:32633", "easting and northing the wrong way round"),
    ("5400000 3500000", "EPSG:31467", "easting and northing the wrong way round"),
    ("2600000 north", "EPSG:2056", "a word for a number"),
)


# Whole numbers of grids that lie on a shift of seven parameters, whose way back PROJ takes up to millimetres beside the way there.
BACK_AGAIN = (
    # code, how many, grid west, south, east and north of a rectangle in its area, units of the grid
    ("EPSG:2039", 20, (170_000, 400_000, 240_000, 750_000)),
    ("EPSG:3035", 20, (3_300_000, 2_100_000, 5_200_000, 4_300_000)),
    ("EPSG:30169", 20, (-60_000, -90_000, 60_000, 60_000)),
    ("EPSG:21781", 5, (520_000, 110_000, 800_000, 260_000)),
    ("EPSG:27200", 5, (2_150_000, 5_500_000, 2_900_000, 6_500_000)),
    ("EPSG:31370", 5, (60_000, 50_000, 270_000, 220_000)),
    ("EPSG:2227", 5, (5_900_000, 1_850_000, 6_800_000, 2_250_000)),
)


def back_again_cases(code, count, box):
    """Whole thousands typed in the grid in which they are told: the same numbers to the unit, and cut to whole thousands."""
    west, south, east, north = box
    cases = []
    for index in range(count):
        # Steps of an irrational share spread evenly, and are the same every time.
        share = [(index + 1) * step % 1 for step in (0.618_034, 0.754_878)]
        typed = [round((low + part * (high - low)) / 1000) * 1000 for low, high, part in ((west, east, share[0]), (south, north, share[1]))]
        text = f"{typed[0]} {typed[1]}"
        record = {"do": "place", "place": text, "grid": code, "digits": 10}
        cases.append(case(record, {"answer.own": text}, "numbers typed in their own grid come back"))
    return cases


# What is written with its square, and other ways to type it: numbers, code, side of the square in metres, digits.
SQUARES = (
    ("2600150 1200350 \u00b150 m", "EPSG:2056", (2600150, 1200350), 100, 6),
    ("2600150 1200350 +-50", "EPSG:2056", (2600150, 1200350), 100, 6),
    ("E 2600150 N 1200350 +/- 50m", "EPSG:2056", (2600150, 1200350), 100, 6),
    ("2605000 1205000 \u00b15000\u00a0m", "EPSG:2056", (2605000, 1205000), 10_000, 2),
    ("4468500 5333500 \u00b1500\u00a0m", "EPSG:31468", (4468500, 5333500), 1000, 4),
    ("6006050 2114150 \u00b150 ft", "EPSG:2227", (6006050, 2114150), 100 * 0.3048, 6),
    ("-35950 -6050 \u00b150 m", "EPSG:6677", (-35950, -6050), 100, 6),
)


def square_cases(tally):
    """Numbers with half the side of their square are read as its middle, with its spread, and come back as they were written."""
    cases = []
    for text, code, numbers, side, digits in SQUARES:
        lon, lat = pyproj.Transformer.from_crs(code, "EPSG:4326", always_xy=True).transform(*numbers)
        unit = "ft" if code == "EPSG:2227" else "m"
        own = grid.square_text(numbers, digits, unit)
        there = {"answer.lat_deg": round(lat, 9), "answer.lon_deg": round(lon, 9), "answer.square_m": round(side, 6), "answer.own": own}
        cases.append(case({"do": "place", "place": text, "grid": code, "digits": digits}, there, "numbers with their square"))
    to_degrees = pyproj.Transformer.from_crs("EPSG:2180", "EPSG:4326", always_xy=True)
    (lon, lat), (other_lon, other_lat) = to_degrees.transform(487_000, 637_000), to_degrees.transform(637_000, 487_000)
    far = Geodesic.WGS84.Inverse(lat, lon, other_lat, other_lon)["s12"]
    there = grid.utm(tally, other_lat, other_lon)
    whole = grid.letters(other_lat, other_lon, there.easting_m, there.northing_m)
    order = (
        "The first number is taken for the easting, as maps print it. The register of EPSG:2180 has the northing first: if that is how these"
        f" were written, exchange them, and the place is {whole[:3]} {whole[3:5]} {whole[5:10]} {whole[10:]}, {far / 1000:.1f}\u00a0km from here."
    )
    cases.append(case({"do": "place", "place": "487000 637000", "grid": "EPSG:2180"}, {"said.1": order}, "either order lies in the grid"))
    away = {"do": "between", "from": SQUARES[0][0], "to": "2604150 1200350 \u00b150 m", "grid": "EPSG:2056"}
    # Two squares of 100 m, each side / root(12) on either axis.
    spread = math.sqrt(2) * 100 / math.sqrt(12)
    cases.append(case(away, {"answer.distance_spread_m": round(spread, 4)}, "the spread is that of both squares"))
    return cases


# A beginning beside a grid that does not count by its letters.
BESIDE = tuple(("812 007", "54SVE", code) for code in ("EPSG:6677", "EPSG:21781", "EPSG:2056", "EPSG:27700")) + (
    ("81200 00700", "54SVE", "EPSG:6677"),
    ("812007", "54SVE", "EPSG:27700"),
)


def beside_refused(typed, beginning, code):
    """Short numbers with a beginning: of the grid, or digits of a square; asked as a place, and drawn on a sheet of the grid."""
    road = {"name": "R", "kind": "road", "points": [typed, "822 017"]}
    sheet = {"do": "sheet", "at": "2026-07-01T09:00:00Z", "name": "Jp", "grid": code, "beginning": beginning, "lines": [road]}
    note = "a beginning beside a grid without its letters"
    asked = {"do": "place", "place": typed, "grid": code, "beginning": beginning}
    return [refused(asked, "reference-unreadable", note), refused(sheet, "sheet-place", f"{note}, drawn")]


def beside_cases():
    """What can only be digits of a square, or only numbers of the grid, is read beside a beginning."""
    asked = {"do": "place", "grid": "EPSG:6677", "beginning": "54SVE", "digits": 6}
    square = {"answer.mgrs": "54SVE812007", "answer.square_m": 100}
    return [
        case({**asked, "place": "812007"}, square, "one number is none of the grid: the beginning completes it"),
        case({**asked, "place": "54SVE 812 007"}, square, "a whole reference"),
        case({**asked, "place": "-6000 -35000", "digits": 10}, {"answer.own": "-6000 -35000", "answer.square_m": 0}, "signs are the grid's"),
    ]


def build_own(tally):
    """The case file of sheets' own grids."""
    cases = [there_case(tally, *row[:3], row[4]) for row in OWN] + [back_case(tally, *row) for row in OWN]
    cases += [lettered_case(tally, *row) for row in LETTERED]
    cases += [border_case(tally, *row) for row in BORDER] + [guessed_case()]
    cases += [cut_case(tally, *row[:3], digits, row[3]) for row in CUT for digits in (2, 4, 6, 8, 10)]
    cases += [short for row in SHORT_OWN for short in short_own_cases(tally, *row)]
    cases += [again for row in BACK_AGAIN for again in back_again_cases(*row)] + beside_cases() + square_cases(tally)
    tolerance, why = tolerances(
        easting_m=(0.01, "the same registered shift must give the same centimetre (or hundredth of a foot)"),
        northing_m=(0.01, "as the easting"),
        convergence_deg=(0.002, "as in earth/named_grids"),
        scale=(4e-6, "half the last digit written, a numerical derivative, and for feet three times that"),
        accuracy_m=(0, "what the register states"),
        lat_deg=(1e-7, "a centimetre, as there"),
        lon_deg=(2e-7, "as the latitude"),
        square_m=(1e-9, "twice the half that was typed, 0.3048 m to the foot"),
        distance_spread_m=(1e-3, "written to a tenth of a millimetre"),
    )
    return {
        "topic": "earth/own_grids",
        "about": "The sheet's own grid both ways: told from degrees, and read as two numbers or a lettered reference.",
        "source": f"{grid.PROJ_SOURCE}; letters of the British National Grid: spelt out here by the published rule of its"
        " 500 km and 100 km squares; their centres held to OSTN15 by convertbng 2.0.0 within 6 m",
        "made_by": "tests/references/places_typed.py",
        "units": {
            **grid.UNITS,
            "easting_m": "in the grid's own unit: metres, or US survey feet for EPSG:2264",
            "northing_m": "as the easting",
            "scale": "grid units per metre on the ellipsoid of WGS84, at the point",
            "accuracy_m": "metres: what the register states for the shift in use; null when it states none",
            "own": "text: the reference in the grid asked for; numbers with half the side of their square, where they are a square",
        },
        "tolerance": tolerance,
        "tolerance_why": why,
        "cases": numbered(cases),
        "invalid": numbered(
            [
                refused({"do": "place", "place": typed, "grid": code}, "reference-unreadable", note)
                for typed, code, note in UNREADABLE_OWN
            ]
            + [beside for row in BESIDE for beside in beside_refused(*row)]
        ),
    }


def build(tally):
    """Both case files of this script."""
    return [build_typed(tally), build_own(tally)]
