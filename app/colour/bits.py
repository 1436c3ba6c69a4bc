"""Masks as one long number, a bit a cell: whole pictures are grown and flooded in few steps.

Rows follow each other with one empty bit between, so that nothing runs over a row's end.
"""

from app.colour.field import Field

DIGITS = b"0" + b"1" * 255
"""For bytes.translate, from cells to binary digits: any cell but 0 is on."""

CELLS = bytes(c == ord("1") for c in range(256))
"""The way back."""


def packed(field: Field, mask: bytes | bytearray) -> int:
    """A mask as a number.

    Examples
    --------
    >>> none = [0.0] * 4
    >>> bin(packed(Field(2, 2, none, none, none, none), bytearray([1, 0, 1, 1])))
    '0b100110'
    """
    w = field.columns
    digits = mask.translate(DIGITS)
    return int(b"".join([digits[at : at + w] + b"0" for at in range(0, len(digits), w)]), 2)


def unpacked(field: Field, bits: int) -> bytearray:
    """A number as a mask of 0 and 1, row by row.

    Examples
    --------
    >>> none = [0.0] * 4
    >>> list(unpacked(Field(2, 2, none, none, none, none), 0b100110))
    [1, 0, 1, 1]
    """
    w, h = field.columns, field.rows
    cells = format(bits, f"0{(w + 1) * h}b").encode().translate(CELLS)
    return bytearray(b"".join([cells[at : at + w] for at in range(0, len(cells), w + 1)]))


def everything(field: Field) -> int:
    """All cells."""
    return packed(field, bytearray([1]) * (field.columns * field.rows))


def border(field: Field) -> int:
    """The cells at the picture's border.

    Examples
    --------
    >>> none = [0.0] * 9
    >>> grid = Field(3, 3, none, none, none, none)
    >>> list(unpacked(grid, border(grid)))
    [1, 1, 1, 1, 0, 1, 1, 1, 1]
    """
    w, h = field.columns, field.rows
    side = bytes([1]) + bytes(w - 2) + bytes([1]) if w > 1 else bytes([1])
    rows = [bytes([1]) * w if y in (0, h - 1) else side for y in range(h)]
    return packed(field, b"".join(rows))


def grown(field: Field, bits: int, among: int, by: int = 1) -> int:
    """The cells, and those so many steps beside them that are among others."""
    down = field.columns + 1
    for _ in range(by):
        bits |= (bits << 1 | bits >> 1 | bits << down | bits >> down) & among
    return bits


def edge_cells(field: Field, mask: bytes | bytearray) -> list[int]:
    """The cells of a mask beside a cell that is not of it, row by row.

    Examples
    --------
    >>> none = [0.0] * 4
    >>> edge_cells(Field(4, 1, none, none, none, none), bytes([1, 1, 1, 0]))
    [2]
    """
    own = packed(field, mask)
    cells = everything(field)
    edge = unpacked(field, own & grown(field, cells & ~own, cells))
    found, at = [], edge.find(1)
    while at >= 0:
        found.append(at)
        at = edge.find(1, at + 1)
    return found


def flooded(field: Field, bits: int, among: int) -> int:
    """The cells and all that hang together with them among others.

    Examples
    --------
    >>> none = [0.0] * 4
    >>> row = Field(4, 1, none, none, none, none)
    >>> list(unpacked(row, flooded(row, packed(row, bytes([1, 0, 0, 0])),
    ...                            packed(row, bytes([1, 1, 0, 1])))))
    [1, 1, 0, 0]
    """
    while True:
        wider = grown(field, bits, among)
        if wider == bits:
            return bits
        bits = wider


def reached(field: Field, among: int) -> int:
    """Those of the cells that hang together with the picture's border.

    Examples
    --------
    >>> none = [0.0] * 9
    >>> grid = Field(3, 3, none, none, none, none)
    >>> reached(grid, packed(grid, bytes([0, 0, 0, 0, 1, 0, 0, 0, 0])))
    0
    """
    return flooded(field, border(field) & among, among)


def largest(field: Field, bits: int) -> int:
    """The largest piece of cells that hang together.

    Examples
    --------
    >>> none = [0.0] * 4
    >>> row = Field(4, 1, none, none, none, none)
    >>> list(unpacked(row, largest(row, packed(row, bytes([1, 0, 1, 1])))))
    [0, 0, 1, 1]
    """
    best, most = 0, 0
    while bits.bit_count() > most:
        piece = flooded(field, bits & -bits, bits)
        bits ^= piece
        if piece.bit_count() > most:
            best, most = piece, piece.bit_count()
    return best
