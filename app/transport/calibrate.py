"""A cook's own diffusivity of nitrite, from how far the cure had reached in past slices.

Each slice gives one diffusivity with an error; all of them, with the general range as a
starting opinion, give one log-normal-like range. A slice that does not fit the others counts
for little (Student's t with four degrees of freedom), so one bad reading spoils nothing.
"""

from collections.abc import Sequence
from itertools import accumulate
from math import exp, inf, log, sqrt

from attrs import frozen

from app.cure.working import Working
from app.transport.checks import between, positive
from app.transport.course import Piece
from app.transport.days import FIRST_PINK_PPM
from app.transport.diffusion import SECONDS_A_DAY
from app.transport.diffusivity import NITRITE, Diffusivity, Range, temperature_factor
from app.transport.reach import time_to_reach

PIECE_SCATTER = 0.25
"""Spread of ln D from one piece to the next, apart from reading errors; a judgement: a quarter."""

_NORMAL_90 = 1.6449  # a normal distribution holds 90 % within this many deviations (from memory)
_GRID_STEPS = 800
_GRID_LOW, _GRID_HIGH = log(1e-12), log(1e-8)


@frozen
class CuredSlice:
    """How far the cure reached in one piece, and what it had been given.

    `grey_percent` is the part of the thickness the cure never reached; `reading_percent` how far
    that reading may be off. `ingoing_ppm` is the nitrite with cure and meat at rest. Only for
    meat cured in one bath and not injected.
    """

    piece: Piece
    days: float
    grey_percent: float
    ingoing_ppm: float
    bath_ratio: float = inf
    temperature_c: float = 4.0
    reading_percent: float = 5.0

    def __attrs_post_init__(self) -> None:
        positive("days in the cure", self.days, "days")
        between("grey part of the slice", self.grey_percent, 0.0, 100.0, "%")
        between("error of the reading", self.reading_percent, 0.5, 50.0, "%")
        positive("ingoing nitrite", self.ingoing_ppm, "ppm")
        if self.ingoing_ppm <= FIRST_PINK_PPM:
            raise ValueError(
                f"A cure of {self.ingoing_ppm:g} ppm never turns meat pink, so its slice tells "
                "nothing; the cure must end above 14 ppm."
            )


@frozen
class SliceReading:
    """What one slice says by itself: diffusivity at 4 °C [m²/s], or a bound, and its part.

    `bound` is "at least" when no grey was left and "at most" when all was grey. `agrees` is
    False when the slice lies so far from the rest that it hardly counts.
    """

    diffusivity_m2_s: float
    error_ln: float
    bound: str
    agrees: bool = True


@frozen
class Calibration:
    """The diffusivity that all slices give together, and what each said."""

    diffusivity: Diffusivity
    readings: tuple[SliceReading, ...]
    says: str
    working: Working


def grey_percent_from_depth(piece: Piece, cured_depth_mm: float) -> float:
    """Grey part of the thickness from the depth of the cured rim below an open face.

    100 · (1 − depth/path)

    >>> grey_percent_from_depth(Piece(50.0), cured_depth_mm=20.0)
    20.0
    """
    between("cured depth", cured_depth_mm, 0.0, piece.path_mm, "mm")
    return 100.0 * (piece.path_mm - cured_depth_mm) / piece.path_mm


def read_slice(cured: CuredSlice) -> SliceReading:
    """The diffusivity at which the cure would have reached just as far.

    D = Fo·path²/(t·f(T)), Fo with C/C∞ = 14 ppm/ingoing at the edge of the grey

    Parameters
    ----------
    cured : the slice

    Returns
    -------
    Diffusivity at 4 °C with the error of its logarithm, or a bound

    Notes
    -----
    No grey left: the cure reached the middle on that day or earlier, so D is at least this.
    All grey: the rim is thinner than could be read, so D is at most this.

    Examples
    --------
    >>> one = CuredSlice(Piece(60.0), days=7, grey_percent=20, ingoing_ppm=150, bath_ratio=1.0)
    >>> round(read_slice(one).diffusivity_m2_s * 1e10, 2)
    1.25

    References
    ----------
    Crank (1975), eq. 4.38 (number from memory); Heaton et al., Meat Sci. 55 (2000) 321.
    """
    grey, off = cured.grey_percent / 100.0, cured.reading_percent / 100.0
    if grey <= 0.0:
        return SliceReading(_diffusivity(cured, 0.0), PIECE_SCATTER, "at least")
    if grey >= 1.0 - off / 2.0:
        return SliceReading(_diffusivity(cured, 1.0 - off), PIECE_SCATTER, "at most")
    more, less = min(grey + off, 1.0 - off / 4.0), max(grey - off, 0.0)
    slow, quick = _diffusivity(cured, more), _diffusivity(cured, less)
    reading = log(quick / slow) / 2.0 * (2.0 * off / (more - less))
    error = sqrt(reading**2 + PIECE_SCATTER**2)
    return SliceReading(_diffusivity(cured, grey), error, "about")


