"""Soaking: where the salt is after the cure, and how to bring it down to what is wanted."""

from collections.abc import Callable, Mapping

import flet as ft
from attrs import evolve, frozen

from app import quantities
from app.cure.working import Working
from app.journal.advice_salt import CHANGE_H, SOAK_WATER, RightSalt, right_salt
from app.journal.advised import Past
from app.journal.records import Batch, Kit
from app.journal.safety import cautions_for, texts
from app.screens.bench import Bench, use_batch, use_bench
from app.screens.drafts import use_draft
from app.screens.journal.begun_forms import name_of
from app.screens.mix.cure_in_hand import (
    CureInHand,
    Pasts,
    ReadCure,
    cure_in_hand,
    cure_of_batch,
    pasts_of,
    read_later,
)
from app.screens.mix.how_long import in_days, no_mix
from app.screens.mix.mix_draft import LaterDraft, water_unit
from app.transport.brining import SALT as SALT_OF
from app.transport.brining import cover_bath, salt_percent
from app.transport.course import Stage
from app.transport.diffusivity import Range
from app.transport.outlook import outlook
from app.transport.soak import Rinse, SaltNow, SoakNeeded, rinse, salt_now, soak_needed, soak_stages
from app.widgets import fields, panels, words
from app.widgets.frame import screen

USUAL_PERCENT = 2.5
"""Salt in the meat taken as wanted until the cook's own tastings say more. Common practice,
no source."""


@frozen
class Soak:
    """A soak worked out, and what the fields of it were read as.

    after : surface and middle when it ends, likely meat [% of green weight]; None without one
    """

    now: SaltNow
    rinse: Rinse
    needed: SoakNeeded
    after: tuple[float, float] | None
    wanted: float
    water_g: float
    every_h: float
    right: RightSalt | None
    errors: Mapping[str, str]

    @property
    def workings(self) -> Mapping[str, Working]:
        return {"now": self.now.working, "rinse": self.rinse.working, "soak": self.needed.working}


@frozen
class Asked:
    """Whose soak is asked about, the mix's or a batch's, and what was typed about it."""

    got: ReadCure
    later: LaterDraft
    pasts: Pasts
    back: str
    route: str


def asked(bench: Bench, batch: Batch | None) -> Asked:
    """The soak of the mix as it stands, or of a batch as its cure truly went."""
    kit, pasts = bench.shown.kit, pasts_of(bench.shown.batches, bench.entries)
    if batch is None:
        draft = bench.shown.draft
        got = cure_in_hand(draft, kit, pasts)
        return Asked(got, draft.later, pasts, "/mix", "/mix/soak")
    later = bench.drafts.get(_draft_of(batch)) or LaterDraft()
    got = cure_of_batch(batch, bench.entries(batch.id), later, kit, bench.now(), pasts)
    back = f"/journal/{batch.id}"
    return Asked(got, later, pasts, back, f"{back}/soak")


def _draft_of(batch: Batch) -> str:
    return name_of("soak", batch.id)


def _usual_percent(right: RightSalt | None) -> float:
    return round(right.percent, 1) if right else USUAL_PERCENT


def _wanted(right: RightSalt | None) -> str:
    """What salt is wanted where none is typed, and by whom."""
    taste = f"by {right.tastings} of your tastings" if right else "a usual saltiness"
    return f"{_usual_percent(right):g} %, {taste}"


def look_at_salt(kit: Kit, later: LaterDraft, cure: CureInHand, pasts: Pasts) -> Soak:
    """Work the soak of a cure out."""
    scored = [Past(b, e) for b, e in pasts if b.outcome is not None]
    right = right_salt(scored)
    meat_g, wet = cure.mix.request.meat_g, cure.model.meat_water
    take, errors = read_later(later, kit)
    wanted = take("wanted", _usual_percent(right))
    water_g = take("pot", SOAK_WATER * meat_g)
    every = take("every", CHANGE_H)
    cured = cure.after(cure.pulled)
    needed = soak_needed(cured, wanted, meat_g, water_g, every, meat_water=wet)
    after = None
    if needed.hours is not None and needed.hours.likely > 0.0:
        bath = cover_bath(meat_g, water_g, 0.0, meat_water=wet)
        end = outlook(
            [
                Stage("cure", 24.0 * cure.pulled, cure.model.bath, cure.fridge_c),
                *soak_stages(needed.hours.likely, bath, every),
            ],
            cure.model.piece,
            start=cure.model.start,
        ).likely.end.profiles[SALT_OF]
        after = (salt_percent(end.means[0], wet), salt_percent(end.core, wet))
    return Soak(
        salt_now(cured, wet),
        rinse(cured, meat_water=wet),
        needed,
        after,
        wanted,
        water_g,
        every,
        right,
        errors,
    )


