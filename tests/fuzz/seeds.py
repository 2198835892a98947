"""Write the seeds: small invented files of every format. Needs nothing but Python; run from anywhere."""

import json
import struct
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "readers"))

import bad
import pbf


def write(target, name, content):
    path = HERE / "seeds" / target / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content if isinstance(content, bytes) else content.encode())


def geometries():
    """Every geometry of well-known binary, by number."""
    pair = struct.pack("<dd", 13, 46)
    line = struct.pack("<I", 2) + pair + struct.pack("<dd", 13.1, 46)
    ring = struct.pack("<II", 1, 4) + pair + struct.pack("<dddddd", 13.1, 46, 13.1, 46.1, 13, 46)
    parts = {1: pair, 2: line, 3: ring}
    for number, body in parts.items():
        one = struct.pack("<BI", 1, number) + body
        yield one
        yield struct.pack("<BII", 1, number + 3, 1) + one
        yield struct.pack("<BII", 1, 7, 1) + one
    yield struct.pack(">BIddd", 0, 1001, 1, 2, 3)


def main():
    line, mark = bad.LINE, bad.feature("Point", [13, 46.01], name="Mast", kind="mast", height="12 m", ele=800)
    known = bad.feature("Point", [13.05, 46], name="Bridge", on="Velm Road")
    area = bad.feature("Polygon", [[[13, 46], [13.1, 46], [13.1, 46.1], [13, 46]]], building="yes")
    sheet = {"type": "FeatureCollection", "sheet": {"name": "Velm", "grid": "EPSG:32633", "position_spread_m": 6}, "features": [line, mark, known, area]}
    write("geojson", "sheet", json.dumps(sheet))
    crossed = bad.feature("Polygon", [[[12, 46], [13.1, 42], [13.1, 4.1], [13, 46]]], building="yes")
    write("geojson", "crossed", json.dumps({"type": "FeatureCollection", "features": [line, crossed]}))
    several = bad.feature("MultiLineString", [[[13, 46], [13.1, 46]], [[13.1, 46], [13.2, 46]]], name="Velm Road")
    write("geojson", "several", json.dumps({"type": "FeatureCollection", "features": [several, bad.deep(2)]}))
    write("gpx", "track", '<?xml version="1.0" encoding="UTF-8"?>' + bad.GPX.format('<wpt lat="46" lon="13"><ele>5</ele><name>Mast</name><type>mast</type></wpt><rte><rtept lat="46" lon="13"/><rtept lat="46" lon="14"/></rte>' + bad.GOOD_LINE))
    write("gpx", "latin", '<?xml version="1.0" encoding="ISO-8859-1"?>'.encode() + bad.GPX.format("<wpt lat='46' lon='13'><name>H\xfctte</name></wpt>").encode("latin-1"))
    track = "<Placemark><gx:Track xmlns:gx='g'><gx:coord>13 46 5</gx:coord><gx:coord>13.1 46 5</gx:coord></gx:Track></Placemark>"
    ring = "<outerBoundaryIs><LinearRing><coordinates>13,46 13.1,46 13.1,46.1 13,46</coordinates></LinearRing></outerBoundaryIs>"
    data = "<ExtendedData><Data name='kind'><value>church</value></Data><SchemaData><SimpleData name='height'>12</SimpleData></SchemaData></ExtendedData>"
    write("kml", "all", bad.KML.format(f"<Folder><Placemark><name>A</name>{data}<MultiGeometry><Polygon>{ring}</Polygon><Point><coordinates>13,46,5</coordinates></Point><LineString><coordinates>13,46 13.1,46</coordinates></LineString></MultiGeometry></Placemark>{track}</Folder>"))
    for number, body in enumerate(geometries()):
        write("geometry", f"{number}", bad.geometry(body))
    write("geopackage", "whole", bad.package("seed.gpkg", bad.geometry(bad.POINT)).read_bytes())
    write("osm_pbf", "plain", pbf.header() + pbf.blob("OSMData", pbf.good()))
    write("osm_pbf", "packed", pbf.header() + pbf.blob("OSMData", pbf.good(), True))
    ways = pbf.way(7, [1, 2, 3], []) + pbf.way(8, [3, 1], [])
    outline = pbf.relation(5, [7, 8], [5, 5], [(1, 2), (3, 4)])
    texts = ["type", "multipolygon", "building", "yes", "outer"]
    corners = pbf.dense([(1, 460000000, 130000000), (2, 460010000, 130010000), (3, 460020000, 130000000)])
    write("osm_pbf", "outline", pbf.header() + pbf.blob("OSMData", pbf.block(texts, corners, ways, outline)))
    off = pbf.dense([(1, 960000000, 130000000), (2, 460010000, 130010000), (3, 460020000, 130000000)])
    write("osm_pbf", "off_earth", pbf.header() + pbf.blob("OSMData", pbf.block(texts, off, ways, outline)))
    lacking = pbf.relation(5, [7, 9], [5, 5], [(1, 2), (3, 4)])
    write("osm_pbf", "lacking", pbf.header() + pbf.blob("OSMData", pbf.block(texts, corners, ways, lacking)))
    peak = pbf.field(1, pbf.field(1, 10) + pbf.field(2, b"\x01\x03") + pbf.field(3, b"\x02\x04") + pbf.field(8, 92 * 10**7) + pbf.field(9, 26 * 10**7))
    write("osm_pbf", "node", pbf.header() + pbf.blob("OSMData", pbf.block(["natural", "peak", "name", "Hallik"], peak)))


if __name__ == "__main__":
    main()
