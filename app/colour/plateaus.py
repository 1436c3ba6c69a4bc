"""The few tones a cut face is made of, as hills in the crowd of its cells."""

from attrs import frozen

# A hill of fewer cells than this share is no tone of its own; two hills are one when the pass
# between them is higher than this part of the lower (judgement).
_LEAST_SHARE, _PASS = 0.012, 0.72
# Steps of log light and of cure tone in which the crowd is counted; hills nearer than three
# quarters of a step of light with one cure tone are grain, not two tones (judgement).
_LIGHT_STEP, _TONE_STEP = 0.09, 0.055
_SAME_TONE, _SAME_LIGHT = 0.085, 0.42

Bin = tuple[int, int]


@frozen
class Plateau:
    """One tone: its cure tone and log light, the share of the cells that hold it, and they."""

    s: float
    light: float
    share: float
    cells: tuple[int, ...]


def plateaus(tones: dict[int, tuple[float, float]], noise: float = 0.0) -> list[Plateau]:
    """The tones of many cells, by cure tone from dull to red.

    Cells are counted in steps of cure tone and light; each step climbs to the fullest beside it
    until the top of its hill, and hills with no valley between them are taken together

    Parameters
    ----------
    tones : cure tone and log light by cell
    noise : usual deviation of one cell's cure tone [1]

    Returns
    -------
    Plateaus that hold at least 1.2 % of the cells

    Examples
    --------
    >>> tones = {i: (0.2, 0.0) for i in range(60)} | {i: (1.1, 0.1) for i in range(60, 100)}
    >>> [(round(p.s, 1), p.share) for p in plateaus(tones)]
    [(0.2, 0.6), (1.1, 0.4)]
    """
    if not tones:
        return []
    tone_step = max(_TONE_STEP, noise)
    bins: dict[Bin, list[int]] = {}
    for i, (s, light) in tones.items():
        bins.setdefault((round(s / tone_step), round(light / _LIGHT_STEP)), []).append(i)
    high = _smooth({place: len(cells) for place, cells in bins.items()})
    hills = _joined(_climbed(high), high, tone_step)
    found = []
    for places in hills:
        cells = [i for place in places for i in bins.get(place, ())]
        if len(cells) >= max(3.0, _LEAST_SHARE * len(tones)):
            top = max(high[place] for place in places)
            core = [i for place in places if high[place] > 0.4 * top for i in bins.get(place, ())]
            core = core or cells
            found.append(
                Plateau(
                    sum(tones[i][0] for i in core) / len(core),
                    sum(tones[i][1] for i in core) / len(core),
                    len(cells) / len(tones),
                    tuple(cells),
                )
            )
    return sorted(found, key=lambda one: one.s)


def _around(place: Bin) -> list[Bin]:
    a, b = place
    return [(a + i, b + j) for i in (-1, 0, 1) for j in (-1, 0, 1) if i or j]


def _smooth(counts: dict[Bin, int]) -> dict[Bin, float]:
    """Each count with half of those beside it and a quarter of those across a corner."""
    out: dict[Bin, float] = {}
    for (a, b), count in counts.items():
        for i in (-1, 0, 1):
            for j in (-1, 0, 1):
                part = count * (1.0, 0.5, 0.25)[abs(i) + abs(j)]
                out[a + i, b + j] = out.get((a + i, b + j), 0.0) + part
    return out


def _climbed(high: dict[Bin, float]) -> dict[Bin, list[Bin]]:
    """The places of each hill, by its top."""
    to: dict[Bin, Bin] = {}
    for place, height in high.items():
        best = max(_around(place), key=lambda near: high.get(near, 0.0))
        to[place] = best if high.get(best, 0.0) > height else place
    hills: dict[Bin, list[Bin]] = {}
    for place in high:
        top = place
        while to[top] != top:
            top = to[top]
        hills.setdefault(top, []).append(place)
    return hills


def _joined(
    hills: dict[Bin, list[Bin]], high: dict[Bin, float], tone_step: float
) -> list[list[Bin]]:
    """Hills taken together where no valley lies between, or only light tells them apart."""
    top_of = {place: top for top, places in hills.items() for place in places}
    passes: dict[tuple[Bin, Bin], float] = {}
    for place, top in top_of.items():
        for near in _around(place):
            other = top_of.get(near)
            if other is not None and other != top:
                pair = (min(top, other), max(top, other))
                passes[pair] = max(passes.get(pair, 0.0), min(high[place], high[near]))
    leader = {top: top for top in hills}

    def lead(top: Bin) -> Bin:
        while leader[top] != top:
            top = leader[top]
        return top

    for (one, other), height in sorted(passes.items(), key=lambda item: -item[1]):
        a, b = lead(one), lead(other)
        if a == b:
            continue
        low, tall = (a, b) if high[a] < high[b] else (b, a)
        same = (
            abs(a[0] - b[0]) * tone_step < _SAME_TONE
            and abs(a[1] - b[1]) * _LIGHT_STEP < _SAME_LIGHT
        )
        if same or height > _PASS * high[low]:
            leader[low] = tall
    groups: dict[Bin, list[Bin]] = {}
    for top, places in hills.items():
        groups.setdefault(lead(top), []).extend(places)
    return list(groups.values())
