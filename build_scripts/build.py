"""Build the site: everything the web app is, as files for any static host.

python3 build_scripts/build.py --out DIR [--base /sub/path/]

Nothing is fetched but Python packages by pip. Headers a host should send are in DEVELOPERS.md
and in the `_headers` file of the site.
"""

import argparse
import re
import shutil
import sys
import tempfile
from pathlib import Path

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).resolve().parents[1])

from build_scripts import environment


def read_arguments(words: "list[str]") -> argparse.Namespace:
    """Read the command line."""
    parser = argparse.ArgumentParser(prog="build.py", description="Build the Brinewright site.")
    parser.add_argument("--out", required=True, type=Path, help="folder for the site")
    parser.add_argument("--base", default="/", help="path the site will stand under")
    return parser.parse_args(words)


def base_path(asked: str) -> str:
    """The path the site will stand under, with a slash at both ends."""
    from build_scripts.trouble import Trouble

    parts = [part for part in asked.split("/") if part]
    if not all(re.fullmatch(r"[\w.~-]*[\w~-][\w.~-]*", part, re.ASCII) for part in parts):
        raise Trouble(f"--base is {asked!r}; expected a path like / or /meat/, not an address.")
    return "/".join(["", *parts, ""])


def build(out: Path, base: str = "/") -> None:
    """Make the site in `out`, replacing what an earlier build left there."""
    from build_scripts.site import cache_list, client, front, packages, python, sizes
    from build_scripts.trouble import Trouble

    base = base_path(base)
    if out.exists() and any(out.iterdir()) and not (out / "sw.js").is_file():
        raise Trouble(f"{out} holds something that is not a built site; give another folder.")
    out.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(dir=out.parent, prefix=".site-") as folder:
        site = Path(folder) / "site"
        client.lay(site)
        python.lay(site, packages.installed())
        front.lay(site, base)
        cache_list.write(site)
        sizes.tell(site)
        if out.exists():
            shutil.rmtree(out)
        site.rename(out)
    out.chmod(0o755)
    print(f"The site is in {out}")


if __name__ == "__main__":
    arguments = read_arguments(sys.argv[1:])
    environment.enter("serve")
    from build_scripts.trouble import Trouble

    try:
        build(arguments.out.resolve(), arguments.base)
    except Trouble as problem:
        sys.exit(str(problem))
