"""The commands, each with what it does and the module that knows its words.

Nothing is imported here that a command needs: the window, too, is opened through these words.
"""

from __future__ import annotations

from collections.abc import Callable
from importlib import import_module
from typing import NamedTuple

from designer.command_line.words.parsing import CommandParser
from designer.command_line.words.shared import add_quiet
from designer.command_line.words.versions import add_version
from designer.translation import message, tr
from designer.units.pint_units import TABLE_COMMAND


class Command(NamedTuple):
    """What a command does, and what adds its words: a module of `words/` and a function in it."""

    tells: str
    words: str = ""


COMMANDS = {
    "open": Command(
        message("open the window, with a recipe file if one is given"), "lookups.opening"
    ),
    "design": Command(
        message("draft a first recipe of your own from a few answers"), "first_recipes.design"
    ),
    "kit": Command(
        message("type in a kit as its leaflet reads; print how it comes out, or write it"),
        "first_recipes.kit",
    ),
    "forecast": Command(
        message("print what a recipe will give, and what to watch"), "recipes.forecast"
    ),
    "styles": Command(
        message("print the styles a recipe falls in or nearly, or bring it into one"),
        "recipes.styles",
    ),
    "check": Command(message("check a recipe file and say what to watch out for"), "recipes.check"),
    "schema": Command(
        message("print the JSON Schema of recipe files, or of what a command prints as JSON"),
        "lookups.schema",
    ),
    "sheet": Command(
        message("write brew sheets of recipes, as PDF, web page or text"), "sheets.sheet"
    ),
    "fit": Command(
        message("print every way to brew a recipe in the pot and fermenters at hand"), "fits.fit"
    ),
    "convert": Command(message("print a quantity in another unit"), "lookups.convert"),
    "catalogue": Command(
        message("print what is known of an ingredient or a style, and its source"),
        "lookups.catalogue",
    ),
    "glossary": Command(message("print what a term of the trade means"), "lookups.glossary"),
    "guide": Command(
        message("print the guide's contents or a page, or write all of it"), "lookups.guide"
    ),
    "find": Command(message("find recipes in the Recipe box"), "lookups.find"),
    "box": Command(
        message("list, export, import and restore recipes of the Recipe box; print them all"),
        "box.box",
    ),
    "brews": Command(
        message("list the brews of the Recipe box, show a log, or write it out"), "brews.brews"
    ),
    "packaging": Command(
        message("sugar or pressure for a beer, and whether its bottles bear it"),
        "packing.packaging",
    ),
    "reading": Command(
        message("say what an odd gravity reading means, and what to do"), "reading.reading"
    ),
    "learned": Command(
        message("what your brews taught of your kitchen; take it, or leave it"), "learned.learned"
    ),
}
"""Every command, in the order of the help."""
UNLISTED = (TABLE_COMMAND,)
"""For the window alone, which asks itself for it."""


def parser(only: str | None = None) -> CommandParser:
    """Return what reads the words of a command; `command` of its answer is the command's name.

    With `only`, the words of that command alone are known, which is quicker; of the others, what
    they do.
    """
    made = CommandParser(
        prog="hobwort",
        description=tr(
            "Plan a stove-top brew from malt extract and steeping grain. Without a command the "
            "window opens."
        ),
    )
    add_version(made)
    made.set_defaults(command="open", file=None, first="", quiet=False)
    commands = made.add_subparsers(metavar=tr("COMMAND"))
    for name, command in COMMANDS.items():
        tells = tr(command.tells)
        added = commands.add_parser(name, help=tells, description=tells)
        added.set_defaults(command=name, quiet=False)
        add_quiet(added)
        if command.words and only in (None, name):
            _adder(command.words)(added)
    commands.add_parser(TABLE_COMMAND).set_defaults(command=TABLE_COMMAND)
    return made


def _adder(words: str) -> Callable[[CommandParser], None]:
    module, _, name = words.partition(".")
    found: Callable[[CommandParser], None] = getattr(
        import_module(f"designer.command_line.words.{module}"), name
    )
    return found
