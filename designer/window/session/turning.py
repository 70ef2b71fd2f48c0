"""What undo and redo act on: the open recipe, or at the stove the log of the brew.

What was taken out of the Recipe box, taken out of the Kitchen or typed there is no step of either.
It is taken back first, the last before the one before, until another page is shown or the recipe
is changed.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoStack

from designer.translation import tr

if TYPE_CHECKING:
    from designer.window.session.open_brew import OpenBrew


class Turning(QObject):
    """Tells menu and buttons what would be undone and redone, and does it.

    It acts on the recipe's steps until it is turned to a brew, and where that is not begun.
    """

    undo_text_changed = Signal(str)
    redo_text_changed = Signal(str)
    can_undo_changed = Signal(bool)
    can_redo_changed = Signal(bool)

    def __init__(self, stack: QUndoStack, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._stack = stack
        self._brew: OpenBrew | None = None
        self._beside: list[tuple[str, Callable[[], None]]] = []
        stack.indexChanged.connect(self.forget_beside)
        for changed in (
            stack.undoTextChanged,
            stack.redoTextChanged,
            stack.canUndoChanged,
            stack.canRedoChanged,
        ):
            changed.connect(self._follow_recipe)

    def turn_to(self, brew: OpenBrew | None) -> None:
        """Act on a brew from now on; None for the recipe."""
        if brew is self._brew:
            return
        if self._brew is not None:
            self._brew.changed.disconnect(self._tell)
        self._brew = brew
        if brew is not None:
            brew.changed.connect(self._tell)
        self._tell()

    def offer(self, said: str, back: Callable[[], None]) -> Callable[[], None]:
        """Let undo take back what was done beside the recipe; return what a button does then."""
        step = said, back
        self._beside.append(step)
        self._tell()
        return partial(self._take_back, step)

    def forget_beside(self) -> None:
        """Leave what was done beside the recipe as it is."""
        if self._beside:
            self._beside.clear()
            self._tell()

    def _take_back(self, step: tuple[str, Callable[[], None]]) -> None:
        if step in self._beside:
            self._beside.remove(step)
            self._tell()
        step[1]()

    @property
    def _begun(self) -> OpenBrew | None:
        return self._brew if self._brew is not None and self._brew.is_open else None

    def undo(self) -> None:
        """Take the last step back."""
        brew = self._begun
        if self._beside:
            self._take_back(self._beside[-1])
        elif brew is not None:
            brew.undo()
        else:
            self._stack.undo()

    def redo(self) -> None:
        """Do again what was undone last."""
        brew = self._begun
        if brew is not None:
            brew.redo()
        else:
            self._stack.redo()

    def _follow_recipe(self) -> None:
        if self._begun is None:
            self._tell()

    def _tell(self) -> None:
        brew, stack = self._begun, self._stack
        if self._beside:
            self._say(_quoted(self._beside[-1][0]), "", can_undo=True, can_redo=False)
            return
        if brew is None:
            self._say(stack.undoText(), stack.redoText(), stack.canUndo(), stack.canRedo())
            return
        undo, redo = brew.would_undo, brew.would_redo
        self._say(_quoted(undo), _quoted(redo), bool(undo), bool(redo))

    def _say(self, undo: str, redo: str, can_undo: bool, can_redo: bool) -> None:
        self.undo_text_changed.emit(undo)
        self.redo_text_changed.emit(redo)
        self.can_undo_changed.emit(can_undo)
        self.can_redo_changed.emit(can_redo)


def _quoted(step: str) -> str:
    return tr("“{step}”", step=step) if step else ""
