"""Fields of the recipe as they stand in forms: typed in any unit, live while typing.

A field writes back only if its text was changed. What cannot be taken is marked while it is typed.
When the field is left it stays there, marked and with the reason beside it, to be mended; the
recipe keeps the old value, which Escape shows again.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, NamedTuple, cast

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import (
    QAction,
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QKeySequence,
    QWheelEvent,
)
from PySide6.QtWidgets import QLineEdit, QMenu, QWidget

from designer.errors import RefusedInputError
from designer.library.document_reading import checked_quantity
from designer.recipe.edits import ChangePart, Edit, changing
from designer.recipe.fields import FieldFacts
from designer.recipe.limits import LONGEST_TYPED
from designer.recipe.named import part_of, value_of
from designer.recipe.severity import Severity
from designer.translation import named, tr
from designer.units.half_typed import may_become
from designer.units.pint_units import BeingLookedUpError
from designer.units.quoting import quoted
from designer.window.parts.being_typed import (
    EMPTIES_FIELD,
    mark,
    show_anew,
    step,
    steps_of,
    with_way_back,
)
from designer.window.parts.control_characters import taken_out
from designer.window.parts.display_format import DisplayFormat, ShownFirst
from designer.window.parts.inks import inks_for
from designer.window.parts.notes import Notes, ways_of
from designer.window.parts.plain_text import long_tip, tip
from designer.window.parts.scrolling import bring_into_view
from designer.window.parts.unit_words import unit_words

if TYPE_CHECKING:
    from designer.window.parts.doubtful_number import Other
    from designer.window.parts.field_recipe import FieldRecipe

MakeEdit = Callable[[Any, str], Edit]

COMING_BACK = (
    Qt.FocusReason.PopupFocusReason,
    Qt.FocusReason.MenuBarFocusReason,
    Qt.FocusReason.ActiveWindowFocusReason,
)
"""Reasons for which a field loses the keyboard only for a moment."""


class _Refused(NamedTuple):
    """Why a text was not taken, and what stood in the field and was open then."""

    why: str
    stood: str
    opening: int


class Offered(NamedTuple):
    """A figure known from elsewhere: it counts where the field is empty, else `use` puts it in."""

    text: str
    ground: str
    use: Callable[[], None]


def _nothing_offered() -> Offered | None:
    return None


class TextField(QLineEdit):
    """A line edit bound to one value: `text_now` gives its text, `take` puts a typed one in.

    `take(text, merge_key)` raises RefusedInputError for what it cannot take. `suggests` is the part
    of the catalogue whose names are offered while one types; it is read when the field is entered.
    """

    def __init__(
        self,
        opened: FieldRecipe,
        label: str,
        text_now: Callable[[], str],
        take: Callable[[str, str], None],
        placeholder: Callable[[], str] = str,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._opened, self._label = opened, label
        self._text_now, self._take, self._placeholder = text_now, take, placeholder
        self._merge_key, self._touched = "", False
        self._stood, self._putting = "", False
        self._refused: _Refused | None = None
        self._notes = Notes(self)
        self._sign: QAction | None = None
        self._asked: str | None = None
        self._menu: QMenu | None = None
        self._is_offering = self._is_taught = False
        self.ground = ""
        self._hint = self._closed = ""
        self.suggests = ""
        self.otherwise: Callable[[str], Other | None] | None = None
        self.meaning: Callable[[], str] = str
        self.is_half_typed: Callable[[str], bool] = lambda _: False
        self.offered: Callable[[], Offered | None] = _nothing_offered
        self._tip = ""
        self.setAccessibleName(label)
        self.setMaxLength(LONGEST_TYPED)
        self.textEdited.connect(self._try)
        self.editingFinished.connect(self._finish)
        opened.recipe_changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Show the recipe's value, unless it is being typed here, or what is typed is not taken."""
        text = self._text_now()
        if self._refused is not None and self._refused[1:] != (text, self._opened.opening):
            self._let_go()  # another value stands there now, or another recipe is open
        if self._touched and not self._putting and text not in (self._stood, self.text()):
            self._let_go()  # undone by a button, say: what is typed here is not wanted any more
        if self._asked is not None and self._asked != text:
            self._asked = None
            self._notes.withdraw(self)
        if not self._touched and text != self.text():
            show_anew(self, text)
            if not self.hasSelectedText():
                self.setCursorPosition(0)
            self.tell_meaning()
        offered = self.offered()
        self.setPlaceholderText(self._placeholder() if offered is None else offered.text)

    def let_go(self) -> None:
        """Forget what was typed and not taken: the field stands for something else from now on."""
        if self._refused is not None:
            self._let_go()

    def keep_closed(self, why: str) -> None:
        """Take nothing as long as there is a reason, which the tip tells; "" to be open again."""
        if why == self._closed:
            return
        self._closed = self._hint = why
        self.setEnabled(not why)
        self.setToolTip(long_tip(why))
        if not why:
            self.tell_meaning()

    def focusInEvent(self, event: QFocusEvent) -> None:
        if self.suggests and self.completer() is None:
            # Offers and signs are no part of the first picture.
            from designer.window.parts.offers import attach_suggestions

            attach_suggestions(self, self.suggests)
        super().focusInEvent(event)
        self.installEventFilter(self)
        if not self._touched:  # else it comes back to what is being typed
            self._merge_key = self._opened.start_typing()
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.selectAll()
        if self._refused is not None:
            self._say(self._refused.why)
        elif self._asked is not None:
            other = self._other()
            if other is not None:
                self._ask(other)
        else:
            self._offer()

    def _offer(self) -> None:
        """Offer beside the field what is known from elsewhere, where it holds something else."""
        offered = self.offered()
        self._is_offering = offered is not None and self.text() not in ("", offered.text)
        if offered is not None and self._is_offering:
            said = tr("Your kitchen taught {figure}.", figure=offered.text)
            self._notes.say(self, said, ways=((tr("Use it"), lambda: self._use(offered)),))

    def _use(self, offered: Offered) -> None:
        """Put in what is known from elsewhere: there is nothing to offer any more."""
        offered.use()
        self._is_offering = False
        self._notes.withdraw(self)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.removeEventFilter(self)
        if event.reason() not in COMING_BACK:
            self.setCursorPosition(0)  # a long text is read from its beginning
            if self._refused is not None or self._is_offering:
                self._notes.linger(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Leave Undo and Redo to the recipe: a field's own would know nothing of other steps.

        It looks on only while the field has the focus: else each event of each field would pass.
        """
        if event.type() == QEvent.Type.ShortcutOverride:
            pressed = cast(QKeyEvent, event)
            if pressed.matches(QKeySequence.StandardKey.Undo) and self._is_marked:
                event.accept()  # the last thing done is what stands here and is not taken
                return True
            both = (QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo)
            if any(pressed.matches(each) for each in both):
                self._let_go()
                event.ignore()
                return True
        return False

    @property
    def _is_marked(self) -> bool:
        return bool(self.property("refused"))

    def _try(self, text: str) -> None:
        self._touched = True
        bring_into_view(self)
        before, self._refused = self._refused, None  # or what is taken now would clear the field
        text = taken_out(self, text)
        try:
            self._put(text, is_over=False)
        except RefusedInputError as fault:
            self._mark_unless_waiting(fault)
            if before is not None or isinstance(fault, BeingLookedUpError):
                self._keep(fault)
        else:
            self._mark("")
            if before is not None:
                self._opened.set_untaken(self, ())
                self._notes.withdraw(self)

    def _put(self, text: str, *, is_over: bool = True) -> None:
        """Put what is typed into the recipe; what was typed before goes if it is refused.

        While typing is not over, it stays as long as the next keys may mend the text.
        """
        self._putting = True
        try:
            self._take(text, self._merge_key)
        except RefusedInputError:
            if is_over or not self.is_half_typed(text):
                self._opened.take_back(self._merge_key)
            raise
        finally:
            self._putting = False
            self._stood = self._text_now()

    def retry(self) -> None:
        """Take what is typed here if it can be taken now: rarer units have become known."""
        if self._touched and self.hasFocus():
            self._try(self.text())
        elif self._refused is not None:
            self._finish()

    def _finish(self) -> None:
        if not self._touched or self._is_choosing():
            return
        try:
            self._put(self.text())
        except RefusedInputError as fault:
            self._mark_unless_waiting(fault)
            self._keep(fault)
            return
        other = self._other()
        self._let_go()
        self._merge_key = self._opened.start_typing()
        self.refresh()
        self.tell_meaning()
        if other is not None:
            self._ask(other)

    def _is_choosing(self) -> bool:
        """Whether the list of offers is open: typing is not over yet."""
        completer = self.completer()
        offers = completer.popup() if completer is not None else None
        return offers is not None and offers.isVisible()

    def tell_meaning(self) -> None:
        """Say in the tip what the text in the field means, or what it takes if left empty."""
        meaning, offered = self.meaning(), self.offered()
        ground = self.ground if offered is None else offered.ground
        hint = self._closed or meaning or ground
        if (offered is not None) is not self._is_taught:
            self._is_taught = offered is not None
            self.setAccessibleDescription(ground)
        if hint != self._hint:
            self._hint = hint
            self.setToolTip(tip(meaning) if hint == meaning else long_tip(hint))

    def _other(self) -> Other | None:
        return self.otherwise(self.text()) if self.otherwise is not None else None

    def _ask(self, other: Other) -> None:
        """Ask whether a figure was meant otherwise; it counts as it was read until answered."""
        self._notes.ask(self, other, lambda: self._type(other.text), self._keep_it)
        self._asked = self._text_now()

    def _keep_it(self) -> None:
        """The figure was meant as it was read: it is not asked about again."""
        self._asked = None

    def _type(self, text: str) -> None:
        """Put a text in as if it had been typed and the field left: one step."""
        self._asked = None
        self._merge_key = self._opened.start_typing()
        self.setText(text)
        self._try(text)
        self._finish()

    def _keep(self, fault: RefusedInputError) -> None:
        """Keep a text that is not taken, or not yet, and say beside it why."""
        stood = self._text_now()
        if isinstance(fault, BeingLookedUpError):
            why = tr("Looking up {spelling} among rarer units …", spelling=fault.spelling)
        else:
            why = with_way_back(str(fault), stood, EMPTIES_FIELD)
        self._refused = _Refused(why, stood, self._opened.opening)
        self._opened.set_untaken(
            self, (tr("{typed} ({place})", typed=quoted(self.text()), place=self._label),)
        )
        self._say(why)

    def _mark_unless_waiting(self, fault: RefusedInputError) -> None:
        """Mark what is not taken; what is being looked up is neither wrong nor right yet."""
        self._mark("" if isinstance(fault, BeingLookedUpError) else str(fault))

    def _say(self, why: str) -> None:
        ways = ways_of(self._other(), self._type)
        lingers = not self.hasFocus()
        self._notes.say(self, why, refused=self._is_marked, ways=ways, lingers=lingers)

    def _let_go(self) -> None:
        """Be as if nothing were typed here."""
        self._touched = False
        self._mark("")
        if self._refused is not None:
            self._refused = None
            self._opened.set_untaken(self, ())
            self._notes.withdraw(self)

    def _mark(self, fault: str) -> None:
        if not self._is_marked:
            self._tip = self.toolTip()
        if fault:
            self.setToolTip(tip(tr("Not taken: {why}", why=fault)))
        if mark(self, refused=bool(fault), why=fault):
            if not fault:
                self.setToolTip(self._tip)
            self._show_sign(bool(fault))

    def _show_sign(self, wanted: bool) -> None:
        """Show a sign in the field too: a colour alone tells too little."""
        if self._sign is None:
            if not wanted:
                return
            # As with offers.
            from designer.window.parts.icons import finding_icon

            self._sign = self.addAction(
                finding_icon(Severity.STOP, inks_for(self.palette())),
                QLineEdit.ActionPosition.TrailingPosition,
            )
        self._sign.setVisible(wanted)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        undoes = self._is_marked and event.matches(QKeySequence.StandardKey.Undo)
        if (key == Qt.Key.Key_Escape and self._touched) or undoes:
            self._opened.take_back(self._merge_key)
            self._let_go()
            self.refresh()
        elif steps := steps_of(self, event):
            step(self, steps)
        else:
            super().keyPressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        from designer.window.parts.deeds import open_menu  # no start opens a menu

        open_menu(self.menu(), event.globalPos())

    def menu(self) -> QMenu:
        """Return the menu of the field; it lasts until another is asked for."""
        from designer.window.parts.field_menu import field_menu  # as above

        self._menu = field_menu(self, self.empty if self.ground else None)
        return self._menu

    def empty(self) -> None:
        """Take what stands here out, as one step: what is usual counts again."""
        self._type("")

    def wheelEvent(self, event: QWheelEvent) -> None:
        if self.hasFocus() and step(self, event.angleDelta().y() / 120.0):
            event.accept()
        else:
            event.ignore()


def quantity_field(
    opened: FieldRecipe,
    display: DisplayFormat,
    facts: FieldFacts,
    value_now: Callable[[], Any],
    make_edit: MakeEdit,
    parent: QWidget | None = None,
) -> TextField:
    """Return a field for a quantity; left empty, it takes its default, which stands in it pale."""
    first = ShownFirst()

    def take(text: str, merge_key: str) -> None:
        before = display.to_edit(facts.kind, value_now())
        shown_first = first.of(merge_key, before)
        if text == before:
            return
        quantity = None
        if text.strip():
            quantity = display.read(facts.kind, text, shown_first or display.default(facts))
            quantity = checked_quantity(facts, quantity)
        opened.make_or_refuse(make_edit(quantity, merge_key))

    field = TextField(
        opened,
        tr(facts.label),
        lambda: display.to_edit(facts.kind, value_now()),
        take,
        lambda: display.default(facts),
        parent,
    )
    field.setInputMethodHints(Qt.InputMethodHint.ImhPreferNumbers)  # a tablet shows figures first

    def other(text: str) -> Other | None:
        # No start asks.
        from designer.window.parts.doubtful_number import otherwise

        before = display.to_edit(facts.kind, value_now()) or display.default(facts)
        return otherwise(display, facts, display.with_unit(facts.kind, text, before))

    def meaning() -> str:
        quantity = value_now()
        return display.read_as(facts.kind, quantity) if quantity is not None else ""

    def is_half_typed(text: str) -> bool:
        return may_become(facts.kind, text)

    field.otherwise, field.meaning, field.is_half_typed = other, meaning, is_half_typed
    if facts.default is not None:
        field.ground = tr(
            "Left empty: {default} ({source})",
            default=tr(facts.default_text),
            source=tr(facts.source),
        )
    elif facts.default_text:
        field.ground = tr("Left empty: {default}", default=tr(facts.default_text))
    if field.ground:
        field.setAccessibleDescription(field.ground)
    field.tell_meaning()
    display.settings.changed.connect(field.refresh)
    unit_words().known.connect(field.retry)
    return field


def part_field(
    opened: FieldRecipe, display: DisplayFormat, part: str, name: str, facts: FieldFacts
) -> TextField:
    """Return the field of a quantity of `pot`, `fermenter`, `process`, `methods` or `yeast`."""
    text = changing(facts.label)
    return quantity_field(
        opened,
        display,
        facts,
        lambda: value_of(part_of(opened.recipe, part), name),
        lambda value, key: ChangePart(part, name, value, text, key),
    )


class WordsField(TextField):
    """Free text bound to a field of a part of the recipe."""

    def __init__(self, opened: FieldRecipe, part: str, name: str, label: str) -> None:
        phrase = changing(label)

        def take(text: str, merge_key: str) -> None:
            opened.make_or_refuse(ChangePart(part, name, text, phrase, merge_key))

        super().__init__(
            opened, tr(label), lambda: named(value_of(part_of(opened.recipe, part), name)), take
        )
