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
GAP = Tone(-3.90, 0.40, 0.30, 0.31)


def told(stripes: list[tuple[Tone, int]]) -> list[str]:
    tones = [tone for tone, n in stripes for _ in range(n)]
    found = runs(tones, 2.0)
    kinds = stuff_of(found, DULL.s, PINK.s, 2)
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


def test_a_gap_is_left_out() -> None:
    assert told([(PINK, 60), (GAP, 6), (PINK, 60)]) == ["lean", "gap", "lean"]


def test_nothing_has_no_kinds() -> None:
    nothing: list[Run] = []
    assert stuff_of(nothing, 0.2, 1.0, 2) == []
