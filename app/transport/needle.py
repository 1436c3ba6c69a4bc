"""After the needle: how long its cure takes to even out between the holes."""

from math import cos, exp, pi, sin, sqrt

from app.cure.working import Working
from app.transport.checks import between
from app.transport.days import DaysNeeded
from app.transport.diffusion import SECONDS_A_DAY
from app.transport.diffusivity import NITRITE, REFERENCE_C, Diffusivity, Range

HOLES_MM = 25.0
"""Holes of a hand needle this far apart. Common practice, no source."""

WETTED_MM = 10.0
"""Width a hole wets, about 5 mm to each side. Common practice, no source."""

_TERMS = 60


def between_rows(fourier: float, wetted: float) -> float:
    """Concentration half-way between two wetted rows, over the mean.

    C/C̄ = 1 + 2/(π·f) · Σ (−1)ⁿ/n · sin(π·n·f) · exp(−n²π²·Fo)

    Parameters
    ----------
    fourier : Fo = D·t/L², with L half of the distance between the rows [-]
    wetted : f, the wetted part of that distance, above 0 and at most 1 [-]

    Returns
    -------
    0 at first, 1 once all is even

    Raises
    ------
    ValueError : a number is impossible

    Examples
    --------
    >>> round(between_rows(0.3, 0.4), 3)
    0.922

    References
    ----------
    Crank, The Mathematics of Diffusion (1975), eq. 2.17 (from memory); the test holds it against
    this program's own solver.
    """
    between("Fourier number", fourier, 0.0, 1e6)
    between("wetted part", wetted, 1e-6, 1.0)
    if fourier <= 0.0:
        return 0.0 if wetted < 1.0 else 1.0
    total = sum(
        cos(pi * n) / n * sin(pi * n * wetted) * exp(-((n * pi) ** 2) * fourier)
        for n in range(1, _TERMS)
    )
    return min(1.0, max(0.0, 1.0 + 2.0 / (pi * wetted) * total))


def days_between_holes(
    spacing_mm: float = HOLES_MM,
    evenness: float = 0.9,
    temperature_c: float = REFERENCE_C,
    diffusivity: Diffusivity = NITRITE,
    wetted_mm: float = WETTED_MM,
) -> DaysNeeded:
    """Days until the cure pumped in has evened out between the needle's holes.

    t = Fo·L²/D, Fo with (C/C̄ between two rows)² = evenness, L = half of the spacing

    Parameters
    ----------
    spacing_mm : from hole to hole, in a square pattern [mm]
    evenness : cure in the middle of four holes over the mean, above 0 and below 1
    temperature_c : temperature of the meat [°C]
    diffusivity : of nitrite, or of salt
    wetted_mm : width that each hole wets at first [mm]

    Returns
    -------
    Days as low, likely and high, in words, and how they were worked out

    Raises
    ------
    ValueError : a number is impossible, or the holes wet all of the meat

    Notes
    -----
    Square columns of wetted meat in a square pattern, the same through the whole depth: the
    solution is then that between rows, squared. Real pockets run along the grain and are uneven;
    turning and a spare day even them out.

    Examples
    --------
    >>> needed = days_between_holes(25.0)
    >>> [round(d, 1) for d in (needed.days.low, needed.days.likely, needed.days.high)]
    [1.6, 3.1, 6.9]

    References
    ----------
    Crank (1975), eq. 2.17 and the product of solutions, ch. 2 (from memory); spacing and wetted
    width common practice, no source.
    """
    between("distance between the holes", spacing_mm, 5.0, 200.0, "mm")
    between("evenness", evenness, 0.01, 0.999)
    between("width a hole wets", wetted_mm, 1.0, 0.999 * spacing_mm, "mm")
    fourier = _fourier(sqrt(evenness), wetted_mm / spacing_mm)
    half_m = spacing_mm / 2000.0
    slow, likely, quick = (
        fourier * half_m**2 / d / SECONDS_A_DAY for d in diffusivity.at(temperature_c).slow_to_fast
    )
    days = Range(quick, likely, slow)
    told = f"{days.low:.1f} to {days.high:.1f} days"
    working = Working(
        "Days until the needle's cure is even",
        "t = Fo · L² ÷ D; (C ÷ mean between two rows)² = evenness; "
        "C ÷ mean = 1 + 2 ÷ (π · f) · Σ (−1)ⁿ ÷ n · sin(π · n · f) · exp(−n² · π² · Fo)",
        (
            ("From hole to hole", f"{spacing_mm:.0f} mm, in a square pattern"),
            ("Each hole wets", f"{wetted_mm:.0f} mm across"),
            ("Evenness wanted", f"{evenness:.0%} of the mean, amid four holes"),
            ("Temperature", f"{temperature_c:g} °C"),
            (
                "Diffusivity at 4 °C",
                " – ".join(f"{d * 1e10:.2g}" for d in diffusivity.slow_to_fast) + " × 10⁻¹⁰ m²/s",
            ),
        ),
        told,
        "Crank, The Mathematics of Diffusion (1975), eq. 2.17 (from memory); " + diffusivity.source,
        "Pockets of brine run along the grain and are uneven. Holes further apart take longer by "
        "the square: twice as far, four times as long.",
    )
    says = f"{told} until the needle's cure is even, most likely {days.likely:.1f}."
    return DaysNeeded(days, says, working)


def _fourier(level: float, wetted: float) -> float:
    low, high = 0.0, 4.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        if between_rows(middle, wetted) < level:
            low = middle
        else:
            high = middle
    return high
