"""The slice as the model expects it, on any day: cured, pale and grey, and salt across it."""

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise
from typing import Literal

import flet as ft
from attrs import frozen

from app import quantities
from app.cure.working import Working
from app.quantities import MM_PER_IN
from app.screens.bench import Bench, use_bench
from app.screens.drafts import use_draft
from app.screens.mix.cure_in_hand import CureInHand
from app.screens.mix.how_long import cure_of, no_mix
from app.transport.brining import NITRITE, SALT
from app.transport.course import Snapshot, Solute, Stage
from app.transport.days import FIRST_PINK_PPM, FULL_COLOUR_PPM
from app.transport.diffusion import simulate
from app.transport.diffusivity import SALT as SALT_MOVES
from app.transport.outlook import CELLS
from app.transport.picture import SlicePicture, SlicePoint, slice_picture
from app.widgets import charts, fields, panels, words
from app.widgets.frame import screen

Pace = Literal["slow", "likely", "quick"]

ACROSS = 41
"""Places drawn across the meat: more are not seen on a phone."""

_GROUNDS = {
    "cured": (ft.Colors.PRIMARY, ft.Colors.ON_PRIMARY),
    "pale": (ft.Colors.PRIMARY_CONTAINER, ft.Colors.ON_PRIMARY_CONTAINER),
    "grey": (ft.Colors.SURFACE_CONTAINER_HIGHEST, ft.Colors.ON_SURFACE),
}


def picture_on(cure: CureInHand, day: float, pace: Pace = "likely") -> SlicePicture:
    """The slice on a day, for meat that takes the cure slowly, likely or quickly."""
    return slice_picture(_moment(cure, day, pace), cure.model.meat_water, ACROSS)


def _moment(cure: CureInHand, day: float, pace: Pace) -> Snapshot:
    index = {"slow": 0, "likely": 1, "quick": 2}[pace]
    nitrite = cure.own.diffusivity
    solutes = (
        Solute(SALT, SALT_MOVES.slow_to_fast[index], SALT_MOVES.activation_kj_mol),
        Solute(NITRITE, nitrite.slow_to_fast[index], nitrite.activation_kj_mol),
    )
    model = cure.model
    stage = Stage("cure", 24.0 * day, model.bath, cure.fridge_c)
    return simulate([stage], model.piece, solutes, model.start, cells=CELLS).end


def parts_of(points: Sequence[SlicePoint]) -> list[tuple[str, float]]:
    """Stretches of one colour from side to side, with their lengths [mm]."""
    stretches: list[tuple[str, float]] = []
    for left, right in pairwise(points):
        half = (right.position_mm - left.position_mm) / 2.0
        for colour in (left.colour, right.colour):
            if stretches and stretches[-1][0] == colour:
                stretches[-1] = (colour, stretches[-1][1] + half)
            else:
                stretches.append((colour, half))
    return stretches


LOOKED_AT = "the slice that is looked at"


@frozen
class LookedAt:
    """The day and the meat the slice is pictured for; a day below 0 is the day it is pulled."""

    day: float = -1.0
    pace: Pace = "likely"

    def day_of(self, cure: CureInHand) -> float:
        return cure.pulled if self.day < 0.0 else min(self.day, cure.days_to_show)


def workings(bench: Bench) -> Mapping[str, Working]:
    """How the picture was worked out."""
    cure = cure_of(bench).cure
    if cure is None:
        return {}
    looked = bench.drafts.get(LOOKED_AT) or LookedAt()
    return {"picture": picture_on(cure, looked.day_of(cure), looked.pace).working}


