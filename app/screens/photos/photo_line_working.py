"""How each number of a cure line was worked out."""

from collections.abc import Mapping

import flet as ft

from app.colour.cure_line import CureLine
from app.cure.working import Working
from app.journal.records import Kit, Photo
from app.screens.mix.mix_draft import small_length_unit
from app.screens.photos.photo_desk import no_photo, use_desk
from app.screens.photos.photo_line import drawn_on, measured
from app.screens.photos.photo_thickness import read_thickness, thickness_typed
from app.screens.photos.photo_told import (
    LEFT_OUT,
    how_sure,
    lacks_white,
    mm_told,
    white_doubted,
)
from app.widgets import panels, words
from app.widgets.band_looks import CURE_LOOKS
from app.widgets.frame import screen

_TONES = (
    "Our own method: the tone ln(R/G) − 0.3 ln(G/B) along the line, under the white of the light. "
    "Cured beef a* 12 to 18 and hue 25 to 40°, grey beef a* 4 to 8 and hue above 55° (from memory)."
)
_OF_THE_LEAN = (
    "A length is this share of the whole thickness, as though bark and fat were lean too; so it "
    "differs from the bands on the photo by what was left out: a band runs on over the fat within "
    "it. One line is one place of the slice."
)
_FROM_THE_EDGE = (
    "Bark and fat on the way are counted in, so the two depths and the cured share need not agree. "
    "A strip at the edge thinner than 5 % is passed over. Where all is cured, both depths end in "
    "the middle."
)


def workings(
    photo: Photo, line: CureLine, thickness_mm: float | None, kit: Kit
) -> Mapping[str, Working]:
    """The workings of all that is told of a line, by the part, the end, or "sure"."""
    if not line.known:
        return {}
    whole = [] if thickness_mm is None else [("Thickness", _length(100.0, thickness_mm, kit))]
    parts = {"cured": line.cured_percent, "pale": line.pale_percent, "grey": line.grey_percent}
    found = {
        kind: Working(
            f"{CURE_LOOKS[kind].name}, along the line",
            "lean of this tone / all lean between the edges × 100",
            (
                *((f"Left out, {LEFT_OUT[out]}", _way(share)) for out, share in line.left_out),
                ("Lean between the edges", _way(100.0 - line.left_out_percent)),
                ("Lean of this tone", _way((part or 0.0) * (1.0 - line.left_out_percent / 100.0))),
                ("Its bands on the photo, fat and all", _way(line.drawn_percent(kind))),
                *whole,
            ),
            mm_told(part or 0.0, thickness_mm, kit),
            _TONES,
            _OF_THE_LEAN,
        )
        for kind, part in parts.items()
    }
    across = line.right_edge - line.left_edge
    for end, edge, depth, way in (
        ("A", line.left_edge, line.left_depth_percent or 0.0, 1.0),
        ("B", line.right_edge, line.right_depth_percent or 0.0, -1.0),
    ):
        stops = edge + way * across * depth / 100.0
        found[end] = Working(
            f"Cured in from {end}",
            "from the edge to where cured meat first ends / from edge to edge × 100",
            (
                (f"The slice's edge at {end}", f"{100.0 * edge:.0f} % of A to B"),
                ("Cured meat ends at", f"{100.0 * stops:.0f} % of A to B"),
                ("From edge to edge", f"{100.0 * across:.0f} % of A to B"),
                *whole,
            ),
            mm_told(depth, thickness_mm, kit),
            _TONES,
            _FROM_THE_EDGE,
        )
    found["sure"] = Working(
        "How sure",
        "lead of the likeliest reading × white × noise × blown-out light × edges",
        (
            ("All of these together", f"{line.confidence:.2f} of 1"),
            ("White patch", _white(photo)),
            *([("The reading says", line.says)] if line.says else []),
        ),
        how_sure(photo, line.confidence),
        "Our own judgement, no source: sure from 0.75, fairly sure from 0.5. No white patch × 0.6, "
        "a white only reckoned × 0.75, noise down to × 0.75, blown-out light down to × 0.5, an "
        "edge with no board seen beyond it × 0.9. A white in doubt leaves a guess.",
        "It weighs what the picture holds. A line drawn in the wrong place it does not know, nor "
        "every white patch that is none.",
    )
    return found


def _white(photo: Photo) -> str:
    if white_doubted(photo):
        return "in doubt"
    return "none" if lacks_white(photo) else "tapped"


def _way(percent: float) -> str:
    return f"{percent:.1f} % of the way"


def _length(percent: float, thickness_mm: float, kit: Kit) -> str:
    return mm_told(percent, thickness_mm, kit).split(" · ", 1)[1]


@ft.component
def LineWorkingScreen() -> ft.View:
    """One number of the line kept with the photo."""
    desk = use_desk()
    key = ft.use_route_params().get("key", "")
    if desk is None:
        return no_photo("How it was worked out")
    kit = desk.bench.shown.kit
    back = f"/journal/{desk.batch.id}/photo/{desk.photo.id}/line"
    line, _ = measured(desk, drawn_on(desk.photo))
    thickness, _ = read_thickness(thickness_typed(desk), small_length_unit(kit))
    working = workings(desk.photo, line, thickness, kit).get(key) if line is not None else None
    if working is None:
        waiting = desk.pixels is None and not desk.trouble
        body: list[ft.Control] = [
            words.small("Reading the picture …")
            if waiting
            else panels.empty("There is no such number now.", "Go back to the line.")
        ]
        return screen("How it was worked out", body, place="/journal", back=back)
    return screen(working.title, panels.working_view(working), place="/journal", back=back)
