"""What is hard to take back on the plate is asked about before it is marked."""

from attrs import evolve

from app.journal.entries import felt, measured
from app.journal.records import SliceOutcome
from app.screens.journal.asking import doubt
from tests.screens.harness import Screens


def _mark_until(screens: Screens, stage: str) -> None:
    (batch,) = screens.bench.shown.batches
    for step in batch.plan:
        if step.stage == stage:
            return
        screens.do(screens.bench.mark_done, batch.id, step.id)


def test_taking_out_on_the_first_day_is_asked_about(screens: Screens) -> None:
    screens.start_batch()
    _mark_until(screens, "end")
    (batch,) = screens.bench.shown.batches
    screens.go(f"/journal/{batch.id}")
    screens.press("Done: Take it out")
    assert screens.has("days in the cure. Take it out all the same?")
    assert screens.has("cook such a piece like fresh beef")
    screens.press("Not yet")
    (batch,) = screens.bench.shown.batches
    end = next(step for step in batch.plan if step.stage == "end")
    assert end.done is None
    screens.press("Done: Take it out")
    screens.press("Go on all the same")
    (batch,) = screens.bench.shown.batches
    assert next(step for step in batch.plan if step.stage == "end").done is not None


def test_a_core_never_read_is_asked_about_before_the_slice(screens: Screens) -> None:
    batch = screens.start_batch()
    rest = next(step for step in batch.plan if step.stage == "rest")
    assert "145 °F" in doubt(screens.bench, batch, rest)
    screens.do(screens.bench.add_entry, batch, measured(62.0, "flat"))
    assert doubt(screens.bench, batch, rest)
    screens.do(screens.bench.add_entry, batch, measured(95.0, "pit"))
    assert doubt(screens.bench, batch, rest), "the pit is not the core"
    screens.do(screens.bench.add_entry, batch, measured(93.0, "flat"))
    assert doubt(screens.bench, batch, rest) == ""


def test_pounds_and_ounces_are_read_as_a_label_shows_them(screens: Screens) -> None:
    screens.go("/mix")
    screens.press("Unit: lb oz")
    screens.type("Weight on the label", "6 13")
    assert screens.has("Weigh these")
    assert screens.bench.shown.draft.weight == "6 13"


def test_too_little_nitrite_is_said_in_its_field_and_before_the_start(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")
    screens.press("Salt, sugar, nitrite")
    screens.type("Nitrite", "4")
    assert "Too weak below" in str(screens.field("Nitrite").error)
    screens.press("Start batch")
    assert screens.has("Go back if you did not mean it.")


def test_finishing_with_open_steps_is_asked_about(screens: Screens) -> None:
    batch = screens.start_batch()
    screens.go(f"/journal/{batch.id}")
    screens.press("Finish")
    assert screens.has(f"{len(batch.plan)} steps are still open")
    assert screens.has(f"“{batch.plan[0].title}”")
    assert screens.has("The slice is not scored yet")
    screens.press("Not yet")
    assert not screens.bench.shown.batches[0].finished
    screens.press("Finish")
    screens.press("Go on all the same")
    assert screens.bench.shown.batches[0].finished
    assert screens.has("Finished.")
    screens.press("Undo")
    assert not screens.bench.shown.batches[0].finished


def test_a_batch_with_nothing_open_is_finished_at_once(screens: Screens) -> None:
    batch = screens.start_batch()
    done = evolve(
        batch,
        plan=tuple(evolve(step, skipped=True) for step in batch.plan),
        outcome=SliceOutcome(at=screens.bench.now()),
    )
    screens.do(screens.bench.save_batch, done)
    screens.go(f"/journal/{batch.id}")
    screens.press("Finish")
    assert screens.bench.shown.batches[0].finished
    screens.press("Reopen")
    assert not screens.bench.shown.batches[0].finished


def test_a_place_not_hot_enough_is_asked_about_before_it_is_pulled(screens: Screens) -> None:
    batch = screens.start_batch()
    screens.do(screens.bench.add_entry, batch, measured(95.0, "flat"))
    screens.do(lambda: screens.bench.add_entry(batch, measured(49.0, "point"), ago_s=60.0))
    screens.go(f"/journal/{batch.id}/probe")
    screens.press("Pulled: done")
    assert screens.has("Point: 120 °F, below 145 °F")
    screens.press("Not yet")
    assert len(screens.bench.entries(batch.id)) == 2
    screens.do(screens.bench.add_entry, batch, measured(94.0, "point"))
    screens.press("Pulled: done")
    assert len(screens.bench.entries(batch.id)) == 4


def test_a_core_typed_at_the_pull_is_looked_at_too(screens: Screens) -> None:
    batch = screens.start_batch()
    screens.go(f"/journal/{batch.id}/probe")
    screens.press("Pulled: done")
    assert screens.has("No reading of the core at 145 °F or more")
    screens.press("Not yet")
    screens.type("It reads", "110")
    screens.press("Pulled: done")
    assert screens.has("Middle: 110 °F, below 145 °F")
    screens.press("Go on all the same")
    assert len(screens.bench.entries(batch.id)) == 1


def test_a_hot_edge_tells_nothing_of_the_core(screens: Screens) -> None:
    batch = screens.start_batch()
    screens.do(screens.bench.add_entry, batch, felt("soft", "edge", 80.0))
    screens.go(f"/journal/{batch.id}/probe")
    screens.press("Pulled: done")
    assert screens.has("No reading of the core at 145 °F or more")
