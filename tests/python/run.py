"""Runs the case files and the main job through the Python binding.

Usage: run.py FOLDER [--write], where FOLDER holds the generated module `gatepost` and the library beside it;
--write writes the exported names anew.
"""

import inspect
import json
import math
import pathlib
import struct
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, sys.argv[1])

import gatepost  # noqa: E402  (generated; its folder comes as an argument)


class Tally:
    """Counts what held and tells what did not."""

    def __init__(self):
        self.passed = self.failed = 0

    def check(self, what, held, told=""):
        """One check."""
        if held:
            self.passed += 1
        else:
            self.failed += 1
            print(f"FAILED {what}: {told}")


def tell(book, record):
    """One record, one reply."""
    return json.loads(book.tell(json.dumps(record)))


def fresh(before=()):
    """A field book in memory that has taken some records."""
    book = gatepost.FieldBook.open(gatepost.OpenConfig())
    for record in before:
        assert tell(book, record)["ok"], record
    return book


def value_at(reply, path):
    """The value at a dotted path; None when there is none."""
    for part in path.split("."):
        try:
            reply = reply[int(part)] if isinstance(reply, list) else reply[part]
        except (KeyError, IndexError, TypeError):
            return None
    return reply


def is_number(value):
    """A number that is no truth value."""
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def equal(found, wanted, within):
    """Numbers within their tolerance, everything else exactly."""
    if is_number(found) and is_number(wanted):
        return within is not None and abs(found - wanted) <= within
    return found == wanted


def run_case_file(tally, path):
    """All cases of one file."""
    cases = json.loads(path.read_text(encoding="utf-8"))
    tolerance = cases.get("tolerance", {})
    for case in cases.get("cases", ()):
        reply = tell(fresh(case.get("before", ())), case["record"])
        for where, wanted in case["expect"].items():
            found = value_at(reply, where)
            held = equal(found, wanted, tolerance.get(where))
            tally.check(f"{cases['topic']} case {case['id']} {where}", held, f"{found} instead of {wanted}")
    for case in cases.get("invalid", ()):
        reply = tell(fresh(case.get("before", ())), case["record"])
        code = reply.get("refusal", {}).get("code")
        tally.check(f"{cases['topic']} invalid {case['id']}", code == case["refusal"], f"{code} instead of {case['refusal']}")


def walk_records():
    """The demo's walk: fix, keep, five legs with one detour, and the way back."""
    lines = (ROOT / "tests/demo/walk.jsonl").read_text(encoding="utf-8").splitlines()
    records = [json.loads(line) for line in lines]
    for record in records:
        if "file" in record:
            record["text"] = (ROOT / record.pop("file")).read_text(encoding="utf-8")
            record["format"] = "toml"
    return records


def run_main_job(tally):
    """The whole job, the book shut and opened anew after every record."""
    with tempfile.TemporaryDirectory() as folder:
        path = str(pathlib.Path(folder) / "walk.gatepost")
        for record in walk_records():
            book = gatepost.FieldBook.open(gatepost.OpenConfig(logbook_path=path))
            reply = tell(book, record)
            tally.check(f"main job: {record['do']}", reply["ok"], reply.get("refusal"))
            book.shut()
            if record["do"] == "back":
                way = reply["snapshot"]["way_back"]
                tally.check("way back closes on the fix", way["closes_m"] < 1e-6, way["closes_m"])
                tally.check("way back has every leg", [leg["of_leg"] for leg in way["legs"]] == [5, 4, 3, 2, 1])


def run_errors(tally):
    """A shut book, a file that is no logbook."""
    book = fresh()
    book.shut()
    try:
        book.tell("{}")
        tally.check("a shut book refuses", False)
    except gatepost.GatepostError.Shut:
        tally.check("a shut book refuses", True)
    with tempfile.NamedTemporaryFile() as file:
        file.write(b"no logbook, but long enough to look at" * 50)
        file.flush()
        try:
            gatepost.FieldBook.open(gatepost.OpenConfig(logbook_path=file.name))
            tally.check("a text file is no logbook", False)
        except gatepost.GatepostError.Logbook as error:
            tally.check("a text file is no logbook", error.code == "logbook-damaged", error.code)


