"""`hobwort convert`: a quantity in another unit."""

from __future__ import annotations

import sys
from argparse import Namespace

from designer.command_line.as_chosen import figures_of
from designer.command_line.output import FINE, print_json
from designer.recipe.quantity import Kind
from designer.translation import tr
from designer.units.converting import convert, plainly
from designer.units.quoting import one_line


def carry_out(chosen: Namespace) -> int:
    """Print the quantity in the unit asked for."""
    kind = Kind(chosen.kind) if chosen.kind is not None else None
    typed, unit = one_line(chosen.quantity).strip(), one_line(chosen.unit).strip()
    found = convert(typed, unit, kind)
    if chosen.json:
        document: dict[str, object] = {
            "quantity": typed,
            "kind": found.kind.value,
            "value": found.value,
            "unit": unit,
        }
        if found.ends is not None:
            document |= dict(zip(("low", "high"), found.ends, strict=True))
        print_json(document)
    else:
        figures = figures_of(chosen)
        told = [figures.plain(plainly(each)) for each in found.ends or (found.value,)]
        figure = tr("{low} to {high}", low=told[0], high=told[1]) if found.ends else told[0]
        sys.stdout.write(f"{typed} = {figure} {unit}\n")
    return FINE
