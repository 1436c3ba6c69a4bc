"""Plain pictures for tests: stripes of flat colour."""

Rgb = tuple[int, int, int]

WHITE, PINK, DULL, HALF = (235, 235, 235), (186, 112, 106), (140, 121, 106), (164, 117, 106)


def stripes(widths: list[tuple[Rgb, int]], height: int = 40) -> tuple[bytes, int, int]:
    """Upright stripes from left to right: RGBA, width, height."""
    row = b"".join(bytes((*colour, 255)) * width for colour, width in widths)
    return row * height, len(row) // 4, height


def framed(
    inner: bytes, width: int, height: int, border: int, colour: Rgb
) -> tuple[bytes, int, int]:
    """The picture with a border of one colour all round."""
    side = bytes((*colour, 255)) * border
    whole = bytes((*colour, 255)) * (width + 2 * border)
    rows = [side + inner[4 * y * width : 4 * (y + 1) * width] + side for y in range(height)]
    return (
        b"".join([whole * border, *rows, whole * border]),
        width + 2 * border,
        height + 2 * border,
    )
