"""Every sentence of the program, found in its source and in what is declared there.

`tr`, `trn` and `message` mark a sentence by itself, `tr_of` one that has a context, `say`,
`refused`, `no_way` and `doubt` one with an id, `word` and `within` a word that is put into one.
Labels, choices and defaults of the recipe's fields and of the forecasts are declared without marks,
and are all sentences. Those of the brew
sheet are not among them: it has a language and a file of its own, see `tests/sheet/messages.py`.
"""

import ast
import csv
import sys
from dataclasses import fields
from functools import cache
from pathlib import Path

from designer.brewday.fit.draft_way import NAMES
from designer.brewday.predictions import PREDICTIONS
from designer.library.catalogue import aids, fermentables, hops, yeasts
from designer.library.flavours import flavour_entries
from designer.library.glossary import terms
from designer.library.sources import Standing, phrases_of
from designer.library.style_grists import style_families, style_grists
from designer.po_file import IN_CONTEXT
from designer.recipe.document import LINE_TYPES, PART_TYPES, PLAN_TYPES, WortShare
from designer.recipe.kinds import KINDS
from designer.recipe.message import within
from designer.recipe.quantity import Stage
from designer.recipe.severity import Severity
from designer.resource_files import resource_path
from designer.wort.bitterness_methods import BITTERNESS_METHODS
from designer.wort.colour import COLOUR_METHODS
from designer.wort.fermentation import ALCOHOL_METHODS

ROOT = Path(__file__).parents[1]
_SHEETS = (ROOT / "designer" / "sheet", ROOT / "designer" / "paper")
"""What is said there by a sheet's own `say` and `message` is not ours."""
_ALONE = ("tr", "message", "word", "within")
_TEMPLATE_AT = {"say": 1, "refused": 1, "no_way": 2, "doubt": 3}
_SAMPLED = ("absolute", "relative")
"""What is sampled is an input, and told where it makes a forecast doubtful."""
_HEAD = """\
# Sentences of the program. What is in braces is put in.
msgid ""
msgstr ""
"Content-Type: text/plain; charset=UTF-8\\n"
"Content-Transfer-Encoding: 8bit\\n"
"""


@cache
def sentences() -> dict[tuple[str, ...], list[str]]:
    """Return each sentence, with its plural where it has one, and the files that say it.

    The sources are read once for all tests that ask; what is returned is not to be changed.
    """
    found: dict[tuple[str, ...], list[str]] = {}
    for path in sorted((ROOT / "designer").rglob("*.py")):
        for ids in _said(path):
            found.setdefault(ids, []).append(str(path.relative_to(ROOT)))
    for text, path in _declared():
        found.setdefault((text,), []).append(path)
    found.pop(("",), None)
    return found


def _said(path):
    is_ours = path.parent not in _SHEETS
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if not isinstance(node, ast.Call):
            continue
        name = getattr(node.func, "id", "")
        if name in _ALONE and node.args and (is_ours or name == "tr"):
            texts = _texts(node.args[0])
            yield from ((within(text).template if name == "within" else text,) for text in texts)
        elif name == "tr_of":
            yield (IN_CONTEXT.join(str(each.value) for each in node.args),)
        elif name in ("sampled", "sampled_field") or getattr(node.func, "attr", "") in _SAMPLED:
            yield from ((text,) for each in node.args[:2] for text in _texts(each))
        elif name in _TEMPLATE_AT and len(node.args) > _TEMPLATE_AT[name]:
            yield from ((text,) for text in _texts(node.args[_TEMPLATE_AT[name]]))
        elif name == "trn":
            yield tuple(_texts(node.args[0]) + _texts(node.args[1]))


def _texts(node):
    """All texts that an expression may give."""
    if isinstance(node, ast.IfExp):
        return [*_texts(node.body), *_texts(node.orelse)]
    is_text = isinstance(node, ast.Constant) and isinstance(node.value, str)
    return [node.value] if is_text else []


