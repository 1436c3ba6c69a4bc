"""The record of a batch: lines written, put right and taken back, and what follows from them."""

import re
from datetime import date, time
from pathlib import Path

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.device import FixedClock
from app.journal.plan import new_batch
from app.journal.records import (
    Batch,
    Bought,
    Cost,
    Decision,
    Feel,
    Moment,
    SliceOutcome,
    Step,
    Temperature,
    Weight,
)
from app.journal.wall import say_wall
from app.screens.bench import new_id
from app.screens.journal import told
from tests.screens.harness import Screens

NAME = "Sunday flat"


def begun(screens: Screens, name: str = NAME, **changes: object) -> Batch:
    """A batch in the journal, its mix for 3.2 kg."""
    bench = screens.bench
    made = new_batch(
        MixRequest(3200.0), "Brisket flat", name, bench.now(), ids=new_id, thickness_mm=50.0
    )
    made = evolve(made, **changes)  # type: ignore[arg-type]
    screens.do(bench.save_batch, made)
    return made


def clock(screens: Screens) -> FixedClock:
    found = screens.device.clock
    assert isinstance(found, FixedClock)
    return found


def bodies(screens: Screens, batch: Batch) -> list[object]:
    return [entry.body for entry in screens.bench.entries(batch.id)]


def stage(screens: Screens, batch: Batch, name: str) -> Step:
    now = screens.bench.batch(batch.id)
    assert now is not None
    return next(step for step in now.plan if step.stage == name)


def test_a_temperature_takes_a_tap_to_open_and_a_tap_to_save(screens: Screens) -> None:
    batch = begun(screens)
    screens.go("/")
    screens.press("Temperature")
    screens.type("It reads", "65.5 C")
    screens.press("Save, just now")
    assert bodies(screens, batch) == [Temperature(65.5, "flat")]
    assert screens.route == f"/journal/{batch.id}"


