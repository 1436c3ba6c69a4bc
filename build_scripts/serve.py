"""Show the program on this machine: make the environment, build the site, serve it.

python3 build_scripts/serve.py             the web app, at an address on localhost
python3 build_scripts/serve.py --desktop   the same program in a window
"""

import argparse
import errno
import subprocess
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if __name__ == "__main__":
    sys.path[0] = str(Path(__file__).resolve().parents[1])

from build_scripts import environment

if TYPE_CHECKING:
    from build_scripts.static_host import StaticHost

FIRST_PORT = 8420
TRIES = 20
FROM_A_PHONE = """\
Another device in this network can open http://<this machine's address>:{port}/ to look at the
screens. Browsers give storage and offline use only to https pages and to localhost, so over
plain http it keeps nothing and needs the network. For the real thing put the built site on any
https host, or, on Android with USB debugging: adb reverse tcp:{port} tcp:{port}
and open http://localhost:{port}/ on the phone."""

NO_WINDOW = """\
Flet's window program could not be fetched. Flet keeps it among its own releases, not in the
package registry, and fetches it once. The web app needs none: leave --desktop out.
(All that was said: .cache/flet-desktop.log)"""
OTHER_ADDRESS = """\
Port {first} is taken, so this is another address than usual. To a browser that is another
site: batches kept at the usual address are still there, but do not show here."""


def read_arguments(words: "list[str]") -> argparse.Namespace:
    """Read the command line."""
    parser = argparse.ArgumentParser(prog="serve.py", description="Show Brinewright here.")
    parser.add_argument("--port", type=port_number, help=f"default: the first free {FIRST_PORT}+")
    parser.add_argument("--host", default="127.0.0.1", help="0.0.0.0 to be seen in the network")
    parser.add_argument("--desktop", action="store_true", help="open a window instead")
    return parser.parse_args(words)


def port_number(text: str) -> int:
    """A port as written on the command line."""
    if not text.isdecimal() or not 1 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"{text!r} is no port; expected a number 1 to 65535")
    return int(text)


def open_host(site: Path, interface: str, port: "int | None") -> "StaticHost":
    """Listen on the port asked for, or on the first free one when none was."""
    from build_scripts.static_host import StaticHost
    from build_scripts.trouble import Trouble

    choices = [port] if port else range(FIRST_PORT, FIRST_PORT + TRIES)
    for choice in choices:
        host = StaticHost(site, port=choice, interface=interface)
        try:
            host.start()
        except OSError as error:
            if error.errno in (errno.EADDRINUSE, errno.EACCES):
                continue
            raise Trouble(f"Cannot listen on {interface}: {error.strerror}.") from error
        return host
    if port:
        raise Trouble(
            f"Port {port} is taken or not allowed. Leave --port out, or choose another number."
        )
    raise Trouble(f"No port from {FIRST_PORT} to {FIRST_PORT + TRIES - 1} is free; give --port.")


def serve(interface: str, port: "int | None") -> int:
    """Build if needed, serve until interrupted."""
    from build_scripts.site_cache import fresh_site

    host = open_host(fresh_site(), interface, port)
    print(f"\nBrinewright is at {host.address}   (Ctrl+C ends it)", flush=True)
    if port is None and host.port != FIRST_PORT:
        print(OTHER_ADDRESS.format(first=FIRST_PORT), flush=True)
    if interface not in ("127.0.0.1", "localhost", "::1"):
        print(FROM_A_PHONE.format(port=host.port), flush=True)
    try:
        host.wait()
    except KeyboardInterrupt:
        print()
    host.stop()
    return 0


def open_window() -> int:
    """Run the program in Flet's window; it keeps its data in this user's own folder."""
    from build_scripts.trouble import Trouble

    fetch = "import flet_desktop; flet_desktop.ensure_client_cached()"
    print("Opening the window (its program is fetched the first time) ...", flush=True)
    try:
        environment.run((sys.executable, "-c", fetch), "flet-desktop", {})
    except Trouble as problem:
        raise Trouble(NO_WINDOW) from problem
    command = (sys.executable, "-m", "app.main")
    return subprocess.run(command, cwd=environment.ROOT).returncode


def main() -> int:
    """Run the command line."""
    arguments = read_arguments(sys.argv[1:])
    environment.enter("desktop" if arguments.desktop else "serve")
    from build_scripts.trouble import Trouble

    try:
        return open_window() if arguments.desktop else serve(arguments.host, arguments.port)
    except Trouble as problem:
        sys.exit(str(problem))
    except KeyboardInterrupt:
        sys.exit("\nStopped.")


if __name__ == "__main__":
    sys.exit(main())
