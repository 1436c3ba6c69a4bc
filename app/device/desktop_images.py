"""Pictures on a desktop, by Pillow when it is there."""

import io
from collections.abc import Sequence
from importlib import import_module
from typing import Any

from app.device.parts import NotAPhoto, Prepared
from app.device.picture_head import (
    CANNOT_DECODE,
    INK,
    JPEG_QUALITY,
    LONGEST_SIDE_PX,
    PAPER,
    THUMB_SIDE_PX,
    check_size,
    fitted,
    read_head,
    strip_sizes,
)


def _pillow(part: str) -> Any:
    # By name at the time of need: the browser has no Pillow, and the program starts without it.
    try:
        return import_module(f"PIL.{part}")
    except ImportError:
        raise NotAPhoto("Taking photos in on a desktop needs the library Pillow.") from None


class DesktopImages:
    """Decoding and scaling by Pillow."""

    async def prepare(self, source: Any) -> Prepared:
        """Make a photo of a picture file's bytes; NotAPhoto with a sentence when it is none."""
        content = bytes(source)
        head = read_head(content)
        image = _pillow("ImageOps").exif_transpose(_decoded(content)).convert("RGB")
        image.thumbnail((LONGEST_SIDE_PX, LONGEST_SIDE_PX))
        small = image.copy()
        small.thumbnail((THUMB_SIDE_PX, THUMB_SIDE_PX))
        return Prepared(_jpeg(image), _jpeg(small), image.width, image.height, head.taken_utc_s)

    async def rgba(self, jpeg: bytes, max_side: int) -> tuple[bytes, int, int]:
        image = _pillow("ImageOps").exif_transpose(_decoded(jpeg)).convert("RGBA")
        image = image.resize(fitted(image.width, image.height, max_side))
        return image.tobytes(), image.width, image.height

    async def captioned(self, jpeg: bytes, lines: Sequence[str]) -> bytes:
        photo = _decoded(jpeg).convert("RGB")
        letters, line, margin = strip_sizes(photo.width)
        size = (photo.width, photo.height + len(lines) * line + 2 * margin)
        whole = _pillow("Image").new("RGB", size, PAPER)
        whole.paste(photo)
        pen, font = _pillow("ImageDraw").Draw(whole), _pillow("ImageFont")
        for number, words in enumerate(lines):
            least, room = letters, photo.width - 2 * margin
            while least > 8 and font.load_default(least).getlength(words) > room:
                least -= 1
            at = (margin, photo.height + margin + number * line)
            pen.text(at, words, fill=INK, font=font.load_default(least))
        return _jpeg(whole)


def _decoded(content: bytes) -> Any:
    opener = _pillow("Image")
    try:
        image = opener.open(io.BytesIO(content))
        check_size(image.width, image.height)
        image.load()
    except NotAPhoto:
        raise
    # Pillow's decoders raise many kinds on damaged files, each meaning that it cannot be read.
    except Exception:
        raise NotAPhoto(CANNOT_DECODE) from None
    return image


def _jpeg(image: Any) -> bytes:
    out = io.BytesIO()
    # Saved from pixels alone: place and camera are not carried over.
    image.save(out, "JPEG", quality=round(100 * JPEG_QUALITY))
    return out.getvalue()
