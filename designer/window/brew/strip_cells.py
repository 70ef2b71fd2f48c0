"""What the strip shows of each blank: what was planned, what was typed, what follows now."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from designer.recipe.kinds import KINDS
from designer.recipe.quantity import Kind
from designer.sheet.stove import Blank, StoveStep
from designer.translation import tr
from designer.window.brew.step_words import BOIL
from designer.window.parts.display_format import DisplayFormat
from designer.window.session.brew_measuring import IN_BOIL
from designer.workbench.brew.blank_places import Place, made_blank, place_of, whole_label
from designer.workbench.brew.brewing import Brewing, KeptReading


@dataclass(frozen=True, slots=True)
class Cell:
    """One blank. `now` is the difference of what was measured, else what is expected now.

    `changed` tells that what is expected now is another figure than was planned. `whole` names the
    blank where its column is not seen.
    """

    place: Place
    blank: Blank
    step: str
    label: str
    whole: str
    plan: str
    typed: str = ""
    now: str = ""
    changed: bool = False

    @property
    def is_measured(self) -> bool:
        """Whether something was typed."""
        return bool(self.typed)


def cells_of(
    steps: Sequence[StoveStep],
    planned: Mapping[Place, float],
    brewing: Brewing | None,
    display: DisplayFormat,
    wanted: Sequence[Place] = (),
) -> tuple[Cell, ...]:
    """Return a cell for each blank of the steps, in their order.

    Behind them stand what else was measured, and what is `wanted` to be.
    """
    own = list(blanks_of(steps))
    known = {place_of(blank) for _, blank in own}
    read = [place_of(each.reading) for each in brewing.readings] if brewing is not None else []
    others = [each for each in dict.fromkeys((*read, *wanted)) if each not in known]
    found = {place_of(blank): (step, blank) for step, blank in further_blanks(steps)}
    more = [found[place] for place in others if place in found]
    return tuple(
        _cell(step, blank, planned.get(place_of(blank), blank.value), brewing, display)
        for step, blank in (*own, *more)
    )


def further_blanks(steps: Sequence[StoveStep]) -> Iterator[tuple[StoveStep, Blank]]:
    """Yield what can be measured beside the blanks of the steps, with the step it belongs to.

    What goes in may be weighed and the alpha acid of its packet told, and a boil read as it goes.
    """
    for step in steps:
        if step.starts is not None and step.starts.name == BOIL:
            for what in IN_BOIL:
                yield step, made_blank(what, boil=step.boil)
        for blank in step.portion_blanks:
            label = blank.label
            if len(step.portions) < 2:
                label = tr("{blank}, {mark}", blank=label, mark=step.mark)
            yield step, replace(blank, label=label)


def blanks_of(steps: Iterable[StoveStep]) -> Iterator[tuple[StoveStep, Blank]]:
    """Yield each blank once, with the step at which it is read."""
    seen = set()
    for step in steps:
        for blank in step.blanks:
            if place_of(blank) not in seen:
                seen.add(place_of(blank))
                yield step, blank


def figures_of(steps: Sequence[StoveStep]) -> dict[Place, float]:
    """Return the figure of each blank, and of what else can be measured."""
    blanks = (*further_blanks(steps), *blanks_of(steps))
    return {place_of(blank): blank.value for _, blank in blanks}


def _cell(
    step: StoveStep,
    blank: Blank,
    planned: float,
    brewing: Brewing | None,
    display: DisplayFormat,
) -> Cell:
    has_plan = bool(blank.forecast)
    plan = figure(blank.kind, planned, display) if has_plan else ""
    now = figure(blank.kind, blank.value, display) if has_plan else ""
    label, whole = _numbered(blank.label, step), _with_whose(whole_label(blank), step.whose)
    kept = _kept(brewing, blank)
    if kept is not None:
        value = kept.reading.value
        off = difference(blank.kind, planned, value, display) if has_plan else ""
        typed = display.with_unit(blank.kind, kept.typed)
        return Cell(place_of(blank), blank, step.key, label, whole, plan, typed, off)
    return Cell(place_of(blank), blank, step.key, label, whole, plan, "", now, changed=now != plan)


def _numbered(label: str, step: StoveStep) -> str:
    """Return the label of a narrow column: of several fermenters or boils with the number alone."""
    if not step.whose:
        return label
    is_of_boil = step.kind == "move" or not step.fermenter  # as `whose` is
    number = step.boil if is_of_boil else step.fermenter
    return tr("{blank} · {number}", blank=label, number=number)


def _with_whose(label: str, whose: str) -> str:
    return tr("{blank}, {whose}", blank=label, whose=whose) if whose else label


def _kept(brewing: Brewing | None, blank: Blank) -> KeptReading | None:
    if brewing is None:
        return None
    line = (blank.lines, blank.line_id)
    return brewing.reading_at(blank.what, blank.boil, blank.fermenter, line)


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
