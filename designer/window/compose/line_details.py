"""The further figures of one chosen line: yield, fermentability, label bitterness, price, lock."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QLineEdit, QPushButton, QWidget

from designer.errors import RefusedInputError
from designer.recipe.document import LINE_TYPES, Extra, Fermentable, Hop
from designer.recipe.edits import ChangeLine, changing, set_locked
from designer.recipe.fields import FieldFacts, facts_of, label_of, quantity_fields
from designer.recipe.message import within
from designer.recipe.named import Line, is_locked, lines_of, value_of
from designer.recipe.quantity import Kind, Quantity
from designer.translation import named, tr
from designer.window.compose.choice_field import ChoiceField
from designer.window.compose.lines_columns import LinesSpec
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.fields import TextField, quantity_field
from designer.window.parts.icons import Tick
from designer.window.parts.offers import attach_suggestions
from designer.window.session.worked_on import EditedRecipe
from designer.workbench.figure_sources import source_of_line

ACROSS = 3


def sure_text(line: Line, display: DisplayFormat) -> str:
    """Return how sure each figure of a line is taken to be, and how to say it better."""
    parts = []
    for field, facts in quantity_fields(line):
        quantity = value_of(line, field.name)
        how = "" if quantity is None else _how_sure(line, field.name, quantity, facts, display)
        if how:
            parts.append(f"{within(facts.label)} {how}")
    if not parts:
        return ""
    return tr(
        "How accurate each is taken to be: {figures}. Where you know better, type it with its ±, "
        "such as {example}.",
        figures=", ".join(parts),
        example="7.2 % ± 0.3 %" if isinstance(line, Hop) else "500 g ± 2 g",
    )


def _how_sure(
    line: Line, field: str, quantity: Quantity, facts: FieldFacts, display: DisplayFormat
) -> str:
    """Return how sure a figure is taken to be: as typed, as makers differ, or as is usual."""
    # The first picture is painted before the brew day is loaded.
    from designer.brewday.malt_doubts import about_figure

    spread, relative = quantity.spread, False
    if quantity.ends is not None:
        low, high = (display.value(facts.kind, end) for end in quantity.ends)
        return tr("{low} to {high}", low=low, high=high)
    if spread is None:
        doubt = about_figure(line, field) if isinstance(line, Fermentable) else None
        if doubt is not None:
            low, high = (display.value(facts.kind, end) for end in (doubt.low, doubt.high))
            return tr("{low} to {high}", low=low, high=high) if doubt.low < doubt.high else ""
        spread, relative = facts.spread, facts.relative
    if not spread:
        return ""
    if relative:
        return tr("± {share} % of it", share=display.decimal(f"{100.0 * spread:.3g}"))
    if facts.kind is Kind.FRACTION:
        return display.decimal(f"± {100.0 * spread:.3g} %")
    return f"± {display.value(facts.kind, spread)}"


class LineDetails(QWidget):
    """A small form below a table, for the line chosen in it."""

    refused = Signal(str)

    def __init__(
        self,
        opened: EditedRecipe,
        spec: LinesSpec,
        display: DisplayFormat,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._opened, self._spec, self._display = opened, spec, display
        self._line_id: int | None = None
        self.by_name: dict[str, QWidget] = {}
        self._fields: list[TextField] = []
        self._choices: list[ChoiceField] = []
        grid = QGridLayout(self)
        grid.setContentsMargins(10, 6, 10, 8)
        self._title = QLabel()
        self._title.setTextFormat(Qt.TextFormat.PlainText)
        grid.addWidget(self._title, 0, 0, 1, ACROSS)
        for number, name in enumerate(spec.details):
            row, column = 1 + 2 * (number // ACROSS), number % ACROSS
            field = self._field(name, display)
            label = QLabel(field.accessibleName())
            label.setObjectName("soft")
            label.setBuddy(field)
            grid.addWidget(label, row, column)
            grid.addWidget(field, row + 1, column)
            if isinstance(field, TextField):
                self._fields.append(field)
            else:
                self._choices.append(field)
            self.by_name[name] = field
        self.sure = QLabel()
        self.sure.setTextFormat(Qt.TextFormat.PlainText)
        self.sure.setObjectName("soft")
        self.sure.setWordWrap(True)
        grid.addWidget(self.sure, 19, 0, 1, ACROSS)
        self.source = QLabel()
        self.source.setTextFormat(Qt.TextFormat.PlainText)
        self.source.setObjectName("soft")
        self.source.setWordWrap(True)
        self.source.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        grid.addWidget(self.source, 20, 0, 1, ACROSS)
        self._lock = Tick(tr("Locked: a kit's contents, not to be changed"))
        self._lock.toggled.connect(self._set_locked)
        if spec.lines != "extras":
            grid.addWidget(self._lock, 21, 0, 1, ACROSS)
            self.by_name["locked"] = self._lock
        else:
            self._lock.setParent(self)
            self._lock.hide()
        if spec.lines != "extras":
            grid.addLayout(self._instead_row(), 22, 0, 1, ACROSS)
            grid.addWidget(self._changes, 23, 0, 1, ACROSS)
        opened.recipe_changed.connect(self.refresh)
        self.refresh()

    def _instead_row(self) -> QHBoxLayout:
        """Another ingredient in place of the line, its amount sought."""
        self._instead = QLineEdit()
        self._instead.setAccessibleName(tr(self._spec.words.instead))
        self._instead.returnPressed.connect(self.put_instead)
        attach_suggestions(self._instead, self._spec.lines)
        self._put = QPushButton(tr("Put it in"))
        self._put.setToolTip(tr("Gravity and bitterness are held; what changes is said below"))
        self._put.clicked.connect(lambda _checked=False: self.put_instead())
        label = QLabel(tr("Replace with"))
        label.setObjectName("soft")
        label.setBuddy(self._instead)
        row = QHBoxLayout()
        for widget in (label, self._instead, self._put):
            row.addWidget(widget)
        self._changes = QLabel()
        self._changes.setTextFormat(Qt.TextFormat.PlainText)
        self._changes.setWordWrap(True)
        self._changes.hide()
        return row

    def put_instead(self) -> None:
        """Put the ingredient that is typed in the line's place, as one undo step."""
        # The searches of Fit are loaded when one is wanted.
        from designer.brewday.fit.substitution import substitute

        line, text = self._line(), self._instead.text().strip()
        if line is None or not text:
            return
        instead = self._spec.begin(text, self._display)
        if isinstance(instead, Extra):
            return
        if not instead.name:
            self.refused.emit(tr("Type the name of what is to replace the line."))
            return
        try:
            found = substitute(self._opened.brewed, line.line_id, instead)
        except RefusedInputError as fault:
            self.refused.emit(str(fault))
            return
        self._opened.make(found.edit)
        words = " ".join(each.said(self._display.rounded) for each in found.words)
        self._changes.setText(words)
        self._changes.setVisible(bool(words))
        self._instead.clear()

    def _field(self, name: str, display: DisplayFormat) -> TextField | ChoiceField:
        of = LINE_TYPES[self._spec.lines]
        declared = next(each for each in fields(of) if each.name == name)
        label = label_of(declared)

        def edit(value: Any, merge_key: str = "") -> ChangeLine:
            changes, text = ((name, value),), changing(label)
            return ChangeLine(self._spec.lines, self._line_id or 0, changes, text, merge_key)

        choices = declared.metadata.get("choices")
        if choices:
            return ChoiceField(
                self._opened, label, choices, lambda: str(getattr(self._line(), name, "")), edit
            )
        return quantity_field(
            self._opened,
            display,
            facts_of(of, name),
            lambda: getattr(self._line(), name, None),
            edit,
            self,
        )

    def _line(self) -> Line | None:
        lines = lines_of(self._opened.recipe, self._spec.lines)
        return next((each for each in lines if each.line_id == self._line_id), None)

    def choose(self, line_id: int | None) -> None:
        """Show another line."""
        is_other, self._line_id = line_id != self._line_id, line_id
        self.refresh()
        for field in self._fields:
            if is_other:
                field.let_go()
            field.refresh()
        for choice in self._choices:
            choice.refresh()

    def refresh(self) -> None:
        """Show the line's name and lock."""
        line = self._line()
        self._title.setText(
            named(line.name) if line is not None else tr("Choose a line in the table")
        )
        self.sure.setText(sure_text(line, self._display) if line is not None else "")
        self.source.setText(source_of_line(line) if line is not None else "")
        locked = is_locked(line)
        with QSignalBlocker(self._lock):
            self._lock.setChecked(locked)
        self._lock.setEnabled(line is not None)
        if self._spec.lines != "extras":
            for widget in (self._instead, self._put):
                widget.setEnabled(line is not None and not locked)
        for field in (*self._fields, *self._choices):
            field.setEnabled(line is not None and not locked)

    def _set_locked(self, locked: bool) -> None:
        line = self._line()
        if line is not None:
            self._opened.make(set_locked(self._spec.lines, line, locked))
