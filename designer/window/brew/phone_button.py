"""The phone beside the stove: its page is made, or what was ticked and typed in it comes back."""

from __future__ import annotations

from PySide6.QtCore import SignalInstance
from PySide6.QtWidgets import QMenu

from designer.translation import tr
from designer.window.brew.large_button import LargeButton


class PhoneButton(LargeButton):
    """A button with a menu of both ways."""

    def __init__(self, onto: SignalInstance, back: SignalInstance) -> None:
        super().__init__(tr("Phone"), tr("The brew day on your phone, and its log back from there"))
        ways = QMenu(self)
        self.back = ways.addAction(tr("From the phone…"), back.emit)
        self.onto = ways.addAction(tr("Onto the phone…"), onto.emit)
        self.setMenu(ways)
