"""Before pasted text becomes lines the brewer is asked, where anything in it is not certain."""

import pytest
from PySide6.QtCore import QCoreApplication, QMimeData, QModelIndex, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent, QGuiApplication
from PySide6.QtWidgets import QComboBox, QDialog, QLabel, QPushButton

from designer.library.bill import bill_csv
from designer.library.pasted import Means, Parting, Use, pasted_table
from designer.recipe.document import Recipe
from designer.units import ShownUnits
from designer.window.compose.paste_preview import PastePreview
from designer.window.compose.pasted_rows import ADD, FIRST_CELL, GOES_TO, READ_AS
from tests.active_window import made_active

LETTER = (
    "Hi Ann,\n\nyesterday I brewed with 2 kg of malt and it was great.\n\n"
    "- 1.5 kg light liquid malt extract\nHops:\n20 g Challenger, 60 min\n\nCheers, Bob\n"
)
SHEET = "Hop\tAmount\tTime\tFrom\nFuggle\t20\t60\tKent\nChallenger\t12\t15\tKent\n"


@pytest.fixture
def preview(qtbot, porter, display):
    """Opens the question about a text."""

    def open_for(text, lines="hops"):
        made = PastePreview(pasted_table(text, lines), porter, display)
        qtbot.addWidget(made)
        made.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose, False)
        return made_active(qtbot, made)

    return open_for


