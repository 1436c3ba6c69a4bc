"""Crank's series against the science sheet, against each other where they meet, and in form."""

from itertools import pairwise
from math import inf, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.transport import crank

# Values of the science sheet (C): Crank, The Mathematics of Diffusion, 2nd ed. (1975).
FO = (0.01, 0.05, 0.1, 0.2, 0.3, 0.5, 1.0, 2.0)
UPTAKE = {
    inf: (0.1128, 0.2523, 0.3568, 0.5041, 0.6132, 0.7640, 0.9313, 0.9942),
    4.0: (0.1380, 0.3004, 0.4165, 0.5726, 0.6823, 0.8237, 0.9595, 0.9979),
    1.0: (0.2071, 0.4192, 0.5528, 0.7116, 0.8096, 0.9165, 0.9893, 0.9998),
}
MIDDLE = (0.0031, 0.0507, 0.2277, 0.3932, 0.6292, 0.8920, 0.9908)
ROOTS = {1.0: (2.0288, 4.9132, 7.9787), 4.0: (1.7155, 4.7648, 7.8857)}

alphas = st.floats(1e-3, 1e7) | st.just(inf)


@pytest.mark.parametrize("alpha", UPTAKE)
def test_uptake_gives_the_sheets_table(alpha: float) -> None:
    assert [round(crank.uptake(fo, alpha), 4) for fo in FO] == list(UPTAKE[alpha])


def test_middle_gives_the_sheets_row() -> None:
    assert tuple(round(crank.concentration(fo), 4) for fo in FO[1:]) == MIDDLE


@pytest.mark.parametrize("alpha", ROOTS)
def test_roots_give_the_sheets_values(alpha: float) -> None:
    assert tuple(round(q, 4) for q, _, _ in crank._terms(alpha)[:3]) == ROOTS[alpha]


@given(st.floats(0.01, 100.0))
def test_roots_solve_their_equation(alpha: float) -> None:
    for q, _, _ in crank._terms(alpha):
        assert abs(tan(q) + alpha * q) <= 1e-11 * (1.0 + tan(q) ** 2)


@given(alphas, st.floats(0.0, 1.0))
def test_early_and_late_form_meet(alpha: float, place: float) -> None:
    before, after = crank._MEET * (1 - 1e-9), crank._MEET
    assert crank.uptake(before, alpha) == pytest.approx(crank.uptake(after, alpha), abs=1e-8)
    early = crank.concentration(before, alpha, place)
    late = crank.concentration(after, alpha, place)
    assert early == pytest.approx(late, rel=1e-7, abs=1e-8)


@given(st.floats(0.0, 5.0), st.floats(0.0, 5.0), alphas)
def test_more_time_is_never_less_cure(one: float, other: float, alpha: float) -> None:
    early, late = sorted((one, other))
    assert crank.uptake(early, alpha) <= crank.uptake(late, alpha) + 1e-12
    assert crank.concentration(early, alpha) <= crank.concentration(late, alpha) + 1e-12


@given(st.floats(1e-6, 5.0), alphas)
def test_concentration_falls_from_face_to_middle(fo: float, alpha: float) -> None:
    values = [crank.concentration(fo, alpha, place / 20) for place in range(21)]
    assert all(a <= b + 1e-9 * max(values) for a, b in pairwise(values))


@given(st.floats(1e-4, 3.0), st.floats(1e-2, 1e3))
def test_what_the_bath_loses_the_meat_has(fo: float, alpha: float) -> None:
    """The face is at the bath's concentration, so bath and uptake must balance."""
    end = alpha / (1.0 + alpha)
    bath = crank.concentration(fo, alpha, 1.0) * end
    assert alpha * (1.0 - bath) == pytest.approx(crank.uptake(fo, alpha) * end, abs=1e-8 * alpha)


@pytest.mark.parametrize(
    ("fo", "alpha", "place"),
    [
        (-0.1, 1.0, 0.0),
        (float("nan"), 1.0, 0.0),
        (inf, 1.0, 0.0),
        (0.1, 0.0, 0.0),
        (0.1, -1.0, 0.0),
        (0.1, float("nan"), 0.0),
        (0.1, 1.0, 1.5),
        (0.1, 1.0, -0.1),
    ],
)
def test_impossible_numbers_are_refused(fo: float, alpha: float, place: float) -> None:
    with pytest.raises(ValueError, match=r"must be|goes from"):
        crank.concentration(fo, alpha, place)
