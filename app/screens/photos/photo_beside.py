"""Two photos at the same scale, side by side or one over the other with a slider."""

from collections.abc import Callable

import flet as ft

from app.journal.photo_readings import mm_per_part
from app.journal.records import Batch, Photo
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench, use_bench
from app.screens.photos.gallery import Shot, shots
from app.screens.photos.photo import MOST_SCALE
from app.screens.photos.photo_told import STAGES, figures
from app.widgets import fields, panels, words
from app.widgets.frame import Act, screen
from app.widgets.marked_picture import USUAL_WIDTH_PX
from app.widgets.picture import over_each_other, side_by_side, thumbnail

MOST_OFFERED = 12
STEP = 0.1
"""How far the slider goes at a screen reader's word, as a part of it."""


def shot_of(bench: Bench, photo_id: str) -> Shot | None:
    """A photo by its name alone, with its batch."""
    photo = bench.shelf.photo(photo_id)
    batch = bench.batch(photo.batch_id) if photo is not None else None
    return (batch, photo) if batch is not None and photo is not None else None


def same_scale(one: Photo, other: Photo) -> tuple[float, bool]:
    """How many times wider the other must be drawn, and whether that is by measured lengths.

    By the thickness on both lines where both were measured; else both as wide as each other.
    """
    first, second = mm_per_part(one), mm_per_part(other)
    if first is None or second is None or not 0.25 <= second / first <= 4.0:
        return 1.0, False
    return second / first, True


@ft.component
def BesideScreen() -> ft.View:
    """The one from the photo it was opened from, the other chosen here."""
    bench = use_bench()
    params = ft.use_route_params()
    way, set_way = ft.use_state("side")
    part, set_part = ft.use_state(0.5)
    room, set_room = ft.use_state(USUAL_WIDTH_PX)
    one = shot_of(bench, params.get("one", ""))
    other = shot_of(bench, params.get("other", ""))
    if one is None:
        return screen(
            "Beside each other",
            [panels.empty("This photo is not here.", "Choose another in the journal.")],
            place="/journal",
            back="/journal",
        )
    back = f"/journal/{one[0].id}/photo/{one[1].id}"
    if other is None:
        return screen(
            "Beside which?",
            [words.body("Choose the photo to set beside this one."), *_offers(bench, one)],
            place="/journal",
            back=back,
        )
    factor, by_length = same_scale(one[1], other[1])
    drawn = (
        (bench.photo_src(one[1].id), one[1].width / one[1].height),
        (bench.photo_src(other[1].id), other[1].width / other[1].height),
    )
    spoken = f"{_says(bench, one)}, beside {_says(bench, other)}"
    if way == "side":
        pictures = side_by_side(drawn[0], drawn[1], factor, room, spoken)
    else:
        pictures = over_each_other(drawn[0], drawn[1], factor, room, part, spoken)
    body: list[ft.Control] = [
        ft.Container(
            ft.InteractiveViewer(content=pictures, max_scale=MOST_SCALE),
            on_size_change=lambda e: set_room(e.width) if e.width > 1.0 else None,
        )
    ]
    if way == "slider":
        body.append(_slider(part, set_part, one[1], other[1]))
    body += [
        words.small(
            "At the same scale by the thickness measured in both."
            if by_length
            else "Drawn as wide as each other. Measure the cure line with the thickness in both, "
            "and they stand at the same scale."
        ),
        fields.choice(
            "Look at them", (("side", "Side by side"), ("slider", "With a slider")), way, set_way
        ),
        ft.Row(
            [_told(bench, "Left", one), _told(bench, "Right", other)],
            spacing=10,
            vertical_alignment=ft.CrossAxisAlignment.START,
        ),
    ]
    return screen(
        "Beside each other",
        body,
        place="/journal",
        back=back,
        main=Act(
            "Change sides",
            lambda: bench.go(f"/photos/beside/{other[1].id}/{one[1].id}"),
            icon=ft.Icons.SWAP_HORIZ,
        ),
        side=Act("Another", lambda: bench.go(f"/photos/beside/{one[1].id}")),
    )


