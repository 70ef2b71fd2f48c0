"""The menu at the head of a list: which of its columns are shown."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable
from functools import partial

from PySide6.QtWidgets import QMenu, QWidget

from designer.translation import tr
from designer.window.parts.letters import lettered_when_opened
from designer.window.parts.plain_text import caption


def columns_menu(
    parent: QWidget,
    titles: Iterable[str],
    hidden: Collection[str],
    choose: Callable[[str, bool], None],
) -> QMenu:
    """Return a menu of columns by their English titles; `choose` is told which is to be shown."""
    menu = QMenu(tr("Columns"), parent)
    lettered_when_opened(menu)
    for title in titles:
        entry = menu.addAction(caption(tr(title)))
        entry.setCheckable(True)
        entry.setChecked(title not in hidden)
        entry.toggled.connect(partial(choose, title))
    return menu
