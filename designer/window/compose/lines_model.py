"""Fermentables, hops or extras of an open recipe as a Qt table; its last row takes a new line.

`setData` makes an edit and changes nothing itself. Rows are known by their `line_id`, so that a
selection survives every change.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QMimeData, QModelIndex, QObject, Qt, Signal
from PySide6.QtGui import QColor, QFont

from designer.errors import RefusedInputError
from designer.library.new_lines import new_line
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import (
    AddLine,
    ChangeLine,
    MoveLine,
    RemoveLines,
    Together,
    set_locked,
    with_amount,
)
from designer.recipe.fields import FieldFacts
from designer.recipe.kind_defaults import colour_lovibond
from designer.recipe.message import Message, say, within, word
from designer.recipe.named import Line, is_locked, lines_of, value_of
from designer.recipe.quantity import Quantity
from designer.recipe.severity import Severity
from designer.translation import message, named, tr
from designer.units.half_typed import may_become, may_become_when
from designer.units.quoting import quoted
from designer.window.compose.lines_columns import LINES_MIME, LinesSpec
from designer.window.parts.colour_signs import no_sign, swatch_icon
from designer.window.parts.columns import Column
from designer.window.parts.display_format import DisplayFormat, ShownFirst
from designer.window.parts.plain_text import long_tip, tip
from designer.window.parts.table_model import Index, Role
from designer.window.parts.typed_table import TypedTable
from designer.window.session.worked_on import EditedRecipe
from designer.workbench.figure_sources import source_of_line
from designer.wort.swatch import ingredient_hex

if TYPE_CHECKING:
    from PySide6.QtGui import QIcon

    from designer.brewday.results import Day, Finding, Outlook

_Flag = Qt.ItemFlag
LOCKED = message("Locked: unlock the line to change it.")


class LinesModel(TypedTable):
    """One list of the recipe; `removed` says what went.

    `name_wanted` says which row was pasted without a name. What was typed into a cell and could not
    be taken is told to the open recipe too.
    """

    takes_new = True
    removed = Signal(str)
    choice_wanted = Signal(object)
    name_wanted = Signal(int)

    def __init__(
        self,
        opened: EditedRecipe,
        spec: LinesSpec,
        display: DisplayFormat,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(spec.columns, display, parent)
        self.opened, self.spec = opened, spec
        self.invitation = spec.words.invitation
        self.rows: tuple[Line, ...] = lines_of(opened.recipe, spec.lines)
        self._findings: dict[int, list[Finding]] = {}
        self._dragged: list[int] = []
        self._shown_first = ShownFirst()
        self._given_before: dict[int, str] = {}
        self._given_by: Day | None = None
        self._opening = opened.opening
        self._name_column = self.column_of("name")
        self.answers |= {
            Role.ForegroundRole: self._foreground,
            Role.FontRole: self._font,
            Role.DecorationRole: self._decoration,
        }
        opened.recipe_changed.connect(self._follow)
        opened.values_changed.connect(self._refresh_given)
        opened.outlook_changed.connect(self._follow_outlook)
        display.settings.changed.connect(self.tell_lines)

    # what a cell shows

    def text(self, column: Column, row: Line) -> str:
        if not column.editable:
            return self._given(row)
        return self.name_of(row) if column.key == "name" else column.text_of(row, self.display)

    def _given(self, line: Line) -> str:
        """Return what a line gives; nothing as long as nothing is forecast."""
        if self.spec.gives is None or self.opened.waiting:
            return ""
        return self.spec.gives(line, self.opened.day, self.display)

    def edit_text(self, column: Column, row: Line) -> str:
        return column.edit_text(row, self.display) if column.editable else self._given(row)

    def name_of(self, row: Line) -> str:
        return named(row.name) or tr(self.spec.words.unnamed)

    def _foreground(self, column: Column, line: Line) -> QColor | None:
        nameless = column.key == "name" and not line.name
        pale = not column.editable or nameless or column.key in ("kind", "form")
        return QColor(self.inks.ink_soft) if pale else None

    def _font(self, column: Column, line: Line) -> QFont | None:
        return _bold() if column.key == "amount" else None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole
    ) -> Any:
        if role == Role.DecorationRole and self.columns[section].key == "name":
            return no_sign()  # the heading stands above the names, which keep room for a sign
        return super().headerData(section, orientation, role)

    def without_row(self, column: Column, role: int) -> Any:
        if role == Role.AccessibleTextRole:
            return tr(self.spec.words.add) if column.key == "name" else tr("empty")
        if role == Role.DecorationRole and column.key == "name":
            return no_sign()
        return super().without_row(column, role)

    def _decoration(self, column: Column, line: Line) -> QIcon | None:
        if column.key == "colour" and isinstance(line, Fermentable):
            return swatch_icon(ingredient_hex(colour_lovibond(line)), self.inks.line_strong)
        if column.key == "name" and self._findings.get(line.line_id):
            # Signs are drawn once there is a forecast; the first picture has none.
            from designer.window.parts.icons import finding_icon

            grave = any(each.severity is not Severity.NOTE for each in self._findings[line.line_id])
            return finding_icon(Severity.CARE if grave else Severity.NOTE, self.inks)
        return no_sign() if column.key == "name" else None

    def tip(self, column: Column, row: Line) -> str | None:
        said = [
            each.message.said(self.display.rounded, self.display.quantity)
            for each in self._findings.get(row.line_id, [])
        ]
        if column.key == "name":
            said += [tr(LOCKED)] if is_locked(row) else []
            return long_tip("\n".join([*said, source_of_line(row)]))
        if is_locked(row):
            return tr(LOCKED)
        value = value_of(row, column.key) if column.editable else None
        if isinstance(value, Quantity) and column.facts is not None:
            return tip(self._told(value, column.facts))
        return super().tip(column, row)

    def _told(self, value: Quantity, facts: FieldFacts) -> str:
        """Say how a figure was typed, what it was read as, how sure it is taken to be."""
        meant = self.display.meaning(facts.kind, value)
        said = (
            tr("Typed {amount}, read as {meant}", amount=value.text, meant=meant)
            if meant
            else tr("Typed {amount}", amount=value.text)
        )
        if value.spread is not None or not (facts.spread and facts.relative):
            return said
        share = f"{100.0 * facts.spread:.3g}"
        return tr("{typed}; taken as accurate to ± {share} %", typed=said, share=share)

    def is_open(self, column: Column, row: Line | None) -> bool:
        return super().is_open(column, row) and not is_locked(row)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.ItemIsDropEnabled
        is_line = index.row() < len(self.rows)
        flags = super().flags(index)
        return flags | _Flag.ItemIsDragEnabled if is_line else flags

    def why_closed(self, index: Index) -> str:
        """Return why a cell cannot be typed in; "" where there is nothing to say."""
        line = self.row_at(index.row())
        if is_locked(line):
            return tr(LOCKED)
        return tr("This is calculated from the line; it cannot be typed.")

    # changing

    def type_in(
        self, index: Index, text: str, merge_key: str = "", *, trying: bool = False
    ) -> bool:
        """Put what was typed into the recipe; False, and `refused` unless trying, if it is wrong.

        Edits under one merge key, not empty, become one undo step.
        """
        column, line = self.columns[index.column()], self.row_at(index.row())
        if line is None:
            return not trying and self.add(text)
        stood = self.edit_text(column, line)
        if text == stood or (trying and column.key in ("name", "purpose", "kind", "form")):
            return True
        before = self._shown_first.of(merge_key, stood)
        try:
            self.opened.make_or_refuse(self._change(column, line, text, merge_key, before))
        except RefusedInputError as fault:
            if not trying:
                place = tr(
                    "{column} of {row}", column=tr(column.heading), row=quoted(named(line.name))
                )
                self.refused.emit(tr(self.refusal, place=place, fault=fault))
            return False
        return True

    def is_half_typed(self, index: Index, text: str) -> bool:
        """Return whether a text that is not taken may be with the next keys."""
        column = self.columns[index.column()]
        if column.key == "when":
            return may_become_when(text)
        return column.facts is not None and may_become(column.facts.kind, text)

    def try_out(self, column: Column, number: int, text: str) -> None:
        line = self.row_at(number)
        edit = self._adding(text) if line is None else self._change(column, line, text, "")
        self.opened.outcome(edit)

    def recipe(self) -> Recipe:
        return self.opened.recipe

    def tell_not_taken(self) -> None:
        """Tell the open recipe what is typed here and not taken."""
        said = []
        for each in self.not_taken.texts():
            line = self.row_at(each.cell.row())
            heading = tr(self.columns[each.cell.column()].heading)
            name = tr("a new line")
            if line is not None:
                name = quoted(named(line.name) or tr(self.spec.words.noun))
            place = tr("{column} of {row}", column=heading, row=name)
            said.append(tr("{typed} ({place})", typed=quoted(each.text), place=place))
        self.opened.set_untaken(self.spec.lines, tuple(said))

    def _prune_not_taken(self) -> None:
        if self._opening != self.opened.opening:
            self._opening = self.opened.opening
            self.not_taken.clear()
        if self.not_taken:
            self.not_taken.prune(self.text_to_edit)

    def _change(
        self, column: Column, line: Line, text: str, merge_key: str, before: str = ""
    ) -> ChangeLine:
        if column.key == "name":
            changes = self.spec.renamed(line, text.strip())
        else:
            value = column.value(line, text, self.display, before)
            is_amount = column.key == "amount"
            changes = with_amount(line, value) if is_amount else ((column.key, value),)
        said = say(
            "change-in-line",
            "change {noun} {column}",
            noun=word(self.spec.words.noun),
            column=_within(column),
        )
        return ChangeLine(self.spec.lines, line.line_id, changes, said, merge_key)

    def add(self, text: str) -> bool:
        return bool(text.strip()) and self.opened.make(self._adding(text))

    def add_named(self, name: str) -> bool:
        """Add a line of this name, with what the catalogue knows of it, at the end."""
        line = new_line(self.spec.lines, name)
        return self.opened.make(AddLine(self.spec.lines, line, say("add", "add {name}", name=name)))

    def _adding(self, text: str) -> AddLine:
        line = self.spec.begin(text, self.display)
        name = line.name or self._nameless()
        return AddLine(self.spec.lines, line, say("add", "add {name}", name=name))

    def _nameless(self) -> Message:
        """Return what a line without a name is called in a phrase."""
        return word(self.spec.words.unnamed)

    def remove(self, rows: Sequence[int]) -> None:
        """Take lines out, as one undo step."""
        gone = [self.rows[row] for row in rows if row < len(self.rows)]
        if gone:
            ids, names = frozenset(each.line_id for each in gone), [each.name for each in gone]
            what = (
                names[0] or self._nameless()
                if len(names) == 1
                else say(f"many-{self.spec.lines}", _MANY[self.spec.lines], number=len(names))
            )
            text = say("remove", "remove {what}", what=what)
            if self.opened.make(RemoveLines(self.spec.lines, ids, text)):
                what = what if len(names) > 1 or names[0] else word(_ONE[self.spec.lines])
                self.removed.emit(str(say("removed", "{what} removed.", what=what)))

    def duplicate(self, row: int) -> None:
        """Put a copy of a line below it."""
        line = self.row_at(row)
        if line is not None:
            text = say("duplicate", "duplicate {name}", name=line.name or self._nameless())
            self.opened.make(AddLine(self.spec.lines, line, text, position=row + 1))

    def move(self, row: int, to: int) -> None:
        """Move a line to row `to` among the others."""
        line = self.row_at(row)
        if line is not None and 0 <= to < len(self.rows):
            text = say("move", "move {name}", name=line.name or self._nameless())
            self.opened.make(MoveLine(self.spec.lines, line.line_id, to, text))

    # dragging: within the table a line is moved, from elsewhere lines are added

    def mimeTypes(self) -> list[str]:
        return [LINES_MIME, "text/plain"]

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:
        rows = sorted({index.row() for index in indexes if self.row_at(index.row()) is not None})
        self._dragged = [self.rows[row].line_id for row in rows]
        return self.copied(rows)

    def supportedDropActions(self) -> Qt.DropAction:
        return Qt.DropAction.MoveAction | Qt.DropAction.CopyAction

    def dropMimeData(
        self, data: QMimeData, action: Qt.DropAction, row: int, column: int, parent: Index
    ) -> bool:
        to = row if row >= 0 else parent.row() if parent.isValid() else len(self.rows)
        dragged, self._dragged = self._dragged, []
        if action == Qt.DropAction.MoveAction and len(dragged) == 1:
            start = self.row_of(dragged[0])
            self.move(start, min(to - (1 if to > start else 0), len(self.rows) - 1))
        else:
            self.paste(data)
        # Never true: the view would then take out the rows that it believes were moved.
        return False

    def copied(self, rows: list[int]) -> QMimeData:
        """Return lines for the clipboard."""
        # No start needs what reads and writes the text of a spreadsheet.
        from designer.window.compose.lines_clipboard import lines_mime

        lines = [self.rows[row] for row in rows if row < len(self.rows)]
        return lines_mime(self.spec, lines, self.display)

    def paste(self, data: QMimeData) -> None:
        """Add the lines of the clipboard, as one undo step.

        `refused` says why not; `choice_wanted` asks what a text is where that is not certain.
        """
        # As with copying; what reads a text of people's own is larger still.
        from designer.window.compose.lines_clipboard import pasting

        try:
            found = pasting(data, self.spec, self.display)
        except RefusedInputError as fault:
            self.refused.emit(str(fault))
            return
        if isinstance(found, Together):
            last = len(self.rows)
            self.opened.make(found)
            if len(self.rows) == last + 1 and not self.rows[last].name:
                self.name_wanted.emit(last)
        else:
            self.choice_wanted.emit(found)

    def set_locked(self, row: int, locked: bool) -> None:
        """Lock a line against change, or unlock it."""
        line = self.row_at(row)
        if line is not None and hasattr(line, "locked"):
            self.opened.make(set_locked(self.spec.lines, line, locked))

    # following

    def row_of(self, line_id: int) -> int:
        """Return the row of a line, or -1."""
        return next((row for row, each in enumerate(self.rows) if each.line_id == line_id), -1)

    def _follow(self, recipe: Recipe) -> None:
        new: tuple[Line, ...] = lines_of(recipe, self.spec.lines)
        if new is not self.rows:
            self._follow_lines(new)
        if self.not_taken:
            self._prune_not_taken()

    def _follow_lines(self, new: tuple[Line, ...]) -> None:
        def put() -> None:
            self.rows = new

        old, old_ids, new_ids = self.rows, _ids(self.rows), _ids(new)
        if old_ids != new_ids:
            self.follow_rows(old_ids, new_ids, put, one_may_differ=False)
            return
        put()
        for row, (before, after) in enumerate(zip(old, new, strict=True)):
            if before is not after:
                self.tell_row(row)

    def tell_lines(self) -> None:
        """Tell that every line may look otherwise."""
        self.tell_rows(0, len(self.rows) - 1)

    def _follow_outlook(self, outlook: Outlook) -> None:
        """Take over what the new forecast says of the lines; tell only of cells that changed."""
        if outlook.day is not self._given_by:
            self._refresh_given()
        before, self._findings = self._findings, {}
        for each in outlook.findings:
            if each.about.of == self.spec.lines and each.about.line is not None:
                self._findings.setdefault(each.about.line, []).append(each)
        ids = [line.line_id for line in self.rows]
        found = [before.get(each) != self._findings.get(each) for each in ids]
        self._tell(found, self._name_column)

    def _refresh_given(self) -> None:
        """Show what the lines now give, where that has changed."""
        self._given_by = self.opened.day
        given = {line.line_id: self._given(line) for line in self.rows}
        told = [self._given_before.get(each) != text for each, text in given.items()]
        self._given_before = given
        self._tell(told, self.columnCount() - 1)

    def _tell(self, changed: list[bool], column: int) -> None:
        """Tell of the rows that changed in a column: once for all that stand together."""
        row = 0
        for is_changed, run in groupby(changed):
            after = row + len(list(run))
            if is_changed:
                self.dataChanged.emit(self.index(row, column), self.index(after - 1, column))
            row = after


def _ids(lines: tuple[Line, ...]) -> list[int]:
    return [each.line_id for each in lines]


def _bold() -> QFont:
    font = QFont()
    font.setBold(True)
    return font


_ONE = {
    "fermentables": message("A fermentable"),
    "hops": message("A hop"),
    "extras": message("An extra"),
}
_MANY = {
    "fermentables": message("{number} fermentables"),
    "hops": message("{number} hops"),
    "extras": message("{number} extras"),
}
_COLUMN_WORDS = {"when": message("time"), "name": message("name")}


def _within(column: Column) -> Message:
    """Return what a column is called in a phrase: its field, but for those of `_COLUMN_WORDS`."""
    return word(_COLUMN_WORDS[column.key]) if column.key in _COLUMN_WORDS else within(column.label)
