"""The step now, to be read from two metres: mark, when, amount, time left, what to do, its caution.

The card lays itself out: it takes the largest type in which all of it has room, and where even the
smallest has none it asks for more height and the page scrolls. No word is ever cut. A second that
passes changes one number in its place; nothing is laid out anew for it.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QEvent, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QFrame, QSizePolicy, QWidget

from designer.translation import tr
from designer.window.brew.large_button import LargeButton
from designer.window.brew.mark_ring import MarkRing
from designer.window.parts.announcing import Rested
from designer.window.parts.inks import inks_for
from designer.window.parts.lead_label import LeadLabel
from designer.window.parts.sized_text import (
    SizedText,
    grown_in,
    largest_fitting,
    sized,
    steps_down,
    type_pixels,
)

LARGEST_PX, SMALLEST_PX = 112.0, 34.0
"""Amount and time left."""
NAME_PX, NAME_LEAST_PX = 38.0, 18.0
DO_PX, DO_LEAST_PX = 21.0, 14.0
CAUTION_PX, CAUTION_LEAST_PX = 17.0, 13.0
SMALLEST_SCALE, FAR_SCALE = 0.3, 0.6
"""The smallest type there is, and the smallest that is read from two metres: for that the card asks
for height."""
USUAL_WIDTH_PX, MOST_TIMES = 624.0, 2.2
"""With more width than usual type is larger, up to so many times."""
ROOM_FOR_TIME = "00:00"
"""So much room there is for the time left at least, whatever it is at the moment."""
LINE = 1.2
"""Height of a line of figures, in sizes of its type, as tall letters need."""

BY_KEY = (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason)
"""A frame shows where the keyboard is to whoever goes about by it; the step has it usually."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What a card says of a step; `when` is what stands at its upper right.

    `sentence` may be long, and so may each of the `cautions`.
    """

    mark: str = ""
    kind: str = ""
    when: str = ""
    large: str = ""
    name: str = ""
    sentence: str = ""
    cautions: tuple[str, ...] = ()
    done: str = ""
    later: bool = True
    leave_out: bool = True
    back: bool = True


@dataclass(frozen=True, slots=True)
class TimeLeft:
    """The time until a step: `text` with a `caption` above it; `late` once it is past."""

    text: str = ""
    caption: str = ""
    suffix: str = ""
    late: bool = False


class StepCard(QFrame):
    """One step; what is pressed is told by signals."""

    done = Signal()
    later = Signal()
    leave_out = Signal()
    back = Signal()
    second = Signal()
    """The other way on, where the card offers one, such as a day brewed on paper."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.shown, self.left = Shown(), TimeLeft()
        right = Qt.AlignmentFlag.AlignRight
        self.mark = MarkRing(self)
        self.kind = SizedText(ink="heading", bold=True, parent=self)
        self.when = SizedText(ink="ink_soft", align=right, parent=self)
        self.large = SizedText(bold=True, wraps=False, parent=self)
        self.headline = SizedText(bold=True, wraps=True, parent=self)
        self.caption = SizedText(ink="ink_soft", align=right, parent=self)
        self.time = SizedText(ink="green", bold=True, align=right, parent=self)
        self.name = SizedText(bold=True, wraps=True, parent=self)
        self.sentence = SizedText(wraps=True, parent=self)
        self.caution = Caution(self)
        self._measured = SizedText(bold=True, parent=self)
        self._measured.hide()
        self._type_px = type_pixels(self)
        self._heights_of: object = None
        self._known_heights: dict[tuple[float, float], list[float]] = {}
        self._ring = False
        self._second = ""
        self._make_buttons()
        self._needs = QSize(300, 200)
        self._rested = Rested(self, self._in_full)

    def _make_buttons(self) -> None:
        self.done_button = LargeButton("", "", self.done.emit, least=48).as_primary()
        self.second_button = LargeButton("", "", self.second.emit, least=48)
        self.later_button = LargeButton(
            tr("Later"), tr("Go on with the next step; this one comes again"), self.later.emit
        )
        self.leave_button = LargeButton(
            tr("Leave out…"), tr("Leave this step out, and say why"), self.leave_out.emit
        )
        self.back_button = LargeButton(
            tr("Back a step"), tr("Go back to the step before (Backspace)"), self.back.emit
        )
        self.buttons = [
            self.done_button,
            self.second_button,
            self.later_button,
            self.leave_button,
            self.back_button,
        ]
        for each in self.buttons:
            each.setParent(self)
        self.second_button.hide()

    # what it says

    def show_step(self, shown: Shown, left: TimeLeft, *, second: str = "") -> None:
        """Show another step."""
        if (shown, second) == (self.shown, self._second):
            self.show_left(left)
            return
        self.shown = shown
        self.mark.show_mark(shown.mark)
        self.when.say(shown.when)
        self.large.say(shown.large if shown.name else "")
        self.headline.say("" if shown.name else shown.large)
        self.name.say(shown.name)
        self.sentence.say(shown.sentence)
        self.caution.show_cautions(shown.cautions)
        self.done_button.setText(shown.done)
        self.second_button.setText(second)
        self._second = second
        for button, seen in (
            (self.done_button, bool(shown.done)),
            (self.second_button, bool(second)),
            (self.later_button, shown.later),
            (self.leave_button, shown.leave_out),
            (self.back_button, shown.back),
        ):
            button.setVisible(seen)
        self._say_left(left)
        self.setAccessibleName(self.in_words())
        self.setAccessibleDescription(shown.sentence)
        self._rested.changed()
        self._arrange()

    def show_left(self, left: TimeLeft) -> None:
        """Show how much time is left, or by how much it is late; nothing else moves."""
        if left == self.left:
            return
        turns = (left.late, bool(left.text)) != (self.left.late, bool(self.left.text))
        self._say_left(left)
        if turns or len(left.text) > len(ROOM_FOR_TIME):
            self._arrange()

    def _say_left(self, left: TimeLeft) -> None:
        self.left = left
        self.kind.say(
            tr("Now").upper() if left.late else self.shown.kind.upper(),
            ink="brass" if left.late else "heading",
        )
        self.caption.say(left.caption, ink="brass" if left.late else "ink_soft")
        self.time.say(left.text, suffix=left.suffix, ink="brass" if left.late else "green")

    def in_words(self) -> str:
        """Return the step in words, for a screen reader."""
        shown = self.shown
        parts = (shown.kind, shown.when, f"{shown.large} {shown.name}".strip(), *shown.cautions)
        return ". ".join(each for each in parts if each)

    def _in_full(self) -> str:
        return " ".join(each for each in (self.in_words(), self.shown.sentence) if each)

    def is_whole(self) -> bool:
        """Whether all that it says has room."""
        texts = (self.kind, self.when, self.large, self.headline, self.time, self.name)
        said = [each for each in (*texts, self.sentence) if each.text()]
        said_whole = all(each.is_whole() for each in said) and self.caution.is_whole()
        return said_whole and self.height() >= self._needs.height()

    # room

    def sizeHint(self) -> QSize:
        return QSize(664, self._needs.height())

    def minimumSizeHint(self) -> QSize:
        return self._needs

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._heights_of = None
            self._arrange()

    def _arrange(self) -> None:
        """Set all of it into its place, in the largest type that has room."""
        if not hasattr(self, "_needs"):
            return
        self._type_px = type_pixels(self)
        self._measured.setFont(self.font())
        of = self.shown, self.left.text, self.left.suffix, self.font().key()
        if of != self._heights_of:
            self._heights_of, self._known_heights = of, {}
        edge = round(self._grown(14 if self.width() < self._grown(600) else 20))
        room = QRect(edge, round(0.6 * edge), self.width() - 2 * edge, self.height() - edge)
        if room.width() < 40:
            return
        top = self._place_top(room)
        bottom = self._place_buttons(room)
        middle = QRect(room.left(), top, room.width(), bottom - top)
        least = self._place_middle(middle)
        needs = QSize(300, top + least + (self.height() - bottom) + 2)
        if needs != self._needs:
            self._needs = needs
            self.updateGeometry()

    def _grown(self, pixels: float) -> float:
        return grown_in(self._type_px, pixels)

    def _place_top(self, room: QRect) -> int:
        """Place mark, kind and when; return where they end."""
        ring = self.mark.sizeHint().height()
        self.mark.setGeometry(room.left(), room.top(), ring, ring)
        left = room.left() + ring + 12
        pixels = largest_fitting(
            (self.kind, self.when), room.right() - left, 16, self._grown(16), self._grown(10)
        )
        self.kind.set_pixels(0.9 * pixels)
        self.when.set_pixels(pixels)
        wide = round(self.kind.wanted_width(0.9 * pixels)) + 8
        self.kind.setGeometry(left, room.top(), wide, ring)
        self.when.setGeometry(left + wide, room.top(), room.right() - left - wide, ring)
        return room.top() + ring + 2

    def _place_buttons(self, room: QRect) -> int:
        """Place the buttons that are seen, in as many rows as they need; return where they begin.

        The way back stands by itself at the right.
        """
        seen = [each for each in self.buttons if not each.isHidden()]
        if not seen:
            return room.bottom()
        gap = 10
        rows: list[list[LargeButton]] = [[]]
        for each in seen:
            wide = sum(one.sizeHint().width() + gap for one in (*rows[-1], each)) - gap
            if rows[-1] and wide > room.width():
                rows.append([])
            rows[-1].append(each)
        height = max(each.sizeHint().height() for each in seen)
        top = room.bottom() - len(rows) * (height + 6) + 6
        for number, row in enumerate(rows):
            x = room.left()
            for each in row:
                wide = each.sizeHint().width()
                if each is self.back_button:
                    x = max(x, room.right() - wide)
                each.setGeometry(x, top + number * (height + 6), wide, height)
                x += wide + gap
        return top - 8

    def _place_middle(self, room: QRect) -> int:
        """Place what is read from afar; return the least height in which it has room."""
        least = round(sum(self._heights(room.width(), FAR_SCALE)))
        largest = min(max(room.width() / self._grown(USUAL_WIDTH_PX), 1.0), MOST_TIMES)
        for scale in steps_down(largest, SMALLEST_SCALE):
            placed = self._heights(room.width(), scale)
            if sum(placed) <= room.height():
                break
        self._set_down(room, placed, scale)
        return least

    def _sizes(self, width: float, scale: float) -> tuple[float, float, float, float]:
        """Return the sizes of figures, name, sentence and caution at a scale."""

        def at(largest: float, least: float) -> float:
            return self._grown(max(largest * scale, least))

        largest = at(LARGEST_PX, SMALLEST_PX)
        time = self._widest_time()
        beside = (self.large, time) if self.large.text() else (time,)
        figures = largest_fitting(beside, width, self._grown(24), largest, self._grown(20))
        largest_name, least = at(NAME_PX, NAME_LEAST_PX), self._grown(NAME_LEAST_PX)
        for name in steps_down(largest_name, min(least, largest_name)):
            lines = self.name.wanted_width(name) / width
            if lines <= 1.0 or (lines <= 1.8 and name <= 0.75 * largest_name):
                break
        soft = min(max(scale, 0.6), 1.5)
        return (
            figures,
            name,
            at(DO_PX * soft / scale, DO_LEAST_PX),
            at(CAUTION_PX * soft / scale, CAUTION_LEAST_PX),
        )

    def _heights(self, width: float, scale: float) -> list[float]:
        """Return the heights of figures, name, sentence and caution at a scale.

        A card that is given more height for a step is placed again at the same width.
        """
        found = self._known_heights.get((width, scale))
        if found is None:
            found = self._known_heights[width, scale] = self._measured_heights(width, scale)
        return found

    def _measured_heights(self, width: float, scale: float) -> list[float]:
        figures, name, do, caution = self._sizes(width, scale)
        caption = 1.2 * self._grown(15) if self.left.text else 0.0
        first = LINE * figures if self.large.text() or self.left.text else 0.0
        if self.headline.text():
            beside = width - self._time_width(figures)
            first = max(
                first, self.headline.wanted_height(beside, self._headline_px(beside, scale))
            )
        rows = [first + 0.3 * caption]
        rows.append(self.name.wanted_height(width, name) if self.name.text() else 0.0)
        rows.append(self.sentence.wanted_height(width, do) + 8 if self.sentence.text() else 0.0)
        rows.append(self.caution.wanted_height(width, caution))
        return rows

    def _time_width(self, figures: float) -> float:
        if not self.left.text:
            return 0.0
        return self._widest_time().wanted_width(figures) + self._grown(24)

    def _widest_time(self) -> SizedText:
        """Return the time as wide as it may come to be while it stands there."""
        left = self.left
        widest = max(left.text, ROOM_FOR_TIME, key=len) if left.text else ""
        self._measured.say(widest, suffix=left.suffix)
        return self._measured

    def _headline_px(self, width: float, scale: float) -> float:
        """Return the size of a name that stands where an amount would: on two lines at most."""
        for pixels in steps_down(self._grown(max(60.0 * scale, 26.0)), self._grown(20.0)):
            lines = self.headline.wanted_height(width, pixels) / (LINE * pixels)
            if lines <= 2.1 and self.headline.wanted_width(pixels) <= 1.9 * width:
                return pixels
        return self._grown(20.0)

    def _set_down(self, room: QRect, heights: list[float], scale: float) -> None:
        figures, name, do, caution = self._sizes(room.width(), scale)
        spare = max(room.height() - sum(heights), 0.0) / 3
        y = room.top() + spare
        beside = room.width() - self._time_width(figures)
        above = round(1.2 * self._grown(15))
        if self.headline.text():
            self.headline.set_pixels(self._headline_px(beside, scale))
            self.headline.setGeometry(_rect(room.left(), y, beside, heights[0]))
        self.large.set_pixels(figures)
        self.large.setGeometry(_rect(room.left(), y, beside, heights[0]))
        self.time.set_pixels(figures)
        self.time.setGeometry(_rect(room.left() + beside, y, room.width() - beside, heights[0]))
        self.caption.set_pixels(self._grown(15))
        over = y + (heights[0] - figures) / 2 - above + 2
        self.caption.setGeometry(_rect(room.left(), max(over, room.top() - 4), room.width(), above))
        y += heights[0]
        self.name.set_pixels(name)
        self.name.setGeometry(_rect(room.left(), y, room.width(), heights[1]))
        y += heights[1] + spare / 2
        self.sentence.set_pixels(do)
        self.sentence.setGeometry(_rect(room.left(), y, room.width(), heights[2]))
        y = room.bottom() - heights[3]
        self.caution.set_pixels(caution)
        self.caution.setGeometry(_rect(room.left(), y, room.width(), heights[3]))

    # the frame that tells where the keyboard is

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._ring = event.reason() in BY_KEY
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.hasFocus() and self._ring:
            with QPainter(self) as painter:
                painter.setRenderHint(QPainter.RenderHint.Antialiasing)
                painter.setPen(QPen(QColor(inks_for(self.palette()).green), 2))
                painter.drawRoundedRect(QRectF(self.rect()).adjusted(1, 1, -1, -1), 4, 4)


class Caution(QFrame):
    """What to take care of, on a ground of its own with a bar at its left."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("takeCare")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.text = LeadLabel(self, lead_ink="brass")

    def show_cautions(self, cautions: tuple[str, ...]) -> None:
        """Say other cautions; it is hidden where there is none."""
        self.text.say(tr("Take care:"), " ".join(cautions))
        self.setVisible(bool(cautions))

    def set_pixels(self, pixels: float) -> None:
        """Take another size."""
        self.text.setFont(sized(self.font(), pixels))

    def wanted_height(self, width: float, pixels: float) -> float:
        """Return how high it is at a width, with the room around it."""
        if self.isHidden():
            return 0.0
        return self.text.height_in(sized(self.font(), pixels), round(width) - 32) + 18.0

    def is_whole(self) -> bool:
        """Whether all of it has room."""
        wanted = self.text.heightForWidth(self.text.width())
        return self.isHidden() or wanted <= self.text.height() + 2

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.text.setGeometry(18, 9, self.width() - 32, self.height() - 16)


def _rect(x: float, y: float, width: float, height: float) -> QRect:
    return QRect(round(x), round(y), round(width), round(height))
