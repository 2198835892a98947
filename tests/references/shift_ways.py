"""The ways from one datum to another by the parts of their areas: `core/src/earth/grid/ways.txt`, and earth/shift_ways.

PROJ takes the best way whose area's box holds a place. The box about "Northwest Territories; Nunavut; Saskatchewan" holds British Columbia,
that about "Cuba - onshore and offshore" the south of Florida. The register has boxes of the parts as well; the table names them.
"""

import math
import re
import sqlite3
from pathlib import Path

import pyproj

import grid
from casefile import HERE, case, tolerances

TABLE = HERE.parent.parent / "core/src/earth/grid/ways.txt"
QUERY = """
select way.name, way.source_crs_code, way.accuracy, area.description, area.west_lon, area.south_lat, area.east_lon, area.north_lat
from helmert_transformation as way
join usage on usage.object_table_name = 'helmert_transformation'
    and usage.object_auth_name = way.auth_name and usage.object_code = way.code
join extent as area on area.auth_name = usage.extent_auth_name and area.code = usage.extent_code
where way.auth_name = 'EPSG' and way.target_crs_auth_name = 'EPSG' and way.target_crs_code = '4326' and way.deprecated = 0
order by cast(way.source_crs_code as integer), cast(way.code as integer)
"""
# What the register has no box of, by the borders of territory and province: Nunavut north of 60 degrees and east of 120.7 degrees west (its
# islands in Hudson Bay farther south are left out), Manitoba from 102.03 degrees west to Hudson Bay (from memory).
# Likewise Germany without the east of 1949 to 1990, the Faroes, and the states of that east one by one (from memory).
ADDED = {
    "Canada - Nunavut": (-120.69, 59.99, -60.72, 83.17),
    "Canada - Manitoba": (-102.03, 48.99, -88.9, 60.01),
    "Germany (west)": (5.86, 47.27, 13.84, 55.09),
    "Faroe islands": (-7.7, 61.38, -6.24, 62.4),
    "Berlin": (13.08, 52.33, 13.77, 52.68),
    "Brandenburg": (11.26, 51.35, 14.77, 53.56),
    "Mecklenburg-Vorpommern": (10.59, 53.1, 14.42, 54.69),
    "Sachsen": (11.87, 50.17, 15.04, 51.69),
    "Sachsen-Anhalt": (10.56, 50.93, 13.19, 53.05),
    "Thuringen": (9.87, 50.2, 12.66, 51.65),
}
# Countries of which the register has the land by parts alone.
LAND = {
    "Italy": ("Italy - mainland and Sicily", "Italy - Sardinia onshore"),
    "France": ("France - mainland onshore", "France - Corsica onshore"),
    "Spain": ("Spain - mainland onshore", "Spain - Balearic Islands"),
    "Portugal": ("Portugal - mainland - onshore",),
}
# The ways of the United States name states with exceptions: those of all states hold, within the box of each way.
STATES = "United States (USA) - CONUS"
# An area of which "offshore" is only a part has one of these beside it.
ON_LAND = ("onshore", "mainland and", "coastal", "Queensland")
# An area counts as in parts where these cover less of its box than this.
LEAST_SHARE = 0.9


def register():
    """The ways to WGS 84, and the boxes of areas by name."""
    base = sqlite3.connect(f"file:{Path(pyproj.datadir.get_data_dir()) / 'proj.db'}?mode=ro", uri=True)
    boxes = {}
    for name, text, *box in base.execute(
        "select name, description, west_lon, south_lat, east_lon, north_lat from extent where auth_name = 'EPSG' and deprecated = 0 order by cast(code as integer)"
    ):
        for key in (name, text.rstrip(".")):
            boxes.setdefault(key, tuple(box))
    return base.execute(QUERY).fetchall(), {**ADDED, **boxes}


def box_of(boxes, name):
    """The box of one part, on land where the register has that."""
    bare = name.removesuffix(" - onshore and offshore")
    short = name.replace("United States (USA)", "USA")
    return next((boxes[key] for key in (f"{bare} - onshore", f"{bare} onshore", name, bare, short) if key in boxes), None)


