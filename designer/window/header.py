"""The header: name, size and style of the recipe, whether it is saved, the pages, what one does."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

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
from designer.window.parts.eliding import ElidedButton, ElidedField, ShortenedLabel
from designer.window.parts.plain_text import tip
from designer.window.parts.theme import TIGHT_BUTTON
from designer.window.parts.turn_button import TurnButton
from designer.window.session.open_recipe import UNNAMED, OpenRecipe

if TYPE_CHECKING:
    from designer.brewday.results import Glimpse, Outlook


NAME_FRAME_PX, MOST_NAME_PX, STYLE_PX = 22, 224, 120
"""Round the name; what a long one has room for before anything gives way; the style beside it."""
ROUND_PX, GAP_PX = 42, 6
"""Round all there is, and beside each."""
BESIDE_PAGES_PX, BESIDE_TIGHT_PX = 16, 8
"""Left and right of the buttons of the pages."""
SAVED_PX = 14
"""How much narrower each button of a page is where room is short."""


class _Room(NamedTuple):
    """What the header shows, and how much of it, where it has a certain room.

    `extras` are the size of the batch and the label of the style, `menu` the buttons for what is in
    the menus too. Of a name that is longer so many `letters` are read; 0 for as many as it has.
    """

    extras: bool = False
    tight: bool = True
    menu: bool = False
    style_px: int = 0
    letters: int = 16
    state_whole: bool = True
    pages_whole: bool = True


ROOMS = (
    _Room(extras=True, tight=False, menu=True, style_px=STYLE_PX, letters=0),
    _Room(tight=False, menu=True, style_px=STYLE_PX, letters=0),
    _Room(menu=True, style_px=STYLE_PX, letters=0),
    _Room(style_px=STYLE_PX, letters=0),
    _Room(style_px=90),
    _Room(style_px=90, state_whole=False),
    _Room(),
    _Room(state_whole=False),
    _Room(state_whole=False, letters=10),
    _Room(state_whole=False, letters=10, pages_whole=False),
)
"""From a wide window to a narrow one: what is told elsewhere gives way first, the pages last."""


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
        self._wants_style = self._is_tight = self._is_laid_out = False
        self._wide: dict[QWidget, int] = {}
        self.name = self._name_field()
        self.program = self._program_name()
        self.batch = QLabel()
        self.batch.setObjectName("soft")
        self.style_field = self._style_field()
        self.style_name = QLabel(tr("Style"))
        self.style_name.setObjectName("soft")
        self.style_name.setBuddy(self.style_field)
        self.state = ShortenedLabel()
        self.state.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
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
        field.editingFinished.connect(self._yield_room)
        return field

    def _follow_opened(self) -> None:
        """Offer what can be done with a recipe only while one is open."""
        is_open = self._opened.is_open
        self.program.setVisible(not is_open)
        for each in (self.name, self.style_field):
            each.setVisible(is_open)
        self._yield_room()

    def begin_style(self) -> None:
        """Let the style be typed, also where it has given way to the rest."""
        self._wants_style = True
        self._yield_room()
        self._wants_style = False
        self.style_field.setFocus()

    def _yield_room(self) -> None:
        """Show what there is room for."""
        is_open, field = self._opened.is_open, self.style_field
        self._wide.clear()
        rooms = list(ROOMS if self._is_laid_out else ROOMS[:1])
        if self._wants_style or field.hasFocus() or field.property("refused"):
            rooms = [each._replace(style_px=max(each.style_px, 60)) for each in rooms]
        room = next((each for each in rooms if self._wanted_px(each) <= self.width()), None)
        has_room, room = room is not None, room or rooms[-1]
        for extra in (self.batch, self.style_name):
            extra.setVisible(room.extras and is_open)
        for button in (self.new, self.print):
            button.setVisible(room.menu)
        field.setVisible(bool(room.style_px) and is_open)
        field.setMinimumWidth(room.style_px)
        self.name.setMinimumWidth(self._name_px(room))
        self.state.setMinimumWidth(self._state_px(room) if has_room else 0)
        self._size_pages(tight=room.tight, whole=room.pages_whole)
        layout = self.layout()
        assert isinstance(layout, QGridLayout)
        right = 4 if room.menu else 1
        layout.setColumnStretch(2, right if is_open else 6)  # no name needs room then
        layout.activate()

    def _wanted_px(self, room: _Room) -> int:
        """How wide all that is shown in a room is, with nothing cut."""
        is_open = self._opened.is_open
        whole: list[QWidget] = [self.undo, self.redo]
        whole += [each for each in (self.untaken, self.unkept) if not each.isHidden()]
        whole += [self.new, self.print] if room.menu else []
        whole += [self.batch, self.style_name] if room.extras and is_open else []
        whole += [] if is_open else [self.program]
        widths = [self._width_of(each) for each in whole]
        widths += [self._pages_px(room), self._state_px(room)]
        if is_open:
            widths += [self._name_px(room), *([room.style_px] if room.style_px else [])]
        gaps = len(widths) - 1 + len(self.page_buttons.buttons())
        beside = 0 if room.tight else 2 * (BESIDE_PAGES_PX - BESIDE_TIGHT_PX)
        return ROUND_PX + beside + sum(widths) + GAP_PX * gaps

    def _name_px(self, room: _Room) -> int:
        """How much of the name is to be read at least."""
        name, metrics = self.name.text() or self.name.placeholderText(), self.name.fontMetrics()
        whole = min(metrics.horizontalAdvance(name) + NAME_FRAME_PX, MOST_NAME_PX)
        if not room.letters:
            return whole
        least = metrics.horizontalAdvance(f"{name[: room.letters]}…") + NAME_FRAME_PX
        return min(whole, least)

    def _state_px(self, room: _Room) -> int:
        """How wide the state is, or would be while one types: no page moves for a draft."""
        said = self.state.least_px(whole=room.state_whole)
        if not self._opened.is_open:
            return said
        kept = tr("draft kept")
        usual = tr("unsaved, {kept}", kept=kept) if room.state_whole else kept
        return max(said, self.state.fontMetrics().horizontalAdvance(usual) + 1)

    def _pages_px(self, room: _Room) -> int:
        """How wide the buttons of the pages are."""
        buttons = self.page_buttons.buttons()
        saved = len(buttons) * SAVED_PX * (room.tight - self._is_tight)
        if room.pages_whole:
            return sum(map(self._width_of, buttons)) - saved
        return sum(each.minimumSizeHint().width() for each in buttons) - saved

    def _width_of(self, widget: QWidget) -> int:
        """How wide a widget is with nothing cut: asked of Qt once for all rooms that are tried."""
        if widget not in self._wide:
            self._wide[widget] = widget.sizeHint().width()
        return self._wide[widget]

    def _size_pages(self, *, tight: bool, whole: bool) -> None:
        """Have the buttons of the pages as wide as they come or less so, their words `whole`."""
        for button in self.page_buttons.buttons():
            if tight is not self._is_tight:
                button.setStyleSheet(TIGHT_BUTTON if tight else "")
            button.setMinimumWidth(button.sizeHint().width() if whole else 0)
        self._is_tight = tight
        beside = BESIDE_TIGHT_PX if tight else BESIDE_PAGES_PX
        self._pages_row.setContentsMargins(beside, 0, beside, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._is_laid_out = True  # no width before means anything
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
        self._pages_row = middle = QHBoxLayout()
        middle.setSpacing(4)
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
        shorter = ""
        if of_brew:
            text = of_brew
        elif not opened.is_open:
            text = kept
        elif opened.unsaved:
            text = tr("unsaved, {kept}", kept=kept) if kept else tr("unsaved changes")
            shorter = kept
        elif opened.path is not None and not opened.file_trouble:
            text = tr("saved")
        elif opened.file_trouble:
            shorter = trouble = tr(opened.file_trouble)
            text = tr("{kept}, {trouble}", kept=kept, trouble=trouble) if kept else trouble
        elif kept:
            text = kept
        else:
            text, shorter = tr("not in a file yet"), tr("no file yet")
        if text != self.state.text():
            self.state.say(text, shorter or text)
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
