"""How long each stage takes: by the models, by the cook's own batches, else by habit.

Every default is a habit of the trade, to be moved by whoever knows better: common practice,
no source. Thaw, chilling the brine and cure come from the models instead.
"""

from collections.abc import Iterable, Mapping
from math import ceil, isfinite
from statistics import median

from attrs import frozen

from app.cure.mix import work_out
from app.cure.request import Method, MixRequest
from app.cure.targets import COVER_DAYS
from app.heat.chill import COLD_C, hours_to_chill
from app.heat.thaw import thaw_time
from app.journal.chain import RUNNING, active, waits_for
from app.journal.cure_model import planned_days
from app.journal.records import Batch, Stage

PRACTICE = "common practice, no source"


@frozen
class Length:
    """How long a stage takes [min], and where that comes from."""

    minutes: float
    why: str = PRACTICE


DEFAULT_MIN: Mapping[Stage, float] = {
    "buy": 60,
    "thaw": 2 * 1440,
    "trim": 30,
    "mix": 30,
    "chill": 12 * 60,
    "cure": 7 * 1440,
    "turn": 5,
    "end": 15,
    "soak": 8 * 60,
    "dry": 12 * 60,
    "rub": 30,
    "smoke": 6 * 60,
    "wrap": 15,
    "finish": 4 * 60,
    "tender": 15,
    "rest": 2 * 60,
    "slice": 15,
    "store": 15,
}
"""Default lengths [min]; all of them common practice, no source."""

TITLES: Mapping[Stage, str] = {
    "buy": "Buy the meat and the cure",
    "thaw": "Put it in the fridge to thaw",
    "trim": "Trim and weigh",
    "mix": "Mix the cure",
    "chill": "Chill the brine",
    "cure": "Put the meat in the cure",
    "turn": "Turn the meat",
    "end": "Take it out and rinse",
    "soak": "Soak out salt",
    "dry": "Set it to dry in the fridge",
    "rub": "Rub",
    "smoke": "Start the smoke",
    "wrap": "Look at the bark: wrap?",
    "finish": "Finish, by feel",
    "tender": "Probe: tender?",
    "rest": "Rest, wrapped",
    "slice": "Slice and look",
    "store": "Chill what is left",
}
"""What to do when a step falls due."""

_SOAKED: frozenset[Method] = frozenset({"cover", "injection"})


def usual_stages(method: Method, *, smoked: bool, thawed: bool) -> tuple[Stage, ...]:
    """The stages a plan starts with; any other can be added, any of these left out.

    A strong cover brine leaves salt to soak out; an equilibrium cure is only rinsed. A dry
    cure has no brine to chill. Corned beef goes from the rinse to the pot.
    """
    left_out: set[Stage] = set()
    if not thawed:
        left_out.add("thaw")
    if method not in _SOAKED:
        left_out.add("soak")
    if method == "dry":
        left_out.add("chill")
    if not smoked:
        left_out |= {"dry", "rub", "smoke", "wrap"}
    return tuple(stage for stage in DEFAULT_MIN if stage not in left_out)


def lengths(
    mix: MixRequest,
    thickness_mm: float | None = None,
    fat_cap_on: bool = False,
    own: Mapping[Stage, Length] | None = None,
) -> dict[Stage, Length]:
    """The length of each stage, for this mix and this piece of meat.

    `own` are lengths from elsewhere, advice or earlier batches, and come before all others.
    """
    if not (isfinite(mix.meat_g) and mix.meat_g > 0):
        raise ValueError(f"The meat must weigh more than 0 g; {mix.meat_g} was given.")
    if thickness_mm is not None and not (isfinite(thickness_mm) and thickness_mm > 0):
        raise ValueError(f"The thickness must be more than 0 mm; {thickness_mm} was given.")
    found: dict[Stage, Length] = {stage: Length(m) for stage, m in DEFAULT_MIN.items()}
    thaw = thaw_time(mix.meat_g)
    found["thaw"] = Length(1440.0 * thaw.plan_days, f"by its weight ({thaw.working.source})")
    found["chill"] = chill_length(mix)
    found["cure"] = cure_length(mix, thickness_mm, fat_cap_on)
    return found | dict(own or {})


