"""Mending a measured cut face by touch: cells given another class, shares changed by them."""

from collections import Counter

from attrs import evolve

from app.colour.cell_classes import BOARD, GAP, NAMES
from app.colour.face import CutFace


def shares_of(classes: bytes) -> dict[str, float]:
    """Per cent of each class inside the outline, board and gaps left out.

    Raises
    ------
    ValueError : no cell holds any of the five classes

    Examples
    --------
    >>> shares_of(bytes([0, 3, 3, 5, 5, 6]))["grey"]
    50.0
    """
    counts = {name: classes.count(number) for name, number in NAMES.items()}
    whole = sum(counts.values())
    if not whole:
        raise ValueError("Nothing of the slice is left: at least one cell must be meat.")
    return {name: 100.0 * count / whole for name, count in counts.items()}


def recounted(face: CutFace, classes: bytes) -> CutFace:
    """The face with other classes, its shares changed by no more than the cells that differ.

    A share measured finer than whole cells, like streaks of fat in lean ones, stays so: what is
    left of a class keeps its part, what is new counts whole.

    part' = part · cells left / cells before + new cells; of a class seen in no whole cell, as much
    is left as of the face

    Parameters
    ----------
    face : a measured face with its classes
    classes : as many class numbers, some of them others

    Returns
    -------
    CutFace with these classes

    Raises
    ------
    ValueError : no cell holds any of the five classes, or not as many classes

    Examples
    --------
    >>> face = CutFace(45, 0, 45, 10, 0, 1.0, columns=4, rows=1, classes=bytes([3, 3, 5, 5]))
    >>> round(recounted(face, bytes([3, 5, 5, 5])).fat_percent, 1)
    7.5
    """
    if len(classes) != len(face.classes):
        raise ValueError(f"Classes of {len(face.classes)} cells expected, {len(classes)} given.")
    shares_of(classes)  # refuses a slice of which nothing is left
    lost = Counter(was for was, now in zip(face.classes, classes, strict=True) if was != now)
    before = {name: face.classes.count(number) for name, number in NAMES.items()}
    whole = sum(before.values())
    gone = sum(lost[number] for number in NAMES.values())
    part: dict[str, float] = {}
    for name, number in NAMES.items():
        seen = 0.01 * face.shares.get(name, 0.0) * whole
        left = before[name] - lost[number]
        kept = left / before[name] if before[name] else 1.0 - gone / max(1, whole)
        part[name] = seen * kept + classes.count(number) - left
    all_parts = sum(part.values())
    return evolve(
        face,
        cured_percent=100.0 * part["cured"] / all_parts,
        pale_percent=100.0 * part["pale"] / all_parts,
        grey_percent=100.0 * part["grey"] / all_parts,
        fat_percent=100.0 * part["fat"] / all_parts,
        bark_percent=100.0 * part["bark"] / all_parts,
        classes=classes,
    )


def mended(face: CutFace, x: float, y: float, radius_px: float, to: int) -> CutFace:
    """The face with the cells around a touch given another class.

    Parameters
    ----------
    face : a measured face with its classes
    x, y : the touch [px]
    radius_px : how far it reaches [px]; at least the cell under it is changed
    to : class number, 0 board to 6 gap (`app.colour.cell_classes`)

    Returns
    -------
    CutFace with its shares changed by those cells

    Raises
    ------
    ValueError : the face was not measured, no such class, or nothing would be left

    Examples
    --------
    >>> face = CutFace(50, 0, 50, 0, 0, 1.0, columns=2, rows=1, step=4, classes=bytes([3, 5]))
    >>> mended(face, 1.0, 1.0, 1.0, 5).cured_percent
    100.0
    """
    if not face.classes:
        raise ValueError("This face was not measured, so there is nothing to mend.")
    if not BOARD <= to <= GAP:
        raise ValueError(f"A class is a number from {BOARD} to {GAP}; {to} was given.")
    cells = bytearray(face.classes)
    cx, cy, reach = x / face.step, y / face.step, max(0.0, radius_px / face.step)
    for row in range(max(0, int(cy - reach)), min(face.rows, int(cy + reach) + 1)):
        for column in range(max(0, int(cx - reach)), min(face.columns, int(cx + reach) + 1)):
            under = column == int(cx) and row == int(cy)
            if under or (column + 0.5 - cx) ** 2 + (row + 0.5 - cy) ** 2 <= reach * reach:
                cells[row * face.columns + column] = to
    return recounted(face, bytes(cells))
