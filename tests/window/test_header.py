"""The header: what stands beside the recipe's name, and what is one press away."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import say
from tests.stories.acts import press, type_over

RENAMED = say("rename", "rename the recipe")


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


def narrowed(qtbot, window, width):
    window.setMinimumWidth(0)  # letters of some typefaces are wider than those of the tests
    window.resize(width, 600)
    qtbot.waitUntil(lambda: window.header.width() == width)
    return window.header


def test_a_narrow_header_has_most_of_the_name_and_says_what_holds_it_in_fewer_words(qtbot, window):
    window.opened.make(ChangeRecipe("name", "Harbour Lamp Porter for the winter", RENAMED))
    states, styles = [], []
    for width in range(1280, 520, -40):
        header = narrowed(qtbot, window, width)
        header.say_state(window.opened, "draft kept")
        assert header.name.shown_text().startswith("Harbour Lamp Por"), width
        states.append(header.state.shown_text())
        styles.append(header.style_field.isVisible())
    assert set(states) == {"unsaved, draft kept", "draft kept"}
    assert styles == sorted(styles, reverse=True)
    assert not all(styles)


def test_a_style_that_gave_way_comes_back_for_whoever_looks_for_it(qtbot, window):
    header = narrowed(qtbot, window, 560)
    assert not header.style_field.isVisible()
    header.begin_style()
    assert header.style_field.hasFocus()
    assert header.style_field.isVisible()
    qtbot.keyClick(header.style_field, Qt.Key.Key_Tab)
    assert not header.style_field.isVisible()


def test_no_page_moves_while_a_draft_is_kept(qtbot, window):
    for width in (800, 1024, 1280):
        header = narrowed(qtbot, window, width)
        places = set()
        for kept in ("", "keeping…", "draft kept"):
            header.say_state(window.opened, kept)
            places.add(tuple(each.x() for each in header.page_buttons.buttons()))
        assert len(places) == 1, width
