"""A batch's page: what to do next, and its record from the first step to the plate."""

from collections.abc import Callable

import flet as ft

from app.journal.due import due_list, under_way
from app.journal.records import Batch, Entry
from app.journal.safety import cautions_for, texts
from app.journal.yields import money, weights, yield_percent
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.journal.advised import advice_panel
from app.screens.journal.asking import finish_asking, mark_done_asking
from app.screens.journal.batch_record import record
from app.screens.journal.journal import batch_line
from app.screens.journal.mind_this import mind_this
from app.screens.journal.missing import no_batch
from app.screens.journal.slice_draft import draft_name
from app.screens.journal.temperatures import heat_of
from app.screens.journal.told import WEIGHED, WRITTEN, amount, degrees, in_units, outcome_told
from app.screens.kit.example import remove_example
from app.screens.kit.sheets import save_page
from app.screens.masses import grams
from app.screens.photos.photo_intake import photo_act
from app.screens.plan.misfit_notes import misfit_notes
from app.screens.plan.reminders import awake_act
from app.screens.plan.short_cure_notes import short_cure_notes
from app.widgets import panels, words
from app.widgets.frame import Act, quiet_button, screen, side_button


@ft.component
def BatchScreen() -> ft.View:
    """One batch."""
    bench = use_bench()
    batch = use_batch()
    if batch is None:
        return no_batch()
    entries = bench.entries(batch.id)
    waits = due_list([batch], bench.wall(), bench.zone)
    body: list[ft.Control] = [words.small(batch_line(bench, batch))]
    if batch.demonstration:
        body += [
            panels.notice("An invented example, not a batch of yours.", "note"),
            side_button(Act("Remove the example", lambda: _remove_example(bench))),
        ]
    if draft_name(batch.id) in bench.drafts:
        body.append(_slice_begun(bench, batch))
    body += short_cure_notes(bench, batch)
    body += misfit_notes(bench, batch)
    body += mind_this(bench, batch, entries)
    main = None
    if waits:
        step, dry = waits[0].step, batch.mix.method == "dry"
        body.append(
            panels.panel(
                [
                    panels.figure(step.title, waits[0].words),
                    *panels.cautions(texts(cautions_for(step.stage, dry=dry), bench.kit.system)),
                    *([_to_weigh(bench, batch)] if step.stage == "mix" else []),
                    ft.Row(
                        [
                            quiet_button(Act("Leave out", lambda: bench.skip(batch.id, step.id))),
                            quiet_button(
                                Act("Plan", lambda: bench.go(f"/journal/{batch.id}/plan"))
                            ),
                        ],
                        alignment=ft.MainAxisAlignment.END,
                        wrap=True,
                    ),
                ],
                title="Next",
            )
        )
        main = Act(
            f"Done: {step.title}",
            lambda: mark_done_asking(bench, batch.id, step),
            icon=ft.Icons.CHECK,
        )
    body.append(_add(bench, batch))
    body.append(_doors(bench, batch))
    if batch.outcome is not None:
        body.append(_outcome(bench, batch))
    body += advice_panel(bench, batch)
    body += _yield(bench, batch, entries)
    body += record(bench, batch, entries)
    body.append(_more(bench, batch))
    if main is None:
        main = Act("Do it again", lambda: bench.go(f"/journal/{batch.id}/repeat"), ft.Icons.REPLAY)
    return screen(batch.name, body, place="/journal", back="/journal", main=main)


def _to_weigh(bench: Bench, batch: Batch) -> ft.Control:
    return side_button(
        Act("What to weigh", lambda: bench.go(f"/journal/{batch.id}/mix"), ft.Icons.SCALE)
    )


def _add(bench: Bench, batch: Batch) -> ft.Control:
    def opens(route: str) -> Callable[[], object]:
        return lambda: bench.go(f"/journal/{batch.id}/{route}")

    acts = [
        photo_act(bench, batch),
        Act("Temperature", opens("add/temperature"), ft.Icons.DEVICE_THERMOSTAT),
        Act("Probe", opens("probe"), ft.Icons.TOUCH_APP),
        Act("Wrap", opens("wrap"), ft.Icons.INVENTORY_2_OUTLINED),
        Act("Weight", opens("add/weight"), ft.Icons.SCALE),
        Act("Note", opens("add/note"), ft.Icons.EDIT_NOTE),
        Act("Cost", opens("add/cost"), ft.Icons.PAYMENTS_OUTLINED),
        Act("Slice", opens("slice"), ft.Icons.RESTAURANT),
    ]
    return panels.panel([panels.row_of([side_button(act) for act in acts])], title="Add")