def seen(part: float, left: Photo, right: Photo) -> str:
    """What the slider shows where it stands, in words; the number tells that it has moved.

    part : how much of the left one is seen, from 0 to 1
    """
    percent = round(100.0 * part)
    ages = ("", "")
    if left.taken.utc_s != right.taken.utc_s:
        ages = (", the earlier one", ", the later one")
        ages = ages if left.taken.utc_s < right.taken.utc_s else ages[::-1]
    if percent == 50:
        return "half of each"
    share = max(percent, 100 - percent)
    photo = f"the left photo{ages[0]}" if percent > 50 else f"the right photo{ages[1]}"
    return f"only {photo}" if share == 100 else f"more of {photo}, {share} %"


def _slider(
    part: float, set_part: Callable[[float], object], left: Photo, right: Photo
) -> ft.Control:
    """The slider; whoever does not see it hears which photo it shows, not a bare number."""
    less, more = max(0.0, part - STEP), min(1.0, part + STEP)
    slider = ft.Semantics(
        slider=True,
        container=True,
        exclude_semantics=True,
        focusable=True,
        value=seen(part, left, right),
        increased_value=seen(more, left, right),
        decreased_value=seen(less, left, right),
        on_increase=lambda _: set_part(more),
        on_decrease=lambda _: set_part(less),
        content=ft.Slider(
            value=part, min=0.0, max=1.0, on_change=lambda e: set_part(float(e.control.value or 0))
        ),
    )
    # The client gives a slider's own name to nobody, but a group's is read out.
    return ft.Semantics(label="Which of the two is seen", container=True, content=slider)


def _says(bench: Bench, shot: Shot) -> str:
    batch, photo = shot
    when = say_wall(wall_of(photo.taken), bench.wall())
    return f"{STAGES[photo.stage]} of {batch.name}, {when}"


def _told(bench: Bench, side: str, shot: Shot) -> ft.Control:
    batch, photo = shot
    rows: list[ft.Control] = [
        words.small(side),
        words.body(batch.name, bold=True),
        words.small(f"{STAGES[photo.stage]}, {say_wall(wall_of(photo.taken), bench.wall())}"),
    ]
    if batch.outcome is not None and batch.outcome.rating is not None:
        rows.append(words.small(f"Verdict {batch.outcome.rating} of 5"))
    rows += [words.small(f"{name}: {value}") for name, value in figures(photo, bench.shown.kit)]
    return ft.Column(rows, spacing=2, expand=True)


def _offers(bench: Bench, one: Shot) -> list[ft.Control]:
    """Other photos, those of the same stage first and the best rated batch before others."""

    def rank(shot: Shot) -> tuple[bool, int, float]:
        batch, photo = shot
        rating = (batch.outcome.rating or 0) if batch.outcome else 0
        return photo.stage != one[1].stage, -rating, -photo.taken.utc_s

    found = sorted((s for s in shots(bench, None) if s[1].id != one[1].id), key=rank)
    if not found:
        return [panels.empty("There is no other photo.", "Take one, or wait for the next batch.")]
    return [_offer(bench, one, batch, photo) for batch, photo in found[:MOST_OFFERED]]


def _offer(bench: Bench, one: Shot, batch: Batch, photo: Photo) -> ft.Control:
    says, when = _says(bench, (batch, photo)), say_wall(wall_of(photo.taken), bench.wall())
    return panels.pressable(
        ft.Row(
            [
                thumbnail(bench.thumb_src(photo.id), says),
                ft.Column(
                    [
                        words.body(batch.name, bold=True),
                        words.small(f"{STAGES[photo.stage]} · {when}"),
                    ],
                    spacing=2,
                    expand=True,
                ),
            ],
            spacing=12,
        ),
        lambda: bench.go(f"/photos/beside/{one[1].id}/{photo.id}"),
    )
