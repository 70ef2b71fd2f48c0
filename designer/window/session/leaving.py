"""Leaving the open recipe: it gives way once it is kept, or once the brewer says "leave it".

Nobody notices the wait for a disk that answers. Keys pressed meanwhile go to what comes next, as if
it had been there at once; after a second the brewer is asked, and the window is never frozen.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QAction, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QMainWindow, QMessageBox, QPushButton, QWidget

from designer.translation import message, tr

Go = Callable[[], None]
Keep = Callable[[Go, Callable[[str], None]], None]

WORD_MS, QUESTION_MS, AGAIN_MS = 300, 1000, 2000
WAITING = message(
    "The Recipe box has not answered yet, so the last changes to “{name}” are not kept so far."
)
FAILED = message("The last changes to “{name}” are not kept.")
OTHER_WORK = message("The Recipe box has not finished yet what was asked of it.")
GOES_ON = message("This goes on by itself as soon as they are kept.")
_KEYS = (QEvent.Type.KeyPress, QEvent.Type.KeyRelease, QEvent.Type.ShortcutOverride)
_POINTER = (
    QEvent.Type.MouseButtonPress,
    QEvent.Type.MouseButtonRelease,
    QEvent.Type.MouseButtonDblClick,
    QEvent.Type.InputMethod,
)

_TYPING = (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier)


class Leaving(QObject):
    """One wait at a time. `save_elsewhere` asks for a file and tells then whether it is written;
    `stays` is called where the brewer stays."""

    def __init__(
        self,
        window: QMainWindow,
        save_elsewhere: Callable[[Callable[[bool], None]], None],
        stays: Go = lambda: None,
    ) -> None:
        super().__init__(window)
        self._window, self._save_elsewhere, self._stays = window, save_elsewhere, stays
        self.dialog: QMessageBox | None = None
        self._keep: Keep | None = None
        self._go: Go = lambda: None
        self._name, self._reason = "", ""
        self._is_closing = self._is_elsewhere = self._is_kept = False
        self._attempt = 0
        self._held: list[QKeyEvent] = []
        self._word = QTimer(self, singleShot=True, interval=WORD_MS)
        self._question = QTimer(self, singleShot=True, interval=QUESTION_MS)
        self._again = QTimer(self, singleShot=True, interval=AGAIN_MS)
        self._word.timeout.connect(partial(window.setCursor, Qt.CursorShape.BusyCursor))
        self._question.timeout.connect(self._ask)
        self._again.timeout.connect(self._try)

    @property
    def pending(self) -> bool:
        """Whether the recipe is still waited for."""
        return self._keep is not None

    def begin(self, keep: Keep, go: Go, name: str = "", *, closing: bool = False) -> None:
        """Let the recipe called `name` be kept, then `go`. "" for one that is kept already.

        Whoever asks again meanwhile is the one who is gone on with; only closing stays closing.
        """
        if self.pending and self._is_closing:
            return
        is_first, self._is_closing = not self.pending, closing
        self._keep, self._go, self._name = keep, go, name
        if is_first:
            self._reason, self._is_kept = "", False
            self._word.start()
            self._question.start()
            QApplication.instance().installEventFilter(self)  # type: ignore[union-attr]
        if is_first or closing:
            self._try()

    def _try(self) -> None:
        if self._keep is not None:
            self._attempt += 1
            self._keep(
                partial(self._note_kept, self._attempt), partial(self._note_failed, self._attempt)
            )

    def _note_kept(self, attempt: int) -> None:
        if attempt != self._attempt or not self.pending:
            return
        self._is_kept = True
        if not self._is_elsewhere:
            self._end(goes=True)

    def _note_failed(self, attempt: int, reason: str) -> None:
        if attempt != self._attempt or not self.pending:
            return
        self._reason = reason
        self._again.start()
        self._ask()

    # asking

    def _ask(self) -> None:
        """Say that it is still waited, or what went wrong, and let the brewer choose."""
        self._question.stop()
        if self._is_elsewhere:
            return
        if self.dialog is None:
            self.dialog = self._made_dialog()
        words = FAILED if self._reason else WAITING
        self.dialog.setText(tr(words, name=self._name[:60]) if self._name else tr(OTHER_WORK))
        self.dialog.setInformativeText(" ".join(filter(None, (self._reason, tr(GOES_ON)))))
        if not self.dialog.isVisible():
            self.dialog.open()

    def _made_dialog(self) -> QMessageBox:
        dialog = QMessageBox(self._window)
        dialog.setWindowTitle(tr("Not kept yet"))
        dialog.setIcon(QMessageBox.Icon.Warning)
        dialog.setTextFormat(Qt.TextFormat.PlainText)
        role = QMessageBox.ButtonRole
        elsewhere = dialog.addButton(tr("Save to a file…"), role.ActionRole)
        leave = dialog.addButton(tr("Leave it"), role.DestructiveRole)
        stay = dialog.addButton(tr("Stay"), role.RejectRole)
        # Whoever types on presses what changes nothing.
        dialog.setDefaultButton(stay)
        dialog.setEscapeButton(stay)
        dialog.buttonClicked.connect(partial(self._chosen, elsewhere, leave))
        return dialog

    def _chosen(self, elsewhere: QPushButton, leave: QPushButton, pressed: QWidget) -> None:
        if not self.pending:
            return
        if pressed is not elsewhere:
            self._end(goes=pressed is leave)
            return
        self._is_elsewhere = True
        self._save_elsewhere(self._note_elsewhere)
        self._is_elsewhere = False
        if self._is_kept:
            self._end(goes=True)
        elif self.pending:
            self._question.start()  # the file's disk may be no quicker

    def _note_elsewhere(self, is_saved: bool) -> None:
        if self.pending and is_saved:
            self._end(goes=True)
        elif self.pending:
            self._question.start(0)

    def _end(self, *, goes: bool) -> None:
        """Go on, or stay; keys held back go where they would have gone."""
        go, held = self._go, self._held
        self._keep, self._held, self._is_closing = None, [], False
        self._attempt += 1
        for timer in (self._word, self._question, self._again):
            timer.stop()
        QApplication.instance().removeEventFilter(self)  # type: ignore[union-attr]
        self._window.unsetCursor()
        if self.dialog is not None:
            self.dialog.hide()
            self.dialog.deleteLater()
            self.dialog = None
            self._window.activateWindow()
        if goes:
            go()
            for key in held:
                self._press(key)
        else:
            self._stays()

    # keys

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind not in _KEYS and kind not in _POINTER:
            return False
        if not isinstance(watched, QWidget) or watched.window() is not self._window:
            return False
        if kind == QEvent.Type.ShortcutOverride:
            event.accept()  # so that it comes as a key press, which is held
        elif kind == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            self._hold(event)
        return True

    def _hold(self, key: QKeyEvent) -> None:
        for kind in (QEvent.Type.KeyPress, QEvent.Type.KeyRelease):
            self._held.append(QKeyEvent(kind, key.key(), key.modifiers(), key.text()))

    def _press(self, key: QKeyEvent) -> None:
        """Let a key that was held do what it does in the window as it is now."""
        if key.type() == QEvent.Type.KeyPress and key.modifiers() not in _TYPING:
            keys = QKeySequence(key.keyCombination())
            for action in self._window.findChildren(QAction):
                if keys in action.shortcuts() and action.isEnabled():
                    action.trigger()
                    return
        target = QApplication.focusWidget() or self._window.focusWidget() or self._window
        QApplication.sendEvent(target, key)
