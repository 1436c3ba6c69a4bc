"""What has been typed into the mix, kept as typed, and how it is read.

Reading never changes what was typed: a field that cannot be read gets its own sentence,
and the rest goes on being worked out as soon as it can be.
"""

from collections.abc import Callable, Mapping
from typing import get_args

from attrs import evolve, field, frozen

from app import quantities
from app.cure.blends import Blend, brine_spices_of_ours, rub_of_ours
from app.cure.mix import Method, MixRequest, Vessel
from app.cure.salts import CURING_SALTS, CuringSalt
from app.cure.targets import BASIS
from app.journal.records import Kit, OwnContainer
from app.screens.masses import mass_unit, read_mass, small_mass_unit, typed_mass, with_unit
from app.screens.mix.recipe_draft import RecipeDraft

LEAST_MEAT_G = 50.0
"""Less is taken for a slip, such as a point typed for thousands; our own choice."""


@frozen
class LaterDraft:
    """What was typed about the days and the soak, as text; empty takes the usual."""

    fridge: str = ""
    pulled: str = ""
    wanted: str = ""
    pot: str = ""
    every: str = ""
    even: str = "90"
    holes: str = ""
    servings: str = ""
    serving: str = ""


@frozen
class MixDraft:
    """The fields of the mix as text. Empty means "choose for me"."""

    weight: str = ""
    cut: str = "brisket"
    thickness: str = ""
    fat_cap_on: bool = False
    method: str = "equilibrium"
    water: str = ""
    container: str = "bag"
    salt: str = ""
    sugar: str = ""
    nitrite: str = ""
    cure: str = "US cure no. 1"
    pump: str = ""
    days: str = ""
    ascorbate: str = ""
    boiled: str = ""
    pickup: str = ""
    shrink: str = ""
    spices: Blend | None = field(factory=brine_spices_of_ours)
    rub: Blend | None = field(factory=rub_of_ours)
    later: LaterDraft = field(factory=LaterDraft)
    recipe: RecipeDraft = field(factory=RecipeDraft)


@frozen
class Read:
    """What the draft says: a request when everything needed could be read, else why not."""

    request: MixRequest | None
    errors: Mapping[str, str]


def with_method(draft: MixDraft, method: str) -> MixDraft:
    """The draft by another method; what then would mean another thing is chosen for the cook.

    Salt and sugar asked for stay where they are told of the same thing, and days except to and
    from a strong brine, in which salt goes on rising.

    >>> asked = MixDraft(salt="2.5", sugar="1", days="14", nitrite="120")
    >>> by = with_method(asked, "cover")
    >>> by.salt, by.sugar, by.days, by.nitrite
    ('', '', '', '120')
    >>> with_method(asked, "injection").salt
    '2.5'
    """
    was, now = draft.method, method
    changed = evolve(draft, method=method)
    if BASIS.get(was) != BASIS.get(now):  # type: ignore[call-overload]
        changed = evolve(changed, salt="", sugar="")
    return evolve(changed, days="") if (was == "cover") != (now == "cover") else changed


def small_length_unit(kit: Kit) -> str:
    """What a bare number means for a thickness or the side of a container."""
    return "mm" if kit.system == "metric" else "in"


def warmth_unit(kit: Kit) -> str:
    """What a bare number means for a temperature."""
    return "°C" if kit.system == "metric" else "°F"


def water_unit(kit: Kit) -> str:
    """What a bare number means in the water field."""
    return "L" if kit.system == "metric" else "qt"


def with_units(draft: MixDraft, kit: Kit, new: Kit) -> MixDraft:
    """The draft with its unit behind each bare number that would mean another thing in a new kit.

    A number keeps the meaning it was typed with.
    """
    later, recipe = draft.later, draft.recipe

    def kept(text: str, unit_of: Callable[[Kit], str]) -> str:
        return text if unit_of(kit) == unit_of(new) else with_unit(text, unit_of(kit))

    return evolve(
        draft,
        weight=kept(draft.weight, mass_unit),
        thickness=kept(draft.thickness, small_length_unit),
        water=kept(draft.water, water_unit),
        later=evolve(
            later,
            fridge=kept(later.fridge, warmth_unit),
            pot=kept(later.pot, water_unit),
            holes=kept(later.holes, small_length_unit),
            serving=kept(later.serving, small_mass_unit),
        ),
        recipe=evolve(
            recipe,
            thickness=kept(recipe.thickness, small_length_unit),
            fridge=kept(recipe.fridge, warmth_unit),
        ),
    )


def salts_of(kit: Kit) -> tuple[CuringSalt, ...]:
    """The curing salts to choose from: the usual ones and the cook's own."""
    own = (CuringSalt(s.name, s.nitrite_percent, s.nitrate_percent) for s in kit.salts)
    return (*CURING_SALTS, *own)


def read_number(text: str, what: str, unit: str) -> float:
    """A plain number, with a point or a comma; the unit may stand behind it."""
    plain = text.strip().removesuffix(unit).strip().replace(",", ".")
    try:
        return float(plain)
    except ValueError:
        raise ValueError(
            f"“{text.strip()}” is not a number for the {what}. Write it in {unit}, like 2.5."
        ) from None


