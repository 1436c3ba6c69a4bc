"""Thawing told for a batch: by what was weighed, from when it was put to thaw."""

from app.journal.entries import weighed
from app.journal.marks import mark_done
from app.journal.records import Entry
from app.journal.thaw_told import thaw_told
from tests.journal.made import BERLIN, NOW, batch, moment, step


def test_it_goes_by_the_weight_as_bought_and_from_when_it_was_put_there() -> None:
    # Michigan State University Extension, E3259: 24 h for every 5 lb.
    made = batch(thawed=True)
    made = mark_done(made, step(made, "thaw").id, moment("2027-02-20T12:00"), BERLIN)
    line = Entry("e", made.id, NOW, "buy", weighed(10 * 453.59237), NOW)
    told = thaw_told(made, [line])
    assert told is not None
    assert told.planned
    assert round(told.time.hours, 6) == 48.0
    assert told.ready == moment("2027-02-22T12:00")


def test_without_the_step_it_is_told_for_the_case_and_ends_with_the_cure() -> None:
    made = batch()
    told = thaw_told(made, [])
    assert told is not None
    assert not told.planned
    assert told.begun is None
    assert round(told.time.hours, 3) == 31.747
    assert thaw_told(mark_done(made, step(made, "cure").id, NOW, BERLIN), []) is None
