"""A grid of cells as a small picture to lay over a photo: one byte a cell, a colour for each."""

import struct
import zlib
from collections.abc import Mapping

Rgba = tuple[int, int, int, int]


def cell_layer(cells: bytes, columns: int, rows: int, colours: Mapping[int, Rgba]) -> bytes:
    """Cells as a PNG with a palette; a number without a colour is clear.

    Parameters
    ----------
    cells : one number a cell, row by row
    columns, rows : size of the grid
    colours : red, green, blue and cover of each number [0-255]

    Returns
    -------
    PNG, one pixel a cell

    Raises
    ------
    ValueError : the cells do not fill the grid

    Examples
    --------
    >>> cell_layer(bytes([0, 1]), 2, 1, {1: (255, 0, 0, 128)})[:4]
    b'\\x89PNG'

    References
    ----------
    Portable Network Graphics (PNG) Specification, W3C, 2003: colour type 3.
    """
    if columns < 1 or rows < 1 or len(cells) != columns * rows:
        raise ValueError(f"{columns} × {rows} cells were expected; {len(cells)} were given.")
    kinds = max(cells) + 1
    table = [colours.get(number, (0, 0, 0, 0)) for number in range(kinds)]
    lines = b"".join(b"\0" + cells[row * columns : (row + 1) * columns] for row in range(rows))
    return b"".join(
        (
            b"\x89PNG\r\n\x1a\n",
            _chunk(b"IHDR", struct.pack(">IIBBBBB", columns, rows, 8, 3, 0, 0, 0)),
            _chunk(b"PLTE", bytes(part for colour in table for part in colour[:3])),
            _chunk(b"tRNS", bytes(colour[3] for colour in table)),
            _chunk(b"IDAT", zlib.compress(lines, 1)),
            _chunk(b"IEND", b""),
        )
    )


def _chunk(kind: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + kind + content + _sum(kind + content)


def _sum(content: bytes) -> bytes:
    return struct.pack(">I", zlib.crc32(content))