def _weighed_g(text: str, unit: str) -> float:
    """A weight that can be a piece of meat's."""
    grams = read_mass(text, unit)
    if 0.0 < grams < LEAST_MEAT_G:
        raise ValueError(
            f"“{text.strip()}” was read as {grams:.3g} g, which is no piece of meat. Write the "
            "whole weight, like 3400 g or 3.4 kg."
        )
    return grams


def _water_g(text: str, unit: str) -> float:
    """Water by volume or by weight: a litre of cold water is a kilogram, near enough."""
    try:
        return quantities.parse(text, "volume", unit)
    except ValueError as as_volume:
        try:
            return quantities.parse(text, "mass", "g")
        except ValueError:
            raise as_volume from None


def _container(kit: Kit, key: str) -> OwnContainer:
    own = next((one for one in kit.containers if one.id == key), None)
    return own or OwnContainer("bag", "a bag", "bag")


def read(draft: MixDraft, kit: Kit) -> Read:
    """Read every field; the weight is the only one that has to be there."""
    errors: dict[str, str] = {}

    def typed(name: str, reader: Callable[[str], float]) -> float | None:
        text = str(getattr(draft, name)).strip()
        if not text:
            return None
        try:
            return reader(text)
        except ValueError as wrong:
            errors[name] = str(wrong)
            return None

    unit = mass_unit(kit)
    meat_g = typed("weight", lambda t: _weighed_g(t, unit))
    length = small_length_unit(kit)
    thickness_mm = typed("thickness", lambda t: quantities.parse(t, "length", length))
    water_g = typed("water", lambda t: _water_g(t, water_unit(kit)))
    salt = typed("salt", lambda t: read_number(t, "salt", "%"))
    sugar = typed("sugar", lambda t: read_number(t, "sugar", "%"))
    nitrite = typed("nitrite", lambda t: read_number(t, "nitrite", "ppm"))
    pump = typed("pump", lambda t: read_number(t, "pump", "%"))
    ascorbate = typed("ascorbate", lambda t: read_number(t, "ascorbate", "ppm"))
    boiled = typed("boiled", lambda t: read_number(t, "boiled part of the water", "%"))
    pickup = typed("pickup", lambda t: read_number(t, "pick-up", "%"))
    shrink = typed("shrink", lambda t: read_number(t, "weight lost before the rub", "%"))
    days = typed("days", lambda t: quantities.parse(t, "duration", "days") / 86400.0)
    if errors or meat_g is None:
        return Read(None, errors)

    cure = next((one for one in salts_of(kit) if one.name == draft.cure), CURING_SALTS[0])
    box = _container(kit, draft.container)
    method: Method = draft.method if draft.method in get_args(Method) else "equilibrium"  # type: ignore[assignment]
    vessel: Vessel = box.shape
    request = MixRequest(
        meat_g=meat_g,
        method=method,
        cut=draft.cut,
        thickness_mm=thickness_mm,
        fat_cap_on=draft.fat_cap_on,
        water_g=None if method == "dry" else water_g,
        vessel=vessel,
        vessel_name=box.name,
        vessel_length_mm=box.length_mm,
        vessel_width_mm=box.width_mm,
        vessel_height_mm=box.height_mm,
        salt_percent=salt,
        sugar_percent=sugar,
        nitrite_ppm=nitrite,
        cure_name=cure.name,
        cure_nitrite_percent=cure.nitrite_percent,
        cure_nitrate_percent=cure.nitrate_percent,
        rules=kit.rules,
        own_limit_ppm=kit.own_limit_ppm if kit.rules == "own" else None,
        days=days,
        ascorbate_ppm=ascorbate or 0.0,
        brine_spices=draft.spices,
        rub=draft.rub,
        shrink_percent=shrink or 0.0,
    )
    if pickup is not None:
        request = evolve(request, pickup_percent=pickup)
    if pump is not None:
        request = evolve(request, pump_percent=pump)
    if boiled is not None:
        request = evolve(request, boiled_percent=boiled)
    return Read(request, errors)


def draft_of(request: MixRequest, kit: Kit) -> MixDraft:
    """A draft that reads back as this request, for changing a mix that was made before."""

    def text(value: float | None) -> str:
        return "" if value is None else f"{value:.4g}"

    length = small_length_unit(kit)
    container = next((one.id for one in kit.containers if one.name == request.vessel_name), "bag")
    return MixDraft(
        weight=typed_mass(request.meat_g, mass_unit(kit)),
        cut=request.cut,
        thickness=""
        if request.thickness_mm is None
        else f"{request.thickness_mm / quantities.parse('1', 'length', length):.3g}",
        fat_cap_on=request.fat_cap_on,
        method=request.method,
        water="" if request.water_g is None else f"{request.water_g:.0f} g",
        container=container,
        salt=text(request.salt_percent),
        sugar=text(request.sugar_percent),
        nitrite=text(request.nitrite_ppm),
        cure=request.cure_name,
        pump=text(request.pump_percent) if request.method == "injection" else "",
        days="" if request.days is None else f"{request.days:.3g}",
        ascorbate=text(request.ascorbate_ppm) if request.ascorbate_ppm else "",
        boiled="" if request.boiled_percent == 20.0 else text(request.boiled_percent),
        pickup="" if request.pickup_percent == 10.0 else text(request.pickup_percent),
        shrink=text(request.shrink_percent) if request.shrink_percent else "",
        spices=request.brine_spices,
        rub=request.rub,
    )
