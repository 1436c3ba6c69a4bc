"""What must be stored: a model kept beside the driven program, and a backup read to compare.

Nothing here uses the program's own code: a backup is read as the zip of JSON and JPEG that
DEVELOPERS.md describes, so that a fault of the program's reader cannot hide one of its writer.
"""

import hashlib
import io
import json
import zipfile
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from attrs import define, field
from PIL import Image

CLOCK_S = 120.0
"""A line may be so much older or newer than the driver thought: it waits while keys are typed."""
_OUTCOME = ("bend", "grey_percent", "salt", "smoke", "pepper", "tenderness", "moisture", "rating")
_KIT = ("system", "theme", "rules")


class NotABackup(ValueError):
    """A file that is not what DEVELOPERS.md says a backup is."""


def says_of(body: Mapping[str, Any]) -> tuple[Any, ...]:
    """What a line of a record says, so that two can be told apart: numbers to a thousandth."""
    kept = {name: value for name, value in body.items() if name != "photo_id"}
    return tuple(
        (name, round(value, 3) if isinstance(value, float) else value)
        for name, value in sorted(kept.items())
    )


@define
class Line:
    """A line of a record: what it says and when it was [s since 1970 UTC]; its id once known."""

    says: tuple[Any, ...]
    at_s: float
    id: str = ""


@define
class BatchKept:
    """What must be stored of a batch; `plan` is steps done and left out, None if not foretold."""

    meat_g: float
    method: str
    finished: bool = False
    plan: tuple[int, int] | None = None
    outcome: dict[str, Any] = field(factory=dict)
    lines: list[Line] = field(factory=list)
    id: str = ""


@define
class Kept:
    """All that must be stored: batches by their names, which the driver never gives twice."""

    batches: dict[str, BatchKept] = field(factory=dict)
    kit: dict[str, Any] = field(factory=dict)
    salts: list[str] = field(factory=list)

    def lines(self) -> int:
        """Lines in all records."""
        return sum(len(batch.lines) for batch in self.batches.values())


def fresh() -> Kept:
    """What is stored before anything was saved."""
    return Kept(kit={"system": "us", "theme": "auto", "rules": "us"})


def differences(wanted: Kept, stored: Kept) -> list[str]:
    """What is stored otherwise than it must be, one sentence each; empty when all is right."""
    told = [f"batch {name!r} is not stored" for name in wanted.batches.keys() - stored.batches]
    told += [
        f"batch {name!r} is stored and should not be"
        for name in stored.batches.keys() - wanted.batches
    ]
    for name in wanted.batches.keys() & stored.batches:
        told += [
            f"{name!r}: {one}" for one in _in_batch(wanted.batches[name], stored.batches[name])
        ]
    if wanted.kit != stored.kit:
        told.append(f"the kit is {stored.kit} and should be {wanted.kit}")
    if sorted(wanted.salts) != sorted(stored.salts):
        told.append(f"own salts are {stored.salts} and should be {wanted.salts}")
    return told


def missing(wanted: Kept, stored: Kept) -> list[str]:
    """What must be stored and is not; more may be there."""
    told = []
    for name, batch in wanted.batches.items():
        if name not in stored.batches:
            told.append(f"batch {name!r} is not stored")
            continue
        _, lost, _ = _matched(batch.lines, stored.batches[name].lines)
        told += [f"{name!r}: {_told(line)} is not stored" for line in lost]
    return told


def _in_batch(wanted: BatchKept, stored: BatchKept) -> list[str]:
    told = []
    if abs(wanted.meat_g - stored.meat_g) > 0.5 or wanted.method != stored.method:
        told.append(
            f"{stored.meat_g:.1f} g {stored.method}, not {wanted.meat_g:.1f} g {wanted.method}"
        )
    if wanted.finished != stored.finished:
        told.append(f"finished is {stored.finished}")
    if wanted.plan is not None and wanted.plan != stored.plan:
        told.append(f"{stored.plan} steps are done and left out, not {wanted.plan}")
    if wanted.outcome != stored.outcome:
        told.append(f"the slice says {stored.outcome}, not {wanted.outcome}")
    pairs, lost, more = _matched(wanted.lines, stored.lines)
    told += [f"{_told(line)} is not stored" for line in lost]
    told += [f"{_told(line)} is stored and should not be" for line in more]
    told += [
        f"{_told(line)} is {there.at_s - line.at_s:+.0f} s off in time"
        for line, there in pairs
        if abs(there.at_s - line.at_s) > CLOCK_S
    ]
    return told


def _matched(
    wanted: list[Line], stored: list[Line]
) -> tuple[list[tuple[Line, Line]], list[Line], list[Line]]:
    """Lines that say the same, in pairs by time; those lacking; those too many."""
    left = sorted(stored, key=lambda line: line.at_s)
    pairs, lost = [], []
    for line in sorted(wanted, key=lambda line: line.at_s):
        there = next((one for one in left if one.says == line.says), None)
        if there is None:
            lost.append(line)
        else:
            left.remove(there)
            pairs.append((line, there))
    return pairs, lost, left


def _told(line: Line) -> str:
    return "a line " + ", ".join(f"{name} {value}" for name, value in line.says)


def read_backup(file: Path) -> Kept:
    """What a backup holds, after each file in it was checked.

    Raises
    ------
    NotABackup
        When a file is not as the manifest says, a picture cannot be read, or a line of a record
        names a photo that is not there.
    """
    with zipfile.ZipFile(file) as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    manifest = json.loads(parts.pop("manifest.json"))
    if manifest["files"].keys() != parts.keys():
        raise NotABackup(f"the manifest names other files: {manifest['files'].keys() ^ parts}")
    for name, content in parts.items():
        told = manifest["files"][name]
        if (len(content), hashlib.sha256(content).hexdigest()) != (told["bytes"], told["sha256"]):
            raise NotABackup(f"{name} is not as the manifest says")
        if name.endswith(".jpg"):
            with Image.open(io.BytesIO(content)) as picture:
                picture.load()
    kit = json.loads(parts["kit.json"])
    kept = Kept({}, {name: kit[name] for name in _KIT}, [one["name"] for one in kit["salts"]])
    for name, content in parts.items():
        if name.startswith("batches/"):
            whole = json.loads(content)
            kept.batches[whole["batch"]["name"]] = _batch(whole, parts)
    return kept


def _batch(whole: dict[str, Any], parts: dict[str, bytes]) -> BatchKept:
    batch, outcome = whole["batch"], whole["batch"]["outcome"] or {}
    known = {photo["id"] for photo in whole["photos"]}
    for entry in whole["entries"]:
        photo = entry["body"].get("photo_id")
        if photo is not None and (photo not in known or f"photos/{photo}.jpg" not in parts):
            raise NotABackup(f"{batch['name']!r} names photo {photo}, which is not there")
    return BatchKept(
        batch["mix"]["meat_g"],
        batch["mix"]["method"],
        batch["finished"],
        (
            sum(step["done"] is not None for step in batch["plan"]),
            sum(step["skipped"] for step in batch["plan"]),
        ),
        {name: outcome[name] for name in _OUTCOME if outcome.get(name) is not None},
        [Line(says_of(one["body"]), one["at"]["utc_s"], one["id"]) for one in whole["entries"]],
        batch["id"],
    )
