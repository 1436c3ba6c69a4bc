"""What a press may do to a batch and its record: each act saved, named, and taken back alone."""

from __future__ import annotations

import uuid
from collections.abc import Callable
from typing import Protocol

from attrs import evolve

from app.journal.entries import corrected, decided, new_entry
from app.journal.marks import mark_done, skip, undo_done, unskip
from app.journal.records import Batch, Entry, EntryBody, Kit, Moment, Stage
from app.journal.turning_points import after_decision, look_again
from app.journal.wall import say_wall, wall_of
from app.screens.journal.told import line_told
from app.store.shelf import Shelf

CHANGED_SINCE = "This was changed again since, so nothing was taken back."


def new_id() -> str:
    """A name no other record has."""
    return uuid.uuid4().hex[:16]


class Acting(Protocol):
    """What the acts need of the bench."""

    shelf: Shelf

    @property
    def kit(self) -> Kit: ...

    @property
    def zone(self) -> str: ...

    def now(self) -> Moment: ...

    def batch(self, batch_id: str) -> Batch | None: ...

    def entries(self, batch_id: str) -> tuple[Entry, ...]: ...

    def go(self, route: str) -> None: ...

    def show(self, **changes: object) -> None: ...

    def refresh(self, said: str = "", undo: Callable[[], None] | None = None) -> None: ...

    def save_batch(self, batch: Batch, said: str = "") -> None: ...

    def remove_entry(self, entry: Entry) -> None: ...

    def change_step(
        self, batch_id: str, step_id: str, act: Callable[[Batch, str], Batch], said: str
    ) -> None: ...


def _line(bench: Acting, entry: Entry) -> Entry | None:
    return next((one for one in bench.entries(entry.batch_id) if one.id == entry.id), None)


class RecordActs:
    """The acts on batches and their records, part of the bench.

    An undo takes back its own act and nothing else: where the same line or batch was changed
    again in between, it says so and does nothing.
    """

    def save_batch(self: Acting, batch: Batch, said: str = "") -> None:
        """Save a batch; the word said afterwards offers to take the change back."""
        before = self.batch(batch.id)
        after = evolve(batch, changed=self.now())
        self.shelf.save_batch(after)

        def undo() -> None:
            if before is None or self.batch(batch.id) != after:
                self.show(said=CHANGED_SINCE)
                return
            self.shelf.save_batch(evolve(before, changed=self.now()))
            self.refresh("Taken back.")

        self.refresh(said, undo if before is not None and said else None)

    def add_entry(
        self: Acting,
        batch: Batch,
        body: EntryBody,
        *,
        stage: Stage | None = None,
        ago_s: float = 0.0,
    ) -> Entry:
        """Write one line of a batch's record, `ago_s` seconds back."""
        now = self.now()
        at = evolve(now, utc_s=now.utc_s - ago_s)
        entry = new_entry(new_id(), batch, body, at, now, stage)
        self.shelf.save_entry(entry)
        self.refresh(f"Saved. {line_told(entry, self.kit)}", lambda: self.remove_entry(entry))
        return entry

    def remove_entry(self: Acting, entry: Entry) -> None:
        """Take a line out of the record; it can be put back."""
        if _line(self, entry) != entry:
            self.show(said=CHANGED_SINCE)
            return
        self.shelf.delete_entry(entry.batch_id, entry.id)

        def put_back() -> None:
            if _line(self, entry) is not None:
                self.show(said=CHANGED_SINCE)
                return
            self.shelf.save_entry(evolve(entry, changed=self.now()))
            self.refresh(f"Put back. {line_told(entry, self.kit)}")

        self.refresh(f"Removed. {line_told(entry, self.kit)}", put_back)

    def correct_entry(
        self: Acting, batch: Batch, entry: Entry, body: EntryBody, at: Moment
    ) -> None:
        """Put a line of the record right; it can be taken back."""
        after = corrected(entry, batch, self.now(), body=body, at=at).after
        assert after is not None
        self.shelf.save_entry(after)

        def undo() -> None:
            if _line(self, entry) != after:
                self.show(said=CHANGED_SINCE)
                return
            self.shelf.save_entry(evolve(entry, changed=self.now()))
            self.refresh(f"As it was. {line_told(entry, self.kit)}")

        self.refresh(f"Put right. {line_told(after, self.kit)}", undo)

    def remove_batch(self: Acting, batch: Batch) -> None:
        """Take a batch out of the journal; it can be put back."""
        self.shelf.delete_batch(batch.id)

        def put_back() -> None:
            self.shelf.restore_batch(batch.id)
            self.refresh(f"{batch.name} put back.")

        self.refresh(f"{batch.name} removed.", put_back)
        self.go("/journal")

    def decide(
        self: Acting,
        batch: Batch,
        choice: str,
        pit_c: float | None = None,
        core_c: float | None = None,
    ) -> None:
        """Record a decision at the fire, and what it does to the plan; one undo for both."""
        now = self.now()
        stage: Stage = "wrap" if choice in ("wrapped", "not_yet") else "tender"
        entry = new_entry(new_id(), batch, decided(choice, pit_c, core_c), now, now, stage)
        planned = after_decision(batch, choice, now, self.zone)
        after = batch if planned is batch else evolve(planned, changed=now)
        # In one stroke: a decision without what it does to the plan would be half of it.
        self.shelf.save_all((after,) if after is not batch else (), (entry,), ())

        def undo() -> None:
            if _line(self, entry) != entry or self.batch(batch.id) != after:
                self.show(said=CHANGED_SINCE)
                return
            self.shelf.delete_entry(entry.batch_id, entry.id)
            if after is not batch:
                self.shelf.save_batch(evolve(batch, changed=self.now()))
            self.refresh(f"Taken back. {line_told(entry, self.kit)}")

        again = look_again(after, choice)
        says = f" Look again {say_wall(again, wall_of(now))}." if again else ""
        self.refresh(f"Saved. {line_told(entry, self.kit)}{says}", undo)

    def change_step(
        self: Acting,
        batch_id: str,
        step_id: str,
        act: Callable[[Batch, str], Batch],
        said: str,
    ) -> None:
        """Change one step of a batch's plan; `said` goes before its title."""
        batch = self.batch(batch_id)
        if batch is None:
            self.show(said="This batch is no longer in the journal.")
            return
        title = next((one.title for one in batch.plan if one.id == step_id), "")
        try:
            self.save_batch(act(batch, step_id), f"{said}: {title}.")
        except ValueError as wrong:
            self.show(said=str(wrong))

    def mark_done(self: Acting, batch_id: str, step_id: str) -> None:
        now = self.now()
        self.change_step(batch_id, step_id, lambda b, s: mark_done(b, s, now, self.zone), "Done")

    def undo_done(self: Acting, batch_id: str, step_id: str) -> None:
        self.change_step(batch_id, step_id, lambda b, s: undo_done(b, s, self.zone), "Not done yet")

    def skip(self: Acting, batch_id: str, step_id: str) -> None:
        self.change_step(batch_id, step_id, lambda b, s: skip(b, s, self.zone), "Left out")

    def unskip(self: Acting, batch_id: str, step_id: str) -> None:
        self.change_step(batch_id, step_id, lambda b, s: unskip(b, s, self.zone), "Brought back")
