"""Lines "lat lon" to UTM coordinates or MGRS references by pyproj, one array per grid: by_pyproj.py utm|mgrs."""

import pathlib
import sys

sys.dont_write_bytecode = True
sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[2] / "references"))

import numpy  # noqa: E402  (the folder of the references comes first)
import pyproj  # noqa: E402

import grid  # noqa: E402


def by_grid(places):
    """Row numbers by the code of their grid."""
    rows = {}
    for number, (lat, lon) in enumerate(places):
        rows.setdefault(grid.code_of(lat, lon), []).append(number)
    return rows


def coordinates(places):
    """Eastings and northings, one call of PROJ per grid."""
    told = numpy.empty_like(places)
    for code, rows in by_grid(places).items():
        lat, lon = places[rows].T
        told[rows, 0], told[rows, 1] = pyproj.Proj(code)(lon, lat)
    return told


def main(form):
    """Standard input to standard output."""
    places = numpy.loadtxt(sys.stdin, dtype=float, ndmin=2)
    for (lat, lon), (easting, northing) in zip(places.tolist(), coordinates(places).tolist()):
        if form == "mgrs" and not grid.is_polar(lat):
            print(grid.letters(lat, lon, easting, northing))
        else:
            print(f"{easting:.3f} {northing:.3f}")


if __name__ == "__main__":
    main(sys.argv[1])
