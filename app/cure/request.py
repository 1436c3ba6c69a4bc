"""What a cook asks of the mix: plain values, so that it can be kept with a batch."""

from typing import Literal

from attrs import field, frozen

from app.cure.blends import Blend, brine_spices_of_ours, rub_of_ours

Method = Literal["equilibrium", "cover", "injection", "dry"]
"""How the cure gets into the meat.

equilibrium: a brine mixed so that meat and brine, left to rest, end at the salt wanted;
cover: a strong brine for a fixed number of days, then out;
injection: part of the pickle is pumped in, the rest covers;
dry: salt and cure rubbed on, all of it closed in a bag with the meat.
"""

Vessel = Literal["bag", "box", "round"]


@frozen
class MixRequest:
    """What the cook asked for. Only the weight is needed; None means "choose for me".

    meat_g : green weight, trimmed [g]
    cut : a key of `app.cure.meat.CUTS`
    meat_water_fraction, thickness_mm : None takes the cut's own
    water_g : None takes what covers the meat in its container
    vessel : a round one has `vessel_width_mm` as its diameter; a bag needs no sizes
    salt_percent, sugar_percent : on the basis of the method, see `app.cure.targets.BASIS`
    nitrite_ppm : ingoing sodium nitrite, on the basis that binds, see `Mix.nitrite`
    cure_nitrite_percent, cure_nitrate_percent : as the curing salt's label states them
    rules : a key of `app.cure.rules.RULE_SETS`; "own" takes `own_limit_ppm`
    pump_percent : pickle pumped in, of the green weight; used by injection
    pickup_percent : weight the meat takes up in the brine, for the handbook's method one
    days : time in the cure; cover has a default, the others take None as "until at rest"
    ascorbate_ppm : sodium ascorbate or erythorbate, 0 for none
    shrink_percent : weight lost by the time the rub goes on, of the green weight
    boiled_percent : part of the water boiled, to draw the spices and dissolve the salt
    """

    meat_g: float
    method: Method = "equilibrium"
    cut: str = "brisket"
    meat_water_fraction: float | None = None
    thickness_mm: float | None = None
    fat_cap_on: bool = False
    water_g: float | None = None
    vessel: Vessel = "bag"
    vessel_name: str = ""
    vessel_length_mm: float = 0.0
    vessel_width_mm: float = 0.0
    vessel_height_mm: float = 0.0
    salt_percent: float | None = None
    sugar_percent: float | None = None
    nitrite_ppm: float | None = None
    cure_name: str = "US cure no. 1"
    cure_nitrite_percent: float = 6.25
    cure_nitrate_percent: float = 0.0
    rules: str = "us"
    own_limit_ppm: float | None = None
    pump_percent: float = 10.0
    pickup_percent: float = 10.0
    days: float | None = None
    ascorbate_ppm: float = 0.0
    brine_spices: Blend | None = field(factory=brine_spices_of_ours)
    rub: Blend | None = field(factory=rub_of_ours)
    shrink_percent: float = 0.0
    boiled_percent: float = 20.0
    tap_c: float = 15.0
    target_c: float = 4.0
