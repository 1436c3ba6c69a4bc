"""The likeliest reading of a face's lean: which tones it holds, and what each of them means."""

from math import exp, inf, log

from attrs import frozen

from app.colour.crowd import Crowd, CrowdTones, rank, told_apart
from app.colour.lab import Triple
from app.colour.likeliest import Meaning, Seen, certainty, colour_likelihood
from app.colour.white_point import WhitePoint

# Cure tone s in daylight and how much it differs from slice to slice, below and above: grey beef
# a* 3-7, b* 10-15, cured beef a* 13-21, b* 7-12 and redder in vivid pictures (from memory), worked
# out at L* 54; pale meat lies about midway, and a smoke ring is redder than cured meat by less than
# that is than grey (judgements). Then how far cured lies from grey, pale from grey where nothing is
# cured, ring from cured; pale from either of the others; and from cured where nothing is grey.
_GREY, _PALE, _CURED = (0.22, 0.09, 0.07), (0.43, 0.065, 0.065), (0.69, 0.075, 0.35)
_APART, _HALF_APART, _RING = (0.48, 0.11, 0.35), (0.22, 0.05, 0.06), (0.25, 0.08, 0.14)
_STEP, _STEP_ALONE = (0.22, 0.05, 0.4), (0.25, 0.06, 0.08)
# How far pale has turned, where grey is seen and where it is reckoned; and pale alone with cured.
_TURNED, _TURNED_BELOW_GREY, _PALE_WITH_CURED = (
    (0.47, 0.14, 0.08),
    (0.47, 0.1, 0.1),
    (0.43, 0.1, 0.3),
)
_MOST_OFF = 9.0
# How usual it is that a slice shows these, in natural logarithms (judgement).
_USUAL: dict[tuple[Meaning, ...], float] = {
    ("grey", "cured"): 0.0,
    ("grey", "pale", "cured"): -0.3,
    ("grey",): -0.7,
    ("cured",): -0.7,
    ("pale", "cured"): -1.0,
    ("grey", "pale"): -2.5,
    ("pale",): -4.0,
    ("grey", "cured", "ring"): -1.5,
    ("grey", "pale", "cured", "ring"): -1.8,
    ("cured", "ring"): -2.2,
    ("pale", "cured", "ring"): -2.6,
}
_ONE_MORE = 3.0  # what each further tone must better the likelihood by
# Of the lean: a ring, thinner than what is cured below it, has no more; and from where on it is the
# less usual.
_MOST_RING, _WIDE_RING = 0.22, (0.06, 0.03)
# Tones nearer than this are one, in spreads and in cure tone.
_LEAST_APART, _LEAST_STEP = 1.2, 0.11
_WORTH = 0.06  # of a shift, to seek tones from there
MATTERS = 0.03
"""A share of the lean below which a tone has no say."""

_VIVID = 0.85  # where the reddest cells lie above this, cured meat may
# What a lamp's colour that was left in adds to all cure tones, log R/G − 0.3 log G/B of white: a
# camera leaves little of it more often than not. By fat it is known better, cream itself being
# redder than white by 0.05; by a patch that is half blown out it is nearly known.
_LITTLE, _ANY, _ONLY_LITTLE = (0.0, 0.05), (0.15, 0.15), 0.75
_BY_FAT, _CREAM, _MOST_AGAINST_FAT, _BY_PATCH = 0.08, 0.06, 3.0, 0.05
# A white balances channels, but lamps act on the cones: by Bradford, beef under a lamp of
# 2700 K so balanced is duller by 0.165 than in daylight, at 4000 K by 0.085, ln(G/B) of the lamp
# being 1.45 and 0.55. Some cameras balance cones, so it may be anything up to that.
_CONES, _BY_CONES = (0.17, -0.038), 4.0
_SHIFTS = tuple(0.04 * k for k in range(-3, 11))
# Turns in which a beginning is tried, and in which the best is followed to its end where it has not
# fallen behind the likeliest by so much; and behind by how much more one is given up early.
_TRIED, _TURNS, _HOPELESS, _NO_USE = 7, 12, 25.0, 25.0


# Cure tone is itself a part of colour, so that colour beside it counts for less than the whole;
# cells so many spreads from a tone give its light (judgements).
_BY_COLOUR, _NEAR = 0.7, 0.7


