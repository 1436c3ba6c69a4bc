"""Finding the slice in a picture: what is not board, in one piece, with its holes filled."""

from math import hypot

from app.colour.bits import everything, grown, largest, packed, unpacked
from app.colour.enclosed import enclosed
from app.colour.field import Field
from app.colour.masks import filled, smoothed
from app.colour.regions import Regions

# Judgements in log ratios: how near in colour a region must be to the board beside it to be
# board too, and how much of its cells in the middle of the picture speak for a slice that
# runs out of the frame.
_LIKE_BOARD, _SHADE_LIKE, _MIDDLE_SHARE, _BORDER_SHARE = 0.10, 0.085, 0.30, 0.34
_SHADE_STEP, _SHADE_CELLS = 0.4, 14
# What a dark line goes round is the slice found by colour where they share so much of both; what it
# leaves out of that must be board, from so much of the slice on. Within these cells of its edge,
# out and in, colour has the say (judgements).
_AGREE, _CUT_SHARE = 0.3, 0.05
_EDGE_OUT, _EDGE_IN = 2, 3
_LEAST_AREA = 0.03  # of the picture
_SURE_SHARE = 0.03  # of the border
_REDDER = 0.03  # of the cure tone: a cured rim is 0.3 and more above a grey core


def find(field: Field, regions: Regions) -> bytearray | None:
    """The slice as a mask of cells, 1 inside; None when nothing stands out from the board.

    What differs from the board in colour is sought, and what a closed dark line goes round: bark
    keeps the slice apart from a board of its own colour, and from a plate

    Parameters
    ----------
    field : tones of the picture
    regions : its regions

    Returns
    -------
    Mask, row by row
    """
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
    board, main = _at_the_border(field, regions)
    _spread(field, regions, means, board, main)
    mask = _largest(field, regions, board)
    if mask is None:
        return None
    peeled = _without_plate(field, regions, means, mask, board)
    mask = peeled if peeled is not None else mask
    _peel_shade(field, regions, means, mask)
    mask = filled(field, smoothed(field, mask, 2, 4))
    _peel_shade(field, regions, means, mask)
    mask = smoothed(field, mask, 3, 0)
    return mask if sum(mask) > _LEAST_AREA * len(mask) else None


def _at_the_border(field: Field, regions: Regions) -> tuple[set[int], set[int]]:
    """Regions that reach the border, save one that lies mostly in the middle; and those of
    them that hold enough of the border to be sure of."""
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


def _spread(
    field: Field,
    regions: Regions,
    means: dict[int, tuple[float, float, float]],
    board: set[int],
    sources: set[int],
) -> None:
    """Let board take in the regions beside it that are like it, or like it in shade."""
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
            if (colour < _LIKE_BOARD and -0.3 < darker < 0.35) or (
                colour < _SHADE_LIKE and 0.0 < darker < 0.9
            ):
                board.add(near)
                waiting.append(near)


def _largest(field: Field, regions: Regions, board: set[int]) -> bytearray | None:
    """The largest piece that is not board, its holes filled."""
    apart = bytearray(0 if root in board else 1 for root in regions.of)
    piece = largest(field, packed(field, apart))
    if piece.bit_count() < _LEAST_AREA * len(apart):
        return None
    return filled(field, unpacked(field, piece))


def _without_plate(
    field: Field,
    regions: Regions,
    means: dict[int, tuple[float, float, float]],
    mask: bytearray,
    board: set[int],
) -> bytearray | None:
    """Take away a plate: one region that is most of the piece's rim, lighter than within and less
    red: a rim redder than what it surrounds is cured meat round a grey core."""
    rim: dict[int, int] = {}
    count = 0
    for i, inside in enumerate(mask):
        if inside and any(not mask[j] for j in field.beside(i)):
            rim[regions.of[i]] = rim.get(regions.of[i], 0) + 1
            count += 1
    if not count:
        return None
    root, most = max(rim.items(), key=lambda pair: pair[1])
    within = [i for i, inside in enumerate(mask) if inside and regions.of[i] != root]
    plate = sum(1 for i in regions.cells[root] if mask[i])
    if most < 0.55 * count or plate < 0.15 * sum(mask) or len(within) < 0.15 * sum(mask):
        return None
    inner = sorted(field.l[i] for i in within)
    if means[root][0] < inner[len(inner) // 2] - 0.1:
        return None
    cells = regions.cells[root]
    red_within = sorted(field.s[i] for i in within)[len(within) // 2]
    if sum(field.s[i] for i in cells) / len(cells) > red_within + _REDDER:
        return None
    more = board | {root}
    _spread(field, regions, means, more, {root})
    return _largest(field, regions, more)


def _peel_shade(
    field: Field,
    regions: Regions,
    means: dict[int, tuple[float, float, float]],
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
    rough = max(_SHADE_LIKE, 2.2 * noise), max(_SHADE_STEP, 2.5 * unevenness)
    layer = [i for i, on in enumerate(mask) if on and any(not mask[j] for j in field.beside(i))]
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