def calibrate(slices: Sequence[CuredSlice], general: Diffusivity = NITRITE) -> Calibration:
    """One diffusivity from several slices, as the range that holds it nine times in ten.

    posterior(ln D) ∝ N(ln D; general) · Π t₄((ln D − ln Dᵢ)/eᵢ), bounds by the integral of t₄

    Parameters
    ----------
    slices : past slices; with none the general range comes back
    general : what is held before any slice; its low to high taken as nine times in ten

    Returns
    -------
    Diffusivity at 4 °C with the number of slices it rests on, each slice's own reading, words

    Notes
    -----
    Low, likely and high are the 5, 50 and 95 % points. What it gives is the meat, the trim and
    the refrigerator of this cook together; another cut wants its own slices.

    Examples
    --------
    >>> seen = CuredSlice(Piece(60.0), days=7, grey_percent=20, ingoing_ppm=150, bath_ratio=1.0)
    >>> calibrate([seen] * 4).says
    'Rests on 4 of your slices: 1.1 to 1.6 × 10⁻¹⁰ m²/s at 4 °C, most likely 1.3.'

    References
    ----------
    Bayes' rule; Lange, Little & Taylor, J. Am. Stat. Assoc. 84 (1989) 881, for the robust t (from
    memory).
    """
    if not slices:
        return Calibration(
            general,
            (),
            "No slice of your own yet: the general range.",
            _working(general, (), "the general range"),
        )
    alone = [read_slice(cured) for cured in slices]
    places = [
        _GRID_LOW + (_GRID_HIGH - _GRID_LOW) * i / (_GRID_STEPS - 1) for i in range(_GRID_STEPS)
    ]
    middle = log(general.likely_m2_s)
    spread = max(log(general.high_m2_s / general.low_m2_s) / (2.0 * _NORMAL_90), 1e-3)
    weights = [-0.5 * ((x - middle) / spread) ** 2 for x in places]
    for reading in alone:
        weights = [w + _log_likelihood(x, reading) for x, w in zip(places, weights, strict=True)]
    most = max(weights)
    low, likely, high = _quantiles(places, [exp(w - most) for w in weights])
    readings = tuple(
        SliceReading(r.diffusivity_m2_s, r.error_ln, r.bound, _agrees(r, log(likely)))
        for r in alone
    )
    apart = sum(not r.agrees for r in readings)
    shown = Range(low * 1e10, likely * 1e10, high * 1e10)
    count = f"{len(slices)} of your slices" if len(slices) > 1 else "one slice of yours"
    says = (
        f"Rests on {count}: {shown.low:.1f} to {shown.high:.1f} × 10⁻¹⁰ m²/s at 4 °C, "
        f"most likely {shown.likely:.1f}."
    )
    if apart:
        says += f" {apart} of them lies apart from the rest and hardly counts."
    source = f"From {count} and the general range."
    own = Diffusivity(low, likely, high, general.activation_kj_mol, len(slices), source)
    return Calibration(own, readings, says, _working(own, readings, says))


def _diffusivity(cured: CuredSlice, place: float) -> float:
    level = FIRST_PINK_PPM / cured.ingoing_ppm
    fo = time_to_reach(cured.piece.shape, level, cured.bath_ratio, place)
    seconds = cured.days * SECONDS_A_DAY * temperature_factor(cured.temperature_c)
    # Below this the rim would be thinner than any reading; it only keeps the logarithm finite.
    return max(fo * (cured.piece.path_mm / 1000.0) ** 2 / seconds, 1e-13)


def _log_likelihood(place: float, reading: SliceReading) -> float:
    off = (place - log(reading.diffusivity_m2_s)) / reading.error_ln
    if reading.bound == "at least":
        return log(max(t4_below(off), 1e-300))
    if reading.bound == "at most":
        return log(max(t4_below(-off), 1e-300))
    return -2.5 * log(1.0 + off * off / 4.0)


def t4_below(x: float) -> float:
    """The part of Student's t with four degrees of freedom that lies below x.

    >>> round(t4_below(2.132), 3)
    0.95
    """
    y = x / sqrt(4.0 + x * x)
    return 0.5 + 0.75 * (y - y**3 / 3.0)


def _agrees(reading: SliceReading, likely_ln: float) -> bool:
    """Whether a slice lies within three of its own errors of what all say together."""
    off = (likely_ln - log(reading.diffusivity_m2_s)) / reading.error_ln
    if reading.bound == "at least":
        return off > -3.0
    if reading.bound == "at most":
        return off < 3.0
    return abs(off) < 3.0


def _quantiles(places: Sequence[float], weights: Sequence[float]) -> tuple[float, float, float]:
    """Diffusivities at 5, 50 and 95 % of the weight."""
    running = list(accumulate(weights))
    found = []
    for part in (0.05, 0.5, 0.95):
        goal = part * running[-1]
        i = next(i for i, total in enumerate(running) if total >= goal)
        before = running[i - 1] if i else 0.0
        share = (goal - before) / (running[i] - before)
        step = places[1] - places[0]
        found.append(exp(places[i] + (share - 0.5) * step))
    return found[0], found[1], found[2]


def _working(own: Diffusivity, readings: Sequence[SliceReading], result: str) -> Working:
    inputs = tuple(
        (
            f"Slice {number}",
            f"{r.bound} {r.diffusivity_m2_s * 1e10:.2g} × 10⁻¹⁰ m²/s"
            + ("" if r.agrees else ", apart from the rest"),
        )
        for number, r in enumerate(readings, 1)
    )
    return Working(
        "Your own diffusivity",
        "D = Fo · path² / t for each slice, combined in ln D by Student's t",
        inputs,
        result,
        f"Crank (1975) read backwards. {own.source}",
        "Holds for meat cured in one bath, not injected. The reading of a slice and its true "
        "thickness at that place decide; a bad slice counts for little.",
    )
