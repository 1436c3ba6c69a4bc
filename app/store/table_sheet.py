"""Batches as a table for any spreadsheet: comma-separated, one row a batch.

Numbers are in the one unit their column names. Text that a spreadsheet would take for a formula
gets an apostrophe before it, so that what was typed into a batch never becomes a calculation.
"""

import csv
import io
from collections.abc import Callable, Iterable, Sequence

from app.journal.records import Batch, Entry, Moment, SliceOutcome
from app.journal.wall import wall_of
from app.journal.yields import money, weights, yield_percent

Cell = str | float | int | None
_Reads = Callable[[Batch, Sequence[Entry]], Cell]

_STARTS_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""What spreadsheets take for the start of a formula, in wide letters too; common practice, no
source."""


def as_text(text: str) -> str:
    """Text that a spreadsheet shows and never works out.

    Examples
    --------
    >>> as_text("Flat, 3 kg"), as_text("=1+1"), as_text("  @home")
    ('Flat, 3 kg', "'=1+1", "'  @home")
    """
    clean = text.replace("\0", "")
    plain = clean.startswith("\t") or clean.lstrip(" ").startswith(_STARTS_FORMULA)
    return f"'{clean}" if plain else clean


def _when(moment: Moment | None) -> Cell:
    return None if moment is None else wall_of(moment).replace("T", " ")


def _weighed(of: str) -> _Reads:
    def read(batch: Batch, entries: Sequence[Entry]) -> Cell:
        return next((row.grams for row in weights(batch, entries) if row.of == of), None)

    return read


def _outcome(read: Callable[[SliceOutcome], Cell]) -> _Reads:
    return lambda batch, _: None if batch.outcome is None else read(batch.outcome)


def _yes(value: bool | None) -> Cell:
    return None if value is None else "yes" if value else "no"


def _cost(batch: Batch, entries: Sequence[Entry]) -> Cell:
    sums = [f"{one.total:.2f} {one.currency}".strip() for one in money(batch, entries)]
    return "; ".join(sums) or None


COLUMNS: dict[str, _Reads] = {
    "name": lambda batch, _: batch.name,
    "cut": lambda batch, _: batch.cut,
    "begun": lambda batch, _: _when(batch.created),
    "finished": lambda batch, _: _yes(batch.finished),
    "example": lambda batch, _: _yes(batch.demonstration),
    "thickness_mm": lambda batch, _: batch.thickness_mm,
    "method": lambda batch, _: batch.mix.method,
    "mixed_for_g": lambda batch, _: batch.mix.meat_g,
    "water_g": lambda batch, _: batch.mix.water_g,
    "salt_percent": lambda batch, _: batch.mix.salt_percent,
    "sugar_percent": lambda batch, _: batch.mix.sugar_percent,
    "nitrite_ppm": lambda batch, _: batch.mix.nitrite_ppm,
    "curing_salt": lambda batch, _: batch.mix.cure_name,
    "curing_salt_nitrite_percent": lambda batch, _: batch.mix.cure_nitrite_percent,
    "days": lambda batch, _: batch.mix.days,
    **{
        f"{of}_g": _weighed(of)
        for of in ("green", "trimmed", "cured", "soaked", "smoked", "rested", "trimmings")
    },
    "yield_percent": yield_percent,
    "cost": _cost,
    "sliced": lambda batch, _: None if batch.outcome is None else _when(batch.outcome.at),
    "bend": _outcome(lambda outcome: outcome.bend),
    "grey_percent": _outcome(lambda outcome: outcome.grey_percent),
    "pale_percent": _outcome(lambda outcome: outcome.pale_percent),
    "salt_1_to_5": _outcome(lambda outcome: outcome.salt),
    "smoke_1_to_5": _outcome(lambda outcome: outcome.smoke),
    "pepper_1_to_5": _outcome(lambda outcome: outcome.pepper),
    "tenderness_1_to_5": _outcome(lambda outcome: outcome.tenderness),
    "moisture_1_to_5": _outcome(lambda outcome: outcome.moisture),
    "rating_1_to_5": _outcome(lambda outcome: outcome.rating),
    "again": _outcome(lambda outcome: _yes(outcome.again)),
    "notes": _outcome(lambda outcome: outcome.notes or None),
    "lines_in_record": lambda _, entries: len(entries),
}
"""The columns in their order. What was left for the program to choose is empty."""


def batches_sheet(batches: Iterable[tuple[Batch, Sequence[Entry]]]) -> bytes:
    """A table of batches, as a file.

    Parameters
    ----------
    batches : each with its entries

    Returns
    -------
    RFC 4180 in UTF-8, with the mark by which spreadsheets know it
    """
    out = io.StringIO(newline="")
    writer = csv.writer(out, quoting=csv.QUOTE_NONNUMERIC, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for batch, entries in batches:
        writer.writerow([_cell(read(batch, entries)) for read in COLUMNS.values()])
    return out.getvalue().encode("utf-8-sig")


def _cell(value: Cell) -> str | float | int:
    if value is None:
        return ""
    if isinstance(value, str):
        return as_text(value)
    # Weights to a tenth of a gram and the like: more would only be noise of the arithmetic.
    return round(value, 3)
