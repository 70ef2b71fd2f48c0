"""Rows of Preferences: one of several, yes or no, a text. Each keeps what is chosen at once."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtWidgets import QLineEdit

from designer.units import ShownUnits
from designer.window.parts.icons import Choice, Tick
from designer.window.parts.settings import Settings


class PickOne(Choice):
    """One of several words; `words` by what is kept."""

    def __init__(
        self,
        settings: Settings,
        name: str,
        label: str,
        words: Mapping[object, str],
        why: str = "",
    ) -> None:
        super().__init__()
        self.name, self.label, self.why = name, label, why
        self._settings = settings
        for key, text in words.items():
            self.addItem(text, key)
        self.setAccessibleName(label)
        self.show_kept()
        self.activated.connect(self._keep)

    def show_kept(self) -> None:
        """Show what is kept; Qt keeps a kind of text as a plain one."""
        kept = getattr(self._settings, self.name)
        self.setCurrentIndex(self.findData(str(kept) if isinstance(kept, ShownUnits) else kept))

    def _keep(self) -> None:
        chosen = self.currentData()
        if chosen != getattr(self._settings, self.name):
            as_kept = ShownUnits(chosen) if self.name == "units" else chosen
            setattr(self._settings, self.name, as_kept)


class TickOne(Tick):
    """Yes or no."""

    def __init__(self, settings: Settings, name: str, label: str, why: str = "") -> None:
        super().__init__(label)
        self.name, self.label, self.why = name, label, why
        self._settings = settings
        self.setAccessibleName(label)
        self.show_kept()
        self.clicked.connect(lambda ticked: setattr(settings, name, ticked))

    def show_kept(self) -> None:
        """Show what is kept."""
        self.setChecked(bool(getattr(self._settings, self.name)))


class TypeOne(QLineEdit):
    """A text, kept once the field is left."""

    def __init__(
        self, settings: Settings, name: str, label: str, example: str, why: str = ""
    ) -> None:
        super().__init__()
        self.name, self.label, self.why = name, label, why
        self._settings = settings
        self.setPlaceholderText(example)
        self.setAccessibleName(label)
        self.show_kept()
        self.editingFinished.connect(self._keep)

    def show_kept(self) -> None:
        """Show what is kept, unless something else is being typed."""
        if not self.isModified():
            self.setText(getattr(self._settings, self.name))

    def _keep(self) -> None:
        self.setModified(False)
        if self.text() != getattr(self._settings, self.name):
            setattr(self._settings, self.name, self.text())
