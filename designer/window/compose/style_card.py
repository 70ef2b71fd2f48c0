"""The styles that the beer falls in or nearly, below the forecast: what keeps it out, ways in.

A link opens the card, Escape or the link closes it. The card is made when first wanted; a change of
amounts that brings the beer in is sought beside the window.
"""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from designer.library.catalogue import find_style
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.document import Recipe
from designer.translation import message, named, tr
from designer.window.parts.background import Latest
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.reading_order import order_tabs
from designer.window.parts.scrolling import bring_into_view, bring_keyboard_into_view
from designer.window.parts.shown_scale import apart
from designer.window.session.open_recipe import OpenRecipe

if TYPE_CHECKING:
    from designer.brewday.asked_ranges import Miss
    from designer.brewday.bringing_in import BroughtIn
    from designer.library.catalogue import StyleEntry
    from designer.recipe.edits import Edit
    from designer.workbench.styles import StyleFit

SHOWN, ACROSS = 6, 3
CHOSEN, OTHER = message("{style}, chosen"), message("{style}")


class StyleLink(QWidget):
    """The link below the forecast, and below it the card once it was opened."""

    edit_wanted = Signal(object)

    def __init__(
        self, opened: OpenRecipe, display: DisplayFormat, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._opened, self._display = opened, display
        self.card: StyleCard | None = None
        self.link = QPushButton(tr("Which styles is this?"))
        self.link.setObjectName("link")
        self.link.setCheckable(True)
        self.link.setCursor(Qt.CursorShape.PointingHandCursor)
        self.link.setToolTip(tr("The nearest styles, what keeps the beer out, and ways in"))
        self.link.toggled.connect(self._show_card)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(3)
        self._layout.addWidget(self.link, 0, Qt.AlignmentFlag.AlignLeft)

    def open_card(self) -> None:
        """Show the card, and give it the keyboard."""
        self.link.setChecked(True)
        if self.card is not None:
            self.card.take_focus()

    def _show_card(self, wanted: bool) -> None:
        if self.card is None:
            if not wanted:
                return
            self.card = StyleCard(self._opened, self._display, self)
            self.card.edit_wanted.connect(self.edit_wanted)
            self.card.closed.connect(self._close)
            self._layout.addWidget(self.card)
            order_tabs(self.card, self.link)
        self.card.setVisible(wanted)
        if wanted:
            self.card.refresh()
            QTimer.singleShot(0, self.card, self.card.come_into_view)  # once it is laid out

    def _close(self) -> None:
        self.link.setChecked(False)
        self.link.setFocus(Qt.FocusReason.OtherFocusReason)

    def close_down(self) -> None:
        """Await what is sought beside the window, for the end of the program."""
        if self.card is not None:
            self.card.close_down()


class _Row:
    """A style: its name, how the beer stands to it, and two ways to it."""

    def __init__(self, card: StyleCard, grid: QGridLayout, at: int) -> None:
        self.name, self.standing = QLabel(), QLabel()
        for label in (self.name, self.standing):
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setWordWrap(True)
        self.standing.setObjectName("soft")
        self.choose, self.bring = QPushButton(tr("Choose it")), QPushButton(tr("Bring it in"))
        for button in (self.choose, self.bring):
            button.setObjectName("link")
            button.setCursor(Qt.CursorShape.PointingHandCursor)
        self.fit: StyleFit | None = None
        for column, widget in enumerate((self.name, self.choose, self.bring)):
            grid.addWidget(widget, 2 * at, column)
        self.standing.setContentsMargins(0, 0, 0, 4)
        grid.addWidget(self.standing, 2 * at + 1, 0, 1, ACROSS)
        self.choose.clicked.connect(lambda _=False: card.choose(self.fit))
        self.bring.clicked.connect(lambda _=False: card.seek(self.fit))

    def show_fit(self, fit: StyleFit | None, words: str, *, is_chosen: bool, busy: bool) -> None:
        """Show another style; None for none."""
        self.fit = fit
        for widget in (self.name, self.standing, self.choose, self.bring):
            widget.setVisible(fit is not None)
        if fit is None:
            return
        name = named(fit.style.name)
        self.name.setText(tr(CHOSEN if is_chosen else OTHER, style=f"{fit.style.code} {name}"))
        self.standing.setText(words)
        spoken = tr("{style}: {standing}", style=name, standing=words)
        self.choose.setAccessibleName(tr("Choose {style}", style=spoken))
        self.bring.setAccessibleName(tr("Bring it into {style}", style=spoken))
        self.choose.setVisible(not is_chosen)
        self.bring.setVisible(bool(fit.missing))
        self.bring.setEnabled(not busy)


class StyleCard(QFrame):
    """The nearest styles; the chosen one first."""

    edit_wanted = Signal(object)
    sought = Signal()
    closed = Signal()

    def __init__(self, opened: OpenRecipe, display: DisplayFormat, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("card")
        self.setAccessibleName(tr("Styles of this beer"))
        self._opened, self._display = opened, display
        self._sought: tuple[Recipe, StyleEntry] | None = None
        self._seeking = Latest(self)
        self._seeking.answered.connect(self._take)
        grid = QGridLayout(self)
        grid.setContentsMargins(10, 6, 8, 8)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(0)
        grid.setColumnStretch(0, 1)
        self.rows = [_Row(self, grid, at) for at in range(SHOWN + 1)]
        self.said = QLabel()
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setWordWrap(True)
        self.said.hide()
        grid.addWidget(self.said, 2 * SHOWN + 2, 0, 1, ACROSS)
        self.setToolTip(STYLE_NUMBERS)
        self._told_of: Recipe | None = None
        opened.outlook_changed.connect(self.refresh)
        display.settings.changed.connect(self.refresh)

    def take_focus(self) -> None:
        """Give the keyboard to the first button there is."""
        for row in self.rows:
            for button in (row.bring, row.choose):
                if not button.isHidden() and button.isEnabled():
                    button.setFocus(Qt.FocusReason.OtherFocusReason)
                    return

    def come_into_view(self) -> None:
        """Be seen, and above all what has the keyboard."""
        bring_into_view(self)
        bring_keyboard_into_view()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Close the card by Escape."""
        if event.key() == Qt.Key.Key_Escape:
            self.closed.emit()
        else:
            super().keyPressEvent(event)

    def refresh(self) -> None:
        """Show how the beer stands now."""
        if self.isHidden():
            return
        # The catalogue is searched only where somebody asks.
        from designer.workbench.style_words import standing_words
        from designer.workbench.styles import is_beer, ranked, style_fit

        recipe, forecasts = self._opened.recipe, self._opened.outlook.forecasts
        chosen = find_style(recipe.style) if recipe.style else None
        found = list(ranked(forecasts)[:SHOWN]) if is_beer(forecasts) else []
        if chosen is not None and is_beer(forecasts):
            found = [each for each in found if each.style is not chosen]
            found.insert(0, style_fit(forecasts, chosen))
        if self._told_of is not None and self._told_of is not recipe:
            self.tell("")
        if not found:
            self.tell(tr("There is no beer in the recipe yet, so it is in no style."))
        for number, row in enumerate(self.rows):
            fit = found[number] if number < len(found) else None
            words = standing_words(fit, self._difference) if fit is not None else ""
            is_chosen = fit is not None and fit.style is chosen
            row.show_fit(fit, words, is_chosen=is_chosen, busy=self._sought is not None)

    def _difference(self, miss: Miss) -> str:
        """Return by how much a forecast is off, on the scales that are shown."""
        figure = apart(miss.key, miss.value, miss.limit, self._display)
        units = {"abv_percent": "%", "bitterness_ibu": "IBU"}
        if miss.key == "colour_srm":
            units["colour_srm"] = self._display.settings.colour.upper()
        elif self._display.settings.gravity == "plato":
            units |= {"original_gravity": "°P", "final_gravity": "°P"}
        return f"{figure}\u00a0{units.get(miss.key, '')}".rstrip()

    def tell(self, words: str) -> None:
        """Say below the styles what came of a search; "" for nothing."""
        self._told_of = self._opened.recipe if words else None
        self.said.setText(words)
        self.said.setAccessibleName(words)
        self.said.setVisible(bool(words))

    def choose(self, fit: StyleFit | None) -> None:
        """Make a style that of the recipe."""
        # As with the rest of the catalogue.
        from designer.workbench.style_watch import choose

        if fit is not None:
            self.edit_wanted.emit(choose(fit.style))
            self.take_focus()

    def seek(self, fit: StyleFit | None) -> None:
        """Seek what brings the beer into a style."""
        from designer.workbench.style_watch import into_style

        if fit is None:
            return
        self._sought = self._opened.reckoned, fit.style
        self.tell(
            tr("Looking for amounts that bring it into {style} …", style=named(fit.style.name))
        )
        self._seeking.ask(partial(into_style, *self._sought))
        self.refresh()

    def _take(self, answer: tuple[Edit | None, BroughtIn]) -> None:
        """Make the change that was found, if the recipe is still the one it was sought for."""
        from designer.workbench.style_words import brought_words

        if self._sought is None:
            return
        (recipe, style), self._sought = self._sought, None
        edit, found = answer
        if recipe is not self._opened.reckoned:
            self.tell(tr("The recipe was changed meanwhile: ask again."))
        else:
            if edit is not None:
                self.edit_wanted.emit(edit)
            said = brought_words(style, found)
            self.tell(said.said(self._display.rounded, self._display.quantity))
        self.refresh()
        self.take_focus()
        self.sought.emit()

    def close_down(self) -> None:
        """Await what is sought, for the end of the program."""
        self._seeking.wait()
