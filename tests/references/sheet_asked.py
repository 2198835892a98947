"""sheet/photo, sheet/by_hand, sheet/import, sheet/relief: a sheet made by typing, by taps on a photo and from files, and its heights asked."""

import base64
import json
import math
from pathlib import Path

import mgrs
import numpy as np
import pyproj

from casefile import case, numbered, refused

AT = "2026-07-01T09:00:00Z"
GEOD = pyproj.Geod(ellps="WGS84")
GEOTRANS = mgrs.MGRS()
TO_UTM = pyproj.Transformer.from_crs("EPSG:4326", "EPSG:32633", always_xy=True)
TO_DEGREES = pyproj.Transformer.from_crs("EPSG:32633", "EPSG:4326", always_xy=True)
PHOTO = Path(__file__).resolve().parents[1] / "rasters" / "photo.json"

# A plane over 41 by 41 posts of 30 m in zone 33: 500 m in its south-western corner, rising 0.1 to the east and 0.05 to the north.
EAST, NORTH, STEP, SIDE = 456_000, 5_095_000, 30, 41
RISE_EAST, RISE_NORTH = 0.1, 0.05


def height_m(east, north):
    """The plane."""
    return 500 + RISE_EAST * (east - EAST) + RISE_NORTH * (north - NORTH)


def plane(first=0, end=SIDE, up_m=0):
    """The plane as an ASCII grid, or some of its columns, set higher."""
    head = f"ncols {end - first}\nnrows {SIDE}\nxllcenter {EAST + first * STEP}\nyllcenter {NORTH}\ncellsize {STEP}\n"
    row = lambda r: " ".join(f"{height_m(EAST + c * STEP, NORTH + (SIDE - 1 - r) * STEP) + up_m:.1f}" for c in range(first, end))
    return head + "\n".join(row(r) for r in range(SIDE)) + "\n"


# Columns of posts without heights, and those beside them, from which on nothing is known.
VOID, BESIDE = range(17, 20), (16, 20)


def gapped():
    """The plane with a gap from south to north."""
    lines = plane().splitlines()
    rows = [" ".join("-9999" if c in VOID else post for c, post in enumerate(line.split())) for line in lines[5:]]
    return "\n".join([*lines[:5], "NODATA_value -9999", *rows]) + "\n"


def by_degrees():
    """25 heights around the plane by latitude and longitude."""
    lon, lat = degrees(EAST, NORTH)
    head = f"ncols 5\nnrows 5\nxllcenter {lon - 0.02:.2f}\nyllcenter {lat - 0.02:.2f}\ncellsize 0.02\n"
    return head + "\n".join(" ".join(str(500 + c + r) for c in range(5)) for r in range(5)) + "\n"


def utm(east, north):
    """A place as it is typed."""
    return f"33 north {east} {north}"


SHEET = {"do": "sheet", "at": AT, "name": "Plane", "grid": "33N", "scale": 25000,
         "lines": [{"name": "Plane road", "kind": "track", "points": [f"{EAST} {NORTH}", f"{EAST + 1200} {NORTH + 1200}"]}],
         "landmarks": [{"name": "Plane mast", "kind": "mast", "at": f"{EAST + 900} {NORTH + 300}", "height_m": 30}]}
HEIGHTS = {"do": "import", "at": AT, "name": "plane.asc", "grid": "EPSG:32633", "base64": base64.b64encode(plane().encode()).decode(),
           "source": "laser", "credit": "survey of the plane"}


def degrees(east, north):
    """Longitude and latitude."""
    return TO_DEGREES.transform(east, north)


def photo_cases():
    """The fits of SciPy and NumPy, asked for by a record."""
    cases = []
    for row in json.loads(PHOTO.read_text(encoding="utf-8"))["cases"][:5]:
        marks = [{"x_px": x, "y_px": y, "crossing": f"{e:.0f} {n:.0f}"} for x, y, e, n in row["marks"]]
        taps = [{"x_px": tap["tap"][0], "y_px": tap["tap"][1]} for tap in row["taps"]]
        record = {"do": "photo", "grid": row["grid"], "kind": row["kind"], "mark_spread_px": row["mark_spread_px"], "marks": marks, "taps": taps}
        # The file's covariances are in metres of the grid, the answer's on the ground.
        middle = [sum(mark[i] for mark in row["marks"]) / len(row["marks"]) for i in (2, 3)]
        scale = pyproj.Proj("EPSG:32633").get_factors(*degrees(*middle)).meridional_scale
        expect = {"answer.kind": row["kind"], "answer.spread_px": row["spread_px"]}
        expect |= {f"answer.marks.{i}.off_px": off for i, off in enumerate(row["residuals_px"])}
        for i, tap in enumerate(row["taps"]):
            east2, both, north2 = tap["covariance"]
            major = math.sqrt((east2 + north2) / 2 + math.hypot((east2 - north2) / 2, both))
            expect |= {f"answer.places.{i}.easting": tap["at"][0], f"answer.places.{i}.northing": tap["at"][1], f"answer.places.{i}.spread_m": major / scale}
        cases.append(case(record, expect, row["name"]))
    return cases


