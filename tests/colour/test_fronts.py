"""Fronts between grey and cured: blurred steps and narrow pale bands of known width."""

from app.colour.bands import Band
from app.colour.fronts import chance_of_pale, put_likely_pale, widths

BLOCK = 10.0


def blurred(steps: list[tuple[float, int]], over: int = 5) -> list[float]:
    """Stretches of one tone, as the mean over that many places shows them."""
    sharp = [t for t, n in steps for _ in range(n)]
    half = over // 2
    return [
        sum(sharp[max(0, k - half) : k + half + 1]) / len(sharp[max(0, k - half) : k + half + 1])
        for k in range(len(sharp))
    ]


def test_a_pale_band_is_seen_at_least_as_wide_as_it_is() -> None:
    for band in (8, 12, 20):
        turned = blurred([(0.0, 30), (0.45, band), (1.0, 30)])
        (width,) = widths(list(range(len(turned))), turned)
        assert band <= width <= band + 5
        assert chance_of_pale([width, width], BLOCK) > 0.4 + 0.04 * (band - 8)


def test_a_blurred_step_holds_no_pale_band() -> None:
    turned = blurred([(0.0, 30), (1.0, 30), (0.0, 30)])
    found = widths(list(range(len(turned))), turned)
    assert len(found) == 2
    assert max(found) <= 5
    assert chance_of_pale(found, BLOCK) < 0.25


def test_a_front_with_fat_in_it_is_not_asked() -> None:
    turned = blurred([(0.0, 30), (1.0, 30)])
    places = [k if k < 30 else k + 12 for k in range(60)]
    assert widths(places, turned) == []
    assert chance_of_pale([], BLOCK) == 0.0


def test_the_band_put_in_grows_with_its_chance_from_nothing_to_its_own_bounds() -> None:
    turned = [k / 60 for k in range(61)]
    held = []
    for chance in (0.0, 0.5, 1.0):
        marked: list[Band] = ["grey"] * 30 + ["cured"] * 31
        put_likely_pale(marked, turned, chance)
        assert marked == sorted(marked, key=("grey", "pale", "cured").index)
        held.append(marked.count("pale"))
    assert held[0] <= 1
    assert held[0] < held[1] < held[2]
    # From midway between grey and pale to midway between pale and cured.
    assert abs(held[2] - 60 * (0.725 - 0.225)) <= 2


def test_only_bounds_between_grey_and_cured_are_widened() -> None:
    turned = [0.4] * 5 + [0.6] * 5
    marked: list[Band] = ["pale"] * 5 + ["cured"] * 5
    put_likely_pale(marked, turned, 1.0)
    assert marked == ["pale"] * 5 + ["cured"] * 5
