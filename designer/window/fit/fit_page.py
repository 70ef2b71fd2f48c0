"""Fit: what there is above, the ways side by side below it, and the chosen one whole.

The ways are reckoned off the window's thread while sizes are typed; an answer to older sizes is
dropped. The recipe as it is written is shown at once, and places for the ways beside it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from designer.brewday.fit.answer import FitAnswer, Way
from designer.brewday.predictions import MAIN
from designer.errors import RefusedInputError
from designer.library.packs import PackSize
from designer.recipe.document import Recipe
from designer.recipe.edits import Edit
from designer.recipe.message import say, within
from designer.recipe.plan import as_written, is_planned
from designer.recipe.quantity import Kind
from designer.translation import named, tr, trn
from designer.window.fit.chosen_way import ChosenWay, label
from designer.window.fit.kitchen_fields import KitchenFields
from designer.window.fit.side_by_side import Mark, SideBySide
from designer.window.fit.ways_table import WaysView
from designer.window.parts.background import Latest
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.flow import FlowLayout
from designer.window.parts.page_frame import MARGIN, Page, heading, scrolled
from designer.window.parts.refusal import Refusal
from designer.window.parts.unit_words import unit_words
from designer.window.parts.vessel_field import KeptVessels
from designer.window.session.open_recipe import OpenRecipe
from designer.window.session.shop_sizes import ShopSizes

if TYPE_CHECKING:
    from designer.brewday.fit.scaling import Scaled
    from designer.brewday.fit.wish import FitWish, HopInHand
    from designer.brewday.results import Outlook
    from designer.library.store import Store
    from designer.window.fit.hops_in_hand import HopsInHand
    from designer.window.session.autosave import Autosave


class _Found(NamedTuple):
    """What was found for which recipe in which kitchen; `turn` counts the questions."""

    turn: int
    recipe: Recipe
    wish: FitWish
    answer: FitAnswer


class FitPage(Page):
    """Sizes above, the ways below."""

    used = Signal(object)
    said = Signal(str)
    sheet_wanted = Signal()
    packs_wanted = Signal()
    _partly_found = Signal(object)

    def __init__(
        self,
        opened: OpenRecipe,
        display: DisplayFormat,
        autosave: Callable[[], Autosave | None] = lambda: None,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._opened, self._display, self._autosave = opened, display, autosave
        self._shop = ShopSizes(display, autosave, self, key="packs for the ways")
        self._shop.changed.connect(self.reckon)
        self._turn = 0
        self._found: _Found | None = None
        self._chosen_key = ""
        self._instead: dict[str, str] = {}
        """Which way is looked at in place of the one that stands for it, by their keys."""
        self.answer: FitAnswer | None = None
        """All that was found for what is typed; None while it is looked for."""
        self.latest = Latest(self)
        self.latest.answered.connect(self._show_all)
        self._partly_found.connect(self._show_part, Qt.ConnectionType.QueuedConnection)
        self._lay_out()
        opened.recipe_changed.connect(self._follow)
        display.settings.changed.connect(self._follow)

    # laying out

    def _lay_out(self) -> None:
        self.sentence = label("")
        self.refusal = Refusal(self.sentence)
        self._hands: HopsInHand | None = None
        self.kitchen = KitchenFields(self._display, self)
        self.kitchen.changed.connect(self.reckon)
        self.fields = self.kitchen.by_key
        self.whole = self.kitchen.whole
        unit_words().known.connect(self.reckon)
        self.table = WaysView()
        self.table.way_chosen.connect(self._choose)
        self.table.use_wanted.connect(self.use)
        self.table.page_changed.connect(self._follow_page)
        self.chosen = ChosenWay(self._display)
        self.chosen.use_wanted.connect(self.use)
        self.chosen.sheet_wanted.connect(self._print)
        self.not_here = QWidget()
        self.not_here.setObjectName("plain")
        self._reasons = QVBoxLayout(self.not_here)
        self._reasons.setContentsMargins(0, 4, 0, 0)
        below = QWidget()
        below.setObjectName("plain")
        inside = self._inside = QVBoxLayout(below)
        inside.setSpacing(6)
        inside.addWidget(self.table)
        inside.addLayout(self._legend())
        self.alike = QWidget()
        self.alike.setObjectName("plain")
        self._alike = FlowLayout(self.alike, across=8)
        self.alike.hide()
        inside.addWidget(self.alike)
        inside.addWidget(self.chosen)
        inside.addWidget(self.not_here)
        inside.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(MARGIN, 8, MARGIN, 8)
        layout.setSpacing(6)
        layout.addLayout(self._top())
        self._layout = layout
        layout.addWidget(self.sentence)
        area = scrolled(below)
        self._bar = area.verticalScrollBar()
        self._bar.rangeChanged.connect(self._keep_room_for_bar)
        self._keep_room_for_bar()
        layout.addWidget(area, 1)

    def _keep_room_for_bar(self) -> None:
        """Leave as much room as the bar takes where there is none: no column moves for it."""
        room = 0 if self._bar.maximum() > 0 else self._bar.sizeHint().width()
        self._inside.setContentsMargins(0, 0, room, 0)

    def _top(self) -> FlowLayout:
        top = FlowLayout()
        for each in self.kitchen.widgets:
            top.addWidget(each)
        self.hands_button = QPushButton(tr("Hops in hand: none"))
        self.hands_button.setObjectName("quiet")
        self.hands_button.setCheckable(True)
        self.hands_button.setToolTip(tr("Hops in your freezer, for the ways to use"))
        self.hands_button.toggled.connect(self._open_hands)
        top.addWidget(self.hands_button)
        top.addWidget(self._scale_fields())
        return top

    @property
    def hands(self) -> HopsInHand:
        """The list of hops, and the sizes of packs; put together when first opened."""
        if self._hands is None:
            from designer.window.fit.hops_in_hand import HopsInHand

            self._hands = HopsInHand(self._display, self._autosave)
            self._hands.hide()
            self._hands.changed.connect(self._hands_changed)
            self.packs_button = QPushButton(tr("Pack sizes…"))
            self.packs_button.setObjectName("quiet")
            self.packs_button.setAccessibleName(tr("Pack sizes of your shop"))
            self.packs_button.setToolTip(tr("See and change the sizes in which your shop sells"))
            self.packs_button.clicked.connect(lambda _checked=False: self.packs_wanted.emit())
            self._hands.add_to_buttons(self.packs_button)
            self._layout.insertWidget(1, self._hands)
            self._tab_through(self._hands)
        return self._hands

    def _tab_through(self, hands: HopsInHand) -> None:
        """Let the list come behind the button that opens it, though it was made last."""
        before: QWidget = self.hands_button
        for each in hands.findChildren(QWidget):
            in_it = each.window() is self.window()  # not the list of a choice
            if in_it and each.focusPolicy() & Qt.FocusPolicy.TabFocus:
                QWidget.setTabOrder(before, each)
                before = each

    def _scale_fields(self) -> QWidget:
        self.scale_field = QLineEdit()
        self.scale_field.setFixedWidth(76)
        self.scale_field.setAccessibleName(tr("Scale the recipe to"))
        self.scale_field.returnPressed.connect(self.scale)
        name = QLabel(tr("Scale the recipe to"))
        name.setBuddy(self.scale_field)
        self.scale_button = QPushButton(tr("Scale it"))
        self.scale_button.setToolTip(
            tr("Make it so many litres of the same beer: gravity, bitterness and colour are held")
        )
        self.scale_button.clicked.connect(lambda _checked=False: self.scale())
        box = QWidget()
        row = QHBoxLayout(box)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(5)
        for each in (name, self.scale_field, self.scale_button):
            row.addWidget(each)
        return box

    def _legend(self) -> FlowLayout:
        """What the signs mean, how many ways are on other pages, and that it is still looked."""
        legend = FlowLayout(across=22)
        same = label(tr("Plain: inside the recipe’s own range"), soft=True)
        same.setWordWrap(False)
        legend.addWidget(same)
        for mark, name in ((Mark.DIFFERS, "differs"), (Mark.DOES_NOT_FIT, "doesNotFit")):
            words = label(f"{mark.sign} {mark.words}", bold=True)
            words.setObjectName(name)
            words.setWordWrap(False)
            legend.addWidget(words)
        self.fewer_button, self.more_button = QPushButton(), QPushButton()
        for button, forward in ((self.fewer_button, False), (self.more_button, True)):
            button.setObjectName("cure")
            button.clicked.connect(
                lambda _checked=False, forward=forward: self.table.turn_page(forward)
            )
            button.hide()
            legend.addWidget(button)
        self.working = label(tr("Looking for ways…"), soft=True)
        self.working.setWordWrap(False)
        self.working.hide()
        legend.addWidget(self.working)
        return legend

    # the page is seen

    def take_focus(self) -> None:
        """Give the keyboard to the pot's size."""
        self.fields["pot"].setFocus(Qt.FocusReason.OtherFocusReason)
        self.fields["pot"].selectAll()

    def close_down(self) -> None:
        self.latest.wait()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._ask_store()
        self._follow()

    def _follow(self) -> None:
        if self.isVisible():
            self._shop.follow_units()
            self.kitchen.show_recipe(as_written(self._opened.recipe))
            self.reckon()

    # hops in hand, the packs of the shop, the vessels of the kitchen

    def _open_hands(self, wanted: bool) -> None:
        self.hands.setVisible(wanted)
        self.packs_button.setVisible(self._autosave() is not None)
        if wanted:
            self.hands.take_focus()

    def _hands_changed(self) -> None:
        self.hands_button.setText(self.hands.summary())
        self.reckon()

    def _hops(self) -> tuple[HopInHand, ...]:
        return () if self._hands is None else self._hands.hops()

    def shop(self) -> tuple[PackSize, ...]:
        """Return the pack sizes that count: those kept in the Recipe box, else the usual ones."""
        return self._shop.sizes()

    def _ask_store(self) -> None:
        self._shop.ask()
        autosave = self._autosave()
        if autosave is None:
            return

        def kept(store: Store) -> KeptVessels:
            return KeptVessels(tuple(store.pots.all()), tuple(store.fermenters.all()))

        autosave.store.ask(kept, self.kitchen.offer, key="vessels for the ways")

    # looking for ways

    def wish(self, recipe: Recipe) -> FitWish:
        """Return what is typed as a wish. Raises RefusedInputError."""
        return replace(self.kitchen.wish(recipe), hops_in_hand=self._hops(), packs=self.shop())

    def reckon(self) -> None:
        """Find the ways for what is typed now; until they are found, what was found stays."""
        if not self.isVisible():
            return
        recipe = as_written(self._opened.reckoned)
        try:
            wish = self.wish(recipe)
        except RefusedInputError as fault:
            self._refuse(fault)
            return
        self.refusal.clear()
        self._dim(False)
        self._turn += 1
        turn, tell = self._turn, self._partly_found.emit
        self.answer = None
        self.working.show()
        self._show_written(recipe, wish)

        def work() -> _Found:
            # Beside the window: it does not wait for the searches to be loaded.
            from designer.brewday.fit.ways import ways_in_turn

            for answer in ways_in_turn(recipe, wish):
                found = _Found(turn, recipe, wish, answer)
                tell(found)
            return found

        self.latest.ask(work)

    def _refuse(self, fault: RefusedInputError) -> None:
        """A size cannot be read: what stands in the table is no answer to it."""
        self.refusal.say(fault)
        self._turn += 1
        self.working.hide()
        self._dim(True)

    def _dim(self, dimmed: bool) -> None:
        self.table.dim(dimmed)
        self.chosen.allow_use(not dimmed)

    def _show_written(self, recipe: Recipe, wish: FitWish) -> None:
        """Show the recipe as it is written at once, where nothing of it is shown yet."""
        if self._found is not None and self._found.recipe is recipe:
            return
        outlook = self._outlook(recipe)
        looking = say("looking", "Looking for ways to brew it here.")
        answer = FitAnswer(outlook.day, outlook.forecasts, (), (), looking, ())
        self._show(_Found(self._turn, recipe, wish, answer))

    def _outlook(self, recipe: Recipe) -> Outlook:
        """Return the forecast of the recipe as it is written, known if it has no plan."""
        if recipe is self._opened.reckoned:
            return self._opened.newest_outlook()
        # The page is first seen long after the first picture, for which nothing loads the day.
        from designer.brewday.outlook import look_ahead

        return look_ahead(recipe)

    def _show_part(self, found: _Found) -> None:
        """Show what is found so far; columns that stand there do not move for the next."""
        is_new = found.turn == self._turn and self.answer is None
        if is_new and self.isVisible() and (found.answer.ways or not self.ways):
            self._show(found)

    def _show_all(self, found: _Found) -> None:
        if found.turn != self._turn or not self.isVisible():
            return
        self.working.hide()
        self._show(found)
        self.answer = found.answer
        self._say(found.answer)

    @property
    def ways(self) -> tuple[Way, ...]:
        """The ways that are shown."""
        return tuple(self._looked_at(way) for way in self._standing)

    def _looked_at(self, way: Way) -> Way:
        """Return a way, or that of its near copies which was asked for."""
        wanted = self._instead.get(way.key, way.key)
        return next((each for each in way.much_the_same if each.key == wanted), way)

    @property
    def _standing(self) -> tuple[Way, ...]:
        """The ways with a column, each for those that are much the same."""
        if self._found is None:
            return ()
        all_of_them = self.kitchen.buying.isChecked()
        return tuple(way for way in self._found.answer.ways if way.in_hand or all_of_them)

    def _show_alike(self) -> None:
        """Offer the ways that are much the same as those that are shown."""
        while self._alike.count():
            item = self._alike.takeAt(0)
            widget = item.widget() if item is not None else None
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        shown = {way.key for way in self.ways}
        others = [
            (way, each)
            for way in self._standing
            for each in (way, *way.much_the_same)
            if each.key not in shown
        ]
        if others:
            words = label(tr("Much the same as these:"), soft=True)
            words.setWordWrap(False)
            self._alike.addWidget(words)
        for way, each in others:
            self._alike.addWidget(self._link(way, each))
        self.alike.setVisible(bool(others))

    def _link(self, way: Way, other: Way) -> QPushButton:
        """Return what shows another way in the place of one that is much the same."""
        link = QPushButton(tr(other.name))
        link.setObjectName("cure")
        link.setAccessibleName(
            tr("{other}, much the same as {way}", other=tr(other.name), way=tr(way.name))
        )
        link.clicked.connect(lambda _checked=False: self._put_instead(way, other))
        return link

    def _put_instead(self, way: Way, other: Way) -> None:
        self._instead[way.key] = other.key
        self._chosen_key = other.key
        if self._found is not None:
            self._show(self._found)
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show(self, found: _Found) -> None:
        self._found = found
        answer = replace(found.answer, ways=self.ways)
        columns = SideBySide(found.recipe, found.wish, answer, self._display).columns()
        self.scale_field.setPlaceholderText(columns[0].cells[0].text)
        self.table.show_columns(columns, self._chosen_key)
        self._show_alike()
        self._show_chosen()

    def _say(self, answer: FitAnswer) -> None:
        """Say what was found in a sentence, and why other ways do not go."""
        show = self._display.rounded
        if answer.ways and not self.ways:
            only_bought = tr("Every way asks for something to buy or borrow, and those are hidden.")
            self.sentence.setText(only_bought)
        else:
            more = [each.said(show) for each in (*answer.would_work, *answer.idle_hops)]
            self.sentence.setText(" ".join([answer.sentence.said(show), *more]))
        while self._reasons.count():
            item = self._reasons.takeAt(0)
            widget = item.widget() if item is not None else None
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self.not_here.setVisible(bool(answer.no_ways))
        if answer.no_ways:
            self._reasons.addWidget(heading(tr("Not here")))
        for each in answer.no_ways:
            reason = tr("{way}: {reason}", way=tr(each.name), reason=each.reason.said(show))
            self._reasons.addWidget(label(reason, soft=True))

    # the chosen way

    def _choose(self, way: Way) -> None:
        self._chosen_key = way.key
        self._show_chosen()

    def choose(self, way: Way) -> None:
        """Choose a way that is shown."""
        self.table.choose(self.ways.index(way))

    def _show_chosen(self) -> None:
        if self._found is not None:
            self.chosen.show_way(self.table.chosen, self._found.recipe, self._found.answer)

    def _follow_page(self) -> None:
        """Say how many ways are on other pages."""
        before, behind = self.table.hidden_before, self.table.hidden_behind
        for button, count, text in (
            (self.fewer_button, before, trn("{number} way before", "{number} ways before", before)),
            (self.more_button, behind, trn("{number} more way", "{number} more ways", behind)),
        ):
            button.setText(text)
            button.setVisible(count > 0)

    def use(self) -> None:
        """Make the chosen way the recipe, as one undo step."""
        way = self.table.chosen
        if way is not None and self._make(way.edit):
            self.used.emit(way)

    def _print(self) -> None:
        way = self.table.chosen
        if way is not None and self._make(way.edit):
            self.sheet_wanted.emit()

    def _make(self, edit: Edit) -> bool:
        """Make an edit; False, and said why, if no recipe could hold its outcome."""
        try:
            self._opened.make_or_refuse(edit)
        except RefusedInputError as fault:
            self.refusal.say(fault)
            return False
        return True

    # another batch

    def scale(self) -> None:
        """Make it another batch of the same beer, as one undo step."""
        # Few who come to this page scale: it is shown without that.
        from designer.brewday.fit.scaling import scale

        try:
            litres = self._display.read(Kind.VOLUME, self.scale_field.text()).value
            shop = self.shop() if self.whole.isChecked() else ()
            planned = is_planned(self._opened.recipe)
            scaled = scale(self._opened.reckoned, litres, whole_packs=shop)
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
        said = (
            tr(
                "Scaled to {size}: {held}. In whole packs: {packs}. Undo takes it back.",
                size=size,
                held=held,
                packs=packs,
            )
            if packs
            else tr("Scaled to {size}: {held}. Undo takes it back.", size=size, held=held)
        )
        if planned:
            said = f"{said} {tr('It is brewed as written again.')}"
        self.said.emit(said)

    def _in_packs(self, scaled: Scaled) -> str:
        """Return which packs were chosen for the lines of extract, in words."""
        said = {(each.kind, each.mass_kg): each.said for each in self.shop()}
        lines = {line.line_id: line for line in self._opened.recipe.fermentables}
        words = [
            tr(
                "{count} × {pack} of {name}",
                count=count,
                pack=said[lines[line_id].kind, size],
                name=named(lines[line_id].name),
            )
            for line_id, chosen in scaled.packs.items()
            for size, count in zip(chosen.sizes_kg, chosen.counts, strict=True)
            if count and line_id in lines
        ]
        return ", ".join(words)
