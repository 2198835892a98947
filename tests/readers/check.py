"""Hold the readers of lines and landmarks against other readers. Argument 1: the program. Ends with PASSED and a count, or fails."""

import bad
import made
import real
from told import counts


def main():
    """All parts."""
    for part in (made, real, bad):
        before = counts["passed"]
        part.hold_all()
        print(f"{part.__name__}: {counts['passed'] - before} passed")
    print(f"{'FAILED' if counts['failed'] else 'PASSED'} {counts['passed']} passed, {counts['failed']} failed")
    raise SystemExit(1 if counts["failed"] else 0)


if __name__ == "__main__":
    main()
