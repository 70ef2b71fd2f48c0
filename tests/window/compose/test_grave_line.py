"""What stops a brewer is seen wherever the page is scrolled to, and leads to its card."""

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLabel

from designer.library.recipe_file import load
from designer.resource_files import resource_path
from designer.window.session.looking_ahead import Known


@pytest.fixture
def page(qtbot, window):
    """A kit of 20 L before a fermenter of 12 L, in a low window."""
    window.resize(1024, 600)
    red = load(resource_path("examples/breakwater_red.hobwort"))
    window.opened.replace_by(red, None)
    qtbot.waitUntil(lambda: window.opened.known is Known.ALL)
    return window.compose


def is_in_sight(page, card):
    place = card.mapTo(page, card.rect().topLeft()).y()
    area = page._scrolled
    return 0 <= place - area.mapTo(page, area.rect().topLeft()).y() < area.height()


def test_it_is_told_while_its_card_is_scrolled_away_and_leads_there(qtbot, page):
    card = page.watch_out.cards[0]
    assert not is_in_sight(page, card)
    qtbot.waitUntil(page.grave.isVisible)
    assert page.grave.text().startswith("Stop: 20 L will not fit the 12 L fermenter.")
    assert page.grave.accessibleName() == card.accessibleName()
    qtbot.mouseClick(page.grave, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not page.grave.isVisible())
    assert is_in_sight(page, card)
    assert card.isAncestorOf(QApplication.focusWidget())
    page._scrolled.verticalScrollBar().setValue(0)
    assert page.grave.isVisible()


def test_it_is_gone_with_what_it_tells(qtbot, page, window):
    qtbot.waitUntil(page.grave.isVisible)
    recipe = window.opened.recipe
    top_up = replace(recipe.process.top_up_to, value=10.0, text="10 L")
    process = replace(recipe.process, top_up_to=top_up)
    window.opened.replace_by(replace(recipe, process=process), None)
    qtbot.waitUntil(lambda: window.opened.known is Known.ALL)
    assert page.grave.isHidden() == (page.grave.card() is None)
    assert not page.grave.text().startswith("Stop: 20 L") or page.grave.isHidden()


def test_nothing_grave_no_line(qtbot, window):
    qtbot.waitUntil(lambda: window.opened.known is Known.ALL)
    assert window.compose.grave.card() is None
    assert window.compose.grave.isHidden()


def nearer_by(form):
    """Yield for each label of the process by how much it is nearer to its own field."""
    for label in form.findChildren(QLabel):
        field = label.buddy()
        fields = [each for each in form.by_place.values() if each.parent() is label.parent()]
        above = [each for each in fields if each.x() == label.x() and each.y() < label.y()]
        if field is not None and above:
            gap = label.y() - max(each.geometry().bottom() for each in above)
            yield gap - (field.y() - label.geometry().bottom())


def test_a_label_of_the_process_is_nearer_to_its_own_field_than_to_the_one_above(qtbot, window):
    form = window.compose.process
    form.more_button.setChecked(True)
    qtbot.waitUntil(lambda: min(nearer_by(form)) >= 4)
    assert len(list(nearer_by(form))) > 20
