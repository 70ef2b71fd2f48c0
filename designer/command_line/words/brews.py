"""Words of `brews`: what was brewed, its log, its beer and how that is packaged."""

from __future__ import annotations

from designer.command_line.words.packing import add_bottles, add_packing
from designer.command_line.words.parsing import CommandParser, given
from designer.command_line.words.shared import (
    Deeds,
    add_deed,
    add_examples,
    add_fermenter,
    add_figures,
    add_json,
    add_language,
    add_new_output,
    add_number,
    add_paper,
    add_read_off,
    add_units,
)
from designer.translation import tr


def brews(command: CommandParser) -> None:
    """Add the words of `brews`."""
    command.set_defaults(does="list", json=False)
    does = command.add_subparsers(
        metavar=tr(
            "list | show N | export N -o FILE | take-in FILE "
            "| read N | warmth N | beer N | package N | labels N -o FILE | calendar N -o FILE"
        )
    )
    listing = add_deed(does, "list", tr("all brews, the last begun first; so without a word"))
    add_json(listing, "brews")
    show = add_deed(does, "show", tr("the log of a brew as one would read it"))
    export = add_deed(does, "export", tr("the log of a brew as a file"))
    for each in (show, export):
        add_number(each)
        add_figures(each)
    add_new_output(
        export,
        tr(
            "the file to write, its kind by its suffix: .txt, in the units that are chosen, .csv "
            "or .json"
        ),
        kinds=("txt", "csv", "json"),
    )
    _add_taking_in(does)
    _add_beer(does)
    _add_packaging(does)


def _add_taking_in(does: Deeds) -> None:
    taking = add_deed(does, "take-in", tr("the log of a phone, as text or as the file it saved"))
    taking.add_argument(
        "file", type=given, metavar=tr("FILE"), help=tr("a file with it; - reads it typed")
    )
    taking.add_argument(
        "--into",
        type=int,
        metavar="N",
        help=tr("the number of the brew that it goes on with; left out, a brew of its own"),
    )


def _add_beer(does: Deeds) -> None:
    read = add_deed(does, "read", tr("write down a gravity of the beer, and tell where it is"))
    warmth = add_deed(does, "warmth", tr("write down how warm the beer is, or take in a table"))
    beer = add_deed(does, "beer", tr("where the beer is: done or not yet, and what to do when"))
    for each in (read, warmth, beer):
        add_number(each)
    add_read_off(read)
    add_examples(
        read,
        (
            ("--in-water", "1.001", tr("what the hydrometer shows in water, if it was tried")),
            ("--correction", "1.04", tr("the factor of wort of a refractometer; left out, 1.04")),
        ),
    )
    told = warmth.add_mutually_exclusive_group(required=True)
    told.add_argument("temp", nargs="?", type=given, metavar='"19 °C"', help=tr("how warm it is"))
    table = tr("a table of times and temperatures, of whatever thermometer")
    add_examples(told, [("--csv", tr("FILE"), table)])
    for each in (read, warmth):
        each.add_argument(
            "--on",
            nargs="+",
            metavar=tr("DATE TIME"),
            help=tr("when that was, such as 2026-04-08 18:30; left out, now"),
        )
    for each in (read, beer):
        add_fermenter(each)
        add_figures(each)
        add_json(each, "beer")


def _add_packaging(does: Deeds) -> None:
    package = add_deed(does, "package", tr("what it takes to bottle or keg the beer of a brew"))
    labels = add_deed(does, "labels", tr("labels for its bottles, to cut out"))
    days = add_deed(does, "calendar", tr("what is to be done with it, for your calendar"))
    for each in (package, labels, days):
        add_number(each)
        add_fermenter(each)
    add_packing(package)
    add_json(package, "packaging")
    package.add_argument(
        "--done", action="store_true", help=tr("write in its log that it is packaged so")
    )
    add_bottles(labels)
    add_examples(
        labels,
        (
            ("--name", tr('"NAME"'), tr("another name on them")),
            ("--allergens", tr('"contains barley"'), tr("as you declare them")),
        ),
    )
    add_paper(labels)
    add_units(labels)
    add_language(labels)
    for each, shown, kinds in (
        (labels, tr(".pdf or .txt"), ("pdf", "txt")),
        (days, ".ics", ()),
    ):
        tells = tr("the file to write, {kinds}", kinds=shown)
        add_new_output(each, tells, kinds=kinds, is_paper=each is labels)
