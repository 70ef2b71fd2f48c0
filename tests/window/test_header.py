"""The header: what stands beside the recipe's name, and what is one press away."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from tests.stories.acts import press, type_over


def test_the_batch_size_follows_the_top_up_mark_in_the_units_that_are_shown(qtbot, window):
    header = window.header
    assert header.batch.text() == "10 L"
    type_over(qtbot, window.compose.process.by_place["process.top_up_to"], "9 L")
    qtbot.waitUntil(lambda: header.batch.text() == "9 L")
    assert header.batch.accessibleName() == "Batch size 9 L"
    window.settings.units = "us"
    assert header.batch.text().endswith("gal")


def test_the_style_has_its_label_and_the_arrows_have_names(qtbot, window):
    header = window.header
    window.resize(1280, 800)
    qtbot.waitUntil(header.style_name.isVisible)
    assert header.style_name.buddy() is header.style_field
    assert header.undo.accessibleName() == "Undo"
    type_over(qtbot, header.name, "Pier Porter")
    assert header.undo.accessibleName() == "Undo rename the recipe"
    press(qtbot, header.undo)
    assert window.opened.recipe.name == "Harbour Lamp Porter"
    assert header.redo.toolTip() == "Redo rename the recipe"


def test_new_shows_the_doors_and_print_prints(qtbot, window, monkeypatch):
    header, printed = window.header, []
    press(qtbot, header.new)
    assert window.pages.currentWidget() is window.begin_page
    qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_Escape)
    assert window.pages.currentWidget() is window.compose
    monkeypatch.setattr(window.sheet, "print_sheet", lambda: printed.append(True))
    press(qtbot, header.print)
    assert printed == [True]
    assert header.print.accessibleName() == "Print the sheet…"


def test_where_room_is_short_size_and_label_give_way_to_the_pages(qtbot, window):
    window.resize(780, 600)
    qtbot.waitUntil(lambda: not window.header.batch.isVisible())
    assert not window.header.style_name.isVisible()
    window.resize(1280, 800)
    qtbot.waitUntil(window.header.batch.isVisible)


def test_before_name_or_state_are_cut_size_and_label_give_way(qtbot, window):
    header = window.header
    header.say_state(window.opened, "kept at home, version 12")
    seen = set()
    for width in range(1280, 760, -40):
        window.resize(width, 800)
        qtbot.waitUntil(lambda width=width: header.width() == width)
        is_cut = header.state.width() < header.state.sizeHint().width()
        assert not (is_cut and header.batch.isVisible()), width
        seen.add(header.batch.isVisible())
    assert seen == {True, False}