def _doors(bench: Bench, batch: Batch) -> ft.Control:
    told = heat_of(bench, batch)
    heat = "the log as a chart, and what it says"
    if told.log is not None:
        last = degrees(told.log.readings[-1][1], bench.shown.kit)
        stall = in_units(told.stall.says, bench.shown.kit) if told.stall else ""
        heat = " · ".join(part for part in (f"core last {last}", stall) if part)
    smoking = any(
        one.step.stage in ("smoke", "finish")
        for one in under_way([batch], bench.wall(), bench.zone)
    )
    smoked = any(step.stage == "smoke" and step.done for step in batch.plan)
    return ft.Column(
        [
            panels.door(
                "Temperatures",
                heat,
                lambda: bench.go(f"/journal/{batch.id}/heat"),
                ft.Icons.SHOW_CHART,
            ),
            *([] if smoked else [_soak_door(bench, batch)]),
            panels.door(
                "Photos",
                "by stage, measured and set beside others",
                lambda: bench.go(f"/journal/{batch.id}/photos"),
                ft.Icons.PHOTO_LIBRARY_OUTLINED,
            ),
            panels.door(
                "Keep what is left",
                "how long in fridge and freezer, and a label",
                lambda: bench.go(f"/journal/{batch.id}/store"),
                ft.Icons.KITCHEN_OUTLINED,
            ),
            *([side_button(awake_act(bench))] if smoking or bench.shown.awake else []),
        ],
        spacing=8,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def _soak_door(bench: Bench, batch: Batch) -> ft.Control:
    return panels.door(
        "Soak the salt out",
        "the salt in it now, and hours in water",
        lambda: bench.go(f"/journal/{batch.id}/soak"),
        ft.Icons.WATER_DROP_OUTLINED,
    )


def _remove_example(bench: Bench) -> None:
    remove_example(bench)
    bench.go("/journal")


def _slice_begun(bench: Bench, batch: Batch) -> ft.Control:
    return panels.panel(
        [
            panels.notice("What you scored at the slice is not saved yet.", "attention"),
            side_button(
                Act("Go on with the slice", lambda: bench.go(f"/journal/{batch.id}/slice"))
            ),
        ]
    )


def _outcome(bench: Bench, batch: Batch) -> ft.Control:
    assert batch.outcome is not None
    return panels.panel(
        [
            *(
                # Sentences are read, figures are looked at.
                ft.Column([words.body(name), words.body(value, bold=True)], spacing=2)
                if name in WRITTEN
                else panels.figure(name, value)
                for name, value in outcome_told(batch.outcome, bench.shown.kit)
            ),
            quiet_button(Act("Change", lambda: bench.go(f"/journal/{batch.id}/slice"))),
        ],
        title="On the board",
    )


def _yield(bench: Bench, batch: Batch, entries: tuple[Entry, ...]) -> list[ft.Control]:
    kit = bench.shown.kit
    rows: list[ft.Control] = [
        panels.figure(
            WEIGHED[one.of],
            grams(one.grams, kit),
            note="" if one.change_percent is None else f"{one.change_percent:+.0f} %",
        )
        for one in weights(batch, entries)
    ]
    came_to = yield_percent(batch, entries)
    if came_to is not None:
        rows.append(panels.figure("Yield", f"{came_to:.0f} %"))
    for sum_ in money(batch, entries):
        each = (
            ""
            if sum_.per_serving is None
            else f"{amount(sum_.per_serving, sum_.currency)} a serving"
        )
        rows.append(panels.figure("Cost", amount(sum_.total, sum_.currency), note=each))
    return [panels.panel(rows, title="Weight and cost")] if rows else []


def _more(bench: Bench, batch: Batch) -> ft.Control:
    return panels.panel(
        [
            panels.row_of(
                [
                    side_button(
                        Act(
                            "Repeat for a new weight",
                            lambda: bench.go(f"/journal/{batch.id}/repeat"),
                            ft.Icons.REPLAY,
                        )
                    ),
                    side_button(
                        Act(
                            "The mix",
                            lambda: bench.go(f"/journal/{batch.id}/mix"),
                            ft.Icons.SCALE,
                        )
                    ),
                    side_button(
                        Act("Page to print", lambda: save_page(bench, batch), ft.Icons.PRINT)
                    ),
                    side_button(
                        Act(
                            "Compare",
                            lambda: bench.go(f"/journal/{batch.id}/compare"),
                            ft.Icons.COMPARE_ARROWS,
                        )
                    ),
                    side_button(
                        Act("Plan", lambda: bench.go(f"/journal/{batch.id}/plan"), ft.Icons.EVENT)
                    ),
                    side_button(
                        Act(
                            "Finish" if not batch.finished else "Reopen",
                            lambda: finish_asking(bench, batch),
                            ft.Icons.FLAG_OUTLINED,
                        )
                    ),
                    side_button(
                        Act(
                            "Remove batch",
                            lambda: bench.remove_batch(batch),
                            ft.Icons.DELETE_OUTLINE,
                        )
                    ),
                ]
            )
        ],
        title="More",
    )
