"""Which of a face's lean tones is the cured end, the grey end, and the pale band between."""

from attrs import evolve, frozen

from app.colour.lab import Triple
from app.colour.makeup import Makeup
from app.colour.plateaus import Plateau
from app.colour.tone import Levels, kind_of, levels, redness
from app.colour.white_point import WhitePoint, adapted_srgb_light

# Judgements. A tone of its own that has turned this far is pale; a redder one is cured and what
# lies above it a smoke ring. Redness q = a* − 0.4 b* of grey beef about 1 (a*, hue from memory).
_PALE_FROM, _PALE_TO, _RING_FROM = 0.13, 0.80, 0.70
_THIN_RING = 0.15  # of what lies below it
_GREY_REDNESS, _STILL_GREY, _FAINTEST_CURED, _REDDER = 1.0, 0.5, 4.5, 2.5
_SURELY_RED = 13.0  # no grey beef shows as much
_SURELY_TWO = 0.45  # in cure tone: a smoke ring is redder than cured meat by less
_AS_DULL, _LIGHTER = 0.2, 0.22  # of the contrast, and of log light: pale told by light alone
_LEAST_CONTRAST, _LEAST_SHARE = 0.11, 0.02
# A tone in a strip too thin to be a plateau: this far from the nearest, in cure tone and in
# parts of the contrast (a smoke ring is redder than cured meat by less), and in so many cells.
_THIN_END = 0.15  # of those cells: what they turn to, most of them being on their way
_THIN_APART, _FAR_REDDER, _FAR_DULLER, _THIN_SHARE = 0.16, 0.6, 0.5, 0.02
_LEAST_TONE = -0.15  # duller than any meat: board, seen blurred


@frozen
class LeanLevels:
    """The two ends, and how far an even pale band between them has turned (None: none is).

    `light_pale` is the log light above which dull lean is pale, where it is told by light alone.
    """

    ends: Levels
    pale: float | None
    light_pale: float | None = None


def lean_levels(
    made_of: Makeup,
    lights: list[Triple],
    tones: list[float],
    clean: list[int],
    white: WhitePoint | None,
) -> LeanLevels:
    """The cured and grey ends of a face's lean.

    Parameters
    ----------
    made_of : the tones of the face
    lights : white-balanced light of each cell
    tones : cure tone s of each cell
    clean : cells of pure lean
    white : the light's white if it is known

    Returns
    -------
    LeanLevels

    Notes
    -----
    The dullest tone is grey and the reddest cured, unless the colour under a sure white speaks
    against it; with a single tone its own colour decides.
    """
    whole = sum(tone.share for tone in made_of.lean)
    lean = [tone for tone in made_of.lean if tone.share > _LEAST_SHARE * whole] or [*made_of.lean]
    # Between the ends a thinner one counts too.
    between = [tone for tone in made_of.lean if lean[0].s < tone.s < lean[-1].s]
    lean = [lean[0], *between, lean[-1]] if len(lean) > 1 else lean

    def is_cured(tone: Plateau) -> bool:
        return white is not None and white.sure and kind_of(_colour(tone, lights, white)) == "cured"

    while len(lean) > 2 and _ring_on_top(lean, is_cured(lean[-2])):
        lean.pop()
    lean = _with_thin_tones(lean, tones, clean, made_of.noise, is_cured(lean[-1]))
    lean, lighter = _without_light_pale(lean)
    low, high = lean[0], lean[-1]
    contrast = high.s - low.s
    if len(lean) < 2 or contrast < _LEAST_CONTRAST:
        return LeanLevels(_plain([max(lean, key=lambda tone: tone.share)], lights, white), None)
    if white is None or not white.sure:
        return evolve(_without_white(lean, lights, white), light_pale=lighter)
    dull, vivid = _colour(low, lights, white), _colour(high, lights, white)
    red_dull, red_vivid = redness(dull), redness(vivid)
    if (
        kind_of(vivid) in ("grey", "not meat") and red_vivid < _FAINTEST_CURED
    ) or red_vivid - red_dull < _REDDER:
        return LeanLevels(_plain([max(lean, key=lambda tone: tone.share)], lights, white), None)
    share = (red_dull - _GREY_REDNESS) / max(red_vivid - _GREY_REDNESS, 1.0)
    if share < _STILL_GREY or len(lean) > 2:
        kind = kind_of(vivid)
        ends = Levels(
            high.s, low.s, True, "not meat" if kind == "not meat" else "grey", contrast, 0.0, 1.0
        )
        return LeanLevels(ends, _pale(lean), lighter)
    end = high.s - contrast / max(0.15, 1.0 - share)
    if kind_of(dull) == "cured" and low.share > high.share:
        return LeanLevels(Levels(low.s, end, True, "cured", contrast, 0.0, 0.8), None)
    turned = 1.0 - contrast / (high.s - end)
    return LeanLevels(Levels(high.s, end, True, "pale", contrast, 0.0, 0.7), turned)


