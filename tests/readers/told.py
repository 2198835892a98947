"""Ask the program, and count what holds."""

import json
import subprocess
import sys
from pathlib import Path

OUT = Path(__file__).resolve().parents[1] / "out" / "readers"
PROGRAM = sys.argv[1] if len(sys.argv) > 1 else "target/debug/readers"
counts = {"passed": 0, "failed": 0}


def check(what, holds, detail=""):
    """Count one check; a failed one is told at once."""
    counts["passed" if holds else "failed"] += 1
    if not holds:
        print(f"FAILED {what}: {str(detail)[:600]}")


def ask(path, *options):
    """What the program takes from a file."""
    done = subprocess.run([PROGRAM, *options, str(path)], capture_output=True, text=True, timeout=600)
    if done.returncode:
        raise SystemExit(f"{PROGRAM} broke off on {path}: {done.stderr[-600:]}")
    return json.loads(done.stdout)


def write(name, content):
    """A made file of the run."""
    path = OUT / "made" / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.unlink(missing_ok=True)
    if content is not None:
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return path
