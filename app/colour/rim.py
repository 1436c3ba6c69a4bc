"""The rim of bark: where it ends is told by the whole edge together, even on a dark board."""

from itertools import accumulate
from math import hypot
from statistics import median

from app.colour.field import Field
from app.colour.masks import filled, from_polygon, smoothed
from app.colour.pixels import Bytes, Point

# Samples to a cell along each ray, how far rays go in and out, and how far out bark may end
# [cells]; rays to either side seen together, since bark is mottled; samples compared on either
# side of a step.
_FINE, _IN, _OUT, _FURTHEST, _ALONG, _SIDE = 3, 2, 9, 6, 4, 3
# Judgements, in levels [0-255], in which noise is about even: the faintest step, that beside its
# own unevenness, and the share of rays that must have it, each at least so much of the usual.
_FAINTEST, _OVER_NOISE, _SHARE, _AGREES = 2.5, 4.0, 0.93, 0.3
_RAMP = 0.45  # shade goes on changing beyond the step by more than this share of it
_STIFF = 0.35  # what a step of one sample along the edge costs, of the usual step
_UNEVEN = 1.5  # bark ends no further out than so many times its usual depth: shade does
_OUTSHINES = 0.4  # log light of the slice above what lies beside it: else there is no dark rim
_LENS_PX = 2.0  # how far a lens blurs
_BLED_PX = (2.0, 10.0)  # how far the lean's colour bleeds: no further, or as JPEG lets it
_LEAST_RAYS = 40

Ray = tuple[float, float, float, float]  # a place and the way outward [cells]
Channels = list[list[list[float]]]  # by channel, by sample outward, by ray


def bark_beyond(
    field: Field, mask: bytearray, bark: set[int], rgba: Bytes, width: int, height: int, step: int
) -> tuple[bytearray, set[int]] | None:
    """Slice and bark, with bark's outer edge set by all rays across it together.

    Along rays outward from the edge a step is sought that is the same all round, bark to board;
    it lies where Σ c·d is greatest less a cost for unevenness, with c the change of colour across
    a place on a ray and d the usual change

    Parameters
    ----------
    field : tones of the picture
    mask : the slice, perhaps without its bark
    bark : cells of it known as bark
    rgba, width, height : the picture
    step : pixels to a cell [px]

    Returns
    -------
    Mask, and those of its cells that are bark; None where there is no such step

    References
    ----------
    Best path by dynamic programming: Bellman (from memory).
    """
    lean = bytearray(mask)
    for i in bark:
        lean[i] = 0
    lean = filled(field, smoothed(field, lean, 2, 2))
    lit = [light for light, on in zip(field.l, lean, strict=True) if on][::7]
    beside = {j for i, on in enumerate(lean) if on for j in field.beside(i) if not lean[j]}
    around = [
        field.l[k] for j in beside for k in field.beside(j) if not lean[k] and k not in beside
    ]
    if not lit or not around or median(around) > median(lit) - _OUTSHINES:
        return None
    rays = _rays(field, lean)
    if len(rays) < _LEAST_RAYS:
        return None
    seen = _seen(rays, rgba, width, height, step)
    edge = _edge(seen)
    levels = _from_edge(seen, edge)
    blurred, *bled = (max(1, round(px * _FINE / step)) for px in (_LENS_PX, *_BLED_PX))
    tried = (_ends(levels, blurred, by) for by in bled)
    ends = next((found for found in tried if found is not None), None)
    if ends is None:
        return None
    outline: list[Point] = []
    for (x, y, dx, dy), start, end in zip(rays, edge, ends, strict=True):
        away = (start + end) / _FINE - _IN
        outline.append(((x + away * dx) * step, (y + away * dy) * step))
    full = from_polygon(field, tuple(outline), step)
    out = bytearray(a | b for a, b in zip(full, lean, strict=True))
    return out, {i for i, on in enumerate(out) if on and not lean[i]}


