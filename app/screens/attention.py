"""Keeping the cook's attention: leave for notices, and a screen that stays on. Only when asked."""

import flet as ft
from attrs import evolve

from app.screens.bench import Bench


async def ask_for_notices(bench: Bench) -> None:
    """Ask the device's leave to show notices, and keep the answer."""
    given = await bench.device.ask_to_notify()
    bench.save_kit(
        evolve(bench.shown.kit, notices=given),
        "Notices are on while the program is open."
        if given
        else "This device gave no leave for notices. The calendar file works without.",
    )


def stop_notices(bench: Bench) -> None:
    """Show no notices any more; the device's leave stays as it is."""
    bench.save_kit(evolve(bench.shown.kit, notices=False), "Notices are off.")


async def keep_awake(bench: Bench, on: bool) -> None:
    """Keep the screen on, or let it sleep again."""
    if bench.screen_lock is None:
        bench.screen_lock = ft.Wakelock()
    lock = bench.screen_lock
    try:
        await (lock.enable() if on else lock.disable())  # type: ignore[no-untyped-call]
    except (RuntimeError, TimeoutError):
        bench.show(said="This browser does not let the screen be kept on.", undo=None)
        return
    bench.show(
        awake=on,
        said="The screen stays on while the program is open." if on else "The screen may sleep.",
        undo=None,
    )
