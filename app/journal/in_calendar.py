"""How the phone's own calendar stands to the plans: what it still lacks, and what has to go."""

from collections.abc import Iterable, Sequence

from attrs import evolve, frozen

from app.journal.records import Batch, InCalendar
from app.journal.reminders import entry_of


@frozen
class Standing:
    """Steps still to come, counted.

    there : as the calendar has them
    changed : moved, renamed, or ringing otherwise
    to_take_out : in the calendar, and no longer planned
    missing : planned, and not yet in the calendar
    """

    there: int = 0
    changed: int = 0
    to_take_out: int = 0
    missing: int = 0

    @property
    def right(self) -> bool:
        """Whether another file would change nothing."""
        return not (self.changed or self.to_take_out or self.missing)


def standing(
    batches: Iterable[Batch], written: Sequence[InCalendar], now: str, lead_min: int
) -> Standing:
    """How the calendar, as the last file left it, stands to the plans at a wall-clock time.

    Examples
    --------
    >>> standing([], [InCalendar("a", "b", "Rub: Flat", "2027-03-06T18:00", 1)],
    ...          "2027-03-01T09:00", 15).to_take_out
    1
    """
    before = {one.uid: one for one in written}
    there = changed = to_take_out = missing = 0
    for batch in batches:
        if batch.demonstration:
            continue
        for step in batch.plan:
            wanted = entry_of(batch, step, lead_min)
            was = before.pop(wanted.uid, None)
            in_it = was is not None and not was.gone
            if step.done is not None or not _to_come(wanted, was, now):
                continue
            if wanted.gone:
                to_take_out += in_it
            elif not in_it:
                missing += 1
            elif was is not None and evolve(wanted, sequence=was.sequence) == was:
                there += 1
            else:
                changed += 1
    to_take_out += sum(not one.gone and one.due >= now for one in before.values())
    return Standing(there, changed, to_take_out, missing)


def _to_come(wanted: InCalendar, was: InCalendar | None, now: str) -> bool:
    # One that the plan has passed may still ring where it was, and the other way round.
    return wanted.due >= now or (was is not None and was.due >= now)


def say_standing(one: Standing) -> str:
    """What another calendar file would do, in a few words; empty when it would do nothing.

    Examples
    --------
    >>> say_standing(Standing(5, 2, 1, 0))
    '2 steps changed, 1 step to take out'
    >>> say_standing(Standing(5))
    ''
    """
    parts = [
        f"{count} {'step' if count == 1 else 'steps'} {what}"
        for count, what in (
            (one.changed, "changed"),
            (one.to_take_out, "to take out"),
            (one.missing, "not in it yet"),
        )
        if count
    ]
    return ", ".join(parts)
