"""Files for eyes outside the program: a table of all batches, one batch as a page to print."""

from collections.abc import Iterable

from app.device.device import Device
from app.journal.records import Batch, PhotoTaken
from app.journal.safety import DISCLAIMER
from app.journal.timeline import timeline
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench
from app.screens.journal.told import entry_told, outcome_told
from app.screens.masses import grams
from app.store.printed_page import Picture, Section, printed_page
from app.store.table_sheet import batches_sheet

_LONGEST_NAME = 60
Count = tuple[int, str, str]
"""A number, and the word for one and for several."""


def file_name(words: str, ending: str) -> str:
    """A name every system takes, made of a batch's own."""
    plain = "".join(sign if sign.isalnum() or sign in " -_" else " " for sign in words)
    return f"{' '.join(plain.split())[:_LONGEST_NAME].strip() or 'batch'}{ending}"


def counted(one: Count) -> str:
    """A number with its word.

    Examples
    --------
    >>> counted((1, "batch", "batches")), counted((12, "batch", "batches"))
    ('1 batch', '12 batches')
    """
    number, single, several = one
    return f"{number} {single if number == 1 else several}"


async def save_table(bench: Bench) -> None:
    """All batches, one a row, for a spreadsheet."""
    own = [batch for batch in bench.shown.batches if not batch.demonstration]
    sheet = batches_sheet((batch, bench.entries(batch.id)) for batch in own)
    await _give(bench.device, f"batches-{bench.wall()[:10]}.csv", "text/csv", [sheet])
    bench.show(said=f"A table of {counted((len(own), 'batch', 'batches'))} is saved.", undo=None)


async def save_page(bench: Bench, batch: Batch) -> None:
    """One batch with its record and pictures, as a page that stands by itself."""
    kit, now = bench.shown.kit, bench.wall()
    entries = bench.entries(batch.id)
    record: list[tuple[str, str]] = []
    pictures: list[Picture] = []
    for row in timeline(batch, entries, bench.zone):
        when = say_wall(row.wall, now)
        if row.entry is not None:
            name, says = entry_told(row.entry, kit)
            record.append((when, f"{name}: {says}" if says else name))
            if isinstance(row.entry.body, PhotoTaken):
                try:
                    jpeg = await bench.device.photos.get(row.entry.body.photo_id)
                except LookupError:
                    continue
                pictures.append(Picture(jpeg, f"{name}, {when}"))
        elif row.step is not None:
            record.append((when, " · ".join(filter(None, (row.step.title, row.words)))))
        else:
            record.append((when, "Sliced and tasted"))
    sections = [
        Section(
            "The piece",
            (
                ("Cut", batch.cut),
                ("Weight", grams(batch.mix.meat_g, kit)),
                ("Begun", say_wall(wall_of(batch.created), now)),
            ),
        ),
        Section("On the board", tuple(outcome_told(batch.outcome, kit)) if batch.outcome else ()),
        Section("Record", tuple(record)),
        Section("", words=DISCLAIMER),
    ]
    pages = printed_page(batch.name, sections, pictures)
    await _give(bench.device, file_name(batch.name, ".html"), "text/html", pages)
    bench.show(said="A page to print or send is saved.", undo=None)


async def _give(device: Device, name: str, mime: str, pieces: Iterable[bytes]) -> None:
    out = await device.begin_file(name, mime)
    try:
        for piece in pieces:
            out.write(piece)
        await out.hand_out()
    except OSError:
        await out.drop()
        raise
