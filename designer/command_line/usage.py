"""The words of each command, and what is said where they are used wrongly.

Nothing is imported here that a command needs: the window, too, is opened through these words.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from typing import Any, NoReturn

from designer import __version__
from designer.command_line.output import USAGE, short
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units.pint_units import TABLE_COMMAND

COMMANDS = (
    "open", "design", "kit", "forecast", "styles", "check", "schema", "sheet", "fit", "convert",
    "catalogue",
    "glossary",
    "find",
    "brews",
    "packaging",
    "reading",
    "learned",
)  # fmt: skip
LEARNED = ("evaporation", "left_in_pot", "cooling", "steep_yield", "extract_bias", "volume_bias",
           "attenuation", "hydrometer", "wort_correction")  # fmt: skip
"""Codes of the figures that brews teach."""
UNLISTED = (TABLE_COMMAND,)
UNITS = ("metric", "us", "both")
PRIMED_WITH = ("sugar", "dextrose", "anhydrous", "extract", "honey")
"""Words of `--sugar`."""
LANGUAGES = ("en", "de", "fr")
OWN_ADDRESS = "own"
"""What `--serve` means that names no address."""
CONVERTED = [str(kind) for kind in Kind if kind not in (Kind.DOSE, Kind.MONEY, Kind.NUMBER)]
"""Kinds that have units."""


class _Parser(argparse.ArgumentParser):
    """Tells what is wrong with the words of a command in one line, however odd they are.

    `told_below` gives lines that stand below the help; they are made when it is asked for.
    `wrong_together` tells what is wrong with options that go together, "" for nothing.
    """

    told_below: Callable[[], str] | None = None
    wrong_together: Callable[[argparse.Namespace], str] | None = None

    def parse_known_args(self, args=None, namespace=None):  # type: ignore[no-untyped-def]
        found, others = super().parse_known_args(args, namespace)
        wrong = self.wrong_together(found) if self.wrong_together is not None else ""
        if wrong:
            self.error(wrong)
        return found, others

    def format_help(self) -> str:
        if self.told_below is None:
            return super().format_help()
        return f"{super().format_help()}\n{self.told_below()}\n"

    def error(self, message: str) -> NoReturn:
        self.print_usage(sys.stderr)
        self.exit(USAGE, f"{self.prog}: error: {short(message)}\n")


def _given(typed: str) -> str:
    """A value that has something in it: an empty one comes of a script gone wrong."""
    if not typed.strip():
        raise argparse.ArgumentTypeError("nothing is given; write a value, or leave the option out")
    return typed


def parser() -> argparse.ArgumentParser:
    """Return what reads the words of a command; `command` of its answer is the command's name."""
    made = _Parser(
        prog="hobwort",
        description="Plan a stove-top brew from malt extract and steeping grain. "
        "Without a command the window opens.",
    )
    made.add_argument("--version", action="version", version=f"hobwort {__version__}")
    commands = made.add_subparsers(required=True, metavar="COMMAND")

    def command(name: str, tells: str) -> _Parser:
        added = commands.add_parser(name, help=tells, description=tells)
        added.set_defaults(command=name)
        return added

    opening = command("open", "open the window, with a recipe file if one is given")
    opening.add_argument("file", nargs="?", type=_given, metavar="FILE")

    forecast = command("forecast", "print what a recipe will give, and what to watch")
    forecast.add_argument("file", type=_given, metavar="FILE")
    forecast.add_argument("--json", action="store_true", help="print JSON")
    _add_set(forecast)
    _add_kitchen(forecast)
    forecast.add_argument(
        "--what-if",
        type=_given,
        nargs="+",
        action="append",
        default=[],
        metavar='PLACE="TEXT"',
        help="a variant with these fields changed, beside the recipe as it is; may be given up to "
        "three times",
    )
    forecast.told_below = _keys_of_forecast

    styles = command("styles", "print the styles a recipe falls in or nearly, or bring it into one")
    _add_styles(styles)

    design = command("design", "draft a first recipe of your own from a few answers")
    _add_design(design)

    kit = command("kit", "type in a kit as its leaflet reads; print how it comes out, or write it")
    _add_kit(kit)

    check = command("check", "check a recipe file and say what to watch out for")
    check.add_argument("file", type=_given, metavar="FILE")

    _add_kitchen(check)

    _add_learned(command("learned", "what your brews taught of your kitchen; take it, or leave it"))

    command("schema", "print the JSON Schema of recipe files")
    # For the window alone, which asks itself for it: not listed.
    commands.add_parser(TABLE_COMMAND).set_defaults(command=TABLE_COMMAND)

    sheet = command("sheet", "write brew sheets of recipes, as PDF, web page or text")
    _add_sheet(sheet)

    fit = command("fit", "print every way to brew a recipe in the pot and fermenters at hand")
    _add_fit(fit)

    convert = command("convert", "print a quantity in another unit")
    _add_convert(convert)

    known = command("catalogue", "print what is known of an ingredient or a style, and its source")
    known.add_argument("name", type=_given, nargs="*", metavar="NAME", help="left out, how good "
                       "the sources of all are")  # fmt: skip
    known.add_argument("--json", action="store_true", help="print JSON")

    words = command("glossary", "print what a term of the trade means")
    words.add_argument("term", type=_given, nargs="*", metavar="TERM", help="left out, all terms")
    words.add_argument("--json", action="store_true", help="print JSON")

    find = command("find", "find recipes in the Recipe box")
    find.add_argument("words", type=_given, nargs="*", metavar="WORD", help="left out, all of "
                      "them; put < and > between quotes: hobwort find 'abv <5'")  # fmt: skip
    find.add_argument("--json", action="store_true", help="print JSON")
    find.told_below = _search_grammar

    _add_reading(command("reading", "say what an odd gravity reading means, and what to do"))

    _add_brews(command("brews", "list the brews of the Recipe box, show a log, or write it out"))

    packing = command("packaging", "sugar or pressure for a beer, and whether its bottles bear it")
    _add_packaging(packing)
    return made


