"""Temperatures in a real browser with the network gone: logged, drawn, and told in words."""

import re

import pytest

from build_scripts.hand import write_into
from tests.browser.conftest import Visit
from tests.browser.hand import Hand, offline, said
from tests.browser.test_moments import GOOD, started


def test_a_temperature_takes_two_taps_and_one_more_for_a_time_past(visit: Visit) -> None:
    visitor = offline(visit)
    hand = Hand(visitor)
    started(hand)
    hand.place("Now")
    before = hand.taps
    hand.press("Temperature", exact=True)
    write_into(visitor.page, visitor.page.get_by_role("textbox", name="It reads"), "38")
    hand.press("Save, just now")
    hand.sees(re.compile("Saved. Temperature, flat: 38 °F"))
    assert hand.taps - before == 2
    hand.press("Undo", exact=True)
    hand.sees(re.compile("Removed. Temperature, flat: 38 °F"))
    hand.press("Temperature", exact=True)
    hand.write("It reads", "150")
    hand.press("Where: Flat")
    hand.press("1 h ago")
    hand.sees(re.compile("Saved. Temperature, flat: 150 °F"))
    hand.press("Temperature", exact=True)
    hand.write("It reads", "165")
    hand.press("Where: Flat")
    hand.press("20 min ago")
    hand.sees(re.compile("Saved. Temperature, flat: 165 °F"))
    hand.press("Probe", exact=True)
    hand.write("It reads", "199")
    hand.press("Soft: slides in like warm butter")
    hand.sees("Last felt")
    hand.back()
    hand.press("Temperatures")
    hand.sees(re.compile("Chart of temperatures over .* Flat from 150 °F to 199 °F"))
    hand.sees(re.compile("Reached "))
    hand.sees("By feel, not by time: it is done when the probe goes in soft all over.")
    hand.sees("Cooling clocks")
    visitor.picture("temperatures-logged")
    assert visitor.barriers() == []
    hand.press(re.compile("By time and temperature"))
    hand.sees(re.compile("FSIS Appendix A"))
    hand.back()
    # A line put right from the list, and that taken back.
    hand.press(re.compile("Flat 165 °F"))
    hand.sees("Put right: temperature")
    hand.press("Remove", exact=True)
    hand.sees(re.compile("Removed. Temperature, flat: 165 °F"))
    hand.press("Undo", exact=True)
    hand.sees(re.compile("Put back. Temperature, flat: 165 °F"))


@pytest.mark.parametrize("look", ["light", "dark", "large"])
def test_the_log_of_a_cook_reads_right_in_every_look(visit: Visit, look: str) -> None:
    visitor = offline(visit, look)  # type: ignore[arg-type]
    hand = Hand(visitor)
    hand.press("See an example")
    hand.sees("Two invented batches")
    page = visitor.page
    page.evaluate("to => { location.hash = to }", f"#{GOOD}/heat")
    hand.sees(re.compile("Chart of temperatures over"))
    visitor.picture("heat-chart")
    hand.find(said(page, "Safe?"))
    visitor.picture("heat-safe")
    hand.find(said(page, "Cooling clocks"))
    visitor.picture("heat-cooling")
    assert visitor.barriers() == []
    assert not re.search(r"\d °C", page.locator("flt-semantics-host").first.inner_text())
    hand.press("How long it keeps")
    hand.sees("Best eaten by")
    visitor.picture("heat-keeps")
