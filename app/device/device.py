"""A device as the screens see it, and the plainest one: memory, gone when the program ends."""

import time
from collections.abc import Callable
from typing import IO, Any, Literal, Protocol

from app.device.parts import (
    Abilities,
    Callback,
    Clock,
    Health,
    Images,
    Photos,
    check_photo_id,
)
from app.device.passing_files import CollectedFile, OutFile, reading
from app.device.slots import JournalFile, MemorySlot

Shared = Literal["shared", "declined", "copied", "cannot"]
"""What became of words or a file that were to be shared; a file is never copied."""


class Files(Protocol):
    """The bytes of the journal's log; everything but `open` acts at once."""

    async def open(self) -> None: ...

    @property
    def length(self) -> int: ...

    def read_all(self) -> bytes: ...

    def append(self, content: bytes) -> None: ...

    def truncate(self, length: int) -> None: ...

    def replace(self, content: bytes) -> None: ...

    def close(self) -> None: ...


class Device:
    """The parts of a device, and what it does for the cook outside the program's own window.

    Where a device has no notices, badge or update, the call does nothing.
    """

    photos_come_by_the_page = False
    """Whether chosen photos arrive by `next_photo` instead of by the file chooser's own result."""
    keeps = True
    """Whether what is written is there at the next start."""

    def __init__(self, clock: Clock, files: Files, photos: Photos, images: Images) -> None:
        self.clock = clock
        self.files = files
        self.photos = photos
        self.images = images

    def keep_in_memory(self) -> None:
        """Go on without files, when the device gives none: all is gone when the program ends."""
        self.files = MemoryFiles()
        self.photos = MemoryPhotos()
        self.keeps = False

    async def next_photo(self) -> tuple[str, Any]:
        """The next photo chosen in the page: its file name, and what `images.prepare` takes."""
        raise LookupError("On this device photos come from the file chooser.")

    def hand_out(self, content: bytes, name: str, mime: str) -> None:
        """Give the cook a file to keep outside the program."""
        raise OSError("This device has no place to put a file outside the program.")

    async def begin_file(self, name: str, mime: str, expected_bytes: int = 0) -> OutFile:
        """Begin a file for the cook, written piece by piece and then handed out whole."""
        return CollectedFile(lambda content: self.hand_out(content, name, mime))

    async def next_file(self) -> tuple[str, Any]:
        """The next file other than a photo chosen in the page; read it by `reading(source)`."""
        raise LookupError("On this device files come from the file chooser.")

    def reading(self, source: Any) -> IO[bytes]:
        """Chosen bytes, or a file of the page, as a file to read from."""
        return reading(source)

    async def share(self, content: bytes, name: str, mime: str) -> Shared:
        """Offer a file to other programs of the device; it cannot where there is no share sheet."""
        return "cannot"

    async def share_text(self, text: str, title: str) -> Shared:
        """Offer words to other programs of the device, or else put them on its clipboard."""
        return "cannot"

    async def health(self) -> Health:
        """Room used and left."""
        return Health()

    async def has_room(self, count: int) -> bool:
        """Whether so many bytes more could be written now."""
        health = await self.health()
        return health.left is None or health.left >= count

    async def ask_to_persist(self, quietly: bool = False) -> bool | None:
        """Ask that the data be kept until the cook removes it; None when nobody can promise.

        Quietly means only where no question to the cook comes up; None when one would.
        """
        return None

    async def clear_handed_out(self) -> None:
        """Give back the room of files handed out before this start."""

    async def abilities(self) -> Abilities:
        """What this device can do to call the cook, found out by trying."""
        return Abilities()

    def notify(self, title: str, body: str, *, tag: str = "", route: str = "") -> None:
        """Show a notice of the system, in place of the last one of its tag; a tap opens a route."""

    def unnotify(self, tag: str) -> None:
        """Take a notice away again, when what it tells of was seen to."""

    async def ask_to_notify(self) -> bool:
        """Ask leave to show notices; whether it was given."""
        return False

    def badge(self, count: int) -> None:
        """Show a number on the program's icon; 0 takes it away."""

    async def take_over(self) -> None:
        """Take the journal's files from the window that has them, and open them here."""
        await self.files.open()

    def on_taken_over(self, callback: Callback) -> None:
        """Call back when another window has taken the files."""

    def on_update_waiting(self, callback: Callback) -> None:
        """Call back when a newer version of the program is ready to start."""

    def on_kept(self, callback: Callable[[bool, str], object]) -> None:
        """Call back with whether the program itself is kept for starts without a network."""

    def on_update_failed(self, callback: Callable[[str], object]) -> None:
        """Call back when a newer version could not be fetched whole."""

    def take_update(self) -> None:
        """Start the newer version now."""

    def ready(self) -> None:
        """Tell the outside that the first screen stands."""


