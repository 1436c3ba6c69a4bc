"""The cuts: what they are made of, how thick they commonly are, how heavy for their size."""

from math import sqrt

from attrs import frozen

from app.transport.checks import between, positive

# Densities at 4 °C [kg/m³] by Choi & Okos (1986): water as the science sheet has it, the other
# three from memory.
_WATER, _PROTEIN, _FAT, _ASH = 997.13, 1327.8, 923.9, 2422.7


@frozen
class Cut:
    """A cut of meat: raw composition by mass, thickness at its thickest, length over width.

    Thickness and proportions are common practice, no source; measure your own piece.
    """

    name: str
    water_percent: float
    protein_percent: float
    fat_percent: float
    thickness_mm: float
    length_over_width: float
    source: str


_USDA = "USDA SR, raw beef"
_MEMORY = "from memory"

CUTS: dict[str, Cut] = {
    "brisket": Cut(
        "Brisket, whole", 61.1, 18.4, 19.1, 70.0, 1.8, f'{_USDA}, brisket, whole, 1/8" trim'
    ),
    "flat": Cut("Brisket flat", 69.9, 20.3, 9.3, 40.0, 1.6, f'{_USDA}, brisket flat, 0" trim'),
    "point": Cut("Brisket point", 60.0, 17.7, 21.0, 75.0, 1.4, f"{_USDA}, brisket point"),
    "navel": Cut("Navel (plate)", 55.0, 16.0, 28.0, 50.0, 1.6, _MEMORY),
    "chuck": Cut("Chuck", 66.0, 19.0, 14.0, 80.0, 1.4, _MEMORY),
    "round": Cut("Round", 72.0, 22.0, 5.0, 90.0, 1.5, _MEMORY),
    "tongue": Cut("Tongue", 64.5, 15.0, 16.0, 70.0, 2.5, _MEMORY),
}


def cut_of(key: str) -> Cut:
    """The cut of a key; says which there are when it is not one."""
    if key not in CUTS:
        raise ValueError(f"The cut must be one of {', '.join(CUTS)}; {key!r} was given.")
    return CUTS[key]


def density_g_ml(cut: Cut) -> float:
    """Density of the raw meat from what it is made of.

    1/ρ = Σ xᵢ/ρᵢ over water, protein, fat and the rest, taken as ash

    Parameters
    ----------
    cut : the cut, with its composition

    Returns
    -------
    Density [g/mL]

    Raises
    ------
    ValueError : the parts come to more than the whole

    Notes
    -----
    No air in the piece; at 4 °C.

    Examples
    --------
    >>> round(density_g_ml(CUTS["flat"]), 3), round(density_g_ml(CUTS["point"]), 3)
    (1.045, 1.033)

    References
    ----------
    Choi & Okos (1986); water's constants read, the others' from memory.
    """
    parts = (cut.water_percent, cut.protein_percent, cut.fat_percent)
    ash = between("rest of the composition", 100.0 - sum(parts), 0.0, 100.0, "%")
    w, p, f = parts
    return 0.1 / (w / _WATER + p / _PROTEIN + f / _FAT + ash / _ASH)


def surface_cm2(
    meat_g: float, cut: Cut, thickness_mm: float, shrink_fraction: float = 0.0
) -> float:
    """Outer surface of a piece taken as a flat block.

    A = 2·L·B + 2·(L + B)·T, L·B·T = mass/ρ, L = r·B; shrunk by (1 − shrink)^(2/3)

    Parameters
    ----------
    meat_g : green weight [g]
    cut : gives density and length over width
    thickness_mm : thickness [mm]
    shrink_fraction : weight lost by the time the surface matters, over green weight [0-1)

    Returns
    -------
    Surface [cm²]

    Raises
    ------
    ValueError : a number is not finite or out of its range

    Notes
    -----
    A block is a rough likeness: a piece that tapers or is ragged has more surface.

    Examples
    --------
    >>> round(surface_cm2(3000, CUTS["flat"], 40.0))
    1875

    References
    ----------
    Geometry; proportions are common practice, no source.
    """
    positive("meat", meat_g, "g")
    thick_cm = positive("thickness", thickness_mm, "mm") / 10.0
    if not 0.0 <= shrink_fraction < 1.0:
        raise ValueError(f"Shrinkage must be from 0 to less than 1; {shrink_fraction} was given.")
    plan_cm2 = meat_g / density_g_ml(cut) / thick_cm
    wide = sqrt(plan_cm2 / cut.length_over_width)
    rim_cm = 2.0 * wide * (1.0 + cut.length_over_width)
    return float((2.0 * plan_cm2 + rim_cm * thick_cm) * (1.0 - shrink_fraction) ** (2.0 / 3.0))
