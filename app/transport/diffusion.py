"""Salt and nitrite moving through meat: the exact answers for one bath, the solver for all else."""

from collections.abc import Mapping, Sequence
from math import inf

from app.transport.checks import not_negative, positive
from app.transport.course import Bath, Course, Piece, Profile, Shape, Snapshot, Solute, Stage
from app.transport.crank import concentration, uptake
from app.transport.diffusivity import temperature_factor
from app.transport.solver import CELLS, advance, grid, spread

__all__ = [
    "Bath",
    "Course",
    "Piece",
    "Profile",
    "Shape",
    "Snapshot",
    "Solute",
    "Stage",
    "centre_fraction",
    "simulate",
    "uptake_fraction",
]

SECONDS_A_DAY = 86400.0
SECONDS_AN_HOUR = 3600.0
_MM2_A_M2 = 1e6


def fourier_number(
    thickness_mm: float, days: float, diffusivity_m2_s: float, faces: int = 2
) -> float:
    """Time told by how far things move in it.

    Fo = D·t/a², a = half the thickness with two open faces, the whole with one

    Parameters
    ----------
    thickness_mm : whole thickness of the slab [mm]
    days : time in the cure [d]
    diffusivity_m2_s : diffusivity at the temperature of the cure [m²/s]
    faces : open faces, 1 or 2

    Returns
    -------
    Fo [-]

    Raises
    ------
    ValueError : a number is not finite or has the wrong sign, or faces is not 1 or 2

    Examples
    --------
    >>> round(fourier_number(50.8, days=18.7, diffusivity_m2_s=4e-10), 2)
    1.0
    """
    path_m = Piece(thickness_mm, faces).path_mm / 1000.0
    not_negative("time", days, "days")
    positive("diffusivity", diffusivity_m2_s, "m²/s")
    return diffusivity_m2_s * days * SECONDS_A_DAY / path_m**2


def uptake_fraction(
    thickness_mm: float,
    days: float,
    diffusivity_m2_s: float,
    faces: int = 2,
    bath_ratio: float = inf,
) -> float:
    """How much of what the meat will take up it has taken up.

    Mt/M∞ by Crank's series for a slab in a stirred bath, see `app.transport.crank.uptake`

    Parameters
    ----------
    thickness_mm : whole thickness of the slab [mm]
    days : time in the cure [d]
    diffusivity_m2_s : diffusivity at the temperature of the cure [m²/s]
    faces : open faces; with one (a fat cap left on) the path doubles
    bath_ratio : α, capacity of the bath over that of the meat [-]; infinite for a bath that
        never runs down

    Returns
    -------
    Part of the final uptake [0-1]

    Raises
    ------
    ValueError : a number is not finite or has the wrong sign, or faces is not 1 or 2

    Notes
    -----
    Constant diffusivity, flat meat, no solute in it at first. Strong brine swells meat, for
    which a constant diffusivity is only a fit (Vestergaard et al., Meat Sci. 69 (2005) 663).

    Examples
    --------
    >>> round(uptake_fraction(50.8, days=18.7, diffusivity_m2_s=4e-10, bath_ratio=4), 3)
    0.96

    References
    ----------
    Crank, The Mathematics of Diffusion, 2nd ed. (1975), eqs. 4.18, 4.37 (numbers from memory).
    """
    return uptake(fourier_number(thickness_mm, days, diffusivity_m2_s, faces), bath_ratio)


def centre_fraction(
    thickness_mm: float,
    days: float,
    diffusivity_m2_s: float,
    faces: int = 2,
    bath_ratio: float = inf,
) -> float:
    """Concentration where the cure comes last, as a part of what it will be in the end.

    C/C∞ by Crank's series for a slab in a stirred bath, see `app.transport.crank.concentration`

    Parameters
    ----------
    thickness_mm : whole thickness of the slab [mm]
    days : time in the cure [d]
    diffusivity_m2_s : diffusivity at the temperature of the cure [m²/s]
    faces : open faces; with one (a fat cap left on) the place is at the closed face
    bath_ratio : α, capacity of the bath over that of the meat [-]; infinite for a bath that
        never runs down

    Returns
    -------
    Part of the final concentration [0-1]

    Raises
    ------
    ValueError : a number is not finite or has the wrong sign, or faces is not 1 or 2

    Notes
    -----
    As for `uptake_fraction`.

    Examples
    --------
    >>> round(centre_fraction(50.8, days=18.7, diffusivity_m2_s=4e-10), 3)
    0.892

    References
    ----------
    Crank, The Mathematics of Diffusion, 2nd ed. (1975), eqs. 4.17, 4.38 (numbers from memory).
    """
    return concentration(fourier_number(thickness_mm, days, diffusivity_m2_s, faces), bath_ratio)