def _add_packaging(packing: argparse.ArgumentParser) -> None:
    packing.add_argument(
        "--finished",
        choices=("yes", "no"),
        default="no",
        help="whether two readings some three days apart agreed within 0.001; unless it is yes, "
        "nothing is bottled",
    )
    _add_packing(packing, required=True)
    packing.add_argument("--json", action="store_true", help="print JSON")


def _add_packing(packing: argparse.ArgumentParser, *, required: bool = False) -> None:
    for name, example, help in (
        ("--beer", '"9.6 L"', "how much beer there really is"),
        ("--fizz", "2.3", "volumes of gas that are wanted, or soft, usual, lively, sparkling, or "
         "a style; left out, as the recipe says, or usual"),
        ("--warmest", '"21 °C"', "the warmest it was since it fermented out"),
    ):  # fmt: skip
        wanted = required and name != "--fizz"
        packing.add_argument(name, type=_given, required=wanted, metavar=example, help=help)
    _add_bottles(packing)
    packing.add_argument("--sugar", choices=PRIMED_WITH, help="what to prime with")
    packing.add_argument("--keg", action="store_true", help="into a keg, with pressure, no sugar")
    packing.add_argument(
        "--keg-temperature", type=_given, metavar='"6 °C"', help="how cold the keg stands"
    )
    packing.add_argument(
        "--tick",
        type=_given,
        action="append",
        default=[],
        metavar="CODE",
        help="a caution that you have read and see to; may be given again",
    )
    packing.add_argument("--units", choices=UNITS, default="metric", help="metric unless given")


def _add_bottles(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--bottles",
        type=_given,
        metavar='"12 x 500 mL + 4 x 750 mL heavy"',
        help="how many of which size and kind: heavy, swing-top, plastic, sparkling, wine, jar; "
        "without a number they are counted to fit, without a kind they are of the weakest",
    )