def square_marks(letters="33TVL"):
    """Four crossings of a scan, two pixels to a metre, named by their squares."""
    at = ((0, 0), (4, 0), (4, 3), (0, 3))
    name = lambda east, north: f"{letters} {56 + east} {95 + north}"
    return [{"x_px": 500.0 * e, "y_px": 1500.0 - 500.0 * n, "crossing": name(e, n)} for e, n in at]


def photo_kept():
    """A line and a landmark tapped on a scan become a sheet."""
    tap = lambda x, y: {"x_px": x, "y_px": y}
    record = {"do": "photo", "at": AT, "name": "Scan", "marks": square_marks(), "scale": 25000,
              "lines": [{"name": "Scan road", "taps": [tap(0, 1500), tap(600, 1500)]}],
              "landmarks": [{"name": "Scan mast", "kind": "mast", "tap": tap(1000, 1000), "height_m": 20}]}
    east, north = degrees(EAST, NORTH), degrees(EAST + 1200, NORTH)
    length_m = GEOD.inv(*east, *north)[2]
    expect = {"snapshot.sheet.name": "Scan", "snapshot.sheet.lines.0.name": "Scan road", "snapshot.sheet.lines.0.length_m": length_m,
              "snapshot.sights.0.landmark": "Scan mast", "answer.kind": "affine",
              "answer.places.0.easting": EAST + 2000.0, "answer.places.0.northing": NORTH + 1000.0}
    return case(record, expect, "the crossings are named by the squares whose corners they are")


def having(grid, east, north):
    """The place that has these numbers on the way to the grid; the way back of a shift with small turns misses it by a millimetre."""
    there = pyproj.Transformer.from_crs("EPSG:4326", grid, always_xy=True)
    back = pyproj.Transformer.from_crs(grid, "EPSG:4326", always_xy=True)
    x, y = east, north
    for _ in range(3):
        told = there.transform(*back.transform(x, y))
        x, y = x + east - told[0], y + north - told[1]
    return back.transform(x, y)


def photo_on_grids():
    """The same scan of maps on other grids: old letters, a national grid, UTM on another datum than WGS 84."""
    maps = (("EPSG:26711", 585_000, 4_011_000, "{e:.0f} {n:.0f}", "by the numbers of NAD27"),
            ("EPSG:26711", 585_000, 4_011_000, "11S NL {e2:02.0f} {n2:02.0f}", "by the letters that maps of NAD27 bear (mgrs 1.4.6, see old_letters.py)"),
            ("EPSG:27700", 216_000, 771_000, "NN {e2:02.0f} {n2:02.0f}", "by the letters of the British National Grid"),
            ("EPSG:25833", 485_000, 4_911_000, "33T VK {e2:02.0f} {n2:02.0f}", "by MGRS on ETRS89"),
            ("EPSG:2056", 2_600_000, 1_200_000, "{e:.0f} {n:.0f}", "by the numbers of Switzerland"))
    cases = []
    for grid, east, north, form, note in maps:
        name = lambda x, y: form.format(e=x, n=y, e2=x / 1000 % 100, n2=y / 1000 % 100)
        marks = [{"x_px": 500.0 * e, "y_px": 1500.0 - 500.0 * n, "crossing": name(east + 1000 * e, north + 1000 * n)} for e, n in ((0, 0), (4, 0), (4, 3), (0, 3))]
        lon, lat = having(grid, east + 2000, north + 1000)
        expect = {"answer.kind": "affine", "answer.places.0.easting": east + 2000.0, "answer.places.0.northing": north + 1000.0,
                  "answer.places.0.lat_deg": lat, "answer.places.0.lon_deg": lon, "answer.marks.3.off_px": 0.0}
        cases.append(case({"do": "photo", "grid": grid, "kind": "affine", "marks": marks, "taps": [{"x_px": 1000.0, "y_px": 1000.0}]}, expect, note))
    return cases


def photo_refused():
    """Marks that give nothing."""
    marks = square_marks()
    asked = {"do": "photo", "marks": marks}
    line = [{"x_px": 100.0 * i, "y_px": 100.0 * i, "crossing": f"33TVL {56 + i} {95 + i}"} for i in range(4)]
    unread = [*marks[:3], {**marks[3], "crossing": "33TVL 5"}]
    return [
        refused({"do": "photo", "marks": []}, "photo-too-few"),
        refused({"do": "photo", "marks": marks[:2]}, "photo-too-few"),
        refused({"do": "photo", "marks": line, "kind": "affine"}, "photo-in-line"),
        refused({"do": "photo", "marks": [*marks, marks[0]]}, "photo-twice"),
        refused({"do": "photo", "marks": unread}, "photo-crossing", "the fourth mark is named"),
        refused({**asked, "grid": "EPSG:3857"}, "photo-off-lines", "squares of another grid"),
        refused({**asked, "kind": "round"}, "photo-kind-unknown"),
        refused({**asked, "lines": [{"name": "Road", "taps": [{"x_px": 0, "y_px": 0}, {"x_px": 9, "y_px": 9}]}]}, "sheet-name-needed"),
        refused({**asked, "at": AT, "name": "Scan"}, "sheet-place-needed"),
        refused({**asked, "at": AT, "name": "Scan", "lines": [{"name": "Road", "taps": [{"x_px": 0, "y_px": 0}]}]}, "sheet-record"),
    ]