def exported():
    """Every exported name with its members, one a line."""
    lines = []
    for name in sorted(gatepost.__all__):
        thing = getattr(gatepost, name)
        known = dir(Exception)
        is_class = inspect.isclass(thing)
        members = [member for member in dir(thing) if not member.startswith("_") and member not in known] if is_class else []
        fields = [] if is_class and issubclass(thing, Exception) else list(inspect.signature(thing).parameters)
        lines.append(f"{name}: {' '.join(sorted(set(members + fields)))}".rstrip(": "))
    return "\n".join(lines) + "\n"


def run_exported(tally):
    """The exported names are those that were reviewed; a change is written with --write and read in the review."""
    path = ROOT / "tests/python/exported.txt"
    if "--write" in sys.argv:
        path.write_text(exported(), encoding="utf-8")
    tally.check("exported names", path.read_text(encoding="utf-8") == exported(), "run with --write and review tests/python/exported.txt")


def run_typed(tally):
    """A fix through the typed call, its refusal, and a chart as bytes."""
    at = "2026-09-12T08:10:00Z"
    text = (ROOT / "tests/demo/velm-valley.toml").read_text(encoding="utf-8")
    book = gatepost.FieldBook.open(gatepost.OpenConfig())
    book.take(gatepost.Record.CARRY(at=at, format="toml", text=text))
    sighting = gatepost.SightingRecord.BEARING(
        landmark="Sorn chapel", one_of=None, place=None, spread_m=None, bearing="016 mag", spread_deg=None
    )
    reply = book.take(gatepost.Record.FIX(
        at=at, line="Velm Road", lines=None, line_odds=None, open=None, instrument="sighting", sightings=[sighting]
    ))
    tally.check("typed fix", len(reply.snapshot.fix.places) == 2 and reply.snapshot.stage == gatepost.Stage.BESIDE_THE_LINE)
    tally.check("chart bytes", book.chart("fix", 360.0, 280.0, 14.0)[:4] == b"GPC1")
    book.take(gatepost.Record.DRAFT(text="21"))
    tally.check("draft", book.snapshot().draft == "21")
    try:
        book.take(gatepost.Record.KEEP(at=at, stretch=9, name=None))
        tally.check("typed refusal", False)
    except gatepost.GatepostError.Refused as error:
        tally.check("typed refusal", error.code == "stretch-unknown", error.code)


class Watched(gatepost.Watch):
    """Keeps what it was told, and breaks off after so many calls."""

    def __init__(self, most):
        self.shares, self.most = [], most

    def goes_on(self, share):
        """Told how much is done."""
        self.shares.append(share)
        return len(self.shares) < self.most


def many_lines(count):
    """A file that takes several looks at the watch."""
    line = lambda i: {"type": "Feature", "properties": {"name": f"Lane {i}", "highway": "track"},
                      "geometry": {"type": "LineString", "coordinates": [[14.0 + i / 1e4, 46.0], [14.0 + i / 1e4, 46.01]]}}
    return json.dumps({"type": "FeatureCollection", "features": [line(i) for i in range(count)]}).encode()


