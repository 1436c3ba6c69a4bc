"""The browser: Python runs in a worker; what only the page can do goes over the bridge."""

import asyncio
from collections.abc import Callable
from contextlib import suppress
from typing import Any, get_args

from app.device.browser_channel import PageChannel
from app.device.browser_files import BrowserFiles, would_fit
from app.device.browser_handout import BlobFile, begin_handout, clear_handout
from app.device.browser_images import BrowserImages
from app.device.browser_photos import BrowserPhotos
from app.device.device import Device, Shared
from app.device.parts import Abilities, Callback, Health
from app.device.passing_files import OutFile

FIXED_ROOM_BYTES = 10 << 30
"""Chromium was seen to tell of exactly this much room whatever there is, so as not to tell pages
apart by it; what is really there is found by trying."""
FULL_MARGIN = 1.2
"""A file for the cook is written to the private files only where so much of it has room."""


ABLE = ("worker", "badge", "awake", "installed", "apple")


class BrowserClock:
    """The browser's clock and zone."""

    def now(self) -> tuple[float, int]:
        import js

        now = js.Date.new()
        # JavaScript counts the offset westward.
        return float(now.getTime()) / 1000.0, -int(now.getTimezoneOffset())

    def zone(self) -> str:
        import js

        return str(js.Intl.DateTimeFormat.new().resolvedOptions().timeZone or "")


def _named(data: Any) -> tuple[str, Any]:
    return str(data.file.name), data.file


class BrowserDevice(Device):
    """The parts of a browser, each with its half on the page where it needs one."""

    photos_come_by_the_page = True

    def __init__(self, channel: PageChannel) -> None:
        self._photos = BrowserPhotos()
        self._files = BrowserFiles()
        super().__init__(BrowserClock(), self._files, self._photos, BrowserImages())
        self._channel = channel
        self._clears_unused = False
        self._chosen: asyncio.Queue[tuple[str, Any]] = asyncio.Queue()
        self._files_chosen: asyncio.Queue[tuple[str, Any]] = asyncio.Queue()
        channel.on("photo", lambda data: self._chosen.put_nowait(_named(data)))
        channel.on("file", lambda data: self._files_chosen.put_nowait(_named(data)))
        channel.on("controlled", lambda data: self._control(bool(data.value)))

    def _control(self, controlled: bool) -> None:
        self._photos.controlled = controlled

    async def greet(self) -> None:
        """Ask the page what it knows: whether a service worker answers for photos."""
        answer = await self._channel.ask("hello", wait_s=1.0)
        if answer is not None:
            self._control(bool(answer.controlled))
            self._clears_unused = bool(answer.clearsUnused)

    async def next_photo(self) -> tuple[str, Any]:
        return await self._chosen.get()

    async def next_file(self) -> tuple[str, Any]:
        return await self._files_chosen.get()

    async def begin_file(self, name: str, mime: str, expected_bytes: int = 0) -> OutFile:
        if not await self.has_room(round(FULL_MARGIN * expected_bytes)):
            return BlobFile(self._channel, name, mime)
        return await begin_handout(self._channel, name, mime)

    async def has_room(self, count: int) -> bool:
        return await would_fit(count)

    async def clear_handed_out(self) -> None:
        await clear_handout()

    def hand_out(self, content: bytes, name: str, mime: str) -> None:
        self._channel.tell("download", name=name, mime=mime, content=content)

    async def share(self, content: bytes, name: str, mime: str) -> Shared:
        return await self._shared("share", name=name, mime=mime, content=content)

    async def share_text(self, text: str, title: str) -> Shared:
        return await self._shared("share-text", title=title, text=text)

    async def _shared(self, kind: str, **parts: object) -> Shared:
        answer = await self._channel.ask(kind, wait_s=600.0, **parts)
        said = str(answer.value) if answer is not None else "cannot"
        return said if said in get_args(Shared) else "cannot"  # type: ignore[return-value]

    async def health(self) -> Health:
        import js
        from pyodide.ffi import JsException

        with suppress(JsException, AttributeError):
            estimate = await js.navigator.storage.estimate()
            persisted = bool(await js.navigator.storage.persisted())
            used, quota = int(estimate.usage), int(estimate.quota)
            told = quota if quota - used != FIXED_ROOM_BYTES else None
            own = getattr(getattr(estimate, "usageDetails", None), "fileSystem", None)
            return Health(
                persisted, used, told, self._clears_unused, None if own is None else int(own)
            )
        return Health(clears_unused=self._clears_unused)

    async def ask_to_persist(self, quietly: bool = False) -> bool | None:
        answer = await self._channel.ask("persist", wait_s=60.0, quietly=quietly)
        return bool(answer.value) if answer is not None and answer.known else None

    async def abilities(self) -> Abilities:
        told = await self._channel.ask("abilities")
        if told is None:
            return Abilities()
        can = {name: bool(getattr(told, name)) for name in ABLE}
        return Abilities(notices=str(told.notices), **can)  # type: ignore[arg-type]

    def notify(self, title: str, body: str, *, tag: str = "", route: str = "") -> None:
        self._channel.tell("notify", title=title, body=body, tag=tag, route=route)

    def unnotify(self, tag: str) -> None:
        self._channel.tell("unnotify", tag=tag)

    async def ask_to_notify(self) -> bool:
        answer = await self._channel.ask("notify-permission", wait_s=120.0)
        return answer is not None and bool(answer.value)

    def badge(self, count: int) -> None:
        self._channel.tell("badge", count=count)

    async def take_over(self) -> None:
        await self._files.take_over()

    def on_taken_over(self, callback: Callback) -> None:
        self._files.on_taken_over(callback)

    def on_update_waiting(self, callback: Callback) -> None:
        self._channel.on("update-waiting", lambda _data: callback())
        self._channel.tell("ask-update")

    def on_kept(self, callback: Callable[[bool, str], object]) -> None:
        self._channel.on("kept", lambda data: callback(bool(data.ok), str(data.why)))
        self._channel.tell("ask-update")

    def on_update_failed(self, callback: Callable[[str], object]) -> None:
        self._channel.on("update-failed", lambda data: callback(str(data.why)))
        self._channel.tell("ask-update")

    def take_update(self) -> None:
        self._channel.tell("take-update")

    def ready(self) -> None:
        import js

        js.brinewrightReady()


async def browser_device() -> BrowserDevice:
    """The browser this worker runs in."""
    device = BrowserDevice(PageChannel())
    await device.greet()
    return device