def parts_of(boxes, text, whole):
    """The boxes of the parts of an area, cut to the whole; nothing where one of them is not registered."""
    text = text.rstrip(".")
    if text.startswith(STATES):
        text = next(key for key in boxes if key.startswith(f"{STATES} onshore - Alabama; Arizona; Arkansas; California; Colorado; Connecticut"))
    if "former East Germany - " in text:
        text = text.split("former East Germany - ")[1].replace(", ", "; ")
    names = []
    for sentence in [text] if ";" not in text else text.split(". "):
        within = re.fullmatch(r"(.+?) - (?:.*onshore - )?([^;]+;.+)", sentence)
        names += [f"{within[1]} - {name.strip()}" for name in within[2].split(";")] if within else sentence.split(";")
    if len(names) > 1:
        names = [land for name in names for land in LAND.get(name.strip(), (name,))]
    found = [box_of(boxes, name.strip()) for name in names]
    if not all(found):
        return None
    cut = [(max(box[0], whole[0]), max(box[1], whole[1]), min(box[2], whole[2]), min(box[3], whole[3])) for box in found]
    return found if len(found) == 1 else [box for box in cut if box[0] < box[2] and box[1] < box[3]]


def size(box):
    """Square degrees; over the date line too."""
    return (box[2] - box[0]) % 360 * (box[3] - box[1])


def rows():
    """Of every datum that has several, all ways: name, metres, boxes; none of a way for waters alone."""
    ways, boxes = register()
    by_datum = {}
    for name, datum, accuracy, text, *box in ways:
        is_at_sea = "offshore" in text and not any(word in text for word in ON_LAND) and not text.split(" - ")[0].startswith("North America")
        parts = parts_of(boxes, text, box)
        in_parts = bool(parts) and sum(map(size, parts)) < LEAST_SHARE * size(box)
        is_told = in_parts or bool(parts) and len(parts) > 1
        by_datum.setdefault(datum, []).append((name, accuracy, [] if is_at_sea else parts if is_told else [tuple(box)]))
    return {datum: found for datum, found in by_datum.items() if len(found) > 1}


def text():
    """The table: a line a way."""
    lines = []
    for datum, found in rows().items():
        for name, accuracy, boxes in found:
            told = ";".join(" ".join(f"{edge:g}" for edge in box) for box in boxes)
            lines.append(f"{datum}|{name}|{float(accuracy):g}|{told}")
    return "\n".join(lines) + "\n"


def hold_table(tally, write):
    """The table is what the register makes."""
    if write:
        TABLE.write_text(text(), encoding="ascii")
    tally.check("core/src/earth/grid/ways.txt", TABLE.read_text(encoding="ascii") == text(), "not what the register makes")


# Which country or province each place lies in is known from the map; the way is the one that the register names for it.
PLACES = (
    # code, latitude, longitude, way, metres, note
    ("EPSG:26710", 49.5, -123.2, "NAD27 to WGS 84 (10)", 13, "the coast of British Columbia, which a box about Saskatchewan holds"),
    ("EPSG:26710", 55.0, -125.0, "NAD27 to WGS 84 (10)", 13, "the middle of British Columbia"),
    ("EPSG:26711", 49.3, -116.0, "NAD27 to WGS 84 (10)", 13, "British Columbia just north of the United States"),
    ("EPSG:26713", 52.0, -105.0, "NAD27 to WGS 84 (13)", 8, "Saskatchewan"),
    ("EPSG:26717", 44.0, -80.5, "NAD27 to WGS 84 (11)", 12, "Ontario, which a box about the United States holds"),
    ("EPSG:26717", 25.2, -80.8, "NAD27 to WGS 84 (4)", 10, "the south of Florida, which a box about the waters of Cuba holds"),
    ("EPSG:26717", 27.5, -81.5, "NAD27 to WGS 84 (4)", 10, "the middle of Florida"),
    ("EPSG:26711", 36.2, -117.1, "NAD27 to WGS 84 (6)", 7, "California"),
    ("EPSG:23036", 37.0, 33.0, "ED50 to WGS 84 (30)", 2, "the south of Turkey"),
    ("EPSG:26716", 20.97, -89.6, "NAD27 to WGS 84 (18)", 12, "the north of Yucatan, which a box about waters before it holds"),
    ("EPSG:31467", 53.55, 10.0, "DHDN to WGS 84 (2)", 3, "Hamburg, which a box about the east of Germany holds"),
    ("EPSG:3001", -6.2, 106.8, "Batavia to WGS 84 (1)", 6, "Java, which a box about waters before it holds"),
    ("EPSG:23032", 36.8, 10.2, "ED50 to WGS 84 (16)", 44, "Tunisia, which a box about Italy holds"),
    ("EPSG:23033", 35.9, 14.4, "ED50 to WGS 84 (12)", 44, "Malta, which a box about Europe holds"),
    ("EPSG:23036", 34.9, 33.0, "ED50 to WGS 84 (4)", 26, "Cyprus"),
)


