"""Starts the program on whichever device it finds: a browser's page, or a window."""

import asyncio
import traceback

import flet as ft

from app.device import find_device
from app.device.device import Device
from app.device.parts import HELD_ELSEWHERE, HeldElsewhere, NewerJournal, NoPrivateFiles
from app.screens.bench import Bench, Shown
from app.screens.held import held_view
from app.screens.shell import Shell
from app.store.shelf import Shelf
from app.widgets.theme import dress


async def main(page: ft.Page) -> None:
    """Open what is kept, then draw the first screen."""
    page.title = "Brinewright"
    dress(page, "auto")
    device = await find_device()
    try:
        await device.files.open()
    except HeldElsewhere:
        _wait_for_the_other(page, device)
        return
    except (NewerJournal, OSError) as why:
        _cannot_open(page, device, str(why))
        return
    except NoPrivateFiles:
        device.keep_in_memory()
        await device.files.open()
    begin(page, device)


def begin(page: ft.Page, device: Device) -> Bench:
    """Draw the program over the records of an open device."""
    bench = Bench(device, Shelf.open(device.files), Shown())
    bench.refresh()
    dress(page, bench.shown.kit.theme)
    # Flet's own answer to a fault is to put an error in place of the whole program.
    page.session.error = bench.went_wrong  # type: ignore[method-assign, assignment]
    page.render_views(Shell, bench)
    _go_on_drawing(page, bench)

    async def tell_of_newer() -> None:
        bench.show(update_waiting=True)

    # As a task of the page: what the device calls by itself knows of no page to draw on.
    device.on_update_waiting(lambda: page.run_task(tell_of_newer))
    device.on_taken_over(lambda: _taken_over(page, device))
    page.run_task(bench.keep_time)
    page.run_task(bench.clear_out)
    device.ready()
    return bench


def _go_on_drawing(page: ft.Page, bench: Bench) -> None:
    """Start drawing again when a screen's own fault has stopped it.

    Flet's task that draws ends for good with the first exception of any screen, and everything
    would stand still without a word. The faulty screen is left for Kit, where the fault is told.
    """
    task = page.session._Session__updates_task  # type: ignore[attr-defined]

    def ended(done: "asyncio.Task[None]") -> None:
        if done.cancelled() or done.exception() is None:
            return
        trace = "".join(traceback.format_exception(done.exception()))
        page.session.start_updates_scheduler()  # type: ignore[no-untyped-call]
        _go_on_drawing(page, bench)
        bench.went_wrong(trace)
        if page.route != "/kit":
            page.navigate("/kit")

    task.add_done_callback(ended)


def _wait_for_the_other(page: ft.Page, device: Device) -> None:
    """Another window has the journal: say so, and take it when asked."""

    async def use_it_here() -> None:
        try:
            await device.take_over()
        except HeldElsewhere:
            page.views = [
                held_view("The other window did not let go. Close it and try again.", use_it_here)
            ]
            page.update()
            return
        except (NewerJournal, OSError) as why:
            _cannot_open(page, device, str(why))
            return
        begin(page, device)

    page.views = [held_view(HELD_ELSEWHERE, use_it_here)]
    page.update()
    device.ready()


def _cannot_open(page: ft.Page, device: Device, why: str) -> None:
    page.views = [held_view(why, None)]
    page.update()
    device.ready()


def _taken_over(page: ft.Page, device: Device) -> None:
    page.views = [
        held_view(
            "The journal is now open in another window. What you saved here is kept.",
            None,
        )
    ]
    page.update()


def start() -> None:
    """Run the program."""
    ft.run(main)


if __name__ == "__main__":
    start()
