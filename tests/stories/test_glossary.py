"""Every trade term on a label explains itself: by pointer, by keyboard, to a screen reader."""

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QAccessible, QHelpEvent
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QDialog,
    QHeaderView,
    QLabel,
    QScrollArea,
    QToolTip,
    QWidget,
)

from designer.library.glossary import looked_up, terms, terms_in, written_terms
from designer.window.main_window import MainWindow
from designer.window.parts import explained
from designer.window.session.open_recipe import OpenRecipe
from tests.active_window import made_active


@pytest.fixture
def window(qtbot, porter, settings, answers):
    made = MainWindow(OpenRecipe(porter), settings, answers)
    qtbot.addWidget(made)
    made.resize(1280, 800)
    made_active(qtbot, made)
    qtbot.waitUntil(lambda: made.compose.forecast is not None)
    made.compose.complete()
    made.explaining.begin()
    yield made
    made.opened.undo_stack.setClean()


@pytest.fixture
def told(monkeypatch):
    """What is shown in tips and in answers to "what is this"."""
    said = []
    monkeypatch.setattr(explained.QToolTip, "showText", lambda _at, text, _of: said.append(text))
    monkeypatch.setattr(explained.QWhatsThis, "showText", lambda _at, text, _of: said.append(text))
    return said


def asked(widget, kind, at=None):
    """Ask a widget as Qt does when the pointer rests on it, or in the mode "what is this"."""
    at = at or widget.rect().center()
    event = QHelpEvent(kind, at, widget.mapToGlobal(at))
    QApplication.sendEvent(widget, event)


def is_answered(found, said):
    return all(each.meaning[:30].split("'")[0] in "".join(said) for each in found)


def test_every_term_on_a_label_of_every_page_explains_itself(qtbot, on_a_box, porter, told):
    """Walk all labels, buttons and headings of all pages, all fields and details opened."""
    window = on_a_box(OpenRecipe(porter), 1400)
    window.compose.complete()
    window.explaining.begin()
    window.compose.process.more_button.setChecked(True)
    for panel in (window.compose.fermentables, window.compose.hops, window.compose.extras):
        panel.view.setCurrentIndex(panel.model.index(0, 0))
        panel.more_button.setChecked(True)
    window.compose.forecast.rows[0].setChecked(True)
    seen, behind = set(), {}
    for number in range(len(window.page_names)):
        window.show_page(number)
        seen |= labels_explained(window.pages.currentWidget(), told)
    window.begin()
    for door in range(3):
        window.begin_page.open_door(door)
        if door == 0:
            qtbot.waitUntil(lambda: window.begin_page.own.found is not None, timeout=20_000)
        behind[door] = labels_explained(window.pages.currentWidget(), told)
    assert {"original gravity", "final gravity", "IBU", "EBC", "batch", "yeast"} <= behind[0]
    assert {"dry extract", "hopped kit extract", "carbonation", "hops"} <= behind[1]
    assert {"hops", "hopped kit extract"} <= behind[2]
    assert {"alpha acid", "IBU", "wort", "krausen", "top up", "evaporation", "steep"} <= seen
    assert {"cooling constant", "attenuation", "carbonation", "keg"} <= seen


def labels_explained(page, told):
    """Assert that each term on what is shown of a page explains itself; return the terms."""
    QApplication.processEvents()
    seen = set()
    for widget in page.findChildren(QLabel) + page.findChildren(QAbstractButton):
        found = terms_in(explained._plain(widget.text()))
        if not found or not widget.isVisibleTo(page):
            continue
        scroll_to(widget)
        at = widget.visibleRegion().boundingRect().center()
        told.clear()
        asked(widget, QEvent.Type.WhatsThis, at)
        assert is_answered(found, told), (widget.text(), told)
        if not widget.toolTip():
            told.clear()
            asked(widget, QEvent.Type.ToolTip, at)
            assert is_answered(found, told), (widget.text(), told)
        seen |= {each.term for each in found}
    for header in page.findChildren(QHeaderView):
        seen |= headings_explained(header)
    return seen


