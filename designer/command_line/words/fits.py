"""Words of `fit`."""

from __future__ import annotations

from designer.command_line.words.parsing import CommandParser
from designer.command_line.words.shared import (
    add_again,
    add_examples,
    add_figures,
    add_file,
    add_json,
    add_kitchen,
    add_set,
    add_use,
    add_whole_packs,
)
from designer.translation import tr


def fit(command: CommandParser) -> None:
    """Add the words of `fit`."""
    add_file(command)
    add_examples(
        command,
        (
            ("--pot", '"9 L"', tr("the pot; left out, the recipe's own")),
            ("--second-pot", '"7 L"', tr("another pot that boils at once")),
            ("--power", '"2000 W"', tr("what the stove gives")),
            ("--frozen", '"3 kg"', tr("how much water the freezer holds")),
            ("--late", '"50 %"', tr("the most extract to put in late")),
        ),
    )
    add_again(
        command,
        (
            ("--fermenter", '"12 L"', tr("a fermenter in hand; left out, the recipe's own")),
            ("--hop", tr('"NAME, 7.2 %, 50 g"'), tr("a hop in hand: name, alpha acid, amount")),
        ),
    )
    add_whole_packs(command)
    add_figures(command)
    add_json(command, "fit")
    add_use(
        command,
        tr("write the recipe as it is brewed by way N, the `rank` of the JSON; wants -o"),
    )
    add_set(command)
    add_kitchen(command)
