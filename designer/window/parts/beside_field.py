"""A note beside the field or cell that it is about: why a text is not taken, or how it was read.

One note at a time in a window. It lies over the page and moves nothing; it goes below its field,
or above where there is more room, and keeps clear of the pointer where it can.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QSize, Qt, QTimer
from PySide6.QtGui import QCursor
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from designer.recipe.severity import Severity
from designer.translation import tr
from designer.window.parts.announcing import Rested
from designer.window.parts.icons import finding_icon
from designer.window.parts.inks import inks_for
from designer.window.parts.message_bar import reading_ms

Ways = Sequence[tuple[str, Callable[[], None]]]
WIDEST = 380
GAP = 3
_MOVES = (QEvent.Type.Move, QEvent.Type.Resize)


class BesideField(QFrame):
    """The note of a window; made by `say_beside` when it is first wanted."""

    def __init__(self, window: QWidget) -> None:
        super().__init__(window)
        self.setObjectName("beside")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.owner: object = None
        self._place: QWidget | None = None
        self._rect: QRect | None = None
        self._watched: list[QWidget] = []
        self.text = QLabel()
        self.text.setTextFormat(Qt.TextFormat.PlainText)
        self.text.setWordWrap(True)
        self._sign = QLabel()
        self.buttons: list[QPushButton] = []
        self._ways = QHBoxLayout()
        self._ways.setSpacing(6)
        top = QHBoxLayout()
        top.setSpacing(8)
        top.addWidget(self._sign, 0, Qt.AlignmentFlag.AlignTop)
        top.addWidget(self.text, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(9, 6, 10, 7)
        layout.addLayout(top)
        layout.addLayout(self._ways)
        self._later = QTimer(self, singleShot=True)
        self._later.timeout.connect(self.put_away)
        self._rested = Rested(self, self.text.text)
        self.hide()

    def say(
        self,
        place: QWidget,
        text: str,
        *,
        rect: QRect | None = None,
        refused: bool = False,
        ways: Ways = (),
        owner: object = None,
    ) -> None:
        """Show a note beside a widget, or beside a part `rect` of it, with buttons for `ways`.

        It stays until `put_away`, `withdraw(owner)`, a press of one of the ways, or the next note.
        """
        self._later.stop()
        self._forget()
        self.owner, self._place, self._rect = owner if owner is not None else place, place, rect
        self.setProperty("refused", refused)
        self.style().unpolish(self)
        self.style().polish(self)
        self._sign.setVisible(refused)
        if refused:
            icon = finding_icon(Severity.STOP, inks_for(self.palette()))
            self._sign.setPixmap(icon.pixmap(16, 16))
        self.text.setText(tr("Not taken: {why}", why=text) if refused else text)
        self.setAccessibleName(self.text.text())
        for label, act in ways:
            self.buttons.append(self._button(label, act))
        self._watch(place)
        self.show()
        self._lie_beside()
        self.raise_()
        self._rested.changed()

    def _button(self, label: str, act: Callable[[], None]) -> QPushButton:
        button = QPushButton(label)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)  # a press leaves the editor open beside it
        button.clicked.connect(lambda _checked=False: self._carry_out(act))
        self._ways.addWidget(button)
        button.show()  # one that is not yet shown takes no room
        if self._place is not None:
            field = self._place.focusProxy() or self._place  # of a cell: its table
            self.setTabOrder(self.buttons[-1] if self.buttons else field, button)
        return button

    def _carry_out(self, act: Callable[[], None]) -> None:
        place = self._place
        self.put_away()
        if place is not None:
            place.setFocus(Qt.FocusReason.OtherFocusReason)
        act()

    def put_away(self) -> None:
        """Hide the note."""
        self._forget()
        self.owner = self._place = None
        self.hide()

    def withdraw(self, owner: object) -> None:
        """Hide the note if it is of this owner: what it says is no longer so."""
        if self.owner is owner:
            self.put_away()

    def linger(self) -> None:
        """Go by itself once it could be read: the field was left."""
        self._later.start(reading_ms(self.text.text()))

    def mousePressEvent(self, event: object) -> None:
        """A press on the note puts it away, and reaches nothing below it."""
        self.put_away()

    # staying beside its field

    def _forget(self) -> None:
        for each in self._watched:
            each.removeEventFilter(self)
        self._watched = []
        for button in self.buttons:
            self._ways.removeWidget(button)
            button.hide()
            button.deleteLater()
        self.buttons = []

    def _watch(self, place: QWidget) -> None:
        """Look on at all that moves or hides the field, only while a note is shown."""
        each: QWidget | None = place
        while each is not None:
            each.installEventFilter(self)
            self._watched.append(each)
            each = None if each is self.window() else each.parentWidget()
        place.destroyed.connect(self._forget_place)

    def _forget_place(self) -> None:
        if self._place is not None and self.sender() is self._place:
            self._watched = self._watched[1:]
            self.put_away()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        kind = event.type()
        if kind in _MOVES:
            self._lie_beside()
        elif kind == QEvent.Type.Hide and self._place is not None:
            self.put_away()
        return False

    def _lie_beside(self) -> None:
        place, window = self._place, self.parentWidget()
        if place is None or window is None:
            return
        rect = self._rect if self._rect is not None else place.rect()
        self.setVisible(place.visibleRegion().intersects(rect))  # it is scrolled away with it
        around = QRect(place.mapTo(window, rect.topLeft()), rect.size())
        within = window.rect().adjusted(4, 4, -4, -4)
        size = self._size(within.width())
        x = max(min(around.left(), within.right() - size.width()), within.left())
        below = QRect(QPoint(x, around.bottom() + GAP), size)
        above = QRect(QPoint(x, around.top() - GAP - size.height()), size)
        pointer = window.mapFromGlobal(QCursor.pos())
        fits = [each for each in (below, above) if within.contains(each)] or [below]
        self.setGeometry(next((each for each in fits if not each.contains(pointer)), fits[0]))

    def _size(self, room: int) -> QSize:
        """Return how large the note is: as wide as its words up to a measure, then higher."""
        words = self.text.fontMetrics().horizontalAdvance(self.text.text()) + 56
        ways = sum(each.sizeHint().width() + 6 for each in self.buttons) + 20
        width = min(max(min(words, WIDEST), ways), room)
        layout = self.layout()
        assert layout is not None
        layout.invalidate()
        return QSize(width, layout.totalHeightForWidth(width))


def note_of(widget: QWidget) -> BesideField | None:
    """Return the note of the window that a widget is in; None if none was wanted yet."""
    found = widget.window().findChild(
        BesideField, options=Qt.FindChildOption.FindDirectChildrenOnly
    )
    return found if isinstance(found, BesideField) else None


def say_beside(
    place: QWidget,
    text: str,
    *,
    rect: QRect | None = None,
    refused: bool = False,
    ways: Ways = (),
    owner: object = None,
) -> BesideField:
    """Show a note beside a widget; see `BesideField.say`."""
    note = note_of(place) or BesideField(place.window())
    note.say(place, text, rect=rect, refused=refused, ways=ways, owner=owner)
    return note
