"""A window with one open recipe, as those see it who keep the recipe, speak and ask."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QMainWindow, QStackedWidget

from designer.translation import tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.fields import TextField
from designer.window.parts.settings import Settings
from designer.window.session.open_recipe import UNNAMED, OpenRecipe

if TYPE_CHECKING:
    from designer.window.parts.message_bar import MessageBar
    from designer.window.parts.questions import Questions
    from designer.window.session.autosave import Autosave
    from designer.window.session.box_maintenance import BoxMaintenance


class RecipeWindow(QMainWindow):
    """Holds the open recipe and the preferences; `pages` is what messages lie over.

    `autosave` and `maintenance` are there from when the Recipe box is opened.
    """

    def __init__(
        self, opened: OpenRecipe, settings: Settings, questions: Questions | None = None
    ) -> None:
        super().__init__()
        self.opened, self.settings = opened, settings
        self.display = DisplayFormat(settings)
        self.pages = QStackedWidget()
        self.autosave: Autosave | None = None
        self.maintenance: BoxMaintenance | None = None
        self._questions = questions
        self._messages: MessageBar | None = None

    @property
    def messages(self) -> MessageBar:
        """What the program has to say, over the pages; put together with the first word."""
        if self._messages is None:
            from designer.window.parts.message_bar import MessageBar

            self._messages = MessageBar()
            self._messages.float_over(self.pages)
        return self._messages

    @property
    def questions(self) -> Questions:
        """What asks in dialogs; put together when first wanted."""
        if self._questions is None:
            from designer.window.parts.questions import Questions

            self._questions = Questions()
        return self._questions

    def settle_messages(self) -> None:
        """The recipe was changed: what was said before is older now."""
        if self._messages is not None:
            self._messages.outdate()
            self._messages.settle()

    def recipe_name(self) -> str:
        """What the open recipe is called."""
        return self.opened.recipe.name or tr(UNNAMED)

    def folder(self) -> str:
        """Where a file is looked for first: beside the open one, or the last."""
        if self.opened.path is not None:
            return str(self.opened.path.parent)
        recent = self.settings.recent
        return str(Path(recent[0]).parent) if recent else str(Path.home())

    def finish_typing(self) -> None:
        """Let the field that has the keyboard put in what was typed."""
        focus = QApplication.focusWidget()
        if focus is not None and self.isAncestorOf(focus):
            focus.clearFocus()

    @contextmanager
    def typing_taken(self) -> Iterator[None]:
        """Let what was typed so far be taken, and the field go on at the same place after that.

        A cell of a table stays closed: what is typed next would take the place of all it holds.
        """
        focus = QApplication.focusWidget()
        field = focus if isinstance(focus, TextField) else None
        place = field.cursorPosition() if field is not None else 0
        self.finish_typing()
        yield
        if field is not None and field.isVisible():
            field.setFocus(Qt.FocusReason.OtherFocusReason)
            field.setCursorPosition(place)
