"""A small journal made for the tests of the store."""

from attrs import evolve

from app.cure.request import MixRequest
from app.device.device import MemoryFiles
from app.journal.records import (
    Batch,
    Cost,
    Decision,
    Entry,
    Feel,
    Kit,
    Moment,
    Note,
    OwnContainer,
    OwnSalt,
    Photo,
    PhotoTaken,
    SliceOutcome,
    Step,
    Temperature,
    Weight,
)
from app.store.shelf import Shelf

BODIES = (
    Weight(3000.0, "green"),
    Temperature(93.3, "point"),
    Feel("nearly", "flat", 92.0),
    Decision("wrapped", 110.0, 68.0),
    Note("Smoke thin and blue — ĝood\nsecond line"),
    PhotoTaken("p0", "bark"),
    Cost(41.5, "EUR", "brisket"),
)


def moment(seconds: float = 0.0) -> Moment:
    return Moment(1_800_000_000.0 + seconds, 60)


def batch(name: str = "b0", at: float = 0.0) -> Batch:
    step = Step("s1", "cure", "2027-03-06T18:00", "Into the brine", 60.0, done=moment(5))
    return Batch(
        name,
        f"Flat {name}",
        "brisket",
        moment(at),
        moment(at),
        MixRequest(3000.0, days=6.5),
        plan=(step,),
        outcome=SliceOutcome(moment(9), bend="bends", salt=3, again=True),
        advice_taken=("more salt",),
    )


def entry(name: str, batch_id: str = "b0", number: int = 0) -> Entry:
    at = moment(60.0 * number)
    return Entry(name, batch_id, at, "smoke", BODIES[number % len(BODIES)], at)


def photo(name: str = "p0", batch_id: str = "b0") -> Photo:
    return Photo(name, batch_id, moment(3), "smoke", 640, 480, 9000, (200, 201, 199))


def kit() -> Kit:
    return Kit(
        "metric",
        salts=(OwnSalt("k1", "Mine", 0.5),),
        containers=(OwnContainer("c1", "Pot", "round", width_mm=240.0, height_mm=200.0),),
        last_backup=moment(1),
    )


def fill(shelf: Shelf) -> None:
    """Save two batches with all kinds of entries, a change and a removal."""
    shelf.save_kit(kit())
    for number, name in enumerate(("b0", "b1")):
        shelf.save_batch(batch(name, number))
        shelf.save_photo(photo(f"p{number}", name))
        for i in range(len(BODIES)):
            shelf.save_entry(entry(f"e{i}", name, i))
    shelf.delete_entry("b1", "e2")
    shelf.save_batch(evolve(batch("b0"), name="Renamed", changed=moment(99)))
    shelf.desk.save_draft({"weight": "3,2 kg"})


def new_shelf() -> tuple[MemoryFiles, Shelf]:
    files = MemoryFiles.holding(b"")
    return files, Shelf.open(files)


def all_of(shelf: Shelf) -> tuple[object, ...]:
    """Everything a shelf holds, for comparing."""
    return (
        shelf.kit(),
        shelf.desk.draft(),
        tuple((b, shelf.entries(b.id), shelf.photos(b.id)) for b in shelf.batches()),
    )
