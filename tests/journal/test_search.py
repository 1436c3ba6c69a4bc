"""Batches found by words and by what they are, in the order asked for."""

import pytest
from attrs import evolve

from app.cure.request import MixRequest
from app.journal.records import Batch, SliceOutcome
from app.journal.search import Sort, Wanted, cuts, find, plain, words_of_header
from tests.journal.made import batch, moment, names


def made(name: str, cut: str, day: str, rating: int | None = None, **more: object) -> Batch:
    at = moment(f"{day}T10:00")
    found = batch(name, cut, now=at, ids=names(name[:1].lower()))
    outcome = None if rating is None else SliceOutcome(at, rating=rating, notes="Crème brûlée")
    return evolve(found, outcome=outcome, **more)


EASTER = made("Easter flat", "Brisket flat", "2027-03-01", 5)
POINT = made("Point", "Brisket point", "2027-01-10", 2, finished=True)
ROUND = made("Åse's round", "Round", "2026-12-24", mix=MixRequest(2000.0, method="dry"))
DEMO = made("Demo", "brisket FLAT", "2027-02-01", 4, demonstration=True)
ALL = (POINT, EASTER, ROUND, DEMO)


def found(**wanted: object) -> list[str]:
    return [one.name for one in find(ALL, Wanted(**wanted))]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("wanted", "names_"),
    [
        ({}, ["Easter flat", "Demo", "Point", "Åse's round"]),
        ({"words": "flat EASTER"}, ["Easter flat"]),
        ({"words": "ase"}, ["Åse's round"]),
        ({"words": "march 2027"}, ["Easter flat"]),
        ({"words": "2027-01"}, ["Point"]),
        ({"words": "dry in a bag"}, ["Åse's round"]),
        ({"sort": "method"}, ["Åse's round", "Easter flat", "Demo", "Point"]),
        ({"words": "creme brulee", "demonstration": False}, ["Easter flat", "Point"]),
        ({"words": "flat nothing"}, []),
        ({"cut": "brisket flat"}, ["Easter flat", "Demo"]),
        ({"method": "dry"}, ["Åse's round"]),
        ({"least_rating": 4}, ["Easter flat", "Demo"]),
        ({"since": "2027-02-01"}, ["Easter flat", "Demo"]),
        ({"until": "2027-01-10"}, ["Point", "Åse's round"]),
        ({"since": "2027-01-01", "until": "2027-01-31"}, ["Point"]),
        ({"running": True}, ["Easter flat", "Demo", "Åse's round"]),
        ({"running": False}, ["Point"]),
        ({"demonstration": True}, ["Demo"]),
    ],
)
def test_what_is_wanted_is_found_newest_first(wanted: dict[str, object], names_: list[str]) -> None:
    assert found(**wanted) == names_


@pytest.mark.parametrize(
    ("sort", "names_"),
    [
        ("oldest", ["Åse's round", "Point", "Demo", "Easter flat"]),
        ("best", ["Easter flat", "Demo", "Point", "Åse's round"]),
        ("name", ["Åse's round", "Demo", "Easter flat", "Point"]),
        ("cut", ["Easter flat", "Demo", "Point", "Åse's round"]),
    ],
)
def test_the_order_is_as_asked(sort: Sort, names_: list[str]) -> None:
    assert found(sort=sort) == names_


def test_the_words_of_the_record_are_searched_too() -> None:
    def words_of(batch: Batch) -> str:
        record = "\noak smoke\nshiny\nbutcher" if batch is POINT else ""
        return words_of_header(batch) + record

    for word in ("oak", "shiny", "butcher", "point butcher"):
        assert find(ALL, Wanted(words=word)) == ()
        assert find(ALL, Wanted(words=word), words_of) == (POINT,)
    assert find(ALL, Wanted(words="oak beech"), words_of) == ()


def test_a_day_that_is_none_is_refused() -> None:
    with pytest.raises(ValueError, match="was expected"):
        find(ALL, Wanted(since="yesterday"))


def test_cuts_are_listed_once() -> None:
    assert cuts(ALL) == ("Brisket flat", "Brisket point", "Round")
    assert cuts(()) == ()
    assert plain("ÀÉß") == "aess"
