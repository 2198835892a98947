"""The rows of the case files under tests/tables/ground, asked of our binary."""

import json

from common import HERE, ask

FOLDER = HERE.parent / "tables" / "ground"


def inline(document, row):
    """The row's ground, as our binary is told of it."""
    layout, z = document["layout"], document["grounds"][row["ground"]]
    values = [height for line in z for height in line]

    class Told:
        told = {
            "values_m": values, "columns": len(z[0]), "rows": len(z), "west": layout["west_deg"], "north": layout["north_deg"],
            "step_east": layout["step_deg"], "step_south": layout["step_deg"], "grid": None,
            "sigma_m": row.get("sigma_m", 0.0), "correlation_m": layout["correlation_m"],
        }
    return Told


def answer(binary, document, row):
    """Our own answer, by the names that the row expects."""
    ground = inline(document, row)
    if "eye" in row:
        return ask(binary, ground, {"sights": {"pairs": [[row["eye"], row["object"]]]}})[0]
    told = ask(binary, ground, {"slopes": {"posts": [row["post"]]}})[0]
    return dict(zip(("slope_deg", "percent", "spread_deg", "falls_to_deg_true", "aspect_spread_deg"), told))


def check(tally, binary):
    """Every row of every file."""
    for file in sorted(FOLDER.glob("*.json")):
        document = json.loads(file.read_text(encoding="ascii"))
        wrong = []
        for row in document["rows"]:
            ours = answer(binary, document, row)
            for name, wanted in row["expect"].items():
                if ours[name] is None or abs(ours[name] - wanted) > document["row_tolerance"][name][0]:
                    wrong.append(f"row {row['id']}: {name} {ours[name]} instead of {wanted}")
        tally.check(f"{document['topic']}, {len(document['rows'])} rows", not wrong, "; ".join(wrong))
