"""The cells of a measured cut face, packed to be kept with the photo and shown again."""

import binascii
import zlib
from base64 import b64decode, b64encode
from collections.abc import Collection

_BY_HAND = 8  # added to the class of a cell that the cook put right
MOST_CELLS = 100_000
"""More than a face is ever measured in; a record that claims more is not read."""


def packed(classes: bytes, by_hand: Collection[int] = ()) -> str:
    """Cells as text that a record can hold.

    Parameters
    ----------
    classes : one number a cell, 0 to 6 (`app.colour.cell_classes`), row by row
    by_hand : places of the cells that the cook put right

    Returns
    -------
    Deflated bytes in base 64; about a tenth of a byte a cell

    Raises
    ------
    ValueError : a class above 6, or a place outside the cells

    Examples
    --------
    >>> unpacked(packed(bytes([0, 3, 5]), [1]), 3)
    (b'\\x00\\x03\\x05', frozenset({1}))

    References
    ----------
    RFC 1950 (zlib) and RFC 4648 (base 64).
    """
    if any(number >= _BY_HAND - 1 for number in classes):
        raise ValueError("A cell's class is a number from 0 to 6.")
    cells = bytearray(classes)
    for place in by_hand:
        if not 0 <= place < len(cells):
            raise ValueError(f"There are {len(cells)} cells; one at {place} was named.")
        cells[place] |= _BY_HAND
    return b64encode(zlib.compress(bytes(cells), 9)).decode("ascii")


def unpacked(text: str, count: int) -> tuple[bytes, frozenset[int]]:
    """The classes of `count` cells, and the places of those put right by hand.

    Raises
    ------
    ValueError : the text holds no such cells

    Examples
    --------
    >>> unpacked("?", 3)
    Traceback (most recent call last):
    ...
    ValueError: The cells kept with this face cannot be read.
    """
    if not 0 < count <= MOST_CELLS:
        raise ValueError(f"A face has from 1 to {MOST_CELLS} cells; {count} were named.")
    try:
        # One more than wanted tells too many, and no record can swell beyond it.
        opening = zlib.decompressobj()
        cells = opening.decompress(b64decode(text, validate=True), count + 1)
        whole = opening.eof and len(cells) == count
    except (binascii.Error, zlib.error, ValueError):
        cells, whole = b"", False
    if not whole or any(cell & ~_BY_HAND >= _BY_HAND - 1 for cell in cells):
        raise ValueError("The cells kept with this face cannot be read.")
    hand = frozenset(place for place, cell in enumerate(cells) if cell & _BY_HAND)
    return bytes(cell & ~_BY_HAND for cell in cells), hand
