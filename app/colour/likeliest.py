"""The likeliest reading of a slice's tones: which is grey, which pale, cured or smoke ring.

The tones of one slice are held together against what beef looks like in daylight and, where no
white was measured, against what lamps do to it.
"""

from collections.abc import Sequence
from functools import cache
from itertools import combinations_with_replacement, groupby
from math import exp, inf, log
from typing import Literal

from attrs import frozen

from app.colour.lab import Triple
from app.colour.tone import Kind, Levels, as_daylight, at_meat_lightness
from app.colour.white_point import WhitePoint

Meaning = Literal["grey", "pale", "cured", "ring"]
MEANINGS: tuple[Meaning, ...] = ("grey", "pale", "cured", "ring")

# Redness q = a* − 0.4 b* at L* 54 and how much it differs from slice to slice, below and above.
# Grey well-done beef a* 3-7, b* 10-15; cured beef a* 13-21, b* 7-12 and redder in some light
# (from memory); pale lies about midway (judgement). Spreads, here and below, and what is how
# usual are judgements too, tried on slices drawn by several hands; none is shared with a drawing.
_REDNESS = {"grey": (0.3, 2.0, 2.2), "pale": (5.4, 2.4, 2.0), "cured": (15.0, 2.7, 12.0)}
# Their b*, which says less, and the most it says.
_YELLOW, _YELLOW_SPREAD, _YELLOW_MOST = (12.5, 11.0, 7.0, 7.0), 3.8, 4.0
_RING_REDDER, _RING_ALONE = (11.0, 2.3), (23.0, 4.0)  # than cured beef, in q; and by itself
_RING_SHARE, _RING_SHARE_SPREAD = 0.12, 0.02  # of the lean, a ring on both sides
# A ring without cured meat: its usual share, how much that differs, and how much likelier the
# usual share makes it. Smoke reaches some millimetres deep, brine further: how much less likely
# a cured rim is, the thinner it is than the thickest ring.
_RING_USUAL, _RING_VARIES, _LONE_RING, _THIN_CURE = 0.055, 0.03, 1.5, 1.2
# Where a tone between grey and cured lies on the way, and what grey and cured leave of it.
_PALE_AT, _GREY_AT = (0.48, 0.1), (0.03, 0.14)
_PALE_BETWEEN = 0.4  # weight of its own redness then
# How usual it is that a slice shows these, in natural logarithms; a thin tone says less.
_USUAL = {
    ("grey", "cured"): 0.0,
    ("grey", "pale", "cured"): -0.3,
    ("pale", "cured"): -2.6,
    ("grey", "pale"): -3.2,
    ("grey",): -1.1,
    ("cured",): -0.7,
    ("pale",): -3.0,
}
# That a ring is there too; the share from which a tone has its full say; the most one costs.
_RING, _THIN, _MOST_OFF = -0.9, 0.07, 6.0
# Bands along the line: pale within grey, grey beside cured although there is pale, and pale between
# both. Light and grain put a second tone anywhere; only cure puts it between.
_WITHIN_GREY, _WITHOUT_PALE, _BETWEEN = 2.0, 1.0, 1.0
# Two tones of one meaning: what that costs, the more the further apart they are, in times what one
# tone varies by, and the most it costs.
_TWICE, _ALIKE, _SPREAD_MOST = 1.3, 0.7, 4.6
# What a camera leaves of a lamp's colour, ln(G/B) of white: mostly little, sometimes all of it.
_LEFT, _ALL_OF_IT = (0.0, 0.12), (-0.2, 1.5)
_UNTOUCHED = 0.24
_RECKONED = 0.08  # the same where a white was reckoned from part of its light
# How far a lamp acts on the cones rather than on a camera's channels, and what that costs.
_BY_CONES = ((0.0, -1.0), (0.5, 0.0), (1.0, -1.0))
_LAMPS = (0.62, -0.05)  # ln(R/G) of a lamp's white: 0.62 v − 0.05 v²
# Fat is cream in daylight, ln(R/G) and ln(G/B), and so is told apart from its lamp.
_CREAM = ((0.19, 0.1), (0.25, 0.12))


