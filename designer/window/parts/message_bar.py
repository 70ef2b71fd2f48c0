"""What the program has to say: over the page, at its foot, so that nothing on the page moves.

It stays until it could be read and never stops the work. Where it would lie under the pointer, or
on what is being typed, it goes to the head of the page instead. Trouble that lasts is hidden by no
other news.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from PySide6.QtCore import QElapsedTimer, QEvent, QObject, QRect, Qt, QTimer
from PySide6.QtGui import QCursor
from PySide6.QtWidgets import (
    QApplication,
    QBoxLayout,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QWidget,
)

from designer.recipe.severity import Severity
from designer.translation import message, tr
from designer.window.parts.announcing import announce
from designer.window.parts.icons import finding_icon
from designer.window.parts.inks import inks_for
from designer.window.parts.plain_text import caption

KEEPING = "keeping"
"""The topic of what the Recipe box could not take."""
LEAST_MS, MS_A_SIGN = 1500, 60
"""How long a message is shown at least: a slow reader takes some 60 ms for a letter."""
STAYING = 4
"""An idle message stays so many times as long as it takes to read."""
WIDEST = 860
NARROWEST = 300
"""With less room than this for its words, a message has its buttons below them."""
MARGIN = 14
_ACROSS, _DOWN = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
_MOVES = (QEvent.Type.Resize, QEvent.Type.Move, QEvent.Type.Show, QEvent.Type.Hide)

Actions = Sequence[tuple[str, Callable[[], None]]]


def reading_ms(text: str) -> int:
    """Return how long a text is shown at least, in milliseconds."""
    return LEAST_MS + MS_A_SIGN * len(text)


class Message(NamedTuple):
    """What is said, how, and what can be done about it; `topic` is what it is withdrawn by.

    What `lasts` is so until it is withdrawn, whatever else is said and done.
    """

    text: str
    look: str = "done"
    actions: Actions = ()
    topic: str = ""
    lasts: bool = False

    @property
    def stays(self) -> bool:
        """Whether it stays until it is put away or no longer true."""
        return self.look == "grave" or self.lasts


SPOKEN = {
    "grave": message("Trouble: {what}"),
    "refused": message("Not done: {what}"),
    "done": "{what}",
}
"""What a screen reader hears; the eye sees a sign."""


class MessageBar(QFrame):
    """One message at a time; a grave one stays until it is put away, and comes back after others.

    Looks: "done"; "refused", where something asked for was not done; "grave".
    """

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("messageBar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._now: Message | None = None
        self._beneath: Message | None = None
        self._staying: list[Message] = []
        self._over: QWidget | None = None
        self._below: list[QWidget] = []
        self.sign = QLabel()
        self.text = QLabel()
        self.text.setWordWrap(True)
        self.text.setTextFormat(Qt.TextFormat.PlainText)
        self.text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.close_button = QPushButton(tr("Put away"))
        self.close_button.setObjectName("quiet")
        self.close_button.clicked.connect(self.put_away)
        self._buttons: list[QPushButton] = []
        self._shown_for = QElapsedTimer()
        self._readable_ms = 0
        self._later = QTimer(self, singleShot=True)
        self._later.timeout.connect(self._put_away)
        self._top = top = QHBoxLayout()
        top.setSpacing(10)
        top.addWidget(self.sign, 0, Qt.AlignmentFlag.AlignTop)
        top.addWidget(self.text, 1)
        self._ways = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._ways.addStretch(1)
        self._ways.addWidget(self.close_button)
        self._layout = layout = QBoxLayout(QBoxLayout.Direction.LeftToRight, self)
        layout.setContentsMargins(14, 7, 10, 7)
        layout.setSpacing(10)
        layout.addLayout(top, 1)
        layout.addLayout(self._ways)
        self.hide()

    def float_over(self, page: QWidget) -> None:
        """Lie over a widget from now on, at its foot or its head; it is not moved by that."""
        self._over = page
        self.setParent(page.parentWidget())
        self.hide()
        page.installEventFilter(self)

    def keep_above(self, foot: QWidget) -> None:
        """Lie above a widget from now on while that is seen at the foot of the page."""
        self._below.append(foot)
        foot.installEventFilter(self)

    # saying

    def say(
        self,
        message: str,
        *,
        grave: bool = False,
        refused: bool = False,
        actions: Actions = (),
        topic: str = "",
        lasts: bool = False,
    ) -> None:
        """Show a message in place of the one before, with buttons for what can be done.

        A message with a `topic` takes the place of all others of it; `withdraw(topic)` takes it
        away when it is no longer true. One that `lasts` stays until then, with its buttons: below
        what has none of its own, and after all else; only the brewer can put it away. If it is no
        trouble it waits until what is shown with buttons, or is trouble, is put away.
        """
        look = "grave" if grave else "refused" if refused else "done"
        said = Message(message, look, tuple(actions), topic, lasts)
        self._staying = [
            each
            for each in self._staying
            if each.text != message and (not topic or each.topic != topic)
        ]
        if self._waits_behind_now(said):
            self._staying.insert(0, said)
            return
        if self._now is not None and self._now.stays and self._now not in self._staying:
            same = self._now.text == message or (topic and self._now.topic == topic)
            if not same and (self._now.lasts or not said.stays):
                self._staying.append(self._now)
        self._show(said)

    def _waits_behind_now(self, said: Message) -> bool:
        """Whether a message that lasts and is no trouble comes only after the one shown."""
        now = self._now
        if now is None or not said.lasts or said.look == "grave":
            return False
        return now.topic != said.topic and (now.stays or bool(now.actions))

    def withdraw(self, topic: str) -> None:
        """Take back what was said of a topic: it is no longer so."""
        self._staying = [each for each in self._staying if each.topic != topic]
        if self._now is not None and self._now.topic == topic:
            self._next()
        elif self._now is not None and self._beneath is not None:
            self._show(self._now)

    def _show(self, said: Message) -> None:
        self._now = said
        lasting = [] if said.actions else [each for each in self._staying if each.lasts]
        self._beneath = lasting[-1] if lasting else None
        shown = [said, *lasting[-1:]]
        look = "grave" if any(each.look == "grave" for each in shown) else said.look
        for button in self._buttons:
            self._ways.removeWidget(button)
            button.hide()
            button.deleteLater()
        self._buttons = []
        for each in shown:
            for text, act in each.actions:
                self._buttons.append(self._action(text, act, stays=each.lasts))
        self.setProperty("look", look)
        self.style().unpolish(self)
        self.style().polish(self)
        self._later.stop()
        self._shown_for.start()
        self._readable_ms = reading_ms(said.text)
        self.sign.setVisible(look != "done")
        if look != "done":
            severity = Severity.STOP if look == "grave" else Severity.CARE
            icon = finding_icon(severity, inks_for(self.palette()))
            self.sign.setPixmap(icon.pixmap(16, 16))
        self.text.setText("\n".join(each.text for each in shown))
        self.setAccessibleName(" ".join(tr(SPOKEN[each.look], what=each.text) for each in shown))
        self.show()
        self._lie()
        spoken = tr(SPOKEN[said.look], what=said.text)
        announce(self, spoken, grave=said.look == "grave")
        if not said.stays and not said.actions:
            self._later.start(STAYING * self._readable_ms)

    def _action(self, text: str, act: Callable[[], None], *, stays: bool) -> QPushButton:
        button = QPushButton(caption(text))
        if not stays:
            button.clicked.connect(self.put_away)
        button.clicked.connect(lambda _checked=False: act())
        self._ways.insertWidget(self._ways.count() - 1, button)
        button.show()  # at once: the height is measured before Qt would show it
        button.ensurePolished()
        self.setTabOrder(self._buttons[-1] if self._buttons else self.text, button)
        self.setTabOrder(button, self.close_button)
        return button

    # going

    def outdate(self) -> None:
        """Hear that the recipe has changed: what was done to it before is no longer the news."""
        if self._now is not None and self._now.look == "done" and self._now.topic:
            self._next()

    def settle(self) -> None:
        """Put a message that is not grave away as the work goes on, once it could be read."""
        if self._now is not None and not self._now.stays and self.isVisible():
            left = self._readable_ms - self._shown_for.elapsed()
            self._later.start(max(int(left), 0))

    def put_away(self) -> None:
        """Put the message away; a grave one that it hid is shown again."""
        self._next()

    def clear(self) -> None:
        """Put away all but what stays: another recipe is open."""
        if self._now is not None and not self._now.stays:
            self._next()

    def _put_away(self) -> None:
        if self._now is None or self._now.stays:
            return
        focus = QApplication.focusWidget()
        in_keys = focus is not None and self.isAncestorOf(focus)
        if self._over is not None and (self.underMouse() or in_keys):
            self._later.start(self._readable_ms)  # it is being read, or used by keys
        else:
            self._next()

    def _next(self) -> None:
        self._later.stop()
        if self._staying:
            self._show(self._staying.pop())
        else:
            self._now = None
            self.hide()

    # where it lies

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in _MOVES and self.isVisible():
            self._lie()
        return False

    def _lie(self) -> None:
        """Lie at the foot of the page; at its head where the foot is pointed at or typed in."""
        over = self._over
        if over is None:
            return
        around = over.geometry().adjusted(MARGIN, MARGIN, -MARGIN, -MARGIN)
        around.setBottom(min((around.bottom(), *self._tops_below())))
        wide = min(WIDEST, around.width())
        words = self.text.fontMetrics().horizontalAdvance(self.text.text()) + 64
        ways = [each.sizeHint().width() + 8 for each in (*self._buttons, self.close_button)]
        beside = sum(ways) + NARROWEST <= wide
        self._layout.setDirection(_ACROSS if beside else _DOWN)
        self._ways.setDirection(_ACROSS if sum(ways) + 24 <= wide else _DOWN)
        needed = words + sum(ways) if beside else max(words, sum(ways) + 24)
        width = max(min(needed, wide), min(240, wide))
        for layout in (self._top, self._ways, self._layout):  # each remembers its last height
            layout.invalidate()
        height = min(self._layout.totalHeightForWidth(width), around.height())
        x = around.center().x() - width // 2
        foot = QRect(x, around.bottom() - height, width, height)
        head = QRect(x, around.top(), width, height)
        self.setGeometry(head if self._is_in_use(foot) and not self._is_in_use(head) else foot)
        self.raise_()

    def _tops_below(self) -> Iterator[int]:
        """Yield what it may not reach down to."""
        parent = self.parentWidget()
        for each in self._below:
            if each.isVisible() and parent is not None:
                yield each.mapTo(parent, each.rect().topLeft()).y() - MARGIN

    def _is_in_use(self, rect: QRect) -> bool:
        """Whether the pointer, or the field that has the keyboard, is there."""
        parent = self.parentWidget()
        assert parent is not None
        if rect.contains(parent.mapFromGlobal(QCursor.pos())):
            return True
        focus = QApplication.focusWidget()
        if focus is None or not parent.isAncestorOf(focus):
            return False
        place = getattr(focus, "place_typed_in", focus.rect)()
        return rect.intersects(QRect(focus.mapTo(parent, place.topLeft()), place.size()))
