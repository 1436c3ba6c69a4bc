"""The one chart of the program: two lines across the meat, and the strip of colours under it.

A chart is read out as one sentence; its lines differ in dash as well as in colour.
"""

from collections.abc import Sequence

import flet as ft
import flet_charts as fc  # type: ignore[import-untyped]  # ships no type marker
from attrs import frozen

from app.widgets import words

Points = Sequence[tuple[float, float]]

_AXIS_PX = 44
# A panel's width on the narrowest phone meant, and a letter of a strip where text is large [px].
_PANEL_PX, _LETTER_PX = 316, 13.2
_STEPS = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0)


@frozen
class Line:
    """One line of a chart: its points, the name on the key, its colour by role, its dash."""

    name: str
    points: Points
    colour: str
    dash: tuple[int, ...] = ()


@frozen
class Level:
    """A level drawn across the chart, with its name."""

    name: str
    value: float


def round_top(value: float) -> float:
    """The next of 1, 1.5, 2, 3, 4, 5, 6, 8 times a power of ten: where an axis ends well."""
    if value <= 0.0:
        return 1.0
    power = 1.0
    while power * 10.0 < value:
        power *= 10.0
    while power > value:
        power /= 10.0
    return next(
        (s * power for s in (1.0, 1.5, 2.0, 3.0, 4.0, 5.0, 6.0, 8.0) if s * power >= value),
        10.0 * power,
    )


def two_scales(
    says: str,
    left: Line,
    right: Line,
    levels: Sequence[Level],
    *,
    left_unit: str,
    right_unit: str,
    bottom_unit: str,
    left_top: float,
    right_top: float,
    width: float,
    bottom_factor: float = 1.0,
    height: int = 260,
) -> ft.Control:
    """A chart with a scale on each side; `says` is what a screen reader reads out.

    bottom_factor : what a point's place is multiplied by for the labels below
    """
    scale = left_top / right_top
    series = [
        _series(level.points, ft.Colors.OUTLINE, 1, (3, 5))
        for level in (Line(one.name, ((0.0, one.value), (width, one.value)), "") for one in levels)
    ]
    series.append(_series(left.points, left.colour, 3, left.dash))
    series.append(_series([(x, y * scale) for x, y in right.points], right.colour, 3, right.dash))
    chart = fc.LineChart(
        data_series=series,
        animation=0,
        interactive=False,
        min_x=0,
        max_x=width,
        min_y=0,
        max_y=left_top,
        height=height,
        expand=True,
        border=ft.Border(
            left=ft.BorderSide(1, ft.Colors.OUTLINE), bottom=ft.BorderSide(1, ft.Colors.OUTLINE)
        ),
        horizontal_grid_lines=fc.ChartGridLines(
            interval=left_top / 4.0, color=ft.Colors.OUTLINE_VARIANT, width=1
        ),
        left_axis=_axis(left_top, left_top, range(5)),
        # Its nought would lie on the last label below.
        right_axis=_axis(left_top, right_top, range(1, 5)),
        bottom_axis=_round_axis(width, bottom_factor),
    )
    picture = ft.Column(
        [
            ft.Row(
                [_key(left, left_unit), _key(right, right_unit)],
                alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
                wrap=True,
            ),
            chart,
            ft.Container(words.small(bottom_unit), alignment=ft.Alignment.CENTER),
        ],
        spacing=4,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )
    return ft.Semantics(
        label=says, image=True, exclude_semantics=True, container=True, content=picture
    )


def _series(points: Points, colour: str, width: float, dash: Sequence[int]) -> fc.LineChartData:
    return fc.LineChartData(
        points=[fc.LineChartDataPoint(x, y) for x, y in points],
        color=colour,
        stroke_width=width,
        dash_pattern=list(dash) or None,
        rounded_stroke_cap=True,
        point=False,
    )


def _axis(end: float, told: float, at: range) -> fc.ChartAxis:
    """Five places along an axis that ends at `end` and is told as going to `told`."""
    return fc.ChartAxis(
        labels=[
            fc.ChartAxisLabel(
                value=end * i / 4.0,
                label=ft.Text(
                    f"{told * i / 4.0:.3g}",
                    size=12,
                    color=ft.Colors.ON_SURFACE,
                    no_wrap=True,
                ),
            )
            for i in at
        ],
        label_size=_AXIS_PX,
        label_spacing=end / 4.0,
    )


def _round_axis(end: float, factor: float) -> fc.ChartAxis:
    """An axis marked at round numbers of the unit it is told in."""
    told = end * factor
    step = next((one for one in _STEPS if told / one <= 5.0), told)
    return fc.ChartAxis(
        labels=[
            fc.ChartAxisLabel(
                value=step * i / factor,
                label=ft.Text(f"{step * i:g}", size=12, color=ft.Colors.ON_SURFACE, no_wrap=True),
            )
            for i in range(int(told / step + 1e-6) + 1)
        ],
        label_size=26,
        label_spacing=step / factor,
    )


def _key(line: Line, unit: str) -> ft.Control:
    mark: ft.Control = ft.Row(
        [
            ft.Container(width=8 if line.dash else 24, height=4, bgcolor=line.colour)
            for _ in range(2 if line.dash else 1)
        ],
        spacing=6,
        tight=True,
    )
    return ft.Row([mark, words.small(f"{line.name}, {unit}")], spacing=6, tight=True)


@frozen
class Part:
    """One stretch of a strip: how long, what it is called, its ground and ink, height and rim."""

    length: float
    name: str
    ground: str
    ink: str
    height: float = 44.0
    rim: str = ""


def strip(says: str, parts: Sequence[Part], inset_px: int = _AXIS_PX) -> ft.Control:
    """A strip cut into stretches, each named where its name fits; inset to lie below a chart."""
    whole = sum(part.length for part in parts) or 1.0
    letter = whole * _LETTER_PX / (_PANEL_PX - 2 * inset_px)
    return ft.Semantics(
        label=says,
        image=True,
        exclude_semantics=True,
        container=True,
        content=ft.Container(
            ft.Row(
                [
                    ft.Container(
                        ft.Text(
                            part.name if part.length > letter * len(part.name) else "",
                            size=14,
                            color=part.ink,
                            weight=ft.FontWeight.W_600,
                            no_wrap=True,
                        ),
                        expand=max(1, round(1000.0 * part.length / whole)),
                        height=part.height,
                        bgcolor=part.ground,
                        border=ft.Border.all(1, part.rim) if part.rim else None,
                        alignment=ft.Alignment.CENTER,
                    )
                    for part in parts
                    if part.length > 0.0
                ],
                spacing=0,
            ),
            padding=ft.Padding(left=inset_px, right=inset_px),
        ),
    )
