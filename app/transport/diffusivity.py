"""How quickly salt and nitrite move in lean meat, and how far that is unsure."""

from math import exp, isfinite

from attrs import frozen

from app.transport.checks import between, positive

REFERENCE_C = 4.0
"""Temperature the diffusivities below are given at [°C]: a home refrigerator."""

ACTIVATION_KJ_MOL = 25.0
"""Energy of activation; nitrate in pork 24.7 (Gómez et al., J. Food Eng. 214 (2017) 69)."""

_GAS_J_MOL_K = 8.314462618  # 2019 SI, exact to these digits (from memory)
_KELVIN = 273.15


@frozen
class Range:
    """A value as low, likely and high; never one confident number."""

    low: float
    likely: float
    high: float

    def __attrs_post_init__(self) -> None:
        if not self.low <= self.likely <= self.high:
            raise ValueError(
                "A range must rise from low over likely to high; "
                f"{self.low}, {self.likely}, {self.high} was given."
            )

    @classmethod
    def around(cls, likely: float, *others: float) -> "Range":
        """The span of several answers, with the likely diffusivity's own kept as likely.

        What comes of the slow and of the quick one need not lie on either side of it.
        """
        return cls(min(likely, *others), likely, max(likely, *others))


@frozen
class Diffusivity:
    """Diffusivity at 4 °C as low, likely and high [m²/s], and the slices it rests on."""

    low_m2_s: float
    likely_m2_s: float
    high_m2_s: float
    activation_kj_mol: float = ACTIVATION_KJ_MOL
    slices: int = 0
    source: str = ""

    def __attrs_post_init__(self) -> None:
        positive("low diffusivity", self.low_m2_s, "m²/s")
        if not self.low_m2_s <= self.likely_m2_s <= self.high_m2_s <= 1.0:
            raise ValueError(
                "Diffusivity must rise from low over likely to high; "
                f"{self.low_m2_s}, {self.likely_m2_s}, {self.high_m2_s} was given."
            )
        between("energy of activation", self.activation_kj_mol, 0.0, 200.0, "kJ/mol")

    @property
    def slow_to_fast(self) -> tuple[float, float, float]:
        """The three values at 4 °C [m²/s], slowest first."""
        return (self.low_m2_s, self.likely_m2_s, self.high_m2_s)

    def at(self, temperature_c: float) -> "Diffusivity":
        """The same band carried to another temperature; its values are then for that one."""
        factor = temperature_factor(temperature_c, self.activation_kj_mol)
        low, likely, high = (d * factor for d in self.slow_to_fast)
        return Diffusivity(low, likely, high, self.activation_kj_mol, self.slices, self.source)


SALT = Diffusivity(
    2e-10,
    4e-10,
    8e-10,
    source="Judged from measurements in beef and pork of 1.4 to 10 × 10⁻¹⁰ m²/s (Hansen 2008, "
    "Bertram 2005, Pol. J. Food Nutr. Sci. 1998; Sabadini 1998 lower in shrinking meat)",
)
"""Salt at 4 °C: the default of the science sheet, a judgement from its rows."""

NITRITE = Diffusivity(
    0.9e-10,
    2e-10,
    4e-10,
    source="Judged: nitrate across the fibres of pork, 0.89 to 1.41 × 10⁻¹⁰ m²/s, as the slow end "
    "(Gómez 2017), salt's 4 × 10⁻¹⁰ as the fast end, their geometric middle as likely",
)
"""Nitrite at 4 °C, as the pink of a slice shows it. A judgement, and why:

The one measurement of nitrite alone (order 0.05-0.1, Gómez et al., J. Food Eng. 149 (2015) 188)
is doubtful as printed and would have a flat take months, against all practice, so it is not
used. In water nitrite, nitrate and chloride move about equally fast (from memory); in meat
nitrite is also used up as it goes, which holds its front back. So: no slower than nitrate, which
is not used up (0.89-1.41, Gómez et al. 2017), no faster than the likely salt.
"""


def temperature_factor(temperature_c: float, activation_kj_mol: float = ACTIVATION_KJ_MOL) -> float:
    """How many times faster than at 4 °C things move.

    factor = exp(−Ea/R · (1/T − 1/T₀)), T₀ = 277.15 K

    Parameters
    ----------
    temperature_c : temperature of the meat [°C]
    activation_kj_mol : energy of activation [kJ/mol]

    Returns
    -------
    Diffusivity over that at 4 °C [-]

    Raises
    ------
    ValueError : the temperature is outside -15 to 60 °C, or the energy outside 0 to 200

    Notes
    -----
    Ice stops the movement, so below the brine's freezing point the answer is too high; above
    about 45 °C meat shrinks and the constants no longer hold.

    Examples
    --------
    >>> round(temperature_factor(10.0), 3)
    1.258

    References
    ----------
    Arrhenius' law; 24.7 kJ/mol for nitrate in pork, Gómez et al., J. Food Eng. 214 (2017) 69.
    """
    if not isfinite(temperature_c):
        raise ValueError(f"The temperature must be a number in °C; {temperature_c} was given.")
    between("temperature of the meat", temperature_c, -15.0, 60.0, "°C")
    between("energy of activation", activation_kj_mol, 0.0, 200.0, "kJ/mol")
    per_kelvin = activation_kj_mol * 1000.0 / _GAS_J_MOL_K
    return exp(-per_kelvin * (1.0 / (temperature_c + _KELVIN) - 1.0 / (REFERENCE_C + _KELVIN)))
