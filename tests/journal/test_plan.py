"""Plans made, worked forward and back, moved and grown."""

from datetime import datetime
from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from app.cure.request import Method, MixRequest
from app.journal.chain import (
    RUNNING,
    STAGES,
    active,
    earliest_s,
    ends_s,
    kept,
    waits_for,
)
from app.journal.fits import misfits
from app.journal.lengths import Length
from app.journal.marks import mark_done, skip, unskip
from app.journal.plan import add_stage, move, new_batch, replan, set_minutes, step_of
from app.journal.reckon import work_back, work_forward
from app.journal.records import Batch, Stage, Step
from app.journal.wall import instant_s, minutes_between, plus, wall_at, write_wall
from tests.journal.made import BERLIN, NOW, batch, due, moment, names, step

METHODS: tuple[Method, ...] = ("equilibrium", "cover", "injection", "dry")


def order_is_kept(steps: tuple[Step, ...], zone: str = "") -> None:
    """No step begins before all it waits for is over (a minute is rounding)."""
    for one in active(steps):
        earliest = None if one.stage == "turn" else earliest_s(one, steps, zone)
        if earliest is not None:
            assert instant_s(one.due, zone) >= earliest - 60.0, (one, wall_at(earliest, zone))


plans = st.builds(
    lambda method, grams, mm, thawed, smoked, minutes: batch(
        mix=MixRequest(grams, method=method),
        thickness_mm=mm,
        thawed=thawed,
        smoked=smoked,
        zone="",
        own_lengths={stage: Length(length) for stage, length in minutes.items()},
    ),
    st.sampled_from(METHODS),
    st.floats(300, 20_000),
    st.none() | st.floats(10, 150),
    st.booleans(),
    st.booleans(),
    st.dictionaries(st.sampled_from(STAGES), st.integers(0, 4000), max_size=5),
)


def test_a_plan_from_the_shop_on_has_the_usual_stages_in_their_order() -> None:
    made = batch()
    stages = [one.stage for one in made.plan if one.stage != "turn"]
    assert stages == [
        *("buy", "trim", "mix", "chill", "cure", "end", "dry", "rub", "smoke"),
        *("wrap", "finish", "tender", "rest", "slice", "store"),
    ]
    assert due(made, "buy") == "2027-02-20T09:00"
    assert due(made, "trim") == "2027-02-20T10:00"
    assert (
        due(made, "cure") == "2027-02-21T06:00"
    )  # It would be cold at 23:00, left for the morning.
    assert due(made, "end") == "2027-02-28T07:00"
    assert due(made, "rub") == "2027-03-01T06:00"
    assert due(made, "slice") == "2027-03-01T19:00"
    assert all(one.title for one in made.plan)
    assert len({one.id for one in made.plan} | {made.id}) == len(made.plan) + 1


@pytest.mark.parametrize(
    ("method", "smoked", "thawed", "there", "not_there"),
    [
        ("equilibrium", True, False, {"smoke", "chill"}, {"soak", "thaw"}),
        ("cover", True, True, {"soak", "thaw"}, set()),
        ("injection", False, False, {"soak", "finish"}, {"smoke", "rub", "wrap", "dry"}),
        ("dry", True, False, {"turn"}, {"chill", "soak"}),
    ],
)
def test_the_stages_hang_on_the_method_and_the_meat(
    method: Method, smoked: bool, thawed: bool, there: set[Stage], not_there: set[Stage]
) -> None:
    made = batch(mix=MixRequest(3000.0, method=method), smoked=smoked, thawed=thawed)
    stages = {one.stage for one in made.plan}
    assert there <= stages
    assert not stages & not_there


def test_worked_back_the_last_step_ends_at_the_meal() -> None:
    made = batch(serve="2027-03-06T18:00")
    assert plus(due(made, "slice"), step(made, "slice").minutes, BERLIN) == "2027-03-06T18:00"
    assert due(made, "store") == "2027-03-06T19:30"  # Inside two hours of the meal.
    order_is_kept(made.plan, BERLIN)


def test_what_is_left_of_a_slice_cut_early_is_put_away_inside_two_hours() -> None:
    made = batch(serve="2027-03-06T18:00")
    for one in made.plan:
        if one.stage != "store":
            made = mark_done(made, one.id, moment("2027-03-01T12:00"), BERLIN)
    assert due(made, "store") == "2027-03-01T13:30"  # FSIS: two hours, less a half to eat.


