"""What the soak's cook does in Kit: settings, a salt of their own, copies, and reading one back.

`check` holds what a copy says is stored against what may be.
"""

import re
from copy import deepcopy

from build_scripts.soak_cook import SAVED_MS, Cook
from build_scripts.soak_model import Kept, differences, missing


def units(cook: Cook) -> None:
    key, words = cook.chance.choice((("us", "US"), ("metric", "Metric"), ("both", "Both")))
    choose(cook, "Units", "system", key, words)


def look(cook: Cook) -> None:
    key, words = cook.chance.choice(
        (("auto", "As the phone"), ("dark", "Dark"), ("light", "Light"))
    )
    choose(cook, "Look", "theme", key, words)


def choose(cook: Cook, label: str, part: str, key: str, words: str) -> None:
    """Choose one of a few in Kit."""
    cook.to_kit()
    cook.hand.press(label)

    def change(kept: Kept) -> None:
        kept.kit[part] = key

    cook.commit(lambda: cook.hand.press(f"{label}: {words}"), f"{label}: {words}, chosen", change)


def own_salt(cook: Cook) -> None:
    name = f"Salt {cook.fresh_word()}"
    cook.go("/kit/salt")
    cook.arrive("A curing salt")
    cook.hand.write("Name on the label", name)
    cook.hand.write("Sodium nitrite", "6.25")
    cook.commit(
        lambda: cook.hand.press("Save", exact=True),
        f"{name} is in your kit.",
        lambda kept: kept.salts.append(name),
    )


def read_a_copy_back(cook: Cook) -> None:
    """Have what is in an earlier copy, instead of what is here or beside it."""
    if not cook.copies:
        return
    file, held = cook.chance.choice(cook.copies)
    cook.to_kit()
    cook.hand.press("Copy and restore")
    cook.hand.choose_file("Read a file back", file)
    cook.hand.sees("Read this copy back?", SAVED_MS)
    add = cook.page.get_by_role("button", name="Add it", exact=True)
    if cook.chance.random() < 0.4 and add.count():
        # By name a batch that was corrected since may come as either; what is here stays.
        cook.at_least = [deepcopy(cook.kept)]
        add.tap()
        cook.hand.sees(re.compile("^Read back"), SAVED_MS)
        return

    def change(kept: Kept) -> None:
        kept.batches, kept.kit, kept.salts = deepcopy((held.batches, held.kit, held.salts))

    cook.commit(
        lambda: cook.hand.press("Replace everything with it"),
        re.compile("^Everything is replaced with the copy"),
        change,
    )


def copy(cook: Cook) -> None:
    """Save everything to a file; it must hold what was saved, no more and no less."""
    check(cook, *cook.save_copy())


class Lost(Exception):
    """What is stored is not what the screen called saved."""


def check(cook: Cook, file: object, stored: Kept) -> None:
    """Hold what is stored against what may be; afterwards the cook knows which it was.

    Raises
    ------
    Lost
        With each difference.
    """
    if cook.at_least:
        told = [one for wanted in cook.at_least for one in missing(wanted, stored)]
    else:
        told = min((differences(one, stored) for one in cook.allowed), key=len)
    cook.at_least = []
    cook.kept, cook.allowed = stored, [stored]
    if told:
        raise Lost("; ".join(told))
