"""Keeping a copy outside the device, and reading one back."""

from io import BytesIO

import flet as ft
from attrs import evolve

from app.screens.bench import Bench
from app.store.backup import Backup, write_backup
from app.store.backup_check import read_backup
from app.store.restore import Merge, preview, restore


async def save_copy(bench: Bench) -> None:
    """Write everything into one file and hand it to the cook."""
    bench.show(busy="Packing everything into one file …", said="", undo=None)
    now, packed = bench.now(), BytesIO()

    def progress(done: int, total: int) -> None:
        bench.show(busy=f"Packing: {done} of {total} …")

    try:
        written = await write_backup(
            packed, bench.shelf, bench.device.photos, now, progress=progress
        )
    except (OSError, ValueError) as wrong:
        bench.show(busy="", said=f"No copy was made. {wrong}")
        return
    bench.show(busy="")
    bench.hand_out(packed.getvalue(), f"brinewright-{bench.wall()[:10]}.zip", "application/zip")
    missing = f" {written.missing} photos had no picture to copy." if written.missing else ""
    bench.save_kit(
        evolve(bench.shown.kit, last_backup=now),
        f"A copy of {written.batches} batches and {written.photos} photos is saved.{missing}",
    )


def copy_picker(bench: Bench) -> ft.FilePicker:
    """The chooser for a file to read back."""
    if "copy" not in bench.pickers:

        async def chosen(e: ft.FilePickerResultEvent) -> None:
            if e.files and e.files[0].bytes is not None:
                await look_into_copy(bench, e.files[0].bytes)

        bench.pickers["copy"] = ft.FilePicker(on_result=chosen)
    return bench.pickers["copy"]


def would_add(merge: Merge) -> str:
    """What reading a copy back would change, in a sentence."""
    if merge.is_empty:
        return "Everything in this copy is here already."
    parts = [
        f"{count} {name}"
        for count, name in (
            (len(merge.new_batches), "new batches"),
            (len(merge.newer_batches), "newer batches"),
            (len(merge.new_entries) + len(merge.newer_entries), "lines of records"),
            (len(merge.new_photos), "photos"),
        )
        if count
    ]
    if merge.kit is not None:
        parts.append("things of your kit")
    return f"It adds {', '.join(parts)}. Nothing is taken away."


async def look_into_copy(bench: Bench, packed: bytes) -> None:
    """Check a saved file whole, then say what it would add and ask."""
    bench.show(busy="Checking the file …", said="", undo=None)
    try:
        backup = read_backup(BytesIO(packed))
        merge = preview(backup, bench.shelf)
    except ValueError as wrong:
        bench.show(busy="", said=f"Nothing was changed. {wrong}")
        return
    bench.show(busy="")
    if merge.is_empty:
        bench.show(said=would_add(merge))
        return
    page = ft.context.page

    async def go_on() -> None:
        page.pop_dialog()
        await put_back(bench, backup)

    page.show_dialog(
        ft.AlertDialog(
            title="Read this copy back?",
            content=ft.Text(would_add(merge)),
            actions=[
                ft.TextButton(content="Leave it", on_click=lambda: page.pop_dialog()),
                ft.FilledButton(content="Add it", on_click=go_on),
            ],
        )
    )


async def put_back(bench: Bench, backup: Backup) -> None:
    """Add what is missing and newer."""
    bench.show(busy="Reading back …")
    try:
        merge = await restore(backup, bench.shelf, bench.device.photos)
    except (ValueError, OSError) as wrong:
        bench.show(busy="", said=f"Nothing was changed. {wrong}")
        return
    bench.show(busy="")
    bench.refresh(f"Read back. {would_add(merge)}")
