"""Salt in the meat: it spreads through the water of meat and brine, not through their mass."""

from app.cure.amounts import Amounts
from app.cure.answer import SaltForecast
from app.cure.figures import celsius, grams, percent
from app.cure.request import MixRequest
from app.cure.targets import BASIS
from app.cure.working import Working
from app.transport.brining import dry_bath, water_phase_percent
from app.transport.checks import not_negative, positive
from app.transport.course import open_faces
from app.transport.diffusion import uptake_fraction
from app.transport.diffusivity import REFERENCE_C, SALT, Range

FRIDGE_C = REFERENCE_C
"""Temperature the meat is taken to cure at."""


def salt_in_meat_at_rest_g(salt_g: float, meat_water_g: float, brine_water_g: float) -> float:
    """Salt the meat holds once it is at rest with its brine.

    salt in meat = salt · meat water / (meat water + brine water)

    Parameters
    ----------
    salt_g : all the salt in brine and meat [g]
    meat_water_g : water in the meat [g]
    brine_water_g : water of the brine outside the meat [g]; 0 for a dry cure

    Returns
    -------
    Salt in the meat [g]

    Raises
    ------
    ValueError : a mass is negative or not finite, or there is no water in the meat

    Notes
    -----
    Salt is taken to be as strong in the meat's water as in the brine's, and the meat to keep
    its water. Fat and protein take up none. In strong brine meat swells or loses water, which
    shifts the result by some tenths of a percent.

    Examples
    --------
    >>> round(salt_in_meat_at_rest_g(225, meat_water_g=3250, brine_water_g=4000), 1)
    100.9

    References
    ----------
    Equal concentration in both waters is the usual rule for lean meat; common practice.
    """
    not_negative("salt", salt_g, "g")
    positive("water in the meat", meat_water_g, "g")
    not_negative("water of the brine", brine_water_g, "g")
    return salt_g * meat_water_g / (meat_water_g + brine_water_g)


def forecast(request: MixRequest, amounts: Amounts) -> SaltForecast:
    """Salt in the meat of a mix: at rest, and when its days are over.

    then = start + (at rest − start) · part taken up; the part by
    `app.transport.diffusion.uptake_fraction` for slow, likely and fast meat

    Parameters
    ----------
    request : settled
    amounts : its masses

    Returns
    -------
    Salt as % of the meat without its salt, and as % of its water and salt

    Raises
    ------
    ValueError : the dry salt finds too little water in the meat to dissolve

    Notes
    -----
    At 4 °C, a slab of even thickness. What is pumped in is taken to be spread evenly at the
    start and to stay; a dry cure as the small, strong brine its salt draws.

    References
    ----------
    Crank, The Mathematics of Diffusion, 2nd ed. (1975); `app.transport.diffusivity.SALT`.
    """
    water_g, start_g, alpha = start_of_cure(request, amounts)
    outside_g = amounts.water_g * (1.0 - _pumped_part(amounts))
    rest_g = salt_in_meat_at_rest_g(amounts.nacl_g, water_g, outside_g)
    mass_g = amounts.meat_g + amounts.pumped_g - start_g
    days = request.days
    if days is None or alpha == 0.0:
        when = "at rest"
        held = (rest_g, rest_g, rest_g)
    else:
        when = f"after {days:g} days at {FRIDGE_C:g} °C"
        taken = uptake_band(request, days, alpha)
        low, likely, high = (start_g + (rest_g - start_g) * part for part in taken)
        held = (min(low, high), likely, max(low, high))
    return SaltForecast(
        simple_percent=request.salt_percent or 0.0,
        basis=BASIS[request.method],
        at_rest_percent=100.0 * rest_g / mass_g,
        at_rest_water_percent=water_phase_percent(rest_g / water_g),
        when=when,
        then_percent=Range(*(100.0 * g / mass_g for g in held)),
        then_water_percent=Range(*(water_phase_percent(g / water_g) for g in held)),
    )


def uptake_band(request: MixRequest, days: float, alpha: float) -> tuple[float, float, float]:
    """Part of its final salt the meat has taken up, for slow, likely and fast meat."""
    band = SALT.at(FRIDGE_C)
    thick_mm = request.thickness_mm or 0.0
    faces = open_faces(request.fat_cap_on)
    slow, likely, fast = (
        uptake_fraction(thick_mm, days, d, faces, alpha) for d in band.slow_to_fast
    )
    return slow, likely, fast


