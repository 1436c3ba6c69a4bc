"""The cure line: drawn across the slice, edge to edge; how far the cure reached along it."""

from collections.abc import Callable

import flet as ft
from attrs import evolve

from app.colour.cure_line import CureLine
from app.journal.advised import Past
from app.journal.own_slices import Taught, taught_by
from app.journal.photo_readings import outcome_with
from app.journal.records import Batch, Photo
from app.screens.bench import Bench
from app.screens.mix.mix_draft import small_length_unit
from app.screens.photos.photo_desk import (
    Desk,
    arrows,
    desk_screen,
    light_notices,
    most_height,
    no_photo,
    use_desk,
)
from app.screens.photos.photo_pixels import kept_line, line_of
from app.screens.photos.photo_thickness import read_thickness, thickness_field, thickness_typed
from app.screens.photos.photo_told import how_sure, left_out_told, mm_told, white_doubted
from app.widgets import charts, fields, panels, words
from app.widgets.band_looks import CURE_LOOKS, INK, RIM, BandLook, keyed
from app.widgets.frame import Act
from app.widgets.marked_picture import Band, MarkedPicture
from app.widgets.picture_points import Points, moved, nearest

FIRST_LINE: Points = ((0.5, 0.12), (0.5, 0.88))

CANNOT_KNOW = (
    "One line is one place: draw it where the slice is thickest, straight through. It sees "
    "colour, not nitrite: heat and smoke redden the rim, a cut face left in the air turns pale, "
    "and where the meat was never pink by cure, only the lab can tell."
)

DEPTHS_ARE = (
    "Depths and the bands on the photo are measured from edge to edge, bark and fat counted in."
)


@ft.component
def LineScreen() -> ft.View:
    """Draw, read, and, on the cook's word, let it count."""
    desk = use_desk()
    end, set_end = ft.use_state("A")
    own_words, set_own_words = ft.use_state(("", ""))  # photo, thickness as typed for it
    done_typing: ft.MutableRef[Callable[[], None]] = ft.use_ref(lambda: _nothing)
    # Whoever leaves with the cursor still in the field has typed it all the same.
    ft.use_effect(lambda: None, [], cleanup=lambda: done_typing.current())
    if desk is None:
        return no_photo("Cure line")
    points = drawn_on(desk.photo)
    by_hand = own_words[0] == desk.photo.id
    typed = own_words[1] if by_hand else thickness_typed(desk)
    unit = small_length_unit(desk.bench.shown.kit)
    thickness, error = read_thickness(typed, unit)
    drawn = points or FIRST_LINE
    line, trouble = measured(desk, points)

    def draw(new: Points) -> None:
        keep_line(desk, new, thickness)

    def done() -> None:
        """Keep the thickness once it is typed, not each of its digits."""
        kept = desk.photo.line
        if by_hand and kept is not None and not error and kept.thickness_mm != thickness:
            keep_line(desk, (kept.start, kept.end), thickness)

    def count() -> None:
        done()
        count_it(desk, thickness)

    done_typing.current = done

    picture = MarkedPicture(
        desk.src,
        f"The slice of {desk.batch.name} with a line across it from A to B",
        desk.ratio,
        most_height(),
        points=drawn,
        bands=_bands(line),
        on_tap=lambda at: draw(_brought(drawn, nearest(drawn, at, desk.ratio), at)),
        on_points=draw,
    )
    body: list[ft.Control] = []
    if points is None:
        body.append(words.body("Drag A and B to the two edges of the slice, where it is thickest."))
    if trouble:
        body.append(panels.notice(trouble, "attention"))
    notices, doubted = light_notices(desk.photo), white_doubted(desk.photo)
    result = _result(desk, line, thickness) if line is not None and line.known else []
    # A white in doubt is said before what was read by it.
    body += [*notices, *result] if doubted else [*result, *notices]
    body += [
        fields.choice("Move", (("A", "End A"), ("B", "End B")), end, set_end),
        arrows(lambda by: draw(moved(drawn, "AB".index(end), by)), f"End {end}"),
        thickness_field(
            typed, lambda text: set_own_words((desk.photo.id, text)), done, unit, error
        ),
    ]
    if points is None:
        main = Act("Measure this line", lambda: draw(drawn), ft.Icons.STRAIGHTEN)
    else:
        main = Act(
            "Let it count for this batch",
            count,
            icon=ft.Icons.CHECK,
            enabled=line is not None and line.known,
        )
    return desk_screen(desk, "line", picture, body, main=main)


def _nothing() -> None:
    """What is done when nothing was typed."""


def drawn_on(photo: Photo) -> Points | None:
    """The two ends of the line kept with a photo."""
    line = photo.line
    return (line.start, line.end) if line else None


def _brought(points: Points, index: int, at: tuple[float, float]) -> Points:
    """The end nearest to a tap comes to it."""
    return tuple(at if i == index else point for i, point in enumerate(points))


