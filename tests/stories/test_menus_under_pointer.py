"""Menus under the pointer: for lines, fields, forecasts, findings, recipes, vessels and the log."""

from PySide6.QtCore import QPoint
from PySide6.QtGui import QContextMenuEvent, QGuiApplication
from PySide6.QtWidgets import QApplication, QMenu

from designer.library.recipe_file import document_text
from designer.library.store import Store
from designer.library.store.kitchen import PotRecord
from designer.window.brew.part_names import Part
from designer.window.parts.plain_text import as_read
from designer.workbench.recipe_summary import summary_of

BY_KEY = QContextMenuEvent.Reason.Keyboard


def opened_menu(qtbot, widget, at=None):
    """Press the Menu key where a widget has the keyboard, or the right button at a place."""
    place = widget.rect().center() if at is None else at
    reason = BY_KEY if at is None else QContextMenuEvent.Reason.Mouse
    QApplication.sendEvent(widget, QContextMenuEvent(reason, place, widget.mapToGlobal(place)))
    qtbot.waitUntil(lambda: isinstance(QApplication.activePopupWidget(), QMenu))
    return QApplication.activePopupWidget()


def texts(menu):
    return [as_read(each.text()).partition("\t")[0] for each in menu.actions() if each.text()]


def take(menu, text):
    """Choose an entry of a menu and close it."""
    found = next(each for each in menu.actions() if as_read(each.text()).startswith(text))
    assert found.isEnabled(), text
    found.trigger()
    menu.close()


def test_the_menu_key_on_a_line_offers_all_that_can_be_done_to_it(qtbot, window):
    hops, panel = window.compose.hops.view, window.compose.hops
    hops.setFocus()
    hops.setCurrentIndex(panel.model.index(1, 1))
    menu = opened_menu(qtbot, hops)
    wanted = "Add a line, Open or edit, Duplicate, Move up, Move down, Cut, Copy, Paste, Delete"
    assert set(wanted.split(", ")) <= set(texts(menu))
    assert {"Details", "What is this?", "Locked", "What if…"} <= set(texts(menu))
    take(menu, "Move up")
    assert [each.name for each in window.opened.recipe.hops] == ["East Kent Golding", "Challenger"]
    menu = opened_menu(qtbot, hops)
    take(menu, "Details")
    assert panel.details.isVisible()
    menu = opened_menu(qtbot, hops.viewport(), hops.visualRect(panel.model.index(1, 1)).center())
    take(menu, "Delete")
    assert [each.name for each in window.opened.recipe.hops] == ["East Kent Golding"]


def test_a_field_goes_back_to_what_is_usual_as_one_step(qtbot, window):
    before = window.opened.recipe
    field = window.compose.process.by_place["process.evaporation"]
    field.setFocus()
    menu = opened_menu(qtbot, field)
    assert {"Copy", "Paste", "Select All", "What is this?"} <= set(texts(menu))
    take(menu, "Back to the usual")
    assert window.opened.recipe.process.evaporation is None
    assert field.text() == ""
    menu = opened_menu(qtbot, field)
    back = next(each for each in menu.actions() if "Back to the usual" in as_read(each.text()))
    assert not back.isEnabled()
    menu.close()
    window.opened.undo_stack.undo()
    assert window.opened.recipe == before


def test_choices_and_notes_offer_what_they_mean(qtbot, window):
    form = window.compose.process
    form.more_button.click()
    notes = form.by_place["notes"]
    for field in (form.by_place["process.package"], notes):
        menu = opened_menu(qtbot, field)
        assert "What is this?" in texts(menu)
        menu.close()
    assert "Copy" in texts(opened_menu(qtbot, notes))
    QApplication.activePopupWidget().close()


def test_a_forecast_and_a_finding_offer_what_a_press_of_them_does(qtbot, window):
    row = window.compose.forecast.rows[0]
    row.setFocus()
    take(opened_menu(qtbot, row), "What stands behind it")
    assert row.isChecked()
    assert window.compose.forecast.behind.isVisible()
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "11.9 L")
    cards = window.compose.watch_out.cards
    qtbot.waitUntil(lambda: any(each.isVisibleTo(window) and each.cure.text() for each in cards))
    card = next(each for each in cards if each.isVisibleTo(window) and each.cure.text())
    before, words = window.opened.recipe, card.cure.text()
    menu = opened_menu(qtbot, card.cure, QPoint(4, 4))
    take(menu, "Copy")
    assert QGuiApplication.clipboard().text() == card.accessibleName()
    take(opened_menu(qtbot, card.cure, QPoint(4, 4)), as_read(words))
    assert window.opened.recipe != before


def test_recipes_and_vessels_offer_what_the_buttons_beside_them_do(qtbot, on_a_box, opened, folder):
    with Store.open(folder) as store:
        store.recipes.add(document_text(opened.recipe), summary_of(opened.recipe))
        store.pots.insert(PotRecord(name="Kitchen pot", volume="9 L"))
    window = on_a_box(opened)
    window.show_page(window.page_names.index("Recipe box"))
    table = window.box.table
    qtbot.waitUntil(lambda: window.box.model.rowCount() > 0, timeout=10_000)
    table.setFocus()
    table.selectRow(0)
    menu = opened_menu(qtbot, table)
    assert {"Open", "Duplicate", "Throw away", "Compare", "Copy", "Export…"} <= set(texts(menu))
    off = [as_read(each.text()) for each in menu.actions() if not each.isEnabled()]
    assert "Compare" in off
    rows = window.box.model.rowCount()
    take(menu, "Duplicate")
    qtbot.waitUntil(lambda: window.box.model.rowCount() == rows + 1, timeout=10_000)
    window.show_page(window.page_names.index("Kitchen"))
    pots = window.kitchen.pots
    pots.setFocus()
    assert {"Open or edit", "Delete", "Use this pot"} <= set(texts(opened_menu(qtbot, pots)))
    QApplication.activePopupWidget().close()


def test_steps_and_entries_of_the_log_have_menus(qtbot, on_a_box, opened):
    window = on_a_box(opened)
    window.show_page(window.page_names.index("Brew day"))
    page = window.brew_page
    page.do()
    qtbot.waitUntil(lambda: page.brew.is_open and page.brew.brewing is not None, timeout=10_000)
    view = page.stove.steps.view
    first = view.model().index(0, 0)
    menu = opened_menu(qtbot, view.viewport(), view.visualRect(first).center())
    assert "All of this step" in texts(menu)
    menu.close()
    page.brew.note("Stirred")
    page.show_part(Part.LOG)
    qtbot.waitUntil(lambda: page.log.model.rowCount() > 1, timeout=10_000)
    page.log.view.setCurrentIndex(page.log.model.index(page.log.model.rowCount() - 1, 0))
    filled = QMenu()
    page.log.fill_menu(filled)
    assert texts(filled)[:3] == ["Correct…", "Another time…", "Take back"]
    take(filled, "Take back")
    qtbot.waitUntil(lambda: not page.log.model.rows[-1].line.counts or len(page.log.model.rows) > 2)
