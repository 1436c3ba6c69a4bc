"""What no longer fits in a plan, and the sentence that says so."""

from attrs import evolve

from app.cure.request import MixRequest
from app.journal.fits import earliest_serving, misfits
from app.journal.marks import mark_done, skip
from app.journal.plan import move, replan, set_minutes
from tests.journal.made import BERLIN, batch, due, moment, step

NOW = "2027-02-20T09:00"


def sentences(of: object, now: str = NOW) -> str:
    return "\n".join(one.sentence for one in misfits(of, now, BERLIN))  # type: ignore[arg-type]


def test_a_fresh_plan_fits() -> None:
    assert misfits(batch(), NOW, BERLIN) == ()
    assert misfits(batch(serve="2027-03-06T18:00"), NOW, BERLIN) == ()


def test_too_few_days_in_the_cure_are_said_with_the_day_to_start_by_and_the_needle() -> None:
    made = batch()
    early = move(made, step(made, "end").id, "2027-02-25T18:00", BERLIN)
    (misfit,) = misfits(early, NOW, BERLIN)
    assert misfit.step_id == step(made, "cure").id
    assert misfit.start_by == "2027-02-18T18:00"
    assert round(misfit.short_min / 60, 1) == 60.0
    assert misfit.sentence == (
        "“Put the meat in the cure” needs 7 days before “Take it out and rinse”, "
        "Thursday 18:00, and lacks 2.5 days: start by Thursday 18 February 18:00, or inject."
    )
    injected = evolve(early, mix=MixRequest(3000.0, method="injection"))
    assert "or inject" not in sentences(injected)
    assert "or move what follows" in sentences(injected)


def test_a_step_moved_before_what_was_done_is_told_to_move() -> None:
    made = batch()
    begun = mark_done(made, step(made, "cure").id, moment("2027-02-20T22:30"), BERLIN)
    early = move(begun, step(made, "end").id, "2027-02-25T18:00", BERLIN)
    assert "comes 2 days too early after “Put the meat in the cure”" in sentences(early)
    assert "move it to a later time" in sentences(early)


def test_a_meal_too_near_says_when_it_should_have_begun_and_when_it_can_be() -> None:
    made = batch(serve="2027-02-26T18:00")
    (misfit,) = misfits(made, NOW, BERLIN)
    assert misfit.step_id == step(made, "buy").id
    assert misfit.start_by == due(made, "buy") == "2027-02-17T18:45"
    assert misfit.sentence.startswith(
        "To eat Friday 18:00: “Buy the meat and the cure” by Wednesday 17 February 18:45, "
        "or inject."
    )
    assert "on the table Monday 1 March 19:15" in misfit.sentence
    assert earliest_serving(made, NOW, BERLIN) == "2027-03-01T19:15"


def test_something_under_way_that_ends_too_late_is_said_too() -> None:
    made = batch(serve="2027-03-06T18:00")
    for stage in ("buy", "trim", "mix", "chill", "cure", "end", "dry", "rub"):
        one = step(made, stage)  # type: ignore[arg-type]
        made = mark_done(made, one.id, moment(one.due), BERLIN)
    late = mark_done(made, step(made, "smoke").id, moment("2027-03-06T08:15"), BERLIN)
    text = sentences(late, "2027-03-06T08:20")
    assert "To eat today 18:00" in text
    assert "it can be on the table today 21:00" in text
    assert "inject" not in text


def test_a_turn_outside_the_cure_is_said() -> None:
    made = batch()
    turn = step(made, "turn")
    outside = move(made, turn.id, "2027-03-05T08:00", BERLIN)
    (misfit,) = misfits(outside, NOW, BERLIN)
    assert misfit.step_id == turn.id
    assert "lies outside the days in the cure" in misfit.sentence
    assert misfits(skip(outside, turn.id, BERLIN), NOW, BERLIN) == ()
    no_cure = evolve(outside, plan=(step(outside, "turn"),))
    assert misfits(no_cure, NOW, BERLIN) == ()


def test_a_store_too_soon_counts_the_meal() -> None:
    made = batch(serve="2027-03-06T18:00")
    early = move(made, step(made, "store").id, "2027-03-06T18:30", BERLIN)
    (misfit,) = misfits(early, NOW, BERLIN)
    assert misfit.step_id == step(made, "slice").id


def test_nothing_is_said_of_what_is_over_or_empty() -> None:
    made = batch(serve="2027-02-26T18:00")
    assert misfits(evolve(made, finished=True), NOW, BERLIN) == ()
    assert misfits(evolve(made, plan=()), NOW, BERLIN) == ()
    eaten = mark_done(made, step(made, "slice").id, moment("2027-02-26T17:00"), BERLIN)
    assert not any("To eat" in one.sentence for one in misfits(eaten, NOW, BERLIN))
    assert earliest_serving(evolve(made, plan=()), NOW) == NOW


def test_a_length_that_runs_into_a_step_held_by_hand_is_said() -> None:
    made = batch()
    held = move(made, step(made, "slice").id, due(made, "slice"), BERLIN)
    longer = set_minutes(held, step(held, "rest").id, 240, BERLIN)
    (misfit,) = misfits(longer, NOW, BERLIN)
    assert misfit.step_id == step(made, "rest").id
    assert misfit.short_min == 120


def test_each_misfit_says_what_would_make_it_fit() -> None:
    made = batch()
    early = move(made, step(made, "end").id, "2027-02-25T18:00", BERLIN)
    (misfit,) = misfits(early, NOW, BERLIN)
    assert misfit.later_id == step(made, "end").id
    assert misfit.needle
    assert misfits(move(early, misfit.later_id, misfit.fits_at, BERLIN), NOW, BERLIN) == ()
    near = batch(serve="2027-02-26T18:00")
    (misfit,) = misfits(near, NOW, BERLIN)
    assert misfit.serve_at == "2027-03-01T19:15"
    assert misfits(replan(near, BERLIN, serve=misfit.serve_at), NOW, BERLIN) == ()
    begun = mark_done(made, step(made, "cure").id, moment("2027-02-20T22:30"), BERLIN)
    (misfit,) = misfits(move(begun, step(made, "end").id, "2027-02-25T18:00", BERLIN), NOW, BERLIN)
    assert not misfit.needle
