"""Whole brew days in the pocket, from fill to pitch, with the browser killed in the middle.

Its log then arrives in a log of the program, by the text that was copied.
"""

from __future__ import annotations

import pytest

from designer.brewday.measured.readings import Measured
from designer.workbench.brew.brewing import Status, brewing_of
from designer.workbench.brew.pocket_entries import pocket_entries
from designer.workbench.brew.pocket_text import read_pocket
from tests.sheet.plans import two_boils, two_buckets

from .browser import Browser, browser_path
from .phone import Phone, written_page

READ = {
    Measured.WATER_IN: "6,1",
    Measured.BOIL_START_VOLUME: "6.8",
    Measured.BOIL_START_GRAVITY: "1056",
    Measured.BOIL_END_VOLUME: "6",
    Measured.INTO_FERMENTER: "5.4",
    Measured.TOPPED_UP: "10",
    Measured.MIXED: "19",
    Measured.ORIGINAL_GRAVITY: "1.044",
}
"""What a brewer reads, of every boil and fermenter alike, typed in each of the ways."""
SAMPLE = "30"


def brewed_in_the_pocket(recipe, folder):
    """Go through a day by its planned times; return the phone at its end, and how often it rang."""
    place, steps = written_page(recipe, folder)
    browser = Browser(folder / "profile")
    phone = Phone(browser, place, steps, kept=True)
    heard, began = 0, phone.now_s()
    for number, step in enumerate(steps):
        if number == len(steps) // 2:
            phone.wait_until_kept()
            browser.kill()
            browser = Browser(folder / "profile")
            phone = phone.again_in(browser)
            assert len(phone.done) == number
        phone.let_it_be(began + 60.0 * step.minutes + 1.5 * number)
        heard += phone.call.startswith("Now:")
        for blank in step.blanks:
            if blank.what in READ:
                sample = SAMPLE if blank.what is Measured.ORIGINAL_GRAVITY else ""
                phone.measure(blank.label, READ[blank.what], sample)
        assert phone.states()[step.key] == "now"
        phone.go_on()
    return phone, heard


@pytest.mark.skipif(browser_path() is None, reason="no Chromium here; see packaging/test.sh --all")
@pytest.mark.parametrize("name", ["porter", "two boils", "two buckets"])
def test_a_whole_day_in_the_pocket_arrives_in_the_log(name, porter, tmp_path):
    recipe = {"porter": lambda: porter, "two boils": two_boils, "two buckets": two_buckets}[name]()
    phone, heard = brewed_in_the_pocket(recipe, tmp_path)
    assert phone.page.text("#progress").startswith("All steps are done")
    assert phone.timers == []
    text = phone.text_to_paste()
    assert phone.faults() == []
    phone.browser.close()

    log = read_pocket(f"> Hello me,\n> {text.replace(chr(10), chr(10) + '> ')}\n-- \nsent at 10:18")
    brewing = brewing_of(recipe, phone.steps, pocket_entries(log))
    assert [each.status for each in brewing.states] == [Status.DONE] * len(phone.steps)
    assert brewing.began is not None
    assert brewing.finished is not None
    boils = {each.boil for each in phone.steps if each.starts and each.starts.name == "boil"}
    in_boil = [each for each in phone.steps if each.left_min is not None and not each.starts]
    assert heard == len(in_boil) >= 3 * len(boils)
    for step, state in zip(phone.steps, brewing.states, strict=True):
        passed_min = (state.at.wall - brewing.began.wall) / 60.0
        assert passed_min == pytest.approx(step.minutes, abs=1.0), step.key
    read = {
        (each.reading.what, each.reading.boil, each.reading.fermenter) for each in brewing.readings
    }
    blanks = [each for step in phone.steps for each in step.blanks if each.what in READ]
    assert read == {(each.what, each.boil, each.fermenter) for each in blanks}
    [start] = [
        e for e in brewing.readings if e.reading.what is Measured.WATER_IN and e.reading.boil == 1
    ]
    assert start.reading.value == pytest.approx(6.1)
    mixed = [e for e in brewing.readings if e.reading.what is Measured.ORIGINAL_GRAVITY]
    # Warm wort reads thin: some 0.0025 at 30 °C (ASBC table as quoted; see tests/wort).
    assert all(1.0455 < each.reading.value < 1.0475 for each in mixed)
