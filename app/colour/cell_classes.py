"""The numbers a cell of a cut face is marked with."""

BOARD, BARK, FAT, GREY, PALE, CURED, GAP = range(7)
"""What a cell shows; a gap is a crack, a shadowed hollow or glare: none of the five."""

NAMES = {"cured": CURED, "pale": PALE, "grey": GREY, "fat": FAT, "bark": BARK}
"""The five that make up the face, by name."""
