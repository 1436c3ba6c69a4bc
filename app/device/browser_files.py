"""The browser's private files: the journal's log, held by one window at a time."""

import asyncio
from collections.abc import Callable
from contextlib import suppress
from typing import Any

from app.device.browser_channel import name_of, to_page
from app.device.parts import (
    HELD_ELSEWHERE,
    NO_PRIVATE_FILES,
    STORAGE_FULL,
    Callback,
    HeldElsewhere,
    NoPrivateFiles,
    StorageFull,
)
from app.device.slots import JournalFile

LOCK = "brinewright-journal"
OLD_WORKER_GONE_S = 3.0
"""After a reload the old worker was seen to hold its files for up to 2 s."""
RETRY_S = 0.05


async def private_folder(name: str) -> Any:
    """A folder of the private file system; NoPrivateFiles where the browser gives none."""
    import js
    from pyodide.ffi import JsException

    try:
        root = await js.navigator.storage.getDirectory()
        return await root.getDirectoryHandle(name, to_page({"create": True}))
    except (JsException, AttributeError):
        raise NoPrivateFiles(NO_PRIVATE_FILES) from None


async def sync_handle(folder: Any, name: str) -> Any:
    """A file opened for this worker alone, created when it is not there."""
    file = await folder.getFileHandle(name, to_page({"create": True}))
    return await file.createSyncAccessHandle()


async def would_fit(count: int) -> bool:
    """Whether the private files could grow by so many bytes: tried with an empty stretch of file.

    The stretch is given back at once; on a disk it is never written at all.
    """
    from pyodide.ffi import JsException

    try:
        folder = await private_folder("room")
    except NoPrivateFiles:
        return False
    handle = None
    try:
        handle = await sync_handle(folder, "tried")
        handle.truncate(count)
        # In a private window too long a stretch was seen to be left out without a word.
        return int(handle.getSize()) >= count
    except JsException:
        return False
    finally:
        if handle is not None:
            handle.truncate(0)
            handle.close()
            await folder.removeEntry("tried")


class HandleSlot:
    """A slot over a synchronous access handle."""

    def __init__(self, handle: Any) -> None:
        self._handle = handle

    def size(self) -> int:
        return int(self._handle.getSize())

    def read(self, at: int, length: int) -> bytes:
        import js
        from pyodide.ffi import JsException

        if length <= 0:
            return b""
        buffer = js.Uint8Array.new(length)
        try:
            count = int(self._handle.read(buffer, to_page({"at": at})))
        except JsException as why:
            raise OSError(f"The browser did not read its files: {why}") from why
        content: bytes = buffer.to_bytes()
        return content[:count]

    def write(self, content: bytes, at: int) -> None:
        from pyodide.ffi import JsException, to_js

        if not content:
            return
        try:
            count = int(self._handle.write(to_js(content), to_page({"at": at})))
        except JsException as why:
            raise _refused(why) from why
        # Chromium was seen, at the end of its quota, to tell of a full write and keep a part.
        if count < len(content) or self.size() < at + len(content):
            raise StorageFull(STORAGE_FULL)

    def truncate(self, size: int) -> None:
        from pyodide.ffi import JsException

        try:
            self._handle.truncate(size)
        except JsException as why:
            raise _refused(why) from why

    def flush(self) -> None:
        from pyodide.ffi import JsException

        try:
            self._handle.flush()
        except JsException as why:
            raise _refused(why) from why

    def close(self) -> None:
        self._handle.close()


def _refused(why: BaseException) -> Exception:
    if name_of(why) == "QuotaExceededError":
        return StorageFull(STORAGE_FULL)
    return OSError(f"The browser did not write to its files: {why}")


