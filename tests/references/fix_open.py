"""fix/open: fixes in the open as a record asks for them and the snapshot tells them.

Place and covariance by the least squares of `fix_open_ground.py`; what the areas hold by the plain grid of `fix_open_odds.py`.
The plane is the azimuthal equidistant one of PROJ around the sheet's middle; what its north differs from true north at a place is
taken from a geodesic of one metre there. The three-point example is held to its printed millimetre.
"""

import datetime
import json
import math

import numpy

from casefile import case, numbered, refused
from declination import decimal_year, field
from fix_ground import AT, EYE_DEG, GEOD, LEVEL_DEG, MAP_M, ORIGIN, SAID_WRONG, TO_UTM, Ground, apart, place, waves
from fix_open_ground import three_points
from fix_open_squares import expected
from fix_open_odds import Scene
from scipy.ndimage import label
from scipy.special import ndtr
from scipy.stats import chi2

DAY = datetime.date(2026, 7, 2)
# The core's own, common practice without a source: spread of a reading with a sighting compass, of all of them, and its dial.
READING_DEG, SHARED_DEG, DIAL_DEG = 1.5, 1.0, 1.0
BY_EYE = 0.25
BEYOND_M = 2000.0
FAR_SIGMAS = 4.0
HAT = {"North": (0.0, 2000.0), "East": (1800.0, -900.0), "West": (-1500.0, -1200.0)}


def shared():
    """One sigma of what all bearings share, that of the model in it."""
    return math.hypot(SHARED_DEG, field(*ORIGIN, 0, decimal_year(DAY)).calculate_uncertainty().d)


def turned(east, north):
    """True bearing of the plane's north at a point."""
    start, end = place(east, north), place(east, north + 1.0)
    return (GEOD.inv(*start, *end)[0] + 180) % 360 - 180


def sheet(marks):
    """A sheet of these marks and a short road in its middle."""
    names = [{"type": "Feature", "geometry": {"type": "Point", "coordinates": [round(v, 10) for v in place(*at)]}, "properties": {"name": name, "kind": "summit"}} for name, at in marks.items()]
    ends = [[round(value, 10) for value in place(east, 0.0)] for east in (-100.0, 100.0)]
    road = {"type": "Feature", "geometry": {"type": "LineString", "coordinates": ends}, "properties": {"name": "Road", "kind": "road"}}
    told = {"type": "FeatureCollection", "sheet": {"name": "Made up", "position_spread_m": MAP_M}, "features": [road, *names]}
    return {"do": "carry", "at": AT, "format": "geojson", "text": json.dumps(told)}


def bounds(marks):
    """Corners of everything on the sheet and two kilometres more."""
    points = [(-100.0, 0.0), (100.0, 0.0), *marks.values()]
    low = [min(point[axis] for point in points) - BEYOND_M for axis in (0, 1)]
    high = [max(point[axis] for point in points) + BEYOND_M for axis in (0, 1)]
    return low, high


def equations(marks, sightings, at):
    """The sightings as the scripts beside this one have them, bearings in the plane at a place."""
    found = []
    for one in sightings:
        what = one.get("what", "bearing")
        if what == "bearing":
            own = math.hypot(one.get("spread_deg", READING_DEG), DIAL_DEG / math.sqrt(12))
            read = float(one["bearing"].split()[0]) - turned(*at)
            found.append({"kind": "bearing", "mark": one["landmark"], "marks": [one["landmark"]], "bearing_deg": read, "spread_deg": own})
        elif what == "angle":
            found.append({"kind": "angle", "from": one["left"], "to": one["right"], "angle_deg": one["angle_deg"], "spread_deg": one["spread_deg"]})
        elif what == "distance":
            metres = one["distance_m"]
            found.append({"kind": "distance", "mark": one["landmark"], "distance_m": metres, "spread_m": one.get("spread_m", BY_EYE * metres)})
    return {"marks": [{"id": name, "east_m": at[0], "north_m": at[1], "spread_m": MAP_M} for name, at in marks.items()], "readings": found}


