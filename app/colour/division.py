"""Dividing the lean of a line into cured, pale and grey by its runs."""

from itertools import pairwise
from math import exp

from attrs import define

from app.colour.bands import BANDS, Band
from app.colour.profile import Profile
from app.colour.tone import Levels

# Judgements, in the scale 0 grey to 1 cured: a run this far from grey shows pink, and one
# this near to cured lacks nothing; both where noise and coarse colour leave no doubt.
_PINK, _CURED = 0.11, 0.74
_SPREAD, _SHARP, _MOST_OFF, _CHANGE = 0.12, 0.08, 9.0, 0.8
_LEAST_PLATEAU = 0.03  # of the lean: a tone held by less is no plateau
_NEAR, _CROWD, _MOST_TONES = 0.9, 0.6, 5  # times what one tone varies by, from its middle
_LEAST_BAND = 0.018  # of the lean: a narrower band inside another is fat or glare
_STEP = 0.5  # of a block: a shorter run between two tones is a step of coarse colour
# How far a bound may lie halfway to an even pale band; what is within so much of the usual tone,
# of the way from grey to cured, is near it; and how much of a slope and of an even band is near.
_HALFWAY, _ONE_TONE, _SPREAD_OUT = (0.08, 0.4), 0.11, (0.5, 0.72)
_SLOPE = 0.25  # of the way from grey to cured: where a slope first shows pink
_WIDE = 1.8  # times the picture's blur, from which a change is no sharp bound
_RIM = 0.03  # of the lean: a narrower uncured rim is board or fat seen blurred


@define
class Piece:
    """One run of lean: its places, those far enough from fat, and their mean tone."""

    places: list[int]
    pure: list[int]
    s: float
    sure: bool = True
    band: Band = "cured"


def pieces(shape: Profile, blur: int, block: float) -> list[Piece]:
    """The runs of lean along a line, with what can be trusted of each.

    A short run whose tone lies between those of its neighbours is their bound seen blurred.

    Parameters
    ----------
    shape : the line
    blur : places over which the picture mixes neighbours
    block : places over which the picture holds one colour, twice eight pixels

    Returns
    -------
    Pieces in order; those not `sure` have no tone of their own
    """
    found: list[Piece] = []
    for run in shape.found:
        places = [i for i in range(run.start, run.stop) if shape.stuff[i] == "lean"]
        if not places:
            continue
        pure = [i for i in places if shape.clean[i]]
        told = pure or places
        s = sum(shape.tones[i].s for i in told) / len(told)
        found.append(Piece(places, pure, s, len(pure) >= 2))
    least = max(blur + 2, _RIM * sum(len(piece.places) for piece in found))
    for k, piece in enumerate(found):
        if k in (0, len(found) - 1):
            # What is left of board or bark there.
            piece.sure = piece.sure and (len(piece.places) > least or len(found) < 3)
        elif len(piece.places) <= max(blur + 2, _STEP * block):
            low, high = sorted((found[k - 1].s, found[k + 1].s))
            if low < piece.s < high:
                piece.sure = False
    return found


def tones(found: list[Piece], own: float) -> list[list[Piece]]:
    """The tones the lean is made of, each as the pieces that have it, from dull to red.

    The tone that most of the lean has is taken first, then that of most of the rest, until
    what is left are slopes and specks.

    Parameters
    ----------
    found : pieces of lean
    own : what one tone varies by, from noise and coarse colour [1]

    Returns
    -------
    Pieces by tone, at most five tones; empty where no piece has a tone of its own
    """
    rest = sorted((p for p in found if p.sure), key=lambda p: p.s)
    total = sum(len(p.pure) for p in rest)
    least = max(2.0, _LEAST_PLATEAU * total)
    told: list[list[Piece]] = []
    while rest and len(told) < _MOST_TONES:

        def held(at: float, among: list[Piece]) -> float:
            return sum(len(p.pure) * exp(-0.5 * ((p.s - at) / (_CROWD * own)) ** 2) for p in among)

        middle = max((p.s for p in rest), key=lambda at: held(at, rest))
        for _ in range(3):
            near = [p for p in rest if abs(p.s - middle) <= _NEAR * own]
            middle = sum(p.s * len(p.pure) for p in near) / max(1, sum(len(p.pure) for p in near))
        near = [p for p in rest if abs(p.s - middle) <= _NEAR * own]
        if not near:
            break
        if sum(len(p.pure) for p in near) >= least or not told:
            told.append(near)
        rest = [p for p in rest if p not in near]
    return sorted(told, key=mean_tone)


