"""A plate under the slice: it lies all round what is on it, and is no meat."""

from math import hypot
from statistics import median

from app.colour.bits import edge_cells, everything, grown, packed, unpacked
from app.colour.board import LIKE_BOARD, Tone, largest_apart, spread
from app.colour.field import Field
from app.colour.regions import Regions

# How many cells a plate's rim may take, how much of the edge and of the piece it is (judgements).
_RIMS, _MOST_OF_EDGE, _LEAST_PART = (0, 3, 6), 0.55, 0.15
# A slice on a plate is no less of what lies within the plate's edge, and unlike the plate by so
# much log light or log ratio; fat in a slice of one tone is less, parts of it are not unlike
# (judgements).
_ONE_PIECE, _UNLIKE_LIGHT, _UNLIKE = 0.3, 0.1, 0.03
# From which log R/G down a colour is no meat's; by how much a plate may be darker than what lies on
# it; by how much redder, in cure tone: a cured rim is 0.3 and more above a grey core (judgements).
_NO_MEAT, _NO_DARKER, _REDDER = 0.12, 0.1, 0.03


def without_plate(
    field: Field,
    regions: Regions,
    means: dict[int, Tone],
    mask: bytearray,
    board: set[int],
) -> bytearray | None:
    """The slice without the plate it lies on.

    A plate is one region, or several of a colour that no meat has, that is most of what lies along
    the piece's edge, or a little within where its rim is of another colour

    Parameters
    ----------
    field : tones of the picture
    regions : its regions
    means : mean tone of each
    mask : a piece that may be plate and slice
    board : regions known as board

    Returns
    -------
    Mask of what lies on the plate; None where there is no plate, or nothing on it
    """
    cells = everything(field)
    off = cells & ~packed(field, mask)
    for deep in _RIMS:
        core = unpacked(field, cells & ~grown(field, off, cells, deep))
        edge: dict[int, int] = {}
        for i in edge_cells(field, core):
            edge[regions.of[i]] = edge.get(regions.of[i], 0) + 1
        if not edge:
            return None
        root = max(edge, key=lambda one: edge[one])
        plates = [{root}]
        if means[root][1] < _NO_MEAT:
            plates.append({one for one in edge if _alike(means[one], means[root])})
        for plate in plates:
            part = sum(edge[one] for one in plate) / sum(edge.values())
            if part > _MOST_OF_EDGE and _is_plate(field, regions, means[root], mask, plate):
                more = board | plate
                spread(field, regions, means, more, plate)
                piece = largest_apart(field, regions, more)
                if piece is not None and _is_slice(field, regions, mask, plate, piece):
                    return piece
                return None
    return None


def _is_slice(
    field: Field, regions: Regions, mask: bytearray, plate: set[int], piece: bytearray
) -> bool:
    """Whether a piece is a slice on a plate, not a part of a slice that was taken for one."""
    own = [i for i, inside in enumerate(mask) if inside and regions.of[i] in plate]
    whole, part = sum(mask), sum(piece)
    if part < max(_ONE_PIECE * (whole - len(own)), _LEAST_PART * whole):
        return False
    on_it = [i for i, inside in enumerate(piece) if inside]
    light, u, v = (
        median(tones[i] for i in on_it) - median(tones[i] for i in own)
        for tones in (field.l, field.u, field.v)
    )
    return abs(light) > _UNLIKE_LIGHT or hypot(u, v) > _UNLIKE


def _is_plate(
    field: Field,
    regions: Regions,
    mean: Tone,
    mask: bytearray,
    plate: set[int],
) -> bool:
    """Whether it is lighter than what it surrounds, or of no meat's colour, and less red: a rim
    redder than what it surrounds is cured meat round a grey core."""
    own = [i for one in plate for i in regions.cells[one] if mask[i]]
    within = [i for i, inside in enumerate(mask) if inside and regions.of[i] not in plate]
    if min(len(own), len(within)) < _LEAST_PART * sum(mask):
        return False
    lighter = mean[0] > median(field.l[i] for i in within) - _NO_DARKER
    red = sum(field.s[i] for i in own) / len(own)
    less_red = red < median(field.s[i] for i in within) + _REDDER
    return less_red and (lighter or mean[1] < _NO_MEAT)


def _alike(one: Tone, other: Tone) -> bool:
    """Whether two regions are of one colour, lighter or darker by no more than shade."""
    return (
        hypot(one[1] - other[1], one[2] - other[2]) < LIKE_BOARD and abs(one[0] - other[0]) < 0.35
    )
