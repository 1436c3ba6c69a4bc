"""What became of the weight and the money."""

from collections.abc import Iterable, Mapping
from math import isfinite

from attrs import frozen

from app.journal.entries import by_time
from app.journal.records import Batch, Cost, Entry, Weight

ORDER = ("green", "trimmed", "cured", "soaked", "smoked", "rested")
"""The weighings in the order of the work; trimmings lie beside it."""

SERVING_G = 150.0
"""Sliced meat for one, for the cost of a serving [g]; common practice, no source."""


@frozen
class WeightRow:
    """One weighing with what was lost on the way.

    change_percent : against the weighing before, negative for a loss; None for the first
    yield_percent : of the green weight; None when that is not known
    """

    of: str
    grams: float
    change_percent: float | None
    yield_percent: float | None


@frozen
class Money:
    """What a batch cost, in one currency."""

    total: float
    currency: str
    servings: float | None
    per_serving: float | None


def weights(batch: Batch, entries: Iterable[Entry]) -> tuple[WeightRow, ...]:
    """The last weighing of each kind, in the order of the work, with losses and yield.

    Losses are of mass. A weighing left out is simply passed over. With no green weight
    recorded, the weight the mix was made for stands for what was trimmed.
    """
    last = _last_weighings(batch, entries)
    green = last.get("green")
    rows: list[WeightRow] = []
    before: float | None = None
    for of in ORDER:
        if of not in last:
            continue
        grams = last[of]
        change = None if before is None else 100.0 * (grams - before) / before
        rows.append(WeightRow(of, grams, change, 100.0 * grams / green if green else None))
        before = grams
    if "trimmings" in last:
        grams = last["trimmings"]
        rows.append(WeightRow("trimmings", grams, None, 100.0 * grams / green if green else None))
    return tuple(rows)


def _last_weighings(batch: Batch, entries: Iterable[Entry]) -> Mapping[str, float]:
    return {
        str(entry.body.of): entry.body.grams
        for entry in by_time(entries)
        if entry.batch_id == batch.id and isinstance(entry.body, Weight)
    }


def yield_percent(batch: Batch, entries: Iterable[Entry]) -> float | None:
    """Final weight over the weight that went into the cure [%], None when not weighed.

    Final is rested, else smoked; the start is trimmed, else green, else the mix's own weight.
    """
    last = _last_weighings(batch, entries)
    final = last.get("rested", last.get("smoked"))
    start = last.get("trimmed", last.get("green", batch.mix.meat_g))
    return None if final is None or start <= 0 else 100.0 * final / start


def money(
    batch: Batch, entries: Iterable[Entry], serving_g: float = SERVING_G
) -> tuple[Money, ...]:
    """Cost in all and for a serving, one row a currency; empty when nothing was entered.

    Servings need a weight after the smoke or the rest; without it there is no cost a serving.
    """
    if not (isfinite(serving_g) and serving_g > 0):
        raise ValueError(f"A serving must weigh more than 0 g; {serving_g} was given.")
    entries = tuple(entries)
    last = _last_weighings(batch, entries)
    final = last.get("rested", last.get("smoked"))
    servings = None if final is None else final / serving_g
    totals: dict[str, float] = {}
    for entry in entries:
        if entry.batch_id == batch.id and isinstance(entry.body, Cost):
            currency = entry.body.currency
            totals[currency] = totals.get(currency, 0.0) + entry.body.amount
    return tuple(
        Money(total, currency, servings, None if servings is None else total / servings)
        for currency, total in sorted(totals.items())
    )
