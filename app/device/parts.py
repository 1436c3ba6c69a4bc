"""What a device is made of, whichever it is: its parts, what they promise, how they refuse."""

import asyncio
from collections.abc import Awaitable, Callable, Iterable, Sequence
from typing import Any, Literal, Protocol

from attrs import frozen


class HeldElsewhere(Exception):
    """Another window or tab has the journal open."""


class StorageFull(OSError):
    """There is no room left to write; what was there before is whole."""


class NotOpenHere(OSError):
    """This window has no journal open, as after another one took it over."""


class NewerJournal(Exception):
    """The journal's file is of a form that a later version of the program began."""


class NoPrivateFiles(Exception):
    """The browser gives this page no files of its own, as in some private windows."""


class NotAPhoto(ValueError):
    """What was handed over cannot be taken as a photo."""


HELD_ELSEWHERE = (
    "The journal is open in another window. Close that one, or press “Use it here” to go on here."
)
STORAGE_FULL = (
    "There is no room left on this device, so this was not saved. What was saved before is whole. "
    "Make room, then try again."
)
NOT_OPEN_HERE = (
    "The journal is not open in this window any more, so this last change was not saved. "
    "Take it back here, then do it again."
)
NEWER_JOURNAL = (
    "The journal on this device was written by a later version of the program. It is left "
    "untouched. Update the program, then open it again."
)
NO_PRIVATE_FILES = (
    "This browser window keeps nothing after it is closed, as private windows do. "
    "Open the page in an ordinary window to keep a journal."
)


@frozen
class Prepared:
    """A photo as it is kept: upright, no place recorded in it, sizes in pixels.

    taken_utc_s : when the camera says it was taken [s since 1970 UTC], None if it does not say
    """

    jpeg: bytes
    thumb: bytes
    width: int
    height: int
    taken_utc_s: float | None = None


@frozen
class Health:
    """Room on the device [bytes]; None where the device does not tell, or not the truth.

    persisted : True when the browser promised not to clear the data by itself
    own : bytes of the journal and its photos; None where only counting them would tell
    clears_unused : whether this kind of browser clears the data of a site unused for a week
    """

    persisted: bool | None = None
    usage: int | None = None
    quota: int | None = None
    clears_unused: bool = False
    own: int | None = None

    @property
    def left(self) -> int | None:
        """Bytes left, None where the device does not tell."""
        if self.usage is None or self.quota is None:
            return None
        return max(0, self.quota - self.usage)


@frozen
class Abilities:
    """What a device can do to call the cook.

    notices : leave for them given or refused, to be asked for, or none here at all
    worker : they are shown by the service worker, so that a tap on one opens its step
    badge : a number on the icon
    awake : the screen can be kept on
    installed : the program stands on the home screen
    apple : a browser that shows notices and number only from there
    """

    notices: Literal["granted", "denied", "ask", "none"] = "none"
    worker: bool = False
    badge: bool = False
    awake: bool = False
    installed: bool = False
    apple: bool = False


class Clock(Protocol):
    """The device's clock."""

    def now(self) -> tuple[float, int]:
        """Seconds since 1970 UTC, and the local offset in force [min]."""

    def zone(self) -> str:
        """Name of the local time zone, "Europe/Berlin", empty when not known."""


class Photos(Protocol):
    """Pictures as files of their own, each with a small one beside it."""

    async def put(self, photo_id: str, jpeg: bytes, thumb: bytes) -> None: ...

    async def get(self, photo_id: str, thumb: bool = False) -> bytes:
        """The picture; LookupError when there is none of that name."""

    async def delete(self, photo_id: str) -> None: ...

    async def names(self) -> dict[str, bool]:
        """Each photo with a file here, and whether both of its pictures are."""

    async def sizes(self) -> dict[str, int]:
        """Bytes stored for each photo, its small picture counted in."""

    def address(self, photo_id: str, thumb: bool) -> str | bytes:
        """Where a screen shows the picture from; empty while it cannot be shown."""


class Images(Protocol):
    """Decoding and scaling."""

    async def prepare(self, source: Any) -> Prepared:
        """Make a photo of bytes or of a file of the page; NotAPhoto with a sentence if not."""

    async def rgba(self, jpeg: bytes, max_side: int) -> tuple[bytes, int, int]:
        """Pixels, four bytes each, row by row; at most `max_side` px wide and high."""

    async def captioned(self, jpeg: bytes, lines: Sequence[str]) -> bytes:
        """The picture as a JPEG with lines of words on a strip of paper below it."""


async def all_ended(*acts: Awaitable[Any]) -> list[Any]:
    """What acts running beside each other gave; a failure is raised once all have ended.

    So that what one of them left half done can be cleared away while nothing writes any more.
    """
    gave = await asyncio.gather(*acts, return_exceptions=True)
    for one in gave:
        if isinstance(one, BaseException):
            raise one
    return gave


Callback = Callable[[], object]
Waiting = Awaitable[Any]


def check_photo_id(photo_id: str) -> str:
    """The id itself when it may be part of a file's name; ValueError otherwise.

    Examples
    --------
    >>> check_photo_id("demo-1a")
    'demo-1a'
    """
    plain = photo_id.replace("-", "").replace("_", "")
    # The small picture's file is named like the large one's, with "-thumb" behind.
    if not (plain.isascii() and plain.isalnum() and len(photo_id) <= 64) or (
        photo_id.endswith("-thumb")
    ):
        raise ValueError(
            f"A photo is named by up to 64 letters, digits and dashes, without -thumb at the end; "
            f"{photo_id!r} was given."
        )
    return photo_id


def both_there(stems: Iterable[str]) -> dict[str, bool]:
    """Photos by the names of their files without ending, and whether large and small are there.

    Examples
    --------
    >>> both_there(["a", "a-thumb", "b-thumb"])
    {'a': True, 'b': False}
    """
    found: dict[str, int] = {}
    for stem in stems:
        name = stem.removesuffix("-thumb")
        found[name] = found.get(name, 0) + 1
    return {name: count == 2 for name, count in found.items()}
