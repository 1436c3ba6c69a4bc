"""Bark's two edges on drawn stripes: board, its shade, bark, smoke ring and lean."""

import numpy as np
import numpy.typing as npt
import pytest

from app.colour.bark_edges import give_back_shade, lean_under_bark
from app.colour.cell_classes import BARK, BOARD, GREY
from app.colour.field import Field
from app.colour.lab import to_linear
from app.colour.nine_points import Points
from app.colour.tone import tones_of

STEP, COLUMNS, ROWS = 6, 30, 12
# L* 18, a* 5, b* 6; smoke ring L* 42, a* 32, b* 11; cured meat L* 50, a* 20, b* 9.
BARK_RGB, RING_RGB, CURED_RGB = (55, 40, 36), (158, 66, 83), (161, 100, 104)
PAPER = (240, 238, 232)


def striped(bark_px: float, ring_px: float) -> bytes:
    """Board for four cells, then bark, ring and cured meat to the right edge."""
    x = np.arange(STEP * COLUMNS) - 4 * STEP
    row = np.full((STEP * COLUMNS, 4), 255, np.uint8)
    row[:, :3] = PAPER
    row[x >= 0, :3] = BARK_RGB
    row[x >= bark_px, :3] = RING_RGB
    row[x >= bark_px + ring_px, :3] = CURED_RGB
    return np.broadcast_to(row, (STEP * ROWS, STEP * COLUMNS, 4)).tobytes()


def bark_of(rgba: bytes, cells: int) -> float:
    """Cells of bark a row, when so many were taken for it."""
    none = [0.0] * (COLUMNS * ROWS)
    field = Field(COLUMNS, ROWS, none, none, none, none)
    row = [BOARD] * 4 + [BARK] * cells + [GREY] * (COLUMNS - 4 - cells)
    classes = bytearray(row * ROWS)
    mask = bytearray([kind != BOARD for kind in classes])
    share = lean_under_bark(
        field, mask, classes, Points(rgba, STEP * COLUMNS, STEP * ROWS, COLUMNS, STEP)
    )
    bark = sum(1.0 - share.get(i, 0.0) for i, kind in enumerate(classes) if kind == BARK)
    return (bark + sum(1.0 - share.get(i, 1.0) for i, c in enumerate(classes) if c == GREY)) / ROWS


@pytest.mark.parametrize("cells", [2, 3])
def test_a_smoke_ring_taken_for_bark_is_given_back(cells: int) -> None:
    assert bark_of(striped(STEP, 2 * STEP), cells) == pytest.approx(1.0, abs=0.1)


@pytest.mark.parametrize("bark_px", [4, 6, 8, 10, 12])
def test_bark_ends_within_a_cell(bark_px: int) -> None:
    assert bark_of(striped(bark_px, STEP), 2) == pytest.approx(bark_px / STEP, abs=0.2)


def test_what_is_no_darker_than_lean_is_left_as_it_was() -> None:
    assert bark_of(striped(0, 0), 2) == pytest.approx(2.0)


def seen(row: npt.NDArray[np.uint8]) -> Field:
    """Tones of a picture whose rows are all alike."""
    first = [row[STEP * k, :3].tolist() for k in range(COLUMNS)]
    lights = [(to_linear(r), to_linear(g), to_linear(b)) for r, g, b in first]
    return Field(COLUMNS, ROWS, *tones_of(lights * ROWS, 0.0004))


def given_back(
    row: npt.NDArray[np.uint8], bark_from: int, lean_from: int
) -> tuple[bytearray, bytearray]:
    """Classes and mask after shade was given back, all cells between taken for bark."""
    rgba = np.broadcast_to(row, (STEP * ROWS, STEP * COLUMNS, 4)).tobytes()
    bark = [BARK] * (lean_from - bark_from)
    classes = bytearray(([BOARD] * bark_from + bark + [GREY] * (COLUMNS - lean_from)) * ROWS)
    mask = bytearray([kind != BOARD for kind in classes])
    points = Points(rgba, STEP * COLUMNS, STEP * ROWS, COLUMNS, STEP)
    give_back_shade(seen(row), mask, classes, points)
    return classes, mask


def dimmed(colour: tuple[int, int, int], part: float) -> list[int]:
    """A colour with so much of its light."""
    return [round(255 * (part * (level / 255) ** 2.2) ** (1 / 2.2)) for level in colour]


@pytest.mark.parametrize(("board", "given"), [((200, 160, 120), 1), ((70, 52, 44), 0)])
def test_the_boards_shade_is_given_back_where_the_board_is_lighter_than_bark(
    board: tuple[int, int, int], given: int
) -> None:
    """Two cells of bark and one of a board with seven tenths of its light were taken for bark."""
    row = np.full((STEP * COLUMNS, 4), 255, np.uint8)
    row[:, :3] = board
    row[5 * STEP : 6 * STEP, :3] = dimmed(board, 0.7)
    row[6 * STEP : 8 * STEP, :3] = BARK_RGB
    row[8 * STEP :, :3] = CURED_RGB
    classes, mask = given_back(row, 5, 8)
    assert classes.count(BARK) == (3 - given) * ROWS
    assert sum(mask) == (COLUMNS - 5 - given) * ROWS


@pytest.mark.parametrize(("board", "kept"), [((88, 92, 96), 2), ((104, 84, 70), 4)])
def test_deep_shade_is_given_back_by_its_colour_on_a_board_less_red_than_bark(
    board: tuple[int, int, int], kept: int
) -> None:
    """Two cells of bark, then four in which a slate has from four to seven tenths of its light; on
    brown wood the darker two of them may be bark."""
    row = np.full((STEP * COLUMNS, 4), 255, np.uint8)
    row[:, :3] = board
    for k, dim in enumerate((0.7, 0.6, 0.5, 0.4)):
        row[(8 + k) * STEP : (9 + k) * STEP, :3] = dimmed(board, dim)
    row[12 * STEP : 14 * STEP, :3] = BARK_RGB
    row[14 * STEP :, :3] = CURED_RGB
    classes, _ = given_back(row, 8, 14)
    assert classes.count(BARK) == kept * ROWS
