"""Words of open, and of the commands that look something up: convert, catalogue, glossary, guide,
find.
"""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.words.parsing import CommandParser, given
from designer.command_line.words.shared import (
    add_figures,
    add_file,
    add_json,
    add_language,
    add_new_output,
    add_paper,
    format_and_file,
)
from designer.recipe.quantity import Kind
from designer.translation import tr

SCHEMAS = (
    "recipe", "forecast", "styles", "check", "fit", "reading", "design", "convert", "catalogue",
    "glossary", "find", "brews", "log", "beer", "packaging", "learned",
)  # fmt: skip
"""Documents of which there is a schema."""
CONVERTED = [str(kind) for kind in Kind if kind not in (Kind.DOSE, Kind.MONEY, Kind.NUMBER)]
"""Kinds that have units."""


def opening(command: CommandParser) -> None:
    """Add the words of `open`."""
    add_file(command, needed=False, tells=tr("the recipe file"))
    first = command.add_mutually_exclusive_group()
    for option, shown, tells in (
        ("--begin", "doors", tr("show the doors of Begin, whatever was open last")),
        ("--go-on", "recipe", tr("go on with what was open last, whatever was chosen")),
    ):
        first.add_argument(option, dest="first", action="store_const", const=shown, help=tells)
    command.set_defaults(first="")


def schema(command: CommandParser) -> None:
    """Add the words of `schema`."""
    command.add_argument(
        "name",
        nargs="?",
        choices=SCHEMAS,
        default="recipe",
        metavar=tr("NAME"),
        help=tr("which of them, the recipe's if left out: {names}", names=", ".join(SCHEMAS)),
    )


def convert(command: CommandParser) -> None:
    """Add the words of `convert`."""
    command.add_argument(
        "quantity", type=given, metavar='"1.5 stone"', help=tr("as a field of a recipe takes it")
    )
    command.add_argument("unit", type=given, metavar="kg", help=tr("the unit that is wanted"))
    command.add_argument(
        "--kind",
        choices=CONVERTED,
        metavar=tr('"KIND"'),
        help=tr(
            "what is meant where a word means two things; left out, what both words can mean, "
            "EBC and SRM being those of beer: {kinds}",
            kinds=", ".join(CONVERTED),
        ),
    )
    add_json(command, "convert")


def catalogue(command: CommandParser) -> None:
    """Add the words of `catalogue`."""
    _add_words(
        command, "name", tr("NAME"), tr("left out, how good the sources of all are"), "catalogue"
    )
    add_figures(command)


def glossary(command: CommandParser) -> None:
    """Add the words of `glossary`."""
    _add_words(command, "term", tr("TERM"), tr("left out, all terms"), "glossary")


def guide(command: CommandParser) -> None:
    """Add the words of `guide`."""
    command.add_argument(
        "page", type=given, nargs="?", metavar=tr("PAGE"), help=tr("left out, the contents")
    )
    add_new_output(
        command,
        tr("the file to write the whole guide to: .html or .pdf"),
        required=False,
        kinds=("html", "pdf"),
        is_paper=True,
    )
    command.wrong_together = _whole_or_page
    add_paper(command)
    add_language(command)


def _whole_or_page(chosen: Namespace) -> str:
    if chosen.output is not None and chosen.page is not None:
        return tr("-o writes the whole guide; leave PAGE out, or leave -o out to print the page")
    return format_and_file(chosen)


def find(command: CommandParser) -> None:
    """Add the words of `find`."""
    _add_words(
        command,
        "words",
        tr("WORD"),
        tr("left out, all of them; put < and > between quotes: hobwort find 'abv <5'"),
        "find",
    )
    add_figures(command)
    command.told_below = search_grammar


def _add_words(command: CommandParser, name: str, metavar: str, tells: str, schema: str) -> None:
    command.add_argument(name, type=given, nargs="*", metavar=metavar, help=tells)
    add_json(command, schema)


def search_grammar() -> str:
    """Return how recipes are looked for."""
    # Told to few: not loaded with the words of the commands.
    from designer.workbench.box_search import GRAMMAR

    return tr(GRAMMAR)
