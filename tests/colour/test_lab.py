import random
from typing import Any

import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from app.colour import lab

# Sharma, Wu & Dalal, Color Res. Appl. 30 (2005) 21, table 1: all 34 pairs, read in a secondary
# copy (the test table of a colour management library that cites the paper), not in the paper.
PUBLISHED_PAIRS = [
    ((50.0, 2.6772, -79.7751), (50.0, 0.0, -82.7485), 2.0425),
    ((50.0, 3.1571, -77.2803), (50.0, 0.0, -82.7485), 2.8615),
    ((50.0, 2.8361, -74.02), (50.0, 0.0, -82.7485), 3.4412),
    ((50.0, -1.3802, -84.2814), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, -1.1848, -84.8006), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, -0.9009, -85.5211), (50.0, 0.0, -82.7485), 1.0),
    ((50.0, 0.0, 0.0), (50.0, -1.0, 2.0), 2.3669),
    ((50.0, -1.0, 2.0), (50.0, 0.0, 0.0), 2.3669),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0009), 7.1792),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.001), 7.1792),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0011), 7.2195),
    ((50.0, 2.49, -0.001), (50.0, -2.49, 0.0012), 7.2195),
    ((50.0, -0.001, 2.49), (50.0, 0.0009, -2.49), 4.8045),
    ((50.0, -0.001, 2.49), (50.0, 0.001, -2.49), 4.8045),
    ((50.0, -0.001, 2.49), (50.0, 0.0011, -2.49), 4.7461),
    ((50.0, 2.5, 0.0), (50.0, 0.0, -2.5), 4.3065),
    ((50.0, 2.5, 0.0), (73.0, 25.0, -18.0), 27.1492),
    ((50.0, 2.5, 0.0), (61.0, -5.0, 29.0), 22.8977),
    ((50.0, 2.5, 0.0), (56.0, -27.0, -3.0), 31.903),
    ((50.0, 2.5, 0.0), (58.0, 24.0, 15.0), 19.4535),
    ((50.0, 2.5, 0.0), (50.0, 3.1736, 0.5854), 1.0),
    ((50.0, 2.5, 0.0), (50.0, 3.2972, 0.0), 1.0),
    ((50.0, 2.5, 0.0), (50.0, 1.8634, 0.5757), 1.0),
    ((50.0, 2.5, 0.0), (50.0, 3.2592, 0.335), 1.0),
    ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
    ((63.0109, -31.0961, -5.8663), (62.8187, -29.7946, -4.0864), 1.263),
    ((61.2901, 3.7196, -5.3901), (61.4292, 2.248, -4.962), 1.8731),
    ((35.0831, -44.1164, 3.7933), (35.0232, -40.0716, 1.5901), 1.8645),
    ((22.7233, 20.0904, -46.694), (23.0331, 14.973, -42.5619), 2.0373),
    ((36.4612, 47.858, 18.3852), (36.2715, 50.5065, 21.2231), 1.4146),
    ((90.8027, -2.0831, 1.441), (91.1528, -1.6435, 0.0447), 1.4441),
    ((90.9257, -0.5406, -0.9208), (88.6381, -0.8985, -0.7239), 1.5381),
    ((6.7747, -0.2908, -2.4247), (5.8714, -0.0985, -2.2286), 0.6377),
    ((2.0776, 0.0795, -1.135), (0.9033, -0.0636, -0.5514), 0.9082),
]

levels = st.integers(0, 255)


@pytest.mark.parametrize(("first", "second", "published"), PUBLISHED_PAIRS)
def test_published_pair(first: lab.Triple, second: lab.Triple, published: float) -> None:
    assert lab.delta_e_2000(first, second) == pytest.approx(published, abs=1e-4)
    assert lab.delta_e_2000(second, first) == pytest.approx(published, abs=1e-4)


def test_every_published_pair_is_here() -> None:
    assert len(PUBLISHED_PAIRS) == 34


def test_agrees_with_a_general_colour_library() -> None:
    chance = random.Random(5)
    for _ in range(300):
        rgb = [[chance.randrange(256) for _ in range(3)] for _ in range(2)]
        theirs: list[Any] = [
            Color("srgb", [c / 255 for c in colour]).convert("lab-d65") for colour in rgb
        ]
        ours = [lab.from_srgb(*colour) for colour in rgb]
        for mine, other in zip(ours, theirs, strict=True):
            assert mine == pytest.approx(tuple(other.coords()), abs=1e-4)
        # The library's own difference, fed the same L*a*b*, so that only the formula is compared.
        first, second = (Color("lab-d65", list(mine)) for mine in ours)
        difference = first.delta_e(second, method="2000", space="lab-d65")
        assert lab.delta_e_2000(*ours) == pytest.approx(difference, abs=1e-6)


@given(levels, levels, levels)
def test_reading_back_gives_the_same_colour(r: int, g: int, b: int) -> None:
    assert lab.to_srgb(*lab.from_srgb(r, g, b)) == pytest.approx((r, g, b), abs=1e-6)


@given(levels)
def test_greys_have_no_colour(level: int) -> None:
    lightness, a, b = lab.from_srgb(level, level, level)
    assert 0 <= lightness <= 100.0000001
    assert abs(a) < 1e-9
    assert abs(b) < 1e-9


@pytest.mark.parametrize("bad", [-1, 256, float("nan"), float("inf")])
def test_refuses_what_is_no_channel(bad: float) -> None:
    with pytest.raises(ValueError, match="0 to 255"):
        lab.from_srgb(10, bad, 10)


def test_refuses_differences_of_nothing() -> None:
    with pytest.raises(ValueError, match="finite"):
        lab.delta_e_2000((50, 0, float("nan")), (50, 0, 0))
