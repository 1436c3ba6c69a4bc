"""Finding batches again: by words, by what they are, in the order asked for."""

import unicodedata
from collections.abc import Callable, Iterable, Sequence
from typing import Literal

from attrs import frozen

from app.cure.request import Method
from app.cure.targets import METHOD_NAMES
from app.journal.records import Batch
from app.journal.wall import read_wall, say_wall, wall_of

Sort = Literal["newest", "oldest", "best", "name", "cut", "method"]

_LONG_AGO = "1970-01-01T00:00"


@frozen
class Wanted:
    """What to look for; None or empty leaves a thing open.

    words : all of them must occur somewhere in the batch, in any order, whatever the accents
    least_rating : batches not rated are then left out
    since, until : days "2027-03-06" of the beginning, both included
    running : only those still running, or only those finished
    """

    words: str = ""
    cut: str | None = None
    method: Method | None = None
    least_rating: int | None = None
    since: str | None = None
    until: str | None = None
    running: bool | None = None
    demonstration: bool | None = None
    sort: Sort = "newest"


def plain(text: str) -> str:
    """Text without case and accents, as words are compared."""
    split = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in split if not unicodedata.combining(sign))


def words_of_header(batch: Batch) -> str:
    """The words of a batch itself, as they are searched."""
    began = wall_of(batch.created)
    parts = [
        batch.name,
        batch.cut,
        batch.mix.method,
        METHOD_NAMES[batch.mix.method],
        began[:10],
        # In full, with weekday, month and year, as if told from long ago.
        say_wall(began, _LONG_AGO),
    ]
    if batch.outcome is not None:
        parts += [batch.outcome.notes, batch.outcome.bought_notes]
    return plain("\n".join(parts))


def rating(batch: Batch) -> int | None:
    """The verdict, 1 to 5, if there is one."""
    return batch.outcome.rating if batch.outcome else None


def find(
    batches: Iterable[Batch],
    wanted: Wanted,
    words_of: Callable[[Batch], str] = words_of_header,
) -> tuple[Batch, ...]:
    """The batches wanted, in the order wanted.

    `words_of` gives all that is searched of a batch, as `plain` makes it: its own words, and
    those of its record where there is one.
    """
    for day in (wanted.since, wanted.until):
        if day is not None:
            read_wall(day)
    words = plain(wanted.words).split()
    found = [
        batch
        for batch in batches
        if _fits(batch, wanted) and (not words or _has(words, words_of(batch)))
    ]
    return _sorted(found, wanted.sort)


def _has(words: Sequence[str], text: str) -> bool:
    return all(word in text for word in words)


def _fits(batch: Batch, wanted: Wanted) -> bool:
    began = wall_of(batch.created)[:10]
    rated = rating(batch)
    return (
        (wanted.cut is None or plain(wanted.cut) == plain(batch.cut))
        and (wanted.method is None or wanted.method == batch.mix.method)
        and (wanted.least_rating is None or (rated is not None and rated >= wanted.least_rating))
        and (wanted.since is None or began >= wanted.since[:10])
        and (wanted.until is None or began <= wanted.until[:10])
        and (wanted.running is None or wanted.running is not batch.finished)
        and (wanted.demonstration is None or wanted.demonstration is batch.demonstration)
    )


def _sorted(batches: list[Batch], sort: Sort) -> tuple[Batch, ...]:
    newest = sorted(batches, key=lambda batch: (-batch.created.utc_s, batch.id))
    match sort:
        case "newest":
            return tuple(newest)
        case "oldest":
            return tuple(reversed(newest))
        case "best":
            return tuple(sorted(newest, key=lambda batch: -(rating(batch) or 0)))
        case "name":
            return tuple(sorted(newest, key=lambda batch: plain(batch.name)))
        case "cut":
            return tuple(sorted(newest, key=lambda batch: plain(batch.cut)))
        case "method":
            return tuple(sorted(newest, key=lambda batch: METHOD_NAMES[batch.mix.method]))


def cuts(batches: Iterable[Batch]) -> tuple[str, ...]:
    """The cuts that occur, each once, to choose from."""
    first: dict[str, str] = {}
    for batch in batches:
        first.setdefault(plain(batch.cut), batch.cut)
    return tuple(first[key] for key in sorted(first))
