"""Our UTM coordinates and MGRS references, written and read, against GeoConvert and pyproj, place by place.

Usage: compare.py COMMAND FOLDER; the replies and the differences are left in FOLDER. Exit code 1 when two programs differ
and no named reason explains it.
"""

import collections
import json
import math
import pathlib
import subprocess
import sys
import time

sys.dont_write_bytecode = True
HERE = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "references"))

import pyproj  # noqa: E402  (the folder of the references comes first)

import grid  # noqa: E402
from points import plain, points  # noqa: E402

COUNT = 20_000
# Two exact series in double precision: 5.9e-9 m was seen between GeoConvert and PROJ on such places.
SAME_M = 1e-8
# Nearer to a whole metre than this, two programs that agree to SAME_M may cut to neighbouring squares.
METRE_EDGE_M = 2e-8
# GeoConvert prints degrees to 1e-14; two series agree to SAME_M, which is 1e-13 degrees of latitude.
SAME_READING_M = 1e-7
METRES_PER_DEGREE = 111_320


def run(arguments, lines):
    """The lines a program answers to lines."""
    done = subprocess.run(arguments, input="\n".join(lines) + "\n", capture_output=True, text=True, check=False)
    return done.stdout.splitlines()


def zone_key(text):
    """What places of one zone have in common: the beginning of a reference, or the longitude in steps of 6 degrees and the half."""
    latitude, comma, longitude = text.partition(",")
    if not comma:
        return text[:3]
    return f"{int((float(longitude) + 180) // 6):03d}{float(latitude) < 0}"


class Ours:
    """The command, asked about places."""

    def __init__(self, command, folder):
        self.command, self.folder = command, folder
        for left in folder.glob("peers.gatepost*"):
            left.unlink()

    def places(self, name, texts):
        """The answers to place texts, None for a refusal. Asked zone by zone: not all grids of the earth are kept at hand."""
        order = sorted(range(len(texts)), key=lambda number: zone_key(texts[number]))
        records = [json.dumps({"do": "place", "place": texts[number]}) for number in order]
        (self.folder / f"{name}.jsonl").write_text("\n".join(records) + "\n", encoding="ascii")
        logbook = str(self.folder / "peers.gatepost")
        told = [json.loads(line).get("answer") for line in run([self.command, "--logbook", logbook, "records"], records)]
        answers = dict(zip(order, told, strict=True))
        return [answers[number] for number in range(len(texts))]


class ByProj:
    """UTM and UPS by PROJ, the zone by our own statement of the rule, references spelt out from the coordinates."""

    def __init__(self):
        self.grids = {}

    def coordinates(self, lat, lon):
        """Easting and northing."""
        code = grid.code_of(lat, lon)
        if code not in self.grids:
            self.grids[code] = pyproj.Proj(code)
        return self.grids[code](lon, lat)

    def reference(self, lat, lon, easting, northing):
        """The reference at 1 m; none for UPS, whose letters PROJ knows nothing of."""
        return None if grid.is_polar(lat) else grid.letters(lat, lon, easting, northing)


def cut_beside(place, coordinates):
    """The references that the last digits of a double may lead to: one, unless a coordinate is all but a whole metre."""
    _, lat, lon = place
    steps = (-METRE_EDGE_M, 0, METRE_EDGE_M)
    if grid.is_polar(lat):
        return set()
    return {grid.letters(lat, lon, coordinates[0] + east, coordinates[1] + north) for east in steps for north in steps}


class Table:
    """What was found: agreements and named differences per pair of programs, and all that has no name."""

    def __init__(self):
        self.counts = collections.Counter()
        self.farthest = collections.defaultdict(float)
        self.unexplained = []

    def same(self, pair, place, ours, theirs, reason=None):
        """One comparison of two texts; a reason is the name of what may part them at this place."""
        name = "identical" if ours == theirs else reason or "UNEXPLAINED"
        self.counts[pair, name] += 1
        if name == "UNEXPLAINED":
            self.unexplained.append(f"{pair}: {place}: {ours} and {theirs}")

    def reference(self, pair, place, ours, theirs, coordinates):
        """One comparison of two references cut from coordinates."""
        beside = ours != theirs and {ours, theirs} <= cut_beside(place, coordinates)
        self.same(pair, place, ours, theirs, "metre edge" if beside else None)

    def metres(self, pair, place, apart, within):
        """One comparison of two places."""
        self.farthest[pair] = max(self.farthest[pair], apart)
        if apart > within:
            self.unexplained.append(f"{pair}: {place}: {apart:.2e} m apart")


def largest(ours, theirs):
    """The larger difference of two pairs of coordinates."""
    return max(abs(one - other) for one, other in zip(ours, theirs))


def grid_name(zone):
    """GeoConvert's zone, as "18n" or "n", in our words."""
    half = "north" if zone[-1] == "n" else "south"
    return f"UTM {int(zone[:-1])} {half}" if len(zone) > 1 else f"UPS {half}"