def test_a_cure_over_the_clock_change_keeps_its_real_hours() -> None:
    made = batch(serve="2027-03-30T18:00")
    cure, end = step(made, "cure"), step(made, "end")
    assert minutes_between(cure.due, end.due, BERLIN) == cure.minutes == 7 * 1440
    assert cure.due[11:] != end.due[11:]
    assert [one.due[11:] for one in made.plan if one.stage == "turn"] == [cure.due[11:]] * 3


def test_the_brine_is_made_just_in_time_and_no_earlier() -> None:
    made = batch(mix=MixRequest(9000.0), thawed=True)
    assert due(made, "thaw") < due(made, "mix")
    # For the weight the meat has once it is trimmed.
    assert due(made, "trim") < due(made, "mix")
    assert due(made, "mix")[11:] == "17:30"
    assert plus(due(made, "mix"), 30, BERLIN) <= due(made, "chill")
    assert plus(due(made, "chill"), 720, BERLIN) == due(made, "cure")


@pytest.mark.parametrize(
    ("given_", "said"),
    [
        ({"name": "  "}, "needs a name"),
        ({"cut": ""}, "which cut"),
        ({"start": "soon"}, "was expected"),
        ({"serve": "later"}, "was expected"),
        ({"mix": MixRequest(0.0)}, "more than 0 g"),
        ({"mix": MixRequest(float("nan"))}, "more than 0 g"),
        ({"thickness_mm": -4.0}, "more than 0 mm"),
        ({"zone": "Mars/Base"}, "time zone"),
    ],
)
def test_a_batch_that_cannot_be_is_refused_with_a_sentence(
    given_: dict[str, object], said: str
) -> None:
    with pytest.raises(ValueError, match=said):
        batch(**given_)  # type: ignore[arg-type]


def test_without_a_start_the_plan_begins_at_the_next_quarter_of_an_hour() -> None:
    made = new_batch(
        MixRequest(3000.0), "Flat", "A", moment("2027-02-20T09:04"), ids=names(), zone=BERLIN
    )
    assert due(made, "buy") == "2027-02-20T09:15"
    assert made.created == made.changed == moment("2027-02-20T09:04")


def test_moving_the_cure_moves_what_hangs_on_it_and_brings_the_brine_along() -> None:
    made = batch()
    moved = move(made, step(made, "cure").id, "2027-02-22T12:00", BERLIN)
    assert due(moved, "cure") == "2027-02-22T12:00"
    assert step(moved, "cure").moved_by_hand
    assert due(moved, "chill") == "2027-02-22T00:00"
    assert due(moved, "mix") == "2027-02-21T21:00"  # Half past eleven would be night.
    assert due(moved, "trim") == due(made, "trim")
    assert due(moved, "end") == "2027-03-01T12:00"
    assert [one.due for one in moved.plan if one.stage == "turn"] == [
        "2027-02-24T12:00",
        "2027-02-26T12:00",
        "2027-02-28T12:00",
    ]
    order_is_kept(moved.plan, BERLIN)
    assert [one.minutes for one in moved.plan] == [one.minutes for one in made.plan]


def test_what_was_moved_by_hand_stays_when_something_before_it_moves() -> None:
    made = batch()
    held = move(made, step(made, "smoke").id, "2027-03-03T08:00", BERLIN)
    moved = move(held, step(made, "cure").id, "2027-02-21T12:00", BERLIN)
    assert due(moved, "smoke") == "2027-03-03T08:00"
    assert due(moved, "end") == "2027-02-28T12:00"
    assert due(moved, "wrap") == due(held, "wrap") == "2027-03-03T14:00"


def test_in_a_plan_for_a_meal_a_step_that_can_wait_waits_and_the_meal_stays() -> None:
    made = batch(serve="2027-03-06T18:00")
    earlier = move(made, step(made, "cure").id, "2027-02-25T12:00", BERLIN)
    assert due(earlier, "end") == due(made, "end")
    later = move(made, step(made, "smoke").id, "2027-03-06T07:00", BERLIN)
    assert due(later, "wrap") == "2027-03-06T13:00"
    assert due(later, "slice") == due(made, "slice")


@pytest.mark.parametrize(
    ("method", "waits"), [("equilibrium", True), ("cover", False), ("injection", False)]
)
def test_meat_comes_out_of_a_strong_brine_when_its_days_are_over(
    method: Method, waits: bool
) -> None:
    made = batch(mix=MixRequest(3000.0, method=method), serve="2027-03-06T18:00")
    moved = move(made, step(made, "cure").id, "2027-02-23T12:00", BERLIN)
    over = plus("2027-02-23T12:00", step(made, "cure").minutes, BERLIN)
    assert due(moved, "end") == (due(made, "end") if waits else over)


