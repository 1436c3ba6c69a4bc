"""Fewer days in the cure than were worked out for the piece: by how many, and what that means."""

from collections.abc import Iterable
from math import ceil

from attrs import evolve, frozen

from app.cure.meat import cut_of
from app.journal.advised import Past
from app.journal.chain import active, begins_s, ends_s, latest_s, tight_stages, waits_for
from app.journal.cure_model import CureModel, cure_model
from app.journal.happened import took_s
from app.journal.lengths import LONGEST_CURE_DAYS, cure_length
from app.journal.own_slices import likely_days, own_slices
from app.journal.plan import BY_HAND
from app.journal.reckon import work_forward
from app.journal.records import Batch, Step
from app.journal.safety import Caution
from app.journal.wall import instant_s
from app.transport.days import grey_core
from app.transport.diffusivity import Diffusivity, Range

SLACK_DAYS = 0.25
"""So little less is nothing beside how far the days themselves can be off; our own choice."""

LEAST_DAYS = 3.0
"""No plan is made shorter than this by itself; as `app.journal.lengths.cure_length`."""

NOT_REACHED = Caution(
    "short_cure",
    (),
    "Meat the cure has not reached is raw beef: cook such a piece like fresh beef, to at least "
    "145 °F (62.8 °C) inside with 3 minutes of rest. It is no longer safe to hold as cured: do "
    "not keep it longer, smoke it cold or cool it slower than fresh meat. Local food codes come "
    "first.",
    "145 °F and 3 min rest: FSIS, secondary copy; the rest: this program's own rule",
)
"""What too few days mean; said beside how many there are."""

_LEAST_SHOWN_PERCENT = 0.5


@frozen
class ShortCure:
    """Days in the cure, and those worked out for it.

    days : as planned, or as they were once the meat is out
    needed : until its middle likely has its colour; for the needle, until it likely is even
    over : the meat is out already
    grey : the part of the thickness left grey [%], quick to slow; None for the needle
    may_inject : the needle could still take the place of days
    measured : the thickness is the piece's own, not the usual one of its cut
    """

    step_id: str
    days: float
    needed: float
    over: bool
    grey: Range | None
    may_inject: bool
    measured: bool = True

    @property
    def likely(self) -> bool:
        """Whether part of it likely stays without cure, and not in slow meat only."""
        return self.grey is None or self.grey.likely >= _LEAST_SHOWN_PERCENT

    @property
    def short_days(self) -> float:
        return self.needed - self.days

    @property
    def sentence(self) -> str:
        """How many days there are, how many are short, and what is then likely in the middle."""
        days = _number(self.days)
        days += " day" if days == "1" else " days"
        had = f"It lay in the cure {days}" if self.over else f"{days} in the cure"
        piece = "it" if self.measured else "the usual thickness of its cut"
        says = (
            f"{had}, {_number(self.short_days)} fewer than the {self.needed:g} worked out for "
            f"{piece}."
        )
        if self.grey is None:
            return f"{says} Between the needle's holes the cure may not have met."
        grey = self.grey
        low, likely, high = (f"{part:.0f}" for part in (grey.low, grey.likely, grey.high))
        if grey.high < _LEAST_SHOWN_PERCENT:
            return f"{says} By the model the cure only just comes to the middle: nothing to spare."
        if grey.likely < _LEAST_SHOWN_PERCENT:
            return (
                f"{says} The cure may not reach the middle: in slow meat {high} % of the "
                "thickness stays grey."
            )
        return (
            f"{says} The cure likely does not reach the middle: {likely} % of the thickness "
            f"({low} to {high}) stays grey."
        )


def _number(days: float) -> str:
    """ "3", "0.5": days to a tenth."""
    return f"{days:.1f}".removesuffix(".0")


