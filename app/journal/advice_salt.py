"""Advice toward the saltiness this cook calls right, learned from their own scores."""

from collections.abc import Sequence
from math import exp, log, sqrt
from statistics import mean

from attrs import frozen

from app.cure.working import Working
from app.journal.advice_colour import days_in_cure, model_of, temperature_of
from app.journal.advice_taste import called, grey_first, leave_it, look_elsewhere, salt_enough
from app.journal.advised import Advice, Past, Sure
from app.journal.cure_model import CureModel
from app.journal.happened import took_s
from app.transport.brining import SALT, cover_bath, salt_percent
from app.transport.course import Stage
from app.transport.outlook import Outlook, outlook
from app.transport.soak import soak_needed

STEP_LN = 0.22
"""One step of the five on the scale is taken as a quarter more or less salt; a judgement."""

SCATTER_LN = 0.18
"""Scatter of a single tasting, in the logarithm of the salt; a judgement."""

MOST_CHANGE = 1.35
"""No advice goes further than this factor in one go; our own choice."""

SOAK_WATER = 2.0
"""Water of a soak over the weight of the meat; common practice, no source."""

CHANGE_H = 4.0
"""Hours until the water of a soak is changed; common practice, no source."""

MOST_GREY = 10.0
"""A slice greyer than this was salted unevenly, and its tasting teaches nothing [%]."""

_LEAST_PERCENT, _MOST_PERCENT = 1.0, 4.5  # Beyond these no taste is learned, something is amiss.
_CHANGE_WORTH_SAYING = 0.06


@frozen
class RightSalt:
    """The salt in the meat that this cook calls right [% of green weight], as a range."""

    percent: float
    low_percent: float
    high_percent: float
    tastings: int


@frozen
class _Salted:
    """A past batch's cure by the model, and the run of it, soak not yet counted."""

    model: CureModel
    cured: Outlook


def _salted(past: Past) -> _Salted | None:
    days = days_in_cure(past)
    if not days:
        return None
    try:
        model = model_of(past)
    except ValueError:
        return None
    return _Salted(model, model.after(days, temperature_of(past)))


def salt_in(past: Past) -> Outlook | None:
    """The model's run of a past batch through cure and soak; None when it cannot be run."""
    salted = _salted(past)
    soaked_s = took_s(past.batch, "soak")
    if salted is None or not soaked_s:
        return None if salted is None else salted.cured
    model, grams = salted.model, past.batch.mix.meat_g
    water = cover_bath(grams, SOAK_WATER * grams, 0.0, meat_water=model.meat_water)
    cure_h = 24.0 * (days_in_cure(past) or 0.0)
    stages = [Stage("cure", cure_h, model.bath, temperature_of(past))]
    left_h = soaked_s / 3600.0
    while left_h > 0.0:
        # Taken as soaked the way the advice has it, with fresh water at each change.
        stages.append(Stage("soak", min(CHANGE_H, left_h), water))
        left_h -= CHANGE_H
    return outlook(stages, model.piece, start=model.start)


def likely_salt_percent(past: Past) -> float | None:
    """Salt in the meat by the model [% of green weight], on average; None when unknown."""
    run = salt_in(past)
    if run is None:
        return None
    return salt_percent(run.likely.end.profiles[SALT].average, model_of(past).meat_water)


def right_salt(pasts: Sequence[Past]) -> RightSalt | None:
    """The salt this cook calls right, from all tastings with a score.

    ln right = mean(ln salt − step · (score − 3)), over the tastings

    Parameters
    ----------
    pasts : batches with their outcomes; those not scored, or with a grey core, are passed over

    Returns
    -------
    The range, nine times in ten; None without a tasting that can be used

    Notes
    -----
    Needs no more than an ear for "too salty": one step on the scale is taken as a quarter of
    the salt. Each tasting moves the answer, and none decides it alone once there are more.

    References
    ----------
    The step and the scatter are judgements, no source.
    """
    told: list[float] = []
    for past in pasts:
        score = past.outcome.salt
        if (past.outcome.grey_percent or 0.0) > MOST_GREY:
            continue
        percent = likely_salt_percent(past) if score is not None else None
        if score is None or percent is None or not _LEAST_PERCENT / 2 <= percent <= 9.0:
            continue
        told.append(log(percent) - STEP_LN * (score - 3))
    if not told:
        return None
    middle = mean(told)
    scatter = SCATTER_LN
    if len(told) > 2:
        scatter = max(0.08, sqrt(sum((x - middle) ** 2 for x in told) / (len(told) - 1)))
    off = 1.6449 * scatter / sqrt(len(told))  # Nine times in ten, normal (from memory).
    return RightSalt(exp(middle), exp(middle - off), exp(middle + off), len(told))


