"""The check of a found recipe in plain sentences, and how its figures were come by."""

from collections.abc import Iterator

from app.cure.answer import Caution
from app.cure.cautions import BLAND_PERCENT, SALTY_PERCENT
from app.cure.figures import celsius, grams, percent, ppm
from app.cure.found_recipe import FoundRecipe, Reckoned
from app.cure.working import Working
from app.quantities import format
from app.transport.diffusivity import Range

_FRIDGE_C = 4.4


def verdict(
    recipe: FoundRecipe,
    known: Reckoned,
    nitrite: Range,
    most: float,
    least: float,
    strength: Range | None,
    salt: Range,
    middle: str,
    grey: Range | None,
    lands: Range | None,
    unsuitable: str,
) -> tuple[str, tuple[Caution, ...], dict[str, Working]]:
    """A check of a recipe put into words.

    Parameters
    ----------
    recipe, known : as written, and its amounts
    nitrite, most, least : ingoing nitrite by the way that binds, and its limits [mg/kg]
    strength, salt : of the brine, and in the meat after the days [%]
    middle, grey : whether the middle is reached, and the part of the thickness left grey [%]
    lands : where the chill step ends [°C]
    unsuitable : why its curing salt is not for this use, empty when it is

    Returns
    -------
    One headline, the sentences behind it with danger first, and the workings

    Raises
    ------
    ValueError : never for what `app.cure.recipe_check.check_recipe` hands in

    References
    ----------
    Each working names its own.
    """
    says = [
        *_of_cure(known, nitrite, most, least, unsuitable),
        *_of_salt(known, strength, salt),
        *_of_middle(recipe, known, middle, grey),
        *_of_chill(recipe, known, lands),
    ]
    order = {"danger": 0, "caution": 1, "hint": 2}
    says.sort(key=lambda one: order[one.severity])
    worst = says[0].severity if says else "hint"
    headline = {
        "danger": "Do not use this recipe as it stands.",
        "caution": "This recipe can be used with changes.",
        "hint": "This recipe is sound as far as it can be reckoned.",
    }[worst]
    return headline, tuple(says), _workings(recipe, known, nitrite, most, strength, salt, lands)


def _of_cure(
    known: Reckoned, nitrite: Range, most: float, least: float, unsuitable: str
) -> Iterator[Caution]:
    if unsuitable:
        yield Caution("danger", unsuitable)
    if nitrite.likely == 0.0:
        yield Caution(
            "caution",
            "There is no curing salt in it: the meat is salted, stays grey, and must be cooked as "
            "fresh meat, not smoked slow and warm.",
        )
        return
    span = f"{nitrite.low:.0f} to {nitrite.high:.0f} ppm"
    if nitrite.low == nitrite.high:
        span = f"{nitrite.likely:.0f} ppm"
    above = 1.0 + 1e-9
    if nitrite.low > most * above:
        yield Caution("danger", f"It has {span} of nitrite, above the {most:.0f} ppm allowed.")
    elif nitrite.high > most * above:
        yield Caution(
            "danger",
            f"It may have {span} of nitrite, and {most:.0f} ppm is the most allowed: measured as "
            "written, it could pass the limit. Weigh the curing salt.",
        )
    elif nitrite.high < least:
        yield Caution(
            "caution", f"It has only {span} of nitrite; less than {least:.0f} ppm cures poorly."
        )
    elif nitrite.low < least:
        yield Caution(
            "caution",
            f"It may have {span} of nitrite; below {least:.0f} ppm it cures poorly. Weigh the "
            "curing salt.",
        )
    else:
        yield Caution("hint", f"Nitrite comes to {span}: enough, and within the {most:.0f} ppm.")


def _of_salt(known: Reckoned, strength: Range | None, salt: Range) -> Iterator[Caution]:
    when = "at rest" if known.days is None else "after its days"
    span = f"{salt.low:.1f} to {salt.high:.1f} %"
    if salt.low > SALTY_PERCENT:
        yield Caution("caution", f"The meat comes to {span} salt {when}: salty. Soak it well.")
    elif salt.high > SALTY_PERCENT:
        yield Caution("caution", f"The meat may come to {span} salt {when}: cook a sliver first.")
    elif salt.high < BLAND_PERCENT:
        yield Caution("hint", f"The meat comes to {span} salt {when}: mild to most people.")
    else:
        yield Caution("hint", f"The meat comes to {span} salt {when}.")
    if strength is not None and strength.high - strength.low > 0.25 * strength.likely:
        yield Caution(
            "caution",
            f"By spoon and cup its brine may have {strength.low:.1f} to {strength.high:.1f} % "
            "salt, by the salt's crystals and the room ice takes. Weigh both.",
        )


