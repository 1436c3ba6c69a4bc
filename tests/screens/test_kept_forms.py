"""A line of the record half written outlives the program, until it is saved or begun anew."""

import contextlib
from collections.abc import Iterator

import pytest

from app.device import FixedClock
from app.device.device import MemoryFiles
from app.journal.records import Batch, Kit, Note, Temperature
from app.journal.wall import say_wall, wall_of
from app.screens.journal.begun_forms import Draft, RepeatDraft, WrapDraft, with_units
from app.screens.journal.kept_forms import kept_forms
from app.screens.mix.kept_draft import EVERY_S
from app.screens.mix.mix_draft import LaterDraft
from app.store.shelf import Shelf
from tests.screens.harness import Screens
from tests.screens.test_slice import begun


@contextlib.contextmanager
def opened_again(screens: Screens, later_s: float = 0.0) -> Iterator[Screens]:
    """The program started anew over what is on the disk."""
    screens.pass_time(EVERY_S)
    clock = screens.device.clock
    assert isinstance(clock, FixedClock)
    clock.utc_s += later_s
    again = Screens(screens.device)
    yield again
    again.close()


def bodies(screens: Screens, batch: Batch) -> list[object]:
    return [entry.body for entry in screens.bench.entries(batch.id)]


def test_a_note_half_written_is_there_after_the_program_was_closed(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/note")
    screens.type("Note", "The bark is dark")
    with opened_again(screens) as again:
        again.go(f"/journal/{batch.id}/add/note")
        assert again.field("Note").value == "The bark is dark"
        assert again.has("not saved yet")
        again.press("Save, just now")
        assert bodies(again, batch) == [Note("The bark is dark")]
        with opened_again(again) as third:
            third.go(f"/journal/{batch.id}/add/note")
            assert third.field("Note").value == ""
            assert not third.has("not saved yet")


def test_the_day_it_was_typed_is_named_as_days_are(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/note")
    screens.type("Note", "Dark")
    typed = wall_of(screens.bench.now())
    with opened_again(screens, 3 * 86400.0) as again:
        again.go(f"/journal/{batch.id}/add/note")
        assert again.has(f"Typed {say_wall(typed, again.bench.wall())}, not saved yet.")


def test_a_choice_in_a_form_is_kept_at_once(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/slice")
    screens.press("Salt: 4")
    again = Shelf.open(MemoryFiles.holding(screens.device.files.read_all()))
    assert kept_forms(again)[f"slice {batch.id}"].outcome.salt == 4


def test_what_was_saved_never_comes_back_as_a_draft(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/note")
    screens.type("Note", "Done")
    screens.pass_time(EVERY_S)
    screens.press("Save, just now")
    # Without the moment in which drafts are kept.
    assert Shelf.open(MemoryFiles.holding(screens.device.files.read_all())).desk.begun() == {}


@pytest.mark.parametrize("how", ["Start over", "emptied"])
def test_a_note_given_up_is_forgotten(screens: Screens, how: str) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/note")
    screens.type("Note", "Nothing of worth")
    with opened_again(screens) as again:
        again.go(f"/journal/{batch.id}/add/note")
        if how == "emptied":
            again.type("Note", "")
        else:
            again.press(how)
        assert again.field("Note").value == ""
        with opened_again(again) as third:
            assert third.bench.drafts == {}
            assert third.bench.shelf.desk.begun() == {}


def test_what_is_typed_after_beginning_anew_is_not_lost_to_undo(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/note")
    screens.type("Note", "The first")
    with opened_again(screens) as again:
        again.go(f"/journal/{batch.id}/add/note")
        again.press("Start over")
        again.type("Note", "The second")
        again.press("Undo")
        assert again.field("Note").value == "The second"
        assert again.has("changed again since")


def test_an_untouched_form_writes_nothing(screens: Screens) -> None:
    batch = begun(screens)
    screens.pass_time(EVERY_S)
    before = screens.device.files.read_all()
    for kind in ("note", "temperature", "cost", "feel"):
        screens.go(f"/journal/{batch.id}/add/{kind}")
        screens.pass_time(2 * EVERY_S)
    assert screens.device.files.read_all() == before


def test_a_reading_brought_back_is_for_the_time_it_was_typed(screens: Screens) -> None:
    batch = begun(screens)
    read_at = wall_of(screens.bench.now())
    screens.go(f"/journal/{batch.id}/add/temperature")
    screens.type("It reads", "65.5 C")
    with opened_again(screens, later_s=7200.0) as again:
        again.go(f"/journal/{batch.id}/add/temperature")
        again.press("Save")
        (entry,) = again.bench.entries(batch.id)
        assert entry.body == Temperature(65.5, "flat")
        assert wall_of(entry.at) == read_at


def test_a_reading_typed_anew_is_for_now(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/temperature")
    screens.type("It reads", "65.5 C")
    with opened_again(screens, later_s=7200.0) as again:
        again.go(f"/journal/{batch.id}/add/temperature")
        again.type("It reads", "70 C")
        again.press("Save, just now")
        (entry,) = again.bench.entries(batch.id)
        assert wall_of(entry.at) == wall_of(again.bench.now())


def test_what_is_typed_into_a_kind_of_line_is_not_found_in_another(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/note")
    screens.type("Note", "Only here")
    screens.go(f"/journal/{batch.id}/add/cost")
    assert screens.field("Paid").value == ""
    screens.go(f"/journal/{batch.id}/add/note")
    assert screens.field("Note").value == "Only here"


def test_a_line_half_put_right_is_there_again(screens: Screens) -> None:
    batch = begun(screens)
    screens.do(screens.bench.add_entry, batch, Note("Drak bark"))
    (entry,) = screens.bench.entries(batch.id)
    screens.go(f"/journal/{batch.id}/entry/{entry.id}")
    screens.type("Note", "Dark bark")
    with opened_again(screens, later_s=300.0) as again:
        assert bodies(again, batch) == [Note("Drak bark")]
        again.go(f"/journal/{batch.id}/entry/{entry.id}")
        assert again.field("Note").value == "Dark bark"
        again.press("Save")
        (put_right,) = again.bench.entries(batch.id)
        assert (put_right.body, put_right.at) == (Note("Dark bark"), entry.at)
        assert again.bench.shelf.desk.begun() == {}


@pytest.mark.parametrize(
    ("place", "field", "text"),
    [
        ("add/note", "Note", "Dark"),
        ("wrap", "Pit", "250"),
        ("probe", "It reads", "199"),
        ("slice", "Grey", "25"),
    ],
)
def test_the_forms_of_the_record_are_there_again_even_when_begun_anew(
    screens: Screens, place: str, field: str, text: str
) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/{place}")
    screens.type(field, text)
    with opened_again(screens) as again:
        again.go(f"/journal/{batch.id}/{place}")
        assert again.field(field).value == text
        assert again.has("not saved yet") or again.has("Not saved yet")
        again.press("Start over")
        assert again.field(field).value == ""
        assert again.bench.shelf.desk.begun() == {}
        again.press("Undo")
        with opened_again(again) as third:
            third.go(f"/journal/{batch.id}/{place}")
            assert third.field(field).value == text


def test_the_notes_at_the_slice_are_there_again(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/slice")
    screens.press("Salt: 4")
    screens.type("Notes", "More pepper")
    with opened_again(screens) as again:
        again.go(f"/journal/{batch.id}")
        again.press("Go on with the slice")
        assert again.field("Notes").value == "More pepper"
        again.press("Save")
        kept = again.bench.batch(batch.id)
        assert kept is not None
        assert kept.outcome is not None
        assert (kept.outcome.salt, kept.outcome.notes) == (4, "More pepper")


def test_a_batch_half_started_is_there_again_until_it_is_started(screens: Screens) -> None:
    screens.to_start()
    offered = screens.field("Name").value
    screens.type("Name", "For Sunday")
    screens.press("From the pot")
    with opened_again(screens) as again:
        again.go("/mix/start")
        assert again.field("Name").value == "For Sunday"
        assert again.has("From the pot: corned beef, chosen")
        assert again.has("not started yet")
        again.press("Start over")
        assert again.field("Name").value == offered
        again.press("Undo")
        again.press("Start")
        (batch,) = again.bench.shown.batches
        assert batch.name == "For Sunday"
        assert again.bench.shelf.desk.begun() == {}


def test_a_batch_half_repeated_is_there_again(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/repeat")
    screens.type("New weight", "5")
    screens.press("Frozen")
    with opened_again(screens) as again:
        again.go(f"/journal/{batch.id}/repeat")
        assert again.field("New weight").value == "5"
        assert again.has("Frozen, chosen")
        again.press("Start")
        assert len(again.bench.shown.batches) == 2
        assert again.bench.shelf.desk.begun() == {}


def test_the_soak_of_a_batch_is_there_again_and_goes_when_emptied(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/soak")
    screens.type("Salt wanted", "2")
    with opened_again(screens) as again:
        again.go(f"/journal/{batch.id}/soak")
        assert again.field("Salt wanted").value == "2"
        again.type("Salt wanted", "")
        assert again.bench.shelf.desk.begun() == {}


def test_the_soak_of_the_mix_is_there_again(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    screens.go("/mix/soak")
    screens.type("Salt wanted", "2")
    with opened_again(screens) as again:
        again.go("/mix/soak")
        assert again.field("Salt wanted").value == "2"


def test_a_packet_is_of_the_day_it_was_weighed_until_another_is(screens: Screens) -> None:
    batch = begun(screens)
    today = screens.bench.wall()[:10]
    screens.go(f"/journal/{batch.id}/store")
    screens.type("This packet weighs", "2")
    with opened_again(screens, later_s=2 * 86400.0) as again:
        again.go(f"/journal/{batch.id}/store")
        assert again.field("This packet weighs").value == "2"
        assert again.bench.drafts[f"packet {batch.id}"].day == today
        again.type("This packet weighs", "1.5")
        assert again.bench.drafts[f"packet {batch.id}"].day == ""


def test_a_bare_number_keeps_its_unit_when_the_kit_changes(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/wrap")
    screens.type("Core", "158")
    screens.do(screens.bench.save_kit, Kit(system="metric"))
    with opened_again(screens) as again:
        again.go(f"/journal/{batch.id}/wrap")
        assert again.field("Core").value == "158 °F"


def test_units_stand_behind_bare_numbers_alone() -> None:
    drafts = {
        "weight b": Draft("7.4", "trimmed"),
        "note b": Draft("12"),
        "correct-decision b e": Draft("250", "wrapped", "70 °C"),
        "wrap b": WrapDraft("", "158"),
        "repeat b": RepeatDraft("7", "3"),
        "repeat c": RepeatDraft(thickness='2"'),
        "soak b": LaterDraft(pot="4", wanted="2"),
        "journal": object(),
    }
    told = with_units(drafts, Kit(), Kit("metric"))
    assert told["weight b"].text == "7.4 lb"
    assert set(told) == {"weight b", "correct-decision b e", "wrap b", "repeat b", "soak b"}
    assert told["correct-decision b e"] == Draft("250 °F", "wrapped", "70 °C")
    assert told["wrap b"] == WrapDraft("", "158 °F")
    assert told["repeat b"] == RepeatDraft("7 lb", "3 in")
    assert told["soak b"] == LaterDraft(pot="4 qt", wanted="2")


def test_what_cannot_be_read_is_left_out() -> None:
    shelf = Shelf.open(MemoryFiles.holding(b""))
    shelf.desk.save_begun("note b", {"text": 3})
    shelf.desk.save_begun("later-kind b", {"text": "x"})
    shelf.desk.save_begun("cost b", {"text": "42"})
    assert kept_forms(shelf) == {"cost b": Draft("42")}
