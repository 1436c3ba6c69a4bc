"""Cut one font of signs out of two full ones: run by hand when they are renewed.

python3 build_scripts/cut_signs.py FOLDER     (needs `pip install fonttools brotli`)

FOLDER holds the unpacked npm packages @fontsource/noto-emoji, @fontsource/noto-sans-symbols-2 and
@fontsource/noto-sans, of which Cyrillic is taken (Google, SIL Open Font License 1.1). What a cook
types into a note, a tick, a star, a thumb, is drawn with it; the client would otherwise fetch a
font of Google's for each.
"""

import sys
import tempfile
from pathlib import Path
from typing import Any

OUT = Path(__file__).resolve().parents[1] / "assets" / "fonts" / "brinewright-signs.woff2"
# Left out: flags and joined pictures, which need tables as large as all the rest.
SYMBOLS = [*range(0x2100, 0x2C00)]
CYRILLIC = [*range(0x0400, 0x0530)]
UNITS_PER_EM = 1000


def opened(file: Path, signs: list[int]) -> Any:
    """One piece of a font, cut to some signs, as an open font of the common size."""
    from fontTools import subset
    from fontTools.ttLib import TTFont
    from fontTools.ttLib.scaleUpem import scale_upem

    options = subset.Options(layout_features=[], hinting=False, notdef_outline=True)
    font = TTFont(file)
    held = [sign for sign in font.getBestCmap() if not signs or sign in signs]
    if not held:
        return None
    cutter = subset.Subsetter(options)
    cutter.populate(unicodes=held)
    cutter.subset(font)
    for table in (
        "GSUB",
        "GPOS",
        "GDEF",
        "STAT",
        "fvar",
        "gvar",
        "avar",
        "HVAR",
        "MVAR",
        "vhea",
        "vmtx",
    ):
        if table in font:
            del font[table]
    scale_upem(font, UNITS_PER_EM)
    return font


def _wanted(file: Path) -> list[int]:
    """The signs taken of one piece; none named are all of them."""
    if "symbols-2" in file.name:
        return SYMBOLS
    return CYRILLIC if "cyrillic" in file.name else []


def main(folder: Path) -> None:
    """Write the font of signs into assets/fonts."""
    from fontTools.merge import Merger

    emoji = sorted(folder.rglob("noto-emoji-*-400-normal.woff2"))
    symbols = sorted(folder.rglob("noto-sans-symbols-2-symbols-400-normal.woff2"))
    letters = sorted(folder.rglob("noto-sans-cyrillic*-400-normal.woff2"))
    if not emoji or not symbols or not letters:
        sys.exit(f"{folder} does not hold the three packages.")
    with tempfile.TemporaryDirectory() as work:
        pieces = []
        for number, file in enumerate([*emoji, *symbols, *letters]):
            font = opened(file, _wanted(file))
            if font is not None:
                piece = Path(work) / f"{number}.ttf"
                font.flavor = None
                font.save(piece)
                pieces.append(str(piece))
        whole = Merger().merge(pieces)
    for record in whole["name"].names:
        if record.nameID in (1, 3, 4, 6, 16):
            record.string = "BrinewrightSigns" if record.nameID == 6 else "Brinewright Signs"
    whole.flavor = "woff2"
    whole.save(OUT)
    print(f"{OUT.name}: {len(whole.getBestCmap())} signs, {OUT.stat().st_size / 1000:.0f} kB")


if __name__ == "__main__":
    main(Path(sys.argv[1]))