def run_bring(tally):
    """A file with a watch: progress is told and grows; one that is broken off leaves everything as it was."""
    at, book, file = "2026-09-12T08:10:00Z", fresh(), many_lines(2000)
    watch = Watched(10**9)
    reply = book.bring(at, gatepost.IncomingFile(name="lanes.geojson", bytes=file), watch=watch)
    tally.check("brought", (len(reply.snapshot.sheet.lines), reply.snapshot.sheet.lines_left) == (24, 1976))
    rising = all(a <= b for a, b in zip(watch.shares, watch.shares[1:]))
    tally.check("progress", len(watch.shares) > 2 and rising and 0.0 <= watch.shares[0] and watch.shares[-1] <= 1.0, watch.shares[:5])
    before = book.snapshot()
    for most in (1, len(watch.shares) // 2):
        try:
            book.bring(at, gatepost.IncomingFile(name="again.geojson", bytes=file, credit="nobody"), watch=Watched(most))
            tally.check("broken off", False)
        except gatepost.GatepostError.Refused as error:
            tally.check("broken off", error.code == "import-stopped", error.code)
        tally.check("nothing changed", book.snapshot() == before)


def run_profile(tally):
    """The heights of a profile cross as one buffer; they are those that the reply tells as text."""
    case = json.loads((ROOT / "tests/vectors/sheet/relief.json").read_text(encoding="utf-8"))["cases"][0]
    book, ask = fresh(case["before"]), case["record"]
    said = tell(book, ask)["answer"]["samples"]
    record = gatepost.Record.PROFILE(_from=ask["from"], to=ask["to"], step_m=ask.get("step_m"), eye_m=ask.get("eye_m"))
    rows = list(struct.iter_unpack("<df", book.take(record).answer.samples))
    tally.check("profile", len(rows) == len(said) > 2, len(rows))
    for (distance, height), one in zip(rows, said):
        tally.check("its distance", distance == one["distance_m"], (distance, one))
        tally.check("its height", math.isnan(height) if one["height_m"] is None else abs(height - one["height_m"]) < 1e-3, (height, one))


def run_seen(tally):
    """The landmarks that should be seen cross as one buffer; they are those that the reply tells as text."""
    case = next(case for case in json.loads((ROOT / "tests/vectors/sheet/relief.json").read_text(encoding="utf-8"))["cases"]
                if case["record"]["do"] == "seen")
    book, ask = fresh(case["before"]), case["record"]
    said = tell(book, ask)["answer"]["landmarks"]
    record = gatepost.Record.SEEN(at=ask.get("at"), place=ask.get("place"), eye_m=ask.get("eye_m"), within_m=ask.get("within_m"), to=ask.get("to"))
    buffer, at, told = book.take(record).answer.landmarks, 0, []
    while at < len(buffer):
        numbers = struct.unpack_from("<6d", buffer, at)
        at, texts = at + 48, []
        for _ in range(3):
            (size,) = struct.unpack_from("<I", buffer, at)
            texts.append(bytes(buffer[at + 4 : at + 4 + size]).decode("utf-8"))
            at += 4 + size
        told.append([*texts, *(None if math.isnan(number) else number for number in numbers)])
    names = ("landmark", "kind", "seen", "chance", "margin_m", "hidden_at_m", "distance_m", "bearing_deg_mag", "bearing_deg_grid")
    tally.check("seen", len(said) > 0 and told == [[one[name] for name in names] for one in said], told[:2])


def run_no_number(tally):
    """What a shell hands over where nothing was typed, or a room that no screen has, is refused, and nothing is changed."""
    case = json.loads((ROOT / "tests/vectors/sheet/relief.json").read_text(encoding="utf-8"))["cases"][0]
    book = fresh(case["before"])
    line = book.snapshot().sheet.lines[0]
    before = book.snapshot()
    for number in (math.nan, math.inf):
        paces = gatepost.SightingRecord.PACES(_from="none", towards=None, paces=number, pace_kind=None)
        try:
            book.take(gatepost.Record.FIX(at="2026-07-01T09:00:00Z", line=line.name, lines=None, line_odds=None, open=None, instrument=None, sightings=[paces]))
            tally.check("no number", False)
        except gatepost.GatepostError.Refused as error:
            tally.check("no number", error.code == "sighting-no-number", error.code)
    for side in (math.nan, math.inf, -math.inf, 1e9, -1.0):
        for size in ((side, 300.0, 14.0), (300.0, side, 14.0), (300.0, 300.0, side)):
            try:
                book.chart("ground", *size)
                tally.check("no room", False, size)
            except gatepost.GatepostError.Refused as error:
                tally.check("no room", error.code == "number-unreadable", error.code)
    tally.check("nothing changed", book.snapshot() == before)


def main():
    """Everything, with one closing line."""
    tally = Tally()
    for path in sorted((ROOT / "tests/vectors").rglob("*.json")):
        run_case_file(tally, path)
    run_main_job(tally)
    run_errors(tally)
    run_typed(tally)
    run_bring(tally)
    run_profile(tally)
    run_seen(tally)
    run_no_number(tally)
    run_exported(tally)
    print(f"{tally.passed} passed, {tally.failed} failed")
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
