"""Files written by GDAL (pyogrio's) and read back by it: names, kinds, counts, coordinates to 1e-7 degrees."""

import numpy as np
import pyogrio
import shapely
from pyproj import Transformer
from pyproj.transformer import TransformerGroup

from told import ask, check, write

NEAR_DEG = 1e-7
LINE_KINDS = ["road", "track", "path", "creek", "ridge", "fence"]
MARK_KINDS = ["mast", "summit", "church", "chimney", "tower", "hut"]


def way(random, count):
    """Places of a way that bends; what comes over its own ground again is told apart in `tests/references/ways_once.py`."""
    heading, step = np.cumsum(random.normal(0, 0.5, count)), np.abs(random.normal(0, 0.003, count))
    return np.cumsum(np.c_[step * np.sin(heading), step * np.cos(heading)], axis=0)


def net(seed):
    """An invented net of lines, points and areas around 13 E, 46 N."""
    random = np.random.default_rng(seed)
    lines = [shapely.LineString(way(random, random.integers(2, 40)) + random.uniform([13, 46], [14, 47])) for _ in range(60)]
    points = [shapely.Point(*random.uniform([13, 46], [14, 47])) for _ in range(40)]
    areas = []
    for _ in range(25):
        middle, turn = random.uniform([13, 46], [14, 47]), np.sort(random.uniform(0, 2 * np.pi, 9))
        ring = middle + 0.0003 * np.c_[np.cos(turn), np.sin(turn)] * random.uniform(0.5, 1, (9, 1))
        hole = middle + 0.00004 * np.array([[0, 0], [0, 1], [1, 1], [1, 0]])
        polygon = shapely.Polygon(ring, [hole])
        areas.append(polygon if polygon.is_valid else shapely.Polygon(ring).convex_hull)
    return lines, points, areas


def columns(kinds, count, word):
    names = np.array([f"{word} {chr(0x10C)}{number:03}" for number in range(count)], dtype=object)
    return names, np.array([kinds[number % len(kinds)] for number in range(count)], dtype=object)


def store(path, driver, layer, shapes, kind, fields, crs="EPSG:4326", append=False):
    """Let GDAL write a layer."""
    names, values = list(fields), [np.asarray(fields[name]) for name in fields]
    pyogrio.raw.write(path, shapely.to_wkb(np.array(shapes, dtype=object)), values, names, geometry_type=kind, crs=crs, driver=driver, layer=layer, append=append)


def stored(path, layer=None, crs="EPSG:4326"):
    """What GDAL reads back: geometries in degrees, by each of PROJ's operations that may be meant, the names."""
    meta, _, wkb, values = pyogrio.raw.read(path, layer=layer)
    names = dict(zip([name.lower() for name in meta["fields"]], values))
    shapes = shapely.from_wkb(wkb)
    if crs == "EPSG:4326":
        return [shapes], names
    # Which of several operations holds is decided point by point, by the edges of their areas: in a sliver along such an edge another one
    # is taken on the way there than on the way back. They lie half a metre apart here.
    ways = [Transformer.from_crs(crs, "EPSG:4326", always_xy=True), *TransformerGroup(crs, "EPSG:4326", always_xy=True).transformers]
    return [shapely.transform(shapes, lambda xy: np.c_[way.transform(xy[:, 0], xy[:, 1])]) for way in ways], names


def same_points(ours, theirs):
    """Whether our (lat, lon) are the reference's (lon, lat), each by one of its operations."""
    ours, theirs = np.asarray(ours)[:, ::-1], np.asarray(theirs)
    return ours.shape == theirs.shape[1:] and np.abs(ours - theirs).max(axis=2).min(axis=0).max() <= NEAR_DEG


def hold_lines(what, taken, shapes, names, kinds=None):
    """Every line under its name, with its points."""
    check(f"{what}: count of lines", len(taken["lines"]) == len(names), (len(taken["lines"]), len(names)))
    by_name = {line["name"]: line for line in taken["lines"]}
    for index, (several, name) in enumerate(zip(zip(*shapes), names)):
        line = by_name.get(name)
        points = [shapely.get_coordinates(shapely.get_parts(shape)[0]) for shape in several]
        check(f"{what}: {name}", line and same_points(line["points"], points), line)
        if kinds is not None and line:
            check(f"{what}: kind of {name}", line["kind"] == kinds[index], line["kind"])