def mean_tone(alike: list[Piece]) -> float:
    """Mean cure tone s of pieces, by their places."""
    return sum(p.s * len(p.pure) for p in alike) / max(1, sum(len(p.pure) for p in alike))


def divide(
    shape: Profile,
    found: list[Piece],
    ends: Levels,
    pale: float | None,
    coarse: float,
    blur: int,
    block: float,
) -> dict[int, Band]:
    """A band for each place of lean.

    Parameters
    ----------
    shape : the line
    found : its pieces of lean
    ends : the cured and grey ends
    pale : how far a pale tone of its own has turned, None where there is none
    coarse : one step of stored colour, of the way from grey to cured [1]
    blur : places over which the picture mixes neighbours
    block : places over which the picture holds one colour, twice eight pixels

    Returns
    -------
    Band by place
    """
    trusted = [p for p in found if p.sure] or found
    _name(trusted, ends, pale, coarse, block)
    marks: dict[int, Band] = {}
    for piece in trusted:
        for i in piece.places:
            marks[i] = piece.band
    _bound(shape, found, trusted, marks, blur, ends)
    _smooth(marks)
    return marks


def _name(
    trusted: list[Piece], ends: Levels, pale: float | None, coarse: float, block: float
) -> None:
    """Give every trusted piece the band that makes the whole line likeliest (Viterbi).

    A change of band costs as much as some places amiss, so that one piece of coarse colour
    within the grey core is not taken for pale.
    """
    spread = _SPREAD + coarse
    # A pale tone of its own is as far from its neighbours as their middle; on a slope pale is
    # whatever shows pink and lacks something.
    first, last, sharp = 2.0 * _PINK, 2.0 * _CURED - 1.0, _SHARP
    if pale is not None:
        first, last, sharp = pale, pale, spread
    costs = [0.0, 0.0, 0.0]
    came: list[list[int]] = []
    for piece in trusted:
        t = ends.turned(piece.s)
        say = 0.5 * max(0.4, len(piece.pure) / block)
        off = (
            max(0.0, t) / spread,
            max(first - t, t - last, 0.0) / sharp,
            max(0.0, 1.0 - t) / spread,
        )
        step = [
            min(range(3), key=lambda k: costs[k] + (_CHANGE if k != j else 0.0)) for j in range(3)
        ]
        costs = [
            costs[step[j]] + (_CHANGE if step[j] != j else 0.0) + say * min(_MOST_OFF, off[j] ** 2)
            for j in range(3)
        ]
        came.append(step)
    at = min(range(3), key=costs.__getitem__)
    for piece, step in zip(reversed(trusted), reversed(came), strict=True):
        piece.band = BANDS[at]
        at = step[at]


def _bound(
    shape: Profile,
    found: list[Piece],
    trusted: list[Piece],
    marks: dict[int, Band],
    blur: int,
    ends: Levels,
) -> None:
    """Set the bounds between bands where the tone passes from one to the other."""
    lean = [i for piece in found for i in piece.places]
    at = {i: k for k, i in enumerate(lean)}
    for i in lean[: at[trusted[0].places[0]]]:
        marks[i] = trusted[0].band
    for i in lean[at[trusted[-1].places[-1]] :]:
        marks[i] = trusted[-1].band
    for a, b in pairwise(trusted):
        first = max(at[a.places[0]], at[a.places[-1]] - blur)
        last = min(at[b.places[-1]], at[b.places[0]] + blur)
        between = lean[first + 1 : last]
        if a.band == b.band:
            for i in between:
                marks[i] = a.band
        elif {a.band, b.band} != {"grey", "pale"}:
            _cross(shape, between, a, b, marks, blur)
    _end_of_grey(shape, lean, at, trusted, marks, blur, ends)


