"""Crank's exact answers for a slab in a stirred bath, in numbers without dimension.

The slab reaches from -1 to 1 (in half-thicknesses) and holds nothing at first; Fo = D·t/a² is
the time; α is the bath's capacity over the meat's. Everything is told as a part of what is
there once meat and bath are at rest with each other.

Two forms meet at `_MEET`: below it the front has not noticed the other face and the answer for
a half-infinite body holds to one part in 10¹⁴; above it a dozen terms of the series do.
"""

from functools import lru_cache
from math import atan, cos, erfc, exp, inf, pi, sqrt

from app.transport.checks import bath_ratio

_MEET = 0.03
_TERMS = 12


def uptake(fo: float, alpha: float = inf) -> float:
    """Solute taken up by a slab, as a part of what it takes up in the end.

    Mt/M∞ = 1 − Σ 2α(1+α)/(1+α+α²qₙ²) · exp(−qₙ²·Fo), tan qₙ = −α·qₙ

    and while Fo is small Mt/M∞ = (1+α)·(1 − exp(Fo/α²)·erfc(√Fo/α)).

    Parameters
    ----------
    fo : time, D·t/a² with a the half-thickness [-]
    alpha : bath capacity over meat capacity [-]; infinite for a bath that never runs down

    Returns
    -------
    Part of the final uptake [0-1]

    Raises
    ------
    ValueError : fo is negative or not a number, or alpha is not above 0

    Examples
    --------
    >>> [round(uptake(0.2, alpha), 4) for alpha in (inf, 4, 1)]
    [0.5041, 0.5726, 0.7116]

    References
    ----------
    Crank, The Mathematics of Diffusion, 2nd ed. (1975), eqs. 4.18, 4.37 and 4.43 (numbers
    from memory).
    """
    _check(fo, alpha)
    if fo < _MEET:
        return _early_uptake(fo, alpha)
    return 1.0 - sum(weight * exp(-q * q * fo) for q, weight, _ in _terms(alpha))


def concentration(fo: float, alpha: float = inf, place: float = 0.0) -> float:
    """Concentration at a place in a slab, as a part of the concentration in the end.

    C/C∞ = 1 + Σ 2(1+α)/(1+α+α²qₙ²) · exp(−qₙ²·Fo) · cos(qₙ·x)/cos qₙ

    and while Fo is small the two half-infinite answers, one from each face, added.

    Parameters
    ----------
    fo : time, D·t/a² with a the half-thickness [-]
    alpha : bath capacity over meat capacity [-]; infinite for a bath that never runs down
    place : distance from the middle in half-thicknesses, 0 the middle, 1 a face [0-1]

    Returns
    -------
    Part of the final concentration [-]; above 1 near the face of a small bath's meat

    Raises
    ------
    ValueError : fo is negative or not a number, alpha is not above 0, or place is outside 0-1

    Examples
    --------
    >>> [round(concentration(fo), 4) for fo in (0.05, 0.1, 0.5, 2.0)]
    [0.0031, 0.0507, 0.6292, 0.9908]

    References
    ----------
    Crank, The Mathematics of Diffusion, 2nd ed. (1975), eqs. 4.17 and 4.38 (numbers from
    memory).
    """
    _check(fo, alpha)
    if not 0.0 <= place <= 1.0:
        raise ValueError(f"A place in the slab goes from 0 to 1; {place} was given.")
    if fo < _MEET:
        return _early(1.0 - place, fo, alpha) + _early(1.0 + place, fo, alpha)
    return 1.0 + sum(height * exp(-q * q * fo) * cos(q * place) for q, _, height in _terms(alpha))


def _check(fo: float, alpha: float) -> None:
    if not 0.0 <= fo < inf:
        raise ValueError(f"The time D·t/a² must be 0 or more; {fo} was given.")
    bath_ratio(alpha)


@lru_cache(maxsize=64)
def _terms(alpha: float) -> tuple[tuple[float, float, float], ...]:
    """Of each term: the root q, its weight in the uptake and its height in the middle."""
    found = []
    for n in range(1, _TERMS + 1):
        quarter = (n - 0.5) * pi
        sign = 1.0 if n % 2 == 0 else -1.0
        if alpha == inf:
            found.append((quarter, 2.0 / quarter**2, sign * 2.0 / quarter))
            continue
        q = quarter + _past_quarter(quarter, alpha)
        below = 1.0 + alpha + (alpha * q) ** 2
        weight = 2.0 * alpha * (1.0 + alpha) / below
        # 1/cos q = ±√(1 + α²q²) from tan q = −αq; the cosine itself is lost near a quarter turn.
        found.append((q, weight, sign * 2.0 * (1.0 + alpha) / below * sqrt(1.0 + (alpha * q) ** 2)))
    return tuple(found)


def _past_quarter(quarter: float, alpha: float) -> float:
    """How far the root of tan q = −αq lies past an odd quarter turn: d = atan(1/(α(quarter+d)))."""
    d = atan(1.0 / (alpha * quarter))
    for _ in range(30):
        x = alpha * (quarter + d)
        step = (d - atan(1.0 / x)) / (1.0 + alpha / (1.0 + x * x))
        d -= step
        if abs(step) < 1e-15:
            break
    return d


def _early_uptake(fo: float, alpha: float) -> float:
    root = sqrt(fo)
    if alpha == inf:
        return 2.0 * root / sqrt(pi)
    x = root / alpha
    if x > 0.5:
        return (1.0 + alpha) * (1.0 - _scaled_erfc(x))
    # 1 − exp(x²)·erfc(x) = −Σ (−x)ⁿ/Γ(n/2+1), which keeps its digits where the difference does not.
    even, odd = 1.0, 2.0 * x / sqrt(pi)
    total, n = odd, 2
    while abs(odd) > 1e-18 * total and n < 60:
        even *= x * x / (n / 2)
        odd *= x * x / ((n + 1) / 2)
        total += odd - even
        n += 2
    return (1.0 + alpha) * total


def _early(distance: float, fo: float, alpha: float) -> float:
    """What one face of a half-infinite body gives at a distance from it."""
    if fo == 0.0:
        return 0.0 if distance > 0.0 else 1.0 + (0.0 if alpha == inf else 1.0 / alpha)
    root = sqrt(fo)
    if alpha == inf:
        return erfc(distance / (2.0 * root))
    reach = distance / (2.0 * root)
    return (1.0 + 1.0 / alpha) * exp(-reach * reach) * _scaled_erfc(reach + root / alpha)


def _scaled_erfc(x: float) -> float:
    """exp(x²)·erfc(x) for x ≥ 0, without the overflow."""
    if x < 5.0:
        return exp(x * x) * erfc(x)
    # The continued fraction of Laplace; 40 steps are far more than x ≥ 5 needs.
    below = x
    for k in range(40, 0, -1):
        below = x + k / 2.0 / below
    return 1.0 / (below * sqrt(pi))