def _without_light_pale(lean: list[Plateau]) -> tuple[list[Plateau], float | None]:
    """The plateaus without a pale band as dull as grey but lighter, and where it begins."""
    low, high = lean[0].s, lean[-1].s
    dull = [tone for tone in lean if tone.s - low < _AS_DULL * (high - low)]
    if len(dull) < 2 or len(dull) == len(lean):
        return lean, None
    grey = max(dull, key=lambda tone: tone.share)
    lighter = [tone for tone in dull if tone.light - grey.light > _LIGHTER]
    if not lighter:
        return lean, None
    kept = [tone for tone in lean if tone not in lighter]
    return kept, 0.5 * (grey.light + max(tone.light for tone in lighter))


def _without_white(
    lean: list[Plateau], lights: list[Triple], white: WhitePoint | None
) -> LeanLevels:
    """Two tones in light of no sure white: cured and grey, unless that white, unsure as it is,
    makes both surely red or neither red at all."""
    low, high = lean[0], lean[-1]
    if white is not None:
        dull, vivid = _colour(low, lights, white), _colour(high, lights, white)
        doubtful = high.s - low.s < _SURELY_TWO
        if (redness(dull) > _SURELY_RED and doubtful) or redness(vivid) < 0.0:
            return LeanLevels(_plain([max(lean, key=lambda tone: tone.share)], lights, white), None)
    contrast = high.s - low.s
    certainty = min(1.0, contrast / 0.3)
    return LeanLevels(Levels(high.s, low.s, True, "grey", contrast, 0.0, certainty), _pale(lean))


def _plain(lean: list[Plateau], lights: list[Triple], white: WhitePoint | None) -> Levels:
    """Levels of one or two tones alone, by the rules that hold on a line too."""
    whole = sum(tone.share for tone in lean)
    seen: list[tuple[float, Triple]] = []
    for tone in lean:
        seen += [(tone.s, _mean(tone, lights))] * max(1, round(100 * tone.share / whole))
    return levels(seen, white)


def _with_thin_tones(
    lean: list[Plateau], tones: list[float], clean: list[int], noise: float, cured: bool
) -> list[Plateau]:
    """The plateaus, and a far redder or duller tone that lies too thin to be one of its own.

    Beyond what is surely `cured` lies a smoke ring, unless it is redder by more than any.
    """
    if len(lean) > 2:
        return lean
    low, high = lean[0].s, lean[-1].s
    apart = max(_THIN_APART, 6.0 * noise)
    beyond = high + max(apart, _FAR_REDDER * (high - low))
    if cured:
        beyond = max(beyond, high + _SURELY_TWO)
    before = low - max(apart, _FAR_DULLER * (high - low))
    found = list(lean)
    for cells, part in (
        ([i for i in clean if tones[i] > beyond], 1.0 - _THIN_END),
        ([i for i in clean if _LEAST_TONE < tones[i] < before], _THIN_END),
    ):
        if len(cells) > _THIN_SHARE * len(clean) and len(cells) > 5:
            s = sorted(tones[i] for i in cells)[int(part * len(cells))]
            near = tuple(i for i in cells if abs(tones[i] - s) < 0.5 * apart) or tuple(cells)
            found.append(Plateau(s, 0.0, len(cells) / len(clean), near))
    return sorted(found, key=lambda tone: tone.s)


def _ring_on_top(lean: list[Plateau], cured: bool) -> bool:
    """Whether the reddest tone is a smoke ring over the cured meat.

    `cured` tells that the tone below it is surely cured; then a thin one is a ring although it
    is a good deal redder.
    """
    low, below, top = lean[0].s, lean[-2], lean[-1]
    if cured and top.share < _THIN_RING * below.share and top.s - below.s < _SURELY_TWO:
        return True
    return below.s - low > _RING_FROM * (top.s - low) and top.share < below.share


def _pale(lean: list[Plateau]) -> float | None:
    """How far the largest tone between the two ends has turned."""
    low, high = lean[0].s, lean[-1].s
    best: tuple[float, float] | None = None
    for tone in lean[1:-1]:
        turned = (tone.s - low) / (high - low)
        if _PALE_FROM < turned < _PALE_TO and (best is None or tone.share > best[0]):
            best = (tone.share, turned)
    return best[1] if best else None


def _colour(tone: Plateau, lights: list[Triple], white: WhitePoint) -> Triple:
    """Daylight colour of a tone: midway between balance by channels and by cones.

    Cameras balance by channels of their own, lamps act on the cones: the truth lies between.
    """
    light = _mean(tone, lights)
    raw = (light[0] / white.gains[0], light[1], light[2] / white.gains[2])
    other = adapted_srgb_light(raw, white)
    a, b, c = (0.5 * (one + two) for one, two in zip(light, other, strict=True))
    return a, b, c


def _mean(tone: Plateau, lights: list[Triple]) -> Triple:
    n = len(tone.cells)
    a, b, c = (sum([lights[i][k] for i in tone.cells]) / n for k in range(3))
    return a, b, c
