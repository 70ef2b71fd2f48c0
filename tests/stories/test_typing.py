"""What is typed lands in the cell it is typed into: each sign, at any speed, in every table.

Real time passes between press and key here: the fault that these tests look for hid where they
answered at once.
"""

import random

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QCursor, QInputMethodEvent, QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFrame, QLineEdit, QScrollArea

from designer.library.store.kitchen import CupboardRecord, PotRecord
from designer.recipe.edits import ChangePart
from designer.recipe.message import word
from designer.recipe.quantity import Kind
from designer.units import read
from designer.window.parts.beside_field import note_of
from designer.window.parts.icons import Choice

_Key = Qt.Key


def press(view, row, key):
    """Press on a cell with the left button, as a hand does."""
    index = view.model().index(row, view.model().column_of(key))
    view.scrollTo(index)
    place = view.visualRect(index).center()
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=place)


def type_at(text, gap_ms):
    """Type to whatever has the keyboard, with a pause before each sign."""
    for sign in text:
        QTest.keyClick(QApplication.focusWidget(), sign)
        QTest.qWait(gap_ms)


def texts(view):
    model = view.model()
    return [
        [model.index(row, column).data() for column in range(model.columnCount())]
        for row in range(model.rowCount())
    ]


@pytest.mark.parametrize(
    ("wait_ms", "gap_ms", "seed"),
    [(50, 40, 1), (120, 90, 2), (250, 140, 3), (380, 90, 4), (500, 40, 5)],
)
def test_what_is_typed_after_a_press_on_a_chosen_cell_is_taken_whole(
    qtbot, window, wait_ms, gap_ms, seed
):
    draw = random.Random(seed)
    view = window.compose.fermentables.view
    for _ in range(2):
        row = draw.randrange(3)
        grams = draw.randrange(101, 999)
        press(view, row, "amount")
        QTest.qWait(300)
        press(view, row, "amount")  # it is chosen already
        QTest.qWait(wait_ms)
        before = texts(view)
        type_at(f"{grams}.5 g", gap_ms)
        qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Return)
        after = texts(view)
        assert after[row][0] == f"{grams}.5 g"
        after[row] = before[row]
        after_others = [cells[:-1] for cells in after]
        assert after_others == [cells[:-1] for cells in before]


def test_two_presses_open_a_cell_with_its_text_chosen(qtbot, window):
    view = window.compose.hops.view
    press(view, 0, "amount")
    place = view.visualRect(view.currentIndex()).center()
    QTest.mouseDClick(view.viewport(), Qt.MouseButton.LeftButton, pos=place)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    assert editor.selectedText() == editor.text() == "18 g"
    type_at("21 g", 40)
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    assert window.opened.recipe.hops[0].amount.text == "21 g"


def test_a_press_on_a_chosen_cell_opens_nothing_later(qtbot, window):
    view = window.compose.hops.view
    for _ in range(2):
        press(view, 0, "alpha")
        QTest.qWait(300)
    QTest.qWait(500)
    assert not view.is_editing


@pytest.mark.parametrize("key", [_Key.Key_Return, _Key.Key_F2, _Key.Key_Space])
def test_return_f2_and_the_space_bar_open_a_cell_without_changing_it(qtbot, window, porter, key):
    view = window.compose.hops.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("amount")))
    qtbot.keyClick(view, key)
    editor = QApplication.focusWidget()
    assert editor.selectedText() == "18 g"
    qtbot.keyClick(editor, _Key.Key_Return)
    assert window.opened.recipe == porter


def test_a_key_right_after_return_is_for_the_table_and_not_for_the_old_cell(qtbot, window):
    view = window.compose.hops.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("amount")))
    for sign in "25 g":
        QTest.keyClick(QApplication.focusWidget(), sign)
    QTest.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    QTest.keyClick(QApplication.focusWidget(), _Key.Key_Down)
    for sign in "31 g":
        QTest.keyClick(QApplication.focusWidget(), sign)
    QTest.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    assert [hop.amount.text for hop in window.opened.recipe.hops] == ["25 g", "31 g"]


