"""Keeping a copy outside the device, and reading one back."""

import zipfile
from collections.abc import Callable
from typing import IO, cast

import flet as ft
from attrs import evolve

from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench
from app.screens.kit.keeping import compare_pictures
from app.screens.kit.sheets import Count, counted, save_table
from app.store.backup import Backup, Progress, Stopped, photo_file, write_backup
from app.store.backup_check import look_through
from app.store.restore import Merge, preview, replace, restore
from app.widgets import words
from app.widgets.frame import Act, side_button

ZIP = "application/zip"


def copied_summary(bench: Bench) -> str:
    """One line for Kit: when the last copy was made."""
    last = bench.shown.kit.last_backup
    return "no copy yet" if last is None else f"copied {say_wall(wall_of(last), bench.wall())}"


def copies(bench: Bench) -> list[ft.Control]:
    """What can be done with copies."""
    return [
        words.body("One file with every batch and photo. Keep it outside this device."),
        side_button(Act("Save everything to a file", lambda: save_copy(bench), ft.Icons.DOWNLOAD)),
        side_button(
            Act(
                "Read a file back",
                icon=ft.Icons.UPLOAD,
                action=ft.PickFiles(
                    copy_picker(bench),
                    file_type=ft.FilePickerFileType.CUSTOM,
                    allowed_extensions=["zip"],
                    with_data=not bench.device.photos_come_by_the_page,
                ),
            )
        ),
        side_button(
            Act("A table of all batches (CSV)", lambda: save_table(bench), ft.Icons.TABLE_ROWS)
        ),
        words.small(
            "Reading back checks the whole file before anything changes. You then see what it "
            "would add, and choose."
        ),
    ]


def told_as_it_goes(bench: Bench, doing: str) -> Progress:
    """Tells how far something is, once for each hundredth of it."""
    said = -1

    def tell(done: int, total: int) -> None:
        nonlocal said
        part = 100 * done // max(total, 1)
        if part != said:
            said = part
            bench.show(busy=f"{doing}: {done} of {total} …")

    return tell


def _stopped(bench: Bench) -> Callable[[], bool]:
    return lambda: bench.stop_asked


def _size(bench: Bench) -> int:
    """About how many bytes a copy has."""
    photos = (photo for one in bench.shown.batches for photo in bench.photos(one.id))
    return bench.device.files.length + sum(photo.stored_bytes for photo in photos)


async def save_copy(bench: Bench) -> bool:
    """Write everything into one file, piece by piece, and hand it to the cook."""
    bench.begin_long("Packing everything into one file …")
    now = bench.now()
    name = f"brinewright-{bench.wall()[:10]}.zip"
    try:
        out = await bench.device.begin_file(name, ZIP, _size(bench))
        try:
            written = await write_backup(
                out,
                bench.shelf,
                bench.device.photos,
                now,
                progress=told_as_it_goes(bench, "Packing"),
                stopped=_stopped(bench),
            )
            await out.hand_out()
        except BaseException:
            await out.drop()
            raise
    except Stopped as why:
        bench.end_long(str(why))
        return False
    except (OSError, ValueError) as why:
        bench.end_long(f"No copy was made. {why}")
        return False
    bench.end_long("")
    missing = (
        f" {counted((written.missing, 'photo', 'photos'))} had no picture to copy."
        if written.missing
        else ""
    )
    batches = counted((written.batches, "batch", "batches"))
    photos = counted((written.photos, "photo", "photos"))
    bench.save_kit(
        evolve(bench.shown.kit, last_backup=now),
        f"A copy with {batches} and {photos} is written: {name}.{missing}",
    )
    return True


async def save_strays(bench: Bench, strays: list[str]) -> None:
    """Write pictures that no batch names into a file, so that they can be looked at."""
    bench.begin_long("Packing the pictures …")
    out = await bench.device.begin_file("left-over-pictures.zip", ZIP)
    try:
        with zipfile.ZipFile(cast(IO[bytes], out), "w") as packed:
            for number, photo_id in enumerate(strays, 1):
                bench.show(busy=f"Packing: {number} of {len(strays)} …")
                try:
                    jpeg = await bench.device.photos.get(photo_id)
                except LookupError:
                    continue
                packed.writestr(photo_file(photo_id, False), jpeg)
        await out.hand_out()
    except (OSError, ValueError) as why:
        await out.drop()
        bench.end_long(f"No file was made. {why}")
        return
    bench.end_long("The pictures are written to a file.")


