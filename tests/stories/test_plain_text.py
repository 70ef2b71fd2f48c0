"""What a brewer typed is shown as typed, everywhere: no heading, no picture, no key of a menu."""

from dataclasses import fields, replace
from html import escape

import pytest
from PySide6 import QtGui
from PySide6.QtCore import QAbstractListModel, QModelIndex, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QComboBox,
    QGroupBox,
    QLabel,
    QMenu,
    QMessageBox,
    QTabBar,
    QTextEdit,
    QWidget,
)

from designer.library.recipe_file import document_text, save
from designer.library.store import Store
from designer.library.store.kitchen import CupboardRecord, FermenterRecord, PotRecord
from designer.recipe.document import LINE_TYPES, PART_TYPES
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import word
from designer.window.parts.questions import Questions
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.recipe_summary import summary_of

MARK = '<h1>x</h1><img src="file:///etc/hostname">&Name'
FILE = '<h1>x<img src="y">&Name.hobwort'
Role = Qt.ItemDataRole


def with_marks(part):
    """The part with every text that may be any text replaced."""
    free = [
        each.name
        for each in fields(part)
        if isinstance(getattr(part, each.name), str) and not each.metadata.get("choices")
    ]
    free = [name for name in free if name not in ("form", "kind", "stove", "start_time")]
    return replace(part, **{name: MARK for name in free if name != "text"})


def marked(recipe):
    parts = {
        name: with_marks(getattr(recipe, name)) for name in PART_TYPES if name != "methods"
    } | {name: tuple(with_marks(line) for line in getattr(recipe, name)) for name in LINE_TYPES}
    return replace(recipe, name=MARK, style=MARK, notes=MARK, **parts)


@pytest.fixture
def window(qtbot, on_a_box, porter, tmp_path, settings):
    settings.shop = MARK
    recipe = marked(porter)
    with Store.open(tmp_path / "box") as store:
        summary = summary_of(recipe)
        store.recipes.add(document_text(recipe), summary, name=MARK, tags=(MARK,))
        store.pots.insert(PotRecord(name=MARK))
        store.fermenters.insert(FermenterRecord(name=MARK))
        store.cupboard.insert(CupboardRecord(name=MARK))
    path = tmp_path / FILE
    save(recipe, path)
    made = on_a_box(OpenRecipe(recipe, path))
    settings.remember(path)
    return made


def is_drawn_rich(text):
    return bool(text) and QtGui.Qt.mightBeRichText(text) and "<h1>x" in text


def takes_keys(text):
    return "&Name" in text.replace("&&", "")


def tips(widget):
    if is_drawn_rich(widget.toolTip()):
        yield "tip", widget.toolTip()


def spoken_names(widget):
    if "&lt;" in widget.accessibleName() or "&&" in widget.accessibleName():
        yield "spoken", widget.accessibleName()


def labels(widget):
    if not isinstance(widget, QLabel):
        return
    is_plain = widget.textFormat() is Qt.TextFormat.PlainText
    if not is_plain and is_drawn_rich(widget.text()):
        yield "label", widget.text()
    if widget.buddy() is not None and takes_keys(widget.text()):
        yield "label of a field", widget.text()


def captions(widget):
    texts = []
    if isinstance(widget, QAbstractButton):
        texts = [widget.text()]
    elif isinstance(widget, QGroupBox):
        texts = [widget.title()]
    elif isinstance(widget, QTabBar):
        texts = [widget.tabText(number) for number in range(widget.count())]
    yield from (("caption", text) for text in texts if takes_keys(text))


def editors(widget):
    text = widget.toPlainText() if isinstance(widget, QTextEdit) else ""
    if "Name" in text and "<h1>" not in text:  # it was read as a heading
        yield "text", text


def cells(widget):
    """The tips of cells, headings and choices; what stands in them is drawn plain by Qt."""
    model = widget.model() if isinstance(widget, QAbstractItemView | QComboBox) else None
    if model is None:
        return
    is_list = isinstance(model, QAbstractListModel)
    across = range(1 if is_list else model.columnCount(QModelIndex()))
    found = [
        model.index(row, column, QModelIndex()).data(Role.ToolTipRole)
        for row in range(model.rowCount(QModelIndex()))
        for column in across
    ] + [model.headerData(each, Qt.Orientation.Horizontal, Role.ToolTipRole) for each in across]
    yield from (("tip of a cell", tip) for tip in found if is_drawn_rich(tip))