def _rays(field: Field, mask: bytearray) -> list[Ray]:
    """Points along the edge in turn, with the way outward from each [cells]."""
    trace = _traced(field, mask)
    n = len(trace)
    if n < 8:
        return []
    xs = _along([i % field.columns + 0.5 for i in trace], 2)
    ys = _along([i // field.columns + 0.5 for i in trace], 2)
    rays = []
    for k in range(n):
        tx, ty = xs[(k + 4) % n] - xs[k - 4], ys[(k + 4) % n] - ys[k - 4]
        size = hypot(tx, ty) or 1.0
        rays.append((xs[k], ys[k], ty / size, -tx / size))
    return rays


def _traced(field: Field, mask: bytearray) -> list[int]:
    """The cells of the edge one after the other, clockwise on the screen (Moore's way round)."""
    w, h = field.columns, field.rows
    first = next((i for i, on in enumerate(mask) if on), -1)
    if first < 0:
        return []
    turns = ((1, 0), (1, 1), (0, 1), (-1, 1), (-1, 0), (-1, -1), (0, -1), (1, -1))
    trace, at, way = [first], first, 0
    for _ in range(4 * (w + h)):
        x, y = at % w, at // w
        for turn in range(8):
            k = (way + 5 + turn) % 8
            nx, ny = x + turns[k][0], y + turns[k][1]
            if 0 <= nx < w and 0 <= ny < h and mask[ny * w + nx]:
                at, way = ny * w + nx, k
                break
        else:
            return trace
        if at == first:
            return trace
        trace.append(at)
    return trace


def _seen(rays: list[Ray], rgba: Bytes, width: int, height: int, step: int) -> Channels:
    """Levels along each ray: luma, and red and blue less luma [0-255]."""
    out: Channels = [[], [], []]
    scale = float(step)
    for k in range((_IN + _OUT) * _FINE):
        away = k / _FINE - _IN
        lumas, reds, blues = [], [], []
        for x, y, dx, dy in rays:
            px, py = int((x + away * dx) * scale), int((y + away * dy) * scale)
            px = 0 if px < 0 else width - 1 if px >= width else px
            py = 0 if py < 0 else height - 1 if py >= height else py
            at = 4 * (py * width + px)
            r, g, b = rgba[at : at + 3]
            luma = 0.3 * r + 0.59 * g + 0.11 * b
            lumas.append(luma)
            reds.append(r - luma)
            blues.append(b - luma)
        out[0].append(lumas)
        out[1].append(reds)
        out[2].append(blues)
    return out


def _along(values: list[float], by: int) -> list[float]:
    """Running mean round the edge over so many values to either side."""
    n = len(values)
    sums = [0.0, *accumulate(values[-by:] + values + values[:by])]
    span = 2 * by + 1
    return [(sums[k + span] - sums[k]) / span for k in range(n)]


def _edge(seen: Channels) -> list[int]:
    """The sample on each ray at which the lean has ended: past half its light."""
    luma = [_along(ring, 1) for ring in seen[0]]
    inner, outer = _IN * _FINE, _FINE
    found = []
    for k in range(len(luma[0])):
        ray = [ring[k] for ring in luma]
        lean = max(ray[: inner + 1])
        board = median(ray[inner + 2 * outer : inner + 5 * outer])
        half = 0.5 * (lean + board)
        at = inner
        if lean > 1.25 * board + 4.0:
            at = next((j for j in range(inner + 2 * outer) if ray[j] < half), inner)
            while at < inner - outer:  # fat or a gap: the edge lies further out
                at = next((j for j in range(at + 1, inner + 2 * outer) if ray[j] < half), inner)
        found.append(at)
    n = len(found)
    return [sorted(found[(k + d) % n] for d in range(-3, 4))[3] for k in range(n)]


def _from_edge(seen: Channels, edge: list[int]) -> Channels:
    """Levels outward from the lean's end, each the mean over the rays beside it."""
    last = len(seen[0]) - max(edge)
    return [
        [
            _along([channel[at + j][k] for k, at in enumerate(edge)], _ALONG)
            for j in range(min(last, (_FURTHEST + 2) * _FINE))
        ]
        for channel in seen
    ]


def _ends(levels: Channels, blurred: int, bled: int) -> list[int] | None:
    """Where bark ends on each ray, in samples from the lean's end; None where no bark is seen.

    Light within `blurred` samples of the lean's end is the lean's own, colour within `bled`."""
    n, deep = len(levels[0][0]), len(levels[0])
    places = range(blurred + 1, deep - _SIDE)
    luma, *colours = levels
    none = [0.0] * n
    change = {
        t: [
            _change(luma, t, blurred),
            *(_change(colour, t, bled) if t > bled else none for colour in colours),
        ]
        for t in places
    }
    near = [t for t in places if t <= _FURTHEST * _FINE]
    mean = {t: [sum(row) / n for row in change[t]] for t in near}
    usual = max(mean.values(), key=_size)
    path: list[int] = []
    gain: dict[int, list[float]] = {}
    for _ in range(3):
        size = _size(usual)
        if size < 0.5 * _FAINTEST:
            return None
        gain = {t: _towards(usual, change[t]) for t in near}
        path = _best_path(gain, near, _STIFF * size)
        near = [t for t in near if t <= _UNEVEN * median(path) + 2]
        usual = [sum(change[t][c][k] for k, t in enumerate(path)) / n for c in range(3)]
    size = _size(usual)
    share = sum(gain[t][k] > _AGREES * size for k, t in enumerate(path)) / n
    spread = (sum(x * x for x in _towards(usual, change[places[-1]])) / n) ** 0.5
    if size < max(_FAINTEST, _OVER_NOISE * spread) or share < _SHARE:
        return None
    # What is no darker than the board and ends at once is the lean's own edge, blurred.
    if 2 * sum(t > places[0] for t in path) < n and usual[0] > -_FAINTEST:
        return None
    beyond = [
        [row[min(deep - 1, t + 2)][k] - row[min(deep - 1, t + 7)][k] for k, t in enumerate(path)]
        for row in levels
    ]
    return path if abs(sum(_towards(usual, beyond)) / n) < _RAMP * size else None


def _change(channel: list[list[float]], t: int, blurred: int) -> list[float]:
    """On each ray the level just within a place less that just beyond it."""
    within = channel[max(blurred, t - _SIDE) : t]
    beyond = channel[t + 1 : t + 1 + _SIDE]
    a, b = 1.0 / len(within), 1.0 / len(beyond)
    pairs = zip(zip(*within, strict=True), zip(*beyond, strict=True), strict=True)
    return [a * sum(x) - b * sum(y) for x, y in pairs]


def _size(change: list[float]) -> float:
    return hypot(*change)


def _towards(usual: list[float], change: list[list[float]]) -> list[float]:
    """On each ray how much of a change goes the usual way."""
    x, y, z = (u / _size(usual) for u in usual)
    return [x * a + y * b + z * c for a, b, c in zip(*change, strict=True)]


def _best_path(gain: dict[int, list[float]], places: list[int], cost: float) -> list[int]:
    """One place for each ray, with the most gain less a cost for every sample moved."""
    n, m = len(gain[places[0]]), len(places)
    score = [gain[t][0] for t in places]
    came: list[list[int]] = []
    for k in range(1, n):
        back = list(range(m))
        reach = list(score)
        for j in range(1, m):  # moves outward, then inward, each sample at its cost
            if reach[j - 1] - cost > reach[j]:
                reach[j], back[j] = reach[j - 1] - cost, back[j - 1]
        for j in range(m - 2, -1, -1):
            if reach[j + 1] - cost > reach[j]:
                reach[j], back[j] = reach[j + 1] - cost, back[j + 1]
        came.append(back)
        score = [value + gain[t][k] for value, t in zip(reach, places, strict=True)]
    at = max(range(m), key=lambda j: score[j])
    path = [at]
    for back in reversed(came):
        at = back[at]
        path.append(at)
    return [places[j] for j in reversed(path)]
