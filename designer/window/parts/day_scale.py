"""Where times, volumes and temperatures of a day stand in its picture, and how wide its words."""

from __future__ import annotations

from PySide6.QtCore import QRectF
from PySide6.QtGui import QFont, QFontMetricsF

from designer.recipe.fields import number_or_none
from designer.workbench.day_runs import Run

MOST_WIDTHS = 1000
HOTTEST_C = 105.0
LANE_GAP = 16.0
BESIDE_PX = 132.0
"""Room right of the plot, for what its lines are called."""
NAME_ROWS = 2


class Lettering:
    """A font, and how wide texts are in it; most of them come again at each key."""

    def __init__(self, font: QFont) -> None:
        self.font = font
        self.metrics = QFontMetricsF(font)
        self.bold = QFont(font)
        self.bold.setBold(True)
        self._widths: dict[str, float] = {}

    def width_of(self, text: str) -> float:
        """Return how wide a text is."""
        found = self._widths.get(text)
        if found is None:
            if len(self._widths) >= MOST_WIDTHS:
                self._widths.clear()
            found = self._widths[text] = self.metrics.horizontalAdvance(text)
        return found


class DayScale:
    """The plot within a picture, parted into lanes for pots at once.

    While it is `held`, as long as something is dragged in it, a minute keeps its width, although
    the day becomes longer or shorter: what is dragged stays below the pointer.
    """

    def __init__(self) -> None:
        self.runs: tuple[Run, ...] = ()
        self.plot = QRectF()
        self.right = 0.0
        self.lanes = 1
        self.highest_l = self.px_per_min = 1.0
        self.held = False

    def show_runs(self, runs: tuple[Run, ...]) -> None:
        """Be the scale of other boils."""
        self.runs = runs
        self.lanes = 1 + max((run.lane for run in runs), default=0)
        rims = [number_or_none(run.recipe.pot, "volume") or 0.0 for run in runs]
        tallest = [each.pot_volume_l for run in runs for each in run.day.moments]
        self.highest_l = 1.1 * max([*rims, *tallest, 0.1])
        self._scale_time()

    def measure(self, area: QRectF, letters: Lettering) -> None:
        """Find the place of the plot between its scales and names."""
        metrics = letters.metrics
        line = metrics.height()
        scales = 26 + metrics.horizontalAdvance("100 °C") + metrics.horizontalAdvance("00.0 L")
        below = (1 + NAME_ROWS) * line + 12
        self.plot = area.adjusted(scales, line + 6, -BESIDE_PX, -below)
        self.right = area.right()
        self._scale_time()

    def hold(self, held: bool) -> None:
        """Keep the width of a minute, or be again as wide as the day needs."""
        self.held = held
        self._scale_time()

    @property
    def total_min(self) -> float:
        """How long the line is."""
        return max((run.end_min for run in self.runs), default=1.0)

    def _scale_time(self) -> None:
        if not self.held:
            self.px_per_min = self.plot.width() / max(self.total_min, 1.0)

    def x(self, time_min: float) -> float:
        """Return where a time stands."""
        return self.plot.left() + self.px_per_min * time_min

    def time(self, x: float) -> float:
        """Return the time at a place, of those that the line has."""
        return min(max(self.time_beyond(x), 0.0), self.total_min)

    def time_beyond(self, x: float) -> float:
        """Return the time at a place, also before the line and behind it."""
        return (x - self.plot.left()) / max(self.px_per_min, 1e-6)

    def lane(self, run: Run) -> QRectF:
        """The part of the plot that a run is drawn in, as wide as all."""
        if self.lanes == 1:
            return self.plot
        height = (self.plot.height() - LANE_GAP * (self.lanes - 1)) / self.lanes
        top = self.plot.top() + run.lane * (height + LANE_GAP)
        return QRectF(self.plot.left(), top, self.plot.width(), height)

    def run_at(self, time_min: float, y: float) -> Run | None:
        """The run at a place: of several at once that in whose lane it is."""
        there = [run for run in self.runs if run.at_min <= time_min <= run.end_min]
        return next(
            (run for run in there if self.lane(run).bottom() >= y), there[-1] if there else None
        )

    def is_last(self, run: Run) -> bool:
        """Whether no other run stands behind it in its lane."""
        return not any(one.lane == run.lane and one.at_min > run.at_min for one in self.runs)

    def volume_y(self, litres: float, lane: QRectF) -> float:
        """Return the height of a volume."""
        return lane.bottom() - lane.height() * litres / self.highest_l

    def temp_y(self, celsius: float, lane: QRectF) -> float:
        """Return the height of a temperature."""
        return lane.bottom() - lane.height() * min(max(celsius, 0.0), HOTTEST_C) / HOTTEST_C
