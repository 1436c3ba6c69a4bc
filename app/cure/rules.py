"""How much nitrite the rules of a place allow, all told as sodium nitrite."""

from collections.abc import Mapping
from typing import Literal

from attrs import frozen

Way = Literal["immersion", "pumped", "dry"]

ION_PER_SALT = 46.006 / 68.995
"""Mass of the nitrite ion in sodium nitrite: molar masses 46.006 and 68.995 g/mol."""

HOME_PACK_PPM = 200.0
"""Label directions of retail home-cure packs keep the finished meat at this nitrite or less;
nitrate at 500 ppm. 21 CFR 172.170."""

_SENSIBLE_PPM = 100.0
_SENSIBLE = "100 mg/kg was judged adequate in roast beef (Wójciak et al., Sustainability 11, 2019)"


@frozen
class RuleSet:
    """One place's rules: most and least ingoing sodium nitrite [mg/kg] and where they stand."""

    key: str
    name: str
    most_ppm: Mapping[Way, float]
    least_ppm: float
    usual_ppm: float
    source: str
    least_source: str
    counted_as: str = "sodium nitrite"


def _same(ppm: float) -> dict[Way, float]:
    return {"immersion": ppm, "pumped": ppm, "dry": ppm}


RULE_SETS: dict[str, RuleSet] = {
    "us": RuleSet(
        "us",
        "United States",
        {"immersion": 200.0, "pumped": 200.0, "dry": 625.0},
        120.0,
        150.0,
        "9 CFR 424.21(c); USDA FSIS Directive 7620.3 (1995)",
        "120 ppm for cured meat kept in the refrigerator, FSIS Directive 7620.3, p. 12",
    ),
    "eu_before_2025_10": RuleSet(
        "eu_before_2025_10",
        "European Union, to 8 October 2025",
        _same(150.0),
        _SENSIBLE_PPM,
        120.0,
        "Reg. (EC) 1333/2008, 08.3.2, heat-treated meat; EFSA J. 2017;15(6):4786, table 5",
        _SENSIBLE,
    ),
    "eu": RuleSet(
        "eu",
        "European Union, from 9 October 2025",
        _same(80.0 / ION_PER_SALT),
        _SENSIBLE_PPM,
        110.0,
        "Reg. (EU) 2023/2108: 80 mg/kg counted as the nitrite ion (figure from memory)",
        _SENSIBLE,
        "the nitrite ion",
    ),
    "canada": RuleSet(
        "canada",
        "Canada",
        _same(200.0),
        100.0,
        150.0,
        "Health Canada, list of permitted preservatives (list 11); CFIA",
        "100 ppm at least to be called cured, CFIA",
    ),
    "own": RuleSet(
        "own",
        "Own limit",
        {"immersion": 200.0, "pumped": 200.0, "dry": 625.0},
        _SENSIBLE_PPM,
        150.0,
        "The cook's own limit, which may not be above that of the United States",
        _SENSIBLE,
    ),
}


def rule_set(rules: str) -> RuleSet:
    """The rule set of a key; says which there are when it is not one."""
    if rules not in RULE_SETS:
        raise ValueError(f"The rules must be one of {', '.join(RULE_SETS)}; {rules!r} was given.")
    return RULE_SETS[rules]


def limit_ppm(method: Way, rules: str = "us", own_limit_ppm: float | None = None) -> float:
    """Most ingoing sodium nitrite the rules allow.

    Parameters
    ----------
    method : how the cure goes in: "immersion", "pumped" or "dry"
    rules : "us", "eu_before_2025_10", "eu", "canada" or "own"
    own_limit_ppm : the cook's own limit, for the rules "own" [mg/kg]

    Returns
    -------
    Sodium nitrite per green weight, or per meat and pickle for immersion [mg/kg]

    Raises
    ------
    ValueError : no such method or rules, or an own limit that is missing, not above 0 or
        higher than the US limit for the method

    Notes
    -----
    The limits for cured beef that is cooked; bacon has lower ones. The EU counts the ion from
    October 2025: 80 mg/kg of it is 120 as sodium nitrite, and limits what is left as well.

    Examples
    --------
    >>> limit_ppm("immersion"), limit_ppm("dry"), round(limit_ppm("pumped", "eu"), 1)
    (200.0, 625.0, 120.0)

    References
    ----------
    As beside each rule set in `RULE_SETS`.
    """
    ways = rule_set(rules).most_ppm
    if method not in ways:
        raise ValueError(f"The method must be immersion, pumped or dry; {method!r} was given.")
    if rules != "own":
        return ways[method]
    if own_limit_ppm is None:
        raise ValueError("The rules are your own, but no limit in ppm was given with them.")
    if not 0.0 < own_limit_ppm <= ways[method]:
        raise ValueError(
            f"An own limit must be more than 0 and at most {ways[method]:g} ppm, the highest of "
            f"the rules for this method; {own_limit_ppm} was given."
        )
    return own_limit_ppm
