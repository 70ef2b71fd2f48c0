"""The chosen recipe at a glance: a glass of it, its forecasts with their bands, what goes in."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from designer.brewday.in_words import colour_in_words
from designer.brewday.outlook import look_ahead
from designer.errors import DesignerError
from designer.library.recipe_file import read_document
from designer.recipe.quantity import Kind
from designer.translation import named, tr
from designer.window.box.recipes_model import LONGEST_SHOWN, day_text
from designer.window.parts.background import Latest
from designer.window.parts.beer_glass import BeerGlass
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.parts.main_figures import MainFigures
from designer.window.parts.page_frame import heading, scrolled
from designer.window.parts.weighed_lines import Line, WeighedLines

if TYPE_CHECKING:
    from collections.abc import Sequence

    from designer.brewday.results import Range
    from designer.library.store import RecipeRow, Version, VersionRow
    from designer.recipe.document import Extra, Fermentable, Hop, Recipe

LARGE, GLASS = 1.3, (46, 76)
LEAST_LINES = 52
"""Pixels: two lines of what goes in can be seen at once, however low the window is."""


class Reckoned(NamedTuple):
    """The newest version as it is read, and its forecasts by key."""

    row: int
    recipe: Recipe
    forecasts: dict[str, Range]


class RecipeCard(QWidget):
    """Shows one recipe of the box; what the list does not know comes when it was reckoned."""

    def __init__(self, display: DisplayFormat) -> None:
        super().__init__()
        self._display = display
        self._row: RecipeRow | None = None
        self._made, self._has_room = "", True
        self.glass = BeerGlass(*GLASS)
        self.title, self.about, self.vessels = (_words() for _ in range(3))
        font = self.title.font()
        font.setPointSizeF(LARGE * font.pointSizeF())
        font.setBold(True)
        self.title.setFont(font)
        for soft in (self.about, self.vessels):
            soft.setObjectName("soft")
        self.main = MainFigures(with_bands=True)
        self.lines = WeighedLines()
        self.lines.setAccessibleName(tr("In it goes"))
        self._reckoning = Latest(self)
        self._reckoning.answered.connect(self._show_reckoned)
        self._lay_out()

    def _lay_out(self) -> None:
        names = QVBoxLayout()
        names.setSpacing(2)
        for each in (self.title, self.about, self.vessels):
            names.addWidget(each)
        names.addStretch(1)
        head = QHBoxLayout()
        head.setSpacing(12)
        head.addWidget(self.glass, 0, Qt.AlignmentFlag.AlignTop)
        head.addLayout(names, 1)
        self.goes_in = QWidget()
        below = QVBoxLayout(self.goes_in)
        below.setContentsMargins(0, 0, 0, 0)
        below.setSpacing(2)
        below.addWidget(heading(tr("In it goes")))
        self._seen = scrolled(self.lines)
        self._seen.setMinimumHeight(LEAST_LINES)
        self._seen.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        below.addWidget(self._seen)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(head)
        layout.addWidget(self.main)
        layout.addWidget(self.goes_in)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)

    @property
    def seen(self) -> QScrollArea:
        """What the lines are seen through; it scrolls where they are many."""
        return self._seen

    # what is shown

    def show_recipe(self, row: RecipeRow | None, title: str) -> None:
        """Show what the list knows of a recipe; of none no more than a title."""
        if row is None or self._row is None or row.id != self._row.id:
            self._made = ""
            self.lines.show_lines(())
            self._show_lines()
            self.main.show_bands({})
        self._row = row
        self.title.setText(title)
        for each in (self.glass, self.main):
            each.setVisible(row is not None)
        self._say_about()
        self._say_vessels()
        if row is not None:
            self._show_figures(row)

    def _show_figures(self, row: RecipeRow) -> None:
        for key, label in self.main.figures.items():
            value = row.summary.forecast(key)
            label.setText("" if value is None else figure(key, value, self._display))
        srm = row.summary.srm
        self.glass.setVisible(srm is not None)
        if srm is not None:
            self.glass.show_colour(srm)
            self.glass.setAccessibleName(tr(colour_in_words(srm)))

    def _say_about(self) -> None:
        """Say of which style it is, how much it makes and since when it is here."""
        told: list[str] = []
        if self._row is not None:
            told.append(named(self._row.summary.style))
            litres = self._row.summary.batch_l
            told.append("" if litres is None else self._display.short(Kind.VOLUME, litres))
            srm = self._row.summary.srm
            told.append("" if srm is None else tr(colour_in_words(srm)))
            if self._made and self._has_room:
                told.append(tr("made {day}", day=self._made))
        said = " · ".join(filter(None, told))[:LONGEST_SHOWN]
        self.about.setText(said)
        self.about.setVisible(bool(said))

    def _say_vessels(self) -> None:
        """Say which pots and fermenters it is brewed in, by its plan if it has one."""
        summary = self._row.summary if self._row is not None else None
        said = ""
        if summary is not None and summary.pot and summary.fermenter:
            said = tr(
                "In {pots}, into {fermenters}",
                pots=named(summary.pot),
                fermenters=named(summary.fermenter),
            )
        self.vessels.setText(said[:LONGEST_SHOWN])
        self.vessels.setVisible(bool(said) and self._has_room)

    def show_newest(self, newest: Version, versions: Sequence[VersionRow]) -> None:
        """Show what goes into the newest version, and the bands of its forecasts, once reckoned."""
        self._made = day_text(versions[-1].saved) if versions else ""
        self._say_about()
        self._reckoning.ask(lambda: _reckoned(newest))

    def _show_reckoned(self, found: Reckoned | None) -> None:
        if found is None or self._row is None or found.row != self._row.id:
            return
        self.lines.show_lines(lines_of(found.recipe, self._display))
        self._seen.setMaximumHeight(max(self.lines.heightForWidth(self.lines.width()), 1))
        self._show_lines()
        summary = self._row.summary
        bands = {}
        for key, label in self.main.figures.items():
            band, value = found.forecasts[key], summary.forecast(key)
            # A version that an older program kept may be forecast otherwise today: then the list's
            # figure stands alone, and opening it tells the rest.
            if value is not None and label.text() == figure(key, band.value, self._display):
                bands[key] = self._band(key, band)
        self.main.show_bands(bands)

    def _band(self, key: str, band: Range) -> str:
        ends = [figure(key, end, self._display, unit=False) for end in (band.low, band.high)]
        return tr("{low} to {high}", low=ends[0], high=ends[1])

    def make_room(self, wanted: bool) -> None:
        """Leave the room of all but the main things to what is below, or take it again."""
        if self._has_room == wanted:
            self._has_room = not wanted
            self._say_about()
            self._say_vessels()
        self.main.make_room(wanted)
        self._show_lines()

    def _show_lines(self) -> None:
        self.goes_in.setVisible(self._has_room and bool(self.lines.lines))

    def close_down(self) -> None:
        """Let go of what is still being reckoned, for the end of the program."""
        self._reckoning.wait()


def _words() -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    return label


def _reckoned(newest: Version) -> Reckoned | None:
    """Return a version read and forecast; None where it cannot be read."""
    try:
        recipe = read_document(newest.document, tr("version"))
        return Reckoned(newest.recipe, recipe, look_ahead(recipe).forecasts)
    except DesignerError:
        return None


def lines_of(recipe: Recipe, display: DisplayFormat) -> list[Line]:
    """Return what goes into a recipe, as it is written: fermentables, hops, extras, yeast."""
    lines: list[Fermentable | Hop] = [*recipe.fermentables, *recipe.hops]
    found = [_line(each, Kind.MASS, display) for each in lines]
    found += [_line(each, Kind.DOSE, display) for each in recipe.extras]
    if recipe.yeast.name:
        amount = display.quantity(Kind.DOSE, recipe.yeast.amount)
        found.append(Line(amount, named(recipe.yeast.name)))
    return found


def _line(line: Fermentable | Hop | Extra, kind: Kind, display: DisplayFormat) -> Line:
    words = {"name": named(line.name), "when": display.when(line.when)}
    return Line(display.quantity(kind, line.amount), tr("{name}, {when}", **words))
