"""What the cook's own slices say of how fast the cure moves, and the days that follow."""

from collections.abc import Iterable
from math import ceil

from attrs import frozen

from app.cure.request import MixRequest
from app.journal.advice_colour import slice_told
from app.journal.advised import Past
from app.journal.cure_model import cure_model
from app.journal.lengths import LONGEST_CURE_DAYS, Length
from app.transport.calibrate import Calibration, calibrate
from app.transport.days import FIRST_PINK_PPM, FULL_COLOUR_PPM
from app.transport.diffusivity import NITRITE, Diffusivity

_BY_DIFFUSION = ("equilibrium", "dry")  # a cover brine has its own days, the needle needs none


def own_slices(pasts: Iterable[Past], cut: str) -> Calibration:
    """How fast the cure moves in this cook's meat of a cut, by every slice that was looked at."""
    told = [
        slice_told(past)
        for past in pasts
        if past.batch.outcome is not None
        and not past.batch.demonstration
        and past.batch.cut.casefold() == cut.casefold()
    ]
    return calibrate([one for one in told if one is not None])


def likely_days(
    mix: MixRequest,
    thickness_mm: float | None,
    fat_cap_on: bool,
    nitrite: Diffusivity = NITRITE,
) -> float | None:
    """Days until the middle likely has its full colour, else its first pink; None if never.

    Raises
    ------
    ValueError : the mix cannot be mixed, or the piece cannot be
    """
    model = cure_model(mix, thickness_mm, fat_cap_on)
    for wanted in (FULL_COLOUR_PPM, FIRST_PINK_PPM):
        days = model.days_to_colour(wanted, diffusivity=nitrite).days
        if days is not None:
            return days.likely
    return None


def length_by_slices(
    mix: MixRequest, thickness_mm: float | None, fat_cap_on: bool, own: Calibration
) -> Length | None:
    """Days in the cure by the cook's own slices; None where they have no say.

    They have none when days were asked for, in a strong cover brine, which is taken out on its
    day, after the needle, and before the first slice.
    """
    slices = own.diffusivity.slices
    if mix.days is not None or mix.method not in _BY_DIFFUSION or not slices:
        return None
    try:
        days = likely_days(mix, thickness_mm, fat_cap_on, own.diffusivity)
    except ValueError:
        return None
    if days is None:
        return None
    whole = float(min(LONGEST_CURE_DAYS, max(3.0, ceil(days))))
    return Length(whole * 1440.0, f"from your own slices: {slices} so far")


def say_slices(count: int) -> str:
    """ "1 slice", "3 slices"."""
    return f"{count} slice" if count == 1 else f"{count} slices"


@frozen
class Taught:
    """Days for the same piece before and after a slice was counted, and what they rest on."""

    before_days: float | None
    after_days: float | None
    slices: int
    sentence: str


def taught_by(this: Past, others: Iterable[Past]) -> Taught | None:
    """What this batch's slice changes for the next one of its kind; None when it says nothing."""
    batch = this.batch
    if batch.outcome is None or batch.demonstration or slice_told(this) is None:
        return None
    rest = [one for one in others if one.batch.id != batch.id]
    with_it = own_slices([this, *rest], batch.cut)
    without = own_slices(rest, batch.cut)
    thick = batch.thickness_mm or batch.outcome.thickness_mm
    try:
        before = likely_days(batch.mix, thick, batch.fat_cap_on, without.diffusivity)
        after = likely_days(batch.mix, thick, batch.fat_cap_on, with_it.diffusivity)
    except ValueError:
        return None
    cut = batch.cut[:1].lower() + batch.cut[1:]
    rests = f"It rests on {say_slices(with_it.diffusivity.slices)} ({cut})."
    if before is None or after is None:
        return Taught(before, after, with_it.diffusivity.slices, rests)
    says = f"From your own slices: the next piece like this needs {ceil(after)} days until its "
    if ceil(before) == ceil(after):
        says += "middle is cured, as it was without this slice."
    else:
        says += f"middle is cured; without this slice it was {ceil(before)}."
    return Taught(before, after, with_it.diffusivity.slices, f"{says} {rests}")
