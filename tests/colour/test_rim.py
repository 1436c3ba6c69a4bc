"""Bark on a board as dark as itself, and none where none is."""

import io

import numpy as np
import pytest
from PIL import Image

from app.colour.cure_line import measure_face
from tests.colour.plain_slices import draw_plain

Rgb = tuple[int, int, int]
SLATE = (52, 52, 54)


def oval(bark: Rgb | None, depth: float, board: Rgb = SLATE, shade: bool = False) -> bytes:
    """A cured oval with mottled bark to a depth [of its half], photographed as JPEG of 80."""
    random = np.random.default_rng(5)
    y, x = np.mgrid[:420, :640]
    within = np.hypot((x - 320) / 260, (y - 210) / 160)
    picture = np.full((420, 640, 3), board, float)
    if shade:
        soft = np.clip((1.2 - np.hypot((x - 332) / 260, (y - 222) / 160)) / 0.2, 0, 1)
        picture *= 1 - 0.4 * soft[..., None]
    if bark is not None:
        mottle = np.kron(random.normal(1, 0.15, (70, 107)), np.ones((6, 6)))[:420, :640, None]
        picture = np.where((within <= 1)[..., None], np.array(bark) * mottle, picture)
    picture[within <= 1 - depth] = (180, 92, 90)
    picture += random.normal(0, 3, picture.shape)
    out = io.BytesIO()
    Image.fromarray(np.clip(picture, 0, 255).astype(np.uint8)).save(out, "JPEG", quality=80)
    return Image.open(out).convert("RGBA").tobytes()


@pytest.mark.parametrize("bark", [(62, 46, 38), (40, 28, 24), (66, 50, 44)])
@pytest.mark.parametrize("depth", [0.05, 0.1])
def test_bark_as_dark_as_its_board_is_found(bark: Rgb, depth: float) -> None:
    found = measure_face(oval(bark, depth), 640, 420, (200, 200, 200))
    assert found.bark_percent == pytest.approx(100 * (1 - (1 - depth) ** 2), abs=2)


@pytest.mark.parametrize("shade", [False, True])
@pytest.mark.parametrize("board", [SLATE, (30, 30, 31), (74, 55, 42)])
def test_a_slice_without_bark_has_none_on_a_dark_board(board: Rgb, shade: bool) -> None:
    found = measure_face(oval(None, 0.0, board, shade), 640, 420, (200, 200, 200))
    assert found.bark_percent == pytest.approx(0, abs=2.5)


@pytest.mark.parametrize("board", [SLATE, (200, 160, 125), (150, 150, 152)])
def test_shade_beside_bark_is_board(board: Rgb) -> None:
    found = measure_face(oval((40, 28, 24), 0.08, board, shade=True), 640, 420, (200, 200, 200))
    assert found.bark_percent == pytest.approx(15.4, abs=2)


@pytest.mark.parametrize("seed", [7111, 7236])
def test_red_that_bled_into_the_bark_does_not_hide_it_on_a_black_board(seed: int) -> None:
    """1600 and 300 px, both dimmed by 1.5 stops; bark is 5 and 10 % of the slice."""
    drawn = draw_plain(seed)
    found = measure_face(drawn.rgba, *drawn.size, drawn.neutral_rgb)
    assert found.bark_percent == pytest.approx(drawn.face_truth()["bark"], abs=1.5)
