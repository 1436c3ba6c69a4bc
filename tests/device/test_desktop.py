"""The desktop's files: one holder, photos whole or not at all, nothing written over."""

import asyncio
import os
from pathlib import Path

import pytest

from app.device.desktop import FileSlot, data_folder, desktop_device
from app.device.parts import HeldElsewhere, StorageFull


def test_log_is_there_for_the_next_start_and_for_one_at_a_time(tmp_path: Path) -> None:
    first, second = desktop_device(tmp_path), desktop_device(tmp_path)
    asyncio.run(first.files.open())
    first.files.append(b"kept")
    with pytest.raises(HeldElsewhere, match="another window"):
        asyncio.run(second.files.open())
    first.files.close()
    asyncio.run(second.files.open())
    assert second.files.read_all() == b"kept"
    second.files.replace(b"new")
    second.files.append(b"er")
    second.files.close()
    asyncio.run(first.files.open())
    assert first.files.read_all() == b"newer"
    first.files.close()


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no device that is always full")
def test_full_disk_is_told_as_such() -> None:
    slot = FileSlot(Path("/dev/full"))
    with pytest.raises(StorageFull, match="no room"):
        slot.write(b"x", 0)
    slot.close()


def test_photos_are_files_with_addresses(tmp_path: Path) -> None:
    photos = desktop_device(tmp_path).photos

    async def through() -> None:
        assert photos.address("a1", True) == ""
        await photos.put("a1", b"large", b"small")
        assert await photos.get("a1") == b"large"
        assert await photos.get("a1", thumb=True) == b"small"
        assert await photos.sizes() == {"a1": 10}
        assert Path(str(photos.address("a1", True))).read_bytes() == b"small"
        await photos.delete("a1")
        await photos.delete("a1")
        with pytest.raises(LookupError):
            await photos.get("a1")
        for name in ("../a", "a/b", "", "a.b", "x" * 65):
            with pytest.raises(ValueError, match="letters"):
                await photos.put(name, b"", b"")

    asyncio.run(through())
    assert os.listdir(tmp_path / "photos") == []


def test_handing_out_never_writes_over_and_never_leaves_the_folder(tmp_path: Path) -> None:
    device = desktop_device(tmp_path / "data", tmp_path / "out")
    device.hand_out(b"1", "backup.zip", "application/zip")
    device.hand_out(b"2", "backup.zip", "application/zip")
    device.hand_out(b"3", "../../evil.zip", "application/zip")
    assert {p.name: p.read_bytes() for p in (tmp_path / "out").iterdir()} == {
        "backup.zip": b"1",
        "backup (2).zip": b"2",
        "evil.zip": b"3",
    }
    assert sorted(os.listdir(tmp_path)) == ["out"]


def test_health_tells_room(tmp_path: Path) -> None:
    device = desktop_device(tmp_path)
    asyncio.run(device.photos.put("a", b"12345", b"1"))
    health = asyncio.run(device.health())
    assert health.persisted
    assert health.usage == 6
    assert health.quota is not None
    assert health.quota > 6


def test_data_goes_where_the_system_wants_it() -> None:
    assert data_folder({"BRINEWRIGHT_DATA": "/x"}, "linux") == Path("/x")
    assert data_folder({"XDG_DATA_HOME": "/d"}, "linux") == Path("/d/brinewright")
    assert data_folder({"LOCALAPPDATA": "/l"}, "win32") == Path("/l/Brinewright")
    assert data_folder({}, "darwin") == Path.home() / "Library/Application Support/Brinewright"


def test_the_clock_tells_the_offset_of_its_zone() -> None:
    utc_s, offset_min = desktop_device(Path("x")).clock.now()
    assert utc_s > 1.7e9
    assert -14 * 60 <= offset_min <= 14 * 60
