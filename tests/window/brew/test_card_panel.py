"""A question over the card has room for all it asks, however low the card is."""

from itertools import combinations

import pytest
from PySide6.QtWidgets import QWidget

from designer.window.brew.new_timer import NewTimer


@pytest.fixture
def card(qtbot, display):
    made = QWidget()
    qtbot.addWidget(made)
    made.resize(420, 500)
    made.timer = NewTimer(made, display)
    made.show()
    made.timer.ask_for_one()
    return made


def seen(panel):
    parts = (panel.title, *panel.usual, panel.field, panel.name, panel.ok_button)
    return [each for each in parts if each.isVisible()]


def overlap(panel):
    panel.rows.activate()
    places = [each.geometry() for each in seen(panel)]
    return any(a.intersects(b) for a, b in combinations(places, 2))


def test_usual_answers_that_would_lie_on_the_field_are_left_out(card):
    panel = card.timer
    many = len([each for each in panel.usual if each.isVisible()])
    assert many == len(panel.usual)
    assert not overlap(panel)
    card.resize(420, 290)
    few = len([each for each in panel.usual if each.isVisible()])
    assert 0 < few < many
    assert not overlap(panel)
    assert panel.rect().contains(panel.ok_button.geometry())
    card.resize(420, 500)
    assert all(each.isVisible() for each in panel.usual)
