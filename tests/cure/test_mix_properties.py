"""What must hold of every mix, whatever is asked."""

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from app.cure.mix import Mix, MixRequest, scale, work_out
from app.cure.request import Method

METHODS: tuple[Method, ...] = ("equilibrium", "cover", "injection", "dry")


def none_or(least: float, most: float) -> st.SearchStrategy[float]:
    """Nothing at all, or as much as a person would write."""
    return st.one_of(st.just(0.0), st.floats(least, most))


@st.composite
def requests(draw: st.DrawFn) -> MixRequest:
    method = draw(st.sampled_from(METHODS))
    meat = draw(st.floats(100, 20000))
    return MixRequest(
        meat,
        method=method,
        cut=draw(st.sampled_from(["brisket", "flat", "point", "round"])),
        water_g=meat * draw(st.floats(0.4, 4.0)),
        salt_percent=draw(none_or(0.01, 20.0 if method == "cover" else 6.0)),
        sugar_percent=draw(none_or(0.01, 5.0)),
        nitrite_ppm=draw(none_or(0.1, 200.0)),
        cure_nitrite_percent=draw(st.sampled_from([0.5, 0.9, 6.25, 10.0])),
        pump_percent=draw(st.floats(1.0, 20.0)),
        thickness_mm=draw(st.floats(20.0, 120.0)),
        days=draw(st.one_of(st.none(), st.floats(0.0, 30.0))),
        boiled_percent=draw(st.integers(0, 100)),
        ascorbate_ppm=draw(st.sampled_from([0.0, 550.0])),
    )


def total(mix: Mix, *kinds: str) -> float:
    return sum(one.grams for one in mix.ingredients if one.kind in kinds)


@given(requests())
def test_mass_is_conserved(request: MixRequest) -> None:
    mix = work_out(request)
    assert total(mix, "water", "ice") == pytest.approx(mix.water_g, abs=1e-6)
    if mix.brine is not None:
        into_pickle = total(mix, "water", "ice", "cure", "salt", "sugar", "ascorbate")
        assert into_pickle == pytest.approx(mix.brine.mass_g, rel=1e-9)
        assert mix.brine.pumped_g + mix.brine.cover_g == pytest.approx(mix.brine.mass_g)


@given(requests())
def test_no_way_of_counting_is_above_what_was_asked(request: MixRequest) -> None:
    nitrite = work_out(request).nitrite
    assert nitrite.ppm <= nitrite.asked_ppm * (1 + 1e-9)
    assert all(one.ppm <= nitrite.ppm * (1 + 1e-9) for one in nitrite.figures)
    assert sum(one.binds for one in nitrite.figures) == 1


@given(requests(), st.floats(0.2, 5.0))
def test_scaling_is_linear(request: MixRequest, times: float) -> None:
    one, other = work_out(request), work_out(scale(request, request.meat_g * times))
    assert [i.name for i in one.ingredients] == [i.name for i in other.ingredients]
    for before, after in zip(one.ingredients, other.ingredients, strict=True):
        assert after.grams == pytest.approx(before.grams * times, rel=1e-7, abs=1e-7)
    assert other.salt.at_rest_percent == pytest.approx(one.salt.at_rest_percent, rel=1e-9)


@given(requests(), st.floats(0.01, 1.0))
def test_more_salt_is_never_less_dense_nor_less_salty(request: MixRequest, more: float) -> None:
    saltier = evolve(request, salt_percent=(request.salt_percent or 0.0) + more)
    one, other = work_out(request), work_out(saltier)
    assert other.salt.at_rest_percent > one.salt.at_rest_percent
    if one.brine is not None and other.brine is not None:
        assert other.brine.density_kg_m3 > one.brine.density_kg_m3
        assert other.brine.freezing_c <= one.brine.freezing_c


@given(requests())
def test_a_range_rises_and_never_passes_rest(request: MixRequest) -> None:
    salt = work_out(request).salt
    assert salt.then_percent.low <= salt.then_percent.likely <= salt.then_percent.high
    assert salt.then_percent.high <= salt.at_rest_percent * (1 + 1e-9)
    assert salt.at_rest_water_percent >= salt.at_rest_percent * (1 - 1e-9)


@given(requests(), st.floats(0.1, 10.0))
def test_more_days_never_mean_less_salt(request: MixRequest, more: float) -> None:
    days = request.days or 1.0
    one = work_out(evolve(request, days=days)).salt.then_percent
    other = work_out(evolve(request, days=days + more)).salt.then_percent
    assert other.likely >= one.likely * (1 - 1e-9)


@given(requests())
def test_what_was_settled_works_out_the_same(request: MixRequest) -> None:
    mix = work_out(request)
    assert work_out(mix.request) == mix
