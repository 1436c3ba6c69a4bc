"""Telling lean from fat, gaps and bark along a line, run by run."""

from math import inf
from typing import Literal

from app.colour.runs import Run

Stuff = Literal["lean", "fat", "gap"]
_STATES: tuple[Stuff, Stuff, Stuff] = ("lean", "fat", "gap")

# Judgements, in logarithms of light. Fat lies above lean and gaps below by this much or more;
# lean differs by this much over a line, and from the lean just before it by its grain and by
# the fall of light over the distance between.
_FAT_ABOVE, _FAT_SPREAD = 0.55, 0.15
_GAP_BELOW, _GAP_SPREAD = 1.0, 0.2
_OVER_ALL, _GRAIN, _FALL = 0.26, 0.16, 0.8
_CAP = 6.0  # no place says more than this
_RARER = {"lean": 0.0, "fat": 0.15, "gap": 0.8}  # cost a place
# Grey lean may differ from cured in lightness by so much; the likelier, the less.
_TILT_MOST, _TILT_SAY, _TILT_USUAL = 0.75, 55.0, 0.25
_STEEP, _STEEPEST = 0.15, 0.9  # falls of light along a line that are, and can be, allowed for
_SURE_PLACES = 6.0  # of one run of lean, from which its light is believed
_DARK_SAY = 15.0  # the same for grey darker than usual, since fat never is
# Cure tone in daylight from which fat is the less likely, and its spread: cream is about 0.08,
# grey beef 0.23 (worked out from their colours); the most a place says by that (judgements).
_FAT_TONE, _MOST_MEATY, _TILT_EASE = (0.15, 0.06), 1.5, 2.0
# ln(red to green) in daylight below which lean is the less likely, and its spread: cream is about
# 0.19, grey beef 0.32 (worked out from their colours); and what so much brighter light adds.
_LEAN_RED, _MOST_CREAMY = (0.24, 0.04), 2.0
_LIGHTER = (0.25, 0.3)
_WIDE_RUN = 8.0
_MOST_FAT, _MOSTLY_FAT = 0.5, 2.0  # of a line; and what a place of more fat than that costs
_CORE = 6.0  # cost of each grey core after the second
_REDDER = 0.1  # of the way from dull to red: fat is less redder than grey than this
_CHANGE, _MOST_SAY = 2.0, 8.0  # cost of a change; places after which a run says no more


def stuff_of(
    found: list[Run], dull: float, red: float, blur: int, balanced: bool = False
) -> list[Stuff]:
    """The likeliest division of runs into lean, fat and gaps.

    First the lean's usual light is found, under which most runs are lean and the rest fat
    rather than gaps; then each run is held against the last lean before it as well, so that
    a fall of light along the line has little say (Viterbi).

    Parameters
    ----------
    found : runs between the slice's edges, in order
    dull, red : cure tones s of the less and the more red part; the same where all is one.
        Nothing nearer to red is fat, since lean is no duller.
    blur : places over which the picture mixes neighbours
    balanced : whether the tones are those of daylight, by a white that was measured

    Returns
    -------
    A kind a run

    Examples
    --------
    >>> lean, fat = Run(0, 20, -1.5, 0.9, 0.1), Run(20, 26, -0.5, 0.1, 0.3)
    >>> stuff_of([lean, fat, Run(26, 50, -1.4, 0.3, 0.3)], 0.2, 0.9, 2)
    ['lean', 'fat', 'lean']
    """
    if not found:
        return []
    told = _told(found, dull, red, blur, balanced)
    fall = _fall(found, told)
    if abs(fall) > _STEEP:
        length = found[-1].stop - found[0].start
        even = [
            Run(run.start, run.stop, run.l - fall * _middle(run) / length, run.u, run.v)
            for run in found
        ]
        told = _told(even, dull, red, blur, balanced)
    _redder_than_grey(found, told, dull, red, 2 * blur)
    return told


def _middle(run: Run) -> float:
    return 0.5 * (run.start + run.stop)


