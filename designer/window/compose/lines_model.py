"""Fermentables, hops or extras of an open recipe as a Qt table; its last row takes a new line.

`setData` makes an edit and changes nothing itself. Rows are known by their `line_id`, so that a
selection survives every change.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QMimeData,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor, QFont

from designer.errors import RefusedInputError
from designer.recipe.document import Fermentable, Recipe
from designer.recipe.edits import (
    AddLine,
    ChangeLine,
    Line,
    MoveLine,
    RemoveLines,
    Together,
    set_locked,
    with_amount,
)
from designer.recipe.kind_defaults import colour_lovibond
from designer.recipe.message import say, word
from designer.recipe.quantity import Quantity
from designer.translation import message
from designer.units.quoting import quoted
from designer.window.compose.lines_columns import Column, LinesSpec, parsed, shown_text
from designer.window.parts.display_format import DisplayFormat, ShownFirst
from designer.window.parts.inks import LIGHT, Inks
from designer.window.parts.not_taken import NotTaken
from designer.window.parts.plain_text import tip
from designer.window.session.open_recipe import OpenRecipe
from designer.wort.swatch import swatch_hex

if TYPE_CHECKING:
    from PySide6.QtGui import QIcon

    from designer.brewday.results import Finding
    from designer.window.parts.second_reading import Other

Index = QModelIndex | QPersistentModelIndex
_ROOT = QModelIndex()
_Role = Qt.ItemDataRole


class LinesModel(QAbstractTableModel):
    """One list of the recipe. `refused` says why something was not done, `removed` what went.

    What was typed into a cell and could not be taken stays in `not_taken`, and is shown there.
    """

    refused = Signal(str)
    removed = Signal(str)
    choice_wanted = Signal(object)

    def __init__(
        self,
        opened: OpenRecipe,
        spec: LinesSpec,
        display: DisplayFormat,
        parent: QObject | None = None,
    ) -> None:
        super().__init__(parent)
        self.opened, self.spec, self.display = opened, spec, display
        self.inks: Inks = LIGHT
        self._lines: tuple[Line, ...] = getattr(opened.recipe, spec.lines)
        self._findings: dict[int, list[Finding]] = {}
        self._dragged: list[int] = []
        self._shown_first = ShownFirst()
        self._given_before: dict[int, str] = {}
        self.not_taken = NotTaken(self, lambda: self.inks, self._tell_not_taken)
        self._opening = opened.opening
        self._name_column = [each.key for each in spec.columns].index("name")
        self._answers: dict[int, Callable[[Column, Line], Any]] = {
            _Role.DisplayRole: self._text,
            _Role.EditRole: self._edit_text,
            _Role.TextAlignmentRole: lambda column, line: _alignment(column),
            _Role.ForegroundRole: self._foreground,
            _Role.FontRole: self._font,
            _Role.DecorationRole: self._decoration,
            _Role.ToolTipRole: self._tip,
            _Role.AccessibleTextRole: self._spoken,
        }
        opened.recipe_changed.connect(self._follow)
        opened.outlook_changed.connect(self._refresh_given)
        display.settings.changed.connect(self._refresh_all)

    # what Qt asks

    def rowCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self._lines) + 1

    def columnCount(self, parent: Index = _ROOT) -> int:
        return 0 if parent.isValid() else len(self.spec.columns)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = _Role.DisplayRole
    ) -> Any:
        if orientation is not Qt.Orientation.Horizontal or not 0 <= section < self.columnCount():
            return None
        column = self.spec.columns[section]
        if role == _Role.DisplayRole:
            return column.heading
        if role == _Role.ToolTipRole:
            return column.tip or None
        if role == _Role.TextAlignmentRole:
            return _alignment(column)
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.ItemIsDropEnabled
        flags = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        column = self.spec.columns[index.column()]
        line = self.line_at(index.row())
        if line is None:
            return flags | Qt.ItemFlag.ItemIsEditable if column.key == "name" else flags
        flags |= Qt.ItemFlag.ItemIsDragEnabled
        locked = getattr(line, "locked", False)
        return flags | Qt.ItemFlag.ItemIsEditable if column.editable and not locked else flags

    def data(self, index: Index, role: int = _Role.DisplayRole) -> Any:
        if not index.isValid() or index.row() > len(self._lines):
            return None
        if self.not_taken and (said := self.not_taken.data(index, role)) is not None:
            return said
        column = self.spec.columns[index.column()]
        if index.row() == len(self._lines):
            return self._invitation(column, role)
        line = self._lines[index.row()]
        answer = self._answers.get(role)
        return answer(column, line) if answer is not None else None

    def _foreground(self, column: Column, line: Line) -> QColor | None:
        pale = not column.editable or column.key in ("kind", "form")
        return QColor(self.inks.ink_soft) if pale else None

    def _font(self, column: Column, line: Line) -> QFont | None:
        return _bold() if column.key == "amount" else None

    def _spoken(self, column: Column, line: Line) -> str:
        name = line.name or f"unnamed {self.spec.noun}"
        return f"{column.heading} of {name}: {self._text(column, line) or 'not given'}"

    def _invitation(self, column: Column, role: int) -> Any:
        if role == _Role.DisplayRole and column.key == "name":
            return self.spec.invitation
        if role == _Role.EditRole:
            return ""
        if role == _Role.ForegroundRole:
            return QColor(self.inks.ink_soft)
        if role == _Role.AccessibleTextRole:
            return f"Add a {self.spec.noun}" if column.key == "name" else "empty"
        return None

    def _text(self, column: Column, line: Line) -> str:
        outlook = None if self.opened.waiting else self.opened.outlook
        return shown_text(column, line, outlook, self.display)

    def _edit_text(self, column: Column, line: Line) -> str:
        if column.facts is None:
            return self._text(column, line)
        return self.display.to_edit(column.facts.kind, getattr(line, column.field))

    def _decoration(self, column: Column, line: Line) -> QColor | QIcon | None:
        if column.key == "colour" and isinstance(line, Fermentable):
            return QColor(swatch_hex(min(colour_lovibond(line), 80.0)))
        if column.key == "name" and self._findings.get(line.line_id):
            grave = any(each.severity != "note" for each in self._findings[line.line_id])
            from designer.window.parts.icons import finding_icon

            return finding_icon("care" if grave else "note", self.inks)
        return None

    def _tip(self, column: Column, line: Line) -> str | None:
        said = [
            each.message.said(self.display.rounded, self.display.quantity)
            for each in self._findings.get(line.line_id, [])
        ]
        if column.key == "name" and said:
            return tip("\n".join(said))
        if getattr(line, "locked", False):
            return "Locked: unlock the line to change it."
        value = getattr(line, column.field) if column.field else None
        if isinstance(value, Quantity) and column.facts is not None:
            meant = self.display.meaning(column.facts.kind, value)
            read_as = f", read as {meant}" if meant else ""
            return tip(f"Typed {value.text}{read_as}{_sure(value, column)}")
        return column.tip or None

    # changing

    def setData(self, index: Index, value: Any, role: int = _Role.EditRole) -> bool:
        if role != _Role.EditRole or not index.isValid():
            return False
        return self.type_in(index, str(value), "")

    def type_in(self, index: Index, text: str, merge_key: str, *, trying: bool = False) -> bool:
        """Put what was typed into the recipe; False, and `refused` unless trying, if it is wrong.

        Edits under one merge key, not empty, become one undo step.
        """
        column = self.spec.columns[index.column()]
        line = self.line_at(index.row())
        if line is None:
            return not trying and self._add(text)
        if text == self._edit_text(column, line):
            return True
        if trying and column.key in ("name", "purpose", "kind", "form"):
            return True
        before = self._shown_first.of(merge_key, self._edit_text(column, line))
        try:
            self.opened.make_or_refuse(self._change(column, line, text, merge_key, before))
        except RefusedInputError as fault:
            if not trying:
                self.refused.emit(f"{column.heading} of {quoted(line.name)}: {fault}")
            return False
        return True

    def is_half_typed(self, index: Index, text: str) -> bool:
        """Return whether a text that is not taken may be with the next keys."""
        from designer.units.half_typed import may_become, may_become_when

        column = self.spec.columns[index.column()]
        if column.key == "when":
            return may_become_when(text)
        return column.facts is not None and may_become(column.facts.kind, text)

    def fault_of(self, index: Index, text: str) -> str:
        """Return why a text cannot stand in a cell; "" if it can."""
        column, line = self.spec.columns[index.column()], self.line_at(index.row())
        if not text.strip() if line is None else text == self._edit_text(column, line):
            return ""
        try:
            edit = self._adding(text) if line is None else self._change(column, line, text, "")
            self.opened.outcome(edit)
        except RefusedInputError as fault:
            return str(fault)
        return ""

    def otherwise(self, index: Index, text: str) -> Other | None:
        """Return what may have been meant by a text of a cell; None if it is likely as it is."""
        column, line = self.spec.columns[index.column()], self.line_at(index.row())
        if line is None or column.facts is None:
            return None
        from designer.window.parts.second_reading import otherwise

        before = self._edit_text(column, line)
        spelled = self.display.with_unit(column.facts.kind, text, before, column.bare(self.display))
        return otherwise(self.display, column.facts, spelled, line, self.opened.recipe)

    def amount_of(self, index: Index) -> Index:
        """Return the cell of the amount of the line that a cell belongs to."""
        columns = [each.key for each in self.spec.columns]
        return self.index(index.row(), columns.index("amount"))

    def text_to_edit(self, index: Index) -> str:
        """Return the text of what a cell holds, whatever was typed and not taken."""
        line = self.line_at(index.row())
        return self._edit_text(self.spec.columns[index.column()], line) if line is not None else ""

    def why_closed(self, index: Index) -> str:
        """Return why a cell cannot be typed in; "" where there is nothing to say."""
        line = self.line_at(index.row())
        if getattr(line, "locked", False):
            return "Locked: unlock the line to change it."
        return "This is reckoned from the line; it cannot be typed."

    def _tell_not_taken(self) -> None:
        """Tell the open recipe what is typed here and not taken."""
        said = []
        for each in self.not_taken.texts():
            line = self.line_at(each.cell.row())
            heading = self.spec.columns[each.cell.column()].heading
            name = quoted(line.name or self.spec.noun) if line is not None else "a new line"
            said.append(f"{quoted(each.text)} ({heading} of {name})")
        self.opened.set_untaken(self.spec.lines, tuple(said))

    def _prune_not_taken(self) -> None:
        if self._opening != self.opened.opening:
            self._opening = self.opened.opening
            self.not_taken.clear()
        if self.not_taken:
            self.not_taken.prune(self.text_to_edit)

    def _changes(
        self, column: Column, line: Line, text: str, before: str = ""
    ) -> tuple[tuple[str, Any], ...]:
        if column.key == "name":
            return self.spec.renamed(line, text.strip())
        changes = parsed(column, line, text, self.display, before)
        return with_amount(line, changes[0][1]) if column.key == "amount" else changes

    def _change(
        self, column: Column, line: Line, text: str, merge_key: str, before: str = ""
    ) -> ChangeLine:
        changes = self._changes(column, line, text, before)
        said = say(
            "change-in-line",
            "change {noun} {column}",
            noun=word(self.spec.noun),
            column=word(_COLUMN_WORDS.get(column.key, column.key)),
        )
        return ChangeLine(self.spec.lines, line.line_id, changes, said, merge_key)

    def _add(self, text: str) -> bool:
        return bool(text.strip()) and self.opened.make(self._adding(text))

    def _adding(self, text: str) -> AddLine:
        line = self.spec.begin(text, self.display)
        name = line.name or say("a-line", "a line")
        return AddLine(self.spec.lines, line, say("add", "add {name}", name=name))

    def remove(self, rows: list[int]) -> None:
        """Take lines out, as one undo step."""
        ids = frozenset(self._lines[row].line_id for row in rows if row < len(self._lines))
        if ids:
            names = [self._lines[row].name for row in rows if row < len(self._lines)]
            what = (
                names[0]
                if len(names) == 1
                else say(f"many-{self.spec.lines}", _MANY[self.spec.lines], number=len(names))
            )
            text = say("remove", "remove {what}", what=what)
            if self.opened.make(RemoveLines(self.spec.lines, ids, text)):
                what = what or say("a-noun", "A {noun}", noun=word(self.spec.noun))
                self.removed.emit(str(say("removed", "{what} removed.", what=what)))

    def duplicate(self, row: int) -> None:
        """Put a copy of a line below it."""
        line = self.line_at(row)
        if line is not None:
            self.opened.make(
                AddLine(
                    self.spec.lines,
                    line,
                    say("duplicate", "duplicate {name}", name=line.name),
                    position=row + 1,
                )
            )

    def move(self, row: int, to: int) -> None:
        """Move a line to row `to` among the others."""
        line = self.line_at(row)
        if line is not None and 0 <= to < len(self._lines):
            text = say("move", "move {name}", name=line.name)
            self.opened.make(MoveLine(self.spec.lines, line.line_id, to, text))

    # dragging: within the table a line is moved, from elsewhere lines are added

    def mimeTypes(self) -> list[str]:
        from designer.window.compose.lines_clipboard import MIME

        return [MIME, "text/plain"]

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:
        from designer.window.compose.lines_clipboard import lines_mime

        rows = sorted({index.row() for index in indexes if self.line_at(index.row()) is not None})
        self._dragged = [self._lines[row].line_id for row in rows]
        return lines_mime(self.spec, [self._lines[row] for row in rows], self.display)

    def supportedDropActions(self) -> Qt.DropAction:
        return Qt.DropAction.MoveAction | Qt.DropAction.CopyAction

    def dropMimeData(
        self, data: QMimeData, action: Qt.DropAction, row: int, column: int, parent: Index
    ) -> bool:
        to = row if row >= 0 else parent.row() if parent.isValid() else len(self._lines)
        dragged, self._dragged = self._dragged, []
        if action == Qt.DropAction.MoveAction and len(dragged) == 1:
            start = self.row_of(dragged[0])
            self.move(start, min(to - (1 if to > start else 0), len(self._lines) - 1))
        else:
            self.paste(data)
        # Never true: the view would then take out the rows that it believes were moved.
        return False

    def copied(self, rows: list[int]) -> QMimeData:
        """Return lines for the clipboard."""
        from designer.window.compose.lines_clipboard import lines_mime

        lines = [self._lines[row] for row in rows if row < len(self._lines)]
        return lines_mime(self.spec, lines, self.display)

    def paste(self, data: QMimeData) -> None:
        """Add the lines of the clipboard, as one undo step.

        `refused` says why not; `choice_wanted` asks what a text is where that is not certain.
        """
        from designer.window.compose.lines_clipboard import pasting

        try:
            found = pasting(data, self.spec, self.display)
        except RefusedInputError as fault:
            self.refused.emit(str(fault))
            return
        if isinstance(found, Together):
            self.opened.make(found)
        else:
            self.choice_wanted.emit(found)

    def set_locked(self, row: int, locked: bool) -> None:
        """Lock a line against change, or unlock it."""
        line = self.line_at(row)
        if line is not None and hasattr(line, "locked"):
            self.opened.make(set_locked(self.spec.lines, line, locked))

    # following

    def line_at(self, row: int) -> Line | None:
        """Return the line of a row; None for the row that takes a new one."""
        return self._lines[row] if 0 <= row < len(self._lines) else None

    def row_of(self, line_id: int) -> int:
        """Return the row of a line, or -1."""
        return next((row for row, each in enumerate(self._lines) if each.line_id == line_id), -1)

    def _follow(self, recipe: Recipe) -> None:
        new: tuple[Line, ...] = getattr(recipe, self.spec.lines)
        if new is not self._lines:
            self._follow_lines(new)
        if self.not_taken:
            self._prune_not_taken()

    def _follow_lines(self, new: tuple[Line, ...]) -> None:
        old_ids = [each.line_id for each in self._lines]
        new_ids = [each.line_id for each in new]
        if old_ids == new_ids:
            old, self._lines = self._lines, new
            for row, (before, after) in enumerate(zip(old, new, strict=True)):
                if before is not after:
                    last = self.index(row, self.columnCount() - 1)
                    self.dataChanged.emit(self.index(row, 0), last)
            return
        inserted = _run_of_new(old_ids, new_ids)
        removed = _run_of_new(new_ids, old_ids)
        if inserted is not None:
            self.beginInsertRows(_ROOT, inserted[0], inserted[1])
            self._lines = new
            self.endInsertRows()
        elif removed is not None:
            self.beginRemoveRows(_ROOT, removed[0], removed[1])
            self._lines = new
            self.endRemoveRows()
        elif sorted(old_ids) == sorted(new_ids):
            self._reorder(new, new_ids)
        else:
            self.beginResetModel()
            self._lines = new
            self.endResetModel()

    def _reorder(self, new: tuple[Line, ...], new_ids: list[int]) -> None:
        self.layoutAboutToBeChanged.emit()
        kept = self.persistentIndexList()
        moved = []
        for index in kept:
            line = self.line_at(index.row())
            row = new_ids.index(line.line_id) if line is not None else index.row()
            moved.append(self.createIndex(row, index.column()))
        self._lines = new
        self.changePersistentIndexList(kept, moved)
        self.layoutChanged.emit()

    def _refresh_all(self) -> None:
        if self._lines:
            last = self.index(len(self._lines) - 1, self.columnCount() - 1)
            self.dataChanged.emit(self.index(0, 0), last)

    def _refresh_given(self) -> None:
        """Take over what the new forecast says of the lines; tell only of cells that changed."""
        before = self._findings
        self._findings = {}
        for each in self.opened.outlook.findings:
            lines, _, line_id = each.about.partition(".")
            if lines == self.spec.lines and line_id.isdigit():
                self._findings.setdefault(int(line_id), []).append(each)
        ids = [line.line_id for line in self._lines]
        given = {line.line_id: self._given(line) for line in self._lines}
        told = [self._given_before.get(each) != given[each] for each in ids]
        found = [before.get(each) != self._findings.get(each) for each in ids]
        self._given_before = given
        self._tell(told, self.columnCount() - 1)
        self._tell(found, self._name_column)

    def _given(self, line: Line) -> str:
        last = self.spec.columns[-1]
        return self._text(last, line) if last.gives is not None else ""

    def _tell(self, changed: list[bool], column: int) -> None:
        """Tell of the rows that changed in a column: once for all that stand together."""
        row = 0
        for is_changed, run in groupby(changed):
            after = row + len(list(run))
            if is_changed:
                self.dataChanged.emit(self.index(row, column), self.index(after - 1, column))
            row = after


def _run_of_new(old: list[int], new: list[int]) -> tuple[int, int] | None:
    """First and last row of the one run of ids that `new` has and `old` has not, else None."""
    known = set(old)
    added = [row for row, each in enumerate(new) if each not in known]
    if not added or added[-1] - added[0] + 1 != len(added):
        return None
    return (added[0], added[-1]) if [each for each in new if each in known] == old else None


def _alignment(column: Column) -> Qt.AlignmentFlag:
    across = Qt.AlignmentFlag.AlignRight if column.right else Qt.AlignmentFlag.AlignLeft
    return across | Qt.AlignmentFlag.AlignVCenter


def _bold() -> QFont:
    font = QFont()
    font.setBold(True)
    return font


_MANY = {
    "fermentables": message("{number} fermentables"),
    "hops": message("{number} hops"),
    "extras": message("{number} extras"),
}
_COLUMN_WORDS = {"when": message("time"), "alpha": message("alpha acid")}
"""What a column is called in a phrase where that is not its key."""


def _sure(value: Quantity, column: Column) -> str:
    """Say how sure a figure is taken to be where it was not typed."""
    facts = column.facts
    if facts is None or value.spread is not None or not (facts.spread and facts.relative):
        return ""
    return f"; taken as sure to ± {100.0 * facts.spread:.3g} %"