def by_hand():
    """A sheet that grows by one thing at a time."""
    line = {"do": "sheet", "at": AT, "name": "Hand", "beginning": "33TVL", "lines": [{"name": "Mill road", "points": ["560950", "572962"]}]}
    more = {"do": "sheet", "at": AT, "landmarks": [{"name": "Kiln", "kind": "chimney", "at": "569953", "height_m": 25}]}
    spot = {"do": "sheet", "at": AT, "spots": [{"at": "Kiln", "height_ft": 2000}]}
    # Six figures: squares of 100 m, read as their middle.
    ends = [degrees(456_050, 5_095_050), degrees(457_250, 5_096_250)]
    length_m = GEOD.inv(*ends[0], *ends[1])[2]
    cases = [
        case(line, {"snapshot.sheet.name": "Hand", "snapshot.sheet.lines.0.length_m": length_m}, "a name and a first line"),
        {"before": [line], **case(more, {"snapshot.sights.0.landmark": "Kiln", "snapshot.sheet.lines.0.name": "Mill road"},
                                  "then a landmark, its short reference near the sheet")},
        {"before": [line, more], **case(spot, {"snapshot.sights.0.landmark": "Kiln"}, "then its height above the sea")},
        {"before": [line, more], **case({"do": "sheet", "at": AT, "strike": ["kiln"]}, {"snapshot.sheet.lines.0.name": "Mill road"}, "what was wrong is taken off")},
        case({**more, "name": "Marks", "beginning": "33TVL"}, {"snapshot.sights.0.landmark": "Kiln", "snapshot.sheet.name": "Marks"}, "a landmark comes first"),
    ]
    cases += crossings() + over_edges() + strays()
    invalid = [
        refused({**line, "beginning": "33TVK", "lines": [{"name": "Wide", "points": ["700490", "690490"]}], "landmarks": [{"name": "Far", "at": "050490"}]},
                "sheet-place", "35 km to the next square, 65 km in the one that was told: its letters are asked for"),
        refused(more, "sheet-name-needed", "no sheet is open"),
        refused({"do": "sheet", "at": AT, "name": "Empty"}, "sheet-place-needed"),
        {"before": [line], **refused({"do": "sheet", "at": AT, "strike": ["Hill"]}, "sheet-strike-unknown")},
        {"before": [line], **refused({"do": "sheet", "at": AT, "scale": 0.5}, "sheet-record")},
        {"before": [line], **refused({"do": "sheet", "at": AT, "spots": [{"at": "560950"}]}, "sheet-record")},
        {"before": [line], **refused({"do": "sheet", "at": AT, "lines": line["lines"]}, "name-twice")},
        refused({**line, "lines": [{**line["lines"][0], "kind": "bogus"}]}, "sheet-line-kind"),
        {"before": [line], **refused({"do": "sheet", "at": AT, "landmarks": [{"name": "Far", "at": "36TVL 560950"}]}, "sheet-too-wide")},
    ]
    return cases, invalid


def middle(east, north):
    """Latitude and longitude of the middle of a square of 100 m in zone 33."""
    lon, lat = degrees(east + 50, north + 50)
    return lat, lon


def strays():
    """Places that lie far from their sheet: the distance is the geodesic to the nearest thing on it, here an end of its line."""
    line = {"do": "sheet", "at": AT, "name": "Hand", "beginning": "33TVL", "lines": [{"name": "Mill road", "kind": "road", "points": ["560950", "572962"]}]}
    ends = [degrees(456_050, 5_095_050), degrees(457_250, 5_096_250)]
    nearest_m = lambda east, north, those: min(GEOD.inv(*degrees(east, north), *there)[2] for there in those)
    away = lambda east, north: f"{nearest_m(east, north, ends) / 1000:.1f}\u00a0km from everything on the sheet"
    asked = (("33TVM 5699 9549", 2, away(456_995, 5_195_495), "check its square letters.", "the letters of the square north of it"),
             ("33 north 356900 5095400", 1, away(356_900, 5_095_400), "check the figures of its easting.", "one figure of the easting misread"))
    told = [{"before": [line], **case({"do": "place", "place": place}, {f"said.{index}": f'"{place}" lies {far}: {part}'}, note)}
            for place, index, far, part, note in asked]
    near = {"before": [line], **case({"do": "place", "place": "33 north 463900 5095400"}, {"said.2": None}, "7 km off nothing is said")}
    rest = [*ends, degrees(461_050, 5_095_550)]
    apart_m = nearest_m(469_050, 5_095_550, rest)
    mast = {**line, "landmarks": [{"name": "Mast", "kind": "mast", "at": "690955"}, {"name": "Knob", "kind": "summit", "at": "610955"}]}
    stray = case(mast, {"said.2": f'Mast: "690955" lies {apart_m:.0f}\u00a0m from the rest of the sheet: check the figures of its easting.', "said.3": None},
                 "a landmark with a wrong first figure")
    few = case({"do": "place", "place": "21665 771250", "grid": "EPSG:27700"},
               {"said.2": 'The easting of "21665 771250" has 5 figures, which is right only near the edge of EPSG:27700: in its middle it has 6. If one was lost the place is far off: compare it with the map.'},
               "a figure of the easting lost, no sheet open")
    return [*told, near, few, stray]


