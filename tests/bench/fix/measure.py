"""One large fix beside the route by hand, GDAL viewsheds and NumPy, in one run, on invented heights. Figures, not a test."""

import json
import subprocess
import sys
import time
from pathlib import Path

sys.dont_write_bytecode = True
sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "ground"))
sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "ground"))

import numpy as np
import pyproj
from common import OUT, raster
from measure_heights import GRID, NORTH, POSTS, STEP_M, WEST, invented, timed

EYE_M, TOP_M, CANDIDATES, HIDDEN, BEARINGS, HERE_M = 1.7, 10.0, 30, 10, 5, 6_200
# As the tool has them for a baseplate compass: reading with its rounding, the shared error, and the map error of a landmark and the line.
OWN_DEG, SHARED_DEG, MAP_M, WRONG, OVERLOOKED = np.hypot(2.5, 2.0 / np.sqrt(12)), 1.5, np.hypot(5.0, 5.0), 0.02, 0.05
APART_DEG = 15.0


def viewshed(tif, at, up_m, points, seen_up_m):
    """Whether each point is in sight of a place, by gdal_viewshed, and the seconds that it took."""
    out = OUT / "view.bil"
    words = ["gdal_viewshed", "-q", "-of", "EHdr", "-ox", at[0], "-oy", at[1], "-oz", up_m, "-tz", seen_up_m, "-md", 15_000, tif, out]
    took = timed(words)
    head = dict(row.split() for row in out.with_suffix(".hdr").read_text().splitlines() if len(row.split()) == 2)
    view = np.fromfile(out, np.uint8).reshape(int(head["NROWS"]), int(head["NCOLS"]))
    columns = np.rint((points[:, 0] - float(head["ULXMAP"])) / STEP_M).astype(int)
    rows = np.rint((float(head["ULYMAP"]) - points[:, 1]) / STEP_M).astype(int)
    inside = (columns >= 0) & (rows >= 0) & (columns < view.shape[1]) & (rows < view.shape[0])
    held = view[np.clip(rows, 0, view.shape[0] - 1), np.clip(columns, 0, view.shape[1] - 1)]
    return inside & (held > 0), took


def apart(rays, numbers):
    """The first so many that no two of lie in nearly one direction: the tool takes bearings within three sigmas for two of one house."""
    bearings, kept = np.degrees(np.arctan2(rays[:, 0], rays[:, 1])), []
    for number in numbers:
        turns = np.mod(bearings[number] - bearings[kept] + 180, 360) - 180
        if len(kept) < BEARINGS and np.all(np.abs(turns) > APART_DEG):
            kept.append(number)
    return np.array(kept)


def scene(tif):
    """The line at every metre, landmarks near it, and what one walker tells: of the houses in sight five bearings, of the towers none."""
    rng = np.random.default_rng(9)
    t = np.arange(0.0, 10_001.0, 0.25)
    curve = np.column_stack([WEST + 48_000 + t * 0.96, NORTH - 54_000 - 1200 * np.sin(t / 1800)])
    gone = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(curve, axis=0).T))])
    line = np.column_stack([np.interp(np.arange(10_001.0), gone, axis) for axis in curve.T])
    places = rng.integers(0, len(line), 4 * (CANDIDATES + HIDDEN))
    marks = line[places] + rng.uniform(-3_000, 3_000, (len(places), 2))
    here = line[HERE_M]
    in_sight, _ = viewshed(tif, here, EYE_M, marks, TOP_M)
    seen, hidden = apart(marks - here, np.flatnonzero(in_sight)), np.flatnonzero(~in_sight)[:HIDDEN]
    others = np.setdiff1d(np.arange(len(marks)), np.concatenate([seen, hidden]))[:CANDIDATES - BEARINGS]
    marks = marks[np.concatenate([seen, others, hidden])]
    shared = rng.normal(0, SHARED_DEG)
    readings = [np.degrees(np.arctan2(*(mark - here))) + shared + rng.normal(0, 2.5) for mark in marks[:BEARINGS]]
    return line, marks, np.mod(readings, 360.0)


def features(line, marks):
    """The sheet as GeoJSON."""
    to_earth = pyproj.Transformer.from_crs(GRID, "EPSG:4326", always_xy=True)
    degrees = lambda points: np.column_stack(to_earth.transform(points[:, 0], points[:, 1])).tolist()
    road = {"type": "Feature", "properties": {"name": "Road", "kind": "road"}, "geometry": {"type": "LineString", "coordinates": degrees(line[::40])}}
    def point(number, at):
        kind = "house" if number < CANDIDATES else "tower"
        return {"type": "Feature", "properties": {"name": f"{kind} {number}", "kind": kind, "height_m": TOP_M}, "geometry": {"type": "Point", "coordinates": at}}
    all_marks = [point(number, at) for number, at in enumerate(degrees(marks))]
    return json.dumps({"type": "FeatureCollection", "sheet": {"name": "Bench", "grid": GRID}, "features": [road, *all_marks]})