def short_cure(
    batch: Batch, now: str, pasts: Iterable[Past] = (), zone: str = ""
) -> ShortCure | None:
    """Whether the plan leaves the meat fewer days in the cure than were worked out for it.

    days short = days worked out − (when it comes out − when it goes in)

    Parameters
    ----------
    batch : with its plan
    now : wall-clock time; a cure not begun cannot begin before
    pasts : the cook's batches with their records; looked at only where days may be short
    zone : name of the local time zone

    Returns
    -------
    The days and what is short; None where nothing is, or no model can tell

    Notes
    -----
    A length the program worked out itself is not doubted. One that was asked of the mix, set by
    hand, cut off by a step held before it ends, or held down to `LONGEST_CURE_DAYS`, is. Days
    taken up from advice count as worked out. At 4 °C; a colder fridge needs more.

    References
    ----------
    Days and grey core as `app.transport.days`.
    """
    cure = next((step for step in active(batch.plan) if step.stage == "cure"), None)
    if cure is None or batch.finished or batch.outcome is not None:
        return None
    took = took_s(batch, "cure")
    days = _days_left(batch, cure, now, zone) if took is None else took / 86400.0
    if days is None:
        return None
    asked = batch.mix.days is not None or batch.mix.method == "cover"
    cut_off = days < cure.minutes / 1440.0 - SLACK_DAYS
    held_down = cure.minutes >= LONGEST_CURE_DAYS * 1440.0
    if not (asked or cut_off or held_down or cure.why == BY_HAND):
        return None
    return short_of(batch, days, pasts, over=took is not None)


def short_of(
    batch: Batch, days: float, pasts: Iterable[Past] = (), *, over: bool = False
) -> ShortCure | None:
    """So many days in the cure held against those worked out; None when they are enough.

    >>> from app.cure.request import MixRequest
    >>> from app.journal.plan import new_batch
    >>> from app.journal.records import Moment
    >>> made = new_batch(MixRequest(3000.0), "Brisket flat", "Flat", Moment(1.8e9, 0),
    ...                  ids=iter("abcdefghijklmnopqrstuvwxyz").__next__, thickness_mm=60.0)
    >>> short_of(made, 12.0) is None
    True
    >>> short_of(made, 4.0).sentence
    '4 days in the cure, 6 fewer than the 10 worked out for it. The cure likely does not ...
    """
    cure = next((step for step in active(batch.plan) if step.stage == "cure"), None)
    if cure is None:
        return None
    needle = batch.mix.method == "injection"
    own = own_slices(() if needle else pasts, batch.cut).diffusivity
    try:
        needed = _days_needed(batch, own)
        if needed is None or days >= needed - SLACK_DAYS:
            return None
        grey = None
        if not needle:
            grey = _grey(cure_model(batch.mix, batch.thickness_mm, batch.fat_cap_on), days, own)
    except ValueError:
        return None
    return ShortCure(
        cure.id,
        max(0.0, days),
        needed,
        over,
        grey,
        cure.done is None and not needle and not over,
        batch.thickness_mm not in (None, cut_of(batch.mix.cut).thickness_mm),
    )


def _days_needed(batch: Batch, own: Diffusivity) -> float | None:
    """Whole days worked out, without what was asked of the mix; None when no model can tell."""
    mix, thick, cap = batch.mix, batch.thickness_mm, batch.fat_cap_on
    if mix.method == "injection":
        return cure_length(evolve(mix, days=None), thick, cap).minutes / 1440.0
    likely = likely_days(mix, thick, cap, own)
    if likely is None:
        return None
    needed = float(ceil(likely))
    if mix.method != "cover":
        needed = max(LEAST_DAYS, needed)
    advised = mix.days is not None and {"days", "cap"} & set(batch.advice_taken)
    return min(needed, mix.days or needed) if advised else needed


def _grey(model: CureModel, days: float, own: Diffusivity) -> Range:
    core = grey_core(
        model.piece, max(0.05, days), model.ingoing_ppm, model.bath_ratio, diffusivity=own
    )
    return core.grey_percent


def _days_left(batch: Batch, cure: Step, now: str, zone: str) -> float | None:
    """Days from when it can go in to when it is to come out; None when that is not known."""
    steps = active(batch.plan)
    present = frozenset(step.stage for step in steps)
    after = [s for s in steps if s.stage != "turn" and cure.stage in waits_for(s.stage, present)]
    if any(step.done is not None for step in after):
        return None  # It came out, and nobody marked when it went in.
    begin, end = begins_s(cure, zone), ends_s(cure, zone)
    latest = latest_s(cure, steps, zone)
    if latest is not None:
        end = min(end, latest + 60.0 * cure.minutes)
    held = batch.serve is not None or any(step.moved_by_hand for step in after)
    if held and cure.done is None:
        free = (evolve(step, moved_by_hand=False) for step in batch.plan)
        soonest = work_forward(free, now, zone, tight_stages(batch.mix.method))
        begin = max(begin, *(instant_s(s.due, zone) for s in soonest if s.stage == "cure"))
    return max(0.0, end - begin) / 86400.0
