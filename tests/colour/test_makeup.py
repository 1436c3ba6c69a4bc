"""What a cut face is made of, on grids of flat tones: cured all round, something else amid it."""

import pytest

from app.colour.field import Field
from app.colour.lab import Triple, to_linear
from app.colour.makeup import Makeup, makeup
from app.colour.tone import tones_of

W, H = 60, 40
CURED, LIGHT_GREY, GREY = (175, 85, 90), (165, 145, 128), (140, 121, 106)
FAT, PALE = (235, 222, 205), (168, 115, 105)


def light_of(rgb: tuple[int, int, int]) -> Triple:
    r, g, b = (to_linear(level) for level in rgb)
    return r, g, b


def made_of(
    *amid: tuple[tuple[int, int, int], int], lamp: Triple = (1.0, 1.0, 1.0), balanced: bool = True
) -> Makeup:
    """Of cured lean with upright bands of other colours, each so many cells wide."""
    row = [CURED] * 14
    for colour, cells in amid:
        row += [colour] * cells
    row += [CURED] * (W - len(row))
    lights = [light_of(colour) for colour in row] * H
    seen = [(r * lamp[0], g * lamp[1], b * lamp[2]) for r, g, b in lights]
    light, u, v, s = tones_of(lights if balanced else seen, 0.004)
    field = Field(W, H, light, u, v, s)
    found = makeup(field, [*range(W * H)], [c[0] for c in seen], [c[1] for c in seen], balanced)
    assert found is not None
    return found


def test_fat_is_told_from_lean() -> None:
    found = made_of((FAT, 12))
    assert found.fat_green is not None
    over = light_of(FAT)[1] / light_of(CURED)[1]
    assert found.fat_green / found.greens[0] == pytest.approx(over, rel=0.1)
    assert len(found.lean) == 1


@pytest.mark.parametrize("balanced", [True, False])
def test_a_light_grey_core_is_no_fat(balanced: bool) -> None:
    found = made_of((LIGHT_GREY, 20), balanced=balanced)
    assert found.fat_green is None
    assert [round(tone.share, 1) for tone in found.lean] == [0.3, 0.7]


def test_light_grey_and_pale_stay_lean_beside_fat() -> None:
    found = made_of((PALE, 8), (LIGHT_GREY, 12), (FAT, 8))
    assert found.fat_green is not None
    assert len(found.lean) == 3


@pytest.mark.parametrize("streak", [1, 2])
def test_a_light_pale_core_beside_streaks_of_brighter_fat_is_no_fat(streak: int) -> None:
    """Its red is 1.4 times that of the cured meat, which alone would make it fat."""
    light_pale = (204, 124, 112)
    assert made_of((light_pale, 14), balanced=False).fat_green is not None
    found = made_of((light_pale, 14), (FAT, streak), (CURED, 4), (FAT, streak), balanced=False)
    assert [round(tone.share, 1) for tone in found.lean][-1] > 0.5
    assert len(found.lean) == 2


@pytest.mark.parametrize("core", [(204, 124, 112), (196, 126, 110)])
def test_a_light_pale_core_is_too_red_for_fat_under_a_measured_white(
    core: tuple[int, int, int],
) -> None:
    """No fat is there to hold it against; its log R/G − 0.3 log G/B is twice that of cream."""
    assert made_of((core, 14)).fat_green is None


def test_of_one_tone_in_light_and_in_shade_the_greater_part_gives_the_green() -> None:
    shaded = (109, 50, 53)
    found = made_of((shaded, 10))
    assert len(found.lean) == 1
    tone = found.lean[0]
    assert tone.share > 0.7
    assert found.lean_green(tone.s) == pytest.approx(
        light_of(CURED)[1] / found.lamp[tone.cells[0]], rel=0.1
    )


def test_grey_pale_and_cured_are_three_tones_of_lean() -> None:
    found = made_of((PALE, 10), (GREY, 14))
    assert found.fat_green is None
    assert [tone.s for tone in found.lean] == sorted(tone.s for tone in found.lean)
    assert len(found.lean) == 3


def test_the_green_of_lean_lies_between_its_tones() -> None:
    found = made_of((GREY, 20))
    dull, red = found.lean
    assert found.lean_green(dull.s - 1.0) == found.greens[0]
    assert found.lean_green(red.s + 1.0) == found.greens[1]
    between = found.lean_green(0.5 * (dull.s + red.s))
    assert min(found.greens) < between < max(found.greens)


def test_a_lamp_to_one_side_is_taken_out_of_the_light() -> None:
    lights = [light_of(CURED)] * (W * H)
    dimmed = [tuple(c * (1.2 - 0.4 * (i % W) / W) for c in lights[i]) for i in range(W * H)]
    seen = [(r, g, b) for r, g, b in dimmed]
    field = Field(W, H, *tones_of(seen, 0.004))
    found = makeup(field, [*range(W * H)], [c[0] for c in seen], [c[1] for c in seen])
    assert found is not None
    assert max(abs(x) for x in found.excess.values()) < 0.05
    assert found.lamp[0] > found.lamp[W - 1]


def test_what_is_rough_all_over_is_no_lean() -> None:
    board = [light_of(CURED if (i % W + i // W) % 2 else FAT) for i in range(W * H)]
    field = Field(W, H, *tones_of(board, 0.004))
    few = [*range(8)]
    assert makeup(field, few, [c[0] for c in board], [c[1] for c in board]) is None
