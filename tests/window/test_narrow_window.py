"""A window of 1024 × 600: words are shortened with a sign that they are, nothing is cut."""

import pytest
from PySide6.QtWidgets import QScrollArea

from designer import translation
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import say
from designer.spoken_language import catalogue_of, names_in
from designer.window.main_window import MainWindow
from designer.window.parts.on_screen import LEAST
from tests.cut_words import cut_words

NARROW = (1024, 600)
LONG = "Harbour Lamp Porter for the winter, with more chocolate malt and less water to start"


@pytest.fixture
def narrow(qtbot, window):
    window.opened.make(ChangeRecipe("name", LONG, say("rename", "rename the recipe"), ""))
    window.resize(*NARROW)
    qtbot.waitUntil(lambda: window.size().toTuple() == NARROW)
    return window


@pytest.mark.parametrize("width", [NARROW[0], LEAST[0]])
def test_names_in_the_header_end_in_dots_and_nothing_lies_over_anything(qtbot, narrow, width):
    narrow.resize(width, NARROW[1])
    header = narrow.header
    qtbot.waitUntil(lambda: header.width() == width)
    assert header.name.shown_text().endswith("…")
    shown = [
        each
        for each in header.children()
        if getattr(each, "isVisible", bool)() and each.width() > 0
    ]
    for one in shown:
        assert header.rect().contains(one.geometry()), one
        for other in shown:
            assert one is other or not one.geometry().intersects(other.geometry()), (one, other)
    header.name.setFocus()
    assert header.name.shown_text() == LONG, "whoever types in it has all of it"


def test_page_buttons_too_are_shortened_and_never_cut(qtbot, narrow):
    narrow.resize(*LEAST)
    qtbot.waitUntil(lambda: narrow.width() == LEAST[0])
    for button in narrow.header.page_buttons.buttons():
        shown = button.shown_text()
        assert shown == button.text() or shown.endswith("…")
        assert button.fontMetrics().horizontalAdvance(shown) <= button.width()
        assert len(shown) >= 3


def test_at_1024_each_page_is_named_whole(narrow):
    for button in narrow.header.page_buttons.buttons():
        assert button.shown_text() == button.text()


@pytest.mark.parametrize(
    ("size", "hidden"),
    [(NARROW, {"kind", "form"}), (LEAST, {"kind", "form", "colour", "alpha"})],
)
def test_columns_give_way_to_names_and_none_is_cut(qtbot, narrow, size, hidden):
    narrow.resize(*size)
    qtbot.waitUntil(lambda: narrow.size().toTuple() == size)
    for panel in (narrow.compose.fermentables, narrow.compose.hops):
        view = panel.view
        names = [column.key for column in view.model().columns]
        seen = {key for number, key in enumerate(names) if not view.isColumnHidden(number)}
        assert not seen & hidden
        assert {"amount", "name", "when"} <= seen
        assert view.horizontalHeader().length() <= view.viewport().width()
        assert view.columnWidth(names.index("name")) >= 100


def test_no_page_cuts_a_word(qtbot, narrow):
    def nothing_cut():
        assert cut_words(narrow) == []

    for number in range(len(narrow.page_names)):
        narrow.show_page(number)
        qtbot.wait(50)
        qtbot.waitUntil(nothing_cut)  # a page that reckons lays itself out when it knows


def test_a_column_of_choices_has_room_for_its_longest_word_in_german(
    qtbot, settings, opened, answers
):
    translation.use(catalogue_of("program_de"), "de", names_in("de"))
    try:
        window = MainWindow(opened, settings, answers)
        qtbot.addWidget(window, before_close_func=lambda one: one.opened.undo_stack.setClean())
        window.resize(1280, 800)
        window.show()
        table = window.compose.fermentables.view
        kind = next(n for n, each in enumerate(table.model().columns) if each.key == "kind")
        longest = table.fontMetrics().horizontalAdvance("gehopfter Extrakt")
        qtbot.waitUntil(lambda: table.columnWidth(kind) > longest + 6)
        assert not table.isColumnHidden(kind)
    finally:
        translation.use(None)


@pytest.mark.parametrize("code", ["de", "fr"])
def test_at_1024_the_state_is_said_whole_and_most_of_name_and_style(
    qtbot, settings, opened, answers, code
):
    translation.use(catalogue_of(f"program_{code}"), code, names_in(code))
    try:
        window = MainWindow(opened, settings, answers)
        qtbot.addWidget(window, before_close_func=lambda one: one.opened.undo_stack.setClean())
        window.resize(*NARROW)
        window.show()
        header = window.header
        qtbot.waitUntil(lambda: header.width() == NARROW[0])
        for kept in ("", translation.tr("kept, version {number}", number=12)):
            header.say_state(opened, kept)
            qtbot.waitUntil(lambda: header.state.shown_text() == header.state.text())
        assert header.name.shown_text().startswith("Harbour Lamp Por")
        assert len(header.style_field.shown_text()) > 6
    finally:
        translation.use(None)


@pytest.mark.parametrize("code", ["en", "de", "fr"])
def test_in_a_window_of_800_pixels_nothing_lies_out_of_sight(
    qtbot, settings, opened, answers, code
):
    if code != "en":
        translation.use(catalogue_of(f"program_{code}"), code, names_in(code))
    try:
        window = MainWindow(opened, settings, answers)
        qtbot.addWidget(window, before_close_func=lambda one: one.opened.undo_stack.setClean())
        window.resize(800, 600)
        window.show()
        editors = window.compose._left
        qtbot.waitUntil(lambda: 0 < editors.width() <= editors.parentWidget().width())
        window.show_page(window.page_names.index("Sheet"))
        qtbot.waitUntil(lambda: cut_words(window.sheet) == [])
        window.show_page(window.page_names.index("Fit"))
        table = window.fit.table
        words = translation.tr("as it is written").split()
        longest = max(map(table.fontMetrics().horizontalAdvance, words))
        qtbot.waitUntil(lambda: table.columnWidth(1) >= longest + 12)
        window.begin()
        window.begin_page.open_door(1)
        door = window.begin_page.kit
        area = next(each for each in door.findChildren(QScrollArea) if each.isVisible())
        qtbot.waitUntil(lambda: area.widget().width() <= area.viewport().width())
        for row in door.contents.sections():
            for field in row.stops():
                assert field.width() >= field.minimumWidth() > 0
    finally:
        translation.use(None)
