"""Too few days in the cure: when it is said, by how much, and when it is not."""

from typing import Any

import pytest
from attrs import evolve

from app.cure.meat import cut_of
from app.cure.request import MixRequest
from app.journal.advised import Past
from app.journal.lengths import Length
from app.journal.marks import mark_done, skip
from app.journal.plan import move, replan, set_minutes
from app.journal.records import Batch, SliceOutcome
from app.journal.safety import texts
from app.journal.short_cure import NOT_REACHED, ShortCure, short_cure, short_of
from tests.journal.made import BERLIN, batch, moment, step

NOW = "2027-02-20T09:00"
TEN = {"cure": Length(10 * 1440.0, "worked out by how far nitrite moves in the days")}


def thick(**given: Any) -> Batch:
    """60 mm of brisket flat: 10 days by the model, rounded up from 9.3."""
    return batch(thickness_mm=60.0, own_lengths=TEN, **given)


def short(of: Batch, now: str = NOW, pasts: list[Past] | None = None) -> ShortCure:
    found = short_cure(of, now, pasts or (), BERLIN)
    assert found is not None
    return found


def lasting(of: Batch, days: float) -> Batch:
    return set_minutes(of, step(of, "cure").id, days * 1440.0, BERLIN)


@pytest.mark.parametrize(
    "made",
    [
        thick(),
        thick(serve="2027-03-20T18:00"),
        lasting(thick(), 12),
        lasting(thick(), 9.9),  # Two hours, beside a range of days, are nothing.
        # What the program worked out is not doubted, even where its own slices have it shorter.
        batch(thickness_mm=60.0, own_lengths={"cure": Length(6 * 1440.0, "from your own slices")}),
        evolve(lasting(thick(), 4), finished=True),
        evolve(lasting(thick(), 4), outcome=SliceOutcome(moment("2027-03-10T18:00"))),
        skip(lasting(thick(), 4), step(thick(), "cure").id, BERLIN),
        # Never pink, however long: that is the mix's own warning.
        lasting(thick(mix=MixRequest(3000.0, nitrite_ppm=10.0)), 4),
        lasting(thick(mix=MixRequest(3000.0, nitrite_ppm=5000.0)), 4),
    ],
)
def test_nothing_is_said_where_nothing_is_short_or_no_model_can_tell(made: Batch) -> None:
    assert short_cure(made, NOW, zone=BERLIN) is None


def test_a_length_set_shorter_says_how_many_days_are_short_and_what_stays_grey() -> None:
    told = short(lasting(thick(), 5))
    assert (told.days, told.needed, told.short_days) == (5.0, 10.0, 5.0)
    assert told.may_inject
    assert told.sentence.startswith("5 days in the cure, 5 fewer than the 10 worked out for it. ")
    assert "likely does not reach the middle" in told.sentence
    near = short(lasting(thick(), 8.5))
    assert "8.5 days in the cure, 1.5 fewer" in near.sentence
    assert "may not reach the middle: in slow meat" in near.sentence
    assert short(lasting(thick(), 1)).sentence.startswith("1 day in the cure, 9 fewer")
    greys = [short(lasting(thick(), days)).grey for days in (0, 2, 4, 6, 8)]
    likely = [grey.likely for grey in greys if grey]
    assert likely == sorted(likely, reverse=True)
    assert likely[0] > likely[-1]


def test_it_is_likely_only_where_the_middle_likely_stays_without_cure() -> None:
    assert short(lasting(thick(), 3)).likely
    only_just = short(lasting(thick(), 9))
    assert only_just.grey is not None
    assert only_just.grey.likely < 0.5
    assert not only_just.likely


def test_an_unmeasured_thickness_is_named_as_such() -> None:
    usual = cut_of(batch().mix.cut).thickness_mm
    for unmeasured in (batch(), batch(thickness_mm=usual)):
        told = short(lasting(unmeasured, 2)).sentence
        assert "worked out for the usual thickness of its cut." in told
    assert "worked out for it." in short(lasting(thick(), 3)).sentence


