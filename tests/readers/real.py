"""Real files: GPX tracks, a GeoPackage on Web Mercator, two cut-outs of OpenStreetMap. Reference: pyogrio (GDAL), pyosmium, shapely."""

import re
from collections import Counter, defaultdict

import numpy as np
import osmium
import pyogrio
import shapely
from pyproj import Transformer
from shapely.ops import linemerge

from made import NEAR_DEG, stored
from told import OUT, ask, check

# The kinds by tags, written down again from the map features of the OpenStreetMap wiki (from memory).
ROADS = "motorway trunk primary secondary tertiary unclassified residential living_street service road busway".split()
LINES = {
    "highway": {**dict.fromkeys(ROADS, "road"), **{f"{name}_link": "road" for name in ROADS[:5]}, "track": "track",
                **dict.fromkeys("path footway bridleway steps cycleway via_ferrata pedestrian".split(), "path")},
    "waterway": {"stream": "creek", "ditch": "creek", "drain": "creek", "tidal_channel": "creek", "river": "river", "canal": "canal"},
    "railway": dict.fromkeys("rail light_rail narrow_gauge tram funicular preserved disused abandoned monorail".split(), "railway"),
    "natural": {"ridge": "ridge", "arete": "ridge", "cliff": "cliff"},
    "aerialway": dict.fromkeys("cable_car gondola mixed_lift chair_lift drag_lift t-bar j-bar platter rope_tow goods zip_line".split(), "cableway"),
    "power": {"line": "power line", "minor_line": "power line"},
    "barrier": {"fence": "fence", "wall": "wall", "city_wall": "wall", "retaining_wall": "wall", "hedge": "hedge"},
    "man_made": {"embankment": "ridge", "dyke": "ridge", "cutline": "cutline"},
}
COUNTED = {"spring": {"natural": "spring"}, "cairn": {"man_made": "cairn"}, "viewpoint": {"tourism": "viewpoint", "natural": None, "mountain_pass": None}, "power pylon": {"power": "tower"}, "summit": {"natural": "peak"}, "mast": {"man_made": "mast"}, "chimney": {"man_made": "chimney"}}


def line_kind(tags):
    """The kind of a way by the first key that says one."""
    for key, values in LINES.items():
        if tags.get(key) in values:
            return values[tags[key]]
    return None


# What is not there yet, or no longer (OpenStreetMap wiki, "Lifecycle prefix", from memory); an abandoned building still stands.
GONE = "proposed planned construction razed demolished dismantled destroyed removed".split()
SAYS_WHAT = {*LINES, "building", "historic", "aerialway", "bridge"}


def gone(tags):
    """Whether tags are of something that is not there."""
    by_value = tags.get("highway") in [*GONE, "abandoned"] or any(tags.get(key) in GONE for key in "building man_made power aerialway barrier".split())
    by_own = any(tags.get(key) in ("yes", "true", "1") for key in GONE)
    prefixed = any(key.partition(":")[0] in [*GONE, "abandoned"] and key.partition(":")[2] in SAYS_WHAT and value != "no" for key, value in tags.items())
    return by_value or by_own or prefixed and not any(tags.get(key, "no") != "no" for key in SAYS_WHAT)


def is_deep_water(kind, tags, places):
    """Water that runs 100 m or more under the ground is left out."""
    is_covered = tags.get("tunnel", "no") not in ("no", "building_passage") or tags.get("location") == "underground"
    if kind not in ("creek", "river", "canal") or not is_covered:
        return False
    plane = [(lat * 111_195, lon * 111_195 * np.cos(np.radians(lat))) for lat, lon in filter(None, places)]
    return sum(np.hypot(b[0] - a[0], b[1] - a[1]) for a, b in zip(plane, plane[1:])) >= 100


def level_of(tags):
    """On which level a way runs: as stated, else 1 on a bridge and -1 in a tunnel (OpenStreetMap wiki, Key:layer)."""
    says = lambda key: tags.get(key, "no") not in ("no", "false", "0", "building_passage")
    is_below = says("tunnel") or tags.get("location") == "underground"
    stated = int(tags["layer"]) if re.fullmatch(r"[-+]?[1-5]", tags.get("layer", "")) else 0
    return max(stated, 1) if says("bridge") else min(stated, -1) if is_below else stated


