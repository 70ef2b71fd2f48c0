"""The terms of the trade, explained where they stand and in the glossary."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

if TYPE_CHECKING:
    from designer.window.parts.explained import Explainer


class Explaining:
    """What the Help menu asks for; `explainer` answers the pointer and the screen reader too."""

    def __init__(self, window: QWidget) -> None:
        self._window = window

    def begin(self) -> None:
        """Answer from now on, once the window has been painted."""
        self.explainer  # noqa: B018 - it is made when first asked for

    @cached_property
    def explainer(self) -> Explainer:
        """The filter that answers for the window."""
        from designer.window.parts.explained import Explainer  # the first picture does without

        return Explainer(self._window)

    def of_focus(self) -> None:
        """Explain the terms of what has the keyboard."""
        self.explainer.explain_focus()

    def of_click(self) -> None:
        """Explain the terms of what is clicked next."""
        from PySide6.QtWidgets import QWhatsThis

        self.begin()
        QWhatsThis.enterWhatsThisMode()

    def all_terms(self) -> None:
        """Show the glossary."""
        from designer.window.glossary_list import GlossaryList

        GlossaryList(self._window).open()