CHECK_MIN = 60.0
"""To stir and measure a brine that ice has made cold [min]; our own choice."""


def chill_length(mix: MixRequest) -> Length:
    """Until the brine is cold enough for meat: by where ice lands it, else by how a pot cools.

    In whole hours, rounded up. Measured with a thermometer it may be sooner or later.
    """
    try:
        mixed = work_out(mix)
    except ValueError:
        return Length(DEFAULT_MIN["chill"])
    if mixed.ice is None or mixed.brine is None:
        return Length(DEFAULT_MIN["chill"])
    if mixed.ice.landing_c <= COLD_C:
        return Length(CHECK_MIN, "the ice makes it cold at once; this is to stir and measure")
    brine = mixed.brine
    cooled = hours_to_chill(
        brine.mass_g,
        brine.salt_percent,
        mixed.ice.landing_c,
        density_kg_m3=brine.density_kg_m3,
    )
    if cooled.hours is None:
        return Length(DEFAULT_MIN["chill"])
    return Length(
        max(CHECK_MIN, 60.0 * ceil(cooled.hours.likely)),
        "worked out by how fast a pot of it cools in the fridge; more ice would be quicker",
    )


LONGEST_CURE_DAYS = 30.0
"""No plan is made longer than this by itself; our own choice. Inject, or cut thinner."""


def cure_length(mix: MixRequest, thickness_mm: float | None, fat_cap_on: bool) -> Length:
    """Days in the cure: as asked, by the model, or by habit, in this order.

    By the model until the middle likely has its full colour. Injected meat holds its cure from
    the start; its days are for it to even out.
    """
    asked = mix.days
    if asked is None and mix.method == "cover":
        asked = COVER_DAYS
    if asked is not None:
        return Length(asked * 1440.0, "as the mix was asked for")
    if mix.method == "injection":
        return Length(4 * 1440.0)
    try:
        days = planned_days(mix, thickness_mm, fat_cap_on)
    except ValueError:
        return Length(DEFAULT_MIN["cure"])
    if days is None:
        return Length(DEFAULT_MIN["cure"])
    whole = float(min(LONGEST_CURE_DAYS, max(3.0, ceil(days))))
    return Length(whole * 1440.0, "worked out by how far nitrite moves in the days")


MARKED_LATER = (0.1, 5.0)
"""Outside this many times its usual length a stage was marked afterwards, not when it was; our
own choice."""


def lengths_from(batches: Iterable[Batch], cut: str) -> dict[Stage, Length]:
    """How long the running stages took in the cook's own work on the same cut.

    The middle one of the times between beginning a stage and what came after it. Thaw, chilling
    and cure are left to the models, for they hang on weight, ice and thickness.
    """
    taken: dict[Stage, list[float]] = {}
    for batch in batches:
        if batch.demonstration or batch.cut.casefold() != cut.casefold():
            continue
        steps = active(batch.plan)
        present = frozenset(step.stage for step in steps)
        for step in steps:
            if step.done is None or step.stage not in RUNNING - {"thaw", "cure", "chill"}:
                continue
            followed = [
                other.done.utc_s
                for other in steps
                if other.done is not None and step.stage in waits_for(other.stage, present)
            ]
            minutes = (min(followed) - step.done.utc_s) / 60.0 if followed else 0.0
            least, most = (part * DEFAULT_MIN[step.stage] for part in MARKED_LATER)
            if least <= minutes <= most:
                taken.setdefault(step.stage, []).append(minutes)
    return {
        stage: Length(
            max(5.0, 5.0 * round(median(times) / 5.0)),
            f"middle of {len(times)} batches of your own" if len(times) > 1 else "your last batch",
        )
        for stage, times in taken.items()
    }
