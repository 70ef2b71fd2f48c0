"""`hobwort check`: whether files are sound, and what to watch out for."""

from __future__ import annotations

from argparse import Namespace
from typing import Any

from designer.brewday.results import Finding
from designer.command_line.as_chosen import figures_of
from designer.command_line.kitchen_figures import filled_by_kitchen
from designer.command_line.output import FINE, REFUSED, print_json, print_lines, remark
from designer.command_line.recipes import name_of, read_recipe, told_apart
from designer.recipe.document import Recipe
from designer.recipe.severity import Severity
from designer.translation import tr
from designer.workbench.figures import Figures
from designer.workbench.forecast_document import findings_document
from designer.workbench.forecast_text import finding_line
from designer.workbench.style_watch import outlook_of

FORM = 1
"""Number of the form of the JSON: it grows when a key changes what it holds, or goes."""
GRAVE = (Severity.STOP, Severity.CARE)
"""What `--strict` lets no file pass with."""


def carry_out(chosen: Namespace) -> int:
    """Tell of each file what is found in it, and that it is sound; as lines or as JSON."""
    figures, several = figures_of(chosen), len(chosen.files) > 1
    documents: list[dict[str, Any]] = []

    def tell(file: str) -> tuple[Finding, ...]:
        recipe, _ = filled_by_kitchen(read_recipe(file), wanted=chosen.kitchen)
        findings = outlook_of(recipe, ranges=False).findings
        if chosen.json:
            documents.append(_document(file, recipe, findings))
        else:
            _print(name_of(file), findings, figures, several=several)
        return findings

    def refuse(file: str, problems: tuple[str, ...]) -> None:
        documents.append({"file": file, "sound": False, "problems": list(problems), "findings": []})

    found = told_apart(chosen.files, tell, refuse)
    if chosen.json:
        print_json({"form": FORM, "files": documents})
    if any(findings is None for _, findings in found):
        return REFUSED
    grave = any(each.severity in GRAVE for _, findings in found for each in findings or ())
    return REFUSED if chosen.strict and grave else FINE


def _document(file: str, recipe: Recipe, findings: tuple[Finding, ...]) -> dict[str, Any]:
    told = findings_document(recipe, findings)
    return {"file": file, "sound": True, "problems": [], "findings": told}


def _print(name: str, findings: tuple[Finding, ...], figures: Figures, *, several: bool) -> None:
    """Print what is found in a file, behind its name where there are several."""
    for finding in findings:
        said = finding_line(finding, figures, cures=False)
        print_lines(tr("{path}: {finding}", path=name, finding=said) if several else said)
    if findings:
        remark(tr("{path}: a sound recipe file, {n} to watch out for.", path=name, n=len(findings)))
    else:
        remark(tr("{path}: a sound recipe file, nothing to watch out for.", path=name))
