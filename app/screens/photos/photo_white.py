"""The white patch: something neutral tapped, by which all colours of the photo are read."""

import flet as ft
from attrs import evolve

from app.colour.white_point import from_neutral
from app.screens.photos.photo_desk import (
    Desk,
    arrows,
    desk_screen,
    light_notices,
    most_height,
    no_photo,
    use_desk,
)
from app.screens.photos.photo_pixels import WHITE_RADIUS, white_of, with_white
from app.screens.photos.photo_told import white_doubted
from app.widgets import fields, panels, words
from app.widgets.frame import Act, quiet_button
from app.widgets.marked_picture import MarkedPicture, Ring
from app.widgets.picture_points import Place, inside

MOST_AGAIN = 3
"""So many further patches tell mixed light well enough."""


@ft.component
def WhiteScreen() -> ft.View:
    """Tap the patch; it is kept at once."""
    desk = use_desk()
    another, set_another = ft.use_state(False)
    if desk is None:
        return no_photo("White patch")
    photo = desk.photo
    at = photo.neutral_at

    def tap(place: Place) -> None:
        if another and photo.neutral_rgb is not None:
            add_patch(desk, place)
        else:
            set_patch(desk, place)

    picture = MarkedPicture(
        desk.src,
        f"Photo of {desk.batch.name}. "
        + ("A white patch is marked." if at else "No white patch is marked."),
        desk.ratio,
        most_height(),
        rings=[Ring(at, WHITE_RADIUS, "white")] if at else [],
        on_tap=tap,
    )
    body: list[ft.Control] = [
        words.body("Tap something white or grey in the same light as the meat:"),
        words.small(
            "paper towel, white butcher's paper, a grey card. Not wood or brown paper, nor a plate "
            "that shines."
        ),
    ]
    if photo.neutral_rgb is not None:
        body.append(_patch(desk))
        body += light_notices(photo)
        body.append(
            fields.choice(
                "The next tap",
                (("move", "Sets the patch anew"), ("again", "Checks a second place")),
                "again" if another else "move",
                lambda key: set_another(key == "again"),
            )
        )
    else:
        body += light_notices(photo)
    body.append(arrows(lambda by: _move(desk, by), "Patch"))
    return desk_screen(desk, "white", picture, body, main=_next(desk))


def _next(desk: Desk) -> Act:
    tool = "line" if desk.photo.stage == "slice" else "bark"
    words_ = "On to the cure line" if tool == "line" else "On to the bark"
    return Act(
        words_,
        lambda: desk.bench.go(f"/journal/{desk.batch.id}/photo/{desk.photo.id}/{tool}"),
        icon=ft.Icons.ARROW_FORWARD,
    )


def _patch(desk: Desk) -> ft.Control:
    rgb = desk.photo.neutral_rgb
    assert rgb is not None
    white = from_neutral(rgb)
    again = len(desk.photo.neutral_again)
    doubted = white_doubted(desk.photo)
    says = white.says or (
        "This may be no white." if doubted else "This patch gives the white of the light."
    )
    if again:
        says += f" {again} more checked."
    return panels.panel(
        [
            ft.Row(
                [
                    ft.Container(
                        width=52,
                        height=52,
                        border_radius=8,
                        bgcolor="#{:02X}{:02X}{:02X}".format(*rgb),
                        border=ft.Border.all(1, ft.Colors.OUTLINE),
                    ),
                    ft.Column(
                        [
                            words.body(says, bold=doubted or not white.known),
                            words.small("red {} · green {} · blue {}".format(*rgb)),
                        ],
                        spacing=2,
                        expand=True,
                    ),
                ],
                spacing=12,
            ),
            quiet_button(Act("Take the patch away", lambda: _take_away(desk))),
        ],
        title="The patch",
    )


def set_patch(desk: Desk, place: Place) -> None:
    """Make the tapped place the photo's white."""
    if desk.pixels is None:
        return
    rgb = white_of(desk.pixels, place)
    white = from_neutral(rgb)
    changed = with_white(desk.pixels, desk.photo, rgb, place)
    if not white.known:
        said = f"Kept, but {_lower(white.says)}"
    elif white_doubted(changed):
        said = "Kept, but this may be no white."
    else:
        said = "White patch kept."
    desk.keep(changed, said)


def _lower(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:]


def add_patch(desk: Desk, place: Place) -> None:
    """Look at a second white place, to tell whether two kinds of light are mixed."""
    photo = desk.photo
    if desk.pixels is None or photo.neutral_rgb is None:
        return
    again = (*photo.neutral_again, white_of(desk.pixels, place))[-MOST_AGAIN:]
    changed = with_white(desk.pixels, photo, photo.neutral_rgb, photo.neutral_at, again)
    mixed = "mixed light" in (changed.light or ())
    desk.keep(changed, "Two kinds of light." if mixed else "The same light there.")


def _take_away(desk: Desk) -> None:
    if desk.pixels is None:
        desk.keep(evolve(desk.photo, neutral_rgb=None, neutral_at=None), "White patch removed.")
    else:
        desk.keep(with_white(desk.pixels, desk.photo, None, None), "White patch removed.")


def _move(desk: Desk, by: Place) -> None:
    x, y = desk.photo.neutral_at or (0.5, 0.5)
    set_patch(desk, inside(x + by[0], y + by[1]))
