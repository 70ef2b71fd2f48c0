"""Names of levels beside the drawn pot and fermenter are read whole, however narrow it is."""

from itertools import combinations

import pytest
from PySide6.QtGui import QImage, QPainter

from designer.window.parts.vessels_drawing import LEAST, Level, Vessel, VesselsDrawing

FULL = ("ganz voll, beim Aufkochen, das ist so hoch wie es steigt",) * 3
GERMAN = ("Schaum\u00adgrenze 7,2 L", "6,7 L am vollsten", "6 L am Ende")
BUCKET = ("Schaum\u00adgrenze 10,2 L", "10 L insgesamt", "5,3 L Würze")
ENGLISH = ("foam 7 L", "7 L full", "6 L end")


class NotedPainter(QPainter):
    """Keeps where each text is drawn."""

    def __init__(self, image):
        super().__init__(image)
        self.said = []

    def drawText(self, place, flags, text):  # noqa: N802 - a name of Qt's
        self.said.append((place, text))
        super().drawText(place, flags, text)


def shown(qtbot, display, *names, width):
    drawing = VesselsDrawing(display)
    qtbot.addWidget(drawing)
    drawing.resize(width, LEAST)
    vessels = [
        Vessel("Topf", 9.0, 6.7, "#884422", tuple(
            Level(litres, text, brief, "#000000")
            for litres, text, brief in zip((7.2, 6.7, 6.0), FULL, each, strict=True)
        )) for each in names
    ]  # fmt: skip
    drawing.show_vessels(lambda _: tuple(vessels))
    return drawing


def levels_said(drawing):
    """Where the names of levels are drawn, at the least height that is asked for."""
    drawing.resize(drawing.width(), drawing.minimumSizeHint().height())
    image = QImage(drawing.size(), QImage.Format.Format_RGB32)
    with NotedPainter(image) as painter:
        drawing._paint(painter)
        return [(place, text) for place, text in painter.said if "Topf" not in text]


@pytest.mark.parametrize("width", [300, 334, 380, 460])
def test_no_name_of_a_level_is_cut_or_lies_on_another(qtbot, display, width):
    drawing = shown(qtbot, display, GERMAN, BUCKET, width=width)
    said = levels_said(drawing)
    assert len(said) == 6
    assert all(drawing.rect().toRectF().contains(place) for place, _ in said)
    assert not any(a.intersects(b) for (a, _), (b, _) in combinations(said, 2))


def test_a_figure_stays_beside_its_unit_though_a_long_word_is_parted(qtbot, display):
    said = levels_said(shown(qtbot, display, GERMAN, BUCKET, width=300))
    assert [text for _, text in said if "grenze" in text] == [
        "Schaum\u00adgrenze 7,2\u00a0L",
        "Schaum\u00adgrenze 10,2\u00a0L",
    ]


def test_short_names_take_no_more_height(qtbot, display):
    drawing = shown(qtbot, display, ENGLISH, ENGLISH, width=440)
    assert drawing.minimumSizeHint().height() == LEAST
    long = shown(qtbot, display, GERMAN, BUCKET, width=300)
    assert long.minimumSizeHint().height() > LEAST
