"""Words handed to other programs: a list, a label. Where nothing takes them they are copied."""

from collections.abc import Awaitable, Callable, Mapping

from app.device.device import Shared
from app.screens.bench import Bench

SAID: Mapping[Shared, str] = {
    "shared": "Shared.",
    "declined": "Not shared.",
    "copied": "Nothing here to share with: it is copied instead.",
    "cannot": "Nothing here to share with: copy it instead.",
}
"""What the cook is told of words that were to be shared."""


def shares(bench: Bench, text: str, title: str) -> Callable[[], Awaitable[None]]:
    """A press that shares words and says what became of them."""

    async def press() -> None:
        bench.show(said=SAID[await bench.device.share_text(text, title)], undo=None)

    return press
