"""Draws correlated height errors on a tilted plane and tells how often the ground seems to rise, and which way it seems to fall.

Writes `core/src/ground/landform/simulated.txt` with `--write`; without it holds the file against a fresh draw.
The errors are normal, the covariance of two heights is sigma squared times exp(-distance / correlation); the walker's eye for
what is level is normal too. Nothing of the tool's formulas is used: heights are drawn, a plane is fitted by least squares.
"""

import sys
from pathlib import Path

import numpy as np

FILE = Path(__file__).resolve().parents[2] / "core/src/ground/landform/simulated.txt"
SIGMA_M, CORRELATION_M = 5.0, 300.0
STEEP, RADIUS_M, DISTANCE_M = 0.1, 50.0, 100.0
LEVEL_DEG, EYE_DEG = 2.0, 1.0
DRAWS = 2_000_000


def drawn(random, places):
    """Errors of heights at places, one row for each draw."""
    apart = np.hypot(*(places[:, None] - places[None]).transpose(2, 0, 1))
    root = np.linalg.cholesky(SIGMA_M**2 * np.exp(-apart / CORRELATION_M) + 1e-9 * np.eye(len(places)))
    return random.standard_normal((DRAWS, len(places))) @ root.T


def figures(random):
    """The shares and the spread, by name."""
    ends = np.array([[0.0, 0.0], [DISTANCE_M, 0.0]])
    error = drawn(random, ends)
    rise = STEEP * DISTANCE_M + error[:, 1] - error[:, 0]
    band = DISTANCE_M * np.tan(np.radians(LEVEL_DEG)) + DISTANCE_M * np.tan(np.radians(EYE_DEG)) * random.standard_normal(DRAWS)
    falls = DISTANCE_M * np.tan(np.radians(LEVEL_DEG)) + DISTANCE_M * np.tan(np.radians(EYE_DEG)) * random.standard_normal(DRAWS)
    rises = rise > band
    turn = np.arange(8) * np.pi / 4
    circle = RADIUS_M * np.column_stack([np.sin(turn), np.cos(turn)])
    heights = STEEP * circle[:, 1] + drawn(random, circle)
    plane = np.linalg.lstsq(np.column_stack([circle, np.ones(8)]), heights.T, rcond=None)[0]
    off = np.degrees(np.arctan2(plane[0], plane[1]))
    return {
        "chance-rises": rises.mean(),
        "chance-level": 1 - rises.mean() - (-rise > falls).mean(),
        "aspect-spread-deg": np.sqrt((off**2).mean()),
        "aspect-within-5-deg": (np.abs(off) < 5).mean(),
        "aspect-55-to-65-deg": ((off > 55) & (off < 65)).mean(),
    }


def main():
    """Writes the figures or holds them against another draw."""
    if "--write" in sys.argv:
        told = figures(np.random.default_rng(1))
        FILE.write_text("".join(f"{name} {value:.5f}\n" for name, value in told.items()), encoding="utf-8")
        return 0
    written = dict(line.split() for line in FILE.read_text(encoding="utf-8").splitlines())
    again = figures(np.random.default_rng(2))
    wrong = [name for name, value in again.items() if abs(float(written[name]) - value) > 0.002 * max(1.0, value)]
    print("FAILED" if wrong else "PASSED", "simulated heights:", wrong or f"{len(again)} figures agree with a second draw of {DRAWS}")
    return bool(wrong)


if __name__ == "__main__":
    sys.exit(main())