def test_a_longer_smoke_begins_earlier_for_a_meal_and_ends_later_without_one() -> None:
    free, meal = batch(), batch(serve="2027-03-06T18:00")
    longer = set_minutes(free, step(free, "smoke").id, 480, BERLIN)
    assert due(longer, "smoke") == due(free, "smoke")
    assert due(longer, "wrap") == plus(due(free, "wrap"), 120, BERLIN)
    longer = set_minutes(meal, step(meal, "smoke").id, 480, BERLIN)
    assert due(longer, "wrap") == due(meal, "wrap")
    assert due(longer, "smoke") == plus(due(meal, "smoke"), -120, BERLIN)


@pytest.mark.parametrize("minutes", [-1.0, float("nan"), float("inf"), 1e9])
def test_a_length_that_cannot_be_is_refused(minutes: float) -> None:
    made = batch()
    with pytest.raises(ValueError, match="length from 0 min to a year"):
        set_minutes(made, made.plan[0].id, minutes)


def test_a_step_that_is_not_there_is_said_by_the_batchs_name() -> None:
    with pytest.raises(ValueError, match="Flat for Easter has no step 'x'"):
        step_of(batch(), "x")


@pytest.mark.parametrize("serve", [None, "2027-03-06T18:00"])
def test_a_soak_added_makes_room_for_itself(serve: str | None) -> None:
    made = batch(serve=serve)
    grown = add_stage(made, "soak", names("n"), BERLIN)
    soak = step(grown, "soak")
    assert soak.id == "n1"
    assert soak.title
    order_is_kept(grown.plan, BERLIN)
    assert minutes_between(soak.due, due(grown, "dry"), BERLIN) == soak.minutes == 480
    if serve:
        assert due(grown, "slice") == due(made, "slice")
        assert (
            due(grown, "end") == "2027-03-04T20:00"
        )  # The evening before a soak from one o'clock.
    else:
        assert minutes_between(due(grown, "end"), soak.due, BERLIN) == 15


def test_a_stage_is_there_once_but_turns_may_be_many() -> None:
    made = batch()
    with pytest.raises(ValueError, match="already has this step"):
        add_stage(made, "smoke", names("n"), BERLIN)
    grown = add_stage(made, "turn", names("n"), BERLIN, minutes=10)
    turns = [one for one in grown.plan if one.stage == "turn"]
    assert len(turns) == 4
    assert turns[-1].due == "2027-03-01T07:00"
    assert turns[-1].minutes == 10
    bare = evolve(made, plan=())
    assert due(add_stage(bare, "turn", names("n"), BERLIN), "turn") == "2027-02-20T09:00"
    assert due(add_stage(bare, "rest", names("n"), BERLIN), "rest") == "2027-02-20T09:00"


def test_a_plan_is_worked_anew_for_another_meal_or_another_start() -> None:
    made = batch(serve="2027-03-06T18:00")
    later = replan(made, BERLIN, serve="2027-03-07T12:00")
    assert later.serve == "2027-03-07T12:00"
    assert due(later, "slice") == "2027-03-07T11:45"
    forward = replan(made, BERLIN, start="2027-02-21T10:00")
    assert forward.serve is None
    assert due(forward, "buy") == "2027-02-21T10:00"
    assert replan(made, BERLIN) == made
    assert replan(batch(), BERLIN) == batch()
    with pytest.raises(ValueError, match="not both"):
        replan(made, BERLIN, serve="2027-03-07T12:00", start="2027-02-21T10:00")
    assert replan(evolve(made, plan=(), serve=None), BERLIN).plan == ()


def test_a_plan_of_chosen_stages_looks_through_those_left_out() -> None:
    made = batch(stages=("cure", "finish", "slice"), serve="2027-03-06T18:00")
    assert due(made, "finish") == plus("2027-03-06T17:45", -240, BERLIN)
    assert due(made, "cure") == plus(due(made, "finish"), -7 * 1440, BERLIN)
    no_cure = batch(stages=("turn", "smoke", "store"), serve="2027-03-06T18:00")
    assert [one.stage for one in no_cure.plan] == ["smoke", "store"]
    only_store = batch(stages=("store",), serve="2027-03-06T18:00")
    assert due(only_store, "store") == "2027-03-06T18:00"
    assert waits_for("slice", frozenset({"cure"})) == {"cure"}
    assert waits_for("buy", frozenset(STAGES)) == frozenset()


