"""Six brews in one kitchen narrow its forecast: looked at, taken, given back, left out."""

from dataclasses import replace

import pytest
from PySide6.QtCore import QPoint, Qt

from designer.brewday.learning.figures import Figure
from designer.errors import DesignerError
from designer.library.recipe_file import document_text
from designer.library.store import Store
from designer.library.store.kitchen import PotRecord
from designer.paper.pages import lay_out
from designer.recipe.edits import ChangePart
from designer.recipe.message import say
from designer.recipe.place import read_place
from designer.recipe.quantity import Kind
from designer.units import read
from designer.window.kitchen import learned_panel
from designer.window.kitchen.learned_print import learned_sheet
from designer.window.parts.beside_field import note_of
from designer.window.session.open_recipe import OpenRecipe
from tests.active_window import made_active
from tests.pictures_taken import texts_of
from tests.taught_kitchen import FIVE_BREWS, brewed, porter

POT = "Kitchen pot"
SIX = (*FIVE_BREWS, {"start": 6.90, "end": 3.10, "moved": 2.6, "og": 1.046, "fg": 1.0135})
"""The last was at a far larger flame, or read wrong."""
EVAPORATION, LEFT = (Figure.EVAPORATION, POT), (Figure.LEFT_IN_POT, POT)


@pytest.fixture
def uids(folder):
    """Six brews lie in the box, the first with the pot that they were brewed in."""
    with Store.open(folder) as store:
        store.pots.insert(PotRecord(POT, "9 L"))
        store.pots.insert(PotRecord("Stock pot", "15 L"))
        return brewed(store, SIX)


@pytest.fixture
def window(on_a_box, uids):
    made = on_a_box(OpenRecipe(porter()))
    made.opened.want_ranges()
    return made


def settled(qtbot, window):
    panel = window.kitchen.learned
    qtbot.waitUntil(
        lambda: not (
            panel._jobs.busy or panel._forecasts.busy or window.autosave.store.busy
        ) and panel.rows.isEnabled(),
        timeout=30_000,
    )  # fmt: skip


@pytest.fixture
def panel(qtbot, window):
    """The part of the Kitchen, come to by keys alone."""
    window.show_page(window.page_names.index("Kitchen"))
    made_active(qtbot, window)
    button = window.kitchen.part_buttons[2]
    assert button.text() == "What your kitchen taught"
    button.setFocus()
    qtbot.keyClick(button, Qt.Key.Key_Return)
    panel = window.kitchen.learned
    qtbot.waitUntil(lambda: panel.taught is not None, timeout=30_000)
    settled(qtbot, window)
    return panel


def texts(panel, of=EVAPORATION):
    return [each.text() for each in panel.rows.buttons.get(of, [])]


def press(qtbot, panel, text, of=EVAPORATION):
    """Press a button of a row by its key."""
    [button] = [each for each in panel.rows.buttons[of] if each.text().startswith(text)]
    button.setFocus()
    qtbot.keyClick(button, Qt.Key.Key_Return)
    settled(qtbot, panel.window())


def undo(qtbot, window):
    [button] = [each for each in window.messages._buttons if each.text() == "Undo"]
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    settled(qtbot, window)


def said_of(folder, uid):
    """What the log of a brew says counts, as it lies on the disk."""
    with Store.open(folder) as store:
        lines = [each.entry for each in store.brews.lines(store.brews.by_uid(uid).id)]
    return {e["values"]["figure"]: e["values"]["counts"] for e in lines if e["what"] == "counts"}


def pot_text(folder, column="evaporation"):
    with Store.open(folder) as store:
        return next(getattr(each, column) for each in store.pots.all() if each.name == POT)


def test_what_is_offered_stands_in_a_line_and_in_a_narrow_window_below_each_other(
    qtbot, window, panel
):
    take, keep = panel.rows.buttons[EVAPORATION]
    assert take.y() == keep.y()
    window.resize(800, 600)
    qtbot.waitUntil(lambda: keep.y() >= take.geometry().bottom())
    seen = panel.area.viewport()
    assert keep.mapTo(seen, keep.rect().topRight()).x() < seen.width()


def test_a_figure_is_taken_narrows_the_forecast_names_its_brews_and_is_given_back(
    qtbot, panel, folder
):
    window = panel.window()
    opened = window.opened
    before = opened.newest_outlook().forecasts["original_gravity"]
    written = document_text(opened.recipe)
    take, keep = texts(panel, LEFT)
    assert (take[:7], keep) == ("Take 0.", "Keep 0.4 L")
    assert panel.chips[POT].text() == "Kitchen pot · 6 brews"
    shown = [each.text() for each in panel.before_after.findChildren(type(panel.told))]
    assert "with what it taught" in shown
    press(qtbot, panel, "Take", LEFT)
    assert pot_text(folder, "left_in_pot").startswith(take.removeprefix("Take ").split(" ")[0])
    qtbot.waitUntil(lambda: bool(opened.taken), timeout=10_000)
    after = opened.newest_outlook().forecasts["original_gravity"]
    assert after.high - after.low < before.high - before.low
    [cause] = [each for each in after.causes if each.key == "wort left in the pot"]
    assert "your kitchen taught it: " in cause.words.text
    assert document_text(opened.recipe) == written, "the recipe stays as it is typed"
    assert texts(panel, LEFT) == ["back to 0.4 L"]
    press(qtbot, panel, "back to", LEFT)
    qtbot.waitUntil(lambda: not opened.taken, timeout=10_000)
    assert opened.newest_outlook().forecasts["original_gravity"] == before
    assert (texts(panel, LEFT), pot_text(folder, "left_in_pot")) == ([take, keep], "")


