"""A text with a bold beginning, laid out as Qt's own rich text would be."""

from html import escape

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtGui import QAccessible, QTextDocument
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from designer.window.parts.lead_label import LEAST_WIDTH, LeadLabel

TEXTS = (
    "At the boil the pot holds 7.7 L, above the 7.2 L that leave room for foam under its rim.",
    "<b>Not bold</b> & not hidden either",
    "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft",
    "",
)


@pytest.mark.parametrize("width", [140, 260, 520])
@pytest.mark.parametrize("text", TEXTS)
def test_it_is_as_tall_as_rich_text_of_that_width(qtbot, text, width):
    label = LeadLabel()
    qtbot.addWidget(label)
    label.say("Take care:", text)
    rich = QTextDocument()
    rich.setDefaultFont(label.font())
    rich.setDocumentMargin(0.0)
    rich.setHtml(f"<b>Take care:</b> {escape(text)}")
    rich.setTextWidth(width)
    assert label.heightForWidth(width) == pytest.approx(rich.size().height(), abs=1.5)


def test_other_words_and_a_larger_font_are_laid_out_anew(qtbot):
    label = LeadLabel()
    qtbot.addWidget(label)
    label.say("Stop:", "short")
    one = label.heightForWidth(200)
    label.say("Stop:", TEXTS[0])
    several = label.heightForWidth(200)
    assert several >= 2 * one
    font = label.font()
    font.setPointSizeF(2.0 * font.pointSizeF())
    label.setFont(font)
    assert label.heightForWidth(200) > several


def test_no_width_is_too_small_to_answer_for(qtbot):
    label = LeadLabel()
    qtbot.addWidget(label)
    label.say("Stop:", TEXTS[0])
    assert label.heightForWidth(0) == label.heightForWidth(LEAST_WIDTH)


class Column(QWidget):
    """A column that notes when it is to be laid out anew."""

    def __init__(self):
        super().__init__()
        self.asked = 0

    def event(self, event):
        self.asked += event.type() == QEvent.Type.LayoutRequest
        return super().event(event)


def test_words_of_the_same_height_move_nothing_and_are_read_out(qtbot):
    label, column = LeadLabel(), Column()
    qtbot.addWidget(column)
    QVBoxLayout(column).addWidget(label)
    label.say("Stop:", "7.2 L")
    column.resize(400, 300)
    column.show()
    qtbot.waitExposed(column)
    qtbot.waitUntil(lambda: label.width() > 300)
    QApplication.sendPostedEvents()
    asked = column.asked
    label.say("Stop:", "7.3 L")
    QApplication.sendPostedEvents()
    assert column.asked == asked
    assert label.text() == "Stop: 7.3 L"
    heard = QAccessible.queryAccessibleInterface(label)
    assert heard.text(QAccessible.Text.Name) == "Stop: 7.3 L"
    label.say("Stop:", 5 * TEXTS[0])
    QApplication.sendPostedEvents()
    assert column.asked > asked