def solved(marks, sightings, start, free=False):
    """Least squares, the bearings turned at the place that it finds."""
    at, by_compass = start, any(one.get("what", "bearing") == "bearing" for one in sightings)
    for _ in range(4):
        told = {**equations(marks, sightings, at), "start": list(at)}
        if by_compass:
            told["shared_spread_deg"] = "free" if free else shared()
        answer = expected(told)
        at = (answer["east_m"], answer["north_m"])
    return answer


def grid(marks, sightings, at, step):
    """Share of each cell of the area, and the cells' middles."""
    low, high = bounds(marks)
    told = {**equations(marks, sightings, at), "low": low[0], "high": high[0], "shared_spread_deg": shared()}
    scene = Scene(told)
    scene.far = math.hypot(high[0] - low[0], high[1] - low[1])
    east, north = (numpy.arange(start + step / 2, end, step) for start, end in zip(low, high))
    density = numpy.vstack([scene.likelihood(east[None, :], north[row : row + 40, None]) for row in range(0, len(north), 40)])
    return density / density.sum(), east, north


def ellipse_case(note, marks, sightings, start):
    """A fix that is told as one place with its ellipse."""
    answer = solved(marks, sightings, start)
    at = (answer["east_m"], answer["north_m"])
    share, east, north = grid(marks, sightings, at, 5.0)
    ee, en, nn = answer["covariance_m2"]
    inverse = numpy.linalg.inv([[ee, en], [en, nn]])
    de, dn = east[None, :] - at[0], north[:, None] - at[1]
    sigmas = numpy.sqrt(inverse[0, 0] * de**2 + 2 * inverse[0, 1] * de * dn + inverse[1, 1] * dn**2)
    near = sigmas <= FAR_SIGMAS
    held = share[near].sum()
    holds = 0.95 if held > 0.95 else 0.95 * held
    order = numpy.argsort(sigmas[near])
    wide = sigmas[near][order][numpy.searchsorted(numpy.cumsum(share[near][order]), holds)]
    lon, lat = place(*at)
    freedom = len(sightings) - 2
    told = {
        "shape": "ellipse",
        "places.0.lat_deg": round(lat, 9),
        "places.0.lon_deg": round(lon, 9),
        "places.0.share": round(float(holds), 6),
        "places.0.major_95_m": round(float(wide * answer["axes_m"][0]), 3),
        "places.0.minor_95_m": round(float(wide * answer["axes_m"][1]), 3),
        "chance": round(float(chi2.sf(answer["chi_square"], freedom)) if freedom else 1.0, 6),
    }
    return told_case(note, marks, sightings, told)


def told_case(note, marks, sightings, expect, before=()):
    """One fix in the open on a sheet."""
    record = {"do": "fix", "at": AT, "open": True, "instrument": "sighting", "sightings": sightings}
    expect = {f"snapshot.open_fix.{path}": value for path, value in expect.items()}
    return {"before": [sheet(marks), *before], **case(record, {**expect, "snapshot.fix": None}, note)}


def regions(share, step):
    """Shape, and of the likeliest region share and area: cells of the 95 % that touch along a side."""
    order = numpy.sort(share.ravel())[::-1]
    floor = 0.01 * order[0]
    near = order[order >= floor].sum()
    level = max(floor, order[numpy.searchsorted(numpy.cumsum(order), 0.95 if near > 0.95 else 0.95 * near)])
    parts, count = label(share >= level)
    held, part = max((float(share[parts == part].sum()), part) for part in range(1, count + 1))
    told = {"shape": "regions", "elsewhere_share": round(float(1 - near), 6), "places.0.share": round(held, 6)}
    return {**told, "places.0.area_95_m2": float((parts == part).sum() * step**2)}


def region_case(note, marks, sightings, start, step=5.0):
    """A fix that is told as regions."""
    share, _, _ = grid(marks, sightings, start, step)
    return told_case(note, marks, sightings, regions(share, step))


def sight(name, bearing, **more):
    """A bearing to a landmark."""
    return {"landmark": name, "bearing": f"{bearing:g} true", **more}


def distance(name, metres, spread):
    """A distance to a landmark."""
    return {"what": "distance", "landmark": name, "distance_m": metres, "spread_m": spread}


def angle(left, right, angle_deg, spread_deg):
    """An angle between landmarks."""
    return {"what": "angle", "left": left, "right": right, "angle_deg": angle_deg, "spread_deg": spread_deg}


