"""The Help menu: keys, what a word means, and what the program is."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from designer.translation import tr
from designer.window.menus.entries import Entries
from designer.workbench import keys

if TYPE_CHECKING:
    from designer.window.explaining import Explaining


def add_help_menu(
    entries: Entries,
    show_guide: Callable[[], None],
    show_help: Callable[[], None],
    report_problem: Callable[[], None],
    show_about: Callable[[], None],
    explaining: Explaining,
) -> None:
    """Add the Help menu to the menu bar."""
    menu = entries.menu(tr("&Help"))
    entries.add(menu, keys.GUIDE, show_guide)
    entries.add(menu, keys.HELP, show_help)
    entries.add(menu, keys.WHAT_IS_THIS, explaining.of_focus)
    entries.add(menu, tr("&Explain what I click on"), explaining.of_click)
    entries.add(menu, tr("&Glossary…"), explaining.all_terms, drawing="action-glossary")
    menu.addSeparator()
    text, read_kit = tr("A gravity rea&ding, without a recipe…"), entries.window.read_kit
    entries.add(menu, text, read_kit, drawing="action-reading")
    menu.addSeparator()
    entries.add(menu, tr("&Report a problem…"), report_problem)
    entries.add(menu, tr("&About Hobwort"), show_about, drawing="action-about")
