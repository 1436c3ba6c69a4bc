"""Temperatures over time as lines, with the stages as numbered marks."""

from collections.abc import Sequence

import flet as ft
import flet.canvas as cv
import flet_charts as fc  # type: ignore[import-untyped]
from attrs import frozen

from app.widgets.spread import in_rows

HEIGHT = 260
# A panel's width on the narrowest phone meant, until the layout has told the true one [px].
_PANEL_PX = 316.0
_UNIT_PX, _LABEL_PX = 22, 38
# A digit and a row of numbers where text is large, and the way from them down to the chart [px].
_DIGIT_PX, _BETWEEN_PX, _ROW_PX, _WAY_PX = 12.0, 6.0, 26.0, 14.0


@frozen
class Series:
    """One line: what it is called, and its points as whole minutes and degrees."""

    name: str
    points: tuple[tuple[int, float], ...]


@frozen
class Mark:
    """A moment, in whole minutes, told by its number."""

    minutes: int
    number: int


# Line and point differ in shape too, so that colour is not the only sign.
_LOOKS: tuple[tuple[str, list[int] | None, type[fc.ChartPointShape]], ...] = (
    (ft.Colors.PRIMARY, None, fc.ChartCirclePoint),
    (ft.Colors.SECONDARY, [8, 5], fc.ChartSquarePoint),
    (ft.Colors.TERTIARY, [2, 4], fc.ChartCirclePoint),
    (ft.Colors.ON_SURFACE, [12, 3, 2, 3], fc.ChartSquarePoint),
)
_SIGNS = ("full line", "long dashes", "dots", "dash and dot")


def _point(shape: type[fc.ChartPointShape], colour: str) -> fc.ChartPointShape:
    if shape is fc.ChartSquarePoint:
        return fc.ChartSquarePoint(color=colour, size=9)
    return fc.ChartCirclePoint(color=colour, radius=4)


def _line(number: int, series: Series) -> fc.LineChartData:
    colour, dashes, shape = _LOOKS[number % len(_LOOKS)]
    return fc.LineChartData(
        points=[fc.LineChartDataPoint(x, y, point=_point(shape, colour)) for x, y in series.points],
        color=colour,
        stroke_width=3,
        dash_pattern=dashes,
        rounded_stroke_cap=dashes is None,
    )


def _upright(mark: Mark, low: float, high: float) -> fc.LineChartData:
    return fc.LineChartData(
        points=[
            fc.LineChartDataPoint(mark.minutes, low, point=False),
            fc.LineChartDataPoint(mark.minutes, high, point=False),
        ],
        color=ft.Colors.OUTLINE,
        stroke_width=1,
        dash_pattern=[3, 3],
    )


def _step(span: float, steps: Sequence[float], most: int) -> float:
    return next((step for step in steps if span / step <= most), steps[-1])


