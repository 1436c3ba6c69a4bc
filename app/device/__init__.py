"""The device the program runs on: its clock, files, photos, camera, notices."""

import sys

from app.device.device import Device, FixedClock, MemoryDevice
from app.device.parts import (
    Abilities,
    Health,
    HeldElsewhere,
    NewerJournal,
    NoPrivateFiles,
    NotAPhoto,
    Prepared,
    StorageFull,
)

__all__ = [
    "Abilities",
    "Device",
    "FixedClock",
    "Health",
    "HeldElsewhere",
    "MemoryDevice",
    "NewerJournal",
    "NoPrivateFiles",
    "NotAPhoto",
    "Prepared",
    "StorageFull",
    "find_device",
    "memory_device",
]


async def find_device() -> Device:
    """The device this program finds itself on; its files are still to be opened."""
    if sys.platform == "emscripten":
        from app.device.browser import browser_device

        return await browser_device()
    from app.device.desktop import desktop_device

    return desktop_device()


def memory_device(utc_s: float = 1_800_000_000.0, offset_min: int = 0) -> MemoryDevice:
    """A device for tests, and for a browser window that lets nothing be kept."""
    from app.device.desktop_images import DesktopImages

    return MemoryDevice(DesktopImages(), FixedClock(utc_s, offset_min))
