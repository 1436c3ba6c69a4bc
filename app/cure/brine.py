"""What a brine of a given strength is like: density, hydrometer readings, freezing point."""

from bisect import bisect_right

from app.transport.checks import between

SATURATED_PERCENT = 26.395
"""Most salt a brine holds at 60 °F, % by mass: 100 degrees on the salometer (seen restated)."""

HYDROMETER_C = 15.56
"""60 °F, the temperature brine hydrometers are made for."""

WATER_60F_KG_M3 = 999.012
"""Density of water at 60 °F, from memory."""

_FREEZING = (
    # % salt by mass, °C; Lange's Handbook of Chemistry, 15th ed., table 5.13
    (1.0, -0.58),
    (2.0, -1.13),
    (4.0, -2.35),
    (6.0, -3.63),
    (8.0, -5.03),
    (15.0, -10.88),
    (20.0, -16.46),
    (23.0, -20.69),
    (23.3, -21.1),
)


def density_kg_m3(salt_percent: float, temperature_c: float = HYDROMETER_C) -> float:
    """Density of a brine of plain salt.

    At 15.56 °C ρ = 999.059 + 7.17975 w + 0.0132651 w² + 9.574·10⁻⁵ w³ + 7.15·10⁻⁶ w⁴;
    elsewhere the parabola through ρ at 10, 15.56 and 20 °C, where
    ρ(10) − ρ(15.56) = 0.64910 + 0.142670 w − 0.00249716 w² and
    ρ(20) − ρ(15.56) = −0.85248 − 0.0810508 w + 0.00093906 w²

    Parameters
    ----------
    salt_percent : w, salt by mass of the brine [%]
    temperature_c : temperature of the brine [°C]

    Returns
    -------
    Density [kg/m³]

    Raises
    ------
    ValueError : salt outside 0 to 26.4 %, or temperature outside 0 to 25 °C

    Notes
    -----
    The two differences are fitted here to Rogers & Pitzer's volumes, residual at most 0.04 up to
    22.6 % salt. Outside 10 to 20 °C the parabola is carried on: for plain water 0.1 off at 4 °C
    and 0.2 at 0 °C. Sugar and spice are not counted; 1 % sugar adds about as
    much as 0.5 % salt (from memory).

    Examples
    --------
    >>> round(density_kg_m3(10.0, 20.0), 1)
    1070.8
    >>> round(density_kg_m3(10.558) / WATER_60F_KG_M3, 3)
    1.078

    References
    ----------
    Rogers & Pitzer, J. Phys. Chem. Ref. Data 11 (1982) 15: specific volumes at 10 and 20 °C;
    fit at 15.56 °C computed for this program.
    """
    w = _strength(salt_percent)
    t = between("temperature of the brine", temperature_c, 0.0, 25.0, "°C")
    at_60f = 999.059 + w * (7.17975 + w * (0.0132651 + w * (9.574e-5 + w * 7.15e-6)))
    if t == HYDROMETER_C:
        return at_60f
    colder = 0.64910 + w * (0.142670 - 0.00249716 * w)
    warmer = -0.85248 + w * (-0.0810508 + 0.00093906 * w)
    at_10 = colder * (t - HYDROMETER_C) * (t - 20.0) / ((10.0 - HYDROMETER_C) * (10.0 - 20.0))
    at_20 = warmer * (t - HYDROMETER_C) * (t - 10.0) / ((20.0 - HYDROMETER_C) * (20.0 - 10.0))
    return at_60f + at_10 + at_20


def salometer_degrees(salt_percent: float) -> float:
    """Reading of a salometer: part of the most salt that brine can hold at 60 °F.

    °SAL = 100 · w / 26.395

    Parameters
    ----------
    salt_percent : w, salt by mass of the brine [%]

    Returns
    -------
    Salometer degrees [°SAL]

    Raises
    ------
    ValueError : salt outside 0 to 26.4 %

    Notes
    -----
    For a brine of plain salt at 60 °F (15.6 °C); sugar and warmth shift the reading.

    Examples
    --------
    >>> round(salometer_degrees(15.837), 2)
    60.0

    References
    ----------
    Saturation 26.395 % at 60 °F, seen restated.
    """
    return 100.0 * _strength(salt_percent) / SATURATED_PERCENT


def specific_gravity(salt_percent: float) -> float:
    """Reading of a specific gravity hydrometer, 60/60 °F.

    SG = ρ(brine, 60 °F) / ρ(water, 60 °F)

    Parameters
    ----------
    salt_percent : salt by mass of the brine [%]

    Returns
    -------
    Specific gravity [-]

    Raises
    ------
    ValueError : salt outside 0 to 26.4 %

    Examples
    --------
    >>> round(specific_gravity(21.116), 3)
    1.16

    References
    ----------
    Density as in `density_kg_m3`.
    """
    return density_kg_m3(salt_percent) / WATER_60F_KG_M3


def baume_degrees(salt_percent: float) -> float:
    """Reading of a Baumé hydrometer for liquids heavier than water.

    °Bé = 145 − 145 / SG

    Parameters
    ----------
    salt_percent : salt by mass of the brine [%]

    Returns
    -------
    Baumé degrees [°Bé]

    Raises
    ------
    ValueError : salt outside 0 to 26.4 %

    Examples
    --------
    >>> round(baume_degrees(26.395), 1)
    24.6

    References
    ----------
    US Baumé scale at 60/60 °F.
    """
    return 145.0 - 145.0 / specific_gravity(salt_percent)


def freezing_point_c(salt_percent: float) -> float:
    """Temperature at which ice first forms in a brine.

    Straight between the rows of the table in θ/w, the lowering for each percent of salt

    Parameters
    ----------
    salt_percent : salt by mass of the brine [%]

    Returns
    -------
    Freezing point [°C]

    Raises
    ------
    ValueError : salt outside 0 to 26.4 %

    Notes
    -----
    From 23.3 % on, salt comes out before ice does, and ice forms at -21.1 °C whatever the
    strength. Sugar lowers the point a little further.

    Examples
    --------
    >>> freezing_point_c(8.0), round(freezing_point_c(10.0), 1)
    (-5.03, -6.6)

    References
    ----------
    Lange's Handbook of Chemistry, 15th ed., table 5.13.
    """
    w = _strength(salt_percent)
    if w <= _FREEZING[0][0]:
        return w * _FREEZING[0][1] + 0.0
    if w >= _FREEZING[-1][0]:
        return _FREEZING[-1][1]
    i = bisect_right(_FREEZING, (w, 0.0))
    (w0, t0), (w1, t1) = _FREEZING[i - 1], _FREEZING[i]
    if w == w0:
        return t0
    return w * (t0 / w0 + (t1 / w1 - t0 / w0) * (w - w0) / (w1 - w0))


def _strength(salt_percent: float) -> float:
    # 26.4 is how the saturated strength is usually rounded.
    if not 0.0 <= salt_percent <= 26.4:
        raise ValueError(
            "A brine holds from 0 to 26.4 % salt by mass; "
            f"{salt_percent} % was given. More salt would stay on the bottom."
        )
    return salt_percent
