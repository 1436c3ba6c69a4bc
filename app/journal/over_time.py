"""Yield and cost from batch to batch, in the order they were begun."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

from attrs import frozen

from app.journal.records import Batch, Entry
from app.journal.yields import money, yield_percent


@frozen
class Point:
    """What a batch came to, and its place among all that have a point: 1 is the earliest."""

    batch: Batch
    number: int
    value: float


@frozen
class Course:
    """One figure from batch to batch.

    what : the yield [%], what a serving cost, or what all of it cost, in `currency`
    """

    what: Literal["yield", "serving", "cost"]
    currency: str
    points: tuple[Point, ...]

    @property
    def least(self) -> float:
        return min(point.value for point in self.points)

    @property
    def most(self) -> float:
        return max(point.value for point in self.points)


def courses(
    batches: Iterable[Batch], entries: Mapping[str, Sequence[Entry]]
) -> tuple[tuple[Batch, ...], tuple[Course, ...]]:
    """The batches with a yield or a cost, earliest first, and each figure over them.

    Parameters
    ----------
    batches, entries : the batches to look at and their records

    Returns
    -------
    The batches that have a point, numbered from 1 in this order, and the courses: the yield,
    then for each currency what a serving cost, and what all cost where no serving is known

    Notes
    -----
    Invented batches are left out as soon as the cook has a batch of their own with a figure.
    Currencies are never added up.
    """
    told = [
        one
        for one in sorted(batches, key=lambda batch: (batch.created.utc_s, batch.id))
        if yield_percent(one, entries.get(one.id, ())) is not None
        or money(one, entries.get(one.id, ()))
    ]
    own = [one for one in told if not one.demonstration]
    shown = tuple(own or told)
    values: dict[tuple[Literal["yield", "serving", "cost"], str], list[Point]] = {}
    for number, one in enumerate(shown, 1):
        record = entries.get(one.id, ())
        came_to = yield_percent(one, record)
        if came_to is not None:
            values.setdefault(("yield", ""), []).append(Point(one, number, came_to))
        for sum_ in money(one, record):
            if sum_.per_serving is not None:
                point = Point(one, number, sum_.per_serving)
                values.setdefault(("serving", sum_.currency), []).append(point)
            point = Point(one, number, sum_.total)
            values.setdefault(("cost", sum_.currency), []).append(point)
    order = ("yield", "serving", "cost")
    found = [Course(what, currency, tuple(points)) for (what, currency), points in values.items()]
    found = [
        course
        for course in found
        if course.what != "cost" or ("serving", course.currency) not in values
    ]
    return shown, tuple(sorted(found, key=lambda c: (order.index(c.what), c.currency)))