class Map(osmium.SimpleHandler):
    """The lines, nodes and closed outlines of a file as pyosmium reads them."""

    def __init__(self):
        super().__init__()
        self.lines, self.nodes, self.rings, self.users, self.relations = [], [], [], set(), 0
        # Nodes, ways and relations with tags that speak of what is on the ground.
        self.records = 0
        # Ways that run off the ground, by level.
        self.raised = []

    def node(self, node):
        self.users.add(node.user)
        self.records += says(node.tags)
        if len(node.tags) and not gone(dict(node.tags)):
            self.nodes.append((dict(node.tags), (node.location.lat, node.location.lon)))

    def way(self, way):
        self.users.add(way.user)
        self.records += says(way.tags)
        tags = dict(way.tags)
        kind = line_kind(tags)
        if gone(tags) or (not kind and "building" not in tags):
            return
        places = [(node.location.lat, node.location.lon) if node.location.valid() else None for node in way.nodes]
        if kind and is_deep_water(kind, tags, places):
            return
        if kind:
            name = tags.get("name") or (tags.get("ref") if kind in ("road", "track") else None)
            self.lines.append((kind, name, runs(places)))
            if level_of(tags):
                self.raised += [(level_of(tags), part) for part in runs(places)]
        elif tags["building"] not in ("no", "ruins") and None not in places:
            self.rings.append((tags, places))

    def relation(self, relation):
        self.records += says(relation.tags)

    def area(self, area):
        """A building whose outline is made of several ways, by its widest outer ring."""
        tags = dict(area.tags)
        if area.from_way() or gone(tags) or line_kind(tags) or tags.get("building", "no") in ("no", "ruins"):
            return
        rings = [[(node.location.lat, node.location.lon) for node in ring] for ring in area.outer_rings()]
        self.rings.append((tags, max(rings, key=lambda ring: shapely.Polygon(ring).area)))
        self.relations += 1


def says(tags):
    """Whether any tag speaks of more than the data."""
    of_data = "created_by source note fixme FIXME attribution comment import".split()
    return any(tag.k.partition(":")[0] not in of_data for tag in tags)


def runs(places):
    """A line broken where a place is missing."""
    parts, part = [], []
    for place in [*places, None]:
        if place is None:
            parts, part = [*parts, part], []
        elif not part or part[-1] != place:
            part.append(place)
    return [part for part in parts if len(part) > 1]


def without_copies(lines):
    """Ways of one kind and name with the very same points, whichever way they run, are one."""
    seen, kept = set(), []
    for kind, label, parts in lines:
        left = []
        for part in parts:
            way = tuple(map(tuple, part))
            key = (kind, label and " ".join(label.split()).lower(), min(way, way[::-1]))
            if key not in seen:
                seen.add(key)
                left.append(part)
        kept.append((kind, label, left))
    return kept


def once(lines):
    """Straight pieces of one kind and name, or of one without a name where a named one has them, are one; so are those of a line that
    runs back over itself for 20 m or more."""
    label_of = lambda label: label and " ".join(label.split()).lower()
    edge = lambda pair: tuple(sorted(map(tuple, pair)))
    named = {(kind, edge(pair)) for kind, label, parts in lines if label for part in parts for pair in zip(part, part[1:])}
    seen, kept = set(), []
    for kind, label, parts in lines:
        left = []
        for part in [way for part in parts for way in unfolded(part)]:
            own = [edge(pair) for pair in zip(part, part[1:])]
            taken = [(kind, label_of(label), one) in seen or (not label and (kind, one) in named) for one in own]
            seen |= {(kind, label_of(label), one) for one in own}
            left += [run for run in runs_between(part, taken) if len(run) > 1]
        kept.append((kind, label, left))
    return kept


def runs_between(part, taken):
    """The runs of a line between its straight pieces that are taken."""
    out = [[part[0]]]
    for point, gone in zip(part[1:], taken):
        if gone:
            out.append([point])
        else:
            out[-1].append(point)
    return out


def unfolded(part):
    """The ways of a line that turns round in a point and runs back over its own points: without the way back, a spur for itself."""
    for tip in range(1, len(part) - 1):
        back = 0
        while tip - back > 0 and tip + back + 1 < len(part) and part[tip - back - 1] == part[tip + back + 1]:
            back += 1
        gone = shapely.LineString([(lon * np.cos(np.radians(part[tip][0])), lat) for lat, lon in part[tip : tip + back + 1]]).length * 111_195 if back else 0
        if gone >= 20 and tip + back + 1 == len(part):
            return [part[: tip + 1]]
        if gone >= 20 and tip - back == 0:
            return [part[tip:]]
        if gone >= 20:
            return [part[: tip - back + 1] + part[tip + back + 1 :], part[tip - back : tip + 1]]
    return [part]


