"""Two or three batches side by side, what differs first."""

from collections.abc import Callable, Mapping, Sequence
from math import isclose
from typing import Literal

from attrs import evolve, frozen

from app.cure.mix import MixRequest, work_out
from app.journal.happened import decision, pulled_core_c, took_s, wrapped_after_s
from app.journal.records import Batch, Entry, SliceOutcome, Stage
from app.journal.yields import money, weights, yield_percent

Kind = Literal[
    "text", "mass", "length", "duration", "temperature", "percent", "ppm", "score", "money"
]
"""What a value is, for the screen to write: g, mm, s, °C, %, mg/kg, 1 to 5."""


@frozen
class Paid:
    """Money by currency; what was paid in two currencies is not added up."""

    parts: tuple[tuple[float, str], ...]


Value = float | str | Paid | None


@frozen
class Line:
    """One thing compared: a value for each batch, None where it is not known.

    `part` is the part of the work it belongs to: mix, days, smoke or slice.
    """

    part: Literal["piece", "mix", "days", "smoke", "slice"]
    label: str
    kind: Kind
    values: tuple[Value, ...]
    differs: bool = False

    @property
    def known(self) -> bool:
        """Whether it is known of every batch."""
        return None not in self.values


_Reads = Callable[[Batch, Sequence[Entry]], Value]


def _decided(choice: str, what: Literal["pit_c", "core_c"]) -> _Reads:
    def read(_batch: Batch, entries: Sequence[Entry]) -> Value:
        entry = decision(entries, choice)
        return getattr(entry.body, what) if entry is not None else None

    return read


def _took(stage: Stage) -> _Reads:
    return lambda batch, _entries: took_s(batch, stage)


def _used(mix: MixRequest) -> MixRequest:
    """The mix with every choice left open made, as it was when it was mixed."""
    try:
        answer = work_out(mix)
    except ValueError:
        return mix
    return evolve(answer.request, water_g=answer.water_g or None)


def _asked(name: str) -> _Reads:
    def read(batch: Batch, _entries: Sequence[Entry]) -> Value:
        value = getattr(_used(batch.mix), name)
        return value if value is None or isinstance(value, str) else float(value)

    return read


def _tasted(name: str) -> _Reads:
    def read(batch: Batch, _entries: Sequence[Entry]) -> Value:
        return _plain(batch.outcome, name)

    return read


_WORDS: Mapping[str, str] = {
    "falls_apart": "falls apart",
    "parts": "parts with a tug",
    "worse": "less good",
    "alike": "as good",
    "True": "yes",
    "False": "no",
}


def _plain(outcome: SliceOutcome | None, name: str) -> Value:
    value = None if outcome is None else getattr(outcome, name)
    if value is None:
        return None
    if isinstance(value, (bool, str)):
        return _WORDS.get(str(value), str(value))
    return float(value)


def _trimmed_fat(batch: Batch, _entries: Sequence[Entry]) -> Value:
    return "left on" if batch.fat_cap_on else "taken off"


def _cost(batch: Batch, entries: Sequence[Entry]) -> Value:
    rows = money(batch, entries)
    return Paid(tuple((row.total, row.currency) for row in rows)) if rows else None


def _cost_a_serving(batch: Batch, entries: Sequence[Entry]) -> Value:
    told = [
        (row.per_serving, row.currency)
        for row in money(batch, entries)
        if row.per_serving is not None
    ]
    return Paid(tuple(told)) if told else None


def _smoke_loss(batch: Batch, entries: Sequence[Entry]) -> Value:
    row = next((row for row in weights(batch, entries) if row.of == "smoked"), None)
    return None if row is None else row.change_percent