def _pumped_part(amounts: Amounts) -> float:
    return amounts.pumped_g / amounts.pickle_g if amounts.pickle_g else 0.0


def start_of_cure(request: MixRequest, amounts: Amounts) -> tuple[float, float, float]:
    """Water in the meat and salt in it at the start [g], and α, bath water over meat water.

    α is 0 when nothing is left outside: meat that is only pumped, or has no salt to take up.
    """
    pumped = _pumped_part(amounts)
    water_g = amounts.meat_g * (request.meat_water_fraction or 0.0) + pumped * amounts.water_g
    outside_g = (1.0 - pumped) * amounts.water_g
    if request.method == "dry":
        salt_g = amounts.nacl_g
        part = request.meat_water_fraction or 0.0
        alpha = dry_bath(amounts.meat_g, salt_g, meat_water=part).ratio if salt_g else 0.0
        return water_g, 0.0, alpha
    # A drop left over from rounding is no bath.
    alpha = outside_g / water_g if outside_g > 1e-6 * water_g else 0.0
    return water_g, pumped * amounts.nacl_g, alpha


def salt_workings(request: MixRequest, amounts: Amounts, salt: SaltForecast) -> dict[str, Working]:
    """How the salt to weigh and the salt in the meat were come by."""
    water_g, _, alpha = start_of_cure(request, amounts)
    outside_g = amounts.water_g * (1.0 - _pumped_part(amounts))
    asked = ("salt wanted", f"{percent(salt.simple_percent)} {salt.basis}")
    masses = (("meat", grams(amounts.meat_g)), ("water", grams(amounts.water_g)))
    found = {
        "salt": Working(
            "Salt to weigh",
            "salt = all salt − salt in the curing salt",
            (
                asked,
                *masses,
                ("all salt", grams(amounts.nacl_g)),
                ("in the curing salt", grams(amounts.cure_g - amounts.nitrite_g)),
            ),
            grams(amounts.salt_g),
            "Arithmetic; how much salt is wanted is taste and common practice, no source",
            "By mass. A spoon of coarse salt weighs from 2.8 to 4.8 g by its crystals.",
        ),
        "sugar": Working(
            "Sugar to weigh",
            "sugar = sugar wanted × what it is a part of",
            (("sugar wanted", f"{percent(request.sugar_percent or 0.0)} {salt.basis}"), *masses),
            grams(amounts.sugar_g),
            "Arithmetic; how much is taste and common practice, no source",
            "Any sugar; brown sugar brings some water of its own.",
        ),
        "salt_in_meat": Working(
            "Salt in the meat, at rest",
            "salt in meat = salt × meat water ÷ (meat water + brine water)",
            (
                ("all salt", grams(amounts.nacl_g)),
                ("meat water", grams(water_g)),
                ("brine water", grams(outside_g)),
            ),
            f"{percent(salt.at_rest_percent)} of the meat, "
            f"{percent(salt.at_rest_water_percent)} of its water",
            "Equal strength in both waters, the usual rule for lean meat (common practice); "
            "corned brisket as sold, raw, 3.09 % (USDA SR, from its sodium)",
            "Of the meat's weight without the salt. It is taken to keep its water, and fat to take "
            "up no salt. The middle gets there last.",
        ),
    }
    if salt.when != "at rest":
        found["salt_then"] = Working(
            f"Salt in the meat {salt.when}, on average",
            "salt = start + (at rest − start) × part taken up; the part by Crank's series",
            (
                ("thickness", f"{request.thickness_mm:g} mm"),
                ("open faces", str(open_faces(request.fat_cap_on))),
                ("days", f"{request.days:g}"),
                ("bath water over meat water", f"{alpha:.2f}"),
                ("diffusivity at " + celsius(FRIDGE_C), "2 to 8, likely 4 × 10⁻¹⁰ m²/s"),
            ),
            f"{percent(salt.then_percent.low)} to {percent(salt.then_percent.high)}, "
            f"likely {percent(salt.then_percent.likely)}",
            "Crank, The Mathematics of Diffusion, 2nd ed. (1975), eqs. 4.18 and 4.37 (numbers "
            "from memory)",
            "A flat slab of even thickness. Above about 15 % salt the meat swells or shrinks and "
            "this is only a guide (Vestergaard et al., Meat Sci. 69 (2005) 663).",
        )
    return found