def printed_case(tally):
    """The three-point example of a surveying text, its answer printed to the millimetre."""
    example = three_points(tally)[0]
    marks = {one["id"]: (one["east_m"], one["north_m"]) for one in example["marks"]}
    lon, lat = place(303.913, 310.678)
    sightings = [angle("A", "M", 215.0, 0.5), angle("M", "B", 230.0, 0.5)]
    expect = {"places.0.lat_deg": round(lat, 9), "places.0.lon_deg": round(lon, 9)}
    return told_case("three-point resection: read in a surveying text whose name was not taken down", marks, sightings, expect)


def turned_case():
    """All bearings turned by 7.6 degrees: told as one turn, with the place that it leaves."""
    ray = lambda at: math.degrees(math.atan2(at[0], at[1])) % 360
    sightings = [sight(name, round(ray(at) + 7.6, 1), spread_deg=2.0) for name, at in HAT.items()]
    free = solved(HAT, sightings, (10.0, 10.0), free=True)
    # Read too much is positive: the plane's residual is what was read less what the sheet gives.
    told = {"shared_turn.turn_deg": round(abs(free["shared_deg"]), 4), "shared_turn.spread_deg": round(free["shared_spread_deg"], 4)}
    return told_case("every bearing 7.6 degrees too much", HAT, sightings, {**told, "shared_turn.rivals": [1, 2, 3]})


def slope_chance(ground, low, high):
    """A function of the place: the chance that a walker says it rises to the east; where it is not known, the mean of what is."""

    def said(east, north):
        shape = numpy.broadcast(east, north).shape
        lons, lats = place(*(numpy.broadcast_to(one, shape).ravel() for one in (east, north)))
        far, far_lats, _ = GEOD.fwd(lons, lats, numpy.full(lons.shape, 90.0), numpy.full(lons.shape, 100.0))
        (x, y), (x2, y2) = TO_UTM.transform(lons, lats), TO_UTM.transform(far, far_lats)
        on = (x >= ground.east[0]) & (x2 < ground.east[-1]) & (numpy.minimum(y, y2) >= ground.north[0])
        on = on & (numpy.maximum(y, y2) < ground.north[-1])
        rise = ground.at(far[on], far_lats[on]) - ground.at(lons[on], lats[on])
        spread = math.hypot(float(apart(100.0)), 100 * math.tan(math.radians(EYE_DEG)))
        found = numpy.full(lons.shape, numpy.nan)
        found[on] = SAID_WRONG / 3 + (1 - SAID_WRONG) * ndtr((rise - 100 * math.tan(math.radians(LEVEL_DEG))) / spread)
        return found.reshape(shape)

    samples = [low[axis] + (numpy.arange(16) + 0.5) / 16 * (high[axis] - low[axis]) for axis in (0, 1)]
    mean = numpy.nanmean(said(samples[0][None, :], samples[1][:, None]))
    return lambda east, north: numpy.nan_to_num(said(east, north), nan=mean)


def ground_case(step=10.0):
    """A bearing to a feature that is only roughly placed, a distance by eye, and ground that rises to the east."""
    marks, rough, ground = {"Knoll": (0.0, 1500.0)}, (-600.0, 1400.0), Ground(waves, (-900, 900))
    lon, lat = place(*rough)
    typed = f"{lat:.6f}, {lon:.6f}"
    bearing = {"place": typed, "spread_m": 60, "bearing": "5 true", "spread_deg": 3.0}
    sightings = [bearing, {"what": "slope", "ground": "rises", "towards": "90 true"}, distance("Knoll", 1400.0, 150.0)]
    low, high = bounds(marks)
    # The knoll is not asked to be in sight: it stands where the heights do not reach.
    told = equations({**marks, typed: rough}, [{**bearing, "landmark": typed}, sightings[2]], (-700.0, 250.0))
    told["marks"][1]["spread_m"] = math.hypot(60.0, MAP_M)
    scene = Scene({**told, "low": low[0], "high": high[0], "shared_spread_deg": shared()})
    scene.far = math.hypot(high[0] - low[0], high[1] - low[1])
    east, north = (numpy.arange(start + step / 2, end, step) for start, end in zip(low, high))
    density = scene.likelihood(east[None, :], north[:, None]) * slope_chance(ground, low, high)(east[None, :], north[:, None])
    note = "a bearing to a rough place, a distance, and ground that rises to the east"
    return told_case(note, marks, sightings, regions(density / density.sum(), step), [ground.record()])


