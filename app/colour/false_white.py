"""Whether what was tapped as white is likely wood or brown paper."""

from app.colour.pixels import Grid
from app.colour.tone import as_daylight, at_meat_lightness
from app.colour.white_point import WhitePoint

# No patch tells by itself whether it is wood or paper in warm light, but the meat does: beef that
# is red at all is yellower than white as well, lean b* 5 to 16 (from memory). Under the white of
# wood, whose own b* is 20 and more, its red turns to purple. Judgements, in a* and b* at L* 54:
# what counts as red, and the b* that a tenth of it always has. In drawn slices it is 5.7 and more
# by a true white, and seldom above 3.6 by wood.
_RED_A, _ALWAYS_B, _TENTH = 3.0, 4.3, 0.1
# Of what can be read: with less red there may be no meat to tell by. So little of it has to be
# surely blue, and with less still nothing is said.
_LEAST_RED, _LITTLE_RED, _SURELY_BLUE_B = 0.06, 0.015, -2.0
_DARK = 0.004  # linear green, below which a colour is mostly noise
_LEAST_CELLS = 30
_MOST_BLOWN = 0.15  # of the picture: with more blown out, what is left may be no meat


def likely_no_white(cells: Grid, white: WhitePoint) -> bool:
    """Whether under this white what is red in the picture is too blue to be beef.

    b* of the yellowest tenth of all cells with a* > 3 lies below 4.3, or below −2 where they are
    fewer than 6 % of the picture, each cell brought to the lightness of meat

    Parameters
    ----------
    cells : the picture
    white : the light by the tapped patch, known

    Returns
    -------
    True where a true white would be most unusual; False also where too little can be read, or
    too little of it is red

    Notes
    -----
    Holds for any lamp, since meat and patch stand in the same light. Passed over are pictures with
    much blown out, and wholly grey meat, which under wood is no longer red. White paper, b* up to
    4, is not doubted; cream of 8 now and then.

    Examples
    --------
    Cured meat beside a white card, by the card and by the maple board it lies on:

    >>> from app.colour.pixels import grid
    >>> from app.colour.white_point import from_neutral
    >>> meat, card, maple = (178, 84, 84, 255), (235, 235, 235, 255), (206, 176, 134, 255)
    >>> seen = grid(bytes(meat * 60 + card * 20 + maple * 80) * 40, 160, 40, 900)
    >>> [likely_no_white(seen, from_neutral(one[:3])) for one in (card, maple)]
    [False, True]
    """
    by_red, _, by_blue = white.gains
    read, yellow = 0, list[float]()
    for r, g, b, clipped in zip(cells.red, cells.green, cells.blue, cells.clipped, strict=True):
        if clipped or g < _DARK:
            continue
        read += 1
        a_star, b_star = at_meat_lightness(as_daylight((r * by_red, g, b * by_blue), white))
        if a_star > _RED_A:
            yellow.append(b_star)
    blown = sum(cells.clipped) > _MOST_BLOWN * len(cells.clipped)
    if blown or read < _LEAST_CELLS or len(yellow) < _LITTLE_RED * read:
        return False
    yellow.sort(reverse=True)
    bound = _ALWAYS_B if len(yellow) >= _LEAST_RED * read else _SURELY_BLUE_B
    return yellow[int(_TENTH * len(yellow))] < bound
