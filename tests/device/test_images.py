"""Pictures taken in: upright, small enough, without the place; others refused with a sentence."""

import asyncio
import io
import struct
from datetime import UTC, datetime
from typing import Any

import pytest
from PIL import Image

from app.device.desktop_images import DesktopImages
from app.device.parts import NotAPhoto, Prepared
from app.device.picture_head import read_head

IMAGES = DesktopImages()


def picture(width: int = 3000, height: int = 1500, form: str = "JPEG", **told: Any) -> bytes:
    image = Image.new("RGB", (width, height), (10, 20, 200))
    image.paste((250, 10, 10), (0, 0, width // 4, height // 4))  # red at the top left
    exif = Image.Exif()
    if "turn" in told:
        exif[0x0112] = told["turn"]
    if "taken" in told:
        exif.get_ifd(0x8769)[0x9003] = told["taken"]
    if "offset" in told:
        exif.get_ifd(0x8769)[0x9011] = told["offset"]
    exif.get_ifd(0x8825)[1] = "N"
    out = io.BytesIO()
    image.save(out, form, exif=exif)
    return out.getvalue()


def prepared(content: bytes) -> Prepared:
    return asyncio.run(IMAGES.prepare(content))


def test_photo_is_scaled_and_its_place_dropped() -> None:
    kept = prepared(picture())
    assert (kept.width, kept.height) == (2048, 1024)
    with Image.open(io.BytesIO(kept.jpeg)) as image:
        assert (image.format, image.size, dict(image.getexif())) == ("JPEG", (2048, 1024), {})
    with Image.open(io.BytesIO(kept.thumb)) as image:
        assert image.size == (320, 160)


def test_photo_is_turned_upright() -> None:
    kept = prepared(picture(turn=6))  # taken with the phone upright: turn right by a quarter
    assert (kept.width, kept.height) == (1024, 2048)
    pixels, width, height = asyncio.run(IMAGES.rgba(kept.jpeg, 64))
    assert (width, height, len(pixels)) == (32, 64, 32 * 64 * 4)
    top_right = pixels[4 * (width - 3) + 4 * width * 2 :][:3]
    assert top_right[0] > 200 > top_right[2]


def test_small_photo_is_not_scaled_up() -> None:
    assert (prepared(picture(100, 50)).width, prepared(picture(100, 50)).height) == (100, 50)


@pytest.mark.parametrize("form", ["PNG", "WEBP", "GIF", "BMP", "TIFF"])
def test_other_kinds_become_jpeg(form: str) -> None:
    assert prepared(picture(60, 40, form)).jpeg.startswith(b"\xff\xd8")


def test_time_taken_is_read_with_its_offset() -> None:
    content = picture(80, 60, taken="2027:03:06 18:00:00", offset="-05:00")
    expected = datetime(2027, 3, 6, 23, 0, tzinfo=UTC).timestamp()
    assert read_head(content).taken_utc_s == expected


def test_time_without_an_offset_is_the_local_one() -> None:
    content = picture(80, 60, taken="2027:03:06 18:00:00")
    assert read_head(content).taken_utc_s == datetime(2027, 3, 6, 18, 0).timestamp()


@pytest.mark.parametrize("turn", [None, 1, 3, 5, 6, 8])
def test_a_picture_is_decoded_no_larger_than_it_is_kept(turn: int | None) -> None:
    told = {} if turn is None else {"turn": turn}
    on_its_side = turn in (5, 6, 8)
    head = read_head(picture(3000, 1501, **told))
    assert head.turned == on_its_side
    assert head.width_to_decode(2048) == (1024 if on_its_side else 2048)
    assert head.width_to_decode(3000) is None
    assert read_head(b"BM" + bytes(60)).width_to_decode(2048) is None


def test_a_time_that_is_nonsense_leaves_the_picture_upright() -> None:
    head = read_head(picture(80, 60, turn=6, taken="2027:99:99 18:00:00"))
    assert (head.taken_utc_s, head.turned) == (None, True)


def test_no_time_or_nonsense_is_no_time() -> None:
    assert read_head(picture(80, 60)).taken_utc_s is None
    assert read_head(picture(80, 60, taken="0000:00:00 00:00:00")).taken_utc_s is None


def large_png() -> bytes:
    return b"\x89PNG\r\n\x1a\n" + struct.pack(">I4sII", 13, b"IHDR", 20_000, 6_000) + b"IEND"


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "empty"),
        (b"hello there", "not a picture"),
        (b"<svg onload='x'/>", "not a picture"),
        (picture()[:-4000], "cut short"),
        (picture()[:300], "cut short"),
        (picture(60, 40, "PNG")[:-30], "cut short"),
        (picture(60, 40, "WEBP")[:-10], "cut short"),
        (large_png(), "120 megapixels"),
        (b"\x89PNG\r\n\x1a\n" + struct.pack(">I4sII", 13, b"IHDR", 9, 9) + b"IEND", "cannot read"),
        (b"\xff\xd8\xff\xd9", "cut short"),
    ],
)
def test_what_is_no_photo_is_refused(content: bytes, says: str) -> None:
    with pytest.raises(NotAPhoto, match=says):
        prepared(content)


def test_every_cut_of_a_photo_is_refused() -> None:
    whole = picture(64, 48, taken="2027:03:06 18:00:00")
    for length in range(len(whole)):
        with pytest.raises(NotAPhoto):
            read_head(whole[:length])


def test_what_a_phone_adds_behind_a_photo_does_no_harm() -> None:
    assert prepared(picture(64, 48) + b"a short film" * 100).width == 64
