"""Shares of two lights in their mixture, by its tone."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.colour.lab import Triple
from app.colour.mixture import mixture
from app.colour.tone import tone

LIGHT_GREY: Triple = (0.40, 0.30, 0.24)
CURED: Triple = (0.42, 0.10, 0.09)


def mixed(dull: Triple, red: Triple, share: float) -> Triple:
    r, g, b = ((1 - share) * a + share * c for a, c in zip(dull, red, strict=True))
    return r, g, b


@given(st.floats(0.0, 1.0), st.floats(0.4, 2.5))
def test_the_share_in_a_mixture_is_read_back(share: float, lighter: float) -> None:
    grey = (0.25 * lighter, 0.18 * lighter, 0.14 * lighter)
    first, last = tone(grey, 0.0).s, tone(CURED, 0.0).s
    way = (tone(mixed(grey, CURED, share), 0.0).s - first) / (last - first)
    assert mixture(grey, CURED).of_light(way) == pytest.approx(share, abs=0.01)


def test_equal_parts_look_nearer_to_the_lighter() -> None:
    by_light_grey = mixture(LIGHT_GREY, CURED)
    assert by_light_grey.of_light(0.4) > 0.5 > by_light_grey.share(0.4) > 0.4
    dark_grey = (0.1, 0.075, 0.06)
    assert mixture(dark_grey, CURED).of_light(0.5) < 0.5


def test_beyond_the_two_lights_nothing_is_bent() -> None:
    of_both = mixture(LIGHT_GREY, CURED)
    assert [of_both.share(way) for way in (-0.3, 0.0, 1.0, 1.4)] == [-0.3, 0.0, 1.0, 1.4]


def test_lights_without_a_rise_of_tone_are_mixed_evenly() -> None:
    for other in (CURED, (0.05, 0.3, 0.3)):
        even = mixture(CURED, other)
        shares = [even.share(k / 10) for k in range(11)]
        assert all(b > a for a, b in pairwise(shares))
        assert shares[5] == pytest.approx(0.5, abs=0.01)
