"""The slice: what was scored is kept when its screen is left, and errors stand at their field."""

from attrs import evolve

from app.cure.request import MixRequest
from app.journal.plan import new_batch
from app.journal.records import Batch, SliceOutcome
from app.screens.bench import new_id
from tests.screens.harness import Screens


def begun(screens: Screens) -> Batch:
    made = new_batch(
        MixRequest(3200.0), "Brisket flat", "Sunday flat", screens.bench.now(), ids=new_id
    )
    screens.do(screens.bench.save_batch, made)
    return made


def outcome(screens: Screens, batch: Batch) -> SliceOutcome | None:
    kept = screens.bench.batch(batch.id)
    assert kept is not None
    return kept.outcome


def test_scores_not_saved_are_kept_when_the_screen_is_left(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/slice")
    screens.press("Salt: 4")
    screens.type("Grey", "25")
    screens.press("Back")
    assert outcome(screens, batch) is None
    assert screens.has("What you scored at the slice is not saved yet.")
    screens.press("Go on with the slice")
    assert screens.field("Grey").value == "25"
    assert screens.has("Not saved yet.")
    screens.press("Save")
    kept = outcome(screens, batch)
    assert kept is not None
    assert (kept.salt, kept.grey_percent) == (4, 25.0)
    assert not screens.has("not saved yet")
    assert screens.bench.drafts == {}


def test_starting_over_brings_back_what_is_saved(screens: Screens) -> None:
    batch = begun(screens)
    saved = SliceOutcome(at=screens.bench.now(), salt=2, grey_percent=10.0)
    screens.do(screens.bench.save_batch, evolve(batch, outcome=saved))
    screens.go(f"/journal/{batch.id}/slice")
    screens.type("Grey", "70")
    screens.press("Salt: 5")
    screens.press("Start over")
    assert screens.field("Grey").value == "10"
    screens.press("Undo")
    assert screens.field("Grey").value == "70"
    assert screens.has("Salt: 5, chosen")
    screens.press("Start over")
    screens.press("Save")
    assert outcome(screens, batch) == saved


def test_what_was_measured_meanwhile_comes_into_the_draft(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/slice")
    screens.press("Smoke: 3")
    screens.press("Back")
    line = SliceOutcome(at=screens.bench.now(), grey_percent=12.0, pale_percent=8.0)
    screens.do(screens.bench.save_batch, evolve(batch, outcome=line))
    screens.go(f"/journal/{batch.id}/slice")
    assert screens.field("Grey").value == "12"
    screens.press("Save")
    assert outcome(screens, batch) == evolve(line, smoke=3)


def test_an_error_stands_at_its_field_as_soon_as_it_is_typed(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/slice")
    screens.type("Grey", "lots")
    assert "is not a number" in str(screens.field("Grey").error)
    screens.press("Save")
    assert screens.has("Not saved yet: “lots” is not a number")
    assert outcome(screens, batch) is None
    screens.type("Grey", "20")
    assert not screens.field("Grey").error


def test_errors_name_lengths_in_the_cooks_units(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/slice")
    screens.type("The piece there", "20")
    assert "at most 11 3/4 in" in str(screens.field("The piece there").error)
    kit = screens.bench.shown.kit
    screens.do(screens.bench.save_kit, evolve(kit, system="metric"))
    screens.type("The piece there", "500")
    assert "at most 30 cm" in str(screens.field("The piece there").error)


def test_a_note_half_written_is_kept(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/note")
    screens.type("Note", "The wind turned and")
    screens.press("Back")
    screens.go(f"/journal/{batch.id}/add/note")
    assert screens.field("Note").value == "The wind turned and"
    screens.press("Save, just now")
    screens.go(f"/journal/{batch.id}/add/note")
    assert screens.field("Note").value == ""
    screens.go(f"/journal/{batch.id}/add/temperature")
    assert screens.field("It reads").value == ""


def test_what_was_typed_at_the_wrap_outlives_a_look_elsewhere(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/wrap")
    screens.type("Pit", "250")
    screens.type("Core", "160")
    screens.go(f"/journal/{batch.id}/photos")
    screens.go(f"/journal/{batch.id}/wrap")
    assert (screens.field("Pit").value, screens.field("Core").value) == ("250", "160")
    screens.press("Wrapped")
    screens.go(f"/journal/{batch.id}/wrap")
    assert screens.field("Pit").value == ""


def test_a_second_press_takes_a_choice_back(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/slice")
    for press in ("Salt: 4", "Salt: 4", "A slice bent double: Bends", "Do it again?: Yes"):
        screens.press(press)
    screens.press("A slice bent double: Bends")
    screens.press("Save")
    kept = outcome(screens, batch)
    assert kept is not None
    assert (kept.salt, kept.bend, kept.again) == (None, None, True)


def test_the_scores_are_taken_out_and_put_back(screens: Screens) -> None:
    batch = begun(screens)
    saved = SliceOutcome(at=screens.bench.now(), salt=2)
    screens.do(screens.bench.save_batch, evolve(batch, outcome=saved))
    screens.go(f"/journal/{batch.id}/slice")
    screens.press("Remove")
    assert outcome(screens, batch) is None
    assert screens.has("The scores are taken out.")
    screens.press("Undo")
    assert outcome(screens, batch) == saved
