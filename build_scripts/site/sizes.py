"""How large the site is, raw and compressed, told after each build."""

import gzip
from pathlib import Path

from build_scripts.site.cache_list import ONLY, kept

PARTS = (
    ("Python's snapshot and packages", ("python/",)),
    ("Python's runtime", ("pyodide/",)),
    ("client and renderer", ("main.dart", "canvaskit/", "flutter_")),
    ("fonts and icons", ("assets/", "icons/")),
    ("page", ("",)),
)


def tell(site: Path) -> None:
    """Print what a browser with the quick renderer fetches the first time."""
    rows: dict[str, tuple[int, int]] = {}
    for name, file in kept(site):
        if "skwasm" not in ONLY.get(name, ["skwasm"]):
            continue
        part = next(title for title, starts in PARTS if name.startswith(starts))
        content = file.read_bytes()
        # Already packed files do not shrink again.
        small = (
            len(content)
            if name.endswith((".gz", ".zip", ".woff2", ".jpg", ".png"))
            else len(gzip.compress(content, 6))
        )
        raw, packed = rows.get(part, (0, 0))
        rows[part] = (raw + len(content), packed + small)
    rows["all of it"] = (sum(r for r, _ in rows.values()), sum(p for _, p in rows.values()))
    print(f"{'first load, MB':<34}{'raw':>8}{'packed':>8}")
    for part, (raw, packed) in rows.items():
        print(f"{part:<34}{raw / 1e6:>8.1f}{packed / 1e6:>8.1f}")