def _add_brews(brews: argparse.ArgumentParser) -> None:
    brews.set_defaults(does="list", json=False)
    does = brews.add_subparsers(
        metavar="list | show N | export N -o FILE | take-in FILE "
        "| read N | warmth N | beer N | package N | labels N -o FILE | calendar N -o FILE"
    )
    listing = does.add_parser("list", help="all brews, the last begun first; so without a word")
    listing.add_argument("--json", action="store_true", help="print JSON")
    listing.set_defaults(does="list")
    show = does.add_parser("show", help="the log of a brew as one would read it")
    export = does.add_parser("export", help="the log of a brew as a file")
    for each, name in ((show, "show"), (export, "export")):
        each.add_argument("number", type=int, metavar="N", help="its number in the list")
        each.set_defaults(does=name)
    export.add_argument(
        "-o",
        "--output",
        type=_given,
        required=True,
        metavar="FILE",
        help="the file to write, its kind by its suffix: .txt, .csv or .json; it must not be there "
        "yet",
    )
    taking = does.add_parser("take-in", help="the log of a phone, as text or as the file it saved")
    taking.add_argument(
        "file", type=_given, metavar="FILE", help="a file with it; - reads it typed"
    )
    taking.add_argument(
        "--into",
        type=int,
        metavar="N",
        help="the number of the brew that it goes on with; left out, a brew of its own",
    )
    taking.set_defaults(does="take-in")
    _add_beer_of_brew(does)
    _add_packaging_of_brew(does)


def _add_learned(learned: argparse.ArgumentParser) -> None:
    learned.set_defaults(does="list", json=False)
    learned.add_argument("--json", action="store_true", help="print JSON")
    does = learned.add_subparsers(
        metavar="take | keep | undo FIGURE [SUBJECT] | leave-out | count BREW FIGURE"
    )
    for name, tells in (
        ("take", "write a figure to its pot, fermenter or yeast"),
        ("keep", "leave it as it is, and be asked no more until brews say something else"),
        ("undo", "put back what was there before it was taken"),
    ):
        added = does.add_parser(name, help=tells)
        added.add_argument("figure", choices=LEARNED, metavar="FIGURE", help=", ".join(LEARNED))
        added.add_argument(
            "subject",
            nargs="?",
            type=_given,
            metavar="SUBJECT",
            help="the name of the pot, the fermenter or the yeast, where there are several",
        )
        added.set_defaults(does=name)
    for name, tells in (
        ("leave-out", "leave a figure of a brew out of what is learned"),
        ("count", "let it count, however odd it is"),
    ):
        added = does.add_parser(name, help=tells)
        added.add_argument("number", type=int, metavar="BREW", help="its number in the list")
        added.add_argument("figure", choices=LEARNED, metavar="FIGURE", help=", ".join(LEARNED))
        added.set_defaults(does=name)


def _add_kitchen(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--kitchen",
        action="store_true",
        help="fill empty fields with what you took of what your kitchen taught",
    )


def _add_beer_of_brew(does: argparse._SubParsersAction[Any]) -> None:
    read = does.add_parser("read", help="write down a gravity of the beer, and tell where it is")
    warmth = does.add_parser("warmth", help="write down how warm the beer is, or take in a table")
    beer = does.add_parser("beer", help="where the beer is: done or not yet, and what to do when")
    for each, name in ((read, "read"), (warmth, "warmth"), (beer, "beer")):
        each.add_argument("number", type=int, metavar="N", help="its number in the list")
        each.set_defaults(does=name)
    _add_read_off(read)
    for name, example, help in (
        ("--in-water", "1.001", "what the hydrometer shows in water, if it was tried"),
        ("--correction", "1.04", "the factor of wort of a refractometer; left out, 1.04"),
    ):
        read.add_argument(name, type=_given, metavar=example, help=help)
    told = warmth.add_mutually_exclusive_group(required=True)
    told.add_argument("temp", nargs="?", type=_given, metavar='"19 °C"', help="how warm it is")
    told.add_argument(
        "--csv",
        type=_given,
        metavar="FILE",
        help="a table of times and temperatures, of whatever thermometer",
    )
    for each in (read, warmth):
        each.add_argument(
            "--on",
            nargs="+",
            metavar="DATE TIME",
            help="when that was, such as 2026-04-08 18:30; left out, now",
        )
    for each in (read, beer):
        each.add_argument(
            "--fermenter", type=int, default=1, metavar="N", help="which one, of several"
        )
        each.add_argument("--json", action="store_true", help="print JSON")
        each.add_argument("--units", choices=UNITS, default="metric", help="metric unless given")
        each.told_below = _keys_of_beer