@frozen
class Looks:
    """Light of the lean by cure tone, balanced by the white where it is known.

    `steps` holds cure tone, number of cells and the sum of their light, in order; `fat` the light
    of the fat, None where there is none.
    """

    steps: tuple[tuple[float, int, Triple], ...]
    fat: Triple | None = None

    def of(self, tones: tuple[float, ...], near: float) -> list[Triple]:
        """Mean light of the cells near each tone and nearer to it than to the others."""
        found = []
        for at in tones:
            own = [
                step
                for step in self.steps
                if abs(step[0] - at) <= near
                and all(abs(step[0] - at) <= abs(step[0] - other) for other in tones)
            ] or [min(self.steps, key=lambda step: abs(step[0] - at))]
            n = sum(count for _, count, _ in own)
            red, green, blue = (sum(light[k] for *_, light in own) / n for k in range(3))
            found.append((red, green, blue))
        return found


@frozen
class LeanReading:
    """Where grey, pale, cured and a smoke ring lie, in cure tone, and the share of each.

    `spread` is what one tone varies by, `ahead` by how much this reading is likelier than the
    next that has other tones, in natural logarithms.
    """

    at: dict[Meaning, float]
    share: dict[Meaning, float]
    spread: float
    ahead: float

    @property
    def certainty(self) -> float:
        return certainty(self.ahead)


def lean_reading(
    crowd: Crowd, own: float, white: WhitePoint | None, looks: Looks | None = None
) -> LeanReading:
    """The likeliest tones of a face's lean.

    Of all sets of tones a slice may show, the one with the greatest likelihood of the crowd
    times what is known of beef: normal distributions of each tone, of how far apart they are
    and, where the white was not measured, of what lamp may have been left in.

    Parameters
    ----------
    crowd : cure tones of clean cells, counted; balanced where the white was measured
    own : what one tone varies by, as the picture's noise tells
    white : the light's white, if it is known
    looks : the light of the lean by cure tone, and of the fat, asked where the white was not
        measured; None leaves colour beside cure tone out of account

    Returns
    -------
    LeanReading

    Examples
    --------
    >>> from app.colour.crowd import counted
    >>> tones = [0.2 + 0.001 * k for k in range(60)], [0.7 + 0.001 * k for k in range(40)]
    >>> core = counted([*tones[0], *tones[1]])
    >>> {tone: round(s, 1) for tone, s in lean_reading(core, 0.03, None).at.items()}
    {'grey': 0.2, 'cured': 0.7}
    """
    done: dict[tuple[Meaning, ...], tuple[float, CrowdTones]] = {}
    begun: dict[tuple[Meaning, ...], tuple[float, ...]] = {}
    best = -inf
    for meanings in _USUAL:
        for expected in _beginnings(meanings, crowd, white):
            found = told_apart(crowd, expected, own, _TRIED, best - _NO_USE)
            score = _score(meanings, found, white)
            best = max(best, score)
            if meanings not in done or score > done[meanings][0]:
                done[meanings], begun[meanings] = (score, found), expected
    hope = max(score for score, _ in done.values()) - _HOPELESS
    for meanings, expected in begun.items():
        score, found = done[meanings]
        if score > hope:
            found = told_apart(crowd, expected, own, _TURNS)
            score = _score(meanings, found, white)
        # Under a measured white cure tone says it all; without one the lamp is in all colours.
        if looks is not None and score > -inf and (white is None or not white.sure):
            score += _BY_COLOUR * _looks_like(meanings, found, white, looks)
        done[meanings] = score, found
    chosen = max(done, key=lambda meanings: done[meanings][0])
    score, found = done[chosen]
    shown = _shown(chosen, found)
    others = [other for other, held in done.items() if _shown(other, held[1]) != shown]
    return LeanReading(
        dict(zip(chosen, found.at, strict=True)),
        dict(zip(chosen, found.share, strict=True)),
        found.spread,
        score - max(done[other][0] for other in others),
    )


def _looks_like(
    meanings: tuple[Meaning, ...], found: CrowdTones, white: WhitePoint | None, looks: Looks
) -> float:
    lights = looks.of(found.at, _NEAR * found.spread)
    tones = zip(found.at, lights, found.share, strict=True)
    seen = [Seen(s, light, share) for s, light, share in tones]
    return colour_likelihood(seen, meanings, white, looks.fat)


def _shown(meanings: tuple[Meaning, ...], found: CrowdTones) -> set[Meaning]:
    """The tones that hold enough of the lean to matter."""
    held = zip(meanings, found.share, strict=True)
    return {meaning for meaning, part in held if meaning != "ring" and part > MATTERS}


