"""The pack sizes of the shop, as the Recipe box keeps them, for a page that tells them.

Until the box has answered, and where there is none, the usual sizes count.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from designer.library.packs import PackSize, packs
from designer.library.store.shop import shop_packs
from designer.window.parts.display_format import DisplayFormat

if TYPE_CHECKING:
    from designer.window.session.autosave import Autosave


class ShopSizes(QObject):
    """The sizes of the set that belongs to the shown units; `changed` when they become others.

    `key` is that of the question, so that one page's is not taken for another's.
    """

    changed = Signal()

    def __init__(
        self,
        display: DisplayFormat,
        autosave: Callable[[], Autosave | None],
        parent: QObject,
        *,
        key: str,
    ) -> None:
        super().__init__(parent)
        self._display, self._autosave, self._key = display, autosave, key
        self._kept: tuple[str, tuple[PackSize, ...]] | None = None

    def sizes(self) -> tuple[PackSize, ...]:
        """Return the sizes that count: those kept in the Recipe box, else the usual ones."""
        pack_set = self._display.pack_set
        if self._kept is not None and self._kept[0] == pack_set:
            return self._kept[1]
        return packs(pack_set)

    def ask(self) -> None:
        """Ask the box for the sizes it keeps."""
        autosave, pack_set = self._autosave(), self._display.pack_set
        if autosave is None:
            return
        autosave.store.ask(
            lambda store: (pack_set, shop_packs(store, pack_set)),
            self._take,
            key=self._key,
        )

    def follow_units(self) -> None:
        """Ask again where other units have brought another set."""
        if self._kept is not None and self._kept[0] != self._display.pack_set:
            self.ask()

    def _take(self, found: tuple[str, tuple[PackSize, ...]]) -> None:
        before = self.sizes()
        self._kept = found
        if self.sizes() != before:
            self.changed.emit()