def _fall(found: list[Run], told: list[Stuff]) -> float:
    """How much the light of the lean rises from end to end, in log light (least squares)."""
    lean = [run for run, kind in zip(found, told, strict=True) if kind == "lean"]
    n = sum(run.places for run in lean)
    if not n:
        return 0.0
    at = sum(run.places * _middle(run) for run in lean) / n
    level = sum(run.places * run.l for run in lean) / n
    spread = sum(run.places * (_middle(run) - at) ** 2 for run in lean)
    length = found[-1].stop - found[0].start
    if spread < n * (0.1 * length) ** 2:
        return 0.0
    rise = sum(run.places * (_middle(run) - at) * (run.l - level) for run in lean) / spread
    return min(_STEEPEST, max(-_STEEPEST, rise * length))


def _told(found: list[Run], dull: float, red: float, blur: int, balanced: bool) -> list[Stuff]:
    lights, usual = _levelled(found, dull, red, blur, balanced)
    length = found[-1].stop - found[0].start
    most_fat_tone = 0.5 * (dull + red) if red > dull else inf
    # A path: its cost, the light and end of its last lean, and the kinds on its way.
    start = found[0].start - int(0.25 * length)
    paths: dict[Stuff, tuple[float, float, int, tuple[Stuff, ...]]] = {
        "lean": (0.0, usual, start, ())
    }
    for run, light in zip(found, lights, strict=True):
        say = min(_MOST_SAY, run.places)
        stepped: dict[Stuff, tuple[float, float, int, tuple[Stuff, ...]]] = {}
        for state in _STATES:
            best: tuple[float, float, int, tuple[Stuff, ...]] = (inf, 0.0, 0, ())
            barred = state == "fat" and run.s > most_fat_tone
            by_usual = 0.5 * _cost(light - usual, state)
            if balanced and state == "fat":
                by_usual += _meaty(run, blur)
            elif balanced and state == "lean":
                by_usual += _creamy(run, light - usual)
            for was, (cost, level, end, kinds) in paths.items():
                if barred:
                    local = _CAP
                elif state == "lean":
                    # Half of the run's own length too, as its light is meant for its middle.
                    away = (run.start - end + 0.5 * run.places) / length
                    off = (light - level) / (_GRAIN + _FALL * away)
                    local = min(_CAP, 0.5 * off * off)
                else:
                    local = _cost(light - level, state)
                cost += say * (by_usual + 0.5 * local) + (_CHANGE if was != state else 0.0)
                if cost < best[0]:
                    # A short run may be half bark or fat: it says less about the lean's light.
                    share = min(1.0, run.places / _SURE_PLACES)
                    shown = level + share * (light - level)
                    new = (shown, run.stop) if state == "lean" else (level, end)
                    best = (cost, *new, (*kinds, state))
            stepped[state] = best
        paths = stepped
    return list(min(paths.values(), key=lambda path: path[0])[3])


def _redder_than_grey(
    found: list[Run], kinds: list[Stuff], dull: float, red: float, least: int
) -> None:
    """Make wide runs lean again that are too red for fat: pale lean may be lighter than both
    grey and cured, but fat is no redder than grey lean."""
    length = found[-1].stop - found[0].start
    lean = [
        run
        for run, kind in zip(found, kinds, strict=True)
        if kind == "lean" and run.places >= 0.03 * length
    ]
    if red <= dull or not lean:
        return
    grey = min(run.s for run in lean)
    if grey > 0.5 * (dull + red):
        return
    for k, run in enumerate(found):
        wide = run.places > least
        if kinds[k] == "fat" and wide and run.s > grey + _REDDER * (red - dull):
            level = max(r.l for r in lean)
            if run.l - level < _FAT_ABOVE + _FAT_SPREAD:
                kinds[k] = "lean"


def _meaty(run: Run, blur: int) -> float:
    """Cost of a place as fat, by a tone too meaty for fat; little for a narrow run, since fat
    is mixed with what lies beside it."""
    off = max(0.0, run.s - _FAT_TONE[0]) / _FAT_TONE[1]
    wide = min(1.0, max(0.0, run.places / blur - 2.0) / _WIDE_RUN)
    return wide * min(_MOST_MEATY, 0.5 * off * off)


