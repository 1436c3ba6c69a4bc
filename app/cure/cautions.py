"""What the cook should be told about a mix, most serious first."""

from collections.abc import Iterator

from app.cure.amounts import Amounts
from app.cure.answer import (
    BrineFigures,
    Caution,
    ContainerFit,
    IcePlan,
    Nitrite,
    SaltForecast,
    Severity,
)
from app.cure.request import MixRequest
from app.cure.turning import turn_it
from app.quantities import format

_ORDER: dict[Severity, int] = {"danger": 0, "caution": 1, "hint": 2}

BRISKET_GAIN_PERCENT = 20.0
"""Most a corned beef brisket may gain by its curing solution, 9 CFR 319.101."""

ASCORBATE_PPM = 550.0
"""Most ascorbate or erythorbate, 9 CFR 424.21(c), from memory."""

SALTY_PERCENT = 3.5
"""Salt in the meat most people call too salty. Common practice, no source."""

BLAND_PERCENT = 1.2
"""Salt in the meat below which most people miss it. Common practice, no source."""


def cautions(
    request: MixRequest,
    amounts: Amounts,
    nitrite: Nitrite,
    salt: SaltForecast,
    brine: BrineFigures | None,
    ice: IcePlan | None,
    fit: ContainerFit | None,
) -> tuple[Caution, ...]:
    """All cautions of a mix, danger first.

    Parameters
    ----------
    request : settled
    amounts, nitrite, salt, brine, ice, fit : what was worked out; the last three None when dry

    Returns
    -------
    Sentences with how much hangs on each; amounts in them both metric and US

    Raises
    ------
    ValueError : never for what `app.cure.mix.work_out` hands in

    References
    ----------
    9 CFR 319.101, 9 CFR 424.21(c), 21 CFR 172.170; taste: common practice, no source.
    """
    found = [
        *_of_nitrite(request, amounts, nitrite),
        *_of_salt(request, salt),
        *_of_pump_and_ascorbate(request),
    ]
    if brine is not None and ice is not None and fit is not None:
        found += [*_of_chilling(request, ice, brine), *_of_container(request, fit, brine)]
    if amounts.cure_g:
        words = "Weigh the curing salt: a level spoon holds more or less of it, by its crystals."
        found.append(Caution("caution", words))
    return tuple(sorted(found, key=lambda one: _ORDER[one.severity]))


def _of_nitrite(request: MixRequest, amounts: Amounts, nitrite: Nitrite) -> Iterator[Caution]:
    if amounts.held_down_by_salt:
        brings = (
            f"This curing salt is mostly salt: with {request.salt_percent:g} % salt it brings "
            f"{nitrite.ppm:.0f} ppm of nitrite, not the {nitrite.asked_ppm:.0f} wanted."
        )
        if nitrite.ppm > 0.0:
            wanted = (request.salt_percent or 0.0) * nitrite.asked_ppm / nitrite.ppm
            brings += f" About {wanted:.1f} % salt would bring it, or a stronger curing salt."
        yield Caution("caution", brings)
    if nitrite.ppm == 0.0:
        yield Caution(
            "danger",
            "Without nitrite this is salted, not cured: it stays grey, and slow warm smoking is "
            "not protected by the cure. Cook it as fresh meat.",
        )
    elif nitrite.ppm < nitrite.least_ppm * (1.0 - 1e-6):
        yield Caution(
            "caution",
            f"{nitrite.ppm:.0f} ppm of nitrite is too weak: below {nitrite.least_ppm:.0f} the "
            f"colour comes out patchy and it keeps less well ({nitrite.least_reason}).",
        )
    if nitrite.ppm > nitrite.home_pack_ppm * (1.0 + 1e-9):
        yield Caution(
            "caution",
            f"The rules allow {nitrite.most_ppm:.0f} ppm for dry curing, which loses nitrite over "
            "months. A home pack keeps the finished meat at 200 ppm or less (21 CFR 172.170), "
            "and a short cure in a bag has no need of more.",
        )


def _of_salt(request: MixRequest, salt: SaltForecast) -> Iterator[Caution]:
    likely = salt.then_percent.likely
    if likely > SALTY_PERCENT:
        yield Caution(
            "caution",
            f"The meat comes to about {likely:.1f} % salt {salt.when}: salty to most people. Soak "
            "it, take less salt, or take it out sooner.",
        )
    elif likely < BLAND_PERCENT:
        yield Caution("hint", f"The meat comes to about {likely:.1f} % salt: mild to most people.")
    if request.method == "cover" and salt.then_percent.high > 1.5 * salt.then_percent.low:
        yield Caution(
            "hint",
            "In a strong brine the outside gets salty long before the middle does; what the meat "
            "takes up is a range, not one number.",
        )


def _of_pump_and_ascorbate(request: MixRequest) -> Iterator[Caution]:
    if request.method == "injection" and request.pump_percent > BRISKET_GAIN_PERCENT:
        yield Caution(
            "caution",
            f"Pumping {request.pump_percent:g} % is more than the 20 % a corned beef brisket may "
            "gain (9 CFR 319.101), and much of it runs out.",
        )
    if request.ascorbate_ppm > ASCORBATE_PPM:
        yield Caution(
            "caution",
            f"{request.ascorbate_ppm:g} ppm of ascorbate is above the {ASCORBATE_PPM:g} ppm the "
            "US rules allow.",
        )


def _of_chilling(request: MixRequest, ice: IcePlan, brine: BrineFigures) -> Iterator[Caution]:
    if ice.landing_c > max(ice.target_c, 4.4) + 0.05:
        yield Caution(
            "caution",
            "Even with ice for all the rest this lands at "
            f"{format(ice.landing_c, 'temperature', 'both')}. Boil at most "
            f"{format(ice.most_boiled_g, 'mass', 'both')} of the water, or chill the brine to "
            "4 °C / 40 °F before the meat goes in.",
        )
    elif request.target_c > 4.4:
        yield Caution("caution", "Chill the brine to 4 °C / 40 °F before the meat goes in.")
    if brine.freezing_c < -1.5 and ice.ice_g > 0.0:
        yield Caution(
            "hint",
            "Ice left in this brine goes on melting down to "
            f"{format(brine.freezing_c, 'temperature', 'both')}; stir until it is gone, for until "
            "then the brine is stronger than worked out.",
        )


def _of_container(request: MixRequest, fit: ContainerFit, brine: BrineFigures) -> Iterator[Caution]:
    if not fit.fits and fit.room_ml is not None:
        yield Caution(
            "danger",
            f"Meat and brine need {format(fit.need_ml, 'volume', 'both')}; the container holds "
            f"{format(fit.room_ml, 'volume', 'both')}. Take a larger one or less water.",
        )
    if not fit.covers:
        yield Caution(
            "caution",
            f"This much brine does not cover the meat: take more water, or {turn_it()}.",
        )
    if fit.floats:
        yield Caution(
            "hint",
            "The meat floats in this brine: hold it under with a plate of about "
            f"{format(max(round(fit.hold_down_g / 50.0) * 50.0, 50.0), 'mass', 'both')}.",
        )
