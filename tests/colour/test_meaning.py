"""What one light can be, under lamps drawn here from Planck's law."""

import numpy as np
import pytest

from app.colour.meaning import kind_under_any_lamp
from tests.colour.camera import Shot, decode

GREY, CURED = (141, 122, 108), (186, 108, 104)
Light = tuple[float, float, float]


def under(kelvin: float, colour: tuple[int, int, int]) -> Light:
    red, green, blue = Shot(kelvin=kelvin, stops=-1.0).lit(np.array([decode(np.array(colour))]))[0]
    return float(red), float(green), float(blue)


@pytest.mark.parametrize("kelvin", [2700, 3300, 4000, 5000, 6500, 7500])
def test_one_tone_is_told_under_lamps_without_a_white(kelvin: float) -> None:
    assert kind_under_any_lamp(under(kelvin, GREY)) in ("grey", None)
    assert kind_under_any_lamp(under(kelvin, CURED)) in ("cured", None)
    assert kind_under_any_lamp(under(6500, GREY)) == "grey"
    assert kind_under_any_lamp(under(6500, CURED)) == "cured"


def test_what_has_no_colour_is_no_meat() -> None:
    assert kind_under_any_lamp((0.2, 0.2, 0.2)) == "not meat"
