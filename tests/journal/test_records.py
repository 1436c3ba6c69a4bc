"""Records go through the store's generic structuring and come back the same."""

import cattrs
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from app.journal.entries import decided, felt, measured, noted, paid, pictured, weighed
from app.journal.marks import mark_done, skip
from app.journal.plan import move
from app.journal.records import Batch, Entry, Moment, SliceOutcome
from tests.journal.made import BERLIN, batch, moment, step

CONVERTER = cattrs.Converter()
BODIES = [
    weighed(3000),
    measured(60),
    felt("soft", "point", 95),
    decided("wrapped", 120, 70),
    noted("x"),
    pictured("p", "c"),
    paid(3, "EUR", "salt"),
]


def test_a_batch_with_all_its_parts_comes_back_the_same() -> None:
    made = batch(serve="2027-03-06T18:00", thickness_mm=44.0)
    made = move(made, step(made, "smoke").id, "2027-03-06T07:00", BERLIN)
    made = skip(made, step(made, "rub").id, BERLIN)
    made = mark_done(made, step(made, "buy").id, moment("2027-02-20T10:00"), BERLIN)
    made = evolve(
        made,
        outcome=SliceOutcome(moment("2027-03-06T19:00"), bend="bends", salt=3, again=True),
        advice_taken=("days",),
        repeated_from="old",
    )
    assert CONVERTER.structure(CONVERTER.unstructure(made), Batch) == made


def test_a_batch_written_before_advice_was_kept_still_opens() -> None:
    plain = CONVERTER.unstructure(batch())
    del plain["advice_taken"]
    assert CONVERTER.structure(plain, Batch) == batch()


@given(st.floats(0, 4e9), st.integers(-720, 840))
def test_a_moment_comes_back_the_same(utc_s: float, offset: int) -> None:
    at = Moment(utc_s, offset)
    assert CONVERTER.structure(CONVERTER.unstructure(at), Moment) == at


def test_every_kind_of_entry_keeps_its_values() -> None:
    for body in BODIES:
        entry = Entry(
            "e", "b", moment("2027-03-06T19:00"), "smoke", body, moment("2027-03-06T19:00")
        )
        plain = CONVERTER.unstructure(entry)
        assert CONVERTER.structure(plain["body"], type(body)) == body
        assert plain["id"] == "e"
