"""The catalogue of ingredients and styles in resources/, each row with its source.

Only figures are copied into a recipe: a recipe predicts the same on a machine with another
catalogue. Names are looked up without regard to case and accents; what was called otherwise in an
older catalogue (renamed.csv) is found by its old name and form before a row of another form is.
What other languages of the program call it is found too, whichever is spoken.
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable
from functools import cache
from math import exp
from typing import NamedTuple, TypeVar

from designer.library.sources import Standing
from designer.recipe.choices import FermentableKind, is_grain
from designer.recipe.document import Extra, Fermentable, Hop, Yeast
from designer.recipe.quantity import Kind, Quantity, Stage, When
from designer.recipe.same_name import name_key
from designer.resource_files import resource_path
from designer.units import read, read_when
from designer.wort.extract import yield_from_ppg


class FermentableEntry(NamedTuple):
    """A fermentable: shares 0 to 1, colour in °L. For grain `extract` is what a steep gives."""

    name: str
    kind: FermentableKind
    extract: float
    fermentability: float
    colour: float
    standing: Standing
    source: str


class HopEntry(NamedTuple):
    """A hop variety; alpha acid as a share of the mass, lowest, highest and typical."""

    name: str
    origin: str
    alpha_low: float
    alpha_high: float
    alpha: float
    use: str
    aroma: str
    standing: Standing
    source: str


class YeastEntry(NamedTuple):
    """A family of yeasts; apparent attenuation 0 to 1, temperatures in °C."""

    name: str
    form: str
    attenuation_low: float
    attenuation_high: float
    lowest_c: float
    highest_c: float
    flocculation: str
    standing: Standing
    source: str


class AidEntry(NamedTuple):
    """Finings, nutrient and the like: the usual dose for a volume of beer or water.

    `goes_in` is when it usually does, as in a recipe; `when` tells more about that.
    """

    name: str
    purpose: str
    dose_low: float
    dose_high: float
    unit: str
    per_volume_l: float
    goes_in: str
    when: str
    standing: Standing
    source: str


class StyleEntry(NamedTuple):
    """The numbers of a style guideline: lowest and highest of each."""

    code: str
    name: str
    original_gravity: tuple[float, float]
    final_gravity: tuple[float, float]
    bitterness_ibu: tuple[float, float]
    colour_srm: tuple[float, float]
    abv_percent: tuple[float, float]
    standing: Standing
    source: str


STRAINS_DIFFER = 0.04
"""Half width of the attenuation of strains of one kind; see the field of the recipe."""
NO_RANGE = 0.30

Named = TypeVar("Named", FermentableEntry, HopEntry, YeastEntry, AidEntry, StyleEntry)


def _rows(file: str) -> list[dict[str, str]]:
    with resource_path(file).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))


def _entries(file: str, of: Callable[..., Named], columns: str) -> tuple[Named, ...]:
    """Return rows as entries of so many columns in order, each with a mark for what it holds.

    `#` stands behind a number, `%` behind per cents, `~` behind the name of a lowest and a highest,
    `!` behind the word for how good the source is.
    """
    return tuple(of(*(_cell(row, each) for each in columns.split())) for row in _rows(file))


def _cell(row: dict[str, str], column: str) -> str | float | tuple[float, float]:
    name, mark = column[:-1], column[-1]
    if mark == "!":
        return Standing(row[name])
    if mark == "~":
        return float(row[f"{name}_min"]), float(row[f"{name}_max"])
    if mark == "%":
        return float(row[name]) / 100.0
    return float(row[name]) if mark == "#" else row[column]


@cache
def fermentables() -> tuple[FermentableEntry, ...]:
    """Return all fermentables."""
    return tuple(_fermentable(row) for row in _rows("fermentables.csv"))


def _fermentable(row: dict[str, str]) -> FermentableEntry:
    kind = FermentableKind(row["kind"])
    extract = float(row["yield_percent_dry_or_as_is"]) / 100.0
    if is_grain(kind):
        extract = float(yield_from_ppg(float(row["ppg_steeped"] or 0.0)))
    fermentability, colour = float(row["fermentability_percent"]), float(row["colour_lovibond"])
    return FermentableEntry(
        row["name"],
        kind,
        extract,
        fermentability / 100.0,
        colour,
        Standing(row["standing"]),
        row["source"],
    )


@cache
def hops() -> tuple[HopEntry, ...]:
    """Return all hop varieties."""
    columns = "variety origin alpha_min% alpha_max% alpha_typical% use aroma standing! source"
    return _entries("hops.csv", HopEntry, columns)


@cache
def yeasts() -> tuple[YeastEntry, ...]:
    """Return all families of yeast."""
    columns = (
        "name form attenuation_min% attenuation_max% temp_min_c# temp_max_c# flocculation "
        "standing! source"
    )
    return _entries("yeasts.csv", YeastEntry, columns)


@cache
def aids() -> tuple[AidEntry, ...]:
    """Return finings, nutrients and other aids."""
    columns = (
        "name purpose dose_min# dose_max# dose_unit per_volume_l# goes_in when standing! source"
    )
    return _entries("kettle_aids.csv", AidEntry, columns)


@cache
def styles() -> tuple[StyleEntry, ...]:
    """Return all styles."""
    return _entries("styles.csv", StyleEntry, "code name og~ fg~ ibu~ srm~ abv~ standing! source")


@cache
def _new_names(file: str) -> dict[tuple[str, str], str]:
    """Return what is called otherwise today, by the key and the form of its old name."""
    return {
        (name_key(row["old"]), row["form"]): row["new"]
        for row in _rows("renamed.csv")
        if row["file"] == file
    }


def _today(file: str, name: str, form: str = "") -> str:
    """Return what the catalogue calls today what it called `name` once; the name itself if so."""
    names, key = _new_names(file), name_key(name)
    return names.get((key, form)) or names.get((key, "")) or name


def _in_english(name: str) -> tuple[str, ...]:
    """Return what the catalogue may call a name of another language."""
    from designer.library.names import in_english  # most names are the catalogue's own

    return in_english(name)


def _of_name(entries: Iterable[Named], name: str) -> Named | None:
    wanted = name_key(name)
    return next((each for each in entries if name_key(each.name) == wanted), None)


def _find(file: str, entries: Iterable[Named], name: str) -> Named | None:
    found = _of_name(entries, name) or _of_name(entries, _today(file, name))
    return found or next(
        filter(None, (_of_name(entries, each) for each in _in_english(name))), None
    )


def find_fermentable(name: str) -> FermentableEntry | None:
    """Return the fermentable of that name, or of that name once, or None."""
    return _find("fermentables.csv", fermentables(), name)


def find_hop(name: str) -> HopEntry | None:
    """Return the hop variety of that name, or of that name once, or None."""
    return _find("hops.csv", hops(), name)


def find_yeast(name: str, form: str | None = None) -> YeastEntry | None:
    """Return the yeast of that name, or None: of that form if one has, or once had, the name."""
    found = _yeast_called(name, form)  # names of other languages are read for the rest alone
    others = () if found is not None else _in_english(name)
    return found or next(filter(None, (_yeast_called(each, form) for each in others)), None)


def _yeast_called(name: str, form: str | None) -> YeastEntry | None:
    of_form = [each for each in yeasts() if form is None or each.form == form]
    today = _today("yeasts.csv", name, form or "")
    return _of_name(of_form, name) or _of_name(of_form, today) or _of_name(yeasts(), name)


def find_aid(name: str) -> AidEntry | None:
    """Return the aid of that name, or of that name once, or None."""
    return _find("kettle_aids.csv", aids(), name)


def find_style(name: str) -> StyleEntry | None:
    """Return the style of that name, or of that name once, or of that code, or None."""
    code = name.strip().upper()
    by_name = _find("styles.csv", styles(), name)
    return by_name or next((each for each in styles() if each.code == code), None)


def catalogue_name(name: str) -> str:
    """Return what the catalogue calls an ingredient; a name that it does not have as it is."""
    found = find_fermentable(name) or find_hop(name) or find_yeast(name) or find_aid(name)
    return name if found is None else found.name


def percent(share: float) -> Quantity:
    """Return a share as the quantity a label would print."""
    return read(Kind.FRACTION, f"{100.0 * share:.4g} %")


def lovibond(colour: float) -> Quantity:
    """Return a malt colour as the quantity a label would print."""
    return read(Kind.MALT_COLOUR, f"{colour:g} °L")


def celsius(temp_c: float) -> Quantity:
    """Return a temperature as a quantity."""
    return read(Kind.TEMPERATURE, f"{temp_c:g} °C")


def new_fermentable(entry: FermentableEntry) -> Fermentable:
    """Return a line of the recipe with a copy of the entry's figures, no amount yet."""
    grain = is_grain(entry.kind)
    when = When(Stage.STEEP, "steep") if grain else When(Stage.BOIL, "boil 15 min", 15.0)
    return Fermentable(
        name=entry.name,
        kind=entry.kind,
        when=when,
        colour=lovibond(entry.colour),
        extract=percent(entry.extract),
        fermentability=percent(entry.fermentability),
    )