def forward(code, way):
    """From WGS 84 by a registered way and the projection of a grid."""
    crs = pyproj.CRS(code)
    shift = pyproj.Transformer.from_pipeline(way)
    flat = pyproj.Transformer.from_crs(crs.geodetic_crs, crs, always_xy=True)

    def numbers(lat, lon):
        own_lat, own_lon = shift.transform(lat, lon, direction="INVERSE")
        return flat.transform(own_lon, own_lat)

    return numbers


# A place in Portugal's box and in Spain's, the way of PROJ and that of the neighbour, and what the register states of both, metres.
DISPUTED = ("EPSG:23029", 38.9, -7.0, "ED50 to WGS 84 (34)", 1, "ED50 to WGS 84 (28)", 1.5)


def disputed_case(tally):
    """Two ways may hold and lead farther apart than is stated of the one used: the accuracy told covers that."""
    code, lat, lon, way, metres, other, other_metres = DISPUTED
    east, north = forward(code, way)(lat, lon)
    east_by, north_by = forward(code, other)(lat, lon)
    apart = math.hypot(east_by - east, north_by - north)
    tally.check(f"{other} leads apart", apart > 1.5 * metres, apart)
    there = {"answer.easting_m": round(east, 3), "answer.northing_m": round(north, 3), "answer.accuracy_m": math.ceil(math.hypot(apart, other_metres))}
    return case({"do": "place", "place": grid.degrees_text(lat, lon), "grid": code}, there, f"the border of Portugal and Spain: {way} or {other}, {apart:.1f} m apart")


def build(tally):
    """The case file of datum shifts chosen by the place."""
    cases = []
    for code, lat, lon, way, metres, note in PLACES:
        east, north = forward(code, way)(lat, lon)
        there = {"answer.easting_m": round(east, 3), "answer.northing_m": round(north, 3), "answer.accuracy_m": metres}
        cases.append(case({"do": "place", "place": grid.degrees_text(lat, lon), "grid": code}, there, f"{note}: {way}"))
        typed = f"{east:.0f} {north:.0f}"
        back = {"answer.easting_m": round(east), "answer.northing_m": round(north), "answer.lat_deg": lat, "answer.lon_deg": lon}
        cases.append(case({"do": "place", "place": typed, "grid": code}, back, f"{note}, and back"))
    cases.append(disputed_case(tally))
    tolerance, why = tolerances(
        easting_m=(0.001, "the same registered shift"),
        northing_m=(0.001, "as the easting"),
        accuracy_m=(0, "what the register states"),
        lat_deg=(6e-6, "the numbers are typed to the metre"),
        lon_deg=(1e-5, "as the latitude"),
    )
    return [
        {
            "topic": "earth/shift_ways",
            "about": "Datum shifts taken by where a place lies, not by the box about the area they were made for.",
            "source": "EPSG register in PROJ 9.5.1 through pyproj 3.7.2 (each way by its name); which of them holds at a place is read off a map",
            "made_by": "tests/references/shift_ways.py",
            "units": {"easting_m": "metres in the grid; northing_m likewise", "accuracy_m": "metres, as the register states", "lat_deg": "degrees on WGS 84; lon_deg likewise"},
            "tolerance": tolerance,
            "tolerance_why": why,
            "cases": [{"id": str(number), **item} for number, item in enumerate(cases, 1)],
            "invalid": [],
        }
    ]
