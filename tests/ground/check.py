"""Hold the room `ground` to NumPy and GDAL on open heights. Argument 1: our binary. Exit code 1 if anything is off."""

import sys

sys.dont_write_bytecode = True

import contours
import horizons
import rows
import sights
import slopes
from common import Tally, real_heights


def main():
    """Run all checks."""
    binary = sys.argv[1]
    tally = Tally()
    z = real_heights()
    tally.check("the open heights", z.shape == (344, 403) and z.max() == z[297, 219] == 1076.0, f"{z.shape}, highest {z.max()}")
    rows.check(tally, binary)
    slopes.against_gdal(tally, binary, z)
    slopes.spreads(tally, binary)
    slopes.profiles(tally, binary, z)
    sights.margins(tally, binary, z)
    sights.dead_ground(tally, binary, z)
    contours.against_gdal(tally, binary, z)
    contours.shape(tally, binary, z)
    contours.hollows(tally, binary, z)
    sights.chances(tally, binary, z)
    sights.plains(tally, binary)
    sights.views(tally, binary, z)
    horizons.angles(tally, binary, z)
    print(f"{tally.passed} PASSED, {tally.failed} FAILED")
    return 1 if tally.failed else 0


if __name__ == "__main__":
    sys.exit(main())
