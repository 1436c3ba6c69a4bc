"""Dividing a run of cure tones into few cured, pale and grey bands."""

from typing import Literal

from app.colour.tone import Levels

Band = Literal["grey", "pale", "cured"]
BANDS: tuple[Band, Band, Band] = ("grey", "pale", "cured")

# Judgements, in the scale 0 grey to 1 cured. Squared distances are capped, so that one spot of
# fat or glare cannot make a band; a change of band costs as much as this many places amiss.
_PALE, _FAINT = 0.5, 0.10
_WIDTH, _CAP, _CHANGE = 0.15, 9.0, 12.0
# Widths as shares of the lean: narrower pale bands are blur, wider ones are real. A band
# mostly of middle tones is real anyway.
_NARROW, _WIDENING, _FLAT, _RIM = 0.02, 0.03, 0.74, 0.03
_BEGINS = 0.1


def faintest(noise: float, level: float, ends: Levels) -> float:
    """The least pink, of the way from grey to cured, that a picture can show for certain.

    0.10 + noise + 0.8 · (2.2 / level) / contrast, at most 0.35 (judgement): the last part is
    one step of an 8-bit channel, since JPEG holds colour no finer

    Parameters
    ----------
    noise : usual difference of neighbours, of the way from grey to cured [1]
    level : usual green of the lean [0-255]
    ends : the cured and grey ends

    Returns
    -------
    Share of the way from grey to cured [1]

    Examples
    --------
    >>> round(faintest(0.02, 110.0, Levels(0.9, 0.3, True, "grey", 0.6, 0.02, 1.0)), 3)
    0.147
    """
    step = 2.2 / max(level, 8.0) / (ends.cured - ends.grey)
    return min(0.35, _FAINT + noise + 0.8 * step)


def bands(turned: list[float], faint: float = 0.15, blur: float = 0.0) -> list[Band]:
    """The likeliest bands along a line.

    Minimises Σ min((t − level)²/w², cap) + changes · cost over all divisions (Viterbi);
    tones beyond the grey or cured end count as at that end

    Parameters
    ----------
    turned : how far each place has turned, 0 grey to 1 cured [1]
    faint : the least pink that counts as seen, see `faintest` [1]
    blur : share of the line over which the picture blurs a sharp bound [1]

    Returns
    -------
    A band a place

    Examples
    --------
    >>> marks = bands([1.0] * 20 + [0.1] * 20 + [0.9] + [0.0] * 9)
    >>> marks.count("cured"), marks.count("grey")
    (20, 30)
    """
    if not turned:
        return []
    # The noisier the tones, the further from both ends pale must lie to be told from them.
    pale_from = min(_PALE, 2.0 * faint)
    cost = [0.0, 0.0, 0.0]
    came: list[tuple[int, int, int]] = []
    for t in turned:
        own = (
            min(_CAP, (max(0.0, t) / _WIDTH) ** 2),
            min(_CAP, (max(pale_from - t, 0.0, t - 1.0 + pale_from) / _WIDTH) ** 2),
            min(_CAP, (min(0.0, t - 1.0) / _WIDTH) ** 2),
        )
        best = min(range(3), key=cost.__getitem__)
        jump = cost[best] + _CHANGE
        steps = tuple(k if cost[k] <= jump else best for k in range(3))
        cost = [min(cost[k], jump) + own[k] for k in range(3)]
        came.append((steps[0], steps[1], steps[2]))
    at = min(range(3), key=cost.__getitem__)
    found: list[Band] = []
    for step in reversed(came):
        found.append(BANDS[at])
        at = step[at]
    return _bounded(found[::-1], turned, max(_NARROW, blur), 0.5 * pale_from)


def _bounded(marks: list[Band], turned: list[float], narrow: float, faint: float) -> list[Band]:
    """Set the bounds of pale bands by their width.

    A narrow one between cured and grey is a sharp bound seen blurred, and is divided at its
    middle; a wide one keeps all that shows some pink but not all of it.
    """
    out, start, n = list(marks), 0, len(marks)
    for k in range(1, n + 1):
        if k < n and marks[k] == marks[start]:
            continue
        run = range(start, k)
        if marks[start] == "pale" and len(run) < n:
            before = marks[start - 1] if start else None
            after = marks[k] if k < n else None
            width = len(run) / n
            if before and after and before != after:
                middle = sum(1 for j in run if 0.3 < turned[j] < 0.7)
                share = (width - narrow) / _WIDENING
                low = _PALE - min(1.0, max(0.0, share)) * (_PALE - faint)
                if middle > _FLAT * len(run) and width > narrow:
                    low = faint
                _divide(out, turned, run, before, after, low)
                if share >= 1.0 and middle <= _FLAT * len(run):
                    _grow(out, turned, run)
            elif width < narrow and before == after and before is not None:
                out[start:k] = [before] * len(run)
        start = k
    _rims(out, max(_RIM, 2.0 * narrow))
    return out


def _rims(out: list[Band], widest: float) -> None:
    """Give a thin uncured rim to the cured meat behind it: cure comes from outside, so such a
    rim is board or fat seen blurred."""
    n = len(out)
    for order in (range(n), range(n - 1, -1, -1)):
        rim = next((k for k, j in enumerate(order) if out[j] == "cured"), n)
        if 0 < rim < widest * n and all(out[j] == "cured" for j in order[rim : rim + 8]):
            for j in order[:rim]:
                out[j] = "cured"


def _grow(out: list[Band], turned: list[float], run: range) -> None:
    """Follow a slow change of colour outward to where it begins, at most half its width."""
    for order in (range(run.start - 1, -1, -1), range(run.stop, len(turned))):
        for j in list(order)[: len(run) // 2]:
            near = sorted(turned[max(0, j - 1) : j + 2])[1:2] or [turned[j]]
            if not _BEGINS < near[0] < 1.0 - _BEGINS or out[j] == "pale":
                break
            out[j] = "pale"


def _divide(
    out: list[Band], turned: list[float], run: range, before: Band, after: Band, low: float
) -> None:
    """Give the ends of a pale run to the bands beside it, down to `low` and 1 − `low`."""

    def past(band: Band, t: float) -> bool:
        return t < low if band == "grey" else t > 1.0 - low

    first, last = run.start, run.stop - 1
    while first <= last and past(before, turned[first]):
        out[first] = before
        first += 1
    while last >= first and past(after, turned[last]):
        out[last] = after
        last -= 1
    if low >= _PALE:
        for j in range(first, last + 1):
            out[j] = "cured" if turned[j] > _PALE else "grey"
