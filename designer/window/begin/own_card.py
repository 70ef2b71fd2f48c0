"""One recipe to choose from: what it comes to, what goes in and why, and a button to begin it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.recipe.quantity import Kind, Quantity
from designer.translation import named, tr, trn
from designer.window.begin.own_column import small_label
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import inks_for
from designer.window.parts.main_figures import MainFigures
from designer.window.parts.plain_text import unbroken
from designer.window.parts.weighed_lines import Line, WeighedLines
from designer.wort.swatch import swatch_hex

if TYPE_CHECKING:
    from designer.recipe.document import Fermentable, Hop
    from designer.recipe.message import Message
    from designer.workbench.first_answers import Draft, LineReason

_STEPS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1}


class ColourBar(QWidget):
    """A bar in the colour of a beer."""

    def __init__(self) -> None:
        super().__init__()
        self._srm: float | None = None
        self.setFixedSize(QSize(13, 44))

    def show_colour(self, srm: float) -> None:
        """Show another beer."""
        self._srm = srm
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._srm is None:
            return
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(QPen(QColor(inks_for(self.palette()).line_strong), 1))
            painter.setBrush(QColor(swatch_hex(self._srm)))
            painter.drawRoundedRect(QRectF(1, 1, self.width() - 2, self.height() - 2), 5, 5)


class StartButton(QPushButton):
    """Begins a recipe; arrow keys go to the next. `entered` tells that it has the keyboard."""

    entered = Signal()
    stepped = Signal(int)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.entered.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = _STEPS.get(Qt.Key(event.key()))
        if steps is None:
            super().keyPressEvent(event)
        else:
            self.stepped.emit(steps)


class DraftCard(QFrame):
    """`chosen` tells that it is pressed or has the keyboard, `start_wanted` that it is to begin."""

    chosen = Signal()
    start_wanted = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("draft")
        self._display = display
        self.draft: Draft | None = None
        self.name = QLabel()
        font = self.name.font()
        font.setPointSizeF(1.4 * font.pointSizeF())
        font.setBold(True)
        self.name.setFont(font)
        self.about = small_label()
        self.bar = ColourBar()
        self._main = MainFigures()
        self.figures = self._main.figures
        self.lines = WeighedLines()
        self.lines.setAccessibleName(tr("What goes in"))
        self.gave_way = small_label()
        self.gave_way.setObjectName("differs")
        self.yeast, self.to_buy = small_label(), small_label()
        self.to_buy.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.button = StartButton(tr("Start from this"))
        self.button.setMinimumHeight(38)
        self.button.clicked.connect(self.start_wanted)
        self.button.entered.connect(self.chosen)
        self._lay_out()

    def _lay_out(self) -> None:
        names = QVBoxLayout()
        names.setSpacing(1)
        names.addWidget(self.name)
        names.addWidget(self.about)
        head = QHBoxLayout()
        head.addLayout(names, 1)
        head.addWidget(self.bar, 0, Qt.AlignmentFlag.AlignTop)
        foot = QHBoxLayout()
        foot.addWidget(self.yeast, 3)
        foot.addWidget(self.to_buy, 2)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(15, 11, 15, 12)
        layout.setSpacing(7)
        layout.addLayout(head)
        layout.addWidget(self._main)
        layout.addWidget(self.lines)
        layout.addStretch(1)
        layout.addWidget(self.gave_way)
        layout.addLayout(foot)
        self._layout = layout

    def take_button(self) -> None:
        """Have the button at the foot of the card itself."""
        self._layout.addWidget(self.button)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.chosen.emit()

    # what is shown

    def show_chosen(self, chosen: bool) -> None:
        """Show whether it is the one that Ctrl+Return begins."""
        for widget, name in (
            (self, "chosenDraft" if chosen else "draft"),
            (self.button, "primary" if chosen else ""),
        ):
            if widget.objectName() != name:
                widget.setObjectName(name)
                widget.style().unpolish(widget)
                widget.style().polish(widget)

    def show_draft(self, draft: Draft) -> None:
        """Show a recipe."""
        # Known by now: drafts come from where it is loaded.
        from designer.brewday.in_words import colour_in_words
        from designer.window.parts.figures import figure

        self.draft = draft
        name = self._say(draft.name)
        self.name.setText(name)
        self.about.setText(self._say(draft.about))
        self.button.setAccessibleName(tr("Start from this: {name}", name=name))
        colour = draft.outlook.forecasts["colour_srm"].value
        self.bar.show_colour(colour)
        self.bar.setAccessibleName(tr(colour_in_words(colour)))
        for key, label in self.figures.items():
            label.setText(figure(key, draft.outlook.forecasts[key].value, self._display))
        self.lines.show_lines(self._lines(draft))
        self.gave_way.setText("\n".join(map(self._say, draft.gave_way)))
        self.gave_way.setVisible(bool(draft.gave_way))
        yeast = draft.recipe.yeast
        amount = self._display.quantity(Kind.DOSE, yeast.amount)
        self.yeast.setText(
            unbroken(tr("Yeast: {name}, {amount}", name=named(yeast.name), amount=amount))
        )
        bought = trn("{number} thing to buy", "{number} things to buy", draft.to_buy)
        self.to_buy.setText(bought if draft.to_buy else tr("nothing to buy"))

    def _say(self, told: Message) -> str:
        return told.said(self._display.rounded, self._display.quantity)

    def _lines(self, draft: Draft) -> list[Line]:
        reasons = {(each.lines, each.line_id): each for each in draft.reasons}
        found = [
            self._line(self._named(line), reasons.get(("fermentables", line.line_id)), line.amount)
            for line in draft.recipe.fermentables
        ]
        for hop in draft.recipe.hops:
            reason = reasons.get(("hops", hop.line_id))
            found.append(self._line(self._named(hop), reason, hop.amount))
        return found

    def _line(self, name: str, reason: LineReason | None, amount: Quantity | None) -> Line:
        in_hand = reason.in_hand if reason is not None else None
        return Line(
            self._display.quantity(Kind.MASS, amount),
            name,
            self._say(reason.why) if reason is not None else "",
            self._say(in_hand) if in_hand is not None else "",
        )

    def _named(self, line: Fermentable | Hop) -> str:
        """The name of a line and when it goes in; extract often goes in by two halves."""
        return tr("{name}, {when}", name=named(line.name), when=self._display.when(line.when))