def test_a_cell_that_is_reckoned_takes_no_sign_and_says_so(qtbot, window, porter):
    view = window.compose.hops.view
    view.setFocus()
    index = view.model().index(0, view.model().column_of("gives"))
    view.setCurrentIndex(index)
    type_at("EC", 40)
    assert view.currentIndex() == index
    assert not view.is_editing
    assert window.opened.recipe == porter
    assert "cannot be typed" in note_of(view).text.text()


def test_a_locked_line_says_what_to_do(qtbot, window):
    view = window.compose.hops.view
    view.model().set_locked(0, True)
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("amount")))
    qtbot.keyClick(view, "9")
    assert "unlock" in note_of(view).text.text()


@pytest.mark.parametrize("sign", ["½", "°", "±"])
def test_signs_of_an_input_method_open_the_cell_too(qtbot, window, sign):
    view = window.compose.fermentables.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("amount")))
    assert view.testAttribute(Qt.WidgetAttribute.WA_InputMethodEnabled)
    composed = QInputMethodEvent("~", [])
    QApplication.sendEvent(view, composed)
    committed = QInputMethodEvent()
    committed.setCommitString(sign)
    QApplication.sendEvent(view, committed)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    assert editor.text() == sign
    type_at(" kg", 40)
    assert editor.text() == f"{sign} kg"


def test_the_third_level_of_a_keyboard_is_typing_and_a_command_is_not(qtbot, window):
    view = window.compose.fermentables.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("amount")))
    third = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier
    qtbot.keyClick(view, "x", Qt.KeyboardModifier.AltModifier)
    assert not view.is_editing
    pressed = QKeyEvent(QEvent.Type.KeyPress, _Key.Key_onehalf, third, "½")
    QApplication.sendEvent(view, pressed)
    assert QApplication.focusWidget().text() == "½"


def test_a_choice_is_searched_by_typing_and_taken_by_return(qtbot, window):
    view = window.compose.fermentables.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("kind")))
    before = window.opened.recipe.fermentables[0].kind
    qtbot.keyClick(view, "s")
    box = view.viewport().findChild(Choice)
    qtbot.waitUntil(lambda: box.view().isVisible())
    assert window.opened.recipe.fermentables[0].kind == before
    qtbot.keyClicks(box.view(), "ugar"[:1])
    qtbot.keyClick(box.view(), _Key.Key_Return)
    qtbot.waitUntil(lambda: not view.is_editing)
    assert window.opened.recipe.fermentables[0].kind == "sugar"
    assert window.opened.undo_stack.count() == 1


def test_a_choice_that_is_left_with_escape_stays_as_it_was(qtbot, window, porter):
    view = window.compose.fermentables.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("kind")))
    qtbot.keyClick(view, _Key.Key_Return)
    box = view.viewport().findChild(Choice)
    qtbot.waitUntil(lambda: box.view().isVisible())
    qtbot.keyClick(box.view(), _Key.Key_Down)
    qtbot.keyClick(box.view(), _Key.Key_Escape)
    qtbot.waitUntil(lambda: not view.is_editing)
    assert window.opened.recipe == porter
    assert window.focusWidget() is view


def test_tab_goes_on_to_the_next_cell_that_can_be_typed_in(qtbot, window):
    view = window.compose.hops.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("alpha")))
    type_at("8 %", 40)
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Tab)
    assert view.currentIndex() == view.model().index(1, view.model().column_of("amount"))
    type_at("22 g", 40)
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Backtab)
    hops = window.opened.recipe.hops
    assert (hops[0].alpha.text, hops[1].amount.text) == ("8 %", "22 g")
    assert view.currentIndex() == view.model().index(0, view.model().column_of("alpha"))


def test_anywhere_in_the_last_row_a_new_line_is_typed(qtbot, window):
    view = window.compose.hops.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(2, view.model().column_of("amount")))
    type_at("15 g Quay hop", 40)
    QApplication.focusWidget().completer().popup().hide()
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    hop = window.opened.recipe.hops[2]
    assert (hop.name, hop.amount.text) == ("Quay hop", "15 g")


# the tables of the kitchen