def simulate(
    stages: Sequence[Stage],
    piece: Piece,
    solutes: Sequence[Solute],
    start: Mapping[str, float | Profile] | None = None,
    at_hours: Sequence[float] = (),
    cells: int = CELLS,
) -> Course:
    """The general case: several stages in a row, any starting profile, several solutes.

    ∂C/∂t = D·∂²C/∂x² (slab) or D/r·∂/∂r(r·∂C/∂r) (round) in the meat, α·V·dCb/dt = −flux in
    the bath, the meat's face at the bath's concentration

    Parameters
    ----------
    stages : what happens to the meat, in order; each bath is fresh when its stage begins
    piece : the meat
    solutes : what moves, each with its own diffusivity
    start : of each solute, one concentration throughout or a profile [the caller's unit];
        nothing for a solute not named
    at_hours : moments asked for besides the ends of stages, counted from the beginning [h]
    cells : cells along the path from open face to core

    Returns
    -------
    The state at every moment asked for and at the end of every stage

    Raises
    ------
    ValueError : no stage or no solute, a name used twice, a moment outside the run, or a
        starting profile that does not fit the piece

    Notes
    -----
    Constant diffusivity within a stage, carried to its temperature by Arrhenius' law.
    What meat and bath hold together is kept to 1e-9 of itself in every stage.

    References
    ----------
    Patankar, Numerical Heat Transfer and Fluid Flow (1980), ch. 4, for finite volumes (from
    memory).
    """
    _check_run(stages, solutes, start)
    length = sum(stage.hours for stage in stages)
    for hours in at_hours:
        if not 0.0 <= hours <= length * (1.0 + 1e-12):
            raise ValueError(f"A moment must be from 0 to {length:g} h; {hours} was given.")
    layout = grid(piece, cells)
    now = {
        s.name: _starting(s.name, start or {}, layout.whole_edges_mm, piece, cells) for s in solutes
    }
    # The end of the last stage is told anyway.
    wanted = sorted({hours for hours in at_hours if hours < length})
    snapshots: list[Snapshot] = []
    begun = 0.0
    for stage in stages:
        finish = begun + stage.hours
        moments = [hours for hours in wanted if begun <= hours < finish]
        ratio = None if stage.bath is None else stage.bath.ratio
        filled = {} if stage.bath is None else stage.bath.concentrations
        liquid = {s.name: filled.get(s.name, 0.0) for s in solutes}
        warmth = [temperature_factor(stage.temperature_c, s.activation_kj_mol) for s in solutes]
        clock = begun
        for moment in [*moments, finish]:
            for solute, factor in zip(solutes, warmth, strict=True):
                seconds = (moment - clock) * SECONDS_AN_HOUR
                travelled = solute.diffusivity_m2_s * factor * seconds * _MM2_A_M2
                now[solute.name], liquid[solute.name] = advance(
                    layout, now[solute.name], liquid[solute.name], ratio, travelled
                )
            clock = moment
            snapshots.append(
                _snapshot(stage, moment, piece, layout.whole_edges_mm, now, liquid, ratio)
            )
        begun = finish
    return Course(tuple(snapshots))


def _check_run(
    stages: Sequence[Stage],
    solutes: Sequence[Solute],
    start: Mapping[str, float | Profile] | None,
) -> None:
    if not stages:
        raise ValueError("A run needs a stage; none was given.")
    names = [s.name for s in solutes]
    if not names or len(set(names)) != len(names):
        raise ValueError(f"A run needs solutes with different names; {names} was given.")
    strange = set(start or {}) - set(names)
    if strange:
        raise ValueError(f"The start names {sorted(strange)}, which is none of {names}.")


def _starting(
    name: str,
    start: Mapping[str, float | Profile],
    edges_mm: tuple[float, ...],
    piece: Piece,
    cells: int,
) -> list[float]:
    given = start.get(name, 0.0)
    if isinstance(given, Profile):
        if given.piece.shape != piece.shape:
            raise ValueError("The starting profile is of another shape than the meat.")
        if given.edges_mm == edges_mm:
            return list(given.means)
        return spread(given, grid(piece, cells))
    not_negative(f"concentration of {name} at the start", given)
    return [given] * (len(edges_mm) - 1)


def _snapshot(
    stage: Stage,
    hours: float,
    piece: Piece,
    edges_mm: tuple[float, ...],
    now: Mapping[str, list[float]],
    liquid: Mapping[str, float],
    ratio: float | None,
) -> Snapshot:
    sealed = ratio is None
    # A rational step may leave −1e-16 where there is nothing yet; that is nothing.
    profiles = {
        name: Profile(
            piece,
            edges_mm,
            tuple(max(value, 0.0) for value in means),
            None if sealed else liquid[name],
        )
        for name, means in now.items()
    }
    bath = {} if sealed else dict(liquid)
    return Snapshot(stage.name, hours, profiles, bath, ratio)
