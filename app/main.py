"""Starts the program on whichever device it finds: a browser's page, or a window."""

import asyncio
import gc
import traceback
from collections.abc import Awaitable, Callable
from concurrent.futures import Future
from contextlib import suppress

import flet as ft

from app.device import find_device
from app.device.device import Device
from app.device.parts import HELD_ELSEWHERE, HeldElsewhere, NewerJournal, NoPrivateFiles
from app.device.surroundings import in_browser
from app.screens.bench import Bench, Shown
from app.screens.in_turn import handle_in_turn
from app.screens.journal.kept_forms import keeping_forms, kept_forms
from app.screens.kit.faults import log_without_words
from app.screens.kit.held import held_view
from app.screens.kit.keeping import KeepWatch
from app.screens.masses import weighing_in
from app.screens.mix.kept_draft import keeping, kept_draft, unit_to_take_up
from app.screens.shell import Shell
from app.store.shelf import Shelf
from app.store.structuring import NewerRecord
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
        _cannot_open(page, device, why)
        return
    except NoPrivateFiles:
        device.keep_in_memory()
        await device.files.open()
    try:
        begin(page, device)
    except NewerRecord as why:
        _cannot_open(page, device, why)


def _opened(device: Device) -> Bench:
    """The bench over everything that is kept, which lives as long as the program."""
    # Nothing of it is rubbish: the collector would only walk through it again and again.
    gc.disable()
    try:
        shelf = Shelf.open(device.files)
        bench = Bench(device, shelf, Shown(kit=shelf.kit(), draft=kept_draft(shelf)))
        bench.drafts.update(kept_forms(shelf))
        bench.refresh()
        if unit := unit_to_take_up(shelf):
            with suppress(OSError):
                bench.save_kit(weighing_in(bench.kit, unit))
    finally:
        gc.enable()
    return bench


def begin(page: ft.Page, device: Device, stand: list[Bench] | None = None) -> Bench:
    """Draw the program over the records of an open device.

    `stand` holds the bench in use; it is given when a journal is taken back, which makes a new one.
    """
    bench = _opened(device)
    dress(page, bench.shown.kit.theme)
    # Flet's own answer to a fault is to put an error in place of the whole program.
    page.session.error = bench.went_wrong  # type: ignore[method-assign, assignment]
    page.render_views(Shell, bench)
    if stand is None:
        stand = [bench]
        handle_in_turn(page.session, lambda: stand[0].keep_typed())
        _go_on_drawing(page, stand)
    stand[0] = bench
    watch = KeepWatch(bench)

    async def tell_of_newer() -> None:
        bench.show(update_waiting=True)

    # As a task of the page: what the device calls by itself knows of no page to draw on.
    device.on_update_waiting(lambda: page.run_task(tell_of_newer))
    device.on_kept(lambda ok, why: page.run_task(watch.kept, ok, why))
    device.on_update_failed(lambda _why: page.run_task(watch.update_failed))
    bench.keep_by(
        keeping(bench.shelf, lambda: bench.shown.draft), keeping_forms(bench.shelf, bench.drafts)
    )
    running = [page.run_task(one) for one in (bench.keep_time, watch.run, bench.keep_typing)]
    device.on_taken_over(lambda: _taken_over(page, device, running, stand))
    device.ready()
    return bench


def _go_on_drawing(page: ft.Page, stand: list[Bench]) -> None:
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
        _go_on_drawing(page, stand)
        stand[0].went_wrong(trace)
        if page.route != "/kit":
            page.navigate("/kit")

    task.add_done_callback(ended)


def _wait_for_the_other(page: ft.Page, device: Device) -> None:
    """Another window has the journal: say so, and take it when asked."""
    page.views = [held_view(HELD_ELSEWHERE, _taking(page, device))]
    page.update()
    device.ready()


def _taking(
    page: ft.Page, device: Device, stand: list[Bench] | None = None
) -> Callable[[], Awaitable[None]]:
    """What the press does that brings the journal into this window."""

    async def take_it() -> None:
        try:
            await device.take_over()
            begin(page, device, stand)
        except HeldElsewhere:
            says = "The other window did not let go. Close it and try again."
            page.views = [held_view(says, take_it, "Try again")]
            page.update()
        except (NewerJournal, NewerRecord, OSError) as why:
            _cannot_open(page, device, why)

    return take_it


def _cannot_open(page: ft.Page, device: Device, why: Exception) -> None:
    """Say why there is no journal; where a newer program could open it, offer to start that."""

    async def start_newer() -> None:
        device.take_update()

    newer = start_newer if isinstance(why, NewerJournal | NewerRecord) else None
    page.views = [held_view(str(why), newer, "Start the newest version")]
    page.update()
    device.ready()


def _taken_over(
    page: ft.Page, device: Device, running: list["Future[None]"], stand: list[Bench]
) -> None:
    """Another window has taken the journal: stop what runs over it, and offer to take it back."""
    for task in running:
        task.cancel()
    # Not by a press either: the files are the other window's now.
    stand[0].keep_by()
    says = "The journal is now open in another window. What you saved here is kept."
    page.views = [held_view(says, _taking(page, device, stand), "Take it back here")]
    page.update()


def start() -> None:
    """Run the program."""
    if in_browser():
        log_without_words()
    ft.run(main)


if __name__ == "__main__":
    start()
