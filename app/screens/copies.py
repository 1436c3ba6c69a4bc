"""Keeping a copy outside the device, and reading one back."""

import flet as ft
from attrs import evolve

from app.screens.bench import Bench
from app.store.backup import Backup, Stopped, write_backup
from app.store.backup_check import look_through
from app.store.restore import Merge, preview, replace, restore

ZIP = "application/zip"


async def save_copy(bench: Bench) -> bool:
    """Write everything into one file, piece by piece, and hand it to the cook."""
    bench.begin_long("Packing everything into one file …")
    now = bench.now()
    out = await bench.device.begin_file(f"brinewright-{bench.wall()[:10]}.zip", ZIP)
    try:
        written = await write_backup(
            out,
            bench.shelf,
            bench.device.photos,
            now,
            progress=lambda done, total: bench.show(busy=f"Packing: {done} of {total} …"),
            stopped=lambda: bench.stop_asked,
        )
        await out.hand_out()
    except (OSError, ValueError, Stopped) as why:
        await out.drop()
        bench.end_long(f"No copy was made. {why}")
        return False
    bench.end_long("")
    missing = f" {written.missing} photos had no picture to copy." if written.missing else ""
    bench.save_kit(
        evolve(bench.shown.kit, last_backup=now),
        f"A copy of {written.batches} batches and {written.photos} photos is saved.{missing}",
    )
    return True


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


async def look_into_copy(bench: Bench, source: object) -> None:
    """Check a saved file whole, then say what it would add and ask."""
    bench.begin_long("Checking the file …")
    try:
        backup = await look_through(
            bench.device.reading(source),
            progress=lambda done, total: bench.show(busy=f"Checking: {done} of {total} …"),
            stopped=lambda: bench.stop_asked,
        )
        merge = preview(backup, bench.shelf)
    except (ValueError, OSError, Stopped) as wrong:
        bench.end_long(str(wrong))
        return
    bench.end_long("")
    page = ft.context.page

    async def add() -> None:
        page.pop_dialog()
        await put_back(bench, backup)

    async def instead() -> None:
        page.pop_dialog()
        await replace_all(bench, backup)

    actions: list[ft.Control] = [
        ft.TextButton(content="Leave it", on_click=lambda: page.pop_dialog()),
        ft.TextButton(content="Replace all by it", on_click=instead),
    ]
    if not merge.is_empty:
        actions.append(ft.FilledButton(content="Add it", on_click=add))
    page.show_dialog(
        ft.AlertDialog(
            title="Read this copy back?",
            content=ft.Text(
                f"{would_add(merge)} To have only what is in this copy, replace all by it: "
                "a copy of what is here now is saved first."
            ),
            actions=actions,
        )
    )


async def put_back(bench: Bench, backup: Backup) -> None:
    """Add what is missing and newer."""
    bench.begin_long("Reading back …")
    try:
        merge = await restore(
            backup,
            bench.shelf,
            bench.device.photos,
            progress=lambda done, total: bench.show(busy=f"Photos: {done} of {total} …"),
            stopped=lambda: bench.stop_asked,
        )
    except (ValueError, OSError, Stopped) as why:
        bench.end_long(f"Nothing was changed. {why}")
        return
    bench.end_long("")
    bench.refresh(f"Read back. {would_add(merge)}")


async def replace_all(bench: Bench, backup: Backup) -> None:
    """Have what is in the copy and nothing else, after a copy of what is here was saved."""
    if not await save_copy(bench):
        return
    bench.begin_long("Reading back …")
    try:
        await replace(
            backup,
            bench.shelf,
            bench.device.photos,
            progress=lambda done, total: bench.show(busy=f"Photos: {done} of {total} …"),
            stopped=lambda: bench.stop_asked,
        )
    except (ValueError, OSError, Stopped) as why:
        bench.end_long(f"Nothing was changed. {why}")
        return
    bench.end_long("")
    bench.refresh(
        "All is replaced by the copy. What was here before is in the file saved just now."
    )
