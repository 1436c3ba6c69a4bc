"""Soaking salt out again: where it is, what a rinse does, how many hours and waters it takes."""

from collections.abc import Sequence
from math import ceil, inf

from attrs import frozen

from app.cure.working import Working
from app.transport.brining import MEAT_WATER, SALT, cover_bath, salt_per_water, salt_percent
from app.transport.checks import between, not_negative, positive
from app.transport.course import Bath, Profile, Solute, Stage
from app.transport.diffusion import simulate
from app.transport.diffusivity import SALT as SALT_MOVES
from app.transport.diffusivity import Diffusivity, Range
from app.transport.outlook import CELLS, Outlook

TASTE_IT = (
    "The honest check: cut a sliver from the edge, cook it, taste it. The middle tastes like the "
    "average once it has stood a day."
)


@frozen
class SaltNow:
    """Salt in the meat as percent of green weight; each as low, likely, high."""

    surface_percent: Range
    middle_percent: Range
    average_percent: Range
    says: str
    working: Working


@frozen
class Rinse:
    """What rinsing alone does: average salt before and after, likely, percent of green weight."""

    before_percent: float
    after_percent: float
    says: str
    working: Working


@frozen
class SoakNeeded:
    """Hours of soaking for a saltiness. `hours` is None when the longest soak does not do it."""

    hours: Range | None
    waters: Range | None
    reached_percent: float
    says: str
    working: Working
    taste: str = TASTE_IT


def salt_now(cured: Outlook, meat_water: float = MEAT_WATER) -> SaltNow:
    """Where the salt is at the end of a run: outside, in the middle and on average.

    salt % = 100 · C · w

    Parameters
    ----------
    cured : a run of the cure
    meat_water : w, water as a part of the green weight [0-1]

    Returns
    -------
    Three ranges and a sentence

    Examples
    --------
    >>> from app.transport.course import Piece
    >>> from app.transport.outlook import outlook
    >>> bath = cover_bath(5000, water_g=3500, salt_g=225)
    >>> now = salt_now(outlook([Stage("cure", 168.0, bath)], Piece(45.0)))
    >>> now.says
    'Salt is likely 2.5 % outside, 1.8 % in the middle, 2.0 % on average (1.7 to 2.2 %).'
    """
    ends = [end.profiles[SALT] for end in cured.ends]
    # The bath that touched the meat is gone; what counts is the outermost meat.
    surface, middle, average = (
        _span([salt_percent(value, meat_water) for value in values])
        for values in (
            [p.means[0] for p in ends],
            [p.core for p in ends],
            [p.average for p in ends],
        )
    )
    says = (
        f"Salt is likely {surface.likely:.1f} % outside, {middle.likely:.1f} % in the middle, "
        f"{average.likely:.1f} % on average ({average.low:.1f} to {average.high:.1f} %)."
    )
    working = Working(
        "Salt in the meat now",
        "∂C/∂t = D · ∂²C/∂x²; salt % of green weight = 100 · C · w",
        _cure_inputs(cured, meat_water),
        says,
        f"Finite volumes, checked against Crank (1975). {SALT_MOVES.source}",
        "Salt the raw meat had of its own is not counted. Taste before you trust it.",
    )
    return SaltNow(surface, middle, average, says, working)


def rinse(
    cured: Outlook,
    minutes: float = 2.0,
    temperature_c: float = 15.0,
    meat_water: float = MEAT_WATER,
    salt: Diffusivity = SALT_MOVES,
) -> Rinse:
    """What rinsing under running water does to the salt inside.

    A bath without salt that never runs down, for the minutes of the rinse

    Parameters
    ----------
    cured : a run of the cure
    minutes : time under the tap [min]
    temperature_c : of the meat's surface meanwhile [°C]
    meat_water : water as a part of the green weight [0-1]
    salt : diffusivity of salt

    Returns
    -------
    Average salt before and after, with the likely diffusivity

    Raises
    ------
    ValueError : the minutes are negative

    Examples
    --------
    >>> from app.transport.course import Piece
    >>> from app.transport.outlook import outlook
    >>> bath = cover_bath(5000, water_g=3500, salt_g=225)
    >>> rinse(outlook([Stage("cure", 168.0, bath)], Piece(45.0))).says
    'A 2 minute rinse takes the brine off the outside but only 2 % of the salt inside: ...
    """
    not_negative("time under the tap", minutes, "minutes")
    before = cured.likely.end.profiles[SALT]
    running = Stage("rinse", minutes / 60.0, Bath(inf), temperature_c)
    after = _soaked(before, [running], salt.likely_m2_s, salt.activation_kj_mol)
    was, now = (salt_percent(p.average, meat_water) for p in (before, after))
    part = 0.0 if was == 0.0 else 100.0 * (was - now) / was
    says = (
        f"A {minutes:g} minute rinse takes the brine off the outside but only {part:.0f} % of the "
        f"salt inside: {was:.2f} % becomes {now:.2f} %."
    )
    working = Working(
        "What a rinse does",
        "∂C/∂t = D · ∂²C/∂x² with plain running water outside",
        (*_cure_inputs(cured, meat_water), ("Time under the tap", f"{minutes:g} min")),
        says,
        f"Finite volumes from the run of the cure onward. {salt.source}",
        "With the likely diffusivity. Brine that clings to the outside comes off besides.",
    )
    return Rinse(was, now, says, working)


