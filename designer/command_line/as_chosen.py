"""In which units, on which scales and paper a command tells: as its options say, else as is chosen
in the window, else as the system's locale has it.

JSON is told in none of them: it is the same for everyone.
"""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Container

from designer.command_line.system_habits import measures_in_us, writes_comma
from designer.command_line.words.shared import COLOURS, GRAVITIES, PAPERS, UNITS
from designer.preferences_file import preferences
from designer.spoken_language import LANGUAGES, wanted_language
from designer.units import ShownUnits
from designer.workbench.figures import Figures


def units_of(chosen: Namespace) -> ShownUnits:
    """Return the units to tell in."""
    usual = "us" if not _is_json(chosen) and measures_in_us() else "metric"
    return ShownUnits(_said(chosen, "units", "units", UNITS, usual))


def figures_of(chosen: Namespace) -> Figures:
    """Return how figures are written."""
    units = units_of(chosen)
    return Figures(
        units,
        _said(chosen, "gravity", "gravity", GRAVITIES, "sg"),
        _said(chosen, "colour", "colour", COLOURS, "srm" if units is ShownUnits.US else "ebc"),
        writes_comma(),
        _said(chosen, "ingredient_colour", "ingredient_colour", ("typed", "beer"), "typed"),
    )


def paper_of(chosen: Namespace) -> str:
    """Return the size of paper."""
    return _said(chosen, "paper", "paper", PAPERS, "letter" if measures_in_us() else "a4")


def language_of(chosen: Namespace) -> str:
    """Return the language of what is printed on paper."""
    return _said(chosen, "language", "sheet_language", LANGUAGES, wanted_language())


def shop_of(chosen: Namespace) -> str:
    """Return the name of the shop at the head of a sheet; "" for none."""
    return chosen.shop if chosen.shop is not None else preferences().get("shop", "")


def _said(
    chosen: Namespace, option: str, key: str, choices: Container[str | None], usual: str
) -> str:
    """Return what an option says; without it what is chosen in the window, if it can be."""
    given = getattr(chosen, option, None)
    kept = "" if _is_json(chosen) else preferences().get(key, "")
    return next((str(each) for each in (given, kept) if each in choices), usual)


def _is_json(chosen: Namespace) -> bool:
    return bool(getattr(chosen, "json", False))
