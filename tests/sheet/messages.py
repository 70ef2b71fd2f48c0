"""All messages of the sheet, read out of the sources that say them."""

from __future__ import annotations

import ast
from functools import cache
from pathlib import Path

from designer.brewday.findings_lines import NAMELESS
from designer.brewday.predictions import MAIN
from designer.brewday.time_line import STAGES
from designer.recipe.document import BOTTLES, LINE_TYPES
from designer.recipe.fields import table_fields
from designer.recipe.severity import Severity
from designer.sheet.watching import SEVERE

ROOT = Path(__file__).parents[2]
SOURCES = (
    *sorted((ROOT / "designer" / "sheet").rglob("*.py")),
    *sorted((ROOT / "designer" / "paper").glob("*.py")),
    ROOT / "designer" / "brewday" / "in_words.py",
)
FINDINGS = sorted((ROOT / "designer" / "brewday").glob("findings_*.py"))
SAYING = ("say", "words", "message")
_HEAD = """\
# Messages of the brew sheet. Words between stars stand out; what is in braces is put in.
msgid ""
msgstr ""
"Content-Type: text/plain; charset=UTF-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
"""


@cache
def messages() -> dict[tuple[str, ...], list[str]]:
    """Return each message, with its plural where it has one, and where it is said.

    The sources are read once for all tests that ask; what is returned is not to be changed.
    """
    found: dict[tuple[str, ...], list[str]] = {}
    for path in SOURCES:
        for ids, line in _said(path):
            found.setdefault(ids, []).append(f"{path.relative_to(ROOT)}:{line}")
    for text in (NAMELESS.template, *STAGES):
        found.setdefault((text,), []).append("designer/brewday/results.py:1")
    for text, module in _declared():
        found.setdefault((text,), []).append(f"{module}:1")
    for path in FINDINGS:
        for text, line in _findings(path):
            found.setdefault((text,), []).append(f"{path.relative_to(ROOT)}:{line}")
    return found


def _declared():
    """What forecasts and ingredients are called on the sheet."""
    for each in MAIN:
        yield each.on_sheet or each.label, "designer/brewday/predictions.py"
    for text in BOTTLES:
        yield text, "designer/recipe/choices.py"
    for of in LINE_TYPES.values():
        for _, table in table_fields(of):
            if table.on_sheet:
                yield table.on_sheet, "designer/recipe/document.py"


def _said(path):
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "attr", getattr(node.func, "id", ""))
        texts = [each.value for each in node.args if _is_text(each)]
        if name == "say" and len(texts) > 1:
            continue  # a message of the program, with its id: refused before there is a sheet
        if name in SAYING and node.args and _is_text(node.args[0]):
            yield (texts[0],), node.lineno
        elif name in ("count", "plural") and len(texts) == 2:
            yield (texts[0], texts[1]), node.lineno


def _is_text(node):
    return isinstance(node, ast.Constant) and isinstance(node.value, str)


def _findings(path):
    """Messages of findings that the sheet shows."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "doubt":
            severities = set(_severities(node.args[0]))
            if severities.intersection(SEVERE):
                for text in _texts(node.args[3]):
                    yield text, node.lineno


def _severities(node):
    """All severities that an expression may give."""
    return [
        Severity[each.attr]
        for each in ast.walk(node)
        if isinstance(each, ast.Attribute) and getattr(each.value, "id", "") == "Severity"
    ]


def _texts(node):
    """All texts that an expression may give; none of those put together with names."""
    if isinstance(node, ast.IfExp):
        return [*_texts(node.body), *_texts(node.orelse)]
    return [node.value] if _is_text(node) else []


def template() -> str:
    """Return the `.pot` file: all messages, none of them translated."""
    entries = []
    for ids, places in messages().items():
        files = dict.fromkeys(place.rpartition(":")[0] for place in places)
        lines = [f"#: {' '.join(files)}", f"msgid {_quoted(ids[0])}"]
        if len(ids) == 1:
            lines.append('msgstr ""')
        else:
            lines += [f"msgid_plural {_quoted(ids[1])}", 'msgstr[0] ""', 'msgstr[1] ""']
        entries.append("\n".join(lines))
    return _HEAD + "\n" + "\n\n".join(entries) + "\n"


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
