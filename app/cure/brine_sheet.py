"""The brine as it is mixed: what it weighs, how much there is of it, how to check it."""

from app.cure.amounts import Amounts
from app.cure.answer import BrineFigures
from app.cure.brine import (
    baume_degrees,
    density_kg_m3,
    freezing_point_c,
    salometer_degrees,
    specific_gravity,
)
from app.cure.figures import celsius, grams, millilitres, percent
from app.cure.working import Working

SUGAR_ML_G = 0.62
"""Room a gram of sugar takes up in water: 211 mL/mol over 342 g/mol, from memory."""


def volume_ml(water_g: float, nacl_g: float, sugar_g: float) -> float:
    """Volume of a brine at 60 °F.

    V = (water + salt) / ρ + 0.62 · sugar

    Parameters
    ----------
    water_g, nacl_g, sugar_g : what is in it [g]

    Returns
    -------
    Volume [mL]

    Raises
    ------
    ValueError : more salt than the water holds

    Examples
    --------
    >>> round(volume_ml(900, 100, 0), 1)
    932.5

    References
    ----------
    Density as in `app.cure.brine.density_kg_m3`; sugar's volume from memory.
    """
    together = water_g + nacl_g
    density = density_kg_m3(100.0 * nacl_g / together if together else 0.0)
    return together / density * 1000.0 + SUGAR_ML_G * sugar_g


def brine_figures(amounts: Amounts) -> BrineFigures:
    """Strength, readings, volume and freezing point of the brine of a mix.

    As `app.cure.brine` and `volume_ml`

    Parameters
    ----------
    amounts : the masses of the mix

    Returns
    -------
    The brine as it is mixed, before the meat changes it

    Raises
    ------
    ValueError : more salt than the water holds

    References
    ----------
    As `app.cure.brine`.
    """
    strength = amounts.strength_percent
    return BrineFigures(
        mass_g=amounts.pickle_g,
        volume_ml=volume_ml(amounts.water_g, amounts.nacl_g, amounts.sugar_g),
        salt_percent=strength,
        salometer=salometer_degrees(strength),
        specific_gravity=specific_gravity(strength),
        baume=baume_degrees(strength),
        density_kg_m3=density_kg_m3(strength),
        freezing_c=freezing_point_c(strength),
        pumped_g=amounts.pumped_g,
        cover_g=amounts.pickle_g - amounts.pumped_g,
    )


def brine_workings(amounts: Amounts, brine: BrineFigures) -> dict[str, Working]:
    """How the figures of the brine were come by."""
    strength = ("strength", percent(brine.salt_percent))
    before_sugar = "Read at 60 °F (15.6 °C), before sugar and spices go in: both shift the reading."
    found = {
        "strength": Working(
            "Strength of the brine",
            "strength = salt ÷ (salt + water)",
            (("all salt", grams(amounts.nacl_g)), ("water", grams(amounts.water_g))),
            percent(brine.salt_percent),
            "Arithmetic",
            "As mixed; the meat's own water thins it from the first hour. Sugar is not counted.",
        ),
        "salometer": Working(
            "Salometer",
            "degrees = 100 × strength ÷ 26.395 %",
            (strength,),
            f"{brine.salometer:.1f} °SAL",
            "Saturated brine at 60 °F is 26.395 % (seen restated)",
            before_sugar,
        ),
        "gravity": Working(
            "Specific gravity",
            "SG = density of the brine ÷ density of water, both at 60 °F; °Bé = 145 − 145 ÷ SG",
            (("brine", f"{brine.density_kg_m3:.1f} kg/m³"), ("water", "999.0 kg/m³")),
            f"{brine.specific_gravity:.3f} ({brine.baume:.1f} °Bé)",
            "Density fitted for this program to Rogers & Pitzer (1982)",
            before_sugar,
        ),
        "density": Working(
            "Density of the brine",
            "ρ = 999.059 + 7.17975 w + 0.0132651 w² + 0.00009574 w³ + 0.00000715 w⁴",
            (strength, ("temperature", "60 °F (15.6 °C)")),
            f"{brine.density_kg_m3:.1f} kg/m³",
            "Fitted to Rogers & Pitzer, J. Phys. Chem. Ref. Data 11 (1982) 15, residual 0.06",
            "Plain salt, 0 to 26.4 %; colder brine is a little heavier.",
        ),
        "freezing": Working(
            "Freezing point of the brine",
            "between the rows of the table, straight in °C for each percent of salt",
            (strength,),
            celsius(brine.freezing_c),
            "Lange's Handbook of Chemistry, 15th ed., table 5.13",
            "As mixed. Keep the refrigerator above it and at or below 4 °C: ice stops the cure.",
        ),
        "volume": Working(
            "Volume of the brine",
            "volume = (water + salt) ÷ density + 0.62 mL/g × sugar",
            (
                ("water", grams(amounts.water_g)),
                ("all salt", grams(amounts.nacl_g)),
                ("sugar", grams(amounts.sugar_g)),
                ("density", f"{brine.density_kg_m3:.1f} kg/m³"),
            ),
            millilitres(brine.volume_ml),
            "Density as above; sugar's volume from memory",
            "Spices are left out.",
        ),
    }
    if brine.pumped_g:
        found["pumped"] = Working(
            "Pickle to pump in",
            "pumped = pump × green weight",
            (
                ("meat", grams(amounts.meat_g)),
                ("pump", percent(100.0 * brine.pumped_g / amounts.meat_g, 1)),
            ),
            grams(brine.pumped_g),
            "Arithmetic; corned beef brisket may gain 20 % at most (9 CFR 319.101)",
            "Some runs out again; weigh the meat before and after.",
        )
    return found
