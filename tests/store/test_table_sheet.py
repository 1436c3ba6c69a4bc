"""A table of batches opens in any spreadsheet, and nothing in it is ever worked out."""

import csv
import io

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from app.journal.records import Batch, Cost, Entry, SliceOutcome, Weight
from app.store.table_sheet import COLUMNS, as_text, batches_sheet
from tests.store.made import batch, entry, fill, moment, new_shelf

texts = st.text(st.characters(codec="utf-8", exclude_characters="\0"), max_size=40)


def rows_of(sheet: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(sheet.decode("utf-8-sig"), newline="")))


def weighing(name: str, grams: float, of: str) -> Entry:
    return evolve(entry(name), body=Weight(grams, of))  # type: ignore[arg-type]


def test_every_batch_is_a_row_with_its_figures() -> None:
    _, shelf = new_shelf()
    fill(shelf)
    sheet = batches_sheet((b, shelf.entries(b.id)) for b in shelf.batches())
    rows = rows_of(sheet)
    assert [row["name"] for row in rows] == ["Flat b1", "Renamed"]
    first = rows[1]
    assert (first["mixed_for_g"], first["days"], first["salt_1_to_5"]) == ("3000.0", "6.5", "3")
    assert (first["again"], first["cost"], first["lines_in_record"]) == ("yes", "41.50 EUR", "7")
    assert first["begun"] == "2027-01-15 09:00"  # 08:00 UTC at an offset of an hour
    assert first["salt_percent"] == ""


def test_last_weighings_and_yield_stand_in_their_columns() -> None:
    weighed = (weighing("a", 3000.0, "green"), weighing("b", 1800.04, "rested"))
    (row,) = rows_of(batches_sheet([(batch(), weighed)]))
    assert (row["green_g"], row["rested_g"], row["smoked_g"]) == ("3000.0", "1800.04", "")
    assert row["yield_percent"] == "60.001"


def test_an_unsliced_batch_leaves_its_outcome_empty() -> None:
    (row,) = rows_of(batches_sheet([(evolve(batch(), outcome=None), ())]))
    assert {row[name] for name in ("sliced", "bend", "again", "notes", "cost")} == {""}


@pytest.mark.parametrize(
    "hostile",
    [
        '=HYPERLINK("http://example.test","x")',
        "+1+1",
        "-2+3",
        "@SUM(A1)",
        "\t=1",
        "\r=1",
        "\n=1",
        "  =1",
        "＝1",
        '","=1',
    ],
)
def test_no_text_is_taken_for_a_formula(hostile: str) -> None:
    told = evolve(
        batch(),
        name=hostile,
        cut=hostile,
        outcome=SliceOutcome(moment(), notes=hostile),
        mix=evolve(batch().mix, cure_name=hostile),
    )
    spent = evolve(entry("c"), body=Cost(-1.0, hostile))
    sheet = batches_sheet([(told, (spent,))])
    for value in rows_of(sheet)[0].values():
        is_figure = value.replace(".", "").lstrip("-").isdigit()
        assert is_figure or not value.lstrip(" ").startswith(
            ("=", "+", "-", "@", "\t", "\r", "\n", "＝")
        )


@given(texts)
def test_what_was_typed_can_be_read_back(text: str) -> None:
    (row,) = rows_of(batches_sheet([(evolve(batch(), name=text), ())]))
    assert row["name"] in (text, "'" + text)
    assert row["name"] == as_text(text)


@given(texts, texts)
def test_no_text_makes_another_row_or_column(name: str, notes: str) -> None:
    told: Batch = evolve(batch(), name=name, outcome=SliceOutcome(moment(), notes=notes))
    sheet = batches_sheet([(told, ()), (batch("b1"), ())]).decode("utf-8-sig")
    lines = list(csv.reader(io.StringIO(sheet, newline="")))
    assert [len(line) for line in lines] == [len(COLUMNS)] * 3