@frozen
class Seen:
    """One tone of the lean: its cure tone, its light, its share of the lean, and whether it lies
    at the edges only."""

    s: float
    light: Triple
    share: float
    rim: bool = False


@frozen
class Reading:
    """What the tones mean, in their order from dull to red.

    `grey`, `pale`, `cured` and `ring` are cure tones; grey and cured are reckoned where the slice
    has none, the others are None then. `ahead` is by how much the reading is likelier than
    the next that differs, in natural logarithms.
    """

    meanings: tuple[Meaning, ...]
    grey: float
    pale: float | None
    cured: float
    ring: float | None
    ahead: float

    def ends(self, own: float) -> Levels:
        """Its cured and grey ends, each tone varying by `own`."""
        shown = set(self.meanings) - {"ring"}
        two = len(shown) > 1
        span = self.cured - self.grey
        return Levels(self.cured, self.grey, two, self.dullest, span, own, self.certainty)

    @property
    def dullest(self) -> Kind:
        first = self.meanings[0]
        return "cured" if first == "ring" else first

    @property
    def certainty(self) -> float:
        return certainty(self.ahead)


def certainty(ahead: float) -> float:
    """0.5 where another reading is as likely, towards 1 where none is.

    Examples
    --------
    >>> certainty(0.0)
    0.5
    """
    return 1.0 - 0.5 * exp(-ahead)


def likeliest(
    seen: Sequence[Seen],
    own: float,
    white: WhitePoint | None,
    fat: Triple | None = None,
    order: Sequence[int] = (),
) -> Reading:
    """The likeliest reading of tones, from dull to red.

    Of all readings in which no tone is less cured than a duller one, under all lamps that may
    have lit the slice, the one with the greatest likelihood: normal distributions of redness
    and of b*, of how far a tone between has turned, and of what a camera leaves of a lamp; and
    of how the bands follow each other.

    Parameters
    ----------
    seen : tones in order of s, at least one; their lights balanced by `white`
    own : what one tone varies by, in s
    white : the light's white, if it is known
    fat : light of the slice's fat, balanced likewise, if there is any
    order : the tones along the line, as numbers of those seen; empty where they have no order

    Returns
    -------
    Reading

    Examples
    --------
    >>> cured, pale = Seen(0.7, (0.37, 0.177, 0.162), 0.6), Seen(0.42, (0.3, 0.184, 0.146), 0.4)
    >>> from app.colour.white_point import from_neutral
    >>> likeliest([pale, cured], 0.05, from_neutral((200, 200, 200))).meanings
    ('pale', 'cured')
    """
    best: dict[tuple[Meaning, ...], tuple[float, tuple[float, ...]]] = {}
    for lamp_cost, colours in _under_lamps(seen, white, fat):
        for meanings in combinations_with_replacement(MEANINGS, len(seen)):
            score = _score(seen, meanings, colours, own) + lamp_cost + _order(order, meanings)
            if score > best.get(meanings, (-inf, ()))[0]:
                best[meanings] = score, tuple(q for q, _ in colours)
    chosen = max(best, key=lambda meanings: best[meanings][0])
    score, reds = best[chosen]
    others = [other for m, (other, _) in best.items() if _differ(seen, m, chosen)]
    grey, pale, cured = _levels(seen, chosen, reds)
    rings = [tone.s for tone, m in zip(seen, chosen, strict=True) if m == "ring"]
    ring = min(rings, default=None)
    return Reading(chosen, grey, pale, cured, ring, score - max(others, default=-inf))