def test_what_is_taken_or_kept_is_undone_from_the_message(qtbot, panel, folder):
    window = panel.window()
    offered = texts(panel)
    press(qtbot, panel, "Keep")
    assert texts(panel) == ["offer it again"]
    undo(qtbot, window)
    assert texts(panel) == offered
    number = int(panel.take_all_button.text().removeprefix("Take all "))
    qtbot.mouseClick(panel.take_all_button, Qt.MouseButton.LeftButton)
    settled(qtbot, window)
    assert len(panel.taught.taken) == number > 1
    assert not panel.take_all_button.isVisible()
    undo(qtbot, window)
    assert panel.taught.taken == ()
    assert pot_text(folder) == ""


def test_a_brew_that_is_far_off_is_left_out_with_a_question_and_may_count(
    qtbot, panel, folder, uids
):
    window = panel.window()
    odd = panel.brews_table.boxes[uids[-1]]
    assert odd.checkState() is not Qt.CheckState.Checked
    assert "far more boiled away" in odd.accessibleName().casefold()
    before = panel.taught.of(*EVAPORATION).known
    qtbot.mouseClick(odd, Qt.MouseButton.LeftButton, pos=QPoint(8, odd.rect().center().y()))
    qtbot.waitUntil(lambda: said_of(folder, uids[-1]).get("evaporation") is True, timeout=10_000)
    settled(qtbot, window)
    qtbot.waitUntil(lambda: panel.taught.of(*EVAPORATION).known.high > before.high, timeout=20_000)
    undo(qtbot, window)
    qtbot.waitUntil(lambda: said_of(folder, uids[-1])["evaporation"] is False, timeout=10_000)


def test_a_brew_is_left_out_by_its_box_and_forgetting_all_is_undone(
    qtbot, panel, folder, uids, answers
):
    window = panel.window()
    box = panel.brews_table.boxes[uids[0]]
    box.setFocus()
    qtbot.keyClick(box, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: said_of(folder, uids[0]).get("evaporation") is False, timeout=10_000)
    settled(qtbot, window)
    qtbot.waitUntil(lambda: panel.brews_table.boxes[uids[0]].text() == "no", timeout=20_000)
    answers.forget_taught = lambda parent, pot: False
    panel.forget_button.click()
    assert said_of(folder, uids[1]) == {}, "it was asked, and answered no"
    answers.forget_taught = lambda parent, pot: True
    panel.forget_button.click()
    qtbot.waitUntil(lambda: said_of(folder, uids[1]).get("evaporation") is False, timeout=10_000)
    settled(qtbot, window)
    qtbot.waitUntil(lambda: not panel.taught.of(*EVAPORATION).enough, timeout=20_000)
    undo(qtbot, window)
    qtbot.waitUntil(lambda: said_of(folder, uids[1])["evaporation"] is True, timeout=10_000)
    assert said_of(folder, uids[0])["evaporation"] is False, "it was left out before"


def test_brews_are_sorted_by_what_they_said(panel):
    def days():
        return [box.accessibleName().split(", ")[1] for box in panel.brews_table.boxes.values()]

    table = panel.brews_table
    latest_first = days()
    table.heads["started"].click()
    assert days() == latest_first[::-1]
    assert table.heads["started"].toolTip() == "Sorted upwards"
    table.heads[str(Figure.EVAPORATION)].click()
    brews = {each.uid: each.of(Figure.EVAPORATION) for each in panel.taught.brews}
    said = [brews[uid].value for uid in table.boxes if brews[uid]]
    assert said == sorted(said, reverse=True)
    assert len(said) > 3
    table.heads["started"].click()
    assert days() == latest_first


def test_what_the_recipe_has_typed_is_kept_until_the_taught_figures_are_used(qtbot, panel):
    opened = panel.window().opened
    typed = read(Kind.VOLUME, "0.1 L")
    opened.make(ChangePart("process", "left_in_pot", typed, say("t", "type")))
    settled(qtbot, panel.window())
    qtbot.waitUntil(panel.adopt_button.isVisible, timeout=20_000)
    assert panel.typed_words.text().startswith("The recipe has its own typed: Left in the pot")
    qtbot.mouseClick(panel.adopt_button, Qt.MouseButton.LeftButton)
    assert opened.recipe.process.left_in_pot.value > 0.15
    qtbot.waitUntil(lambda: not panel.adopt_button.isVisible(), timeout=20_000)
    opened.undo_stack.undo()
    assert opened.recipe.process.left_in_pot == typed


