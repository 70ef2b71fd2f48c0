"""The bottles: how many of which size and kind, and what they hold together."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPolygonF
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.packaging.packaged import BottleSize, Packaged, Packing
from designer.errors import RefusedInputError
from designer.recipe.choices import Bottle
from designer.recipe.quantity import Kind
from designer.translation import message, tr, trn
from designer.window.brew.fermenting.form_rows import BeerForm, OneOf, choice_of
from designer.window.brew.fermenting.packing_choices import (
    PackingChoices,
    with_count,
    with_sizes,
)
from designer.window.brew.fermenting.standing_panel import larger, link, words_in
from designer.window.brew.large_button import LargeButton
from designer.window.brew.sign_button import SignButton
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.icons import Choice
from designer.window.parts.inks import inks_for
from designer.window.parts.page_frame import heading
from designer.window.parts.plain_text import unbroken
from designer.window.parts.reading_order import order_tabs
from designer.window.parts.refusal import FieldRefusedError, read_from
from designer.window.parts.sized_text import grown
from designer.window.parts.targets import TARGET_PX

USUAL_L = (0.33, 0.5, 0.75, 1.0)
LEAST_L, MOST_L = 0.05, 20.0
MOST_BOTTLES = 1000
SHORT = {
    Bottle.UNKNOWN: message("unknown glass"),
    Bottle.HEAVY: message("heavy glass"),
    Bottle.PLASTIC: message("plastic"),
    Bottle.SPARKLING: message("sparkling wine"),
    Bottle.NOT_FOR_PRESSURE: message("no pressure"),
}


class BottlePicture(QWidget):
    """A bottle, taller the more it holds."""

    def __init__(self) -> None:
        super().__init__()
        self.litres = 0.5
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def sizeHint(self) -> QSize:
        return QSize(round(grown(self, 18)), round(grown(self, 36)))

    def paintEvent(self, event: QPaintEvent) -> None:
        high = self.height() * min(0.55 + 0.5 * self.litres, 1.0)
        wide = min(0.36 * high, self.width() - 2.0)
        left, top = (self.width() - wide) / 2, self.height() - high
        neck, middle = 0.36 * wide, self.width() / 2
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(inks_for(self.palette()).wort_edge))
            body = QRectF(left, top + 0.45 * high, wide, 0.55 * high)
            painter.drawRoundedRect(body, 2, 2)
            painter.drawRect(QRectF(middle - neck / 2, top, neck, 0.35 * high))
            shoulder = (
                QPointF(middle - neck / 2, top + 0.28 * high),
                QPointF(middle + neck / 2, top + 0.28 * high),
                QPointF(left + wide, top + 0.5 * high),
                QPointF(left, top + 0.5 * high),
            )
            painter.drawPolygon(QPolygonF(shoulder))


class SizeRow(QWidget):
    """One size: its name, what so many hold, fewer and more of them."""

    def __init__(self, card: BottlesCard, number: int) -> None:
        super().__init__()
        self.picture = BottlePicture()
        self.size_label, self.below, self.count = QLabel(), QLabel(), QLabel()
        self.below.setObjectName("soft")
        self.below.setWordWrap(True)
        self.size_label.setFont(larger(1.1))
        self.count.setFont(larger(1.35, bold=True))
        self.count.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.fewer = LargeButton("\u2212", "", partial(card.step, number, -1))
        self.more = LargeButton("+", "", partial(card.step, number, 1))
        self.away = SignButton(partial(card.drop, number), plain=True)
        for each in (self.fewer, self.more):
            each.setFixedWidth(TARGET_PX)
            each.setAutoRepeat(True)
        words = QVBoxLayout()
        words.setSpacing(0)
        words.addWidget(self.size_label)
        words.addWidget(self.below)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 2, 0, 2)
        row.setSpacing(6)
        row.addWidget(self.picture)
        row.addLayout(words, 1)
        for widget in (self.fewer, self.count, self.more, self.away):
            row.addWidget(widget)

    def show_size(self, size: BottleSize, display: DisplayFormat, *, may_go: bool) -> None:
        """Show a size and how many there are."""
        name, kind = litres_text(size.litres, display), tr(SHORT[size.kind])
        self.picture.litres = size.litres
        self.picture.update()
        self.picture.setAccessibleName(tr("Bottle of {size}", size=name))
        self.size_label.setText(name)
        held = display.short(Kind.VOLUME, size.litres * size.count)
        self.below.setText(unbroken(tr("{kind}, {volume}", kind=kind, volume=held)))
        self.below.setToolTip(tr(size.kind.value))
        self.count.setText(str(size.count))
        self.count.setMinimumWidth(self.count.fontMetrics().horizontalAdvance("000"))
        bottles = trn(
            "{number} bottle of {size}", "{number} bottles of {size}", size.count, size=name
        )
        self.count.setAccessibleName(bottles)
        both: tuple[tuple[LargeButton, str], ...] = (
            (self.fewer, tr("One bottle of {size} fewer", size=name)),
            (self.more, tr("One bottle of {size} more", size=name)),
        )
        for button, words in both:
            button.setAccessibleName(words)
            button.setToolTip(words)
        self.fewer.setEnabled(size.count > 0)
        self.more.setEnabled(size.count < MOST_BOTTLES)
        self.away.show_sign("away", tr("No bottles of {size}", size=name))
        self.away.setVisible(may_go and size.count == 0)


class SizeForm(BeerForm):
    """Asks for another size and its kind."""

    chosen = Signal(object)

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__(tr("Another size"), tr("Take this size"))
        self._display = display
        self.size_field = QLineEdit()
        self.kind = choice_of([(tr(each.value), each) for each in Bottle], lambda: None)
        self.kind.setSizeAdjustPolicy(Choice.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.kind.setMinimumContentsLength(12)
        self.place(0, 0, tr("Size"), self.size_field)
        self.place(1, 0, tr("Kind of bottle"), self.kind)
        chips = FlowLayout(across=6, down=6)
        for litres in USUAL_L:
            text = litres_text(litres, display)
            chips.addWidget(LargeButton(text, "", partial(self.size_field.setText, text)))
        self.fields.addLayout(chips, 4, 0)

    def ask(self, kind: Bottle) -> None:
        """Ask for a size; most are of the kind that is there already."""
        self.size_field.clear()
        self.kind.setCurrentIndex(self.kind.findData(kind))
        self.refusal.clear()
        self.size_field.setFocus(Qt.FocusReason.OtherFocusReason)

    def carry_out(self) -> None:
        try:
            with read_from(self.size_field):
                litres = self._display.read(
                    Kind.VOLUME, self.size_field.text(), bare=_small_unit(self.size_field.text())
                ).value
                if not LEAST_L <= litres <= MOST_L:
                    raise RefusedInputError(
                        tr("no bottle holds {volume}; type it such as 500 mL",
                           volume=self.size_field.text().strip())
                    )  # fmt: skip
        except FieldRefusedError as fault:
            self.refusal.say(fault)
            return
        self.put_away()
        self.chosen.emit(BottleSize(litres, 0, Bottle(self.kind.currentData())))


class BottlesCard(OneOf):
    """The sizes with their counts, and the form for another."""

    def __init__(self, choices: PackingChoices, display: DisplayFormat) -> None:
        self.card, self.form = QFrame(), SizeForm(display)
        super().__init__(self.card, self.form)
        self._choices, self._display = choices, display
        self.card.setObjectName("card")
        self.rows: list[SizeRow] = []
        self._rows = QVBoxLayout()
        self._rows.setSpacing(0)
        self.total = words_in(1.1, bold=True)
        self.rest = words_in()
        self.rest.setObjectName("soft")
        self.only_button = LargeButton("", "", self._only)
        self.anew_button = link(tr("Count anew"), tr("So many that little beer is left over"))
        self.anew_button.clicked.connect(lambda _checked=False: self._count_anew())
        self.size_button = link(tr("Another size…"), tr("Bottles of another size or kind"))
        self.size_button.clicked.connect(lambda _checked=False: self._ask_size())
        links = FlowLayout(across=8, down=0)
        links.addWidget(self.size_button)
        links.addWidget(self.anew_button)
        layout = QVBoxLayout(self.card)
        layout.setContentsMargins(14, 10, 14, 12)
        layout.setSpacing(6)
        layout.addWidget(heading(tr("Bottles")))
        layout.addLayout(self._rows)
        for each in (self.total, self.rest):
            layout.addWidget(each)
        layout.addLayout(links)
        layout.addWidget(self.only_button)
        layout.addStretch(1)
        self.form.closed.connect(self._close_form)
        self.form.chosen.connect(self._add)

    def show_packing(self, packing: Packing, result: Packaged) -> None:
        """Show how many there are and what is left over."""
        while len(self.rows) < len(packing.bottles):
            self.rows.append(SizeRow(self, len(self.rows)))
            self._rows.addWidget(self.rows[-1])
            order_tabs(self)
        many = len(packing.bottles) > 1
        for number, row in enumerate(self.rows):
            row.setVisible(number < len(packing.bottles))
            if number < len(packing.bottles):
                row.show_size(packing.bottles[number], self._display, may_go=many)
        short = self._display.short
        self.total.setText(
            trn("{volume} in {number} bottle", "{volume} in {number} bottles", result.caps,
                volume=short(Kind.VOLUME, result.filled_l))
        )  # fmt: skip
        rest = []
        if result.left_over_l > 0.005:
            rest.append(
                tr("{volume} over, for tasting.", volume=short(Kind.VOLUME, result.left_over_l))
            )
        if result.empty_bottles:
            rest.append(
                trn("{number} bottle gets no beer.", "{number} bottles get no beer.",
                    result.empty_bottles)
            )  # fmt: skip
        rest.append(trn("{number} cap.", "{number} caps.", result.caps))
        self.rest.setText(" ".join(rest))
        most = self._most(packing)
        self.only_button.setVisible(many and most is not None)
        if most is not None:
            size = litres_text(most.litres, self._display)
            self.only_button.setText(tr("Fill with {size} only", size=size))

    @staticmethod
    def _most(packing: Packing) -> BottleSize | None:
        return max(packing.bottles, key=lambda each: each.litres * each.count, default=None)

    # what is pressed

    def step(self, number: int, by: int) -> None:
        """Have one bottle more or fewer of a size."""
        packing = self._choices.packing
        if packing is None or number >= len(packing.bottles):
            return
        size = packing.bottles[number]
        count = min(max(size.count + by, 0), MOST_BOTTLES)
        name = litres_text(size.litres, self._display)
        said = trn("{number} bottle of {size}", "{number} bottles of {size}", count, size=name)
        self._choices.choose(f"count {number}", said, with_count(number, count))

    def drop(self, number: int) -> None:
        """Have no bottles of a size."""
        packing = self._choices.packing
        if packing is None or len(packing.bottles) < 2:
            return
        size = packing.bottles[number]
        kept = tuple(each for at, each in enumerate(packing.bottles) if at != number)
        said = tr("no bottles of {size}", size=litres_text(size.litres, self._display))
        self._choose_sizes(said, kept)

    def _only(self) -> None:
        packing = self._choices.packing
        most = self._most(packing) if packing is not None else None
        if most is not None:
            size = litres_text(most.litres, self._display)
            self._choose_sizes(tr("bottles of {size} only", size=size), (replace(most, count=0),))

    def _count_anew(self) -> None:
        packing = self._choices.packing
        if packing is not None:
            self._choose_sizes(tr("bottles counted anew"), packing.bottles)

    def _add(self, size: BottleSize) -> None:
        packing = self._choices.packing
        if packing is None:
            return
        others = [e for e in packing.bottles if (e.litres, e.kind) != (size.litres, size.kind)]
        said = tr("bottles of {size} too", size=litres_text(size.litres, self._display))
        self._choose_sizes(said, (*others, size))

    def _choose_sizes(self, said: str, sizes: tuple[BottleSize, ...]) -> None:
        self._choices.choose("sizes", said, with_sizes(sizes))
        self._choices.settle()

    def _ask_size(self) -> None:
        packing = self._choices.packing
        first = packing.bottles[0].kind if packing is not None and packing.bottles else None
        self.show_panel(self.form)
        self.form.ask(first or Bottle.UNKNOWN)

    def _close_form(self) -> None:
        if self.shown is self.form:
            self.show_panel(self.card)
            self.size_button.setFocus(Qt.FocusReason.OtherFocusReason)


def litres_text(litres: float, display: DisplayFormat) -> str:
    """Return a size of bottle as it is called: 500 mL, 1 L, 12 fl oz."""
    shown = display.short(Kind.VOLUME, litres)
    if shown.endswith(" L") and litres < 1.0:
        return f"{1000.0 * litres:.0f} mL"
    return shown


def _small_unit(text: str) -> str:
    """Return the unit of a bare number: of bottles a large one means millilitres."""
    return "mL" if text.strip().isdecimal() and int(text) >= 50 else ""