def _keys_of_beer() -> str:
    # As below: loaded when the help is asked for.
    from designer.workbench.brew.beer_text import told_keys

    return told_keys()


def _add_packaging_of_brew(does: argparse._SubParsersAction[Any]) -> None:
    package = does.add_parser("package", help="what it takes to bottle or keg the beer of a brew")
    labels = does.add_parser("labels", help="labels for its bottles, to cut out")
    days = does.add_parser("calendar", help="what is to be done with it, for your calendar")
    for each, name in ((package, "package"), (labels, "labels"), (days, "calendar")):
        each.add_argument("number", type=int, metavar="N", help="its number in the list")
        each.add_argument(
            "--fermenter", type=int, default=1, metavar="N", help="which one, of several"
        )
        each.set_defaults(does=name)
    _add_packing(package)
    package.add_argument("--json", action="store_true", help="print JSON")
    package.add_argument(
        "--done", action="store_true", help="write in its log that it is packaged so"
    )
    _add_bottles(labels)
    labels.add_argument("--name", type=_given, metavar='"NAME"', help="another name on them")
    labels.add_argument(
        "--allergens", type=_given, metavar='"contains barley"', help="as you declare them"
    )
    labels.add_argument("--paper", choices=("a4", "letter"), default="a4", help="a4 unless given")
    labels.add_argument("--units", choices=UNITS, default="metric", help="metric unless given")
    labels.add_argument(
        "--language", choices=LANGUAGES, help="left out, that of the locale, else English"
    )
    for each, kinds in ((labels, ".pdf or .txt"), (days, ".ics")):
        each.add_argument(
            "-o",
            "--output",
            type=_given,
            required=True,
            metavar="FILE",
            help=f"the file to write, {kinds}; it must not be there yet",
        )


OF_A_KIT = ("band", "batch", "pot", "extract")
"""Options of `reading` that tell of a kit without a recipe."""


def _wrong_of_reading(chosen: argparse.Namespace) -> str:
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


def _add_read_off(parser: argparse.ArgumentParser) -> None:
    read = parser.add_mutually_exclusive_group(required=True)
    for name, example, help in (
        ("--sg", "1.037", "what the hydrometer shows, uncorrected"),
        ("--plato", "9.3", "the same in °P"),
        ("--brix", "9.6", "what a refractometer shows, in °Bx"),
    ):
        read.add_argument(name, type=_given, metavar=example, help=help)
    for name, example, help in (
        ("--at", '"24 °C"', "how warm the sample was; left out, it was not taken"),
        ("--calibrated", '"20 °C"', "what the hydrometer is made for; left out, as the recipe "
         "says, else 20 °C"),
    ):  # fmt: skip
        parser.add_argument(name, type=_given, metavar=example, help=help)


