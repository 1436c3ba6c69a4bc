"""Taking a photo in: the button that opens the chooser, and what happens to what comes back."""

import flet as ft
from attrs import evolve

from app.device.parts import StorageFull
from app.journal.entries import new_entry, pictured, stage_now
from app.journal.records import Batch, Photo, Stage
from app.screens.bench import Bench, new_id
from app.widgets.frame import Act

TRUSTED_S = 30 * 86400.0
"""A camera's own time is taken for a photo's when it lies no further back than this."""


def photo_act(
    bench: Bench, batch: Batch, *, stage: Stage | None = None, words: str = "Photo"
) -> Act:
    """A press opens the phone's camera or chooser at once, within the tap itself."""
    return Act(
        words,
        icon=ft.Icons.PHOTO_CAMERA,
        action=ft.PickFiles(
            _picker(bench, batch.id, stage),
            file_type=ft.FilePickerFileType.IMAGE,
            with_data=not bench.device.photos_come_by_the_page,
        ),
    )


def _picker(bench: Bench, batch_id: str, stage: Stage | None) -> ft.FilePicker:
    """The file chooser of one batch and stage; what is chosen goes into its record."""
    key = ("photo", batch_id, stage)
    if key not in bench.pickers:

        async def chosen(e: ft.FilePickerResultEvent) -> None:
            if not e.files:
                return
            source: object = e.files[0].bytes
            if bench.device.photos_come_by_the_page:
                _, source = await bench.device.next_photo()
            await take_photo(bench, batch_id, source, stage)

        bench.pickers[key] = ft.FilePicker(on_result=chosen)
    return bench.pickers[key]


async def take_photo(
    bench: Bench, batch_id: str, source: object, stage: Stage | None = None
) -> None:
    """Store a photo and put it into a batch's record; nothing is half there when it fails."""
    batch = bench.batch(batch_id)
    if batch is None:
        bench.show(said="This batch is no longer in the journal.", undo=None)
        return
    bench.show(busy="Taking the photo in …", said="", undo=None)
    try:
        ready = await bench.device.images.prepare(source)
        photo_id, now = new_id(), bench.now()
        await bench.device.photos.put(photo_id, ready.jpeg, ready.thumb)
        taken = now
        if ready.taken_utc_s is not None and 0 < now.utc_s - ready.taken_utc_s < TRUSTED_S:
            taken = evolve(now, utc_s=max(ready.taken_utc_s, batch.created.utc_s))
        where = stage or stage_now(batch)
        bench.shelf.save_photo(
            Photo(photo_id, batch_id, taken, where, ready.width, ready.height, len(ready.jpeg))
        )
        if batch.cover_photo_id is None or where == "slice":
            bench.shelf.save_batch(evolve(batch, cover_photo_id=photo_id, changed=now))
        entry = new_entry(new_id(), batch, pictured(photo_id), taken, now, where)
        bench.shelf.save_entry(entry)
    except (ValueError, OSError, StorageFull) as wrong:
        bench.show(busy="", said=f"The photo was not taken in. {wrong}", undo=None)
        return
    bench.show(busy="")
    bench.refresh("Photo saved.", lambda: bench.remove_entry(entry))


async def hand_out_photo(bench: Bench, photo_id: str) -> None:
    """Give the cook a copy of a photo."""
    try:
        content = await bench.device.photos.get(photo_id)
    except LookupError as missing:
        bench.show(said=str(missing), undo=None)
        return
    bench.hand_out(content, f"photo-{photo_id}.jpg", "image/jpeg")
