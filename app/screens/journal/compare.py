"""Two or three batches side by side: what differs first, what is the same folded away."""

import flet as ft

from app import quantities
from app.cure.targets import METHOD_NAMES
from app.journal.compare import Kind, Line, Paid, Value, compare
from app.journal.records import Batch, Kit
from app.journal.search import Wanted, find
from app.journal.wall import say_minutes
from app.screens.bench import Bench, use_bench
from app.screens.journal.told import amount, degrees
from app.screens.masses import grams
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen
from app.widgets.picture import thumbnail

MOST = 3
_PARTS = {
    "piece": "The piece",
    "mix": "The mix",
    "days": "Days and hours",
    "smoke": "Smoke and finish",
    "slice": "On the board",
}


@ft.component
def CompareScreen() -> ft.View:
    """Choose, then look."""
    bench = use_bench()
    asked = ft.use_route_params().get("batch", "")
    chosen, set_chosen = ft.use_state(begun_with(bench.shown.batches, asked))
    choosing, set_choosing = ft.use_state(len(chosen) < 2)
    opened, set_opened = ft.use_state("")
    batches = [one for id in chosen if (one := bench.batch(id)) is not None]
    back = f"/journal/{asked}" if asked else "/journal"
    if len(bench.shown.batches) < 2:
        return screen(
            "Compare",
            [panels.empty("One batch is not enough.", "Two are needed to compare.")],
            place="/journal",
            back=back,
        )

    def toggle(batch_id: str) -> None:
        if batch_id in chosen:
            set_chosen(tuple(one for one in chosen if one != batch_id))
        elif len(chosen) < MOST:
            set_chosen((*chosen, batch_id))
        else:
            bench.show(said="Three stand side by side at most. Take one out first.", undo=None)

    body: list[ft.Control] = [
        panels.fold(
            "Which batches",
            ", ".join(one.name for one in batches) or "none chosen yet",
            [
                fields.choices(
                    "Choose two or three",
                    [(one.id, one.name) for one in find(bench.shown.batches, Wanted())],
                    chosen,
                    toggle,
                )
            ],
            is_open=choosing,
            on_toggle=lambda: set_choosing(not choosing),
        )
    ]
    if len(batches) < 2:
        body.append(words.body("Choose two or three batches."))
    else:
        lines = compare(batches, {one.id: bench.entries(one.id) for one in batches})
        kit = bench.shown.kit
        body.append(_heads(bench, batches))
        body += _table([one for one in lines if one.differs and one.known], kit) or [
            words.body("Nothing that is known of all differs.")
        ]
        folded = (
            ("unknown", "Not known of all", [one for one in lines if not one.known]),
            ("same", "The same in all", [one for one in lines if not one.differs]),
        )
        body += [
            panels.fold(
                title,
                "one line" if len(those) == 1 else f"{len(those)} lines",
                [_line(line, kit) for line in those],
                is_open=opened == key,
                on_toggle=lambda key=key: set_opened("" if opened == key else key),  # type: ignore[misc]
            )
            for key, title, those in folded
            if those
        ]
    best = max(
        batches, key=lambda one: (one.outcome.rating or 0) if one.outcome else 0, default=None
    )
    return screen(
        "Compare",
        body,
        place="/journal",
        back=back,
        main=Act(
            f"Repeat {best.name}",
            lambda: bench.go(f"/journal/{best.id}/repeat"),
            icon=ft.Icons.REPLAY,
        )
        if best is not None and len(batches) > 1
        else None,
    )


def begun_with(batches: tuple[Batch, ...], asked: str) -> tuple[str, ...]:
    """The batch asked for and the one it was repeated from, else the best of the same cut."""
    batch = next((one for one in batches if one.id == asked), None)
    if batch is None:
        return ()
    others = [one for one in batches if one.id != asked]
    parent = [one for one in others if one.id == batch.repeated_from]
    like = [one for one in others if one.cut.casefold() == batch.cut.casefold()]
    best = find(like or others, Wanted(sort="best"))
    return (asked, *(one.id for one in (*parent, *best)[:1]))


def _heads(bench: Bench, batches: list[Batch]) -> ft.Control:
    return ft.Row(
        [
            ft.Column(
                [
                    thumbnail(
                        bench.thumb_src(one.cover_photo_id) if one.cover_photo_id else None,
                        f"Photo of {one.name}",
                        size=84,
                    ),
                    words.body(one.name, bold=True),
                ],
                spacing=4,
                expand=True,
            )
            for one in batches
        ],
        spacing=10,
        vertical_alignment=ft.CrossAxisAlignment.START,
    )


def _table(lines: list[Line], kit: Kit) -> list[ft.Control]:
    out: list[ft.Control] = []
    for part in dict.fromkeys(line.part for line in lines):
        of_part = [line for line in lines if line.part == part]
        out.append(panels.panel([_line(line, kit) for line in of_part], title=_PARTS[part]))
    return out


def _line(line: Line, kit: Kit) -> ft.Control:
    return ft.MergeSemantics(
        ft.Column(
            [
                words.small(line.label),
                ft.Row(
                    [
                        ft.Container(
                            words.body(told(value, line.kind, kit), bold=True), expand=True
                        )
                        for value in line.values
                    ],
                    spacing=10,
                    vertical_alignment=ft.CrossAxisAlignment.START,
                ),
            ],
            spacing=1,
        )
    )


def told(value: Value, kind: Kind, kit: Kit) -> str:
    """A compared value in the cook's units."""
    if value is None:
        return "not known"
    if isinstance(value, str):
        return METHOD_NAMES.get(value, value)  # type: ignore[call-overload, no-any-return]
    if isinstance(value, Paid):
        return " and ".join(amount(paid, currency) for paid, currency in value.parts)
    match kind:
        case "mass":
            return grams(value, kit)
        case "length":
            return quantities.format(value, kind, kit.system)
        case "temperature":
            return degrees(value, kit)
        case "duration":
            return say_minutes(value / 60.0)
        case "percent":
            return f"{value:.1f} %"
        case "ppm":
            return f"{value:.0f} ppm"
        case "score":
            return f"{value:.0f} of 5"
        case _:
            return f"{value:g}"
