"""How many days: until the cure's colour or the salt has reached the middle, as a range."""

from math import inf

from attrs import frozen

from app.cure.working import Working
from app.quantities import format
from app.transport.checks import between, not_negative, positive
from app.transport.course import Piece
from app.transport.diffusion import SECONDS_A_DAY
from app.transport.diffusivity import NITRITE, SALT, Diffusivity, Range, temperature_factor
from app.transport.reach import place_reached, time_to_reach

FIRST_PINK_PPM = 14.0
"""Cooked beef first turned visibly pink (Heaton et al., Meat Sci. 55 (2000) 321)."""

FULL_COLOUR_PPM = 45.0
"""A full, even colour; often given as about 40 to 50 ppm (from memory)."""

_CRANK = (
    "Crank, The Mathematics of Diffusion, 2nd ed. (1975), slab in a stirred bath "
    "(equation numbers 4.17, 4.38 from memory); a round piece by finite volumes"
)
_HOLDS = (
    "Takes one diffusivity for the whole piece. Seams of fat, the grain, swelling in strong brine "
    "and the true thickness at the thickest place all move the day."
)
_NITRITE_HOLDS = (
    " No sound measurement of nitrite alone was found; its range is judged from nitrate and salt."
)


@frozen
class DaysNeeded:
    """Days until something is so. `days` is None when it never will be, however long."""

    days: Range | None
    says: str
    working: Working


@frozen
class GreyCore:
    """The middle that the cure's colour has not reached, if the piece is pulled on a day.

    Grey lies below the first pink, pale between it and full colour. Percentages are of the
    thickness; the low of each range is the quick diffusivity's.
    """

    day: float
    grey_mm: Range
    grey_percent: Range
    pale_percent: Range
    says: str
    working: Working


def days_to_colour(
    piece: Piece,
    ingoing_ppm: float,
    threshold_ppm: float = FULL_COLOUR_PPM,
    bath_ratio: float = inf,
    temperature_c: float = 4.0,
    diffusivity: Diffusivity = NITRITE,
) -> DaysNeeded:
    """Days until the middle holds enough nitrite for its colour.

    t = Fo·path²/D, Fo with C_middle/C∞ = threshold / ingoing

    Parameters
    ----------
    piece : the meat at its thickest place
    ingoing_ppm : sodium nitrite the meat would hold, cure and meat at rest [mg/kg]
    threshold_ppm : nitrite for the colour wanted, first pink or full colour [mg/kg]
    bath_ratio : water of the brine over water of the meat [-]
    temperature_c : temperature of the cure [°C]
    diffusivity : of nitrite, or a cook's own from past slices

    Returns
    -------
    Days as low, likely and high, in words, and how they were worked out

    Raises
    ------
    ValueError : a number is impossible

    Notes
    -----
    Counts ingoing nitrite; what the meat uses up on the way is in the judged diffusivity.

    Examples
    --------
    >>> needed = days_to_colour(Piece(45.0), ingoing_ppm=150.0, bath_ratio=1.0)
    >>> [round(d, 1) for d in (needed.days.low, needed.days.likely, needed.days.high)]
    [2.6, 5.2, 11.6]

    References
    ----------
    Crank (1975); Heaton et al., Meat Sci. 55 (2000) 321; Gómez et al., J. Food Eng. 214 (2017) 69.
    """
    not_negative("ingoing nitrite", ingoing_ppm, "ppm")
    positive("nitrite for the colour", threshold_ppm, "ppm")
    colour = "first pink" if threshold_ppm <= FIRST_PINK_PPM else "full colour"
    inputs: tuple[tuple[str, str], ...] = (
        ("Ingoing nitrite, at rest", f"{ingoing_ppm:.0f} ppm"),
        ("Nitrite for the colour", f"{threshold_ppm:.0f} ppm ({colour})"),
    )
    title = f"Days until the middle has its {colour}"
    if threshold_ppm >= ingoing_ppm:
        says = (
            f"The middle never gets there: this cure ends at {ingoing_ppm:.0f} ppm, and {colour} "
            f"wants {threshold_ppm:.0f} ppm."
        )
        return DaysNeeded(None, says, _working(title, inputs, "never", diffusivity, True))
    level = threshold_ppm / ingoing_ppm
    days = _days(piece, level, bath_ratio, temperature_c, diffusivity)
    says = f"{_in_days(days)} until the middle has its {colour}, most likely {days.likely:.1f}."
    inputs += _piece_inputs(piece, bath_ratio, temperature_c, diffusivity)
    return DaysNeeded(days, says, _working(title, inputs, _in_days(days), diffusivity, True))


