"""Words of `reading`."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.words.parsing import CommandParser, given
from designer.command_line.words.shared import (
    add_examples,
    add_fermenter,
    add_figures,
    add_file,
    add_json,
    add_read_off,
    add_set,
)
from designer.translation import tr

OF_A_KIT = ("band", "batch", "pot", "extract")
"""Options that tell of a kit without a recipe."""


def reading(command: CommandParser) -> None:
    """Add the words of `reading`."""
    command.wrong_together = _wrong_together
    add_file(
        command,
        needed=False,
        tells=tr("the recipe file; - reads standard input; left out, a kit is told"),
    )
    add_read_off(command)
    _add_sample(command)
    add_examples(
        command,
        (
            (
                "--pot-volume",
                '"5.5 L"',
                tr("the wort in the pot before topping up, if it was read"),
            ),
            ("--mark", '"10 L"', tr("the level read in the fermenter")),
            ("--hours", "20", tr("hours since the yeast went in, for --when fermenting")),
            ("--in-water", "1.002", tr("what the hydrometer shows in plain water")),
            ("--correction", "1.04", tr("the wort correction of the refractometer")),
            (
                "--band",
                '"1.044 to 1.048"',
                tr("without FILE: the original gravity that the kit prints"),
            ),
            ("--batch", '"20 L"', tr("without FILE: how much beer the kit makes")),
            ("--pot", '"9 L"', tr("without FILE: the pot it is boiled in")),
            ("--extract", '"1 kg + 400 g dry"', tr("without FILE: what is in the kit")),
        ),
    )
    command.add_argument(
        "--answer",
        type=given,
        action="append",
        default=[],
        metavar=tr("TEST=WHAT"),
        help=tr(
            "what a test showed: yes where it reads otherwise or something was found wrong, no "
            'where not; or its figure: stir=1.046, cool=1.041 read again, weigh="10.4 L" or '
            '"10.9 kg" of wort, water_check=1.002, top_and_bottom=12 points; may be given again'
        ),
    )
    add_fermenter(command)
    add_figures(command)
    add_json(command, "reading")
    add_set(command)


def _add_sample(command: CommandParser) -> None:
    command.add_argument(
        "--from",
        dest="drawn",
        choices=("top", "middle", "bottom", "tap", "jar", "unknown"),
        default="unknown",
        help=tr("where the sample was drawn"),
    )
    command.add_argument(
        "--stirred",
        choices=("no", "little", "hard", "poured", "unknown"),
        default="unknown",
        help=tr("how it was mixed before: hard is from the floor up, poured is across and back"),
    )
    command.add_argument(
        "--when",
        choices=("topped-up", "pot", "fermenting"),
        default="topped-up",
        help=tr("when it was read; topped-up unless given"),
    )


def _wrong_together(chosen: Namespace) -> str:
    of_kit = [f"--{each}" for each in OF_A_KIT if getattr(chosen, each) is not None]
    if chosen.file is not None:
        if of_kit:
            return tr("{options}: of a kit without a recipe; leave FILE out", options=of_kit[0])
        return ""
    if chosen.set:
        return tr("--set changes a recipe; name its FILE")
    if chosen.batch is None or (chosen.band is None and chosen.extract is None):
        return tr("name a recipe FILE, or tell of a kit: --batch, with --band or --extract")
    return ""
