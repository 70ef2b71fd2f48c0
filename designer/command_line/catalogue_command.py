"""`hobwort catalogue`: what is known of an ingredient or a style, and where that is from."""

from __future__ import annotations

from argparse import Namespace
from textwrap import wrap
from typing import Any

from designer.command_line.as_chosen import figures_of
from designer.command_line.output import FINE, print_json, print_lines
from designer.library.catalogue import StyleEntry
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.message import refused
from designer.translation import labelled, tr
from designer.units.quoting import one_line
from designer.workbench.catalogue_words import (
    counts,
    entry_lines,
    rows_of,
    title_of,
    was_called,
)
from designer.workbench.figure_sources import Entry

WIDTH = 100


def carry_out(chosen: Namespace) -> int:
    """Print the rows of that name; without one, how good the sources of all rows are."""
    name = one_line(" ".join(chosen.name)).strip()
    if not name:
        _print_counts(as_json=chosen.json)
        return FINE
    found = rows_of(name)
    if not found:
        raise refused(
            "not-in-catalogue",
            "The catalogue has no ingredient or style called “{name}”, and none with such words "
            "in its name. Try one word of it, such as “crystal” or “porter”.",
            name=name,
        )
    if chosen.json:
        print_json({"asked": name, "rows": [_document(*each) for each in found]})
        return FINE
    figures = figures_of(chosen)
    said = was_called(name, found[0][1]) if len(found) == 1 else ""
    lines = [said] if said else []
    for _, entry in found:
        lines += [*([""] if lines else []), *_indented(entry_lines(entry, figures))]
    print_lines(*lines)
    return FINE


def _indented(lines: list[str]) -> list[str]:
    """A name, and below it the rest, no wider than a terminal."""
    return [lines[0], *(line for each in lines[1:] for line in _wrapped(each))]


def _wrapped(text: str) -> list[str]:
    return wrap(
        text,
        WIDTH,
        initial_indent="  ",
        subsequent_indent="    ",
        break_long_words=False,
        break_on_hyphens=False,
    )


def _document(part: str, entry: Entry) -> dict[str, Any]:
    """The figures in base units, with their source; whose the styles are beside theirs."""
    document = {"part": part, **entry._asdict()}
    return {**document, "attribution": STYLE_NUMBERS} if isinstance(entry, StyleEntry) else document


def _print_counts(*, as_json: bool) -> None:
    if as_json:
        print_json({"rows": counts(), "attribution": STYLE_NUMBERS})
        return
    lines = [tr("How good the sources of the catalogue are, in rows of each part:")]
    for part, of in counts().items():
        told = ", ".join(f"{many} {tr(each)}" for each, many in of.items() if many)
        lines.append(f"  {labelled(title_of(part), told)}")
    print_lines(*lines, *_wrapped(STYLE_NUMBERS))
