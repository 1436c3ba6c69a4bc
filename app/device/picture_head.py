"""What can be told of a picture file before it is decoded: its size, its end, its time."""

import struct
from collections.abc import Iterator
from contextlib import suppress
from datetime import datetime, timedelta, timezone
from typing import Literal

from attrs import frozen

from app.device.parts import NotAPhoto

MOST_PIXELS = 100_000_000
"""More than this is not a camera's picture and would take 400 MB to decode."""
LONGEST_SIDE_PX = 2048
THUMB_SIDE_PX = 320
JPEG_QUALITY = 0.85
PAPER, INK = "#F6EFE2", "#1E1712"
"""Of the strip below a picture that is handed out with its figures."""

Kind = Literal["jpeg", "png", "webp", "gif", "other"]


@frozen
class Head:
    """Kind and, where its header tells them, size [px] and time taken [s since 1970 UTC].

    turned : whether the camera was held on its side, so that width and height change places
    """

    kind: Kind
    width: int | None = None
    height: int | None = None
    taken_utc_s: float | None = None
    turned: bool = False

    def width_to_decode(self, longest: int) -> int | None:
        """Width at which to decode it upright [px]; None where nothing is known or gained.

        Rounded down, so that the height which follows is not above `longest`.

        Examples
        --------
        >>> Head("jpeg", 4000, 3000, turned=True).width_to_decode(2048)
        1536
        >>> Head("jpeg", 400, 300).width_to_decode(2048)
        """
        if self.width is None or self.height is None or max(self.width, self.height) <= longest:
            return None
        wide, high = (self.height, self.width) if self.turned else (self.width, self.height)
        return longest if wide >= high else max(1, wide * longest // high)


def read_head(content: bytes) -> Head:
    """Look a picture over; NotAPhoto with a sentence when it cannot be one or is cut short."""
    if not content:
        raise NotAPhoto("The file is empty (0 bytes). Choose a photo.")
    if content.startswith(b"\xff\xd8"):
        head = _jpeg(content)
    elif content.startswith(b"\x89PNG\r\n\x1a\n"):
        if b"IEND" not in content[-64:] and content.rfind(b"IEND") < 0:
            raise NotAPhoto(_CUT)
        head = Head("png", *_pair(">II", content, 16))
    elif content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        if len(content) < 8 + int.from_bytes(content[4:8], "little"):
            raise NotAPhoto(_CUT)
        head = Head("webp", *_webp(content))
    elif content[:4] == b"GIF8":
        head = Head("gif", *_pair("<HH", content, 6))
    elif (content[4:8] == b"ftyp" and content[8:12] in _HEIF) or content.startswith(_PLAIN):
        head = Head("other")
    else:
        raise NotAPhoto("This file is not a picture. Choose a photo (JPEG, PNG, WebP or HEIC).")
    check_size(head.width, head.height)
    return head


_CUT = "This picture is cut short: part of the file is missing. Copy it again, or take another."
_HEIF = {b"heic", b"heix", b"mif1", b"msf1", b"hevc", b"avif"}
_PLAIN = (b"BM", b"II*\0", b"MM\0*")
CANNOT_DECODE = (
    "This device cannot read this picture: it is damaged, or of a kind it does not know. "
    "Save it as JPEG and try again."
)


def check_size(width: int | None, height: int | None) -> None:
    """Refuse a picture without area or with too many pixels."""
    if width is None or height is None:
        return
    if width < 1 or height < 1:
        raise NotAPhoto("This picture has no width or no height.")
    if width * height > MOST_PIXELS:
        raise NotAPhoto(
            f"This picture has {width * height / 1e6:.0f} megapixels; at most 100 are taken. "
            "Choose a smaller one."
        )


def fitted(width: int, height: int, longest: int) -> tuple[int, int]:
    """Size scaled down so that no side is longer than `longest`; never scaled up.

    Examples
    --------
    >>> fitted(4000, 3000, 2048), fitted(100, 50, 320)
    ((2048, 1536), (100, 50))
    """
    if max(width, height) <= longest:
        return width, height
    scale = longest / max(width, height)
    return max(1, round(width * scale)), max(1, round(height * scale))


def strip_sizes(width: int) -> tuple[int, int, int]:
    """Size of the letters, height of a line and margin of a strip below a picture [px].

    Examples
    --------
    >>> strip_sizes(2048)
    (56, 76, 42)
    """
    letters = max(12, width // 36)
    return letters, round(1.35 * letters), round(0.75 * letters)


def _pair(form: str, content: bytes, at: int) -> tuple[int, int]:
    try:
        first, second = struct.unpack_from(form, content, at)
    except struct.error:
        raise NotAPhoto(_CUT) from None
    return int(first), int(second)


def _webp(content: bytes) -> tuple[int | None, int | None]:
    if content[12:16] == b"VP8X" and len(content) >= 30:
        return (
            1 + int.from_bytes(content[24:27], "little"),
            1 + int.from_bytes(content[27:30], "little"),
        )
    if content[12:16] == b"VP8 " and len(content) >= 30:
        width, height = _pair("<HH", content, 26)
        return width & 0x3FFF, height & 0x3FFF
    return None, None  # the plainest kind is at most 16384 px wide; the decoder tells


def _segments(content: bytes) -> Iterator[tuple[int, int, int]]:
    """Marker, start and end of each segment of a JPEG up to the coded picture itself."""
    at = 2
    while at + 4 <= len(content):
        if content[at] != 0xFF:
            return
        marker = content[at + 1]
        if marker == 0xFF:  # padding
            at += 1
            continue
        if 0xD0 <= marker <= 0xD9 or marker == 0x01:  # these stand alone
            at += 2
            continue
        length = int.from_bytes(content[at + 2 : at + 4], "big")
        yield marker, at + 4, at + 2 + length
        if marker == 0xDA or length < 2:
            return
        at += 2 + length


def _jpeg(content: bytes) -> Head:
    width = height = taken = None
    turned, scan = False, -1
    for marker, start, end in _segments(content):
        if 0xC0 <= marker <= 0xCF and marker not in (0xC4, 0xC8, 0xCC):
            height, width = _pair(">HH", content, start + 1)
        elif marker == 0xE1 and content[start : start + 6] == b"Exif\0\0":
            with suppress(struct.error, ValueError, IndexError, OverflowError):
                taken, turned = of_exif(content[start + 6 : end])
        elif marker == 0xDA:
            scan = end
    # The end mark must follow the coded picture; what a phone adds behind it does not matter.
    if scan < 0 or width is None or content.find(b"\xff\xd9", scan) < 0:
        raise NotAPhoto(_CUT)
    return Head("jpeg", width, height, taken, turned)


_ORIENTATION, _EXIF_IFD, _TAKEN, _OFFSET = 0x0112, 0x8769, 0x9003, 0x9011


def of_exif(tiff: bytes) -> tuple[float | None, bool]:
    """When the camera's own record says the picture was taken, and whether it lies on its side.

    A camera writes the clock on the wall, newer ones with the offset beside it. Without the
    offset the zone of this device is taken, as it is mostly the same phone.

    References
    ----------
    Exif 2.32 (CIPA DC-008-2019), tags Orientation, DateTimeOriginal and OffsetTimeOriginal;
    from memory.
    """
    order = {b"II": "<", b"MM": ">"}.get(tiff[:2])
    if order is None:
        return None, False
    (first,) = struct.unpack_from(order + "I", tiff, 4)
    main = _tags(tiff, first, order)
    turned = _short(main.get(_ORIENTATION), order) in (5, 6, 7, 8)
    try:
        return _taken_utc_s(tiff, main, order), turned
    except (struct.error, ValueError, IndexError, OverflowError):
        return None, turned


def _taken_utc_s(tiff: bytes, main: dict[int, tuple[int, int]], order: str) -> float | None:
    if _EXIF_IFD not in main:
        return None
    exif = _tags(tiff, main[_EXIF_IFD][1], order)
    text = _ascii(tiff, exif.get(_TAKEN), 19)
    if not text:
        return None
    # By hand: strptime brings in modules that take longer than all the rest of this file.
    year, month, day, hour, minute, second = (int(text[at : at + n]) for at, n in _DIGITS)
    when = datetime(year, month, day, hour, minute, second)
    offset = _ascii(tiff, exif.get(_OFFSET), 6)
    if len(offset) == 6 and offset[0] in "+-":
        minutes = int(offset[1:3]) * 60 + int(offset[4:6])
        zone = timezone(timedelta(minutes=-minutes if offset[0] == "-" else minutes))
        when = when.replace(tzinfo=zone)
    return when.timestamp()


_DIGITS = ((0, 4), (5, 2), (8, 2), (11, 2), (14, 2), (17, 2))  # "2026:01:02 03:04:05"


def _short(entry: tuple[int, int] | None, order: str) -> int:
    """A two-byte value, which lies in the first half of its four bytes."""
    if entry is None:
        return 0
    return entry[1] & 0xFFFF if order == "<" else entry[1] >> 16


def _tags(tiff: bytes, at: int, order: str) -> dict[int, tuple[int, int]]:
    """Count and value (or where it lies) by tag."""
    (number,) = struct.unpack_from(order + "H", tiff, at)
    rows = (struct.unpack_from(order + "HHII", tiff, at + 2 + 12 * i) for i in range(number))
    return {int(tag): (int(count), int(value)) for tag, _, count, value in rows}


def _ascii(tiff: bytes, entry: tuple[int, int] | None, length: int) -> str:
    if entry is None:
        return ""
    return tiff[entry[1] : entry[1] + length].decode("ascii", "replace").rstrip("\0 ")
