"""A static host on this machine, with the headers the site's `_headers` wants from any other.

`serve.py` shows the site with it and the browser tests drive the site on it. A test can take
it away mid-way (`stop`) and bring it back at the same address (`start`), which is what being
offline is to a page, and read what was asked of it (`asked`).
"""

import contextlib
import os
import re
import socket
import threading
from email.utils import formatdate
from functools import partial
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

from attrs import frozen

from build_scripts import host_headers

# A name that carries a hash of its content never means anything else later.
HASHED = re.compile(r"[.-](?=[0-9a-f]*[0-9])[0-9a-f]{8,64}\.[a-z0-9.]+$")
FOR_EVER = "public, max-age=31536000, immutable"
ASK_AGAIN = "no-cache"
ALWAYS = {"X-Content-Type-Options": "nosniff", "Referrer-Policy": "no-referrer"}
TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".ico": "image/x-icon",
    ".ics": "text/calendar; charset=utf-8",
    ".jpeg": "image/jpeg",
    ".jpg": "image/jpeg",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".mjs": "text/javascript; charset=utf-8",
    ".otf": "font/otf",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".ttf": "font/ttf",
    ".txt": "text/plain; charset=utf-8",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".webp": "image/webp",
    ".woff2": "font/woff2",
    ".zip": "application/zip",
}


@frozen
class Asked:
    """One request as the host saw it."""

    method: str
    path: str
    status: int


def cache_control(name: str) -> str:
    """How long a browser may keep a file without asking again, by the file's name."""
    return FOR_EVER if HASHED.search(name) else ASK_AGAIN


def content_type(name: str) -> str:
    """The media type a file is sent with; bytes when the site has no such kind of file."""
    return TYPES.get(Path(name).suffix.lower(), "application/octet-stream")


def locate(folder: Path, base: str, target: str) -> Path | None:
    """The file a request means, or None: nothing outside the folder, no listing of folders."""
    path = unquote(urlsplit(target).path)
    if not path.startswith(base) or "\0" in path:
        return None
    file = (folder / path[len(base) :].lstrip("/")).resolve()
    if file.is_dir():
        file = file / "index.html"
    inside = file.is_relative_to(folder.resolve()) and file.is_file()
    # Hosts that read the file of headers do not hand it out.
    return file if inside and file.name != host_headers.NAME else None


class Handler(BaseHTTPRequestHandler):
    """Answers GET and HEAD from one folder."""

    protocol_version = "HTTP/1.1"
    server_version = "Brinewright"
    sys_version = ""

    def __init__(self, *arguments: Any, host: "StaticHost") -> None:
        self.host = host
        super().__init__(*arguments)

    def do_GET(self) -> None:
        self.answer(with_body=True)

    def do_HEAD(self) -> None:
        self.answer(with_body=False)

    def answer(self, with_body: bool) -> None:
        """Send a file, or that the browser's copy still holds, or that there is none."""
        file = locate(self.host.folder, self.host.base, self.path)
        if file is None:
            self.finish_head(HTTPStatus.NOT_FOUND, {"Content-Length": "0"})
            return
        at = file.stat()
        # Copied files keep old times, so a time alone would not show that one was replaced.
        tag = f'"{at.st_mtime_ns:x}-{at.st_size:x}-{at.st_ino:x}"'
        headers = {"ETag": tag, "Cache-Control": cache_control(file.name)}
        if self.headers.get("If-None-Match") == tag:
            self.finish_head(HTTPStatus.NOT_MODIFIED, headers)
            return
        body = file.read_bytes()
        headers |= {
            "Content-Type": content_type(file.name),
            "Content-Length": str(len(body)),
            "Last-Modified": formatdate(at.st_mtime, usegmt=True),
        }
        self.finish_head(HTTPStatus.OK, headers)
        if with_body:
            with contextlib.suppress(ConnectionError):  # the page was closed meanwhile
                self.wfile.write(body)

    def finish_head(self, status: HTTPStatus, headers: dict[str, str]) -> None:
        """Write status and headers, and note the request."""
        self.host.asked.append(Asked(self.command, self.path, int(status)))
        self.send_response(status)
        path = "/" + unquote(urlsplit(self.path).path).removeprefix(self.host.base)
        for name, value in {**ALWAYS, **headers, **self.host.headers(path)}.items():
            self.send_header(name, value)
        with contextlib.suppress(ConnectionError):
            self.end_headers()

    def log_message(self, format: str, *arguments: object) -> None:
        """Keep the terminal for the address; `asked` holds the requests."""


class Listener(ThreadingHTTPServer):
    """A server that knows its open connections, so that stopping it cuts them too."""

    daemon_threads = True
    # On Windows this option would let two programs listen on one port.
    allow_reuse_address = os.name == "posix"
    request_queue_size = 64

    def __init__(self, address: tuple[str, int], host: "StaticHost") -> None:
        self.connections: set[socket.socket] = set()
        super().__init__(address, partial(Handler, host=host))

    def process_request(self, request: Any, client_address: Any) -> None:
        self.connections.add(request)
        super().process_request(request, client_address)

    def shutdown_request(self, request: Any) -> None:
        self.connections.discard(request)
        super().shutdown_request(request)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that hangs up is no error of the host's."""

    def cut(self) -> None:
        """End every connection, also the idle ones a browser keeps for later."""
        for connection in list(self.connections):
            with contextlib.suppress(OSError):
                connection.shutdown(socket.SHUT_RDWR)


class StaticHost:
    """One folder served at one address, under `base`, which starts and ends with a slash."""

    def __init__(
        self, folder: Path, port: int = 0, interface: str = "127.0.0.1", base: str = "/"
    ) -> None:
        if not (base.startswith("/") and base.endswith("/")):
            raise ValueError(f"base is {base!r}; it must start and end with a slash")
        self.folder = folder
        self.port = port
        self.interface = interface
        self.base = base
        self.asked: list[Asked] = []
        self.listener: Listener | None = None
        self.thread: threading.Thread | None = None

    @property
    def origin(self) -> str:
        """The address without a path, as a page's `location.origin` gives it."""
        return f"http://localhost:{self.port}"

    @property
    def address(self) -> str:
        """Where the site's first page is."""
        return self.origin + self.base

    def headers(self, path: str) -> dict[str, str]:
        """What the site wants sent with a path below its base, which starts with a slash."""
        return host_headers.for_path(host_headers.read(self.folder / host_headers.NAME), path)

    def start(self) -> None:
        """Listen; the first start chooses a port when none was given, later ones keep it."""
        if self.listener is not None:
            raise RuntimeError("the host is already running")
        self.listener = Listener((self.interface, self.port), self)
        self.port = self.listener.server_address[1]
        self.thread = threading.Thread(target=self.listener.serve_forever, args=(0.05,))
        self.thread.daemon = True
        self.thread.start()

    def wait(self) -> None:
        """Block until the host ends or the person presses Ctrl+C."""
        while self.thread is not None and self.thread.is_alive():
            self.thread.join(1.0)  # in turns, since a bare join on Windows hears no Ctrl+C

    def stop(self) -> None:
        """Be gone: no new connection is taken and the open ones are cut."""
        if self.listener is None or self.thread is None:
            return
        self.listener.shutdown()
        self.listener.server_close()
        self.listener.cut()
        self.thread.join()
        self.listener = self.thread = None

    def __enter__(self) -> "StaticHost":
        self.start()
        return self

    def __exit__(self, *_: object) -> None:
        self.stop()
