"""One figure from batch to batch: a dot for each, joined in the order they were begun."""

from collections.abc import Sequence

import flet as ft
import flet_charts as fc  # type: ignore[import-untyped]  # ships no type marker

from app.widgets import words

HEIGHT = 170
_MOST_NUMBERS = 12


def course_chart(
    title: str, points: Sequence[tuple[int, float]], count: int, says: str
) -> ft.Control:
    """A chart of values by number, 1 to `count`; `says` is what a screen reader reads out."""
    low, high, step = scale([value for _, value in points])
    every = -(-count // _MOST_NUMBERS)
    chart = fc.LineChart(
        data_series=[
            fc.LineChartData(
                points=[
                    fc.LineChartDataPoint(
                        number, value, point=fc.ChartCirclePoint(color=ft.Colors.PRIMARY, radius=5)
                    )
                    for number, value in points
                ],
                color=ft.Colors.PRIMARY,
                stroke_width=2,
                rounded_stroke_cap=True,
            )
        ],
        animation=0,
        interactive=False,
        min_x=0.5,
        max_x=count + 0.5,
        min_y=low,
        max_y=high,
        height=HEIGHT,
        border=ft.Border(
            left=ft.BorderSide(1, ft.Colors.OUTLINE), bottom=ft.BorderSide(1, ft.Colors.OUTLINE)
        ),
        horizontal_grid_lines=fc.ChartGridLines(
            interval=step, color=ft.Colors.OUTLINE_VARIANT, width=1
        ),
        left_axis=fc.ChartAxis(
            label_size=44,
            label_spacing=step,
            labels=[
                fc.ChartAxisLabel(low + n * step, _small(f"{low + n * step:g}"))
                for n in range(round((high - low) / step) + 1)
            ],
        ),
        right_axis=fc.ChartAxis(show_labels=False, label_size=8),
        top_axis=fc.ChartAxis(show_labels=False, label_size=8),
        bottom_axis=fc.ChartAxis(
            label_size=26,
            label_spacing=1,
            labels=[
                fc.ChartAxisLabel(number, _small(str(number)))
                for number in range(1, count + 1, every)
            ],
        ),
    )
    return ft.Semantics(
        label=says,
        image=True,
        exclude_semantics=True,
        container=True,
        content=ft.Column(
            [words.body(title, bold=True), chart],
            spacing=6,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        ),
    )


def scale(values: Sequence[float]) -> tuple[float, float, float]:
    """Where the upright scale begins, ends, and its step: round numbers, few steps.

    >>> scale([62.0, 70.0])
    (60.0, 72.0, 2.0)
    >>> [round(part, 3) for part in scale([2.5, 2.5])]
    [2.4, 2.6, 0.2]
    """
    least, most = min(values), max(values)
    span = max(most - least, 0.05 * abs(most), 0.5)
    power = 1e-3
    while power * 10.0 <= span:
        power *= 10.0
    step = next(s * power for s in (0.25, 0.5, 1.0, 2.0, 4.0, 5.0, 10.0) if span / (s * power) <= 4)
    low = step * ((least - 0.05 * span) // step)
    high = step * ((most + 0.05 * span) // step + 1)
    return max(low, 0.0) if least >= 0.0 else low, high, step


def _small(text: str) -> ft.Text:
    return ft.Text(text, size=12, color=ft.Colors.ON_SURFACE_VARIANT)
