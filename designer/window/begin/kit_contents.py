"""What is in a kit's box, row by row, as its leaflet lists it."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QObject, Signal

from designer.errors import RefusedInputError
from designer.recipe.choices import FermentableKind, HopForm
from designer.recipe.document import Recipe
from designer.recipe.quantity import Kind, Stage, When
from designer.translation import message, named, tr
from designer.window.begin.kit_rows import AMOUNT, NAME, Field, KitColumn, KitRows, in_line
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.refusal import read_from
from designer.workbench.kit import HOP_TO_SHOW, UNNAMED_YEAST, USUAL_NAMES, KitHop, KitItem

TIN = (FermentableKind.HOPPED_KIT, FermentableKind.LIQUID_EXTRACT)
SECTIONS: tuple[tuple[FermentableKind, str, str, float], ...] = (
    (TIN[0], message("Tins"), message("Another tin"), 1.7),
    (FermentableKind.DRY_EXTRACT, message("Dry extract"), message("Another bag of extract"), 1.0),
    (FermentableKind.SUGAR, message("Sugar"), message("Another sugar"), 1.0),
    (FermentableKind.STEEPING_GRAIN, message("Grain"), message("More grain"), 0.25),
)
"""Kind, name, what adds a row, and an amount that shows how one is written, kg."""


class KitContents(QObject):
    """The rows of a kit; `changed` when anything in them is, `rearranged` when one is added."""

    changed = Signal()
    rearranged = Signal()

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self._display = display
        self.of_kind: dict[FermentableKind, KitRows] = {}
        for kind, title, another, kg in SECTIONS:
            amount = KitColumn(AMOUNT, tr("Amount"), display.value(Kind.MASS, kg), 8, Kind.MASS)
            name = KitColumn(NAME, tr("Name"), USUAL_NAMES[kind], suggests="fermentables")
            columns = (amount, name, *self._hopped()) if kind in TIN else (amount, name)
            self.of_kind[kind] = KitRows(display, tr(title), columns, tr(another))
        self.tins = self.of_kind[TIN[0]]
        self.hops = KitRows(display, tr("Hops"), self._hop_columns(), tr("More hops"))
        self.yeast = KitRows(display, tr("Yeast"), self._yeast_columns())
        in_line(self.sections())
        for each in self.sections():
            each.changed.connect(self.changed)
            each.rearranged.connect(self.rearranged)

    @staticmethod
    def _hopped() -> tuple[KitColumn, ...]:
        words = ((tr("hopped"), str(TIN[0])), (tr("not hopped"), str(TIN[1])))
        return (KitColumn("kind", tr("Hopped or not"), letters=13, choices=words),)

    def _hop_columns(self) -> tuple[KitColumn, ...]:
        forms = tuple((tr(each), str(each)) for each in HopForm)
        alpha = self._display.value(Kind.FRACTION, 0.072)
        return (
            KitColumn(AMOUNT, tr("Amount"), self._display.value(Kind.MASS, 0.02), 8, Kind.MASS),
            KitColumn(NAME, tr("Variety"), HOP_TO_SHOW, suggests="hops"),
            KitColumn("form", tr("Form"), letters=9, choices=forms),
            KitColumn("alpha", tr("Alpha acid"), alpha, 7, Kind.FRACTION),
            KitColumn("when", tr("Minutes in the boil, or when it goes in"), "60 min", 10),
        )

    def _yeast_columns(self) -> tuple[KitColumn, ...]:
        return (
            KitColumn(AMOUNT, tr("Amount"), "7 g", 8, Kind.DOSE),
            KitColumn(NAME, tr("Name"), UNNAMED_YEAST, suggests="yeasts"),
        )

    def sections(self) -> tuple[KitRows, ...]:
        """Return the sections, in their order."""
        return (*self.of_kind.values(), self.hops, self.yeast)

    # what is typed

    def items(self) -> tuple[KitItem, ...]:
        """Return tins and bags in the order of their rows. Raises FieldRefusedError."""
        return tuple(self._item(kind, rows, row) for kind, rows, row in self._filled())

    def _filled(self) -> Iterator[tuple[FermentableKind, KitRows, dict[str, Field]]]:
        for kind, rows in self.of_kind.items():
            for row in rows.filled():
                yield kind, rows, row

    @staticmethod
    def _item(kind: FermentableKind, rows: KitRows, row: dict[str, Field]) -> KitItem:
        chosen = FermentableKind(rows.text(row, "kind")) if "kind" in row else kind
        return KitItem(chosen, rows.amount(row), rows.text(row, NAME))

    def hop_packets(self) -> tuple[KitHop, ...]:
        """Return the hops. Raises FieldRefusedError."""
        rows = self.hops
        return tuple(
            KitHop(
                rows.amount(row),
                rows.text(row, NAME),
                HopForm(rows.text(row, "form")),
                rows.quantity(row, "alpha", Kind.FRACTION),
                self._when(row),
            )
            for row in rows.filled()
        )

    def _when(self, row: dict[str, Field]) -> When | None:
        """Return when hops go in: a time alone is that of the boil left."""
        text = self.hops.text(row, "when")
        if not text:
            return None
        with read_from(row["when"]):
            try:
                minutes = self._display.read(Kind.TIME, text).value
            except RefusedInputError:
                return self._display.read_when(text)
            if minutes <= 0.0:
                return When(Stage.FLAME_OUT, "flame-out")
            return self._display.read_when(f"boil {self._display.decimal(f'{minutes:g}')} min")

    # what is put right

    def show_mended(self, before: Recipe, after: Recipe) -> None:
        """Put what a cure has changed of the lines of a recipe into their rows."""
        rows = list(self._filled())
        left = {line.line_id: line for line in after.fermentables}
        for (_, section, row), line in zip(rows, before.fermentables, strict=True):
            mended = left.pop(line.line_id, None)
            if mended is None:
                section.put(row, AMOUNT, "")
                section.put(row, NAME, "")
            elif mended.amount != line.amount:
                section.put(row, AMOUNT, self._display.quantity(Kind.MASS, mended.amount))
        for line in left.values():
            kind = FermentableKind(line.kind)
            section = self.of_kind[TIN[0] if kind in TIN else kind]
            empty = [each for each in section.rows if not section.is_filled(each)]
            row = empty[0] if empty else section.add_row()
            section.put(row, AMOUNT, self._display.quantity(Kind.MASS, line.amount))
            section.put(row, NAME, named(line.name))
            if "kind" in row:
                section.put(row, "kind", str(kind))

    def texts(self) -> list[list[dict[str, str]]]:
        """Return all that is typed, for `show_texts`."""
        return [
            [{key: each.text(row, key) for key in row} for row in each.rows]
            for each in self.sections()
        ]

    def show_texts(self, texts: list[list[dict[str, str]]]) -> None:
        """Show again what was typed; rows that have come since are emptied."""
        for section, rows in zip(self.sections(), texts, strict=True):
            for row in section.rows[len(rows) :]:
                for key in row:
                    section.put(row, key, "")
            for row, values in zip(section.rows, rows, strict=False):
                for key, text in values.items():
                    section.put(row, key, text)
