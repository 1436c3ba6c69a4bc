"""A watch on what leaves the page's own origin.

The browser is told to send everything but localhost through this proxy, which passes nothing
on. So it sees every attempt, also those of workers and of the service worker, which a listener
on the page alone would miss.
"""

import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from urllib.parse import urlsplit

# Chromium asks these for itself (sign-in, updates, its own models), with no page open at all
# and whatever its flags. A page that asked for one is still caught by the listener on the page.
BROWSERS_OWN = {
    "accounts.google.com",
    "clients2.google.com",
    "content-autofill.googleapis.com",
    "optimizationguide-pa.googleapis.com",
    "update.googleapis.com",
}


class Watch:
    """Keeps the addresses that were asked for, until `take` empties it."""

    def __init__(self) -> None:
        self.seen: list[str] = []
        watch = self

        class Refuser(BaseHTTPRequestHandler):
            def refuse(self) -> None:
                target = self.path if "//" in self.path else f"//{self.path}"
                if urlsplit(target).hostname not in BROWSERS_OWN:
                    watch.seen.append(f"{self.command} {self.path}")
                self.send_error(502)

            do_GET = do_HEAD = do_POST = do_PUT = do_OPTIONS = do_CONNECT = refuse

            def log_message(self, format: str, *arguments: object) -> None:
                pass

        self.server = ThreadingHTTPServer(("127.0.0.1", 0), Refuser)
        self.server.daemon_threads = True
        self.thread = threading.Thread(target=self.server.serve_forever, args=(0.05,), daemon=True)
        self.thread.start()

    @property
    def flags(self) -> list[str]:
        """What to start Chromium with."""
        # Plain localhost goes round a proxy by itself; nothing else does.
        return [f"--proxy-server=http://127.0.0.1:{self.server.server_address[1]}"]

    def take(self) -> list[str]:
        """What was asked for since the last time."""
        seen, self.seen = self.seen, []
        return seen

    def close(self) -> None:
        """End the proxy."""
        self.server.shutdown()
        self.server.server_close()
        self.thread.join()
