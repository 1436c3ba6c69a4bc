"""Dividing the lean of a line into cured, pale and grey by its runs."""

from math import exp, inf

from attrs import define

from app.colour.bands import BANDS, Band
from app.colour.fronts import NARROW_PALE, chance_of_pale, put_likely_pale, widths
from app.colour.profile import Profile
from app.colour.tone import Levels

# Judgements, in the scale 0 grey to 1 cured: what one band varies by, and the most one place and
# a change of band cost. A place near fat, or on a slope so steep over four places, says less: it
# is a bound seen blurred.
_SPREAD, _MOST_OFF, _CHANGE = 0.125, 4.5, 3.0
_UNCLEAN, _STEEP = 0.3, 0.4
# Chance of a narrow pale band above which it is there, and below which it is not.
_SURELY, _HARDLY = 0.85, 0.15
_LEAST_PLATEAU = 0.03  # of the lean: a tone held by less is no plateau
_NEAR, _CROWD, _MOST_TONES = 0.9, 0.75, 5  # times what one tone varies by, from its middle
# Of the lean: a narrower band inside another is fat or glare; and so is a wider one that lies
# beside fat left out, or is lighter than the cured meat on both sides by so much, in log light.
_LEAST_BAND, _LEAST_FATTY, _LIGHTER = 0.018, 0.05, 0.08
_SIDE = 6  # places to either side that are cured meat's own
_STEP = 0.5  # of a block: a shorter run between two tones is a step of coarse colour
_RIM = 0.03  # of the lean: a narrower uncured rim is board or fat seen blurred


@define
class Piece:
    """One run of lean: its places, those far enough from fat, and their mean tone."""

    places: list[int]
    pure: list[int]
    s: float
    sure: bool = True


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
    block: float,
) -> dict[int, Band]:
    """A band for each place of lean, by which the whole line is likeliest.

    A place costs ½ ((t − band) / spread)² and a change of band as much as some places amiss, so
    that a bound lies midway between the tones on both sides of it. Where no pale tone of its own
    was told between grey and cured, the fronts between them tell by their width how likely one
    too narrow for that is; where it may be either, their bounds lie in between.

    Parameters
    ----------
    shape : the line
    found : its pieces of lean
    ends : the cured and grey ends
    pale : how far a pale tone of its own has turned, None where there is none
    coarse : one step of stored colour, of the way from grey to cured [1]
    block : places over which the picture holds one colour

    Returns
    -------
    Band by place
    """
    lean = [i for piece in found for i in piece.places]
    turned = [ends.turned(shape.tones[i].s) for i in lean]
    says = [
        (1.0 if shape.clean[i] else _UNCLEAN) / (1.0 + ((after - before) / _STEEP) ** 2)
        for i, before, after in zip(
            lean, turned[:2] + turned[:-2], turned[2:] + turned[-2:], strict=True
        )
    ]
    grey = ends.kind == "grey"
    chance = chance_of_pale(widths(lean, turned), block) if pale is None and grey else 0.0
    if chance > _SURELY:
        pale = NARROW_PALE
    marked = _likeliest(turned, says, pale, _SPREAD + coarse, grey)
    if _HARDLY < chance <= _SURELY:
        put_likely_pale(marked, turned, chance)
    marks = dict(zip(lean, marked, strict=True))
    _smooth(shape, marks)
    return marks


def _likeliest(
    turned: list[float], says: list[float], pale: float | None, spread: float, grey: bool
) -> list[Band]:
    """The likeliest bands (Viterbi): cured, pale where it has a tone, and grey where there is
    any."""
    weight, middle = 0.5 / (spread * spread), 0.5 if pale is None else pale
    to_grey, to_pale = 0.0 if grey else inf, inf if pale is None else 0.0
    dull, mid, red = to_grey, to_pale, 0.0
    came: list[tuple[int, int, int]] = []
    for t, say in zip(turned, says, strict=True):
        least = min(dull, mid, red)
        at = 0 if dull == least else 1 if mid == least else 2
        over = least + _CHANGE
        came.append((0 if dull <= over else at, 1 if mid <= over else at, 2 if red <= over else at))
        most, say = _MOST_OFF * say, weight * say
        dull = min(dull, over) + to_grey
        mid = min(mid, over) + to_pale + min(most, say * (t - middle) ** 2)
        red = min(red, over)
        # Beyond an end nothing is amiss.
        if t > 0.0:
            dull += min(most, say * t * t)
        if t < 1.0:
            red += min(most, say * (1.0 - t) ** 2)
    costs = (dull, mid, red)
    at = costs.index(min(costs))
    marked: list[Band] = []
    for step in reversed(came):
        marked.append(BANDS[at])
        at = step[at]
    return marked[::-1]


def _beside_fat(shape: Profile, marks: dict[int, Band], span: list[int]) -> bool:
    """Whether a stretch of lean touches what was left out, or is a streak of fat seen blurred."""
    first, last = span[0], span[-1]
    if not all(i in marks for i in range(first - 1, last + 2)):
        return True
    sides = (*range(first - _SIDE, first), *range(last + 1, last + 1 + _SIDE))
    light: list[float] = [shape.tones[i].l for i in sides if i in marks]
    brightest: float = max(shape.tones[i].l for i in span)
    return brightest > sum(light) / len(light) + _LIGHTER


def _smooth(shape: Profile, marks: dict[int, Band]) -> None:
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
        fatty = before == "cured" and _beside_fat(shape, marks, spans[k])
        least = _LEAST_FATTY if fatty else _LEAST_BAND
        if before == after and len(spans[k]) < least * n:
            for i in spans[k]:
                marks[i] = before
    for way in (order, order[::-1]):
        rim = next((k for k, i in enumerate(way) if marks[i] == "cured"), n)
        if 0 < rim < _RIM * n and all(marks[i] == "cured" for i in way[rim : rim + 8]):
            for i in way[:rim]:
                marks[i] = "cured"
