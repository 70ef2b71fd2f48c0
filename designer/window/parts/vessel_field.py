"""A field for a vessel: a size to be typed, or one of those that are kept on the kitchen's page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple, TypeVar

from PySide6.QtCore import QStringListModel, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QCompleter, QLineEdit

from designer.recipe.quantity import Kind
from designer.translation import named, tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.press_beside import PressBeside
from designer.window.parts.whole_offers import WholeOffers

if TYPE_CHECKING:
    from designer.library.store.kitchen import FermenterRecord, PotRecord

NARROW, WIDEST = 76, 230
Record = TypeVar("Record", "PotRecord", "FermenterRecord")


class KeptVessels(NamedTuple):
    """Pots and fermenters of the kitchen."""

    pots: tuple[PotRecord, ...] = ()
    fermenters: tuple[FermenterRecord, ...] = ()


class VesselField(QLineEdit):
    """A size to be typed, or one of the vessels that are kept: Down shows them."""

    def __init__(self) -> None:
        super().__init__()
        self._names = QStringListModel(self)
        self.textChanged.connect(self._fit_width)
        self._fit_width("")

    def offer(self, names: Sequence[str]) -> None:
        """Offer these names; none at all if there are none."""
        if not names:
            self.setCompleter(None)  # type: ignore[arg-type]
            return
        self._names.setStringList(list(names))
        if self.completer() is None:
            completer = QCompleter(self._names, self)
            completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
            completer.setFilterMode(Qt.MatchFlag.MatchContains)
            # of the two signals of this name, the one with the text
            completer.activated[str].connect(self._take)  # type: ignore[index]
            self.setCompleter(completer)
            WholeOffers(completer, self)
            PressBeside(completer, self)
        self.setToolTip(tr("Type a size, or press Down for the vessels of your kitchen"))

    def setPlaceholderText(self, text: str) -> None:
        super().setPlaceholderText(text)
        self._fit_width(self.text())

    def _take(self, text: str) -> None:
        self.setText(text)
        self.textEdited.emit(text)

    def _fit_width(self, text: str) -> None:
        """Be as wide as a name wants."""
        shown = text or self.placeholderText()
        wanted = self.fontMetrics().horizontalAdvance(shown) + 26
        self.setFixedWidth(min(max(NARROW, wanted), WIDEST))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        completer = self.completer()
        if event.key() == Qt.Key.Key_Down and completer is not None:
            completer.setCompletionPrefix("")
            completer.complete()
            return
        super().keyPressEvent(event)


def _called(record: PotRecord | FermenterRecord, display: DisplayFormat) -> str:
    size = display.kept_text(Kind.VOLUME, record.volume)
    return f"{named(record.name)}, {size}" if size else named(record.name)


def called(records: Sequence[Record], display: DisplayFormat) -> list[str]:
    """Return what vessels are offered as: "Kitchen pot, 9 L"."""
    return [_called(each, display) for each in records]


def chosen(typed: str, records: Sequence[Record], display: DisplayFormat) -> Record | None:
    """Return the vessel whose name is typed, or the beginning of it that no other has."""
    text = typed.strip().casefold()
    named = {_called(each, display).casefold(): each for each in records}
    if text in named or not text or text[0].isdigit():
        return named.get(text)
    begun = [each for name, each in named.items() if name.startswith(text)]
    return begun[0] if len(begun) == 1 else None
