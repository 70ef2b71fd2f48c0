"""A table with a row for each member of an enumeration has one for a member that is added.

So whoever adds a kind of bottle, a cause or a reading is told by name of all tables that lack it.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from itertools import chain
from pathlib import Path

DESIGNER = Path(__file__).parents[1] / "designer"

NOT_OF = {
    "brewday/explaining/cause_priors.py OF_100_BREWS": "NOTHING_WRONG",
    "brewday/explaining/cause_priors.py OF_100_ODD": "OTHER",
    "brewday/explaining/cause_words.py _TELL": "NOT_MIXED",
    "brewday/explaining/cause_words.py _TITLES": "MISSING_EXTRACT SAMPLE_TEMPERATURE VOLUME",
    "brewday/learning/open_figures.py OPEN": "HYDROMETER WORT_CORRECTION",
    "brewday/measured/advice_ahead.py CLOSED_AFTER": "DRY_HOP",
    "brewday/measured/looks.py _READ": "ALPHA WEIGHT",
    "command_line/kit_command.py ITEMS of values": "MASH_GRAIN",
    "library/pasted/columns.py _WORDS": "OUT",
    "window/begin/welcome_line.py EXAMPLES": "BOTH",
    "window/brew/reading/sample_words.py FROM": "UNKNOWN",
    "window/brew/reading/sample_words.py STIRRED": "UNKNOWN",
    "workbench/brew/where_it_stands.py AFTER of values": "BEFORE",
    "workbench/kit.py USUAL_NAMES": "MASH_GRAIN",
}
"""Tables that lack what they are not asked for, and nothing else."""
OF_SOME = {
    "brewday/explaining/test_words.py _FINDS": "those whose finding has words of its own",
    "brewday/explaining/test_words.py _FINDS_NOT": "the same of what finds nothing",
    "brewday/fermenting/beer_words.py _SAYS": "the rest is said by how the beer stands",
    "brewday/fermenting/beer_words.py _STANDS": "the rest is said by why",
    "brewday/learning/open_figures.py TOLD_ALONG": "those that stand for another input",
    "brewday/malt_doubts.py SOLIDS_OF_MAKERS": "extract",
    "brewday/malt_doubts.py _UNNAMED_YIELD": "what nobody names",
    "brewday/measured/advice_ahead.py CLOSED_AFTER of values": "where something closes",
    "brewday/measured/doubtful.py DECIDED": "what the brewer decides",
    "brewday/measured/slip.py KIND_OF of values": "kinds that are measured",
    "brewday/measured/slips.py UNITS": "kinds whose units are mixed up",
    "library/pasted/columns.py _UNITS": "what has a unit",
    "library/pasted/row_reading.py _FIELDS": "what is a field",
    "recipe/when_words.py _OTHERWISE of values": "other words for some",
    "sheet/buying.py _KEPT": "what is kept in a way of its own",
    "sheet/buying.py _SOLD_AS": "what is sold in packs",
    "sheet/buying.py _SOLD_AS of values": "the packs",
    "units/pint_units.py _RATIOS": "kinds that pint has no word for",
    "units/quick_words.py FACTORS": "kinds that are factors; written by a script",
    "units/reading.py _WHENS of values": "other words for some",
    "units/scales.py SCALE_WORDS": "kinds with scales",
    "units/scales.py _COLOURS": "the two colours",
    "window/brew/reading/figure_panel.py QUESTIONS": "tests that end in a figure",
    "workbench/brew/blank_places.py _WHOLE": "what its label does not tell by itself",
    "workbench/brew/brew_export.py BASE_UNITS": "kinds that are exported",
    "workbench/brew/weighed_wort.py _IS_THERE": "what is weighed",
    "workbench/first_words.py _KINDS of values": "kinds of a first recipe's words",
    "workbench/kit_stated.py _FORMS": "what stands in a kit",
    "workbench/style_words.py _KINDS of values": "kinds of a style",
}
"""Tables that are of some members by what they are."""

_ENUM = re.compile(r"^class (\w+)\((?:Str|Int)?Enum\):\n(.*?)(?=^\S|\Z)", re.M | re.S)
_MEMBER = re.compile(r"^    ([A-Z][A-Z0-9_]*) = ", re.M)
_TABLE = re.compile(r"^(\w+)(?:: [^=\n]+)? = \{\n(.*?)^\}", re.M | re.S)
_KEY = re.compile(r"^    (\w+)\.([A-Z][A-Z0-9_]*): ", re.M)
_VALUE = re.compile(r"^    [^\s{}()\[\]]+: (\w+)\.([A-Z][A-Z0-9_]*),$", re.M)


def sources() -> dict[str, str]:
    return {
        path.relative_to(DESIGNER).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(DESIGNER.rglob("*.py"))
    }


def lacking(texts: dict[str, str]) -> Iterator[tuple[str, frozenset[str]]]:
    """Yield each table of members of an enumeration, and the members that it has not."""
    enums: dict[str, list[frozenset[str]]] = defaultdict(list)
    for name, body in chain.from_iterable(map(_ENUM.findall, texts.values())):
        enums[name].append(frozenset(_MEMBER.findall(body)))
    for file, text in texts.items():
        for name, body in _TABLE.findall(text):
            for pattern, suffix in ((_KEY, ""), (_VALUE, " of values")):
                held: dict[str, set[str]] = defaultdict(set)
                for enum, member in pattern.findall(body):
                    held[enum].add(member)
                for enum, members in held.items():
                    of = [each for each in enums[enum] if members <= each]
                    if of:  # two enumerations may bear one name
                        yield f"{file} {name}{suffix}", min(of, key=len) - members


def test_a_table_of_all_members_lacks_none():
    found = dict(lacking(sources()))
    assert len(found) > 60
    amiss = {
        table: sorted(lacks ^ set(NOT_OF.get(table, "").split()))
        for table, lacks in found.items()
        if table not in OF_SOME and lacks != set(NOT_OF.get(table, "").split())
    }
    assert not amiss
    assert (NOT_OF.keys() | OF_SOME.keys()) - found.keys() == set()
    assert [table for table in OF_SOME if not found[table]] == []
