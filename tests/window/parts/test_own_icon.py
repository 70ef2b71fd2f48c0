"""The program's own icon: its pictures are those of its drawing, and read on light and dark."""

import xml.etree.ElementTree as ElementTree

import numpy
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtSvg import QSvgRenderer

from designer.resource_files import resource_path
from designer.window.parts.own_icon import SIZES, own_icon


def grey(image):
    """Return a picture on a white ground as numbers from 0 to 255."""
    ground = QImage(image.size(), QImage.Format.Format_Grayscale8)
    ground.fill(QColor("white"))
    with QPainter(ground) as painter:
        painter.drawImage(0, 0, image)
    lines = numpy.frombuffer(ground.constBits(), numpy.uint8).reshape(ground.height(), -1)
    return lines[:, : ground.width()].astype(float)


def drawn(name, size):
    image = QImage(size, size, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(Qt.GlobalColor.transparent)
    with QPainter(image) as painter:
        QSvgRenderer(str(resource_path(f"icons/{name}.svg"))).render(painter)
    return image


@pytest.mark.parametrize("size", [*SIZES, 256])
def test_each_picture_of_the_icon_is_its_drawing_in_that_size(qapp, size):
    picture = QImage(str(resource_path(f"icons/hobwort-{size}.png")))
    assert (picture.width(), picture.height()) == (size, size)
    assert abs(grey(picture) - grey(drawn("hobwort", size))).mean() < 2.0


def test_the_window_has_the_icon_in_every_size_that_a_task_bar_asks_for(qapp):
    sizes = {size.width() for size in own_icon().availableSizes()}
    assert sizes == set(SIZES)
    assert not own_icon().pixmap(48, 48).isNull()


def test_the_symbolic_icon_is_filled_in_one_colour_that_a_desktop_can_change(qapp):
    root = ElementTree.parse(resource_path("icons/hobwort-symbolic.svg")).getroot()
    inks = {each.get("fill") for each in root.iter() if each.get("fill")}
    assert len(inks) == 1
    assert not [each for each in root.iter() if each.get("stroke")]
    assert root.get("viewBox") == "0 0 16 16"
    assert grey(drawn("hobwort-symbolic", 16)).min() < 120
