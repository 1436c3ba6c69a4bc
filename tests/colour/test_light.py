import numpy as np
import pytest

from app.colour.light import WORDS, marks
from tests.colour.camera import Shot, encode, light
from tests.colour.flat import PINK, WHITE, stripes
from tests.colour.slices import draw


def test_good_light_has_no_marks() -> None:
    assert marks(*stripes([(WHITE, 40), (PINK, 60)]), [(200, 200, 200), (120, 121, 120)]) == ()


def test_wood_and_brown_paper_are_doubted_as_white_and_paper_is_not() -> None:
    for seed in range(540000, 540008):
        shot = Shot(kelvin=2700.0 + 900.0 * (seed % 6), stops=-0.7)
        drawn = draw(seed, 400, shot)
        if drawn.about.startswith("none"):
            continue  # wholly grey meat does not tell
        for lab, doubted in (
            ((93.0, 0.0, 0.0), False),
            ((90.0, 0.5, 5.0), False),  # white butcher's paper
            ((68.0, 9.0, 26.0), True),  # maple
            ((50.0, 12.0, 30.0), True),  # oak
        ):
            red, green, blue = (float(c) for c in encode(shot.lit(np.array([light(lab)]) * 1.6)[0]))
            found = marks(drawn.rgba, *drawn.size, [(red, green, blue)])
            # What is warmer than any lamp is refused as before.
            seen = bool({"white in doubt", "no white patch"} & set(found))
            assert seen == doubted, (drawn.about, lab)


@pytest.mark.parametrize("board", [(52, 92, 122), (70, 120, 84), (120, 120, 120)])
def test_a_box_without_meat_does_not_doubt_its_white(board: tuple[int, int, int]) -> None:
    assert marks(*stripes([(WHITE, 40), (board, 60)]), [(200, 200, 200)]) == ()


@pytest.mark.parametrize(
    ("colour", "patches", "mark"),
    [
        ((8, 6, 5), [(60, 60, 60)], "too dark"),
        ((255, 240, 200), [(200, 200, 200)], "clipped"),
        (PINK, [], "no white patch"),
        (PINK, [(255, 255, 255)], "no white patch"),
        (PINK, [(200, 200, 200), (200, 165, 110)], "mixed light"),
    ],
)
def test_marks_say_what_is_wrong(
    colour: tuple[int, int, int], patches: list[tuple[float, float, float]], mark: str
) -> None:
    found = marks(*stripes([(colour, 80)]), patches)
    assert found == (mark,)
    assert WORDS[found[0]]
