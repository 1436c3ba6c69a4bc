"""Journal: every batch, found by words and by what it is, in the order asked for."""

from collections.abc import Callable
from typing import get_args

import flet as ft
from attrs import asdict

from app.cure.request import Method
from app.cure.targets import METHOD_NAMES
from app.journal.records import Batch
from app.journal.search import Sort, Wanted, cuts, find
from app.journal.wall import say_wall, wall_of
from app.screens.bench import Bench, use_bench
from app.screens.drafts import use_draft
from app.screens.journal.over_time import over_time
from app.screens.kit.example import example_act
from app.screens.masses import grams
from app.screens.plan.when import day_field
from app.widgets import fields, panels, words
from app.widgets.frame import Act, quiet_button, screen, side_button
from app.widgets.picture import thumbnail

SORTS: tuple[tuple[Sort, str], ...] = (
    ("newest", "Newest"),
    ("oldest", "Oldest"),
    ("best", "Best"),
    ("cut", "Cut"),
    ("method", "Method"),
    ("name", "Name"),
)
_ANY = ""
DRAWN = 30
"""So many batches are drawn, and so many more at each press: a thousand would be waited for."""


@ft.component
def JournalScreen() -> ft.View:
    """All batches, or those that fit what is wanted."""
    bench = use_bench()
    # What was looked for is still looked for after one of those found was opened.
    wanted, want, drop = use_draft("journal", Wanted)
    opened, set_opened = ft.use_state("")
    drawn, set_drawn = ft.use_state(DRAWN)
    batches = bench.shown.batches
    if not batches:
        return screen(
            "Journal",
            [
                panels.empty(
                    "No batch yet.",
                    "Work out a mix and start a batch from it; its record grows here.",
                )
            ],
            place="/journal",
            main=Act("To the mix", lambda: bench.go("/mix"), icon=ft.Icons.SCALE),
            side=example_act(bench, "See an example"),
        )

    def clear(words_too: bool) -> None:
        kept = "" if words_too else wanted.words
        want(**asdict(Wanted(words=kept)))
        if words_too:
            drop()

    def toggle(name: str) -> None:
        set_opened("" if opened == name else name)

    found = find(batches, wanted, bench.shelf.words)
    return screen(
        "Journal",
        [
            fields.text_field(
                "Find",
                wanted.words,
                lambda text: want(words=text),
                hint="a cut, a name, a word of a note",
            ),
            panels.fold(
                "Filter and order",
                filter_told(wanted, bench),
                _filters(bench, wanted, want, lambda: clear(False)),
                is_open=opened == "filter",
                on_toggle=lambda: toggle("filter"),
            ),
            *(
                [_found(len(found), len(batches), lambda: clear(True))]
                if len(found) < len(batches)
                else []
            ),
            *(
                [_card(bench, batch, key=batch.id) for batch in found[:drawn]]
                or [panels.empty("Nothing fits.", "Try fewer words, or take the filter off.")]
            ),
            *_rest(len(found) - drawn, lambda: set_drawn(drawn + DRAWN)),
            panels.door(
                "Photos",
                "by stage, across batches",
                lambda: bench.go("/photos"),
                ft.Icons.PHOTO_LIBRARY_OUTLINED,
            ),
            panels.fold(
                "Yield and cost over time",
                _how_many(len(found), len(batches)),
                over_time(bench, found) if opened == "time" else [],
                is_open=opened == "time",
                on_toggle=lambda: toggle("time"),
            ),
            quiet_button(example_act(bench)),
        ],
        place="/journal",
        main=Act("New batch", lambda: bench.go("/mix"), icon=ft.Icons.ADD),
        side=Act("Compare", lambda: bench.go("/compare"), enabled=len(batches) > 1),
    )


def _rest(count: int, show: Callable[[], object]) -> list[ft.Control]:
    """What draws more of those that are not drawn yet."""
    if count <= 0:
        return []
    says = f"Show {DRAWN} more of {count}" if count > DRAWN else f"Show the other {count}"
    return [side_button(Act(says, show, ft.Icons.EXPAND_MORE))]


