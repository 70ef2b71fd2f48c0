"""The brew day goes onto the phone and its log comes back, through the window."""

from __future__ import annotations

import time
from dataclasses import replace

import pytest
from PySide6.QtWidgets import QDialog

from designer.brewday.measured.readings import Measured
from designer.command_line.usage import parser
from designer.command_line.words.sheets import OWN_ADDRESS
from designer.library.recipe_file import document_text
from designer.library.store import Store
from designer.window.brew.from_pocket import FromPhone
from designer.window.parts.onto_phone import COMMAND, OntoPhone
from designer.workbench.brew.brewing import Status
from designer.workbench.brew.entries_text import entries_of
from tests.sheet.pocket.browser import Browser, browser_path
from tests.sheet.pocket.phone import Phone
from tests.workbench.brew.pocket_texts import ROWS, pasted


def dialog_of(qtbot, window, kind):
    """Return the dialog that is open now."""
    qtbot.waitUntil(lambda: any(e.isVisible() for e in window.findChildren(kind)), timeout=10_000)
    return next(each for each in window.findChildren(kind) if each.isVisible())


def settle(qtbot, window):
    def is_settled():
        assert not window.brew_day().brew.reckoning
        assert not window.autosave.store.busy
        assert window.keeping.brews.settled

    qtbot.waitUntil(is_settled, timeout=20_000)


def from_phone(qtbot, window, text) -> FromPhone:
    window.brew_day().phone_button.back.trigger()
    dialog = dialog_of(qtbot, window, FromPhone)
    dialog.text.setPlainText(text)
    return dialog


def take_in(qtbot, window, text) -> None:
    dialog = from_phone(qtbot, window, text)
    with qtbot.waitSignal(window.brew_day().brew.said, timeout=10_000):
        dialog.take_button.click()
    settle(qtbot, window)


def logs_in_box(folder):
    with Store.open(folder) as store:
        return [
            (each, entries_of(line.entry for line in store.brews.lines(each.id)))
            for each in store.brews.all()
        ]


def page_saved(qtbot, window, answers, path):
    answers.html_where = lambda parent, suggested: path
    window.show_page(2)
    window.sheet.offer_phone()
    dialog_of(qtbot, window, OntoPhone).save.click()
    qtbot.waitUntil(path.exists, timeout=10_000)
    return path


def test_the_sheet_page_tells_the_way_onto_the_phone_and_writes_the_page(
    qtbot, on_a_box, opened, answers, tmp_path
):
    window = on_a_box(opened)
    page = page_saved(qtbot, window, answers, tmp_path / "porter-phone.html")
    text = page.read_text("utf-8")
    assert "Harbour Lamp Porter" in text
    assert "Content-Security-Policy" in text
    assert len(text.encode()) < 200_000


@pytest.mark.skipif(browser_path() is None, reason="no Chromium here; see packaging/test.sh --all")
def test_what_is_ticked_and_read_on_the_phone_arrives_beside_its_version(
    qtbot, on_a_box, opened, answers, folder, tmp_path
):
    window = on_a_box(opened)
    place = page_saved(qtbot, window, answers, tmp_path / "porter-phone.html")
    browser = Browser(tmp_path / "profile")
    phone = Phone(browser, place, ())
    phone.measure("Water in", "6,1")
    for _ in range(3):
        phone.page.tap(".step.now .act .main")
    phone.page.tap("#note")
    phone.page.type("windy in the harbour")
    phone.page.tap("#note-form button")
    text = phone.text_to_paste()
    assert phone.faults() == []
    browser.close()

    take_in(qtbot, window, f"Mail to myself\n\n{text}\n--\nme")
    brewing = window.brew_day().brew.brewing
    assert [each.status for each in brewing.states][:4] == [Status.DONE] * 3 + [Status.NOW]
    assert [(each.reading.what, each.reading.value) for each in brewing.readings] == [
        (Measured.WATER_IN, pytest.approx(6.1))
    ]
    assert [each.text for each in brewing.notes] == ["windy in the harbour"]
    assert abs(brewing.began.wall - time.time()) < 120
    [(brew, entries)] = logs_in_box(folder)
    assert entries == brewing.entries
    assert brew.recipe == window.autosave.recipe_id != 0
    assert brew.version != 0


def test_a_log_pasted_twice_or_longer_later_is_there_once(qtbot, on_a_box, opened, folder):
    window = on_a_box(opened)
    take_in(qtbot, window, pasted(opened.recipe, ROWS[:4]))
    take_in(qtbot, window, pasted(opened.recipe, ROWS[:4]))
    assert window.messages.text.text() == "All of this text was in the log already."
    window.brew_day().brew.leave()
    take_in(qtbot, window, pasted(opened.recipe, ROWS))
    [(_, entries)] = logs_in_box(folder)
    mine = [each for each in entries if each.what != "clock"]  # the window's own, timers run
    assert len(mine) == len(ROWS)
    [water] = window.brew_day().brew.brewing.readings
    assert (water.typed, water.was) == ("6.2 L", ("6,1 L",))


