"""Whatever is in a picture, it is measured or refused with words, and never a fault."""

import numpy as np
import pytest

from app.colour.cure_line import measure, measure_face
from app.colour.white_point import Rgb


def picture(seed: int) -> tuple[bytes, int, int]:
    """Blots, bands, slopes and noise, from nearly nothing to everything blown out."""
    chance = np.random.default_rng(seed)
    h, w = (int(side) for side in chance.integers(30, 140, 2))
    y, x = np.mgrid[:h, :w] / max(h, w)
    seen = np.full((h, w, 3), chance.uniform(0, 255, 3))
    for _ in range(chance.integers(0, 7)):
        colour, (cx, cy) = chance.uniform(-40, 300, 3), chance.uniform(-0.1, 1.0, 2)
        across, along, turn = *chance.uniform(0.02, 0.6, 2), chance.uniform(0, 3.1)
        u = (x - cx) * np.cos(turn) + (y - cy) * np.sin(turn)
        v = (y - cy) * np.cos(turn) - (x - cx) * np.sin(turn)
        seen[(u / across) ** 2 + (v / along) ** 2 < 1] = colour
    seen += chance.uniform(-150, 150) * x[..., None] + chance.uniform(-150, 150) * y[..., None]
    seen += chance.normal(0, chance.choice((0, 2, 8, 30)), seen.shape)
    rgba = np.full((h, w, 4), 255, np.uint8)
    rgba[..., :3] = np.clip(seen, 0, 255)
    return rgba.tobytes(), w, h


@pytest.mark.parametrize("seed", range(120))
def test_any_picture_is_answered(seed: int) -> None:
    rgba, w, h = picture(seed)
    neutral: Rgb | None = None if seed % 3 else (200.0, 190.0, 170.0)
    face = measure_face(rgba, w, h, neutral_rgb=neutral)
    if face.known:
        assert sum(face.shares.values()) == pytest.approx(100.0)
    else:
        assert face.says
    line = measure(rgba, w, h, (1.0, h / 2), (w - 2.0, h / 2), neutral_rgb=neutral)
    if line.known:
        assert line.cured_percent is not None
        assert line.pale_percent is not None
        assert line.grey_percent is not None
        whole = line.cured_percent + line.pale_percent + line.grey_percent
        assert whole == pytest.approx(100.0)
        assert 0.0 <= line.left_edge < line.right_edge <= 1.0
    else:
        assert line.says
