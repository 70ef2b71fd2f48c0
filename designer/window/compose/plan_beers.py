"""The beers of a planned recipe beside that of the whole: as written, of a fermenter, of a boil.

Told is only what reads otherwise than the whole.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from designer.brewday.predictions import MAIN
from designer.brewday.results import Day, PlanDays, Range
from designer.translation import tr
from designer.window.parts.display_format import DisplayFormat
from designer.window.parts.figures import figure


def beers_told(
    plan: PlanDays, whole: Mapping[str, Range], written: Day, display: DisplayFormat
) -> str:
    """Return a line for each beer that differs from the whole; nothing where none does."""
    told = {key: figure(key, whole[key].value, display) for key in (each.key for each in MAIN)}

    def line(name: str, value: Callable[[str], float]) -> str:
        other = [
            f"{tr(each.heading)} {text}"
            for each in MAIN
            if (text := figure(each.key, value(each.key), display)) != told[each.key]
        ]
        return tr("{beer}: {figures}", beer=name, figures=", ".join(other)) if other else ""

    computed = {each.key: float(each.compute(written)) for each in MAIN}
    lines = [line(tr("As written"), computed.__getitem__)]
    lines += [
        line(name, lambda key, found=found: found[key].value)  # type: ignore[misc]
        for name, found in _parts(plan)
    ]
    return "\n".join(each for each in lines if each)


def _parts(plan: PlanDays) -> Iterator[tuple[str, Mapping[str, Range]]]:
    """Yield the fermenters, and the boils where they are told by no fermenter of their own."""
    if len(plan.fermenters) > 1:
        for each in plan.fermenters:
            yield tr("Fermenter {number}", number=each.number), each.forecasts
    alone = all(len(each.poured) == 1 for each in plan.fermenters)
    if len(plan.boils) > 1 and not alone:
        for boil in plan.boils:
            yield tr("Boil {number} by itself", number=boil.number), boil.forecasts