def _add_reading(reading: _Parser) -> None:
    reading.wrong_together = _wrong_of_reading
    reading.told_below = _keys_of_reading
    reading.add_argument(
        "file", nargs="?", type=_given, metavar="FILE", help="the recipe; left out, a kit is told"
    )
    _add_read_off(reading)
    reading.add_argument(
        "--from",
        dest="drawn",
        choices=("top", "middle", "bottom", "tap", "jar", "unknown"),
        default="unknown",
        help="where the sample was drawn",
    )
    reading.add_argument(
        "--stirred",
        choices=("no", "little", "hard", "poured", "unknown"),
        default="unknown",
        help="how it was mixed before: hard is from the floor up, poured is across and back",
    )
    reading.add_argument(
        "--when",
        choices=("topped-up", "pot", "fermenting"),
        default="topped-up",
        help="when it was read; topped-up unless given",
    )
    for name, example, help in (
        ("--pot-volume", '"5.5 L"', "the wort in the pot before topping up, if it was read"),
        ("--mark", '"10 L"', "the level read in the fermenter"),
        ("--hours", "20", "hours since the yeast went in, for --when fermenting"),
        ("--in-water", "1.002", "what the hydrometer shows in plain water"),
        ("--correction", "1.04", "the wort correction of the refractometer"),
        ("--band", '"1.044 to 1.048"', "without FILE: the original gravity that the kit prints"),
        ("--batch", '"20 L"', "without FILE: how much beer the kit makes"),
        ("--pot", '"9 L"', "without FILE: the pot it is boiled in"),
        ("--extract", '"1 kg + 400 g dry"', "without FILE: what is in the kit"),
    ):
        reading.add_argument(name, type=_given, metavar=example, help=help)
    reading.add_argument(
        "--answer",
        type=_given,
        action="append",
        default=[],
        metavar="TEST=WHAT",
        help="what a test showed: yes where it reads otherwise or something was found wrong, no "
        'where not; or its figure: stir=1.046, cool=1.041 read again, weigh="10.4 L" or '
        '"10.9 kg" of wort, water_check=1.002, top_and_bottom=12 points; may be given again',
    )
    reading.add_argument(
        "--fermenter", type=int, default=1, metavar="N", help="of a plan, which one; 1 unless given"
    )
    reading.add_argument("--units", choices=UNITS, default="metric", help="metric unless given")
    reading.add_argument("--json", action="store_true", help="print JSON")
    _add_set(reading)


def _keys_of_reading() -> str:
    # As below.
    from designer.workbench.reading_document import told_keys

    return told_keys()


def _search_grammar() -> str:
    # As above.
    from designer.workbench.box_search import GRAMMAR

    return GRAMMAR


def _keys_of_forecast() -> str:
    # Told to few: not loaded with the words of the commands.
    from designer.command_line.forecast_keys import told

    return told()


def _add_styles(styles: argparse.ArgumentParser) -> None:
    styles.add_argument("file", type=_given, metavar="FILE")
    styles.add_argument("--all", action="store_true", help="every style, not the nearest six alone")
    styles.add_argument("--json", action="store_true", help="print JSON")
    styles.add_argument(
        "--bring-in",
        type=_given,
        metavar="STYLE",
        help="find the smallest change of amounts and water that brings it into a style, by its "
        "name or code; with -o it is written",
    )
    styles.add_argument(
        "-o",
        "--output",
        type=_given,
        metavar="OUT",
        help="the recipe file that --bring-in writes; it must not be there yet",
    )
    _add_set(styles)


def _wrong_of_sheet(chosen: argparse.Namespace) -> str:
    if chosen.serve is not None and not chosen.pocket:
        return tr("--serve offers the page of --pocket; give both")
    if chosen.serve is not None and len(chosen.files) > 1:
        return tr("--serve offers the page of one recipe; name one file")
    if chosen.serve is None and chosen.output is None:
        return tr("-o names the file to write; it is missing")
    return ""