def over_edges():
    """Short references over the edge of a zone and of a square of 100 km, by PROJ; references by GEOTRANS."""
    line = {"do": "sheet", "at": AT, "name": "Edge", "lines": [{"name": "Edge road", "points": ["450490", "460500"]}]}
    whole = {**line, "lines": [{"name": "Edge road", "points": ["33T YK 450 490", "33T YK 460 500"]}]}
    lat, lon = middle(745_000, 4_949_000)
    own = GEOTRANS.toMGRS(lat, lon, MGRSPrecision=3)
    convergence = pyproj.Proj("EPSG:32633").get_factors(lon, lat).meridian_convergence
    place = {"answer.lat_deg": lat, "answer.lon_deg": lon, "answer.mgrs": own, "answer.own": "33T YK 450 490"}
    asked = {"do": "place", "place": "450490"}
    norths = {"do": "norths", "date": "2026-07-01"}
    told = {"answer.convergence_deg": convergence, "answer.grid_name": "UTM 33 north"}
    ends = [middle(*at) for at in ((498_000, 4_949_000), (499_000, 4_949_200), (501_000, 4_949_500))]
    legs = [GEOD.inv(a[1], a[0], b[1], b[0])[2] for a, b in zip(ends, ends[1:])]
    cross = {**line, "beginning": "33TVK", "lines": [{"name": "Edge road", "points": ["980490", "990492", "010495"]}]}
    british = {"do": "sheet", "at": AT, "name": "Own", "grid": "EPSG:27700", "lines": [{"name": "Own road", "points": ["SU 123 567", "SU 130 570"]}]}
    back = pyproj.Transformer.from_crs("EPSG:27700", "EPSG:4326", always_xy=True).transform(412_350, 156_750)
    own_convergence = pyproj.Proj("EPSG:27700").get_factors(*back).meridian_convergence
    return [
        {"before": [{**line, "beginning": "33TYK", "grid": "33N"}], **case(asked, place, "by the beginning, over the zone's edge")},
        {"before": [{**line, "beginning": "33TYK"}], **case(asked, {**place, "answer.grid_name": "UTM 33 north"}, "no grid was named: that of the beginning's zone")},
        {"before": [whole], **case(asked, {**place, "answer.grid_name": "UTM 33 north"}, "no grid was named: that of the references' zone")},
        {"before": [whole], **case({**norths, "place": "450490"}, told, "the sheet's grid")},
        case({**norths, "place": "33T YK 450 490"}, told, "without a sheet the zone that was typed"),
        case({"do": "between", "from": "33T YK 450 490", "to": "33T YK 460 500"}, {"answer.bearing_deg_grid": 45.0, "answer.grid_name": "UTM 33 north"}, "the same"),
        case(cross, {"snapshot.sheet.lines.0.length_m": sum(legs)}, "a line goes on over the edge of its square"),
        {"before": [british], **case({**norths, "place": "SU 123 567"}, {"answer.convergence_deg": own_convergence, "answer.grid_name": "EPSG:27700"}, "a grid of its own")},
        {"before": [british], **case({"do": "place", "place": "SU 123 567"}, {"answer.own": "SU 123 567", "answer.grid_name": "EPSG:27700"}, "and back")},
    ]


