"""Entries of the record: made from read values, refused with a sentence when they cannot be."""

from collections.abc import Iterable
from math import isfinite
from typing import Literal, get_args

from attrs import evolve, frozen

from app.journal.records import (
    Batch,
    Cost,
    Decision,
    Entry,
    EntryBody,
    Feel,
    Moment,
    Note,
    PhotoTaken,
    Spot,
    Stage,
    Temperature,
    Weight,
)

_SPOTS: tuple[Spot, ...] = get_args(Spot)
_WEIGHED = ("green", "trimmed", "cured", "soaked", "smoked", "rested", "trimmings")

# Plausible bounds, our own choice: wide enough for any kitchen, narrow enough to catch °F read
# as °C and a slipped decimal point.
_MOST_G = 50_000.0
_RANGE_C: dict[Spot, tuple[float, float]] = {
    "pit": (-30.0, 400.0),
    "fridge": (-30.0, 40.0),
    "brine": (-25.0, 105.0),
    "other": (-40.0, 450.0),
}
_MEAT_C = (-30.0, 110.0)
_SPOT_WORDS: dict[Spot, str] = {"pit": "pit", "fridge": "fridge", "brine": "brine"}

_AHEAD_S = 300.0
_BEFORE_BATCH_S = 90 * 86400.0


def weighed(grams: float, of: str = "green") -> Weight:
    """A weighing; ValueError when it cannot be."""
    if of not in _WEIGHED:
        raise ValueError(f"What lay on the scale must be one of {', '.join(_WEIGHED)}; not {of!r}.")
    if not (isfinite(grams) and 0 < grams <= _MOST_G):
        raise ValueError(f"A weight above 0 and up to 50 kg was expected; {grams:g} g was given.")
    return Weight(float(grams), of)  # type: ignore[arg-type]


def _checked_c(celsius: float, spot: str, what: str = "temperature") -> float:
    if spot not in _SPOTS:
        raise ValueError(f"The place must be one of {', '.join(_SPOTS)}; {spot!r} was given.")
    low, high = _RANGE_C.get(spot, _MEAT_C)
    if not (isfinite(celsius) and low <= celsius <= high):
        where = _SPOT_WORDS.get(spot, "meat" if spot != "other" else "place")
        raise ValueError(
            f"A {what} of the {where} from {low:g} to {high:g} °C was expected; "
            f"{celsius:.4g} °C was given. Is the unit right?"
        )
    return float(celsius)


def measured(celsius: float, spot: str = "flat") -> Temperature:
    """A temperature and where it was taken; ValueError when it cannot be."""
    return Temperature(_checked_c(celsius, spot), spot)  # type: ignore[arg-type]


def felt(step: str, spot: str = "flat", celsius: float | None = None) -> Feel:
    """How the probe went in; ValueError for a step that is none of the four."""
    if step not in ("hard", "firm", "nearly", "soft"):
        raise ValueError(f"The feel must be hard, firm, nearly or soft; {step!r} was given.")
    if spot not in _SPOTS:
        raise ValueError(f"The place must be one of {', '.join(_SPOTS)}; {spot!r} was given.")
    at_c = None if celsius is None else _checked_c(celsius, spot)
    return Feel(step, spot, at_c)  # type: ignore[arg-type]


def decided(choice: str, pit_c: float | None = None, core_c: float | None = None) -> Decision:
    """A choice at a turning point, with the two temperatures if they were read."""
    if choice not in ("wrapped", "not_yet", "pulled", "keep_going"):
        raise ValueError(f"Wrapped, not yet, pulled or keep going was expected; not {choice!r}.")
    return Decision(
        choice,  # type: ignore[arg-type]
        None if pit_c is None else _checked_c(pit_c, "pit"),
        None if core_c is None else _checked_c(core_c, "middle"),
    )


def noted(text: str) -> Note:
    """A note, its outer blanks taken off; ValueError when nothing is left."""
    if not text.strip():
        raise ValueError("The note is empty: write a word or two.")
    if len(text) > 10_000:
        raise ValueError(f"A note may have 10,000 characters; this one has {len(text):,}.")
    return Note(text.strip())


def pictured(photo_id: str, caption: str = "") -> PhotoTaken:
    """A photo's place in the record."""
    if not photo_id:
        raise ValueError("The photo was not stored, so it cannot be put into the record.")
    return PhotoTaken(photo_id, caption.strip())


