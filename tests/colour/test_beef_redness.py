"""How usual sets of redness are: normal densities, against those of the standard library."""

from math import exp, log
from statistics import NormalDist

import pytest

from app.colour.beef_redness import lean_likelihood, log_normal, ring_likelihood


@pytest.mark.parametrize("value", [-4.0, 0.0, 7.5])
def test_the_normal_density_is_the_standard_librarys(value: float) -> None:
    assert log_normal(value, (1.5, 2.5)) == pytest.approx(log(NormalDist(1.5, 2.5).pdf(value)))


def test_densities_of_any_set_of_tones_are_densities() -> None:
    steps = [-20.0 + 0.5 * k for k in range(160)]
    for alone in (
        lambda q: lean_likelihood(q, None, None),
        lambda q: lean_likelihood(None, q, None),
        lambda q: lean_likelihood(None, None, q),
    ):
        assert sum(0.5 * exp(alone(q)) for q in steps) == pytest.approx(1.0, abs=1e-3)
    both = sum(0.25 * exp(lean_likelihood(g, None, c)) for g in steps for c in steps)
    assert both == pytest.approx(1.0, abs=1e-3)
    three = sum(0.5 * exp(lean_likelihood(1.0, p, 19.0)) for p in steps)
    assert three == pytest.approx(exp(lean_likelihood(1.0, None, 19.0)), rel=1e-3)


def test_pale_lies_midway_whatever_the_ends_are() -> None:
    for grey, cured in ((-2.0, 14.0), (1.0, 19.0), (4.0, 28.0)):
        way = [grey + 0.05 * k * (cured - grey) for k in range(1, 20)]
        best = max(way, key=lambda pale: lean_likelihood(grey, pale, cured))
        assert (best - grey) / (cured - grey) == pytest.approx(0.45, abs=0.06)


def test_a_ring_is_redder_than_what_is_cured_below_it() -> None:
    assert ring_likelihood(26.0, 18.0) > ring_likelihood(18.0, 18.0)
    assert ring_likelihood(26.0, None) > ring_likelihood(14.0, None)