def _add_sheet(sheet: _Parser) -> None:
    sheet.wrong_together = _wrong_of_sheet
    sheet.add_argument("files", type=_given, metavar="FILE", nargs="+")
    sheet.add_argument(
        "-o",
        "--output",
        type=_given,
        metavar="OUT",
        help="the file to write, its kind by its suffix: .pdf, .html or .txt; with several "
        "recipes, or where it is one, the folder for a sheet of each",
    )
    sheet.add_argument("--html", action="store_true", help="write web pages instead of PDF")
    sheet.add_argument(
        "--pocket",
        action="store_true",
        help="write a page for a phone's browser: steps to tick, timers, blanks to type in",
    )
    sheet.add_argument(
        "--serve",
        type=_given,
        nargs="?",
        const=OWN_ADDRESS,
        metavar="ADDRESS",
        help="with --pocket, offer the page in your own network for an hour, at this address of "
        "this machine; left out, the one in its network",
    )
    sheet.add_argument("--paper", choices=("a4", "letter"), default="a4", help="a4 unless given")
    sheet.add_argument("--units", choices=UNITS, default="metric", help="metric unless given")
    sheet.add_argument("--start", metavar="HH:MM", help="clock time at which the day starts")
    sheet.add_argument(
        "--date", metavar="YYYY-MM-DD", help="brew day; left out, a blank to write it in"
    )
    sheet.add_argument(
        "--variant",
        choices=("full", "bench"),
        default="full",
        help="the full checklist, or a card of one page for the stove",
    )
    sheet.add_argument(
        "--pages",
        type=int,
        choices=(1, 2),
        default=1,
        help="1: as few pages as can be; 2: as large type as two pages allow",
    )
    sheet.add_argument("--large", action="store_true", help="large print, on more pages")
    sheet.add_argument("--shop", metavar='"NAME"', default="", help="a shop's name at the head")
    sheet.add_argument(
        "--language", choices=LANGUAGES, help="left out, that of the locale, else English"
    )
    _add_set(sheet)
    _add_kitchen(sheet)


def _add_fit(fit: argparse.ArgumentParser) -> None:
    fit.add_argument("file", type=_given, metavar="FILE")
    fit.add_argument(
        "--pot", type=_given, metavar='"9 L"', help="the pot; left out, the recipe's own"
    )
    fit.add_argument(
        "--fermenter",
        type=_given,
        action="append",
        default=[],
        metavar='"12 L"',
        help="a fermenter in hand; may be given again; left out, the recipe's own",
    )
    fit.add_argument(
        "--second-pot", type=_given, metavar='"7 L"', help="another pot that boils at once"
    )
    fit.add_argument("--power", type=_given, metavar='"2000 W"', help="what the stove gives")
    fit.add_argument(
        "--frozen", type=_given, metavar='"3 kg"', help="how much water the freezer holds"
    )
    fit.add_argument(
        "--late", type=_given, metavar='"50 %"', help="the most extract to put in late"
    )
    fit.add_argument(
        "--hop",
        type=_given,
        action="append",
        default=[],
        metavar='"NAME, 7.2 %, 50 g"',
        help="a hop in hand: name, alpha acid, amount; may be given again",
    )
    fit.add_argument(
        "--whole-packs", action="store_true", help="use whole tins and bags of extract"
    )
    fit.add_argument("--units", choices=UNITS, default="metric", help="metric unless given")
    fit.add_argument("--json", action="store_true", help="print JSON")
    fit.add_argument(
        "--use",
        type=int,
        metavar="N",
        help="write the recipe as it is brewed by way N, the `rank` of the JSON; wants -o",
    )
    fit.add_argument(
        "-o",
        "--output",
        type=_given,
        metavar="OUT",
        help="the recipe file that --use writes; it must not be there yet",
    )
    _add_set(fit)
    _add_kitchen(fit)


def _add_kit(kit: argparse.ArgumentParser) -> None:
    kit.add_argument("name", type=_given, metavar='"Breakwater Red"', help="what it is called")
    kit.add_argument(
        "--makes", type=_given, required=True, metavar='"20 L"', help="how much beer it makes"
    )
    for name, example, help in (
        ("--tin", '"1.7 kg"', "a tin of hopped extract, with its name if it has one"),
        ("--unhopped-tin", '"3.3 lb"', "a tin without hops in it"),
        ("--dry", '"1 kg Amber dry malt extract"', "a bag of dry extract"),
        ("--sugar", '"1 kg"', "sugar in it or to be added"),
        ("--grain", '"200 g Crystal malt 120 °L"', "grain to steep"),
        ("--hop", '"Challenger 18 g 60 min 7.2 %"', "hops, when they go in, their alpha acid"),
    ):
        kit.add_argument(
            name,
            type=_given,
            action="append",
            default=[],
            metavar=example,
            help=f"{help}; may be given again",
        )
    for name, example, help in (
        ("--yeast", '"6 g"', "the packet of yeast, with its name if it has one"),
        ("--boil-water", '"5 L"', "water to boil; left out, what leaves room in the pot"),
        ("--boil", '"10 min"', "how long; left out, as long as its hops want"),
        ("--og", "1.050..1.055", "the original gravity that the leaflet states"),
        ("--fg", "1.010..1.014", "the final gravity that it states"),
        ("--alcohol", '"5 %"', "the alcohol that it states"),
        ("--ibu", '"24 IBU"', "the bitterness that it states"),
        ("--pot", '"9 L"', "the pot at hand"),
        ("--fermenter", '"12 L"', "the fermenter at hand"),
    ):
        kit.add_argument(name, type=_given, metavar=example, help=help)
    kit.add_argument("--json", action="store_true", help="print JSON: the keys of forecast --json, "
                     "how it fits the vessels, and the file written")  # fmt: skip
    kit.add_argument(
        "-o",
        "--output",
        type=_given,
        metavar="OUT",
        help="write it as a recipe file, its contents locked; it must not be there yet",
    )


