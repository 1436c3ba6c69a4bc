"""What of a mounted program can be seen, heard and pressed."""

import dataclasses
from collections.abc import Iterator
from typing import Any

import flet as ft
from flet.components.component import Component

Path = tuple[Any, ...]
"""The controls around one, outermost first."""

LEAST_TARGET_PX = 48
"""Least height of anything to touch (design); also the least of Material Design for Android."""

PRESSED = {"click": "on_click", "tap": "on_tap"}
BUTTONS = (ft.Button, ft.OutlinedButton, ft.TextButton, ft.IconButton, ft.FloatingActionButton)
TOGGLES = (ft.Switch, ft.Checkbox)
TO_NAME = (*BUTTONS, *TOGGLES, ft.Radio, ft.TextField, ft.Dropdown, ft.Slider)

# These lie before what they stand beside, whatever their order in the control's class.
_FIRST = ("appbar", "leading", "icon", "title", "subtitle", "label")
# No words of the screen, though they may hold controls or strings.
_NOT_SEEN = {"data", "key", "tooltip", "services", "action", "badge"}
_WORDS = {"title", "subtitle", "content", "label", "text"}


def parts(control: Any) -> Iterator[Any]:
    """Strings a control writes itself and the controls inside it, in reading order."""
    if isinstance(control, ft.TextField):
        yield from (control.label, control.value or control.hint_text)
        yield from (control.prefix, control.suffix, control.error or control.helper)
        return
    if isinstance(control, ft.Dropdown):
        chosen = [o for o in control.options if (o.key or o.text) == control.value]
        yield from (control.label, *(o.text or o.key for o in chosen))
        return
    if isinstance(control, ft.Text) and not control.spans:
        yield control.value
        return
    silent = isinstance(control, (ft.Semantics, ft.Image, ft.Slider))
    names = [f.name for f in dataclasses.fields(control) if "skip" not in f.metadata]
    for name in sorted(names, key=lambda n: _FIRST.index(n) if n in _FIRST else len(_FIRST)):
        if name in _NOT_SEEN or (name.startswith("_") and name != "_b"):
            continue
        inside = getattr(control, name, None)
        for part in inside if isinstance(inside, (list, tuple)) else [inside]:
            if isinstance(part, ft.BaseControl) or (
                isinstance(part, str) and name in _WORDS and not silent
            ):
                yield part


def walk(control: Any, path: Path = ()) -> Iterator[tuple[Any, Path]]:
    """A control and all that is visible inside it, each with what stands around it."""
    if isinstance(control, ft.BaseControl) and getattr(control, "visible", True):
        if not isinstance(control, Component):
            yield control, path
            path = (*path, control)
        for part in parts(control):
            yield from walk(part, path)


def words_in(control: Any) -> list[str]:
    """The words written in a control, in reading order."""
    if isinstance(control, str):
        return [control] if control else []
    if not isinstance(control, ft.BaseControl) or not getattr(control, "visible", True):
        return []
    return [word for part in parts(control) for word in words_in(part)]


def spoken_in(control: Any) -> list[str]:
    """What a screen reader says of a control: words, or what is said in their stead."""
    if isinstance(control, str):
        return [control] if control else []
    if not isinstance(control, ft.BaseControl) or not getattr(control, "visible", True):
        return []
    instead = getattr(control, "semantics_label", None)
    if instead and not isinstance(control, ft.AlertDialog):
        return [instead]
    inside = [word for part in parts(control) for word in spoken_in(part)]
    if isinstance(control, ft.Semantics):
        own = [word for word in (control.label, control.value) if word]
        return own if control.exclude_semantics else own + inside
    return inside


def said_around(path: Path) -> list[str]:
    """Names that what stands around a control lends to it.

    A label goes to the one thing right inside it; a merged part is one thing with all its words.
    """
    said: list[str] = []
    close = True
    for around in reversed(path):
        if isinstance(around, ft.MergeSemantics):
            said += spoken_in(around)
        elif isinstance(around, ft.Semantics):
            said += [around.label] if around.label and close else []
        elif not isinstance(around, ft.Container) or is_pressable(around):
            close = False
    return said


def is_pressable(control: Any) -> bool:
    """Whether a press does something, or would if it were not disabled."""
    return (
        isinstance(control, (*BUTTONS, *TOGGLES, ft.NavigationBarDestination))
        or any(getattr(control, name, None) is not None for name in PRESSED.values())
        or getattr(control, "action", None) is not None
    ) and not isinstance(control, ft.TextField)


def name_of(control: Any, path: Path) -> str:
    """The accessible name, as Flet 1.0.5's web client gives it to a screen reader.

    There a tooltip names no button and the label of a drop-down list or slider names nothing:
    found by trying each in the browser.
    """
    if any(isinstance(p, ft.Semantics) and p.exclude_semantics for p in path):
        return ""
    own = [] if isinstance(control, (ft.Dropdown, ft.Slider)) else spoken_in(control)
    if isinstance(control, ft.TextField):
        own = [control.label] if isinstance(control.label, str) else spoken_in(control.label)
    return " ".join(word for word in own + said_around(path) if word).strip()


def views_of(page: ft.Page) -> list[ft.View]:
    """The stack of views, the one on top last."""
    views = page.views if isinstance(page.views, list) else [page.views]
    return [c for view in views for c, _ in walk_flat(view) if isinstance(c, ft.View)]


