import numpy as np
import pytest

from app.colour.plateaus import plateaus

Tones = dict[int, tuple[float, float]]


def crowd(*of: tuple[int, float, float], spread: float = 0.02) -> Tones:
    """So many cells around each cure tone and log light."""
    rng = np.random.default_rng(1)
    found: Tones = {}
    for many, s, light in of:
        for _ in range(many):
            found[len(found)] = (s + rng.normal(0, spread), light + rng.normal(0, spread))
    return found


def test_each_tone_is_found_with_its_share() -> None:
    found = plateaus(crowd((500, 0.2, 0.0), (300, 1.1, 0.05), (200, 0.1, 1.2)))
    assert [round(one.share, 2) for one in found] == [0.2, 0.5, 0.3]
    assert [one.s for one in found] == pytest.approx([0.1, 0.2, 1.1], abs=0.02)
    assert found[0].light == pytest.approx(1.2, abs=0.05)


def test_grain_of_one_tone_makes_no_second() -> None:
    assert len(plateaus(crowd((400, 0.3, -0.15), (400, 0.31, 0.15), spread=0.04))) == 1


def test_noise_wider_than_a_step_makes_no_second() -> None:
    assert len(plateaus(crowd((900, 0.5, 0.0), spread=0.08), noise=0.08)) == 1


def test_a_few_cells_are_no_tone() -> None:
    assert len(plateaus(crowd((1000, 0.2, 0.0), (5, 1.0, 0.0)))) == 1


def test_no_cells_have_no_tones() -> None:
    assert plateaus({}) == []
