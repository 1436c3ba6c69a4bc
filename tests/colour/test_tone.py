import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.colour.lab import Triple, to_linear, to_srgb
from app.colour.tone import kind_of, split, tone


def light(lightness: float, a: float, b: float) -> Triple:
    r, g, blue = to_srgb(lightness, a, b)
    return to_linear(r), to_linear(g), to_linear(blue)


@given(st.floats(0.05, 8.0))
def test_exposure_and_shade_do_not_change_the_tone(times: float) -> None:
    bright = tone((0.3 * times, 0.1 * times, 0.09 * times), 0.0)
    assert bright.s == pytest.approx(tone((0.3, 0.1, 0.09), 0.0).s, abs=1e-9)


def test_a_lamp_moves_all_tones_alike() -> None:
    pink, dull, gains = (0.45, 0.16, 0.14), (0.26, 0.19, 0.14), (1.9, 1.0, 0.4)
    before = tone(pink, 0.0).s - tone(dull, 0.0).s
    lit = [tone(tuple(c * g for c, g in zip(x, gains, strict=True)), 0.0).s for x in (pink, dull)]  # type: ignore[arg-type]
    assert lit[0] - lit[1] == pytest.approx(before, abs=1e-9)


# Cured beef a* 12-18, hue 25-40°; grey well-done beef a* 4-8, hue above 55° (from memory).
@pytest.mark.parametrize(
    ("a", "b", "kind"),
    [
        (15, 9, "cured"),
        (18, 8.5, "cured"),
        (13, 9, "cured"),
        (4, 9, "grey"),
        (8, 12, "grey"),
        (0, 0, "not meat"),
        (8, 32, "not meat"),
        (-10, 5, "not meat"),
        (5, -20, "not meat"),
    ],
)
def test_single_tones_by_redness(a: float, b: float, kind: str) -> None:
    assert kind_of(light(54, a, b)) == kind


def test_split_finds_the_gap() -> None:
    low, high, within = split([0.0, 0.1, 0.05, 1.0, 1.1])
    assert (low, high) == pytest.approx((0.05, 1.05))
    assert within < 0.1