def days_to_even(
    piece: Piece,
    evenness: float = 0.9,
    bath_ratio: float = inf,
    temperature_c: float = 4.0,
    diffusivity: Diffusivity = SALT,
) -> DaysNeeded:
    """Days until the salt has evened out to a degree.

    t = Fo·path²/D, Fo with C_middle/C∞ = evenness

    Parameters
    ----------
    piece : the meat at its thickest place
    evenness : salt in the middle over what it will be in the end, above 0 and below 1
    bath_ratio : water of the brine over water of the meat [-]
    temperature_c : temperature of the cure [°C]
    diffusivity : of salt

    Returns
    -------
    Days as low, likely and high, in words, and how they were worked out

    Raises
    ------
    ValueError : a number is impossible

    Examples
    --------
    >>> round(days_to_even(Piece(50.8), 0.892).days.likely, 1)
    18.7

    References
    ----------
    Crank (1975); diffusivities as `app.transport.diffusivity.SALT` says.
    """
    between("evenness", evenness, 0.01, 0.999)
    days = _days(piece, evenness, bath_ratio, temperature_c, diffusivity)
    says = (
        f"{_in_days(days)} until the middle holds {evenness:.0%} of its final salt, "
        f"most likely {days.likely:.1f}."
    )
    inputs = (
        ("Evenness wanted", f"{evenness:.0%} of the final salt in the middle"),
        *_piece_inputs(piece, bath_ratio, temperature_c, diffusivity),
    )
    title = "Days until the salt is even"
    return DaysNeeded(days, says, _working(title, inputs, _in_days(days), diffusivity, False))


def grey_core(
    piece: Piece,
    day: float,
    ingoing_ppm: float,
    bath_ratio: float = inf,
    temperature_c: float = 4.0,
    diffusivity: Diffusivity = NITRITE,
) -> GreyCore:
    """The grey core to expect when the piece is pulled on a day.

    The places where C/C∞ is 14 ppm and 45 ppm over the ingoing nitrite, at Fo = D·t/path²

    Parameters
    ----------
    piece : the meat at its thickest place
    day : days in the cure [d]
    ingoing_ppm : sodium nitrite the meat would hold, cure and meat at rest [mg/kg]
    bath_ratio : water of the brine over water of the meat [-]
    temperature_c : temperature of the cure [°C]
    diffusivity : of nitrite, or a cook's own from past slices

    Returns
    -------
    Grey in mm and percent and pale in percent of the thickness, each low, likely, high

    Raises
    ------
    ValueError : a number is impossible

    Notes
    -----
    For meat cured in one bath. Injected meat, or several stages: `app.transport.picture`.

    Examples
    --------
    >>> core = grey_core(Piece(90.0), day=7, ingoing_ppm=600.0)
    >>> round(core.grey_percent.likely), round(core.grey_mm.likely)
    (21, 19)

    References
    ----------
    Crank (1975); Heaton et al., Meat Sci. 55 (2000) 321.
    """
    not_negative("days in the cure", day, "days")
    positive("ingoing nitrite", ingoing_ppm, "ppm")
    factor = temperature_factor(temperature_c, diffusivity.activation_kj_mol)
    path_m = piece.path_mm / 1000.0
    # The quick diffusivity leaves the least grey, unless the cure is so weak that the edge, pink
    # at first, goes grey again as the bath runs down.
    times = [
        d * factor * day * SECONDS_A_DAY / path_m**2 for d in reversed(diffusivity.slow_to_fast)
    ]
    grey, full = (
        [place_reached(piece.shape, fo, ppm / ingoing_ppm, bath_ratio) for fo in times]
        for ppm in (FIRST_PINK_PPM, FULL_COLOUR_PPM)
    )
    span = piece.thickness_mm
    quick, likely, slow = (100.0 * (f - g) for f, g in zip(full, grey, strict=True))
    quickest, middling, slowest = grey
    percent = Range.around(*(100.0 * g for g in (middling, quickest, slowest)))
    pale = Range.around(likely, quick, slow)
    millimetres = Range.around(*(span * g for g in (middling, quickest, slowest)))
    says = _grey_says(day, millimetres, percent)
    inputs = (
        ("Ingoing nitrite, at rest", f"{ingoing_ppm:.0f} ppm"),
        ("Pulled on day", f"{day:g}"),
        *_piece_inputs(piece, bath_ratio, temperature_c, diffusivity),
    )
    working = _working("Grey core expected", inputs, says, diffusivity, True)
    return GreyCore(day, millimetres, percent, pale, says, working)


