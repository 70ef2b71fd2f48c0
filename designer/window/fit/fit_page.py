"""Fit: the recipe as it is on the left, the ways that work in this kitchen beside each other.

All ways are reckoned off the window's thread while sizes are typed; an answer to older sizes is
dropped.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QShowEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.fit.scaling import Scaled, scale
from designer.brewday.fit.wish import FitWish, wish_for
from designer.brewday.predictions import MAIN
from designer.errors import RefusedInputError
from designer.library.packs import PackSize, packs
from designer.library.store.shop import shop_packs
from designer.recipe.document import Recipe
from designer.recipe.edits import Edit
from designer.recipe.message import within
from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr
from designer.window.fit.cards import NoWaysCard, OriginalCard, WayCard, label
from designer.window.fit.hops_in_hand import HopsInHand
from designer.window.parts.background import Latest
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.doubtful_number import ask_when_left
from designer.window.parts.figures import figure
from designer.window.parts.icons import Tick
from designer.window.parts.page_frame import MARGIN, Page
from designer.window.parts.refusal import Refusal, read_from, within_reach
from designer.window.parts.scrolling import own_viewport
from designer.window.parts.unit_words import unit_words
from designer.window.session.open_recipe import OpenRecipe

if TYPE_CHECKING:
    from designer.brewday.fit.answer import FitAnswer, Way
    from designer.window.session.autosave import Autosave

LARGEST = 100_000.0


class FitPage(Page):
    """Sizes above, the ways below."""

    used = Signal(object)
    said = Signal(str)
    sheet_wanted = Signal()
    packs_wanted = Signal()

    def __init__(
        self,
        opened: OpenRecipe,
        display: DisplayFormat,
        autosave: Callable[[], Autosave | None] = lambda: None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._opened, self._display, self._autosave = opened, display, autosave
        self._packs: tuple[str, tuple[PackSize, ...]] | None = None
        self.cards: list[WayCard] = []
        self._given: dict[str, tuple[str, Quantity | None]] = {}
        self.latest = Latest(self)
        self.latest.answered.connect(self._show)
        self.answer: FitAnswer | None = None
        self._lay_out()
        opened.recipe_changed.connect(self._follow)
        display.settings.changed.connect(self._follow)

    def _lay_out(self) -> None:
        self.sentence = label("", bold=True)
        self.refusal = Refusal(self.sentence)
        self.hands = HopsInHand(self._display, self._autosave)
        self.hands.hide()
        self.hands.changed.connect(self._hands_changed)
        self._row = QHBoxLayout()
        self._row.setSpacing(12)
        self._row.setContentsMargins(0, 0, 0, 0)
        self._row.setAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
        inside = QWidget()
        inside.setLayout(self._row)
        inside.setAutoFillBackground(False)
        self.area = QScrollArea()
        own_viewport(self.area)
        self.area.setWidget(inside)
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.viewport().setAutoFillBackground(False)
        self.area.setAccessibleName(tr("Ways to brew it here"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, 12, MARGIN, 8)
        layout.setSpacing(8)
        layout.addLayout(self._top())
        layout.addWidget(self.hands)
        layout.addWidget(self.sentence)
        layout.addWidget(self.area, 1)

    def _top(self) -> QVBoxLayout:
        row, terms = QHBoxLayout(), QHBoxLayout()
        row.setSpacing(8)
        terms.setSpacing(14)
        self.fields: dict[str, QLineEdit] = {}
        for key, name in (
            ("pot", tr("Pot")),
            ("fermenter", tr("Fermenter")),
            ("second", tr("Another fermenter")),
            ("frozen", tr("Freezer holds")),
        ):
            field = QLineEdit()
            field.setMaximumWidth(92)
            field.setAccessibleName(name)
            field.textEdited.connect(self.reckon)
            ask_when_left(field, self._display, _kind_of(key))
            words = QLabel(name)
            words.setBuddy(field)
            row.addWidget(words)
            row.addWidget(field)
            self.fields[key] = field
        unit_words().known.connect(self.reckon)
        self.hands_button = QPushButton(self.hands.summary())
        self.hands_button.setObjectName("quiet")
        self.hands_button.setCheckable(True)
        self.hands_button.setToolTip(tr("Hops that lie in the freezer, for the ways to use"))
        self.hands_button.toggled.connect(self._open_hands)
        row.addWidget(self.hands_button)
        self.fields["second"].setPlaceholderText(tr("none"))
        self.fields["frozen"].setPlaceholderText(tr("as it says"))
        self.whole = Tick(tr("Whole packs only"))
        self.whole.setToolTip(
            tr("No tin or bag is divided; scaling goes by the packs of your shop")
        )
        self.packs_button = QPushButton(tr("Pack sizes…"))
        self.packs_button.setObjectName("quiet")
        self.packs_button.setAccessibleName(tr("Pack sizes of your shop"))
        self.packs_button.setToolTip(tr("See and change the sizes in which your shop sells"))
        self.packs_button.clicked.connect(lambda _checked=False: self.packs_wanted.emit())
        self.packs_button.setVisible(False)
        self.late = Tick(tr("Extract may go late"))
        self.late.setChecked(True)
        self.borrow = Tick(tr("Another fermenter can be had"))
        self.borrow.setChecked(True)
        for box in (self.whole, self.late, self.borrow):
            box.toggled.connect(self.reckon)
            terms.addWidget(box)
            if box is self.whole:
                terms.addWidget(self.packs_button)
        row.addStretch(1)
        self.scale_field = QLineEdit()
        self.scale_field.setMaximumWidth(92)
        self.scale_field.setAccessibleName(tr("Scale the recipe to"))
        self.scale_field.returnPressed.connect(self.scale)
        scale_label = QLabel(tr("Scale the recipe to"))
        scale_label.setBuddy(self.scale_field)
        self.scale_button = QPushButton(tr("Scale"))
        self.scale_button.setToolTip(
            tr("Make it so many litres of the same beer: gravity, bitterness and colour are held")
        )
        self.scale_button.clicked.connect(lambda _checked=False: self.scale())
        for widget in (scale_label, self.scale_field, self.scale_button):
            terms.addWidget(widget)
        terms.addStretch(1)
        top = QVBoxLayout()
        top.setSpacing(4)
        top.addLayout(row)
        top.addLayout(terms)
        return top

    def take_focus(self) -> None:
        """Give the keyboard to the pot's size."""
        self.fields["pot"].setFocus(Qt.FocusReason.OtherFocusReason)
        self.fields["pot"].selectAll()

    def close_down(self) -> None:
        self.latest.wait()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        recipe = self._opened.recipe
        for key, quantity in (("pot", recipe.pot.volume), ("fermenter", recipe.fermenter.volume)):
            text = self._display.to_edit(Kind.VOLUME, quantity)
            self._given[key] = (text, quantity)
            self.fields[key].setText(text)
        self.packs_button.setVisible(self._autosave() is not None)
        self._ask_packs()
        self.reckon()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._clear()

    def _follow(self) -> None:
        if self.isVisible():
            if self._packs is not None and self._packs[0] != self._display.pack_set:
                self._ask_packs()
            self.reckon()

    # hops in hand, and the packs of the shop

    def _open_hands(self, wanted: bool) -> None:
        self.hands.setVisible(wanted)
        if wanted:
            self.hands.take_focus()

    def _hands_changed(self) -> None:
        self.hands_button.setText(self.hands.summary())
        self.reckon()

    def shop(self) -> tuple[PackSize, ...]:
        """Return the pack sizes that count: those kept in the Recipe box, else the usual ones."""
        pack_set = self._display.pack_set
        if self._packs is not None and self._packs[0] == pack_set:
            return self._packs[1]
        return packs(pack_set)

    def _ask_packs(self) -> None:
        autosave, pack_set = self._autosave(), self._display.pack_set
        if autosave is None:
            return
        autosave.store.ask(
            lambda store: (pack_set, shop_packs(store, pack_set)),
            self._take_packs,
            key="packs for the ways",
        )

    def _take_packs(self, found: tuple[str, tuple[PackSize, ...]]) -> None:
        before = self.shop()
        self._packs = found
        if self.shop() != before:
            self.reckon()

    def _typed(self, key: str) -> Quantity | None:
        """What stands in a field; as it was given where its text was not changed."""
        field = self.fields[key]
        text, quantity = self._given.get(key, ("", None))
        if field.text() == text:
            return quantity
        with read_from(field):
            found = self._display.read(_kind_of(key), field.text(), text)
            return within_reach(found, LARGEST, field.text())

    def wish(self, recipe: Recipe) -> FitWish:
        """Return what is typed as a wish. Raises RefusedInputError."""
        pot, frozen = self._typed("pot"), self._typed("frozen")
        sizes = [self._typed(key) for key in ("fermenter", "second")]
        return replace(
            wish_for(recipe, pot, tuple(each for each in sizes if each is not None)),
            late_fraction=1.0 if self.late.isChecked() else 0.0,
            whole_packs=self.whole.isChecked(),
            most_frozen_kg=frozen.value if frozen is not None else None,
            may_buy_fermenter=self.borrow.isChecked(),
            hops_in_hand=self.hands.hops(),
            packs=self.shop(),
        )

    def reckon(self) -> None:
        """Find the ways for what is typed now."""
        if not self.isVisible():
            return
        recipe = self._opened.recipe
        try:
            wish = self.wish(recipe)
        except RefusedInputError as fault:
            self.refusal.say(fault)
            return
        self.refusal.clear()

        def work() -> tuple[Recipe, FitAnswer]:
            # Beside the window: it does not wait for the searches to be loaded.
            from designer.brewday.fit.ways import ways

            return recipe, ways(recipe, wish)

        self.latest.ask(work)

    def _show(self, found: tuple[Recipe, FitAnswer]) -> None:
        recipe, answer = found
        if recipe is not self._opened.recipe or not self.isVisible():
            return
        self.answer = answer
        show = self._display.rounded
        more = [each.said(show) for each in answer.would_work]
        self.sentence.setText(" ".join([answer.sentence.said(show), *more]))
        self._clear()
        original = OriginalCard(recipe.name, answer, self._display)
        self.scale_field.setPlaceholderText(original.volume)
        self._row.addWidget(original, 0, Qt.AlignmentFlag.AlignTop)
        for way in answer.every_way:
            card = WayCard(way, self._display)
            card.use_wanted.connect(self._use)
            card.sheet_wanted.connect(self._print)
            self.cards.append(card)
            self._row.addWidget(card)
        if answer.no_ways:
            self._row.addWidget(NoWaysCard(answer, self._display))

    def _clear(self) -> None:
        self.cards = []
        while self._row.count():
            item = self._row.takeAt(0)
            widget = item.widget() if item is not None else None
            if widget is not None:
                widget.hide()
                widget.deleteLater()

    def scale(self) -> None:
        """Make it another batch of the same beer, as one undo step."""
        try:
            litres = self._display.read(Kind.VOLUME, self.scale_field.text()).value
            shop = self.shop() if self.whole.isChecked() else ()
            scaled = scale(self._opened.recipe, litres, whole_packs=shop)
        except RefusedInputError as fault:
            self.refusal.say(fault, self.scale_field)
            return
        if not self._make(scaled.edit):
            return
        after, display = scaled.forecasts, self._display
        held = ", ".join(
            f"{within(each.plain)} {figure(each.key, after[each.key].value, display)}"
            for each in MAIN
            if each.weight is not None
        )
        size = self._display.value(Kind.VOLUME, litres)
        packs = self._in_packs(scaled)
        told = (
            tr(
                "Scaled to {size}: {held}. In whole packs: {packs}. Undo takes it back.",
                size=size,
                held=held,
                packs=packs,
            )
            if packs
            else tr("Scaled to {size}: {held}. Undo takes it back.", size=size, held=held)
        )
        self.said.emit(" ".join([told, *(each.said(display.rounded) for each in scaled.words)]))

    def _in_packs(self, scaled: Scaled) -> str:
        """Return which packs were chosen for the lines of extract, in words."""
        said = {(each.kind, each.mass_kg): each.said for each in self.shop()}
        lines = {line.line_id: line for line in self._opened.recipe.fermentables}
        words = [
            tr(
                "{count} × {pack} of {name}",
                count=count,
                pack=said[lines[line_id].kind, size],
                name=lines[line_id].name,
            )
            for line_id, chosen in scaled.packs.items()
            for size, count in zip(chosen.sizes_kg, chosen.counts, strict=True)
            if count and line_id in lines
        ]
        return ", ".join(words)

    def _use(self, way: Way) -> None:
        if self._make(way.edit):
            self.used.emit(way)

    def _print(self, way: Way) -> None:
        if self._make(way.edit):
            self.sheet_wanted.emit()

    def _make(self, edit: Edit) -> bool:
        """Make an edit; False, and said why, if no recipe could hold its outcome."""
        try:
            self._opened.make_or_refuse(edit)
        except RefusedInputError as fault:
            self.refusal.say(fault)
            return False
        return True


def _kind_of(key: str) -> Kind:
    """The kind of what a field of the wish takes."""
    return Kind.MASS if key == "frozen" else Kind.VOLUME
