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

EYE_M, TOP_M, CANDIDATES, HIDDEN, BEARINGS = 1.7, 10.0, 30, 10, 5
# As the tool has them for a baseplate compass: reading with its rounding, the shared error, and the map error of a landmark and the line.
OWN_DEG, SHARED_DEG, MAP_M, WRONG, OVERLOOKED = np.hypot(2.5, 2.0 / np.sqrt(12)), 1.5, np.hypot(5.0, 5.0), 0.02, 0.05


def scene():
    """Heights, the line at every metre, landmarks near it, and what one walker tells."""
    z = invented(POSTS, 5, 220)
    rng = np.random.default_rng(9)
    t = np.arange(10_001.0)
    line = np.column_stack([WEST + 48_000 + t * 0.96, NORTH - 54_000 - 1200 * np.sin(t / 1800)])
    places = rng.integers(0, len(line), CANDIDATES + HIDDEN)
    marks = line[places] + rng.uniform(-3_000, 3_000, (CANDIDATES + HIDDEN, 2))
    here = line[6_200]
    shared = rng.normal(0, SHARED_DEG)
    seen = rng.choice(CANDIDATES, BEARINGS, replace=False)
    readings = [np.degrees(np.arctan2(*(marks[one] - here))) + shared + rng.normal(0, 2.5) for one in seen]
    return z, line, marks, np.mod(readings, 360.0)


def features(line, marks):
    """The sheet as GeoJSON."""
    to_earth = pyproj.Transformer.from_crs(GRID, "EPSG:4326", always_xy=True)
    degrees = lambda points: np.column_stack(to_earth.transform(points[:, 0], points[:, 1])).tolist()
    road = {"type": "Feature", "properties": {"name": "Road", "kind": "road"}, "geometry": {"type": "LineString", "coordinates": degrees(line[::40])}}
    def point(number, at):
        kind = "house" if number < CANDIDATES else "tower"
        return {"type": "Feature", "properties": {"name": f"{kind} {number}", "kind": kind}, "geometry": {"type": "Point", "coordinates": at}}
    all_marks = [point(number, at) for number, at in enumerate(degrees(marks))]
    return json.dumps({"type": "FeatureCollection", "sheet": {"name": "Bench", "grid": GRID}, "features": [road, *all_marks]})


def by_hand(tif, line, marks, readings):
    """A viewshed for each landmark, then the posterior along the line with identity and shared error summed out."""
    columns, rows = np.rint((line[:, 0] - WEST) / STEP_M).astype(int), np.rint((NORTH - line[:, 1]) / STEP_M).astype(int)
    viewsheds = 0.0
    in_sight = np.empty((len(marks), len(line)))
    for number, (x, y) in enumerate(marks):
        out = OUT / "view.bil"
        words = ["gdal_viewshed", "-q", "-of", "EHdr", "-ox", x, "-oy", y, "-oz", TOP_M, "-tz", EYE_M, "-md", 15_000, tif, out]
        viewsheds += timed(words)
        head = dict(row.split() for row in out.with_suffix(".hdr").read_text().splitlines() if len(row.split()) == 2)
        view = np.fromfile(out, np.uint8).reshape(int(head["NROWS"]), int(head["NCOLS"]))
        c0, r0 = round((float(head["ULXMAP"]) - WEST) / STEP_M), round((NORTH - float(head["ULYMAP"])) / STEP_M)
        c, r = columns - c0, rows - r0
        inside = (c >= 0) & (r >= 0) & (c < view.shape[1]) & (r < view.shape[0])
        in_sight[number] = np.where(inside, view[np.clip(r, 0, view.shape[0] - 1), np.clip(c, 0, view.shape[1] - 1)] > 0, 0.0)
    started = time.perf_counter()
    log = np.zeros(len(line))
    for number in range(CANDIDATES, CANDIDATES + HIDDEN):
        log += np.log(1 - (1 - OVERLOOKED) * in_sight[number])
    ray = marks[:CANDIDATES, None, :] - line[None, :, :]
    bearing, distance = np.degrees(np.arctan2(ray[..., 0], ray[..., 1])), np.hypot(ray[..., 0], ray[..., 1])
    sigma = np.hypot(OWN_DEG, np.degrees(MAP_M / np.maximum(distance, 1.0)))
    weight = np.maximum(in_sight[:CANDIDATES], 0.005) / CANDIDATES
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
    return viewsheds, time.perf_counter() - started, odds / odds.sum()


def main(binary):
    """Print both times and how far the two posteriors lie apart."""
    OUT.mkdir(parents=True, exist_ok=True)
    z, line, marks, readings = scene()
    raster("bench-fix", z, WEST, NORTH, (STEP_M, STEP_M))
    tif = OUT / "bench-fix.tif"
    subprocess.run(["gdal_translate", "-q", "-a_srs", GRID, str(OUT / "bench-fix.bil"), str(tif)], check=True)
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
    print(f"likeliest place: ours {told['best_m']:.0f} m along the line, by hand {np.argmax(odds):.0f} m")


if __name__ == "__main__":
    main(sys.argv[1])
