"""Make the second run out of the open data: a sheet, a trip's records, and the truth beside them.

What is chosen, and by which rule, stands in README.md. Run fetch.py first.
"""

import csv
import math
import re
from datetime import datetime, timedelta, timezone
from itertools import combinations

import numpy as np

from reference import (DATE, GRID, OUT, ahead, at_chainage, between, chainages, convergence, fold,
                       magnetic, nearest_chainage, to_earth, to_grid, write_json, write_lines)
from terrain import LEAST_CLEAR_M, Heights, sight_margin, summits

DOUBLE_PACES_PER_100_M = 62.5   # a double pace of 1.6 m, as on a forestry pace stick
SIGHTING_SPREAD_DEG = 0.5       # a staff compass read with care (foresters' figure); the true error here is the rounding alone
SHEET_SPREAD_M = 5.0            # our choice
LEAST_ROAD_M = 1500.0
LEAST_END_M = 150.0             # the car place is at least so far from the road's ends
SHARPEST_TURN_DEG = 100.0
RUN_CHORD_M = 100.0
SAMPLE_M = 5.0
MOST_SIGHTINGS = 3
LEGS = (15, 40)
MOST_LEGS_WANTED = 30


# --- reading -------------------------------------------------------------------------------------

def numbers(wkt):
    """The coordinates in a WKT text as rows."""
    inside = re.search(r"\(+(.*?)\)+", wkt).group(1)
    return [tuple(float(n) for n in point.split()) for point in inside.split(",")]


def read_network(heights):
    """All links that lie wholly on the heights."""
    links = []
    with open(OUT / "network_ecrin.wkt", newline="", encoding="utf-8") as stream:
        for row in csv.DictReader(stream):
            line = numbers(row["wkt"])
            grid = to_grid(line)
            if heights.holds(grid):
                links.append({"id": int(row["link_id"]), "road": row["direction"] in ("double", "direct"),
                              "level": row["level"], "line": line, "grid": grid})
    return links


def read_walk():
    """The walk's places and heights, without the closing point that repeats the first."""
    with open(OUT / "8961191.csv", newline="", encoding="utf-8") as stream:
        rows = np.array([numbers(row["WKT"])[0] for row in csv.DictReader(stream)])
    if tuple(rows[0, :2]) == tuple(rows[-1, :2]):
        rows = rows[:-1]
    return [tuple(map(float, row)) for row in rows[:, :2]], rows[:, 2]


# --- the road ------------------------------------------------------------------------------------

def ends_table(links):
    """For each link end, the links that end there."""
    table = {}
    for link in links:
        for end in (link["line"][0], link["line"][-1]):
            table.setdefault(end, []).append(link)
    return table


def leaving(link, node):
    """A link's places and grid points as walked away from one of its ends."""
    forward = link["line"][0] == node
    return (link["line"], link["grid"]) if forward else (link["line"][::-1], link["grid"][::-1])


def deflection(grid, onward):
    """How sharply one turns from the end of a line into the start of another, degrees."""
    a, b = grid[-1] - grid[-2], onward[1] - onward[0]
    return abs(fold(math.degrees(math.atan2(a[0], a[1]) - math.atan2(b[0], b[1]))))


def grow(line, grid, used, table):
    """Lengthen a line at its end, link by link, straightest road first."""
    while True:
        open_links = [k for k in table[line[-1]] if k["road"] and k["id"] not in used and k["line"][0] != k["line"][-1]]
        choices = [(deflection(grid, leaving(k, line[-1])[1]), k["id"], k) for k in open_links]
        choices = [c for c in sorted(choices, key=lambda c: c[:2]) if c[0] <= SHARPEST_TURN_DEG]
        if not choices:
            return line, grid
        link = choices[0][2]
        used.add(link["id"])
        more, more_grid = leaving(link, line[-1])
        line, grid = line + more[1:], np.vstack([grid, more_grid[1:]])


def chain(seed, table):
    """The road through a link: lengthened at both ends, begun in the west."""
    used = {seed["id"]}
    line, grid = grow(list(seed["line"]), seed["grid"], used, table)
    line, grid = grow(line[::-1], grid[::-1], used, table)
    if grid[0, 0] > grid[-1, 0]:
        line, grid = line[::-1], grid[::-1]
    return {"links": frozenset(used), "line": line, "grid": grid}


def met(a, b, grid):
    """Grid points where the straight line from a to b cuts a polyline."""
    r, s, c = b - a, np.diff(grid, axis=0), grid[:-1] - a
    cross = r[0] * s[:, 1] - r[1] * s[:, 0]
    cross = np.where(cross == 0, np.nan, cross)
    t = (c[:, 0] * s[:, 1] - c[:, 1] * s[:, 0]) / cross
    u = (c[:, 0] * r[1] - c[:, 1] * r[0]) / cross
    return [a + k * r for k in t[(t >= 0) & (t < 1) & (u >= 0) & (u < 1)]]