def _add_design(design: argparse.ArgumentParser) -> None:
    design.add_argument(
        "words",
        nargs="?",
        default="",
        metavar='"best bitter, not too sweet"',
        help="a style's name or code, or plain words; left out, a plain ale",
    )
    for name, example, help in (
        ("--strength", '"4.2 %%"', "alcohol, or the original gravity: 1.044, 11 °P"),
        ("--bitterness", '"25 IBU"', "how bitter; left out, as the style is"),
        ("--colour", '"18 EBC"', "how dark; left out, as the style is"),
        ("--batch", '"10 L"', "how much beer; left out, what the fermenter takes"),
    ):
        design.add_argument(
            name, type=_given, metavar=example.replace("%%", "%"), help=help.replace("%", "%%")
        )
    design.add_argument("--pot", type=_given, required=True, metavar='"9 L"', help="the pot")
    design.add_argument(
        "--fermenter", type=_given, required=True, metavar='"12 L"', help="the fermenter"
    )
    design.add_argument(
        "--taste",
        type=_given,
        action="append",
        default=[],
        metavar="toffee",
        help="what it should taste of; may be given again: toffee, flowers, bread crust, dried "
        "fruit, nuts, roast, orange peel, pine",
    )
    design.add_argument("--simple", action="store_true", help="as few lines as possible")
    design.add_argument(
        "--whole-packs", action="store_true", help="use whole tins and bags of extract"
    )
    design.add_argument(
        "--cupboard", action="store_true", help="use up what is in the cupboard first"
    )
    design.add_argument(
        "--units", choices=UNITS, default="metric", help="units to weigh in; metric unless given"
    )
    design.add_argument("--json", action="store_true", help="print JSON")
    design.add_argument(
        "--use",
        type=int,
        metavar="N",
        help="write recipe N: 1 drier, 2 rounder, 3 hoppier, 4 one malt and one hop; wants -o",
    )
    design.add_argument(
        "-o",
        "--output",
        type=_given,
        metavar="OUT",
        help="the recipe file that --use writes; it must not be there yet",
    )


def _add_convert(convert: argparse.ArgumentParser) -> None:
    convert.add_argument(
        "quantity", type=_given, metavar='"1.5 stone"', help="as a field of a recipe takes it"
    )
    convert.add_argument("unit", type=_given, metavar="kg", help="the unit that is wanted")
    convert.add_argument(
        "--kind",
        choices=CONVERTED,
        metavar='"KIND"',
        help="what is meant where a word means two things; left out, what both words can mean, "
        f"EBC and SRM being those of beer: {', '.join(CONVERTED)}",
    )
    convert.add_argument("--json", action="store_true", help="print JSON")


def _add_set(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--set",
        type=_given,
        action="append",
        default=[],
        metavar='PLACE="TEXT"',
        help='change a field first, such as process.top_up_to="9 L", hops.1.alpha="6 %%" or, of a '
        'plan, boils.1.start_water="6 L" and fermenters.2.from.1.share="40 %%"; the name of a line '
        'more than there are, hops.3.name="Fuggle" where there are two, puts one in',
    )
