"""Where a slice's edge lies by light alone, which a picture keeps sharper than colour."""

from math import atan2, ceil, exp, hypot, pi
from statistics import median

from app.colour.bits import edge_cells
from app.colour.field import Field
from app.colour.nine_points import POINTS, Points
from app.colour.pixels import Bytes

# JPEG stores colour in blocks of about this many pixels, so that red bleeds that far onto a
# dark board; and how far beyond the found edge bark may lie, in cells.
_BLEED_PX, _BARK_CELLS = 14.0, 7
# Judgements: by how many times one side must outshine the other, and how dark beside both
# sides bark is, in log light.
_OUTSHINES, _DARKER = 1.3, 0.4
# Bark ends sharply, shade slowly: two cells further out the board is back to this much
# of its log light, along this share of the bound.
_BACK, _SHARP_SHARE = -0.15, 0.6
# The board's own light begins this many cells out, in or out of the slice's shade.
_BESIDE = 3
# Bark on a board blacker than itself: so much lighter than that board, in this many cells to one
# along the edge; more are asked where cells are so small that a blurred edge fills one.
_DIM, _DIM_ROUND, _DIM_FINE = 1.8, 0.6, 1.2
_BLACK = -4.4  # log light of a board on which nothing can be seen to be darker
# Log light: meat this far above the board; what is within the second of it is board.
_FAR_LIGHTER, _NO_LIGHTER = 1.1, 0.35
# Bark lies all round, or nearly: in so many of twelve directions, with so many dark cells to one
# along the edge, in all and in one direction.
_SECTORS, _MOST_SECTORS, _LEAST_BARK, _LEAST_HERE = 12, 9, 0.35, 0.2
_ALL_ROUND = 0.22  # share of a layer of cells that must be dark for bark to reach that far out
_COLOURED = 0.3  # log ratios: slice and board at least so unlike that shade is told by colour
_HALF = POINTS // 2


def settled(
    field: Field, mask: bytearray, rgba: Bytes, width: int, height: int, step: int
) -> tuple[bytearray, set[int]]:
    """The mask with its edge set anew where board and slice, or bark, differ in light.

    The board's light is carried inward from beyond the edge and the meat's outward from behind
    it; each cell near the edge goes to the side most of its nine points belong to, or is bark
    where it is far darker than both

    Parameters
    ----------
    field : tones of the picture
    mask : the slice, found by colour
    rgba, width, height : the picture
    step : pixels to a cell [px]

    Returns
    -------
    Mask, and those of its cells near the edge that are bark
    """
    inward = max(1, min(4, ceil(_BLEED_PX / step)))
    mask = bytearray(mask)
    _give_back_board(field, mask)
    layers = _layers(field, mask, inward + 2, _BARK_CELLS + 3)
    light = _steadied(field, mask, layers)
    board = _carried(field, layers, light, range(_BARK_CELLS + 3, -inward - 1, -1), _BARK_CELLS)
    beside = _carried(field, layers, light, range(_BESIDE + 2, -inward - 1, -1), _BESIDE - 1)
    meat = _carried(field, layers, light, range(-inward - 2, _BARK_CELLS + 1), -inward)
    fall = -max(_DARKER, 3.0 * _roughness(field, layers, board))
    black, darker = _bark_light(field, layers, board, meat, fall), exp(fall)
    like_board = _like_board(field, layers, mask)
    out = bytearray(mask)
    looked = Points(rgba, width, height, field.columns, step)
    dark: dict[int, float] = {}
    dim: list[int] = []
    for away in range(-inward, _BARK_CELLS + 1):
        for i in layers.get(away, ()):
            if i not in beside or i not in board or i not in meat:
                continue
            b, m = exp(beside[i]), exp(meat[i])
            # Half bark, half what lies beside it.
            least = min(exp(board[i]), m)
            least = min(darker * least, 0.5 * (black + least)) if black else 0.0
            if away > 0 and i in like_board:
                continue
            if away > 2:  # the edge is not here: only bark is looked for
                if exp(field.l[i]) < least:
                    dark[i] = field.l[i]
                continue
            half = 0.5 * (b + (black if black and m < b else m))
            points = looked.lumas(i)
            bark = sum([p < least for p in points])
            if bark > _HALF and sum(points) > POINTS * least:
                bark = _HALF
            if m > _OUTSHINES * b:
                lean = sum([p > half for p in points])
                if mask[i] and bark + lean <= _HALF < sum([_DIM * b < p < half for p in points]):
                    dim.append(i)
            elif b > _OUTSHINES * m and 0 <= away < 2:
                lean = sum([least <= p < half for p in points])
            else:
                lean = POINTS - bark if mask[i] else 0
            if bark + lean > _HALF and bark >= lean and i not in like_board:
                dark[i] = field.l[i]
                out[i] = 0
            else:
                out[i] = bark + lean > _HALF
    if len(dim) > (_DIM_FINE if step < 5 else _DIM_ROUND) * len(layers[0]):
        for i in dim:  # lighter than a black board, darker than meat: bark
            out[i], dark[i] = 1, field.l[i]
    _take_in_bark(field, mask, out, layers, dark, board)
    if not black:
        _give_back_dark(field, out, layers, board, meat)
    return out, {i for i in dark if out[i]}


