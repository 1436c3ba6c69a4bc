"""Advice for a grey core: more days, a face opened, or the needle."""

from collections.abc import Sequence
from math import ceil

from attrs import evolve

from app.journal.advised import Advice, Past, Sure, same_cut
from app.journal.cure_model import CureModel, cure_model
from app.journal.happened import cure_temperature_c, took_s
from app.transport.brining import NITRITE, SALT, nitrite_ppm
from app.transport.calibrate import Calibration, CuredSlice, calibrate
from app.transport.days import FIRST_PINK_PPM, FULL_COLOUR_PPM, DaysNeeded
from app.transport.diffusivity import REFERENCE_C, Range

GREY_WORTH_SAYING = 2.0
"""Below this part of the thickness a grey core is within the error of reading it [%]."""

LONGEST_DAYS = 21.0
"""Longer than this in the fridge is not advised, but the needle; our own choice."""

PUMP_PERCENT = 10.0
"""Pickle pumped in, of the green weight; common practice, no source."""

EVENING_DAYS = 4.0
"""Days for pumped pickle to even out; common practice, no source."""

_ONE_BATH = ("equilibrium", "cover", "dry")
_LEAST_C, _MOST_C = -1.0, 10.0


def about_colour(this: Past, learned: Sequence[Past]) -> tuple[Advice, ...]:
    """What to say about a grey core; nothing when there was none or it was not looked for."""
    grey = this.outcome.grey_percent
    if grey is None or grey < GREY_WORTH_SAYING:
        return ()
    if this.batch.mix.method == "injection":
        return _stitch(this, grey)
    try:
        model = model_of(this)
    except ValueError:
        # The mix or the piece cannot be modelled, so there is nothing sound to say.
        return ()
    own, was = own_calibration(this, learned), days_in_cure(this)
    if own is None or was is None:
        return ()
    needed = _needed(model, own, temperature_of(this))
    # Where slice and days contradict each other there is nothing to build on.
    if needed.days is None or ceil(needed.days.likely) <= was:
        return ()
    first = _days(this, model, own, needed, needed.days, was)
    return (first, *_cap(model, own, needed.days, was), *_inject(this, first.id))


def model_of(past: Past) -> CureModel:
    """The cure of a past batch as the models take it, with the thickness its slice showed."""
    batch = past.batch
    return cure_model(batch.mix, batch.thickness_mm or past.outcome.thickness_mm, batch.fat_cap_on)


def days_in_cure(past: Past) -> float | None:
    """Days truly spent in the cure, else those planned, else None."""
    took = took_s(past.batch, "cure")
    if took is not None:
        return took / 86400.0
    planned = next((s.minutes for s in past.batch.plan if s.stage == "cure"), None)
    return None if planned is None else planned / 1440.0


def temperature_of(past: Past) -> float:
    """The cure's temperature as logged, else that of a refrigerator [°C]."""
    logged = cure_temperature_c(past.entries)
    return REFERENCE_C if logged is None else min(_MOST_C, max(_LEAST_C, logged))


def slice_told(past: Past) -> CuredSlice | None:
    """What a past slice tells of how fast the cure moves; None when it tells nothing."""
    grey = past.outcome.grey_percent
    days = days_in_cure(past)
    if grey is None or not days or past.batch.mix.method not in _ONE_BATH:
        return None
    try:
        return model_of(past).slice_of(days, grey, temperature_of(past))
    except ValueError:
        return None


def own_calibration(this: Past, learned: Sequence[Past]) -> Calibration | None:
    """How fast the cure moves in this cook's meat, by this slice and those of the same cut."""
    told = [slice_told(past) for past in (this, *(one for one in learned if same_cut(this, one)))]
    slices = [one for one in told if one is not None]
    return calibrate(slices) if told[0] is not None else None


def _needed(model: CureModel, own: Calibration, temperature_c: float) -> DaysNeeded:
    full = model.days_to_colour(FULL_COLOUR_PPM, temperature_c, own.diffusivity)
    if full.days is not None:
        return full
    return model.days_to_colour(FIRST_PINK_PPM, temperature_c, own.diffusivity)


def _sure(own: Calibration) -> Sure:
    agree = sum(reading.agrees for reading in own.readings)
    if agree < len(own.readings) or agree == 1:
        return "a guess"
    return "sure" if agree >= 4 else "fairly sure"


def _days(
    this: Past, model: CureModel, own: Calibration, needed: DaysNeeded, days: Range, was: float
) -> Advice:
    grey, thick = this.outcome.grey_percent or 0.0, model.piece.thickness_mm
    wanted = float(ceil(days.likely))
    reason = (
        f"After {was:.1f} days {grey:.0f} % of {thick:.0f} mm was grey. By how far the cure had "
        f"come, the middle of such a piece has its colour after {days.low:.0f} to "
        f"{days.high:.0f} days, most likely {days.likely:.0f}."
    )
    if wanted > LONGEST_DAYS:
        # The time goes with the square of the thickness.
        thinner_mm = thick * (10.0 / days.likely) ** 0.5
        return Advice(
            "thinner",
            f"At {thick:.0f} mm this cut would need about {wanted:.0f} days. Take a piece of "
            f"{thinner_mm:.0f} mm for 10 days.",
            reason,
            _sure(own),
            working=needed.working,
        )
    weaker = _weaker(this, model, was, wanted)
    also = f" and set the salt to {weaker:.1f} %, so that it gets no saltier" if weaker else ""
    return Advice(
        "days",
        f"Leave it in the cure {wanted:.0f} days instead of {was:.0f}{also}.",
        reason,
        _sure(own),
        mix_changes=(("days", wanted), *((("salt_percent", weaker),) if weaker else ())),
        stage_minutes=(("cure", wanted * 1440.0),),
        working=needed.working,
    )