def test_a_field_shows_what_was_taken_where_it_is_empty_and_offers_it_where_it_is_not(qtbot, panel):
    window = panel.window()
    opened = window.opened
    press(qtbot, panel, "Take", LEFT)
    qtbot.waitUntil(lambda: bool(opened.taken), timeout=10_000)
    taught = opened.taken[0].value
    window.show_page(0)
    window.compose.process.go_to(read_place("process.left_in_pot"))
    field = window.compose.process.by_place["process.left_in_pot"]
    assert (field.text(), field.placeholderText()) == ("", taught)
    assert field.accessibleDescription().startswith(f"Left empty: {taught}, as your kitchen")
    assert note_of(field) is None
    qtbot.keyClicks(field, "0.1 L")
    window.compose.process.by_place["process.evaporation"].setFocus()
    field.setFocus()
    note = note_of(field)
    assert note.isVisible()
    assert note.text.text() == f"Your kitchen taught {taught}."
    [use] = note.buttons
    use.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.keyClick(use, Qt.Key.Key_Return)
    assert opened.recipe.process.left_in_pot.text == taught
    assert field.text() == taught
    assert not note.isVisible()
    opened.undo_stack.undo()
    assert field.text() == "0.1 L"
    window.show_page(window.page_names.index("Kitchen"))
    press(qtbot, panel, "back to", LEFT)
    qtbot.waitUntil(lambda: not opened.taken, timeout=10_000)
    opened.undo_stack.undo()
    assert (field.text(), field.placeholderText()) == ("", "0.3 L")
    assert "kitchen taught" not in field.accessibleDescription()


def test_the_pictures_say_in_words_what_they_show(panel):
    from designer.window.kitchen.before_after import TwoRanges
    from designer.window.kitchen.narrowing import Narrowing

    [told, *_] = [each.accessibleName() for each in panel.rows.findChildren(Narrowing)]
    told = told.replace("\N{NO-BREAK SPACE}", " ")
    assert told.startswith("1.27 to 2.55 L/h at the start; after 6 brews 1.")
    assert told.endswith("is left out.")
    assert "Brew 6, which said" in told
    one = panel.rows.findChildren(Narrowing)[0]
    assert {"How it narrowed, brew by brew", "start", "6"} <= set(texts_of(one, panel.rows))
    bars = [each.accessibleName() for each in panel.before_after.findChildren(TwoRanges)]
    assert [each.partition(":")[0] for each in bars] == [
        "Original gravity", "Final gravity", "Alcohol by volume", "Bitterness"
    ]  # fmt: skip
    assert all("before" in each and "now" in each for each in bars)


def test_it_prints_on_one_page(panel, display):
    sheet = learned_sheet(POT, panel.taught, panel.figures_of_pot(), panel.told.text(), display)
    assert len(lay_out(sheet, "a4").rows) == 1
    rows = sheet.sections[0].blocks[0].rows
    assert rows[0][0].startswith("Evaporation, ")
    assert (rows[0][1], rows[0][4]) == ("1.8 L/h", "no")


def test_without_a_brew_it_says_what_starts_it_and_a_box_that_refuses_is_told(
    qtbot, on_a_box, monkeypatch
):
    window = on_a_box(OpenRecipe(porter()))
    window.show_page(window.page_names.index("Kitchen"))
    window.kitchen.show_learned()
    panel = window.kitchen.learned
    assert panel.empty.text() == "Asking the Recipe box …"
    qtbot.waitUntil(lambda: panel.taught is not None, timeout=30_000)
    assert panel.empty.text().startswith("Your first brew day starts this")
    assert not panel.area.isVisible()

    def refuse(_store):
        raise DesignerError("The disk is gone.")

    monkeypatch.setattr(learned_panel, "taught_of", refuse)
    panel.load()
    qtbot.waitUntil(lambda: "The disk is gone." in panel.told.text(), timeout=10_000)
    assert "The disk is gone." in window.messages.text.text()


def test_one_reading_is_too_few_and_says_how_many_more(qtbot, on_a_box, folder):
    with Store.open(folder) as store:
        brewed(store, FIVE_BREWS[:1])
    window = on_a_box(OpenRecipe(replace(porter(), name="Slipway")))
    window.show_page(window.page_names.index("Kitchen"))
    window.kitchen.show_learned()
    panel = window.kitchen.learned
    qtbot.waitUntil(lambda: panel.taught is not None, timeout=30_000)
    assert panel.rows.buttons.get(EVAPORATION) is None
    shown = [each.text() for each in panel.rows.findChildren(type(panel.told))]
    assert "1 reading: 2 more first" in shown
    assert "not yet" in shown