def scroll_to(widget):
    """Scroll a widget into view, as a brewer does who wants to point at it."""
    around = widget.parentWidget()
    while around is not None:
        if isinstance(around, QScrollArea):
            around.ensureWidgetVisible(widget)
        around = around.parentWidget()
    QApplication.processEvents()


def headings_explained(header):
    """Assert that each heading with a term explains it; return the terms."""
    seen = set()
    if header.model() is None or header.orientation() is not Qt.Orientation.Horizontal:
        return seen
    for section in range(header.count()):
        across = Qt.Orientation.Horizontal
        heading = str(header.model().headerData(section, across) or "")
        found = terms_in(heading)
        at = QPoint(header.sectionViewportPosition(section) + 2, 2)
        if not found or not header.viewport().rect().contains(at):
            continue
        own = header.model().headerData(section, across, Qt.ItemDataRole.ToolTipRole)
        if own:
            assert is_answered(found, [own]), heading
        else:
            assert explained.terms_of(header.viewport(), at) == found, heading
        seen |= {each.term for each in found}
    return seen


def test_a_forecast_says_on_rest_what_it_is_and_what_can_be_done_with_it(window, told):
    row = window.compose.forecast.rows[-2]
    asked(row, QEvent.Type.ToolTip)
    assert "largest uncertainties" in told[0]
    assert "International bitterness units" in told[0]


def test_shift_f1_explains_the_field_with_the_keyboard(qtbot, window, told):
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    qtbot.keyClick(window, Qt.Key.Key_F1, Qt.KeyboardModifier.ShiftModifier)
    assert "Top up</b>" in told[0]
    assert looked_up("top-up mark")[0].meaning[:40] in told[0]


def test_shift_f1_explains_the_column_of_a_table(qtbot, window, told):
    view = window.compose.hops.view
    view.setFocus()
    column = [each.key for each in view.model().columns].index("alpha")
    view.setCurrentIndex(view.model().index(0, column))
    qtbot.keyClick(view, Qt.Key.Key_F1, Qt.KeyboardModifier.ShiftModifier)
    assert looked_up("alpha acid")[0].meaning[:40] in told[0]


def test_a_screen_reader_is_told_what_the_terms_of_a_field_mean(window, monkeypatch):
    monkeypatch.setattr(QAccessible, "isActive", lambda: True)
    field = window.compose.process.by_place["process.top_up_to"]
    before = field.accessibleDescription()
    field.setFocus()
    assert looked_up("top-up mark")[0].meaning in field.accessibleDescription()
    assert field.accessibleDescription().startswith(before)
    field.clearFocus()
    field.setFocus()
    assert field.accessibleDescription().count(looked_up("top-up mark")[0].meaning) == 1


def test_the_glossary_is_searched_and_read_by_keyboard_alone(qtbot, window):
    action = next(each for each in window.menus.actions if each.text() == "&Glossary…")
    action.trigger()
    [card] = window.findChildren(QDialog)
    assert card.list.count() == len(terms())
    qtbot.keyClicks(card.search, "krausen line")
    assert card.list.item(0).text() == "Krausen"
    assert "foam on fermenting beer" in card.meaning.toPlainText()
    card.search.setText("hop")
    qtbot.keyClick(card.search, Qt.Key.Key_Down)
    assert card.list.currentRow() == 1
    assert card.meaning.toPlainText().startswith(card.list.item(1).text())
    card.search.setText("zeppelin")
    assert card.list.count() == 0
    assert card.count.text().startswith("No term has such words")
    assert card.meaning.toPlainText() == ""
    qtbot.keyClick(card, Qt.Key.Key_Escape)
    assert not card.isVisible()


def test_nothing_of_it_is_read_before_somebody_asks(window):
    written_terms.cache_clear()
    window.compose.hops.view.setFocus()
    window.compose.fermentables.view.setFocus()
    assert written_terms.cache_info().currsize == 0
    assert not QToolTip.isVisible()
    assert isinstance(window, QWidget)
