"""Calibration: known diffusivities recovered from slices made with noise, and bad ones borne."""

from math import inf, log
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import t as student

from app.transport.calibrate import (
    CuredSlice,
    calibrate,
    grey_percent_from_depth,
    read_slice,
    t4_below,
)
from app.transport.days import grey_core
from app.transport.diffusion import Piece
from app.transport.diffusivity import NITRITE, Diffusivity


def made(
    true: float, chance: Random, count: int, reading: float = 4.0, scatter: float = 0.2
) -> list[CuredSlice]:
    """Slices as a cook with meat of this diffusivity would measure them."""
    slices = []
    for _ in range(count):
        piece = Piece(chance.uniform(35.0, 90.0), chance.choice([1, 2]))
        ppm, ratio = chance.choice([(150.0, 1.0), (500.0, 1.5), (120.0, inf)])
        days, warmth = chance.uniform(3.0, 9.0), chance.uniform(1.0, 6.0)
        own = true * 2.718281828 ** chance.gauss(0.0, scatter)
        grey = grey_core(piece, days, ppm, ratio, warmth, Diffusivity(own, own, own))
        seen = grey.grey_percent.likely
        if seen > 0.0:
            seen = min(max(seen + chance.gauss(0.0, reading), 0.0), 100.0)
        slices.append(CuredSlice(piece, days, seen, ppm, ratio, warmth))
    return slices


@pytest.mark.parametrize("true", [1.1e-10, 2.0e-10, 3.3e-10])
def test_recovers_a_known_diffusivity_from_noisy_slices(true: float) -> None:
    chance = Random(20270306)
    held = 0
    offs = []
    for _ in range(25):
        found = calibrate(made(true, chance, 8)).diffusivity
        held += found.low_m2_s <= true <= found.high_m2_s
        offs.append(log(found.likely_m2_s / true))
        assert found.slices == 8
    assert held >= 20
    assert abs(sum(offs) / len(offs)) < 0.12
    assert max(map(abs, offs)) < 0.45


def test_without_noise_a_slice_gives_back_its_diffusivity() -> None:
    for grey_ppm, ratio in ((150.0, 1.0), (600.0, inf)):
        own = Diffusivity(1.7e-10, 1.7e-10, 1.7e-10)
        core = grey_core(Piece(80.0), 6.0, grey_ppm, ratio, 2.0, own)
        seen = CuredSlice(Piece(80.0), 6.0, core.grey_percent.likely, grey_ppm, ratio, 2.0)
        assert read_slice(seen).diffusivity_m2_s == pytest.approx(1.7e-10, rel=1e-4)


def test_one_bad_slice_spoils_nothing_and_is_named() -> None:
    chance = Random(7)
    good = made(1.6e-10, chance, 6)
    bad = CuredSlice(Piece(40.0), 9.0, 90.0, 150.0, 1.0)
    before = calibrate(good).diffusivity
    after = calibrate([*good, bad])
    assert abs(log(after.diffusivity.likely_m2_s / before.likely_m2_s)) < 0.2
    assert [r.agrees for r in after.readings] == [True] * 6 + [False]
    assert "lies apart" in after.says
    assert "apart" in dict(after.working.inputs)["Slice 7"]


def test_more_slices_narrow_the_range() -> None:
    seen = CuredSlice(Piece(60.0), 7.0, 20.0, 150.0, 1.0)
    widths = []
    for count in (1, 3, 9):
        d = calibrate([seen] * count).diffusivity
        widths.append(d.high_m2_s / d.low_m2_s)
    assert NITRITE.high_m2_s / NITRITE.low_m2_s > widths[0] > widths[1] > widths[2]


def test_with_no_slice_the_general_range_comes_back() -> None:
    none = calibrate([])
    assert none.diffusivity == NITRITE
    assert none.diffusivity.slices == 0
    assert "general range" in none.says


def test_a_slice_cured_through_only_bounds_from_below() -> None:
    through = CuredSlice(Piece(60.0), 4.0, 0.0, 150.0, 1.0)
    assert read_slice(through).bound == "at least"
    assert calibrate([through]).diffusivity.likely_m2_s > NITRITE.likely_m2_s
    long_after = CuredSlice(Piece(30.0), 30.0, 0.0, 150.0, 1.0)
    late = calibrate([long_after]).diffusivity
    assert late.likely_m2_s == pytest.approx(NITRITE.likely_m2_s, rel=0.02)


def test_a_slice_all_grey_only_bounds_from_above() -> None:
    raw = CuredSlice(Piece(60.0), 4.0, 100.0, 150.0, 1.0)
    assert read_slice(raw).bound == "at most"
    assert calibrate([raw]).diffusivity.likely_m2_s < NITRITE.likely_m2_s


@given(st.floats(5.0, 90.0), st.floats(5.0, 90.0), st.floats(20.0, 500.0))
def test_more_grey_means_slower_meat(one: float, other: float, ppm: float) -> None:
    less, more = sorted((one, other))
    quick, slow = (read_slice(CuredSlice(Piece(60.0), 6.0, g, ppm, 1.0)) for g in (less, more))
    assert slow.diffusivity_m2_s <= quick.diffusivity_m2_s


def test_depth_of_the_rim_is_grey_of_the_rest() -> None:
    assert grey_percent_from_depth(Piece(40.0, 1), 30.0) == 25.0
    with pytest.raises(ValueError, match="cured depth"):
        grey_percent_from_depth(Piece(40.0), 30.0)


@given(st.floats(-50.0, 50.0))
def test_students_t_agrees_with_scipy(x: float) -> None:
    assert t4_below(x) == pytest.approx(student.cdf(x, 4), abs=1e-9)


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"days": 0.0}, "days"),
        ({"grey_percent": 101.0}, "grey part"),
        ({"grey_percent": float("nan")}, "grey part"),
        ({"ingoing_ppm": 10.0}, "never turns meat pink"),
        ({"reading_percent": 0.0}, "error of the reading"),
    ],
)
def test_impossible_slices_are_refused(change: dict[str, float], word: str) -> None:
    given_ = {"days": 5.0, "grey_percent": 20.0, "ingoing_ppm": 150.0, **change}
    with pytest.raises(ValueError, match=word):
        CuredSlice(Piece(50.0), **given_)
