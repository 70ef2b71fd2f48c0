"""Words of `packaging`, and those that a brew's packaging has too."""

from __future__ import annotations

from designer.command_line.words.parsing import CommandParser
from designer.command_line.words.shared import add_again, add_examples, add_json, add_units
from designer.translation import tr

PRIMED_WITH = ("sugar", "dextrose", "anhydrous", "extract", "honey")
"""Words of `--sugar`."""


def packaging(command: CommandParser) -> None:
    """Add the words of `packaging`."""
    command.add_argument(
        "--finished",
        choices=("yes", "no"),
        default="no",
        help=tr(
            "whether two readings some three days apart agreed within 0.001; unless it is yes, "
            "nothing is bottled"
        ),
    )
    add_packing(command, required=("--beer", "--warmest"))
    add_json(command, "packaging")


def add_packing(command: CommandParser, required: tuple[str, ...] = ()) -> None:
    """Add what is known of a beer that is packaged, and how it is to be."""
    fizz = tr(
        "volumes of gas that are wanted, or soft, usual, lively, sparkling, or a style; left out, "
        "as the recipe says, or usual"
    )
    add_examples(
        command,
        (
            ("--beer", '"9.6 L"', tr("how much beer there really is")),
            ("--fizz", "2.3", fizz),
            ("--warmest", '"21 °C"', tr("the warmest it was since it fermented out")),
        ),
        required,
    )
    add_bottles(command)
    command.add_argument("--sugar", choices=PRIMED_WITH, help=tr("what to prime with"))
    command.add_argument(
        "--keg", action="store_true", help=tr("into a keg, with pressure, no sugar")
    )
    add_examples(command, [("--keg-temperature", '"6 °C"', tr("how cold the keg stands"))])
    add_again(command, [("--tick", tr("CODE"), tr("a caution that you have read and see to"))])
    add_units(command)


def add_bottles(command: CommandParser) -> None:
    """Add the bottles that a beer goes into."""
    counted = tr(
        "how many of which size and kind: heavy, swing-top, plastic, sparkling, wine, jar; without "
        "a number they are counted to fit, without a kind they are of the weakest"
    )
    add_examples(command, [("--bottles", '"12 x 500 mL + 4 x 750 mL heavy"', counted)])
