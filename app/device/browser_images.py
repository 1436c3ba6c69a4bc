"""Pictures in the browser: its own decoder, and a canvas that no one sees."""

from collections.abc import Sequence
from typing import Any

from app.device.browser_channel import to_page
from app.device.parts import NotAPhoto, Prepared
from app.device.picture_head import (
    CANNOT_DECODE,
    INK,
    JPEG_QUALITY,
    LONGEST_SIDE_PX,
    PAPER,
    THUMB_SIDE_PX,
    check_size,
    fitted,
    read_head,
    strip_sizes,
)


class BrowserImages:
    """Decoding and scaling by the browser. The pixels are never in Python but for `rgba`."""

    async def prepare(self, source: Any) -> Prepared:
        """Make a photo of bytes or of a file of the page; NotAPhoto with a sentence if not."""
        if isinstance(source, bytes | bytearray | memoryview):
            content, blob = bytes(source), _blob(bytes(source))
        else:
            content, blob = (await source.arrayBuffer()).to_bytes(), source
        head = read_head(content)
        bitmap = await _decoded(blob, head.width_to_decode(LONGEST_SIDE_PX))
        try:
            width, height = fitted(bitmap.width, bitmap.height, LONGEST_SIDE_PX)
            canvas = _drawn(bitmap, width, height)
        finally:
            bitmap.close()
        small = _drawn(canvas, *fitted(width, height, THUMB_SIDE_PX))
        return Prepared(await _jpeg(canvas), await _jpeg(small), width, height, head.taken_utc_s)

    async def rgba(self, jpeg: bytes, max_side: int) -> tuple[bytes, int, int]:
        bitmap = await _decoded(_blob(jpeg), read_head(jpeg).width_to_decode(max_side))
        try:
            width, height = fitted(bitmap.width, bitmap.height, max_side)
            canvas = _drawn(bitmap, width, height, clear=True)
        finally:
            bitmap.close()
        pixels = canvas.getContext("2d").getImageData(0, 0, width, height).data
        content: bytes = pixels.to_bytes()
        return content, width, height

    async def captioned(self, jpeg: bytes, lines: Sequence[str]) -> bytes:
        bitmap = await _decoded(_blob(jpeg))
        try:
            width, height = int(bitmap.width), int(bitmap.height)
            letters, line, margin = strip_sizes(width)
            canvas = _blank(width, height + len(lines) * line + 2 * margin)
            context = canvas.getContext("2d", to_page({"willReadFrequently": True}))
            context.fillStyle = PAPER
            context.fillRect(0, 0, canvas.width, canvas.height)
            context.drawImage(bitmap, 0, 0)
        finally:
            bitmap.close()
        context.fillStyle = INK
        context.textBaseline = "top"
        context.font = f"{letters}px sans-serif"
        for number, words in enumerate(lines):
            # Squeezed rather than cut where a line is too long.
            context.fillText(words, margin, height + margin + number * line, width - 2 * margin)
        return await _jpeg(canvas)


def _blob(content: bytes) -> Any:
    import js
    from pyodide.ffi import to_js

    return js.Blob.new(to_js([content]))


async def _decoded(blob: Any, width: int | None = None) -> Any:
    """The picture upright; as wide as asked, which the browser does beside its other work."""
    import js
    from pyodide.ffi import JsException

    # Upright by what the camera recorded; the pixels alone go on from here. Height follows width.
    wish: dict[str, Any] = {"imageOrientation": "from-image"}
    if width is not None:
        wish |= {"resizeWidth": width, "resizeQuality": "high"}
    try:
        bitmap = await js.createImageBitmap(blob, to_page(wish))
    except JsException:
        raise NotAPhoto(CANNOT_DECODE) from None
    check_size(int(bitmap.width), int(bitmap.height))
    return bitmap


def _blank(width: int, height: int) -> Any:
    import js

    return js.OffscreenCanvas.new(width, height)


def _drawn(picture: Any, width: int, height: int, clear: bool = False) -> Any:
    canvas = _blank(width, height)
    # Kept in ordinary memory: to fetch it back from the graphics card takes longer than to draw.
    context = canvas.getContext("2d", to_page({"alpha": clear, "willReadFrequently": True}))
    context.imageSmoothingEnabled = True
    context.imageSmoothingQuality = "high"
    context.drawImage(picture, 0, 0, width, height)
    return canvas


async def _jpeg(canvas: Any) -> bytes:
    wish = to_page({"type": "image/jpeg", "quality": JPEG_QUALITY})
    blob = await canvas.convertToBlob(wish)
    content: bytes = (await blob.arrayBuffer()).to_bytes()
    return content
