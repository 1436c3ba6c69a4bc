"""How much cured meat is in a light that mixes cured and grey."""

from bisect import bisect_right
from itertools import pairwise

from attrs import frozen

from app.colour.lab import Triple
from app.colour.tone import tone

_STEPS = 24
_DARK = 1e-4  # light added, so that no channel is nothing
# Of the way from the tone itself to the share of light. Pigment and blur mix light, but what the
# eye calls halfway lies nearer to halfway in tone (judgement: midway between both).
_BY_LIGHT = 0.5


@frozen
class Mixture:
    """The cure tones of mixtures of two lights, as shares of the way between their own tones."""

    ways: tuple[float, ...]

    def share(self, way: float) -> float:
        """How far a mixture has turned whose tone has come this way from dull to red.

        Midway between that way and the share of the redder light in the mixture

        Examples
        --------
        >>> round(mixture((0.4, 0.3, 0.2), (0.4, 0.1, 0.09)).share(0.5), 2)
        0.57
        """
        return way + _BY_LIGHT * (self.of_light(way) - way)

    def of_light(self, way: float) -> float:
        """Share of the redder light in a mixture whose tone has come this way from dull to red."""
        if not 0.0 < way < 1.0:
            return way
        k = bisect_right(self.ways, way)
        low, high = self.ways[k - 1], self.ways[k]
        return (k - 1 + (way - low) / (high - low)) / _STEPS


def mixture(dull: Triple, red: Triple) -> Mixture:
    """Mixtures of two lights by their linear red, green and blue.

    s(f) of (1 − f) dull + f red, by `tone`

    Parameters
    ----------
    dull, red : linear light of grey and of cured meat [1]

    Returns
    -------
    Mixture; that of lights whose tone does not rise from dull to red is even

    Notes
    -----
    Where grey meat is the lighter of the two, a mixture of equal parts looks nearer to grey:
    its light is mostly that of the grey.
    """
    tones = []
    for k in range(_STEPS + 1):
        f = k / _STEPS
        r, g, b = ((1.0 - f) * a + f * c for a, c in zip(dull, red, strict=True))
        tones.append(tone((r, g, b), _DARK).s)
    rise = tones[-1] - tones[0]
    ways = [(s - tones[0]) / rise if rise > 0.0 else k / _STEPS for k, s in enumerate(tones)]
    if any(b <= a for a, b in pairwise(ways)):
        ways = [k / _STEPS for k in range(_STEPS + 1)]
    return Mixture(tuple(ways))
