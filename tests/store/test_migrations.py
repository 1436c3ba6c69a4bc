"""Every form of record that ever landed opens today; an unknown later one is left alone."""

import io
import json
from pathlib import Path
from typing import Any

import pytest
from attrs import field, frozen

from app.device.device import MemoryFiles
from app.journal.records import Batch, Entry, Kit, Photo
from app.store.backup_check import read_backup
from app.store.migrations import STEPS, brought_up
from app.store.shelf import Shelf
from app.store.structuring import NewerRecord, NotARecord, document_of, record_of
from tests.store.made import BODIES, kit

SAMPLES = Path(__file__).parent / "samples"


@frozen
class Keeping:
    """A record made up for this test, in its third form."""

    name: str
    grams: float
    spots: tuple[str, ...] = field(factory=tuple)
    schema: int = 3


def in_grams(document: dict[str, Any]) -> dict[str, Any]:
    return {"name": document["title"], "grams": 1000.0 * document["kilos"], "spot": "flat"}


def many_spots(document: dict[str, Any]) -> dict[str, Any]:
    return {**document, "spots": [document["spot"]]}


KEEPING_STEPS = {("Keeping", 1): in_grams, ("Keeping", 2): many_spots}
TODAY = Keeping("Flat", 3000.0, ("flat",))


@pytest.mark.parametrize(
    "old",
    [
        {"title": "Flat", "kilos": 3.0},
        {"title": "Flat", "kilos": 3.0, "schema": 1},
        {"name": "Flat", "grams": 3000.0, "spot": "flat", "schema": 2},
        {"name": "Flat", "grams": 3000.0, "spots": ["flat"], "schema": 3},
    ],
)
def test_an_older_form_is_brought_up_step_by_step(old: dict[str, Any]) -> None:
    before = json.dumps(old)
    assert record_of(old, Keeping, KEEPING_STEPS) == TODAY
    assert json.dumps(old) == before
    assert record_of(document_of(TODAY), Keeping, KEEPING_STEPS) == TODAY


def test_a_later_form_is_refused() -> None:
    with pytest.raises(NewerRecord, match="later version"):
        record_of({"schema": 4, "name": "Flat"}, Keeping, KEEPING_STEPS)
    with pytest.raises(ValueError, match="later than 3"):
        brought_up({"schema": 4}, "Keeping", 3, KEEPING_STEPS)


@pytest.mark.parametrize("form", [0, -1, "1", 1.0, True, None])
def test_a_form_that_is_no_number_is_refused(form: Any) -> None:
    with pytest.raises(NotARecord, match="numbered from 1"):
        record_of({"title": "Flat", "kilos": 3.0, "schema": form}, Keeping, KEEPING_STEPS)


def test_a_form_that_nothing_leads_on_from_is_refused() -> None:
    with pytest.raises(NotARecord, match="nothing leads on from form 1"):
        record_of({"title": "Flat", "kilos": 3.0}, Keeping, {})


def test_a_step_that_finds_less_than_it_needs_refuses_the_record() -> None:
    with pytest.raises(NotARecord, match="kilos"):
        record_of({"title": "Flat", "schema": 1}, Keeping, KEEPING_STEPS)


@pytest.mark.parametrize("kind", [Batch, Entry, Photo, Kit])
def test_a_step_stands_for_every_form_before_todays(kind: Any) -> None:
    today = kind.__attrs_attrs__.schema.default
    missing = [form for form in range(1, today) if (kind.__name__, form) not in STEPS]
    assert missing == []


@pytest.mark.parametrize("log", sorted(SAMPLES.glob("*.log")), ids=lambda path: path.name)
def test_a_kept_journal_of_every_form_opens_whole(log: Path) -> None:
    shelf = Shelf.open(MemoryFiles.holding(log.read_bytes()))
    assert shelf.report == ()
    assert_it_is_the_sample(shelf)


@pytest.mark.parametrize("packed", sorted(SAMPLES.glob("*.zip")), ids=lambda path: path.name)
def test_a_kept_backup_of_every_form_reads_whole(packed: Path) -> None:
    backup = read_backup(io.BytesIO(packed.read_bytes()))
    shelf = Shelf.open(MemoryFiles.holding(b""))
    whole = backup.batches
    shelf.save_all(
        tuple(one.batch for one in whole),
        tuple(entry for one in whole for entry in one.entries),
        tuple(photo for one in whole for photo in one.photos),
        backup.kit,
    )
    assert shelf.report == ()
    assert_it_is_the_sample(shelf)
    assert backup.photo_ids == {"p0", "p1"}


def test_there_are_samples_of_the_first_form() -> None:
    assert {path.name for path in SAMPLES.iterdir()} >= {"form-1.log", "form-1.zip"}


def assert_it_is_the_sample(shelf: Shelf) -> None:
    """The kept samples all tell the same small journal, whatever their form."""
    assert [b.name for b in shelf.batches()] == ["Flat b1", "Renamed"]
    assert [e.body for e in shelf.entries("b0")] == list(BODIES)
    assert [e.id for e in shelf.entries("b1")] == ["e0", "e1", "e3", "e4", "e5", "e6"]
    first = shelf.batch("b0")
    assert first is not None
    assert first.mix.meat_g == 3000.0
    assert first.mix.days == 6.5
    assert first.plan[0].due == "2027-03-06T18:00"
    assert first.outcome is not None
    assert (first.outcome.bend, first.outcome.salt) == ("bends", 3)
    assert shelf.kit().system == "metric"
    assert shelf.kit().salts == kit().salts
    assert [p.id for p in shelf.photos("b0")] == ["p0"]
