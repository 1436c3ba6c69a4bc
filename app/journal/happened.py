"""What truly happened in a batch, read off its steps and its record."""

from collections.abc import Iterable
from statistics import mean

from app.journal.chain import active, waits_for
from app.journal.entries import by_time
from app.journal.records import Batch, Decision, Entry, Feel, Moment, Stage, Temperature


def took_s(batch: Batch, stage: Stage) -> float | None:
    """How long a stage took [s]: from its beginning to the first that followed; else None."""
    steps = active(batch.plan)
    present = frozenset(step.stage for step in steps)
    begun = next((s.done for s in steps if s.stage == stage and s.done is not None), None)
    if begun is None:
        return None
    followed = [
        step.done.utc_s
        for step in steps
        if step.done is not None
        and step.stage != "turn"
        and stage in waits_for(step.stage, present)
    ]
    return min(followed) - begun.utc_s if followed and min(followed) >= begun.utc_s else None


def days_in_cure(batch: Batch, now: Moment) -> float | None:
    """Days the meat lay in the cure, or has lain in it by now; None before it went in."""
    took = took_s(batch, "cure")
    if took is None:
        begun = next((s.done for s in active(batch.plan) if s.stage == "cure" and s.done), None)
        if begun is None or now.utc_s < begun.utc_s:
            return None
        took = now.utc_s - begun.utc_s
    return took / 86400.0


def decision(entries: Iterable[Entry], choice: str) -> Entry | None:
    """The last time that choice was made."""
    made = [
        entry
        for entry in by_time(entries)
        if isinstance(entry.body, Decision) and entry.body.choice == choice
    ]
    return made[-1] if made else None


def wrapped_after_s(batch: Batch, entries: Iterable[Entry]) -> float | None:
    """From the beginning of the smoke to the last decision to wrap [s]; None when unknown."""
    entry = decision(entries, "wrapped")
    begun = next((s.done for s in active(batch.plan) if s.stage == "smoke" and s.done), None)
    return None if entry is None or begun is None else entry.at.utc_s - begun.utc_s


def pulled_core_c(entries: Iterable[Entry]) -> float | None:
    """The core when it was pulled [°C]: as read then, else the coldest the probe read just before.

    Checks within half an hour before count.
    """
    entries = tuple(entries)
    entry = decision(entries, "pulled")
    if entry is None or not isinstance(entry.body, Decision):
        return None
    if entry.body.core_c is not None:
        return entry.body.core_c
    felt = [
        one.body.celsius
        for one in entries
        if isinstance(one.body, Feel)
        and one.body.celsius is not None
        and one.body.spot in ("flat", "point", "middle")
        and 0.0 <= entry.at.utc_s - one.at.utc_s <= 1800.0
    ]
    return min(felt, default=None)


def last_feel(entries: Iterable[Entry]) -> Feel | None:
    """How the probe went in the last time, at the place where it went in hardest then.

    Checks within a quarter of an hour belong together.
    """
    checks = [entry for entry in by_time(entries) if isinstance(entry.body, Feel)]
    if not checks:
        return None
    end_s = checks[-1].at.utc_s
    steps = ("hard", "firm", "nearly", "soft")
    together = [
        entry.body
        for entry in checks
        if isinstance(entry.body, Feel) and end_s - entry.at.utc_s <= 900.0
    ]
    return min(together, key=lambda feel: steps.index(feel.step))


def cure_temperature_c(entries: Iterable[Entry]) -> float | None:
    """Mean of the fridge's and the brine's temperatures logged during the cure [°C]."""
    read = [
        entry.body.celsius
        for entry in entries
        if isinstance(entry.body, Temperature)
        and entry.stage in ("cure", "turn")
        and entry.body.spot in ("fridge", "brine")
    ]
    return mean(read) if read else None
