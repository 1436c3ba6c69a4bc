"""Every heat question of a batch is answered on its screen, each with its working."""

import re

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.journal.marks import mark_done
from app.journal.plan import new_batch
from app.journal.records import Batch, Decision, EntryBody, Feel, Moment, Temperature
from app.screens.bench import new_id
from tests.screens.harness import Screens

HOURS = 3600.0


def begun(screens: Screens, name: str = "Sunday flat", **given: object) -> Batch:
    made = new_batch(
        MixRequest(3200.0),
        "Brisket flat",
        name,
        screens.bench.now(),
        ids=new_id,
        **given,  # type: ignore[arg-type]
    )
    screens.do(screens.bench.save_batch, made)
    return made


def marked(screens: Screens, batch: Batch, **ago_h: float) -> Batch:
    now = screens.bench.now()
    for stage, hours in ago_h.items():
        step = next(one for one in batch.plan if one.stage == stage)
        batch = mark_done(batch, step.id, Moment(now.utc_s - HOURS * hours, now.offset_min), "")
    screens.do(screens.bench.save_batch, batch)
    return batch


def logged(screens: Screens, batch: Batch, *read: tuple[float, EntryBody]) -> None:
    for hours, body in read:
        screens.do(
            lambda h=hours, b=body: screens.bench.add_entry(
                batch, b, ago_s=HOURS * h, stage="smoke"
            )
        )


def core(*points: tuple[float, float]) -> list[tuple[float, EntryBody]]:
    return [(hours, Temperature(celsius)) for hours, celsius in points]


COOK = core((10, 5), (8, 60), (7, 66), (6, 67), (5, 68), (4, 80), (3, 93))


def test_thaw_is_told_before_the_cure(screens: Screens) -> None:
    batch = begun(screens, thawed=True)
    screens.go(f"/journal/{batch.id}/heat")
    assert screens.has("Thawing")
    assert screens.has("About 34 hours in the refrigerator; plan 2 days")
    marked(screens, batch, thaw=2.0)
    assert screens.has("In the fridge since")
    screens.press("In the fridge")
    assert screens.has("Michigan State University Extension, E3259")
    marked(screens, batch, cure=0.5)
    screens.go(f"/journal/{batch.id}/heat")
    assert not screens.has("Thawing")


def test_what_was_read_with_the_probe_and_at_decisions_is_on_the_chart(screens: Screens) -> None:
    batch = marked(screens, begun(screens), smoke=6)
    logged(screens, batch, (4, Temperature(120, "pit")), (2, Feel("nearly", "point", 90.0)))
    screens.do(screens.bench.decide, batch, "wrapped", 118.0, 71.0)
    screens.go(f"/journal/{batch.id}/heat")
    chart = next(name for name in screens.spoken() if name.startswith("Chart of temperatures"))
    assert "Pit from 248 °F to 244 °F" in chart
    assert "Point from 194 °F" in chart
    assert "Middle from 160 °F" in chart
    assert "Stages: Start the smoke after 0.0 hours" in chart
    assert "Look at the bark: wrap? after 6.0 hours" in chart
    assert screens.has("1  Start the smoke")
    screens.press("Point")
    assert screens.has("Put right: probe")


def test_the_cold_days_have_their_own_chart(screens: Screens) -> None:
    batch = marked(screens, begun(screens), cure=200, smoke=6)
    logged(
        screens,
        batch,
        (150, Temperature(3.5, "fridge")),
        (100, Temperature(4.0, "fridge")),
        *core((5, 20), (4, 50)),
    )
    screens.go(f"/journal/{batch.id}/heat")
    assert any("Flat from 68 °F" in name for name in screens.spoken())
    screens.press("Chart: The cold days before")
    assert any("Fridge from 38 °F to 39 °F" in name for name in screens.spoken())