def roads_met(links, walk_grid):
    """Every road of sufficient length that the walk crosses, with the crossings (walk index, point)."""
    table, roads = ends_table(links), {}
    pairs = list(zip(walk_grid, np.roll(walk_grid, -1, axis=0)))
    for link in links:
        if link["road"] and any(met(a, b, link["grid"]) for a, b in pairs):
            road = chain(link, table)
            roads[road["links"]] = road
    for road in roads.values():
        road["along"] = chainages(road["line"])
        road["met"] = [(i, p) for i, (a, b) in enumerate(pairs) for p in met(a, b, road["grid"])]
    return [r for r in roads.values() if r["along"][-1] >= LEAST_ROAD_M]


# --- the place and its sightings -------------------------------------------------------------------

def run_bearing(road, s):
    """True bearing of the road's run at a distance along it, over a chord."""
    a = at_chainage(road["line"], road["along"], s - RUN_CHORD_M / 2)
    b = at_chainage(road["line"], road["along"], s + RUN_CHORD_M / 2)
    return between(a, b)[1]


def sighting(road, s, place, summit, margin):
    """One summit seen from a place on the road: distance, bearing, cut with the road's run there."""
    metres, true = between(place, summit["place"])
    cut = abs((true - run_bearing(road, s) + 90) % 180 - 90)
    return {"landmark": summit["name"], "place": summit["place"], "metres": metres, "bearing_true": true,
            "cut_deg": cut, "clear_m": margin}


def misfits(road, summit, point):
    """By how much the summit's bearing from each sample of the road differs from that at a point on it."""
    away = np.array(summit["grid"]) - road["samples"]
    here = np.array(summit["grid"]) - point
    return fold(np.degrees(np.arctan2(*away.T) - math.atan2(*here)))


def foretold(road, tops, point, s):
    """How far off the road's other places are that would look alike: the root mean square along it, metres."""
    square = sum((misfits(road, top, point) / SIGHTING_SPREAD_DEG) ** 2 for top in tops)
    share = np.exp(-square / 2)
    return float(math.sqrt((share * (road["sample_s"] - s) ** 2).sum() / share.sum()))


def stand(heights, tops, road, index, point):
    """The best few summits in sight from one meeting place; None when it is no good."""
    place = to_earth(point)
    s, _ = nearest_chainage(road["line"], road["along"], place)
    if min(s, road["along"][-1] - s) < LEAST_END_M:
        return None
    margins = {top["name"]: sight_margin(heights, point, top) for top in tops}
    seen = [top for top in tops if margins[top["name"]] >= LEAST_CLEAR_M]
    sets = [c for n in range(1, MOST_SIGHTINGS + 1) for c in combinations(seen, n)]
    if not sets:
        return None
    chosen = min(sets, key=lambda c: foretold(road, c, point, s))
    return {"road": road, "index": index, "place": place, "s": s, "height_m": float(heights.at(point[None])[0]),
            "spread_m": foretold(road, chosen, point, s),
            "seen": [sighting(road, s, place, top, margins[top["name"]]) for top in chosen]}


def best_stand(heights, tops, roads):
    """The meeting place that its sightings pin down best along its road."""
    for road in roads:
        road["sample_s"] = np.arange(0.0, road["along"][-1], SAMPLE_M)
        road["samples"] = to_grid([at_chainage(road["line"], road["along"], s) for s in road["sample_s"]])
    stands = [stand(heights, tops, road, i, p) for road in roads for i, p in road["met"]]
    stands = [s for s in stands if s]
    if not stands:
        raise SystemExit("no meeting place of walk and road with a summit in sight")
    return min(stands, key=lambda s: s["spread_m"])


def read_bearing(place, true, height_m=0.0):
    """A true bearing as a compass shows it, in whole degrees, and before rounding."""
    exact = (true - magnetic(place, height_m).d) % 360.0
    return int(math.floor(exact + 0.5)) % 360, exact


# --- the legs ------------------------------------------------------------------------------------

def simplify(grid, tolerance):
    """Indices that the Douglas-Peucker rule keeps."""
    keep, stack = {0, len(grid) - 1}, [(0, len(grid) - 1)]
    while stack:
        a, b = stack.pop()
        if b - a < 2:
            continue
        off = distance_to_segment(grid[a + 1:b], grid[a], grid[b])
        k = int(off.argmax())
        if off[k] > tolerance:
            keep.add(a + 1 + k)
            stack += [(a, a + 1 + k), (a + 1 + k, b)]
    return sorted(keep)


