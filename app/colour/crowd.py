"""A crowd of cells of one face, told apart into tones that are expected near given places."""

from collections.abc import Iterable, Sequence
from math import inf, log, sqrt

from attrs import frozen

# Steps in which cure tones are counted. Neighbouring cells share grain, blur and JPEG blocks, so
# that thousands of them say no more than so many would that know nothing of each other (judgement).
_STEP, _INDEPENDENT = 0.02, 150.0
# Student's t with four degrees of freedom: a bell with tails for blotches; 3/8 is its height.
_FREEDOM, _HEIGHT = 4.0, 0.375
# What lies anywhere at all, and the width it may lie in.
_ELSEWHERE, _ANYWHERE = 0.01, 2.0
# Bounds of what one tone varies by, and how many cells the noise of the picture speaks for.
_LEAST, _MOST, _TOLD_BY_NOISE = 0.02, 0.075, 20.0
# A tone stays near where it was expected by this; blurred bounds hold few cells, counted as if
# there were so many more.
_NEAR, _FEW = 0.12, 200.0
_SETTLED = 0.1
_TO_COME = 1.0  # what likelihood may be gained yet, in times the last turn's gain

Crowd = list[tuple[float, float]]


@frozen
class CrowdTones:
    """Tones from dull to red: where each lies, its share, what all of them vary by, and how
    likely the crowd is with them, in natural logarithms."""

    at: tuple[float, ...]
    share: tuple[float, ...]
    spread: float
    likelihood: float


def counted(values: Iterable[float]) -> Crowd:
    """Values with how often each is seen, in steps; 150 in all, however many there are.

    Examples
    --------
    >>> counted([0.2, 0.2, 0.4])
    [(0.2, 2.0), (0.4, 1.0)]
    """
    steps: dict[int, int] = {}
    n = 0
    for s in values:
        k = round(s / _STEP)
        steps[k] = steps.get(k, 0) + 1
        n += 1
    weight = min(_INDEPENDENT, n) / max(1, n)
    return [(k * _STEP, weight * count) for k, count in sorted(steps.items())]


def rank(crowd: Crowd, part: float) -> float:
    """The value below which that part of a crowd lies.

    Examples
    --------
    >>> rank([(0.2, 3.0), (0.4, 1.0)], 0.5)
    0.2
    """
    left = part * sum(count for _, count in crowd)
    for s, count in crowd:
        left -= count
        if left <= 0.0:
            return s
    return crowd[-1][0]


def told_apart(
    crowd: Crowd,
    expected: Sequence[float],
    own: float,
    turns: int,
    hopeless: float = -inf,
) -> CrowdTones:
    """The tones of a crowd by expectation and maximisation, begun where they are expected.

    Each value belongs to a tone, to the blurred bound between two, or lies elsewhere:
    f(s) = Σ π_k t₄((s − μ_k)/σ)/σ + Σ β_k/(μ_k+1 − μ_k) + 0.01/2

    Parameters
    ----------
    crowd : values and how often each is seen
    expected : where tones are expected, from dull to red
    own : what one tone varies by, as told by the picture's noise
    turns : how often to better them at most
    hopeless : log likelihood that must be in reach after three turns, or it is given up

    Returns
    -------
    CrowdTones

    Notes
    -----
    Bounds are held few: a slow slope from one tone to the next is taken for a tone between them
    where one is expected there.

    Examples
    --------
    >>> found = told_apart([(0.2, 60.0), (0.72, 40.0)], (0.15, 0.65), 0.03, 9)
    >>> [round(s, 2) for s in found.at], [round(part, 1) for part in found.share]
    ([0.2, 0.72], [0.6, 0.4])

    References
    ----------
    Dempster, Laird & Rubin, J. R. Stat. Soc. B 39 (1977) 1-38; t distribution by weights as in
    Lange, Little & Taylor, J. Am. Stat. Assoc. 84 (1989) 881-896 (both from memory).
    """
    at, n = list(expected), len(expected)
    whole = sum(count for _, count in crowd)
    share, bound = [1.0 / n] * n, [0.05] * (n - 1)
    own = spread = min(_MOST, max(0.03, own))
    likelihood = before = 0.0
    for turn in range(turns):
        gained, weight, moment, width = [0.0] * n, [1e-9] * n, [0.0] * n, 0.0
        crossing = [0.0] * (n - 1)
        likelihood = 0.0
        scale = 1.0 / spread
        peaks = [_HEIGHT * scale * part for part in share]
        flats = [part / max(0.05, at[k + 1] - at[k]) for k, part in enumerate(bound)]
        for s, count in crowd:
            far = [1.0 + ((s - place) * scale) ** 2 / _FREEDOM for place in at]
            parts = [peak / (x * x * sqrt(x)) for peak, x in zip(peaks, far, strict=True)]
            total = _ELSEWHERE / _ANYWHERE + sum(parts)
            for k in range(n - 1):
                if at[k] < s < at[k + 1]:
                    total += flats[k]
                    crossing[k] += count * flats[k] / total
            likelihood += count * log(total)
            count /= total
            for k in range(n):
                mine = count * parts[k]
                gained[k] += mine
                mine *= 1.25 / far[k]
                weight[k] += mine
                moment[k] += mine * s
                width += mine * (s - at[k]) ** 2
        gain = likelihood - before
        if abs(gain) < _SETTLED or (turn > 1 and likelihood + _TO_COME * gain < hopeless):
            break
        before = likelihood
        held = (spread / _NEAR) ** 2
        at = [(moment[k] + held * expected[k]) / (weight[k] + held) for k in range(n)]
        share = [(cells + 0.5) / (whole + 1.0) for cells in gained]
        bound = [cells / (whole + _FEW) for cells in crossing]
        total = sum(share) + sum(bound) + _ELSEWHERE
        share, bound = [part / total for part in share], [part / total for part in bound]
        spread = sqrt((width + _TOLD_BY_NOISE * own * own) / (sum(gained) + _TOLD_BY_NOISE))
        spread = min(_MOST, max(_LEAST, spread))
    return CrowdTones(tuple(at), tuple(share), spread, likelihood - _FEW * sum(bound))
