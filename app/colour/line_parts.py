"""What is read off a line whose places are told: its shares, depths and bands."""

from attrs import frozen

from app.colour.bands import BANDS, Band
from app.colour.profile import Profile

_EDGE_STRIP = 0.05  # of the slice: what is thinner at its edge may be fat or bark (judgement)
_NO_LEAN = ("fat", "bark", "gap")


@frozen
class CureLine:
    """What a line across a slice shows.

    The three parts are shares of the lean between the edges and add up to 100; they are None
    where the picture cannot tell, and `says` then gives the reason. `left_edge` and
    `right_edge` are the slice's edges as fractions of the drawn line, 0 at its start and 1 at
    its end. `confidence` runs from 0 to 1. Depths are counted from each edge to where the
    cured part first ends, in per cent of the distance between the edges, a strip at the edge
    thinner than 5 % passed over; millimetres are given when the thickness was, as that per cent
    of it: of a part, what it would take up were all of the thickness lean.

    `left_out` says what of the way between the edges is no part of the shares, in per cent of
    that way: "fat" (and glare), "bark" (and shadow), "gap" and smoke "ring", the most first.
    `bands` are drawn over it: a streak of fat lies in the band around it.
    """

    cured_percent: float | None
    pale_percent: float | None
    grey_percent: float | None
    left_edge: float
    right_edge: float
    confidence: float
    says: str = ""
    left_depth_percent: float | None = None
    right_depth_percent: float | None = None
    cured_mm: float | None = None
    pale_mm: float | None = None
    grey_mm: float | None = None
    left_depth_mm: float | None = None
    right_depth_mm: float | None = None
    bands: tuple[tuple[float, float, str], ...] = ()
    left_out: tuple[tuple[str, float], ...] = ()

    @property
    def known(self) -> bool:
        return self.grey_percent is not None

    @property
    def left_out_percent(self) -> float:
        """How much of the way between the edges is no part of the shares [%]."""
        return sum(percent for _, percent in self.left_out)

    def drawn_percent(self, kind: str) -> float:
        """How much of the way between the edges the bands of a kind take up, fat and all [%]."""
        drawn = sum(end - begin for begin, end, band in self.bands if band == kind)
        return 100.0 * drawn / (self.right_edge - self.left_edge)


def read_off(
    shape: Profile,
    lean: list[int],
    marks: list[Band],
    rings: int,
    sure: float,
    says: str,
    thickness_mm: float | None,
) -> CureLine:
    """Shares, depths and bands of marked places, so many more left out as a smoke ring."""
    part = {band: 100.0 * marks.count(band) / len(marks) for band in BANDS}
    spans: list[tuple[float, float, str]] = []
    for i, mark in zip(lean, marks, strict=True):
        place = shape.places[i]
        if spans and spans[-1][2] == mark:
            spans[-1] = (spans[-1][0], place, mark)
        else:
            spans.append((place, place, mark))
    across, half = shape.right - shape.left, 0.5 * (shape.places[1] - shape.places[0])
    within = _without_strips(spans, _EDGE_STRIP * across)
    inner = [(start, end) for start, end, mark in within if mark != "cured"]
    # Cured all the way: both depths meet in the middle.
    first, last = (inner[0][0], inner[-1][1]) if inner else (0.5 * (shape.left + shape.right),) * 2
    from_left = 100.0 * min(1.0, max(0.0, (first - shape.left) / across))
    from_right = 100.0 * min(1.0, max(0.0, (shape.right - last) / across))
    if within[0][2] != "cured":
        from_left = 0.0
    if within[-1][2] != "cured":
        from_right = 0.0

    def mm(percent: float) -> float | None:
        return None if thickness_mm is None else percent * thickness_mm / 100.0

    return CureLine(
        part["cured"],
        part["pale"],
        part["grey"],
        shape.left,
        shape.right,
        sure,
        says,
        from_left,
        from_right,
        mm(part["cured"]),
        mm(part["pale"]),
        mm(part["grey"]),
        mm(from_left),
        mm(from_right),
        tuple((start - half, end + half, mark) for start, end, mark in spans),
        _left_out(shape, rings),
    )


def _left_out(shape: Profile, rings: int) -> tuple[tuple[str, float], ...]:
    """What between the edges is none of the lean that is shared out, the most first."""
    inside: list[str] = [
        kind
        for place, kind in zip(shape.places, shape.stuff, strict=True)
        if shape.left <= place <= shape.right and kind != "board"
    ]
    counts = {kind: inside.count(kind) for kind in _NO_LEAN} | {"ring": rings}
    most = sorted(counts.items(), key=lambda one: -one[1])
    return tuple((kind, 100.0 * count / len(inside)) for kind, count in most if count)


def _without_strips(
    spans: list[tuple[float, float, str]], thin: float
) -> list[tuple[float, float, str]]:
    """The bands but for a strip at either edge that is half fat or half bark: it does not take
    the depth of the cured meat behind it."""
    first, last = 0, len(spans)
    if last > 1 and spans[1][2] == "cured" and spans[0][1] - spans[0][0] < thin:
        first = 1
    if last > 1 + first and spans[-2][2] == "cured" and spans[-1][1] - spans[-1][0] < thin:
        last -= 1
    return spans[first:last]
