"""Cutting a line's light into runs of one stuff each."""

from heapq import heapify, heappop, heappush

from attrs import define

from app.colour.tone import Tone

# Judgements, in logarithms of light: what one stuff varies by along a line, in lightness, in
# red to green and in green to blue; and how many times that variation makes a bound.
_OWN = (0.07, 0.045, 0.09)
_BOUND = 7.0


@define
class Run:
    """Neighbouring places of one stuff, `start` to before `stop`, and their mean tone."""

    start: int
    stop: int
    l: float  # noqa: E741
    u: float
    v: float

    @property
    def places(self) -> int:
        return self.stop - self.start

    @property
    def s(self) -> float:
        return self.u - 0.3 * self.v


def runs(tones: list[Tone], alike: float) -> list[Run]:
    """The fewest runs that keep nearly all that differs along a line.

    Neighbours are joined, the pair first whose joining adds least to the squares within,
    n₁n₂/(n₁ + n₂) · Σ (difference / variation)², until that would be too much (Ward's rule)

    Parameters
    ----------
    tones : along the line
    alike : places over which the picture repeats itself, by blur and coarse colour [1]

    Returns
    -------
    Runs from first to last, without gaps

    Examples
    --------
    >>> dull, pink = Tone(-1.5, 0.3, 0.3, 0.2), Tone(-1.5, 1.0, 0.1, 1.0)
    >>> [(run.start, run.stop) for run in runs([dull] * 30 + [pink] * 20, 3.0)]
    [(0, 30), (30, 50)]

    References
    ----------
    J. H. Ward, J. Am. Stat. Assoc. 58 (1963) 236 (from memory).
    """
    n = len(tones)
    wl, wu, wv = (1.0 / (own * own) for own in _OWN)
    sums = [(1.0, t.l, t.u, t.v) for t in tones]
    before, after = list(range(-1, n - 1)), list(range(1, n + 1))
    age = [0] * n
    most = _BOUND * alike

    def cost(a: int, b: int) -> float:
        na, la, ua, va = sums[a]
        nb, lb, ub, vb = sums[b]
        dl, du, dv = la / na - lb / nb, ua / na - ub / nb, va / na - vb / nb
        return na * nb / (na + nb) * (dl * dl * wl + du * du * wu + dv * dv * wv)

    heap = [(cost(a, a + 1), a, a + 1, 0, 0) for a in range(n - 1)]
    heapify(heap)
    gone = [False] * n
    while heap:
        least, a, b, age_a, age_b = heappop(heap)
        if least > most:
            break
        if gone[a] or gone[b] or age[a] != age_a or age[b] != age_b:
            continue
        p, q = sums[a], sums[b]
        sums[a] = (p[0] + q[0], p[1] + q[1], p[2] + q[2], p[3] + q[3])
        gone[b] = True
        age[a] += 1
        after[a] = c = after[b]
        if c < n:
            before[c] = a
            heappush(heap, (cost(a, c), a, c, age[a], age[c]))
        z = before[a]
        if z >= 0:
            heappush(heap, (cost(z, a), z, a, age[z], age[a]))
    found, a = [], 0
    while a < n:
        count, of_l, of_u, of_v = sums[a]
        found.append(Run(a, after[a], of_l / count, of_u / count, of_v / count))
        a = after[a]
    return found
