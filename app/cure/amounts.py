"""The masses of a mix: what goes in so that salt, sugar and nitrite come out as asked."""

from attrs import frozen

from app.cure.brine import SATURATED_PERCENT
from app.cure.request import MixRequest

# Salt, sugar, nitrite and ascorbate hang on each other only through the pickle's mass; each
# round makes the rest some thousand times smaller.
_ROUNDS = 8


@frozen
class Amounts:
    """What is weighed, in grams. `nacl_g` is all salt, the curing salt's own with it.

    `pickle_g` is the whole pickle, 0 for a dry cure; `pumped_g` the part pumped in.
    """

    meat_g: float
    water_g: float
    nacl_g: float
    salt_g: float
    sugar_g: float
    cure_g: float
    nitrite_g: float
    ascorbate_g: float
    pickle_g: float
    pumped_g: float
    held_down_by_salt: bool

    @property
    def strength_percent(self) -> float:
        """Salt by mass of salt and water, before the meat comes in [%]."""
        together = self.nacl_g + self.water_g
        return 100.0 * self.nacl_g / together if together else 0.0


def nacl_for(request: MixRequest, water_g: float) -> float:
    """All the salt a request asks for, that in the curing salt counted.

    cover: water · w / (1 − w); otherwise w · (meat + water)

    Parameters
    ----------
    request : settled
    water_g : water, 0 for a dry cure [g]

    Returns
    -------
    Salt [g]

    Raises
    ------
    ValueError : never for a settled request

    References
    ----------
    `app.cure.targets.BASIS`.
    """
    fraction = (request.salt_percent or 0.0) / 100.0
    if request.method == "cover":
        return water_g * fraction / (1.0 - fraction)
    return fraction * (request.meat_g + water_g)


def sugar_for(request: MixRequest, water_g: float, nacl_g: float) -> float:
    """All the sugar the request asks for, on the basis of its method [g]."""
    fraction = (request.sugar_percent or 0.0) / 100.0
    base = water_g + nacl_g if request.method == "cover" else request.meat_g + water_g
    return fraction * base


def work_out_amounts(request: MixRequest, water_g: float) -> Amounts:
    """Everything to weigh, for a settled request and its water.

    pickle = water + salt + sugar + nitrite + ascorbate; nitrite = ppm / the largest of the
    factors that turn grams into ppm by the ways of counting that apply

    Parameters
    ----------
    request : settled, see `app.cure.targets.settled`
    water_g : water, with the ice in it [g]; 0 for a dry cure

    Returns
    -------
    The masses

    Raises
    ------
    ValueError : the water cannot hold the salt, or is less than the pump needs

    Notes
    -----
    Where the curing salt brings all the salt there may be (a weak one, such as the EU's), the
    salt holds the nitrite down to what comes with it.

    References
    ----------
    Ways of counting: USDA FSIS Directive 7620.3 (1995), pp. 15-27.
    """
    meat_g = request.meat_g
    nacl_g = nacl_for(request, water_g)
    sugar_g = sugar_for(request, water_g, nacl_g)
    if water_g and nacl_g / (nacl_g + water_g) * 100.0 > SATURATED_PERCENT:
        raise ValueError(
            f"{nacl_g:.0f} g of salt does not dissolve in {water_g:.0f} g of water; a brine holds "
            f"{SATURATED_PERCENT:.1f} % at most. Take more water or less salt."
        )
    ppm = request.nitrite_ppm or 0.0
    part = request.cure_nitrite_percent / 100.0
    most_nitrite_g = nacl_g * part / (1.0 - part)
    nitrite_g = ascorbate_g = 0.0
    held_down = False
    for _ in range(_ROUNDS):
        pickle_g = water_g + nacl_g + sugar_g + nitrite_g + ascorbate_g if water_g else 0.0
        nitrite_g = ppm * 1e-6 / max(factor for _, factor in factors(request, pickle_g))
        held_down = nitrite_g > most_nitrite_g * (1.0 + 1e-9)
        nitrite_g = min(nitrite_g, most_nitrite_g)
        ascorbate_g = request.ascorbate_ppm * 1e-6 * (meat_g + pickle_g)
    if water_g:
        pickle_g = water_g + nacl_g + sugar_g + nitrite_g + ascorbate_g
    pumped_g = request.pump_percent / 100.0 * meat_g if request.method == "injection" else 0.0
    if pumped_g > pickle_g * (1.0 + 1e-9):
        raise ValueError(
            f"Pumping {request.pump_percent:g} % takes {pumped_g:.0f} g of pickle, but there are "
            f"only {pickle_g:.0f} g. Take more water or pump less."
        )
    cure_g = nitrite_g / part
    return Amounts(
        meat_g=meat_g,
        water_g=water_g,
        nacl_g=nacl_g,
        salt_g=max(nacl_g - (cure_g - nitrite_g), 0.0),
        sugar_g=sugar_g,
        cure_g=cure_g,
        nitrite_g=nitrite_g,
        ascorbate_g=ascorbate_g,
        pickle_g=pickle_g,
        pumped_g=pumped_g,
        held_down_by_salt=held_down,
    )


def factors(request: MixRequest, pickle_g: float) -> list[tuple[str, float]]:
    """Each way of counting that applies, with the ppm·10⁻⁶ that one gram of nitrite makes."""
    if request.method == "dry":
        return [("dry", 1.0 / request.meat_g)]
    equilibrium = ("equilibrium", 1.0 / (request.meat_g + pickle_g))
    if request.method == "injection":
        return [("pumped", request.pump_percent / 100.0 / pickle_g), equilibrium]
    return [equilibrium, ("pick-up", request.pickup_percent / 100.0 / pickle_g)]