def steps(kind, points):
    """The straight pieces of a line, in whole ten-millionths of a degree, whichever way they run."""
    whole = [tuple(int(round(number * 1e7)) for number in point) for point in points]
    return Counter((kind, *sorted(pair)) for pair in zip(whole, whole[1:]))


def hold_map(name):
    """A cut-out of OpenStreetMap, piece by piece."""
    reference = Map()
    reference.apply_file(str(OUT / name), locations=True)
    reference.lines = once(without_copies(reference.lines))
    taken = ask(OUT / name)
    ours, theirs = Counter(), Counter()
    for line in taken["lines"]:
        ours += steps(line["kind"], line["points"])
    merged = defaultdict(list)
    for kind, label, parts in reference.lines:
        for part in parts:
            theirs += steps(kind, part)
            merged[kind, label and " ".join(label.split()).lower()].append(part)
    more, fewer = ours - theirs, theirs - ours
    # Ends within a metre of each other are joined by a step of their own; nothing else may be added.
    long = [step for step in more if np.hypot(step[1][0] - step[2][0], (step[1][1] - step[2][1]) * 0.7) > 1 / 111_195 * 1e7]
    check(f"{name}: straight pieces of lines", not fewer and not long and sum(more.values()) <= 30, (len(more), list(fewer.items())[:3], long[:3]))
    print(f"  {name}: {sum(theirs.values())} straight pieces of {len(reference.lines)} ways, {len(taken['lines'])} lines, {len(taken['landmarks'])} landmarks, "
          f"{len(taken['junctions'])} junctions, {taken['seconds']:.2f} s to read, {taken['junction_seconds']:.2f} s to find them, {taken['peak_kb'] // 1024} MB")
    hold_names(name, taken, reference)
    hold_merged(name, taken, merged, Counter(step[0] for step in more))
    hold_landmarks(name, taken, reference)
    hold_users(name, taken, reference)
    hold_junctions(name, taken, reference)
    check(f"{name}: makes a sheet", taken["problem"] is None, taken["problem"])
    return reference, taken


def hold_names(name, taken, reference):
    names = {" ".join(label.split())[:80] for _, label, parts in reference.lines if label and parts}
    ours = {line["name"] for line in taken["lines"]}
    check(f"{name}: names of lines", {label.lower() for label in names} <= {label.lower() for label in ours}, list(names - ours)[:5])
    check(f"{name}: no two lines of one name", len({label.lower() for label in ours}) == len(taken["lines"]))
    marks = {mark["name"].lower() for mark in taken["landmarks"]}
    check(f"{name}: no two landmarks of one name", len(marks) == len(taken["landmarks"]))


def hold_merged(name, taken, merged, steps_added):
    """Unnamed lines join where exactly two ends meet, as shapely's linemerge does, and over the added steps; named ones at least there."""
    for kind in {kind for kind, _ in merged}:
        wanted = merged_count(merged.get((kind, None), []))
        ours = sum(bool(re.fullmatch(rf"{kind} \d+", line["name"])) for line in taken["lines"] if line["kind"] == kind)
        check(f"{name}: unnamed lines of kind {kind}", wanted - steps_added[kind] <= ours <= wanted, (ours, wanted, steps_added[kind]))
        wanted_named = sum(merged_count(parts) for (other, label), parts in merged.items() if other == kind and label)
        ours_named = sum(line["kind"] == kind for line in taken["lines"]) - ours
        check(f"{name}: named lines of kind {kind}", ours_named <= wanted_named, (ours_named, wanted_named))


def merged_count(parts):
    """How many lines shapely makes of the parts."""
    return len(shapely.get_parts(linemerge([shapely.LineString(part) for part in parts]))) if parts else 0


