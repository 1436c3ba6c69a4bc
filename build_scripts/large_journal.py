"""A journal as large as a life with the program gives, made for measuring."""

import io

from attrs import evolve

from app.cure.request import MixRequest
from app.device.device import MemoryFiles
from app.device.slots import header
from app.journal.plan import new_batch
from app.journal.records import (
    Batch,
    Entry,
    EntryBody,
    Moment,
    Note,
    Photo,
    PhotoTaken,
    SliceOutcome,
    Temperature,
    Weight,
)
from app.store.shelf import Shelf

LINES, PHOTOS = 50, 10
"""Lines of a batch's record, and how many of them are photos."""
RUNNING = 3
"""So many of the newest batches are not finished: a kitchen has room for no more."""
_BEGUN_S, _APART_S = 1_500_000_000.0, 86_400.0


def batch(number: int, of: int) -> Batch:
    """One batch with its whole plan; tasted and finished but for the newest ones."""
    at = Moment(_BEGUN_S + number * _APART_S, 60)
    running = number >= of - RUNNING
    steps = iter(range(1000))
    made = new_batch(
        MixRequest(3000.0 + number, days=6.5),
        "Brisket, flat",
        f"Batch {number}",
        at,
        ids=lambda: f"b{number:04}" if (step := next(steps)) == 0 else f"s{number:04}-{step}",
        zone="UTC",
    )
    made = evolve(made, id=f"b{number:04}", cover_photo_id=f"p{number:04}-0")
    if running:
        return made
    plan = tuple(evolve(step, done=at) for step in made.plan)
    outcome = SliceOutcome(at, bend="bends", grey_percent=4.0, salt=3, smoke=3, rating=4)
    return evolve(made, plan=plan, outcome=outcome, finished=True)


def lines(number: int) -> tuple[Entry, ...]:
    """The record of one batch: photos, then readings, weights and notes in turn."""
    made = []
    for line in range(LINES):
        at = Moment(_BEGUN_S + number * _APART_S + 600.0 * line, 60)
        body: EntryBody = (
            Temperature(4.0 + line, "flat"),
            Weight(3000.0 - line, "smoked"),
            Note(f"Turned, line {line}"),
        )[line % 3]
        if line < PHOTOS:
            body = PhotoTaken(f"p{number:04}-{line}")
        made.append(Entry(f"e{number:04}-{line}", f"b{number:04}", at, "smoke", body, at))
    return tuple(made)


def photos(number: int) -> tuple[Photo, ...]:
    """What is known of one batch's photos."""
    at = Moment(_BEGUN_S + number * _APART_S, 60)
    return tuple(
        Photo(f"p{number:04}-{one}", f"b{number:04}", at, "smoke", 2048, 1536, 400_000)
        for one in range(PHOTOS)
    )


def log(batches: int) -> bytes:
    """The journal's file with so many batches, as the program would have written it."""
    files = MemoryFiles.holding(b"")
    shelf = Shelf.open(files)
    for number in range(batches):
        shelf.save_all((batch(number, batches),), lines(number), photos(number))
    return header(1) + files.read_all()


def picture() -> bytes:
    """A thumbnail, as small as one is."""
    from PIL import Image

    out = io.BytesIO()
    Image.radial_gradient("L").resize((320, 240)).convert("RGB").save(out, "JPEG", quality=80)
    return out.getvalue()
