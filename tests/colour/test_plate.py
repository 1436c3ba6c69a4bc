"""A plate is not part of the slice, nor is a slice of one tone a plate under its own fat."""

import pytest

from app.colour.cure_line import measure_face
from tests.colour.plain_slices import draw_plain


@pytest.mark.parametrize("seed", [7000, 7034, 7276, 7285])
def test_a_slice_of_one_tone_is_no_plate(seed: int) -> None:
    """Grey and cured throughout, with fat and without, on dark, white and black boards."""
    drawn = draw_plain(seed)
    found, truth = measure_face(drawn.rgba, *drawn.size, drawn.neutral_rgb), drawn.face_truth()
    for name, share in found.shares.items():
        assert share == pytest.approx(truth[name], abs=2)
    assert found.known
