"""What stands behind a number of the forecast: why it is doubtful, what other methods say, and
"make it": the value wanted, and the line that may change to reach it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from designer.brewday.aiming import Aim, Means, amount_of, make_it, means_for
from designer.brewday.instrument import reading_range, trusted_within
from designer.brewday.leaflet import checked
from designer.brewday.other_methods import MethodSays, methods_of
from designer.brewday.predictions import BY_KEY, ON_OTHER_SCALES, Prediction, further
from designer.brewday.results import Range
from designer.errors import RefusedInputError
from designer.recipe.document import Process
from designer.recipe.plan import as_written
from designer.recipe.quantity import Kind
from designer.translation import message, named, tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure, wanted_value
from designer.window.parts.flow import FlowLayout
from designer.window.parts.icons import Choice
from designer.window.session.open_recipe import OpenRecipe

LEAST_SHARE, WORTH_MEASURING = 0.03, 0.05


class BehindPanel(QFrame):
    """Unfolds below the forecast for the row that is pressed."""

    said = Signal(str)

    def __init__(
        self, opened: OpenRecipe, display: DisplayFormat, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._opened, self._display = opened, display
        self._key = ""
        self._means: tuple[Means, ...] = ()
        self._asked: object = None
        self._is_idle = False
        self._labels: list[tuple[QLabel, QLabel, QLabel]] = []
        self.causes = QLabel()
        self.causes.setTextFormat(Qt.TextFormat.PlainText)
        self.causes.setWordWrap(True)
        self.causes.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.further = QLabel()
        self.further.setTextFormat(Qt.TextFormat.PlainText)
        self.further.setWordWrap(True)
        self.leaflet = QLabel()
        self.leaflet.setTextFormat(Qt.TextFormat.PlainText)
        self.leaflet.setWordWrap(True)
        self.methods = QWidget()
        self._grid = QGridLayout(self.methods)
        self._grid.setContentsMargins(0, 4, 0, 0)
        self._grid.setHorizontalSpacing(12)
        self._grid.setVerticalSpacing(2)
        self._grid.setColumnStretch(2, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 2, 10, 8)
        layout.addWidget(self.causes)
        layout.addWidget(self.further)
        layout.addWidget(self.leaflet)
        layout.addWidget(self.methods)
        layout.addLayout(self._make_row())
        self.answer = QLabel()
        self.answer.setTextFormat(Qt.TextFormat.PlainText)
        self.answer.setWordWrap(True)
        self.answer.hide()
        layout.addWidget(self.answer)

    def _make_row(self) -> FlowLayout:
        self.wanted = QLineEdit()
        self.wanted.setMinimumWidth(70)
        self.wanted.setMaximumWidth(110)
        self.wanted.setAccessibleName(tr("Make it this value"))
        self.wanted.returnPressed.connect(self.make_it)
        self.by = Choice()
        self.by.setAccessibleName(tr("By changing"))
        self.by.setSizeAdjustPolicy(Choice.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.by.setMinimumContentsLength(8)
        self.press = QPushButton(tr("Change it"))
        self.press.clicked.connect(self.make_it)
        row = FlowLayout(across=8, down=4)
        label = QLabel(tr("Make it"))
        label.setBuddy(self.wanted)
        for widget in (label, self.wanted, QLabel(tr("by changing")), self.by, self.press):
            row.addWidget(widget)
        return row

    def show_key(self, key: str, forecasts: Mapping[str, Range]) -> None:
        """Show what stands behind the forecast `key`."""
        found = forecasts[key]
        if key != self._key:
            self._key = key
            self.wanted.clear()
            self.answer.hide()
        self.wanted.setPlaceholderText(figure(key, found.value, self._display))
        process = self._opened.reckoned.process
        self.causes.setText(why_doubtful(key, found, self._display, process))
        said = further_words(key, forecasts, self._display)
        self.further.setText(said)
        self.further.setVisible(bool(said))
        self._show_leaflet(key, forecasts)
        self._offer_means()
        self._show_methods()

    def _show_leaflet(self, key: str, forecasts: Mapping[str, Range]) -> None:
        """Show what the leaflet of a kit states of this number, if it does."""
        recipe, batch_l = self._opened.recipe, float(self._opened.day.fermenter.batch_l)
        found = [each for each in checked(recipe, forecasts, batch_l) if each.key == key]
        display = self._display
        texts = [each.said.said(display.rounded, display.quantity) for each in found]
        self.leaflet.setText(tr("Leaflet, {says}", says=texts[0]) if texts else "")
        self.leaflet.setVisible(bool(texts))

    def _offer_means(self) -> None:
        means = means_for(self._key, self._opened.recipe)
        asked = self._key, means, self._opened.recipe.boils
        if asked == self._asked:
            return
        self._asked = asked
        chosen = self.by.currentText()
        self._means = means
        self.by.clear()
        self.by.addItems([self._called(each) for each in means])
        self.by.view().setMinimumWidth(self.by.view().sizeHintForColumn(0))
        if self.by.findText(chosen) >= 0:
            self.by.setCurrentText(chosen)
        for widget in (self.by, self.press, self.wanted):
            widget.setEnabled(bool(means))
        was_idle, self._is_idle = (
            self._is_idle,
            not means and bool(means_for(self._key, as_written(self._opened.recipe))),
        )
        if self._is_idle:
            self._answer(
                tr(
                    "The boils of the plan have amounts of their own. Brew it as written to make "
                    "it so, then fit it again; or change the amounts in a boil."
                )
            )
        elif was_idle:
            self.answer.hide()

    @staticmethod
    def _called(means: Means) -> str:
        """Return what may be changed by its name: a line's own, or a field's in the language."""
        if not means.name:
            return tr("a line without a name")
        return named(means.name) if means.line_id else tr(means.name)

    def _show_methods(self) -> None:
        """Show what other methods say; labels are used again, so that a key lays out little."""
        said = methods_of(self._key, self._opened.recipe, self._opened.day)
        while len(self._labels) < len(said):
            self._labels.append(self._row_of_labels(len(self._labels)))
        for number, labels in enumerate(self._labels):
            for label in labels:
                label.setVisible(number < len(said))
        for labels, each in zip(self._labels, said, strict=False):
            self._say_method(labels, each)
        self.methods.setVisible(bool(said))

    def _row_of_labels(self, row: int) -> tuple[QLabel, QLabel, QLabel]:
        """Put labels for one more method into the grid: its name, its value, its words."""
        labels = QLabel(), QLabel(), QLabel()
        for column, label in enumerate(labels):
            label.setAlignment(Qt.AlignmentFlag.AlignTop)
            self._grid.addWidget(label, row, column)
        labels[2].setWordWrap(True)
        labels[2].setObjectName("soft")
        return labels

    def _say_method(self, labels: tuple[QLabel, QLabel, QLabel], said: MethodSays) -> None:
        name = tr(said.method)
        if said.default:
            name = tr("{method} (default)", method=name)
        value = figure(said.number, said.value, self._display)
        if said.chosen:
            name, value = f"<b>{name}</b>", f"<b>{value}</b>"
        source = tr("Source: {source}", source=tr(said.source))
        for label, text in zip(
            labels, (name, value, f"{tr(said.why)} {said.outside}".strip()), strict=True
        ):
            if text != label.text():
                label.setText(text)
            if source != label.toolTip():
                label.setToolTip(source)

    def make_it(self) -> None:
        """Change the chosen line so that the forecast becomes what was typed."""
        try:
            value = wanted_value(self._key, self.wanted.text(), self._display)
        except RefusedInputError as fault:
            self._answer(str(fault))
            return
        if not self._means:
            return
        means = self._means[max(self.by.currentIndex(), 0)]
        aim = make_it(self._opened.reckoned, self._key, value, means)
        if aim.edit is None:
            self._answer(self._out_of_reach(value, means, aim))
            return
        before = self._amount(means)
        self._opened.make(aim.edit)
        self._answer(
            tr(
                "{means} from {before} to {after} gives {figure}. Undo takes it back.",
                means=self._called(means),
                before=before,
                after=self._amount(means),
                figure=figure(self._key, aim.reached, self._display),
            )
        )

    def _amount(self, means: Means) -> str:
        """Return how much there is of what may be changed."""
        kind = Kind.MASS if means.line_id else Kind.VOLUME
        return self._display.quantity(kind, amount_of(self._opened.recipe, means)) or tr("nothing")

    def _out_of_reach(self, value: float, means: Means, aim: Aim) -> str:
        low, high = (figure(self._key, each, self._display) for each in sorted((aim.low, aim.high)))
        return tr(
            "{means} alone cannot make it {figure}: it goes from {low} to {high}. Choose another "
            "line, or add one.",
            means=self._called(means),
            figure=figure(self._key, value, self._display),
            low=low,
            high=high,
        )

    def _answer(self, text: str) -> None:
        self.answer.setText(text)
        self.answer.show()


LEANS = {
    "higher": message(
        "More likely above {value} than below it: most of what is uncertain would raise it."
    ),
    "lower": message(
        "More likely below {value} than above it: most of what is uncertain would lower it."
    ),
}


def further_words(key: str, forecasts: Mapping[str, Range], display: DisplayFormat) -> str:
    """Return in words the forecasts that stand behind a main one; nothing where there are none."""
    return "\n".join(_further(each, forecasts, display) for each in further(key))


def _further(each: Prediction, forecasts: Mapping[str, Range], display: DisplayFormat) -> str:
    found, scale = forecasts[each.key], ON_OTHER_SCALES.get(each.key)
    value = figure(each.key, found.value, display)
    if scale is not None:
        other = figure(scale.key, forecasts[scale.key].value, display)
        value = tr("{value} ({other})", value=value, other=other)
    return tr(
        "{forecast}: {value}, likely {low} to {high}. Calculated with: {source}.",
        forecast=tr(each.label),
        value=value,
        low=figure(each.key, found.low, display, unit=False),
        high=figure(each.key, found.high, display),
        source=tr(each.source),
    )


def why_doubtful(key: str, found: Range, display: DisplayFormat, process: Process) -> str:
    """Return in words what makes a forecast doubtful, what would make it surer, and its source."""
    lines = []
    if found.causes:
        shares = ", ".join(
            f"{each.words} ({100.0 * each.share:.0f} %)"
            for each in found.causes
            if each.share >= LEAST_SHARE
        )
        low, high = (figure(key, each, display) for each in (found.low, found.high))
        lines.append(
            tr(
                "Nine brews in ten land between {low} and {high}. Largest uncertainties: {shares}.",
                low=low,
                high=high,
                shares=shares,
            )
        )
        if found.leans:
            lines.append(tr(LEANS[found.leans], value=figure(key, found.value, display)))
        lines += islice(_surer(key, found, display), 2)
    if BY_KEY[key].kind is Kind.GRAVITY:
        low, high = (figure(key, end, display) for end in reading_range(found, process))
        within = f"{trusted_within(process):.3f}"
        lines.append(
            tr(
                "A hydrometer accurate to {within} will read {low} to {high}, corrected for "
                "temperature.",
                within=display.decimal(within),
                low=low,
                high=high,
            )
        )
    lines.append(tr("Calculated with: {source}.", source=tr(BY_KEY[key].source)))
    return "\n".join(lines)


def _surer(key: str, found: Range, display: DisplayFormat) -> Iterator[str]:
    """Yield what would narrow the range so that one sees it."""
    whole = [figure(key, end, display) for end in (found.low, found.high)]
    for each in found.causes:
        left = [figure(key, end, display) for end in (each.low, each.high)]
        if each.advice and each.share >= WORTH_MEASURING and left != whole:
            yield tr(
                "To narrow this to {low}–{high}, {advice}.",
                advice=tr(each.advice),
                low=left[0],
                high=left[1],
            )
