"""What to buy for a mix, in sizes a shop has, and the list as plain text."""

from collections.abc import Iterable
from math import ceil

from app.cure.answer import Ingredient, Mix, ShoppingItem
from app.cure.targets import METHOD_NAMES
from app.quantities import format

# Shop sizes in grams; spices and ice are bought as they come. Common practice, no source.
_SIZES: dict[str, dict[str, tuple[float, ...]]] = {
    "us": {
        "cure": (113.4, 453.6, 907.2),
        "salt": (737.1, 1360.8),
        "sugar": (453.6, 907.2, 1814.4),
        "ascorbate": (56.7, 113.4, 453.6),
    },
    "metric": {
        "cure": (100.0, 250.0, 1000.0),
        "salt": (500.0, 1000.0),
        "sugar": (500.0, 1000.0),
        "ascorbate": (50.0, 100.0, 500.0),
    },
}
_NOTES = {
    "cure": "for curing only; keep it from children",
    "ice": "weigh it: melted, loose ice fills only about half the room",
}


def shopping(wanted: Iterable[Ingredient]) -> tuple[ShoppingItem, ...]:
    """One line for each thing to buy; a spice in brine and rub alike is bought once."""
    grams: dict[tuple[str, str], float] = {}
    for one in wanted:
        if one.kind != "water":
            key = (one.kind, one.name)
            grams[key] = grams.get(key, 0.0) + one.grams
    return tuple(
        ShoppingItem(kind, name, total, _NOTES.get(kind, ""))
        for (kind, name), total in grams.items()
    )


def packs(item: ShoppingItem, system: str) -> str:
    """The fewest, smallest shop packs that hold what is needed.

    Parameters
    ----------
    item : what to buy
    system : us, metric or both; "both" takes the metric sizes

    Returns
    -------
    Such as "2 × 500 g"; nothing for what is sold loose

    Raises
    ------
    ValueError : no such system

    Examples
    --------
    >>> packs(ShoppingItem("salt", "Salt", 620.0), "metric")
    '1 × 1 kg'

    References
    ----------
    Sizes are common practice, no source.
    """
    if system not in ("us", "metric", "both"):
        raise ValueError(f"The system must be us, metric or both; {system!r} was given.")
    own = "us" if system == "us" else "metric"
    sizes = _SIZES[own].get(item.kind)
    if not sizes:
        return ""
    size = next((one for one in sizes if one >= item.grams), sizes[-1])
    return f"{ceil(item.grams / size)} × {_pack(size, own)}"


def _pack(size_g: float, system: str) -> str:
    # A shop's ounces are whole ones; grams beside them would only be in the way.
    if system == "us" and size_g < 100.0:
        return f"{size_g / 28.35:.0f} oz"
    return format(size_g, "mass", system)


def shopping_text(mix: Mix, system: str, shop: str = "") -> str:
    """The shopping list as plain text to share.

    Parameters
    ----------
    mix : what was worked out
    system : us, metric or both
    shop : the system of the packs, where it is another

    Returns
    -------
    One line for each thing, a heading above and a word of caution below

    Raises
    ------
    ValueError : no such system

    References
    ----------
    None; arithmetic of the mix.
    """
    weight = format(mix.request.meat_g, "mass", system)
    lines = [f"To buy: {METHOD_NAMES[mix.request.method].lower()} for {weight} of meat", ""]
    for item in mix.shopping:
        line = f"- {item.name}: {format(item.grams, 'mass', system)}"
        size = packs(item, shop or system)
        if size:
            line += f", buy {size}"
        if item.note:
            line += f" ({item.note})"
        lines.append(line)
    if mix.water_g:
        lines.append(
            f"- From the tap: water to make {format(mix.water_g, 'mass', system)} with ice"
        )
    lines += [
        "",
        f"Curing salt reckoned at {mix.request.cure_nitrite_percent:g} % nitrite: check the label.",
        "Weigh the curing salt, never spoon it.",
    ]
    return "\n".join(lines)
