"""The day told in words: for a screen reader, above its picture, and beside the pointer."""

from __future__ import annotations

from collections.abc import Iterator

from designer.brewday.cooling import to_put_round
from designer.brewday.time_line import Addition
from designer.recipe.quantity import Kind, Stage
from designer.recipe.when_words import said_when
from designer.translation import named, tr
from designer.window.compose.day_markers import DayMarkers
from designer.window.parts.day_scale import DayScale
from designer.window.parts.display_format import DisplayFormat
from designer.window.session.open_recipe import OpenRecipe
from designer.workbench.day_moves import line_when, may_move
from designer.workbench.day_reading import (
    Marker,
    at_time,
    clock,
    clock_and_day,
    start_minutes,
)
from designer.workbench.day_runs import Run


class DayWords:
    """Says what the picture of a day shows."""

    def __init__(
        self, opened: OpenRecipe, scale: DayScale, display: DisplayFormat, markers: DayMarkers
    ) -> None:
        self._opened, self._scale, self._display = opened, scale, display
        self._markers = markers

    @property
    def start(self) -> int:
        """The clock at which each day starts, in minutes after midnight."""
        return start_minutes(self._opened.recipe.process.start_time)

    def clock(self, run: Run, after_min: float) -> str:
        """Return the clock some minutes after the start of a run."""
        return clock(self.start, run.clock_min + after_min)

    def whole(self, markers: tuple[Marker, ...]) -> str:
        """Return the day in words."""
        return ". ".join(
            said
            for number, run in enumerate(self._scale.runs)
            for said in self._run(run, [each for each in markers if each.run == number])
        )

    def _run(self, run: Run, markers: list[Marker]) -> Iterator[str]:
        if run.name:
            yield run.name
        for each in run.day.spans:
            yield f"{self.clock(run, each.start_min)} {each.label}"
        for marker in markers:
            time = self.clock(run, marker.time_min - run.at_min)
            yield tr("{time} {names} in", time=time, names=marker.names)

    def summary(self, ready: tuple[tuple[float, int], ...]) -> str:
        """Return when the day starts and the yeast goes in, and the ice that a bath takes."""
        runs, first = self._scale.runs, self._scale.runs[0]
        times = ready or tuple(
            (run.clock_min + float(run.day.total_min), run.on_day) for run in runs
        )
        ends = [clock_and_day(self.start, 1440.0 * day + after) for after, day in times]
        begin, end = self.clock(first, 0.0), ", ".join(dict.fromkeys(ends))
        said = tr("starts {begin} · ready for yeast about {end}", begin=begin, end=end)
        ice_kg = to_put_round(sum(float(run.day.fermenter.bath_ice_kg) for run in runs))
        if ice_kg == 0.0:
            return said
        ice = self._display.short(Kind.MASS, ice_kg)
        return tr("{ice} of ice for the bath · {day}", ice=ice, day=said)

    def told(self, marker: Marker) -> str:
        """Return what a marker stands for, an addition a line."""
        run = self._scale.runs[marker.run]
        rows = [run.name] if run.name else []
        for number, each in enumerate(marker.additions):
            time, amount = self.clock(run, each.time_min), self._markers.amount(marker, number)
            rows.append(self._when(run, each, f"{time} {amount} {named(each.name)}".strip()))
        return "\n".join(rows)

    def _when(self, run: Run, addition: Addition, said: str) -> str:
        """Return an addition with the place that it has in the recipe."""
        if addition.boil_left_min is not None:
            left = addition.boil_left_min
            return tr("{addition}, {minutes:g} min left", addition=said, minutes=left)
        when = line_when(run.recipe, addition)
        if when is not None and may_move(addition):
            return tr("{addition}, {when}", addition=said, when=said_when(when.text))
        return said

    def moved(self, marker: Marker, additions: tuple[Addition, ...]) -> str:
        """Return where some additions of a marker now go in: name, minute of the boil, clock."""
        run = self._scale.runs[marker.run]
        when = line_when(run.recipe, additions[0])
        names = ", ".join(named(each.name) for each in additions)
        if when is None:
            return names
        if when.stage is Stage.DRY_HOP:
            return tr("{names}: {when}", names=names, when=said_when(when.text))
        time = self.clock(run, marker.time_min - run.at_min)
        return tr("{names}: {when}, {time}", names=names, when=said_when(when.text), time=time)

    def read_at(self, run: Run, time_min: float) -> str:
        """Return what all curves read at a time; nothing where there are none."""
        moment = at_time(run.day, time_min - run.at_min)
        if moment is None:
            return ""
        read = [
            *([run.name] if run.name else []),
            self.clock(run, moment.time_min),
            self._display.rounded(Kind.VOLUME, moment.pot_volume_l),
            self._display.rounded(Kind.TEMPERATURE, moment.temperature_c),
            self._display.value(Kind.GRAVITY, moment.gravity_sg),
            self._display.rounded(Kind.BITTERNESS, moment.bitterness_ibu),
        ]
        return "  ·  ".join(read)
