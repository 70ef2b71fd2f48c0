"""What to watch out for, said in the language of the sheet: at its head, and where it bites."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from designer.brewday.results import Finding
from designer.recipe.fields import number_or_none
from designer.recipe.message import Message
from designer.recipe.severity import Severity
from designer.sheet.blocks import Aside, Paragraph, Section, Step, Words
from designer.sheet.plan import Plan, one_line

SEVERE = (Severity.STOP, Severity.CARE)


def watch_out(plan: Plan, whose: Callable[[Finding], Words] = lambda finding: ()) -> Section | None:
    """Return what to watch out for; None if there is nothing.

    `whose` tells what a finding is about, where that is one of several.
    """
    said = tuple(
        Paragraph((*whose(finding), in_words(plan, finding.message)), finding.severity)
        for finding in plan.outlook.findings
        if finding.severity in SEVERE
    )
    return Section("watch", plan.say("Watch out"), "", said) if said else None


def in_words(plan: Plan, message: Message) -> str:
    """Return a message of the day in the language of the sheet, and in its units."""
    return one_line(message.said(plan.figures.of_kind, look_up=plan.say, name=plan.name_of))


def _start_of(stage: str) -> Callable[[Plan], float]:
    def minute(plan: Plan) -> float:
        return next((span.start_min for span in reversed(plan.spans(stage))), 0.0)

    return minute


def _over_the_rim(plan: Plan) -> float:
    rim = number_or_none(plan.recipe.pot, "volume") or 0.0
    return next((each.time_min for each in plan.day.moments if each.pot_volume_l > rim), 0.0)


def _at_the_start(plan: Plan) -> float:
    return 0.0


_BITES: dict[str, Callable[[Plan], float]] = {
    "pot-overflows": _over_the_rim,
    "no-boil": _start_of("heat to boil"),
    "boils-dry": _start_of("boil"),
    "hot-into-glass": _start_of("move"),
    "all-left-in-pot": _start_of("move"),
    "hops-hold-all": _start_of("move"),
    "fermenter-overflows": _start_of("top up"),
}
"""The minute at which a stop bites; others do as soon as the pot is filled."""
AT_PACKAGING = ("bottle-pressure",)
"""Stops that bite weeks later."""


def with_stops(plan: Plan, steps: Sequence[Step]) -> tuple[Step, ...]:
    """Return the steps of brew day with each stop said again where it bites."""
    made = list(steps)
    for finding in plan.outlook.findings:
        if finding.severity is not Severity.STOP or finding.code in AT_PACKAGING:
            continue
        bites = _BITES.get(finding.code, _at_the_start)(plan)
        at = max((n for n, each in enumerate(made) if each.minutes <= bites + 1e-6), default=0)
        made[at] = _stopped(plan, made[at], finding)
    return tuple(made)


def _stopped(plan: Plan, step: Step, finding: Finding) -> Step:
    return replace(step, asides=(stop(plan, finding), *step.asides))


def stop(plan: Plan, finding: Finding) -> Aside:
    """Return a finding as it stands at the step where the day must not go on so."""
    return Aside("stop", plan.say("Stop: {why}", why=in_words(plan, finding.message)))
