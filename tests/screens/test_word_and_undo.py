"""The word about what was done: it names its act, stays with its screen, takes back only that."""

from attrs import evolve

from app.cure.request import MixRequest
from app.journal.plan import new_batch
from app.journal.records import Batch, Note, Temperature, Weight
from app.screens.bench import new_id
from app.screens.record_acts import CHANGED_SINCE
from tests.screens.harness import Screens


def begun(screens: Screens) -> Batch:
    made = new_batch(
        MixRequest(3200.0), "Brisket flat", "Sunday flat", screens.bench.now(), ids=new_id
    )
    screens.do(screens.bench.save_batch, made)
    return made


def noted(screens: Screens, batch: Batch, text: str) -> None:
    screens.go(f"/journal/{batch.id}/add/note")
    screens.type("Note", text)
    screens.press("Save, just now")


def notes(screens: Screens, batch: Batch) -> list[str]:
    found = [entry.body for entry in screens.bench.entries(batch.id)]
    return [body.text for body in found if isinstance(body, Note)]


def test_the_word_names_the_act_and_comes_along_to_the_next_screen(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/temperature")
    screens.type("It reads", "150")
    screens.press("Save, just now")
    assert screens.route == f"/journal/{batch.id}"
    assert screens.has("Saved. Temperature, flat: 150 °F.")


def test_the_word_is_gone_with_its_screen_and_does_not_come_back(screens: Screens) -> None:
    batch = begun(screens)
    noted(screens, batch, "a windy day")
    assert screens.has("Undo")
    screens.press("Back")
    assert not screens.has("Undo")
    screens.go(f"/journal/{batch.id}")
    assert not screens.has("Undo")
    assert notes(screens, batch) == ["a windy day"]


def test_the_word_is_gone_when_a_place_is_opened(screens: Screens) -> None:
    batch = begun(screens)
    noted(screens, batch, "a windy day")
    screens.press("Mix", at=-1)
    assert not screens.has("Undo")


def test_another_act_takes_its_place(screens: Screens) -> None:
    batch = begun(screens)
    noted(screens, batch, "one")
    noted(screens, batch, "two")
    screens.press("Undo")
    assert notes(screens, batch) == ["one"]
    assert screens.has("Removed. Note: two.")


def test_a_step_is_named_and_only_it_is_taken_back(screens: Screens) -> None:
    batch = begun(screens)
    step = batch.plan[0]
    screens.go("/")
    screens.do(screens.bench.mark_done, batch.id, step.id)
    assert screens.has(f"Done: {step.title}.")
    undo = screens.bench.shown.undo
    kept = screens.bench.batch(batch.id)
    assert undo is not None
    assert kept is not None
    screens.do(screens.bench.save_batch, evolve(kept, name="Renamed flat"))
    screens.do(undo)
    after = screens.bench.batch(batch.id)
    assert after is not None
    assert after.name == "Renamed flat"
    assert after.plan[0].done is not None
    assert screens.has(CHANGED_SINCE)


def test_an_entry_changed_since_is_not_taken_back_by_an_old_undo(screens: Screens) -> None:
    batch = begun(screens)
    entry = screens.do(screens.bench.add_entry, batch, Weight(3000.0, "green"))
    undo = screens.bench.shown.undo
    assert undo is not None
    screens.do(screens.bench.correct_entry, batch, entry, Weight(3100.0, "green"), entry.at)
    screens.do(undo)
    assert [one.body for one in screens.bench.entries(batch.id)] == [Weight(3100.0, "green")]
    assert screens.bench.shown.said == CHANGED_SINCE


def test_undo_pressed_twice_takes_back_once(screens: Screens) -> None:
    batch = begun(screens)
    screens.do(screens.bench.decide, batch, "wrapped", None, 70.0)
    undo = screens.bench.shown.undo
    assert undo is not None
    screens.do(undo)
    before = screens.bench.batch(batch.id)
    screens.do(screens.bench.add_entry, batch, Temperature(71.0))
    screens.do(undo)
    assert screens.bench.batch(batch.id) == before
    assert [one.body for one in screens.bench.entries(batch.id)] == [Temperature(71.0)]
