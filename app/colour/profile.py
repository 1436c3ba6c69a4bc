"""A line across a slice: where the slice begins and ends, and what lies at each place."""

from math import exp
from statistics import median
from typing import Literal

from attrs import frozen

from app.colour.lab import Triple
from app.colour.pixels import Sample
from app.colour.runs import Run, runs
from app.colour.stuff import Stuff as RunKind
from app.colour.stuff import stuff_of
from app.colour.tone import Tone, split, tone

Stuff = Literal["board", "bark", "fat", "gap", "lean"]

# Judgements, in logarithms of light: bark and gaps are this much darker than the lean around
# them, fat and glare this much brighter; and how different a board must be to be told apart.
_DARKER, _BRIGHTER, _LEAST_FAT = 0.95, 0.32, 0.38
_STREAK = 0.1  # of log light and of tone: a thin streak of fat
_SPOTTED = 1.25  # times the usual peak of a bar's pixels
_EDGE_ZONE = 0.27  # an edge is looked for in this much of the line from each end
_LOCAL = 0.16  # lean's own brightness is taken from this much of the line to each side


@frozen
class Profile:
    """What lies along the line; `places` are fractions of it, some beyond its ends.

    `clean` is false where a place holds a little of what lies beside it, so that its tone
    must not be read.
    """

    places: list[float]
    tones: list[Tone]
    lights: list[Triple]
    stuff: list[Stuff]
    clean: list[bool]
    left: float
    right: float
    left_seen: bool
    right_seen: bool
    found: list[Run]


