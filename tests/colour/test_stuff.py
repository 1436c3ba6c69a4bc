"""Runs of a line and what they are told to be."""

import pytest

from app.colour.runs import Run, runs
from app.colour.stuff import stuff_of
from app.colour.tone import Tone

# Tones as seen in daylight, by their sRGB.
DULL = Tone(-1.65, 0.32, 0.29, 0.23)  # (140, 121, 106)
PINK = Tone(-1.60, 1.16, 0.11, 1.13)  # (186, 112, 106)
PALE = Tone(-1.25, 0.50, 0.24, 0.43)  # (190, 152, 136)
FAT = Tone(-0.28, 0.14, 0.26, 0.06)  # (236, 222, 198)
LIGHT_DULL = Tone(-0.88, 0.32, 0.29, 0.23)  # grey more than twice as light as cured
GAP = Tone(-3.90, 0.40, 0.30, 0.31)


def told(stripes: list[tuple[Tone, int]], balanced: bool = False) -> list[str]:
    tones = [tone for tone, n in stripes for _ in range(n)]
    found = runs(tones, 2.0)
    kinds = stuff_of(found, DULL.s, PINK.s, 2, balanced)
    by_place = [kind for run, kind in zip(found, kinds, strict=True) for _ in range(run.places)]
    return [
        by_place[sum(n for _, n in stripes[:k]) + stripes[k][1] // 2] for k in range(len(stripes))
    ]


def test_runs_follow_one_another_without_gaps() -> None:
    found = runs([DULL] * 20 + [PINK] * 30 + [FAT] * 4 + [PINK] * 10, 2.0)
    assert [(run.start, run.stop) for run in found] == [(0, 20), (20, 50), (50, 54), (54, 64)]


def test_a_fall_of_light_is_no_fat() -> None:
    falling = [Tone(-1.3 - 0.0035 * k, DULL.u, DULL.v, DULL.s) for k in range(200)]
    found = runs(falling, 2.0)
    assert set(stuff_of(found, DULL.s, DULL.s, 2)) == {"lean"}


@pytest.mark.parametrize("share", [10, 60])
def test_fat_is_told_beside_cured_and_beside_grey(share: int) -> None:
    stripes = [(PINK, 40), (FAT, share), (PINK, 40), (DULL, 40), (FAT, share), (DULL, 40)]
    assert told(stripes) == ["lean", "fat", "lean", "lean", "fat", "lean"]


def test_fat_at_the_edge_of_the_slice() -> None:
    assert told([(FAT, 50), (PINK, 50), (DULL, 60), (PINK, 40)]) == ["fat", "lean", "lean", "lean"]


def test_pale_lean_lighter_than_its_neighbours_is_no_fat() -> None:
    assert told([(PINK, 60), (PALE, 20), (DULL, 50), (PALE, 20), (PINK, 60)]) == ["lean"] * 5


def test_a_light_grey_core_is_told_from_fat_by_its_tone_in_daylight() -> None:
    assert told([(PINK, 60), (LIGHT_DULL, 90), (PINK, 60)], balanced=True) == ["lean"] * 3
    stripes = [(PINK, 60), (FAT, 10), (PINK, 30), (LIGHT_DULL, 80), (PINK, 40)]
    assert told(stripes, balanced=True) == ["lean", "fat", "lean", "lean", "lean"]


def test_bark_seen_blurred_says_little_about_the_light_of_lean() -> None:
    rim = Tone(-2.4, 0.36, 0.25, 0.28)
    assert told([(GAP, 4), (rim, 2), (DULL, 50), (PINK, 120)])[2:] == ["lean", "lean"]


def test_a_gap_is_left_out() -> None:
    assert told([(PINK, 60), (GAP, 6), (PINK, 60)]) == ["lean", "gap", "lean"]


def test_nothing_has_no_kinds() -> None:
    nothing: list[Run] = []
    assert stuff_of(nothing, 0.2, 1.0, 2) == []


def test_lighter_grain_is_no_fat() -> None:
    light = Tone(DULL.l + 0.28, DULL.u - 0.03, DULL.v, DULL.s - 0.03)
    stripes = [(PINK, 40), (DULL, 40), (light, 14), (DULL, 40), (PINK, 40)]
    assert told(stripes) == ["lean"] * 5
