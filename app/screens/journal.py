"""Journal: every batch, found by words, newest first."""

import flet as ft

from app import quantities
from app.cure.targets import METHOD_NAMES
from app.journal.records import Batch
from app.journal.search import Sort, Wanted, find
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench, use_bench
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen
from app.widgets.picture import thumbnail

SORTS: tuple[tuple[Sort, str], ...] = (
    ("newest", "Newest"),
    ("best", "Best"),
    ("name", "Name"),
)


@ft.component
def JournalScreen() -> ft.View:
    """All batches, or those that fit the words."""
    bench = use_bench()
    typed, set_typed = ft.use_state("")
    sort, set_sort = ft.use_state("newest")
    batches = bench.shown.batches
    if not batches:
        return screen(
            "Journal",
            [
                panels.empty(
                    "No batch yet.",
                    "Work out a mix and start a batch from it; its record grows here.",
                )
            ],
            place="/journal",
            main=Act("To the mix", lambda: bench.go("/mix"), icon=ft.Icons.SCALE),
            side=Act("See an example", bench.load_demonstration),
        )
    records = {one.id: bench.entries(one.id) for one in batches} if typed.strip() else None
    wanted = Wanted(words=typed, sort=sort)  # type: ignore[arg-type]
    found = find(batches, wanted, records)
    return screen(
        "Journal",
        [
            fields.text_field("Find", typed, set_typed, hint="a cut, a name, a word of a note"),
            fields.choice("Order", SORTS, sort, set_sort, show_label=False),
            *(
                [_card(bench, batch, key=batch.id) for batch in found]
                or [panels.empty("Nothing fits these words.", "Try fewer of them.")]
            ),
        ],
        place="/journal",
        main=Act("New batch", lambda: bench.go("/mix"), icon=ft.Icons.ADD),
        side=Act("Compare", lambda: bench.go("/compare"), enabled=len(batches) > 1),
    )


def batch_line(bench: Bench, batch: Batch) -> str:
    """The facts of a batch in one line."""
    kit = bench.shown.kit
    return (
        f"{quantities.format(batch.mix.meat_g, 'mass', kit.system)} · "
        f"{METHOD_NAMES[batch.mix.method].lower()} · "
        f"{say_wall(wall_of(batch.created), bench.wall())}"
    )


def _card(bench: Bench, batch: Batch, key: str) -> ft.Control:
    rating = batch.outcome.rating if batch.outcome else None
    marks: list[str] = []
    if batch.demonstration:
        marks.append("Example")
    marks.append("finished" if batch.finished else "running")
    if rating is not None:
        marks.append(f"{rating} of 5")
    src = bench.thumb_src(batch.cover_photo_id) if batch.cover_photo_id else None
    card = panels.pressable(
        ft.Row(
            [
                thumbnail(src, f"Photo of {batch.name}"),
                ft.Column(
                    [
                        words.body(batch.name, bold=True),
                        words.small(batch_line(bench, batch)),
                        words.small(" · ".join(marks)),
                    ],
                    spacing=2,
                    expand=True,
                ),
            ],
            spacing=12,
        ),
        lambda: bench.go(f"/journal/{batch.id}"),
    )
    card.key = key
    return card
