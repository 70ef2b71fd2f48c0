"""Words of `learned`."""

from __future__ import annotations

from designer.command_line.words.parsing import CommandParser, given
from designer.command_line.words.shared import add_deed, add_figures, add_json, add_number
from designer.translation import tr

LEARNED = ("evaporation", "left_in_pot", "cooling", "steep_yield", "extract_bias", "volume_bias",
           "attenuation", "hydrometer", "wort_correction")  # fmt: skip
"""Codes of the figures that brews teach."""


def learned(command: CommandParser) -> None:
    """Add the words of `learned`."""
    command.set_defaults(does="list", json=False)
    add_json(command, "learned")
    add_figures(command)
    does = command.add_subparsers(
        metavar=tr("take | keep | undo FIGURE [SUBJECT] | leave-out | count BREW FIGURE")
    )
    for name, tells in (
        ("take", tr("write a figure to its pot, fermenter or yeast")),
        ("keep", tr("leave it as it is, and be asked no more until brews say something else")),
        ("undo", tr("put back what was there before it was taken")),
    ):
        added = add_deed(does, name, tells)
        _add_figure(added)
        added.add_argument(
            "subject",
            nargs="?",
            type=given,
            metavar=tr("SUBJECT"),
            help=tr("the name of the pot, the fermenter or the yeast, where there are several"),
        )
    for name, tells in (
        ("leave-out", tr("leave a figure of a brew out of what is learned")),
        ("count", tr("let it count, however odd it is")),
    ):
        added = add_deed(does, name, tells)
        add_number(added, tr("BREW"))
        _add_figure(added)


def _add_figure(command: CommandParser) -> None:
    command.add_argument("figure", choices=LEARNED, metavar=tr("FIGURE"), help=", ".join(LEARNED))
