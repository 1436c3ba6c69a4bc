"""A batch's cure as the transport models take it: piece, bath, start and days."""

from collections.abc import Mapping

from attrs import frozen

from app.cure.amounts import Amounts, work_out_amounts
from app.cure.mix import work_out
from app.cure.request import MixRequest
from app.transport.brining import NITRITE, at_rest, cover_bath, dry_bath, nitrite_ppm
from app.transport.calibrate import CuredSlice
from app.transport.course import Bath, Piece, Profile, Stage, open_faces
from app.transport.days import FIRST_PINK_PPM, FULL_COLOUR_PPM, DaysNeeded, days_to_colour
from app.transport.diffusivity import NITRITE as NITRITE_MOVES
from app.transport.diffusivity import REFERENCE_C, Diffusivity
from app.transport.injection import injected_start
from app.transport.outlook import Outlook, outlook

_NO_BATH_G = 1.0  # Less water than this left over from the pump is no bath.


@frozen
class CureModel:
    """What the models need to know of a cure.

    mix : settled, so that every choice left open is made
    bath : what the meat lies in; None when all of the pickle was pumped in
    start : of injected meat, what it holds at first; None otherwise
    ingoing_ppm : nitrite in the meat, on its green weight, once all is at rest [mg/kg]
    """

    mix: MixRequest
    piece: Piece
    bath: Bath | None
    start: Mapping[str, Profile] | None
    ingoing_ppm: float
    meat_water: float

    @property
    def bath_ratio(self) -> float:
        """Water of the bath over water of the meat."""
        return self.bath.ratio if self.bath is not None else 0.0

    def after(self, days: float, temperature_c: float = REFERENCE_C) -> Outlook:
        """Salt and nitrite in the meat after so many days, slow, likely and quick."""
        cure = Stage("cure", 24.0 * days, self.bath, temperature_c)
        return outlook([cure], self.piece, start=self.start)

    def days_to_colour(
        self,
        threshold_ppm: float,
        temperature_c: float = REFERENCE_C,
        diffusivity: Diffusivity = NITRITE_MOVES,
    ) -> DaysNeeded:
        """Days until the middle of this piece holds so much nitrite; one bath only."""
        return days_to_colour(
            self.piece, self.ingoing_ppm, threshold_ppm, self.bath_ratio, temperature_c, diffusivity
        )

    def slice_of(self, days: float, grey_percent: float, temperature_c: float) -> CuredSlice:
        """What a slice of this batch tells of diffusivity."""
        return CuredSlice(
            self.piece, days, grey_percent, self.ingoing_ppm, self.bath_ratio, temperature_c
        )


def cure_model(
    mix: MixRequest, thickness_mm: float | None = None, fat_cap_on: bool | None = None
) -> CureModel:
    """The cure of a mix as the models take it.

    Parameters
    ----------
    mix : as the cook asked for it
    thickness_mm : of the piece [mm]; the mix's own, else the cut's, if not given
    fat_cap_on : a fat cap covers one face; the mix's own if not given

    Returns
    -------
    Piece, bath and start

    Raises
    ------
    ValueError : the mix cannot be mixed, or the piece cannot be

    Notes
    -----
    The meat is taken as a slab of even thickness, its edges left out of account.
    """
    answer = work_out(mix)
    asked = answer.request
    amounts = work_out_amounts(asked, answer.water_g)
    thick_mm = thickness_mm or asked.thickness_mm or 0.0
    piece = Piece(thick_mm, open_faces(asked.fat_cap_on if fat_cap_on is None else fat_cap_on))
    meat_water = asked.meat_water_fraction or 0.0
    bath, start = _bath(asked, amounts, piece, meat_water)
    if start is None:
        rest = at_rest(bath, NITRITE) if bath is not None else 0.0
    else:
        pumped = amounts.pumped_g / amounts.pickle_g * amounts.water_g / amounts.meat_g
        rest = 1e6 * amounts.nitrite_g / (amounts.meat_g * meat_water + amounts.water_g)
        # The pickle pumped in is water of the meat too.
        rest *= (meat_water + pumped) / meat_water
    ingoing = nitrite_ppm(rest, meat_water)
    return CureModel(asked, piece, bath, start, ingoing, meat_water)


def _bath(
    asked: MixRequest, amounts: Amounts, piece: Piece, meat_water: float
) -> tuple[Bath | None, Mapping[str, Profile] | None]:
    meat_g, nacl_g, nitrite_g = amounts.meat_g, amounts.nacl_g, amounts.nitrite_g
    if asked.method == "dry":
        return dry_bath(meat_g, nacl_g, nitrite_g, meat_water), None
    if asked.method != "injection":
        return cover_bath(meat_g, amounts.water_g, nacl_g, nitrite_g, meat_water), None
    start = injected_start(
        piece,
        asked.pump_percent / 100.0,
        nacl_g / amounts.water_g,
        1e6 * nitrite_g / amounts.water_g,
        amounts.water_g / amounts.pickle_g,
        meat_water,
    )
    outside = 1.0 - amounts.pumped_g / amounts.pickle_g
    if outside * amounts.water_g < _NO_BATH_G:
        return None, start
    bath = cover_bath(
        meat_g, outside * amounts.water_g, outside * nacl_g, outside * nitrite_g, meat_water
    )
    return bath, start


def planned_days(
    mix: MixRequest, thickness_mm: float | None = None, fat_cap_on: bool = False
) -> float | None:
    """Days to plan for: until the middle likely has its full colour, or, in a cure too weak for
    that, its first pink. None when it is too weak for any.
    """
    model = cure_model(mix, thickness_mm, fat_cap_on)
    days = model.days_to_colour(FULL_COLOUR_PPM).days or model.days_to_colour(FIRST_PINK_PPM).days
    return None if days is None else days.likely
