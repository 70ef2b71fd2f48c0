"""What to watch out for, said in the language of the sheet."""

from __future__ import annotations

from designer.recipe.message import Message
from designer.recipe.severity import Severity
from designer.sheet.blocks import Paragraph, Section
from designer.sheet.plan import Plan, name_of, one_line

SEVERE = (Severity.STOP, Severity.CARE)


def watch_out(plan: Plan) -> Section | None:
    """Return what to watch out for; None if there is nothing."""
    said = tuple(
        Paragraph((in_words(plan, finding.message),), finding.severity)
        for finding in plan.outlook.findings
        if finding.severity in SEVERE
    )
    return Section("watch", plan.say("Watch out"), "", said) if said else None


def in_words(plan: Plan, message: Message) -> str:
    """Return a message of the day in the language of the sheet, and in its units."""
    return one_line(message.said(plan.figures.of_kind, look_up=plan.say, name=name_of))
