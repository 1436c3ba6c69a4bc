"""The two invented batches: put into the journal to look round in, and taken out again."""

from app.device.surroundings import asset
from app.journal.demonstration import demonstration
from app.screens.bench import Bench
from app.widgets.frame import Act


async def load_example(bench: Bench) -> None:
    """Put the invented batches into the journal, pictures first."""
    example = demonstration(bench.now())
    for photo_id, name in example.files:
        ready = await bench.device.images.prepare(await asset(name))
        await bench.device.photos.put(photo_id, ready.jpeg, ready.thumb)
    for batch in example.batches:
        bench.shelf.restore_batch(batch.id)
    bench.shelf.save_all(example.batches, example.entries, example.photos)
    bench.refresh("Two invented batches are in the journal.", lambda: remove_example(bench))


def remove_example(bench: Bench) -> None:
    """Take the invented batches out again; they can be put back as they were."""
    gone = [batch.id for batch in bench.shown.batches if batch.demonstration]
    for batch_id in gone:
        bench.shelf.delete_batch(batch_id)

    def put_back() -> None:
        for batch_id in gone:
            bench.shelf.restore_batch(batch_id)
        bench.refresh("The example is put back.")

    bench.refresh("The example is removed.", put_back)


def example_act(bench: Bench, load: str = "Load the example") -> Act:
    """What loads the example, or takes it out where it is there."""
    if any(batch.demonstration for batch in bench.shown.batches):
        return Act("Remove the example", lambda: remove_example(bench))
    return Act(load, lambda: load_example(bench))
