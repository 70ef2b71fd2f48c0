"""`hobwort kit`: a kit typed in as its leaflet reads, looked at, and written as a recipe."""

from __future__ import annotations

from argparse import Namespace
from typing import Any, NamedTuple

from designer.brewday.predictions import BY_KEY
from designer.brewday.results import Finding
from designer.command_line.as_chosen import figures_of
from designer.command_line.options import Options
from designer.command_line.output import FINE, STANDARD, print_json, print_lines, remark
from designer.command_line.recipes import write_new
from designer.errors import DesignerError, RefusedInputError
from designer.library.pasted.cells import kind_of
from designer.library.pasted.plain_lines import taken_apart
from designer.recipe.choices import FermentableKind, HopForm
from designer.recipe.document import Leaflet
from designer.recipe.fields import facts_of
from designer.recipe.quantity import Kind, Quantity
from designer.translation import tr
from designer.units import read_when
from designer.units.quoting import one_line, quoted
from designer.workbench.figures import Figures
from designer.workbench.forecast_document import forecast_document
from designer.workbench.forecast_text import leaflet_lines
from designer.workbench.kit import Kit, KitHop, KitItem
from designer.workbench.kit_check import KitLooked, looked_at

LARGEST_KG = 10_000.0
ITEMS = {
    "tin": FermentableKind.HOPPED_KIT,
    "unhopped_tin": FermentableKind.LIQUID_EXTRACT,
    "dry": FermentableKind.DRY_EXTRACT,
    "sugar": FermentableKind.SUGAR,
    "grain": FermentableKind.STEEPING_GRAIN,
}
"""The options for what is in the box, and what each is."""
STATED = {
    "og": ("original_gravity", Kind.GRAVITY),
    "fg": ("final_gravity", Kind.GRAVITY),
    "alcohol": ("alcohol", Kind.FRACTION),
    "ibu": ("bitterness", Kind.BITTERNESS),
}
"""The options for what the leaflet promises, and the fields of it."""


def carry_out(chosen: Namespace) -> int:
    """Print how a kit comes out, as lines or as JSON; write its recipe where that is asked for."""
    looked = looked_at(kit_of(chosen))
    if chosen.output is not None:
        write_new(looked.recipe, chosen.output, force=chosen.force)
    if chosen.json:
        document = forecast_document(looked.recipe, looked.outlook)
        vessels = [each.text for each in looked.vessels]
        print_json({**document, "fits": vessels, "written": chosen.output})
    elif chosen.output != STANDARD:
        print_lines(*_lines(looked, figures_of(chosen)))
        if chosen.output is not None:
            remark("", tr("Written to {path}", path=one_line(chosen.output)))
    return FINE


def _lines(looked: KitLooked, figures: Figures) -> list[str]:
    told = {
        key: figures.forecast(BY_KEY[key], found.value)
        for key, found in looked.outlook.forecasts.items()
    }
    lines = [
        one_line(looked.recipe.name),
        "  "
        + tr(
            "Comes to OG {original}, FG {final}, {alcohol} alcohol, {bitter}",
            original=told["original_gravity"],
            final=told["final_gravity"],
            alcohol=told["abv_percent"],
            bitter=told["bitterness_ibu"],
        ),
        *(f"  {figures.said(each)}" for each in looked.vessels),
        *leaflet_lines(looked.stated, figures),
    ]
    if looked.doubt is not None:
        lines.append(f"  {_doubt(looked.doubt, figures)}")
    return lines


def _doubt(finding: Finding, figures: Figures) -> str:
    offer = "" if finding.offer is None else f" [{figures.said(finding.offer)}]"
    return f"{figures.said(finding.message)}{offer}"


def kit_of(chosen: Namespace) -> Kit:
    """Return the kit that was typed; raises RefusedInputError with every fault of the words."""
    options = Options()
    makes = options.quantity("--makes", Kind.VOLUME, chosen.makes, 0.1, 1e5)
    items = [
        KitItem(kind, part.amount, part.name)
        for option, kind in ITEMS.items()
        for each in getattr(chosen, option)
        if (part := _part(options, f"--{option.replace('_', '-')}", each)) is not None
    ]
    hops = [hop for each in chosen.hop if (hop := _hop(options, each)) is not None]
    yeast = _part(options, "--yeast", chosen.yeast, Kind.DOSE) if chosen.yeast else None
    pot, fermenter = (
        options.quantity(f"--{each}", Kind.VOLUME, getattr(chosen, each), 0.1, 1e5)
        for each in ("pot", "fermenter")
    )
    water = options.quantity("--boil-water", Kind.VOLUME, chosen.boil_water, 0.0, 1e5)
    boil = options.quantity("--boil", Kind.TIME, chosen.boil, 0.0, 1440.0)
    stated: dict[str, Any] = {
        field: _stated(options, chosen, each) for each, (field, _) in STATED.items()
    }
    if options.problems or makes is None:
        raise RefusedInputError(options.problems)
    return Kit(
        chosen.name,
        makes,
        tuple(items),
        pot,
        fermenter,
        hops=tuple(hops),
        yeast="" if yeast is None else yeast.name,
        yeast_amount=None if yeast is None else yeast.amount,
        boil_water=water,
        boil_time=boil,
        **stated,
    )


def _stated(options: Options, chosen: Namespace, option: str) -> Quantity | None:
    """Return what is stated: a figure, or a band, `1.050 to 1.055` or `1.050..1.055`."""
    field, kind = STATED[option]
    facts, text = facts_of(Leaflet, field), getattr(chosen, option)
    text = text and text.replace("..", " to ")
    return options.quantity(f"--{option}", kind, text, facts.low, facts.high)


class _Part(NamedTuple):
    """How much of what, in whatever order it was typed."""

    amount: Quantity
    name: str


def _part(options: Options, option: str, typed: str, kind: Kind = Kind.MASS) -> _Part | None:
    apart = taken_apart(typed)
    amount = options.quantity(option, kind, apart.cells[0], 0.0, LARGEST_KG)
    if not apart.cells[0]:
        why = tr("{typed} says no amount", typed=quoted(typed))
        options.refuse(option, DesignerError(why))
    return None if amount is None else _Part(amount, apart.cells[1])


def _hop(options: Options, typed: str) -> KitHop | None:
    """Return hops given as `Challenger 18 g 60 min 7.2 %`; None if they cannot be taken."""
    part = _part(options, "--hop", typed)
    if part is None:
        return None
    _, _, when, alpha, _, _, form = taken_apart(typed).cells
    try:
        return KitHop(
            part.amount,
            part.name,
            HopForm(kind_of("hops", form)) if form else HopForm.PELLETS,
            options.quantity("--hop", Kind.FRACTION, alpha, 0.0, 1.0),
            read_when(when) if when else None,
        )
    except DesignerError as fault:
        options.refuse("--hop", fault)
        return None
