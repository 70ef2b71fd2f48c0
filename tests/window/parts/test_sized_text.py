"""What a text was measured to be is kept for as long as it is so, and no longer."""

import pytest
from PySide6.QtGui import QFont

from designer.window.parts.lead_label import LeadLabel
from designer.window.parts.sized_text import SizedText, height_of, sized, width_of

LONG = "Stir in the extract with the burner off, until none of it lies on the bottom of the pot"


@pytest.fixture
def text(qtbot):
    made = SizedText(wraps=True, bold=True)
    qtbot.addWidget(made)
    made.say("Stir")
    return made


def as_measured(text, pixels):
    font = sized(text.font(), pixels, bold=True)
    return width_of(font, text.text()), height_of(font, text.text(), 200.0)


def as_told(text, pixels):
    return text.wanted_width(pixels), text.wanted_height(200.0, pixels)


def test_a_text_is_as_large_as_what_it_says_now(text):
    for pixels in (12.0, 19.6, 20.4, 31.0):
        assert as_told(text, pixels) == as_measured(text, pixels)
    short = as_told(text, 20.0)
    text.say(LONG)
    assert as_told(text, 20.0) == as_measured(text, 20.0) > short


def test_a_text_in_another_type_is_measured_in_that(text):
    text.say(LONG)
    before = as_told(text, 20.0)
    font = QFont(text.font())
    font.setStretch(150)
    text.setFont(font)
    assert as_told(text, 20.0) == as_measured(text, 20.0) > before


def test_a_label_tells_how_high_it_would_be_in_another_size_without_taking_it(qtbot):
    label = LeadLabel()
    qtbot.addWidget(label)
    label.say("Take care:", LONG)
    usual, large = QFont(label.font()), sized(label.font(), 40.0)
    for width in (150, 400):
        told = label.height_in(large, width)
        assert label.font() == usual
        label.setFont(large)
        assert label.heightForWidth(width) == told == label.height_in(large, width)
        label.setFont(usual)
        assert label.heightForWidth(width) == label.height_in(usual, width) < told
    high = label.height_in(large, 150)
    label.say("Take care:", "hot")
    assert label.height_in(large, 150) < high