def hold_marks(what, taken, shapes, names, kinds=None, heights=None):
    """Every landmark under its name: a point, or the centroid of an area."""
    by_name = {mark["name"]: mark for mark in taken["landmarks"]}
    for index, (several, name) in enumerate(zip(zip(*shapes), names)):
        mark = by_name.get(name)
        middles = [shapely.get_coordinates(shapely.centroid(shape)) for shape in several]
        check(f"{what}: {name}", mark and same_points([mark["at"]], middles), mark)
        if kinds is not None and mark:
            check(f"{what}: kind of {name}", mark["kind"] == kinds[index], mark["kind"])
        if heights is not None and mark:
            check(f"{what}: height of {name}", mark["height_m"] is not None and abs(mark["height_m"] - heights[index]) < 1e-9, mark["height_m"])


def hold_all():
    """Every format that GDAL writes."""
    lines, points, areas = net(20261125)
    line_names, line_kinds = columns(LINE_KINDS, len(lines), "Line")
    point_names, point_kinds = columns(MARK_KINDS, len(points), "Mark")
    area_names, area_kinds = columns(["building", "church"], len(areas), "House")
    heights = np.round(np.linspace(3, 90, len(points)), 2)
    for crs in ["EPSG:4326", "EPSG:3857", "EPSG:32633", "EPSG:31258", "EPSG:2154"]:
        path = write(f"net-{crs[5:]}.gpkg", None)
        there = Transformer.from_crs("EPSG:4326", crs, always_xy=True)
        project = lambda shapes: [shapely.transform(shape, lambda xy: np.c_[there.transform(xy[:, 0], xy[:, 1])]) for shape in shapes]
        store(path, "GPKG", "ways", project(lines), "LineString", {"name": line_names, "kind": line_kinds}, crs)
        store(path, "GPKG", "marks", project(points), "Point", {"name": point_names, "kind": point_kinds, "height": heights}, crs, True)
        store(path, "GPKG", "houses", project(areas), "Polygon", {"name": area_names, "kind": area_kinds}, crs, True)
        taken = ask(path)
        hold_lines(f"GeoPackage {crs}", taken, *named(stored(path, "ways", crs)), line_kinds)
        hold_marks(f"GeoPackage {crs}", taken, *named(stored(path, "marks", crs)), point_kinds, heights)
        hold_marks(f"GeoPackage {crs} areas", taken, *named(stored(path, "houses", crs)), area_kinds)
    for driver, ending in [("GeoJSON", "geojson"), ("KML", "kml")]:
        path = write(f"net-lines.{ending}", None)
        store(path, driver, "ways", lines, "LineString", {"Name": line_names, "kind": line_kinds})
        hold_lines(driver, ask(path), *named(stored(path)), line_kinds)
        path = write(f"net-points.{ending}", None)
        store(path, driver, "marks", points, "Point", {"Name": point_names, "kind": point_kinds, "height": heights})
        hold_marks(driver, ask(path), *named(stored(path)), point_kinds, heights)
        path = write(f"net-areas.{ending}", None)
        store(path, driver, "houses", areas, "Polygon", {"Name": area_names, "kind": area_kinds})
        hold_marks(f"{driver} areas", ask(path), *named(stored(path)), area_kinds)
        several = [shapely.MultiLineString([line, shapely.transform(line, lambda xy: xy + 1)]) for line in lines]
        path = write(f"net-several.{ending}", None)
        store(path, driver, "ways", several, "MultiLineString", {"Name": line_names})
        taken = ask(path)
        check(f"{driver}: lines of several parts", len(taken["lines"]) == 2 * len(lines), len(taken["lines"]))
        check(f"{driver}: their second parts are numbered", {f"{name} 2" for name in line_names} <= {line["name"] for line in taken["lines"]})
    path = write("net.gpx", None)
    store(path, "GPX", "routes", lines[:20], "LineString", {"name": line_names[:20], "type": line_kinds[:20]})
    taken = ask(path)
    hold_lines("GPX routes", taken, *named(stored(path, "routes")), line_kinds[:20])
    path = write("net-tracks.gpx", None)
    store(path, "GPX", "tracks", [shapely.MultiLineString([line]) for line in lines], "MultiLineString", {"name": line_names, "type": line_kinds})
    hold_lines("GPX tracks", ask(path), *named(stored(path, "tracks")), line_kinds)
    path = write("net-points.gpx", None)
    store(path, "GPX", "waypoints", points, "Point", {"name": point_names, "type": point_kinds})
    hold_marks("GPX waypoints", ask(path), *named(stored(path, "waypoints")), point_kinds)


def named(read):
    """Geometries and their names."""
    shapes, columns = read
    return shapes, columns["name"]
