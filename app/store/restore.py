"""Putting a backup back: what is new or newer goes onto the shelf, the rest stays."""

from collections.abc import AsyncIterator, Callable, Set
from contextlib import asynccontextmanager

from attrs import evolve, frozen

from app.journal.records import Batch, Entry, Kit, Photo
from app.store.backup import Backup, PhotoStore, Progress, Stopped
from app.store.shelf import Shelf


@frozen
class Merge:
    """What putting a backup back would change. Nothing here was changed yet.

    unchanged : batches and entries that are on the shelf already, the same or newer
    pictures : photos known here whose pictures are missing on the device and come from the backup
    pictureless : photos whose picture is neither in the backup nor asked of the device
    """

    new_batches: tuple[Batch, ...]
    newer_batches: tuple[Batch, ...]
    new_entries: tuple[Entry, ...]
    newer_entries: tuple[Entry, ...]
    new_photos: tuple[Photo, ...]
    pictures: tuple[Photo, ...]
    kit: Kit | None
    unchanged: int
    pictureless: int

    @property
    def is_empty(self) -> bool:
        """Whether the shelf has all of it already."""
        return not (
            self.new_batches
            or self.newer_batches
            or self.new_entries
            or self.newer_entries
            or self.new_photos
            or self.pictures
            or self.kit
        )


def preview(backup: Backup, shelf: Shelf, lacking: Set[str] = frozenset()) -> Merge:
    """Compare a backup with the shelf: by id, and of two the one changed last.

    A batch or entry that was deleted here and is in the backup comes back, and so do pictures
    that are `lacking` on the device.
    """
    new_batches: list[Batch] = []
    newer_batches: list[Batch] = []
    new_entries: list[Entry] = []
    newer_entries: list[Entry] = []
    new_photos: list[Photo] = []
    pictures: list[Photo] = []
    unchanged = pictureless = 0
    for one in backup.batches:
        held = shelf.batch(one.batch.id)
        if held is None:
            new_batches.append(one.batch)
        elif one.batch.changed.utc_s > held.changed.utc_s:
            newer_batches.append(one.batch)
        else:
            unchanged += 1
        # Also where the batch itself is not there: its lines may have outlived its own record.
        entries = {entry.id: entry for entry in shelf.entries(one.batch.id)}
        for entry in one.entries:
            if entry.id not in entries:
                new_entries.append(entry)
            elif entry.changed.utc_s > entries[entry.id].changed.utc_s:
                newer_entries.append(entry)
            else:
                unchanged += 1
        known = {photo.id for photo in shelf.photos(one.batch.id)}
        for photo in one.photos:
            there = shelf.photo(photo.id)
            if photo.id in known or (there is not None and there.batch_id != photo.batch_id):
                # Never over a picture that another batch has under the same name.
                if photo.id in known and photo.id in lacking and photo.id in backup.photo_ids:
                    pictures.append(photo)
                else:
                    unchanged += 1
            elif photo.id in backup.photo_ids:
                new_photos.append(photo)
            else:
                pictureless += 1
    return Merge(
        *(tuple(new_batches), tuple(newer_batches)),
        *(tuple(new_entries), tuple(newer_entries)),
        *(tuple(new_photos), tuple(pictures)),
        _merged_kit(shelf.kit(), backup.kit),
        unchanged,
        pictureless,
    )


def _merged_kit(here: Kit, there: Kit) -> Kit | None:
    """The kit with what it lacks; an untouched one takes the backup's whole."""
    if here == Kit():
        merged = there
    else:
        salts = {salt.id for salt in here.salts}
        containers = {container.id for container in here.containers}
        blends = {blend.name for blend in here.blends}
        merged = evolve(
            here,
            salts=here.salts + tuple(s for s in there.salts if s.id not in salts),
            containers=here.containers
            + tuple(c for c in there.containers if c.id not in containers),
            blends=here.blends + tuple(b for b in there.blends if b.name not in blends),
        )
    return None if merged == here else merged


async def restore(
    backup: Backup,
    shelf: Shelf,
    photos: PhotoStore,
    lacking: Set[str] = frozenset(),
    *,
    progress: Progress | None = None,
    stopped: Callable[[], bool] | None = None,
) -> Merge:
    """Put back what is new or newer: pictures first, then all records in one stroke.

    When a picture finds no room, or the cook stops, those put so far are taken away again and
    the shelf is as it was.
    """
    merge = preview(backup, shelf, lacking)
    wanted = merge.new_photos + merge.pictures
    async with _pictures_put(backup, wanted, shelf, photos, progress, stopped):
        shelf.save_all(
            merge.new_batches + merge.newer_batches,
            merge.new_entries + merge.newer_entries,
            merge.new_photos,
            merge.kit,
        )
    return merge


async def replace(
    backup: Backup,
    shelf: Shelf,
    photos: PhotoStore,
    lacking: Set[str] = frozenset(),
    *,
    progress: Progress | None = None,
    stopped: Callable[[], bool] | None = None,
) -> tuple[str, ...]:
    """Have what is in the backup and nothing else; a copy of what is here is to be made before.

    Pictures first, then all records in one stroke, and only then the pictures nobody knows any
    more are deleted; their ids come back. A photo here and in the backup keeps its picture.
    """
    kept = tuple(
        photo
        for one in backup.batches
        for photo in one.photos
        if photo.id in backup.photo_ids or shelf.photo(photo.id) is not None
    )
    wanted = tuple(
        photo
        for photo in kept
        if photo.id in backup.photo_ids and (photo.id in lacking or shelf.photo(photo.id) is None)
    )
    # When the last copy was made, and what its calendar was given, are facts of this device.
    here = shelf.kit()
    kit = evolve(backup.kit, last_backup=here.last_backup, calendar=here.calendar)
    async with _pictures_put(backup, wanted, shelf, photos, progress, stopped):
        gone = shelf.replace_all(
            tuple(one.batch for one in backup.batches),
            tuple(entry for one in backup.batches for entry in one.entries),
            kept,
            kit,
        )
    for photo_id in gone:
        await photos.delete(photo_id)
    return gone


@asynccontextmanager
async def _pictures_put(
    backup: Backup,
    wanted: tuple[Photo, ...],
    shelf: Shelf,
    photos: PhotoStore,
    progress: Progress | None,
    stopped: Callable[[], bool] | None,
) -> AsyncIterator[None]:
    """Pictures put for the records saved inside; taken away again when anything fails."""
    put: list[str] = []
    try:
        for number, photo in enumerate(wanted, 1):
            if stopped is not None and stopped():
                raise Stopped("Stopped. Nothing was changed.")
            # Noted before: a picture that was put by half is taken away as well.
            put.append(photo.id)
            jpeg, thumb = backup.picture(photo.id, False), backup.picture(photo.id, True)
            await photos.put(photo.id, jpeg, thumb)
            if progress is not None:
                progress(number, len(wanted))
        yield
    except BaseException:
        for photo_id in put:
            if shelf.photo(photo_id) is None:
                await photos.delete(photo_id)
        raise