def hold_landmarks(name, taken, reference):
    """Points by kind, and buildings by their centroids."""
    for kind, tags in COUNTED.items():
        wanted = sorted(at for own, at in reference.nodes if all(own.get(key) == value for key, value in tags.items()))
        ours = sorted(tuple(mark["at"]) for mark in taken["landmarks"] if mark["kind"] == kind)
        near = [at for at in wanted if nearest(np.array(ours), at) > NEAR_DEG] if ours else wanted
        check(f"{name}: {len(wanted)} of kind {kind}", not near, near[:3])
    marks = np.array([mark["at"] for mark in taken["landmarks"] if mark["spread_m"] > 5])
    tree = shapely.STRtree(shapely.points(marks[:, ::-1])) if len(marks) else None
    far = 0
    for _, ring in reference.rings:
        if len(ring) > 3 and ring[0] == ring[-1]:
            centroid = shapely.Polygon([(lon, lat) for lat, lon in ring]).centroid
            found = tree.query_nearest(centroid, return_distance=True)[1][0] if tree else 1
            far += bool(found > NEAR_DEG) and shapely.Polygon([(lon, lat) for lat, lon in ring]).is_valid
    check(f"{name}: centroids of {len(reference.rings)} buildings, {reference.relations} of several ways", far == 0 and len(reference.rings) > 0, far)
    stated = [float(own["ele"]) for own, _ in reference.nodes if own.get("natural") == "peak" and re.fullmatch(r"\d+(\.\d+)?", own.get("ele", ""))]
    ours = sorted(height for mark, height in taken["above_sea_m"].items())
    check(f"{name}: {reference.records} records", taken["records"] == reference.records and taken["left_out"] < taken["records"], taken["records"])
    check(f"{name}: heights of summits", all(any(abs(height - other) < 1e-9 for other in ours) for height in stated), stated[:5])


def nearest(places, at):
    """The widest of the two differences to the nearest place, degrees."""
    return np.abs(places - np.array(at)).max(axis=1).min()


def hold_users(name, taken, reference):
    """No mapper's name comes along."""
    words = {value for own, _ in reference.nodes for value in own.values()}
    ours = {thing["name"] for thing in taken["lines"] + taken["landmarks"]}
    leaked = {user for user in reference.users if user and user in ours and user not in words}
    check(f"{name}: no user names", not leaked or not reference.users, len(leaked))


def hold_junctions(name, taken, reference):
    """Every place where two lines share a point or cross is a junction of both, but where one of them runs in a tunnel or on a bridge; every
    junction's lines come near it."""
    lat, lon = taken["origin"]
    plane = Transformer.from_crs("EPSG:4326", f"+proj=aeqd +lat_0={lat} +lon_0={lon} +ellps=WGS84", always_xy=True)
    shapes = []
    for line in taken["lines"]:
        points = np.array(line["points"])
        shapes.append(shapely.LineString(np.c_[plane.transform(points[:, 1], points[:, 0])]))
    at = defaultdict(list)
    for junction in taken["junctions"]:
        for index, along_m in junction["lines"]:
            at[index].append((along_m, {line for line, _ in junction["lines"]}))
            off = shapes[index].interpolate(along_m).distance(shapely.Point(junction["at"]))
            if off > 60:
                check(f"{name}: {junction['name']} lies on its lines", False, off)
    raised = shapely.STRtree([shapely.LineString([plane.transform(lon, lat) for lat, lon in part]) for _, part in reference.raised])
    missing, met, passed = [], 0, 0
    left, right = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    for a, b in zip(left, right):
        if a < b:
            for point in shapely.get_parts(shapely.intersection(shapes[a], shapes[b])):
                if point.geom_type == "Point":
                    met += 1
                    along_m = shapes[a].project(point)
                    ring = shapes[a].length
                    if len(raised.query(point, predicate="dwithin", distance=0.5)):
                        passed += 1
                        continue
                    if not any(b in lines and min(abs(own - along_m), ring - abs(own - along_m)) <= 30 for own, lines in at[a]):
                        missing.append((taken["lines"][a]["name"], taken["lines"][b]["name"], along_m))
    check(f"{name}: {met - passed} meetings of two lines are junctions", not missing and met > 2 * passed, (len(missing), passed, missing[:3]))


def hold_cut(name, reference, box):
    """A cut by a box: the length of what is inside by kind, against shapely's clip_by_rect."""
    south, west, north, east = box
    taken = ask(OUT / name, "--area", *map(str, box))
    wanted, ours = defaultdict(float), defaultdict(float)
    for kind, _, parts in reference.lines:
        for part in parts:
            whole = shapely.LineString([(lon, lat) for lat, lon in part])
            wanted[kind] += shapely.clip_by_rect(whole, west, south, east, north).length
    for line in taken["lines"]:
        ours[line["kind"]] += shapely.LineString([(lon, lat) for lat, lon in line["points"]]).length
    for kind, length in wanted.items():
        check(f"{name} cut: {kind}", abs(ours[kind] - length) <= 1e-9 + 1e-9 * length, (ours[kind], length))
    places = [place for line in taken["lines"] for place in line["points"]] + [mark["at"] for mark in taken["landmarks"]]
    outside = [place for place in places if not (south - 1e-12 <= place[0] <= north + 1e-12 and west - 1e-12 <= place[1] <= east + 1e-12)]
    check(f"{name} cut: nothing outside", places and not outside, outside[:3])