def crossings():
    """Known points of two lines: one that is named, and where they cross."""
    place = lambda lat, lon: f"{lat}, {lon}"
    sheet = {"do": "sheet", "at": AT, "name": "Net", "scale": 25000, "lines": [
        {"name": "Long Road", "kind": "road", "points": [place(45.0, 7.0), place(45.0, 7.02)]},
        {"name": "Mill track", "kind": "track", "points": [place(44.995, 7.01), place(45.005, 7.01)]}]}
    stone = {"do": "sheet", "at": AT, "known_points": [{"name": "Milestone", "on": "Long Road", "at": place(45.0, 7.005)}]}
    along_m = lambda *ends: GEOD.inv(ends[0][1], ends[0][0], ends[1][1], ends[1][0])[2]
    points = "answer.points"
    name = "Long Road x Mill track"
    expect = {f"{points}.0.name": "Milestone", f"{points}.0.kind": "named", f"{points}.0.along_m": along_m((45, 7), (45, 7.005)),
              f"{points}.1.name": name, f"{points}.1.kind": "crossroads", f"{points}.1.line": "Long Road",
              f"{points}.1.along_m": along_m((45, 7), (45, 7.01)),
              f"{points}.2.name": name, f"{points}.2.line": "Mill track", f"{points}.2.along_m": along_m((44.995, 7.01), (45, 7.01))}
    here = {"do": "fix", "at": AT, "line": "Mill track", "sightings": [{"what": "here", "known": name, "spread_m": 10}]}
    stood = {"snapshot.fix.places.0.line": "Mill track", "snapshot.fix.places.0.along_m": along_m((44.995, 7.01), (45, 7.01))}
    return [
        {"before": [sheet, stone], **case({"do": "points"}, expect, "a named point, and a crossing on both of its lines")},
        {"before": [sheet], **case(here, stood, "one stands at the crossing")},
    ]


def spacing_m():
    """Metres on the ground from post to post, east and south, in the middle of the plane."""
    middle = (SIDE / 2) * STEP
    at = lambda east, north: degrees(EAST + middle + east, NORTH + (SIDE - 1) * STEP - middle + north)
    return GEOD.inv(*at(-15, 0), *at(15, 0))[2], GEOD.inv(*at(0, -15), *at(0, 15))[2]


def seams():
    """Halves of the plane side by side, the eastern one as it is and 9 m higher; 41 places along 1.2 km, 24 lengths of 50 m, leave the two spreads of 1 m together."""
    half = lambda *part: {**HEIGHTS, "base64": base64.b64encode(plane(*part).encode()).decode()}
    begins = "They have no post in common with those that are there, so that nothing shows whether both count from one level"
    even = f"{begins}. Where they meet the ground goes on with a step of 0.0\u00a0m, no more than slopes and spreads make."
    step = (f"{begins}, and where they meet the new ones step up by 9.0\u00a0m, more than the {math.sqrt(2):.1f}\u00a0m that slopes and spreads make. One of the "
            "files counts from another level or is wrong there: what is told of rises, sights and contours over the seam is not the ground's. "
            "Hold both against spot heights of the map, and strike the wrong ones off the sheet.")
    return [{"before": [SHEET, half(0, 21)], **case(half(21, SIDE, up_m), {"said.2": told}, note)}
            for up_m, told, note in ((0, even, "the plane goes on"), (9, step, "by construction"))]


def imports():
    """Heights and features from bytes."""
    east_m, south_m = spacing_m()
    geojson = {"type": "FeatureCollection", "features": [
        {"type": "Feature", "properties": {"name": "Ford lane", "highway": "track"}, "geometry": {"type": "LineString", "coordinates": [[14.43, 46.0], [14.44, 46.01]]}},
        {"type": "Feature", "properties": {"name": "Ford mast", "man_made": "mast"}, "geometry": {"type": "Point", "coordinates": [14.45, 46.0]}}]}
    text = base64.b64encode(json.dumps(geojson).encode()).decode()
    features = {"do": "import", "at": AT, "name": "ford.geojson", "base64": text, "credit": "survey of the ford"}
    line = {"type": "LineString", "coordinates": [[14.43, 46.0], [14.44, 46.01]]}
    shapes = [("Hedge", "barrier", "hedge", line), ("Border", "boundary", "administrative", {**line, "coordinates": [[14.43, 46.01], [14.44, 46.0]]}),
              ("Ford spring", "natural", "spring", {"type": "Point", "coordinates": [14.45, 46.0]}), ("Nowhere", "natural", "peak", {"type": "Point", "coordinates": []})]
    text = "\n".join(json.dumps({"type": "Feature", "properties": {"name": name, "other_tags": f'"{key}"=>"{value}"'}, "geometry": shape}) for name, key, value, shape in shapes)
    lines = {**features, "name": "ford.geojsonl", "base64": base64.b64encode(text.encode()).decode()}
    cases = [
        {"before": [SHEET], **case(HEIGHTS, {
            "answer.columns": SIDE, "answer.rows": SIDE, "answer.spacing_east_m": east_m, "answer.spacing_south_m": south_m,
            "answer.spread_m": 1.0, "answer.correlation_m": 50.0, "answer.credit": "survey of the plane"}, "laser over open ground")},
        {"before": [SHEET], **case({**HEIGHTS, "cover": "forest"}, {"answer.spread_m": 2.0}, "the same under trees")},
        {"before": [SHEET], **case({**HEIGHTS, "source": "srtm"}, {"answer.spread_m": 9.73, "answer.correlation_m": 300.0}, "16 m at 90 %: over 1.645")},
        {"before": [SHEET], **case({**HEIGHTS, "source": "third-arc-second"}, {"answer.spread_m": 1.55, "said.3": (
            "Heights of the 1/3 arc-second grid are published with posts 10\u00a0m apart; these stand 30\u00a0m apart. The spread of that source, 1.6\u00a0m, "
            "was taken as it was named: if they come from elsewhere they may be off by more, and so may what is told of sights and landforms. "
            "Strike them off the sheet then, and bring them in again with their own source, or with none.")}, "a third of an arc-second is 10.3 m")},
        *seams(),
        case(features, {"answer.lines": 1, "answer.landmarks": 1, "answer.known_points": 0, "answer.left_out": 0, "answer.credit": "survey of the ford",
                        "snapshot.sheet.name": "ford", "snapshot.sheet.lines.0.name": "Ford lane"}),
        case({**features, "kinds": ["mast", "track"], "area_deg": [45.9, 14.4, 46.1, 14.442]}, {"answer.lines": 1, "answer.landmarks": 0, "answer.left_out": 1}),
        case(lines, {"answer.lines": 1, "answer.landmarks": 1, "answer.left_out": 2, "snapshot.sheet.lines.0.kind": "hedge"},
             "a feature on each line, its tags in one column; a border and a point without a place are left out"),
    ]
    invalid = [
        refused(HEIGHTS, "sheet-needed", "heights need a sheet"),
        {"before": [SHEET], **refused({**HEIGHTS, "source": "moon"}, "heights-source-unknown")},
        {"before": [SHEET], **refused({**HEIGHTS, "cover": "snow"}, "heights-cover-unknown")},
        {"before": [SHEET], **refused({k: v for k, v in HEIGHTS.items() if k != "grid"}, "heights-file-grid-of-numbers")},
        refused({**features, "base64": "%%%"}, "base64-unreadable"),
        refused({**features, "kinds": ["dragon"]}, "import-kind-unknown"),
        refused({**features, "area_deg": [46.1, 14.4, 45.9, 14.5]}, "import-area"),
    ]
    return cases, invalid


