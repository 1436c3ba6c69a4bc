"""Picture files of every kind that a chooser may hand over, made by Pillow."""

import io
import struct
import zlib
from datetime import datetime
from pathlib import Path

from PIL import Image, ImageDraw

BOARD, PINK, GREY, BARK = (215, 205, 185), (190, 95, 90), (150, 128, 112), (45, 28, 22)
TAKEN = "2026:01:02 03:04:05"
"""What the camera writes; long before any batch of a test."""


def slice_picture(width: int, height: int) -> Image.Image:
    """A cut slice on a board: bark, cured rim, grey core, and a white paper at the top left."""
    image = Image.new("RGB", (width, height), BOARD)
    draw = ImageDraw.Draw(image)

    def box(share: float) -> tuple[float, float, float, float]:
        wide, high = 0.42 * width * share, 0.34 * height * share
        return width / 2 - wide, height / 2 - high, width / 2 + wide, height / 2 + high

    draw.ellipse(box(1.0), fill=BARK)
    draw.ellipse(box(0.95), fill=PINK)
    draw.ellipse(box(0.40), fill=GREY)
    draw.rectangle((0.02 * width, 0.02 * height, 0.14 * width, 0.12 * height), fill=(235, 234, 232))
    return image


def _exif(turn: int, taken: str = TAKEN) -> Image.Exif:
    exif = Image.Exif()
    exif[0x0112] = turn
    exif.get_ifd(0x8769)[0x9003] = taken
    exif.get_ifd(0x8825)[1] = "N"
    exif.get_ifd(0x8825)[2] = (52.0, 31.0, 12.0)
    return exif


def _bytes(image: Image.Image, form: str, **how: object) -> bytes:
    out = io.BytesIO()
    image.save(out, form, **how)
    return out.getvalue()


def taken_at(when: datetime) -> bytes:
    """A JPEG whose camera says when it was taken, and where."""
    exif = _exif(1, f"{when:%Y:%m:%d %H:%M:%S}")
    return _bytes(slice_picture(1200, 900), "JPEG", quality=85, exif=exif)


def _deep_png(width: int, height: int) -> bytes:
    """Sixteen bits a channel, which Pillow does not write in colour."""
    row = b"\0" + struct.pack(">3H", 48000, 24000, 22000) * width

    def chunk(kind: bytes, content: bytes) -> bytes:
        check = struct.pack(">I", zlib.crc32(kind + content))
        return struct.pack(">I", len(content)) + kind + content + check

    head = struct.pack(">IIBBBBB", width, height, 16, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        (chunk(b"IHDR", head), chunk(b"IDAT", zlib.compress(row * height, 1)), chunk(b"IEND", b""))
    )


def made(kind: str) -> bytes:
    """The bytes of a file of that kind."""
    if kind == "turned":
        return _bytes(slice_picture(1600, 1200), "JPEG", quality=85, exif=_exif(6))
    if kind == "cmyk":
        return _bytes(slice_picture(1200, 900).convert("CMYK"), "JPEG", quality=85)
    if kind == "deep-png":
        return _deep_png(900, 600)
    if kind == "webp":
        return _bytes(slice_picture(1200, 900), "WEBP", quality=80)
    if kind == "cut-short":
        whole = _bytes(slice_picture(1600, 1200), "JPEG", quality=85)
        return whole[: len(whole) // 2]
    if kind == "empty":
        return b""
    if kind == "text":
        return b"This is a shopping list.\n" * 20
    if kind == "12-megapixels":
        return _bytes(slice_picture(4000, 3000), "JPEG", quality=92, exif=_exif(1))
    if kind == "80-megapixels":
        return _bytes(slice_picture(10328, 7760), "JPEG", quality=70)
    if kind == "too-large":
        return _bytes(Image.new("L", (12000, 12000), 128), "JPEG", quality=30)
    raise ValueError(f"no such kind of file: {kind}")


def file_of(folder: Path, kind: str) -> Path:
    """A file of that kind, named as a phone would name it."""
    end = {"deep-png": "png", "webp": "webp"}.get(kind, "jpg")
    file = folder / f"{kind}.{end}"
    file.write_bytes(made(kind))
    return file