def paid(amount: float, currency: str = "", what: str = "") -> Cost:
    """A cost; ValueError for less than nothing or more than a side of beef."""
    if not (isfinite(amount) and 0 <= amount <= 100_000):
        raise ValueError(f"An amount from 0 to 100,000 was expected; {amount:g} was given.")
    return Cost(float(amount), currency.strip(), what.strip())


def stage_now(batch: Batch) -> Stage:
    """The stage a new entry belongs to: the last one marked, or the first of the plan."""
    done = [step for step in batch.plan if step.done is not None and step.stage != "turn"]
    if done:
        return max(done, key=lambda step: step.done.utc_s if step.done else 0.0).stage
    waiting = [step.stage for step in batch.plan if not step.skipped]
    return waiting[0] if waiting else "store"


def new_entry(
    entry_id: str,
    batch: Batch,
    body: EntryBody,
    at: Moment,
    now: Moment,
    stage: Stage | None = None,
) -> Entry:
    """A line for a batch's record, for now or a time past; ValueError when the time cannot be."""
    check_time(batch, at, now)
    return Entry(entry_id, batch.id, at, stage or stage_now(batch), body, changed=now)


def check_time(batch: Batch, at: Moment, now: Moment) -> None:
    """Refuse a time ahead of the clock or long before the batch."""
    if not (isfinite(at.utc_s) and isfinite(now.utc_s)):
        raise ValueError("The time of an entry must be a moment; it is not a number.")
    if at.utc_s > now.utc_s + _AHEAD_S:
        raise ValueError(
            "The time lies ahead of this device's clock. Choose an earlier time, or see whether "
            "the clock was set back; what you entered is kept."
        )
    if at.utc_s < batch.created.utc_s - _BEFORE_BATCH_S:
        raise ValueError(
            f"The time lies more than 90 days before {batch.name} was begun. Is the date right?"
        )


def clock_set_back(entries: Iterable[Entry], now: Moment) -> str | None:
    """A word when the record holds times ahead of the clock, None when all is well."""
    ahead = [entry for entry in entries if entry.at.utc_s > now.utc_s + _AHEAD_S]
    if not ahead:
        return None
    one = len(ahead) == 1
    lines = (
        f"{'One line' if one else f'{len(ahead)} lines'} of this record {'lies' if one else 'lie'}"
    )
    return (
        f"{lines} ahead of this device's clock, which seems to have been set back. "
        "Nothing is lost; set the clock right, or correct the times."
    )


ChangeKind = Literal["added", "corrected", "removed"]


@frozen
class Change:
    """One change to a record: the line before and after, None where there is none."""

    before: Entry | None
    after: Entry | None

    @property
    def kind(self) -> ChangeKind:
        if self.before is None:
            return "added"
        return "removed" if self.after is None else "corrected"

    def undone(self) -> "Change":
        """The change that takes this one back."""
        return Change(self.after, self.before)


def corrected(
    entry: Entry,
    batch: Batch,
    now: Moment,
    *,
    body: EntryBody | None = None,
    at: Moment | None = None,
    stage: Stage | None = None,
) -> Change:
    """A line put right in what it says, when it was, or where it belongs."""
    # A time that is left as it was is not asked about again, though the clock was set back since.
    if at is not None and at != entry.at:
        check_time(batch, at, now)
    if body is not None and type(body) is not type(entry.body):
        raise ValueError("A line can be put right, but not become one of another kind.")
    after = evolve(
        entry,
        body=entry.body if body is None else body,
        at=entry.at if at is None else at,
        stage=entry.stage if stage is None else stage,
        changed=now,
    )
    return Change(entry, after)


def apply(entries: Iterable[Entry], change: Change) -> tuple[Entry, ...]:
    """The record after a change, in the order of time."""
    name = (change.after or change.before).id if change.after or change.before else ""  # type: ignore[union-attr]
    rest = [entry for entry in entries if entry.id != name]
    return by_time([*rest, *([change.after] if change.after else [])])


def by_time(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    """Lines in the order they happened; the same instant by the order they were written."""
    return tuple(sorted(entries, key=lambda one: (one.at.utc_s, one.changed.utc_s, one.id)))
