"""Figures as the workings write them: metric, with as many places as a scale or a reader needs."""


def grams(value: float) -> str:
    """A mass: small ones as a fine scale shows them, large ones as a kitchen scale does."""
    if value < 10.0:
        return f"{value:.3f} g"
    return f"{value:.1f} g" if value < 1000.0 else f"{value:,.0f} g"


def percent(value: float, places: int = 2) -> str:
    """A percentage."""
    return f"{value:.{places}f} %"


def ppm(value: float) -> str:
    """Parts per million, milligrams a kilogram."""
    return f"{value:.1f} ppm" if value < 1000.0 else f"{value:.0f} ppm"


def celsius(value: float) -> str:
    """A temperature."""
    return f"{value:.1f} °C"


def millilitres(value: float) -> str:
    """A volume."""
    return f"{value:,.0f} mL"