def measured(desk: Desk, points: Points | None) -> tuple[CureLine | None, str]:
    """The line's reading, and what stands in its way."""
    if points is None or desk.pixels is None:
        return None, ""
    try:
        line = line_of(desk.pixels, desk.photo, points)
    except ValueError as wrong:
        return None, str(wrong)
    return line, "" if line.known else line.says


def keep_line(desk: Desk, points: Points, thickness_mm: float | None) -> None:
    """Keep the line with the photo as it is drawn."""
    line, trouble = measured(desk, points)
    if line is None:
        desk.bench.show(said=trouble, undo=None)
    else:
        desk.keep(evolve(desk.photo, line=kept_line(line, points, thickness_mm)))


def count_it(desk: Desk, thickness_mm: float | None) -> None:
    """Put the line's parts into the batch's outcome, and say what the next batch learns."""
    line, bench = desk.photo.line, desk.bench
    if line is None:
        return
    try:
        outcome = outcome_with(
            evolve(line, thickness_mm=thickness_mm), desk.batch.outcome, bench.now()
        )
    except ValueError as wrong:
        bench.show(said=str(wrong), undo=None)
        return
    changed = evolve(desk.batch, outcome=outcome)
    learned = taught(bench, changed)
    said = learned.sentence if learned else "Kept with the batch's slice."
    if white_doubted(desk.photo):
        said += " Its white is in doubt: go by what you see on the slice."
    bench.save_batch(changed, said)


def taught(bench: Bench, batch: Batch) -> Taught | None:
    """What this batch's slice changes for the next of its cut."""
    this = Past(batch, bench.entries(batch.id))
    others = [Past(one, bench.entries(one.id)) for one in bench.shown.batches if one.outcome]
    return taught_by(this, others)


def _bands(line: CureLine | None) -> list[Band]:
    if line is None or not line.known:
        return []
    looks = [(begin, end, CURE_LOOKS[kind]) for begin, end, kind in line.bands]
    return [Band(begin, end, look.colour, look.on_photo) for begin, end, look in looks]


def _result(desk: Desk, line: CureLine, thickness_mm: float | None) -> list[ft.Control]:
    kit = desk.bench.shown.kit

    def how(key: str) -> Callable[[], object]:
        at = f"/journal/{desk.batch.id}/photo/{desk.photo.id}/line/how/{key}"
        return lambda: desk.bench.go(at)

    parts = (
        ("cured", line.cured_percent),
        ("pale", line.pale_percent),
        ("grey", line.grey_percent),
    )
    rows: list[ft.Control] = [_strip(line), words.small(left_out_told(line))]
    rows += [
        _keyed(
            CURE_LOOKS[kind],
            mm_told(part or 0.0, thickness_mm, kit),
            how(kind),
            large=kind == "grey",
        )
        for kind, part in parts
    ]
    rows += [panels.line(), words.small(DEPTHS_ARE)]
    for name, depth in (("A", line.left_depth_percent), ("B", line.right_depth_percent)):
        if depth is not None:
            told = mm_told(depth, thickness_mm, kit)
            rows.append(panels.figure(f"Cured in from {name}", told, on_open=how(name)))
    rows.append(
        panels.figure("How sure", how_sure(desk.photo, line.confidence), on_open=how("sure"))
    )
    if line.says:
        rows.append(words.body(line.says))
    rows.append(words.small(CANNOT_KNOW))
    shown: list[ft.Control] = [panels.panel(rows, title="Along the line")]
    outcome = desk.batch.outcome
    if outcome is not None and outcome.grey_percent is not None:
        learned = taught(desk.bench, desk.batch)
        says = f"The batch's slice counts as {outcome.grey_percent:.0f} % grey, of its lean."
        shown.append(panels.notice(f"{says} {learned.sentence}" if learned else says, "done"))
    return shown


def _keyed(look: BandLook, value: str, on_open: Callable[[], object], *, large: bool) -> ft.Control:
    """A part's share, with the look it has on the photo and on the bar."""
    figure = panels.figure(look.name, value, on_open=on_open, large=large)
    return keyed(look.colour, 2.0 * look.on_photo, figure)


def _strip(line: CureLine) -> ft.Control:
    whole = line.right_edge - line.left_edge or 1.0
    says = ", ".join(
        f"{kind} for {100.0 * (end - begin) / whole:.0f} %" for begin, end, kind in line.bands
    )
    return charts.strip(
        f"From A to B, of the way: {says}",
        [_part(end - begin, CURE_LOOKS[kind]) for begin, end, kind in line.bands],
        inset_px=0,
    )


def _part(length: float, look: BandLook) -> charts.Part:
    return charts.Part(length, look.name, look.colour, INK, look.on_bar, RIM)