def _beginnings(
    meanings: tuple[Meaning, ...], crowd: Crowd, white: WhitePoint | None
) -> list[tuple[float, ...]]:
    """Where the tones may be sought: as in daylight, shifted by a lamp, and with a vivid cured."""
    dullest, reddest = rank(crowd, 0.05), rank(crowd, 0.95)
    found = []
    if white is None or not white.sure:
        shifts = 0.0, max(0.1, dullest - _GREY[0])
    else:
        shifts = 0.0, _shifts(white)[-1]
    for shift in shifts if abs(shifts[1]) > _WORTH else shifts[:1]:
        grey, usual = _GREY[0] + shift, _CURED[0] + shift
        vivid = reddest > max(_VIVID, usual) and "cured" in meanings
        top = reddest - _RING[0] if "ring" in meanings else reddest
        wide = (reddest - 2.0 * _RING[0],) if "ring" in meanings else ()
        for cured in (usual, top, *wide) if vivid and top > usual else (usual,):
            whole = cured - grey if "cured" in meanings else _APART[0]
            both = "pale" in meanings and "grey" in meanings
            for turned in (_TURNED[0], 0.5 * _TURNED[0]) if both else (_TURNED[0],):
                where: dict[Meaning, float] = {
                    "grey": grey,
                    "pale": grey + turned * whole,
                    "cured": cured,
                    "ring": cured + _RING[0],
                }
                found.append(tuple(where[meaning] for meaning in meanings))
    return found


def _score(meanings: tuple[Meaning, ...], found: CrowdTones, white: WhitePoint | None) -> float:
    if any(
        b - a < max(_LEAST_STEP, _LEAST_APART * found.spread)
        for a, b in zip(found.at, found.at[1:], strict=False)
    ):
        return -inf
    share: dict[Meaning, float] = dict(zip(meanings, found.share, strict=True))
    if "ring" in share and share["ring"] > min(_MOST_RING, share["cured"]):
        return -inf
    at: dict[Meaning, float] = dict(zip(meanings, found.at, strict=True))
    score = found.likelihood + _USUAL[meanings] - _ONE_MORE * len(meanings)
    score -= 0.5 * (max(0.0, share.get("ring", 0.0) - _WIDE_RING[0]) / _WIDE_RING[1]) ** 2
    shifts = _shifts(white)
    return score + max(_beef(at, shift) + _lamp(shift, white) for shift in shifts)


def _shifts(white: WhitePoint | None) -> tuple[float, ...]:
    """What balancing may have left to be added to all cure tones, or taken from them."""
    if white is None or not white.sure:
        return _SHIFTS
    over = max(0.0, log(white.neutral[1] / white.neutral[2]))
    most = _CONES[0] * over + _CONES[1] * over * over
    return 0.0, -0.5 * most, -most


def _beef(at: dict[Meaning, float], shift: float) -> float:
    """How well tones fit what is known of beef, seen under a lamp that adds so much to each."""
    grey = at.get("grey", _GREY[0] + shift)
    score = 0.0
    if "grey" in at:
        score += _off(grey - shift, _GREY)
    if "cured" in at:
        score += _off(at["cured"] - shift, _CURED)
        if "grey" in at:
            score += _off(at["cured"] - grey, _APART)
        if "pale" in at:
            turned = (at["pale"] - grey) / max(0.05, at["cured"] - grey)
            score += _off(turned, _TURNED if "grey" in at else _TURNED_BELOW_GREY)
            score += _off(at["cured"] - at["pale"], _STEP if "grey" in at else _STEP_ALONE)
            if "grey" in at:
                score += _off(at["pale"] - grey, _STEP)
            if "grey" not in at:
                score += _off(at["pale"] - shift, _PALE_WITH_CURED)
    elif "pale" in at:
        score += _off(at["pale"] - shift, _PALE)
        if "grey" in at:
            score += _off(at["pale"] - grey, _HALF_APART)
    if "ring" in at:
        score += _off(at["ring"] - at["cured"], _RING)
    return score


def _off(value: float, usual: tuple[float, float, float]) -> float:
    middle, below, above = usual
    far = (value - middle) / (below if value < middle else above)
    return -min(_MOST_OFF, 0.5 * far * far)


def _lamp(shift: float, white: WhitePoint | None) -> float:
    """How likely a lamp left in is that adds so much to all cure tones."""
    if white is not None and white.sure:
        return _BY_CONES * shift
    if white is not None and not white.by_fat:
        return -0.5 * (shift / _BY_PATCH) ** 2
    left = 0.0
    for part, (usual, spread) in ((_ONLY_LITTLE, _LITTLE), (1.0 - _ONLY_LITTLE, _ANY)):
        left += part * exp(-0.5 * ((shift - usual) / spread) ** 2) * _LITTLE[1] / spread
    score = log(left)
    if white is not None:
        by_fat = -log(white.gains[0]) - 0.3 * log(white.gains[2]) - _CREAM
        score -= min(_MOST_AGAINST_FAT, 0.5 * ((shift - by_fat) / _BY_FAT) ** 2)
    return score
