"""The good one again: another weight, another date, another thickness, advice taken up."""

from typing import Any

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.journal.advised import Advice, Past
from app.journal.lengths import PRACTICE, Length, lengths
from app.journal.marks import mark_done, skip
from app.journal.plan import set_minutes
from app.journal.records import SliceOutcome
from app.journal.repeat import repeat
from tests.journal.made import BERLIN, NOW, batch, due, moment, names, step

MIX = MixRequest(3000.0, water_g=2400.0, salt_percent=2.2, nitrite_ppm=150.0)
DAYS = Advice(
    "days",
    "Longer.",
    "Grey.",
    "a guess",
    mix_changes=(("days", 10.0),),
    stage_minutes=(("cure", 14_400.0),),
)
SOAK = Advice("soak", "Soak.", "Salty.", "a guess", stage_minutes=(("soak", 360.0),))
CAP = Advice(
    "cap",
    "Trim it off.",
    "One face.",
    "a guess",
    mix_changes=(("days", 6.0), ("fat_cap_on", False)),
    stage_minutes=(("cure", 8640.0),),
    fat_cap_off=True,
)


def test_the_mix_is_scaled_the_dates_move_and_the_old_one_is_named() -> None:
    old = batch(mix=MIX, thickness_mm=44.0)
    old = set_minutes(old, step(old, "smoke").id, 300, BERLIN)
    old = skip(old, step(old, "rub").id, BERLIN)
    old = mark_done(old, step(old, "buy").id, NOW, BERLIN)
    new = repeat(
        old, 4500.0, "2027-04-01T09:00", moment("2027-03-31T12:00"), names("n"), zone=BERLIN
    )
    assert new.mix.meat_g == 4500.0
    assert new.mix.water_g == 3600.0
    assert (new.mix.salt_percent, new.mix.nitrite_ppm) == (2.2, 150.0)
    assert new.repeated_from == old.id
    assert new.id not in {old.id, *(one.id for one in old.plan)}
    assert new.created == moment("2027-03-31T12:00")
    assert due(new, "buy") == "2027-04-01T09:00"
    assert step(new, "smoke").minutes == 300
    assert "rub" not in {one.stage for one in new.plan}
    assert all(one.done is None for one in new.plan)
    assert new.outcome is None
    assert not new.finished
    assert new.advice_taken == ()
    assert (new.name, new.cut, new.thickness_mm) == (old.name, old.cut, 44.0)


def test_it_can_be_worked_back_from_a_meal_under_another_name() -> None:
    new = repeat(
        batch(mix=MIX),
        2000.0,
        None,
        NOW,
        names("n"),
        zone=BERLIN,
        serve="2027-04-04T18:00",
        name="B",
    )
    assert new.name == "B"
    assert due(new, "slice") == "2027-04-04T17:45"


def cured(name: str, days: float, grey: float, prefix: str, **more: Any) -> Past:
    """A batch that lay in the cure so many days, and what its slice showed."""
    made = batch(name, mix=MIX, thickness_mm=44.0, ids=names(prefix), **more)
    begun = moment("2027-02-20T22:30")
    made = mark_done(made, step(made, "cure").id, begun, BERLIN)
    out = evolve(begun, utc_s=begun.utc_s + 86400 * days)
    made = mark_done(made, step(made, "end").id, out, BERLIN)
    return Past(evolve(made, outcome=SliceOutcome(out, grey_percent=grey, thickness_mm=44.0)))


def test_the_cure_is_worked_out_anew_and_own_slices_have_their_say() -> None:
    old = set_minutes(batch(mix=MIX, thickness_mm=44.0), "s6", 9999.0, BERLIN)
    assert step(old, "cure").minutes == 9999.0
    plain = repeat(old, 3000.0, "2027-04-01T09:00", NOW, names("n"), zone=BERLIN)
    assert step(plain, "cure").minutes == lengths(plain.mix, 44.0)["cure"].minutes
    assert step(plain, "cure").why.startswith("worked out")
    slow = cured("Slow", days=7, grey=60.0, prefix="g")
    new = repeat(slow.batch, 3000.0, "2027-04-01T09:00", NOW, names("n"), zone=BERLIN, pasts=[slow])
    assert step(new, "cure").minutes > step(plain, "cure").minutes
    assert "own slice" in step(new, "cure").why
    advised = repeat(
        slow.batch, 3000.0, "2027-04-01T09:00", NOW, names("n"), pasts=[slow], taken=(DAYS,)
    )
    assert step(advised, "cure").minutes == 14_400


