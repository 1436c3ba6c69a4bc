"""Pictures on a desktop, by Pillow when it is there."""

import io
from importlib import import_module
from typing import Any

from app.device.parts import NotAPhoto, Prepared
from app.device.picture_head import (
    CANNOT_DECODE,
    JPEG_QUALITY,
    LONGEST_SIDE_PX,
    THUMB_SIDE_PX,
    check_size,
    fitted,
    read_head,
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
