"""Make or check the case files under tests/vectors.

    python tests/references/make.py --check    every file is what the scripts would write, every row of a
                                               publication is recomputed; exit code 1 if anything is off
    python tests/references/make.py --write    write the generated files
"""

import argparse
import sys

sys.dont_write_bytecode = True

import angles
import attraction
import bearings
import compass
import declination
import fix_ground
import fix_open
import geodesics
import ground
import light
import minded
import named_grids
import old_datums
import pace
import places_typed
import printed
import reckon
import seen_cliffs
import sheet_asked
import shift_ways
import told
import turned
import turned_grids
import utm_mgrs
import ways_once
from casefile import Tally, check_file, check_shape, path_of, text_of

GENERATED = (
    declination,
    printed,
    utm_mgrs,
    named_grids,
    shift_ways,
    old_datums,
    places_typed,
    geodesics,
    ground,
    light,
    minded,
    angles,
    attraction,
    compass,
    told,
    turned,
    turned_grids,
    pace,
    reckon,
    fix_ground,
    fix_open,
    sheet_asked,
    seen_cliffs,
    ways_once,
)
BY_HAND = (bearings,)


def main():
    """Run the checks; write the generated files if asked to."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    choice = parser.add_mutually_exclusive_group()
    choice.add_argument("--check", action="store_true", help="check the files (the default)")
    choice.add_argument("--write", action="store_true", help="write the generated files, then check")
    write = parser.parse_args().write

    tally = Tally()
    for script in GENERATED:
        for document in script.build(tally):
            if write and not tally.failed:
                path_of(document["topic"]).parent.mkdir(parents=True, exist_ok=True)
                path_of(document["topic"]).write_text(text_of(document), encoding="ascii")
            check_shape(tally, document)
            check_file(tally, document)
            print(f"{document['topic']}: {len(document['cases'])} cases, {len(document['invalid'])} invalid")
    shift_ways.hold_table(tally, write and not tally.failed)
    for script in BY_HAND:
        document = script.check(tally)
        check_shape(tally, document)
        print(f"{document['topic']}: {len(document['cases'])} cases, {len(document['invalid'])} invalid, by hand")
    print(f"{tally.passed} passed, {tally.failed} failed")
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
