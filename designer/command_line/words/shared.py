"""Options that several commands have."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Sequence
from typing import TypeAlias

from designer.command_line.output import STANDARD
from designer.command_line.words.parsing import CommandParser, given
from designer.spoken_language import LANGUAGES
from designer.translation import tr

Deeds: TypeAlias = "argparse._SubParsersAction[CommandParser]"
"""The words behind the name of a command that does several things."""
UNITS = ("metric", "us", "both")
GRAVITIES = ("sg", "plato")
COLOURS = ("srm", "ebc")
PAPERS = ("a4", "letter")


def add_examples(
    command: argparse._ActionsContainer,
    rows: Iterable[tuple[str, str, str]],
    required: Iterable[str] = (),
) -> None:
    """Add options that take a text, each with an example of it and its help."""
    for name, example, tells in rows:
        command.add_argument(
            name, type=given, required=name in required, metavar=example, help=tells
        )


def add_again(command: CommandParser, rows: Iterable[tuple[str, str, str]]) -> None:
    """Add options as `add_examples` does that may be given again."""
    for name, example, tells in rows:
        command.add_argument(
            name,
            type=given,
            action="append",
            default=[],
            metavar=example,
            help=tr("{what}; may be given again", what=tells),
        )


def add_quiet(command: CommandParser) -> None:
    """Add that nothing is said by the way."""
    command.add_argument(
        "-q",
        "--quiet",
        action="store_true",
        default=argparse.SUPPRESS,
        help=tr("say nothing but what was asked for, and errors"),
    )


def add_file(command: CommandParser, *, needed: bool = True, tells: str = "") -> None:
    """Add the recipe file that a command is about."""
    command.add_argument(
        "file",
        nargs=None if needed else "?",
        type=given,
        metavar=tr("FILE"),
        help=tells or tr("the recipe file; - reads standard input"),
    )


def add_files(command: CommandParser) -> None:
    """Add the recipe files that a command is about, one after the other."""
    command.add_argument(
        "files",
        nargs="+",
        type=given,
        metavar=tr("FILE"),
        help=tr("a recipe file; - reads standard input; each is told by itself"),
    )


def add_deed(does: Deeds, name: str, tells: str) -> CommandParser:
    """Add one of the things that a command does, by a word behind its name."""
    added = does.add_parser(name, help=tells, description=tells)
    added.set_defaults(does=name)
    add_quiet(added)
    return added


def add_number(command: CommandParser, metavar: str = "N") -> None:
    """Add the number of a brew."""
    command.add_argument("number", type=int, metavar=metavar, help=tr("its number in the list"))


def add_fermenter(command: CommandParser) -> None:
    """Add which fermenter is meant."""
    command.add_argument(
        "--fermenter",
        type=int,
        default=1,
        metavar="N",
        help=tr("which one, of several; 1 unless given"),
    )


def add_use(command: CommandParser, tells: str) -> None:
    """Add which of the answers is written; it goes with `-o`."""
    command.add_argument("--use", type=int, metavar="N", help=tells)
    add_recipe_output(command, tr("the recipe file that --use writes"))


def add_output(command: CommandParser, tells: str, *, required: bool = False) -> None:
    """Add the file that a command writes."""
    command.add_argument(
        "-o", "--output", type=given, required=required, metavar=tr("OUT"), help=tells
    )


def add_force(command: CommandParser) -> None:
    """Add that a file which is there is replaced."""
    command.add_argument(
        "--force",
        action="store_true",
        help=tr("replace a file of that name and kind; without it one that is there stays"),
    )


def write_anew(command: CommandParser) -> None:
    """Let what a command prints take the place of what it printed before: it can be made again."""
    command.set_defaults(force=True)


def add_new_output(
    command: CommandParser,
    tells: str,
    *,
    required: bool = True,
    kinds: Sequence[str] = (),
    is_paper: bool = False,
) -> None:
    """Add the file that a command writes, where it can write to standard output too.

    `kinds` are those it can be of, the first where none is told; what `is_paper` is written anew.
    """
    add_output(command, tr("{what}; - writes it to standard output", what=tells), required=required)
    (write_anew if is_paper else add_force)(command)
    if kinds:
        command.add_argument(
            "--format",
            choices=kinds,
            help=tr(
                "with -o -, what to write; {kind} if left out. A file’s name tells it itself",
                kind=kinds[0],
            ),
        )
        command.wrong_together = format_and_file


def format_and_file(chosen: argparse.Namespace) -> str:
    """Return what is wrong with a kind told where a file's name tells it; "" for nothing."""
    if chosen.format is not None and chosen.output != STANDARD:
        return tr("--format goes with -o -; a file’s name tells by its suffix what it is")
    return ""