def _end_of_grey(
    shape: Profile,
    lean: list[int],
    at: dict[int, int],
    trusted: list[Piece],
    marks: dict[int, Band],
    blur: int,
    ends: Levels,
) -> None:
    """Set the bound between grey and pale: halfway to an even pale band, or a quarter of the way
    up a slope from grey to cured, wherever on the slope that lies."""
    for way in (1, -1):
        order = trusted[::way]
        for k, grey in enumerate(order[:-1]):
            if grey.band != "grey" or order[k + 1].band != "pale":
                continue
            slope = order[k + 1 :]
            stop = next((j for j, p in enumerate(slope) if p.band != "pale"), len(slope))
            even, middle = _evenness(shape, slope[:stop], ends)
            half = min(_HALFWAY[1], max(_HALFWAY[0], 0.5 * middle))
            share = even * half + (1.0 - even) * _SLOPE
            level = ends.grey + share * (ends.cured - ends.grey)
            inner = grey.places[::way]
            begin, end = at[inner[0]], at[slope[stop - 1].places[::way][-1]]
            places = lean[begin : end + way : way] if end + way >= 0 else lean[begin::way]
            held = _held_below(shape, places, level)
            for j, i in enumerate(places):
                if j < held:
                    marks[i] = "grey"
                elif marks.get(i, "grey") == "grey":
                    marks[i] = "pale"


def _evenness(shape: Profile, pale: list[Piece], ends: Levels) -> tuple[float, float]:
    """1 for a pale band of one tone, 0 for a slope, and how far it has turned.

    By how much of it lies near its usual tone: of a slope that is half at most.
    """
    turned = sorted(ends.turned(shape.tones[i].s) for p in pale for i in p.pure)
    if not turned:
        return 0.0, 0.5
    middle = turned[len(turned) // 2]
    near = sum(1 for t in turned if abs(t - middle) < _ONE_TONE) / len(turned)
    return min(1.0, max(0.0, (near - _SPREAD_OUT[0]) / (_SPREAD_OUT[1] - _SPREAD_OUT[0]))), middle


def _held_below(shape: Profile, places: list[int], level: float) -> int:
    """Places from the first up to where this tone is passed for good."""
    best, score, so_far = 0, 0.0, 0.0
    for k, i in enumerate(places, 1):
        so_far += (1.0 if shape.clean[i] else 0.1) * (1.0 if shape.tones[i].s < level else -1.0)
        if so_far > score:
            best, score = k, so_far
    return best


def _cross(
    shape: Profile, between: list[int], a: Piece, b: Piece, marks: dict[int, Band], blur: int
) -> None:
    """Mark the places between two trusted pieces of different bands.

    A narrow change is a sharp bound seen blurred, and is divided at its middle; a wide one
    between grey and cured is pale from where pink first shows to where none is lacking.
    """
    dull, red = (a, b) if a.s < b.s else (b, a)
    inward = between if a is dull else between[::-1]

    def until(share: float) -> int:
        return _held_below(shape, inward, dull.s + share * (red.s - dull.s))

    first, last = until(0.2), until(0.8)
    wide = min(1.0, max(0.0, (last - first) / (0.6 * _WIDE * blur) - 1.0))
    share = 0.5 - (0.5 - _SLOPE) * wide if dull.band == "grey" and wide > 0.0 else 0.5
    grey_end = until(share)
    cured_end = until(1.0 - share) if red.band == "cured" and dull.band == "grey" else grey_end
    for k, i in enumerate(inward):
        marks[i] = dull.band if k < grey_end else "pale" if k < cured_end else red.band


def _smooth(marks: dict[int, Band]) -> None:
    """Take narrow bands inside another and thin uncured rims into what lies beside them."""
    order = sorted(marks)
    n = len(order)
    spans: list[list[int]] = []
    for i in order:
        if spans and marks[spans[-1][0]] == marks[i]:
            spans[-1].append(i)
        else:
            spans.append([i])
    for k in range(1, len(spans) - 1):
        before, after = marks[spans[k - 1][0]], marks[spans[k + 1][0]]
        if before == after and len(spans[k]) < _LEAST_BAND * n:
            for i in spans[k]:
                marks[i] = before
    for way in (order, order[::-1]):
        rim = next((k for k, i in enumerate(way) if marks[i] == "cured"), n)
        if 0 < rim < _RIM * n and all(marks[i] == "cured" for i in way[rim : rim + 8]):
            for i in way[:rim]:
                marks[i] = "cured"
