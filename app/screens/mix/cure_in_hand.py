"""The cure a screen is asked about, with the fridge it is in and what past slices say of it."""

from collections.abc import Callable, Mapping, Sequence

from attrs import frozen

from app import quantities
from app.cure.meat import CUTS
from app.cure.mix import Mix, work_out
from app.journal.advised import Past
from app.journal.cure_model import CureModel, cure_model
from app.journal.happened import cure_temperature_c, days_in_cure
from app.journal.own_slices import own_slices
from app.journal.records import Batch, Entry, Kit, Moment
from app.screens.in_units import in_units
from app.screens.mix.mix import answer
from app.screens.mix.mix_draft import (
    LaterDraft,
    MixDraft,
    read_number,
    small_length_unit,
    water_unit,
)
from app.transport.calibrate import Calibration
from app.transport.course import Stage
from app.transport.days import FIRST_PINK_PPM, FULL_COLOUR_PPM
from app.transport.diffusivity import REFERENCE_C, Diffusivity
from app.transport.outlook import Outlook, outlook

COLDEST_C, WARMEST_C = -5.0, 15.0
"""No refrigerator is outside these; beyond them it is a slip of the finger."""

LONGEST_DAYS = 60.0
"""The longest cure that is pictured."""

_USUAL_DAYS = 7.0


@frozen
class CureInHand:
    """A mix as the models take it.

    pulled : days until it is taken out, as typed, else `usual_days`
    usual_days : as the mix has them, else the likely days until the middle is reached
    own : diffusivity of nitrite from the cook's own slices, or the general one
    """

    mix: Mix
    model: CureModel
    fridge_c: float
    pulled: float
    own: Calibration
    usual_days: float

    @property
    def days_to_show(self) -> float:
        """How far a day can be dragged: past the day it is pulled, and past likely cured."""
        return min(LONGEST_DAYS, max(14.0, 2.0 * self.pulled))

    def after(self, days: float) -> Outlook:
        """Salt and nitrite after so many days, slow, likely and quick, with the cook's own."""
        cure = Stage("cure", 24.0 * days, self.model.bath, self.fridge_c)
        return outlook(
            [cure], self.model.piece, nitrite=self.own.diffusivity, start=self.model.start
        )


@frozen
class ReadCure:
    """The cure in hand, or why there is none; errors by field."""

    cure: CureInHand | None
    errors: Mapping[str, str]
    trouble: str = ""


Pasts = Sequence[tuple[Batch, tuple[Entry, ...]]]


def pasts_of(batches: Sequence[Batch], entries: Callable[[str], tuple[Entry, ...]]) -> Pasts:
    """The cook's own batches with their records; invented ones teach nothing."""
    return [(one, entries(one.id)) for one in batches if not one.demonstration]


def read_later(later: LaterDraft, kit: Kit) -> tuple[Callable[[str, float], float], dict[str, str]]:
    """A reader of the fields about days and soak, and what was wrong with those it has read."""
    errors: dict[str, str] = {}
    warmth = "°C" if kit.system == "metric" else "°F"
    water = water_unit(kit)
    readers: Mapping[str, Callable[[str], float]] = {
        "fridge": lambda t: _fridge(quantities.parse(t, "temperature", warmth), kit),
        "pulled": lambda t: _days(quantities.parse(t, "duration", "days") / 86400.0),
        "holes": lambda t: _holes(quantities.parse(t, "length", small_length_unit(kit)), kit),
        "wanted": lambda t: _between(read_number(t, "salt", "%"), 0.2, 10.0, "The salt", "%"),
        "pot": lambda t: _between(
            quantities.parse(t, "volume", water), 100.0, 2e5, "The water", "mL"
        ),
        "every": lambda t: _between(
            quantities.parse(t, "duration", "h") / 3600.0, 0.5, 48.0, "The time", "hours"
        ),
    }

    def take(name: str, otherwise: float) -> float:
        text = str(getattr(later, name)).strip()
        if not text:
            return otherwise
        try:
            return readers[name](text)
        except ValueError as wrong:
            errors[name] = str(wrong)
            return otherwise

    return take, errors


def cure_in_hand(draft: MixDraft, kit: Kit, pasts: Pasts = ()) -> ReadCure:
    """The mix being made, as the models take it."""
    got = answer(draft, kit)
    if got.mix is None:
        return ReadCure(None, {}, got.trouble or (got.over.reason if got.over else ""))
    mix = got.mix
    own = own_slices((Past(*one) for one in pasts), CUTS[mix.request.cut].name)
    take, errors = read_later(draft.later, kit)
    fridge = take("fridge", REFERENCE_C)
    try:
        model = cure_model(mix.request)
        usual = mix.request.days or _likely_days(model, fridge, own.diffusivity)
    except ValueError as wrong:
        return ReadCure(None, errors, str(wrong))
    return ReadCure(
        CureInHand(mix, model, fridge, take("pulled", usual), own, usual),
        errors,
    )


def cure_of_batch(
    batch: Batch, entries: Sequence[Entry], later: LaterDraft, kit: Kit, now: Moment, pasts: Pasts
) -> ReadCure:
    """The cure of a batch as it truly went: its days so far, and the fridge as it was logged."""
    own = own_slices((Past(*one) for one in pasts), batch.cut)
    take, errors = read_later(later, kit)
    try:
        mix = work_out(batch.mix)
        model = cure_model(batch.mix, batch.thickness_mm, batch.fat_cap_on)
        usual = days_in_cure(batch, now) or batch.mix.days
        usual = usual or _likely_days(model, REFERENCE_C, own.diffusivity)
    except ValueError as wrong:
        return ReadCure(None, errors, str(wrong))
    logged = cure_temperature_c(entries)
    fridge = take("fridge", REFERENCE_C if logged is None else logged)
    usual = round(min(LONGEST_DAYS, max(0.1, usual)), 1)
    return ReadCure(
        CureInHand(mix, model, fridge, take("pulled", usual), own, usual),
        errors,
    )


def _likely_days(model: CureModel, fridge_c: float, nitrite: Diffusivity) -> float:
    if model.start is not None:
        return _USUAL_DAYS
    for wanted in (FULL_COLOUR_PPM, FIRST_PINK_PPM):
        days = model.days_to_colour(wanted, fridge_c, nitrite).days
        if days is not None:
            return float(min(LONGEST_DAYS, max(1.0, -(-days.likely // 1))))
    return _USUAL_DAYS


def _between(value: float, least: float, most: float, what: str, unit: str) -> float:
    if not least <= value <= most:
        raise ValueError(f"{what} must be from {least:g} to {most:g} {unit}; it is {value:g}.")
    return value


def _holes(millimetres: float, kit: Kit) -> float:
    if not 10.5 <= millimetres <= 200.0:
        raise ValueError(in_units("Holes are from 11 to 200 mm (7/16 to 8 in) apart.", kit))
    return millimetres


def _fridge(celsius: float, kit: Kit) -> float:
    if not COLDEST_C <= celsius <= WARMEST_C:
        says = f"{celsius:.0f} °C is no refrigerator; from -5 to 15 °C (23 to 59 °F) was expected."
        raise ValueError(in_units(says, kit))
    return celsius


def _days(days: float) -> float:
    return _between(days, 0.1, LONGEST_DAYS, "The time in the cure", "days")
