"""Print what the tool said in the second run: the fixes, the reckoned place, head and miss of the way back."""

import textwrap

from reference import read_lines


def of_fix(record, reply):
    """The sentences of a fix up to its sightings, and how many follow."""
    said, names = reply["said"], [sighting["landmark"] for sighting in record["sightings"]]
    first = next((k for k, sentence in enumerate(said) if sentence.startswith(f"{names[0]}:")), len(said))
    return [*said[:first], f"({len(said) - first} more on sightings and cautions)"]


def of_way_back(reply):
    """Head and miss of the way back; its legs stand between them."""
    said, legs = reply["said"], len(reply["snapshot"]["way_back"]["legs"])
    return [said[0], f"({legs} legs)", *said[legs + 1:legs + 2]]


def short(record, reply):
    """What a person reads of one reply; nothing of questions and legs."""
    if not reply["ok"]:
        return [reply["refusal"]["sentence"]]
    if record["do"] == "fix":
        return of_fix(record, reply)
    if record["do"] == "back":
        return of_way_back(reply)
    return reply["said"] if record["do"] in ("keep", "where") else []


def title(record):
    """A fix with its instrument, anything else by its name."""
    return f"{record['do']} ({record['instrument']})" if "instrument" in record else record["do"]


def main():
    """Print the replies in short."""
    for record, reply in zip(read_lines("records.jsonl"), read_lines("replies.jsonl")):
        sentences = short(record, reply)
        if sentences:
            print(title(record))
        for sentence in sentences:
            print(textwrap.fill(sentence, 110, initial_indent="  ", subsequent_indent="    "))


if __name__ == "__main__":
    main()
