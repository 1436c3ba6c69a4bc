"""How far a level has come, and when it arrives: the one-bath answers read backwards.

Places are told from the core outward as a part of the path (0 the core, 1 an open face), times
as Fo = D·t/path², levels as a part of what there is in the end. Slabs come from Crank's series,
round pieces from the solver; neither knows of millimetres or days.
"""

from collections.abc import Callable
from functools import lru_cache
from math import exp, inf, log

from app.transport import checks, crank
from app.transport.course import Piece, Profile, Shape
from app.transport.solver import advance, grid

_LEAST_FO, _MOST_FO = 1e-6, 1e6
_ROUND_CELLS = 64
_UNIT_ROUND = Piece(2.0, shape="round")


def level_at(shape: Shape, fo: float, bath_ratio: float = inf, place: float = 0.0) -> float:
    """Concentration at a place as a part of the concentration in the end.

    Slab: `app.transport.crank.concentration`. Round: the finite-volume solver on a unit radius.

    Parameters
    ----------
    shape : slab or round
    fo : D·t/path² [-]
    bath_ratio : α, capacity of the bath over that of the meat [-]
    place : distance from the core as a part of the path [0-1]

    Returns
    -------
    Part of the final concentration [-]

    Raises
    ------
    ValueError : a number is not finite, has the wrong sign or lies outside its range

    Examples
    --------
    >>> round(level_at("slab", 0.2), 4), round(level_at("round", 0.2), 2)
    (0.2277, 0.5)

    References
    ----------
    Crank, The Mathematics of Diffusion, 2nd ed. (1975).
    """
    if shape == "slab":
        return crank.concentration(fo, bath_ratio, place)
    if not 0.0 <= place <= 1.0:
        raise ValueError(f"A place goes from 0 to 1; {place} was given.")
    return _round_profile(fo, bath_ratio).at(1.0 - place)


@lru_cache(maxsize=256)
def _round_profile(fo: float, bath_ratio: float) -> Profile:
    checks.bath_ratio(bath_ratio)
    checks.not_negative("time D·t/a²", fo)
    cells = grid(_UNIT_ROUND, _ROUND_CELLS)
    # Filled so that meat and bath end at 1.
    bath = 1.0 if bath_ratio == inf else (1.0 + bath_ratio) / bath_ratio
    means, face = advance(cells, [0.0] * _ROUND_CELLS, bath, bath_ratio, fo)
    return Profile(_UNIT_ROUND, cells.edges_mm, tuple(max(m, 0.0) for m in means), face)


def time_to_reach(shape: Shape, level: float, bath_ratio: float = inf, place: float = 0.0) -> float:
    """The time at which a place first holds a level.

    Fo with C(Fo, place)/C∞ = level, by halving and then false position in log Fo

    Parameters
    ----------
    shape : slab or round
    level : part of the final concentration, above 0 and below 1
    bath_ratio : α, capacity of the bath over that of the meat [-]
    place : distance from the core as a part of the path [0-1]

    Returns
    -------
    Fo [-]; nought at the face, which is at the bath's level from the first moment

    Raises
    ------
    ValueError : the level is not between 0 and 1, or another number is impossible

    Notes
    -----
    A place that has passed a level below 1 stays above it, so there is one such time.

    Examples
    --------
    >>> round(time_to_reach("slab", 0.8920), 3)
    1.0

    References
    ----------
    Crank, The Mathematics of Diffusion, 2nd ed. (1975), eqs. 4.17, 4.38 (numbers from memory).
    """
    if not 0.0 < level < 1.0:
        raise ValueError(f"The level must be between 0 and 1; {level} was given.")
    if level_at(shape, _LEAST_FO, bath_ratio, place) >= level:
        return 0.0

    def short_of(log_fo: float) -> float:
        return level_at(shape, exp(log_fo), bath_ratio, place) - level

    low, high = log(_LEAST_FO), log(_MOST_FO)
    while high - low > 0.5:
        middle = (low + high) / 2.0
        if short_of(middle) < 0.0:
            low = middle
        else:
            high = middle
    return exp(_crossing(short_of, low, high))


def _crossing(short_of: Callable[[float], float], low: float, high: float) -> float:
    """Where a rising function crosses nought, by false position with the Illinois halving."""
    below, above = short_of(low), short_of(high)
    found, side = high, 0
    for _ in range(60):
        before, found = found, (low * above - high * below) / (above - below)
        value = short_of(found)
        # An end kept twice running is halved, or the other would creep.
        if value < 0.0:
            low, below = found, value
            above, side = above / 2.0 if side < 0 else above, -1
        else:
            high, above = found, value
            below, side = below / 2.0 if side > 0 else below, 1
        if abs(found - before) < 1e-9 or value == 0.0:
            break
    return found


def place_reached(shape: Shape, fo: float, level: float, bath_ratio: float = inf) -> float:
    """How near to the core a level has come.

    The place where C/C∞ = level at the time Fo, by halving

    Parameters
    ----------
    shape : slab or round
    fo : D·t/path² [-]
    level : part of the final concentration, above 0
    bath_ratio : α, capacity of the bath over that of the meat [-]

    Returns
    -------
    Distance from the core as a part of the path; 0 when the core holds the level, 1 when not
    even the face does. It is also the part of the thickness the level has not reached.

    Raises
    ------
    ValueError : the level is not above 0, or another number is impossible

    Examples
    --------
    >>> round(place_reached("slab", fo=0.05, level=0.05), 3)
    0.38

    References
    ----------
    Crank, The Mathematics of Diffusion, 2nd ed. (1975), eqs. 4.17, 4.38 (numbers from memory).
    """
    if not 0.0 < level < inf:
        raise ValueError(f"The level must be more than 0; {level} was given.")
    if level_at(shape, fo, bath_ratio, 0.0) >= level:
        return 0.0
    if level_at(shape, fo, bath_ratio, 1.0) < level:
        return 1.0
    low, high = 0.0, 1.0
    while high - low > 1e-10:
        middle = (low + high) / 2.0
        if level_at(shape, fo, bath_ratio, middle) < level:
            low = middle
        else:
            high = middle
    return (low + high) / 2.0