def _found(found: int, in_all: int, show_all: Callable[[], object]) -> ft.Control:
    says = f"{found or 'None'} of {in_all} {'fits' if found == 1 else 'fit'}."
    return ft.Row(
        [ft.Container(words.small(says), expand=True), quiet_button(Act("Show all", show_all))],
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )


def _how_many(found: int, in_all: int) -> str:
    """How many batches are shown, in words."""
    if found == in_all:
        return "one batch" if in_all == 1 else f"{in_all} batches"
    return f"{found} of your {in_all} batches"


def filter_told(wanted: Wanted, bench: Bench) -> str:
    """The filter and the order in one line."""
    said = [dict(SORTS)[wanted.sort].lower() + " first"]
    if wanted.sort in ("cut", "name", "method"):
        said = [f"by {wanted.sort}"]
    if wanted.cut:
        said.append(wanted.cut)
    if wanted.method:
        said.append(METHOD_NAMES[wanted.method].lower())
    if wanted.least_rating:
        said.append(f"{wanted.least_rating} of 5 or better")
    if wanted.running is not None:
        said.append("running" if wanted.running else "finished")
    for name, day in (("from", wanted.since), ("until", wanted.until)):
        if day:
            said.append(f"{name} {say_wall(day, bench.wall()).rsplit(' ', 1)[0]}")
    return " · ".join(said)


def _filters(
    bench: Bench, wanted: Wanted, want: Callable[..., None], clear: Callable[[], object]
) -> list[ft.Control]:
    def chosen(name: str) -> Callable[[str], None]:
        return lambda key: want(**{name: key or None})

    running = {None: _ANY, True: "yes", False: "no"}[wanted.running]
    return [
        fields.choice("Order", SORTS, wanted.sort, lambda key: want(sort=key)),
        fields.choice(
            "Cut",
            [(_ANY, "Any"), *((cut, cut) for cut in cuts(bench.shown.batches))],
            wanted.cut or _ANY,
            chosen("cut"),
        ),
        fields.choice(
            "Method",
            [(_ANY, "Any"), *((key, METHOD_NAMES[key]) for key in get_args(Method))],
            wanted.method or _ANY,
            chosen("method"),
        ),
        fields.choice(
            "Verdict",
            [(_ANY, "Any"), ("3", "3 or more"), ("4", "4 or more"), ("5", "5")],
            str(wanted.least_rating or _ANY),
            lambda key: want(least_rating=int(key) if key else None),
        ),
        fields.choice(
            "State",
            ((_ANY, "Any"), ("yes", "Running"), ("no", "Finished")),
            running,
            lambda key: want(running={"": None, "yes": True, "no": False}[key]),
        ),
        day_field(bench, "From", wanted.since or "", chosen("since"), empty="any day"),
        day_field(bench, "Until", wanted.until or "", chosen("until"), empty="any day"),
        quiet_button(Act("Take the filter off", clear)),
    ]


def batch_line(bench: Bench, batch: Batch) -> str:
    """The facts of a batch in one line."""
    return (
        f"{grams(batch.mix.meat_g, bench.kit)} · "
        f"{METHOD_NAMES[batch.mix.method].lower()} · "
        f"{say_wall(wall_of(batch.created), bench.wall())}"
    )


def _card(bench: Bench, batch: Batch, key: str) -> ft.Control:
    rating = batch.outcome.rating if batch.outcome else None
    marks: list[str] = []
    if batch.demonstration:
        marks.append("Example")
    marks.append("finished" if batch.finished else "running")
    if rating is not None:
        marks.append(f"{rating} of 5")
    src = bench.thumb_src(batch.cover_photo_id) if batch.cover_photo_id else None
    card = panels.pressable(
        ft.Row(
            [
                thumbnail(src, f"Photo of {batch.name}"),
                ft.Column(
                    [
                        words.body(batch.name, bold=True),
                        words.small(batch_line(bench, batch)),
                        words.small(" · ".join(marks)),
                    ],
                    spacing=2,
                    expand=True,
                ),
            ],
            spacing=12,
        ),
        lambda: bench.go(f"/journal/{batch.id}"),
    )
    card.key = key
    return card
