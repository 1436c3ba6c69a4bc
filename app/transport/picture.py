"""The cut face as the model expects it: salt and colour across the thickness, and in words."""

from itertools import pairwise
from typing import Literal

from attrs import frozen

from app.cure.working import Working
from app.quantities import format
from app.transport.brining import MEAT_WATER, NITRITE, SALT, nitrite_ppm, salt_percent
from app.transport.course import Piece, Profile, Snapshot
from app.transport.days import FIRST_PINK_PPM, FULL_COLOUR_PPM
from app.transport.diffusivity import Range
from app.transport.outlook import Outlook

Colour = Literal["cured", "pale", "grey"]


@frozen
class SlicePoint:
    """One place across the slice, from one side of the meat to the other."""

    position_mm: float
    salt_percent: float
    nitrite_ppm: float
    colour: Colour


@frozen
class SlicePicture:
    """What a slice would show: points for the chart, parts in percent, a sentence for the ear."""

    hours: float
    points: tuple[SlicePoint, ...]
    cured_percent: float
    pale_percent: float
    grey_percent: float
    grey_mm: float
    says: str
    working: Working


def colour_of(ingoing_ppm: float) -> Colour:
    """What colour a place cooks to, by the nitrite that reached it.

    Below 14 ppm grey (Heaton et al., Meat Sci. 55 (2000) 321), from 45 ppm fully cured (from
    memory), between them pale.

    >>> colour_of(10), colour_of(20), colour_of(60)
    ('grey', 'pale', 'cured')
    """
    if ingoing_ppm < FIRST_PINK_PPM:
        return "grey"
    return "pale" if ingoing_ppm < FULL_COLOUR_PPM else "cured"


def slice_picture(
    snapshot: Snapshot, meat_water: float = MEAT_WATER, count: int = 61
) -> SlicePicture:
    """Salt and colour across the meat at one moment of a run.

    salt % = 100·C·w, nitrite ppm = C·w, at places evenly spread over the whole thickness

    Parameters
    ----------
    snapshot : a moment of a run of `salt` and `nitrite`
    meat_water : water as a part of the green weight [0-1]
    count : points across, 3 or more

    Returns
    -------
    Points, parts of the thickness, and a sentence

    Raises
    ------
    ValueError : fewer than 3 points, or the run had no salt or no nitrite

    Notes
    -----
    A round piece is shown along its diameter, so parts are of the diameter and not of the area.

    Examples
    --------
    >>> from app.transport.brining import cover_bath
    >>> from app.transport.diffusion import Stage
    >>> from app.transport.outlook import outlook
    >>> bath = cover_bath(5000, water_g=3500, salt_g=225, nitrite_g=1.35)
    >>> three_days = outlook([Stage("cure", 72.0, bath)], Piece(45.0)).likely.end
    >>> slice_picture(three_days).says
    'After 3 days: 58 % of the thickness cured, 33 % pale, 9 % grey (4 mm / 3/16 in). Salt...
    """
    if count < 3:
        raise ValueError(f"A picture needs 3 points or more; {count} was given.")
    salt, nitrite = _profile(snapshot, SALT), _profile(snapshot, NITRITE)
    span = salt.piece.thickness_mm
    places = [span * i / (count - 1) for i in range(count)]
    depths = [_depth(salt.piece, place) for place in places]
    points = []
    for place, salty, nitrous in zip(
        places, salt.along(depths), nitrite.along(depths), strict=True
    ):
        ppm = nitrite_ppm(nitrous, meat_water)
        points.append(SlicePoint(place, salt_percent(salty, meat_water), ppm, colour_of(ppm)))
    grey = part_below(nitrite, FIRST_PINK_PPM / meat_water)
    not_cured = part_below(nitrite, FULL_COLOUR_PPM / meat_water)
    surface, core, average = (
        salt_percent(value, meat_water) for value in (salt.surface, salt.core, salt.average)
    )
    cured, pale = 100.0 * (1.0 - not_cured), 100.0 * (not_cured - grey)
    says = (
        f"After {_in_words(snapshot.hours)}: {_colours(cured, pale, 100.0 * grey, grey * span)} "
        f"Salt {surface:.1f} % at the surface, {core:.1f} % in the middle, {average:.1f} % on "
        "average."
    )
    return SlicePicture(
        snapshot.hours,
        tuple(points),
        cured,
        pale,
        100.0 * grey,
        grey * span,
        says,
        _working(snapshot, salt.piece, meat_water, says),
    )


