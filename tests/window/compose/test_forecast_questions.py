"""The forecast by the brewer's questions: its figures, what a style says of them, what opens."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontInfo
from PySide6.QtWidgets import QApplication, QLabel

from designer.brewday.predictions import MAIN
from designer.brewday.results import Range
from designer.recipe.quantity import Kind
from designer.window.compose.forecast_panel import questions
from designer.window.compose.forecast_type import type_for
from designer.window.compose.style_words import Stands, judged
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.shown_scale import marks_of
from designer.window.session.looking_ahead import Known

PORTER = (1.040, 1.052)
"""Original gravity of an English Porter, BJCP 2021, style 13C."""


@pytest.mark.parametrize(
    ("value", "low", "high", "stands", "said"),
    [
        (1.046, 1.044, 1.048, Stands.INSIDE, "inside English Porter"),
        (1.0524, 1.0516, 1.0524, Stands.INSIDE, "inside English Porter"),
        (1.063, 1.060, 1.066, Stands.OUTSIDE, "0.011 above English Porter"),
        (1.037, 1.030, 1.041, Stands.OUTSIDE, "0.003 below English Porter"),
        (1.051, 1.048, 1.054, Stands.MOSTLY, "mostly inside, may be 0.002 above"),
        (1.041, 1.038, 1.044, Stands.MOSTLY, "mostly inside, may be 0.002 below"),
        (1.046, 1.036, 1.056, Stands.MOSTLY,
         "mostly inside, may be 0.004 below or 0.004 above"),
    ],
)  # fmt: skip
def test_what_a_style_asks_for_is_said_in_words_of_the_figures_shown(
    settings, value, low, high, stands, said
):
    found = Range(value, low, high)
    verdict = judged("original_gravity", found, PORTER, "English Porter", DisplayFormat(settings))
    assert (verdict.stands, verdict.forms[0]) == (stands, said)
    assert len(verdict.forms[-1]) <= len("may be 0.002 above")


def test_in_plato_it_is_said_in_plato(settings):
    settings.gravity = "plato"
    found = Range(1.063, 1.063, 1.063)
    verdict = judged("original_gravity", found, PORTER, "a porter", DisplayFormat(settings))
    # 15.4 less 12.9, by the table of ASBC Beer Methods (from memory: 1.052 is 12.85 °P).
    assert verdict.forms[0] == "2.5 above a porter"


def test_marks_of_a_ruler_are_round_on_the_scale_that_is_shown(settings):
    display = DisplayFormat(settings)
    settings.colour = "ebc"
    assert [text for _, text in marks_of("colour_srm", 0.0, 45.0, display, 6)] == [
        "0", "20", "40", "60", "80 EBC",
    ]  # fmt: skip
    settings.gravity = "plato"
    marks = marks_of("original_gravity", 1.000, 1.080, display, 5)
    assert [text for _, text in marks] == ["0", "5", "10", "15 °P"]
    # 10 °P is 1.040 to the third place: ASBC, from memory.
    assert marks[2][0] == pytest.approx(1.040, abs=5e-4)
    assert len(marks_of("bitterness_ibu", 0.0, 812.0, display, 4)) <= 4


def test_every_forecast_answers_once_and_gravities_stand_on_one_ruler():
    asked = questions()
    keys = [each.key for lead, ruled in asked for each in (lead, *ruled)]
    assert sorted(keys) == sorted(each.key for each in MAIN)
    lead, ruled = asked[0]
    assert lead.key == "abv_percent"
    assert [each.key for each in ruled] == ["final_gravity", "original_gravity"]
    assert not [lead for lead, _ in asked if lead.kind is Kind.GRAVITY]


def test_no_type_on_the_page_is_larger_than_the_figures(window):
    page = window.compose
    faces = type_for(page.font(), page.forecast.width())
    largest = max(QFontInfo(label.font()).pixelSize() for label in page.findChildren(QLabel))
    assert faces.ruled.font.pixelSize() >= 1.3 * largest
    assert faces.figure.font.pixelSize() > faces.ruled.font.pixelSize()


@pytest.mark.parametrize("size", [(1024, 600), (1280, 800), (1920, 1080)])
def test_no_row_is_cut_and_all_are_as_wide_as_there_is_room(qtbot, window, size):
    window.resize(*size)
    qtbot.waitUntil(lambda: window.compose.forecast.width() > 0.36 * window.width())
    for asked in window.compose.forecast.questions:
        qtbot.waitUntil(lambda one=asked: one.height() >= one.heightForWidth(one.width()))
        for row in asked.rows:
            assert asked.rect().contains(row.geometry())
        lead, *ruled = asked.rows
        for one, other in zip([lead, *ruled], ruled, strict=False):
            assert one.geometry().right() <= other.geometry().left() + 2


@pytest.mark.parametrize("key", [each.key for each in MAIN])
def test_each_opens_below_its_question_by_the_keyboard(qtbot, window, key):
    panel = window.compose.forecast
    row = next(each for each in panel.rows if each.key == key)
    row.setFocus()
    qtbot.waitUntil(lambda: QApplication.focusWidget() is row)
    qtbot.keyClick(row, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: panel.behind is not None and panel.behind.isVisible())
    asked = next(each for each in panel.questions if row in each.rows)
    qtbot.waitUntil(lambda: panel.behind.y() == asked.geometry().bottom() + 1)
    qtbot.keyClick(row, Qt.Key.Key_Space)
    assert not panel.behind.isVisible()


def test_marks_on_vessels_are_named_as_marks(window):
    said = window.compose.vessels.accessibleDescription()
    assert "foam line 7.2 L, keep below" in said
    assert "krausen line 10.2 L, keep below" in said


def on_screen(window):
    """The picture that stands on the screen, of which each key paints a part."""
    QApplication.processEvents()
    return window.screen().grabWindow(window.winId()).toImage()


def test_what_a_key_paints_leaves_nothing_of_what_stood_there(qtbot, window):
    lines = window.compose.fermentables.model
    qtbot.waitUntil(lambda: window.opened.known is Known.ALL)
    for amount in ("1.04 kg", "1.08 kg", "1.01 kg"):
        before = on_screen(window)
        assert lines.setData(lines.index(0, 0), amount)
        qtbot.waitUntil(lambda: window.opened.known is Known.ALL)
        painted = on_screen(window)
        assert painted != before
        window.compose.forecast.hide()
        window.compose.forecast.show()
        window.update()
        assert on_screen(window) == painted