def about_salt(this: Past, learned: Sequence[Past]) -> tuple[Advice, ...]:
    """What to say about saltiness; nothing when it was right or not tasted.

    Where there is no sound number, what to look at before the salt is changed.
    """
    score = this.outcome.salt
    if score is None or score == 3:
        return ()
    uneven = (this.outcome.grey_percent or 0.0) > MOST_GREY
    now, salted = likely_salt_percent(this), _salted(this)
    if now is None or salted is None:
        return grey_first(this) if uneven else _by_scale(this, score)
    if score > 3 and now < _LEAST_PERCENT * (1.0 + _CHANGE_WORTH_SAYING):
        return (look_elsewhere(now, _LEAST_PERCENT, score),)
    if score < 3 and now > _MOST_PERCENT / (1.0 + _CHANGE_WORTH_SAYING):
        return (salt_enough(now, _MOST_PERCENT, score),)
    right = right_salt((this, *learned))
    if right is None:
        return grey_first(this) if uneven else _by_scale(this, score)
    wanted = min(_MOST_PERCENT, max(_LEAST_PERCENT, right.percent))
    wanted = min(now * MOST_CHANGE, max(now / MOST_CHANGE, wanted))
    change = wanted / now - 1.0
    reason = (
        f"By the model it held {now:.1f} % salt and you called it {called(score)}. "
        f"What you call right lies near {right.percent:.1f} %, from {right.low_percent:.1f} to "
        f"{right.high_percent:.1f}, by {_tastings(right.tastings)}."
    )
    # Where all tastings together say the opposite of this one, there is no sound number.
    if abs(change) < _CHANGE_WORTH_SAYING or (change < 0) != (score > 3):
        return (leave_it(reason),)
    found = _soak(this, salted, wanted, reason, right) if _soaks(this, score) else ()
    return (*found, _strength(salted, now, wanted, reason, right, "soak" if found else ""))


def _by_scale(this: Past, score: int) -> tuple[Advice, ...]:
    """Another salt target by the score alone, where no model runs; nothing without a target.

    new salt % = salt % · e^(−step · (score − 3)), no further than `MOST_CHANGE`
    """
    target = this.batch.mix.salt_percent
    if not target:
        return ()
    factor = min(MOST_CHANGE, max(1.0 / MOST_CHANGE, exp(-STEP_LN * (score - 3))))
    new = round(target * factor, 1)
    return (
        Advice(
            "salt",
            f"Set the salt to {new:.1f} % instead of {target:.1f} %.",
            f"You called it {called(score)}. How much salt it held is not known here, so this "
            "goes by your score alone: each step is taken as a quarter of the salt.",
            "a guess",
            mix_changes=(("salt_percent", new),),
        ),
    )


def _soaks(this: Past, score: int) -> bool:
    """Salt is soaked out of a strong brine, and less so if it was soaked before."""
    return took_s(this.batch, "soak") is not None or (
        score > 3 and this.batch.mix.method == "cover"
    )


def _soak(
    this: Past, salted: _Salted, wanted: float, reason: str, right: RightSalt
) -> tuple[Advice, ...]:
    grams, water = this.batch.mix.meat_g, salted.model.meat_water
    needed = soak_needed(
        salted.cured, wanted, grams, SOAK_WATER * grams, CHANGE_H, meat_water=water
    )
    if needed.hours is None:
        return ()
    hours = float(round(needed.hours.likely))
    was_h = (took_s(this.batch, "soak") or 0.0) / 3600.0
    if abs(hours - was_h) < 1.0:
        return ()
    instead = f" instead of {was_h:.0f}" if was_h >= 1.0 else ""
    return (
        Advice(
            "soak",
            f"Soak it {hours:.0f} hours{instead}, in the fridge, in twice its weight of water, "
            f"changed every {CHANGE_H:.0f} hours.",
            f"{reason} {needed.taste}",
            _sure(right),
            stage_minutes=(("soak", hours * 60.0),),
            working=needed.working,
        ),
    )


def _strength(
    salted: _Salted, now: float, wanted: float, reason: str, right: RightSalt, instead_of: str
) -> Advice:
    """Another salt target; salt in the meat follows it in proportion, the days being the same."""
    target = salted.model.mix.salt_percent or 0.0
    new = round(target * wanted / now, 1)
    return Advice(
        "salt",
        f"Set the salt to {new:.1f} % instead of {target:.1f} %.",
        reason,
        _sure(right),
        mix_changes=(("salt_percent", new),),
        instead_of=instead_of,
        working=Working(
            "Salt for next time",
            "new salt % = salt % × right / now; ln right = mean(ln salt − 0.22 × (score − 3))",
            (
                ("salt as it was set", f"{target:.1f} %"),
                ("in the meat, by the model", f"{now:.2f} %"),
                ("called right", f"{right.percent:.2f} %"),
                ("tastings", str(right.tastings)),
            ),
            f"{new:.1f} %",
            "Your own scores; a step on the scale taken as a quarter of the salt is a "
            "judgement, no source",
            "One change goes no further than about a third. Sugar, smoke and fat move the "
            "taste of salt and are not in it.",
        ),
    )


def _sure(right: RightSalt) -> Sure:
    if right.tastings < 2 or right.high_percent > 1.6 * right.low_percent:
        return "a guess"
    return "sure" if right.tastings >= 5 else "fairly sure"


def _tastings(count: int) -> str:
    return "one tasting" if count == 1 else f"{count} tastings"
