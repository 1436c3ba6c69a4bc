"""What goes wrong while installing, in a sentence a person can act on."""

import re
from pathlib import Path

CAUSES = (
    (
        r"DO NOT MATCH THE HASHES|EINTEGRITY",
        "A downloaded package is not the one the lock file names (its hash differs), so nothing "
        "of it was installed. The download may be damaged or altered: try again, and if it "
        "stays so, do not trust that registry.",
    ),
    (
        r"No space left on device|ENOSPC|Disk quota exceeded|Errno 28",
        "The disk is full. The environment and the built site need about 1.5 GB.",
    ),
    (
        r"NewConnectionError|Failed to establish|[Nn]ame resolution|ConnectTimeout|ReadTimeout"
        r"|ProxyError|SSLError|CERTIFICATE_VERIFY|Network is unreachable|Connection refused"
        r"|ENOTFOUND|ECONNREFUSED|ETIMEDOUT|EAI_AGAIN|ECONNRESET|SELF_SIGNED|UNABLE_TO_GET_ISSUER",
        "The package registry cannot be reached. The first run needs it; later runs do not. "
        "Check the network (and a proxy or certificate, if one is used), then start this again.",
    ),
    (
        # With retries turned off pip does not say why it saw nothing.
        r"satisfies the requirement (\S+) \(from versions: none\)",
        "The package registry gave nothing at all for {}: it cannot be reached, or does not "
        "hold it. Check the network, then start this again.",
    ),
    (
        r"No matching distribution found for (\S+)",
        "The registry has no {} that fits this Python and this machine. Python 3.11 to 3.14 on "
        "a common desktop system is what the lock was made for.",
    ),
    (
        r"Permission denied|EACCES|Read-only file system|EROFS",
        "The project's folder cannot be written to by this user.",
    ),
)


class Trouble(Exception):
    """Something that keeps a script from going on, told for the person who started it."""


def explain(tool: str, said: str, log: Path) -> str:
    """The cause of a failed step as far as its output tells, and where to read the rest."""
    for pattern, sentence in CAUSES:
        match = re.search(pattern, said)
        if match:
            return f"{sentence.format(*match.groups())} (All that {tool} said: {log})"
    last = [line.strip() for line in said.splitlines() if line.strip()][-1:]
    return f"{tool} failed: {last[0] if last else 'it said nothing'} (all it said: {log})"
