"""Texts can be read and the keyboard is seen, in every scheme, as they are really painted.

WCAG 2.2: 1.4.3, 1.4.11, 2.4.7; how it is measured: `tests/contrast.py`. With
HOBWORT_EVERY_SCHEME=yes (`python -m tests.contrast`) every page is walked in every scheme.
"""

import os

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtWidgets import QApplication, QPushButton, QWidget

from designer.window.parts.theme import apply_scheme
from tests.active_window import made_active
from tests.contrast import focus_ring, of_text, pixels_of, too_pale
from tests.painted_contrast import pale_cells, pale_paint

from .walking import filled, saved_on_its_clock, walk

EVERY = os.environ.get("HOBWORT_EVERY_SCHEME")
SCHEMES = [("light", "usual"), ("dark", "usual")]
if EVERY:
    SCHEMES += [("light", "high"), ("dark", "high")]
LEAST_RING = 0.8
"""Of the length of an edge a pixel wide, so much at least changes by 3 to 1."""
IN_EACH = pytest.mark.parametrize(
    ("scheme", "contrast"), SCHEMES, ids=[" ".join(each) for each in SCHEMES]
)


def test_what_is_too_pale_is_found(qtbot):
    button = QPushButton("Kept")
    button.setStyleSheet("color: #777777; background: #ffffff; border: none; font-size: 40px")
    qtbot.addWidget(button)
    button.show()
    assert of_text(pixels_of(button)) == pytest.approx(4.48, abs=0.02)  # of #777777 on white


@IN_EACH
def test_all_that_compose_says_can_be_read(window, scheme, contrast):
    apply_scheme(QApplication.instance(), scheme, contrast)
    QApplication.processEvents()
    assert too_pale(window) == []


def test_a_text_painted_too_pale_is_found(qtbot):
    class Drawn(QWidget):
        def paintEvent(self, event):  # noqa: N802 - Qt's own name
            with QPainter(self) as painter:
                painter.fillRect(self.rect(), QColor("#ffffff"))
                painter.setPen(QColor("#777777"))
                painter.drawText(QPoint(10, 40), "kept")
                painter.setPen(QColor("#767676"))
                painter.drawText(QRect(10, 50, 100, 40), 0, "seen")

    drawn = Drawn()
    qtbot.addWidget(drawn)
    drawn.resize(120, 100)
    drawn.show()
    assert pale_paint(drawn) == [("Drawn", "kept", 4.48)]  # of #777777 on white; #767676 has 4.54


@IN_EACH
def test_all_that_compose_paints_and_lists_can_be_read(qtbot, window, scheme, contrast):
    apply_scheme(QApplication.instance(), scheme, contrast)
    QApplication.processEvents()
    view = window.compose.hops.view
    view.setFocus()
    view.setCurrentIndex(view.model().index(0, 1))
    assert pale_paint(window) == []
    assert pale_cells(window) == []


@IN_EACH
def test_where_the_keyboard_is_can_be_seen(qtbot, window, scheme, contrast):
    apply_scheme(QApplication.instance(), scheme, contrast)
    made_active(qtbot, window)
    page = window.compose
    of_each_kind = (
        page.process.by_place["process.boil_time"],
        window.header.name,
        window.header.style_field,
        page.fermentables.add_button,
        page.styles.link,
        page.hops.view,
        page.forecast.rows[0],
        page.forecast.rows[2],
        page.day_line,
        page.wort_button,
        page.process.more_button,
        *window.header.page_buttons.buttons()[1:2],
    )
    shown = {
        f"{type(each).__name__} {each.accessibleName()}": focus_ring(each) for each in of_each_kind
    }
    assert {name: round(share, 2) for name, share in shown.items() if share < LEAST_RING} == {}


@pytest.mark.skipif(not EVERY, reason="python -m tests.contrast")
@IN_EACH
def test_every_page_can_be_read(qtbot, opened, on_a_box, folder, scheme, contrast):
    filled(folder)
    window = on_a_box(opened)
    apply_scheme(QApplication.instance(), scheme, contrast)
    found = {}

    def see(place, widget):
        QApplication.processEvents()
        for each in (*too_pale(widget), *pale_paint(widget), *pale_cells(widget)):
            found.setdefault(each, place)

    clock = saved_on_its_clock(qtbot, window)
    walk(see, qtbot, window, clock)
    assert not found, "\n".join(f"{place}: {each}" for each, place in found.items())


@pytest.mark.parametrize("scale", [1.25, 1.5])
def test_no_dark_edge_is_left_round_what_paints_its_own_ground(window, scale):
    below = window.compose.day_line.parentWidget()
    image = QImage(below.size() * scale, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(scale)
    image.fill(Qt.GlobalColor.black)
    below.render(image)
    edge = window.compose.day_line.geometry()
    across = range(int((edge.right() - 1) * scale), int((edge.right() + 3) * scale))
    down = int((edge.top() + 30) * scale)
    assert {image.pixelColor(each, down).lightnessF() > 0.9 for each in across} == {True}