def walk_flat(control: Any) -> Iterator[tuple[Any, Path]]:
    """Like `walk`, also over the lists a component may return at the root."""
    for one in control if isinstance(control, list) else [control]:
        yield from walk(one)


class Seen:
    """Questions about what stands on the screen; see harness.py for who answers them."""

    page: ft.Page

    def shown(self) -> list[tuple[Any, Path]]:
        """What can be seen, each with what is around it: the top view, then open dialogs."""
        return [pair for root in self._roots() for pair in walk(root)]

    def controls(self) -> Iterator[Any]:
        """Every visible control, in reading order."""
        return (control for control, _ in self.shown())

    def _roots(self) -> list[Any]:
        return views_of(self.page)[-1:] + self.dialogs()

    def dialogs(self) -> list[Any]:
        """Dialogs that are open, the one on top last."""
        return [d for d in self.page._dialogs.controls if d.open]

    def _reachable(self) -> list[tuple[Any, Path]]:
        """What can be touched: an open dialog covers all else."""
        return list(walk(self._roots()[-1]))

    def texts(self) -> list[str]:
        """Every visible text, in reading order."""
        return [word for root in self._roots() for word in words_in(root)]

    def spoken(self) -> list[str]:
        """What a screen reader would say, in order."""
        return [word for root in self._roots() for word in spoken_in(root)]

    def has(self, text: str) -> bool:
        """Whether `text` can be read or is read out, alone or within a longer text."""
        return any(text in one for one in self.texts() + self.spoken())

    def control(self, label: str = "", kind: Any = ft.Control) -> Any:
        """The one control of that kind whose name or words begin with `label`."""
        there = [(c, p) for c, p in self._reachable() if isinstance(c, kind)]
        names = [
            [name_of(c, p), " ".join(words_in(c)), " ".join(spoken_in(c)), *said_around(p)]
            for c, p in there
        ]
        found = [pair for pair, n in zip(there, names, strict=True) if label in n] or [
            pair
            for pair, n in zip(there, names, strict=True)
            if any(one.startswith(label) for one in n)
        ]
        # One inside the other is the same thing twice: the outer one is meant.
        found = [(c, p) for c, p in found if not any(outer in p for outer, _ in found)]
        return self._only(found, label, [n[0] or n[1] for n in names])

    def field(self, label: str) -> Any:
        """The text field whose label begins with `label`, ready to be typed in."""
        control = self.control(label, ft.TextField)
        path = next(p for c, p in self._reachable() if c is control)
        if control.read_only or _disabled(control, path):
            raise AssertionError(f"the field {label!r} cannot be changed")
        return control

    def button(self, words: str, at: int | None = None) -> Any:
        """What a press on `words` lands on: whole names count before parts of longer ones."""
        there = [(c, p) for c, p in self._reachable() if is_pressable(c)]
        ranks = [_rank(words, c, p) for c, p in there]
        best = min(ranks, default=_NO)
        found = [pair for pair, r in zip(there, ranks, strict=True) if r == best and r < _NO]
        if at is not None and len(found) > at:
            found = [found[at]]
        names = [" ".join(words_in(c)) or name_of(c, p) or f"({_kind(c)})" for c, p in there]
        control = self._only(found, words, names)
        if _disabled(*found[0]):
            raise AssertionError(f"{words!r} cannot be pressed now: it is disabled")
        return control

    def _only(self, found: list[tuple[Any, Path]], words: str, names: list[str]) -> Any:
        if len(found) == 1:
            return found[0][0]
        how = f"{len(found)} things say" if found else "Nothing says"
        there = "; ".join(repr(name) for name in names if name)
        raise AssertionError(f"{how} {words!r}. There is: {there}.")

    # What keeps someone from using it.

    def unnamed(self) -> list[str]:
        """What can be pressed or filled in but has no name to a screen reader."""
        return [where for control, path, where in self._to_use() if not name_of(control, path)]

    def small_targets(self) -> list[str]:
        """What can be pressed or filled in and is known to be too low to touch safely."""
        low = []
        for control, path, where in self._to_use():
            around = path[-1:] if path and isinstance(path[-1], ft.Container) else ()
            heights = [c.height for c in (control, *around) if getattr(c, "height", None)]
            if heights and min(heights) < LEAST_TARGET_PX:
                low.append(f"{where}: {min(heights)} px high")
        return low

    def _to_use(self) -> Iterator[tuple[Any, Path, str]]:
        for view in views_of(self.page) + self.dialogs():
            place = getattr(view, "route", None) or type(view).__name__
            for control, path in walk(view):
                if is_pressable(control) or isinstance(control, TO_NAME):
                    words = " ".join(words_in(control))
                    yield control, path, f"{place}: {_kind(control)} {words!r}"


_NO = 9


def _rank(words: str, control: Any, path: Path) -> int:
    around = said_around(path)
    shown, said = words_in(control), spoken_in(control)
    whole = {" ".join(shown), " ".join(said), *around}
    if words in whole:
        return 0
    if words in shown or words in said:
        return 1
    if any(one.startswith(words) for one in whole):
        return 2
    return 3 if any(words in one for one in whole) else _NO


def _disabled(control: Any, path: Path) -> bool:
    return any(getattr(c, "disabled", False) for c in (control, *path))


def _kind(control: Any) -> str:
    return type(control).__name__