def copy_picker(bench: Bench) -> ft.FilePicker:
    """The chooser for a file to read back."""
    if "copy" not in bench.pickers:

        async def chosen(e: ft.FilePickerResultEvent) -> None:
            if not e.files:
                return
            source: object = e.files[0].bytes
            if bench.device.photos_come_by_the_page:
                _, source = await bench.device.next_file()
            await look_into_copy(bench, source)

        bench.pickers["copy"] = ft.FilePicker(on_result=chosen)
    return bench.pickers["copy"]


def would_add(merge: Merge) -> str:
    """What reading a copy back would change, in a sentence."""
    if merge.is_empty:
        return "Everything in it is here already."
    counts: tuple[Count, ...] = (
        (len(merge.new_batches), "batch that is not here", "batches that are not here"),
        (len(merge.newer_batches), "newer form of a batch", "newer forms of batches"),
        (len(merge.new_entries), "line of a record", "lines of records"),
        (len(merge.newer_entries), "newer line of a record", "newer lines of records"),
        (len(merge.new_photos), "photo", "photos"),
        (len(merge.pictures), "picture that is missing here", "pictures that are missing here"),
    )
    parts = [counted(one) for one in counts if one[0]]
    if merge.kit is not None:
        parts.append("things of your kit")
    return f"It adds {', '.join(parts)}. Nothing is taken away."


async def look_into_copy(bench: Bench, source: object) -> None:
    """Check a saved file whole, then say what it would add and ask."""
    bench.begin_long("Checking the file …")
    try:
        backup = await look_through(
            bench.device.reading(source),
            progress=told_as_it_goes(bench, "Checking"),
            stopped=_stopped(bench),
        )
        lacking = await _lacking(bench)
        merge = preview(backup, bench.shelf, lacking)
    except (ValueError, OSError, Stopped) as wrong:
        bench.end_long(str(wrong))
        return
    bench.end_long("")
    page = ft.context.page

    async def add() -> None:
        page.pop_dialog()
        if merge.kit is not None:
            bench.keep_meaning(merge.kit)
        await put_back(bench, backup, lacking)

    async def instead() -> None:
        page.pop_dialog()
        await replace_all(bench, backup, lacking)

    actions: list[ft.Control] = [
        ft.TextButton(content="Leave it", on_click=lambda: page.pop_dialog()),
        ft.TextButton(content="Replace everything with it", on_click=instead),
    ]
    if not merge.is_empty:
        actions.append(ft.FilledButton(content="Add it", on_click=add))
    made = say_wall(wall_of(backup.made), bench.wall())
    held = counted((len(backup.batches), "batch", "batches"))
    page.show_dialog(
        ft.AlertDialog(
            title="Read this copy back?",
            content=ft.Text(
                f"Made {made}, with {held}. {would_add(merge)}\n\nOr have only what is in this "
                "copy: replace everything with it. What is here now is saved to a file first."
            ),
            actions=actions,
            scrollable=True,
        )
    )


async def _lacking(bench: Bench) -> frozenset[str]:
    """Photos in the journal whose pictures are not on this device."""
    there = await bench.device.photos.names()
    return frozenset(one for one in bench.shelf.photo_ids() if not there.get(one))


async def put_back(bench: Bench, backup: Backup, lacking: frozenset[str]) -> None:
    """Add what is missing and newer."""
    bench.begin_long("Reading back …")
    try:
        merge = await restore(
            backup,
            bench.shelf,
            bench.device.photos,
            lacking,
            progress=told_as_it_goes(bench, "Photos"),
            stopped=_stopped(bench),
        )
    except Stopped as why:
        bench.end_long(str(why))
        return
    except (ValueError, OSError) as why:
        bench.end_long(f"Nothing was changed. {why}")
        return
    bench.end_long("")
    await compare_pictures(bench)
    bench.refresh(f"Read back. {would_add(merge)}")


async def replace_all(bench: Bench, backup: Backup, lacking: frozenset[str]) -> None:
    """Have what is in the copy and nothing else, after a copy of what is here was saved."""
    if not await save_copy(bench):
        return
    bench.keep_meaning(backup.kit)
    bench.begin_long("Reading back …")
    try:
        await replace(
            backup,
            bench.shelf,
            bench.device.photos,
            lacking,
            progress=told_as_it_goes(bench, "Photos"),
            stopped=_stopped(bench),
        )
    except Stopped as why:
        bench.end_long(str(why))
        return
    except (ValueError, OSError) as why:
        bench.end_long(f"Nothing was changed. {why}")
        return
    bench.end_long("")
    await compare_pictures(bench)
    bench.refresh(
        "Everything is replaced with the copy. What was here before is in the file saved just now."
    )
