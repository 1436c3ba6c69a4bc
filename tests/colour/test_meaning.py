"""What the tones of a line mean, under lamps drawn here from Planck's law."""

import numpy as np
import pytest

from app.colour.meaning import ends_of, kind_under_any_lamp
from app.colour.white_point import from_light
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


@pytest.mark.parametrize("kelvin", [2700, 4000, 6500])
def test_two_tones_under_a_measured_white(kelvin: float) -> None:
    white = from_light(under(kelvin, (200, 200, 200)))
    r, g, b = white.gains
    dull, vivid = under(kelvin, GREY), under(kelvin, CURED)
    ends = ends_of(
        0.23,
        1.15,
        0.06,
        0.3,
        (dull[0] * r, dull[1] * g, dull[2] * b),
        (vivid[0] * r, vivid[1] * g, vivid[2] * b),
        white,
    )
    assert ends is not None
    assert ends.two
    assert ends.kind == "grey"


def test_two_reds_without_a_white_are_no_grey_core() -> None:
    ring, cured = (180, 80, 84), CURED
    ends = ends_of(1.1, 1.5, 0.06, 0.5, under(5500, cured), under(5500, ring), None)
    assert ends is not None
    assert ends.kind == "cured"


def test_one_tone_between_grey_and_cured_is_not_guessed() -> None:
    between = under(3000, (160, 117, 106))
    assert ends_of(0.9, 0.9, 0.06, 1.0, between, between, None) is None
