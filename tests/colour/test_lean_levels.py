"""Which tones are the ends, on grids of flat columns: most of them cured, the rest amid it."""

import pytest

from app.colour.field import Field
from app.colour.lab import Triple, to_linear
from app.colour.lean_levels import LeanLevels, lean_levels
from app.colour.tone import tones_of
from app.colour.white_point import WhitePoint, from_light, from_neutral

Rgb = tuple[int, int, int]
W, H = 100, 30
CURED, PALE, GREY, RING = (190, 98, 96), (165, 110, 101), (140, 121, 106), (190, 83, 84)
WHITE = from_neutral((200, 200, 200))


def light_of(rgb: Rgb) -> Triple:
    r, g, b = (to_linear(level) for level in rgb)
    return r, g, b


def levels_of(*parts: tuple[Rgb, int], white: WhitePoint | None = WHITE) -> LeanLevels:
    """Of upright bands of colours, each so many of a hundred cells wide."""
    row = [light_of(colour) for colour, cells in parts for _ in range(cells)]
    assert len(row) == W
    lights = row * H
    light, u, v, s = tones_of(lights, 0.004)
    field = Field(W, H, light, u, v, s)
    return lean_levels(field, [*range(W * H)], lights, 0.02, white)


def tone_of(rgb: Rgb) -> float:
    return tones_of([light_of(rgb)], 0.004)[3][0]


@pytest.mark.parametrize("white", [WHITE, None])
def test_the_dullest_is_grey_and_the_reddest_cured(white: WhitePoint | None) -> None:
    found = levels_of((CURED, 30), (GREY, 40), (CURED, 30), white=white)
    assert found.ends.kind == "grey"
    assert found.ends.grey == pytest.approx(tone_of(GREY), abs=0.02)
    assert found.ends.cured == pytest.approx(tone_of(CURED), abs=0.02)
    assert found.pale is None


def test_a_band_of_one_tone_between_them_is_pale() -> None:
    found = levels_of((CURED, 30), (PALE, 15), (GREY, 25), (PALE, 15), (CURED, 15))
    assert found.pale == pytest.approx(found.ends.turned(tone_of(PALE)), abs=0.03)


@pytest.mark.parametrize(("only", "kind"), [(CURED, "cured"), (GREY, "grey")])
def test_one_tone_alone_is_told_by_its_colour(only: Rgb, kind: str) -> None:
    found = levels_of((only, 100))
    assert not found.ends.two
    assert found.ends.kind == kind


def test_a_smoke_ring_is_not_the_cured_end() -> None:
    found = levels_of((RING, 5), (CURED, 35), (GREY, 30), (CURED, 26), (RING, 4))
    assert found.ends.cured == pytest.approx(tone_of(CURED), abs=0.03)
    assert found.pale is None


def test_a_small_even_band_of_pink_in_cured_meat_is_pale_though_no_grey_is_there() -> None:
    # As beef is in daylight: a* 18 and 10, b* 9 and 12.
    cured, pale = (153, 107, 104), (148, 117, 104)
    found = levels_of((cured, 45), (pale, 14), (cured, 41))
    assert found.ends.kind == "pale"
    assert found.pale is not None


def test_a_core_too_small_for_a_tone_of_its_own_is_the_grey_end() -> None:
    slope = [
        (tuple(round(c + k * (g - c) / 6) for c, g in zip(CURED, GREY, strict=True)), 1)
        for k in range(1, 6)
    ]
    out = [((r, g, b), n) for (r, g, b), n in slope]
    found = levels_of((CURED, 44), *out, (GREY, 3), *out[::-1], (CURED, 43))
    assert found.ends.kind == "grey"
    assert found.ends.grey == pytest.approx(tone_of(GREY), abs=0.08)


def test_two_tones_far_apart_are_two_whatever_the_fat_says_of_the_light() -> None:
    by_fat = from_light((0.35, 0.5, 0.45), by_fat=True)
    found = levels_of((CURED, 30), (GREY, 40), (CURED, 30), white=by_fat)
    assert found.ends.two
    assert found.ends.kind == "grey"