def rounded(zone, coordinates):
    """GeoConvert's coordinates rounded to the metre, in our words."""
    return " ".join([grid_name(zone).removeprefix("UTM "), *(str(round(value)) for value in coordinates)])


def half_metre(coordinates):
    """The name of what may part two roundings: a coordinate that is all but half a metre."""
    return "half metre" if any(abs(value % 1 - 0.5) <= METRE_EDGE_M for value in coordinates) else None


def compare_written(table, by_proj, place, answer, utm_line, mgrs_line):
    """One place in degrees, written by three programs."""
    zone, *theirs = utm_line.split()
    theirs = [float(value) for value in theirs]
    here = [answer["easting_m"], answer["northing_m"]]
    table.reference("MGRS and GeoConvert's", place, answer["mgrs"], mgrs_line, theirs)
    table.same("zone and GeoConvert's", place, answer["grid_name"], grid_name(zone))
    table.same("whole metres and GeoConvert's", place, answer["utm"], rounded(zone, theirs), half_metre(theirs))
    if answer["grid_name"] == grid_name(zone):
        table.metres("coordinates and GeoConvert's", place, largest(here, theirs), SAME_M)
    by = by_proj.coordinates(*place[1:])
    table.metres("coordinates and PROJ's", place, largest(here, by), SAME_M)
    text = by_proj.reference(*place[1:], *by)
    if text:
        table.reference("MGRS and PROJ's", place, answer["mgrs"], text, by)


def compare_read(table, pair, text, answer, line):
    """One text, read by two programs."""
    lat, lon = (float(value) for value in line.split())
    turn = (answer["lon_deg"] - lon + 180) % 360 - 180
    east = turn * math.cos(math.radians(lat))
    apart = math.hypot(answer["lat_deg"] - lat, east) * METRES_PER_DEGREE
    table.metres(pair, text, apart, SAME_READING_M)


def written(table, ours, places):
    """All places in degrees, written; GeoConvert's lines for what is read next."""
    lines = [f"{plain(lat)} {plain(lon)}" for _, lat, lon in places]
    utm, mgrs = run(["GeoConvert", "-u", "-p", "9"], lines), run(["GeoConvert", "-m", "-p", "0"], lines)
    answers = ours.places("written", [line.replace(" ", ", ") for line in lines])
    by_proj = ByProj()
    for place, answer, utm_line, mgrs_line in zip(places, answers, utm, mgrs, strict=True):
        compare_written(table, by_proj, place, answer, utm_line, mgrs_line)
    return utm, mgrs


def shortened(mgrs):
    """A reference with 2, 4, 6, 8 or 10 digits, taking turns."""
    for number, text in enumerate(mgrs):
        letters, east, north = text[:-10], text[-10:-5], text[-5:]
        digits = number % 5 + 1
        yield letters + east[:digits] + north[:digits]


def read(table, ours, name, texts, for_geoconvert):
    """Texts read as places by both programs."""
    lines = run(["GeoConvert", "-g", "-p", "9"], for_geoconvert)
    for text, answer, line in zip(texts, ours.places(name, texts), lines, strict=True):
        if answer is None or line.startswith("ERROR"):
            table.same(f"{name} refused", text, answer is None, line.startswith("ERROR"))
        else:
            compare_read(table, f"{name} and as GeoConvert reads it", text, answer, line)


def in_words(line):
    """GeoConvert's "18n 585664.1 4511315.4" as we read it."""
    zone, *numbers = line.split()
    return " ".join([grid_name(zone).removeprefix("UTM "), *numbers])


def report(table, places, seconds, folder):
    """What is printed and left in the folder; whether all is explained."""
    kinds = collections.Counter(kind for kind, *_ in places)
    print("places:", ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items())))
    for (pair, name), count in sorted(table.counts.items()):
        print(f"  {pair}: {name} {count}")
    for pair, apart in sorted(table.farthest.items()):
        print(f"  {pair}: at most {apart:.1e} m apart")
    (folder / "unexplained.txt").write_text("\n".join(table.unexplained) + "\n", encoding="utf-8")
    for line in table.unexplained[:10]:
        print(f"FAILED {line}")
    print(f"{len(places)} places, {len(table.unexplained)} unexplained, {seconds:.0f} s")
    return not table.unexplained


def main(command, folder):
    """Compare all places; the exit code."""
    started = time.monotonic()
    folder.mkdir(parents=True, exist_ok=True)
    places, table, ours = points(COUNT), Table(), Ours(command, folder)
    utm, mgrs = written(table, ours, places)
    short = list(shortened(mgrs))
    read(table, ours, "MGRS", short, short)
    read(table, ours, "UTM", [in_words(line) for line in utm], utm)
    return 0 if report(table, places, time.monotonic() - started, folder) else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], pathlib.Path(sys.argv[2])))
