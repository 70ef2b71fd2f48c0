"""Units that no kitchen writes: fetched in the background, taken when they are known."""

import json
import subprocess
import sys

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit

from designer.units import pint_units
from designer.window.parts import unit_words as looking
from designer.window.parts.beside_field import note_of
from designer.window.parts.unit_words import unit_words

SLUG_KG = 14.593902937206364  # pound-force by foot per second squared: pint's full registry


@pytest.fixture
def held_back(monkeypatch, qapp):
    """Nothing is known of rarer units, and the answer comes when the test lets it."""
    monkeypatch.setattr(pint_units, "_table", {})
    asked = []
    monkeypatch.setattr(looking.UnitWords, "look_up", lambda self: asked.append(self))
    return asked


def answer():
    pint_units.take_table(json.dumps({"mass": {"slug": SLUG_KG}, "volume": {"hogshead": 238.48}}))
    unit_words().known.emit()


def opened_cell(qtbot, view, row, key):
    view.setFocus()
    view.setCurrentIndex(view.model().index(row, view.model().column_of(key)))
    qtbot.keyClick(view, Qt.Key.Key_F2)
    editor = view.viewport().findChild(QLineEdit)
    editor.selectAll()
    return editor


def test_a_kitchen_word_is_never_looked_up(qtbot, window, held_back):
    view = window.compose.fermentables.view
    for typed in ("2 pounds 3 ounces", "1 stone 2 lb", "1,5 kg", "3 tonnes", "2 pou", "12"):
        editor = opened_cell(qtbot, view, 0, "amount")
        qtbot.keyClicks(editor, typed)
        qtbot.keyClick(editor, Qt.Key.Key_Escape)
    assert held_back == []


def test_a_rare_unit_in_a_cell_is_taken_when_it_is_known(qtbot, window, held_back, porter):
    view = window.compose.fermentables.view
    editor = opened_cell(qtbot, view, 0, "amount")
    qtbot.keyClicks(editor, "0.1 slug")
    assert held_back
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    assert "looking up “slug” among rarer units" in note_of(editor).text.text()
    assert window.opened.recipe == porter
    answer()
    qtbot.waitUntil(lambda: view.viewport().findChild(QLineEdit) is None)
    line = window.opened.recipe.fermentables[0]
    assert line.amount.value == pytest.approx(0.1 * SLUG_KG)
    assert line.amount.text == "0.1 slug"
    assert not window.opened.untaken
    window.opened.undo_stack.undo()
    assert window.opened.recipe == porter


def test_a_rare_unit_stays_in_a_cell_that_is_left_and_is_taken_later(qtbot, window, held_back):
    view = window.compose.fermentables.view
    editor = opened_cell(qtbot, view, 0, "amount")
    qtbot.keyClicks(editor, "0.1 slug")
    window.compose.hops.view.setFocus()
    qtbot.waitUntil(lambda: bool(window.opened.untaken))
    place = view.model().index(0, view.model().column_of("amount"))
    assert place.data(Qt.ItemDataRole.DisplayRole) == "0.1 slug"
    answer()
    assert window.opened.recipe.fermentables[0].amount.text == "0.1 slug"
    assert window.opened.recipe.fermentables[0].amount.value == pytest.approx(0.1 * SLUG_KG)
    assert not window.opened.untaken


def test_a_cell_that_is_still_typed_in_follows_when_the_unit_is_known(qtbot, window, held_back):
    view = window.compose.fermentables.view
    editor = opened_cell(qtbot, view, 0, "amount")
    qtbot.keyClicks(editor, "0.1 slug")
    answer()
    assert window.opened.recipe.fermentables[0].amount.value == pytest.approx(0.1 * SLUG_KG)
    assert not editor.property("refused")
    qtbot.keyClick(editor, Qt.Key.Key_Escape)


def test_a_field_says_that_it_looks_up_and_takes_the_text_when_it_is_known(
    qtbot, window, held_back, porter
):
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "0.04 hogshead")
    assert held_back
    assert not field.property("refused")
    assert note_of(field).text.text() == "Looking up “hogshead” among rarer units …"
    window.compose.fermentables.view.setFocus()
    assert field.text() == "0.04 hogshead"
    assert window.opened.recipe == porter
    answer()
    assert window.opened.recipe.process.top_up_to.text == "0.04 hogshead"
    assert window.opened.recipe.process.top_up_to.value == pytest.approx(0.04 * 238.48)


def test_a_word_that_is_no_unit_is_refused_when_that_is_known(qtbot, window, held_back, porter):
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "4 farad")
    assert not field.property("refused")
    answer()
    assert field.property("refused")
    assert "unit “farad” is not known here" in field.toolTip()
    assert window.opened.recipe == porter


def test_a_text_that_was_changed_meanwhile_is_what_counts(qtbot, window, held_back):
    field = window.compose.process.by_place["process.top_up_to"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "0.04 hogshead")
    field.selectAll()
    qtbot.keyClicks(field, "9 L")
    answer()
    assert window.opened.recipe.process.top_up_to.text == "9 L"


def test_the_table_comes_from_a_process_of_its_own(qtbot, qapp, monkeypatch):
    monkeypatch.setattr(pint_units, "_table", {})
    words = unit_words()
    with qtbot.waitSignal(words.known, timeout=60_000):
        words.look_up()
        words.look_up()
    assert pint_units.pint_factor(pint_units.Kind.MASS, "slug") == pytest.approx(SLUG_KG)


def test_where_no_other_process_can_be_had_pint_is_waited_for(qtbot, qapp, monkeypatch):
    monkeypatch.setattr(pint_units, "_table", {})
    monkeypatch.setattr(sys, "executable", "/nowhere/python")
    words = unit_words()
    with qtbot.waitSignal(words.known, timeout=60_000):
        words.look_up()
    assert pint_units.pint_factor(pint_units.Kind.MASS, "slug") == pytest.approx(SLUG_KG)


def test_the_program_may_end_while_units_are_looked_up_and_says_nothing(tmp_path):
    code = (
        "import sys\n"
        "from PySide6.QtWidgets import QApplication\n"
        "program = QApplication([])\n"
        "from designer.window.parts.unit_words import unit_words\n"
        "unit_words().look_up()\n"
        "assert 'pint' not in sys.modules\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, timeout=60, check=True)
    assert done.stdout == b""
    assert done.stderr == b""


def test_a_file_with_a_rare_unit_opens_and_pint_stays_out_of_the_window(tmp_path):
    path = tmp_path / "brew.hobwort"
    path.write_text('{"hobwort": 1, "process": {"top_up_to": "0.04 hogshead"}}', encoding="utf-8")
    code = (
        "import sys\n"
        "from pathlib import Path\n"
        "from PySide6.QtWidgets import QApplication\n"
        "program = QApplication([])\n"
        "from designer.library.recipe_file import load\n"
        "from designer.window.parts.unit_words import unit_words\n"
        "unit_words()\n"
        f"print(load(Path({str(path)!r})).process.top_up_to.value)\n"
        "assert 'pint' not in sys.modules\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, timeout=60, check=True)
    assert float(done.stdout) == pytest.approx(0.04 * 238.480942)
    assert done.stderr == b""
