"""What the strip shows of each blank: what was planned, what was typed, what follows now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from designer.recipe.kinds import KINDS
from designer.recipe.quantity import Kind
from designer.sheet.stove import Blank, StoveStep
from designer.translation import tr
from designer.window.parts.display_format import DisplayFormat
from designer.workbench.brew.brewing import Brewing, KeptReading

Place = tuple[str, int, int, float | None]
"""What tells a blank from the others: what is measured, of which boil and fermenter, and when."""


@dataclass(frozen=True, slots=True)
class Cell:
    """One blank. `now` is the difference of what was measured, else what is expected now.

    `changed` tells that what is expected now is another figure than was planned.
    """

    place: Place
    blank: Blank
    step: str
    label: str
    plan: str
    typed: str = ""
    now: str = ""
    changed: bool = False

    @property
    def is_measured(self) -> bool:
        """Whether something was typed."""
        return bool(self.typed)


def place_of(blank: Blank) -> Place:
    """Return what tells a blank from the others."""
    return str(blank.what), blank.boil, blank.fermenter, blank.left_min


def cells_of(
    steps: Iterable[StoveStep],
    planned: Mapping[Place, float],
    brewing: Brewing | None,
    display: DisplayFormat,
) -> tuple[Cell, ...]:
    """Return a cell for each blank of the steps, in their order."""
    return tuple(
        _cell(step, blank, planned.get(place_of(blank), blank.value), brewing, display)
        for step, blank in blanks_of(steps)
    )


def blanks_of(steps: Iterable[StoveStep]) -> Iterator[tuple[StoveStep, Blank]]:
    """Yield each blank once, with the step at which it is read."""
    seen = set()
    for step in steps:
        for blank in step.blanks:
            if place_of(blank) not in seen:
                seen.add(place_of(blank))
                yield step, blank


def figures_of(steps: Iterable[StoveStep]) -> dict[Place, float]:
    """Return the figure of each blank."""
    return {place_of(blank): blank.value for _, blank in blanks_of(steps)}


def _cell(
    step: StoveStep,
    blank: Blank,
    planned: float,
    brewing: Brewing | None,
    display: DisplayFormat,
) -> Cell:
    plan, now = figure(blank.kind, planned, display), figure(blank.kind, blank.value, display)
    label = (
        tr("{blank}, {whose}", blank=blank.label, whose=step.whose) if step.whose else blank.label
    )
    kept = _kept(brewing, blank)
    if kept is not None:
        off = difference(blank.kind, planned, kept.reading.value, display)
        typed = display.with_unit(blank.kind, kept.typed)
        return Cell(place_of(blank), blank, step.key, label, plan, typed, off)
    return Cell(place_of(blank), blank, step.key, label, plan, "", now, changed=now != plan)


def _kept(brewing: Brewing | None, blank: Blank) -> KeptReading | None:
    if brewing is None:
        return None
    return brewing.reading_at(blank.what, blank.boil, blank.fermenter)


def figure(kind: Kind, value: float, display: DisplayFormat) -> str:
    """Return a figure as the strip writes it, short and in one system."""
    return display.short(kind, value)


def difference(kind: Kind, planned: float, read: float, display: DisplayFormat) -> str:
    """Return how far a reading is from the plan, as both are written; in words where it is none."""
    plan, got = figure(kind, planned, display), figure(kind, read, display)
    if plan == got:
        return tr("same")
    sign = "+" if read > planned else "−"
    return f"{sign}{_apart(plan, got, kind)}"


def _apart(one: str, other: str, kind: Kind) -> str:
    """Return the difference of two written figures, with as many decimals and the unit."""
    first, last = _parts(one), _parts(other)
    places = max(len(first[0].partition(".")[2]), len(last[0].partition(".")[2]))
    apart = f"{abs(float(first[0]) - float(last[0])):.{places}f}"
    comma = "," in one or "," in other
    unit = last[1] if kind in KINDS else ""
    return f"{apart.replace('.', ',') if comma else apart}{unit}"


def _parts(text: str) -> tuple[str, str]:
    """Return figure, with a point, and what stands behind it."""
    end = next((n for n, sign in enumerate(text) if sign not in "0123456789.,−-"), len(text))
    return text[:end].replace(",", ".").replace("−", "-"), text[end:]
