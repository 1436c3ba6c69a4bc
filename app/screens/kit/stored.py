"""What is stored: how much, how safe, and what is wrong with any of it."""

import flet as ft

from app.screens.bench import Bench, use_bench
from app.screens.kit.copies import save_strays
from app.screens.kit.keeping import (
    compare_pictures,
    full_said,
    in_bytes,
    offline_said,
    room_said,
    update_said,
)
from app.screens.kit.sheets import counted
from app.widgets import panels, words
from app.widgets.frame import Act, side_button


def stored_summary(bench: Bench) -> str:
    """One line for Kit: the room left, or that there is little."""
    keeping = bench.shown.keeping
    room = f"room left: {room_said(keeping)}"
    return f"{room} · pictures gone astray" if keeping.pictureless or keeping.strays else room


@ft.component
def Stored() -> ft.Control:
    """The figures, the browser's promise, and what has to be said."""
    bench = use_bench()
    not_yet: int | None = None
    used, set_used = ft.use_state(not_yet)

    async def count() -> None:
        own = bench.shown.keeping.health.own
        if own is None:
            sizes = await bench.device.photos.sizes()
            own = bench.device.files.length + sum(sizes.values())
        set_used(max(own, bench.device.files.length))
        await compare_pictures(bench)

    ft.use_effect(count, [bench.shown.turn])
    own = [one for one in bench.shown.batches if not one.demonstration]
    photos = sum(bench.shelf.count_photos(one.id) for one in own)
    return panels.stack(
        [
            panels.figure("Batches", str(len(own))),
            panels.figure("Photos", str(photos)),
            *_room(bench, used),
            *_safety(bench),
            *_pictures(bench),
            *(panels.notice(text, "attention") for text in bench.shelf.report),
        ]
    )


def _room(bench: Bench, yours: int | None) -> list[ft.Control]:
    """How much of the room is the cook's, how much the program's; `yours` None while counted."""
    health = bench.shown.keeping.health
    rows: list[ft.Control] = []
    if yours is not None:
        rows.append(panels.figure("Your journal and photos", in_bytes(yours)))
        if health.usage is not None and bench.device.photos_come_by_the_page:
            rows.append(
                panels.figure(
                    "The program itself",
                    in_bytes(max(0, health.usage - yours)),
                    note="Kept so that it starts without a network. It does not grow with use.",
                )
            )
    rows.append(panels.figure("Room left", room_said(bench.shown.keeping)))
    if said := full_said(bench.shown.keeping):
        rows.append(panels.notice(said, "danger"))
    return rows


def _safety(bench: Bench) -> list[ft.Control]:
    keeping = bench.shown.keeping
    rows: list[ft.Control] = []
    if said := offline_said(keeping):
        rows.append(panels.notice(said, "done" if keeping.offline else "attention"))
    if said := update_said(keeping):
        rows.append(panels.notice(said, "attention"))
    health = keeping.health
    if health.persisted:
        rows.append(panels.notice("The browser promised to keep your data.", "done"))
    elif health.persisted is False:
        why = (
            "This browser clears what a site has kept when you do not open it for a week. Add the "
            "program to the home screen, and save copies."
            if health.clears_unused
            else "The browser has not promised to keep your data. When the device runs out of room "
            "it may clear it, so save copies."
        )
        rows.append(words.body(why))
        rows.append(side_button(Act("Ask the browser to keep it", bench.ask_to_persist)))
    return rows


def _pictures(bench: Bench) -> list[ft.Control]:
    """Records without a picture, and pictures without a record."""
    keeping = bench.shown.keeping
    known = bench.shelf.photo_ids()
    lacking = [one for one in keeping.pictureless if one in known]
    strays = [one for one in keeping.strays if one not in known]
    rows: list[ft.Control] = []
    if orphans := bench.shelf.lines_without_batch():
        rows.append(
            panels.notice(
                f"{counted((orphans, 'line', 'lines'))} of a record whose batch was lost to damage "
                "are kept. Reading back a copy that holds the batch brings them to sight.",
                "attention",
            )
        )
    if lacking:
        rows.append(
            panels.notice(
                f"{_photos(len(lacking))} in the journal without a picture on this device. "
                "Where a copy holds it, reading the copy back brings it back.",
                "attention",
            )
        )
    if strays:
        rows.append(
            panels.notice(
                f"{_photos(len(strays))} on this device that no batch names: left over when the "
                "program ended half-way, or when a record was damaged.",
                "attention",
            )
        )
        rows.append(side_button(Act("Save them to a file", lambda: save_strays(bench, strays))))
        rows.append(side_button(Act("Delete them", lambda: ask_to_delete(bench, strays))))
    return rows


def _photos(count: int) -> str:
    return "1 photo is" if count == 1 else f"{count} photos are"


def ask_to_delete(bench: Bench, strays: list[str]) -> None:
    """Ask before pictures go for good."""
    page = ft.context.page

    async def delete() -> None:
        page.pop_dialog()
        for photo_id in strays:
            if photo_id not in bench.shelf.photo_ids():
                await bench.device.photos.delete(photo_id)
        await compare_pictures(bench)
        bench.refresh("The left-over pictures are deleted.")

    count = "this picture" if len(strays) == 1 else f"these {len(strays)} pictures"
    page.show_dialog(
        ft.AlertDialog(
            title=f"Delete {count}?",
            content=ft.Text("No batch names them. They cannot be brought back."),
            actions=[
                ft.TextButton(content="Keep", on_click=lambda: page.pop_dialog()),
                ft.FilledButton(content="Delete", on_click=delete),
            ],
        )
    )
