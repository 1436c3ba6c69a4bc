"""Yield and cost from batch to batch: a chart of each, and the same in words beside it."""

import flet as ft

from app.journal.over_time import Course, courses
from app.journal.records import Batch
from app.journal.wall import say_wall, wall_of
from app.journal.yields import money, yield_percent
from app.screens.bench import Bench
from app.screens.journal.told import amount
from app.widgets import panels, words
from app.widgets.course_chart import course_chart

LISTED = 30
"""So many batches are told one by one, the latest; the charts show all."""

SPOKEN = 12
"""With more points than these a chart is told by its ends, its least and its most."""


def over_time(bench: Bench, found: tuple[Batch, ...]) -> list[ft.Control]:
    """The charts, and each batch by its number on them, the earliest first."""
    shown, drawn = courses(found, {one.id: bench.entries(one.id) for one in found})
    if not shown:
        return [words.body("No weight or cost is recorded in these batches yet.")]
    charts = [
        course_chart(
            title(course),
            [(point.number, point.value) for point in course.points],
            len(shown),
            says(course),
        )
        for course in drawn
        if len(course.points) > 1
    ]
    if not charts:
        charts = [words.small("A chart begins with the second batch that was weighed or paid for.")]
    rows = [_row(bench, batch, number) for number, batch in list(enumerate(shown, 1))[-LISTED:]]
    left_out = len(shown) - len(rows)
    before = [words.small(f"The latest {LISTED}; {left_out} before them are on the chart.")]
    return [*charts, *(before if left_out else []), *rows]


def title(course: Course) -> str:
    """What a chart shows, with its unit."""
    if course.what == "yield":
        return "Yield, %"
    name = "Cost a serving" if course.what == "serving" else "Cost"
    return f"{name}, {course.currency}" if course.currency else name


def told(course: Course, value: float) -> str:
    """A figure of a course with its unit."""
    return f"{value:.0f} %" if course.what == "yield" else amount(value, course.currency)


def says(course: Course) -> str:
    """The chart in a sentence, for who cannot see it."""
    name = {"yield": "Yield", "serving": "Cost a serving", "cost": "Cost"}[course.what]
    told_of = course.points
    if len(told_of) > SPOKEN:
        told_of = (told_of[0], told_of[-1])
    points = ", ".join(
        f"{point.number} {point.batch.name} {told(course, point.value)}" for point in told_of
    )
    return (
        f"{name} of {len(course.points)} batches, from {told(course, course.least)} to "
        f"{told(course, course.most)}: {points}."
    )


def _row(bench: Bench, batch: Batch, number: int) -> ft.Control:
    entries = bench.entries(batch.id)
    came_to, sums = yield_percent(batch, entries), money(batch, entries)
    paid = [amount(one.total, one.currency) for one in sums]
    paid += [
        f"{amount(one.per_serving, one.currency)} a serving"
        for one in sums
        if one.per_serving is not None
    ]
    when = say_wall(wall_of(batch.created), bench.wall()).rsplit(" ", 1)[0]
    return panels.figure(
        f"{number}  {batch.name}",
        "not weighed" if came_to is None else f"{came_to:.0f} %",
        note=" · ".join([when, *paid]),
        on_open=lambda: bench.go(f"/journal/{batch.id}"),
    )