def test_a_brew_begun_in_the_window_and_gone_on_with_on_the_phone_is_one_log(
    qtbot, on_a_box, opened, folder
):
    window = on_a_box(opened)
    brew = window.brew_day().brew
    brew.start(opened, window.autosave)
    brew.note("begun in the kitchen")
    settle(qtbot, window)
    text = pasted(opened.recipe, ROWS[:5], began=int(time.time()) + 60)
    dialog = from_phone(qtbot, window, text)
    assert dialog.joins.isVisible()
    assert dialog.joins.isChecked()
    dialog.take_button.click()
    settle(qtbot, window)
    [(head, entries)] = logs_in_box(folder)
    assert head.uid == brew.brew.uid
    assert len([each for each in entries if each.what == "began"]) == 1
    assert [each.text for each in brew.brewing.notes] == ["begun in the kitchen"]
    assert "boil 1/fill" in brew.brewing.done_keys
    assert len(brew.brewing.readings) == 1


def test_a_log_of_another_recipe_is_no_brew_of_the_one_that_is_open(
    qtbot, on_a_box, opened, folder
):
    window = on_a_box(opened)
    other = replace(opened.recipe, name="Slipway Porter")
    window.brew_day().brew.start(opened, window.autosave)
    settle(qtbot, window)
    dialog = from_phone(qtbot, window, pasted(other, ROWS, began=int(time.time())))
    assert dialog.own.isChecked()
    assert "another recipe" in dialog.joins.text()
    with qtbot.waitSignal(window.brew_day().brew.said, timeout=10_000):
        dialog.take_button.click()
    settle(qtbot, window)
    found = {brew.name: brew for brew, _ in logs_in_box(folder)}
    assert found["Slipway Porter"].recipe not in (0, window.autosave.recipe_id)
    with Store.open(folder) as store:
        kept = store.recipes.version(found["Slipway Porter"].version)
    assert kept.document == document_text(other)
    assert found["Harbour Lamp Porter"].recipe == window.autosave.recipe_id


def test_the_dialog_says_what_was_pasted_or_what_is_wrong_with_it(
    qtbot, on_a_box, opened, tmp_path
):
    window = on_a_box(opened)
    text = pasted(opened.recipe, ROWS)
    dialog = from_phone(qtbot, window, "hello")
    assert "no log of a phone" in dialog.told.text()
    assert not dialog.take_button.isEnabled()
    dialog.text.setPlainText(text.replace("\n", "\nA", 2))
    assert "Copy all of it once more" in dialog.told.text()
    file = tmp_path / "log.txt"
    file.write_text(text, "utf-8")
    window.questions.which_pocket_log = lambda parent, folder: file
    dialog.file_button.click()
    assert dialog.told.text().startswith("Harbour Lamp Porter, begun 2026-11-")
    assert dialog.told.text().endswith("1 step done, 1 reading.")
    assert dialog.take_button.isEnabled()
    dialog.reject()
    assert window.brew_day().brew.brew is None


def test_the_way_onto_the_phone_tells_the_command_that_offers_it_in_ones_own_network(
    qtbot, on_a_box, opened, tmp_path
):
    """The very words that are told are taken by the command line, and that is asked for nothing."""
    window = on_a_box(opened)
    window.show_page(2)
    window.sheet.offer_phone()
    dialog = dialog_of(qtbot, window, OntoPhone)
    assert COMMAND in dialog.by_network.text()
    assert "never in a public network" in dialog.by_network.text()
    name, *words = COMMAND.split()
    chosen = parser().parse_args([str(tmp_path) if each == "FILE" else each for each in words])
    assert (name, chosen.pocket, chosen.serve) == ("hobwort", True, OWN_ADDRESS)
    dialog.reject()


def test_the_brew_that_is_open_goes_onto_the_phone_and_not_what_was_typed_since(
    qtbot, on_a_box, opened, answers, tmp_path
):
    window = on_a_box(opened)
    window.brew_day().brew.start(opened, window.autosave)
    settle(qtbot, window)
    opened.show(replace(opened.recipe, name="Tried since"))
    path = tmp_path / "phone.html"
    answers.html_where = lambda parent, suggested: path
    window.brew_day().phone_button.onto.trigger()
    dialog = dialog_of(qtbot, window, OntoPhone)
    assert isinstance(dialog, QDialog)
    dialog.save.click()
    qtbot.waitUntil(path.exists, timeout=10_000)
    assert "<title>Harbour Lamp Porter</title>" in path.read_text("utf-8")
