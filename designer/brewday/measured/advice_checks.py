"""What no advice may bring: something grave to watch out for, or a vessel that is fuller still."""

from __future__ import annotations

from designer.brewday.results import Finding, Outlook
from designer.recipe.place import Place
from designer.recipe.severity import Severity

FULL_POT = frozenset({"pot-overflows", "foam-room"})
FULL_FERMENTER = frozenset({"fermenter-overflows", "krausen-room"})
"""What is found where a vessel is too full, by its code."""


def is_worse(before: Outlook, after: Outlook) -> bool:
    """Whether something grave comes, or a vessel that is too full already is filled further."""
    worst = {_place(each): each.severity.rank for each in _grave(before)}
    for each in _grave(after):
        place = _place(each)
        if place not in worst or each.severity.rank < worst[place]:
            return True
    return _is_fuller(before, after, {code for code, _ in worst})


def _grave(outlook: Outlook) -> list[Finding]:
    return [each for each in outlook.findings if each.severity is not Severity.NOTE]


def _place(finding: Finding) -> tuple[str, Place]:
    return finding.code, finding.about


def _is_fuller(before: Outlook, after: Outlook, codes: set[str]) -> bool:
    (pot_was, fermenter_was), (pot, fermenter) = _fullest(before), _fullest(after)
    in_pot = codes & FULL_POT and pot > pot_was + 1e-6
    return bool(in_pot or (codes & FULL_FERMENTER and fermenter > fermenter_was + 1e-6))


def _fullest(outlook: Outlook) -> tuple[float, float]:
    """Return the most that a boiling pot holds, and a fermenter, litres."""
    if outlook.plan is None:
        day = outlook.day
        return float(day.pot.fullest_boiling_l), float(day.fermenter.batch_l)
    return (
        max(float(each.day.pot.fullest_boiling_l) for each in outlook.plan.boils),
        max(each.total_l for each in outlook.plan.fermenters),
    )
