"""tests/tables/grid/old_letters.json: MGRS references as maps of old ellipsoids letter their squares, by GEOTRANS.

GEOTRANS letters UTM on the ellipsoids of Clarke 1866, Clarke 1880 and Bessel 1841 ten rows on. Only the older `mgrs` package hands its
ellipsoid through, so this script has its own environment and is not run by make.py:

    python3 -m venv old && old/bin/pip install mgrs==1.4.6 pyproj==3.7.2 && old/bin/python tests/references/old_letters.py
"""

import ctypes
import importlib.metadata
import json
import pathlib
import random

import mgrs.core
import pyproj

SEED = 20260702
# Grid, GEOTRANS' ellipsoid code, semi-major axis, inverse flattening, zone, south, north, west, east of the places.
GRIDS = (
    ("EPSG:26711", "CC", 6_378_206.4, 294.9786982, 11, 32.0, 42.0, -120.0, -114.0),
    ("EPSG:26718", "CC", 6_378_206.4, 294.9786982, 18, 38.0, 46.0, -78.0, -72.0),
    ("EPSG:30730", "CD", 6_378_249.145, 293.465, 30, 32.0, 36.0, -6.0, 0.0),
    ("EPSG:20936", "CD", 6_378_249.145, 293.465, 36, -15.0, -9.5, 30.0, 33.0),
    ("EPSG:3095", "BR", 6_377_397.155, 299.1528128, 54, 34.0, 44.0, 138.0, 144.0),
)
TABLE = pathlib.Path(__file__).parent.parent / "tables" / "grid" / "old_letters.json"


def lettered(code, axis, inverse, zone, east, north, is_north):
    """The reference that GEOTRANS writes, to the metre."""
    library, text = mgrs.core.rt, ctypes.create_string_buffer(80)
    library.Set_MGRS_Parameters.argtypes = [ctypes.c_double, ctypes.c_double, ctypes.c_char_p]
    library.Convert_UTM_To_MGRS.argtypes = [ctypes.c_long, ctypes.c_char, ctypes.c_double, ctypes.c_double, ctypes.c_long, ctypes.c_char_p]
    if library.Set_MGRS_Parameters(axis, 1.0 / inverse, code.encode()):
        raise ValueError(code)
    if library.Convert_UTM_To_MGRS(zone, b"N" if is_north else b"S", east, north, 5, text):
        raise ValueError((zone, east, north))
    return text.value.decode()


def rows():
    """Places at the middle of a square of 1 m, on each grid."""
    draw = random.Random(SEED)
    for grid, code, axis, inverse, zone, south, north, west, east in GRIDS:
        projection = pyproj.Proj(proj="utm", zone=zone, a=axis, rf=inverse, south=south < 0)
        for _ in range(8):
            x, y = projection(draw.uniform(west, east), draw.uniform(south, north))
            x, y = int(x) + 0.5, int(y) + 0.5
            yield {"grid": grid, "reference": lettered(code, axis, inverse, zone, x, y, south > 0), "east_m": x, "north_m": y}


def main():
    """Write the table."""
    source = "GEOTRANS in mgrs 1.4.6 (PyPI, MIT licence); eastings and northings by pyproj 3.7.2"
    if importlib.metadata.version("mgrs") != "1.4.6" or pyproj.__version__ != "3.7.2":
        raise SystemExit("other versions than the table names")
    document = {"source": source, "made_by": "tests/references/old_letters.py", "rows": list(rows())}
    TABLE.parent.mkdir(parents=True, exist_ok=True)
    lines = ",\n".join(json.dumps(row) for row in document.pop("rows"))
    head = json.dumps(document)[:-1]
    TABLE.write_text(f'{head}, "rows": [\n{lines}\n]}}\n', encoding="ascii")


if __name__ == "__main__":
    main()
