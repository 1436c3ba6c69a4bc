"""The words of a batch's record, as the search reads them off its lines."""

from attrs import evolve, fields

from app.journal.records import Cost, Entry, Note, PhotoTaken
from app.store.lines import to_json
from app.store.structuring import document_of
from app.store.written import FIELDS, written
from tests.store.made import batch, entry, new_shelf


def test_the_names_of_the_fields_are_those_of_the_records() -> None:
    for name, kind in zip(FIELDS, (Note, PhotoTaken, Cost), strict=True):
        assert name in {field.name for field in fields(kind)}


def test_words_are_read_off_lines_as_they_are_written() -> None:
    said = 'Half a "quoted" word, \\ and Łódź'
    note = evolve(entry("e1"), body=Note(said))
    lines = {
        "batch": b'{"name":"not a line of the record","text":"nor this"}',
        "entry/1": to_json(document_of(note)),
        "entry/2": to_json(document_of(evolve(note, body=PhotoTaken("p1")))),
        "entry/3": to_json(document_of(evolve(note, body=Cost(3.0, "USD", "Oak")))),
        "entry/4": b'{"body":{"text":"torn',
        "entry/5": b'{"body":[],"text":"of another form"}',
    }
    assert written(lines) == f"{said}\nOak"


def test_what_is_searched_is_what_is_saved_last() -> None:
    _, shelf = new_shelf()
    header = batch()
    shelf.save_batch(header)

    def note(words: str) -> Entry:
        return evolve(entry("e1"), body=Note(words))

    def searched() -> list[str]:
        return shelf.words(header).splitlines()[-1:]

    shelf.save_entry(note("Crème"))
    assert searched() == ["creme"]
    shelf.save_entry(note("Oak"))
    assert searched() == ["oak"]
    shelf.save_batch(evolve(header, name="Another name"))
    assert shelf.words(evolve(header, name="Another name")).startswith("another name\n")
    shelf.save_all((header,), (note("From a copy"),), ())
    assert searched() == ["from a copy"]
    shelf.delete_entry(header.id, "e1")
    assert searched() != ["from a copy"]
