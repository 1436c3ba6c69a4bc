"""Write the lock files from pyproject.toml; for whoever changes a dependency.

    uv and npm must be on the path; then: python3 build_scripts/lock.py

Every lock pins the whole tree with hashes and names no host, so that the registry each
machine is set up for is the one that is asked. `browser.txt` is resolved for the browser's
Python (CPython 3.14 compiled to WebAssembly), the others for every platform from 3.11 on.
"""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
LOCKS = ROOT / "build_scripts" / "locks"
EVERYWHERE = ("--universal", "--python-version", "3.11")
# The newest WebAssembly platform uv knows by name: it decides the markers only; which wheel
# is taken is decided by pip when the site is built, among the files these hashes allow.
IN_BROWSER = ("--python-platform", "wasm32-pyodide2024", "--python-version", "3.14")
# The check lock comes first and holds the others to its versions.
PLANS: dict[str, tuple[str, ...]] = {
    "check": ("pyproject.toml", "--group", "build", "--group", "dev", *EVERYWHERE),
    "serve": ("pyproject.toml", "--group", "build", *EVERYWHERE),
    "desktop": ("pyproject.toml", "--group", "desktop", *EVERYWHERE),
    "browser": ("--group", "browser", *IN_BROWSER),
}


def compile_lock(name: str, options: tuple[str, ...]) -> None:
    """Resolve one lock and write it."""
    command = [
        "uv", "pip", "compile", *options,
        "--generate-hashes", "--no-emit-index-url", "--no-emit-find-links", "--no-annotate",
        "--custom-compile-command", "python3 build_scripts/lock.py",
        "--quiet", "--upgrade", "--output-file", str(LOCKS / f"{name}.txt"),
    ]  # fmt: skip
    if name != "check":
        command += ["--constraints", str(LOCKS / "check.txt")]
    subprocess.run(command, cwd=ROOT, check=True)


def lock_node_packages() -> None:
    """Pin what package.json names, without the address each file came from."""
    flags = ("--package-lock-only", "--ignore-scripts", "--omit-lockfile-registry-resolved")
    subprocess.run(("npm", "install", *flags), cwd=LOCKS, check=True)


def main() -> int:
    """Write all the locks."""
    for name, options in PLANS.items():
        compile_lock(name, options)
    lock_node_packages()
    return 0


if __name__ == "__main__":
    sys.exit(main())
