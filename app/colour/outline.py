"""Finding the slice in a picture: what is not board, in one piece, with its holes filled."""

from math import hypot

from app.colour.bits import edge_cells, everything, grown, packed, unpacked
from app.colour.board import SHADE_LIKE, Tone, at_the_border, largest_apart, spread
from app.colour.enclosed import enclosed
from app.colour.field import Field
from app.colour.masks import filled, smoothed
from app.colour.plate import without_plate
from app.colour.regions import Regions
from app.colour.solid import without_tails

_SHADE_STEP, _SHADE_CELLS = 0.4, 14  # log light and cells (judgements)
# What a dark line goes round is the slice found by colour where they share so much of both; what it
# leaves out of that must be board, from so much of the slice on. Within these cells of its edge,
# out and in, colour has the say (judgements).
_AGREE, _CUT_SHARE = 0.3, 0.05
_EDGE_OUT, _EDGE_IN = 2, 3
_LEAST_AREA = 0.03  # of the picture


def find(field: Field, regions: Regions) -> bytearray | None:
    """The slice as a mask of cells, 1 inside; None when nothing stands out from the board.

    What differs from the board in colour is sought, and what a closed dark line goes round: bark
    keeps the slice apart from a board of its own colour, and from a plate; tails are cut off

    Parameters
    ----------
    field : tones of the picture
    regions : its regions

    Returns
    -------
    Mask, row by row
    """
    found = _found(field, regions)
    return without_tails(field, found) if found is not None else None


def _found(field: Field, regions: Regions) -> bytearray | None:
    """By colour, or by the dark line round it where colour takes in more, or something else."""
    by_colour = _by_colour(field, regions)
    for mask in enclosed(field):
        if by_colour is None:
            return mask
        both = sum(a & b for a, b in zip(mask, by_colour, strict=True))
        agree = both > _AGREE * (sum(mask) + sum(by_colour) - both)
        if agree and _cuts_board(field, mask, by_colour):
            return _with_edge(field, mask, by_colour)
        if not agree and both > 0.5 * sum(by_colour):
            return mask
    return by_colour


def _cuts_board(field: Field, mask: bytearray, by_colour: bytearray) -> bool:
    """Whether what a mask leaves out of another is board by its colour, or hardly anything."""
    far = field.columns * 3
    n = len(mask)
    cut: list[int] = []
    board: list[int] = []
    own: list[int] = []
    for i in range(far, n - far):
        if mask[i]:
            if mask[i - 3] and mask[i + 3] and mask[i - far] and mask[i + far]:
                own.append(i)
        elif not (mask[i - 3] or mask[i + 3] or mask[i - far] or mask[i + far]):
            (cut if by_colour[i] else board).append(i)
    if len(cut) < _CUT_SHARE * len(own):
        return True
    light, u, v = field.l, field.u, field.v

    def some(cells: list[int], count: int) -> list[tuple[float, float, float]]:
        every = max(1, len(cells) // count)
        return [(0.3 * light[i], u[i], v[i]) for i in cells[::every]]

    boards, owns = some(board, 150), some(own, 150)
    like = 0
    seen = some(cut, 50)
    for a, b, c in seen:
        to_board = min([(a - x) ** 2 + (b - y) ** 2 + (c - z) ** 2 for x, y, z in boards])
        to_own = min([(a - x) ** 2 + (b - y) ** 2 + (c - z) ** 2 for x, y, z in owns])
        like += to_board < to_own
    return 2 * like > len(seen)


def _with_edge(field: Field, mask: bytearray, other: bytearray) -> bytearray:
    """The mask, but within some cells of its edge as the other has it."""
    cells = everything(field)
    inside, out = packed(field, mask), packed(field, other)
    wide = grown(field, inside, cells, _EDGE_OUT)
    off = grown(field, cells & ~inside, cells, _EDGE_IN)
    return smoothed(field, unpacked(field, cells & ~off | out & wide), 2, 2)


def _by_colour(field: Field, regions: Regions) -> bytearray | None:
    """The slice as what differs from the board."""
    means = {
        root: (
            sum(field.l[i] for i in cells) / len(cells),
            sum(field.u[i] for i in cells) / len(cells),
            sum(field.v[i] for i in cells) / len(cells),
        )
        for root, cells in regions.cells.items()
    }
    board, main = at_the_border(field, regions)
    spread(field, regions, means, board, main)
    mask = largest_apart(field, regions, board)
    if mask is None:
        return None
    mask = without_plate(field, regions, means, mask, board) or mask
    _peel_shade(field, regions, means, mask)
    mask = filled(field, smoothed(field, mask, 2, 4))
    _peel_shade(field, regions, means, mask)
    mask = smoothed(field, mask, 3, 0)
    return mask if sum(mask) > _LEAST_AREA * len(mask) else None


def _peel_shade(
    field: Field,
    regions: Regions,
    means: dict[int, Tone],
    mask: bytearray,
) -> None:
    """Take away, layer by layer, rim cells of the board's colour that pass into it in steps
    too small for an edge: shade, and the mottling of a dark board."""
    colour: dict[int, tuple[float, float]] = {}
    brightest = max(field.l)
    noise, unevenness = _board_noise(field, mask)
    lit = sorted(light for light, on in zip(field.l, mask, strict=True) if on)
    if not lit:
        return
    dark = lit[len(lit) // 2] - 0.9
    rough = max(SHADE_LIKE, 2.2 * noise), max(_SHADE_STEP, 2.5 * unevenness)
    layer = edge_cells(field, mask)
    for _ in range(_SHADE_CELLS):
        gone = []
        for i in layer:
            for j in field.beside(i):
                if mask[j]:
                    continue
                u, v = colour.get(j) or means[regions.of[j]][1:]
                step = field.l[j] - field.l[i]
                # Only dark cells are given the benefit of noise: lean is never to be eaten.
                like, most = (0.06, 0.3)
                if field.l[i] < dark:
                    # Strong colours also pale a little in shade.
                    like, most = rough[0] + 0.1 * hypot(u, v), rough[1]
                if (
                    abs(step) < most
                    and hypot(field.u[i] - u, field.v[i] - v) < like
                    and field.l[j] < brightest - 0.25
                ):
                    colour[i] = (u, v)
                    gone.append(i)
                    break
        if not gone:
            return
        for i in gone:
            mask[i] = 0
        layer = list({j for i in gone for j in field.beside(i) if mask[j]})


def _board_noise(field: Field, mask: bytearray) -> tuple[float, float]:
    """Usual difference in colour and in light between neighbours on the board."""
    pairs = [i for i in range(len(mask) - 1) if not mask[i] and not mask[i + 1]][::3]
    if len(pairs) < 10:
        return 0.0, 0.0
    colours = sorted(hypot(field.u[i] - field.u[i + 1], field.v[i] - field.v[i + 1]) for i in pairs)
    lights = sorted(abs(field.l[i] - field.l[i + 1]) for i in pairs)
    return min(0.12, colours[len(pairs) // 2]), min(0.3, lights[len(pairs) // 2])
