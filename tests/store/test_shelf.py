"""What is saved is there after opening again; what cannot be read is kept and told."""

import json
import struct
from typing import Any

import pytest
from attrs import evolve

from app.device.device import MemoryFiles
from app.device.parts import StorageFull
from app.device.slots import MemorySlot
from app.journal.records import Batch, Entry, Note
from app.store.records_log import Change, later_check, read_log, record
from app.store.shelf import Shelf
from app.store.structuring import NewerRecord, NotARecord, document_of, record_of
from tests.store.made import BODIES, all_of, batch, entry, fill, kit, moment, new_shelf, photo


def test_all_that_was_saved_is_there_after_opening_again() -> None:
    files, shelf = new_shelf()
    fill(shelf)
    again = Shelf.open(files)
    assert all_of(again) == all_of(shelf)
    assert again.report == ()
    assert [b.name for b in again.batches()] == ["Flat b1", "Renamed"]
    assert again.kit() == kit()
    assert again.desk.draft() == {"weight": "3,2 kg"}
    assert [e.body for e in again.entries("b0")] == list(BODIES)
    assert [e.id for e in again.entries("b1")] == ["e0", "e1", "e3", "e4", "e5", "e6"]


def test_entries_come_by_time_however_they_were_written() -> None:
    _, shelf = new_shelf()
    for number in (5, 1, 3):
        shelf.save_entry(entry(f"e{number}", number=number))
    assert [e.id for e in shelf.entries("b0")] == ["e1", "e3", "e5"]


def test_deleted_batch_is_out_of_sight_and_comes_back_whole() -> None:
    files, shelf = new_shelf()
    fill(shelf)
    before = all_of(shelf)
    shelf.delete_batch("b0")
    assert shelf.batch("b0") is None
    assert [b.id for b in Shelf.open(files).batches()] == ["b1"]
    shelf.restore_batch("b0")
    assert all_of(shelf) == before == all_of(Shelf.open(files))


def test_forms_begun_are_there_again_and_go_with_their_batch() -> None:
    files, shelf = new_shelf()
    fill(shelf)
    for name in ("note b0", "correct-note b0 e1", "note b1"):
        shelf.desk.save_begun(name, {"text": name})
    assert Shelf.open(files).desk.begun()["note b1"] == {"text": "note b1"}
    shelf.delete_batch("b0")
    assert len(shelf.desk.begun()) == 3
    shelf.clear_out()
    assert list(Shelf.open(files).desk.begun()) == ["note b1"]
    shelf.desk.save_begun("note b1", {})
    assert Shelf.open(files).desk.begun() == {}


def test_clearing_out_forgets_deleted_batches_and_names_their_photos() -> None:
    files, shelf = new_shelf()
    fill(shelf)
    shelf.delete_batch("b0")
    assert shelf.clear_out() == ("p0",)
    shelf.restore_batch("b0")
    assert [b.id for b in Shelf.open(files).batches()] == ["b1"]
    assert shelf.entries("b0") == ()
    assert shelf.clear_out() == ()


def test_deleting_what_is_not_there_changes_nothing() -> None:
    files, shelf = new_shelf()
    shelf.delete_batch("none")
    shelf.delete_entry("none", "none")
    shelf.delete_photo("none")
    shelf.restore_batch("none")
    assert files.length == 0


def test_photo_is_found_by_its_name_alone() -> None:
    _, shelf = new_shelf()
    fill(shelf)
    assert shelf.photo("p1") == photo("p1", "b1")
    shelf.save_photo(photo("p9", "b1"))
    assert shelf.photo("p9") == photo("p9", "b1")
    shelf.delete_photo("p9")
    assert shelf.photo("p9") is None
    assert [p.id for p in shelf.photos("b1")] == ["p1"]


def test_a_save_writes_only_what_changed_however_many_batches_there_are() -> None:
    written = []
    for batches in (2, 60):
        files, shelf = new_shelf()
        for number in range(batches):
            shelf.save_batch(batch(f"b{number:02}"))
        before = files.length
        shelf.save_entry(entry("e0", "b01"))
        written.append(files.length - before)
    assert written[0] == written[1] < 400


def test_saving_the_same_again_writes_nothing() -> None:
    files, shelf = new_shelf()
    fill(shelf)
    before = files.length
    shelf.save_batch(shelf.batches()[0])
    assert files.length == before


def test_full_device_keeps_what_was_saved_and_says_so() -> None:
    slot = MemorySlot()
    files = MemoryFiles(slot)
    files.open_slots(*files.slots)
    shelf = Shelf.open(files)
    fill(shelf)
    before = all_of(shelf)
    slot.room = slot.size() + 40
    with pytest.raises(StorageFull, match="no room"):
        shelf.save_entry(entry("e9"))
    assert all_of(shelf) == before
    slot.room = None
    shelf.save_entry(entry("e9"))
    again = Shelf.open(files)
    assert again.report == ()
    assert all_of(again) == all_of(shelf)


def newer(kind: str) -> bytes:
    document = document_of(batch()) | {"schema": 2, "unheard_of": [1]}
    return json.dumps(document).encode()


def test_record_of_a_newer_version_is_told_kept_and_not_written_over() -> None:
    line = newer("batch")
    files = MemoryFiles.holding(record(1, [Change("batch/b0", "batch", line)]))
    shelf = Shelf.open(files)
    assert shelf.batches() == ()
    assert "later version" in shelf.report[0]
    with pytest.raises(NewerRecord, match="later version"):
        shelf.save_batch(batch())
    assert line in files.read_all()


