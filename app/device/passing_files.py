"""Files passed in and out of the program piece by piece, however large they are."""

import io
from collections.abc import Callable
from typing import IO, Any, Protocol


class OutFile(Protocol):
    """A file being written for the cook; nothing leaves the program until it is handed out."""

    def write(self, content: bytes, /) -> int: ...

    def flush(self) -> None: ...

    async def hand_out(self) -> None:
        """Give the whole file to the cook."""

    async def drop(self) -> None:
        """Forget what was written."""


class CollectedFile:
    """A file collected in memory and handed out in one piece."""

    def __init__(self, give: Callable[[bytes], object]) -> None:
        self._give = give
        self._collected = io.BytesIO()

    def write(self, content: bytes, /) -> int:
        return self._collected.write(content)

    def flush(self) -> None:
        return None

    async def hand_out(self) -> None:
        self._give(self._collected.getvalue())

    async def drop(self) -> None:
        self._collected = io.BytesIO()


class PageFile(io.RawIOBase):
    """A file the cook chose in the page, read where it lies; only what is asked for is copied."""

    def __init__(self, file: Any) -> None:
        super().__init__()
        self._file = file
        self._at = 0

    def readable(self) -> bool:
        return True

    def seekable(self) -> bool:
        return True

    def tell(self) -> int:
        return self._at

    def seek(self, offset: int, whence: int = io.SEEK_SET) -> int:
        start = {io.SEEK_SET: 0, io.SEEK_CUR: self._at, io.SEEK_END: int(self._file.size)}[whence]
        if start + offset < 0:
            raise ValueError(f"A place inside the file was expected; {start + offset} was given.")
        self._at = start + offset
        return self._at

    def readinto(self, buffer: Any) -> int:
        import js

        # Readers that wait exist in workers, which is where Python runs.
        piece = self._file.slice(self._at, self._at + len(buffer))
        content = js.FileReaderSync.new().readAsArrayBuffer(piece).to_bytes()
        buffer[: len(content)] = content
        self._at += len(content)
        return len(content)


def reading(source: Any) -> IO[bytes]:
    """Bytes, or a file of the page, as a file to read from."""
    if isinstance(source, bytes | bytearray | memoryview):
        return io.BytesIO(source)
    return io.BufferedReader(PageFile(source), 1 << 18)
