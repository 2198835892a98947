"""Fetch the three open data files of the second run into tests/out/open/.

pip downloads the source package from whatever index it is set up for and holds it against the
pinned sum. The package's own build script is never run: pip asks a build back-end for the
name and version, and a stand-in back-end of five lines answers.

Data credit: IGN, BD TOPO / RGE ALTI, Licence Ouverte 2.0 (inferred, see README.md).
"""

import hashlib
import os
import subprocess
import sys
import tarfile
import tempfile
from pathlib import Path

OUT = Path(__file__).resolve().parents[1] / "out" / "open"
NAME, VERSION = "tracklib", "0.8.4.2"
SDIST_SHA256 = "1220f4ea0018c764afb39681757750ae561c2252a61ef694507373739baf82b5"
FILES = {
    "data/asc/test.asc": "6b92369e5d7856889904beed376be61aadf1f35c430f786dce20a20d8bb60b1e",
    "data/network/network_ecrin.wkt": "6b013dd72cf4cbf6894cc982834918f5c1e33c1dcaf557f8b5b08adcf3aed9fb",
    "data/asc/8961191.csv": "665bae18a0fe85ca80309b27fc108779daf2163b571c79a6b482f0b090078e3d",
}
BACK_END = f"""
import pathlib, sys
def get_requires_for_build_wheel(config_settings=None):
    return []
def prepare_metadata_for_build_wheel(directory, config_settings=None):
    name = "{NAME}-{VERSION}.dist-info"
    folder = pathlib.Path(directory, name)
    folder.mkdir()
    (folder / "METADATA").write_text("Metadata-Version: 2.1\\nName: {NAME}\\nVersion: {VERSION}\\n")
    return name
__legacy__ = sys.modules[__name__]
"""


def sha256(path):
    """The SHA-256 of a file in hexadecimal."""
    with open(path, "rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def demand(path, expected):
    """Stop unless the file has the pinned sum."""
    found = sha256(path)
    if found != expected:
        raise SystemExit(f"{path.name}: sha256 {found}, pinned {expected}")


def target(member):
    """Where a file of the package is put."""
    return OUT / Path(member).name


def complete():
    """Whether all three files are there with the pinned sums."""
    return all(target(m).is_file() and sha256(target(m)) == s for m, s in FILES.items())


def write_stand_in(folder):
    """Write the stand-in build back-end that only answers with name and version."""
    package = folder / "setuptools"
    package.mkdir()
    (package / "__init__.py").write_text("")
    (package / "build_meta.py").write_text(BACK_END)
    return folder


def download(folder):
    """Let pip fetch the source package, hash checked, without running anything of it."""
    wanted = folder / "wanted.txt"
    wanted.write_text(f"{NAME}=={VERSION} --hash=sha256:{SDIST_SHA256}\n")
    (folder / "stand-in").mkdir()
    stand_in = write_stand_in(folder / "stand-in")
    environment = dict(os.environ, PYTHONPATH=str(stand_in), SETUPTOOLS_USE_DISTUTILS="stdlib")
    command = [sys.executable, "-m", "pip", "download", "--disable-pip-version-check", "--quiet",
               "--no-deps", "--no-binary", NAME, "--use-pep517", "--no-build-isolation",
               "--require-hashes", "--dest", str(folder), "--requirement", str(wanted)]
    if subprocess.run(command, env=environment).returncode:
        raise SystemExit(f"pip cannot download {NAME} {VERSION}: is there a network, and does its package index hold it?")
    archive = folder / f"{NAME}-{VERSION}.tar.gz"
    demand(archive, SDIST_SHA256)
    return archive


def extract(archive):
    """Take the three files out of the package, each held against its sum."""
    with tarfile.open(archive) as package:
        for member, expected in FILES.items():
            part = target(member).with_suffix(".part")
            with package.extractfile(f"{NAME}-{VERSION}/{member}") as stream:
                part.write_bytes(stream.read())
            demand(part, expected)
            part.replace(target(member))


def main():
    """Fetch what is not there yet."""
    OUT.mkdir(parents=True, exist_ok=True)
    if complete():
        print("the three files are there already, sums right")
        return
    with tempfile.TemporaryDirectory() as folder:
        extract(download(Path(folder)))
    print("fetched and checked:", ", ".join(target(m).name for m in FILES))
    print("credit: IGN, BD TOPO / RGE ALTI, Licence Ouverte 2.0 (inferred)")


if __name__ == "__main__":
    main()