def by_errors(low, high):
    """What errors of 1 m with a correlation of `exp(-distance / 50 m)` make up, and down, of level ground: half of the mean sizes of all steps.

    Every sample is bilinear between its four posts.
    """
    length_m, (east_m, south_m) = GEOD.inv(*degrees(*low), *degrees(*high))[2], spacing_m()
    along = np.append(np.arange(0, length_m, max(east_m, south_m)), length_m)
    ends = [(np.array([a, b]) - begin) / STEP for a, b, begin in zip(low, high, (EAST, NORTH))]
    at = np.stack([np.interp(along, [0, length_m], end) for end in ends], -1)
    posts = np.stack(np.meshgrid(np.arange(SIDE), np.arange(SIDE)), -1).reshape(-1, 2)
    weights = np.clip(1 - np.abs(at[:, None] - posts[None]), 0, 1).prod(-1)
    apart = (posts[:, None] - posts[None]) * (east_m, south_m)
    change = np.diff(weights, axis=0)
    squares = np.einsum("ij,jk,ik->i", change, np.exp(-np.hypot(apart[..., 0], apart[..., 1]) / 50.0), change)
    return {"answer.errors_m": float(np.sqrt(2 / np.pi) * np.sqrt(squares).sum() / 2)}


def relief():
    """Questions about the plane."""
    before = [SHEET, HEIGHTS]
    low, high = (EAST + 300, NORTH + 300), (EAST + 900, NORTH + 900)
    length_m = GEOD.inv(*degrees(*low), *degrees(*high))[2]
    climb_m = height_m(*high) - height_m(*low)
    middle = (EAST + 600, NORTH + 600)
    east_m, south_m = spacing_m()
    slope = math.hypot(RISE_EAST * STEP / east_m, RISE_NORTH * STEP / south_m)
    # The plane falls against its rise; true north by a short step north on the grid.
    lon, lat = degrees(*middle)
    convergence = pyproj.Proj("EPSG:32633").get_factors(lon, lat).meridian_convergence
    falls = math.degrees(math.atan2(-RISE_EAST, -RISE_NORTH)) + convergence
    lowest, highest = 500, height_m(EAST + (SIDE - 1) * STEP, NORTH + (SIDE - 1) * STEP)
    levels = lambda step: math.floor(highest / step) - math.ceil(lowest / step) + 1
    mast = (EAST + 900, NORTH + 300)
    azimuth, _, distance_m = GEOD.inv(*degrees(*middle), *degrees(*mast))
    asked = {"do": "seen", "at": AT, "place": utm(*middle)}
    at_low, at_high = f"{height_m(*low):.0f}\u00a0m", f"{height_m(*high):.0f}\u00a0m"
    profile_told = (f"It begins at {at_low} and ends at {at_high}; its highest place, {at_high}, lies {length_m:.0f}\u00a0m from the beginning, "
                    f"its lowest, {at_low}, 0\u00a0m from it.")
    cases = [
        case({"do": "profile", "from": utm(*low), "to": utm(*high)}, {"answer.length_m": length_m, "answer.climb_m": climb_m, "answer.descent_m": 0.0, "answer.dead": [], **by_errors(low, high), "said.1": profile_told}, "up the plane"),
        case({"do": "profile", "from": utm(*high), "to": utm(*low), "step_m": 50}, {"answer.length_m": length_m, "answer.climb_m": 0.0, "answer.descent_m": climb_m}, "and down"),
        case({"do": "ground", "place": utm(*middle)}, {
            "answer.height_m": height_m(*middle), "answer.height_spread_m": 1.0, "answer.slope_deg": math.degrees(math.atan(slope)),
            "answer.falls_to_deg_true": falls % 360}),
        case({"do": "contours", "interval_m": 20}, {"answer.count": levels(20) - 2, "answer.interval_m": 20.0, "answer.svg": None},
             "a straight line for each level; the corners at 500 and 680 m stand alone at a contour height"),
        case({"do": "contours", "interval_m": 2}, {"answer.count": levels(2) - 2, "said.1": (
            "Heights that may be wrong by 1.0\u00a0m (one standard deviation) carry contours 4\u00a0m apart and wider, so that nine places of ten lie "
            "within half an interval; of finer ones the bends and rings may be errors.")}, "2 * 1.645 * 1 m by the National Map Accuracy Standards of 1947"),
        case({"do": "contours", "interval_ft": 50}, {"answer.count": levels(15.24), "answer.interval_m": 15.24}),
        {"before": [SHEET, {**HEIGHTS, "base64": base64.b64encode(gapped().encode()).decode()}], **case(
            {"do": "profile", "from": utm(EAST + 300, NORTH + 600), "to": utm(EAST + 900, NORTH + 600), "eye_m": 1.7},
            {"answer.dead": [], "answer.untold.0.from_m": float(BESIDE[0] * STEP - 300), "answer.untold.0.to_m": 600.0},
            "up the plane all is in sight, but what stands in the gap may hide what lies behind it")},
        case(asked, {"answer.landmarks.0.landmark": "Plane mast", "answer.landmarks.0.seen": "in-sight", "answer.landmarks.0.distance_m": distance_m,
                     "answer.landmarks.0.bearing_deg_grid": (azimuth - convergence) % 360}, "30 m of mast over ground that rises evenly"),
    ]
    invalid = [
        {"before": before, **refused({"do": "profile", "from": utm(*low), "to": utm(*high), "step_m": 1e-6}, "profile-too-many")},
        {"before": before, **refused({"do": "ground", "place": utm(EAST - 9000, NORTH)}, "ground-unknown")},
        {"before": before, **refused({"do": "contours", "interval_m": 20, "interval_ft": 20}, "contour-interval-twice")},
        {"before": before, **refused({"do": "contours", "svg": True, "theme": "pink"}, "theme-unknown")},
        {"before": [SHEET], **refused({"do": "contours"}, "heights-needed")},
        {"before": [SHEET, {**HEIGHTS, "name": "degrees.asc", "grid": "EPSG:4979", "base64": base64.b64encode(by_degrees().encode()).decode()}],
         **refused({"do": "fix", "at": AT, "sightings": [{"what": "height", "read_m": 500.0}]}, "altimeter-ellipsoid")},
        {"before": [SHEET], **refused(asked, "heights-needed")},
    ]
    return [*({"before": before, **item} for item in cases), cut_and_fill()], invalid