@pytest.fixture
def kitchen(qtbot, on_a_box, opened):
    window = on_a_box(opened)
    window.show_page(window.page_names.index("Kitchen"))
    qtbot.waitUntil(lambda: not window.autosave.store.busy, timeout=10_000)
    return window.kitchen


def test_a_pot_is_typed_in_faster_than_the_store_answers(qtbot, kitchen):
    view, store = kitchen.pots, kitchen.window().autosave.store
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, 0))
    for text in ("Jam kettle", "9 L", "26 cm"):
        for sign in text:
            QTest.keyClick(QApplication.focusWidget(), sign)
        QTest.keyClick(QApplication.focusWidget(), _Key.Key_Tab)
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Escape)
    qtbot.waitUntil(lambda: not store.busy, timeout=10_000)
    kept = []
    store.ask(lambda opened: tuple(opened.pots.all()), kept.append)
    qtbot.waitUntil(lambda: bool(kept), timeout=10_000)
    (pot,) = kept[0]
    assert (pot.name, pot.volume, pot.diameter) == ("Jam kettle", "9 L", "26 cm")
    assert view.model().rows == kept[0]


def test_an_answer_of_the_store_does_not_close_what_is_being_typed(qtbot, kitchen):
    view, store = kitchen.pots, kitchen.window().autosave.store
    kept = []
    store.ask(lambda opened: opened.pots.insert(PotRecord("Stock pot", volume="12 L")), kept.append)
    qtbot.waitUntil(lambda: bool(kept), timeout=10_000)
    view.model().load()
    qtbot.waitUntil(lambda: len(view.model().rows) == 1, timeout=10_000)
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("volume")))
    type_at("1", 40)
    editor = QApplication.focusWidget()
    store.ask(lambda opened: opened.pots.insert(PotRecord("Jam kettle", volume="9 L")), kept.append)
    qtbot.waitUntil(lambda: len(kept) == 2, timeout=10_000)
    view.model().load()
    qtbot.waitUntil(lambda: len(view.model().rows) == 2, timeout=10_000)
    assert QApplication.focusWidget() is editor
    assert editor.text() == "1"
    type_at("1 L", 40)
    qtbot.keyClick(editor, _Key.Key_Return)
    volumes = {each.name: each.volume for each in view.model().rows}
    assert volumes == {"Stock pot": "11 L", "Jam kettle": "9 L"}


def test_a_cell_of_the_cupboard_keeps_what_it_does_not_take(qtbot, kitchen):
    view, store = kitchen.cupboard, kitchen.window().autosave.store
    kept = []
    store.ask(lambda box: box.cupboard.insert(CupboardRecord("Fuggle", amount="50 g")), kept.append)
    qtbot.waitUntil(lambda: bool(kept), timeout=10_000)
    view.model().load()
    qtbot.waitUntil(lambda: len(view.model().rows) == 1, timeout=10_000)
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("best_before")))
    type_at("next year", 10)
    kitchen.pots.setFocus()
    index = view.model().index(0, view.model().column_of("best_before"))
    assert index.data() == "next year"
    assert "2026-03-28" in index.data(Qt.ItemDataRole.ToolTipRole)
    assert view.model().rows[0].best_before is None
    view.setFocus()
    view.setCurrentIndex(index)
    qtbot.keyClick(view, _Key.Key_Escape)
    assert index.data() == ""


# refusals, redo


def test_a_refused_text_leaves_nothing_to_redo(qtbot, window, porter):
    view = window.compose.hops.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("amount")))
    type_at("4.8 %", 40)
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    assert not window.opened.undo_stack.canRedo()
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Escape)
    assert window.opened.recipe == porter
    assert not window.opened.undo_stack.canRedo()
    assert not window.opened.undo_stack.canUndo()


def test_an_escaped_text_leaves_an_earlier_redo_as_it_was(qtbot, window, porter):
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    type_at("9 L", 10)
    window.compose.hops.view.setFocus()
    window.opened.undo_stack.undo()
    view = window.compose.hops.view
    view.setCurrentIndex(view.model().index(0, view.model().column_of("amount")))
    type_at("44 g", 40)
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Escape)
    assert window.opened.recipe == porter
    window.opened.undo_stack.redo()
    assert window.opened.recipe.process.top_up_to.text == "9 L"
    assert window.opened.recipe.hops == porter.hops


