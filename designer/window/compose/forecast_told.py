"""What a screen reader is told of the forecast and of what to watch, as the recipe changes."""

from __future__ import annotations

from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QWidget

from designer.brewday.predictions import MAIN
from designer.brewday.results import Finding, Outlook
from designer.recipe.place import Place
from designer.recipe.severity import Severity
from designer.translation import parted, tr
from designer.window.parts.announcing import Rested, announce
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure
from designer.window.session.open_recipe import OpenRecipe

Found = dict[tuple[str, Place], str]
"""Findings in words, by what each is of and about: their figures change with each key."""


class ForecastTold:
    """Tells what differs from what was told last: figures, what is new and what is settled.

    What stops a brewer is told at once. Another recipe is where it begins anew.
    """

    def __init__(self, widget: QWidget, opened: OpenRecipe, display: DisplayFormat) -> None:
        self._widget, self._opened, self._display = widget, opened, display
        self._opening = -1
        self._figures: dict[str, str] = {}
        self._found: Found = {}
        self._rested = Rested(widget, self._what_changed)

    def follow(self, outlook: Outlook) -> None:
        """Hear of another forecast."""
        if not QAccessible.isActive():
            self._opening = -1
            return
        if self._opening != self._opened.opening:
            self._opening = self._opened.opening
            self._figures, self._found = self._read(outlook)
            return
        grave = [each for each in outlook.findings if each.severity is Severity.STOP]
        new = {_of(each): self._said(each) for each in grave if _of(each) not in self._found}
        self._found.update(new)
        if self._widget.isVisible():
            announce(self._widget, " ".join(new.values()), grave=True)
        self._rested.changed()

    def _what_changed(self) -> str:
        figures, found = self._read(self._opened.newest_outlook())
        before, known = self._figures, self._found
        self._figures, self._found = figures, found
        told = ", ".join(text for key, text in figures.items() if text != before.get(key))
        new = [text for of, text in found.items() if of not in known]
        settled = [text for of, text in known.items() if of not in found]
        parts = [
            told,
            *(tr("new: {finding}", finding=each) for each in new),
            *(tr("settled: {finding}", finding=each) for each in settled),
        ]
        return parted(each for each in parts if each)

    def _read(self, outlook: Outlook) -> tuple[dict[str, str], Found]:
        figures = {
            each.key: tr(
                "{forecast} {value}",
                forecast=tr(each.heading),
                value=figure(each.key, outlook.forecasts[each.key].value, self._display),
            )
            for each in MAIN
        }
        return figures, {_of(each): self._said(each) for each in outlook.findings}

    def _said(self, finding: Finding) -> str:
        return finding.message.said(self._display.rounded, self._display.quantity)


def _of(finding: Finding) -> tuple[str, Place]:
    return finding.code, finding.about
