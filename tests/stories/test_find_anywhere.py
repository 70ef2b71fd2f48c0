"""Find anywhere: fields, lines, ingredients, terms, recipes, pages and actions by one card."""

import re
from dataclasses import replace
from threading import Event

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QLineEdit

from designer import translation
from designer.errors import DesignerError
from designer.library.recipe_file import document_text
from designer.library.store import Store
from designer.spoken_language import catalogue_if_any, names_in
from designer.translation import named
from designer.window.find.things import things_of
from designer.window.guide.guide_view import MARGIN
from designer.window.main_window import MainWindow
from designer.window.parts.settings import Settings
from designer.workbench.examples import example
from designer.workbench.recipe_summary import summary_of
from tests.active_window import made_active

CTRL = Qt.KeyboardModifier.ControlModifier


def ask(qtbot, window, typed):
    """Press Ctrl+K where the keyboard is, and type."""
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_K, CTRL)
    card = window.finding.card
    qtbot.keyClicks(card.search, typed)
    return card


def press(qtbot, key=Qt.Key.Key_Return):
    qtbot.keyClick(QApplication.focusWidget(), key)


def titles(card, group=""):
    return [each.title for each in card.list.found.things if group in each.group]


def test_a_field_is_found_from_within_another_and_return_puts_the_cursor_there(qtbot, window):
    window.header.name.setFocus()
    card = ask(qtbot, window, "MARK top")
    assert card.list.thing.title == "Top-up mark"
    assert "10 L" in card.told.text()
    press(qtbot)
    assert not card.isVisible()
    assert QApplication.focusWidget() is window.compose.process.by_place["process.top_up_to"]


def test_an_ingredient_tells_its_figures_first_and_is_added_as_one_step(qtbot, window):
    before = window.opened.recipe
    card = ask(qtbot, window, "nugget")
    assert card.list.thing.group == "Hops"
    assert "alpha acid" in card.told.text()
    press(qtbot)
    assert window.opened.recipe == before
    press(qtbot)
    assert window.opened.recipe.hops[-1].name == "Nugget"
    assert isinstance(QApplication.focusWidget(), QLineEdit)  # the amount is asked for
    press(qtbot, Qt.Key.Key_Escape)
    window.opened.undo_stack.undo()
    assert window.opened.recipe == before


def test_a_yeast_takes_the_place_of_the_one_there_was(qtbot, window):
    ask(qtbot, window, "wheat yeast dry")
    press(qtbot)
    press(qtbot)
    assert "wheat" in window.opened.recipe.yeast.name.lower()
    assert QApplication.focusWidget() is window.compose.process.by_place["yeast.name"]


def test_a_word_of_the_trade_is_explained_and_leads_to_the_glossary(qtbot, window):
    card = ask(qtbot, window, "krausen")
    assert card.list.thing.group == "Glossary"
    assert "foam" in card.told.text()


def test_what_menus_do_is_found_by_name_with_its_key_and_why_it_is_off(qtbot, window):
    window.compose.fermentables.add_button.setFocus()
    card = ask(qtbot, window, "cut")
    (cut,) = [each for each in card.list.found.things if each.group == "Menu Edit"]
    assert cut.key == "Ctrl+X"
    assert "choose a line" in cut.why_off
    press(qtbot)
    assert card.isVisible()
    assert "Not now" in card.told.text()
    press(qtbot, Qt.Key.Key_Escape)
    assert QApplication.focusWidget() is window.compose.fermentables.add_button
    ask(qtbot, window, "plato degrees")
    press(qtbot)
    assert window.settings.gravity == "plato"


def test_arrows_and_the_pointer_choose_and_tab_stays_on_the_card(qtbot, window):
    card = ask(qtbot, window, "malt")
    names = titles(card)
    assert len(names) > 5
    for key, at in ((Qt.Key.Key_Down, 1), (Qt.Key.Key_Down, 2), (Qt.Key.Key_Up, 1)):
        press(qtbot, key)
        assert card.list.thing.title == names[at]
    there = card.list.visualRect(card.list.found.index(3)).center()
    qtbot.mouseClick(card.list.viewport(), Qt.MouseButton.LeftButton, pos=there)
    assert card.list.thing.title == names[3]
    for _ in range(6):
        press(qtbot, Qt.Key.Key_Tab)
        assert card.isAncestorOf(QApplication.focusWidget())