def workings(bench: Bench, batch: Batch | None = None) -> Mapping[str, Working]:
    """How the numbers of this screen were worked out."""
    of = asked(bench, batch)
    if of.got.cure is None:
        return {}
    return look_at_salt(bench.shown.kit, of.later, of.got.cure, of.pasts).workings


@ft.component
def SoakScreen() -> ft.View:
    """Salt now, what a rinse does, hours and waters."""
    bench = use_bench()
    batch = use_batch()
    of = asked(bench, batch)
    # The mix's own soak is kept with the mix.
    name = "" if batch is None else _draft_of(batch)
    _, change_of_batch, drop = use_draft(name, LaterDraft)
    kit, got, later = bench.shown.kit, of.got, of.later
    if got.cure is None:
        return no_mix("Soak", got.trouble) if batch is None else _no_cure(batch, got.trouble)
    soak = look_at_salt(kit, later, got.cure, of.pasts)
    errors = {**got.errors, **soak.errors}

    def typed(name: str, label: str, unit: str, helper: str) -> ft.Control:
        def change(text: str) -> None:
            if batch is not None:
                change_of_batch(**{name: text})
                if bench.drafts.get(_draft_of(batch)) == LaterDraft():
                    drop()
                return
            draft = bench.shown.draft
            bench.show(draft=evolve(draft, later=evolve(draft.later, **{name: text})))

        return fields.quantity_field(
            label,
            str(getattr(later, name)),
            change,
            unit=unit,
            error=errors.get(name),
            helper=helper,
        )

    def opens(key: str) -> Callable[[], object]:
        return lambda: bench.go(f"{of.route}/how/{key}")

    pot = water_unit(kit)
    volume = f"{quantities.to_unit(SOAK_WATER * got.cure.mix.request.meat_g, 'volume', pot):.1f}"
    return screen(
        "Soak",
        [
            *([words.small(batch.name)] if batch is not None else []),
            panels.notice(soak.needed.taste, "attention"),
            typed("pulled", "Taken out after", "days", f"Left empty: {got.cure.usual_days:g} days"),
            _now(soak, opens),
            panels.panel(
                [words.body(soak.rinse.says), _how(opens("rinse"))], title="A rinse alone"
            ),
            typed("wanted", "Salt wanted", "%", f"Left empty: {_wanted(soak.right)}"),
            *_needed(soak, opens),
            typed(
                "pot",
                "Water each time",
                pot,
                f"Left empty: twice the meat's weight, {volume} {pot}",
            ),
            typed("every", "Changed every", "h", f"Left empty: {CHANGE_H:g} hours"),
            *panels.cautions(texts(cautions_for("soak"), bench.kit.system)),
        ],
        place="/mix" if batch is None else "/journal",
        back=of.back,
    )


def _no_cure(batch: Batch, trouble: str) -> ft.View:
    return screen(
        "Soak",
        [panels.empty("This cure cannot be worked out.", trouble)],
        place="/journal",
        back=f"/journal/{batch.id}",
    )


def _now(soak: Soak, opens: Callable[[str], Callable[[], object]]) -> ft.Control:
    return panels.panel(
        [
            _three("Outside", soak.now.surface_percent, opens("now")),
            _three("In the middle", soak.now.middle_percent, opens("now")),
            _three("On average", soak.now.average_percent, opens("now")),
            words.small("Low, likely and high, of the weight the meat had raw."),
        ],
        title="Salt in the meat when taken out",
    )


def _three(name: str, percent: Range, on_open: Callable[[], object]) -> ft.Control:
    return panels.figure(
        name,
        f"{percent.low:.1f} – {percent.likely:.1f} – {percent.high:.1f} %",
        on_open=on_open,
    )


def _needed(soak: Soak, opens: Callable[[str], Callable[[], object]]) -> list[ft.Control]:
    needed = soak.needed
    rows: list[ft.Control] = [words.body(needed.says)]
    if needed.hours is not None and needed.waters is not None and needed.hours.high > 0.0:
        hours, waters = needed.hours, needed.waters
        rows.append(
            panels.figure(
                "Hours in water",
                f"{hours.low:.0f} – {in_days(hours.likely)} – {hours.high:.0f} h",
                note="low, likely, high",
                on_open=opens("soak"),
            )
        )
        rows.append(
            panels.figure(
                "Fillings of fresh water",
                f"{waters.low:.0f} – {waters.likely:.0f} – {waters.high:.0f}",
                note=f"changed every {soak.every_h:g} h",
            )
        )
    else:
        rows.append(_how(opens("soak")))
    if soak.after is not None:
        surface, middle = soak.after
        rows.append(
            panels.figure(
                "Then outside and in the middle",
                f"{surface:.1f} and {middle:.1f} %",
                note="it evens out while it stands",
            )
        )
    return [panels.panel(rows, title=f"To come down to {soak.wanted:g} %")]


def _how(on_open: Callable[[], object]) -> ft.Control:
    return panels.figure("How this was worked out", "", on_open=on_open)