def test_a_refused_text_stays_in_its_cell_when_that_is_left(qtbot, window, porter):
    view = window.compose.hops.view
    view.setFocus()
    index = view.model().index(0, view.model().column_of("amount"))
    view.setCurrentIndex(index)
    type_at("4.8 %", 40)
    press(view, 1, "alpha")
    assert index.data() == "4.8 %"
    assert "Escape brings 18 g back" in note_of(view).text.text()
    assert window.opened.recipe == porter
    assert window.header.untaken.toolTip() == "“4.8 %” (Amount of “Challenger”)"
    press(view, 0, "amount")
    qtbot.keyClick(view, _Key.Key_F2)
    editor = QApplication.focusWidget()
    assert editor.text() == "4.8 %"
    editor.setText("4.8 ")
    qtbot.keyClick(editor, "g")
    qtbot.keyClick(editor, _Key.Key_Return)
    assert window.opened.recipe.hops[0].amount.text == "4.8 g"
    assert not window.header.untaken.isVisible()
    assert index.data() == "4.8 g"


def test_undo_first_takes_back_what_stands_in_a_field_and_is_not_taken(qtbot, window):
    name = window.header.name
    name.setFocus()
    type_at("!", 10)
    renamed = window.opened.recipe
    field = window.compose.process.by_place["process.boil_time"]
    field.setFocus()
    field.selectAll()
    type_at("60 litres", 10)
    qtbot.keyClick(field, _Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert field.text() == "60 min"
    assert window.opened.recipe == renamed


def test_saving_and_opening_say_what_was_typed_and_not_taken(
    qtbot, window, answers, tmp_path, porter
):
    field = window.compose.process.by_place["process.boil_time"]
    field.setFocus()
    field.selectAll()
    type_at("60 litres", 10)
    window.compose.hops.view.setFocus()
    answers.file = tmp_path / "porter.hobwort"
    window.files.save()
    qtbot.waitUntil(lambda: window.messages.text.text().startswith("Saved to"))
    window.messages.put_away()
    assert "“60 litres” (Boil for)" in window.messages.text.text()
    window.files.open_example()
    qtbot.waitUntil(lambda: field.text() == "60 min")
    assert "“60 litres” (Boil for)" in window.messages.text.text()
    assert not window.header.untaken.isVisible()


# headings and removing


def test_a_press_on_a_heading_chooses_nothing(qtbot, window, porter):
    view = window.compose.hops.view
    press(view, 0, "alpha")
    header = view.horizontalHeader()
    place = QPoint(header.sectionViewportPosition(0) + 10, header.height() // 2)
    QTest.mouseClick(header.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert view.selected_rows() == [0]
    view.setFocus()
    qtbot.keyClick(view, _Key.Key_Delete)
    assert window.opened.recipe.hops == porter.hops[1:]


def test_many_lines_removed_are_told_with_the_way_back(qtbot, window, porter):
    view = window.compose.fermentables.view
    view.setFocus()
    view.selectAll()
    qtbot.keyClick(view, _Key.Key_Delete)
    assert window.opened.recipe.fermentables == ()
    assert window.messages.text.text() == f"{len(porter.fermentables)} fermentables removed."
    qtbot.mouseClick(window.messages._buttons[0], Qt.MouseButton.LeftButton)
    assert window.opened.recipe == porter
    assert not window.messages.isVisible()
    assert not window.opened.unsaved


# what changes is seen


@pytest.fixture
def low(qtbot, window):
    """A window so low that the editors are longer than what is seen of them."""
    window.resize(1024, 560)
    qtbot.waitUntil(lambda: window.height() == 560)
    return window


def is_seen(widget, rect=None):
    """Whether a widget, or a part of it, is in the visible part of the page."""
    part = rect if rect is not None else widget.rect()
    return widget.visibleRegion().boundingRect().contains(part)


def test_all_fields_of_a_narrow_window_are_seen_to_their_right_edge(qtbot, low):
    """A choice shows what of its words has room, and all of them in its tip and its list."""
    process = low.compose.process
    qtbot.mouseClick(process.more_button, Qt.MouseButton.LeftButton)
    page = scroll_area_of(process)
    qtbot.waitUntil(lambda: process.by_place["process.bottle"].isVisible())
    qtbot.waitUntil(lambda: page.widget().width() <= page.viewport().width())
    for place, field in process.by_place.items():
        right = field.mapTo(page.viewport(), field.rect().topRight()).x()
        assert right < page.viewport().width(), place
    salt = process.by_place["process.metabisulfite"]
    assert salt.toolTip() == "potassium metabisulfite"
    assert salt.view().minimumWidth() > salt.fontMetrics().horizontalAdvance(salt.toolTip())


def scroll_to_the_end(view):
    area = scroll_area_of(view)
    area.verticalScrollBar().setValue(area.verticalScrollBar().maximum())


def scroll_area_of(view):
    area = view
    while not isinstance(area, QScrollArea):
        area = area.parentWidget()
    return area


def cell_is_seen(view, row, key):
    return is_seen(
        view.viewport(), view.visualRect(view.model().index(row, view.model().column_of(key)))
    )


def test_typing_brings_the_cell_into_view(qtbot, low):
    view = low.compose.fermentables.view
    press(view, 0, "amount")
    scroll_to_the_end(view)
    assert not cell_is_seen(view, 0, "amount")
    type_at("1", 10)
    assert cell_is_seen(view, 0, "amount")
    scroll_to_the_end(view)
    type_at(".", 10)
    assert cell_is_seen(view, 0, "amount")


def test_typing_brings_the_field_into_view(qtbot, low):
    field = low.compose.process.by_place["process.ferment_time"]
    field.setFocus()
    scroll_area_of(low.compose.extras.view).verticalScrollBar().setValue(0)
    assert not is_seen(field)
    type_at("1", 10)
    assert is_seen(field)


def test_a_new_line_and_the_place_for_the_next_are_seen(qtbot, low):
    view = low.compose.extras.view
    low.compose.add_line("extras")
    type_at("1 tsp Irish moss", 5)
    QApplication.focusWidget().completer().popup().hide()
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    qtbot.waitUntil(lambda: cell_is_seen(view, 1, "amount"))


@pytest.mark.parametrize("step", ["undo", "redo"])
def test_undo_and_redo_show_what_they_change(qtbot, low, step):
    view = low.compose.fermentables.view
    press(view, 0, "amount")
    type_at("1.2 kg", 10)
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    if step == "redo":
        low.opened.undo_stack.undo()
    scroll_to_the_end(view)
    assert not cell_is_seen(view, 0, "amount")
    qtbot.mouseClick(getattr(low.header, step), Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: cell_is_seen(view, 0, "amount"))
    (frame,) = view.viewport().findChildren(QFrame, "changed")
    assert frame.geometry() == view.visualRect(view.model().index(0, 0))


def test_undo_opens_the_fields_that_are_seldom_seen(qtbot, low):
    form = low.compose.process
    form.more_button.setChecked(True)
    field = form.by_place["process.altitude"]
    field.setFocus()
    type_at("300 m", 10)
    low.compose.fermentables.view.setFocus()
    form.more_button.setChecked(False)
    low.opened.undo_stack.undo()
    qtbot.waitUntil(lambda: is_seen(field))


def test_a_line_that_comes_back_is_seen(qtbot, low, porter):
    view = low.compose.fermentables.view
    press(view, 0, "amount")
    qtbot.keyClick(view, _Key.Key_Delete)
    scroll_to_the_end(view)
    qtbot.mouseClick(low.messages._buttons[0], Qt.MouseButton.LeftButton)
    assert low.opened.recipe == porter
    qtbot.waitUntil(lambda: cell_is_seen(view, 0, "amount"))
    (frame,) = view.viewport().findChildren(QFrame, "changed")
    assert frame.geometry().contains(view.visualRect(view.model().index(0, 0)))
    assert frame.geometry().contains(view.visualRect(view.model().index(0, 5)))


def test_a_cure_shows_what_it_changes(qtbot, low):
    too_much = read(Kind.VOLUME, "7 L")
    low.opened.make(ChangePart("process", "start_water", too_much, word("change the water")))
    qtbot.waitUntil(lambda: len(low.compose.watch_out.cards) > 0)
    low.compose.extras.view.setFocus()
    scroll_area_of(low.compose.extras.view).verticalScrollBar().setValue(0)
    field = low.compose.process.by_place["process.start_water"]
    low.resize(1024, 540)
    assert not is_seen(field)
    low.compose.watch_out.cards[0].cure.click()
    qtbot.waitUntil(lambda: is_seen(field))
    assert low.opened.recipe.process.start_water.text == "6.4 L"


def test_a_note_is_scrolled_away_with_its_field_and_back(qtbot, low):
    field = low.compose.process.by_place["process.start_water"]
    field.setFocus()
    bar = scroll_area_of(low.compose.extras.view).verticalScrollBar()
    bar.setValue(bar.maximum() // 2)
    field.selectAll()
    type_at("six", 10)
    qtbot.keyClick(field, _Key.Key_Return)
    note = note_of(low)
    assert note.isVisible()
    bar.setValue(0)
    assert not is_seen(field)
    assert not note.isVisible()
    bar.setValue(bar.maximum() // 2)
    assert note.isVisible()


def test_a_line_that_is_dragged_to_the_edge_takes_the_page_along(qtbot, low):
    view = low.compose.extras.view
    bar = scroll_area_of(view).verticalScrollBar()
    bar.setValue(0)
    table = low.compose.hops.view
    row = table.visualRect(table.model().index(0, 1))
    low.resize(1024, low.height() - 60)
    seen = table.viewport().visibleRegion().boundingRect()
    place = QPoint(row.center().x(), seen.bottom() - 2)
    QCursor.setPos(table.viewport().mapToGlobal(place))
    table._scroll_with_drag()
    assert bar.value() > 0


def test_a_press_moves_nothing(qtbot, low):
    view = low.compose.fermentables.view
    area = scroll_area_of(view)
    area.verticalScrollBar().setValue(17)
    press_at = area.verticalScrollBar().value()
    index = view.model().index(2, 0)
    QTest.mouseClick(
        view.viewport(), Qt.MouseButton.LeftButton, pos=view.visualRect(index).center()
    )
    assert area.verticalScrollBar().value() == press_at


def test_undo_on_another_page_says_what_it_did(qtbot, low):
    low.header.name.setFocus()
    type_at("!", 10)
    low.show_page(1)
    qtbot.mouseClick(low.header.undo, Qt.MouseButton.LeftButton)
    assert low.messages.text.text() == "Undone: rename the recipe."


def test_a_style_picked_in_the_header_is_taken_and_nothing_half_typed(qtbot, window):
    field = window.header.style_field
    field.setFocus()
    field.selectAll()
    type_at("english b", 10)
    popup = field.completer().popup()
    qtbot.waitUntil(popup.isVisible)
    qtbot.keyClick(popup, _Key.Key_Down)
    picked = popup.currentIndex().data(Qt.ItemDataRole.EditRole)
    qtbot.keyClick(popup, _Key.Key_Return)
    assert window.opened.recipe.style == picked
    assert window.opened.undo_stack.count() == 1


def test_what_is_offered_in_a_cell_is_picked_first_and_taken_by_a_second_return(qtbot, window):
    view = window.compose.hops.view
    window.compose.add_line("hops")
    type_at("15 g fugg", 10)
    popup = QApplication.focusWidget().completer().popup()
    qtbot.waitUntil(popup.isVisible)
    qtbot.keyClick(popup, _Key.Key_Down)
    qtbot.keyClick(popup, _Key.Key_Return)
    assert len(window.opened.recipe.hops) == 2
    editor = view.focusWidget()
    assert editor.text() == "15 g Fuggle"
    qtbot.keyClick(editor, _Key.Key_Return)
    assert window.opened.recipe.hops[2].name == "Fuggle"


@pytest.mark.parametrize("typed", ["15 g Fuggle", "15 g fuggle"])
def test_a_name_typed_out_is_taken_by_one_return_though_the_list_has_it(qtbot, window, typed):
    window.compose.add_line("hops")
    type_at(typed, 10)
    popup = QApplication.focusWidget().completer().popup()
    qtbot.waitUntil(popup.isVisible)
    popup.setCurrentIndex(popup.model().index(0, 0))
    qtbot.keyClick(popup, _Key.Key_Return)
    assert [each.name for each in window.opened.recipe.hops[2:]] == ["Fuggle"]


def test_return_without_a_choice_in_the_list_takes_what_is_typed(qtbot, window):
    window.compose.add_line("hops")
    type_at("15 g fuggle", 10)
    popup = QApplication.focusWidget().completer().popup()
    qtbot.waitUntil(popup.isVisible)
    qtbot.keyClick(popup, _Key.Key_Return)
    assert window.opened.recipe.hops[2].name == "Fuggle"
    assert not popup.isVisible()


def test_a_record_taken_out_comes_back_under_its_old_number(qtbot, kitchen):
    view, store = kitchen.pots, kitchen.window().autosave.store
    kept = []
    store.ask(lambda opened: opened.pots.insert(PotRecord("Stock pot", volume="12 L")), kept.append)
    qtbot.waitUntil(lambda: bool(kept), timeout=10_000)
    view.model().load()
    qtbot.waitUntil(lambda: len(view.model().rows) == 1, timeout=10_000)
    before = view.model().rows
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, 0))
    qtbot.keyClick(view, _Key.Key_Delete)
    assert view.model().rows == ()
    messages = kitchen.window().messages
    assert messages.text.text() == "Stock pot taken out."
    qtbot.mouseClick(messages._buttons[0], Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not store.busy, timeout=10_000)
    store.ask(lambda opened: tuple(opened.pots.all()), kept.append)
    qtbot.waitUntil(lambda: len(kept) == 2, timeout=10_000)
    assert kept[1] == before == view.model().rows


def test_tab_in_a_list_of_words_takes_the_word_and_goes_on(qtbot, window):
    view = window.compose.hops.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, view.model().column_of("form")))
    qtbot.keyClick(view, "w")
    box = view.viewport().findChild(Choice)
    qtbot.waitUntil(lambda: box.view().isVisible())
    qtbot.keyClick(box.view(), _Key.Key_Tab)
    assert window.opened.recipe.hops[0].form == "whole"
    assert view.currentIndex() == view.model().index(0, view.model().column_of("when"))
    assert view.is_editing


# the small tables


@pytest.fixture
def hops_in_hand(qtbot, window):
    window.show_page(1)
    window.fit.hands_button.setChecked(True)
    hands = window.fit.hands
    for name, amount in (("Magnum", "30 g"), ("Northdown", "40 g")):
        hands.fields["name"].setText(name)
        hands.fields["alpha"].setText("9 %")
        hands.fields["amount"].setText(amount)
        hands.add()
    return hands


@pytest.mark.parametrize(("wait_ms", "gap_ms"), [(60, 40), (200, 90), (380, 60)])
def test_hops_in_hand_take_each_sign_in_the_cell_that_was_pressed(
    qtbot, hops_in_hand, wait_ms, gap_ms
):
    view = hops_in_hand.view
    for row, text in ((1, "13.5 g"), (0, "112 g")):
        press(view, row, "amount")
        QTest.qWait(300)
        press(view, row, "amount")
        QTest.qWait(wait_ms)
        type_at(text, gap_ms)
        qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    assert [row.amount.text for row in hops_in_hand.table.rows] == ["112 g", "13.5 g"]
    assert [row.name for row in hops_in_hand.table.rows] == ["Magnum", "Northdown"]


def test_hops_in_hand_keep_what_they_do_not_take_and_escape_brings_the_old_back(
    qtbot, hops_in_hand
):
    view = hops_in_hand.view
    view.setFocus()
    view.setCurrentIndex(hops_in_hand.table.index(0, 1))
    type_at("a lot", 10)
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    assert QApplication.focusWidget().text() == "a lot"
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Tab)
    index = hops_in_hand.table.index(0, 1)
    assert index.data() == "a lot"
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Escape)
    view.setCurrentIndex(index)
    qtbot.keyClick(view, _Key.Key_Escape)
    assert index.data() == "9 %"
    assert len(hops_in_hand.hops()) == 2


