"""Files that must be refused, each with the record that is wrong; hostile files, within their time and memory; a stop that is honoured."""

import json
import sqlite3
import struct

import pbf
from told import OUT, ask, check, write

GPX = '<gpx version="1.1" xmlns="http://www.topografix.com/GPX/1/1">{}</gpx>'
KML = '<kml xmlns="http://www.opengis.net/kml/2.2"><Document>{}</Document></kml>'
GOOD_LINE = '<trk><name>Velm Road</name><trkseg><trkpt lat="46" lon="13"/><trkpt lat="46.1" lon="13"/></trkseg></trk>'
MOST_MB, MOST_SECONDS = 512, 60


def collection(*features):
    return json.dumps({"type": "FeatureCollection", "features": list(features)})


def feature(shape, coordinates, /, **properties):
    return {"type": "Feature", "properties": properties, "geometry": {"type": shape, "coordinates": coordinates}}


LINE = feature("LineString", [[13, 46], [13.1, 46]], name="Velm Road", kind="road")


def deep(levels):
    shape = {"type": "Point", "coordinates": [13, 46]}
    for _ in range(levels):
        shape = {"type": "GeometryCollection", "geometries": [shape]}
    return {"type": "Feature", "properties": {}, "geometry": shape}


# (file, content, identifier, what its sentence must hold)
TEXTS = [
    ("empty.json", "", "import-unknown-format", ""),
    ("words.txt", "Velm Road, Mill track", "import-unknown-format", "GeoJSON"),
    ("page.html", "<html><body>46, 13</body></html>", "import-unknown-format", ""),
    ("cut.geojson", collection(LINE)[:-9], "import-unreadable", "line 1"),
    ("off.geojson", collection(LINE, feature("LineString", [[13, 46], [13, 91]], name="Mill track")), "import-record", "feature 2 (Mill track)"),
    ("lon.geojson", collection(feature("Point", [180.5, 46])), "import-record", "feature 1"),
    ("one.geojson", collection(LINE, LINE, feature("Point", [13])), "import-record", "feature 3 has a position without two numbers"),
    ("text.geojson", collection(feature("Point", ["13", "46"])), "import-record", "feature 1 has a position without two numbers"),
    ("topo.json", '{"type":"Topology","objects":{},"arcs":[]}', "import-unreadable", "it is TopoJSON"),
    ("nan.geojson", collection(LINE, feature("Point", [float("nan"), 46], name="{[")), "import-record", "feature 2 has a word such as NaN"),
    ("infinite.geojson", '{"type":"FeatureCollection",\n"crs":{"properties":{"name":"EPSG:4326"},"type":"name"},"features":[\n{"type":"Feature","properties":null,"geometry":{"type":"Point","coordinates":[13,\n -Infinity]}}]}', "import-record", "feature 1 has a word such as NaN"),
    ("nan.geojsonl", json.dumps(LINE) + "\n" + json.dumps(feature("Point", [13, float("inf")])), "import-record", "feature 2 has a word such as NaN"),
    ("comma.geojson", '{"type":"FeatureCollection",\n"features":[],}', "import-unreadable", "its line 2: its JSON breaks off or is wrong there"),
    ("untyped.geojson", '{"features":[]}', "import-unreadable", 'it has no member "type"'),
    ("cut.geojsonl", json.dumps(LINE) + "\n" + json.dumps(LINE)[:-4], "import-unreadable", "its line 2: it ends too early"),
    ("off.geojsonl", json.dumps(LINE) + "\n" + json.dumps(feature("Point", [13, 96])), "import-record", "feature 2 has a position that is no"),
    ("curve.geojson", collection(LINE, feature("Curve", [[13, 46]], name="Bend")), "import-record", "feature 2 (Bend) has a geometry that cannot be read"),
    ("line-as-point.geojson", collection(feature("Point", [[13, 46]])), "import-record", "feature 1"),
    ("deep.geojson", collection(LINE, deep(9)), "import-record", "feature 2 is nested too deep"),
    ("deeper.geojson", '{"type":"FeatureCollection","features":' + "[" * 100_000, "import-unreadable", "line"),
    ("spread.geojson", collection(feature("Point", [13, 46], name="Mast", spread_m=-4)), "import-record", "feature 1 (Mast) has a spread"),
    ("on.geojson", collection(LINE, feature("Point", [13, 46], name="Ossel bridge", on="Mill track")), "import-record", "feature 2 (Ossel bridge) stands on a line"),
    ("crs.geojson", '{"type":"FeatureCollection","crs":{"type":"name","properties":{"name":"EPSG:1"}},"features":[]}', "grid-unknown", "EPSG:1"),
    ("member.geojson", '{"type":"FeatureCollection","sheet":{"nmae":"x"},"features":[]}', "import-unreadable", "nmae"),
    ("object.geojson", '{"type":"FeatureCollection",\n"features":\n{}}', "import-unreadable", "its line 3: {} stands where something else"),
    ("number.geojson", '{"type":"FeatureCollection",\n"sheet":{\n"grid":27700},"features":[]}', "import-unreadable", "its line 3: integer `27700`"),
    ("early.geojson", '{"type":"FeatureCollection","features":[', "import-unreadable", "it ends too early"),
    ("grid.geojson", '{"type":"FeatureCollection","sheet":{"grid":"EPSG:1"},"features":[]}', "grid-unknown", "EPSG:1"),
    ("feature.geojson", '{"type":"FeatureCollection","features":[7]}', "import-record", "feature 1"),
    ("cut.gpx", GPX.format(GOOD_LINE)[:-8], "import-unreadable", "line 1"),
    ("half.gpx", "<gpx>\n" + '<wpt lat="46" lon="13"/>\n' * 7 + "<wpt lat='4", "import-unreadable", "its line 9: it ends too early"),
    ("unclosed.gpx", "<gpx>\n" + '<wpt lat="46" lon="13"/>\n' * 7, "import-unreadable", "its line 8: it ends too early"),
    ("off.gpx", GPX.format(GOOD_LINE + '<trk><name>Mill track</name><trkseg><trkpt lat="46" lon="13"/><trkpt lat="-91" lon="13"/></trkseg></trk>'), "import-record", "track 2 (Mill track) has a position that is no"),
    ("comma.gpx", GPX.format('<wpt lat="46,5" lon="13"><name>Mast</name></wpt>'), "import-record", "waypoint 1 (Mast) has a position without two numbers"),
    ("none.gpx", GPX.format('<rte><rtept lat="46"/></rte>'), "import-record", "route 1 has a position without two numbers"),
    ("nan.gpx", GPX.format('<wpt lat="NaN" lon="13"/>'), "import-record", "waypoint 1 has a position that is no"),
    ("dtd.gpx", '<!DOCTYPE gpx [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]>' + GPX.format("&b;"), "import-unreadable", "its line 1: it declares its own elements"),
    ("entity.gpx", GPX.format("\n&unknown;"), "import-unreadable", 'its line 2: an "&" in it begins the name of no character'),
    ("bytes.gpx", b"<gpx>\n\xff\xfe</gpx>", "import-unreadable", "line 2: its text is not in UTF-8"),
    ("other.gpx", "<!-- <gpx --><other/>", "import-unreadable", "outermost element is not <gpx>"),
    ("open.kml", KML.format("<Placemark><name>x</name>")[:-11], "import-unreadable", "line 1"),
    ("off.kml", KML.format("<Placemark><name>Hallik mast</name><Point><coordinates>46,113</coordinates></Point></Placemark>"), "import-record", "placemark 1 (Hallik mast) has a position that is no"),
    ("half.kml", KML.format("<Placemark/><Placemark><LineString><coordinates>13,46 13</coordinates></LineString></Placemark>"), "import-record", "placemark 2 has a position without two numbers"),
    ("blanks.kml", KML.format("<Placemark><name>A</name><LineString><coordinates>13, 46 13.1, 46</coordinates></LineString></Placemark>"), "import-record", "placemark 1 (A)"),
    ("cut.osm.pbf", (pbf.header() + pbf.blob("OSMData", pbf.good()))[:-5], "import-record", "block 2 ends before its time"),
    ("features.osm.pbf", pbf.header("OsmSchema-V0.6", "HistoricalInformation"), "import-record", "block 1 is packed in a way"),
    ("lzma.osm.pbf", pbf.header() + pbf.blob("OSMData", b"", body=pbf.field(4, b"x")), "import-record", "block 2 is packed in a way"),
    ("zlib.osm.pbf", pbf.header() + pbf.blob("OSMData", b"", body=pbf.field(3, b"no zlib")), "import-record", "block 2 ends before its time"),
    ("bomb.osm.pbf", pbf.header() + pbf.blob("OSMData", bytes(200_000_000), True), "import-record", "block 2 is larger than is taken"),
    ("frame.osm.pbf", pbf.header() + (2**31).to_bytes(4, "big"), "import-record", "block 2 is larger than is taken"),
    ("off.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block(["highway", "track"], pbf.dense([(1, 460000000, 130000000), (2, 960000000, 130000000)]), pbf.way(7, [1, 2], [(1, 2)]))), "import-record", "way 7 has a position that is no"),
    ("columns.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block([], pbf.field(2, pbf.field(1, pbf.zigzag(1) * 3) + pbf.field(8, pbf.zigzag(1))))), "import-record", "block 2 ends before its time"),
    ("node.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block(["natural", "peak", "name", "Hallik"], pbf.field(1, pbf.field(1, 10) + pbf.field(2, b"\x01\x03") + pbf.field(3, b"\x02\x04") + pbf.field(8, 2 * 10**9) + pbf.field(9, 0)))), "import-record", "node 5 (Hallik) has a position that is no"),
    ("tags.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block(["highway", "track"], pbf.field(3, pbf.field(1, 9) + pbf.field(2, b"\x01\x03") + pbf.field(3, b"\x02")))), "import-record", "way 9 ends before its time"),
    ("roles.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block(["type", "multipolygon", "building", "church"], pbf.relation(4, [1, 2], [0], [(1, 2), (3, 4)]))), "import-record", "relation 4 ends before its time"),
    ("outline.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block(["type", "multipolygon", "building", "church"], pbf.dense([(1, 960000000, 130000000), (2, 960010000, 130000000), (3, 960000000, 130010000)]), pbf.way(1, [1, 2, 3, 1], []), pbf.relation(4, [1], [0], [(1, 2), (3, 4)]))), "import-record", "relation 4 has a position that is no"),
    ("scale.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block(["highway", "track"], pbf.dense([(1, 1, 1), (2, 2, 2)]), pbf.way(8, [1, 2], [(1, 2)]), extra=pbf.field(17, 2**62))), "import-record", "way 8"),
]


def geometry(body, flags=1):
    return b"GP\0" + bytes([flags]) + struct.pack("<i", 4326) + body


POINT = struct.pack("<BIdd", 1, 1, 13, 46)
# (file, geometry, grid, identifier, what its sentence must hold)
ROWS = [
    ("magic", b"XX" + POINT, 4326, "import-record", "row 1 (marks) has a geometry that cannot be read"),
    ("cut", geometry(POINT[:-3]), 4326, "import-record", "row 1 (marks) ends before its time"),
    ("kind", geometry(struct.pack("<BI", 1, 15)), 4326, "import-record", "row 1 (marks) has a geometry that cannot be read"),
    ("curve", geometry(struct.pack("<BI", 1, 8)), 4326, "import-record", "row 1 (marks) is curved: have it written out with straight pieces"),
    ("curves", geometry(struct.pack("<BIIBII", 1, 11, 1, 1, 1009, 0)), 4326, "import-record", "row 1 (marks) is curved"),
    ("count", geometry(struct.pack("<BII", 1, 2, 4_000_000_000)), 4326, "import-record", "row 1 (marks) ends before its time"),
    ("nested", geometry(struct.pack("<BII", 1, 7, 1) * 12 + POINT), 4326, "import-record", "row 1 (marks) is nested too deep"),
    ("envelope", geometry(POINT, 1 | 7 << 1), 4326, "import-record", "row 1 (marks) ends before its time"),
    ("off", geometry(struct.pack("<BIdd", 1, 1, 13, 96)), 4326, "import-record", "row 1 (marks) has a position that is no"),
    ("grid", geometry(POINT), 99999, "import-record", "row 1 (marks) is in a grid that is not known"),
]


def package(name, blob, grid=4326, layer="marks", before="", kind="features"):
    """A GeoPackage of one row, made by hand."""
    path = write(name, None)
    database = sqlite3.connect(path)
    database.executescript(f"""
        CREATE TABLE gpkg_spatial_ref_sys (srs_name TEXT, srs_id INTEGER PRIMARY KEY, organization TEXT, organization_coordsys_id INTEGER, definition TEXT);
        CREATE TABLE gpkg_contents (table_name TEXT PRIMARY KEY, data_type TEXT);
        CREATE TABLE gpkg_geometry_columns (table_name TEXT, column_name TEXT, geometry_type_name TEXT, srs_id INTEGER);
        INSERT INTO gpkg_spatial_ref_sys VALUES ('', {grid}, 'EPSG', {grid}, '');
        INSERT INTO gpkg_contents VALUES ('{layer}', '{kind}');
        INSERT INTO gpkg_geometry_columns VALUES ('{layer}', 'geom', 'GEOMETRY', {grid});
        {before or f'CREATE TABLE "{layer}" (fid INTEGER PRIMARY KEY, geom BLOB, name TEXT);'}""")
    if not before:
        database.execute(f'INSERT INTO "{layer}" VALUES (1, ?, NULL)', (blob,))
    database.commit()
    database.close()
    return path


def hold(path, identifier, words, *options):
    """One refusal, in time, within the memory."""
    taken = ask(path, *options)
    check(f"{path.name}: refused as {identifier}", taken.get("error") == identifier, str(taken)[:300])
    check(f"{path.name}: the sentence names it", words in taken.get("sentence", ""), taken.get("sentence"))
    check(f"{path.name}: {MOST_MB} MB", taken["peak_kb"] <= MOST_MB * 1024, taken["peak_kb"])
    check(f"{path.name}: {MOST_SECONDS} s", taken["seconds"] <= MOST_SECONDS, taken["seconds"])
    return taken


def hold_packages():
    for name, blob, grid, identifier, words in ROWS:
        hold(package(f"bad-{name}.gpkg", blob, grid), identifier, words)
    whole = package("whole.gpkg", geometry(POINT))
    check("whole.gpkg: taken", len(ask(whole).get("landmarks", [])) == 1)
    hold(package("text.gpkg", "hello"), "import-record", "row 1 (marks)")
    path = package("named.gpkg", geometry(POINT[:-3]))
    database = sqlite3.connect(path)
    database.execute("UPDATE marks SET name = 'Hallik mast'")
    database.commit()
    database.close()
    hold(path, "import-record", "row 1 (marks: Hallik mast) ends before its time")
    straight = struct.pack("<BIIBIIdddd", 1, 11, 1, 1, 2, 2, 13, 46, 13.1, 46)
    check("straight.gpkg: curves that are straight are taken", len(ask(package("straight.gpkg", geometry(straight))).get("lines", [])) == 1)
    empty = ask(package("null.gpkg", None))
    check("null.gpkg: a row without a geometry is counted as left out", empty.get("left_out") == 1 and not empty.get("landmarks"), str(empty)[:300])
    content = whole.read_bytes()
    logged = bytearray(content)
    logged[18:20] = b"\x02\x02"
    check("logged.gpkg: one that asks for a log beside it is taken", len(ask(write("logged.gpkg", bytes(logged))).get("landmarks", [])) == 1)
    hold(write("cut.gpkg", content[: len(content) // 2]), "import-unreadable", "")
    hold(write("short.gpkg", content[:17]), "import-unreadable", "")
    sqlite3.connect(write("other.gpkg", None)).executescript("CREATE TABLE x (a); INSERT INTO x VALUES (1)")
    hold(OUT / "made" / "other.gpkg", "import-unreadable", "it holds no features of a GeoPackage")
    hold(package("gone.gpkg", b"", before="CREATE TABLE other (fid INTEGER PRIMARY KEY, geom BLOB);"), "import-unreadable", "it names marks, which it does not have")
    torn = bytearray(content)
    torn[4096:8192] = b"\xff" * 4096
    hold(write("torn.gpkg", bytes(torn)), "import-unreadable", "it is damaged")
    endless = "WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM n) SELECT i AS fid, zeroblob(1000000) AS geom, '' AS name FROM n"
    hold(package("view.gpkg", b"", before=f"CREATE VIEW marks AS {endless};"), "import-unreadable", "marks")
    computed = "CREATE TABLE marks (fid INTEGER PRIMARY KEY, geom BLOB, name TEXT AS (hex(zeroblob(50000000))));"
    path = package("computed.gpkg", b"", before=computed)
    database = sqlite3.connect(path)
    database.executemany("INSERT INTO marks (geom) VALUES (?)", [(geometry(POINT),)] * 20)
    database.commit()
    database.close()
    taken = ask(path)
    # Twenty of a kind without a name in the very same point are one.
    check("computed.gpkg: computed columns are left alone", len(taken.get("landmarks", [])) == 1 and taken["peak_kb"] <= MOST_MB * 1024, str(taken)[:300])


def hostile():
    """Large files made to take memory or time."""
    many = 21_000_000
    yield "lists.geojson", '{"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":{"type":"MultiLineString","coordinates":[' + "[]," * many + "[]]}}]}", "import-record"
    yield "points.geojson", '{"type":"FeatureCollection","features":[{"type":"Feature","properties":{},"geometry":{"type":"LineString","coordinates":[' + "[1,2]," * 10_000_000 + "[1,3]]}}]}", "import-record"
    yield "pairs.geojson", '{"type":"FeatureCollection","features":[{"type":"Feature","geometry":null,"properties":{' + '"name":"",' * 6_000_000 + '"name":""}}]}', None
    yield "features.geojson", '{"type":"FeatureCollection","features":[' + '{"type":"Feature","properties":{},"geometry":{"type":"Point","coordinates":[1,2]}},' * 700_000 + "null]}", "import-too-many"
    yield "elements.gpx", GPX.format("<a/>" * 15_900_000), "import-too-many"
    yield "most.gpx", GPX.format("<a/>" * 2_400_000), None
    yield "attributes.kml", KML.format("<a " + " ".join(f'a{number}=">"' for number in range(1_400_000)) + "/>"), "import-too-many"
    few = "<a " + " ".join(f'a{number}=""' for number in range(190)) + "/>"
    yield "most-attributes.kml", KML.format(few * 7_500), None
    yield "prefixes.kml", KML.format("".join(f'<a xmlns:p{number}="u{number}">' for number in range(60_000)) + "</a>" * 60_000), "import-too-many"
    yield "nested.kml", KML.format("<Folder>" * 1_000_000 + "</Folder>" * 1_000_000), None
    yield "tuples.kml", KML.format("<Placemark><LineString><coordinates>" + "1,2 1,3 " * 7_000_000 + "</coordinates></LineString></Placemark>"), "import-too-many"
    yield "large.gpx", "<gpx>" + " " * 64_000_001, "import-too-large"
    refs = b"\x02" * 30_000_000
    way = pbf.field(3, pbf.field(1, 1) + pbf.field(2, b"\x01") + pbf.field(3, b"\x02") + pbf.field(8, refs))
    yield "refs.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block(["highway", "track"], way), True), "import-too-many"
    small = pbf.field(3, pbf.field(1, 1) + pbf.field(2, b"\x01\x03") + pbf.field(3, b"\x02\x04") + pbf.field(8, b"\x02\x02"))
    names = pbf.block(["highway", "track", "name", "x" * 100_000], b"".join([small] * 1_000_000))
    yield "ways.osm.pbf", pbf.header() + pbf.blob("OSMData", names, True), "import-too-many"
    yield "texts.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.field(1, b"\x0a\x00" * 15_000_000), True), "import-record"
    church = ["type", "multipolygon", "building", "church"]
    outer = pbf.field(8, bytes(500)) + pbf.field(9, b"\x02" + bytes(499)) + pbf.field(10, b"\x01" * 500)
    named = pbf.field(4, pbf.field(2, b"\x01\x03") + pbf.field(3, b"\x02\x04") + outer)
    yield "outers.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block(church, named * 2000), True), "import-too-many"
    wide = pbf.way(1, list(range(1, 100_000)) + [1], []) + pbf.field(4, pbf.field(2, b"\x01\x03") + pbf.field(3, b"\x02\x04") + outer)
    yield "outlines.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.block(church, wide), True), "import-too-many"
    yield "groups.osm.pbf", pbf.header() + pbf.blob("OSMData", b"\x12\x00" * 2_000_000, True), "import-record"
    empty = pbf.blob("OSMData", bytes(0) + pbf.field(30, bytes(30_000_000)), True)
    yield "blocks.osm.pbf", pbf.header() + empty * 200, "import-record"


def hold_hostile():
    worst = ("", 0, 0.0)
    for name, content, identifier in hostile():
        path = write(name, content)
        taken = ask(path)
        check(f"{name}: {identifier or 'taken'}", taken.get("error") == identifier, str(taken)[:300])
        check(f"{name}: {MOST_MB} MB", taken["peak_kb"] <= MOST_MB * 1024, taken["peak_kb"])
        check(f"{name}: {MOST_SECONDS} s", taken["seconds"] <= MOST_SECONDS, taken["seconds"])
        worst = max(worst, (name, taken["peak_kb"] // 1024, taken["seconds"]), key=lambda seen: seen[1])
        path.unlink()
    print(f"  hostile files: at most {worst[1]} MB ({worst[0]})")


def hold_stop():
    """A stop is honoured, and what is done only grows."""
    for name in ["liechtenstein.osm.pbf", "bubenec.gpkg", "korita-zbevnica.gpx"]:
        taken = ask(OUT / name)
        done = [done for done, _ in taken["ticks"]]
        check(f"{name}: progress is told", len(done) >= 1, len(done))
        if len(done) > 2:
            hold(OUT / name, "import-stopped", "cancelled", "--stop")
    for border, error in [
        (("47", "9", "46", "10"), "import-area"), (("47", "9", "48", "9"), "import-area"),
        (("47", "9", "91", "10"), "import-area-off"), (("nan", "9", "48", "10"), "import-area-off"),
    ]:
        taken = ask(OUT / "bubenec.gpkg", "--area", *border)
        check(f"area {border}: refused", taken.get("error") == error, str(taken)[:200])


def hold_all():
    """All refusals."""
    for name, content, identifier, words in TEXTS:
        hold(write(name, content), identifier, words)
    check("good.osm.pbf: taken", [line["name"] for line in ask(write("good.osm.pbf", pbf.header() + pbf.blob("OSMData", pbf.good(), True))).get("lines", [])] == ["Velm Road"])
    hold_packages()
    hold_stop()
    hold_hostile()
