"""The bar: drawn slices of every sort, read within so many points of their truth.

The full score over any seeds: python -m tests.colour.scoring 20000 20250
"""

import numpy as np
import pytest

from app.colour.cure_line import measure, measure_face
from tests.colour.camera import Shot
from tests.colour.plain_slices import draw_plain
from tests.colour.scoring import Score, score_slices
from tests.colour.slices import a_line, draw


@pytest.fixture(scope="module")
def scores() -> tuple[Score, Score]:
    return score_slices(range(9000, 9050))


def test_the_grey_core_on_lines(scores: tuple[Score, Score]) -> None:
    lines, _ = scores
    assert lines.all >= 90
    assert lines.percent >= LINES_RIGHT, "\n".join((*lines.refused, *lines.wrong))


def test_the_grey_core_on_lines_drawn_another_way() -> None:
    lines, _ = score_slices(range(9000, 9025), drawing=draw_plain)
    assert lines.all >= 45
    assert lines.percent >= PLAIN_LINES_RIGHT, "\n".join((*lines.refused, *lines.wrong))


def test_the_shares_of_faces(scores: tuple[Score, Score]) -> None:
    _, faces = scores
    assert faces.all == 50
    assert faces.percent >= FACES_RIGHT, "\n".join((*faces.refused, *faces.wrong))


# What was reached over seeds never looked at, less what so small a sample may miss it by.
# The aim is 95 and 90.
# These drawings' cured meat is now and then as dull as what others call pale, and read as that.
LINES_RIGHT, FACES_RIGHT, PLAIN_LINES_RIGHT = 81.0, 72.0, 88.0


@pytest.mark.parametrize("stops", [6.0, -9.0])
def test_a_blown_out_or_black_photo_is_refused(stops: float) -> None:
    drawn = draw(9101, 400, Shot(stops=stops, noise=1.0))
    start, end = a_line(drawn, np.random.default_rng(1))
    line = measure(drawn.rgba, *drawn.size, start, end, drawn.neutral_rgb)
    face = measure_face(drawn.rgba, *drawn.size, drawn.neutral_rgb)
    assert line.grey_percent is None
    assert not face.known
    assert line.says
    assert face.says


def test_the_same_slice_reads_the_same_under_any_lamp() -> None:
    read = []
    for kelvin in (2700, 4000, 6500, 7500):
        drawn = draw(9102, 700, Shot(kelvin=kelvin, stops=-0.5, noise=1.5, quality=80))
        start, end = a_line(drawn, np.random.default_rng(2))
        found = measure(drawn.rgba, *drawn.size, start, end, drawn.neutral_rgb)
        assert found.grey_percent is not None
        read.append(found.grey_percent)
    assert max(read) - min(read) < 5
