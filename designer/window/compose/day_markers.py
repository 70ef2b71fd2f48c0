"""The additions of the day: a sign where each goes in, and below it what it is."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from designer.recipe.document import Recipe
from designer.recipe.fields import facts_of
from designer.recipe.named import Line, lines_of
from designer.recipe.quantity import Quantity
from designer.translation import isolated, named, trn
from designer.window.parts.day_scale import NAME_ROWS, DayScale, Lettering
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.inks import Inks
from designer.workbench.day_reading import Marker

NAME_OFF_PX = 4.0
"""A name begins no further right of its marker."""
APART_PX = 8.0
FEWEST_LETTERS = 9 * "0"
"""A name that has no room for so much is not begun."""
CHOSEN_PX, USUAL_PX = 7.5, 6.0
MOST_AMOUNTS = 500
"""Most amounts of a recipe come again at each key."""
_ELIDED = Qt.TextElideMode.ElideRight


def shape(lines: str, x: float, y: float, size: float) -> QPolygonF:
    """Hops are diamonds, fermentables triangles, extras squares: not told by colour alone."""
    if lines == "hops":
        corners = [(0, 0), (0.9, -size), (0, -2 * size), (-0.9, -size)]
        return QPolygonF([QPointF(x + dx * size, y + dy) for dx, dy in corners])
    if lines == "fermentables":
        return QPolygonF([QPointF(x, y - 1.8 * size), QPointF(x - size, y), QPointF(x + size, y)])
    half = 0.7 * size
    return QPolygonF(
        [
            QPointF(x - half, y - 2 * half),
            QPointF(x + half, y - 2 * half),
            QPointF(x + half, y),
            QPointF(x - half, y),
        ]
    )


class DayMarkers:
    """Draws the markers of a day, and writes what they are as fully as there is room for."""

    def __init__(self, scale: DayScale, display: DisplayFormat) -> None:
        self._scale, self._display = scale, display
        self.shown: dict[Marker, str] = {}
        self._lines: dict[tuple[int, str], tuple[Recipe, dict[int, Line]]] = {}
        self._amounts: dict[int, tuple[Quantity, str]] = {}

    def draw(
        self,
        painter: QPainter,
        inks: Inks,
        letters: Lettering,
        markers: tuple[Marker, ...],
        chosen: Marker | None,
    ) -> None:
        """Draw all markers, the chosen one larger and its name bold."""
        self.shown = {}
        soft, hops, extract = (QColor(each) for each in (inks.ink_soft, inks.green, inks.wort_edge))
        colours = {"hops": hops, "fermentables": extract}
        first = self._scale.plot.bottom() + 2 * letters.metrics.height() + 6
        rows = [first + row * letters.metrics.height() for row in range(NAME_ROWS)]
        free = dict.fromkeys(rows, -1e9)
        for number, marker in enumerate(markers):
            is_chosen, x = marker is chosen, self.x(marker)
            ink = colours.get(marker.lines, soft)
            painter.setBrush(ink)
            painter.setPen(QPen(QColor(inks.ink), 2) if is_chosen else Qt.PenStyle.NoPen)
            foot = self._scale.lane(self._scale.runs[marker.run]).bottom()
            size = CHOSEN_PX if is_chosen else USUAL_PX
            painter.drawPolygon(shape(marker.lines, x, foot, size))
            painter.setPen(ink)
            painter.setFont(letters.bold if is_chosen else letters.font)
            until = self._until(markers, number)
            self._write(painter, letters, marker, x, free, until, is_bold=is_chosen)

    def x(self, marker: Marker) -> float:
        """Return where a marker stands; while a day grows longer, not beyond the picture."""
        return min(self._scale.x(marker.time_min), self._scale.plot.right() + APART_PX)

    def _until(self, markers: tuple[Marker, ...], number: int) -> float:
        """Return where a name must end, so that those that follow find a row to begin in."""
        after = number + NAME_ROWS
        if after >= len(markers):
            return self._scale.right
        return min(self.x(markers[after]) + NAME_OFF_PX - APART_PX, self._scale.right)

    def _write(
        self,
        painter: QPainter,
        letters: Lettering,
        marker: Marker,
        x: float,
        free: dict[float, float],
        until: float,
        *,
        is_bold: bool,
    ) -> None:
        """Write what a marker stands for into the row that has been free for longest."""
        row = min(free, key=lambda each: free[each])
        start = free[row]
        if start > x + NAME_OFF_PX:
            return  # most of many: what they would say is not even asked
        face = Lettering(letters.bold) if is_bold else letters
        room = max(until - max(start, 0.0), face.width_of(FEWEST_LETTERS))
        text = self._fitting(marker, face, room)
        width = face.width_of(text)
        left = max(min(x - width / 2, until - width), start, 0.0)
        if left > x + NAME_OFF_PX or left + width > self._scale.right:
            return
        painter.drawText(QPointF(left, row), text)
        self.shown[marker] = text
        free[row] = left + width + APART_PX

    def _fitting(self, marker: Marker, face: Lettering, room: float) -> str:
        """Return the fullest of what can be said of a marker that has room."""
        texts = self._texts(marker)
        for text in texts:
            if face.width_of(text) <= room:
                return text
        if len(marker.additions) > 1:
            return texts[-1]
        return face.metrics.elidedText(texts[-1], _ELIDED, room)

    def _texts(self, marker: Marker) -> list[str]:
        """Amounts and names; of several, the first word of each name; then how many they are."""
        many = len(marker.additions)
        parts = [(self.amount(marker, at), named(marker.additions[at].name)) for at in range(many)]
        whole = ", ".join(f"{amount} {name}".strip() for amount, name in parts)
        if many == 1:
            return [whole or marker.names]
        short = ", ".join(f"{amount} {name.partition(' ')[0]}".strip() for amount, name in parts)
        if marker.lines == "hops":
            return [whole, short, trn("{number} hop", "{number} hops", many)]
        return [whole, short, trn("{number} line", "{number} lines", many)]

    def amount(self, marker: Marker, number: int) -> str:
        """Return how much of an addition of a marker goes in, as it was typed."""
        addition = marker.additions[number]
        line = self._lines_of(marker.run, addition.lines).get(addition.line_id)
        if line is None or line.amount is None:
            return ""
        # Of two that are equal one may have been typed here, and is shown as it was typed.
        found = self._amounts.get(id(line.amount))
        if found is None or found[0] is not line.amount:
            if len(self._amounts) >= MOST_AMOUNTS:
                self.say_anew()
            kind = facts_of(type(line), "amount").kind
            found = line.amount, isolated(self._display.to_edit(kind, line.amount))
            self._amounts[id(line.amount)] = found
        return found[1]

    def say_anew(self) -> None:
        """Forget how amounts are said: in other units they read otherwise."""
        self._amounts.clear()

    def _lines_of(self, run: int, lines: str) -> dict[int, Line]:
        """Return a list of the recipe of a run by the ids of its lines."""
        recipe = self._scale.runs[run].recipe
        found = self._lines.get((run, lines))
        if found is None or found[0] is not recipe:
            by_id = {each.line_id: each for each in reversed(lines_of(recipe, lines))}
            found = self._lines[run, lines] = recipe, by_id
        return found[1]
