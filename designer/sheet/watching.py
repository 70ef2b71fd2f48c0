"""What to watch out for, said in the language of the sheet.

Findings are written in English with `{0}`, `{1}` for their figures, and some with the name of a
line or of a stage within. Those are taken out again, so that one translation serves all names.
"""

from __future__ import annotations

from designer.brewday.results import Finding
from designer.sheet.blocks import Paragraph, Section
from designer.sheet.language import message
from designer.sheet.plan import Plan, name_of, one_line

SEVERE = ("stop", "care")
STAGES = (
    message("fill"), message("heat water"), message("heat to boil"), message("steep"),
    message("lift"), message("extract in"), message("boil"),
    message("flame-out"), message("stand"), message("cool"),
)  # fmt: skip
NAMING = (
    message("{name} has no amount yet and counts as nothing."),
    message(
        "{name} must be mashed: a steep gives {0} of extract from a kilogram, and haze. Take malt "
        "extract in its place."
    ),
    message("The alpha acid of {name} is not known; {0} is taken. It stands on the packet."),
    message("{name} with {0} of alpha acid: no hop has above {1}. Look at the packet again."),
)
STAGED = (
    message(
        "{0} in the pot will not fit its {1} ({stage}). Start with less water and top up in the "
        "fermenter, or take a larger pot."
    ),
)
"""Findings that hold a name or a stage, which are put in again after translation."""
_NO_NAME = message("A line without a name")


def watch_out(plan: Plan) -> Section | None:
    """Return what to watch out for; None if there is nothing."""
    said = tuple(
        Paragraph((finding_text(plan, finding),), finding.severity)
        for finding in plan.outlook.findings
        if finding.severity in SEVERE
    )
    return Section("watch", plan.say("Watch out"), "", said) if said else None


def finding_text(plan: Plan, finding: Finding) -> str:
    """Return a finding in the language of the sheet; in English where it has no translation."""
    template, parts = _without_names(plan, finding)
    figures = (plan.figures.of_kind(kind, value) for kind, value in finding.figures)
    return one_line(plan.language.say(template, *figures, **parts))


def _without_names(plan: Plan, finding: Finding) -> tuple[str, dict[str, str]]:
    typed = _name_of_line(plan, finding.about)
    found = typed.replace("{", "(").replace("}", ")") or _NO_NAME
    for each in NAMING:
        if each.replace("{name}", found) == finding.template:
            return each, {"name": name_of(typed) or plan.say(_NO_NAME)}
    for each in STAGED:
        for stage in STAGES:
            if each.replace("{stage}", stage) == finding.template:
                return each, {"stage": plan.say(stage)}
    return finding.template, {}


def _name_of_line(plan: Plan, about: str) -> str:
    lines, _, line_id = about.partition(".")
    if lines not in ("fermentables", "hops", "extras"):
        return ""
    named = (each for each in getattr(plan.recipe, lines) if str(each.line_id) == line_id)
    return next((str(each.name) for each in named), "")