class BrowserFiles(JournalFile):
    """The journal's log in the private file system."""

    def __init__(self) -> None:
        super().__init__()
        self._release: Callable[[Any], object] | None = None
        self._kept: list[Any] = []
        self._taken_over: Callback | None = None
        self._owners: Any = None

    async def open(self) -> None:
        """Open the log; HeldElsewhere when another window has it and goes on having it."""
        if not self.is_open:
            await self._open(steal=False)

    async def take_over(self) -> None:
        """Open the log, taking it from the window that has it."""
        if not self.is_open:
            await self._open(steal=True)

    def on_taken_over(self, callback: Callback) -> None:
        self._taken_over = callback

    async def _open(self, steal: bool) -> None:
        from pyodide.ffi import JsException

        folder = await private_folder("journal")
        loop = asyncio.get_running_loop()
        until = loop.time() + OLD_WORKER_GONE_S
        while not await self._lock(steal):
            # A window that lives answers at once; a worker that is going does not.
            if loop.time() > until or await self._owner_answers():
                raise HeldElsewhere(HELD_ELSEWHERE)
        until = loop.time() + OLD_WORKER_GONE_S
        handles: list[Any] = []
        while True:
            try:
                for name in ("journal-a.log", "journal-b.log")[len(handles) :]:
                    handles.append(await sync_handle(folder, name))
                break
            except JsException as why:
                held = name_of(why) == "NoModificationAllowedError"
                if held and loop.time() < until:
                    await asyncio.sleep(RETRY_S)
                    continue
                for handle in handles:
                    handle.close()
                self._unlock()
                if held:
                    raise HeldElsewhere(HELD_ELSEWHERE) from None
                raise NoPrivateFiles(NO_PRIVATE_FILES) from None
            except AttributeError:  # a browser without such handles
                self._unlock()
                raise NoPrivateFiles(NO_PRIVATE_FILES) from None
        try:
            self.open_slots(HandleSlot(handles[0]), HandleSlot(handles[1]))
        except BaseException:
            self.close()
            raise
        self._answer_others()

    async def _lock(self, steal: bool) -> bool:
        """Ask for the lock; it is held until released, taken away, or the worker ends."""
        import js
        from pyodide.ffi import create_proxy

        if not hasattr(js.navigator, "locks"):
            return True  # then the handles alone, which are exclusive too, decide
        granted: asyncio.Future[bool] = asyncio.get_running_loop().create_future()

        def hold(lock: Any) -> Any:
            if not lock:
                granted.set_result(False)
                return None
            granted.set_result(True)
            return js.Promise.new(proxies[1])

        def keep(resolve: Any, _reject: Any) -> None:
            self._release = resolve

        def lost(_why: Any) -> None:
            if not granted.done():  # refused outright: the handles alone decide, as above
                granted.set_result(True)
            elif self._release is not None:
                self._lose()

        proxies = [create_proxy(function) for function in (hold, keep, lost)]
        wish = {"steal": True} if steal else {"ifAvailable": True}
        js.navigator.locks.request(LOCK, to_page(wish), proxies[0]).catch(proxies[2])
        got = await granted
        # Kept alive while the lock is held: the browser calls them later.
        self._kept = proxies if got else []
        return got

    def _unlock(self) -> None:
        release, self._release = self._release, None
        if release is not None:
            release(None)

    def _lose(self) -> None:
        """Another window took the lock: let go of the files and say so."""
        self._release = None
        super().close()
        self._stop_answering()
        if self._taken_over is not None:
            self._taken_over()

    def close(self) -> None:
        super().close()
        self._stop_answering()
        self._unlock()

    # Between windows: {kind: "who"} is answered {kind: "here"} by the one that has the journal.

    def _answer_others(self) -> None:
        import js
        from pyodide.ffi import create_proxy

        self._owners = js.BroadcastChannel.new("brinewright-owner")

        def answer(event: Any) -> None:
            if self._owners is not None and event.data.kind == "who":
                self._owners.postMessage(to_page({"kind": "here"}))

        self._kept.append(create_proxy(answer))
        self._owners.addEventListener("message", self._kept[-1])

    def _stop_answering(self) -> None:
        owners, self._owners = self._owners, None
        if owners is not None:
            owners.close()

    async def _owner_answers(self) -> bool:
        import js
        from pyodide.ffi import create_proxy

        channel = js.BroadcastChannel.new("brinewright-owner")
        answered = asyncio.Event()

        def hear(event: Any) -> None:
            if event.data.kind == "here":
                answered.set()

        proxy = create_proxy(hear)
        channel.addEventListener("message", proxy)
        channel.postMessage(to_page({"kind": "who"}))
        with suppress(TimeoutError, asyncio.TimeoutError):
            await asyncio.wait_for(answered.wait(), 0.3)
        channel.close()
        proxy.destroy()
        return answered.is_set()
