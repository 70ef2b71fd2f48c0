"""A dialog of which parts scroll."""

from __future__ import annotations

from PySide6.QtWidgets import QDialog

from designer.window.parts.scrolling import bring_keyboard_into_view


class ScrollingDialog(QDialog):
    """Where Tab leads is seen, though it may have been scrolled away."""

    def focusNextPrevChild(self, forward: bool) -> bool:
        has_moved = super().focusNextPrevChild(forward)
        bring_keyboard_into_view()
        return has_moved
