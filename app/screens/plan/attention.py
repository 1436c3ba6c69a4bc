"""Keeping the cook's attention: leave for notices, and a screen that stays on. Only when asked."""

import asyncio

import flet as ft
from attrs import evolve

from app.journal.reminders import TRIAL_MIN, trial_file
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


def try_notice(bench: Bench) -> None:
    """Show one notice now, the way a step's is shown."""
    bench.device.notify(
        "A reminder looks like this",
        "A tap opens the program.",
        tag="trial",
        route="/reminders",
    )
    bench.show(said="A notice was given. If you see none, the phone holds notices back.")


NUMBER_S = 10.0


def try_number(bench: Bench) -> None:
    """Show a number on the icon for a while, then the true one again."""

    async def true_again() -> None:
        await asyncio.sleep(NUMBER_S)
        bench.device.badge(bench.counted)

    bench.device.badge(9)
    bench.show(said="The icon shows 9 now, for ten seconds.")
    ft.context.page.run_task(true_again)


def try_calendar(bench: Bench) -> None:
    """Hand out a calendar file with one alarm soon, that nothing has to be believed."""
    bench.device.hand_out(
        trial_file(bench.now()).encode(), "brinewright-alarm.ics", "text/calendar"
    )
    bench.show(
        said="brinewright-alarm.ics handed to the phone: open it, and its calendar should ring "
        f"in {TRIAL_MIN} minutes."
    )


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
