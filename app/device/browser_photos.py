"""Photos in the browser's private files, shown by address through the service worker."""

import asyncio
from collections import OrderedDict
from contextlib import suppress
from typing import Any

from app.device.browser_channel import name_of
from app.device.browser_files import HandleSlot, private_folder, sync_handle
from app.device.parts import StorageFull, all_ended, both_there, check_photo_id

CACHE_BYTES = 24_000_000
"""Kept ready for pages without a service worker: some hundred thumbnails and a few photos."""


def file_name(photo_id: str, thumb: bool) -> str:
    """A photo's file in the folder `photos`, also its address below the site's base."""
    return f"{check_photo_id(photo_id)}{'-thumb' if thumb else ''}.jpg"


class BrowserPhotos:
    """Pictures as files. `controlled` tells whether a service worker answers addresses."""

    def __init__(self) -> None:
        self.controlled = False
        self._cache: OrderedDict[str, bytes] = OrderedDict()
        self._loading: dict[str, asyncio.Task[None]] = {}

    def _remember(self, name: str, content: bytes) -> None:
        self._cache[name] = content
        self._cache.move_to_end(name)
        while sum(map(len, self._cache.values())) > CACHE_BYTES and len(self._cache) > 1:
            self._cache.popitem(last=False)

    async def put(self, photo_id: str, jpeg: bytes, thumb: bytes) -> None:
        try:
            await all_ended(
                self._write(file_name(photo_id, True), thumb),
                self._write(file_name(photo_id, False), jpeg),
            )
        except StorageFull:
            await self.delete(photo_id)
            raise

    async def _write(self, name: str, content: bytes) -> None:
        slot = HandleSlot(await sync_handle(await private_folder("photos"), name))
        try:
            slot.truncate(0)
            slot.write(content, 0)
            slot.flush()
        finally:
            slot.close()
        if not self.controlled:
            self._remember(name, content)

    async def _file(self, name: str) -> Any:
        from pyodide.ffi import JsException

        folder = await private_folder("photos")
        try:
            return await (await folder.getFileHandle(name)).getFile()
        except JsException as why:
            if name_of(why) == "NotFoundError":
                raise LookupError("This photo is not on the device.") from None
            raise OSError(f"This photo could not be read: {why}") from why

    async def get(self, photo_id: str, thumb: bool = False) -> bytes:
        file = await self._file(file_name(photo_id, thumb))
        content: bytes = (await file.arrayBuffer()).to_bytes()
        return content

    async def delete(self, photo_id: str) -> None:
        from pyodide.ffi import JsException

        folder = await private_folder("photos")
        for thumb in (False, True):
            name = file_name(photo_id, thumb)
            self._cache.pop(name, None)
            try:
                await folder.removeEntry(name)
            except JsException as why:
                if name_of(why) != "NotFoundError":
                    raise OSError(f"This photo could not be deleted: {why}") from why

    async def names(self) -> dict[str, bool]:
        import js

        files = (await private_folder("photos")).keys()
        if hasattr(js.Array, "fromAsync"):  # one turn for all of them, and not one for each
            found = (await js.Array.fromAsync(files)).to_py()
        else:
            found = [name async for name in files]
        return both_there(str(name).removesuffix(".jpg") for name in found)

    async def sizes(self) -> dict[str, int]:
        folder = await private_folder("photos")
        found: dict[str, int] = {}
        async for handle in folder.values():
            stem = str(handle.name).removesuffix(".jpg").removesuffix("-thumb")
            found[stem] = found.get(stem, 0) + int((await handle.getFile()).size)
        return found

    def address(self, photo_id: str, thumb: bool) -> str | bytes:
        """Address, or the bytes where nobody answers addresses; empty while they are fetched."""
        name = file_name(photo_id, thumb)
        if self.controlled:
            return f"photos/{name}"
        if name in self._cache:
            self._cache.move_to_end(name)
            return self._cache[name]
        if name not in self._loading:
            self._loading[name] = asyncio.ensure_future(self._load(photo_id, thumb, name))
        return ""

    async def _load(self, photo_id: str, thumb: bool, name: str) -> None:
        with suppress(LookupError, OSError):
            self._remember(name, await self.get(photo_id, thumb))
        self._loading.pop(name, None)
