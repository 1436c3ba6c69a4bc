"""Copies of a photo that leave the program, with its figures on a strip below."""

from app.journal.records import Batch, Photo
from app.journal.wall import wall_of
from app.screens.bench import Bench
from app.screens.photos.photo_told import caption


async def hand_out_photo(bench: Bench, batch: Batch, photo: Photo) -> None:
    """Give the cook a copy of a photo."""
    content = await _with_figures(bench, batch, photo)
    if content is not None:
        bench.hand_out(content, file_name(batch, photo), "image/jpeg")


async def share_photo(bench: Bench, batch: Batch, photo: Photo) -> None:
    """Offer a photo to other programs of the device; where that cannot be, save it and say so."""
    content = await _with_figures(bench, batch, photo)
    if content is None:
        return
    name = file_name(batch, photo)
    became = await bench.device.share(content, name, "image/jpeg")
    if became == "shared":
        bench.show(said="Shared.", undo=None)
    elif became == "declined":
        bench.show(said="Not shared.", undo=None)
    else:
        bench.hand_out(content, name, "image/jpeg")
        bench.show(said=f"This device offers no sharing here: saved as {name} instead.", undo=None)


async def _with_figures(bench: Bench, batch: Batch, photo: Photo) -> bytes | None:
    lines = caption(batch, photo, bench.shown.kit)
    try:
        content = await bench.device.photos.get(photo.id)
        return await bench.device.images.captioned(content, lines)
    except (LookupError, ValueError, OSError) as wrong:
        bench.show(said=str(wrong), undo=None)
        return None


def file_name(batch: Batch, photo: Photo) -> str:
    """A file name that says what it shows, of plain letters only."""
    plain = "".join(c if c.isascii() and c.isalnum() else "-" for c in batch.name.lower())
    parts = [part for part in plain.split("-") if part]
    return "-".join([*parts[:6], photo.stage, wall_of(photo.taken)[:10]]) + ".jpg"
