"""Pictures with no cut face in them that stand out from a board as a slice would."""

import numpy as np
import pytest

from app.colour.cure_line import measure, measure_face
from app.colour.reading import NO_FACE

Rgb = tuple[int, int, int]
STEEL, PEACH = (168, 168, 166), (244, 212, 186)


def blob(colour: Rgb, board: Rgb, mottled: float, rim: Rgb | None = None) -> bytes:
    """An oval of one colour, its light mottled by so much from place to place."""
    rng = np.random.default_rng(7)
    y, x = np.mgrid[:300, :420]
    away = np.hypot((x - 210) / 150, (y - 150) / 100)
    coarse = rng.normal(0, mottled, (75, 105)).repeat(4, 0).repeat(4, 1)
    picture = np.full((300, 420, 4), 255, np.uint8)
    picture[..., :3] = board
    inside = away < 1
    lit = np.clip(np.array(colour) * np.exp(coarse)[..., None], 0, 255)
    picture[inside, :3] = lit[inside]
    if rim is not None:
        picture[inside & (away > 0.93), :3] = rim
    noise = rng.normal(0, 2, (300, 420, 3))
    picture[..., :3] = np.clip(picture[..., :3] + noise, 0, 255).astype(np.uint8)
    return picture.tobytes()


def says(rgba: bytes, neutral: Rgb | None) -> str:
    found = measure_face(rgba, 420, 300, neutral)
    return found.says if not found.known else ""


@pytest.mark.parametrize("neutral", [None, (168, 168, 168)])
def test_a_piece_with_bark_all_over_is_no_cut_face(neutral: Rgb | None) -> None:
    assert says(blob((62, 50, 45), STEEL, 0.12), neutral)


def test_a_grey_slice_with_a_rim_of_bark_is_one_however_grainy() -> None:
    assert not says(blob((128, 112, 98), STEEL, 0.1, (52, 40, 34)), (168, 168, 168))


@pytest.mark.parametrize("neutral", [None, (200, 200, 200)])
def test_leaves_are_no_cut_face(neutral: Rgb | None) -> None:
    assert says(blob((118, 140, 62), PEACH, 0.05), neutral) == NO_FACE


@pytest.mark.parametrize("neutral", [None, (168, 168, 168)])
def test_a_line_across_bark_or_along_a_board_is_refused(neutral: Rgb | None) -> None:
    bark = blob((62, 50, 45), STEEL, 0.45)
    assert not measure(bark, 420, 300, (210, 45), (210, 255), neutral).known
    assert not measure(bark, 420, 300, (20, 30), (20, 270), neutral).known


def test_a_line_across_a_grainy_grey_slice_is_read() -> None:
    grey = blob((128, 112, 98), STEEL, 0.08, (52, 40, 34))
    found = measure(grey, 420, 300, (210, 45), (210, 255), (168, 168, 168))
    assert found.grey_percent == pytest.approx(100)