def distance_to_segment(points, a, b):
    """Distances of points from a straight piece of line."""
    d = b - a
    share = np.clip(((points - a) @ d) / max(d @ d, 1e-12), 0, 1)
    return np.hypot(*(points - a - share[:, None] * d).T)


def way_out(walk, here):
    """The walk from the meeting place on, round its loop, to its farthest point."""
    start = here["index"] + 1
    order = [(start + k) % len(walk) for k in range(len(walk))]
    far = max(range(len(order)), key=lambda k: between(here["place"], walk[order[k]])[0])
    return [None] + order[:far + 1], [here["place"]] + [walk[k] for k in order[:far + 1]]


def legs_of(walk, here):
    """The way out in legs: the smallest tolerance, in steps of 5 m, that needs few enough of them."""
    indices, places = way_out(walk, here)
    grid = to_grid(places)
    tolerance = 5.0
    while len(kept := simplify(grid, tolerance)) - 1 > MOST_LEGS_WANTED:
        tolerance += 5.0
    if not LEGS[0] <= len(kept) - 1 <= LEGS[1]:
        raise SystemExit(f"{len(kept) - 1} legs")
    legs = [leg(places[a], places[b], indices[b]) for a, b in zip(kept, kept[1:])]
    return legs, tolerance, float(chainages(places)[-1])


def leg(a, b, index):
    """One leg as the walker would have read and counted it."""
    metres, true = between(a, b)
    reading, exact = read_bearing(a, true)
    return {"from": a, "to": b, "walk_index": index, "metres": metres, "bearing_true": true, "bearing_mag": exact,
            "read_mag": reading, "double_paces": int(metres * DOUBLE_PACES_PER_100_M / 100 + 0.5)}


def reckoned(start, legs, declination):
    """Where the read bearings and counted paces lead."""
    for k in legs:
        start = ahead(start, k["read_mag"] + declination, k["double_paces"] * 100 / DOUBLE_PACES_PER_100_M)
    return start


# --- writing -------------------------------------------------------------------------------------

def junctions(road, table):
    """Places on the road where other links end, with their distance along it."""
    found = []
    for place, s in zip(road["line"], road["along"]):
        others = [k for k in table.get(place, []) if k["id"] not in road["links"]]
        if others:
            found.append({"name": f"Junction {len(found) + 1}", "place": place, "s": float(s)})
    return found


def feature(shape, coordinates, **properties):
    """One GeoJSON feature."""
    return {"type": "Feature", "properties": properties, "geometry": {"type": shape, "coordinates": coordinates}}


def sheet(road_name, road, points, tops):
    """The sheet that the walker carries."""
    features = [feature("LineString", road["line"], name=road_name, kind="road")]
    features += [feature("Point", p["place"], name=p["name"], kind="junction", on=road_name) for p in points]
    features += [feature("Point", t["place"], name=t["name"], kind="summit", above_sea_m=t["height_m"], spread_m=5) for t in tops]
    head = {"name": "Open run", "grid": GRID, "position_spread_m": SHEET_SPREAD_M}
    return {"type": "FeatureCollection", "sheet": head, "features": features}


def clock():
    """A maker of times: call it with the minutes that have passed."""
    now = datetime.fromisoformat(f"{DATE}T06:00:00+00:00").astimezone(timezone.utc)

    def after(minutes):
        nonlocal now
        now += timedelta(minutes=round(minutes))
        return now.strftime("%Y-%m-%dT%H:%M:%SZ")
    return after


def fix_record(here, road_name, at, spread, instrument):
    """The sightings as one fix."""
    seen = [{"landmark": k["landmark"], "bearing": f"{k['read_mag']:03d} mag", **spread} for k in here["seen"]]
    return {"do": "fix", "at": at, "line": road_name, "instrument": instrument, "sightings": seen}


def records(here, road_name, legs):
    """The trip, told record by record, after two questions; the fix first with an ordinary compass, then with a careful one."""
    after, walking = clock(), 4000 / 60
    spot = f"{here['place'][1]:.7f}, {here['place'][0]:.7f}"
    told = [{"do": "norths", "place": spot, "date": DATE, "grid": GRID}, {"do": "place", "place": spot, "grid": GRID},
            {"do": "carry", "file": "tests/out/open/sheet.geojson"},
            {"do": "pace", "double_paces_per_100_m": DOUBLE_PACES_PER_100_M}]
    told.append(fix_record(here, road_name, after(0), {}, instrument="baseplate"))
    told.append(fix_record(here, road_name, after(5), {"spread_deg": SIGHTING_SPREAD_DEG}, instrument="sighting"))
    told.append({"do": "keep", "at": after(5), "stretch": 1, "name": "car"})
    told += [{"do": "leg", "at": after(max(1, k["metres"] / walking)), "bearing": f"{k['read_mag']:03d} mag",
              "paces": k["double_paces"], "pace_kind": "double"} for k in legs]
    told += [{"do": "where", "at": after(1)}, {"do": "back", "at": after(1)}]
    told.append({"do": "close", "at": after(sum(k["metres"] for k in legs) / walking)})
    return told


