"""Colours in lists: each has its edge, and looks the same in a row that is chosen."""

from PySide6.QtCore import QSize
from PySide6.QtGui import QColor, QIcon

from designer.window.parts.colour_signs import bar_icon, no_sign, swatch_icon
from designer.window.parts.inks import DARK, LIGHT

PLACE = QSize(16, 16)


def test_a_chosen_row_does_not_tint_a_colour(qapp):
    for made in (swatch_icon, bar_icon):
        icon = made("#843c14", LIGHT.line_strong)
        plain, chosen = (
            icon.pixmap(PLACE, mode).toImage() for mode in (QIcon.Mode.Normal, QIcon.Mode.Selected)
        )
        assert plain == chosen
        middle = plain.pixelColor(plain.width() // 2, plain.height() // 2)
        assert middle == QColor("#843c14")


def test_a_dark_grain_has_an_edge_on_a_dark_ground(qapp):
    image = swatch_icon("#1c120e", DARK.line_strong).pixmap(PLACE).toImage()
    middle = image.height() // 2
    shades = {image.pixelColor(x, middle).lightness() for x in range(image.width())}
    assert max(shades) > QColor(DARK.paper).lightness() + 60


def test_a_row_without_a_sign_keeps_the_room_of_one(qapp):
    assert no_sign().availableSizes() == swatch_icon("#843c14", "#000000").availableSizes()