def _order(order: Sequence[int], meanings: tuple[Meaning, ...]) -> float:
    """How much likelier the bands make a reading by how they follow each other: pale lies between
    grey and cured, not within grey."""
    if not {"grey", "pale"} <= set(meanings):
        return 0.0
    bands = [band for band, _ in groupby(meanings[k] for k in order)]
    score = 0.0
    for before, band, after in zip(["", *bands], bands, [*bands[1:], ""], strict=False):
        beside = {before, after}
        if band == "pale" and beside == {"grey"}:
            score -= _WITHIN_GREY
        elif band == "pale" and beside >= {"grey", "cured"}:
            score += _BETWEEN
        elif "cured" in meanings and {band, after} == {"grey", "cured"}:
            score -= _WITHOUT_PALE
    return score


def _under_lamps(
    seen: Sequence[Seen], white: WhitePoint | None, fat: Triple | None
) -> list[tuple[float, list[tuple[float, float]]]]:
    """Log likelihood of each lamp, and the redness and b* of the tones under it."""
    if white is not None and white.sure:
        return [
            (cost, [_colour(as_daylight(tone.light, white, part)) for tone in seen])
            for part, cost in _BY_CONES
        ]
    found, gains = [], _raw_gains(white)
    for step in range(-4, 5) if white is not None and not white.by_fat else range(-2, 16):
        if white is not None and not white.by_fat:
            v = 0.05 * step
            cost = -0.5 * (v / _RECKONED) ** 2
        else:
            v = 0.1 * step
            left = exp(-0.5 * ((v - _LEFT[0]) / _LEFT[1]) ** 2) / (2.507 * _LEFT[1])
            whole = 1.0 / (_ALL_OF_IT[1] - _ALL_OF_IT[0])
            cost = log((1.0 - _UNTOUCHED) * left + _UNTOUCHED * whole)
        u = _LAMPS[0] * v + _LAMPS[1] * v * v
        lit = gains[0] * exp(-u), 1.0, gains[2] * exp(v)

        if fat is not None:
            r, g, b = (max(c, 1e-6) for c in _times(fat, lit))
            for ratio, (usual, spread) in zip((log(r / g), log(g / b)), _CREAM, strict=True):
                cost -= min(_MOST_OFF, 0.5 * ((ratio - usual) / spread) ** 2)
        found.append((cost, [_colour(_times(tone.light, lit)) for tone in seen]))
    return found


def _raw_gains(white: WhitePoint | None) -> Triple:
    """What undoes a balance that was only taken from the fat."""
    if white is None or not white.by_fat:
        return 1.0, 1.0, 1.0
    return 1.0 / white.gains[0], 1.0, 1.0 / white.gains[2]


def _times(light: Triple, gains: Triple) -> Triple:
    return light[0] * gains[0], light[1] * gains[1], light[2] * gains[2]


def _colour(light: Triple) -> tuple[float, float]:
    a, b = at_meat_lightness(light)
    return a - 0.4 * b, b


@cache
def _usual(meanings: tuple[Meaning, ...]) -> float:
    shown = tuple(m for m in MEANINGS if m in meanings)
    without = tuple(m for m in shown if m != "ring")
    return _USUAL.get(without, -9.0) + (_RING if "ring" in shown else 0.0)


def _off(value: float, usual: float, spread: float) -> float:
    return min(_MOST_OFF, 0.5 * ((value - usual) / spread) ** 2)


