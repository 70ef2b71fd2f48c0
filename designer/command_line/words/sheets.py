"""Words of `sheet`."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.words.parsing import CommandParser, given
from designer.command_line.words.shared import (
    add_kitchen,
    add_language,
    add_output,
    add_paper,
    add_set,
    add_units,
)
from designer.translation import tr

OWN_ADDRESS = "own"
"""What `--serve` means that names no address."""


def sheet(command: CommandParser) -> None:
    """Add the words of `sheet`."""
    command.wrong_together = _wrong_together
    command.add_argument("files", type=given, metavar=tr("FILE"), nargs="+", help=tr("the recipe"))
    add_output(
        command,
        tr(
            "the file to write, its kind by its suffix: .pdf, .html or .txt; with several recipes, "
            "or where it is one, the folder for a sheet of each"
        ),
    )
    command.add_argument("--html", action="store_true", help=tr("write web pages instead of PDF"))
    _add_pocket(command)
    add_paper(command)
    add_units(command)
    command.add_argument("--start", metavar="HH:MM", help=tr("clock time at which the day starts"))
    command.add_argument(
        "--date", metavar=tr("YYYY-MM-DD"), help=tr("brew day; left out, a blank to write it in")
    )
    _add_layout(command)
    command.add_argument(
        "--shop", metavar=tr('"NAME"'), default="", help=tr("a shop's name at the head")
    )
    add_language(command)
    add_set(command)
    add_kitchen(command)


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
    return ""