def test_a_recipe_is_opened_and_a_box_that_is_late_holds_up_nothing(
    qtbot, on_a_box, opened, folder
):
    wheat = replace(example("foghorn_wheat"), name="Foghorn Wheat")
    with Store.open(folder) as store:
        store.recipes.add(document_text(wheat), summary_of(wheat))
    window = on_a_box(opened)
    store = window.autosave.store
    gate = Event()
    store.ask(lambda _store: gate.wait(30))
    card = ask(qtbot, window, "foghorn")
    qtbot.waitUntil(lambda: "has not answered" in card.told_of_box.text())
    assert titles(card, "Recipe box") == []
    qtbot.keyClick(card.search, Qt.Key.Key_Backspace)
    gate.set()
    qtbot.waitUntil(lambda: titles(card, "Recipe box") == ["Foghorn Wheat"])
    assert card.told_of_box.text() == ""
    press(qtbot)
    qtbot.waitUntil(lambda: window.opened.recipe.name == "Foghorn Wheat", timeout=10_000)


def test_a_box_that_cannot_be_read_is_told_of_below_what_else_was_found(
    qtbot, on_a_box, opened, monkeypatch
):
    window = on_a_box(opened)

    def broken(*_args, **_more):
        raise DesignerError("The disk does not answer.")

    monkeypatch.setattr("designer.library.store.search.Finder.find", broken)
    card = ask(qtbot, window, "cascade")
    qtbot.waitUntil(lambda: "The disk does not answer." in card.told_of_box.text())
    assert titles(card, "Hops") == ["Cascade"]


@pytest.mark.parametrize("typed", ["recipe box", "kitchen"])
def test_pages_are_found_and_shown(qtbot, on_a_box, opened, typed):
    window = on_a_box(opened)
    ask(qtbot, window, typed)
    press(qtbot)
    assert window.pages.currentWidget() in (window.box, window.kitchen)
    assert window.pages.currentWidget() is not window.compose


def test_an_ingredient_is_found_by_its_name_in_the_language_and_in_english(
    qtbot, settings, opened, answers
):
    translation.use(catalogue_if_any("program_de"), "de", names_in("de"))
    try:
        window = MainWindow(opened, settings, answers)
        qtbot.addWidget(window, before_close_func=lambda one: one.opened.undo_stack.setClean())
        made_active(qtbot, window)
        german = named("Crystal malt 60 °L")
        assert german != "Crystal malt 60 °L"
        for typed in (german, "Crystal malt 60 °L"):
            assert german in titles(ask(qtbot, window, typed))
            press(qtbot, Qt.Key.Key_Escape)
    finally:
        translation.use(None)


def test_pages_of_the_guide_and_what_their_headings_tell_are_found_and_opened_there(qtbot, window):
    card = ask(qtbot, window, "safety")
    assert "Safety" in titles(card, "Guide")
    press(qtbot, Qt.Key.Key_Escape)
    card = ask(qtbot, window, "below the boil")
    assert (card.list.thing.group, card.list.thing.beside) == ("Guide", "Bitterness")
    press(qtbot)
    view = window.guide.reader.view
    assert view.page.name == "bitterness"
    shown = view.cursorForPosition(QPoint(40, MARGIN + 8)).block().text()
    assert shown == "Below the boil"
    ask(qtbot, made_active(qtbot, window), "guide keys")
    press(qtbot)
    assert view.page.name == "keys"
    assert view.verticalScrollBar().value() == 0


def test_figures_are_written_as_the_language_writes_them(
    qtbot, settings, opened, answers, monkeypatch
):
    translation.use(catalogue_if_any("program_de"), "de", names_in("de"))
    monkeypatch.setattr(Settings, "decimal_comma", True)
    try:
        window = MainWindow(opened, settings, answers)
        qtbot.addWidget(window, before_close_func=lambda one: one.opened.undo_stack.setClean())
        made_active(qtbot, window)
        card = ask(qtbot, window, translation.tr("Left in the pot"))
        assert "0,3 L" in card.list.thing.beside
        press(qtbot, Qt.Key.Key_Escape)
        card = ask(qtbot, window, "Nugget")
        assert re.search(r"\d,\d %", card.told.text().partition("\n\n")[2].partition("\n\n")[0])
        fields = [each for each in things_of(window) if each.group == "Feld"]
        beside = [f"{each.title}: {each.beside}" for each in fields]
        assert len(beside) > 40
        assert not [each for each in beside if re.search(r"\d\.\d", each)]
    finally:
        translation.use(None)