def hold_geopackage():
    """Streets and buildings of a town on Web Mercator; what they are, only their layers' names say."""
    path = OUT / "bubenec.gpkg"
    taken = ask(path)
    (streets, *_), _ = stored(path, "streets", "EPSG:3857")
    (buildings, *_), _ = stored(path, "buildings", "EPSG:3857")
    ours, theirs = np.vstack([line["points"] for line in taken["lines"]]), np.unique(shapely.get_coordinates(streets).round(7), axis=0)
    check("bubenec: places of streets", len(np.unique(ours.round(7), axis=0)) == len(theirs), (len(ours), len(theirs)))
    length = sum(shapely.LineString([(lon, lat) for lat, lon in line["points"]]).length for line in taken["lines"])
    check("bubenec: length of streets", abs(length - shapely.length(streets).sum()) < 1e-7, length)
    check("bubenec: streets are roads", {line["kind"] for line in taken["lines"]} == {"road"})
    check("bubenec: 144 buildings", sum(mark["kind"] == "building" for mark in taken["landmarks"]) == 144 == len(buildings))
    places = np.array([mark["at"] for mark in taken["landmarks"]])
    for building in buildings:
        centroid = shapely.centroid(building)
        check("bubenec: a building's centroid", nearest(places, (centroid.y, centroid.x)) <= NEAR_DEG, centroid)


def hold_tracks():
    """Recorded tracks, point by point."""
    for name in ["korita-zbevnica.gpx", "Mojstrovka.gpx", "cerknicko-jezero.gpx"]:
        taken = ask(OUT / name)
        _, _, wkb, _ = pyogrio.raw.read(OUT / name, layer="tracks")
        parts = [shapely.get_coordinates(part) for track in shapely.from_wkb(wkb) for part in shapely.get_parts(track)]
        wanted, ours = Counter(), Counter()
        for part in parts:
            wanted += steps("", [tuple(point[::-1]) for point in dedup(part)])
        for line in taken["lines"]:
            ours += steps("", line["points"])
        # Two pieces of a track whose ends lie within a metre are one line; what was walked again is left out, and lies beside what is left.
        east = np.cos(np.radians(taken["lines"][0]["points"][0][0]))
        plane = lambda points: [(lon * east * 111_195, lat * 111_195) for lat, lon in points]
        ground = shapely.union_all([shapely.LineString(plane(line["points"])) for line in taken["lines"]])
        gone = shapely.union_all([shapely.LineString(plane([np.array(at) / 1e7 for at in step[1:]])) for step in wanted - ours])
        far = shapely.hausdorff_distance(gone, gone.intersection(ground.buffer(28))) if not gone.is_empty else 0
        made = sum((ours - wanted).values())
        told_again = sum(float(metres) for line in taken["minded"] for metres in re.findall(r"\(([\d.]+)\u00a0m\)", line))
        check(f"{name}: what was walked again lies beside what is left", far < 28, far)
        check(f"{name}: {sum(wanted.values())} straight pieces", made <= 4 * len(parts) and sum(ours.values()) >= 100, made)
        long = lambda lines: sum(shapely.LineString(plane(points)).length for points in lines if len(points) > 1)
        shorter = long([[point[::-1] for point in part] for part in parts]) - long([line["points"] for line in taken["lines"]])
        check(f"{name}: so much was walked again", abs(shorter - told_again) <= 30 * len(taken["lines"]), (shorter, told_again))
        _, _, points, _ = pyogrio.raw.read(OUT / name, layer="waypoints")
        check(f"{name}: waypoints", len(points) == len(taken["landmarks"]) + len(taken["known_points"]), len(points))


def dedup(points):
    """Points without immediate repetition."""
    return [point for index, point in enumerate(points) if not index or tuple(point) != tuple(points[index - 1])]


def hold_all():
    """All real files."""
    hold_tracks()
    hold_geopackage()
    hold_map("monaco.osm.pbf")
    reference, _ = hold_map("liechtenstein.osm.pbf")
    hold_cut("liechtenstein.osm.pbf", reference, (47.10, 9.50, 47.17, 9.58))
    hold_cut("liechtenstein.osm.pbf", reference, (47.139, 9.519, 47.143, 9.525))
