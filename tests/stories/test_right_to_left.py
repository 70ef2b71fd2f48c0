"""In a language that is written from right to left no amount turns around: "5 kg" stays "5 kg"."""

import os
import re
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QTextLayout, QTextOption
from PySide6.QtWidgets import QApplication, QLabel

from designer import translation
from designer.recipe.quantity import Kind
from designer.translation import isolated, tr
from tests.active_window import made_active

LETTERS = "אבגדהוזחטיכלמנסעפצקרשתאבגד"
TURNED = str.maketrans("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ", 2 * LETTERS)
AMOUNT = re.compile(r"\d+(?:\.\d+)? (?:kg|g|L|min|°C|IBU|EBC|SRM)")
"""Per cent often stands in the sentence itself, where its translator puts it."""


class _Hebrew:
    """No language: each letter of a sentence is a Hebrew one, its places stay."""

    def gettext(self, text):
        pieces = re.split(r"(\{[^}]*\}|<[^>]+>|&\w+;)", text)
        return "".join(each if n % 2 else each.translate(TURNED) for n, each in enumerate(pieces))

    def pgettext(self, context, message):
        return self.gettext(message)

    def ngettext(self, one, many, number):
        return self.gettext(one if number == 1 else many)


@pytest.fixture
def turned(qapp):
    translation.use(_Hebrew(), "he")
    qapp.setLayoutDirection(Qt.LayoutDirection.RightToLeft)
    yield
    qapp.setLayoutDirection(Qt.LayoutDirection.LeftToRight)
    translation.use(None)


def seen(text):
    """Return the signs of a line from left to right, as they are seen."""
    layout = QTextLayout(text)
    option = QTextOption()
    option.setTextDirection(Qt.LayoutDirection.RightToLeft)
    layout.setTextOption(option)
    layout.beginLayout()
    line = layout.createLine()
    line.setLineWidth(100_000)
    layout.endLayout()
    glyphs = [
        (place.x(), at)
        for run in layout.glyphRuns(-1, -1, QTextLayout.GlyphRunRetrievalFlag.RetrieveAll)
        for at, place in zip(run.stringIndexes(), run.positions(), strict=True)
    ]
    return "".join(text[at] for _, at in sorted(glyphs) if text[at] not in "\u2066\u2068\u2069")


def test_without_marks_an_amount_would_turn_around(turned):
    assert seen("5 kg") == "kg 5"
    assert seen(isolated("5 kg")) == "5 kg"
    assert seen(isolated("4–6 %")) == "4–6 %"
    assert "5 kg" in seen(tr("{amount} of {name}", amount="5 kg", name="malt"))
    assert isolated("") == ""


def test_other_languages_have_no_marks(display):
    assert isolated("5 kg") == "5 kg"
    assert display.value(Kind.MASS, 5.0) == "5 kg"


def test_amounts_on_the_page_do_not_turn_around(turned, qtbot, opened, settings, answers):
    from designer.window.main_window import MainWindow

    window = MainWindow(opened, settings, answers)
    qtbot.addWidget(window, before_close_func=lambda one: one.opened.undo_stack.setClean())
    window.resize(1280, 800)
    with qtbot.waitSignal(opened.outlook_changed):
        window.show()
    made_active(qtbot, window)
    shown = []
    for panel in (window.compose.fermentables, window.compose.hops, window.compose.extras):
        model = panel.model
        for row in range(model.rowCount() - 1):
            for column in range(model.columnCount()):
                shown.append(model.data(model.index(row, column)) or "")
    window.compose.forecast.rows[0].setChecked(True)
    QApplication.processEvents()
    shown += [
        line for each in window.compose.findChildren(QLabel) for line in each.text().split("\n")
    ]
    amounts = {found for text in shown for found in AMOUNT.findall(text)}
    assert {"1 kg", "400 g", "27.6 IBU"} <= amounts
    bad = [text for text in shown for found in AMOUNT.findall(text) if found not in seen(text)]
    assert bad == []
    assert window.compose.day_line.layoutDirection() is Qt.LayoutDirection.LeftToRight
    if os.environ.get("HOBWORT_PICTURES"):
        window.grab().save(str(Path(os.environ["HOBWORT_PICTURES"]) / "right_to_left.png"))