def _weaker(this: Past, model: CureModel, was: float, wanted: float) -> float | None:
    """A strong brine's salt for more days [%], so that the meat takes up as much as before."""
    target = model.mix.salt_percent
    if this.batch.mix.method != "cover" or not target:
        return None
    then, now = (
        model.after(days, temperature_of(this)).likely.end.profiles[SALT].average
        for days in (was, wanted)
    )
    # The bath's salt per water goes with the uptake; percent is of water and salt together.
    per_water = target / (100.0 - target) * then / now
    return round(100.0 * per_water / (1.0 + per_water), 1)


def _cap(model: CureModel, own: Calibration, days: Range, was: float) -> tuple[Advice, ...]:
    """With a fat cap on, one face is nearly closed; taking it off halves the way."""
    if model.piece.faces == 2:
        return ()
    low, likely, high = (d / 4.0 for d in (days.low, days.likely, days.high))
    wanted = float(max(1, ceil(likely)))
    return (
        Advice(
            "cap",
            f"Trim the fat cap off and give it {wanted:.0f} days.",
            "Fat lets the cure through several times slower than lean, so it came from one face "
            f"only. From both, the middle has its colour after {low:.0f} to {high:.0f} "
            f"days; it had {was:.0f}.",
            _sure(own),
            mix_changes=(("days", wanted), ("fat_cap_on", False)),
            stage_minutes=(("cure", wanted * 1440.0),),
            fat_cap_off=True,
            instead_of="days",
        ),
    )


def _inject(this: Past, instead_of: str) -> tuple[Advice, ...]:
    """The needle instead of days, if what it brings is enough for colour in the middle."""
    mix = this.batch.mix
    # Salt is told of another thing by this method, so the old figure would not mean the same.
    same_basis = mix.method == "equilibrium"
    changed = evolve(
        mix,
        method="injection",
        pump_percent=PUMP_PERCENT,
        days=EVENING_DAYS,
        salt_percent=mix.salt_percent if same_basis else None,
        sugar_percent=mix.sugar_percent if same_basis else None,
    )
    try:
        model = model_of(Past(evolve(this.batch, mix=changed, outcome=this.outcome)))
        ends = model.after(EVENING_DAYS).ends
    except ValueError:
        return ()
    slow, likely, _ = (nitrite_ppm(end.profiles[NITRITE].core, model.meat_water) for end in ends)
    if slow < FIRST_PINK_PPM:
        return ()
    fields = ("method", "pump_percent", "days", "salt_percent", "sugar_percent")
    return (
        Advice(
            "inject",
            f"Or inject: pump {PUMP_PERCENT:.0f} % of its weight evenly through the thick part, "
            f"cover it with the rest, {EVENING_DAYS:.0f} days.",
            f"The needle puts the cure in the middle at once: pumped evenly it holds "
            f"{likely:.0f} ppm there after {EVENING_DAYS:.0f} days, and the first pink takes "
            f"{FIRST_PINK_PPM:.0f}. It hangs on how evenly it is pumped.",
            "fairly sure",
            mix_changes=tuple((name, getattr(changed, name)) for name in fields),
            stage_minutes=(("cure", EVENING_DAYS * 1440.0),),
            instead_of=instead_of,
        ),
    )


def _stitch(this: Past, grey: float) -> tuple[Advice, ...]:
    """Injected meat holds enough for colour everywhere if the pickle was spread."""
    try:
        model = model_of(this)
    except ValueError:
        return ()
    start = model.start or {}
    pumped = model.meat_water * start[NITRITE].average if NITRITE in start else 0.0
    if pumped < FIRST_PINK_PPM:
        return ()
    return (
        Advice(
            "stitch",
            "Pump closer together and deeper, and draw the needle back slowly.",
            f"What was pumped, {pumped:.0f} ppm evenly spread, is more than the "
            f"{FIRST_PINK_PPM:.0f} ppm of the first pink; {grey:.0f} % stayed grey because the "
            "pickle did not get there.",
            "fairly sure",
        ),
    )


def for_thickness(advice: Advice, was_mm: float | None, now_mm: float | None) -> Advice:
    """The same advice for a piece of another thickness: days go with its square."""
    if not was_mm or not now_mm or was_mm == now_mm or advice.id not in ("days", "cap"):
        return advice
    days = {stage: minutes / 1440.0 for stage, minutes in advice.stage_minutes}
    wanted = days_carried(days["cure"], was_mm, now_mm)
    changes = tuple((k, wanted if k == "days" else v) for k, v in advice.mix_changes)
    return evolve(advice, mix_changes=changes, stage_minutes=(("cure", wanted * 1440.0),))


def days_carried(days: float, was_mm: float, now_mm: float) -> float:
    """Days for another thickness, so that the cure gets as far: days · (new/old)².

    Whole days, rounded up, where the thickness differs.

    >>> days_carried(10.0, was_mm=40.0, now_mm=50.0)
    16.0
    """
    if was_mm == now_mm:
        return days
    return float(max(1, ceil(days * (now_mm / was_mm) ** 2 - 1e-9)))
