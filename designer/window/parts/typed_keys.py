"""Which keys write something."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

_Mod = Qt.KeyboardModifier


def is_typed(event: QKeyEvent) -> bool:
    """Whether a key is a sign that one types, and no command.

    Ctrl and Alt together are the third level of a keyboard, where ½ and € are on some systems.
    """
    command = event.modifiers() & (_Mod.ControlModifier | _Mod.AltModifier | _Mod.MetaModifier)
    third_level = command == (_Mod.ControlModifier | _Mod.AltModifier)
    return event.text().isprintable() and bool(event.text()) and (not command or third_level)