def by_hand(tif, line, marks, readings):
    """A viewshed for each landmark, and the odds along the line with sight as a yes or no; with the seconds of both."""
    views = [viewshed(tif, mark, TOP_M, line, EYE_M) for mark in marks]
    started = time.perf_counter()
    odds = weighed(line, marks, readings, np.array([view for view, _ in views], float))
    return sum(took for _, took in views), time.perf_counter() - started, odds


def weighed(line, marks, readings, chances):
    """The odds along the line by the chance that each landmark is in sight, with identity and shared error summed out."""
    log = np.log(1 - (1 - OVERLOOKED) * chances[CANDIDATES:]).sum(axis=0)
    ray = marks[:CANDIDATES, None, :] - line[None, :, :]
    bearing, distance = np.degrees(np.arctan2(ray[..., 0], ray[..., 1])), np.hypot(ray[..., 0], ray[..., 1])
    sigma = np.hypot(OWN_DEG, np.degrees(MAP_M / np.maximum(distance, 1.0)))
    weight = np.maximum(chances[:CANDIDATES], 0.005) / CANDIDATES
    nodes = np.linspace(-4.5, 4.5, 19)
    share = np.exp(-nodes**2 / 2)
    share /= share.sum()
    given = np.zeros((len(nodes), len(line)))
    for k, node in enumerate(nodes):
        for reading in readings:
            off = np.mod(reading - node * SHARED_DEG - bearing + 180, 360) - 180
            fits = (1 - WRONG) * np.exp(-0.5 * (off / sigma) ** 2) / (sigma * np.sqrt(2 * np.pi)) + WRONG / 360
            given[k] += np.log((weight * fits).sum(axis=0))
    log += np.log((share[:, None] * np.exp(given)).sum(axis=0))
    odds = np.exp(log - log.max())
    return odds / odds.sum()


def main(binary):
    """Print both times and how far the two posteriors lie apart."""
    OUT.mkdir(parents=True, exist_ok=True)
    raster("bench-fix", invented(POSTS, 5, 220), WEST, NORTH, (STEP_M, STEP_M))
    tif = OUT / "bench-fix.tif"
    subprocess.run(["gdal_translate", "-q", "-a_srs", GRID, str(OUT / "bench-fix.bil"), str(tif)], check=True)
    line, marks, readings = scene(tif)
    task = {"file": str(OUT / "bench-fix.bil"), "posts": POSTS, "west": WEST, "north": NORTH, "step_m": STEP_M, "grid": GRID,
            "sheet": features(line, marks), "bearings": [f"{reading:.4f} grid" for reading in readings], "one_of": "house", "not_seen": "tower"}
    done = subprocess.run([binary], input=json.dumps(task), text=True, capture_output=True, check=True)
    told = json.loads(done.stdout)
    viewsheds, weighing, odds = by_hand(tif, line, marks, readings)
    ours, hand = told["sight_s"] + told["fix_s"], viewsheds + weighing
    print(f"10 km at 1 m, {CANDIDATES} landmarks of unknown identity, {HIDDEN} not seen, {BEARINGS} bearings, {POSTS} x {POSTS} heights")
    print(f"ours: {1000 * ours:.1f} ms: in sight {1000 * told['sight_s']:.1f}, weighing and account {1000 * told['fix_s']:.1f}; "
          f"once for a sheet {1000 * told['index_s']:.1f}")
    print(f"by hand: {1000 * hand:.0f} ms: viewsheds {1000 * viewsheds:.0f}, NumPy {1000 * weighing:.0f}: {hand / ours:.0f} times as long")
    # As the tool asks them along the line, straight between.
    along = np.arange(len(line))
    chances = np.array([np.interp(along, told["along_m"] * np.arange(len(row)), row) for row in told["chances"]])
    ours_by_hand = weighed(line, marks, readings, chances)
    print(f"likeliest place, {HERE_M} m along the line by the walker: ours {told['best_m']:.0f} m, by hand with our chances of sight "
          f"{np.argmax(ours_by_hand):.0f} m, by hand with a yes or no {np.argmax(odds):.0f} m")
    for name, one in (("our chances", ours_by_hand), ("a yes or no", odds)):
        print(f"   by hand with {name}: {100 * one[HERE_M - 200:HERE_M + 201].sum():.1f} % within 200 m of the walker")


if __name__ == "__main__":
    main(sys.argv[1])