def warmth_says(temperature_c: float, days_at_4_c: float) -> str:
    """What a temperature does to a number of days, and what it costs.

    days · D(4 °C)/D(T); ≤ 4.4 °C is a safe refrigerator (FSIS)

    >>> warmth_says(1.0, 7.0)
    'At 1.0 °C the 7.0 days at 4 °C become 7.9: cold costs time, but is safe.'
    """
    positive("number of days", days_at_4_c, "days")
    days = days_at_4_c / temperature_factor(temperature_c)
    start = f"At {temperature_c:.1f} °C the {days_at_4_c:.1f} days at 4 °C become {days:.1f}: "
    if temperature_c > 4.4:
        return start + "quicker, but warmer than 4.4 °C (40 °F), where a cure is not safe to leave."
    return start + "cold costs time, but is safe."


def _days(
    piece: Piece, level: float, bath_ratio: float, temperature_c: float, diffusivity: Diffusivity
) -> Range:
    fo = time_to_reach(piece.shape, level, bath_ratio)
    factor = temperature_factor(temperature_c, diffusivity.activation_kj_mol)
    path_m = piece.path_mm / 1000.0
    slow, likely, quick = (
        fo * path_m**2 / (d * factor) / SECONDS_A_DAY for d in diffusivity.slow_to_fast
    )
    return Range(quick, likely, slow)


def _in_days(days: Range) -> str:
    return f"{days.low:.1f} to {days.high:.1f} days"


def _both(millimetres: float) -> str:
    return format(millimetres, "length", "both")


def _grey_says(day: float, millimetres: Range, percent: Range) -> str:
    start = f"Pulled on day {day:g}: "
    if millimetres.high <= 0.0:
        return start + "no grey core expected."
    if millimetres.low <= 0.0 and millimetres.likely <= 0.0:
        return start + (
            f"most likely no grey core; at worst {_both(millimetres.high)} of the middle "
            f"({percent.high:.0f} % of the thickness)."
        )
    return start + (
        f"a grey core of about {_both(millimetres.likely)} ({percent.likely:.0f} % of the "
        f"thickness), from {_both(millimetres.low)} to {_both(millimetres.high)}."
    )


def _piece_inputs(
    piece: Piece, bath_ratio: float, temperature_c: float, diffusivity: Diffusivity
) -> tuple[tuple[str, str], ...]:
    shown = " / ".join(f"{d * 1e10:.2g}" for d in diffusivity.slow_to_fast)
    faces = "round" if piece.shape == "round" else f"{piece.faces} open"
    bath = "does not run down" if bath_ratio == inf else f"{bath_ratio:.2f}"
    return (
        ("Thickness", f"{piece.thickness_mm:.0f} mm, {faces}"),
        ("Way to the middle", f"{piece.path_mm:.0f} mm"),
        ("Water of brine over water of meat", bath),
        ("Temperature", f"{temperature_c:.1f} °C"),
        ("Diffusivity at 4 °C, slow / likely / quick", f"{shown} × 10⁻¹⁰ m²/s"),
    )


def _working(
    title: str,
    inputs: tuple[tuple[str, str], ...],
    result: str,
    diffusivity: Diffusivity,
    nitrite: bool,
) -> Working:
    own = diffusivity.slices > 0
    limits = _HOLDS + (_NITRITE_HOLDS if nitrite and not own else "")
    return Working(
        title, "t = Fo · path² / D", inputs, result, f"{_CRANK}. {diffusivity.source}", limits
    )
