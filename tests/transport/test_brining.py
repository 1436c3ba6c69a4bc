"""Weights to baths and back, injected starts, and pictures of a slice."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.transport import brining, injection, picture
from app.transport.diffusion import Bath, Piece, Profile, Solute, Stage, simulate
from app.transport.outlook import outlook

meats = st.floats(500.0, 8000.0)


@given(meats, st.floats(0.5, 3.0), st.floats(0.01, 0.3), st.floats(0.5, 0.8))
def test_at_rest_everything_put_in_is_still_there(
    meat: float, waters: float, strength: float, meat_water: float
) -> None:
    water = waters * meat
    bath = brining.cover_bath(meat, water, strength * water, 1.0, meat_water)
    rest = brining.at_rest(bath, "salt")
    assert rest * (water + meat * meat_water) == pytest.approx(strength * water)


@given(meats, st.floats(0.01, 0.05))
def test_a_dry_cure_ends_with_all_its_salt_in_the_meats_water(meat: float, part: float) -> None:
    bath = brining.dry_bath(meat, part * meat, 0.15)
    assert brining.at_rest(bath, "salt") == pytest.approx(part / brining.MEAT_WATER)
    assert bath.concentrations["salt"] == pytest.approx(brining.SATURATED_G_PER_G)


def test_an_endless_bath_stays_as_it_is() -> None:
    assert brining.at_rest(Bath(inf, {"salt": 0.1}), "salt") == 0.1
    assert brining.at_rest(Bath(inf), "salt") == 0.0


@given(st.floats(0.0, 20.0), st.floats(0.4, 0.8))
def test_salt_reads_back(percent: float, meat_water: float) -> None:
    per_water = brining.salt_per_water(percent, meat_water)
    assert brining.salt_percent(per_water, meat_water) == pytest.approx(percent)


def test_corned_brisket_by_its_water_phase() -> None:
    """USDA SR: 3.09 % salt in 66.6 % water is 4.43 % of water and salt (C)."""
    assert brining.water_phase_percent(3.09 / 66.6) == pytest.approx(4.43, abs=0.005)


rows = st.lists(st.floats(0.0, 30.0), max_size=4)


@given(st.sampled_from(["slab", "round"]), st.floats(0.0, 0.3), rows, st.floats(1.0, 20.0))
def test_injected_pickle_is_all_there_however_it_lies(
    shape: str, pump: float, where: list[float], wide: float
) -> None:
    piece = Piece(60.0, shape=shape)  # type: ignore[arg-type]
    start = injection.injected_start(piece, pump, 0.2, 2000.0, 0.8, rows_mm=where, spread_mm=wide)
    held = pump * 0.8 * 2000.0 / (0.7 + pump * 0.8)
    assert start["nitrite"].average == pytest.approx(held, rel=1e-9, abs=1e-12)


def test_injection_cures_the_middle_that_the_brine_alone_would_not() -> None:
    piece = Piece(90.0)
    start = injection.injected_start(piece, 0.10, 0.15, 1500.0, 0.85, rows_mm=[30.0, 60.0])
    stage = [Stage("cure", 72.0, brining.cover_bath(6000, 6000, 600, 1.0))]
    plain = picture.slice_picture(outlook(stage, piece).likely.end)
    pumped = picture.slice_picture(outlook(stage, piece, start=start).likely.end)
    assert plain.grey_percent > 20.0
    assert pumped.grey_percent == 0.0


def test_picture_agrees_with_itself_and_speaks() -> None:
    end = outlook([Stage("cure", 72.0, brining.cover_bath(5000, 3500, 225, 1.35))], Piece(60.0))
    shown = picture.slice_picture(end.likely.end, count=601)
    assert [p.position_mm for p in shown.points[:: len(shown.points) - 1]] == [0.0, 60.0]
    for colour, percent in (
        ("grey", shown.grey_percent),
        ("pale", shown.pale_percent),
        ("cured", shown.cured_percent),
    ):
        counted = sum(p.colour == colour for p in shown.points) / 6.01
        assert counted == pytest.approx(percent, abs=0.7)
    assert shown.grey_mm == pytest.approx(0.6 * shown.grey_percent)
    assert f"{shown.grey_percent:.0f} % grey" in shown.says
    assert shown.says.startswith("After 3 days")


def test_a_round_piece_is_pictured_across_its_diameter() -> None:
    stage = [Stage("cure", 30.0, brining.cover_bath(5000, 3500, 225, 1.35))]
    shown = picture.slice_picture(outlook(stage, Piece(60.0, shape="round")).likely.end)
    assert shown.points[0].salt_percent == shown.points[-1].salt_percent
    assert shown.points[30].salt_percent == min(p.salt_percent for p in shown.points)
    assert shown.says.startswith("After 30 hours")


def test_a_picture_needs_both_solutes_and_three_points() -> None:
    run = simulate([Stage("stand", 1.0)], Piece(40.0), [Solute("salt", 4e-10)])
    with pytest.raises(ValueError, match="nitrite"):
        picture.slice_picture(run.end)
    with pytest.raises(ValueError, match="3 points"):
        picture.slice_picture(run.end, count=2)


def test_part_below_takes_crossings_straight() -> None:
    profile = Profile(Piece(4.0), (0.0, 1.0, 2.0, 3.0, 4.0), (3.0, 1.0, 1.0, 3.0))
    assert picture.part_below(profile, 2.0) == pytest.approx(0.5)
    assert picture.part_below(profile, 5.0) == pytest.approx(1.0)
    assert picture.part_below(profile, 0.5) == 0.0


@pytest.mark.parametrize(
    ("call", "word"),
    [
        (lambda: brining.cover_bath(0.0, 1.0, 0.0), "meat"),
        (lambda: brining.cover_bath(1000.0, 0.0, 0.0), "water"),
        (lambda: brining.cover_bath(1000.0, 1000.0, 500.0), "cannot dissolve"),
        (lambda: brining.cover_bath(1000.0, 1000.0, 50.0, -1.0), "nitrite"),
        (lambda: brining.cover_bath(1000.0, 1000.0, 50.0, 1.0, 70.0), "water in the meat"),
        (lambda: brining.dry_bath(1000.0, 300.0), "more than the water"),
        (lambda: brining.dry_bath(1000.0, 0.0), "salt"),
        (lambda: brining.salt_percent(float("nan")), "salt per water"),
        (lambda: injection.injected_start(Piece(50.0), 0.9, 0.1, 1.0, 0.8), "pump"),
        (lambda: injection.injected_start(Piece(50.0), 0.1, 0.1, 1.0, 0.1), "pickle"),
        (
            lambda: injection.injected_start(Piece(50.0), 0.1, 0.1, 1.0, 0.8, rows_mm=[60.0]),
            "needle",
        ),
    ],
)
def test_impossible_weights_are_refused(call: object, word: str) -> None:
    with pytest.raises(ValueError, match=word):
        call()  # type: ignore[operator]
