"""The parts of the page, one shown at a time, each put together when it is first shown."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QStackedWidget, QVBoxLayout, QWidget

from designer.window.brew.part_names import PARTS, Part
from designer.window.parts.page_frame import MARGIN


class BrewPart(QWidget):
    """A part of the page, as the page sees it."""

    def refresh(self) -> None:
        """Show the brew as it stands; the page asks for it while the part is shown."""

    def take_focus(self) -> None:
        """Take the keyboard: the part has just been shown."""

    def type_in(self, text: str) -> None:
        """Take up what was typed elsewhere, in the first field; nothing of it is kept yet."""

    def ask_reading(self) -> None:
        """Ask for a reading, where a beer is that can have one."""

    def close_down(self) -> None:
        """Let go of what goes on beside it, for the end of the program."""


class PageParts(QStackedWidget):
    """Holds the parts that were hung in, by their keys."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._makes: dict[Part, Callable[[], BrewPart]] = {}
        self._made: dict[Part, BrewPart] = {}
        self.shown = Part.STOVE

    def hang(self, key: Part, make: Callable[[], BrewPart]) -> None:
        """Offer a part, which `make` puts together once it is wanted."""
        self._makes[key] = make

    @property
    def keys(self) -> tuple[Part, ...]:
        """The parts there are, in their order."""
        return tuple(each for each in PARTS if each in self._makes)

    def of(self, key: Part) -> BrewPart:
        """Return a part, put together if it has not been yet."""
        if key not in self._made:
            self._made[key] = part = self._makes[key]()
            self.addWidget(part)
        return self._made[key]

    @property
    def current(self) -> BrewPart:
        """The part that is shown."""
        return self.of(self.shown)

    def show_part(self, key: Part) -> None:
        """Show a part."""
        self.shown = key
        self.setCurrentWidget(self.of(key))

    def close_down(self) -> None:
        """Let every part let go of what goes on beside it."""
        for each in self._made.values():
            each.close_down()


class WithMargin(BrewPart):
    """A part with room around it; `refresh` and `take_focus` are those of what is in it."""

    def __init__(
        self, within: QWidget, refresh: Callable[[], None], focus: QWidget | None = None
    ) -> None:
        super().__init__()
        self._refresh, self._focus = refresh, focus or within
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, 0, MARGIN, 10)
        layout.addWidget(within)

    def refresh(self) -> None:
        self._refresh()

    def take_focus(self) -> None:
        self._focus.setFocus()
