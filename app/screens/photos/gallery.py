"""Photos by stage: of one batch, or of all batches beside each other."""

from collections.abc import Callable, Sequence

import flet as ft

from app.journal.photo_readings import in_record
from app.journal.records import Batch, Photo
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.photos.photo_told import STAGES, figures, marks_told
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen, side_button
from app.widgets.picture import thumbnail

A_PAGE = 24
"""So many small pictures are drawn at first; more on asking."""

THUMB_PX = 156
"""Two beside each other on a phone, each as sharp as its small picture is."""

Shot = tuple[Batch, Photo]


def shots(bench: Bench, batch: Batch | None) -> list[Shot]:
    """Photos of one batch, or of all, newest first."""
    batches = [batch] if batch is not None else bench.shown.batches
    found = [
        (one, photo)
        for one in batches
        for photo in in_record(bench.photos(one.id), bench.entries(one.id))
    ]
    return sorted(found, key=lambda shot: (-shot[1].taken.utc_s, shot[1].id))


def stages_in(found: Sequence[Shot]) -> list[str]:
    """The stages that have photos, in the order of the work."""
    there = {photo.stage for _, photo in found}
    return [stage for stage in STAGES if stage in there]


@ft.component
def GalleryScreen() -> ft.View:
    """Small pictures by stage; two can be chosen to stand beside each other."""
    bench, batch = use_bench(), use_batch()
    stage, set_stage = ft.use_state("all")
    choosing, set_choosing = ft.use_state(False)
    none_yet: tuple[str, ...] = ()
    chosen, set_chosen = ft.use_state(none_yet)
    most, set_most = ft.use_state(A_PAGE)
    batch_id = batch.id if batch else ""
    found = ft.use_memo(lambda: shots(bench, batch), [bench.shown.turn, batch_id])
    back = f"/journal/{batch.id}" if batch else "/journal"
    if not found:
        return screen(
            "Photos",
            [
                panels.empty(
                    "No photos yet.",
                    "Press Photo in a batch: the bark at the wrap and the slice on the board "
                    "are the two worth having.",
                )
            ],
            place="/journal",
            back=back,
        )

    def press(photo: Photo) -> None:
        if not choosing:
            bench.go(f"/journal/{photo.batch_id}/photo/{photo.id}")
        elif photo.id in chosen:
            set_chosen(tuple(one for one in chosen if one != photo.id))
        else:
            set_chosen((*chosen[-1:], photo.id))

    stages = stages_in(found)
    wanted = [shot for shot in found if stage in ("all", shot[1].stage)]
    body: list[ft.Control] = []
    if batch is not None:
        body.append(words.small(batch.name))
        body.append(
            panels.door(
                "The same in all batches",
                "by stage, across the journal",
                lambda: bench.go("/photos"),
                ft.Icons.PHOTO_LIBRARY_OUTLINED,
            )
        )
    if len(stages) > 1:
        options = [("all", "All"), *((one, STAGES[one]) for one in stages)]
        body.append(fields.choice("Stage", options, stage, set_stage))
    if choosing:
        body.append(words.body("Touch two photos to set them beside each other."))
    body += _by_stage(bench, wanted[:most], batch is None, chosen, press)
    if len(wanted) > most:
        more = Act(f"Show more of {len(wanted)}", lambda: set_most(most + 2 * A_PAGE))
        body.append(side_button(more))
    if not choosing:
        main = Act("Compare two", lambda: set_choosing(True), ft.Icons.COMPARE)
    else:
        main = Act(
            "Set them side by side",
            lambda: bench.go(f"/photos/beside/{chosen[0]}/{chosen[1]}"),
            ft.Icons.COMPARE,
            enabled=len(chosen) == 2,
        )
    return screen(
        "Photos", body, place="/journal", back=back, main=main if len(found) > 1 else None
    )


def _by_stage(
    bench: Bench,
    wanted: Sequence[Shot],
    named: bool,
    chosen: Sequence[str],
    press: Callable[[Photo], None],
) -> list[ft.Control]:
    rows: list[ft.Control] = []
    for stage in stages_in(wanted):
        rows.append(words.heading(STAGES[stage]))
        rows.append(
            ft.Row(
                [
                    _card(bench, batch, photo, named, photo.id in chosen, press)
                    for batch, photo in wanted
                    if photo.stage == stage
                ],
                wrap=True,
                spacing=10,
                run_spacing=10,
                vertical_alignment=ft.CrossAxisAlignment.START,
            )
        )
    return rows


def _card(
    bench: Bench,
    batch: Batch,
    photo: Photo,
    named: bool,
    is_chosen: bool,
    press: Callable[[Photo], None],
) -> ft.Control:
    when = say_wall(wall_of(photo.taken), bench.wall())
    told = [*(["measured"] if figures(photo, bench.shown.kit) else []), *marks_told(photo)]
    spoken = ", ".join(
        part
        for part in (STAGES[photo.stage], batch.name, when, *told, "chosen" if is_chosen else "")
        if part
    )
    says = batch.name if named else when
    return ft.MergeSemantics(
        ft.Semantics(
            label=spoken,
            button=True,
            content=ft.Container(
                ft.Semantics(
                    exclude_semantics=True,
                    content=ft.Column(
                        [
                            thumbnail(bench.thumb_src(photo.id), spoken, size=THUMB_PX),
                            *([ft.Icon(ft.Icons.CHECK, size=20)] if is_chosen else []),
                            ft.Text(
                                says,
                                size=14,
                                max_lines=2,
                                color=ft.Colors.ON_SURFACE,
                                weight=ft.FontWeight.W_700 if is_chosen else None,
                            ),
                            *(words.small(one) for one in told),
                        ],
                        spacing=2,
                        tight=True,
                    ),
                ),
                width=THUMB_PX + 12,
                padding=6,
                ink=True,
                border_radius=12,
                border=ft.Border.all(
                    3 if is_chosen else 1,
                    ft.Colors.PRIMARY if is_chosen else ft.Colors.OUTLINE_VARIANT,
                ),
                on_click=lambda _: press(photo),
            ),
        )
    )
