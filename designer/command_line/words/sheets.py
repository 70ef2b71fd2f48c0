"""Words of `sheet`."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.output import STANDARD
from designer.command_line.words.parsing import CommandParser, given
from designer.command_line.words.shared import (
    add_files,
    add_kitchen,
    add_language,
    add_output,
    add_paper,
    add_set,
    add_units,
    write_anew,
)
from designer.translation import tr

FORMATS = ("pdf", "html", "txt")
"""What a sheet can be."""
OWN_ADDRESS = "own"
"""What `--serve` means that names no address."""


def sheet(command: CommandParser) -> None:
    """Add the words of `sheet`."""
    command.wrong_together = _wrong_together
    add_files(command)
    add_output(
        command,
        tr(
            "the file to write, its kind by its suffix: .pdf, .html or .txt; with several recipes, "
            "or where it is one, the folder for a sheet of each; - writes it to standard output"
        ),
    )
    write_anew(command)
    command.add_argument(
        "--format",
        choices=FORMATS,
        help=tr("what to write into a folder or to standard output; PDF if left out"),
    )
    command.add_argument(
        "--html",
        dest="format",
        action="store_const",
        const="html",
        help=tr("write web pages, as --format html does"),
    )
    _add_pocket(command)
    add_paper_wishes(command)
    add_set(command)
    add_kitchen(command)


def add_paper_wishes(command: CommandParser) -> None:
    """Add what every sheet can be asked for: paper, units, day, layout, shop, language."""
    add_paper(command)
    add_units(command)
    command.add_argument("--start", metavar="HH:MM", help=tr("clock time at which the day starts"))
    command.add_argument(
        "--date", metavar=tr("YYYY-MM-DD"), help=tr("brew day; left out, a blank to write it in")
    )
    _add_layout(command)
    command.add_argument(
        "--shop",
        metavar=tr('"NAME"'),
        help=tr("a shop's name at the head; left out, the one given in the window, if any"),
    )
    add_language(command)


def _add_pocket(command: CommandParser) -> None:
    command.add_argument(
        "--pocket",
        action="store_true",
        help=tr("write a page for a phone's browser: steps to tick, timers, blanks to type in"),
    )
    command.add_argument(
        "--serve",
        type=given,
        nargs="?",
        const=OWN_ADDRESS,
        metavar=tr("ADDRESS"),
        help=tr(
            "with --pocket, offer the page in your own network for an hour, at this address of "
            "this machine; left out, the one in its network"
        ),
    )


def _add_layout(command: CommandParser) -> None:
    command.add_argument(
        "--variant",
        choices=("full", "bench"),
        default="full",
        help=tr("the full checklist, or a card of one page for the stove"),
    )
    command.add_argument(
        "--pages",
        type=int,
        choices=(1, 2),
        default=1,
        help=tr("1: as few pages as can be; 2: as large type as two pages allow"),
    )
    command.add_argument("--large", action="store_true", help=tr("large print, on more pages"))


def _wrong_together(chosen: Namespace) -> str:
    if chosen.serve is not None and not chosen.pocket:
        return tr("--serve offers the page of --pocket; give both")
    if chosen.serve is not None and len(chosen.files) > 1:
        return tr("--serve offers the page of one recipe; name one file")
    if chosen.serve is None and chosen.output is None:
        return tr("-o names the file to write; it is missing")
    if chosen.output == STANDARD and len(chosen.files) > 1:
        return tr("-o - writes one sheet to standard output; name one file, or a folder for -o")
    if chosen.output == STANDARD and chosen.serve is not None:
        return tr("--serve says where the page is; -o - would mix both; name a file")
    if chosen.pocket and chosen.format not in (None, "html"):
        return tr("--pocket is a web page; leave --format out")
    return ""
