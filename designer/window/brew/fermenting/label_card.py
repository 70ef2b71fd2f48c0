"""The label of a bottle as it is printed, its words typed anew, and how many are printed."""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QLineEdit, QMenu, QSizePolicy, QVBoxLayout, QWidget

from designer.errors import DesignerError
from designer.paper.labels import LABEL_HEIGHT, LABEL_WIDTH, paint_label
from designer.sheet.labels import (
    EDITABLE,
    BottleLabel,
    LabelFacts,
    LabelWords,
    as_typed,
    fitting,
    label_words,
    labels_for,
)
from designer.sheet.language import Language, language
from designer.translation import message, tr, trn
from designer.window.brew.fermenting.form_rows import BeerForm
from designer.window.brew.fermenting.packing_choices import PackingChoices
from designer.window.brew.large_button import LargeButton
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.flow import FlowLayout
from designer.window.parts.page_frame import heading
from designer.window.parts.sized_text import grown

NAMES = {
    "name": message("Name"),
    "strength": message("Alcohol"),
    "bitterness": message("Bitterness"),
    "packaged": message("Bottled on"),
    "best": message("Best from"),
    "allergens": message("Allergens, as you declare them"),
    "care": message("Caution"),
}
WIDEST_PX = 226
LONGEST = 160


@dataclass(frozen=True, slots=True)
class LabelShown:
    """What the labels are made of: facts of the beer, the bottles, and words typed anew."""

    facts: LabelFacts
    bottles: tuple[tuple[float, int], ...] = ()
    typed: tuple[tuple[str, str], ...] = ()


class LabelPicture(QWidget):
    """One label, as it is printed."""

    def __init__(self) -> None:
        super().__init__()
        self.label: BottleLabel | None = None
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_label(self, label: BottleLabel) -> None:
        """Show another label."""
        if label != self.label:
            self.label = label
            told = ". ".join((label.words.name, *label.lines))
            self.setAccessibleName(tr("Label: {words}", words=told))
            self.update()

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return round(min(width, grown(self, WIDEST_PX)) * LABEL_HEIGHT / LABEL_WIDTH)

    def sizeHint(self) -> QSize:
        wide = round(grown(self, WIDEST_PX))
        return QSize(wide, self.heightForWidth(wide))

    def minimumSizeHint(self) -> QSize:
        return QSize(120, self.heightForWidth(120))

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.label is None:
            return
        wide = min(self.width(), grown(self, WIDEST_PX), self.height() * LABEL_WIDTH / LABEL_HEIGHT)
        place = QRectF((self.width() - wide) / 2, 0, wide, wide * LABEL_HEIGHT / LABEL_WIDTH)
        with QPainter(self) as painter:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            paint_label(painter, self.label, place)


class WordsForm(BeerForm):
    """The words of the label, each typed anew or left as the beer has it."""

    kept = Signal(object)

    def __init__(self) -> None:
        super().__init__(tr("Words of the label"), tr("Keep the words"))
        self.edits: dict[str, QLineEdit] = {}
        self._ours: dict[str, str] = {}
        for row, key in enumerate(EDITABLE):
            edit = self.edits[key] = QLineEdit()
            edit.setMaxLength(LONGEST)
            self.place(row, 0, tr(NAMES[key]), edit)

    def ask(self, ours: dict[str, str], typed: dict[str, str]) -> None:
        """Ask for words; `ours` are those of the beer."""
        self._ours = ours
        for key, edit in self.edits.items():
            edit.setPlaceholderText(ours[key])
            edit.setText(typed.get(key, ours[key]))
        first = self.edits["name"]
        first.setFocus(Qt.FocusReason.OtherFocusReason)
        first.selectAll()

    def carry_out(self) -> None:
        typed = {key: edit.text().strip() for key, edit in self.edits.items()}
        kept = {key: text for key, text in typed.items() if text != self._ours[key]}
        self.put_away()
        self.kept.emit(tuple(sorted(kept.items())))


class LabelCard(QFrame):
    """`printing_wanted` and `pdf_wanted` ask for the labels."""

    printing_wanted = Signal()
    pdf_wanted = Signal()
    words_wanted = Signal()

    def __init__(self, choices: PackingChoices, display: DisplayFormat) -> None:
        super().__init__()
        self.setObjectName("card")
        self._choices, self._display = choices, display
        self.shown = LabelShown(LabelFacts(""))
        self.picture = LabelPicture()
        self.words_button = LargeButton(
            tr("Words…"), tr("Type the words of the label anew"), self.words_wanted.emit
        )
        self.print_button = LargeButton("", "", self._offer)
        self.menu = QMenu(self)
        self.menu.setObjectName("largeMenu")
        self.menu.addAction(tr("Print…")).triggered.connect(self.printing_wanted)
        self.menu.addAction(tr("Save as PDF…")).triggered.connect(self.pdf_wanted)
        self.form = WordsForm()
        self.form.kept.connect(self._keep)
        ways = FlowLayout(across=8, down=6)
        ways.addWidget(self.words_button)
        ways.addWidget(self.print_button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 10, 14, 12)
        layout.setSpacing(8)
        layout.addWidget(heading(tr("Label")))
        layout.addWidget(self.picture)
        layout.addLayout(ways)
        layout.addStretch(1)

    def show_label(self, shown: LabelShown) -> None:
        """Show what the labels are made of."""
        self.shown = shown
        spoken, unspoken = self._spoken()
        words = as_typed(label_words(shown.facts, spoken), dict(shown.typed))
        labels = self._labels(words, spoken)
        count = len(labels)
        self.picture.show_label(labels[0] if labels else BottleLabel(fitting(words)))
        self.print_button.setText(
            trn("Print {number} label", "Print {number} labels", count) if count
            else tr("No labels yet")
        )  # fmt: skip
        self.print_button.setEnabled(count > 0)
        self.print_button.setToolTip(unspoken or tr("On the printer, or as PDF"))

    def _spoken(self) -> tuple[Language, str]:
        """Return the language of the labels, and why it is not the chosen one, "" where it is.

        English where the words of the chosen one are not there.
        """
        try:
            return language(self._display.settings.sheet_language), ""
        except DesignerError as fault:
            return language("en"), str(fault)

    def labels(self) -> tuple[BottleLabel, ...]:
        """Return a label for each bottle."""
        spoken, _ = self._spoken()
        words = as_typed(label_words(self.shown.facts, spoken), dict(self.shown.typed))
        return self._labels(words, spoken)

    def _labels(self, words: LabelWords, spoken: Language) -> tuple[BottleLabel, ...]:
        return labels_for(words, self.shown.bottles, self._display.settings.units, spoken)

    def _offer(self) -> None:
        self.menu.popup(self.print_button.mapToGlobal(self.print_button.rect().bottomLeft()))

    def ask_words(self) -> None:
        """Ask for the words in the form."""
        ours = label_words(self.shown.facts, self._spoken()[0])
        self.form.ask({key: getattr(ours, key) for key in EDITABLE}, dict(self.shown.typed))

    def _keep(self, typed: tuple[tuple[str, str], ...]) -> None:
        self._choices.choose(
            "label", tr("words of the label"), lambda packing: replace(packing, label=typed)
        )
        self._choices.settle()
