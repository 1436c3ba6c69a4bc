"""How usual the redness of grey, pale and cured beef is, each alone and together in one slice.

Redness q = a* − 0.4 b* at L* 54, in daylight.
"""

from math import hypot, log, pi, sqrt

# Grey well-done beef a* 3-7, b* 10-15, so q −3 to 5; cured beef a* 16-25, b* 6-13 and redder in
# vivid light, so q 11 to 28; pale lies about midway (from memory, and tried on slices drawn by
# many hands). Mean and how much it differs from slice to slice; how far cured follows grey; pale's
# share of the way from grey to cured, and what else its own redness varies by (judgements).
_GREY, _CURED, _FOLLOWS = (0.8, 2.3), (19.5, 4.3), 0.27
_VIVID = 7.0  # what cured varies by above that: some cameras make red as vivid as they can
_TURNED, _UNEVEN = (0.45, 0.1), 0.75
_PALE_ALONE = (9.3, 3.0)
_LEAST_WAY = 3.0  # from grey to cured, so that a share of it means something
_SMOKE_RING, _RING_ALONE = (7.0, 3.8), (25.0, 5.5)  # redder than cured; and with none beside it

_HEIGHT = sqrt(2.0 * pi)


def log_two_piece(value: float, usual: float, below: float, above: float) -> float:
    """Logarithm of a normal density whose deviation differs below and above its mode.

    ln p = −½ z² − ln((σ₁ + σ₂)/2 · √(2π)), z by the deviation of its side

    Examples
    --------
    >>> log_two_piece(5.0, 3.0, 1.0, 2.0) == log_two_piece(2.0, 3.0, 1.0, 2.0)
    True
    """
    z = (value - usual) / (below if value < usual else above)
    return -0.5 * z * z - log(_HEIGHT * 0.5 * (below + above))


def log_normal(value: float, usual: tuple[float, float]) -> float:
    """Logarithm of the normal density with that mean and deviation.

    ln p = −½ z² − ln(σ √(2π)), z = (value − μ)/σ

    Examples
    --------
    >>> round(log_normal(3.0, (3.0, 1.0)), 3)
    -0.919
    """
    return log_two_piece(value, usual[0], usual[1], usual[1])


def lean_likelihood(grey: float | None, pale: float | None, cured: float | None) -> float:
    """Log density of the redness of the tones one slice shows.

    ln p(grey) + ln p(cured | grey) + ln p(pale | grey, cured); what a slice does not show is
    taken as it usually is, and what is known of the rest varies the more for it.

    Parameters
    ----------
    grey, pale, cured : redness of each; None where the slice does not show it [1]

    Returns
    -------
    Natural logarithm of a density, so that sets of as many tones can be compared

    Examples
    --------
    Pale lies midway; a tone near grey is a second grey:

    >>> lean_likelihood(0.5, 9.0, 19.0) > lean_likelihood(0.5, 3.0, 19.0)
    True
    """
    score = 0.0
    if grey is not None:
        score += log_normal(grey, _GREY)
    if cured is not None:
        usual = _CURED[0] + (_FOLLOWS * (grey - _GREY[0]) if grey is not None else 0.0)
        score += log_two_piece(cured, usual, _CURED[1], _VIVID)
    if pale is None:
        return score
    if grey is None and cured is None:
        return score + log_normal(pale, _PALE_ALONE)
    low = _GREY[0] if grey is None else grey
    way = max(_LEAST_WAY, (_CURED[0] if cured is None else cured) - low)
    varies = hypot(_TURNED[1] * way, _UNEVEN)
    if grey is None:
        varies = hypot(varies, (1.0 - _TURNED[0]) * _GREY[1])
    if cured is None:
        varies = hypot(varies, _TURNED[0] * _CURED[1])
    return score + log_normal(pale, (low + _TURNED[0] * way, varies))


def ring_likelihood(ring: float, cured: float | None) -> float:
    """Log density of a smoke ring's redness, beside cured meat or alone.

    Parameters
    ----------
    ring, cured : redness; cured None where the slice has none [1]

    Returns
    -------
    Natural logarithm of a density

    Examples
    --------
    >>> ring_likelihood(25.0, 18.0) > ring_likelihood(18.0, 18.0)
    True
    """
    if cured is None:
        return log_normal(ring, _RING_ALONE)
    return log_normal(ring - cured, _SMOKE_RING)