@ft.component
def TemperatureChart(
    series: Sequence[Series], marks: Sequence[Mark], unit: str, spoken: str
) -> ft.Control:
    """The chart. `spoken` says in a sentence what it shows; the readings are listed elsewhere."""
    width, set_width = ft.use_state(_PANEL_PX)
    ys = [y for one in series for _, y in one.points]
    xs = [x for one in series for x, _ in one.points]
    tall = _step(max(ys) - min(ys) + 1.0, (5.0, 10.0, 20.0, 25.0, 50.0, 100.0), 5)
    # A little room, so that no point is cut by the frame.
    room = 0.15 * tall
    low, high = tall * ((min(ys) - room) // tall), tall * ((max(ys) + room) // tall + 1)
    end = max(*xs, *(mark.minutes for mark in marks), 30)
    wide = round(60 * _step(end / 60.0, (0.25, 0.5, 1, 2, 3, 6, 12, 24, 48, 96, 240), 6))
    chart = fc.LineChart(
        data_series=[
            *(_line(number, one) for number, one in enumerate(series)),
            *(_upright(mark, low, high) for mark in marks),
        ],
        min_x=0,
        max_x=end,
        min_y=low,
        max_y=high,
        height=HEIGHT,
        interactive=False,
        animation=0,
        horizontal_grid_lines=fc.ChartGridLines(
            interval=tall, color=ft.Colors.OUTLINE_VARIANT, width=1
        ),
        border=ft.Border.all(1, ft.Colors.OUTLINE),
        left_axis=fc.ChartAxis(
            title=_small(unit),
            title_size=_UNIT_PX,
            label_size=_LABEL_PX,
            label_spacing=tall,
            labels=[
                fc.ChartAxisLabel(low + tall * n, _small(f"{low + tall * n:.0f}"))
                for n in range(round((high - low) / tall) + 1)
            ],
        ),
        bottom_axis=fc.ChartAxis(
            title=_small("hours"),
            title_size=22,
            label_size=24,
            label_spacing=wide,
            labels=[
                fc.ChartAxisLabel(wide * n, _small(f"{wide * n / 60:g}"))
                for n in range(end // wide + 1)
            ],
        ),
        top_axis=fc.ChartAxis(show_labels=False),
        right_axis=fc.ChartAxis(show_labels=False),
    )
    legend = ft.Row(
        [_key(number, one.name) for number, one in enumerate(series)],
        wrap=True,
        spacing=14,
        run_spacing=2,
    )
    return ft.Column(
        [
            ft.Container(
                ft.Semantics(
                    label=spoken,
                    image=True,
                    container=True,
                    exclude_semantics=True,
                    content=ft.Column(
                        [*_numbers(marks, end, width), chart],
                        spacing=0,
                        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
                    ),
                ),
                on_size_change=lambda e: set_width(e.width) if e.width > 1.0 else None,
            ),
            legend,
        ],
        spacing=6,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def _numbers(marks: Sequence[Mark], end: int, width: float) -> list[ft.Control]:
    """The marks' numbers above the chart, each with a line to its place on it."""
    if not marks:
        return []
    ordered = sorted(marks, key=lambda one: (one.minutes, one.number))
    left = float(_UNIT_PX + _LABEL_PX)
    own = [left + (width - left) * mark.minutes / end for mark in ordered]
    wide = _DIGIT_PX * len(str(max(mark.number for mark in marks))) + _BETWEEN_PX
    placed = in_rows(own, wide, wide / 2.0, width - wide / 2.0)
    rows = 1 + max(one.row for one in placed)
    below = rows * _ROW_PX
    ink = ft.Paint(color=ft.Colors.OUTLINE, stroke_width=1, style=ft.PaintingStyle.STROKE)
    lines: list[cv.Shape] = []
    numbers: list[ft.Control] = []
    for mark, one, x in zip(ordered, placed, own, strict=True):
        top = (rows - 1 - one.row) * _ROW_PX
        way = [
            cv.Path.MoveTo(one.at, top + _ROW_PX),
            cv.Path.LineTo(one.at, below),
            cv.Path.LineTo(x, below + _WAY_PX),
        ]
        lines.append(cv.Path(way, ink))
        numbers.append(
            ft.Container(
                _small(str(mark.number)),
                left=one.at - wide / 2.0,
                top=top,
                width=wide,
                height=_ROW_PX,
                alignment=ft.Alignment.BOTTOM_CENTER,
            )
        )
    height = below + _WAY_PX
    return [
        ft.Stack([cv.Canvas(shapes=lines, width=width, height=height), *numbers], height=height)
    ]


def _small(text: str) -> ft.Text:
    return ft.Text(text, size=12, color=ft.Colors.ON_SURFACE_VARIANT, no_wrap=True)


def _key(number: int, name: str) -> ft.Control:
    colour, _, shape = _LOOKS[number % len(_LOOKS)]
    return ft.Row(
        [
            ft.Container(
                width=12,
                height=12,
                bgcolor=colour,
                border_radius=0 if shape is fc.ChartSquarePoint else 6,
            ),
            ft.Text(f"{name}, {_SIGNS[number % len(_SIGNS)]}", size=14, color=ft.Colors.ON_SURFACE),
        ],
        spacing=6,
        tight=True,
    )
