"""Sightlines beside gdal_viewshed and contours beside gdal_contour, in one run, on invented heights. Figures, not a test."""

import subprocess
import sys
import time
from pathlib import Path

sys.dont_write_bytecode = True
sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "ground"))

import numpy as np

from common import OUT, Ground, ask, raster

POSTS, STEP_M, WITHIN_M, EYE_M = 3601, 30.0, 5000.0, 1.7
WEST, NORTH, GRID = 400_000.0, 5_100_000.0, "EPSG:32632"


def invented(posts, seed, relief_m):
    """Heights with the roughness of hills: more relief the longer the wave."""
    rng = np.random.default_rng(seed)
    size = 1 << (posts - 1).bit_length()
    along, across = np.fft.fftfreq(size)[:, None], np.fft.rfftfreq(size)[None, :]
    wave = np.maximum(np.hypot(along, across), 1 / 600)
    z = np.fft.irfft2(np.fft.rfft2(rng.standard_normal((size, size))) * wave**-1.9, s=(size, size))[:posts, :posts]
    return (800 + relief_m * (z - z.mean()) / z.std()).astype(np.float32)


def timed(words):
    """Seconds of one run of a program."""
    started = time.perf_counter()
    subprocess.run([str(word) for word in words], check=True, capture_output=True)
    return time.perf_counter() - started


def sightlines(binary):
    """10,001 eyes along a line of 10 km and 30 objects near it, against thirty viewsheds of 5 km."""
    z = invented(POSTS, 5, 220)
    south, east = np.gradient(z, STEP_M)
    steep = np.degrees(np.arctan(np.hypot(south, east)))
    print(f"heights: {POSTS} x {POSTS} posts at {STEP_M:.0f} m, slope {steep.mean():.1f} degrees on the mean, 99 % below {np.percentile(steep, 99):.1f}")
    rng = np.random.default_rng(9)
    t = np.arange(10_001) / STEP_M
    columns, rows = 1600 + t * 0.96, 1800 + 40 * np.sin(t / 60)
    eyes = np.column_stack([columns, rows])
    at = rng.integers(0, len(eyes), 30)
    objects = [[float(round(c)), float(round(r)), 10.0] for c, r in eyes[at] + rng.uniform(-110, 110, (30, 2))]
    raster("bench", z, WEST, NORTH, (STEP_M, STEP_M))
    tif = OUT / "bench.tif"
    subprocess.run(["gdal_translate", "-q", "-a_srs", GRID, str(OUT / "bench.bil"), str(tif)], check=True)
    peer_s = 0.0
    for column, row, above_m in objects:
        x, y = WEST + column * STEP_M, NORTH - row * STEP_M
        words = ["gdal_viewshed", "-q", "-md", WITHIN_M, "-ox", x, "-oy", y, "-oz", above_m, "-tz", EYE_M, tif, OUT / "view.tif"]
        peer_s += min(timed(words) for _ in range(3))
    ground = Ground("bench", z, WEST, NORTH, (STEP_M, STEP_M), GRID, 5.0, 300.0)
    task = {"eyes": eyes.tolist(), "eye_m": EYE_M, "objects": objects, "within_m": WITHIN_M, "chance": False}
    told = ask(binary, ground, {"in-sight": task})
    seen = np.array([[np.nan if one is None else one for one in row] for row in told["seen"]], float)
    asked = ~np.isnan(seen)
    print(f"{asked.sum()} pairs within {WITHIN_M:.0f} m, {100 * seen[asked].mean():.1f} % in sight")
    print(f"thirty gdal_viewshed -md 5000: {peer_s:.3f} s; ours {told['again_s']:.4f} s: {peer_s / told['again_s']:.1f} times as fast; "
          f"blocks built once {told['built_s']:.3f} s, steepness {told['first_s'] - told['again_s']:.3f} s")
    print(f"   with everything that is built once: {peer_s / (told['built_s'] + told['first_s']):.1f} times as fast")
    exact(binary, ground, eyes, objects, seen)
    task = {**task, "eyes": eyes[::10].tolist(), "chance": True}
    told = ask(binary, ground, {"in-sight": task})
    chances = np.array([[np.nan if one is None else one for one in row] for row in told["seen"]], float)
    between = (chances > 0.05) & (chances < 0.95)
    print(f"chances at every tenth eye: {(~np.isnan(chances)).sum()} in {told['first_s']:.3f} s, {100 * between.sum() / (~np.isnan(chances)).sum():.1f} % in doubt")


def exact(binary, ground, eyes, objects, seen):
    """The answers for many eyes are those of one sight after the other."""
    some = [(i, j) for i in range(len(objects)) for j in range(i, len(eyes), 97) if not np.isnan(seen[i, j])]
    pairs = [[[*eyes[j].tolist(), EYE_M], objects[i]] for i, j in some]
    sights = ask(binary, ground, {"sights": {"pairs": pairs}})
    differ = sum((sight["margin_m"] >= -1e-6) != seen[i, j] for sight, (i, j) in zip(sights, some))
    print(f"   {differ} of {len(some)} answers differ from single sights")


def contours(binary):
    """All contours of 1201 x 1201 posts every 20 m."""
    z = invented(1201, 6, 350)
    file = raster("bench-contours", z, WEST, NORTH, (STEP_M, STEP_M))
    shapes = OUT / "bench-contours.shp"
    peer_s = []
    for _ in range(3):
        for old in OUT.glob("bench-contours.sh*"):
            old.unlink()
        peer_s.append(timed(["gdal_contour", "-q", "-a", "h", "-i", 20, file, shapes]))
    ground = Ground("bench-contours", z, WEST, NORTH, (STEP_M, STEP_M), GRID)
    task = {"interval_m": 20.0, "base_m": 0.0, "tolerance_m": None, "lines": False}
    told = min((ask(binary, ground, {"contours": task}) for _ in range(3)), key=lambda told: told["took_s"])
    print(f"contours, heights from {z.min():.0f} to {z.max():.0f} m: gdal_contour {min(peer_s):.3f} s with reading and writing; "
          f"ours {told['took_s']:.3f} s, {told['count']} lines, {told['places']} places: {min(peer_s) / told['took_s']:.1f} times as fast")


if __name__ == "__main__":
    sightlines(sys.argv[1])
    contours(sys.argv[1])