def _of_middle(
    recipe: FoundRecipe, known: Reckoned, middle: str, grey: Range | None
) -> Iterator[Caution]:
    thick = format(known.thickness_mm, "length", "both")
    if middle == "not reached" and grey is not None:
        yield Caution(
            "caution",
            f"In a piece {thick} thick its days are too few: about {grey.likely:.0f} % of the "
            f"thickness stays grey ({grey.low:.0f} to {grey.high:.0f} %). Give it longer, or "
            "inject.",
        )
    elif middle == "perhaps" and grey is not None:
        yield Caution(
            "hint",
            f"In a piece {thick} thick the middle is likely reached; in slow meat up to "
            f"{grey.high:.0f} % of the thickness may stay grey.",
        )
    elif middle == "reached" and known.days is None:
        yield Caution("hint", "It does not say how long; left long enough, the middle is reached.")
    elif middle == "reached":
        yield Caution("hint", f"The cure reaches the middle of a piece {thick} thick.")
    if recipe.temperature_c > _FRIDGE_C:
        yield Caution(
            "danger",
            f"It cures at {format(recipe.temperature_c, 'temperature', 'both')}; meat in a cure "
            "is kept at 4 °C / 40 °F or below.",
        )


def _of_chill(recipe: FoundRecipe, known: Reckoned, lands: Range | None) -> Iterator[Caution]:
    if lands is not None and lands.high > _FRIDGE_C:
        yield Caution(
            "caution",
            f"Its ice brings the brine to {format(lands.likely, 'temperature', 'both')}, from "
            f"{format(round(lands.low), 'temperature', 'both')} to "
            f"{format(round(lands.high), 'temperature', 'both')}, not to 4 °C / 40 °F: chill it in "
            "the refrigerator before the meat goes in, or weigh more ice.",
        )
    elif lands is not None:
        yield Caution(
            "hint", f"Its ice brings the brine to {format(lands.likely, 'temperature', 'both')}."
        )
    elif known.boiled.high > 0.0:
        yield Caution(
            "caution",
            "It boils water and has no ice: chill the brine to 4 °C / 40 °F before the meat goes "
            "in.",
        )
    if known.ice.high > known.ice.low:
        yield Caution(
            "caution",
            "Its ice is told by volume. Loose ice is only about half of that in water, so there "
            "is less brine, and a stronger one, than it says. Weigh the ice.",
        )


def _workings(
    recipe: FoundRecipe,
    known: Reckoned,
    nitrite: Range,
    most: float,
    strength: Range | None,
    salt: Range,
    lands: Range | None,
) -> dict[str, Working]:
    amounts = (
        ("meat", _span(known.meat)),
        ("pickle", _span(known.pickle)),
        ("nitrite", _span(known.nitrite)),
    )
    salted = (
        ("all salt", _span(known.nacl)),
        ("water", _span(known.water)),
        ("water of the meat", f"{100.0 * known.meat_water:.0f} %"),
    )
    spread = (
        "Spoons of salt 2.8 to 6.0 g by crystal, of cure 4.8 to 7.2 g (our judgement), loose ice "
        "0.50 to 0.60 kg/L. The ends are combined as if all went wrong together."
    )
    formula = {
        "dry": "ppm = nitrite × 1,000,000 ÷ meat",
        "injection": "the larger of nitrite × 1,000,000 ÷ (meat + pickle) and by pump",
    }.get(known.method, "the larger of nitrite × 1,000,000 ÷ (meat + pickle) and by pick-up")
    found = {
        "nitrite": Working(
            "Ingoing nitrite of the recipe",
            formula,
            (*amounts, ("most allowed", ppm(most))),
            f"{ppm(nitrite.low)} to {ppm(nitrite.high)}, likely {ppm(nitrite.likely)}",
            "USDA FSIS Directive 7620.3 (1995), pp. 15-27",
            spread,
        ),
        "salt_then": Working(
            "Salt in the meat",
            "salt × meat water ÷ (meat water + brine water) × part taken up, by Crank's series",
            (
                *salted,
                ("thickness", f"{known.thickness_mm:.0f} mm"),
                ("days", recipe.days or "until at rest"),
                ("temperature", celsius(recipe.temperature_c)),
            ),
            f"{percent(salt.low, 1)} to {percent(salt.high, 1)}, likely {percent(salt.likely, 1)}",
            "Crank, The Mathematics of Diffusion, 2nd ed. (1975); salt 2 to 8 × 10⁻¹⁰ m²/s at 4 °C",
            f"By green weight. {spread}",
        ),
    }
    if strength is not None:
        found["strength"] = Working(
            "Strength of its brine",
            "strength = salt ÷ (salt + water), at most 26.395 %",
            salted[:2],
            f"{percent(strength.low, 1)} to {percent(strength.high, 1)}",
            "Arithmetic",
            spread,
        )
    if lands is not None:
        found["landing"] = Working(
            "Where its ice brings the brine",
            "T = 4.18 × (boiled × its °C + cold × tap) − 334 × ice, over 4.18 × all",
            (
                ("boiled", f"{_span(known.boiled)} at {celsius(recipe.boil_c)}"),
                ("cold", f"{_span(known.cold)} at {celsius(recipe.tap_c)}"),
                ("ice", _span(known.ice)),
            ),
            f"{celsius(lands.low)} to {celsius(lands.high)}",
            "Heat balance: ice takes 334 kJ/kg to melt, water 4.18 kJ/kg for each °C",
            "Nothing is counted for pot and room.",
        )
    return found


def _span(one: Range) -> str:
    if one.low == one.high:
        return grams(one.likely)
    return f"{grams(one.low)} to {grams(one.high)}"