LOOKS = (tips, spoken_names, labels, captions, editors, cells)


def faults_of(widget):
    """What is drawn otherwise than typed on one widget."""
    return [fault for look in LOOKS for fault in look(widget)]


def all_faults(window):
    found = [
        (type(widget).__name__, *fault)
        for widget in (window, *window.findChildren(QWidget))
        for fault in faults_of(widget)
    ]
    for action in window.findChildren(QAction):
        if takes_keys(action.text()):
            found.append(("QAction", "menu", action.text()))
    for menu in window.findChildren(QMenu):  # an action's tip is seen only where a menu shows tips
        shows = menu.toolTipsVisible()
        found += [
            ("QAction", "tip", each.toolTip())
            for each in menu.actions()
            if shows and is_drawn_rich(each.toolTip())
        ]
    return found


def settle(qtbot, window, page):
    if page == 1:
        qtbot.waitUntil(lambda: window.fit.answer is not None, timeout=20_000)
    qtbot.waitUntil(lambda: not window.autosave.store.busy, timeout=10_000)
    if page == 4:
        qtbot.waitUntil(lambda: len(window.box.model.rows_read) >= 1, timeout=10_000)
        window.box.table.selectRow(0)
        settle(qtbot, window, -1)


@pytest.mark.parametrize("page", range(6))
def test_no_page_draws_what_was_typed_as_rich_text_or_takes_keys_from_it(qtbot, window, page):
    window.show_page(page)
    settle(qtbot, window, page)
    if page == 3:
        assert any(MARK in row.said for row in window.brew_page.stove.steps.model.rows)
    elif page not in (0, 2):
        qtbot.waitUntil(lambda: is_seen(window) or MARK in spoken(window), timeout=10_000)
    assert all_faults(window) == []


def is_seen(window):
    """As it is, or escaped in a text with marks of its own."""
    forms = (MARK, escape(MARK, quote=False))
    texts = [each.text() for each in window.findChildren(QLabel) if each.isVisible()]
    return any(form in text for form in forms for text in texts)


def spoken(window):
    return " ".join(each.accessibleName() for each in window.findChildren(QWidget))


def test_undo_and_its_menu_show_names_as_typed(window):
    name = window.opened.recipe.hops[0].name
    assert name == MARK
    window.compose.hops.view.setCurrentIndex(window.compose.hops.view.model().index(0, 0))
    window.opened.make(ChangeRecipe("notes", "n", word(f"change {MARK}")))
    assert all_faults(window) == []


def test_recent_files_are_named_as_they_are(window):
    window.menus.file.recent.aboutToShow.emit()
    texts = [each.text() for each in window.menus.file.recent.actions()]
    assert any("&&Name" in text for text in texts)
    assert all_faults(window) == []


def test_messages_are_plain_with_what_can_be_done(window):
    window.messages.say(MARK, actions=[("Do it", lambda: None)])
    assert window.messages.text.text() == MARK
    assert all_faults(window) == []


def test_the_question_about_unsaved_changes_shows_the_name_as_typed(qtbot, window):
    from PySide6.QtCore import QTimer

    found = []

    def look():
        box = window.findChild(QMessageBox)
        try:
            found.extend(all_faults(box))
            found.append(box.text())
        finally:
            box.reject()

    QTimer.singleShot(0, look)
    Questions().about_unsaved(window, MARK)
    assert found == [f"“{MARK}” has changes that no file holds yet."]


def test_the_day_line_tells_a_marker_as_plain_text(qtbot, window):
    from PySide6.QtCore import QPoint
    from PySide6.QtWidgets import QToolTip

    line = window.compose.day_line
    marker = next(each for each in line._markers if MARK in each.names)
    foot = int(line.scale.plot.bottom()) - 4
    qtbot.mouseMove(line, QPoint(int(line.names.x(marker)), foot))
    line.grab()
    assert MARK in line.read_out, "painted letter by letter"
    assert not QToolTip.isVisible()
