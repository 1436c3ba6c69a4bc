"""The two invented batches: put into the journal to look round in, and taken out again."""

from app.device.surroundings import asset
from app.journal.demonstration import demonstration
from app.screens.bench import Bench


async def load_example(bench: Bench) -> None:
    """Put the invented batches into the journal, pictures first."""
    example = demonstration(bench.now())
    for photo_id, name in example.files:
        ready = await bench.device.images.prepare(await asset(name))
        await bench.device.photos.put(photo_id, ready.jpeg, ready.thumb)
    for batch in example.batches:
        bench.shelf.restore_batch(batch.id)
    bench.shelf.save_all(example.batches, example.entries, example.photos)
    bench.refresh("Two invented batches are in the journal. Remove them in Kit.")


def remove_example(bench: Bench) -> None:
    """Take the invented batches out again."""
    for batch in bench.shown.batches:
        if batch.demonstration:
            bench.shelf.delete_batch(batch.id)
    bench.refresh("The example is removed.")
