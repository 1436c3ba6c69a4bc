"""Advice about wrap and finish, from the cook's own batches alone: no model knows tenderness."""

from collections.abc import Sequence
from statistics import median

from app.journal.advised import Advice, Past, Sure, same_cut
from app.journal.happened import last_feel, pulled_core_c, took_s, wrapped_after_s
from app.journal.wall import say_minutes

_TOUGH, _TENDER = 2, 4
_FIFTEEN_MIN = 900.0


def about_finish(this: Past, learned: Sequence[Past]) -> tuple[Advice, ...]:
    """What to say about tenderness and smoke."""
    near = [past for past in learned if same_cut(this, past)]
    return (*_tenderness(this, near), *_smoke(this, near))


def tough(past: Past) -> bool:
    outcome = past.outcome
    low = outcome.tenderness is not None and outcome.tenderness <= _TOUGH
    high = outcome.tenderness is not None and outcome.tenderness >= _TENDER
    return low or (outcome.bend == "cracks" and not high)


def tender(past: Past) -> bool:
    outcome = past.outcome
    scored = outcome.tenderness is not None and outcome.tenderness >= _TENDER
    return scored and outcome.bend in ("bends", None)


def _tenderness(this: Past, near: Sequence[Past]) -> tuple[Advice, ...]:
    if tough(this):
        return _longer(this, [past for past in near if tender(past)])
    if this.outcome.bend == "falls_apart":
        return _shorter(this, [past for past in near if tender(past)])
    return ()


def _longer(this: Past, good: Sequence[Past]) -> tuple[Advice, ...]:
    was_s = took_s(this.batch, "finish")
    typical = _typical_finish_s(good)
    core = pulled_core_c(this.entries)
    good_cores = [c for c in (pulled_core_c(past.entries) for past in good) if c is not None]
    if typical is not None and was_s is not None and typical - was_s >= _FIFTEEN_MIN:
        minutes = 5.0 * round(typical / 300.0)
        more = f" and {median(good_cores):.0f} °C inside" if good_cores else ""
        return (
            Advice(
                "finish",
                f"Allow {say_minutes(minutes)} for the finish, by feel and not by time.",
                f"It came out tough after {say_minutes(was_s / 60)}; your tender ones of this cut "
                f"took about {say_minutes(typical / 60)}{more}.",
                _sure(len(good)),
                stage_minutes=(("finish", minutes),),
            ),
        )
    feel = last_feel(this.entries)
    if feel is not None and feel.step != "soft":
        at = f" at {core:.0f} °C" if core is not None else ""
        word = {"hard": "hard", "firm": "firm", "nearly": "nearly there"}[feel.step]
        return (
            Advice(
                "finish",
                "Leave it on until the probe goes in softly everywhere.",
                f"It was taken off{at} while the probe still felt {word} in the {feel.spot}, and "
                "came out tough.",
                "fairly sure",
            ),
        )
    return ()


def _shorter(this: Past, good: Sequence[Past]) -> tuple[Advice, ...]:
    was_s = took_s(this.batch, "finish")
    typical = _typical_finish_s(good)
    if typical is None or was_s is None or was_s - typical < _FIFTEEN_MIN:
        return ()
    minutes = 5.0 * round(typical / 300.0)
    return (
        Advice(
            "finish",
            f"Look {say_minutes((was_s - typical) / 60)} sooner whether the probe goes in softly.",
            f"It fell apart after {say_minutes(was_s / 60)}; your tender ones of this cut took "
            f"about {say_minutes(typical / 60)}.",
            _sure(len(good)),
            stage_minutes=(("finish", minutes),),
        ),
    )


def _smoke(this: Past, near: Sequence[Past]) -> tuple[Advice, ...]:
    """Earlier or later wrap, if earlier batches with the right smoke say by how much."""
    score, was_s = this.outcome.smoke, wrapped_after_s(this.batch, this.entries)
    if score is None or score == 3 or was_s is None:
        return ()
    right = [
        wrapped
        for past in near
        if past.outcome.smoke == 3
        and (wrapped := wrapped_after_s(past.batch, past.entries)) is not None
    ]
    if not right:
        return ()
    typical = median(right)
    off = was_s - typical
    if abs(off) < _FIFTEEN_MIN or (off > 0) != (score > 3):
        return ()
    minutes = 5.0 * round(typical / 300.0)
    when = "earlier" if off > 0 else "later"
    return (
        Advice(
            "wrap",
            f"Wrap {say_minutes(abs(off) / 60)} {when}, after about {say_minutes(minutes)}, if "
            "the bark has set by then.",
            f"It was wrapped after {say_minutes(was_s / 60)} and tasted of too "
            f"{'much' if score > 3 else 'little'} smoke; those you found right were wrapped after "
            f"about {say_minutes(typical / 60)}.",
            _sure(len(right)),
            stage_minutes=(("smoke", minutes),),
        ),
    )


def _typical_finish_s(good: Sequence[Past]) -> float | None:
    taken = [s for s in (took_s(past.batch, "finish") for past in good) if s is not None]
    return median(taken) if taken else None


def _sure(count: int) -> Sure:
    if count < 2:
        return "a guess"
    return "sure" if count >= 4 else "fairly sure"