def soak_needed(
    cured: Outlook,
    wanted_percent: float,
    meat_g: float,
    water_g: float,
    change_every_hours: float = 4.0,
    longest_hours: float = 48.0,
    temperature_c: float = 4.0,
    meat_water: float = MEAT_WATER,
    salt: Diffusivity = SALT_MOVES,
) -> SoakNeeded:
    """Hours and waters until the meat's average salt has come down to what is wanted.

    Baths of plain water one after another, α = water/(meat·w); the hour is found by halving

    Parameters
    ----------
    cured : a run of the cure
    wanted_percent : average salt wanted [g per 100 g of green weight]
    meat_g : green weight of the meat [g]
    water_g : water in the pot each time [g]
    change_every_hours : time until the water is changed [h]
    longest_hours : the longest soak thought of [h]
    temperature_c : temperature of the soak; in the refrigerator [°C]
    meat_water : w, water as a part of the green weight [0-1]
    salt : diffusivity of salt

    Returns
    -------
    Hours and number of waters as ranges, a sentence and the working

    Raises
    ------
    ValueError : a number is impossible

    Notes
    -----
    Each of slow, likely and quick goes through cure and soak alike: meat that took salt slowly
    holds less and gives it up slowly. Soak in the refrigerator.

    Examples
    --------
    >>> from app.transport.course import Piece
    >>> from app.transport.outlook import outlook
    >>> bath = cover_bath(5000, water_g=5000, salt_g=600)
    >>> salty = outlook([Stage("cure", 168.0, bath)], Piece(45.0))
    >>> need = soak_needed(salty, wanted_percent=3.5, meat_g=5000, water_g=8000)
    >>> [round(h, 1) for h in (need.hours.low, need.hours.likely, need.hours.high)]
    [0.0, 8.1, 10.7]

    References
    ----------
    `app.transport.diffusion.simulate`; diffusivities as `app.transport.diffusivity.SALT` says.
    """
    positive("salt wanted", wanted_percent, "%")
    _check_changes(longest_hours, change_every_hours)
    water = cover_bath(meat_g, water_g, 0.0, meat_water=meat_water)
    goal = salt_per_water(wanted_percent, meat_water)
    found: list[float | None] = []
    reached: list[float] = []
    for end, d_m2_s in zip(cured.ends, salt.slow_to_fast, strict=True):
        hours, average = _hours_until(
            end.profiles[SALT],
            goal,
            water,
            change_every_hours,
            longest_hours,
            temperature_c,
            d_m2_s,
            salt.activation_kj_mol,
        )
        found.append(hours)
        reached.append(salt_percent(average, meat_water))
    inputs = (
        ("Salt wanted, on average", f"{wanted_percent:.2f} % of green weight"),
        ("Water each time", f"{water_g:.0f} g for {meat_g:.0f} g of meat"),
        ("Water changed every", f"{change_every_hours:g} h"),
        ("Temperature", f"{temperature_c:.1f} °C"),
    )
    certain = [hours for hours in found if hours is not None]
    if len(certain) < len(found):
        says = (
            f"Not surely reached in {longest_hours:g} hours: the salt comes down to "
            f"{min(reached):.1f} to {max(reached):.1f} %. More water or more changes help; so does "
            "less salt next time."
        )
        return SoakNeeded(None, None, reached[1], says, _working(inputs, says, salt))
    hours_range = _span(certain)
    waters = _span([float(_waters(hours, change_every_hours)) for hours in certain])
    says = _says(hours_range, waters, change_every_hours, wanted_percent)
    return SoakNeeded(hours_range, waters, reached[1], says, _working(inputs, says, salt))


