from math import cos, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.colour.bark import compare, in_words, measure_bark, measure_drawn_bark, trend
from app.colour.lab import from_srgb
from tests.colour.flat import stripes

BARK = (58, 36, 28)


def test_a_flat_patch_is_its_own_colour() -> None:
    rgba, w, h = stripes([(BARK, 100)], 100)
    found = measure_bark(rgba, w, h, (50, 50), 30, (200, 200, 200))
    assert found is not None
    assert found.lab == pytest.approx(from_srgb(*BARK), abs=0.05)
    assert found.swatch_rgb == BARK
    assert found.confidence == 1.0


def test_glare_and_gaps_are_left_out() -> None:
    rgba, w, h = stripes(
        [
            (BARK, 34),
            ((255, 255, 255), 6),
            (BARK, 20),
            ((2, 2, 2), 6),
            ((150, 140, 135), 4),
            (BARK, 30),
        ],
        100,
    )
    found = measure_bark(rgba, w, h, (50, 50), 45)
    assert found is not None
    assert found.lab == pytest.approx(from_srgb(*BARK), abs=0.05)
    assert found.used_percent < 90


def test_a_warm_lamp_is_taken_out() -> None:
    from tests.colour.camera import Shot, decode, encode

    lamp = Shot(kelvin=3000, cast="cones")
    lit = encode(lamp.lit(decode([BARK, (150, 150, 150)]))).round().astype(int)
    rgba, w, h = stripes([(tuple(int(c) for c in lit[0]), 60)], 60)  # type: ignore[list-item]
    found = measure_bark(rgba, w, h, (30, 30), 20, tuple(int(c) for c in lit[1]))  # type: ignore[arg-type]
    assert found is not None
    assert found.lab[1:] == pytest.approx(from_srgb(*BARK)[1:], abs=1.5)


@pytest.mark.parametrize("colour", [(0, 0, 0), (255, 255, 255)])
def test_black_and_blown_out_patches_have_no_colour(colour: tuple[int, int, int]) -> None:
    rgba, w, h = stripes([(colour, 60)], 60)
    assert measure_bark(rgba, w, h, (30, 30), 20) is None


def test_without_a_white_patch_it_says_so() -> None:
    rgba, w, h = stripes([(BARK, 60)], 60)
    found = measure_bark(rgba, w, h, (30, 30), 20)
    assert found is not None
    assert found.confidence <= 0.5
    assert "white" in found.says


@given(st.floats(0, 100), st.floats(-40, 60), st.floats(-40, 60))
def test_every_colour_has_words(lightness: float, a: float, b: float) -> None:
    assert in_words((lightness, a, b))


@pytest.mark.parametrize(
    ("now", "sentence"),
    [
        ((20.0, 12.0, 8.0), "Darker and redder than your best at its wrap."),
        ((45.0, 8.0, 8.0), "Much lighter than your best at its wrap."),
        ((28.2, 8.1, 8.0), "The same to the eye as your best at its wrap."),
        ((20.0, 12.0, 14.0), "Darker, redder and yellower than your best at its wrap."),
        ((28.0, 4.0, 8.0), "Less red than your best at its wrap."),
    ],
)
def test_bark_is_compared_in_words(now: tuple[float, float, float], sentence: str) -> None:
    assert compare(now, (28.0, 8.0, 8.0), "your best at its wrap").sentence == sentence


def test_a_smoke_that_darkens() -> None:
    # One photo with a reflection in it does not turn the line.
    found = trend([(k, (50.0 - 4 * k, 12.0, 14.0)) for k in range(6)] + [(3.5, (70.0, 8.0, 9.0))])
    assert found is not None
    assert found.lightness_per_h == pytest.approx(-4, abs=0.5)
    assert "darker" in found.sentence


def test_one_photo_is_no_trend() -> None:
    assert trend([(1.0, (30.0, 10.0, 10.0))]) is None
    assert trend([(1.0, (30.0, 10.0, 10.0)), (1.2, (20.0, 10.0, 10.0))]) is None


@pytest.mark.parametrize(("centre", "radius"), [((500, 5), 5), ((5, 5), 0), ((5, 5), float("nan"))])
def test_refuses_a_patch_that_is_none(centre: tuple[float, float], radius: float) -> None:
    rgba, w, h = stripes([(BARK, 60)], 60)
    with pytest.raises(ValueError, match="patch"):
        measure_bark(rgba, w, h, centre, radius)


def test_a_drawn_patch_reads_what_lies_inside_it_alone() -> None:
    rgba, w, h = stripes([((200, 180, 160), 30), (BARK, 40), ((200, 180, 160), 30)], 100)
    inside = ((32.0, 10.0), (68.0, 10.0), (60.0, 90.0), (40.0, 90.0))
    found = measure_drawn_bark(rgba, w, h, inside, (200, 200, 200))
    assert found is not None
    assert found.lab == pytest.approx(from_srgb(*BARK), abs=0.05)
    assert found.used_percent == 100.0


def test_a_drawn_ring_reads_as_the_round_patch_it_is() -> None:
    rgba, w, h = stripes([(BARK, 50), ((90, 60, 50), 50)], 100)
    ring = tuple((50 + 30 * cos(k * pi / 40), 50 + 30 * sin(k * pi / 40)) for k in range(80))
    drawn, tapped = measure_drawn_bark(rgba, w, h, ring), measure_bark(rgba, w, h, (50, 50), 30)
    assert drawn is not None
    assert tapped is not None
    assert drawn.lab == pytest.approx(tapped.lab, abs=0.4)


def test_a_drawn_patch_may_run_out_of_the_picture_and_cross_itself() -> None:
    rgba, w, h = stripes([(BARK, 60)], 60)
    bow = ((-20.0, -20.0), (80.0, 80.0), (80.0, -20.0), (-20.0, 80.0))
    found = measure_drawn_bark(rgba, w, h, bow)
    assert found is not None
    assert found.swatch_rgb == BARK


@pytest.mark.parametrize(
    ("outline", "why"),
    [
        ((), "three points"),
        (((1.0, 1.0), (5.0, 5.0)), "three points"),
        (((1.0, 1.0), (5.0, 5.0), (float("nan"), 3.0)), "finite"),
        (((1.0, 1.0), (1.1, 1.0), (1.1, 1.1)), "no pixel"),
        (((-9.0, -9.0), (-1.0, -9.0), (-1.0, -1.0)), "no pixel"),
    ],
)
def test_what_is_no_drawn_patch_is_refused(
    outline: tuple[tuple[float, float], ...], why: str
) -> None:
    rgba, w, h = stripes([(BARK, 60)], 60)
    with pytest.raises(ValueError, match=why):
        measure_drawn_bark(rgba, w, h, outline)
