"""Taking a photo in: the button that opens the chooser, and what happens to what comes back."""

from contextlib import suppress

import flet as ft
from attrs import evolve

from app.colour.light import marks
from app.device.parts import Prepared, all_ended
from app.journal.entries import new_entry, pictured, stage_now
from app.journal.records import Batch, Moment, Photo, Stage
from app.screens.bench import Bench, new_id
from app.screens.photos.photo_pixels import pixels_of
from app.widgets.frame import Act

BEFORE_BATCH_S = 90 * 86400.0
"""A camera's time is taken for a photo's from so long before its batch was begun until now;
earlier or later the camera's clock is more likely wrong. Our own choice."""

MEASURED_SOON: frozenset[Stage] = frozenset({"wrap", "slice"})
"""Where a photo is taken to be measured; its pixels are then at hand before they are asked for."""

LIGHT_SIDE_PX = 160
"""Size at which a photo's light is judged: dark and clipped parts need no more."""


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
    if bench.batch(batch_id) is None:
        bench.show(said="This batch is no longer in the journal.", undo=None)
        return
    bench.show(busy="Making the photo ready …", said="", undo=None)
    photo_id = new_id()
    try:
        ready = await bench.device.images.prepare(source)
        bench.show(busy="Storing the photo …")
        # The light is looked at while the files are written.
        light, _ = await all_ended(
            _light(bench, ready), bench.device.photos.put(photo_id, ready.jpeg, ready.thumb)
        )
        _record(bench, batch_id, photo_id, ready, light, stage)
    except (ValueError, OSError) as wrong:
        # A picture that no record names would only take up room.
        with suppress(LookupError, OSError):
            await bench.device.photos.delete(photo_id)
        bench.show(
            busy="",
            said=f"The photo was not taken in. {wrong} All else is as it was.",
            undo=None,
        )
        return
    if stage in MEASURED_SOON:
        with suppress(LookupError, ValueError, OSError):
            await pixels_of(bench.device.photos, bench.device.images, photo_id)


async def _light(bench: Bench, ready: Prepared) -> tuple[str, ...]:
    """Marks of a new photo's light, before any white patch was tapped."""
    return marks(*await bench.device.images.rgba(ready.thumb, LIGHT_SIDE_PX), [])


def _record(
    bench: Bench,
    batch_id: str,
    photo_id: str,
    ready: Prepared,
    light: tuple[str, ...],
    stage: Stage | None,
) -> None:
    """Write a stored photo into its batch's record, as the batch stands now."""
    batch = bench.batch(batch_id)
    if batch is None:
        raise ValueError("Its batch was removed meanwhile.")
    now = bench.now()
    taken = taken_at(ready.taken_utc_s, batch, now)
    where = stage or stage_now(batch)
    entry = new_entry(new_id(), batch, pictured(photo_id), taken, now, where)
    photo = Photo(photo_id, batch_id, taken, where, ready.width, ready.height, len(ready.jpeg))
    photo = evolve(photo, light=light, camera_utc_s=ready.taken_utc_s)
    covers = batch.cover_photo_id is None or where == "slice"
    # In one stroke: a kill or a full device in between would leave a photo without its line.
    bench.shelf.save_all(
        (evolve(batch, cover_photo_id=photo_id, changed=now),) if covers else (),
        (entry,),
        (photo,),
    )
    bench.show(busy="")
    bench.refresh("Photo saved.", lambda: bench.remove_entry(entry))


def taken_at(camera_utc_s: float | None, batch: Batch, now: Moment) -> Moment:
    """When a photo was taken: by the camera where its time can be, else now."""
    if camera_utc_s is None:
        return now
    if batch.created.utc_s - BEFORE_BATCH_S <= camera_utc_s <= now.utc_s:
        return evolve(now, utc_s=camera_utc_s)
    return now