def _score(
    seen: Sequence[Seen],
    meanings: tuple[Meaning, ...],
    colours: list[tuple[float, float]],
    own: float,
) -> float:
    score = _usual(meanings)
    red: dict[Meaning, float] = {}
    for k, meaning in enumerate(MEANINGS):
        group = [i for i, m in enumerate(meanings) if m == meaning]
        if not group:
            continue
        weight = sum(seen[i].share for i in group)
        say = min(1.0, weight / _THIN)
        q = sum(seen[i].share * colours[i][0] for i in group) / weight
        b = sum(seen[i].share * colours[i][1] for i in group) / weight
        s = sum(seen[i].share * seen[i].s for i in group) / weight
        red[meaning] = q
        if meaning == "ring":
            if not all(seen[i].rim for i in group):
                return -inf
            if "cured" in red:
                score -= max(0.0, weight - _RING_SHARE) / _RING_SHARE_SPREAD
            else:
                score += _LONE_RING - 0.5 * ((weight - _RING_USUAL) / _RING_VARIES) ** 2
            usual, spread = _RING_REDDER
            score -= say * (
                _off(q - red["cured"], usual, spread) if "cured" in red else _off(q, *_RING_ALONE)
            )
            score -= say * min(_YELLOW_MOST, _off(b, _YELLOW[k], _YELLOW_SPREAD))
            continue
        if meaning == "cured" and all(seen[i].rim for i in group):
            score -= _THIN_CURE * max(0.0, 1.0 - weight / _RING_SHARE)
        usual, below, above = _REDNESS[meaning]
        # Between grey and cured a pale tone is known by its place on the way too.
        part = _PALE_BETWEEN if meaning == "pale" and {"grey", "cured"} <= set(meanings) else 1.0
        score -= part * say * _off(q, usual, below if q < usual else above)
        score -= say * min(_YELLOW_MOST, _off(b, _YELLOW[k], _YELLOW_SPREAD))
        score += _TWICE if len(group) > 1 else 0.0
        for i in group:
            off = (seen[i].s - s) / (_ALIKE * own)
            cost = min(_SPREAD_MOST, 0.5 * off * off) + (_TWICE if len(group) > 1 else 0.0)
            score -= min(1.0, seen[i].share / _THIN) * cost
    if "cured" in red:
        end = red.get("grey", _REDNESS["grey"][0])
        whole = max(red["cured"] - end, 1.0)
        if "pale" in red:
            score -= _off((red["pale"] - end) / whole, *_PALE_AT)
        if "grey" in red:
            nominal = _REDNESS["grey"][0]
            score -= _off((end - nominal) / max(red["cured"] - nominal, 1.0), *_GREY_AT)
    return score


def _differ(seen: Sequence[Seen], one: tuple[Meaning, ...], other: tuple[Meaning, ...]) -> bool:
    """Whether two readings disagree about a tone that matters."""
    return any(
        a != b and "ring" not in (a, b) and tone.share > 0.03
        for tone, a, b in zip(seen, one, other, strict=True)
    )


def _levels(
    seen: Sequence[Seen], meanings: tuple[Meaning, ...], reds: tuple[float, ...]
) -> tuple[float, float | None, float]:
    """Cure tones of grey, pale and cured; what is missing is reckoned by redness."""
    at: dict[Meaning, float] = {}
    red: dict[Meaning, float] = {}
    for meaning in MEANINGS:
        group = [i for i, m in enumerate(meanings) if m == meaning]
        weight = sum(seen[i].share for i in group)
        if group:
            at[meaning] = sum(seen[i].share * seen[i].s for i in group) / weight
            red[meaning] = sum(seen[i].share * reds[i] for i in group) / weight
    pale = at.get("pale")
    if "grey" in at and "cured" in at:
        return at["grey"], pale, at["cured"]
    if pale is not None and "cured" in at:
        turned = min(0.6, max(0.3, red["pale"] / max(red["cured"], 1.0)))
        return at["cured"] - (at["cured"] - pale) / (1.0 - turned), pale, at["cured"]
    if pale is not None and "grey" in at:
        return at["grey"], pale, at["grey"] + (pale - at["grey"]) / _PALE_AT[0]
    only, level = next((m, s) for m, s in at.items() if m != "ring")
    below = {"grey": 0.0, "pale": _PALE_AT[0], "cured": 1.0}[only] * _WHOLE
    return level - below, pale, level - below + _WHOLE


_WHOLE = 0.5  # from grey to cured, in s, where only one of both was seen