def test_one_tap_saves_it_for_a_time_past(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/temperature")
    screens.type("It reads", "65.6 C")
    screens.press("20 min ago")
    entry = screens.bench.entries(batch.id)[0]
    assert entry.at.utc_s == screens.bench.now().utc_s - 1200


def test_a_time_past_is_counted_from_now_whatever_time_was_chosen(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/temperature")
    screens.type("It reads", "65.6 C")
    screens.press("Choose")
    screens.pick(date.fromisoformat(screens.bench.wall()[:10]))
    screens.pick(time(5, 0))
    screens.press("10 min ago")
    entry = screens.bench.entries(batch.id)[0]
    assert entry.at.utc_s == screens.bench.now().utc_s - 600


def test_a_reading_that_cannot_be_keeps_what_was_typed(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/temperature")
    screens.type("It reads", "999")
    screens.press("Save, just now")
    assert screens.has("Is the unit right?")
    assert screens.field("It reads").value == "999"
    assert bodies(screens, batch) == []


def test_what_was_saved_can_be_taken_back(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/weight")
    screens.type("It weighs", "7 lb")
    screens.press("Save, just now")
    assert len(bodies(screens, batch)) == 1
    screens.press("Undo")
    assert bodies(screens, batch) == []


def test_the_thermometers_fault_is_taken_off(screens: Screens) -> None:
    batch = begun(screens)
    kit = screens.bench.shown.kit
    screens.do(screens.bench.save_kit, evolve(kit, system="metric", thermometer_offset_c=0.5))
    screens.go(f"/journal/{batch.id}/add/temperature")
    screens.type("It reads", "90.5")
    screens.press("Save, just now")
    assert bodies(screens, batch) == [Temperature(90.0, "flat")]


def test_a_line_is_put_right_and_that_taken_back(screens: Screens) -> None:
    batch = begun(screens)
    entry = screens.do(screens.bench.add_entry, batch, Weight(3000.0, "green"))
    screens.go(f"/journal/{batch.id}/entry/{entry.id}")
    screens.type("It weighs", "3.2 kg")
    screens.press("Save")
    assert bodies(screens, batch) == [Weight(3200.0, "green")]
    screens.press("Undo")
    assert bodies(screens, batch) == [Weight(3000.0, "green")]


def test_a_line_is_removed_and_put_back(screens: Screens) -> None:
    batch = begun(screens)
    entry = screens.do(screens.bench.add_entry, batch, Temperature(60.0))
    screens.go(f"/journal/{batch.id}/entry/{entry.id}")
    screens.press("Remove")
    assert bodies(screens, batch) == []
    screens.press("Undo")
    assert bodies(screens, batch) == [Temperature(60.0)]


def test_wrapped_marks_the_plan_and_one_undo_takes_both_back(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/wrap")
    screens.type("Pit", "250")
    screens.type("Core", "160")
    screens.press("Wrapped")
    assert [type(body) for body in bodies(screens, batch)] == [Decision]
    assert stage(screens, batch, "wrap").done
    assert stage(screens, batch, "finish").done
    screens.press("Undo")
    assert bodies(screens, batch) == []
    assert stage(screens, batch, "wrap").done is None


def test_not_yet_says_when_to_look_again(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/wrap")
    screens.press("Not yet")
    due = stage(screens, batch, "wrap").due
    assert screens.has(f"Look again {say_wall(due, screens.bench.wall())}.")
    screens.press("Undo")
    assert screens.has("Taken back. Decision: Not yet")


def test_a_reading_at_the_wrap_that_cannot_be_is_said_beside_it(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/wrap")
    screens.type("Pit", "hot")
    screens.press("Wrapped")
    assert bodies(screens, batch) == []
    assert screens.field("Pit").value == "hot"
    assert screens.field("Pit").error


def test_the_probe_saves_the_feel_where_it_was_felt(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/probe")
    screens.press("Where: Point")
    screens.type("It reads", "199")
    screens.press("Soft: slides in like warm butter")
    (felt,) = bodies(screens, batch)
    assert isinstance(felt, Feel)
    assert (felt.step, felt.spot) == ("soft", "point")
    assert screens.has("Last felt")
    screens.press("Pulled: done")
    assert stage(screens, batch, "tender").done
    assert stage(screens, batch, "rest").done


def test_a_slice_that_is_more_than_whole_is_not_saved(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/slice")
    screens.type("Grey", "70")
    screens.type("Pale", "50")
    screens.press("Save")
    assert screens.has("more than the whole thickness")
    kept = screens.bench.batch(batch.id)
    assert kept is not None
    assert kept.outcome is None
    screens.type("Pale", "20")
    screens.press("A slice bent double: Bends")
    screens.press("Cut: Across the grain")
    screens.press("Beside a bought one")
    screens.press("Its salt: 4")
    screens.press("Beside it, ours is: Better")
    screens.press("Verdict: 4")
    screens.press("Save")
    kept = screens.bench.batch(batch.id)
    assert kept is not None
    assert kept.outcome is not None
    told = kept.outcome
    assert (told.grey_percent, told.pale_percent, told.rating) == (70, 20, 4)
    assert (told.bend, told.across_grain, told.beside_bought) == ("bends", True, "better")
    assert told.bought == Bought(salt=4)
    assert screens.has("the bought one 4")


def test_a_cost_remembers_the_currency(screens: Screens) -> None:
    batch = begun(screens)
    for paid, currency in (("62.50", "$"), ("8", None)):
        screens.go(f"/journal/{batch.id}/add/cost")
        screens.type("Paid", paid)
        if currency:
            screens.type("Currency", currency)
        screens.press("Save, just now")
    assert {body.currency for body in bodies(screens, batch) if isinstance(body, Cost)} == {"$"}
    assert screens.has("$70.50")


def test_a_clock_set_back_is_said_and_loses_nothing(screens: Screens) -> None:
    batch = begun(screens)
    screens.do(screens.bench.add_entry, batch, Temperature(60.0))
    clock(screens).utc_s -= 7200
    screens.go("/kit")
    screens.go("/")
    assert screens.has("set back")
    screens.go(f"/journal/{batch.id}/heat")
    assert screens.has("set back")
    assert bodies(screens, batch) == [Temperature(60.0)]


@pytest.mark.parametrize(
    "part", ["", "/heat", "/plan", "/probe", "/wrap", "/slice", "/repeat", "/store", "/mix"]
)
def test_a_batch_with_nothing_recorded_opens_everywhere(screens: Screens, part: str) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}{part}")
    assert screens.unnamed() == []
    assert screens.small_targets() == []


def test_the_log_says_what_it_comes_to(screens: Screens) -> None:
    batch = begun(screens)
    for ago_h, core_c in ((5, 20.0), (4, 45.0), (3, 62.0), (2, 66.0), (1, 67.0), (0, 68.0)):
        screens.do(
            lambda c=core_c, h=ago_h: screens.bench.add_entry(
                batch, Temperature(c), ago_s=3600.0 * h, stage="smoke"
            )
        )
    screens.go(f"/journal/{batch.id}/heat")
    assert screens.has("By feel, not by time")
    assert screens.has("6.5 log or more")
    assert screens.has("In the stall at about 154 °F")
    screens.press("By time and temperature")
    assert screens.has("FSIS Appendix A")


def test_advice_is_shown_and_taken_up_in_the_repeat(screens: Screens) -> None:
    outcome = SliceOutcome(at=Moment(1.8e9), grey_percent=30.0, rating=3, thickness_mm=50.0)
    batch = begun(screens, outcome=outcome)
    day = 86400.0
    marked = tuple(
        evolve(step, done=Moment(1.8e9 - ago * day))
        if (ago := {"cure": 8.0, "end": 3.0}.get(step.stage))
        else step
        for step in batch.plan
    )
    screens.do(screens.bench.save_batch, evolve(batch, plan=marked))
    screens.go(f"/journal/{batch.id}")
    assert screens.has("Next time")
    screens.go(f"/journal/{batch.id}/repeat")
    screens.press("Take up: days in the cure")
    screens.type("New weight", "8")
    screens.press("Start")
    fresh = next(one for one in screens.bench.shown.batches if one.id != batch.id)
    assert fresh.advice_taken == ("days",)
    assert fresh.repeated_from == batch.id
    was = next(step.minutes for step in batch.plan if step.stage == "cure")
    cure = next(step.minutes for step in fresh.plan if step.stage == "cure")
    assert cure > 5 * 1440
    assert cure != was


def test_what_differs_comes_first(screens: Screens) -> None:
    one, other = begun(screens), begun(screens, "Store flat", thickness_mm=70.0)
    screens.go(f"/journal/{one.id}/compare")
    assert screens.has(other.name)
    assert screens.has("Thickness")
    assert not screens.has("Method")
    screens.press("The same in all")
    assert screens.has("Method")


def test_the_label_says_how_long_it_keeps(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/store")
    screens.press("It is: Cooked")
    screens.press("Kept in the: Freezer")
    screens.type("This packet weighs", "1 lb")
    assert screens.has("Reheat to 165 °F (74 °C).")
    screens.press("It is: Raw, in its pouch")
    assert screens.has("How long")


def test_the_journal_is_filtered_and_the_filter_taken_off(screens: Screens) -> None:
    begun(screens, "Good one", outcome=SliceOutcome(at=Moment(1.8e9), rating=5))
    begun(screens, "Plain one")
    screens.go("/journal")
    screens.press("Filter and order")
    screens.press("Verdict: 4 or more")
    assert screens.has("Good one")
    assert not screens.has("Plain one")
    screens.press("Take the filter off")
    assert screens.has("Plain one")


def test_every_piece_of_advice_has_a_name() -> None:
    room = Path(told.__file__).parents[2] / "journal"
    source = "".join(file.read_text("utf-8") for file in room.glob("advice_*.py"))
    ids = set(re.findall(r'Advice\(\s*"(\w+)"', source))
    assert ids
    assert ids <= set(told.TITLES)


def test_errors_are_told_in_the_cooks_units(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/weight")
    screens.type("It weighs", "200")
    screens.press("Save, just now")
    assert "up to 110 lb" in str(screens.field("It weighs").error)
    assert "kg" not in str(screens.field("It weighs").error)
    screens.go(f"/journal/{batch.id}/probe")
    screens.type("It reads", "999")
    screens.press("Soft: slides in like warm butter")
    assert "from -22 to 230 °F was expected; 999 °F" in str(screens.field("It reads").error)
    assert screens.field("It reads").value == "999"
    assert bodies(screens, batch) == []


def test_what_was_typed_at_the_probe_goes_with_the_decision(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/probe")
    screens.type("It reads", "hot")
    screens.press("Pulled: done")
    assert screens.field("It reads").error
    assert bodies(screens, batch) == []
    screens.type("It reads", "93 C")
    screens.press("Pulled: done")
    assert bodies(screens, batch) == [Decision("pulled", None, 93.0)]


def test_a_trimmed_weight_far_off_is_asked_about(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/weight")
    screens.type("It weighs", f"{0.45 * batch.mix.meat_g / 453.59237:.2f} lb")
    screens.press("Trimmed")
    screens.press("Save, just now")
    assert screens.has("That is 45 % of it: check the number and its unit first.")


def test_a_trimmed_weight_offers_the_mix_for_it(screens: Screens) -> None:
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/add/weight")
    screens.type("It weighs", "5.2 lb")
    screens.press("Trimmed")
    screens.press("Save, just now")
    assert screens.has("Trimmed it weighs 5 lb 3 oz, and the mix is for")
    screens.press("Work the mix out for 5 lb 3 oz")
    (after,) = screens.bench.shown.batches
    assert after.mix.meat_g == pytest.approx(5.2 * 453.59237, abs=0.5)
    assert not screens.has("Trimmed it weighs")
    screens.press("Undo")
    (back,) = screens.bench.shown.batches
    assert back.mix == batch.mix
    screens.go(f"/journal/{batch.id}/mix")
    assert screens.has("To weigh")


def test_the_name_that_was_offered_follows_the_trimmed_weight(screens: Screens) -> None:
    batch = screens.start_batch()
    assert batch.name == "Brisket, whole, 7 lb 6 oz"
    screens.go(f"/journal/{batch.id}/add/weight")
    screens.type("It weighs", "6 lb 8 oz")
    screens.press("Trimmed")
    screens.press("Save, just now")
    screens.press("Work the mix out for 6 lb 8 oz")
    (after,) = screens.bench.shown.batches
    assert after.name == "Brisket, whole, 6 lb 8 oz"
    assert screens.has("It is called “Brisket, whole, 6 lb 8 oz” now.")
    screens.press("Undo")
    (back,) = screens.bench.shown.batches
    assert back.name == batch.name


def test_the_name_offered_is_for_the_weight_that_stands_in_the_mix(screens: Screens) -> None:
    screens.to_start()
    screens.go("/mix")
    screens.type("Weight on the label", "6.5")
    screens.press("Start batch")
    screens.press("Start")
    (made,) = screens.bench.shown.batches
    assert made.name == "Brisket, whole, 6 lb 8 oz"


def test_a_warm_fridge_is_said_where_the_batch_stands(screens: Screens) -> None:
    batch = begun(screens)
    for step in batch.plan:
        screens.do(screens.bench.mark_done, batch.id, step.id)
        if step.stage == "cure":
            break
    screens.go(f"/journal/{batch.id}/add/temperature")
    screens.type("It reads", "58")
    screens.press("Fridge")
    screens.press("Save, just now")
    assert screens.has("Fridge at 58 °F")
    assert screens.has("too warm for meat in a cure. Bring it to 40 °F or below")
    screens.go("/")
    assert screens.has("Fridge at 58 °F")
