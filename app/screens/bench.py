"""The bench: what the screens show and everything a press may do to it.

One observable object for the whole program. `shown` is frozen and replaced whole, so a
screen that reads it is drawn again when it changes. An act saves first and shows after:
what stands on the screen is on the disk.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from dataclasses import dataclass
from dataclasses import field as dataclass_field
from typing import Any

import flet as ft
from attrs import evolve, field, frozen

from app import quantities
from app.device.device import Device
from app.device.parts import NO_PRIVATE_FILES
from app.device.surroundings import facts
from app.heat.offset import ice_check
from app.journal.becoming_due import pressing
from app.journal.records import Batch, Entry, Kit, Moment, Photo
from app.journal.wall import wall_of
from app.screens.journal import begun_forms
from app.screens.journal.kept_forms import keep_form
from app.screens.kit.faults import said_of, without_words
from app.screens.kit.keeping import Keeping, warnings
from app.screens.masses import mass_unit, weighing_in
from app.screens.mix.kept_draft import EVERY_S, keep_draft
from app.screens.mix.mix_draft import MixDraft, with_units
from app.screens.plan.calling import call, withdraw
from app.screens.record_acts import CHANGED_SINCE, RecordActs, new_id
from app.store.shelf import Shelf

__all__ = ["Bench", "Shown", "here", "new_id", "use_batch", "use_bench", "with_bench"]


@frozen
class Shown:
    """What is on the bench now."""

    kit: Kit = field(factory=Kit)
    batches: tuple[Batch, ...] = ()
    draft: MixDraft = field(factory=MixDraft)
    said: str = ""
    """A short word about what just happened, until the next one or until its screen is left."""
    said_on: str = ""
    """The address the word belongs to; empty for a word that belongs to none."""
    undo: Callable[[], None] | None = None
    busy: str = ""
    """What is being worked on, while the cook waits."""
    can_stop: bool = False
    """Whether what is being worked on can be stopped half-way."""
    update_waiting: bool = False
    wall: str = ""
    """The wall clock, "2027-03-06T18:00", as last looked at."""
    keeping: Keeping = field(factory=Keeping)
    """How safe what is kept is, as last looked at."""
    awake: bool = False
    """Whether the screen is kept on."""
    turn: int = 0
    """Grows with each save, so that what is read from the shelf is read again."""


def here() -> str:
    """The address of the screen that is shown; empty where no page is known."""
    try:
        return ft.context.page.route or "/"
    except RuntimeError:
        return ""


@ft.observable
@dataclass
class Bench(RecordActs):
    """The state and the acts. Screens get it by `use_bench()`."""

    device: Device
    shelf: Shelf
    shown: Shown
    stop_asked: bool = dataclass_field(default=False, init=False)
    _forgetting: asyncio.Future[None] | None = dataclass_field(default=None, init=False)
    faults: tuple[str, ...] = dataclass_field(default=(), init=False)
    pickers: dict[object, ft.FilePicker] = dataclass_field(default_factory=dict, init=False)
    """File choosers by what they are for: one each, since the page keeps every one it is given."""
    counted: int = dataclass_field(default=0, init=False)
    called: frozenset[str] = dataclass_field(default=frozenset(), init=False)
    """Steps of which notice was given and that still wait."""
    said_before: str = dataclass_field(default="", init=False)
    _word_drawn: bool = dataclass_field(default=False, init=False)
    _drafts: dict[str, Any] = dataclass_field(default_factory=dict, init=False)
    _keepers: tuple[Callable[[], None], ...] = dataclass_field(default=(), init=False)
    screen_lock: ft.Wakelock | None = dataclass_field(default=None, init=False)
    """What keeps the screen on, once it was asked for; see `app.screens.plan.attention`."""

    # What a bare number means, by the cook's units.

    @property
    def kit(self) -> Kit:
        """The cook's settings and things."""
        return self.shown.kit

    @property
    def metric(self) -> bool:
        return self.shown.kit.system == "metric"

    @property
    def temperature_unit(self) -> str:
        return "°C" if self.metric else "°F"

    @property
    def mass_unit(self) -> str:
        return mass_unit(self.kit)

    @property
    def length_unit(self) -> str:
        return "mm" if self.metric else "in"

    # Looking.

    def now(self) -> Moment:
        """This instant, with the local offset beside it."""
        return Moment(*self.device.clock.now())

    @property
    def zone(self) -> str:
        """Name of the local time zone, empty when the device does not tell."""
        return str(self.device.clock.zone())

    def wall(self) -> str:
        """The clock on the wall now, "2027-03-06T18:00"."""
        return wall_of(self.now())

    def batch(self, batch_id: str) -> Batch | None:
        return next((batch for batch in self.shown.batches if batch.id == batch_id), None)

    def entries(self, batch_id: str) -> tuple[Entry, ...]:
        return tuple(self.shelf.entries(batch_id))

    def photos(self, batch_id: str) -> tuple[Photo, ...]:
        return tuple(self.shelf.photos(batch_id))

    @property
    def drafts(self) -> dict[str, Any]:
        """What was begun and is not saved yet, by the name of its place; see `drafts.py`."""
        return self._drafts

    def go(self, route: str) -> None:
        """Open another screen; the word of an act that ends so goes along."""
        if self.shown.said and not self._word_drawn:
            self.shown = evolve(self.shown, said_on=route)
        ft.context.page.navigate(route)

    def arrived(self, route: str) -> None:
        """A screen is shown: a word about what was done on another one is over."""
        if self.shown.said_on not in ("", route):
            self.show(said="", undo=None)

    def word_drawn(self) -> None:
        """The word has been seen, so it belongs to where it was seen."""
        self._word_drawn = True

    # Acting.

    def show(self, **changes: object) -> None:
        """Replace parts of what is shown."""
        if "said" in changes:
            changes.setdefault("said_on", here() if changes["said"] else "")
            changes.setdefault("undo", None)
            self._word_drawn = False
        self.shown = evolve(self.shown, **changes)  # type: ignore[arg-type]

    def replace_draft(self, draft: MixDraft, said: str) -> None:
        """Put another mix in the place of what was typed; the word said offers that back."""
        was = self.shown.draft

        def undo() -> None:
            if self.shown.draft is draft:
                self.show(draft=was, said="")
            else:
                self.show(said=CHANGED_SINCE)

        self.show(draft=draft, said=said, undo=undo)

    def say_emptied(self, name: str, put_back: Callable[[], None]) -> None:
        """Say that a form was begun anew, and offer what was typed back until more is typed."""

        def undo() -> None:
            if name in self._drafts:
                self.show(said=CHANGED_SINCE)
                return
            put_back()
            self.show(said="")

        self.show(said="What was typed is taken out.", undo=undo)

    def refresh(self, said: str = "", undo: Callable[[], None] | None = None) -> None:
        """Read the shelf again after a save, and say what happened."""
        kit = self.shelf.kit()
        self.keep_meaning(kit)
        self.show(
            kit=kit,
            batches=tuple(self.shelf.batches()),
            turn=self.shown.turn + 1,
            said=said,
            undo=undo,
        )
        self.count_on_icon()

    def begin_long(self, busy: str) -> None:
        """Begin something that takes a while and can be stopped."""
        self.stop_asked = False
        self.show(busy=busy, can_stop=True, said="", undo=None)

    def end_long(self, said: str) -> None:
        """End it, with a word when there is one."""
        self.show(busy="", can_stop=False, said=said, undo=None)

    def ask_to_stop(self) -> None:
        """Stop what takes a while at the next place where nothing is half done."""
        self.stop_asked = True

    def save_kit(self, kit: Kit, said: str = "") -> None:
        self.keep_meaning(kit)
        self.shelf.save_kit(kit)
        self.refresh(said)

    def weigh_in(self, unit: str) -> None:
        """Choose the unit beside the weight of the mix, which then means it; others keep theirs."""
        weight = self.shown.draft.weight
        self.save_kit(weighing_in(self.kit, unit))
        self.show(draft=evolve(self.shown.draft, weight=weight))

    def keep_meaning(self, kit: Kit) -> None:
        """Have every bare number that was typed keep its unit before a kit with others comes."""
        if (kit.system, kit.weighs_in) == (self.kit.system, self.kit.weighs_in):
            return
        self.show(draft=with_units(self.shown.draft, self.kit, kit))
        told = begun_forms.with_units(self._drafts, self.kit, kit)
        self._drafts.update(told)
        # At once: the new kit must not find on the disk what was typed under the old one.
        keep_draft(self.shelf, self.shown.draft)
        for name, draft in told.items():
            keep_form(self.shelf, name, draft)

    def set_cover(self, batch: Batch, photo_id: str) -> None:
        self.save_batch(evolve(batch, cover_photo_id=photo_id), "Cover set.")

    # Photos.

    def thumb_src(self, photo_id: str) -> str | bytes:
        """Where the small picture of a photo is shown from."""
        return self.device.photos.address(photo_id, True)

    def photo_src(self, photo_id: str) -> str | bytes:
        """Where a photo is shown from."""
        return self.device.photos.address(photo_id, False)

    def warnings(self) -> list[str]:
        """What the store has to say, until it has been read."""
        said = list(self.shelf.report)
        if not self.device.keeps:
            said.insert(0, NO_PRIVATE_FILES)
        return said + warnings(self.shown.keeping, self.kit, self.shown.batches, self.now())

    # Handing out.

    def hand_out(self, content: bytes, name: str, mime: str) -> None:
        """Give the cook a file to save."""
        self.device.hand_out(content, name, mime)
        self.show(said=f"{name} handed to the phone.", undo=None)

    # The device.

    async def ask_to_persist(self) -> None:
        """Ask the browser to keep the data, and say what it answered."""
        answer = await self.device.ask_to_persist()
        self.shelf.desk.save_device_facts({"asked_to_keep": True})
        self.refresh(
            "The browser promised to keep your data."
            if answer
            else "The browser did not promise it. Keep copies outside this device."
        )

    def take_update(self) -> None:
        """Start the newer version; what was saved is there after."""
        self.show(update_waiting=False, busy="Starting the newer version …")
        self.device.take_update()

    def offset_of(self, text: str) -> float:
        """How much too high a thermometer reads [°C], from its reading in ice water."""
        reading_c = quantities.parse(text, "temperature", self.temperature_unit)
        return ice_check([reading_c]).offset_c

    def went_wrong(self, trace: str) -> None:
        """A fault nobody caught: say so, keep where it was, and go on with what is saved."""
        said = said_of(trace)
        if not said:
            self.faults = (*self.faults[-4:], without_words(trace))
            said = (
                "Something went wrong in the program. What was saved is safe; "
                "Kit, About holds the details."
            )
        self.show(busy="", can_stop=False, said=said, said_on="")

    def diagnostics(self) -> list[tuple[str, str]]:
        """Facts about how the program runs here; nothing personal."""
        return [*facts(), *(("Fault", fault) for fault in self.faults)]

    async def clear_out(self) -> None:
        """Forget for good what was removed before this start, its pictures with it."""
        for photo_id in self.shelf.clear_out():
            await self.device.photos.delete(photo_id)

    def keep_by(self, *keepers: Callable[[], None]) -> None:
        """Take what keeps the things being typed; without any, nothing is kept."""
        self._keepers = keepers

    def keep_typed(self) -> None:
        """Keep what was typed and chosen since it was last kept."""
        for keep in self._keepers:
            keep()

    async def keep_typing(self) -> None:
        """Keep what is typed a moment after it was; after a press it is kept at once."""
        while True:
            await asyncio.sleep(EVERY_S)
            self.keep_typed()

    async def keep_time(self) -> None:
        """Draw again as the clock goes on, give notice of what became due, count it on the icon."""
        while True:
            self.look_at_the_clock()
            await asyncio.sleep(30)

    def look_at_the_clock(self) -> None:
        """What a look at the clock brings: notices, when the cook asked for them, and the badge."""
        before, wall = self.shown.wall, self.wall()
        if self.shown.kit.notices:
            self.called |= call(self.device, self.shown.batches, before, wall, self.zone)
        self.count_on_icon()
        # A word said has been read by the second look, and gives its room back.
        if self.shown.said and self.shown.said == self.said_before:
            self.show(said="", undo=None)
        self.said_before = self.shown.said
        self.show(wall=wall)

    def count_on_icon(self) -> None:
        """Keep the number on the icon, telling the device only when it changes; and the notices."""
        self.called = withdraw(self.device, self.called, self.shown.batches)
        count = pressing(self.shown.batches, self.wall(), self.zone)
        if count != self.counted:
            self.counted = count
            self.device.badge(count)


_bench: ft.ContextProvider[Bench | None] = ft.create_context(None)


def with_bench(bench: Bench, draw: Callable[[], object]) -> object:
    """Give the bench to everything drawn by `draw`."""
    return _bench(bench, draw)


def use_bench() -> Bench:
    """The bench, from inside a screen; the screen is drawn again when it changes."""
    bench = ft.use_context(_bench)
    if bench is None:
        raise LookupError("A screen was drawn outside the program's frame.")
    return bench


def use_batch() -> Batch | None:
    """The batch named in the route."""
    return use_bench().batch(ft.use_route_params().get("batch", ""))