def test_what_the_cook_chose_is_as_it_was_and_what_ends_by_feel_is_the_middle_of_all() -> None:
    def smoked(name: str, prefix: str, smoke_h: float, rest_h: float) -> Past:
        made, at = batch(name, mix=MIX, ids=names(prefix)), moment("2027-03-01T06:00")
        for stage, hours in (("smoke", smoke_h), ("wrap", 4.0), ("rest", rest_h), ("slice", 0.0)):
            made = mark_done(made, step(made, stage).id, at, BERLIN)  # type: ignore[arg-type]
            at = evolve(at, utc_s=at.utc_s + 3600.0 * hours)
        return Past(made)

    one, other = smoked("One", "a", 5.0, 1.0), smoked("Other", "b", 7.0, 3.0)
    new = repeat(one.batch, 3000.0, "2027-04-01T09:00", NOW, names("n"), pasts=[one, other])
    assert (step(new, "smoke").minutes, step(new, "rest").minutes) == (360.0, 60.0)
    assert step(new, "smoke").why == "middle of 2 batches of your own"
    assert step(new, "rest").why == "as it was in One"
    assert step(new, "dry").why == PRACTICE
    longer = set_minutes(one.batch, step(one.batch, "dry").id, 1440, BERLIN)
    dried = step(repeat(longer, 3000.0, "2027-04-01T09:00", NOW, names("n")), "dry")
    assert (dried.minutes, dried.why) == (1440.0, "as planned for One")
    alone = repeat(one.batch, 3000.0, "2027-04-01T09:00", NOW, names("n"))
    assert step(alone, "smoke").minutes == step(one.batch, "smoke").minutes


def test_frozen_meat_thaws_and_another_method_brings_its_stages() -> None:
    old = batch(mix=evolve(MIX, method="dry"))
    frozen = repeat(old, 3000.0, "2027-04-01T09:00", NOW, names("n"), thawed=True)
    assert step(frozen, "thaw").minutes == 2 * 1440
    fresh = repeat(frozen, 3000.0, "2027-04-01T09:00", NOW, names("n"), thawed=False)
    assert "thaw" not in {one.stage for one in fresh.plan}
    needle = Advice("inject", "", "", "a guess", mix_changes=(("method", "injection"),))
    pumped = repeat(old, 3000.0, "2027-04-01T09:00", NOW, names("n"), taken=(needle,))
    assert {"chill", "soak"} <= {one.stage for one in pumped.plan}
    assert "chill" not in {one.stage for one in old.plan}


@pytest.mark.parametrize("grams", [0.0, -1.0, float("nan"), float("inf")])
def test_a_weight_that_cannot_be_is_refused(grams: float) -> None:
    with pytest.raises(ValueError, match="must weigh more than 0 g"):
        repeat(batch(mix=MIX), grams, "2027-04-01T09:00", NOW, names("n"))


def test_another_thickness_has_its_days_worked_out_anew() -> None:
    old = batch(mix=MIX, thickness_mm=44.0)
    new = repeat(old, 3000.0, "2027-04-01T09:00", NOW, names("n"), thickness_mm=70.0)
    assert new.thickness_mm == 70.0
    assert step(new, "cure").minutes > step(old, "cure").minutes
    asked = batch(mix=evolve(MIX, days=8.0), thickness_mm=40.0)
    new = repeat(asked, 3000.0, "2027-04-01T09:00", NOW, names("n"), thickness_mm=60.0)
    assert new.mix.days == 18.0  # 8 · (60/40)²
    assert step(new, "cure").minutes == 18 * 1440
    pumped = batch(mix=evolve(MIX, days=4.0, method="injection"), thickness_mm=40.0)
    new = repeat(pumped, 3000.0, "2027-04-01T09:00", NOW, names("n"), thickness_mm=60.0)
    assert new.mix.days == 4.0


def test_advice_taken_up_is_in_mix_and_plan_and_is_kept_by_name() -> None:
    old = batch(mix=MIX, thickness_mm=44.0, fat_cap_on=True)
    new = repeat(old, 3000.0, "2027-04-01T09:00", NOW, names("n"), taken=(DAYS, SOAK))
    assert new.mix.days == 10.0
    assert step(new, "cure").minutes == 14_400
    assert step(new, "soak").minutes == 360
    assert new.advice_taken == ("days", "soak")
    assert new.fat_cap_on
    off = repeat(old, 3000.0, "2027-04-01T09:00", NOW, names("n"), taken=(CAP,))
    assert not off.fat_cap_on
    assert not off.mix.fat_cap_on
    own = {"cure": Length(12 * 1440)}
    said = repeat(
        old,
        3000.0,
        "2027-04-01T09:00",
        NOW,
        names("n"),
        taken=(DAYS,),
        own_lengths=own,  # type: ignore[arg-type]
    )
    assert step(said, "cure").minutes == 12 * 1440


def test_days_advised_go_with_the_square_of_the_thickness() -> None:
    old = batch(mix=MIX, thickness_mm=40.0)
    new = repeat(
        old, 3000.0, "2027-04-01T09:00", NOW, names("n"), taken=(DAYS, SOAK), thickness_mm=50.0
    )
    assert new.mix.days == 16.0  # 10 · (50/40)² = 15.6
    assert step(new, "cure").minutes == 16 * 1440
    assert step(new, "soak").minutes == 360