def test_a_step_held_before_the_cure_is_over_cuts_the_days_off() -> None:
    made = thick()
    early = move(made, step(made, "end").id, "2027-02-25T18:00", BERLIN)
    # From 06:00 on the 21st, and no sooner, to 18:00 on the 25th.
    assert step(early, "cure").due == "2027-02-21T06:00"
    assert short(early).days == 4.5
    # What follows is held: looked at two days later, two days more are gone.
    assert short(early, "2027-02-22T09:00").days < short(early).days - 1.0


def test_a_meal_brought_forward_cuts_the_days_off_before_it_and_under_way() -> None:
    made = thick(serve="2027-03-20T18:00")
    assert short(replan(made, BERLIN, serve="2027-02-27T18:00")).short_days > 4
    for stage in ("buy", "trim", "mix", "chill", "cure"):
        one = step(made, stage)  # type: ignore[arg-type]
        made = mark_done(made, one.id, moment(one.due), BERLIN)
    now = step(made, "cure").due
    assert short_cure(made, now, zone=BERLIN) is None
    sooner = replan(made, BERLIN, serve="2027-03-18T18:00")
    told = short(sooner, now)
    assert round(told.short_days, 1) == 2.0
    assert not told.may_inject


def test_taken_out_early_it_is_said_until_it_was_sliced() -> None:
    made = mark_done(thick(), step(thick(), "cure").id, moment("2027-02-20T12:00"), BERLIN)
    out = mark_done(made, step(made, "end").id, moment("2027-02-24T12:00"), BERLIN)
    told = short(out, "2027-02-24T13:00")
    assert told.over
    assert told.sentence.startswith("It lay in the cure 4 days, 6 fewer than the 10")
    assert not told.may_inject
    # Nobody marked when it went in, so nobody knows how long it lay.
    unmarked = mark_done(thick(), step(thick(), "end").id, moment("2027-02-24T12:00"), BERLIN)
    assert short_cure(unmarked, "2027-02-24T13:00", zone=BERLIN) is None


def test_days_asked_of_the_mix_and_those_of_a_strong_brine_are_held_against_the_model() -> None:
    for mix in (MixRequest(3000.0, days=5.0), MixRequest(3000.0, method="cover", days=5.0)):
        asked = batch(
            mix=mix, thickness_mm=60.0, own_lengths={"cure": Length(5 * 1440.0, "as asked")}
        )
        assert short(asked).short_days == 5.0
        # Taken up from advice, they were worked out.
        assert short_cure(evolve(asked, advice_taken=("days",)), NOW, zone=BERLIN) is None
    usual = batch(mix=MixRequest(3000.0, method="cover"), thickness_mm=60.0)
    assert (short(usual).days, short(usual).needed) == (7.0, 10.0)


def test_a_plan_held_down_to_thirty_days_says_so() -> None:
    held = batch(thickness_mm=130.0, own_lengths={"cure": Length(30 * 1440.0)})
    assert short(held).needed > 40


def test_the_needle_is_told_of_its_holes() -> None:
    made = thick(mix=MixRequest(3000.0, method="injection"))
    told = short(lasting(made, 2))
    assert (told.needed, told.grey, told.may_inject) == (4.0, None, False)
    assert "Between the needle's holes the cure may not have met." in told.sentence


def test_own_slices_move_the_days_that_are_asked_for() -> None:
    past = mark_done(thick(), step(thick(), "cure").id, moment("2027-01-01T12:00"), BERLIN)
    past = mark_done(past, step(past, "end").id, moment("2027-01-08T12:00"), BERLIN)
    slow = evolve(past, outcome=SliceOutcome(moment("2027-01-10T12:00"), grey_percent=50.0))
    made = lasting(thick(), 5)
    assert short(made, pasts=[Past(slow)] * 4).needed > short(made).needed
    assert short_of(evolve(made, plan=()), 5.0) is None


def test_what_it_means_is_told_in_the_cooks_units_with_a_source() -> None:
    assert "145 °F (62.8 °C)" in texts([NOT_REACHED])[0]
    assert "62.8 °C (145 °F)" in texts([NOT_REACHED], "metric")[0]
    for words in ("like fresh beef", "no longer safe to hold as cured", "Local food codes"):
        assert words in NOT_REACHED.text
    assert "FSIS" in NOT_REACHED.source
