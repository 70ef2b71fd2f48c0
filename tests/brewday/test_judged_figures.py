"""Every figure that the day and its readings are judged by, in agreed tables: none moves unnoticed.

How often a cause is behind an odd reading, how large it is, what a test shows, how long a beer is
left: most of it is judgement, and nothing outside could say whether 0.85 or 0.9 is right. So it
stands twice, in the code and in a table, with what the sentence below it, or else its module, calls
its source; nothing where neither names one, as for steps and numbers of draws of a search. A doubt
and a forecast tell their own. What is taken where nobody told another stands there too.
`--update-golden` writes the tables anew: read the difference like code, and say in the commit why a
figure changed.
"""

import ast
import importlib
import pkgutil
from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from math import inf
from pathlib import Path

import pytest

from designer import brewday
from designer.brewday import explaining, fermenting, first, learning, measured, packaging

GOLDEN = Path(__file__).parents[1] / "golden"
PACKAGES = (brewday, first, explaining, measured, learning, fermenting, packaging)
OF_ALL = ("judgement", "common practice, no source")
"""Sources that a module may name for all its figures; others it names are of its equations."""
OF_ONE = (*OF_ALL, "from memory", "definition", "guess")


def figures_in(value, name, told=None):
    """Yield the figures within a constant, each with the way that leads to it, and its source.

    What has a source of its own is told once, though it stands in several tables.
    """
    told = {} if told is None else told
    if isinstance(source := getattr(value, "source", None), str):
        if id(value) in told:
            return
        told[id(value)] = value
        yield f"{name}.source", source
    if isinstance(value, bool | int | float) and abs(value) != inf:
        yield name, f"{value:.12g}" if isinstance(value, float) else str(value)
    elif isinstance(value, Mapping):
        for key, each in value.items():
            yield from figures_in(each, f"{name}[{key}]", told)
    elif isinstance(value, tuple):
        steps = [f".{each}" for each in getattr(value, "_fields", ())]
        for number, each in enumerate(value):
            yield from figures_in(each, name + (steps[number] if steps else f"[{number}]"), told)
    elif is_dataclass(value) and not isinstance(value, type):
        for each in fields(value):
            yield from figures_in(getattr(value, each.name), f"{name}.{each.name}", told)


def source_in(text, sources):
    """Return which of some sources a text names."""
    flat = " ".join((text or "").split()).lower()
    return ", ".join(each for each in sources if each in flat)


def sentence_below(statements, number):
    """Return the sentence that stands below a constant."""
    below = statements[number + 1] if number + 1 < len(statements) else None
    told = isinstance(below, ast.Expr) and isinstance(below.value, ast.Constant)
    return str(below.value.value) if told else ""


def is_memory(value):
    """Whether it begins empty, to keep what was worked out."""
    return isinstance(value, ast.Dict) and not value.keys


def table_of(module):
    """Yield a line for each figure of a module."""
    statements = ast.parse(Path(module.__file__).read_text("utf-8")).body
    of_all, told = source_in(module.__doc__, OF_ALL), {}
    for number, each in enumerate(statements):
        if isinstance(each, ast.ClassDef):
            kind = getattr(module, each.name)
            for one in fields(kind) if is_dataclass(kind) else ():
                if one.default is not MISSING:
                    for way, figure in figures_in(one.default, f"{kind.__name__}.{one.name}"):
                        yield f"{way} = {figure}"
        if isinstance(each, ast.Assign | ast.AnnAssign) and not is_memory(each.value):
            source = source_in(sentence_below(statements, number), OF_ONE) or of_all
            to = each.targets if isinstance(each, ast.Assign) else [each.target]
            for name in (one.id for all_ in to for one in ast.walk(all_) if hasattr(one, "id")):
                for way, figure in figures_in(getattr(module, name), name, told):
                    own = source and not way.endswith(".source")
                    yield f"{way} = {figure}" + (f"  ({source})" if own else "")


@pytest.mark.parametrize("package", PACKAGES, ids=lambda each: each.__name__.rpartition(".")[2])
def test_no_figure_moves_unnoticed(package, update_golden):
    """Each against the table that was agreed: judgement, where no other source is named."""
    made = []
    for each in pkgutil.iter_modules(package.__path__, f"{package.__name__}."):
        if figures := list(table_of(importlib.import_module(each.name))):
            made += ["", each.name.removeprefix("designer.brewday."), *figures]
    path = GOLDEN / f"figures-{package.__name__.rpartition('.')[2]}.txt"
    if update_golden:
        path.write_text("\n".join([*made[1:], ""]), encoding="utf-8")
    assert made[1:] == path.read_text(encoding="utf-8").splitlines()
