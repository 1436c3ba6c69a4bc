"""A file for the cook written into the private files first, so that memory never holds it."""

from contextlib import suppress
from typing import Any

from app.device.browser_channel import PageChannel
from app.device.browser_files import HandleSlot, private_folder, sync_handle
from app.device.parts import NoPrivateFiles

FOLDER = "handout"
PIECE_BYTES = 4 << 20


class HandoutFile:
    """A file written piece by piece; the page saves it without its bytes passing through."""

    def __init__(self, channel: PageChannel, folder: Any, handle: Any, name: str, mime: str):
        self._channel, self._folder, self._slot = channel, folder, HandleSlot(handle)
        self._name, self._mime = name, mime
        self._length = 0

    def write(self, content: bytes, /) -> int:
        self._slot.write(bytes(content), self._length)
        self._length += len(content)
        return len(content)

    def flush(self) -> None:
        return None

    async def hand_out(self) -> None:
        self._slot.flush()
        self._slot.close()
        file = await (await self._folder.getFileHandle(FOLDER)).getFile()
        self._channel.tell("download", name=self._name, mime=self._mime, content=file)

    async def drop(self) -> None:
        self._slot.close()
        await self._folder.removeEntry(FOLDER)


class BlobFile:
    """A file collected in the browser's own store of blobs, where the private files have no room.

    Browsers put large blobs on the disk by themselves; only one piece lies in this memory.
    """

    def __init__(self, channel: PageChannel, name: str, mime: str) -> None:
        import js

        self._channel, self._name, self._mime = channel, name, mime
        self._blobs = js.Array.new()
        self._piece = bytearray()

    def write(self, content: bytes, /) -> int:
        self._piece += content
        if len(self._piece) > PIECE_BYTES:
            self._put_away()
        return len(content)

    def _put_away(self) -> None:
        import js
        from pyodide.ffi import to_js

        self._blobs.push(js.Blob.new(to_js([to_js(self._piece)])))
        self._piece = bytearray()

    def flush(self) -> None:
        return None

    async def hand_out(self) -> None:
        import js

        self._put_away()
        whole = js.Blob.new(self._blobs)
        self._channel.tell("download", name=self._name, mime=self._mime, content=whole)

    async def drop(self) -> None:
        import js

        self._blobs, self._piece = js.Array.new(), bytearray()


async def clear_handout() -> None:
    """Give back the room of the file handed out last, before this start."""
    from pyodide.ffi import JsException

    with suppress(JsException, NoPrivateFiles):
        await (await private_folder(FOLDER)).removeEntry(FOLDER)


async def begin_handout(channel: PageChannel, name: str, mime: str) -> HandoutFile:
    """Begin a file; what an earlier one left is written over."""
    folder = await private_folder(FOLDER)
    # Handed out files are still read by the page for a while; only one stays behind.
    handle = await sync_handle(folder, FOLDER)
    handle.truncate(0)
    return HandoutFile(channel, folder, handle, name, mime)
