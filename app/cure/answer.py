"""What the mix answers: one shape for all four methods, plain values only."""

from collections.abc import Mapping
from typing import Literal

from attrs import frozen

from app.cure.request import MixRequest
from app.cure.working import Working
from app.transport.diffusivity import Range

Severity = Literal["danger", "caution", "hint"]
"""danger: do not go on before this is settled; caution: know this; hint: may help."""


@frozen
class Caution:
    """One sentence the cook should read, and how much hangs on it."""

    severity: Severity
    text: str


@frozen
class Ingredient:
    """One thing to weigh, in the order of weighing. `working` is a key of `Mix.workings`.

    kind : meat, water, ice, cure, salt, sugar, ascorbate or spice
    """

    kind: str
    name: str
    grams: float
    note: str = ""
    working: str = ""


@frozen
class NitriteFigure:
    """Ingoing nitrite by one of the ways of counting it."""

    basis: Literal["equilibrium", "pick-up", "pumped", "dry"]
    name: str
    ppm: float
    binds: bool


@frozen
class Nitrite:
    """Nitrite on one scale; every ppm is mg of sodium nitrite a kg, on the basis that binds.

    `most_ppm` is the legal most, `least_ppm` the lowest sensible (never above the most).
    `asked_ppm` differs from `ppm` only where the salt of a weak curing salt holds it down.
    """

    ppm: float
    asked_ppm: float
    least_ppm: float
    most_ppm: float
    grams: float
    rule: str
    least_reason: str
    figures: tuple[NitriteFigure, ...]
    binding_reason: str
    ion_ppm: float
    home_pack_ppm: float


@frozen
class SaltForecast:
    """Salt in the meat. The simple figure is the basis of the method as asked.

    `when` says what moment it is for: at rest, or after the days asked.
    """

    simple_percent: float
    basis: str
    at_rest_percent: float
    at_rest_water_percent: float
    when: str
    then_percent: Range
    then_water_percent: Range


@frozen
class BrineFigures:
    """The brine as it is mixed, before the meat changes it."""

    mass_g: float
    volume_ml: float
    salt_percent: float
    salometer: float
    specific_gravity: float
    baume: float
    density_kg_m3: float
    freezing_c: float
    pumped_g: float
    cover_g: float


@frozen
class IcePlan:
    """The water in three parts and where they land. `most_boiled_g` leaves only ice beside it.

    `ice_ml` is the room the ice takes up loose, `ice_water_ml` what it is as water.
    """

    boiled_g: float
    cold_g: float
    ice_g: float
    landing_c: float
    target_c: float
    most_boiled_g: float
    ice_ml: Range
    ice_water_ml: float
    leftover_ice_g: float


@frozen
class ContainerFit:
    """Meat and brine in their container. Levels are None in a bag.

    `hold_down_g` is the mass of a ceramic plate or dish that just holds the meat under.
    """

    meat_ml: float
    brine_ml: float
    need_ml: float
    room_ml: float | None
    level_mm: float | None
    height_mm: float | None
    covers: bool
    fits: bool
    floats: bool
    hold_down_g: float


@frozen
class ShoppingItem:
    """One thing to buy; `app.cure.shopping` writes it with shop sizes in the cook's units."""

    kind: str
    name: str
    grams: float
    note: str = ""


@frozen
class Mix:
    """The whole answer. `request` has every None replaced by what was used, but the water.

    `workings` has one entry for every number shown; ingredients name theirs, and the rest are
    nitrite, nitrite_<basis>, limit, least, cure, salt, sugar, ascorbate, salt_in_meat, salt_then,
    strength, salometer, gravity, density, freezing, volume, pumped, water, level, float,
    hold_down, ice, landing, boiled, ice_volume, spices, rub: each where there is such a number.
    """

    request: MixRequest
    ingredients: tuple[Ingredient, ...]
    rub: tuple[Ingredient, ...]
    water_g: float
    nitrite: Nitrite
    salt: SaltForecast
    brine: BrineFigures | None
    ice: IcePlan | None
    fit: ContainerFit | None
    warnings: tuple[Caution, ...]
    workings: Mapping[str, Working]
    shopping: tuple[ShoppingItem, ...]


class OverLimit(ValueError):
    """More nitrite was asked for than the rule allows; nothing is worked out beyond it."""

    def __init__(
        self, reason: str, limit_ppm: float, asked_ppm: float, largest_safe: MixRequest
    ) -> None:
        super().__init__(reason)
        self.reason = reason
        self.limit_ppm = limit_ppm
        self.asked_ppm = asked_ppm
        self.largest_safe = largest_safe


class UnsuitableCure(ValueError):
    """The curing salt is not one for this use."""

    def __init__(self, reason: str) -> None:
        super().__init__(reason)
        self.reason = reason
