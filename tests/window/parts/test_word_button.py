"""Buttons while targets are large: wide enough for a finger, and no narrower than their words."""

import pytest
from PySide6.QtWidgets import QApplication, QHBoxLayout, QWidget

from designer.window.brew.large_button import LargeButton
from designer.window.parts.targets import TARGET_PX, WordButton
from designer.window.parts.theme import apply_scheme

WORDS = "Diesen Gärbehälter übernehmen"


@pytest.fixture
def large(qapp):
    apply_scheme(QApplication.instance(), "light", large=True)
    yield
    apply_scheme(QApplication.instance(), "light")


@pytest.mark.parametrize("kind", [WordButton, LargeButton])
def test_a_layout_gives_a_button_no_less_than_its_words_and_a_target(qtbot, large, kind):
    around = QWidget()
    qtbot.addWidget(around)
    row = QHBoxLayout(around)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(0)
    long, short = kind(WORDS), kind("x")
    row.addWidget(long)
    row.addWidget(short)
    around.resize(60, 60)
    around.show()
    qtbot.waitExposed(around)
    assert long.width() >= long.fontMetrics().horizontalAdvance(WORDS) + 8
    assert short.width() >= TARGET_PX
