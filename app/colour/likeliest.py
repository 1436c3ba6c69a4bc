"""The likeliest reading of a slice's tones: which is grey, which pale, cured or smoke ring.

The tones of one slice are held together against what beef looks like in daylight and, where no
white was measured, against what lamps do to it.
"""

from collections.abc import Sequence
from itertools import combinations_with_replacement, groupby
from math import exp, inf, log
from typing import Literal

from attrs import frozen

from app.colour.beef_redness import lean_likelihood, log_normal, ring_likelihood
from app.colour.lab import Triple
from app.colour.tone import Kind, Levels, as_daylight, at_meat_lightness
from app.colour.white_point import WhitePoint

Meaning = Literal["grey", "pale", "cured", "ring"]
MEANINGS: tuple[Meaning, ...] = ("grey", "pale", "cured", "ring")

# Usual b* of each and how much it differs, which says little, and the most it says. What is how
# usual, here and below, are judgements, tried on slices drawn by several hands; none is shared
# with a drawing.
_YELLOW, _YELLOW_SPREAD, _YELLOW_MOST = (12.5, 11.0, 7.0, 7.0), 3.8, 4.0
# How usual it is that a slice shows these, in natural logarithms, and a ring as well: beside cured
# meat, and without any.
_USUAL: dict[tuple[Meaning, ...], float] = {
    ("grey", "pale", "cured"): -1.8,
    ("grey", "cured"): -1.5,
    ("pale", "cured"): -1.8,
    ("grey", "pale"): -4.2,
    ("grey",): -2.2,
    ("pale",): -5.8,
    ("cured",): -0.7,
}
_UNUSUAL, _RING, _LONE_RING = -9.0, -1.4, -1.6
# Smoke comes from all sides, brine need not: what a lone ring at one end of the line costs.
_ONE_END = 2.0
# Share of the lean: pale, with grey and without, falls off by it; a ring, on both sides, is about
# so much. Smoke reaches some millimetres deep, brine further: a cured rim is the less likely, the
# thinner it is than the thickest ring.
_PALE_SHARE, _PALE_SHARE_NO_GREY, _RING_SHARE = 0.13, 0.25, (0.06, 0.05)
_THIN_CURE, _THICKEST_RING = 1.7, 0.12
# The share from which a tone has its full say.
_THIN = 0.07
# How far a further tone of one meaning lies from the first, in s, and the most that costs: the rest
# of a grey or cured part, in another light or grain.
_SCATTER, _SCATTER_MOST = 0.086, 30.0
_FURTHER = -log_normal(0.0, (0.0, 2.4))  # the same scatter in redness, at its likeliest
# Bands along the line: pale within grey, grey beside cured although there is pale, and pale between
# both. Light and grain put a second tone anywhere; only cure puts it between.
_WITHIN_GREY, _WITHOUT_PALE, _BETWEEN = 2.0, 1.4, 1.0
_MOST_OFF, _LEAN_MOST = 6.0, 16.0  # the most that fat costs a lamp, and redness a reading
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
    """One tone of the lean: its cure tone, its light, its share of the lean, whether it lies at the
    edges only, and at how many ends of the line something is about as red."""

    s: float
    light: Triple
    share: float
    rim: bool = False
    ends: int = 2


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
    white: WhitePoint | None,
    fat: Triple | None = None,
    order: Sequence[int] = (),
) -> Reading:
    """The likeliest reading of tones, from dull to red.

    Of all readings in which no tone is less cured than a duller one, under all lamps that may
    have lit the slice, the one with the greatest likelihood: normal densities of redness and of
    b*, of how far tones of one meaning lie apart, and of what a camera leaves of a lamp; how much
    of a slice each usually is; and how the bands follow each other.

    Parameters
    ----------
    seen : tones in order of s, at least one; their lights balanced by `white`
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
    >>> likeliest([pale, cured], from_neutral((200, 200, 200))).meanings
    ('pale', 'cured')
    """
    lamps = _under_lamps(seen, white, fat)
    best: dict[tuple[Meaning, ...], tuple[float, tuple[float, ...]]] = {}
    for meanings in combinations_with_replacement(MEANINGS, len(seen)):
        held = _held(seen, meanings)
        if "ring" in held and not all(seen[i].rim for i, _ in held["ring"]):
            continue
        score, colours = max(
            ((cost + _fits(held, colours), colours) for cost, colours in lamps),
            key=lambda fit: fit[0],
        )
        score += _usual(seen, meanings, held) + _order(order, meanings)
        best[meanings] = score, tuple(q for q, _ in colours)
    chosen = max(best, key=lambda meanings: best[meanings][0])
    score, reds = best[chosen]
    others = [other for m, (other, _) in best.items() if _differ(seen, m, chosen)]
    grey, pale, cured = _levels(seen, chosen, reds)
    rings = [tone.s for tone, m in zip(seen, chosen, strict=True) if m == "ring"]
    ring = min(rings, default=None)
    return Reading(chosen, grey, pale, cured, ring, score - max(others, default=-inf))