def grey_after(outcome: Outlook, meat_water: float = MEAT_WATER) -> Range:
    """The grey part of the thickness at the end of a run [%], low, likely and high.

    The part where C·w lies below 14 ppm, for the quick, the likely and the slow diffusivity

    Parameters
    ----------
    outcome : a run of any stages and any start, injection too
    meat_water : water as a part of the green weight [0-1]

    Returns
    -------
    Grey part of the thickness [%]

    Examples
    --------
    >>> from app.transport.brining import cover_bath
    >>> from app.transport.diffusion import Stage
    >>> from app.transport.outlook import outlook
    >>> bath = cover_bath(5000, water_g=3500, salt_g=225, nitrite_g=1.35)
    >>> grey = grey_after(outlook([Stage("cure", 24.0, bath)], Piece(45.0)))
    >>> [round(x) for x in (grey.low, grey.likely, grey.high)]
    [30, 50, 66]

    References
    ----------
    Heaton et al., Meat Sci. 55 (2000) 321, for 14 ppm.
    """
    slow, likely, quick = (
        100.0 * part_below(_profile(end, NITRITE), FIRST_PINK_PPM / meat_water)
        for end in outcome.ends
    )
    return Range.around(likely, slow, quick)


def part_below(profile: Profile, level: float) -> float:
    """The part of the thickness that holds less than a level, crossings taken straight."""
    places, values = profile.points()
    below = 0.0
    for (x0, x1), (y0, y1) in zip(pairwise(places), pairwise(values), strict=True):
        if y0 < level and y1 < level:
            below += x1 - x0
        elif (y0 < level) != (y1 < level):
            crossing = (level - y0) / (y1 - y0)
            below += (x1 - x0) * (crossing if y0 < level else 1.0 - crossing)
    return below / profile.depth_mm


def _profile(snapshot: Snapshot, solute: str) -> Profile:
    if solute not in snapshot.profiles:
        raise ValueError(f"A picture of a slice needs a run with {solute} in it.")
    return snapshot.profiles[solute]


def _working(snapshot: Snapshot, piece: Piece, meat_water: float, says: str) -> Working:
    inputs = (
        ("Stage", snapshot.stage),
        ("After", _in_words(snapshot.hours)),
        ("Thickness", f"{piece.thickness_mm:.0f} mm, way to the middle {piece.path_mm:.0f} mm"),
        ("Water in the meat", f"{meat_water:.0%}"),
    )
    return Working(
        "The cut face",
        "∂C/∂t = D · ∂²C/∂x²; salt % = 100 · C · w, nitrite ppm = C · w; "
        f"grey below {FIRST_PINK_PPM:.0f} ppm, cured from {FULL_COLOUR_PPM:.0f} ppm",
        inputs,
        says,
        "Finite volumes, checked against Crank (1975); 14 ppm: Heaton et al., Meat Sci. 55 (2000) "
        "321; 45 ppm: from memory",
        "One diffusivity for the whole piece, straight through its thickness. The range of days "
        "beside it says how unsure that is.",
    )


def _depth(piece: Piece, place_mm: float) -> float:
    """Depth in the profile of a place across the slice; a round one is there and back."""
    if piece.shape == "slab":
        return place_mm
    return min(place_mm, max(piece.thickness_mm - place_mm, 0.0))


def _colours(cured: float, pale: float, grey: float, grey_mm: float) -> str:
    if pale < 0.5 and grey < 0.5:
        return "cured all the way through."
    parts = [f"{cured:.0f} % of the thickness cured", f"{pale:.0f} % pale"]
    parts.append(
        f"{grey:.0f} % grey ({format(grey_mm, 'length', 'both')})" if grey >= 0.5 else "none grey"
    )
    return ", ".join(parts) + "."


def _in_words(hours: float) -> str:
    if hours < 48.0:
        return f"{hours:.0f} hours"
    return f"{hours / 24.0:.3g} days"
