"""Injected meat as a starting profile: the pickle lies inside before the cover brine works in."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from app.transport.brining import MEAT_WATER, NITRITE, SALT
from app.transport.checks import between, not_negative
from app.transport.course import Piece, Profile, volume


def injected_start(
    piece: Piece,
    pump_fraction: float,
    salt_per_water: float,
    nitrite_per_water: float,
    pickle_water: float,
    meat_water: float = MEAT_WATER,
    rows_mm: Sequence[float] = (),
    spread_mm: float = 10.0,
) -> Mapping[str, Profile]:
    """What injected meat holds before it goes into its cover brine.

    mean C = C_pickle · p·w_p / (w + p·w_p), spread evenly or as bands round the needle's rows

    Parameters
    ----------
    piece : the meat
    pump_fraction : p, pickle injected and held over green weight [-]
    salt_per_water : salt in the pickle [g per g of water]
    nitrite_per_water : sodium nitrite in the pickle [mg per kg of water]
    pickle_water : w_p, water as a part of the pickle [0-1]
    meat_water : w, water as a part of the green weight [0-1]
    rows_mm : depths at which the needle left its pickle [mm]; none for evenly
    spread_mm : width of the band each row wets [mm]

    Returns
    -------
    Of `salt` and `nitrite`, a profile per water for `simulate(start=...)`

    Raises
    ------
    ValueError : a number is impossible, or a row lies outside the meat

    Notes
    -----
    The meat's thickness is taken as it was. Pickle that runs out again is not held and does not
    count. How wide a hand needle wets is common practice, no source: about 5 mm on each side.

    Examples
    --------
    >>> start = injected_start(Piece(80.0), 0.10, 0.20, 2000.0, pickle_water=0.80)
    >>> round(start["nitrite"].average * MEAT_WATER)
    144

    References
    ----------
    Balance of water and solute; pump % as in USDA FSIS Directive 7620.3 (1995), p. 19.
    """
    between("pump", pump_fraction, 0.0, 0.5)
    not_negative("salt in the pickle", salt_per_water, "g per g of water")
    not_negative("nitrite in the pickle", nitrite_per_water, "mg per kg of water")
    between("water in the pickle", pickle_water, 0.3, 1.0)
    between("water in the meat", meat_water, 0.3, 0.85)
    share = pump_fraction * pickle_water / (meat_water + pump_fraction * pickle_water)
    edges, wetted = _bands(piece, rows_mm, spread_mm)
    volumes = [volume(piece, a, b) for a, b in pairwise(edges)]
    wet = sum(v for v, w in zip(volumes, wetted, strict=True) if w)
    crowded = sum(volumes) / wet
    return {
        name: Profile(piece, edges, tuple(level * share * crowded if w else 0.0 for w in wetted))
        for name, level in ((SALT, salt_per_water), (NITRITE, nitrite_per_water))
    }


def _bands(
    piece: Piece, rows_mm: Sequence[float], spread_mm: float
) -> tuple[tuple[float, ...], tuple[bool, ...]]:
    """Edges across the meat and, of each part between them, whether pickle lies there."""
    deep = piece.path_mm if piece.shape == "round" else piece.thickness_mm
    if not rows_mm:
        return (0.0, deep), (True,)
    between("width of the wetted band", spread_mm, 1.0, 200.0, "mm")
    bands = []
    for row in rows_mm:
        between("depth of a needle's row", row, 0.0, deep, "mm")
        bands.append((max(row - spread_mm / 2.0, 0.0), min(row + spread_mm / 2.0, deep)))
    edges = sorted({0.0, deep, *(edge for band in bands for edge in band)})
    wetted = tuple(
        any(low <= (a + b) / 2.0 <= high for low, high in bands) for a, b in pairwise(edges)
    )
    return tuple(edges), wetted
