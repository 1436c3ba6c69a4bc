"""The cured end and the grey end of a face's lean, and an even pale tone between."""

from attrs import frozen

from app.colour.crowd import counted
from app.colour.field import Field
from app.colour.lab import Triple
from app.colour.lean_reading import MATTERS, LeanReading, Looks, lean_reading
from app.colour.tone import Kind, Levels, as_daylight, kind_of
from app.colour.white_point import WhitePoint

# From grey to cured where only one of them was seen, in cure tone, and how far pale has turned
# (judgements; see `lean_reading`).
_WHOLE, _TURNED = 0.48, 0.47
_STEP, _LEAST_FAT = 0.02, 9  # of cure tone; cells of fat that show its colour
_MEAN_OF_FIVE = 0.45  # noise of a mean over a cell and those beside it


@frozen
class LeanLevels:
    """The two ends, and how far an even pale tone between them has turned."""

    ends: Levels
    pale: float | None


def lean_levels(
    field: Field,
    clean: list[int],
    lights: list[Triple],
    noise: float,
    white: WhitePoint | None,
    fat: list[int] | None = None,
) -> LeanLevels:
    """The cured and grey ends of a face's lean.

    Parameters
    ----------
    field : tones of the picture
    clean : cells of pure lean
    lights : light of each cell, balanced by `white` where it is known
    noise : usual deviation of one cell's cure tone [1]
    white : the light's white if it is known
    fat : cells of fat

    Returns
    -------
    LeanLevels

    Notes
    -----
    An end that the slice does not show is reckoned from the tones it does. Bounds between two
    tones lie half way between them.
    """
    tones = steadied(field, clean)
    cream = _mean(fat, lights) if fat and len(fat) >= _LEAST_FAT else None
    looks = Looks(_lights_by_tone(tones, lights), cream)
    read = lean_reading(counted(tones.values()), _MEAN_OF_FIVE * noise, white, looks)
    at = read.at
    grey, cured = _ends(read)
    # A tone that hardly any of the lean has is the blurred bound of its neighbours.
    seen = read.share.get("pale", 0.0) > MATTERS
    pale = (at["pale"] - grey) / (cured - grey) if seen else None
    shown = [meaning for meaning in at if meaning != "ring"]
    kind: Kind = "grey" if "grey" in at else "pale" if "pale" in at else "cured"
    if white is not None and white.sure:
        reddest = max(at[meaning] for meaning in shown)
        near = [i for i in clean if abs(tones[i] - reddest) < 2.0 * read.spread] or clean
        if kind_of(as_daylight(_mean(near, lights), white)) == "not meat":
            kind = "not meat"
    two = len(shown) > 1
    ends = Levels(
        cured,
        grey,
        two,
        kind,
        cured - grey if two else 0.0,
        read.spread,
        read.certainty,
    )
    return LeanLevels(ends, pale if two else None)


def _lights_by_tone(
    tones: dict[int, float], lights: list[Triple]
) -> tuple[tuple[float, int, Triple], ...]:
    """Cure tone in steps, how many cells have it, and the sum of their light."""
    cells: dict[int, list[int]] = {}
    for i, s in tones.items():
        cells.setdefault(round(s / _STEP), []).append(i)
    found = []
    for step, own in sorted(cells.items()):
        red, green, blue = (sum([lights[i][k] for i in own]) for k in range(3))
        found.append((_STEP * step, len(own), (red, green, blue)))
    return tuple(found)


def _ends(read: LeanReading) -> tuple[float, float]:
    """Cure tones of grey and cured, seen or reckoned."""
    at = read.at
    if "grey" in at:
        grey = at["grey"]
        whole = (at["pale"] - grey) / _TURNED if "pale" in at else _WHOLE
        return grey, at.get("cured", grey + whole)
    if "cured" in at:
        cured = at["cured"]
        whole = (cured - at["pale"]) / (1.0 - _TURNED) if "pale" in at else _WHOLE
        return cured - whole, cured
    return at["pale"] - _TURNED * _WHOLE, at["pale"] + (1.0 - _TURNED) * _WHOLE


def steadied(field: Field, clean: list[int]) -> dict[int, float]:
    """Cure tone of clean cells, each the mean of itself and the clean ones beside it."""
    own, s = set(clean), field.s
    out = {}
    for i in clean:
        near = [s[j] for j in field.beside(i) if j in own]
        out[i] = (s[i] + sum(near)) / (1 + len(near))
    return out


def _mean(cells: list[int], lights: list[Triple]) -> Triple:
    n = len(cells)
    a, b, c = (sum([lights[i][k] for i in cells]) / n for k in range(3))
    return a, b, c
