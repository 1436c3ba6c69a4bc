"""A measured cut face as it is kept with its photo, shown again, and mended by touch."""

from collections.abc import Callable, Sequence
from itertools import pairwise
from math import ceil, hypot

from attrs import frozen

from app.colour.cell_classes import BARK, BOARD, CURED, FAT, GREY, PALE
from app.colour.face import CutFace
from app.colour.mending import mended, recounted
from app.journal.face_cells import packed, unpacked
from app.journal.records import FaceReading
from app.widgets.band_looks import CURE_LOOKS
from app.widgets.cell_layer import Rgba, cell_layer
from app.widgets.picture_points import Place

KINDS = (
    ("cured", "Cured", CURED),
    ("pale", "Pale", PALE),
    ("grey", "Grey", GREY),
    ("fat", "Fat", FAT),
    ("bark", "Bark", BARK),
)
NUMBERS = {key: number for key, _, number in KINDS} | {"board": BOARD}

# Laid over the photo: hues that meat does not have, so that they are told from it.
COLOURS: dict[int, Rgba] = {
    CURED: (*CURE_LOOKS["cured"].rgb, 150),
    PALE: (*CURE_LOOKS["pale"].rgb, 150),
    GREY: (*CURE_LOOKS["grey"].rgb, 160),
    FAT: (255, 255, 255, 150),
    BARK: (32, 201, 151, 150),
}
_ALONE: Rgba = (0, 240, 255, 190)


@frozen(eq=False)
class SeenFace:
    """A measured face, and the places of the cells that the cook put right."""

    face: CutFace
    by_hand: frozenset[int] = frozenset()


def kept_face(seen: SeenFace, place: Callable[[Place], Place]) -> FaceReading:
    """A face as it is kept; `place` turns pixels into parts of the picture."""
    face, shares = seen.face, seen.face.shares
    return FaceReading(
        shares["cured"],
        shares["pale"],
        shares["grey"],
        shares["fat"],
        shares["bark"],
        face.confidence,
        tuple(place(point) for point in face.outline),
        bool(seen.by_hand),
        packed(face.classes, seen.by_hand) if face.classes else "",
        face.columns,
        face.rows,
        face.step,
        face.says,
    )


def face_again(kept: FaceReading | None) -> SeenFace | None:
    """A kept face with its cells; None where only its shares were kept, or they are spoilt."""
    if kept is None or not kept.cells:
        return None
    try:
        classes, by_hand = unpacked(kept.cells, kept.columns * kept.rows)
    except ValueError:
        return None
    face = CutFace(
        kept.cured_percent,
        kept.pale_percent,
        kept.grey_percent,
        kept.fat_percent,
        kept.bark_percent,
        kept.confidence,
        kept.says,
        columns=kept.columns,
        rows=kept.rows,
        step=max(1, kept.step),
        classes=classes,
    )
    return SeenFace(face, by_hand)


def overlay(kept: FaceReading | None, show: str = "all") -> bytes | None:
    """A kept face's parts as a picture to lay over the photo: all, one, or none of them."""
    seen = face_again(kept) if show != "none" else None
    if seen is None:
        return None
    colours = COLOURS if show == "all" else {NUMBERS[show]: _ALONE}
    return cell_layer(seen.face.classes, seen.face.columns, seen.face.rows, colours)


def touched(seen: SeenFace, way: Sequence[Place], radius_px: float, to: int) -> SeenFace:
    """The face with all cells along a finger's way [px] given another class.

    Raises
    ------
    ValueError : nothing of the slice would be left
    """
    face = seen.face
    for x, y in _closely(way, max(radius_px, 1.0)):
        face = mended(face, x, y, radius_px, to)
    changed = (i for i, c in enumerate(face.classes) if c != seen.face.classes[i])
    return SeenFace(face, seen.by_hand.union(changed))


def _closely(way: Sequence[Place], most_px: float) -> list[Place]:
    """The way with places put in where a quick finger left more than a radius between two."""
    places = list(way[:1])
    for (ax, ay), (bx, by) in pairwise(way):
        parts = ceil(hypot(bx - ax, by - ay) / most_px) or 1
        places += [
            (ax + (bx - ax) * k / parts, ay + (by - ay) * k / parts) for k in range(1, parts + 1)
        ]
    return places


def carried_over(face: CutFace, before: SeenFace | None) -> SeenFace:
    """A face measured anew, with what had been put right by hand, where it is still inside."""
    if before is None or not before.by_hand or len(face.classes) != len(before.face.classes):
        return SeenFace(face)
    cells = bytearray(face.classes)
    for place in before.by_hand:
        if cells[place] != BOARD:
            cells[place] = before.face.classes[place]
    try:
        return SeenFace(recounted(face, bytes(cells)), before.by_hand)
    except ValueError:
        return SeenFace(face)