def _declared():
    document = "designer/recipe/document.py"
    for part in (*PART_TYPES.values(), *LINE_TYPES.values(), *PLAN_TYPES.values(), WortShare):
        for each in fields(part):
            facts = each.metadata.get("facts")
            label = facts.label if facts else each.metadata.get("label", "")
            table = each.metadata.get("table")
            if table is not None:
                yield from ((text, document) for text in (table.heading, table.tip) if text)
            if label:
                yield label, document
                yield within(label).template, document
            if facts is not None:
                yield from ((text, document) for text in (facts.default_text, facts.source) if text)
            yield from ((choice, document) for choice in each.metadata.get("choices", ()))
    yield from _in_tables()
    for each in terms():
        yield from ((text, "resources/glossary.csv") for text in (each.term, each.names) if text)
        yield each.meaning, "resources/glossary.csv"
    yield from ((each.name, "resources/flavours.csv") for each in flavour_entries())
    for source in _sources():
        yield from ((text, "designer/library/sources.py") for text in phrases_of(source))


def _in_tables():
    for name in ("packs_metric.csv", "packs_us.csv"):
        with resource_path(name).open(encoding="utf-8", newline="") as file:
            yield from ((row["label"], f"resources/{name}") for row in csv.DictReader(file))
    for name in NAMES.values():
        yield within(name).template, "designer/brewday/fit/draft_way.py"
    for standing in Standing:
        yield str(standing), "designer/library/sources.py"
    for severity in Severity:
        yield str(severity), "designer/recipe/severity.py"
    for stage in Stage:
        yield str(stage), "designer/recipe/quantity.py"
    for kind, known in KINDS.items():
        yield kind.value, "designer/recipe/quantity.py"
        yield known.accepted, "designer/recipe/kinds.py"
    for each in PREDICTIONS:
        yield each.label, "designer/brewday/predictions.py"
        yield each.title, "designer/brewday/predictions.py"
        yield each.source, "designer/brewday/predictions.py"
        yield within(each.plain).template, "designer/brewday/predictions.py"
    for methods in (BITTERNESS_METHODS, COLOUR_METHODS, ALCOHOL_METHODS):
        for method in methods.values():
            yield method.source, "designer/wort/method.py"


def _sources():
    """The sources of all rows of the catalogue but of the styles, which tell whose they are."""
    tables = (fermentables, hops, yeasts, aids, style_families, style_grists, flavour_entries)
    return dict.fromkeys(row.source for rows in tables for row in rows())


def template() -> str:
    """Return the `.pot` file: all sentences, none of them translated."""
    entries = []
    found = sentences()
    counted = {ids[0] for ids in found if len(ids) > 1}
    for ids, places in sorted(found.items(), key=_by_message):
        if len(ids) == 1 and ids[0] in counted:
            continue  # a catalogue has a message once
        context, _, one = ids[0].rpartition(IN_CONTEXT)
        lines = [f"#: {' '.join(dict.fromkeys(places))}"]
        lines += [f"msgctxt {_quoted(context)}"] if context else []
        lines.append(f"msgid {_quoted(one)}")
        if len(ids) == 1:
            lines.append('msgstr ""')
        else:
            lines += [f"msgid_plural {_quoted(ids[1])}", 'msgstr[0] ""', 'msgstr[1] ""']
        entries.append("\n".join(lines))
    return _HEAD + "\n" + "\n\n".join(entries) + "\n"


def _by_message(entry):
    context, _, one = entry[0][0].rpartition(IN_CONTEXT)
    return one, context, entry[0][1:]


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'


def listed():
    """Yield every string of window, command line and sheet, a line each: to be read through."""
    from tests.sheet.messages import messages

    for title, strings in (
        ("The program", [" | ".join(ids).replace(IN_CONTEXT, ": ") for ids in sorted(sentences())]),
        ("The brew sheet", [" | ".join(ids) for ids in sorted(messages())]),
    ):
        yield f"# {title}: {len(strings)}"
        yield from (" ".join(each.split()) for each in strings)


if __name__ == "__main__":
    sys.stdout.writelines(f"{line}\n" for line in listed())