def paste(window, qtbot, text, lines="hops"):
    """Paste by the keyboard; returns the question, if there is one."""
    QGuiApplication.clipboard().setText(text)
    view = getattr(window.compose, lines).view
    view.setFocus()
    qtbot.keyClick(view, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    return asked(window, qtbot)


def asked(window, qtbot):
    qtbot.waitUntil(lambda: bool(window.findChildren(PastePreview)))
    return window.findChildren(PastePreview)[-1]


def choose(preview, column, use):
    choice = preview.view.heading.choices[column]
    choice.setCurrentIndex(choice.offered.index(use))
    choice.activated.emit(choice.currentIndex())


def test_a_bare_number_is_not_taken_for_minutes_but_asked_about(window, qtbot, porter):
    preview = paste(window, qtbot, "Fuggle\t60\t20\n")
    assert window.opened.recipe == porter
    assert not preview.add_button.isEnabled() or not preview.rows.is_ticked(0)
    choose(preview, 1, Use(Means.WHEN, "min"))
    choose(preview, 2, Use(Means.AMOUNT, "g"))
    assert preview.rows.said(0).startswith("20 g, Fuggle")
    preview.add_button.click()
    hop = window.opened.recipe.hops[-1]
    assert (hop.name, round(hop.amount.value * 1000), hop.when.minutes) == ("Fuggle", 20, 60)
    window.opened.undo_stack.undo()
    assert window.opened.recipe == porter


def test_escape_adds_nothing_and_leaves_no_step(window, qtbot, porter):
    preview = paste(window, qtbot, LETTER, "fermentables")
    with qtbot.waitSignal(preview.finished):
        qtbot.keyClick(preview.view, Qt.Key.Key_Escape)
    assert window.opened.recipe == porter
    assert window.opened.undo_stack.count() == 0


def test_the_window_closes_though_a_text_is_asked_about(window, qtbot, porter):
    paste(window, qtbot, LETTER, "fermentables")
    window.close()
    qtbot.waitUntil(lambda: not window.isVisible())
    assert window.opened.recipe == porter


def test_a_letter_adds_its_ingredients_and_not_its_prose(window, qtbot, porter):
    preview = paste(window, qtbot, LETTER, "fermentables")
    assert preview.add_button.text() == "&Add 2 lines"
    preview.add_button.click()
    recipe = window.opened.recipe
    assert recipe.fermentables[-1].name == "Light liquid malt extract"
    assert recipe.hops[-1].name == "Challenger"
    assert len(recipe.fermentables) == len(porter.fermentables) + 1
    assert window.opened.undo_stack.undoText() == "paste 2 lines"


def test_return_presses_a_button_only_where_it_has_the_keyboard(preview, qtbot):
    made = preview(LETTER)
    with qtbot.assertNotEmitted(made.chosen):
        qtbot.keyClick(made.view, Qt.Key.Key_Return)
        qtbot.keyClick(made.parting, Qt.Key.Key_Return)
        qtbot.keyClick(made, Qt.Key.Key_Return)
    assert made.isVisible()
    made.cancel_button.setFocus()
    with qtbot.waitSignal(made.finished) as ended:
        qtbot.keyClick(made.cancel_button, Qt.Key.Key_Return)
    assert ended.args == [QDialog.DialogCode.Rejected.value]


def test_all_of_it_is_done_by_the_keyboard(preview, qtbot):
    made = preview(SHEET)
    qtbot.keyClick(made.view, Qt.Key.Key_Home)
    reached = {QGuiApplication.focusObject()}
    for _ in range(12):
        qtbot.keyClick(QGuiApplication.focusObject(), Qt.Key.Key_Tab)
        reached.add(QGuiApplication.focusObject())
    wanted = [made.parting, made.sign, made.default, *made.view.heading.choices]
    assert {*wanted, made.view, made.cancel_button} <= reached
    amount = made.view.heading.choices[1]
    amount.setFocus()
    while amount.chosen_use != Use(Means.AMOUNT, "g"):
        qtbot.keyClick(amount, Qt.Key.Key_Down)
    made.add_button.setFocus()
    with qtbot.waitSignal(made.chosen) as chosen:
        qtbot.keyClick(made.add_button, Qt.Key.Key_Return)
    assert chosen.args[0].text.text == "paste 2 lines"


def test_space_ticks_the_chosen_rows(preview, qtbot):
    made = preview(LETTER)
    made.view.selectAll()
    qtbot.keyClick(made.view, Qt.Key.Key_Space)
    ticked = [made.rows.is_ticked(row) for row in range(made.rows.rowCount())]
    assert sum(ticked) == sum(row.line is not None for row in made.rows.table.rows)
    qtbot.keyClick(made.view, Qt.Key.Key_Space)
    assert not any(made.rows.is_ticked(row) for row in range(made.rows.rowCount()))
    assert not made.add_button.isEnabled()


def test_a_press_on_the_box_ticks(preview, qtbot):
    made = preview("20 g\tFuggle\t15\n12 g\tChallenger\t5\n")
    place = made.view.visualRect(made.rows.index(1, ADD)).center()
    qtbot.mouseClick(made.view.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert [made.rows.is_ticked(row) for row in (0, 1)] == [True, False]


def test_a_cell_is_mended_and_its_row_read_at_once(preview, qtbot):
    made = preview("Amount\tHop\n2\tFuggle\n12 g\tChallenger\n")
    assert "no unit" in made.rows.said(1)
    assert not made.rows.is_ticked(1)
    made.view.setCurrentIndex(made.rows.index(1, FIRST_CELL))
    qtbot.keyClicks(made.view, "2")
    editor = made.view.indexWidget(made.view.currentIndex()) or made.focusWidget()
    qtbot.keyClicks(editor, "0 g")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: made.rows.said(1).startswith("20 g, Fuggle"))
    assert made.rows.is_ticked(1)


def test_a_row_is_sent_to_another_list(preview):
    made = preview("20 g\tHarbour mixture\t15\n")
    made.rows.setData(made.rows.index(0, GOES_TO), "extras")
    assert made.rows.edit().edits[0].lines == "extras"


def test_parting_and_decimal_sign_are_chosen(preview):
    made = preview("1,500 g;Fuggle\n", "hops")
    assert made.rows.said(0).startswith(("1500", "1.5"))
    made.sign.activated.emit(1)
    assert made.rows.said(0).startswith("1,500 g, Fuggle") or made.rows.said(0).startswith("1.5 g")
    made.parting.activated.emit(list(Parting).index(Parting.LINES))
    assert made.rows.table.parting is Parting.LINES
    assert made.rows.rowCount() == 1


def test_rows_beyond_the_limit_are_said_and_none_is_cut(preview):
    made = preview("Amount\tHop\tFrom\n" + "1 g\tFuggle\tKent\n" * 600)
    assert "up to 500 hop lines" in made.count.text()
    assert not made.add_button.isEnabled()
    made.view.selectAll()
    made.rows.tick(list(range(400, 601)))
    made.rows.tick(list(range(400, 601)))
    assert made.rows.rowCount() == 601


def test_a_certain_paste_over_the_limit_is_refused_in_words(window, qtbot, porter):
    QGuiApplication.clipboard().setText("1 g\tFuggle\n" * 600)
    with qtbot.waitSignal(window.opened.refused) as refused:
        window.compose.hops.view.paste_lines()
    assert "up to 500 hop lines" in refused.args[0]
    assert window.opened.recipe == porter


def test_text_dropped_on_a_table_is_asked_about(window, qtbot, porter):
    mime = QMimeData()
    mime.setText(SHEET)
    model = window.compose.hops.model
    model.dropMimeData(mime, Qt.DropAction.CopyAction, -1, -1, QModelIndex())
    preview = asked(window, qtbot)
    assert window.opened.recipe == porter
    preview.reject()


def test_a_table_from_elsewhere_is_brought_in_by_the_same_question(
    window, qtbot, answers, tmp_path
):
    file = tmp_path / "table.csv"
    file.write_bytes(
        "Ingredient;Menge;Zeit\rHarbour malt;2,5 kg;\rFuggle;20 g;60 min\r".encode("cp1252")
    )
    answers.which_bill = lambda parent, folder: file
    window.files.bill.bring_in()
    preview = asked(window, qtbot)
    assert [preview.rows.data(preview.rows.index(row, GOES_TO)) for row in (1, 2)] == [
        "Fermentables",
        "Hops",
    ]
    preview.add_button.click()
    assert window.opened.recipe.hops[-1].name == "Fuggle"
    assert window.opened.undo_stack.undoText() == "import 2 lines"


def test_a_table_dropped_on_the_window_is_brought_in(window, qtbot, tmp_path, porter):
    file = tmp_path / "table.csv"
    file.write_text("Hop,Menge g,min\nFuggle,20,60\n", encoding="utf-8")
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(file))])
    place, button = QPointF(5, 5), Qt.MouseButton.LeftButton
    window.dropEvent(
        QDropEvent(place, Qt.DropAction.CopyAction, mime, button, Qt.KeyboardModifier.NoModifier)
    )
    qtbot.waitUntil(lambda: len(window.opened.recipe.hops) == len(porter.hops) + 1)
    assert window.opened.recipe.name == porter.name


