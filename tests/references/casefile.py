"""What all reference scripts share: the shape of a case file, its text, and a tally of checks."""

import csv
import json
from pathlib import Path

HERE = Path(__file__).resolve().parent
VECTORS = HERE.parent / "vectors"


class Tally:
    """Counts checks; a failed one is printed with what was wrong."""

    def __init__(self):
        self.passed = 0
        self.failed = 0

    def check(self, name, ok, detail=""):
        """Count one check and return whether it held."""
        if ok:
            self.passed += 1
        else:
            self.failed += 1
            print(f"FAILED {name}: {str(detail)[:200]}")
        return ok

    def near(self, name, got, want, tolerance):
        """Count one check of a number against a number."""
        return self.check(name, abs(got - want) <= tolerance, f"{got} is not {want} within {tolerance}")


def published(name):
    """Rows of published/<name> as dictionaries of text; lines with # are the provenance."""
    with (HERE / "published" / name).open(encoding="ascii") as lines:
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def numbered(items):
    """Give the cases their ids, in the order they are written."""
    return [{"id": str(number), **item} for number, item in enumerate(items, 1)]


def case(record, expect, note=None):
    """One case without its id."""
    return {**({"note": note} if note else {}), "record": record, "expect": expect}


def refused(record, code, note=None):
    """One invalid case without its id."""
    return {**({"note": note} if note else {}), "record": record, "refusal": code}


def tolerances(**paths):
    """Split answer_path=(tolerance, reason) into the two members of a case file."""
    return (
        {f"answer.{path}": tolerance for path, (tolerance, _) in paths.items()},
        {f"answer.{path}": why for path, (_, why) in paths.items()},
    )


def text_of(document):
    """The file's text: one line per case, so that a change shows as one line."""
    parts = []
    for key, value in document.items():
        if key in ("cases", "invalid", "rows") and value:
            lines = ",\n".join("    " + json.dumps(item) for item in value)
            parts.append(f'  "{key}": [\n{lines}\n  ]')
        else:
            body = json.dumps(value, indent=2).replace("\n", "\n  ")
            parts.append(f'  "{key}": {body}')
    return "{\n" + ",\n".join(parts) + "\n}\n"


# Topics of a folder that the tables have as well, whose cases are records.
RECORDS = ("fix/ground", "fix/open")


def path_of(topic):
    """Where the case file of a topic lies; one without records, for a single room, lies with the tables."""
    tables = VECTORS.parent / "tables"
    return (tables if topic not in RECORDS and (tables / topic).parent.is_dir() else VECTORS) / f"{topic}.json"


def read(topic):
    """The case file of a topic, or None while there is none."""
    path = path_of(topic)
    return json.loads(path.read_text(encoding="ascii")) if path.exists() else None


def is_number(value):
    """A number that is no truth value."""
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def check_shape(tally, document):
    """Ids unique, every expected number under a tolerance with a reason, no tolerance without use."""
    used = set()
    for group in ("cases", "invalid"):
        ids = [item["id"] for item in document[group]]
        tally.check(f"{document['topic']} {group} ids", len(ids) == len(set(ids)), "an id is used twice")
    for item in document["cases"]:
        numbers = {path for path, value in item["expect"].items() if is_number(value)}
        missing = numbers - set(document["tolerance"])
        tally.check(f"{document['topic']} {item['id']} tolerances", not missing, f"none for {sorted(missing)}")
        used |= numbers
    tally.check(f"{document['topic']} tolerances used", used == set(document["tolerance"]), "unused path")
    tally.check(
        f"{document['topic']} reasons", set(document["tolerance"]) == set(document["tolerance_why"]), "no reason"
    )


def check_file(tally, document):
    """The file on disk is what the script would write, case by case and as a whole."""
    topic = document["topic"]
    on_disk = read(topic) or {"cases": [], "invalid": []}
    for group in ("cases", "invalid"):
        there = {item["id"]: item for item in on_disk.get(group, ())}
        for item in document[group]:
            found = there.get(item["id"])
            tally.check(f"{topic} {group} {item['id']}", found == json.loads(json.dumps(item)), f"the file has {found}")
    path = path_of(topic)
    same = path.exists() and path.read_text(encoding="ascii") == text_of(document)
    tally.check(f"{topic} text", same, "the file is not what the script writes; see --write")