def add_recipe_output(command: CommandParser, tells: str) -> None:
    """Add the recipe file that a command writes."""
    add_new_output(command, tells, required=False)


def add_json(command: CommandParser, schema: str) -> None:
    """Add that the answer is JSON, of which there is a schema of that name."""
    tells = tr("print JSON; hobwort schema {name} tells its keys", name=schema)
    command.add_argument("--json", action="store_true", help=tells)


def add_units(command: CommandParser, tells: str = "") -> None:
    """Add the units of the answer."""
    command.add_argument(
        "--units",
        choices=UNITS,
        help=_as_chosen(tells or tr("metric or US customary units, or both")),
    )


def add_figures(command: CommandParser) -> None:
    """Add the units and scales of the answer in words; JSON has its own, always the same."""
    add_units(command)
    command.add_argument(
        "--gravity",
        choices=GRAVITIES,
        help=_as_chosen(tr("gravities as specific gravity or in degrees Plato")),
    )
    command.add_argument(
        "--colour", choices=COLOURS, help=_as_chosen(tr("the scale of the beer's colour"))
    )


def _as_chosen(what: str) -> str:
    return tr(
        "{what}; left out, as chosen in the window, else as the system's locale has it", what=what
    )


def add_paper(command: CommandParser) -> None:
    """Add the size of paper."""
    command.add_argument("--paper", choices=PAPERS, help=_as_chosen(tr("the size of paper")))


def add_language(command: CommandParser) -> None:
    """Add the language of what is printed on paper."""
    command.add_argument(
        "--language",
        choices=LANGUAGES,
        help=_as_chosen(tr("the language of what is printed")),
    )


def add_whole_packs(command: CommandParser) -> None:
    """Add that extract is taken as it is sold."""
    command.add_argument(
        "--whole-packs", action="store_true", help=tr("use whole tins and bags of extract")
    )


def add_set(command: CommandParser) -> None:
    """Add changes to a recipe before anything is done with it."""
    command.add_argument(
        "--set",
        type=given,
        action="append",
        default=[],
        metavar=tr('PLACE="TEXT"'),
        help=tr(
            'change a field first, such as process.top_up_to="9 L", hops.1.alpha="6 %" or, of a '
            'plan, boils.1.start_water="6 L" and fermenters.2.from.1.share="40 %"; the name of a '
            'line more than there are, hops.3.name="Fuggle" where there are two, puts one in'
        ),
    )


def add_kitchen(command: CommandParser) -> None:
    """Add that what a kitchen taught fills what a recipe leaves empty."""
    command.add_argument(
        "--kitchen",
        action="store_true",
        help=tr("fill empty fields with what you took of what your kitchen taught"),
    )


def add_read_off(command: CommandParser) -> None:
    """Add what an instrument showed."""
    read = command.add_mutually_exclusive_group(required=True)
    shown = (
        ("--sg", "1.037", tr("what the hydrometer shows, uncorrected")),
        ("--plato", "9.3", tr("the same in °P")),
        ("--brix", "9.6", tr("what a refractometer shows, in °Bx")),
    )
    add_examples(read, shown)
    made_for = tr("what the hydrometer is made for; left out, as the recipe says, else 20 °C")
    add_examples(
        command,
        (
            ("--at", '"24 °C"', tr("how warm the sample was; left out, it was not taken")),
            ("--calibrated", '"20 °C"', made_for),
        ),
    )
