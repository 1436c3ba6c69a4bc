"""Handing out the calendar file, and how the phone's calendar stands to the plans."""

from collections.abc import Sequence

from attrs import evolve

from app.journal.in_calendar import Standing, standing
from app.journal.records import Batch
from app.journal.reminders import calendar_file
from app.screens.bench import Bench


def calendar_standing(bench: Bench) -> Standing:
    """What another calendar file would change, as far as files were handed out here."""
    written = {one.batch_id for one in bench.kit.calendar}
    concerned = [
        batch for batch in bench.shown.batches if not batch.finished or batch.id in written
    ]
    return standing(concerned, bench.kit.calendar, bench.wall(), bench.kit.calendar_lead_min)


def hand_out_calendar(bench: Bench, batches: Sequence[Batch], name: str) -> None:
    """Hand out these plans and what has to go of earlier ones, and remember what it holds."""
    file = calendar_file(
        batches,
        bench.now(),
        lead_min=bench.kit.calendar_lead_min,
        written=bench.kit.calendar,
        every=bench.shown.batches,
    )
    bench.device.hand_out(file.text.encode(), name, "text/calendar")
    bench.save_kit(
        evolve(bench.kit, calendar=file.written),
        f"{name} handed to the phone: open it there, so that its calendar takes it in.",
    )


def hand_out_all(bench: Bench) -> None:
    """Hand out one file with the plans of all the cook's own running batches."""
    own = [one for one in bench.shown.batches if not one.finished and not one.demonstration]
    hand_out_calendar(bench, own, "brinewright.ics")
