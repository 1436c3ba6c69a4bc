"""Store-by dates against the FSIS page, month ends, and the label."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.heat.storing import label_text, store_by

SIXTH = date(2027, 3, 6)


@pytest.mark.parametrize(
    ("what", "place", "least", "most"),
    [
        # FSIS Corned Beef page: raw in pouch 5-7 days; drained and frozen 1 month; cooked 3-4
        # days in the refrigerator, 2-3 months frozen.
        ("raw_pouch", "fridge", date(2027, 3, 11), date(2027, 3, 13)),
        ("raw_drained", "freezer", date(2027, 4, 6), date(2027, 4, 6)),
        ("cooked", "fridge", date(2027, 3, 9), date(2027, 3, 10)),
        ("cooked", "freezer", date(2027, 5, 6), date(2027, 6, 6)),
    ],
)
def test_times_are_those_of_the_source(what: str, place: str, least: date, most: date) -> None:
    kept = store_by(what, place, SIXTH)  # type: ignore[arg-type]
    assert (kept.best_by, kept.last) == (least, most)
    assert most.isoformat() in kept.says
    assert "FSIS" in kept.source


@pytest.mark.parametrize(
    ("start", "last"),
    [
        (date(2027, 1, 31), date(2027, 2, 28)),
        (date(2028, 1, 31), date(2028, 2, 29)),
        (date(2027, 12, 15), date(2028, 1, 15)),
    ],
)
def test_months_end_where_the_month_ends(start: date, last: date) -> None:
    assert store_by("raw_drained", "freezer", start).last == last


@given(st.dates(date(1990, 1, 1), date(2100, 1, 1)))
def test_the_second_date_is_never_before_the_first(start: date) -> None:
    kept = store_by("cooked", "freezer", start)
    assert start < kept.best_by <= kept.last


def test_label_says_what_when_and_what_to_do() -> None:
    lines = label_text(" Pastrami ", "cooked", "fridge", SIXTH, 812.4).splitlines()
    assert lines == [
        "Pastrami, cooked, 812 g",
        "Packed 2027-03-06",
        "Refrigerator: eat by 2027-03-09, 2027-03-10 at the latest.",
        "Reheat to 74 °C (165 °F).",
    ]
    raw = label_text("Brisket", "raw_drained", "freezer", SIXTH)
    assert "Freezer: best by 2027-04-06." in raw
    assert raw.endswith("Raw: cook to 62.8 °C (145 °F) and rest 3 min at the least.")


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (lambda: store_by("raw_pouch", "freezer", SIXTH), "No source"),
        (lambda: store_by("raw_drained", "fridge", SIXTH), "No source"),
        (lambda: store_by("smoked", "fridge", SIXTH), "No source"),  # type: ignore[arg-type]
        (lambda: store_by("cooked", "freezer", date.max), "calendar"),
        (lambda: store_by("cooked", "fridge", date.max), "calendar"),
        (lambda: label_text("  ", "cooked", "fridge", SIXTH), "needs a name"),
        (lambda: label_text("x", "cooked", "fridge", SIXTH, -1.0), "weight on a label"),
    ],
)
def test_what_has_no_answer_is_refused(call: object, word: str) -> None:
    with pytest.raises(ValueError, match=word):
        call()  # type: ignore[operator]