def _creamy(run: Run, above: float) -> float:
    """Cost of a place as lean, by a tone too white for it, where it is lighter than lean too."""
    off = max(0.0, _LEAN_RED[0] - run.u) / _LEAN_RED[1]
    lighter = min(1.0, max(0.0, (above - _LIGHTER[0]) / _LIGHTER[1]))
    return lighter * min(_MOST_CREAMY, 0.5 * off * off)


def _cost(above: float, state: Stuff) -> float:
    """Cost of a place as lean, fat or gap, by how far it lies above the light of lean."""
    if state == "lean":
        off = above / _OVER_ALL
    elif state == "fat":
        off = max(0.0, _FAT_ABOVE - above) / _FAT_SPREAD
    else:
        off = max(0.0, _GAP_BELOW + above) / _GAP_SPREAD
    return _RARER[state] + min(_CAP, 0.5 * off * off)


def _levelled(
    found: list[Run], dull: float, red: float, blur: int, balanced: bool
) -> tuple[list[float], float]:
    """Light of each run as if all lean were equally light, and that lean's usual light.

    Grey lean may be lighter or darker than cured; what it is in this slice is tried out.
    """
    length = found[-1].stop - found[0].start
    span = red - dull
    share = [min(1.0, max(0.0, (run.s - dull) / span)) if span > 0.0 else 0.0 for run in found]
    reds = sorted((run.l, run.places) for run, t in zip(found, share, strict=True) if t > 0.6)
    wide = [k for k, run in enumerate(found) if run.places >= 0.03 * length] or [0]
    if sum(n for _, n in reds) < 0.05 * length:
        trials = [(found[k].l, 0.0, 0.0) for k in wide]
    else:
        half, so_far, level = 0.5 * sum(n for _, n in reds), 0.0, reds[0][0]
        for light, n in reds:
            level, so_far = light, so_far + n
            if so_far >= half:
                break
        trials = [
            (level, level - found[k].l, _meaty(found[k], blur)) for k in wide if share[k] < 0.4
        ]
        trials = [t for t in trials if abs(t[1]) < _TILT_MOST] + [(level, -_TILT_USUAL * span, 0)]
    best, chosen = inf, (trials[0][0], 0.0)
    for level, tilt, meaty in trials:
        lights = [run.l + tilt * (1.0 - t) for run, t in zip(found, share, strict=True)]
        darker = tilt + _TILT_USUAL * span
        say = _DARK_SAY
        if darker < 0.0:
            # Lean lighter than usual may be fat, unless its tone is too meaty for that.
            say = _TILT_SAY / (1.0 + (_TILT_EASE * meaty if balanced else 0.0))
        cost = say * darker * darker
        cores, in_core = 0, False
        for run, light, t in zip(found, lights, share, strict=True):
            white = _creamy(run, run.l - level) if balanced else 0.0
            own = min(_cost(light - level, "lean") + white, _cost(light - level, "gap"))
            if t < 0.5:
                by_tone = _meaty(run, blur) if balanced else 0.0
                own = min(own, _cost(light - level, "fat") + by_tone)
            cost += run.places * own
            if t < 0.5 and abs(light - level) < 0.5 * _FAT_ABOVE:
                cores += not in_core
                in_core = True
            elif t > 0.6:
                in_core = False
        fat = sum(
            run.places
            for run, light in zip(found, lights, strict=True)
            if light - level > _FAT_ABOVE
        )
        cost += _MOSTLY_FAT * max(0.0, fat - _MOST_FAT * length)
        # Lean that is dull again and again along a line is fat.
        cost += _CORE * max(0, cores - 2)
        if cost < best:
            best, chosen = cost, (level, tilt)
    level, tilt = chosen
    return [run.l + tilt * (1.0 - t) for run, t in zip(found, share, strict=True)], level
