"""Weights with their losses, and the cost of a serving."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.journal.entries import noted, paid, weighed
from app.journal.records import Entry, EntryBody, Moment
from app.journal.yields import ORDER, money, weights, yield_percent
from tests.journal.made import batch

MADE = batch()


def record(*bodies: EntryBody, batch_id: str = "s1") -> list[Entry]:
    return [
        Entry(f"e{i}", batch_id, Moment(float(i)), "slice", body, Moment(float(i)))
        for i, body in enumerate(bodies)
    ]


def test_losses_are_against_the_weighing_before_and_yield_against_the_green_weight() -> None:
    rows = weights(
        MADE,
        record(
            weighed(2400, "rested"),
            weighed(4000, "green"),
            weighed(3100, "trimmed"),
            weighed(3200, "trimmed"),
            weighed(800, "trimmings"),
            noted("x"),
        ),
    )
    assert [(r.of, r.grams, r.change_percent, r.yield_percent) for r in rows] == [
        ("green", 4000.0, None, 100.0),
        ("trimmed", 3200.0, -20.0, 80.0),
        ("rested", 2400.0, -25.0, 60.0),
        ("trimmings", 800.0, None, 20.0),
    ]


def test_without_weights_there_is_nothing_to_say() -> None:
    assert weights(MADE, []) == ()
    assert yield_percent(MADE, []) is None
    assert money(MADE, []) == ()
    of_another = record(weighed(2000, "rested"), paid(5), batch_id="other")
    assert weights(MADE, of_another) == ()
    assert money(MADE, of_another) == ()


def test_the_yield_starts_from_what_went_into_the_cure() -> None:
    assert yield_percent(MADE, record(weighed(2100, "smoked"))) == 70.0  # Of the mix's 3 kg.
    assert yield_percent(MADE, record(weighed(4200, "green"), weighed(2100, "rested"))) == 50.0
    both = record(weighed(3500, "trimmed"), weighed(2200, "smoked"), weighed(2100, "rested"))
    assert yield_percent(MADE, both) == 60.0
    rows = weights(MADE, record(weighed(2100, "smoked"), weighed(500, "trimmings")))
    assert [row.yield_percent for row in rows] == [None, None]


def test_cost_is_told_by_currency_and_by_serving() -> None:
    entries = record(paid(30, "EUR"), paid(6, "EUR"), paid(4, "USD"), weighed(1800, "rested"))
    euro, dollar = money(MADE, entries, serving_g=150)
    assert (euro.total, euro.currency, euro.servings, euro.per_serving) == (36.0, "EUR", 12.0, 3.0)
    assert (dollar.total, dollar.per_serving) == (4.0, pytest.approx(1 / 3))
    (unweighed,) = money(MADE, record(paid(30, "EUR")))
    assert (unweighed.total, unweighed.servings, unweighed.per_serving) == (30.0, None, None)


@pytest.mark.parametrize("serving_g", [0.0, -1.0, float("nan")])
def test_a_serving_must_weigh_something(serving_g: float) -> None:
    with pytest.raises(ValueError, match="serving must weigh"):
        money(MADE, [], serving_g)


@given(st.dictionaries(st.sampled_from(ORDER), st.floats(1, 50_000), min_size=2))
def test_the_changes_one_after_another_make_up_the_whole(grams: dict[str, float]) -> None:
    rows = weights(MADE, record(*(weighed(g, of) for of, g in grams.items())))
    product = 1.0
    for row in rows[1:]:
        product *= 1.0 + (row.change_percent or 0.0) / 100.0
    assert rows[-1].grams == pytest.approx(rows[0].grams * product)
