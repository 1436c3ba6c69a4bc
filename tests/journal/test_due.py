"""What is overdue, due, next and under way."""

import pytest
from attrs import evolve

from app.journal.due import due_list, due_words, under_way, waiting
from app.journal.marks import mark_done
from tests.journal.made import BERLIN, batch, moment, names, step


@pytest.mark.parametrize(
    ("now", "words"),
    [
        ("2027-03-06T20:00", "2 h late"),
        ("2027-03-06T18:20", "20 min late"),
        ("2027-03-06T18:00", "now"),
        ("2027-03-06T17:20", "in 40 min"),
        ("2027-03-06T15:30", "in 2 h 30 min"),
        ("2027-03-06T09:00", "today 18:00"),
        ("2027-03-03T09:00", "Saturday 18:00"),
        ("2027-03-10T18:00", "4 days late"),
    ],
)
def test_how_a_time_stands_is_said_plainly(now: str, words: str) -> None:
    assert due_words("2027-03-06T18:00", now, BERLIN) == words


def test_lateness_is_counted_in_real_hours_over_the_clock_change() -> None:
    assert due_words("2027-03-28T01:30", "2027-03-28T04:30", BERLIN) == "2 h late"
    assert due_words("2027-10-31T01:30", "2027-10-31T04:30", BERLIN) == "4 h late"
    assert due_words("2027-03-28T01:30", "2027-03-28T04:30") == "3 h late"


def test_steps_of_all_batches_stand_in_the_order_of_time() -> None:
    one = batch("One")
    two = batch("Two", start="2027-02-20T09:30", ids=names("t"))
    found = due_list([two, one], "2027-02-20T09:20", BERLIN)
    assert [(d.batch_name, d.step.stage, d.when, d.words) for d in found[:4]] == [
        ("One", "buy", "overdue", "20 min late"),
        ("Two", "buy", "due", "in 10 min"),
        ("One", "trim", "due", "in 40 min"),
        ("Two", "trim", "next", "in 1 h 10 min"),
    ]
    assert [d.step.due for d in found] == sorted(d.step.due for d in found)
    later = [d for d in found if d.when in ("next", "later")]
    assert {(d.batch_name, d.step.stage) for d in later if d.when == "next"} == {
        ("One", "chill"),
        ("Two", "trim"),
    } or sum(d.when == "next" for d in later) == 2
    assert len(found) == len(one.plan) + len(two.plan)


def test_a_quarter_of_an_hour_past_is_due_and_not_yet_late() -> None:
    made = batch()
    assert due_list([made], "2027-02-20T09:15", BERLIN)[0].when == "due"
    assert due_list([made], "2027-02-20T09:16", BERLIN)[0].when == "overdue"
    assert due_list([made], "2027-02-20T08:00", BERLIN)[0].when == "due"
    assert due_list([made], "2027-02-20T07:59", BERLIN)[0].when == "next"


def test_what_is_done_left_out_or_finished_waits_no_more() -> None:
    made = batch()
    done = mark_done(made, made.plan[0].id, moment("2027-02-20T10:00"), BERLIN)
    assert made.plan[0].id not in {one.id for one in waiting(done)}
    assert len(waiting(done)) == len(made.plan) - 1
    assert waiting(evolve(made, finished=True)) == ()
    assert due_list([evolve(made, finished=True)], "2027-02-20T10:00") == ()
    with pytest.raises(ValueError, match="was expected"):
        due_list([made], "now")


def begun(stage: str, at: str) -> object:
    made = batch()
    return mark_done(made, step(made, stage).id, moment(at), BERLIN)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("now", "words", "part"),
    [
        ("2027-02-20T22:00", "until Saturday 27 February 22:30", 0.0),
        ("2027-02-20T23:00", "day 1 of 7, until Saturday 27 February 22:30", 0.003),
        ("2027-02-23T10:30", "day 3 of 7, until Saturday 22:30", 0.357),
        ("2027-02-27T22:30", "7 days so far, until today 22:30", 1.0),
        ("2027-02-28T12:30", "7.5 days so far, 14 h over", 1.0),
    ],
)
def test_a_running_cure_tells_its_day(now: str, words: str, part: float) -> None:
    (running,) = under_way([begun("cure", "2027-02-20T22:30")], now, BERLIN)  # type: ignore[list-item]
    assert running.words == words
    assert round(running.part, 3) == part
    assert running.since == "2027-02-20T22:30"
    assert running.until == "2027-02-27T22:30"


def test_a_running_smoke_tells_its_hours_and_stops_when_what_follows_is_done() -> None:
    made = batch()
    smoking = mark_done(made, step(made, "smoke").id, moment("2027-03-01T06:30"), BERLIN)
    (running,) = under_way([smoking], "2027-03-01T09:30", BERLIN)
    assert running.words == "3 h so far, until today 12:30"
    assert running.part == 0.5
    wrapped = mark_done(smoking, step(made, "wrap").id, moment("2027-03-01T12:00"), BERLIN)
    assert under_way([wrapped], "2027-03-01T12:10", BERLIN) == ()
    assert under_way([evolve(smoking, finished=True)], "2027-03-01T09:30", BERLIN) == ()
    turned = mark_done(
        mark_done(made, step(made, "cure").id, moment("2027-02-20T22:30"), BERLIN),
        step(made, "turn").id,
        moment("2027-02-22T22:30"),
        BERLIN,
    )
    assert [one.step.stage for one in under_way([turned], "2027-02-23T09:00", BERLIN)] == ["cure"]


def test_a_stage_of_no_length_is_over_at_once() -> None:
    made = batch()
    dry = evolve(step(made, "dry"), minutes=0.0, done=moment("2027-02-28T08:00"))
    (running,) = under_way([evolve(made, plan=(dry,))], "2027-02-28T08:30", "")
    assert running.part == 1.0
    assert running.words == "30 min so far, 30 min over"
