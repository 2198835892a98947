"""What the checks of the ground share: the open heights, the question to our own binary, the tally, rasters for GDAL."""

import hashlib
import json
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import numpy as np
import pyproj

HERE = Path(__file__).resolve().parent
OUT = HERE.parent / "out" / "ground"
GEOD = pyproj.Geod(ellps="WGS84")
# matplotlib 3.11.2 (its licence; the heights are SRTM's, public domain): Jacksboro in Tennessee, 3 arc seconds, no voids.
PACKAGE = "matplotlib==3.11.2"
MEMBER = "matplotlib/mpl-data/sample_data/jacksboro_fault_dem.npz"
SUM_BEGINS, SUM_ENDS = "d493f50a", "62fb637"
STEP = 3.0 / 3600.0
# The file's own latitudes are wrong: its "ymax" lies south of its "ymin". Its ymax is taken as the northern edge; the highest
# post then lies where the highest mountain of the area is.
WEST, NORTH = -84.41375 + STEP / 2, 36.44625 - STEP / 2
EARTH_RADIUS_M, REFRACTION = 6_371_008.8, 0.13
FALL = (1.0 - REFRACTION) / (2.0 * EARTH_RADIUS_M)


class Tally:
    """Counts checks; a failed one is printed."""

    def __init__(self):
        self.passed = self.failed = 0

    def check(self, name, ok, told=""):
        """Count one check and print it."""
        self.passed += bool(ok)
        self.failed += not ok
        print(f"{'passed' if ok else 'FAILED'}: {name}{': ' if told else ''}{told}", flush=True)


def real_heights():
    """The open heights, row 0 north, metres."""
    file = OUT / Path(MEMBER).name
    if not file.exists():
        OUT.mkdir(parents=True, exist_ok=True)
        ask = [sys.executable, "-m", "pip", "download", "-q", "--disable-pip-version-check", "--no-deps", "-d", str(OUT), PACKAGE]
        subprocess.run(ask, check=True)
        with zipfile.ZipFile(next(OUT.glob("matplotlib-*.whl"))) as wheel:
            file.write_bytes(wheel.read(MEMBER))
    found = hashlib.sha256(file.read_bytes()).hexdigest()
    if not (found.startswith(SUM_BEGINS) and found.endswith(SUM_ENDS)):
        raise SystemExit(f"{file.name}: sha256 {found} is not the known one")
    return np.load(file)["elevation"].astype(np.float64)


class Ground:
    """Heights as a reference holds them, and as our binary is told of them."""

    def __init__(self, name, z, west=WEST, north=NORTH, step=(STEP, STEP), grid=None, sigma_m=0.0, correlation_m=300.0):
        self.z, self.west, self.north, self.step, self.grid = z, west, north, step, grid
        OUT.mkdir(parents=True, exist_ok=True)
        self.file = OUT / f"{name}.f32"
        z.astype("<f4").tofile(self.file)
        rows, columns = z.shape
        self.told = {
            "file": str(self.file), "columns": columns, "rows": rows, "west": west, "north": north,
            "step_east": step[0], "step_south": step[1], "grid": grid, "sigma_m": sigma_m, "correlation_m": correlation_m,
        }

    def places(self, columns, rows):
        """Longitudes and latitudes of places among the posts of a degree grid."""
        return self.west + np.asarray(columns, float) * self.step[0], self.north - np.asarray(rows, float) * self.step[1]

    def at(self, columns, rows):
        """Heights between posts, bilinear."""
        left = np.clip(np.floor(columns).astype(np.int64), 0, self.z.shape[1] - 2)
        top = np.clip(np.floor(rows).astype(np.int64), 0, self.z.shape[0] - 2)
        x, y = columns - left, rows - top
        upper = self.z[top, left] * (1 - x) + self.z[top, left + 1] * x
        lower = self.z[top + 1, left] * (1 - x) + self.z[top + 1, left + 1] * x
        return upper * (1 - y) + lower * y


def ask(binary, ground, task):
    """Our own answer."""
    told = json.dumps({"heights": ground.told, "task": task})
    done = subprocess.run([binary], input=told, capture_output=True, text=True, check=False)
    if done.returncode != 0:
        raise SystemExit(f"{binary}: {done.stderr}")
    return json.loads(done.stdout)


def has(program):
    """Whether a program of GDAL is there."""
    return shutil.which(program) is not None


def raster(name, z, west=0.0, north=0.0, step=(1.0, 1.0)):
    """A raster that GDAL reads: 32-bit floats with a header, `west` and `north` the first post."""
    rows, columns = z.shape
    file = OUT / f"{name}.bil"
    z.astype("<f4").tofile(file)
    file.with_suffix(".hdr").write_text(
        f"NROWS {rows}\nNCOLS {columns}\nNBANDS 1\nNBITS 32\nPIXELTYPE FLOAT\nBYTEORDER I\nLAYOUT BIL\n"
        f"ULXMAP {west!r}\nULYMAP {north!r}\nXDIM {step[0]!r}\nYDIM {step[1]!r}\n", encoding="ascii"
    )
    return file


def run(*words):
    """Run a program of GDAL."""
    subprocess.run([str(word) for word in words], check=True, capture_output=True)