@given(plans)
@settings(max_examples=40, deadline=None)
def test_order_is_kept_forward(made: Batch) -> None:
    order_is_kept(made.plan)


@given(plans, st.integers(0, 40))
@settings(max_examples=40, deadline=None)
def test_order_is_kept_back_and_the_meal_is_met(made: Batch, days: int) -> None:
    serve = plus("2027-04-01T18:00", 1440 * days)
    back = work_back(made.plan, serve)
    order_is_kept(back)
    before = [one for one in active(back) if one.stage not in ("store", "turn")]
    assert wall_at(max(ends_s(one) for one in before)) == serve


@given(plans)
@settings(max_examples=40, deadline=None)
def test_worked_back_then_forward_from_its_own_start_meets_the_same_meal(made: Batch) -> None:
    serve = "2027-04-20T18:00"
    back = work_back(made.plan, serve, nights=True)
    forward = work_forward(back, min(one.due for one in back), nights=True)
    late = minutes_between(*(s.due for plan in (back, forward) for s in plan if s.stage == "slice"))
    assert abs(late) <= 1  # Each step is written to the minute.
    assert work_back(forward, serve, nights=True) == back


@given(plans)
@settings(max_examples=40, deadline=None)
def test_no_handling_is_planned_in_the_night_that_could_be_done_by_day(made: Batch) -> None:
    meal = work_back(made.plan, "2027-04-20T18:00")
    for plan in (made.plan, meal):
        for one in plan:
            if one.stage in ("trim", "end") and made.mix.method not in ("cover", "injection"):
                assert 7 <= int(one.due[11:13]) < 21
    assert all(8 <= int(one.due[11:13]) < 21 for one in meal if one.stage == "buy")


@given(plans, st.data(), st.integers(-5 * 1440, 12 * 1440), st.booleans())
@settings(max_examples=80, deadline=None)
def test_moving_one_step_keeps_order_behind_it_and_everything_before_it(
    made: Batch, data: st.DataObject, minutes: int, meal: bool
) -> None:
    if meal:
        made = replan(made, serve="2027-04-20T18:00")
    one = data.draw(st.sampled_from(made.plan))
    moved = move(made, one.id, plus(one.due, minutes))
    assert {s.id: s.minutes for s in moved.plan} == {s.id: s.minutes for s in made.plan}
    last = [s.id for s in active(moved.plan) if s.stage not in ("store", "turn")][-1]
    for after in active(moved.plan):
        if kept(after) or (meal and after.id == last):
            continue
        if after.stage in ("buy", "thaw", "trim", "mix", "chill", "turn"):
            continue  # These may be asked to come before what now is too late: said by misfits.
        earliest = earliest_s(after, moved.plan)
        assert earliest is None or instant_s(after.due) >= earliest - 60.0
    place = STAGES.index(one.stage)
    still = [s for s in made.plan if STAGES.index(s.stage) < min(place, STAGES.index("mix"))]
    assert [s for s in moved.plan if s.id in {x.id for x in still}] == still


@given(plans, st.data())
@settings(max_examples=30, deadline=None)
def test_moving_a_step_to_where_it_is_moves_nothing(made: Batch, data: st.DataObject) -> None:
    one = data.draw(st.sampled_from(made.plan))
    moved = move(made, one.id, one.due)
    assert [s.due for s in moved.plan] == [s.due for s in made.plan]


def test_the_meat_is_turned_in_waking_hours_and_finds_its_hour_again() -> None:
    made = batch()  # into the cure at 06:00
    turns = [one.due for one in made.plan if one.stage == "turn"]
    assert turns == ["2027-02-23T07:00", "2027-02-25T07:00", "2027-02-27T07:00"]
    early = move(made, step(made, "cure").id, "2027-02-21T18:30", BERLIN)
    assert [one.due for one in early.plan if one.stage == "turn"] == [
        "2027-02-23T18:30",
        "2027-02-25T18:30",
        "2027-02-27T18:30",
    ]
    back = move(early, step(made, "cure").id, "2027-02-21T06:00", BERLIN)
    assert [one.due for one in back.plan if one.stage == "turn"] == turns


@given(plans, st.datetimes(datetime(2027, 1, 1), datetime(2027, 12, 1)))
@settings(max_examples=40, deadline=None)
def test_no_turning_falls_in_the_night(made: Batch, when: datetime) -> None:
    moved = move(made, step(made, "cure").id, write_wall(when))
    for plan in (made.plan, moved.plan):
        assert all("07:00" <= one.due[11:] <= "21:00" for one in plan if one.stage == "turn")


