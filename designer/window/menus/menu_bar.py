"""The menu bar: its menus in their order, each of a module of its own."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from designer.window.menus.brew_day_menu import add_brew_day_menu
from designer.window.menus.edit_menu import add_edit_menu
from designer.window.menus.entries import Entries
from designer.window.menus.file_menu import FileMenu
from designer.window.menus.help_menu import add_help_menu
from designer.window.menus.view_menu import add_view_menu
from designer.window.parts.letters import letter

if TYPE_CHECKING:
    from designer.window.explaining import Explaining
    from designer.window.find.finding import Finding
    from designer.window.paged_window import PagedWindow
    from designer.window.recipe_files import RecipeFiles


class Menus:
    """The menu bar of a window; `actions` are its entries in their order."""

    def __init__(
        self,
        window: PagedWindow,
        files: RecipeFiles,
        show_guide: Callable[[], None],
        show_help: Callable[[], None],
        report_problem: Callable[[], None],
        show_about: Callable[[], None],
        explaining: Explaining,
        finding: Finding,
    ) -> None:
        self._entries = entries = Entries(window)
        self.actions = entries.actions
        self.file = FileMenu(entries, files)
        add_edit_menu(entries, finding)
        add_view_menu(entries)
        if window.keeping.has_box:
            add_brew_day_menu(entries)
        add_help_menu(entries, show_guide, show_help, report_problem, show_about, explaining)
        letter(window.menuBar())
        entries.offer()

    def look(self) -> None:
        """Switch all entries on and off as they would be in open menus."""
        self._entries.look()

    def begin(self) -> None:
        """Follow the keyboard from now on, once the window has been painted."""
        self._entries.keyboard  # noqa: B018 - it is made when first asked for
