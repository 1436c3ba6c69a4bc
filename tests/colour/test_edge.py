"""The edge by light: drawn discs on dark and bright boards, with bark and without."""

import numpy as np
import pytest

from app.colour import pixels
from app.colour.edge import settled
from app.colour.field import Field
from app.colour.tone import tones_of

SIDE, STEP = 300, 3
Rgb = tuple[int, int, int]
DARK, PAPER, WALNUT = (24, 24, 26), (235, 232, 225), (120, 85, 60)


def disc(board: Rgb, bark_px: float) -> bytes:
    y, x = np.mgrid[:SIDE, :SIDE]
    away = np.hypot(x - 150, y - 150)
    picture = np.full((SIDE, SIDE, 4), 255, np.uint8)
    picture[..., :3] = board
    picture[away < 100, :3] = (45, 30, 24)
    picture[away < 100 - bark_px, :3] = (190, 110, 105)
    return picture.tobytes()


def read(board: Rgb, bark_px: float, taken_px: float) -> tuple[float, float]:
    """Area of the mask and of its bark, to the disc's, when colour took so large a disc."""
    rgba = disc(board, bark_px)
    grid = pixels.grid(rgba, SIDE, SIDE, (SIDE // STEP) ** 2)
    assert grid.step == STEP
    lights = list(zip(grid.red, grid.green, grid.blue, strict=True))
    field = Field(grid.columns, grid.rows, *tones_of(lights, 0.004))
    y, x = np.mgrid[: grid.rows, : grid.columns]
    near = np.hypot(x + 0.5 - 50, y + 0.5 - 50) * STEP < taken_px
    mask, bark = settled(field, bytearray(near.astype(np.uint8)), rgba, SIDE, SIDE, STEP)
    whole = np.pi * (100 / STEP) ** 2
    return sum(mask) / whole, len(bark) / whole


def test_red_bled_onto_a_dark_board_is_given_back() -> None:
    area, bark = read(DARK, 0, 110)
    assert area == pytest.approx(1.0, abs=0.02)
    assert bark < 0.02


@pytest.mark.parametrize("board", [PAPER, WALNUT])
def test_bark_left_out_is_taken_in(board: Rgb) -> None:
    area, bark = read(board, 10, 90)
    assert area == pytest.approx(1.0, abs=0.03)
    assert bark == pytest.approx(1 - 0.9**2, abs=0.03)


def test_bark_taken_is_kept() -> None:
    area, _ = read(WALNUT, 10, 100)
    assert area == pytest.approx(1.0, abs=0.03)


def test_without_bark_a_bright_board_stays_board() -> None:
    area, bark = read(PAPER, 0, 100)
    assert area == pytest.approx(1.0, abs=0.02)
    assert bark < 0.02
