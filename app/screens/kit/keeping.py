"""How safe what is kept is: room, the browser's promise, copies, pictures; and the words for it."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from typing import TYPE_CHECKING

from attrs import evolve, field, frozen

from app.device.parts import Health
from app.journal.records import Batch, Kit, Moment

if TYPE_CHECKING:
    from app.screens.bench import Bench

DAY_S = 86_400.0
REMIND_AFTER_DAYS = 30
"""A copy older than this, with changes since, is worth a word. Our own choice."""
REMIND_SOON_DAYS = 5
"""The same where the browser clears the data of a site that was not used for seven days."""
SCARCE_BYTES = 40_000_000
"""Room for some forty photos; with less left it is said. Our own choice."""
LOOK_EVERY_S = 5.0
LOOK_AT_ROOM_S = 600.0


@frozen
class Keeping:
    """What is known of how things are kept.

    offline : whether the program itself is kept for starts without a network; None: not told yet
    offline_why : why it is not
    update_failed : whether a newer version could not be fetched whole
    scarce : whether so little room is left that it must be said
    pictureless : photos in the journal whose pictures are not on this device
    strays : pictures on this device that no record names
    """

    health: Health = field(factory=Health)
    offline: bool | None = None
    offline_why: str = ""
    update_failed: bool = False
    scarce: bool = False
    pictureless: tuple[str, ...] = ()
    strays: tuple[str, ...] = ()


def in_bytes(count: int | None) -> str:
    """A number of bytes as people say it.

    Examples
    --------
    >>> in_bytes(420_000), in_bytes(88_400_000), in_bytes(1_620_000_000), in_bytes(None)
    ('0.4 MB', '88 MB', '1.6 GB', 'not told')
    """
    if count is None:
        return "not told"
    if count >= 1e9:
        return f"{count / 1e9:,.1f} GB"
    return f"{count / 1e6:.0f} MB" if count >= 1e7 else f"{count / 1e6:.1f} MB"


def room_said(keeping: Keeping) -> str:
    """The room left, in a word or a figure."""
    if keeping.health.left is not None:
        return in_bytes(keeping.health.left)
    return f"less than {in_bytes(SCARCE_BYTES)}" if keeping.scarce else "enough"


def full_said(keeping: Keeping) -> str:
    """The warning before the device is full; empty while there is room."""
    if not keeping.scarce:
        return ""
    left = keeping.health.left
    room = f"only {in_bytes(left)}" if left is not None else f"less than {in_bytes(SCARCE_BYTES)}"
    return (
        f"There is {room} of room left for this program. What is saved is safe. Save a copy (Kit, "
        "Copy and restore), then make room on the device."
    )


def copy_said(kit: Kit, batches: Sequence[Batch], now: Moment, health: Health) -> str:
    """The reminder to save a copy; empty when the last one is young or says all there is."""
    own = [batch for batch in batches if not batch.demonstration]
    if not own:
        return ""
    last = kit.last_backup
    if last is not None and all(batch.changed.utc_s <= last.utc_s for batch in own):
        return ""
    at_risk = health.clears_unused and not health.persisted
    since_s = min(batch.created.utc_s for batch in own) if last is None else last.utc_s
    days = int((now.utc_s - since_s) // DAY_S)
    if days < (REMIND_SOON_DAYS if at_risk else REMIND_AFTER_DAYS):
        return ""
    said = (
        "No copy of your journal was saved yet."
        if last is None
        else f"The last copy of your journal is {days} days old."
    )
    why = (
        " This browser clears what a site has kept when you do not open it for a week, unless you "
        "add it to the home screen."
        if at_risk
        else ""
    )
    return f"{said}{why} Save one: Kit, Copy and restore."


def offline_said(keeping: Keeping) -> str:
    """Whether the program starts without a network; empty while it is not known."""
    if keeping.offline is None:
        return ""
    if keeping.offline:
        return "The program is kept on this device and starts without a network."
    why = f" The browser says: {keeping.offline_why}." if keeping.offline_why else ""
    return f"The program itself is not kept on this device: it needs a network to start.{why}"


def update_said(keeping: Keeping) -> str:
    """What to say of a newer version that did not arrive whole; empty when none failed."""
    if not keeping.update_failed:
        return ""
    return (
        "A newer version did not arrive whole and was thrown away. The one you have goes on as "
        "it is; the newer one is tried again by itself."
    )


def warnings(keeping: Keeping, kit: Kit, batches: Sequence[Batch], now: Moment) -> list[str]:
    """What must be seen without being looked for."""
    said = [full_said(keeping), copy_said(kit, batches, now, keeping.health)]
    return [one for one in said if one]


class KeepWatch:
    """Looks after what is kept while the program runs."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench
        self._turn = -1
        self._waits_s = 0.0
        self._asked = False
        self._compared = False

    def _know(self, **parts: object) -> None:
        keeping = evolve(self._bench.shown.keeping, **parts)  # type: ignore[arg-type]
        if keeping != self._bench.shown.keeping:
            self._bench.show(keeping=keeping)

    async def kept(self, ok: bool, why: str) -> None:
        """The page told whether the program itself is kept."""
        self._know(offline=ok, offline_why=why)

    async def update_failed(self) -> None:
        """The page told that a newer version could not be fetched whole."""
        self._know(update_failed=True)

    async def run(self) -> None:
        """Look at the room after each change and now and then; ask for the promise once."""
        if not self._bench.device.keeps:
            return
        await self._bench.clear_out()
        await self._bench.device.clear_handed_out()
        while True:
            turn = self._bench.shown.turn
            if self._waits_s >= LOOK_AT_ROOM_S or self._turn < 0:
                self._waits_s = 0.0
                self._know(scarce=not await self._bench.device.has_room(SCARCE_BYTES))
            if turn != self._turn:
                self._turn = turn
                await self.look()
            await asyncio.sleep(LOOK_EVERY_S)
            if not self._compared:  # not in the first seconds, which are the cook's
                self._compared = True
                await compare_pictures(self._bench)
            self._waits_s += LOOK_EVERY_S

    async def look(self) -> None:
        """Ask how much room there is, and for the promise when there is something to keep."""
        bench = self._bench
        health = await bench.device.health()
        own = any(not batch.demonstration for batch in bench.shown.batches)
        if health.persisted is False and own and not self._asked:
            self._asked = True
            # A question may come up at the cook: once, and when there is something to keep.
            asked = bench.shelf.desk.device_facts().get("asked_to_keep") is True
            answer = await bench.device.ask_to_persist(quietly=asked)
            if not asked:
                bench.shelf.desk.save_device_facts({"asked_to_keep": True})
            if answer:
                health = await bench.device.health()
        self._know(health=health)
        if health.left is not None:
            self._know(scarce=health.left < SCARCE_BYTES)


async def compare_pictures(bench: Bench) -> None:
    """Find pictures without a record, and records without a picture.

    The first are left by a program that ended between the two, or by a record that was
    damaged: only the cook can tell which, so nothing is deleted here.
    """
    there = await bench.device.photos.names()
    known = bench.shelf.photo_ids()
    keeping = evolve(
        bench.shown.keeping,
        pictureless=tuple(sorted(one for one in known if not there.get(one))),
        strays=tuple(sorted(one for one in there if one not in known)),
    )
    if keeping != bench.shown.keeping:
        bench.show(keeping=keeping)
