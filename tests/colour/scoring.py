"""How far readings of drawn slices are from their truth. For tests only.

Run by itself it scores any number of slices, drawn either way:
python -m tests.colour.scoring 5000 5250 [plain] [-v]
"""

import sys
from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np

from app.colour.cure_line import measure, measure_face
from tests.colour.plain_slices import draw_plain
from tests.colour.slices import CURED, GREY, Drawn, a_line, draw

LINE_WITHIN, FACE_WITHIN = 3.0, 4.0  # points
NO_COLOUR_LEFT = 0.5  # share of the lean with red or green at its end


@dataclass
class Score:
    """Of so many readings: right, wrong, and refused with or without need."""

    right: int = 0
    rightly_refused: int = 0
    refused: list[str] = field(default_factory=list)
    wrong: list[str] = field(default_factory=list)

    @property
    def all(self) -> int:
        return self.right + self.rightly_refused + len(self.refused) + len(self.wrong)

    @property
    def percent(self) -> float:
        return 100.0 * (self.right + self.rightly_refused) / max(1, self.all)

    def add(self, off: float | None, within: float, unknowable: bool, what: str) -> None:
        if off is None:
            if unknowable:
                self.rightly_refused += 1
            else:
                self.refused.append(what)
        elif off <= within:
            self.right += 1
        else:
            self.wrong.append(f"{off:.1f} {what}")


def unknowable(drawn: Drawn, blown: float, classes: int) -> bool:
    """Red or green lost in most of the lean, or one tone alone and no white to judge it by."""
    no_white = drawn.neutral_rgb is None or max(drawn.neutral_rgb) > 250
    return blown > NO_COLOUR_LEFT or (no_white and classes < 2)


def score_line(score: Score, drawn: Drawn, rng: np.random.Generator) -> None:
    start, end = a_line(drawn, rng)
    if np.hypot(start[0] - end[0], start[1] - end[1]) < 60:
        return
    truth = drawn.line_truth(start, end)
    found = measure(drawn.rgba, *drawn.size, start, end, drawn.neutral_rgb)
    off = None if found.grey_percent is None else abs(found.grey_percent - truth["grey"])
    tones = sum(share > 4 for share in truth.values())
    what = f"{drawn.about} neutral {drawn.neutral_rgb} truth {truth} found {found}"
    score.add(off, LINE_WITHIN, unknowable(drawn, drawn.blown(start, end), tones), what)


def score_face(score: Score, drawn: Drawn) -> None:
    truth = drawn.face_truth()
    found = measure_face(drawn.rgba, *drawn.size, drawn.neutral_rgb)
    off = max(abs(found.shares[name] - truth[name]) for name in truth) if found.known else None
    lean = (drawn.classes >= GREY) & (drawn.classes <= CURED)
    ended = float((drawn.picture[lean][:, :2] >= 253).any(1).mean())
    tones = sum(truth[name] > 4 for name in ("cured", "pale", "grey"))
    what = (
        f"{drawn.about} neutral {drawn.neutral_rgb} truth {truth} found {found.shares} {found.says}"
    )
    score.add(off, FACE_WITHIN, unknowable(drawn, ended, tones), what)


def score_slices(
    seeds: range, lines_each: int = 2, drawing: Callable[[int], Drawn] = draw
) -> tuple[Score, Score]:
    """Scores of lines and of faces over slices of these seeds."""
    lines, faces = Score(), Score()
    for seed in seeds:
        drawn = drawing(seed)
        rng = np.random.default_rng(seed)
        for _ in range(lines_each):
            score_line(lines, drawn, rng)
        score_face(faces, drawn)
    return lines, faces


if __name__ == "__main__":
    way = draw_plain if "plain" in sys.argv else draw
    both = score_slices(range(int(sys.argv[1]), int(sys.argv[2])), drawing=way)
    for name, score in zip(("lines", "faces"), both, strict=True):
        print(
            f"{name}: {score.percent:.1f} % of {score.all} right "
            f"({score.rightly_refused} rightly refused); refused {len(score.refused)}, "
            f"wrong {len(score.wrong)}"
        )
        for what in (*score.refused, *score.wrong) if "-v" in sys.argv else ():
            print("  ", what)