def truth(here, road_name, points, tops, legs, tolerance, walked, fit):
    """Everything that is known beside the records."""
    place, model = here["place"], magnetic(here["place"])
    return {"credit": "IGN, BD TOPO / RGE ALTI, Licence Ouverte 2.0 (inferred)", "date": DATE, "grid": GRID,
            "line": {"name": road_name, "metres": float(here["road"]["along"][-1]), "vertices": here["road"]["line"],
                     "links": sorted(here["road"]["links"]), "junctions": points},
            "car": {"place": place, "grid": to_grid([place])[0].tolist(), "height_m": here["height_m"], "s": here["s"],
                    "run_true": run_bearing(here["road"], here["s"]), "walk_index": here["index"]},
            "norths": {"declination": model.d, "declination_spread": model.calculate_uncertainty().d,
                       "inclination": model.i, "horizontal_nt": model.h, "convergence": convergence(place)},
            "summits": tops, "sightings": here["seen"], "expected_spread_m": here["spread_m"],
            "double_paces_per_100_m": DOUBLE_PACES_PER_100_M, "legs": legs, "simplified_to_m": tolerance,
            "walked_m": walked, "turning_point": legs[-1]["to"], "walk_against_heights_m": fit}


def height_fit(heights, walk, levels):
    """Median and 90 % of how far the walk's own heights are from the grid: says that they belong together."""
    off = np.abs(heights.at(to_grid(walk)) - levels)
    return [float(np.median(off)), float(np.quantile(off, 0.9))]


def read_sightings(here):
    """Add to each sighting what the compass shows."""
    for k in here["seen"]:
        k["read_mag"], k["bearing_mag"] = read_bearing(here["place"], k["bearing_true"])


def tell(made, tops):
    """Print what was chosen."""
    car, legs = made["car"], made["legs"]
    print(f"road {made['line']['metres']:.0f} m of {len(made['line']['links'])} links, {len(made['line']['junctions'])} junctions; "
          f"car at {car['s']:.1f} m, {car['place'][1]:.6f}, {car['place'][0]:.6f}, {car['height_m']:.0f} m; run {car['run_true']:.1f} true; "
          f"foretold to {made['expected_spread_m']:.0f} m")
    print(f"{len(tops)} summits; declination {made['norths']['declination']:.3f}, convergence {made['norths']['convergence']:.3f}")
    for k in made["sightings"]:
        print(f"  {k['landmark']}: {k['metres']:.0f} m, {k['read_mag']:03d} mag ({k['bearing_mag']:.2f}), cut {k['cut_deg']:.0f}, "
              f"clears by {k['clear_m']:.1f} m")
    end = reckoned(car["place"], legs, made["norths"]["declination"])
    print(f"{len(legs)} legs (to {made['simplified_to_m']:.0f} m) for {made['walked_m']:.0f} m walked, {sum(k['metres'] for k in legs):.0f} m in legs "
          f"of {min(k['metres'] for k in legs):.0f} to {max(k['metres'] for k in legs):.0f} m; turning point "
          f"{between(car['place'], made['turning_point'])[0]:.0f} m off; rounding alone {between(end, made['turning_point'])[0]:.1f} m")
    print("walk's heights against the grid, median and 90 %:", [round(v, 1) for v in made["walk_against_heights_m"]])


def main():
    """Choose, compute, write."""
    heights = Heights()
    links = read_network(heights)
    walk, levels = read_walk()
    tops = summits(heights)
    here = best_stand(heights, tops, roads_met(links, to_grid(walk)))
    read_sightings(here)
    points = junctions(here["road"], ends_table(links))
    legs, tolerance, walked = legs_of(walk, here)
    road_name = "Valley road"
    made = truth(here, road_name, points, tops, legs, tolerance, walked, height_fit(heights, walk, levels))
    write_json("sheet.geojson", sheet(road_name, here["road"], points, tops))
    write_lines("records.jsonl", records(here, road_name, legs))
    write_json("truth.json", made)
    tell(made, tops)


if __name__ == "__main__":
    main()
