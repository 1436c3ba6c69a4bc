"""The model of the soak: a true copy agrees with it, and each loss or invention is told."""

import asyncio
import io
import json
import zipfile
from collections.abc import Callable
from copy import deepcopy
from pathlib import Path

import pytest
from PIL import Image

from app.cure.request import MixRequest
from app.device.device import MemoryFiles, MemoryPhotos
from app.journal.records import (
    Batch,
    Entry,
    EntryBody,
    Kit,
    Moment,
    Note,
    OwnSalt,
    Photo,
    PhotoTaken,
    SliceOutcome,
    Step,
    Temperature,
)
from app.store.backup import write_backup
from app.store.shelf import Shelf
from build_scripts.soak_model import (
    CLOCK_S,
    BatchKept,
    Kept,
    Line,
    NotABackup,
    differences,
    missing,
    read_backup,
    says_of,
)

AT = Moment(1_800_000_000.0, 60)
NAME = "Batch N1 bark"
LINES: tuple[EntryBody, ...] = (
    Note("N2 café"),
    Temperature((203.4 - 32.0) / 1.8, "point"),
    PhotoTaken("p1"),
)


def jpeg() -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (8, 8), (120, 40, 30)).save(out, "JPEG")
    return out.getvalue()


@pytest.fixture(scope="module")
def archive() -> bytes:
    """A copy as the program itself writes it."""
    shelf, photos = Shelf.open(MemoryFiles.holding(b"")), MemoryPhotos()
    batch = Batch(
        "b1", NAME, "brisket", AT, AT, MixRequest(3000.0, method="dry"),
        plan=(Step("s1", "buy", "2027-01-15T10:00", done=AT), Step("s2", "mix", "2027-01-15T11:00",
              skipped=True), Step("s3", "cure", "2027-01-15T12:00")),
        outcome=SliceOutcome(AT, salt=4, grey_percent=25.0),
    )  # fmt: skip
    shelf.save_batch(batch)
    for number, body in enumerate(LINES):
        shelf.save_entry(Entry(f"e{number}", "b1", AT, "smoke", body, AT))
    shelf.save_photo(Photo("p1", "b1", AT, "smoke", 8, 8, 100))
    photos.kept["p1"] = (jpeg(), jpeg())
    shelf.save_kit(Kit(system="metric", salts=(OwnSalt("o1", "Salt N3", 6.25),)))
    out = io.BytesIO()
    asyncio.run(write_backup(out, shelf, photos, AT))
    return out.getvalue()


@pytest.fixture
def file(archive: bytes, tmp_path: Path) -> Path:
    file = tmp_path / "copy.zip"
    file.write_bytes(archive)
    return file


def wanted() -> Kept:
    bodies: list[dict[str, object]] = [
        {"kind": "Note", "text": "N2 café"},
        {"kind": "Temperature", "celsius": (203.4 - 32.0) / 1.8, "spot": "point"},
        {"kind": "PhotoTaken", "caption": ""},
    ]
    lines = [Line(says_of(body), AT.utc_s - 20.0) for body in bodies]
    batch = BatchKept(3000.0, "dry", False, (1, 1), {"salt": 4, "grey_percent": 25.0}, lines)
    return Kept({NAME: batch}, {"system": "metric", "theme": "auto", "rules": "us"}, ["Salt N3"])


def test_a_copy_of_the_programs_own_agrees_with_what_was_typed(file: Path) -> None:
    stored = read_backup(file)
    assert differences(wanted(), stored) == []
    assert missing(wanted(), stored) == []
    assert stored.batches[NAME].id == "b1"
    assert {line.id for line in stored.batches[NAME].lines} == {"e0", "e1", "e2"}


CHANGES: dict[str, Callable[[Kept], object]] = {
    "a batch lost": lambda kept: kept.batches.pop(NAME),
    "a line lost": lambda kept: kept.batches[NAME].lines.pop(),
    "a line made up": lambda kept: kept.batches[NAME].lines.append(Line((("kind", "Note"),), 0.0)),
    "a line doubled": lambda kept: kept.batches[NAME].lines.append(kept.batches[NAME].lines[0]),
    "a line at another time": lambda kept: setattr(
        kept.batches[NAME].lines[0], "at_s", AT.utc_s + 2 * CLOCK_S
    ),
    "a line that says otherwise": lambda kept: setattr(
        kept.batches[NAME].lines[1], "says", says_of({"kind": "Temperature", "celsius": 95.3})
    ),
    "another weight": lambda kept: setattr(kept.batches[NAME], "meat_g", 3001.0),
    "another method": lambda kept: setattr(kept.batches[NAME], "method", "cover"),
    "finished": lambda kept: setattr(kept.batches[NAME], "finished", True),
    "a step not done": lambda kept: setattr(kept.batches[NAME], "plan", (0, 1)),
    "a score lost": lambda kept: kept.batches[NAME].outcome.pop("salt"),
    "another unit": lambda kept: kept.kit.update(system="us"),
    "a salt lost": lambda kept: kept.salts.clear(),
}


@pytest.mark.parametrize("change", CHANGES)
def test_whatever_is_stored_otherwise_is_told(file: Path, change: str) -> None:
    stored = read_backup(file)
    CHANGES[change](stored)
    assert differences(wanted(), stored) != []


def test_what_is_more_than_must_be_there_is_not_missing(file: Path) -> None:
    stored = read_backup(file)
    stored.batches[NAME].lines.append(Line((("kind", "Note"),), 0.0))
    stored.batches["Another"] = deepcopy(stored.batches[NAME])
    assert missing(wanted(), stored) == []
    del stored.batches[NAME].lines[0]
    assert len(missing(wanted(), stored)) == 1


def test_a_plan_not_foretold_may_be_any(file: Path) -> None:
    expected = wanted()
    expected.batches[NAME].plan = None
    assert differences(expected, read_backup(file)) == []


def rewritten(archive: bytes, change: Callable[[dict[str, bytes]], object], file: Path) -> Path:
    """The copy with its files changed, and their hashes left as they were."""
    with zipfile.ZipFile(io.BytesIO(archive)) as packed:
        parts = {name: packed.read(name) for name in packed.namelist()}
    change(parts)
    with zipfile.ZipFile(file, "w") as packed:
        for name, content in parts.items():
            packed.writestr(name, content)
    return file


def without_the_photo(parts: dict[str, bytes]) -> None:
    for name in ("photos/p1.jpg", "photos/p1-thumb.jpg"):
        del parts[name]
    manifest = json.loads(parts["manifest.json"])
    manifest["files"] = {k: v for k, v in manifest["files"].items() if k in parts}
    parts["manifest.json"] = json.dumps(manifest).encode()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (lambda parts: parts.update({"kit.json": b"{}"}), "not as the manifest says"),
        (lambda parts: parts.pop("batches/b1.json"), "names other files"),
        (without_the_photo, "names photo p1"),
    ],
)
def test_a_copy_that_is_not_whole_is_refused(
    archive: bytes, file: Path, change: Callable[[dict[str, bytes]], object], says: str
) -> None:
    with pytest.raises(NotABackup, match=says):
        read_backup(rewritten(archive, change, file))
