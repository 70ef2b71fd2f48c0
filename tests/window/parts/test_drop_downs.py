"""Every list that drops down shows its last row whole, and every offer to its end."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from designer.window.parts.icons import Choice
from designer.window.parts.offers import attach_suggestions


@pytest.fixture
def page(qtbot, settings):
    """A page of its own for each test, dressed as the program is."""
    made = QWidget()
    QVBoxLayout(made)
    qtbot.addWidget(made)
    return made


def show(qtbot, page):
    with qtbot.waitExposed(page):
        page.show()


def is_whole(view, row):
    """Whether the height of a row is inside what is seen of its list."""
    place = view.visualRect(view.model().index(row, 0))
    seen = view.viewport().rect()
    return place.height() > 0 and seen.top() <= place.top() and place.bottom() <= seen.bottom()


@pytest.mark.parametrize("words", [2, 5, 9])
def test_the_last_word_of_a_choice_is_seen_whole_the_first_time_it_opens(qtbot, page, words):
    choice = Choice(page)
    choice.addItems([f"a way to cool {number}" for number in range(words)])
    page.layout().addWidget(choice)
    show(qtbot, page)
    height = choice.height()
    qtbot.mouseClick(choice, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(choice.view().isVisible)
    assert is_whole(choice.view(), 0)
    assert is_whole(choice.view(), words - 1)
    assert choice.view().verticalScrollBar().maximum() == 0
    choice.hidePopup()
    choice.addItem("another")
    assert choice.hasFocus()
    assert choice.sizeHint().height() <= height + 2
    assert choice.height() == height


@pytest.mark.parametrize(("of", "typed"), [("hops", "fug"), ("hops", "go"), ("fermentables", "a")])
def test_offers_below_a_field_end_with_a_whole_row_and_are_read_to_their_end(
    qtbot, page, of, typed
):
    field = QLineEdit(page)
    page.layout().addWidget(field)
    field.setFixedWidth(150)
    completer = attach_suggestions(field, of)
    show(qtbot, page)
    qtbot.keyClicks(field, typed)
    offers = completer.popup()
    qtbot.waitUntil(offers.isVisible)
    rows = offers.model().rowCount()
    last = min(rows, completer.maxVisibleItems()) - 1
    assert is_whole(offers, last)
    if last + 1 < rows:
        assert (
            not offers.viewport()
            .rect()
            .intersects(offers.visualRect(offers.model().index(last + 1, 0)))
        )
    assert offers.viewport().width() >= offers.sizeHintForColumn(0)
    assert offers.screen().geometry().contains(offers.geometry())
    offers.hide()
