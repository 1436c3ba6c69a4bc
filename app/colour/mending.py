"""Mending a measured cut face by touch: cells given another class, shares counted anew."""

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
    CutFace with its shares counted anew

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
    part = shares_of(bytes(cells))
    return evolve(
        face,
        cured_percent=part["cured"],
        pale_percent=part["pale"],
        grey_percent=part["grey"],
        fat_percent=part["fat"],
        bark_percent=part["bark"],
        classes=bytes(cells),
    )