def soak_stages(
    hours: float, water: Bath, change_every_hours: float = 4.0, temperature_c: float = 4.0
) -> tuple[Stage, ...]:
    """A soak as stages for a run of the model, each in fresh water.

    Parameters
    ----------
    hours : time in water altogether [h]
    water : one filling, as `cover_bath` makes it with no salt
    change_every_hours : time until the water is changed [h]
    temperature_c : temperature of the soak [°C]

    Returns
    -------
    One stage a filling, the last one shorter where the hours do not come out even

    Raises
    ------
    ValueError : the hours are not 0 to 240, or the time until a change not 0.5 to 240

    Examples
    --------
    >>> [s.hours for s in soak_stages(10.0, cover_bath(5000, 8000, 0.0))]
    [4.0, 4.0, 2.0]
    """
    _check_changes(hours, change_every_hours)
    fillings = _waters(hours, change_every_hours)
    return tuple(
        Stage(
            f"soak {i + 1}",
            min(change_every_hours, hours - i * change_every_hours),
            water,
            temperature_c,
        )
        for i in range(fillings)
    )


def _check_changes(hours: float, change_every_hours: float) -> None:
    """Ten days and half an hour: beyond them it is not a soak, and would take long to work out."""
    between("time of the soak", hours, 0.0, 240.0, "h")
    between("time until the water is changed", change_every_hours, 0.5, 240.0, "h")


def _hours_until(
    start: Profile,
    goal: float,
    water: Bath,
    every: float,
    longest: float,
    temperature_c: float,
    d_m2_s: float,
    activation: float,
) -> tuple[float | None, float]:
    """The hour at which the average has come down to a goal, and the average then."""
    if start.average <= goal:
        return 0.0, start.average
    now, passed = start, 0.0
    while passed < longest:
        length = min(every, longest - passed)

        def after(hours: float, begin: Profile = now) -> Profile:
            stage = Stage("soak", hours, water, temperature_c)
            return _soaked(begin, [stage], d_m2_s, activation)

        then = after(length)
        if then.average <= goal:
            low, high = 0.0, length
            while high - low > 0.02:
                middle = (low + high) / 2.0
                if after(middle).average > goal:
                    low = middle
                else:
                    high = middle
            return passed + high, after(high).average
        now, passed = then, passed + length
    return None, now.average


def _soaked(start: Profile, stages: Sequence[Stage], d_m2_s: float, activation: float) -> Profile:
    solute = Solute(SALT, d_m2_s, activation)
    course = simulate(stages, start.piece, [solute], {SALT: start}, cells=CELLS)
    return course.end.profiles[SALT]


def _waters(hours: float, every: float) -> int:
    return ceil(hours / every - 1e-9)


def _says(hours: Range, waters: Range, every: float, wanted: float) -> str:
    if hours.high == 0.0:
        return f"No soak needed: the meat holds no more than {wanted:.1f} % salt already. Rinse it."
    changes = max(round(waters.likely) - 1, 0)
    turn = {0: "one filling of water", 1: "one change of water"}.get(changes, f"{changes} changes")
    return (
        f"{hours.low:.0f} to {hours.high:.0f} hours, most likely {hours.likely:.0f}, with {turn}"
        f"{'' if changes == 0 else f' (every {every:g} h)'}, to come down to {wanted:.1f} %. "
        "Keep it in the refrigerator."
    )


def _cure_inputs(cured: Outlook, meat_water: float) -> tuple[tuple[str, str], ...]:
    end = cured.likely.end
    piece = end.profiles[SALT].piece
    return (
        ("Cured for", f"{end.hours / 24.0:.1f} days in all"),
        ("Thickness", f"{piece.thickness_mm:.0f} mm, way to the middle {piece.path_mm:.0f} mm"),
        ("Water in the meat", f"{meat_water:.0%}"),
    )


def _span(values: Sequence[float]) -> Range:
    slow, likely, quick = values
    return Range.around(likely, slow, quick)


def _working(inputs: tuple[tuple[str, str], ...], result: str, salt: Diffusivity) -> Working:
    return Working(
        "Hours of soaking",
        "∂C/∂t = D · ∂²C/∂x² in the meat, fresh water round it at each change",
        inputs,
        result,
        f"Finite volumes from the run of the cure onward. {salt.source}",
        "The water is taken as stirred: turn the meat when you pass. What the cure left in the "
        "meat is itself the model's estimate, so taste.",
    )
