"""What a recipe cannot hold is refused at once, whichever way it comes; the rest is never lost."""

import pytest
from PySide6.QtCore import QMimeData, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QLineEdit

from designer.library.recipe_file import load, read_document, save
from designer.library.store import Store
from designer.recipe.document import Hop, Recipe
from designer.recipe.edits import AddLine, ChangeRecipe, Together
from designer.recipe.limits import LONGEST_WORDS, MOST_LINES
from designer.recipe.message import word
from designer.window.parts.beside_field import note_of
from designer.window.session.open_recipe import OpenRecipe


@pytest.fixture
def box(on_a_box, porter):
    """A window over the porter and a Recipe box."""
    return on_a_box(OpenRecipe(porter))


def clipboard(text):
    mime = QMimeData()
    mime.setText(text)
    QGuiApplication.clipboard().setMimeData(mime)


def hop_rows(count):
    return "".join(f"{number} g\tHop {number}\t15 min\n" for number in range(1, count + 1))


def everything_kept(qtbot, window):
    """Save, wait for the store, and return what its newest version and draft say."""
    window.files.save()
    window.autosave.write_draft()
    qtbot.waitUntil(lambda: not window.autosave.store.busy, timeout=10_000)
    with Store.open(window.autosave.folder) as store:
        newest = store.recipes.newest(window.autosave.recipe_id)
    return read_document(newest.document, "the box")


def test_600_pasted_hops_are_refused_with_the_limit_and_a_way_out(qtbot, box, porter):
    model = box.compose.hops.model
    mime = QMimeData()
    mime.setText(hop_rows(600))
    with qtbot.waitSignal(box.opened.refused) as told:
        model.paste(mime)
    assert told.args[0] == (
        "A recipe holds up to 500 hop lines; with these it would have 602. Add fewer, or take some "
        "out first."
    )
    qtbot.waitUntil(lambda: told.args[0] in box.messages.text.text())
    assert box.opened.recipe == porter
    assert box.opened.undo_stack.count() == 0


def test_as_many_hops_as_a_recipe_holds_are_pasted_kept_and_opened_again(qtbot, box, tmp_path):
    mime = QMimeData()
    mime.setText(hop_rows(MOST_LINES - 2))
    box.compose.hops.model.paste(mime)
    assert len(box.opened.recipe.hops) == MOST_LINES
    assert everything_kept(qtbot, box) == box.opened.recipe
    save(box.opened.recipe, tmp_path / "full.hobwort")
    assert load(tmp_path / "full.hobwort") == box.opened.recipe


def test_a_name_that_is_too_long_is_refused_in_its_field_and_the_old_one_stays(qtbot, window):
    field, before = window.header.name, window.opened.recipe.name
    field.setFocus()
    field.selectAll()
    clipboard((LONGEST_WORDS + 1) * "a")
    field.paste()
    assert "20,000 characters" in field.toolTip()
    qtbot.keyClick(field, Qt.Key.Key_Return)
    told = note_of(field).text.text()
    assert "up to 20,000 characters are held, and this has 20,001" in told
    assert len(field.text()) == LONGEST_WORDS + 1
    assert window.opened.recipe.name == before


def test_a_name_of_a_line_that_is_too_long_is_refused_in_words(qtbot, window, porter):
    model = window.compose.hops.model
    place = model.index(0, model.column_of("name"))
    with qtbot.waitSignal(model.refused) as told:
        model.setData(place, (LONGEST_WORDS + 1) * "a")
    assert "up to 20,000 characters are held" in told.args[0]
    assert window.opened.recipe == porter


def test_a_line_that_one_line_too_many_would_make_is_refused(qtbot, window, porter, monkeypatch):
    monkeypatch.setattr("designer.library.round_trip.MOST_LINES", 12)  # a full table, quickly
    window.opened.make(Together((AddLine("hops", Hop("Fuggle"), word("")),) * 10, word("fill")))
    model = window.compose.hops.model
    for way in (
        lambda: model.duplicate(0),
        lambda: model.setData(model.index(12, 0), "20 g Fuggle"),
        lambda: model.paste(model.copied([0, 1])),
    ):
        with qtbot.waitSignal(window.opened.refused) as told:
            way()
        assert "A recipe holds up to 12 hop lines" in told.args[0]
        assert len(window.opened.recipe.hops) == 12
    window.opened.undo_stack.undo()
    assert window.opened.recipe == porter
    window.opened.undo_stack.redo()
    assert len(window.opened.recipe.hops) == 12


def test_a_table_of_too_many_lines_is_not_brought_in(qtbot, window, answers, tmp_path, porter):
    bill = tmp_path / "bill.csv"
    rows = "".join(f"hops,{n} g,Hop {n},pellets,15 min,\n" for n in range(1, 500))
    bill.write_text("list,amount,name,kind,goes in,figure\n" + rows, encoding="utf-8")
    answers.which_bill = lambda parent, folder: bill
    with qtbot.waitSignal(window.opened.refused):
        window.files.bill.bring_in()
    assert window.opened.recipe == porter
    qtbot.waitUntil(lambda: "up to 500 hop lines" in window.messages.text.text())


def test_a_cell_takes_a_long_text_to_refuse_it_and_does_not_cut_it(qtbot, window):
    view = window.compose.hops.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, 1))
    qtbot.keyClick(view, Qt.Key.Key_F2)
    editor = view.viewport().findChild(QLineEdit)
    editor.selectAll()
    clipboard(40_000 * "a")
    editor.paste()
    assert len(editor.text()) == 40_000
    before = window.opened.recipe
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    assert "this has 40,000" in note_of(view).text.text()
    assert len(editor.text()) == 40_000
    assert window.opened.recipe == before


def test_a_kit_beyond_what_a_recipe_holds_is_refused_beside_its_door(qtbot, window, porter):
    window.begin()
    page = window.begin_page
    page.kit.fields["makes"].setText("20 L")
    tins = page.kit.contents.tins
    tins.put(tins.rows[0], "amount", "20000 kg")
    page.kit.button.click()
    assert "out of reach" in page.kit.refusal.text()
    assert window.opened.recipe == porter
    assert window.pages.currentWidget() is page


def test_what_is_refused_leaves_no_step_to_redo(qtbot, window):
    window.opened.make(ChangeRecipe("name", "Breakwater Bitter", word("rename the recipe")))
    window.opened.undo_stack.undo()
    assert not window.opened.make(ChangeRecipe("name", (LONGEST_WORDS + 1) * "a", word("rename")))
    assert window.opened.undo_stack.canRedo()
    assert window.opened.undo_stack.redoText() == "rename the recipe"
    assert window.opened.recipe != Recipe()