def dug(east, north):
    """A ridge and a furrow across a road that runs level through both: 8 m deep, 7 m high."""
    bell = lambda away: math.exp(-((away / 50.0) ** 2))
    return 100.0 if abs(north) < 7.5 else 100.0 + 8.0 * bell(east + 150.0) - 7.0 * bell(east - 150.0)


def cut_and_fill():
    """A cut and a fill where the road shows them, from posts 5 m apart."""
    columns, rows, step = 141, 21, 5
    head = f"ncols {columns}\nnrows {rows}\nxllcenter {EAST}\nyllcenter {NORTH}\ncellsize {step}\n"
    half, up = (columns - 1) * step / 2, (rows - 1) * step / 2
    text = head + "\n".join(" ".join(f"{dug(c * step - half, up - r * step):.2f}" for c in range(columns)) for r in range(rows)) + "\n"
    at = lambda east: f"{EAST + half + east:.0f} {NORTH + up:.0f}"
    sheet = {"do": "sheet", "at": AT, "name": "Dug", "grid": "33N", "scale": 25000, "lines": [{"name": "Dug road", "points": [at(-300), at(300)]}]}
    heights = {**HEIGHTS, "name": "dug.asc", "base64": base64.b64encode(text.encode()).decode()}
    scale = pyproj.Proj("EPSG:32633").get_factors(*degrees(EAST + half, NORTH + up)).meridional_scale
    made, expect = "answer.cuts_and_fills", {}
    # 8 m by the bell is 2 m at 58.9 m to each side, 7 m at 56.0 m.
    for i, (kind, middle, reach, most) in enumerate((("cut", 150.0, 58.87, 8.0), ("fill", 450.0, 55.96, 7.0))):
        expect |= {f"{made}.{i}.line": "Dug road", f"{made}.{i}.kind": kind, f"{made}.{i}.from_m": (middle - reach) / scale,
                   f"{made}.{i}.to_m": (middle + reach) / scale, f"{made}.{i}.most_at_m": middle / scale, f"{made}.{i}.most_m": most}
    return {"before": [sheet, heights], **case({"do": "ground", "place": utm(EAST + half + 5, NORTH + up)}, expect, "a road dug through a ridge and filled over a furrow")}