def cases(tally):
    """Fixes of every kind."""
    two = {"North": HAT["North"], "East": HAT["East"]}
    found = [
        ellipse_case("two bearings at a good cut", two, [sight("North", 2.0), sight("East", 117.0)], (10.0, 10.0)),
        ellipse_case("three bearings that nearly meet", HAT, [sight("North", 2.0), sight("East", 117.0), sight("West", 233.0)], (10.0, 10.0)),
        ellipse_case(
            "two bearings and a distance",
            HAT,
            [sight("North", 1.0, spread_deg=2.0), sight("East", 117.0), distance("West", 1900.0, 80.0)],
            (10.0, 10.0),
        ),
        ellipse_case("two angles, no north", HAT, [angle("North", "East", 117.0, 1.0), angle("East", "West", 115.0, 1.0)], (10.0, 10.0)),
        region_case("a bearing and a rough distance", HAT, [sight("North", 1.0, spread_deg=5.0), distance("East", 2000.0, 500.0)], (0.0, 0.0)),
        printed_case(tally),
        turned_case(),
    ]
    return [*found, ground_case()]


def invalid():
    """What no place answers."""
    open_fix = {"do": "fix", "at": AT, "open": True}
    rows = (
        ({**open_fix, "sightings": []}, "no-sighting"),
        ({**open_fix, "line": "Road", "sightings": [sight("North", 2.0)]}, "open-with-line"),
        ({**open_fix, "sightings": [{"what": "line-run", "bearing": "90 true"}]}, "sighting-needs-line"),
        ({**open_fix, "sightings": [{"what": "here", "kind": "bend"}]}, "sighting-needs-line"),
        ({**open_fix, "sightings": [sight("South", 2.0)]}, "landmark-unknown"),
        ({**open_fix, "sightings": [{"what": "slope", "ground": "rises", "towards": "90 true"}]}, "heights-needed"),
        ({**open_fix, "sightings": [angle("North", "North", 20.0, 1.0)]}, "open-unusable"),
        ({**open_fix, "sightings": [distance("North", -5.0, 10.0)]}, "number-unreadable"),
    )
    return [{"before": [sheet(HAT)], **refused(record, code)} for record, code in rows]


TOLERANCES = {
    "lat_deg": (2e-6, "0.2 m: the plane of the core turns bearings along a straight line between three places"),
    "lon_deg": (3e-6, "as the latitude"),
    "share": (0.005, "cells of both grids are small but finite"),
    "elsewhere_share": (0.01, "as the share"),
    "major_95_m": (4.0, "3 %: the widened ellipse runs through cells of both grids"),
    "minor_95_m": (3.0, "as the longer axis"),
    "area_95_m2": (40_000.0, "3 %: the edge of the 95 % runs through cells of both grids"),
    "chance": (2e-3, "the plane's bearings"),
    "turn_deg": (0.005, "the plane's bearings"),
    "spread_deg": (0.005, "the plane's bearings"),
}


def build(tally):
    """The case file."""
    found = cases(tally)
    numbers = sorted({path for item in found for path, value in item["expect"].items() if isinstance(value, float)})
    return [
        {
            "topic": "fix/open",
            "about": "Fixes in the open as the snapshot tells them: place, 95 % ellipse, regions, one turn of all bearings.",
            "source": "stated beside each case; else constructed with scipy 1.17.1 least_squares, numpy 2.4.6, pyproj 3.7.2 and"
            " pygeomag 1.1.0; usual spreads are the core's own (common practice, no source)",
            "made_by": "tests/references/fix_open.py",
            "units": {"_deg": "degrees", "_m": "metres", "_m2": "square metres", "share": "probability"},
            "tolerance": {path: TOLERANCES[path.split(".")[-1]][0] for path in numbers},
            "tolerance_why": {path: TOLERANCES[path.split(".")[-1]][1] for path in numbers},
            "cases": numbered(found),
            "invalid": numbered(invalid()),
        }
    ]
