"""`hobwort brews package`: what it takes to bottle or keg a beer; with --done, that it is done."""

from __future__ import annotations

from argparse import Namespace
from typing import Any

from designer.brewday.packaging.packaged import Packaged, Packing
from designer.brewday.packaging.packed import packaged
from designer.command_line.as_chosen import figures_of
from designer.command_line.brews_beer import brewed_beer
from designer.command_line.brews_logs import write
from designer.command_line.output import FINE, print_json, print_lines
from designer.command_line.packing_options import packing_told
from designer.library.store.brews import Brew
from designer.recipe.choices import Package
from designer.recipe.day_words import day_and_year
from designer.recipe.message import refused
from designer.translation import tr
from designer.units.quoting import one_line
from designer.workbench.brew.entries import Entry, What
from designer.workbench.brew.packing_text import packing_document, packing_lines, packing_said
from designer.workbench.brew.packing_values import values_of_packing


def carry_out(chosen: Namespace, brew: Brew, entries: tuple[Entry, ...]) -> int:
    """Print what packaging takes; write that it is done where that is said and may be.

    Raises RefusedInputError where it is said to be done and may not be.
    """
    found = brewed_beer(brew, entries, chosen.fermenter)
    packing = packing_told(chosen, found.packed.packing)
    again = found.beer.read_again
    packed = packaged(packing, found.today, None if again is None else again.date())
    if chosen.done:
        _write(brew, entries, packing, packed)
    if chosen.json:
        print_json({**packing_document(packing, packed), "written": bool(chosen.done)})
        return FINE
    lines = list(packing_lines(packing, packed, figures_of(chosen)))
    if found.packed.on is not None:
        on = day_and_year(found.packed.on)
        lines.insert(0, tr("It was packaged on {day} already.", day=on.text))
    if chosen.done:
        lines.append(tr("Written in its log: it is packaged."))
    print_lines(*lines)
    return FINE


def _write(brew: Brew, entries: tuple[Entry, ...], packing: Packing, packed: Packaged) -> None:
    if packed.refusal is not None:
        raise refused("not-packaged", "{name}: {why}", name=one_line(brew.name), why=packed.refusal)
    for code, caution in packed.cautions:
        if code in packed.to_tick:
            raise refused(
                "not-ticked",
                "{caution} If you have read that and see to it, say so with --tick {code}.",
                caution=caution,
                code=code,
            )
    own = packed.sugar(packing.sugar)
    values: dict[str, Any] = {
        "packing": values_of_packing(packing),
        "said": packing_said(packing, packed),
    }
    if own is not None and packing.package != Package.KEG:
        values["grams"] = own.grams
    write(brew, entries, (What.PACKAGED, values))