def test_a_heading_of_the_small_tables_chooses_nothing(qtbot, hops_in_hand):
    view = hops_in_hand.view
    press(view, 1, "amount")
    header = view.horizontalHeader()
    place = QPoint(header.sectionViewportPosition(0) + 10, header.height() // 2)
    QTest.mouseClick(header.viewport(), Qt.MouseButton.LeftButton, pos=place)
    view.setFocus()
    qtbot.keyClick(view, _Key.Key_Delete)
    assert [row.name for row in hops_in_hand.table.rows] == ["Magnum"]


def test_a_pack_that_moves_to_its_place_in_the_list_keeps_the_keyboard(qtbot, kitchen):
    kitchen.show_packs()
    panel, store = kitchen.packs, kitchen.window().autosave.store
    qtbot.waitUntil(lambda: not store.busy, timeout=10_000)
    rows = [n for n, each in enumerate(panel.table.rows) if each.kind == "hops"]
    first = rows[0]
    panel.view.setFocus()
    panel.view.setCurrentIndex(panel.table.index(first, 1))
    type_at("777 g", 10)
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    here = panel.view.currentIndex()
    assert here.data() == "777 g"
    assert here.row() == rows[-1] > first
    type_at("778 g", 10)
    qtbot.keyClick(QApplication.focusWidget(), _Key.Key_Return)
    hops = [each.amount.text for each in panel.table.rows if each.kind == "hops"]
    assert "777 g" not in hops
    assert hops[-1] == "778 g"
    assert len(hops) == len(rows)


def test_saved_is_said_until_something_is_changed(qtbot, window, answers, tmp_path):
    answers.file = tmp_path / "porter.hobwort"
    window.files.save_as()
    qtbot.waitUntil(lambda: window.messages.text.text().startswith("Saved to"))
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    type_at("9", 10)
    assert not window.messages.isVisible()


@pytest.mark.parametrize("place", ["name", "process.boil_time"])
def test_what_the_undo_button_takes_back_in_a_field_stays_back(qtbot, window, porter, place):
    field = window.header.name if place == "name" else window.compose.process.by_place[place]
    field.setFocus()
    field.selectAll()
    QTest.keyClicks(field, "45 min")
    assert window.opened.recipe != porter
    QTest.mouseClick(window.header.undo, Qt.MouseButton.LeftButton)
    assert window.opened.recipe == porter
    assert field.text() != "45 min"
    window.compose.fermentables.view.setFocus()
    assert window.opened.recipe == porter
    assert not window.opened.unsaved


def test_what_the_undo_button_takes_back_in_an_open_cell_stays_back(qtbot, window, porter):
    view = window.compose.fermentables.view
    press(view, 0, "amount")
    type_at("1.7 kg", 0)
    assert window.opened.recipe.fermentables[0].amount.text == "1.7 kg"
    QTest.mouseClick(window.header.undo, Qt.MouseButton.LeftButton)
    assert window.opened.recipe == porter
    press(view, 2, "amount")
    assert window.opened.recipe == porter
    assert not window.opened.unsaved


def test_the_page_stays_where_it_was_scrolled_to_after_a_press_on_a_cell(qtbot, window):
    window.resize(800, 560)
    view = window.compose.hops.view
    qtbot.mouseClick(
        view.viewport(),
        Qt.MouseButton.LeftButton,
        pos=view.visualRect(view.model().index(0, 1)).center(),
    )
    areas = window.compose.findChildren(QScrollArea)
    (bar,) = [each.verticalScrollBar() for each in areas if each.widget().isAncestorOf(view)]
    bar.setValue(bar.maximum())
    assert view.mapTo(window.compose, view.rect().bottomLeft()).y() < 0
    qtbot.wait(QApplication.doubleClickInterval() + 200)
    assert bar.value() == bar.maximum()
