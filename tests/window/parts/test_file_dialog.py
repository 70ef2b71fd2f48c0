"""Qt's own file dialog in the program's dress."""

import pytest
from PySide6.QtWidgets import QFileDialog, QToolButton

from designer.window.parts.theme import apply_scheme

LEAST = 7


def seen_of(button):
    """Width and height of what is drawn inside a button and stands out from its ground."""
    image = button.grab().toImage()
    ground = image.pixelColor(4, 4)
    marks = [
        (x, y)
        for x in range(3, image.width() - 3)
        for y in range(3, image.height() - 3)
        if abs(image.pixelColor(x, y).lightness() - ground.lightness()) > 60
    ]
    if not marks:
        return 0, 0
    across, down = zip(*marks, strict=True)
    return max(across) - min(across) + 1, max(down) - min(down) + 1


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_each_button_of_a_file_dialog_shows_its_sign(qtbot, qapp, settings, tmp_path, scheme):
    apply_scheme(qapp, scheme)
    dialog = QFileDialog(None, "", str(tmp_path))
    dialog.setOption(QFileDialog.Option.DontUseNativeDialog)
    qtbot.addWidget(dialog)
    with qtbot.waitExposed(dialog):
        dialog.show()
    buttons = [each for each in dialog.findChildren(QToolButton) if each.isVisible()]
    assert len(buttons) >= 6
    for button in buttons:
        button.setEnabled(True)
        across, down = seen_of(button)
        assert across >= LEAST, button.objectName()
        assert down >= LEAST, button.objectName()
    apply_scheme(qapp, "light")
