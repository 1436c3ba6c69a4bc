"""Brine figures against the tables of the science sheet."""

from math import nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.cure.brine import (
    baume_degrees,
    density_kg_m3,
    freezing_point_c,
    salometer_degrees,
    specific_gravity,
)

# Density at 20 °C by % NaCl, kg/m³; agrees with Rogers & Pitzer (1982) to 0.3.
AT_20_C = {
    2: 1012.2, 4: 1026.8, 6: 1041.3, 8: 1055.9, 10: 1070.7, 12: 1085.7, 14: 1100.9,
    16: 1116.2, 18: 1131.9, 20: 1147.8, 22: 1164.0, 24: 1180.4, 26: 1197.2,
}  # fmt: skip

# Specific volume, cm³/g, by molality; Rogers & Pitzer, J. Phys. Chem. Ref. Data 11 (1982) 15.
MOLALITY = (0.5, 1, 2, 3, 4, 5)
VOLUMES = {
    10.0: (0.979804, 0.961101, 0.927905, 0.899262, 0.874201, 0.851958),
    20.0: (0.981833, 0.963544, 0.930909, 0.902565, 0.877643, 0.855469),
}
NACL = 58.443

# % NaCl, °SAL, SG 60/60 °F (computed rows of the science sheet).
READINGS = [
    (2.640, 10, 1.019),
    (6.599, 25, 1.048),
    (10.558, 40, 1.078),
    (15.837, 60, 1.118),
    (21.116, 80, 1.160),
    (26.395, 100, 1.204),
]

# %, °C; Lange's Handbook 15th ed., table 5.13.
FREEZES = [
    (1, -0.58), (2, -1.13), (4, -2.35), (6, -3.63), (8, -5.03), (15, -10.88), (20, -16.46),
    (23, -20.69), (23.3, -21.1),
]  # fmt: skip


@pytest.mark.parametrize(("percent", "density"), AT_20_C.items())
def test_density_at_20_c(percent: float, density: float) -> None:
    assert density_kg_m3(percent, 20.0) == pytest.approx(density, abs=0.3)


@pytest.mark.parametrize("celsius", VOLUMES)
def test_density_follows_the_measured_volumes(celsius: float) -> None:
    for molality, volume in zip(MOLALITY, VOLUMES[celsius], strict=True):
        percent = 100 * molality * NACL / (1000 + molality * NACL)
        assert density_kg_m3(percent, celsius) == pytest.approx(1000 / volume, abs=0.05)


def test_density_of_water() -> None:
    """Water 999.97 kg/m³ at 4 °C, 999.84 at 0 °C (from memory): the carried-on parabola."""
    assert density_kg_m3(0.0, 4.0) == pytest.approx(999.97, abs=0.1)
    assert density_kg_m3(0.0, 0.0) == pytest.approx(999.84, abs=0.2)


@pytest.mark.parametrize(("percent", "degrees", "gravity"), READINGS)
def test_readings(percent: float, degrees: float, gravity: float) -> None:
    assert salometer_degrees(percent) == pytest.approx(degrees, abs=0.005)
    assert specific_gravity(percent) == pytest.approx(gravity, abs=0.0005)


def test_baume_of_water_is_nought() -> None:
    assert baume_degrees(0.0) == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize(("percent", "celsius"), FREEZES)
def test_freezing_points(percent: float, celsius: float) -> None:
    assert freezing_point_c(percent) == celsius


def test_freezing_beyond_the_eutectic_and_of_water() -> None:
    assert freezing_point_c(0.0) == 0.0
    assert freezing_point_c(26.0) == -21.1


@given(st.floats(0, 26.3), st.floats(0.001, 0.1), st.floats(0, 25))
def test_more_salt_is_denser_and_freezes_later(low: float, step: float, celsius: float) -> None:
    high = min(low + step, 26.4)
    assert density_kg_m3(high, celsius) > density_kg_m3(low, celsius)
    assert freezing_point_c(high) <= freezing_point_c(low)
    assert salometer_degrees(high) > salometer_degrees(low)


@given(st.floats(0, 26.4), st.floats(5, 24))
def test_warmer_brine_is_lighter(percent: float, celsius: float) -> None:
    assert density_kg_m3(percent, celsius + 1.0) < density_kg_m3(percent, celsius)


@pytest.mark.parametrize("bad", [-0.1, 26.5, nan])
def test_impossible_strengths_are_refused(bad: float) -> None:
    for figure in (density_kg_m3, salometer_degrees, specific_gravity, freezing_point_c):
        with pytest.raises(ValueError, match="A brine holds from 0"):
            figure(bad)


@pytest.mark.parametrize("bad", [-1.0, 26.0, nan])
def test_temperatures_beyond_the_tables_are_refused(bad: float) -> None:
    with pytest.raises(ValueError, match="0 to 25 °C"):
        density_kg_m3(5.0, bad)