def test_a_text_is_asked_about_once_however_often_it_is_pasted(window, qtbot):
    view = window.compose.hops.view
    QGuiApplication.clipboard().setText(SHEET)
    view.paste_lines()
    view.paste_lines()
    preview = asked(window, qtbot)
    QCoreApplication.processEvents()
    assert len(window.findChildren(PastePreview)) == 1
    with qtbot.waitSignal(preview.finished):
        preview.reject()
    view.paste_lines()
    asked(window, qtbot).reject()


def test_lines_do_not_go_into_a_recipe_that_was_opened_meanwhile(window, qtbot):
    preview = paste(window, qtbot, LETTER, "fermentables")
    other = Recipe(name="Another")
    window.opened.replace_by(other, None)
    preview.add_button.click()
    assert window.opened.recipe == other
    assert "no lines were added" in window.messages.text.text()


def test_a_bill_with_a_fault_is_asked_about_and_not_lost(window, qtbot, answers, tmp_path, porter):
    file = tmp_path / "bill.csv"
    file.write_text(bill_csv(porter).replace("1 kg", "1.5 quux"), encoding="utf-8", newline="")
    answers.which_bill = lambda parent, folder: file
    window.files.bill.bring_in()
    preview = asked(window, qtbot)
    assert "1.5 quux" in preview.rows.said(1)
    lines = sum(len(getattr(porter, name)) for name in ("fermentables", "hops", "extras"))
    assert preview.add_button.text() == f"&Add {lines - 1} lines"
    preview.reject()


def test_markup_in_a_text_is_shown_as_it_is(preview):
    made = preview("<h1>Big</h1>\t20 g\t15\n")
    assert all(
        label.textFormat() is Qt.TextFormat.PlainText
        for label in (made.doubts, made.chosen_row, made.count)
    )
    assert "<h1>" in made.chosen_row.text()
    tips = [made.rows.data(made.rows.index(0, at), Qt.ItemDataRole.ToolTipRole) for at in range(5)]
    assert tips == [None] * 5


def test_no_word_of_the_question_is_cut(preview):
    made = preview(SHEET)
    for column, choice in enumerate(made.view.heading.choices):
        needed = choice.fontMetrics().horizontalAdvance(choice.currentText())
        assert choice.width() >= needed + 30
        assert made.view.heading.width_of(column) <= made.view.columnWidth(FIRST_CELL + column)
    for widget in (*made.findChildren(QPushButton), made.parting, made.sign, made.default):
        assert widget.width() >= widget.sizeHint().width()


def test_everything_in_the_question_has_a_name(preview):
    made = preview(SHEET)
    for widget in (*made.findChildren(QComboBox), made.view):
        assert widget.accessibleName()
    for widget in made.findChildren(QPushButton):
        assert widget.text()
    assert all(
        label.buddy()
        for label in made.findChildren(QLabel)
        if label.text().endswith(("by", "sign"))
    )
    said = made.rows.data(made.rows.index(1, READ_AS), Qt.ItemDataRole.AccessibleTextRole)
    assert "no unit" in said


def test_what_a_row_is_read_as_is_in_the_shown_units(preview, settings):
    settings.units = ShownUnits.US
    made = preview("28.35 g\tFuggle\tKent\n")
    assert made.rows.said(0).startswith("1 oz")


def test_a_pasted_yield_is_shown_beside_the_line_it_goes_to(preview, settings):
    settings.units = ShownUnits.METRIC
    made = preview("Malt\tAmount\tYield\nDark syrup\t1 kg\t36\n", "fermentables")
    choose(made, 2, Use(Means.YIELD, "ppg"))
    assert "77.9 %" in made.rows.said(1)
    settings.units = ShownUnits.US
    assert "36 ppg" in made.rows.said(1)
