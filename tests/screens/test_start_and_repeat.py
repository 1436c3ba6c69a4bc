"""Starting a batch from the mix, and doing one again."""

from datetime import date, datetime, time, timedelta

import pytest
from attrs import evolve

from app.journal.records import Batch, SliceOutcome
from app.journal.wall import next_quarter, say_wall
from tests.screens.harness import Screens
from tests.screens.test_record import begun, clock, stage


def mixed(screens: Screens) -> None:
    screens.go("/mix")
    screens.type("Weight on the label", "7.4")


def newest(screens: Screens) -> Batch:
    return max(screens.bench.shown.batches, key=lambda one: one.created.utc_s)


def test_after_a_start_the_mix_keeps_how_this_cook_cures(screens: Screens) -> None:
    mixed(screens)
    bench = screens.bench
    draft = evolve(
        bench.shown.draft,
        salt="2.2",
        nitrite="140",
        cut="flat",
        thickness="2",
        water="3 qt",
        ascorbate="500",
        recipe=evolve(bench.shown.draft.recipe, meat="5 lb", cure="1 oz"),
    )
    screens.do(lambda: bench.show(draft=draft))
    screens.go("/mix/start")
    screens.press("Start")
    after = bench.shown.draft
    assert (after.salt, after.nitrite, after.cut, after.ascorbate) == ("2.2", "140", "flat", "500")
    assert (after.recipe.meat, after.recipe.cure) == ("5 lb", "1 oz")
    # What was told of the one piece goes.
    assert (after.weight, after.thickness, after.water, after.days) == ("", "", "", "")


def test_a_plan_back_from_a_meal_asks_for_the_meal(screens: Screens) -> None:
    mixed(screens)
    screens.go("/mix/start")
    screens.press("Back from the meal")
    assert screens.has("Choose when it is to be eaten, or plan forward from a start.")
    with pytest.raises(AssertionError, match="disabled"):
        screens.press("Start")
    screens.press("Choose")
    screens.pick(datetime.fromisoformat(screens.bench.wall()).date() + timedelta(days=1))
    screens.pick(time(18, 0))
    screens.press("Eat")
    assert not any("or inject" in one for one in screens.texts())
    screens.press("Clear")
    screens.press("Choose")
    screens.pick(date(2027, 3, 20))
    screens.pick(time(18, 0))
    assert screens.has("The plan")
    screens.press("Start")
    assert newest(screens).serve == "2027-03-20T18:00"


def test_each_length_says_where_it_comes_from(screens: Screens) -> None:
    mixed(screens)
    screens.go("/mix/start")
    assert any("worked out by how far nitrite moves" in one for one in screens.texts())
    assert any("the ice makes it cold at once" in one for one in screens.texts())
    screens.press("Start")
    batch = newest(screens)
    screens.go(f"/journal/{batch.id}/plan")
    screens.press("Put the meat in the cure")
    assert any("worked out by how far nitrite moves" in one for one in screens.texts())
    screens.type("Takes", "9 days")
    screens.press("Set length")
    assert stage(screens, batch, "cure").why == "as you set it"


def test_a_repeat_says_at_its_own_field_what_it_cannot_read(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/repeat")
    screens.type("New weight", "heavy")
    assert screens.field("New weight").error
    screens.type("New weight", "5")
    screens.type("Thickness", "fat")
    assert not screens.field("New weight").error
    assert screens.field("Thickness").error
    with pytest.raises(AssertionError, match="disabled"):
        screens.press("Start")
    screens.type("Thickness", "3")
    screens.press("Back from the meal")
    assert screens.has("Choose when it is to be eaten, or plan forward from a start.")


def test_a_repeat_takes_the_days_of_own_slices(screens: Screens) -> None:
    batch = begun(screens)
    cure = stage(screens, batch, "cure")
    screens.do(screens.bench.mark_done, batch.id, cure.id)
    clock(screens).utc_s += 6 * 86400
    screens.do(screens.bench.mark_done, batch.id, stage(screens, batch, "end").id)
    kept = screens.bench.batch(batch.id)
    assert kept is not None
    sliced = SliceOutcome(screens.bench.now(), grey_percent=60.0, thickness_mm=50.0)
    screens.do(screens.bench.save_batch, evolve(kept, outcome=sliced))
    screens.go(f"/journal/{batch.id}/repeat")
    screens.type("New weight", "9")
    screens.press("Frozen")
    assert any("own slice" in one for one in screens.texts())
    screens.press("Start")
    again = next(one for one in screens.bench.shown.batches if one.repeated_from == batch.id)
    days = next(one for one in again.plan if one.stage == "cure")
    assert days.minutes > cure.minutes
    assert "own slice" in days.why
    assert any(one.stage == "thaw" for one in again.plan)


def test_now_offers_a_way_out_of_what_does_not_fit(screens: Screens) -> None:
    batch = begun(screens, serve=None)
    soon = datetime.fromisoformat(screens.bench.wall()).replace(hour=18, minute=0)
    screens.do(screens.bench.save_batch, evolve(batch, serve=soon.isoformat(timespec="minutes")))
    screens.go("/")
    assert any("or inject" in one for one in screens.texts())
    screens.press("Inject")
    assert screens.route == f"/journal/{batch.id}/mix"
    kept = screens.bench.batch(batch.id)
    assert kept is not None
    assert kept.mix.method == "injection"
    screens.press("Undo")
    screens.go("/")
    screens.press("Eat")
    kept = screens.bench.batch(batch.id)
    assert kept is not None
    assert kept.serve is not None
    assert kept.serve > soon.isoformat(timespec="minutes")
    assert not any("or inject" in one for one in screens.texts())


def test_a_move_says_what_followed_and_what_no_longer_fits(screens: Screens) -> None:
    batch = begun(screens)
    smoke = stage(screens, batch, "smoke")
    screens.go(f"/journal/{batch.id}/plan")
    screens.press("Start the smoke")
    screens.press(say_wall(smoke.due, screens.bench.wall()))
    screens.pick(datetime.fromisoformat(smoke.due).date() - timedelta(days=3))
    screens.pick(time(9, 0))
    assert any("Moved: Start the smoke." in one and "followed" in one for one in screens.texts())


def test_a_plan_begun_late_is_worked_out_anew_from_now(screens: Screens) -> None:
    batch = begun(screens)
    first = min(batch.plan, key=lambda step: step.due)
    screens.go(f"/journal/{batch.id}/plan")
    clock(screens).utc_s += 3 * 86400
    screens.do(screens.bench.look_at_the_clock)
    screens.press("What is left, from now")
    moved = stage(screens, batch, first.stage)
    assert moved.due == next_quarter(screens.bench.wall())
    assert stage(screens, batch, "cure").due > moved.due
    screens.press("Undo")
    assert stage(screens, batch, first.stage).due == first.due
