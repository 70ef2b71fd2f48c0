"""Words of the commands that tell about a recipe: forecast, styles, check."""

from __future__ import annotations

from designer.command_line.words.parsing import CommandParser, given
from designer.command_line.words.shared import (
    add_figures,
    add_file,
    add_files,
    add_json,
    add_kitchen,
    add_recipe_output,
    add_set,
)
from designer.translation import tr


def forecast(command: CommandParser) -> None:
    """Add the words of `forecast`."""
    add_files(command)
    add_figures(command)
    add_json(command, "forecast")
    add_set(command)
    add_kitchen(command)
    command.add_argument(
        "--what-if",
        type=given,
        nargs="+",
        action="append",
        default=[],
        metavar=tr('PLACE="TEXT"'),
        help=tr(
            "a variant with these fields changed, beside the recipe as it is; may be given up to "
            "three times"
        ),
    )


def styles(command: CommandParser) -> None:
    """Add the words of `styles`."""
    add_file(command)
    command.add_argument(
        "--all", action="store_true", help=tr("every style, not the nearest six alone")
    )
    add_figures(command)
    add_json(command, "styles")
    command.add_argument(
        "--bring-in",
        type=given,
        metavar=tr("STYLE"),
        help=tr(
            "find the smallest change of amounts and water that brings it into a style, by its "
            "name or code; with -o it is written"
        ),
    )
    add_recipe_output(command, tr("the recipe file that --bring-in writes"))
    add_set(command)


def check(command: CommandParser) -> None:
    """Add the words of `check`."""
    add_files(command)
    command.add_argument(
        "--strict",
        action="store_true",
        help=tr("end with 1, too, if anything is found that is graded care or stop; notes pass"),
    )
    add_figures(command)
    add_json(command, "check")
    add_kitchen(command)
