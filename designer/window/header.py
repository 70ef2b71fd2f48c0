"""The header: name, size and style of the recipe, whether it is saved, the pages, what one does."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QWidget,
)

from designer.library.catalogue import find_style
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.edits import ChangeRecipe
from designer.recipe.message import say
from designer.recipe.quantity import Kind
from designer.translation import named, tr, trn
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.eliding import ElidedButton, ElidedField, ElidedLabel
from designer.window.parts.plain_text import tip
from designer.window.parts.turn_button import TurnButton
from designer.window.session.open_recipe import UNNAMED, OpenRecipe

if TYPE_CHECKING:
    from designer.brewday.results import Glimpse, Outlook


NAME_PX, SHORT_NAME_PX, STYLE_PX, STATE_PX, GAPS_PX = 160, 90, 120, 94, 110
"""Least widths of name, style and state, and the room between all there is."""
SHORT_STYLE_PX = 60
"""Where room is short, name and style give way down to their short widths before the state does."""
NAME_FRAME_PX, MOST_BEYOND_PX = 18, 120
"""Round the name; what name and state can each have beyond that before anything gives way."""


class Header(QWidget):
    """One line across the window."""

    page_wanted = Signal(int)
    doors_wanted = Signal()
    refused = Signal(str)

    def __init__(
        self,
        opened: OpenRecipe,
        display: DisplayFormat,
        pages: tuple[str, ...],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setObjectName("header")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._opened, self._display = opened, display
        self.name = self._name_field()
        self.program = self._program_name()
        self.batch = QLabel()
        self.batch.setObjectName("soft")
        self.style_field = self._style_field()
        self.style_name = QLabel(tr("Style"))
        self.style_name.setObjectName("soft")
        self.style_name.setBuddy(self.style_field)
        self.state = ElidedLabel()
        self.state.setObjectName("soft")
        self.untaken = QLabel()
        self.untaken.setObjectName("notTaken")
        self.untaken.hide()
        self.unkept = QPushButton(tr("Nothing is kept"))
        self.unkept.setObjectName("unkept")
        self.unkept.hide()
        self.undo, self.redo = TurnButton(back=True), TurnButton(back=False)
        self.new = QPushButton(tr("New"))
        self.new.setToolTip(tr("Begin another recipe: a design of your own, a kit, an example"))
        self.new.clicked.connect(self.doors_wanted)
        self.print = QPushButton()
        self.page_buttons = QButtonGroup(self)
        layout = QGridLayout(self)
        layout.setContentsMargins(14, 6, 16, 6)
        layout.addLayout(self._left(), 0, 0)
        layout.addLayout(self._middle(pages), 0, 1)
        layout.addLayout(self._right(), 0, 2)
        layout.setColumnStretch(0, 5)
        opened.opened_first.connect(self._follow_opened)
        opened.values_changed.connect(self._say_batch)
        opened.outlook_changed.connect(self._say_batch)
        display.settings.changed.connect(self._say_batch_anew)
        self._follow_opened()
        self._say_batch_anew()

    def _name_field(self) -> ElidedField:
        opened = self._opened

        def take(text: str, merge_key: str) -> None:
            opened.make_or_refuse(
                ChangeRecipe("name", text, say("rename", "rename the recipe"), merge_key)
            )

        field = ElidedField(
            opened, tr("Name of the recipe"), lambda: opened.recipe.name, take, lambda: tr(UNNAMED)
        )
        field.setObjectName("recipeName")
        font = field.font()
        font.setPointSizeF(1.35 * font.pointSizeF())
        field.setFont(font)
        field.setMinimumWidth(NAME_PX)
        return field

    def _style_field(self) -> ElidedField:
        opened = self._opened

        def take(text: str, merge_key: str) -> None:
            entry = find_style(text)
            style = entry.name if entry is not None else text
            opened.make_or_refuse(
                ChangeRecipe("style", style, say("change-style", "change style"), merge_key)
            )

        field = ElidedField(
            opened,
            tr("Style"),
            lambda: named(opened.recipe.style),
            take,
            lambda: tr("none chosen"),
        )
        drawn = tr("A style of the guidelines; its ranges are marked in the forecast")
        field.setToolTip(f"{drawn}\n{STYLE_NUMBERS}")
        field.setMaximumWidth(200)
        field.suggests = "styles"
        return field

    def _follow_opened(self) -> None:
        """Offer what can be done with a recipe only while one is open."""
        is_open = self._opened.is_open
        self.program.setVisible(not is_open)
        for each in (self.name, self.style_field):
            each.setVisible(is_open)
        self._yield_room()

    def _yield_room(self) -> None:
        """Where room is short, what is told elsewhere too gives way to the pages."""
        told_elsewhere, in_the_menu = (self.batch, self.style_name), (self.new, self.print)
        always = (*self.page_buttons.buttons(), self.undo, self.redo)
        left = self.width() - NAME_PX - STYLE_PX - STATE_PX - GAPS_PX - _widths(always)
        is_roomy = left >= _widths(in_the_menu)
        is_wide = left - self._wanted_beyond() >= _widths((*in_the_menu, *told_elsewhere))
        spare = left - (_widths(in_the_menu) if is_roomy else 0)
        spare -= _widths(told_elsewhere) if is_wide else 0
        wanted = min(self._state_px(), STATE_PX + min(max(spare, 0), MOST_BEYOND_PX))
        short = NAME_PX - SHORT_NAME_PX + STYLE_PX - SHORT_STYLE_PX
        self.state.setMinimumWidth(wanted if left + short >= 0 else 0)
        layout = self.layout()
        assert isinstance(layout, QGridLayout)
        right = 4 if is_roomy else 1
        layout.setColumnStretch(2, right if self._opened.is_open else 6)  # no name needs room then
        for each in told_elsewhere:
            each.setVisible(is_wide and self._opened.is_open)
        for button in in_the_menu:
            button.setVisible(is_roomy)
        self.name.setMinimumWidth(NAME_PX if is_roomy else SHORT_NAME_PX)
        layout.activate()

    def _wanted_beyond(self) -> int:
        """How much more than their least widths name and state want, to be read in full."""
        name = self.name.fontMetrics().horizontalAdvance(self.name.text()) + NAME_FRAME_PX
        wants = ((name, NAME_PX), (self._state_px(), STATE_PX))
        return sum(min(max(wanted - least, 0), MOST_BEYOND_PX) for wanted, least in wants)

    def _state_px(self) -> int:
        """How wide the state is, said whole; its hint would be no less than its least width."""
        return self.state.fontMetrics().horizontalAdvance(self.state.text()) + 1

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._yield_room()

    def _say_batch_anew(self) -> None:
        if self._opened.is_open and not self._opened.waiting:
            self._say_batch(self._opened.outlook)

    def _say_batch(self, seen: Outlook | Glimpse) -> None:
        """Say how much beer there will be in the fermenters, once that is known."""
        text = self._display.short(Kind.VOLUME, float(seen.day.fermenter.batch_l))
        if text != self.batch.text():
            self.batch.setText(text)
            self.batch.setAccessibleName(tr("Batch size {volume}", volume=text))
            self.batch.setToolTip(
                tr("How much goes into the fermenter, or into all those of a plan")
            )

    def offer_page(self, number: int, why_not: str) -> None:
        """Let a page be chosen; where it cannot be, say why not."""
        button = self.page_buttons.button(number)
        button.setEnabled(not why_not)
        button.setToolTip(why_not or f"Ctrl+{number + 1}")
        button.setAccessibleDescription(why_not)

    def _program_name(self) -> QLabel:
        """What stands in place of the name of a recipe while there is none."""
        label = QLabel("Hobwort")
        font = self.name.font()
        font.setBold(True)
        label.setFont(font)
        return label

    def _left(self) -> QHBoxLayout:
        left = QHBoxLayout()
        left.addWidget(self.program)
        left.addWidget(self.name, 3)
        left.addWidget(self.batch)
        left.addSpacing(4)
        left.addWidget(self.style_name)
        left.addWidget(self.style_field, 2)
        return left

    def _middle(self, pages: tuple[str, ...]) -> QHBoxLayout:
        middle = QHBoxLayout()
        middle.setSpacing(4)
        middle.setContentsMargins(16, 0, 16, 0)
        for number, page in enumerate(pages):
            button = ElidedButton(tr(page))
            button.setObjectName("pageButton")
            button.setCheckable(True)
            button.setChecked(number == 0)
            button.setAccessibleName(tr("{page} page", page=tr(page)))
            button.setToolTip(f"Ctrl+{number + 1}")
            self.page_buttons.addButton(button, number)
            middle.addWidget(button)
        self.page_buttons.idClicked.connect(self.page_wanted)
        self.check_page(0)
        return middle

    def _right(self) -> QHBoxLayout:
        right = QHBoxLayout()
        right.addStretch(1)
        right.addWidget(self.untaken)
        right.addWidget(self.unkept)
        right.addWidget(self.state)
        right.addSpacing(8)
        right.addWidget(self.undo)
        right.addWidget(self.redo)
        right.addWidget(self.new)
        right.addWidget(self.print)
        return right

    def check_page(self, number: int) -> None:
        """Show which page is seen; -1 for one that has no button."""
        self.page_buttons.setExclusive(number >= 0)
        for button in self.page_buttons.buttons():
            is_seen = self.page_buttons.id(button) == number
            button.setChecked(is_seen)
            # Tab goes to the pressed one, the arrows to the others, as with any choice of one.
            policy = Qt.FocusPolicy.StrongFocus if is_seen else Qt.FocusPolicy.ClickFocus
            button.setFocusPolicy(policy)

    def say_state(self, opened: OpenRecipe, kept: str, of_brew: str = "") -> None:
        """Show what holds what is on the screen: a file, the Recipe box, a draft.

        While nothing is open, that; at the stove what became `of_brew`, whose log it is.
        """
        if of_brew:
            text = of_brew
        elif not opened.is_open:
            text = kept
        elif opened.unsaved:
            text = tr("unsaved, {kept}", kept=kept) if kept else tr("unsaved changes")
        elif opened.path is not None and not opened.file_trouble:
            text = tr("saved")
        elif opened.file_trouble:
            trouble = tr(opened.file_trouble)
            text = tr("{kept}, {trouble}", kept=kept, trouble=trouble) if kept else trouble
        else:
            text = kept or tr("not in a file yet")
        if text != self.state.text():
            self.state.setText(text)
            self._yield_room()
        where = tip(str(opened.path)) if opened.path is not None else ""
        if where != self.state.toolTip():
            self.state.setToolTip(where)

    def say_unkept(self, why: str, is_damaged: bool = False) -> None:
        """Show that the Recipe box keeps nothing, and why when it is pointed at; "" if it does.

        One that is damaged may keep some on; the state tells what of this recipe is kept.
        """
        self.unkept.setText(tr("Box is damaged") if is_damaged else tr("Nothing is kept"))
        self.unkept.setToolTip(tip(why))
        self.unkept.setAccessibleName(tr("{what}. {why}", what=self.unkept.text(), why=why))
        self.unkept.setMinimumWidth(0)
        self.unkept.setMinimumWidth(self.unkept.sizeHint().width())  # never cut, however narrow
        self.unkept.setVisible(bool(why))

    def say_untaken(self, untaken: tuple[str, ...]) -> None:
        """Show how much is typed and not taken; pointed at, it says what and where."""
        count = len(untaken)
        self.untaken.setText(trn("{number} not taken", "{number} not taken", count))
        self.untaken.setAccessibleName(
            trn("{number} typed and not taken", "{number} typed and not taken", count)
        )
        self.untaken.setToolTip("\n".join(untaken))
        self.untaken.setVisible(bool(untaken))


def _widths(widgets: Iterable[QWidget]) -> int:
    """Return how wide widgets are beside each other, with nothing cut."""
    return sum(each.sizeHint().width() for each in widgets)