class SystemClock:
    """The clock of the system the program runs on."""

    def now(self) -> tuple[float, int]:
        utc_s = time.time()
        return utc_s, round((time.localtime(utc_s).tm_gmtoff or 0) / 60)

    def zone(self) -> str:
        return ""


class FixedClock:
    """A clock for tests: it shows what it was set to."""

    def __init__(self, utc_s: float = 1_800_000_000.0, offset_min: int = 0, zone: str = "") -> None:
        self.utc_s, self.offset_min, self.name = utc_s, offset_min, zone

    def now(self) -> tuple[float, int]:
        return self.utc_s, self.offset_min

    def zone(self) -> str:
        return self.name


class MemoryFiles(JournalFile):
    """A log in memory. Opening again finds what was written, like a disk."""

    def __init__(self, first: MemorySlot | None = None, second: MemorySlot | None = None) -> None:
        super().__init__()
        self.slots = (first or MemorySlot(), second or MemorySlot())

    async def open(self) -> None:
        self.open_slots(*self.slots)

    @classmethod
    def holding(cls, log: bytes) -> "MemoryFiles":
        """Files, open, whose log is these bytes."""
        files = cls()
        files.open_slots(*files.slots)
        files.append(log)
        return files


class MemoryPhotos:
    """Pictures in memory."""

    def __init__(self) -> None:
        self.kept: dict[str, tuple[bytes, bytes]] = {}

    async def put(self, photo_id: str, jpeg: bytes, thumb: bytes) -> None:
        self.kept[check_photo_id(photo_id)] = (jpeg, thumb)

    async def get(self, photo_id: str, thumb: bool = False) -> bytes:
        try:
            return self.kept[photo_id][1 if thumb else 0]
        except KeyError:
            raise LookupError("This photo is not on the device.") from None

    async def delete(self, photo_id: str) -> None:
        self.kept.pop(photo_id, None)

    async def names(self) -> dict[str, bool]:
        return dict.fromkeys(self.kept, True)

    async def sizes(self) -> dict[str, int]:
        return {name: sum(map(len, pair)) for name, pair in self.kept.items()}

    def address(self, photo_id: str, thumb: bool) -> str | bytes:
        pair = self.kept.get(photo_id)
        return "" if pair is None else pair[1 if thumb else 0]


class MemoryDevice(Device):
    """A device that keeps nothing; what it was asked to hand out is in `handed`."""

    def __init__(self, images: Images, clock: Clock | None = None) -> None:
        super().__init__(clock or FixedClock(), MemoryFiles(), MemoryPhotos(), images)
        self.keeps = False
        self.handed: list[tuple[str, str, bytes]] = []
        self.noticed: list[tuple[str, str]] = []
        self.notices: dict[str, str] = {}
        self.can = Abilities("ask", worker=True, badge=True, awake=True, installed=True)
        self.shared_texts: list[tuple[str, str]] = []

    async def abilities(self) -> Abilities:
        return self.can

    def hand_out(self, content: bytes, name: str, mime: str) -> None:
        self.handed.append((name, mime, content))

    async def share_text(self, text: str, title: str) -> Shared:
        self.shared_texts.append((text, title))
        return "shared"

    def notify(self, title: str, body: str, *, tag: str = "", route: str = "") -> None:
        self.noticed.append((title, body))
        self.notices[tag] = route

    def unnotify(self, tag: str) -> None:
        self.notices.pop(tag, None)