def document(topic, about, source, cases, invalid, within):
    """One case file; tolerances by the last part of a path."""
    paths = sorted({path for item in cases for path, value in item["expect"].items() if isinstance(value, (int, float)) and not isinstance(value, bool)})
    known = lambda path: within[path.rsplit(".", 1)[1]]
    return {"topic": topic, "about": about, "source": source, "made_by": "tests/references/sheet_asked.py",
            "units": {"_m": "metres", "_deg": "degrees", "_px": "pixels", "easting, northing": "the grid's own unit"},
            "tolerance": {path: known(path)[0] for path in paths}, "tolerance_why": {path: known(path)[1] for path in paths},
            "cases": numbered(cases), "invalid": numbered(invalid)}


def build(tally):
    """The four case files."""
    whole = (0, "a whole number")
    east_m, _ = spacing_m()
    tally.near("the scale of zone 33 near its meridian", east_m / STEP, 1 / 0.9996, 1e-4)
    hand, hand_wrong = by_hand()
    files, files_wrong = imports()
    asked, asked_wrong = relief()
    pyproj_source = "constructed: a plane of heights; lengths, bearings and places by pyproj 3.7.2 (MIT licence)"
    return [
        document("sheet/photo", "A photo of a paper map laid over its grid, and taps on it.",
                 "fits and covariances by scipy 1.17.1 and numpy 2.4.6 (BSD-3-Clause) from tests/rasters/photo.json; kept lines by pyproj 3.7.2",
                 [*photo_cases(), photo_kept(), *photo_on_grids()], photo_refused(),
                 {"spread_px": (1e-6, "least squares ended alike"), "off_px": (1e-6, "the same"), "easting": (1e-3, "a thousandth of a pixel"),
                  "northing": (1e-3, "the same"), "spread_m": (2e-3, "central differences in the script, a ten-thousandth"), "length_m": (0.01, "a tap of four exact marks"),
                  "lat_deg": (1e-8, "PROJ both, an exact tap"), "lon_deg": (1e-8, "the same")}),
        document("sheet/by_hand", "A sheet typed from the paper map, one thing at a time.", "constructed: squares read as their middle, lengths, places and convergence by pyproj 3.7.2; references by mgrs 1.6.0 (GEOTRANS 3.10 of NGA)",
                 hand, hand_wrong, {"length_m": (0.02, "the plane of the sheet"), "lat_deg": (1e-9, "PROJ both"), "lon_deg": (1e-9, "PROJ both"),
                                  "convergence_deg": (0.002, "an older datum's meridians are turned by a second"),
                                  "bearing_deg_grid": (0.01, "a geodesic against a straight line of the grid over 1.4 km"), "along_m": (0.5, "the road is straight, its parallel is not; places of a fix are a metre apart")}),
        document("sheet/import", "Lines, landmarks and heights from the bytes of a file.", pyproj_source, files, files_wrong,
                 {"columns": whole, "rows": whole, "lines": whole, "landmarks": whole, "known_points": whole, "left_out": whole,
                  "spacing_east_m": (1e-3, "geodesics over one step"), "spacing_south_m": (1e-3, "the same"),
                  "spread_m": (0.005, "figures of the sources, two decimals"), "correlation_m": (1e-9, "as stated")}),
        document("sheet/relief", "Profile, ground, contours and what should be seen over a plane.", pyproj_source, asked, asked_wrong,
                 {"length_m": (1e-3, "geodesics"), "climb_m": (0.02, "heights in single precision, summed; the way bends by centimetres on the grid"),
                  "descent_m": (0.02, "the same"), "errors_m": (0.02, "the way and the spacing of the grid, in parts of a thousand"), "height_m": (0.01, "single precision, and a place to the centimetre"), "height_spread_m": (1e-9, "as stated"),
                  "slope_deg": (0.002, "the scale of the grid"), "falls_to_deg_true": (0.02, "grid squares that are not quite square"),
                  "from_m": (5.5, "steps of 5 m"), "to_m": (5.5, "the same"), "most_at_m": (5.5, "the same"), "most_m": (0.1, "bilinear between posts"),
                  "count": whole, "interval_m": (1e-9, "as asked"), "distance_m": (0.05, "the plane of the sheet"),
                  "bearing_deg_grid": (0.005, "the plane of the sheet")}),
    ]
