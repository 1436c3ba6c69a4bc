"""Numbers as a cook reads them."""

from math import inf, nan

import pytest

from app.quantities import format, from_unit, plain, to_unit

WRITTEN = [
    (3345.0, "mass", "both", "3.35 kg / 7 lb 6 oz"),
    (3345.0, "mass", "metric", "3.35 kg"),
    (3345.0, "mass", "us", "7 lb 6 oz"),
    (21.6, "mass", "metric", "21.6 g"),
    (21.6, "mass", "us", "21.6 g (0.76 oz)"),
    (0.354, "mass", "metric", "0.35 g"),
    (453.59237, "mass", "us", "1 lb"),
    (7.999 * 453.59237, "mass", "us", "8 lb"),
    (999.9, "mass", "metric", "1 kg"),
    (99.97, "mass", "metric", "100 g"),
    (0.0, "mass", "metric", "0 g"),
    (3785.411784, "volume", "us", "1 gal"),
    (1892.705892, "volume", "us", "2 qt"),
    (236.588, "volume", "us", "1 cup"),
    (3785.411784, "volume", "both", "3.79 L / 1 gal"),
    (350.0, "volume", "metric", "350 mL"),
    (57.15, "length", "us", "2 1/4 in"),
    (25.3, "length", "us", "1 in"),
    (9.525, "length", "us", "3/8 in"),
    (0.0, "length", "us", "0 in"),
    (38.0, "length", "metric", "38 mm"),
    (450.0, "length", "metric", "45 cm"),
    (4.0, "temperature", "both", "4 °C / 39 °F"),
    (-0.04, "temperature", "metric", "0 °C"),
    (62.8, "temperature", "us", "145 °F"),
    (45.0, "duration", "us", "45 s"),
    (3599.0, "duration", "us", "1 h"),
    (5400.0, "duration", "metric", "1 h 30 min"),
    (5.5 * 86400, "duration", "both", "5 days 12 h"),
]


@pytest.mark.parametrize(("value", "kind", "system", "expected"), WRITTEN)
def test_writes(value: float, kind: str, system: str, expected: str) -> None:
    assert format(value, kind, system) == expected


@pytest.mark.parametrize("value", [nan, inf, -inf])
def test_refuses_what_is_no_number(value: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        format(value, "mass", "us")
    with pytest.raises(ValueError, match="finite"):
        plain(value, "mass", "kg")


def test_refuses_less_than_nothing_and_unknown_words() -> None:
    with pytest.raises(ValueError, match="0 or more"):
        format(-1.0, "mass", "us")
    with pytest.raises(ValueError, match="us, metric or both"):
        format(1.0, "mass", "imperial")
    with pytest.raises(ValueError, match="mass, volume"):
        format(1.0, "weight", "us")


def test_known_points_of_the_thermometer() -> None:
    for celsius, fahrenheit in ((0.0, 32.0), (100.0, 212.0), (-40.0, -40.0)):
        assert from_unit(fahrenheit, "temperature", "°F") == pytest.approx(celsius, abs=1e-9)
        assert to_unit(celsius, "temperature", "°F") == pytest.approx(fahrenheit, abs=1e-9)
