"""A desktop: files in one folder of the cook's home."""

import errno
import os
import sys
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from app.device.desktop_images import DesktopImages
from app.device.device import Device, SystemClock
from app.device.parts import (
    HELD_ELSEWHERE,
    STORAGE_FULL,
    Abilities,
    Health,
    HeldElsewhere,
    StorageFull,
    both_there,
    check_photo_id,
)
from app.device.slots import JournalFile

_FULL = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG}


def _refused(why: OSError) -> Exception:
    return StorageFull(STORAGE_FULL) if why.errno in _FULL else why


class FileSlot:
    """A slot in a plain file."""

    def __init__(self, path: Path) -> None:
        # O_BINARY exists on Windows only, where files would else be text.
        flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_BINARY", 0)
        self._file = os.open(path, flags, 0o600)

    def size(self) -> int:
        return os.fstat(self._file).st_size

    def read(self, at: int, length: int) -> bytes:
        os.lseek(self._file, at, os.SEEK_SET)
        parts: list[bytes] = []
        while length > 0 and (part := os.read(self._file, length)):
            parts.append(part)
            length -= len(part)
        return b"".join(parts)

    def write(self, content: bytes, at: int) -> None:
        os.lseek(self._file, at, os.SEEK_SET)
        rest = memoryview(content)
        try:
            while rest:
                rest = rest[os.write(self._file, rest) :]
        except OSError as why:
            raise _refused(why) from why

    def truncate(self, size: int) -> None:
        os.ftruncate(self._file, size)

    def flush(self) -> None:
        try:
            os.fsync(self._file)
        except OSError as why:
            raise _refused(why) from why

    def close(self) -> None:
        os.close(self._file)


def lock_file(path: Path) -> int:
    """Hold a file for this program alone; HeldElsewhere when another one has it.

    The system lets go of it when the program ends, however it ends.
    """
    held = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        if sys.platform == "win32":
            import msvcrt

            msvcrt.locking(held, msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        os.close(held)
        raise HeldElsewhere(HELD_ELSEWHERE) from None
    return held


class DesktopFiles(JournalFile):
    """The journal's log in a folder."""

    def __init__(self, folder: Path) -> None:
        super().__init__()
        self._folder = folder
        self._lock: int | None = None

    async def open(self) -> None:
        """Open the log; HeldElsewhere when another window has it."""
        if self.is_open:
            return
        self._folder.mkdir(parents=True, exist_ok=True)
        self._lock = lock_file(self._folder / "journal.lock")
        try:
            self.open_slots(
                FileSlot(self._folder / "journal-a.log"), FileSlot(self._folder / "journal-b.log")
            )
        except BaseException:
            self.close()
            raise

    def close(self) -> None:
        super().close()
        if self._lock is not None:
            os.close(self._lock)
            self._lock = None


class DesktopPhotos:
    """Pictures as files in a folder."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def _path(self, photo_id: str, thumb: bool) -> Path:
        return self._folder / f"{check_photo_id(photo_id)}{'-thumb' if thumb else ''}.jpg"

    def _write(self, path: Path, content: bytes) -> None:
        # Written beside and moved: a picture is there whole or not at all.
        beside = path.with_suffix(".new")
        try:
            with beside.open("wb") as file:
                file.write(content)
                file.flush()
                os.fsync(file.fileno())
            os.replace(beside, path)
        except OSError as why:
            with suppress(OSError):
                beside.unlink()
            raise _refused(why) from why

    async def put(self, photo_id: str, jpeg: bytes, thumb: bytes) -> None:
        self._folder.mkdir(parents=True, exist_ok=True)
        self._write(self._path(photo_id, True), thumb)
        self._write(self._path(photo_id, False), jpeg)

    async def get(self, photo_id: str, thumb: bool = False) -> bytes:
        try:
            return self._path(photo_id, thumb).read_bytes()
        except FileNotFoundError:
            raise LookupError("This photo is not on the device.") from None

    async def delete(self, photo_id: str) -> None:
        for thumb in (False, True):
            self._path(photo_id, thumb).unlink(missing_ok=True)

    async def names(self) -> dict[str, bool]:
        return both_there(path.stem for path in self._folder.glob("*.jpg"))

    async def sizes(self) -> dict[str, int]:
        found: dict[str, int] = {}
        for path in self._folder.glob("*.jpg"):
            name = path.stem.removesuffix("-thumb")
            found[name] = found.get(name, 0) + path.stat().st_size
        return found

    def address(self, photo_id: str, thumb: bool) -> str | bytes:
        path = self._path(photo_id, thumb)
        return str(path) if path.exists() else ""


class DesktopDevice(Device):
    """The desktop's parts over one folder."""

    def __init__(self, folder: Path, handed_to: Path) -> None:
        super().__init__(
            DesktopClock(),
            DesktopFiles(folder),
            DesktopPhotos(folder / "photos"),
            DesktopImages(),
        )
        self._folder = folder
        self._handed_to = handed_to

    def hand_out(self, content: bytes, name: str, mime: str) -> None:
        """Write a file to the cook's downloads, never over one that is there."""
        plain = Path(name.replace("\\", "/")).name.lstrip(".") or "file"
        self._handed_to.mkdir(parents=True, exist_ok=True)
        stem, ending = Path(plain).stem, Path(plain).suffix
        for number in range(1, 10_000):
            tried = plain if number == 1 else f"{stem} ({number}){ending}"
            try:
                with (self._handed_to / tried).open("xb") as file:
                    file.write(content)
                return
            except FileExistsError:
                continue
            except OSError as why:
                raise _refused(why) from why

    async def health(self) -> Health:
        import shutil

        self._folder.mkdir(parents=True, exist_ok=True)
        used = sum(path.stat().st_size for path in self._folder.rglob("*") if path.is_file())
        return Health(True, used, used + shutil.disk_usage(self._folder).free)

    async def abilities(self) -> Abilities:
        return Abilities(awake=True)

    async def ask_to_persist(self, quietly: bool = False) -> bool | None:
        return True


class DesktopClock(SystemClock):
    """The system's clock with the zone's name where the system tells it."""

    def zone(self) -> str:
        named = os.environ.get("TZ", "").lstrip(":")
        if "/" in named:
            return named
        # /etc/localtime points into the zone files, whose path ends in the zone's name.
        with suppress(OSError):
            target = os.path.realpath("/etc/localtime")
            if "/zoneinfo/" in target:
                return target.split("/zoneinfo/", 1)[1]
        return ""


def _home(*names: str) -> Path:
    return Path.home().joinpath(*names)


def data_folder(environ: Mapping[str, str], platform: str) -> Path:
    """Where the system wants a program's data kept."""
    if given := environ.get("BRINEWRIGHT_DATA"):
        return Path(given)
    if platform == "win32":
        return Path(environ.get("LOCALAPPDATA") or _home("AppData", "Local")) / "Brinewright"
    if platform == "darwin":
        return _home("Library", "Application Support", "Brinewright")
    return Path(environ.get("XDG_DATA_HOME") or _home(".local", "share")) / "brinewright"


def desktop_device(folder: Path | None = None, handed_to: Path | None = None) -> DesktopDevice:
    """The desktop; a folder may be given for tests."""
    downloads = _home("Downloads")
    return DesktopDevice(
        folder or data_folder(os.environ, sys.platform),
        handed_to or (downloads if downloads.is_dir() else Path.home()),
    )
