"""A file for the cook written into the private files first, so that memory never holds it."""

from typing import Any

from app.device.browser_channel import PageChannel
from app.device.browser_files import HandleSlot, private_folder, sync_handle

FOLDER = "handout"


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


async def begin_handout(channel: PageChannel, name: str, mime: str) -> HandoutFile:
    """Begin a file; what an earlier one left is written over."""
    folder = await private_folder(FOLDER)
    # Handed out files are still read by the page for a while; only one stays behind.
    handle = await sync_handle(folder, FOLDER)
    handle.truncate(0)
    return HandoutFile(channel, folder, handle, name, mime)
