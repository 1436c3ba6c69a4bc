"""Cured, pale and grey are told by thickness as by colour, and their words can be read."""

from itertools import pairwise

from app.screens.photos.photo_face_kept import COLOURS, NUMBERS
from app.widgets.band_looks import CURE_LOOKS, INK, BandLook


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    parts = (part / 255.0 for part in bytes.fromhex(colour[1:]))
    linear = [x / 12.92 if x <= 0.04045 else ((x + 0.055) / 1.055) ** 2.4 for x in parts]
    return sum(a * b for a, b in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def test_words_can_be_read_on_each_of_them() -> None:
    assert all(contrast(look.colour, INK) >= 4.5 for look in CURE_LOOKS.values())


def test_the_more_cured_the_thicker() -> None:
    looks: list[BandLook] = [CURE_LOOKS[kind] for kind in ("cured", "pale", "grey")]
    for more, less in pairwise(looks):
        assert more.on_photo >= 1.5 * less.on_photo
        assert more.on_bar >= 1.2 * less.on_bar


def test_the_face_has_the_same_colours() -> None:
    for kind, look in CURE_LOOKS.items():
        assert COLOURS[NUMBERS[kind]][:3] == look.rgb
