"""Choosing a day and a time of the wall clock with the phone's own pickers."""

from collections.abc import Callable
from datetime import date, datetime, time

import flet as ft

from app.journal.records import Moment
from app.journal.wall import instant_s, read_wall, say_wall, write_wall
from app.screens.bench import Bench
from app.widgets.frame import Act, quiet_button, side_button


def when_field(
    bench: Bench,
    label: str,
    chosen: str,
    on_choose: Callable[[str], object],
    *,
    empty: str,
    clearable: bool = True,
) -> ft.Control:
    """A wall-clock time; empty means what `empty` says."""
    return ft.Column(
        [
            ft.Text(label, size=15, color=ft.Colors.ON_SURFACE_VARIANT, weight=ft.FontWeight.W_600),
            ft.Row(
                [
                    side_button(
                        Act(
                            say_wall(chosen, bench.wall()) if chosen else empty,
                            lambda: _pick_day(bench, chosen, on_choose),
                            icon=ft.Icons.EVENT,
                        ),
                        expand=True,
                    ),
                    *(
                        [quiet_button(Act("Clear", lambda: on_choose("")))]
                        if chosen and clearable
                        else []
                    ),
                ],
                spacing=8,
            ),
        ],
        spacing=6,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def day_field(
    bench: Bench, label: str, chosen: str, on_choose: Callable[[str], object], *, empty: str
) -> ft.Control:
    """A day, "2027-03-06"; empty means what `empty` says."""

    def pick() -> None:
        ft.context.page.show_dialog(
            ft.DatePicker(
                value=read_wall(chosen or bench.wall()),
                help_text=label,
                on_change=lambda e: _day_chosen(e.control.value, on_choose),
            )
        )

    said = say_wall(chosen, bench.wall()).rsplit(" ", 1)[0] if chosen else empty
    return ft.Row(
        [
            side_button(Act(f"{label}: {said}", pick, icon=ft.Icons.EVENT), expand=True),
            *([quiet_button(Act("Clear", lambda: on_choose("")))] if chosen else []),
        ],
        spacing=8,
    )


def _day_chosen(picked: date | None, on_choose: Callable[[str], object]) -> None:
    if picked is not None:
        on_choose(f"{local_day(picked):%Y-%m-%d}")


def moment_at(wall: str, zone: str, offset_min: int) -> Moment:
    """The instant the clock on the wall shows `wall`; without a zone by the offset given.

    >>> moment_at("1970-01-01T02:00", "", 120)
    Moment(utc_s=0.0, offset_min=120)
    """
    read = instant_s(wall)
    if not zone:
        return Moment(read - 60.0 * offset_min, offset_min)
    utc_s = instant_s(wall, zone)
    return Moment(utc_s, round((read - utc_s) / 60.0))


def _pick_day(bench: Bench, chosen: str, on_choose: Callable[[str], object]) -> None:
    page = ft.context.page
    began = read_wall(chosen or bench.wall())

    def day_chosen(e: ft.Event[ft.DatePicker]) -> None:
        day = e.control.value
        if day is None:
            return
        page.show_dialog(
            ft.TimePicker(
                value=began.time(),
                help_text="At what time",
                on_change=lambda t: time_chosen(day, t.control.value),
            )
        )

    def time_chosen(day: date, at: time | None) -> None:
        if at is not None:
            on_choose(write_wall(datetime.combine(local_day(day), at)))

    page.show_dialog(ft.DatePicker(value=began, help_text="On which day", on_change=day_chosen))


def local_day(picked: date) -> date:
    """The day on the calendar that was pressed; the picker may hand it over as an instant."""
    if isinstance(picked, datetime):
        return (picked.astimezone() if picked.tzinfo else picked).date()
    return picked