@ft.component
def ProfileScreen() -> ft.View:
    """The picture; the day is dragged."""
    bench = use_bench()
    looked, change, _ = use_draft(LOOKED_AT, LookedAt)
    got = cure_of(bench)
    if got.cure is None:
        return no_mix("The slice, day by day", got.trouble)
    cure = got.cure
    day = looked.day_of(cure)
    picture = picture_on(cure, day, looked.pace)
    return screen(
        "The slice, day by day",
        [
            day_slider(day, cure.days_to_show, lambda to: change(day=to)),
            slice_chart(picture, _tops(cure), metric=bench.metric),
            panels.panel(
                [
                    words.body(picture.says),
                    *(
                        panels.figure(name, f"{percent:.0f} %", note=note)
                        for name, percent, note in (
                            ("Cured", picture.cured_percent, f"{FULL_COLOUR_PPM:.0f} ppm and more"),
                            (
                                "Pale",
                                picture.pale_percent,
                                f"{FIRST_PINK_PPM:.0f} to {FULL_COLOUR_PPM:.0f} ppm",
                            ),
                            ("Grey", picture.grey_percent, f"less than {FIRST_PINK_PPM:.0f} ppm"),
                        )
                    ),
                    panels.figure(
                        "How this was worked out",
                        "",
                        on_open=lambda: bench.go("/mix/face/how/picture"),
                    ),
                ],
                title="Of the thickness",
            ),
            fields.choice(
                "Meat that takes the cure",
                (("slow", "Slowly"), ("likely", "Likely"), ("quick", "Quickly")),
                looked.pace,
                lambda key: change(pace=key),
            ),
            words.small(
                f"Dotted: first pink at {FIRST_PINK_PPM:.0f} ppm and full colour at "
                f"{FULL_COLOUR_PPM:.0f} ppm of nitrite."
            ),
            words.small(
                "No two pieces are alike: look at all three. Fat, grain and cold slow it down."
            ),
        ],
        place="/mix",
        back="/mix",
    )


def day_slider(day: float, last: float, on_day: Callable[[float], None]) -> ft.Control:
    """The day, dragged or stepped by half days."""

    def step(by: float) -> Callable[[], None]:
        return lambda: on_day(min(max(day + by, 0.0), last))

    return panels.panel(
        [
            ft.Row(
                [
                    panels.step_button(ft.Icons.REMOVE, "Half a day less", step(-0.5)),
                    ft.Semantics(
                        live_region=True,
                        content=words.number(f"Day {day:g}" if day != 1.0 else "Day 1", large=True),
                    ),
                    panels.step_button(ft.Icons.ADD, "Half a day more", step(0.5)),
                ],
                alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
            ),
            ft.Semantics(
                label="Day in the cure",
                content=ft.Slider(
                    value=round(2.0 * day) / 2.0,
                    min=0,
                    max=last,
                    divisions=round(2.0 * last),
                    on_change=lambda e: on_day(round(2.0 * float(e.control.value or 0.0)) / 2.0),
                ),
            ),
        ]
    )


def _tops(cure: CureInHand) -> tuple[float, float]:
    """Where the scales end, the same for every day so that the lines can be compared."""
    first = picture_on(cure, 0.25, "quick").points
    last = picture_on(cure, cure.days_to_show, "quick").points
    both = (*first, *last)
    return (
        charts.round_top(max(FULL_COLOUR_PPM * 1.2, *(p.nitrite_ppm for p in both))),
        charts.round_top(max(1.0, *(p.salt_percent for p in both))),
    )


def slice_chart(picture: SlicePicture, tops: tuple[float, float], *, metric: bool) -> ft.Control:
    """Nitrite and salt across the meat, and the colours under them."""
    width = picture.points[-1].position_mm
    stretches = parts_of(picture.points)
    return ft.Column(
        [
            charts.two_scales(
                picture.says,
                charts.Line(
                    "Nitrite",
                    [(p.position_mm, p.nitrite_ppm) for p in picture.points],
                    ft.Colors.PRIMARY,
                ),
                charts.Line(
                    "Salt",
                    [(p.position_mm, p.salt_percent) for p in picture.points],
                    ft.Colors.TERTIARY,
                    (8, 6),
                ),
                (
                    charts.Level("first pink", FIRST_PINK_PPM),
                    charts.Level("full colour", FULL_COLOUR_PPM),
                ),
                left_unit="ppm",
                right_unit="%",
                bottom_unit=f"{'mm' if metric else 'inches'} across the meat",
                left_top=tops[0],
                right_top=tops[1],
                width=width,
                bottom_factor=1.0 if metric else 1.0 / MM_PER_IN,
            ),
            charts.strip(
                "From side to side: "
                + ", ".join(
                    f"{quantities.format(length, 'length', 'metric' if metric else 'us')} {colour}"
                    for colour, length in stretches
                ),
                [charts.Part(length, colour, *_GROUNDS[colour]) for colour, length in stretches],
            ),
        ],
        spacing=8,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )
