"""Soaking: against the solver run straight through, and in what it tells the cook."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.transport import brining, soak
from app.transport.diffusion import Piece, Solute, Stage, simulate
from app.transport.diffusivity import SALT
from app.transport.outlook import outlook

CURE = Stage("cure", 168.0, brining.cover_bath(5000, 5000, 600))
SALTY = outlook([CURE], Piece(45.0))
WATER = brining.cover_bath(5000, 8000, 0.0)


def test_hours_found_are_those_of_a_run_straight_through() -> None:
    need = soak.soak_needed(SALTY, 3.5, 5000, 8000, change_every_hours=4.0)
    assert need.hours is not None
    hours = need.hours.likely
    assert 8.0 < hours < 12.0
    run = [CURE, *soak.soak_stages(hours, WATER)]
    assert [stage.hours for stage in run[1:]] == [4.0, 4.0, pytest.approx(hours - 8.0)]
    end = simulate(run, Piece(45.0), [Solute("salt", SALT.likely_m2_s)], cells=48).end
    average = brining.salt_percent(end.profiles["salt"].average)
    assert average == pytest.approx(3.5, abs=0.01)
    assert need.waters is not None
    assert need.waters.likely == 3.0
    assert "2 changes" in need.says


def test_more_changes_of_water_take_no_longer() -> None:
    often = soak.soak_needed(SALTY, 3.0, 5000, 5000, change_every_hours=2.0).hours
    seldom = soak.soak_needed(SALTY, 3.0, 5000, 5000, change_every_hours=12.0).hours
    assert often is not None
    assert seldom is not None
    assert often.likely < seldom.likely


@settings(max_examples=15)
@given(st.floats(1.5, 5.0), st.floats(1.5, 5.0))
def test_less_salt_wanted_never_takes_fewer_hours(one: float, other: float) -> None:
    low, high = sorted((one, other))
    longer = soak.soak_needed(SALTY, low, 5000, 12000, longest_hours=240.0).hours
    shorter = soak.soak_needed(SALTY, high, 5000, 12000, longest_hours=240.0).hours
    assert longer is not None
    assert shorter is not None
    assert shorter.likely <= longer.likely + 0.03


def test_meat_that_is_not_too_salty_needs_no_soak() -> None:
    need = soak.soak_needed(SALTY, 9.0, 5000, 8000)
    assert need.hours is not None
    assert need.hours.high == 0.0
    assert need.says.startswith("No soak needed")


def test_a_soak_that_cannot_do_it_says_how_far_it_comes() -> None:
    need = soak.soak_needed(SALTY, 0.5, 5000, 2000, longest_hours=12.0)
    assert need.hours is None
    assert need.waters is None
    assert need.says.startswith("Not surely reached in 12 hours")
    assert need.reached_percent > 0.5


def test_one_water_is_called_one_water() -> None:
    need = soak.soak_needed(SALTY, 4.2, 5000, 8000, change_every_hours=12.0)
    assert "one filling of water" in need.says
    need = soak.soak_needed(SALTY, 3.65, 5000, 8000, change_every_hours=4.0)
    assert "one change of water (every 4 h)" in need.says


def test_taste_is_always_offered_as_the_honest_check() -> None:
    assert "cook it, taste it" in soak.soak_needed(SALTY, 3.5, 5000, 8000).taste


def test_a_rinse_hardly_moves_the_salt_inside() -> None:
    rinsed = soak.rinse(SALTY)
    assert 0.95 * rinsed.before_percent < rinsed.after_percent < rinsed.before_percent
    assert soak.rinse(SALTY, minutes=0.0).after_percent == pytest.approx(rinsed.before_percent)


def test_salt_is_told_outside_inside_and_on_average() -> None:
    now = soak.salt_now(SALTY)
    assert now.middle_percent.likely < now.average_percent.likely < now.surface_percent.likely
    assert f"{now.average_percent.likely:.1f} % on average" in now.says


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"wanted_percent": 0.0}, "salt wanted"),
        ({"meat_g": -1.0}, "meat"),
        ({"water_g": 0.0}, "water"),
        ({"change_every_hours": 0.0}, "changed"),
        ({"longest_hours": float("inf")}, "time of the soak"),
        ({"temperature_c": 99.0}, "temperature"),
    ],
)
def test_impossible_soaks_are_refused(change: dict[str, float], word: str) -> None:
    given_ = {"wanted_percent": 3.0, "meat_g": 5000.0, "water_g": 8000.0, **change}
    with pytest.raises(ValueError, match=word):
        soak.soak_needed(SALTY, **given_)
    with pytest.raises(ValueError, match="under the tap"):
        soak.rinse(SALTY, minutes=-1.0)
    with pytest.raises(ValueError, match="time of the soak"):
        soak.soak_stages(-1.0, WATER)
    with pytest.raises(ValueError, match="changed"):
        soak.soak_stages(1.0, WATER, 1e-300)
