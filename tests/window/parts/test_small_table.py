"""The small lists with an undo of their own: what is refused changes nothing."""

import pytest
from PySide6.QtCore import Qt

from designer.errors import RefusedInputError
from designer.window.parts.columns import Column
from designer.window.parts.small_table import SmallTable, SmallTableView


def number(typed):
    if not typed.text.isdigit():
        raise RefusedInputError(f"“{typed.text}” is no number")
    return int(typed.text)


class Numbers(SmallTable):
    """Numbers, each a row."""

    def name_of(self, row):
        return f"row {row}"

    def changed(self, column, row, text):
        return column.value(row, text, self.display)


def no_twins(rows):
    if len(set(rows)) < len(rows):
        raise RefusedInputError("it is there already")
    return tuple(sorted(rows))


@pytest.fixture
def table(qapp, display):
    column = Column("number", "Number", text=lambda row, _: str(row), read=number)
    made = Numbers((column,), display, no_twins)
    made.put((1, 5))
    return made


@pytest.fixture
def view(qtbot, table):
    made = SmallTableView(table, "Numbers")
    qtbot.addWidget(made)
    with qtbot.waitExposed(made):
        made.show()
    made.setFocus()
    made.setCurrentIndex(table.index(0, 0))
    return made


def test_it_keeps_the_rules_of_a_model(qtmodeltester, table):
    qtmodeltester.check(table)


def test_a_change_is_taken_back_and_done_again(table):
    assert table.setData(table.index(0, 0), "7")
    assert table.rows == (5, 7)
    table.undo_stack.undo()
    assert table.rows == (1, 5)
    assert not table.undo_stack.canUndo()
    table.undo_stack.redo()
    assert table.rows == (5, 7)
    assert not table.undo_stack.canRedo()


def test_after_another_change_nothing_is_done_again(table):
    table.remove([0])
    table.undo_stack.undo()
    table.remove([1])
    assert not table.undo_stack.canRedo()
    assert table.rows == (1,)


@pytest.mark.parametrize(("text", "told"), [("many", "is no number"), ("5", "there already")])
def test_what_is_refused_is_told_with_its_place_and_changes_nothing(qtbot, table, text, told):
    with qtbot.waitSignal(table.refused) as refused:
        assert not table.setData(table.index(0, 0), text)
    assert refused.args[0].startswith("Number of row 1: ")
    assert told in refused.args[0]
    assert table.rows == (1, 5)
    assert not table.undo_stack.canUndo()


def test_what_comes_from_elsewhere_cannot_be_undone(table):
    table.remove([0])
    table.put((2, 3))
    assert not table.undo_stack.canUndo()
    assert not table.undo_stack.canRedo()


def test_the_keyboard_edits_takes_out_and_takes_back(qtbot, table, view):
    qtbot.keyClick(view, Qt.Key.Key_Return)
    editor = view.focusWidget()
    assert editor.accessibleName() == "Number"
    editor.selectAll()
    qtbot.keyClicks(editor, "9")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: table.rows == (5, 9))
    qtbot.keyClick(view, Qt.Key.Key_Delete)
    assert len(table.rows) == 1
    qtbot.keyClick(view, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClick(view, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert table.rows == (1, 5)


def test_a_screen_reader_hears_whose_figure_it_is(table):
    index = table.index(1, 0)
    assert index.data(Qt.ItemDataRole.AccessibleTextRole) == "Number of row 5: 5"