_LINES: tuple[tuple[Literal["piece", "mix", "days", "smoke", "slice"], str, Kind, _Reads], ...] = (
    ("piece", "Cut", "text", lambda batch, _: batch.cut),
    ("piece", "Weight in the cure", "mass", _asked("meat_g")),
    ("piece", "Thickness", "length", lambda batch, _: batch.thickness_mm),
    ("piece", "Fat cap", "text", _trimmed_fat),
    ("mix", "Method", "text", _asked("method")),
    ("mix", "Salt", "percent", _asked("salt_percent")),
    ("mix", "Sugar", "percent", _asked("sugar_percent")),
    ("mix", "Nitrite going in", "ppm", _asked("nitrite_ppm")),
    ("mix", "Water", "mass", _asked("water_g")),
    ("days", "In the cure", "duration", _took("cure")),
    ("days", "Soak", "duration", _took("soak")),
    ("days", "Drying", "duration", _took("dry")),
    ("smoke", "Wrapped after", "duration", wrapped_after_s),
    ("smoke", "Pit at the wrap", "temperature", _decided("wrapped", "pit_c")),
    ("smoke", "Core at the wrap", "temperature", _decided("wrapped", "core_c")),
    ("smoke", "Core when pulled", "temperature", lambda _, entries: pulled_core_c(entries)),
    ("smoke", "Finish", "duration", _took("finish")),
    ("smoke", "Rest", "duration", _took("rest")),
    ("smoke", "Change in the smoke", "percent", _smoke_loss),
    ("slice", "Yield", "percent", yield_percent),
    ("slice", "Grey core", "percent", _tasted("grey_percent")),
    ("slice", "Pale", "percent", _tasted("pale_percent")),
    ("slice", "Bend", "text", _tasted("bend")),
    ("slice", "Strip pulled", "text", _tasted("pull")),
    ("slice", "Beside a bought one", "text", _tasted("beside_bought")),
    ("slice", "Saltiness", "score", _tasted("salt")),
    ("slice", "Smokiness", "score", _tasted("smoke")),
    ("slice", "Pepper", "score", _tasted("pepper")),
    ("slice", "Tenderness", "score", _tasted("tenderness")),
    ("slice", "Moisture", "score", _tasted("moisture")),
    ("slice", "Verdict", "score", _tasted("rating")),
    ("slice", "Do it again", "text", _tasted("again")),
    ("slice", "Cost", "money", _cost),
    ("slice", "Cost a serving", "money", _cost_a_serving),
)

# What no scale, ruler or clock in a kitchen tells apart; our own choice.
_SAME: Mapping[Kind, float] = {
    "mass": 5.0,
    "length": 1.0,
    "duration": 300.0,
    "temperature": 0.5,
    "percent": 0.05,
    "ppm": 0.5,
    "score": 0.0,
    "money": 0.005,
}


def compare(
    batches: Sequence[Batch], entries: Mapping[str, Sequence[Entry]] | None = None
) -> tuple[Line, ...]:
    """What is known of two or three batches, line by line; lines that differ come first.

    Parameters
    ----------
    batches : two or three, in the order of the columns
    entries : their records by batch id

    Raises
    ------
    ValueError : fewer than two batches, more than three, or one twice

    Notes
    -----
    A line of which nothing is known is left out. A value missing on one side alone counts as
    a difference to look at, but comes after those known on all sides.
    """
    if not 2 <= len(batches) <= 3:
        raise ValueError(f"Choose two or three batches to compare; {len(batches)} were chosen.")
    if len({batch.id for batch in batches}) != len(batches):
        raise ValueError("The same batch was chosen twice; choose another to compare it with.")
    records = entries or {}
    lines = []
    for part, label, kind, read in _LINES:
        values = tuple(read(batch, tuple(records.get(batch.id, ()))) for batch in batches)
        if any(value is not None for value in values):
            line = Line(part, label, kind, values)
            lines.append(evolve(line, differs=_differs(values, kind)))
    return tuple(sorted(lines, key=_rank))


def _rank(line: Line) -> int:
    if not line.differs:
        return 2
    return 0 if line.known else 1


def _differs(values: Sequence[Value], kind: Kind) -> bool:
    first = values[0]
    return any(not _same(first, other, kind) for other in values[1:])


def _same(one: Value, other: Value, kind: Kind) -> bool:
    if isinstance(one, Paid) and isinstance(other, Paid):
        return len(one.parts) == len(other.parts) and all(
            a[1] == b[1] and isclose(a[0], b[0], abs_tol=_SAME[kind])
            for a, b in zip(one.parts, other.parts, strict=True)
        )
    if isinstance(one, float) and isinstance(other, float):
        return isclose(one, other, rel_tol=0.005, abs_tol=_SAME.get(kind, 0.0))
    return one == other
