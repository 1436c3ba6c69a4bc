"""What the photos of a journal say together: bark beside earlier bark, a slice's outcome."""

from collections.abc import Iterable, Sequence

from attrs import evolve, frozen

from app.colour.bark import Compared, Trend, compare, trend
from app.colour.lab import Triple
from app.journal.happened import decision
from app.journal.records import (
    Batch,
    Entry,
    Moment,
    Photo,
    PhotoTaken,
    SliceOutcome,
    SliceReading,
    Stage,
)

AT_THE_BARK: frozenset[Stage] = frozenset({"smoke", "wrap"})
"""Stages whose photos show bark that is still being judged."""


@frozen
class Witness:
    """A batch with what was written and photographed of it."""

    batch: Batch
    entries: tuple[Entry, ...] = ()
    photos: tuple[Photo, ...] = ()


@frozen
class BesideBark:
    """Bark beside that of another batch at its wrap."""

    batch_id: str
    photo_id: str
    lab: Triple
    compared: Compared
    best: bool


def in_record(photos: Iterable[Photo], entries: Iterable[Entry]) -> tuple[Photo, ...]:
    """The photos that a line of the record still names."""
    named = {one.body.photo_id for one in entries if isinstance(one.body, PhotoTaken)}
    return tuple(photo for photo in photos if photo.id in named)


def bark_at_wrap(one: Witness) -> Photo | None:
    """The photo whose bark was measured nearest to the decision to wrap; None without any.

    Before the decision counts, and no more than a quarter of an hour after it; without a
    decision the last one measured.
    """
    read = [p for p in one.photos if p.bark is not None and p.stage in AT_THE_BARK]
    decided = decision(one.entries, "wrapped")
    if decided is not None:
        till = decided.at.utc_s + 900.0
        read = [p for p in read if p.taken.utc_s <= till] or read
    return max(read, key=lambda p: (p.taken.utc_s, p.id), default=None)


def beside_earlier(now: Triple, this: Batch, others: Iterable[Witness]) -> list[BesideBark]:
    """Bark beside that of earlier batches at the same decision, the best rated first.

    The best is the one its cook rated highest, and the later of two alike.
    """
    found = [
        (one.batch, photo)
        for one in others
        if one.batch.id != this.id and (photo := bark_at_wrap(one)) is not None
    ]
    rated = [pair for pair in found if pair[0].outcome and pair[0].outcome.rating]
    best = max(
        rated,
        key=lambda pair: (
            (pair[0].outcome.rating or 0) if pair[0].outcome else 0,
            pair[0].created.utc_s,
        ),
        default=None,
    )
    beside = []
    for batch, photo in found:
        assert photo.bark is not None
        is_best = best is not None and batch.id == best[0].id
        name = "your best at its wrap" if is_best else f"{batch.name} at its wrap"
        compared = compare(now, photo.bark.lab, name)
        beside.append((batch, BesideBark(batch.id, photo.id, photo.bark.lab, compared, is_best)))
    beside.sort(key=lambda pair: (not pair[1].best, -pair[0].created.utc_s))
    return [one for _, one in beside]


def smoke_bark(batch: Batch, photos: Sequence[Photo]) -> list[tuple[float, Photo]]:
    """A smoke's measured photos with the hours since it began, or since the first, in order [h]."""
    begun = next((s.done for s in batch.plan if s.stage == "smoke" and s.done), None)
    read = [p for p in photos if p.bark is not None and p.stage in AT_THE_BARK]
    if not read:
        return []
    zero_s = begun.utc_s if begun is not None else min(p.taken.utc_s for p in read)
    hours = [((p.taken.utc_s - zero_s) / 3600.0, p) for p in read]
    return sorted(hours, key=lambda pair: (pair[0], pair[1].id))


def bark_trend(batch: Batch, photos: Sequence[Photo]) -> Trend | None:
    """How the bark has changed over this smoke's measured photos; None with too few."""
    read = smoke_bark(batch, photos)
    return trend([(hours, p.bark.lab) for hours, p in read if p.bark]) if read else None


def outcome_with(line: SliceReading, before: SliceOutcome | None, now: Moment) -> SliceOutcome:
    """The outcome with what a measured line showed; all else as it was.

    Raises
    ------
    ValueError : the line showed nothing
    """
    if line.grey_percent is None or line.pale_percent is None:
        raise ValueError("This line was not measured, so there is nothing to keep of it.")
    kept = before or SliceOutcome(at=now)
    return evolve(
        kept,
        grey_percent=round(line.grey_percent, 1),
        pale_percent=round(line.pale_percent, 1),
        thickness_mm=line.thickness_mm or kept.thickness_mm,
    )


def mm_per_part(photo: Photo) -> float | None:
    """Millimetres that the whole width of a photo spans, by its measured slice; None if unknown.

    The slice's thickness lies between the edges found on the line.
    """
    line = photo.line
    if line is None or not line.thickness_mm:
        return None
    across = (line.end[0] - line.start[0]) * photo.width
    down = (line.end[1] - line.start[1]) * photo.height
    slice_px = (across**2 + down**2) ** 0.5 * abs(line.edges[1] - line.edges[0])
    return photo.width * line.thickness_mm / slice_px if slice_px > 1.0 else None
