"""Keeping a copy outside the device, and reading one back."""

import flet as ft
from attrs import evolve

from app.screens.bench import Bench
from app.store.backup import pack, unpack


async def save_copy(bench: Bench) -> None:
    """Write everything into one file and hand it to the cook."""
    bench.show(busy="Packing everything into one file …", said="", undo=None)
    now = bench.now()
    try:
        packed = await pack(bench.shelf, bench.device.photos, now)
    except (OSError, LookupError) as wrong:
        bench.show(busy="", said=f"No copy was made. {wrong}")
        return
    bench.show(busy="")
    bench.hand_out(packed, f"brinewright-{bench.wall()[:10]}.zip", "application/zip")
    bench.save_kit(evolve(bench.shown.kit, last_backup=now), "A copy is saved.")


def copy_picker(bench: Bench) -> ft.FilePicker:
    """The chooser for a file to read back."""
    if "copy" not in bench.pickers:

        async def chosen(e: ft.FilePickerResultEvent) -> None:
            if e.files and e.files[0].bytes is not None:
                await read_copy(bench, e.files[0].bytes)

        bench.pickers["copy"] = ft.FilePicker(on_result=chosen)
    return bench.pickers["copy"]


async def read_copy(bench: Bench, packed: bytes) -> None:
    """Check a saved file whole, then add what is missing and newer."""
    bench.show(busy="Checking the file …", said="", undo=None)
    try:
        says = await unpack(packed, bench.shelf, bench.device.photos)
    except (ValueError, OSError) as wrong:
        bench.show(busy="", said=f"Nothing was changed. {wrong}")
        return
    bench.show(busy="")
    bench.refresh(says)