def profile(
    places: list[float],
    samples: list[Sample],
    gains: Triple,
    blur: int = 2,
    balanced: bool = False,
) -> Profile:
    """Tell apart what a line crosses.

    Parameters
    ----------
    places : fractions of the line, rising and evenly spaced [1]
    samples : mean light there
    gains : white balance on linear red, green, blue [1]
    blur : places over which the picture mixes neighbours
    balanced : whether the gains are those of a white that was measured

    Returns
    -------
    Profile
    """
    lights = [
        (s.light[0] * gains[0], s.light[1] * gains[1], s.light[2] * gains[2]) for s in samples
    ]
    middle = [light[1] for p, light in zip(places, lights, strict=True) if 0.1 < p < 0.9]
    floor = 0.015 * median(middle or [light[1] for light in lights]) + 1e-5
    tones = [
        Tone(tone(light, floor).l, around.u, around.v, around.s)
        for light, around in zip(
            lights,
            (
                tone((s.wide[0] * gains[0], s.wide[1] * gains[1], s.wide[2] * gains[2]), floor)
                for s in samples
            ),
            strict=True,
        )
    ]
    left, left_seen = _edge(places, tones, 1)
    right, right_seen = _edge(places, tones, -1)
    if right - left < 0.3:
        left, right, left_seen, right_seen = 0.0, 1.0, False, False
    white = [s.white > 0.4 for s in samples]
    stuff, found = _stuff(places, tones, white, left, right, blur, balanced)
    left, right = _behind_bark(places, tones, stuff, left, right)
    clean = [
        stuff[i] == "lean"
        and all(kind == "lean" for kind in stuff[max(0, i - blur) : i + blur + 1])
        for i in range(len(stuff))
    ]
    # A streak finer than the bar shows as one pixel much brighter than the rest of it.
    peaks = sorted(s.peak for s, kind in zip(samples, stuff, strict=True) if kind == "lean")
    if peaks:
        most = _SPOTTED * peaks[len(peaks) // 2]
        clean = [on and s.peak < most for on, s in zip(clean, samples, strict=True)]
    return Profile(places, tones, lights, stuff, clean, left, right, left_seen, right_seen, found)


def _apart(a: Tone, b: Tone) -> float:
    """Distance of two tones; brightness counts little, since shade changes it."""
    du, dv, dl = a.u - b.u, a.v - b.v, a.l - b.l
    return float((du * du + dv * dv + 0.09 * dl * dl) ** 0.5)


def _typical(tones: list[Tone]) -> Tone:
    return Tone(*(median(getattr(t, name) for t in tones) for name in ("l", "u", "v", "s")))


def _edge(places: list[float], tones: list[Tone], way: int) -> tuple[float, bool]:
    """The slice's edge from one side, and whether a board was seen beyond it.

    Walks inward from beyond the end of the line. The board is what lies outside; its slow
    change of shade is followed, a lasting change of colour is the edge.
    """
    order = range(len(places)) if way > 0 else range(len(places) - 1, -1, -1)
    near = [(places[i] if way > 0 else 1.0 - places[i], tones[i]) for i in order]
    zone = [(p, t) for p, t in near if p < _EDGE_ZONE]
    inner = [t for p, t in near if 0.15 < p < 0.85]
    outside = [t for p, t in zone if p < -0.012]
    if len(outside) < 4 or len(inner) < 8:
        outside = [t for _, t in zone[:4]]
    board = _typical(outside[-8:])
    lean = _typical([t for t in inner if t.l > median(x.l for x in inner) - _DARKER])
    beyond = [t for p, t in zone if p < -0.01]
    colour = max(0.03, 1.5 * _unrest([(t.u, t.v) for t in beyond]))
    light = max(0.12, 1.5 * _unrest([(t.l, 0.0) for t in beyond]))

    def differs(t: Tone) -> bool:
        du, dv, dl = (t.u - board.u) / colour, (t.v - board.v) / colour, (t.l - board.l) / light
        # Shade falls on a board without being an edge; a lighter place seldom is shade.
        dl = min(0.0, dl) * 0.55 + max(0.0, dl)
        return du * du + dv * dv + dl * dl > 16.0

    none = (0.0, False) if way > 0 else (1.0, False)
    for k, (place, t) in enumerate(zone[:-4]):
        if place < -0.02:
            continue
        ahead = [differs(x) for _, x in zone[k : k + 5]]
        if ahead[0] and sum(ahead) >= 4:
            if place > 0.02 and not differs(lean):
                return none
            found = max(0.0, place)
            return (found, True) if way > 0 else (1.0 - found, True)
        if not ahead[0]:
            board = Tone(
                0.8 * board.l + 0.2 * t.l,
                0.93 * board.u + 0.07 * t.u,
                0.93 * board.v + 0.07 * t.v,
                board.s,
            )
    return none


def _unrest(values: list[tuple[float, float]]) -> float:
    """Typical distance between neighbours two places apart."""
    steps = [
        ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5
        for a, b in zip(values, values[2:], strict=False)
    ]
    return median(steps) if len(steps) > 3 else 0.05


def _stuff(
    places: list[float],
    tones: list[Tone],
    white: list[bool],
    left: float,
    right: float,
    blur: int,
    balanced: bool,
) -> tuple[list[Stuff], list[Run]]:
    """Fat, gap or lean at each place between the edges, and the runs they were told by."""
    stuff: list[Stuff] = ["board"] * len(places)
    inside = [i for i in range(len(places)) if left <= places[i] <= right]
    if len(inside) < 8:
        return stuff, []
    first = inside[0]
    found = runs([tones[i] for i in inside], max(1.5, 0.7 * blur))
    for run in found:
        run.start += first
        run.stop += first
    usual = median(tones[i].l for i in inside)
    low, high, within = split([tones[i].s for i in inside if tones[i].l > usual - _DARKER])
    # Nothing as red as the cured lean is fat.
    apart = high - low > max(0.2, 2.5 * within)
    kinds = stuff_of(found, low, high if apart else low, blur, balanced)
    for run, kind in zip(found, kinds, strict=True):
        stuff[run.start : run.stop] = [kind] * run.places
    _share_bounds(found, kinds, tones, stuff, blur)
    burnt = sum(white[i] for i in inside) < 0.4 * len(inside)
    if burnt:
        for i in inside:
            if white[i]:
                stuff[i] = "fat"
    return stuff, found


def _share_bounds(
    found: list[Run], kinds: list[RunKind], tones: list[Tone], stuff: list[Stuff], blur: int
) -> None:
    """Divide the short runs between lean and fat where the light is halfway between both."""
    wide = [k for k, run in enumerate(found) if run.places > blur + 1]
    for k, run in enumerate(found):
        if run.places > blur + 1 or kinds[k] == "gap":
            continue
        before = max((j for j in wide if j < k), default=-1)
        after = min((j for j in wide if j > k), default=-1)
        if before < 0 or after < 0 or {kinds[before], kinds[after]} != {"lean", "fat"}:
            continue
        half = 0.5 * (exp(found[before].l) + exp(found[after].l))
        for i in range(run.start, run.stop):
            stuff[i] = "fat" if exp(tones[i].l) > half else "lean"


def _behind_bark(
    places: list[float], tones: list[Tone], stuff: list[Stuff], left: float, right: float
) -> tuple[float, float]:
    """Make the dark run at each edge bark, and what lies outside it board.

    Returns the edges moved inward where board had been taken in.
    """
    inside = [i for i, kind in enumerate(stuff) if kind != "board"]
    if len(inside) < 20:
        return left, right
    core = _typical([tones[i] for i in inside[len(inside) // 5 : -len(inside) // 5]])
    edges = []
    for order in (inside, inside[::-1]):
        zone = order[: len(order) // 5]
        dark = [k for k, i in enumerate(zone) if stuff[i] == "gap"]
        edge = places[order[0]]
        if dark:
            first = dark[0]
            outer = [tones[i] for i in order[:first]]
            if first <= 2 or first < 0.05 * len(order) or _apart(_typical(outer), core) > 0.25:
                last = first
                while last + 1 < len(order) and any(
                    stuff[i] == "gap" for i in order[last + 1 : last + 4]
                ):
                    last += 1
                for k, i in enumerate(order[: last + 1]):
                    stuff[i] = "bark" if k >= first else "board"
                edge = places[order[first]]
        edges.append(edge)
    return max(left, edges[0]), min(right, edges[1])
