"""The device a program finds, and the one that keeps nothing."""

import asyncio

import pytest

from app.device import find_device, memory_device
from app.device.desktop import DesktopDevice
from app.device.parts import all_ended


def test_outside_a_browser_it_is_a_desktop() -> None:
    assert isinstance(asyncio.run(find_device()), DesktopDevice)


def test_memory_device_keeps_while_it_lives() -> None:
    device = memory_device(utc_s=5.0, offset_min=60)

    async def through() -> None:
        await device.files.open()
        device.files.append(b"log")
        await device.take_over()
        assert device.files.read_all() == b"log"
        await device.photos.put("p", b"large", b"small")
        assert await device.photos.get("p", thumb=True) == b"small"
        assert device.photos.address("p", False) == b"large"
        assert await device.photos.sizes() == {"p": 10}
        await device.photos.delete("p")
        assert device.photos.address("p", False) == ""
        with pytest.raises(LookupError, match="not on the device"):
            await device.photos.get("p")

    asyncio.run(through())
    assert device.clock.now() == (5.0, 60)
    assert not device.keeps


def test_a_file_written_piece_by_piece_is_handed_out_whole() -> None:
    device = memory_device()

    async def through() -> None:
        file = await device.begin_file("a.zip", "application/zip")
        file.write(b"one ")
        file.write(b"two")
        assert device.handed == []
        await file.hand_out()
        dropped = await device.begin_file("b.zip", "application/zip")
        dropped.write(b"lost")
        await dropped.drop()

    asyncio.run(through())
    assert device.handed == [("a.zip", "application/zip", b"one two")]


def test_a_device_without_files_goes_on_in_memory() -> None:
    device = memory_device()
    device.keep_in_memory()
    asyncio.run(device.files.open())
    device.files.append(b"x")
    assert (device.keeps, device.files.length) == (False, 1)


def test_chosen_bytes_are_read_like_a_file() -> None:
    with memory_device().reading(b"content") as file:
        file.seek(3)
        assert file.read() == b"tent"


def test_a_failure_is_told_once_all_have_ended() -> None:
    ended: list[str] = []

    async def fails() -> None:
        raise OSError("full")

    async def goes_on() -> None:
        await asyncio.sleep(0)
        ended.append("written")

    async def both() -> None:
        await all_ended(fails(), goes_on())

    with pytest.raises(OSError, match="full"):
        asyncio.run(both())
    assert ended == ["written"]