@given(plans)
@settings(max_examples=20, deadline=None)
def test_turns_lie_inside_the_cure(made: Batch) -> None:
    cure = step(made, "cure")
    over = plus(cure.due, cure.minutes)
    turns = [one.due for one in made.plan if one.stage == "turn"]
    assert all(cure.due < turn < over for turn in turns)
    assert all(minutes_between(a, b) == 2880 for a, b in pairwise(turns))
    assert set(STAGES) >= RUNNING
    assert NOW.offset_min == 60


def test_longer_days_bring_more_turnings_and_shorter_ones_fewer() -> None:
    made = batch()
    cure = step(made, "cure")

    def turns(of: Batch) -> list[Step]:
        return [one for one in of.plan if one.stage == "turn"]

    longer = set_minutes(made, cure.id, 12 * 1440, BERLIN)
    assert len(turns(longer)) == 5
    assert [one.id for one in turns(longer)[:3]] == [one.id for one in turns(made)]
    again = set_minutes(longer, cure.id, 7 * 1440, BERLIN)
    assert turns(again) == turns(made)
    assert len({one.id for one in longer.plan}) == len(longer.plan)
    # Coming back, the same turning has the same name, so that a calendar does not double it.
    assert set_minutes(again, cure.id, 12 * 1440, BERLIN).plan == longer.plan
    held = move(made, turns(made)[1].id, "2027-02-25T12:00", BERLIN)
    assert turns(held)[1] in turns(set_minutes(held, cure.id, 12 * 1440, BERLIN))
    untouched = batch(stages=("cure", "smoke", "slice"))
    assert turns(set_minutes(untouched, step(untouched, "cure").id, 12 * 1440, BERLIN)) == []


def test_turnings_come_back_after_the_days_were_too_few_for_any() -> None:
    made = batch()
    cure = step(made, "cure")
    short = set_minutes(made, cure.id, 1440, BERLIN)
    assert not [one for one in short.plan if one.stage == "turn"]
    again = set_minutes(short, cure.id, cure.minutes, BERLIN)
    was, now = ([o for o in b.plan if o.stage == "turn"] for b in (made, again))
    assert [(o.due, o.minutes, o.title) for o in now] == [(o.due, o.minutes, o.title) for o in was]


@pytest.mark.parametrize("serve", [None, "2027-03-20T18:00"])
@pytest.mark.parametrize("stage", STAGES)
def test_every_step_can_be_moved_left_out_and_brought_back(stage: Stage, serve: str | None) -> None:
    made = batch(stages=STAGES, serve=serve)
    one = step(made, stage)
    for minutes in (-600.0, 600.0):
        to = plus(one.due, minutes, BERLIN)
        moved = move(made, one.id, to, BERLIN)
        assert step_of(moved, one.id).due == to
        before = {s.id: s for s in made.plan}
        hangs = [
            s
            for s in moved.plan
            if stage in waits_for(s.stage, frozenset(STAGES)) and s.stage != "turn"
        ]
        fits = not misfits(moved, "2027-02-20T08:00", BERLIN)
        late = [s for s in hangs if s.due < plus(to, one.minutes, BERLIN)]
        # What hangs on it has made room, or what does not fit is said.
        assert not late or not fits
        assert all(s.minutes == before[s.id].minutes for s in moved.plan)
    without = skip(made, one.id, BERLIN)
    assert step_of(without, one.id).skipped
    assert misfits(without, "2027-02-20T08:00", BERLIN) == ()
    order_is_kept(without.plan, BERLIN)
    back = unskip(without, one.id, BERLIN)
    assert not step_of(back, one.id).skipped
    assert misfits(back, "2027-02-20T08:00", BERLIN) == ()
    order_is_kept(back.plan, BERLIN)


@pytest.mark.parametrize("serve", [None, "2027-03-20T18:00"])
@pytest.mark.parametrize("stage", [stage for stage in STAGES if stage != "turn"])
def test_every_step_can_be_added(stage: Stage, serve: str | None) -> None:
    made = batch(stages=[one for one in STAGES if one != stage], serve=serve)
    grown = add_stage(made, stage, names("n"), BERLIN)
    assert step(grown, stage).minutes > 0
    order_is_kept(grown.plan, BERLIN)
    assert misfits(grown, "2027-02-20T08:00", BERLIN) == ()