def new_hop(entry: HopEntry) -> Hop:
    """Return a hop line with the variety's typical alpha acid and its range, no amount yet."""
    return Hop(name=entry.name, alpha=usual_alpha(entry))


def usual_alpha(entry: HopEntry) -> Quantity:
    """Return the alpha acid of a variety whose packet says nothing: `6 % (4.5-8.9 %)`.

    Where no range is told it is 30 % either way; judgement.
    """
    low, high = entry.alpha_low, entry.alpha_high
    if low == high:
        low, high = low * exp(-NO_RANGE), high * exp(NO_RANGE)
    typical, *ends = (f"{100.0 * each:.4g}" for each in (entry.alpha, low, high))
    return read(Kind.FRACTION, f"{typical} % ({'-'.join(ends)} %)")


def new_yeast(entry: YeastEntry) -> Yeast:
    """Return the yeast with the middle of its attenuation, no amount yet.

    It is as sure as strains of one kind are alike, or as its maker's range where that is wider.
    """
    middle = round((entry.attenuation_low + entry.attenuation_high) / 2.0, 3)
    half = max((entry.attenuation_high - entry.attenuation_low) / 2.0, STRAINS_DIFFER)
    return Yeast(
        name=entry.name,
        form=entry.form,
        attenuation=read(Kind.FRACTION, f"{100.0 * middle:.4g} % ± {100.0 * half:.3g} %"),
        lowest=celsius(entry.lowest_c),
        highest=celsius(entry.highest_c),
    )


def new_extra(entry: AidEntry, batch_l: float = 19.0) -> Extra:
    """Return an extra with the lowest usual dose for a batch, at the time it is usually given."""
    dose = entry.dose_low * batch_l / entry.per_volume_l
    dose = max(round(2.0 * dose) / 2.0, 0.5) if entry.unit == "tablet" else float(f"{dose:.2g}")
    amount = read(Kind.DOSE, f"{dose:g} {entry.unit}")
    return Extra(entry.name, entry.purpose, amount, read_when(entry.goes_in))
