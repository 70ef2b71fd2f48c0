"""The main forecasts of a recipe in a row: the title of each above its figure, its band below."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from designer.translation import message, tr
from designer.window.parts.flow import FlowLayout
from designer.window.parts.sized_text import smaller

FIGURES = (
    ("original_gravity", message("OG")),
    ("final_gravity", message("FG")),
    ("abv_percent", message("alcohol")),
    ("bitterness_ibu", message("bitter")),
    ("colour_srm", message("colour")),
)

BAND = 0.87
"""The size of a band beside that of its figure."""


class MainFigures(QWidget):
    """A label for each figure, and one for its band where there is to be one."""

    def __init__(self, *, with_bands: bool = False) -> None:
        super().__init__()
        self.figures: dict[str, QLabel] = {}
        self.bands: dict[str, QLabel] = {}
        self._flow = row = FlowLayout(self, across=8 if with_bands else 13, down=3)
        self._columns: list[QWidget] = []
        for key, words in FIGURES:
            title, figure = QLabel(tr(words)), QLabel()
            title.setObjectName("soft")
            bold = figure.font()
            bold.setBold(True)
            figure.setFont(bold)
            self.figures[key] = figure
            labels = [title, figure]
            if with_bands:
                band = self.bands[key] = QLabel()
                band.setObjectName("soft")
                band.setFont(smaller(band.font(), BAND))
                labels.append(band)
            self._columns.append(_column(labels))
            row.addWidget(self._columns[-1])

    def make_room(self, wanted: bool) -> None:
        """Leave the bands out where the figures take more than a line, or show them again."""
        for each in self.bands.values():
            each.setVisible(True)
        one = max((each.sizeHint().height() for each in self._columns), default=0)
        is_tight = wanted and self._flow.heightForWidth(self.width()) > one
        for each in self.bands.values():
            each.setVisible(not is_tight)

    def show_bands(self, texts: dict[str, str]) -> None:
        """Show between which figures each lies in nine brews of ten; nothing where that is open."""
        for key, label in self.bands.items():
            label.setText(texts.get(key, ""))


def _column(labels: list[QLabel]) -> QWidget:
    column = QWidget()
    layout = QVBoxLayout(column)
    layout.setContentsMargins(0, 0, 0, 0)
    layout.setSpacing(0)
    for each in labels:
        layout.addWidget(each)
    return column
