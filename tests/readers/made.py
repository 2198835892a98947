"""Files written by GDAL (pyogrio's) and read back by it: names, kinds, counts, coordinates to 1e-7 degrees."""

import json

import numpy as np
import pyogrio
import shapely
from pyproj import Transformer
from pyproj.transformer import TransformerGroup

import pbf
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
    hold_left_out()
    hold_extract()
    hold_sequences()
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


def hold_left_out():
    """What is not taken is counted and told: what is taken and what is left out are all records of the file."""
    texts = "natural peak tree man_made cutline pipeline boundary administrative created_by survey highway track".split()
    at = {text: number + 1 for number, text in enumerate(texts)}
    places = [(number, 460000000 + number * 1000, 130000000) for number in range(1, 9)]
    node = lambda number, key, value: pbf.field(1, pbf.field(1, 2 * number) + pbf.field(2, bytes([at[key]])) + pbf.field(3, bytes([at[value]])) + pbf.field(8, 2 * (460000000 + number)) + pbf.field(9, 260000000))
    ways = [("man_made", "cutline"), ("man_made", "pipeline"), ("boundary", "administrative"), ("highway", "track"), None]
    drawn = b"".join(pbf.way(number, [number, number + 1], [(at[tag[0]], at[tag[1]])] if tag else []) for number, tag in enumerate(ways, 1))
    nodes = [node(21, "natural", "peak"), node(22, "natural", "tree"), node(23, "natural", "tree"), node(24, "created_by", "survey")]
    path = write("left.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block(texts, pbf.dense(places), *nodes, drawn)))
    taken = ask(path)
    check("left.osm.pbf: kinds", sorted(line["kind"] for line in taken["lines"]) == ["cutline", "track"] and len(taken["landmarks"]) == 1, taken)
    check("left.osm.pbf: counted", (taken["records"], taken["left_out"]) == (7, 4), (taken["records"], taken["left_out"]))
    told = "natural=tree (2), boundary=administrative (1), man_made=pipeline (1)."
    check("left.osm.pbf: told by kind", any(told in said for said in taken["minded"]), taken["minded"])
    cut = ask(path, "--area", "46.002", "12", "46.0021", "14")
    check("left.osm.pbf: counted in an area", (cut["records"], cut["left_out"]) == (7, 7), (cut["records"], cut["left_out"]))
    area = "<outerBoundaryIs><LinearRing><coordinates>13,46 13.1,46 13.1,46.1 13,46</coordinates></LinearRing></outerBoundaryIs>"
    both = f"<Placemark><name>Ossel</name><MultiGeometry><Point><coordinates>13,46</coordinates></Point><Polygon>{area}</Polygon></MultiGeometry></Placemark>"
    beside = "<NetworkLink><name>Rest</name></NetworkLink><GroundOverlay><name>Photo</name></GroundOverlay>"
    taken = ask(write("beside.kml", f'<kml xmlns="http://www.opengis.net/kml/2.2"><Document>{both}{beside}</Document></kml>'))
    check("beside.kml: counted", (taken["records"], taken["left_out"], len(taken["landmarks"])) == (3, 2, 1), taken)
    for told in ["is not followed: Rest.", "use on a sheet: Photo.", "the rest came in: Ossel."]:
        check(f"beside.kml: {told}", any(told in said for said in taken["minded"]), taken["minded"])
    empty = [{"type": "Feature", "properties": {"name": kind, "natural": "peak"}, "geometry": {"type": kind, "coordinates": []}} for kind in ["Point", "LineString", "Polygon", "MultiPoint"]]
    empty += [{"type": "Feature", "properties": {"name": "None"}, "geometry": None}]
    one = {"type": "Feature", "properties": {}, "geometry": {"type": "LineString", "coordinates": [[13, 46], [13.1, 46]]}}
    taken = ask(write("empty.geojson", json.dumps({"type": "FeatureCollection", "features": [*empty, one]})))
    check("empty.geojson: counted", (taken["records"], taken["left_out"]) == (6, 5), taken)
    check("empty.geojson: told", any("5 records have no place" in said and "Point, LineString" in said for said in taken["minded"]), taken["minded"])
    check("empty.geojson: nothing else of them", not any("natural=peak" in said for said in taken["minded"]), taken["minded"])
    check("empty.geojson: under the name of the sheet", any("taken as track: track 1." in said for said in taken["minded"]), taken["minded"])


def hold_extract():
    """The layers that GDAL makes of an extract of OpenStreetMap, their tags in `other_tags` (GDAL's driver OSM), in two formats."""
    ring = shapely.LineString([(13, 46), (13.001, 46), (13.001, 46.001), (13, 46)])
    way = lambda number: shapely.LineString([(13, 46 + number / 10), (13.1, 46 + number / 10)])
    names = ["Tank", "Border", "Cliff", "Dam", "Hedge", "Way"]
    shapes = [ring, way(1), way(2), shapely.transform(ring, lambda xy: xy + 0.01), way(3), way(4)]
    tags = ['"man_made"=>"storage_tank"', '"boundary"=>"administrative","admin_level"=>"8"', '"natural"=>"cliff"', '"waterway"=>"dam"', '"barrier"=>"hedge"', '"surface"=>"mud"']
    for driver, ending in [("GPKG", "gpkg"), ("GeoJSON", "geojson")]:
        path = write(f"extract.{ending}", None)
        store(path, driver, "lines", shapes, "LineString", {"name": np.array(names, dtype=object), "other_tags": np.array(tags, dtype=object)})
        taken = ask(path)
        lines = {line["name"]: line["kind"] for line in taken["lines"]}
        check(f"{driver} extract: lines", lines == {"Cliff": "cliff", "Hedge": "hedge", "Way": "track"}, lines)
        check(f"{driver} extract: landmarks", [(mark["name"], mark["kind"]) for mark in taken["landmarks"]] == [("Tank", "tank")], taken["landmarks"])
        told = "boundary=administrative (1), waterway=dam (1)."
        check(f"{driver} extract: left out", (taken["records"], taken["left_out"]) == (6, 2) and any(told in said for said in taken["minded"]), taken["minded"])


def hold_sequences():
    """GeoJSON of one feature on a line, as GDAL writes it, with and without the character before each (RFC 8142)."""
    points = [shapely.Point(13 + number / 100, 46) for number in range(5)]
    names = np.array([f"Mast {number}" for number in range(5)], dtype=object)
    for mark in ["NO", "YES"]:
        path = write(f"sequence-{mark}.geojsonl", None)
        pyogrio.raw.write(path, shapely.to_wkb(np.array(points, dtype=object)), [names], ["name"], geometry_type="Point", crs="EPSG:4326", driver="GeoJSONSeq", layer="marks", RS=mark)
        check(f"{path.name}: its separator", (path.read_bytes()[:1] == b"\x1e") == (mark == "YES"))
        hold_marks(path.name, ask(path), *named(stored(path)))


def named(read):
    """Geometries and their names."""
    shapes, columns = read
    return shapes, columns["name"]
