"""Words of the commands that make a recipe: design and kit."""

from __future__ import annotations

from designer.command_line.words.parsing import CommandParser, given
from designer.command_line.words.shared import (
    add_again,
    add_examples,
    add_figures,
    add_json,
    add_recipe_output,
    add_units,
    add_use,
    add_whole_packs,
)
from designer.translation import tr


def kit(command: CommandParser) -> None:
    """Add the words of `kit`."""
    command.add_argument(
        "name", type=given, metavar='"Breakwater Red"', help=tr("what it is called")
    )
    makes = ("--makes", '"20 L"', tr("how much beer it makes"))
    add_examples(command, [makes], required=["--makes"])
    add_again(
        command,
        (
            ("--tin", '"1.7 kg"', tr("a tin of hopped extract, with its name if it has one")),
            ("--unhopped-tin", '"3.3 lb"', tr("a tin without hops in it")),
            ("--dry", '"1 kg Amber dry malt extract"', tr("a bag of dry extract")),
            ("--sugar", '"1 kg"', tr("sugar in it or to be added")),
            ("--grain", '"200 g Crystal malt 120 °L"', tr("grain to steep")),
            (
                "--hop",
                '"Challenger 18 g 60 min 7.2 %"',
                tr("hops, when they go in, their alpha acid"),
            ),
        ),
    )
    add_examples(
        command,
        (
            ("--yeast", '"6 g"', tr("the packet of yeast, with its name if it has one")),
            ("--boil-water", '"5 L"', tr("water to boil; left out, what leaves room in the pot")),
            ("--boil", '"10 min"', tr("how long; left out, as long as its hops want")),
            ("--og", "1.050..1.055", tr("the original gravity that the leaflet states")),
            ("--fg", "1.010..1.014", tr("the final gravity that it states")),
            ("--alcohol", '"5 %"', tr("the alcohol that it states")),
            ("--ibu", '"24 IBU"', tr("the bitterness that it states")),
            ("--pot", '"9 L"', tr("the pot at hand")),
            ("--fermenter", '"12 L"', tr("the fermenter at hand")),
        ),
    )
    add_figures(command)
    add_json(command, "forecast")
    add_recipe_output(command, tr("write it as a recipe file, its contents locked"))


def design(command: CommandParser) -> None:
    """Add the words of `design`."""
    command.add_argument(
        "words",
        nargs="?",
        default="",
        metavar='"best bitter, not too sweet"',
        help=tr("a style's name or code, or plain words; left out, a plain ale"),
    )
    add_examples(
        command,
        (
            ("--strength", '"4.2 %"', tr("alcohol, or the original gravity: 1.044, 11 °P")),
            ("--bitterness", '"25 IBU"', tr("how bitter; left out, as the style is")),
            ("--colour", '"18 EBC"', tr("how dark; left out, as the style is")),
            ("--batch", '"10 L"', tr("how much beer; left out, what the fermenter takes")),
            ("--pot", '"9 L"', tr("the pot")),
            ("--fermenter", '"12 L"', tr("the fermenter")),
        ),
        required=("--pot", "--fermenter"),
    )
    tastes = tr(
        "what it should taste of: toffee, flowers, bread crust, dried fruit, nuts, roast, orange "
        "peel, pine"
    )
    add_again(command, [("--taste", "toffee", tastes)])
    command.add_argument("--simple", action="store_true", help=tr("as few lines as possible"))
    add_whole_packs(command)
    command.add_argument(
        "--cupboard", action="store_true", help=tr("use up what is in the cupboard first")
    )
    add_units(command, tr("metric or US customary units to weigh in, or both"))
    add_json(command, "design")
    add_use(
        command,
        tr("write recipe N: 1 drier, 2 rounder, 3 hoppier, 4 one malt and one hop; wants -o"),
    )
