"""Which regions of a picture are board: those at its border, and what is like them beside them."""

from math import hypot

from app.colour.bits import largest, packed, unpacked
from app.colour.field import Field
from app.colour.masks import filled
from app.colour.regions import Regions

Tone = tuple[float, float, float]
"""Mean of a region: log light, and its two log ratios."""

LIKE_BOARD, SHADE_LIKE = 0.10, 0.085
"""How unlike in colour two parts of one board may be in one light, and in shade [log ratio];
judgements."""

# Of a region's cells in the middle of the picture, and of the border it holds: more of the one and
# less of the other speak for a slice that runs out of the frame (judgements).
_MIDDLE_SHARE, _BORDER_SHARE = 0.30, 0.34
_LEAST_AREA = 0.03  # of the picture
_SURE_SHARE = 0.03  # of the border


def at_the_border(field: Field, regions: Regions) -> tuple[set[int], set[int]]:
    """Regions that reach the picture's border.

    Parameters
    ----------
    field : tones of the picture
    regions : its regions

    Returns
    -------
    All of them save one that lies mostly in the middle; and those that hold enough of the border
    to be sure of
    """
    w, h = field.columns, field.rows
    border = [*range(w), *range((h - 1) * w, h * w)]
    border += [y * w for y in range(1, h - 1)] + [y * w + w - 1 for y in range(1, h - 1)]
    touching: dict[int, int] = {}
    for i in border:
        touching[regions.of[i]] = touching.get(regions.of[i], 0) + 1
    board = set()
    for root, count in touching.items():
        if _middle_share(
            field, regions.cells[root]
        ) > _MIDDLE_SHARE and count < _BORDER_SHARE * len(border):
            continue
        board.add(root)
    sure = {root for root in board if touching[root] >= _SURE_SHARE * len(border)}
    return board, sure


def _middle_share(field: Field, cells: list[int]) -> float:
    """Share of cells that lie in the middle quarter of the picture."""
    w, h = field.columns, field.rows
    middle = sum(1 for i in cells if 0.25 * w <= i % w < 0.75 * w and 0.25 * h <= i // w < 0.75 * h)
    return middle / len(cells)


def _borders(field: Field, regions: Regions) -> dict[int, dict[int, int]]:
    """How many cell sides each region shares with each other."""
    shared: dict[int, dict[int, int]] = {root: {} for root in regions.cells}
    w, n, of = field.columns, field.columns * field.rows, regions.of
    for i in range(n):
        a = of[i]
        for j in (i + 1 if (i + 1) % w else n, i + w):
            if j < n and of[j] != a:
                b = of[j]
                shared[a][b] = shared[a].get(b, 0) + 1
                shared[b][a] = shared[b].get(a, 0) + 1
    return shared


def spread(
    field: Field,
    regions: Regions,
    means: dict[int, Tone],
    board: set[int],
    sources: set[int],
) -> None:
    """Let board take in the regions beside it that are like it, or like it in shade.

    Parameters
    ----------
    field : tones of the picture
    regions : its regions
    means : mean tone of each
    board : regions known as board; added to
    sources : those of them from which to go on
    """
    shared = _borders(field, regions)
    waiting = list(sources)
    while waiting:
        at = waiting.pop()
        l0, u0, v0 = means[at]
        for near in shared[at]:
            size = len(regions.cells[near]) / len(regions.of)
            if near in board or size > 0.2:
                continue
            if size > 0.03 and _middle_share(field, regions.cells[near]) > 0.6:
                continue
            l1, u1, v1 = means[near]
            colour = hypot(u1 - u0, v1 - v0)
            darker = l0 - l1
            # Very strong colours change with light, since the dimmest channel drowns in noise.
            colour -= 0.06 * max(0.0, hypot(u0, v0) - 1.0)
            # Every region with one colour of the board, lighter or darker by no more than
            # shade; a stronger shade must match the colour better.
            if (colour < LIKE_BOARD and -0.3 < darker < 0.35) or (
                colour < SHADE_LIKE and 0.0 < darker < 0.9
            ):
                board.add(near)
                waiting.append(near)


def largest_apart(field: Field, regions: Regions, board: set[int]) -> bytearray | None:
    """The largest piece that is not board, its holes filled.

    Parameters
    ----------
    field : tones of the picture
    regions : its regions
    board : those that are board

    Returns
    -------
    Mask; None where no piece is as large as three hundredths of the picture
    """
    apart = bytearray(0 if root in board else 1 for root in regions.of)
    piece = largest(field, packed(field, apart))
    if piece.bit_count() < _LEAST_AREA * len(apart):
        return None
    return filled(field, unpacked(field, piece))
