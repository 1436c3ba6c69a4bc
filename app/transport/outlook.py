"""A run of the model three times over, slow, likely and quick, so that answers come as ranges."""

from collections.abc import Mapping, Sequence

from attrs import frozen

from app.transport import brining
from app.transport.course import Course, Piece, Profile, Snapshot, Solute, Stage
from app.transport.diffusion import simulate
from app.transport.diffusivity import NITRITE, SALT, Diffusivity

CELLS = 48
"""Cells for a range: within 6e-4 of the exact answer, far inside the band of the diffusivity."""


@frozen
class Outlook:
    """The same stages with the slow, the likely and the quick diffusivity."""

    slow: Course
    likely: Course
    quick: Course

    @property
    def ends(self) -> tuple[Snapshot, Snapshot, Snapshot]:
        """How each of the three ends, slow first."""
        return (self.slow.end, self.likely.end, self.quick.end)


def outlook(
    stages: Sequence[Stage],
    piece: Piece,
    salt: Diffusivity = SALT,
    nitrite: Diffusivity = NITRITE,
    start: Mapping[str, float | Profile] | None = None,
    at_hours: Sequence[float] = (),
    cells: int = CELLS,
) -> Outlook:
    """Salt and nitrite through all stages, at the low, likely and high diffusivity.

    `app.transport.diffusion.simulate`, once for each

    Parameters
    ----------
    stages : cure, stand, soak and so on, in order; baths as `app.transport.brining` makes them
    piece : the meat
    salt, nitrite : diffusivities at 4 °C, or a cook's own from past slices
    start : of `salt` and `nitrite`, one concentration per water or a profile; for injected meat
        as `app.transport.injection` makes it
    at_hours : moments asked for besides the ends of stages [h]
    cells : cells along the path

    Returns
    -------
    Three courses

    Raises
    ------
    ValueError : as `simulate`

    Notes
    -----
    Salt and nitrite are taken slow together and quick together, since what slows one (fat, cold,
    tight grain) slows the other.

    Examples
    --------
    >>> bath = brining.cover_bath(5000, water_g=3500, salt_g=225, nitrite_g=1.35)
    >>> week = outlook([Stage("cure", 168.0, bath)], Piece(45.0))
    >>> [round(brining.nitrite_ppm(end.profiles["nitrite"].core)) for end in week.ends]
    [14, 61, 107]

    References
    ----------
    As `app.transport.diffusivity` says.
    """
    slow, likely, quick = (
        simulate(
            stages,
            piece,
            (
                Solute(brining.SALT, salt_m2_s, salt.activation_kj_mol),
                Solute(brining.NITRITE, nitrite_m2_s, nitrite.activation_kj_mol),
            ),
            start,
            at_hours,
            cells,
        )
        for salt_m2_s, nitrite_m2_s in zip(salt.slow_to_fast, nitrite.slow_to_fast, strict=True)
    )
    return Outlook(slow, likely, quick)
