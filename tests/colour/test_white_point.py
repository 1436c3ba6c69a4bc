import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.colour import lab, white_point

channel = st.integers(60, 250)


@given(channel, channel, channel)
def test_a_neutral_patch_becomes_neutral(r: int, g: int, b: int) -> None:
    white = white_point.from_neutral((r, g, b))
    if not white.known:
        return
    _, a_star, b_star = white_point.adapted_lab(white.neutral, white)
    assert abs(a_star) < 1e-6
    assert abs(b_star) < 1e-6


def test_daylight_is_left_as_it_is() -> None:
    white = white_point.from_neutral((180, 180, 180))
    light = (0.3, 0.2, 0.1)
    assert white_point.adapted_lab(light, white) == pytest.approx(
        lab.lab_from_xyz(*lab.xyz_from_linear(*light)), abs=1e-9
    )


def test_bradford_agrees_with_the_published_matrix_from_a_to_d65() -> None:
    # Illuminant A to D65 by Bradford (Lindbloom's table, from memory): the first row is
    # 0.8446965, -0.1179225, 0.3948108.
    a_white = (1.09850, 1.0, 0.35585)
    x, _, _ = white_point.bradford((1.0, 0.0, 0.0), a_white)
    assert x == pytest.approx(0.8446965, abs=2e-3)
    x, _, _ = white_point.bradford((0.0, 0.0, 1.0), a_white)
    assert x == pytest.approx(0.3948108, abs=2e-3)


@pytest.mark.parametrize(
    ("patch", "trouble"),
    [
        ((255, 255, 255), "clipped"),
        ((12, 12, 12), "too dark"),
        ((60, 200, 60), "coloured"),
        ((60, 70, 200), "coloured"),
    ],
)
def test_an_unfit_patch_says_why(patch: white_point.Rgb, trouble: str) -> None:
    white = white_point.from_neutral(patch)
    assert white.trouble == trouble
    assert white.gains == (1.0, 1.0, 1.0)
    assert white.says


def test_a_lamp_whose_red_is_blown_out_is_reckoned_and_unsure() -> None:
    # A black body at 3200 K relative to daylight: linear 1, 0.560, 0.200 (computed, Planck).
    lamp = (1.0, 0.560, 0.200)
    red, green, blue = (lab.from_linear(0.8 * c) for c in lamp)
    whole = white_point.from_neutral((red, green, blue))
    red, green, blue = (lab.from_linear(1.2 * c) for c in lamp)
    cut = white_point.from_neutral((red, green, blue))
    assert red == 255
    assert whole.sure
    assert not cut.sure
    assert cut.gains[0] == pytest.approx(whole.gains[0], rel=0.03)


def test_two_lamps_in_one_photo_are_noticed() -> None:
    assert white_point.mixed((200, 200, 200), (190, 160, 110))
    assert not white_point.mixed((200, 200, 200), (90, 90, 91))


@pytest.mark.parametrize("bad", [(1, 2), (1, 2, 300), (1, float("nan"), 2)])
def test_refuses_what_is_no_colour(bad: white_point.Rgb) -> None:
    with pytest.raises(ValueError, match="0 to 255"):
        white_point.from_neutral(bad)


def test_a_patch_with_its_blue_blown_out_is_reckoned() -> None:
    white = white_point.from_neutral((240, 242, 255))
    assert white.known
    assert not white.sure
    assert white.neutral[2] >= 1.0
