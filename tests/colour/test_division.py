"""Dividing lean into bands, on lines of nothing but lean."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.colour.bands import Band
from app.colour.division import divide, mean_tone, pieces, tones
from app.colour.profile import Profile
from app.colour.runs import runs
from app.colour.tone import Levels, Tone

PINK, DULL = 1.1, 0.3  # ln(red/green)


GREY_AND_CURED = Levels(PINK, DULL, True, "grey", PINK - DULL, 0.02, 1.0)


def divided(
    turned: list[float],
    pale: float | None = None,
    ends: Levels = GREY_AND_CURED,
    lighter: range = range(0),
) -> list[Band]:
    n = len(turned)
    tones = [
        Tone(-1.35 if i in lighter else -1.5, s, 0.0, s)
        for i, s in enumerate(DULL + t * (PINK - DULL) for t in turned)
    ]
    places = [k / (n - 1) for k in range(n)]
    lights = [(0.3, 0.2, 0.2)] * n
    found = runs(tones, 2.0)
    shape = Profile(places, tones, lights, ["lean"] * n, [True] * n, 0.0, 1.0, True, True, found)
    found_pieces = pieces(shape, 3, 4.0)
    marks = divide(shape, found_pieces, ends, pale, 0.02, 4.0)
    return [marks[i] for i in range(n)]


@given(st.lists(st.floats(-0.3, 1.4), min_size=12, max_size=120))
def test_every_place_gets_a_band(turned: list[float]) -> None:
    marks = divided(turned)
    assert len(marks) == len(turned)
    assert set(marks) <= {"grey", "pale", "cured"}


@given(st.integers(8, 80), st.integers(15, 60), st.integers(8, 80))
def test_three_tones_are_kept_whole(cured: int, pale: int, grey: int) -> None:
    turned = [1.0] * cured + [0.5] * pale + [0.0] * grey
    for marks in (divided(turned), divided(turned[::-1])):
        assert (marks.count("cured"), marks.count("pale"), marks.count("grey")) == (
            cured,
            pale,
            grey,
        )


def test_a_pale_tone_near_grey_is_told_from_it() -> None:
    marks = divided([1.0] * 80 + [0.27] * 30 + [0.0] * 60, 0.27)
    assert (marks.count("cured"), marks.count("pale"), marks.count("grey")) == (80, 30, 60)


def test_a_slow_slope_is_pale_over_most_of_its_way() -> None:
    marks = divided([1.0] * 80 + [1 - k / 40 for k in range(41)] + [0.0] * 80)
    assert 16 <= marks.count("pale") <= 41
    assert 80 <= marks.count("grey") <= 91


def test_grey_ends_a_quarter_of_the_way_up_a_slow_slope() -> None:
    for length in (24, 40, 64):
        slope = [k / length for k in range(length + 1)]
        marks = divided([0.0] * 60 + slope + [1.0] * 60)
        assert abs(marks.count("grey") - (60 + 0.25 * length)) <= 2


def test_a_blurred_bound_is_no_pale_band() -> None:
    marks = divided([1.0] * 100 + [0.8, 0.5, 0.2] + [0.0] * 100)
    assert marks.count("pale") == 0
    assert abs(marks.count("grey") - 101) <= 1


def test_a_pale_band_too_narrow_for_a_tone_of_its_own_is_found() -> None:
    narrow = [1.0] * 90 + [0.75] + [0.5] * 12 + [0.25] + [0.0] * 90
    for marks in (divided(narrow), divided(narrow[::-1])):
        assert abs(marks.count("pale") - 13) <= 1
        assert abs(marks.count("grey") - 90) <= 1


def test_no_grey_where_the_dullest_tone_is_pale() -> None:
    ends = Levels(PINK, DULL, True, "pale", PINK - DULL, 0.02, 1.0)
    marks = divided([1.0] * 80 + [0.5] * 60 + [0.1] * 12 + [0.5] * 30, 0.5, ends)
    assert set(marks) == {"cured", "pale"}


@pytest.mark.parametrize(("lighter", "pale"), [(range(0), 8), (range(40, 48), 0)])
def test_a_narrow_pale_stripe_is_fat_seen_blurred_where_it_is_lighter(
    lighter: range, pale: int
) -> None:
    turned = [1.0] * 40 + [0.5] * 8 + [1.0] * 72 + [0.5] * 40 + [0.0] * 60
    marks = divided(turned, 0.5, lighter=lighter)
    assert marks[:120].count("pale") == pale
    assert marks[120:].count("pale") == 40


def test_one_spot_of_fat_makes_no_band() -> None:
    assert set(divided([1.0] * 60 + [0.0] * 2 + [1.0] * 60)) == {"cured"}


def test_coarse_colour_within_grey_is_no_pale_band() -> None:
    marks = divided([1.0] * 60 + [0.0] * 30 + [0.14] * 6 + [0.0] * 30 + [1.0] * 60)
    assert marks.count("pale") == 0


def tones_along(s: list[float]) -> list[float]:
    n = len(s)
    along = [Tone(-1.5, x, 0.0, x) for x in s]
    shape = Profile(
        [k / (n - 1) for k in range(n)],
        along,
        [(0.3, 0.2, 0.2)] * n,
        ["lean"] * n,
        [True] * n,
        0.0,
        1.0,
        True,
        True,
        runs(along, 2.0),
    )
    return [mean_tone(alike) for alike in tones(pieces(shape, 3, 4.0), 0.07)]


def test_a_small_grey_core_beside_a_wide_pale_band_is_a_tone_of_its_own() -> None:
    assert tones_along([PINK] * 120 + [0.7] * 70 + [DULL] * 10) == pytest.approx([DULL, 0.7, PINK])


def test_a_tone_met_twice_is_one() -> None:
    assert tones_along([PINK] * 60 + [DULL] * 60 + [PINK + 0.02] * 60) == pytest.approx(
        [DULL, PINK + 0.01], abs=0.005
    )