def colour_likelihood(
    seen: Sequence[Seen],
    meanings: tuple[Meaning, ...],
    white: WhitePoint | None,
    fat: Triple | None = None,
) -> float:
    """How well the redness and b* of tones fit what they are taken for.

    The greatest log density of both under any lamp that may have lit the slice

    Parameters
    ----------
    seen : tones, their lights balanced by `white`
    meanings : what each is taken for
    white : the light's white, if it is known
    fat : light of the slice's fat, balanced likewise, if there is any

    Returns
    -------
    Natural logarithm of a density, to compare readings of one slice by

    Examples
    --------
    >>> from app.colour.white_point import from_neutral
    >>> red, white = [Seen(0.7, (0.37, 0.177, 0.162), 1.0)], from_neutral((200, 200, 200))
    >>> as_cured, as_grey = (colour_likelihood(red, (m,), white) for m in ("cured", "grey"))
    >>> as_cured > as_grey + 10.0
    True
    """
    held = _held(seen, meanings)
    return max(cost + _fits(held, colours) for cost, colours in _under_lamps(seen, white, fat))


Held = dict[Meaning, list[tuple[int, float]]]
"""The tones of each meaning, with how much each tells: the more a tone has, the surer it is."""


def _held(seen: Sequence[Seen], meanings: tuple[Meaning, ...]) -> Held:
    held: Held = {}
    for i, meaning in enumerate(meanings):
        held.setdefault(meaning, []).append((i, seen[i].share ** 2))
    return held


def _usual(seen: Sequence[Seen], meanings: tuple[Meaning, ...], held: Held) -> float:
    """How usual a reading is, whatever the colours: by what there is, how much, how scattered."""
    shown: tuple[Meaning, ...] = tuple(m for m in MEANINGS if m in held and m != "ring")
    score = _USUAL.get(shown, _UNUSUAL)
    for meaning, tones in held.items():
        share = sum(seen[i].share for i, _ in tones)
        if meaning == "ring":
            score += _RING if "cured" in held else _LONE_RING
            if "cured" not in held and all(seen[i].ends < 2 for i, _ in tones):
                score -= _ONE_END
            score += log_normal(share, _RING_SHARE)
        elif meaning == "cured" and all(seen[i].rim for i, _ in tones):
            score -= _THIN_CURE * max(0.0, 1.0 - share / _THICKEST_RING)
        elif meaning == "pale" and "cured" in held:
            usual = _PALE_SHARE if "grey" in held else _PALE_SHARE_NO_GREY
            score -= log(usual) + share / usual
        main = max(tones, key=lambda tone: tone[1])[0]
        for i, _ in tones:
            if i != main:
                off = (seen[i].s - seen[main].s) / _SCATTER
                cost = min(_SCATTER_MOST, 0.5 * off * off) + _FURTHER
                score -= min(1.0, seen[i].share / _THIN) * cost
    return score


def _fits(held: Held, colours: list[tuple[float, float]]) -> float:
    """Log likelihood of the colours of a reading under one lamp."""
    red: dict[Meaning, float] = {}
    score = 0.0
    for meaning, tones in held.items():
        whole = sum(weight for _, weight in tones)
        red[meaning] = sum(weight * colours[i][0] for i, weight in tones) / whole
        yellow = sum(weight * colours[i][1] for i, weight in tones) / whole
        off = (yellow - _YELLOW[MEANINGS.index(meaning)]) / _YELLOW_SPREAD
        score -= min(1.0, whole**0.5 / _THIN) * min(_YELLOW_MOST, 0.5 * off * off)
    if red.keys() != {"ring"}:
        score += max(
            -_LEAN_MOST, lean_likelihood(red.get("grey"), red.get("pale"), red.get("cured"))
        )
    if "ring" in red:
        score += ring_likelihood(red["ring"], red.get("cured"))
    return score


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
            left = exp(log_normal(v, _LEFT))
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
        return at["grey"], pale, at["grey"] + (pale - at["grey"]) / _TURNED
    only, level = next((m, s) for m, s in at.items() if m != "ring")
    below = {"grey": 0.0, "pale": _TURNED, "cured": 1.0}[only] * _WHOLE
    return level - below, pale, level - below + _WHOLE


# From grey to cured, in s, where only one of both was seen, and pale's share of that way.
_WHOLE, _TURNED = 0.5, 0.48
