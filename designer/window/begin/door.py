"""A door: what lies behind it begins a recipe, or is refused beside the field at fault."""

from __future__ import annotations

from PySide6.QtCore import Signal, SignalInstance
from PySide6.QtWidgets import QFrame, QWidget

from designer.errors import RefusedInputError
from designer.library.round_trip import as_held
from designer.recipe.document import Recipe
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import Refusal


class Door(QFrame):
    """What is shown once its door is open; `begun` carries the recipe to go on with."""

    begun = Signal(object)

    def __init__(self, display: DisplayFormat, refuse_beside: QWidget) -> None:
        super().__init__()
        self._display = display
        self.refusal = Refusal(refuse_beside)

    def order_tabs(self) -> None:
        """Put the order of Tab right, once all doors lie in one window."""

    def take_focus(self) -> None:
        """Give the keyboard to what comes first."""

    def ask_box(self) -> None:
        """Ask the Recipe box for what it keeps and the door has use for."""

    def close_down(self) -> None:
        """Let go of what goes on beside the page, for the end of the program."""

    def refuse(self, fault: RefusedInputError) -> None:
        """Say why it cannot be done so."""
        self.refusal.say(fault)

    def begin_with(self, recipe: Recipe, through: SignalInstance | None = None) -> None:
        """Go through the door, unless no file could hold the recipe behind it.

        `through` is another signal than `begun` that carries it.
        """
        try:
            recipe = as_held(Recipe(), recipe)
        except RefusedInputError as fault:
            self.refuse(fault)
        else:
            self.refusal.clear()
            (through or self.begun).emit(recipe)
