"""Days, grey core and the old rules, against the solver, the trade and each other."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.transport import brining, days, practice, reach
from app.transport.diffusion import Piece, Solute, Stage, simulate
from app.transport.diffusivity import NITRITE, SALT, Diffusivity, Range, temperature_factor
from app.transport.outlook import outlook
from app.transport.picture import grey_after, slice_picture

WEEK = Stage("cure", 168.0, brining.cover_bath(6000, 6000, 780, 9.4, meat_water=0.65))
"""A strong cover brine: 11.5 % salt, 1.4 g of nitrite a litre, as heavy as the meat."""


def test_a_week_in_strong_brine_leaves_a_patch_in_the_point_and_none_in_the_flat() -> None:
    """Common practice, no source: a whole brisket, neither trimmed nor injected, a full week."""
    point = outlook([WEEK], Piece(90.0))
    flat = outlook([WEEK], Piece(38.0))
    patch = slice_picture(point.likely.end, 0.65)
    assert 5.0 < patch.grey_percent < 25.0
    assert patch.points[30].colour == "grey"
    assert patch.points[0].colour == "cured"
    # Salty outside: more than twice its own average, and twice a corned brisket's 3.09 % (USDA).
    assert patch.points[0].salt_percent > 2.0 * 3.09
    through = slice_picture(flat.likely.end, 0.65)
    assert through.cured_percent == pytest.approx(100.0)
    assert grey_after(flat, 0.65).high == 0.0


def test_a_fat_cap_left_on_makes_the_patch_larger() -> None:
    trimmed = grey_after(outlook([WEEK], Piece(75.0, 2)))
    capped = grey_after(outlook([WEEK], Piece(75.0, 1)))
    assert capped.likely > trimmed.likely


def test_days_are_those_at_which_the_solver_gets_there() -> None:
    piece = Piece(45.0)
    needed = days.days_to_colour(piece, 150.0, bath_ratio=1.0, temperature_c=2.0)
    assert needed.days is not None
    bath = brining.Bath(1.0, {"nitrite": 300.0})
    solute = Solute("nitrite", NITRITE.likely_m2_s)
    run = simulate([Stage("cure", needed.days.likely * 24.0, bath, 2.0)], piece, [solute])
    assert run.end.profiles["nitrite"].core == pytest.approx(days.FULL_COLOUR_PPM, abs=0.03)


def test_grey_core_is_that_of_the_solver() -> None:
    piece = Piece(60.0)
    expected = days.grey_core(piece, 5.0, 150.0, bath_ratio=1.0)
    per_water = 300.0 / brining.MEAT_WATER
    bath = brining.Bath(1.0, {"nitrite": per_water, "salt": 0.05})
    found = grey_after(outlook([Stage("cure", 120.0, bath)], piece))
    for ours, theirs in (
        (expected.grey_percent.low, found.low),
        (expected.grey_percent.likely, found.likely),
        (expected.grey_percent.high, found.high),
    ):
        assert ours == pytest.approx(theirs, abs=0.5)
    assert expected.grey_mm.likely == pytest.approx(0.6 * expected.grey_percent.likely)


def test_first_pink_comes_before_full_colour() -> None:
    pink = days.days_to_colour(Piece(50.0), 150.0, days.FIRST_PINK_PPM, 1.0)
    full = days.days_to_colour(Piece(50.0), 150.0, days.FULL_COLOUR_PPM, 1.0)
    assert pink.days is not None
    assert full.days is not None
    assert pink.days.likely < full.days.likely


def test_too_little_nitrite_never_gets_there_and_says_so() -> None:
    needed = days.days_to_colour(Piece(50.0), 40.0)
    assert needed.days is None
    assert "never" in needed.says
    assert needed.working.result == "never"


def test_a_band_twice_as_wide_gives_days_twice_as_wide() -> None:
    even = days.days_to_even(Piece(50.0), 0.9)
    assert even.days is not None
    assert even.days.high / even.days.low == pytest.approx(SALT.high_m2_s / SALT.low_m2_s)


def test_cold_costs_time_and_warm_costs_safety() -> None:
    assert "cold costs time" in days.warmth_says(1.0, 7.0)
    assert "not safe" in days.warmth_says(8.0, 7.0)
    cold = days.days_to_even(Piece(50.0), 0.9, temperature_c=0.0).days
    warm = days.days_to_even(Piece(50.0), 0.9, temperature_c=4.0).days
    assert cold is not None
    assert warm is not None
    assert cold.likely / warm.likely == pytest.approx(1.0 / temperature_factor(0.0))


def test_working_names_what_went_in_and_what_it_does_not_know() -> None:
    working = days.days_to_colour(Piece(45.0), 150.0, bath_ratio=1.0).working
    assert ("Ingoing nitrite, at rest", "150 ppm") in working.inputs
    assert "Crank" in working.source
    assert "No sound measurement of nitrite" in working.limits
    own = Diffusivity(1e-10, 2e-10, 3e-10, slices=3, source="Three slices of your own.")
    mine = days.days_to_colour(Piece(45.0), 150.0, diffusivity=own).working
    assert "No sound measurement" not in mine.limits
    assert "Three slices" in mine.source


@given(
    st.floats(20.0, 120.0),
    st.floats(0.0, 40.0),
    st.floats(0.0, 40.0),
    st.floats(20.0, 800.0),
    st.floats(0.2, 10.0) | st.just(inf),
)
def test_more_days_never_leave_more_grey(
    thickness: float, one: float, other: float, ppm: float, ratio: float
) -> None:
    early, late = sorted((one, other))
    before = days.grey_core(Piece(thickness), early, ppm, ratio)
    after = days.grey_core(Piece(thickness), late, ppm, ratio)
    assert after.grey_percent.likely <= before.grey_percent.likely + 1e-6
    assert 0.0 <= before.grey_percent.low <= before.grey_percent.high <= 100.0


@given(st.floats(1.0, 60.0), st.floats(0.05, 20.0), st.floats(0.01, 60.0))
def test_a_very_weak_cure_still_gives_a_range(ppm: float, ratio: float, day: float) -> None:
    """Its edge turns pink and goes grey again as the bath runs down: quicker is not pinker."""
    core = days.grey_core(Piece(60.0), day, ppm, ratio)
    assert 0.0 <= core.grey_percent.low <= core.grey_percent.high <= 100.0
    assert -1e-9 <= core.pale_percent.low <= core.pale_percent.high <= 100.0


def test_sentences_say_whether_there_is_grey() -> None:
    assert "no grey core expected" in days.grey_core(Piece(38.0), 30.0, 150.0).says
    assert "at worst" in days.grey_core(Piece(60.0), 7.0, 150.0, 1.0).says
    assert "a grey core of about" in days.grey_core(Piece(100.0), 3.0, 150.0, 1.0).says


@pytest.mark.parametrize("shape", ["slab", "round"])
@pytest.mark.parametrize("ratio", [0.5, 3.0, inf])
def test_time_and_place_read_each_other_backwards(shape: str, ratio: float) -> None:
    for place in (0.0, 0.35, 0.8):
        fo = reach.time_to_reach(shape, 0.3, ratio, place)  # type: ignore[arg-type]
        there = reach.level_at(shape, fo, ratio, place)  # type: ignore[arg-type]
        assert there == pytest.approx(0.3, abs=1e-6)
        back = reach.place_reached(shape, fo, 0.3, ratio)  # type: ignore[arg-type]
        # At the core the profile is flat, so a place there is told less finely.
        assert back == pytest.approx(place, abs=1e-4 if place else 0.02)


def test_a_round_piece_is_reached_sooner_than_a_slab_as_thick() -> None:
    slab = days.days_to_even(Piece(60.0)).days
    rod = days.days_to_even(Piece(60.0, shape="round")).days
    assert slab is not None
    assert rod is not None
    assert rod.likely < 0.6 * slab.likely


def test_old_rules_are_marked_and_set_beside_the_model() -> None:
    model = days.days_to_colour(Piece(50.8), 150.0, bath_ratio=1.0).days
    rules = practice.rules_of_thumb(Piece(50.8), model)
    assert {rule.source for rule in rules} == {"common practice, no source"}
    assert all(rule.beside_model for rule in rules)
    assert practice.disagreement(rules) == (
        "The old rules do not agree: for this piece they run from 5 to 14 days."
    )
    assert practice.disagreement(rules[1:2]) == "The old rules agree here: 6 to 6 days."
    with pytest.raises(ValueError, match="no rule"):
        practice.disagreement(())


@pytest.mark.parametrize(
    ("model", "words"),
    [
        (None, "never reached"),
        (Range(20.0, 30.0, 40.0), "Shorter"),
        (Range(1.0, 2.0, 3.0), "Longer"),
        (Range(5.0, 10.0, 20.0), "short side"),
        (Range(2.0, 3.0, 20.0), "long side"),
        (Range(4.0, 6.0, 9.0), "Agrees"),
    ],
)
def test_a_week_for_any_brisket_beside_the_model(model: Range | None, words: str) -> None:
    assert words in practice.rules_of_thumb(Piece(50.8), model)[0].beside_model


@pytest.mark.parametrize(
    "call",
    [
        lambda: days.days_to_colour(Piece(50.0), -1.0),
        lambda: days.days_to_colour(Piece(50.0), 100.0, 0.0),
        lambda: days.days_to_even(Piece(50.0), 1.0),
        lambda: days.grey_core(Piece(50.0), -1.0, 100.0),
        lambda: days.grey_core(Piece(50.0), 1.0, 0.0),
        lambda: days.grey_core(Piece(50.0), 1.0, 100.0, 0.0),
        lambda: days.days_to_even(Piece(50.0), temperature_c=inf),
        lambda: days.warmth_says(4.0, 0.0),
        lambda: reach.time_to_reach("slab", 1.0),
        lambda: reach.place_reached("slab", 0.1, 0.0),
        lambda: reach.level_at("round", 0.1, place=2.0),
        lambda: reach.level_at("round", 0.1, -1.0),
        lambda: Range(2.0, 1.0, 3.0),
        lambda: Diffusivity(2e-10, 1e-10, 3e-10),
        lambda: Diffusivity(0.0, 1e-10, 3e-10),
    ],
)
def test_impossible_input_is_refused(call: object) -> None:
    with pytest.raises(ValueError, match=r"must|was given"):
        call()  # type: ignore[operator]