def test_what_a_later_version_added_outlives_a_save_by_this_one() -> None:
    document = document_of(batch()) | {"smoker": "kettle"}
    document["mix"] |= {"later": [1, 2]}
    line = json.dumps(document).encode()
    files = MemoryFiles.holding(record(1, [Change("batch/b0", "batch", line)]))
    shelf = Shelf.open(files)
    shelf.save_batch(evolve(shelf.batches()[0], name="Renamed"))
    shelf.save_batch(evolve(shelf.batches()[0], name="Renamed again"))
    (*_, last) = read_log(files.read_all()).changes
    kept = json.loads(last.document)
    assert (kept["name"], kept["smoker"]) == ("Renamed again", "kettle")
    assert kept["mix"]["later"] == [1, 2]
    assert Shelf.open(files).batches()[0].name == "Renamed again"


def test_an_entry_made_into_another_kind_carries_nothing_of_the_first() -> None:
    document = document_of(entry("e0", number=0))
    document["body"] |= {"later": 1}
    files = MemoryFiles.holding(
        record(1, [Change("batch/b0", "entry/e0", json.dumps(document).encode())])
    )
    shelf = Shelf.open(files)
    shelf.save_entry(evolve(entry("e0", number=0), body=Note("rather this")))
    (*_, last) = read_log(files.read_all()).changes
    assert "later" not in json.loads(last.document)["body"]


def test_record_that_makes_no_sense_is_told_and_not_shown() -> None:
    bad = json.dumps(document_of(batch()) | {"name": 7}).encode()
    files = MemoryFiles.holding(
        record(1, [Change("batch/b0", "batch", bad), Change("desk", "kit", b"[]")])
    )
    shelf = Shelf.open(files)
    assert shelf.batches() == ()
    assert shelf.kit().system == "us"
    assert len(shelf.report) == 2


@pytest.mark.parametrize(
    ("part", "value"),
    [
        ("name", None),
        ("fat_cap_on", 1),
        ("thickness_mm", "50"),
        ("thickness_mm", True),
        ("plan", 3),
        ("mix", {}),
        ("created", {"utc_s": float("inf")}),
        ("advice_taken", [2]),
        ("outcome", {"at": {"utc_s": 1.0}, "bend": "floats"}),
    ],
)
def test_wrong_kinds_of_values_are_refused(part: str, value: Any) -> None:
    with pytest.raises(NotARecord, match="not a batch"):
        record_of(document_of(batch()) | {part: value}, Batch)


def test_entry_of_an_unknown_kind_is_refused() -> None:
    document = document_of(entry("e0"))
    document["body"]["kind"] = "Surprise"
    with pytest.raises(NotARecord):
        record_of(document, Entry)


def test_what_could_not_be_read_again_is_not_written() -> None:
    files, shelf = new_shelf()
    with pytest.raises(NotARecord):
        shelf.save_batch(evolve(batch(), thickness_mm=float("nan")))
    with pytest.raises(ValueError, match="line breaks"):
        shelf.save_entry(evolve(entry("e0"), id="a\nb"))
    assert files.length == 0


def test_half_a_character_is_refused_with_a_sentence() -> None:
    files, shelf = new_shelf()
    with pytest.raises(ValueError, match="Whole characters"):
        shelf.save_entry(evolve(entry("e0"), body=Note("\ud83d")))
    assert files.length == 0


def test_no_room_for_rewriting_the_log_does_not_make_a_save_fail(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("app.store.log_storage._SPARE_BYTES", 10_000)
    first, second = MemorySlot(), MemorySlot(room=50)
    files = MemoryFiles(first, second)
    files.open_slots(first, second)
    shelf = Shelf.open(files)
    for number in range(40):
        shelf.save_entry(evolve(entry("long"), body=Note("x" * 4_000), changed=moment(number)))
    again = Shelf.open(files)
    assert all_of(again) == all_of(shelf)
    assert again.entries("b0")[0].changed == moment(39)


def test_log_is_rewritten_when_it_is_mostly_old_and_says_the_same() -> None:
    files, shelf = new_shelf()
    fill(shelf)
    for number in range(40):
        shelf.save_entry(evolve(entry("long"), body=Note("x" * 40_000), changed=moment(number)))
    before, length = all_of(shelf), files.length
    again = Shelf.open(files)
    assert files.length < length / 20
    assert all_of(again) == before == all_of(Shelf.open(files))
    again.save_entry(entry("after"))
    assert all_of(Shelf.open(files)) == all_of(again)


def of_form_2(said: bytes) -> bytes:
    """A record as a later version would begin its log with."""
    mark = b"\xffBr2"
    head = struct.pack("<4sII", mark, len(said), 1)
    return head + struct.pack("<I", later_check(mark, len(said), 1, said)) + said


def test_a_damaged_mark_is_not_taken_for_a_later_version() -> None:
    log = record(1, [Change("desk", "draft", b'{"a":1}')])
    shelf = Shelf.open(MemoryFiles.holding(log.replace(b"\xffBr1", b"\xffBr3")))
    assert shelf.desk.draft() == {}
    assert len(shelf.report) == 1


def test_journal_of_a_later_version_is_refused_untouched() -> None:
    later = of_form_2(b"whatever it may say")
    files = MemoryFiles.holding(later)
    with pytest.raises(NewerRecord, match="later version"):
        Shelf.open(files)
    assert files.read_all() == later