def _bark_light(
    field: Field,
    layers: dict[int, list[int]],
    board: dict[int, float],
    meat: dict[int, float],
    darker: float,
) -> float:
    """Light of the bark along the edge; 0 where none lies all round, as shade never does."""
    found: list[int] = []
    for layer in layers.values():
        for i in layer:
            near = i in board and i in meat
            if near and field.l[i] < min(board[i], meat[i]) + darker:
                found.append(i)
    darkest = [board[i] for i in layers.get(1, ()) if i in board]
    if len(found) < _LEAST_BARK * len(layers[0]) or median(darkest) < _BLACK:
        return 0.0
    w, n = field.columns, len(layers[0])
    cx, cy = sum(i % w for i in layers[0]) / n, sum(i // w for i in layers[0]) / n

    def sectors(cells: list[int]) -> list[int]:
        count = [0] * _SECTORS
        for i in cells:
            turn = atan2(i // w - cy, i % w - cx) / (2.0 * pi)
            count[int(turn % 1.0 * _SECTORS) % _SECTORS] += 1
        return count

    pairs = zip(sectors(found), sectors(layers[0]), strict=True)
    if sum(dark >= _LEAST_HERE * edge for dark, edge in pairs) < _MOST_SECTORS:
        return 0.0
    return exp(sorted(field.l[i] for i in found)[len(found) // 4])


def _take_in_bark(
    field: Field,
    mask: bytearray,
    out: bytearray,
    layers: dict[int, list[int]],
    dark: dict[int, float],
    board: dict[int, float],
) -> None:
    """Take dark cells into the slice: those inside the old edge, and, if they end as sharply as
    bark does, those beyond it that reach the slice."""
    for i in dark:
        out[i] = mask[i]
    n, light = len(mask), field.l
    sharp = blurred = 0
    beyond: list[int] = []
    for away in range(1, _BARK_CELLS + 1):
        layer = layers.get(away, [])
        here = [i for i in layer if i in dark]
        if len(here) < _ALL_ROUND * len(layer):
            break
        beyond += here
    away_of = {i: away for away, layer in layers.items() for i in layer}
    for i in beyond:
        for j in field.beside(i):
            further = 2 * j - i
            outward = away_of.get(j, 0) > away_of[i] and 0 <= further < n
            if outward and j not in dark and j in board and further not in dark:
                if light[further] > board[j] + _BACK:
                    sharp += 1
                else:
                    blurred += 1
    if sharp < _SHARP_SHARE * (sharp + blurred) or len(beyond) < 8:
        return
    own = set(beyond)
    waiting = [i for i in beyond if any(out[j] for j in field.beside(i))]
    for i in waiting:
        out[i] = 1
        for j in field.beside(i):
            if j in own and not out[j]:
                out[j] = 1
                waiting.append(j)


def _like_board(field: Field, layers: dict[int, list[int]], mask: bytearray) -> set[int]:
    """Cells near the edge whose colour, light aside, is the board's rather than the slice's: on a
    coloured board these are its shade."""
    u, v = field.u, field.v
    board = [i for away in (4, 5, 6, 7) for i in layers.get(away, ()) if not mask[i]]
    slice_ = [i for away in (0, -1) for i in layers.get(away, ()) if mask[i]]
    if len(board) < 12 or len(slice_) < 12:
        return set()
    bu, bv = median(u[i] for i in board), median(v[i] for i in board)
    su, sv = median(u[i] for i in slice_), median(v[i] for i in slice_)
    apart = hypot(su - bu, sv - bv)
    noise = median(hypot(u[i] - bu, v[i] - bv) for i in board)
    if apart < max(_COLOURED, 4.0 * noise):
        return set()
    return {
        i
        for away in range(-1, _BARK_CELLS + 1)
        for i in layers.get(away, ())
        if hypot(u[i] - bu, v[i] - bv) < 0.4 * apart
    }


def _give_back_board(field: Field, mask: bytearray) -> None:
    """Give back what has the board's colour and no more than its light, from outside inward: the
    grain of a dark wooden board, where the slice is far lighter."""
    board = [i for i, on in enumerate(mask) if not on]
    meat = [i for i, on in enumerate(mask) if on]
    if len(board) < 50:
        return
    light = median(field.l[i] for i in board[::3])
    bu, bv = median(field.u[i] for i in board[::3]), median(field.v[i] for i in board[::3])
    lit = sorted(meat[::3], key=lambda i: field.l[i])[len(meat) // 6 :]
    if light < _BLACK or median(field.l[i] for i in lit) < light + _FAR_LIGHTER:
        return
    su, sv = median(field.u[i] for i in lit), median(field.v[i] for i in lit)
    near = 0.5 * hypot(su - bu, sv - bv)
    waiting = [i for i in meat if any(not mask[j] for j in field.beside(i))]
    for i in waiting:
        like = hypot(field.u[i] - bu, field.v[i] - bv) < near
        if mask[i] and like and field.l[i] < light + _NO_LIGHTER:
            mask[i] = 0
            waiting += [j for j in field.beside(i) if mask[j]]


def _give_back_dark(
    field: Field,
    out: bytearray,
    layers: dict[int, list[int]],
    board: dict[int, float],
    meat: dict[int, float],
) -> None:
    """Give back what is no lighter than a dark board, from the edge inward: colour alone took it
    in, which on a dark board is noise."""
    lights = [board[i] for i in layers.get(1, ()) if i in board]
    meats = [meat[i] for i in layers[0] if i in meat]
    if not lights or not meats or median(meats) < median(lights) + _FAR_LIGHTER:
        return
    bound = median(lights) + _NO_LIGHTER
    waiting = edge_cells(field, out)
    for i in waiting:
        if out[i] and field.l[i] < bound:
            out[i] = 0
            waiting += [j for j in field.beside(i) if out[j]]


def _layers(field: Field, mask: bytearray, inward: int, outward: int) -> dict[int, list[int]]:
    """Cells by their distance from the edge: 0, -1, -2... inside, 1, 2, 3... outside."""
    first_in = edge_cells(field, mask)
    first_out = {j for i in first_in for j in field.beside(i) if not mask[j]}
    found = {0: first_in, 1: sorted(first_out)}
    for way, most in ((-1, inward), (1, outward)):
        at = 0 if way < 0 else 1
        seen = set(found[at])
        inside = 1 if way < 0 else 0
        while abs(at) < most:
            layer = []
            for i in found[at]:
                for j in field.beside(i):
                    if mask[j] == inside and j not in seen:
                        seen.add(j)
                        layer.append(j)
            at += way
            found[at] = layer
    return found


def _steadied(field: Field, mask: bytearray, layers: dict[int, list[int]]) -> dict[int, float]:
    """Log light of the cells near the edge, each the mean with those beside it on its side."""
    light = field.l
    found = {}
    for layer in layers.values():
        for i in layer:
            own = mask[i]
            near = [light[j] for j in field.beside(i) if mask[j] == own]
            found[i] = (light[i] + sum(near)) / (1 + len(near))
    return found


def _roughness(field: Field, layers: dict[int, list[int]], board: dict[int, float]) -> float:
    """Usual difference of the board's cells from the light around them, in log light."""
    off = [
        abs(field.l[i] - board[i])
        for away in (_BARK_CELLS + 1, _BARK_CELLS + 2)
        for i in layers.get(away, ())
        if i in board
    ]
    return median(off) if len(off) > 9 else 0.0


def _carried(
    field: Field,
    layers: dict[int, list[int]],
    light: dict[int, float],
    order: range,
    last_own: int,
) -> dict[int, float]:
    """Log light carried from layer to layer; up to the one before `last_own` it is their own."""
    carried: dict[int, float] = {}
    own = True
    for away in order:
        if away == last_own:
            own = False
        layer = layers.get(away, ())
        if own:
            for i in layer:
                carried[i] = light[i]
            continue
        new: dict[int, float] = {}
        waiting = list(layer)
        for _ in range(2):
            rest = []
            for i in waiting:
                near = [carried[j] for j in field.beside(i) if j in carried]
                near = near or [new[j] for j in field.beside(i) if j in new]
                if near:
                    new[i] = sum(near) / len(near)
                else:
                    rest.append(i)
            waiting = rest
        carried.update(new)
    return carried
