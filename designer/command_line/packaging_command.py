"""`hobwort packaging`: what it takes to bottle or keg a beer that no log tells of."""

from __future__ import annotations

from argparse import Namespace
from datetime import date

from designer.brewday.packaging.fizz import USUAL
from designer.brewday.packaging.packaged import Packing
from designer.brewday.packaging.packed import packaged
from designer.command_line.as_chosen import figures_of
from designer.command_line.output import FINE, print_json, print_lines
from designer.command_line.packing_options import packing_told
from designer.workbench.brew.packing_text import packing_document, packing_lines


def carry_out(chosen: Namespace) -> int:
    """Print what it takes; of beer that nobody called finished, that it waits."""
    finished = chosen.finished == "yes"
    unasked = Packing(0.0, USUAL.volumes, 20.0, 0.0 if finished else None, done=finished)
    packing = packing_told(chosen, unasked)
    packed = packaged(packing, date.today())
    if chosen.json:
        print_json(packing_document(packing, packed))
    else:
        print_lines(*packing_lines(packing, packed, figures_of(chosen)))
    return FINE
