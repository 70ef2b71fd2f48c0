"""Whether there is a screen that can be touched; what then looks at touches is in `fingers.py`."""

from __future__ import annotations

from PySide6.QtGui import QInputDevice


def has_touch_screen() -> bool:
    """Return whether a screen can be touched; one may be plugged in at any time."""
    screen = QInputDevice.DeviceType.TouchScreen
    return any(each.type() == screen for each in QInputDevice.devices())
