"""`hobwort check`: whether a file is sound, and what to watch out for."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.kitchen_figures import filled_by_kitchen
from designer.command_line.output import FINE, print_lines
from designer.command_line.recipes import read_recipe
from designer.translation import tr
from designer.units.quoting import one_line
from designer.workbench.style_watch import outlook_of


def carry_out(chosen: Namespace) -> int:
    """Print the findings of a recipe, a line each, and that its file is sound."""
    recipe, _ = filled_by_kitchen(read_recipe(chosen.file), wanted=chosen.kitchen)
    findings = outlook_of(recipe, ranges=False).findings
    for finding in findings:
        print_lines(f"{tr(finding.severity)}: {one_line(finding.message.text)}")
    said = (
        tr("{path}: a sound recipe file, {n} to watch out for.", path=chosen.file, n=len(findings))
        if findings
        else tr("{path}: a sound recipe file, nothing to watch out for.", path=chosen.file)
    )
    print_lines(said)
    return FINE