def test_safe_done_stall_and_the_clocks_before_it_comes_off(screens: Screens) -> None:
    batch = marked(screens, begun(screens), smoke=10)
    logged(screens, batch, *COOK)
    screens.go(f"/journal/{batch.id}/heat")
    assert screens.has("By feel, not by time")
    assert screens.has("The stall lasted 2 h and ended at 154 °F")
    assert screens.has("Reached ")
    assert screens.has("145 °F was held for 3 minutes")
    assert screens.has("Plain limit: 130 °F to 80 °F in 1.5 h, then on to 40 °F in 5 h")
    assert screens.has("Cured limit: 130 °F to 80 °F in 5 h, then on to 45 °F in 10 h")
    assert screens.has("Begins when the core falls below 130 °F")
    assert not any(re.search(r"\d °C", word) for word in screens.spoken())


def test_the_finish_comes_from_the_cooks_own_batches_after_the_feel(screens: Screens) -> None:
    past = marked(screens, begun(screens, "Past flat"), smoke=10, tender=3)
    logged(screens, past, *COOK)
    batch = marked(screens, begun(screens), smoke=3)
    logged(screens, batch, *core((2, 40), (1, 70)))
    screens.go(f"/journal/{batch.id}/heat")
    words = screens.spoken()
    feel = next(n for n, word in enumerate(words) if word.startswith("By feel, not by time"))
    own = next(n for n, word in enumerate(words) if "Your one like batch took" in word)
    assert feel < own


def test_rest_then_two_hours_then_both_clocks(screens: Screens) -> None:
    batch = marked(screens, begun(screens), smoke=12, rest=4.5)
    logged(screens, batch, *core((10, 50), (8, 70), (6, 92), (4, 88), (3, 82)))
    screens.go(f"/journal/{batch.id}/heat")
    assert screens.has("more above 140 °F")
    screens.press("Resting hot")
    assert screens.has("A reading may be off by")
    assert screens.has("0.9 °F"), "a difference, no place on the scale"
    logged(screens, batch, *core((1.6, 55), (0.5, 30)))
    screens.go(f"/journal/{batch.id}/heat")
    assert screens.has("left before it must be in the cold")
    screens.press("Where it stands: above 90 °F")
    assert screens.has("throw it away")
    assert screens.has("First stage:")
    assert screens.has("Second stage:")
    assert screens.has("ppm of pick-up nitrite is less than 100 ppm"), "why the plain limit holds"
    assert screens.has("Ingoing nitrite")
    screens.press("Pick-up nitrite")
    assert screens.has("By the weight taken up (handbook, immersion, method one)")
    assert screens.has("pick-up × 1,000,000")


@pytest.mark.parametrize("key", ["safe", "home", "cooling", "cooling-cured", "thaw"])
def test_every_working_opens_in_the_cooks_units(screens: Screens, key: str) -> None:
    batch = begun(screens)
    if key != "thaw":
        batch = marked(screens, batch, smoke=12)
        logged(screens, batch, *COOK)
    screens.go(f"/journal/{batch.id}/heat/how/{key}")
    assert screens.has("Source")
    assert not any(re.search(r"\d (°C|mm|kg)\b", word) for word in screens.spoken())


def test_the_thermometers_fault_is_taken_off_everywhere(screens: Screens) -> None:
    kit = screens.bench.shown.kit
    screens.do(screens.bench.save_kit, evolve(kit, system="metric", thermometer_offset_c=1.0))
    batch = begun(screens)
    screens.go(f"/journal/{batch.id}/probe")
    screens.type("It reads", "94")
    screens.press("Soft: slides in like warm butter")
    screens.go(f"/journal/{batch.id}/wrap")
    screens.type("Pit", "121")
    screens.type("Core", "72")
    screens.press("Not yet")
    kept = [entry.body for entry in screens.bench.entries(batch.id)]
    assert Feel("soft", "flat", 93.0) in kept
    assert Decision("not_yet", 120.0, 71.0) in kept
