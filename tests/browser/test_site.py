"""The built site as files: nothing of the machine that built it, the same each time it is built."""

import gzip
import hashlib
import zipfile
from collections.abc import Iterator
from pathlib import Path

from build_scripts.environment import ROOT
from build_scripts.site import packages, python


def contents(site: Path) -> Iterator[tuple[str, bytes]]:
    """Every file of the site, packed ones unpacked."""
    for file in sorted(p for p in site.rglob("*") if p.is_file()):
        name, content = file.relative_to(site).as_posix(), file.read_bytes()
        yield name, gzip.decompress(content) if name.endswith(".gz") else content
        if name.endswith(".zip"):
            with zipfile.ZipFile(file) as archive:
                for inner in archive.namelist():
                    yield f"{name}/{inner}", archive.read(inner)


def test_nothing_of_the_building_machine_is_in_the_site(site: Path) -> None:
    traces = {str(ROOT).encode(), str(packages.installed()).encode(), str(site).encode()}
    found = [name for name, content in contents(site) if any(t in content for t in traces)]
    assert found == []


def test_the_same_sources_give_the_same_snapshot_and_archive(tmp_path: Path) -> None:
    built = []
    for name in ("one", "another"):
        site = tmp_path / name / "site"
        site.mkdir(parents=True)
        python.lay(site, packages.installed())
        files = sorted((site / "python").iterdir())
        built.append({file.name: hashlib.sha256(file.read_bytes()).hexdigest() for file in files})
    assert built[0] == built[1]


def test_a_host_is_told_what_it_may_keep_for_ever(site: Path) -> None:
    told = (site / "_headers").read_text("utf-8")
    for_ever = told[told.index("/python/*") :]
    assert "immutable" in for_ever
    # Every name there carries the hash of its content.
    for file in (site / "python").iterdir():
        digest = hashlib.sha256(file.read_bytes()).hexdigest()
        assert digest[:16] in file.name
