"""`hobwort find`: recipes of the Recipe box, by the words that its search field takes."""

from __future__ import annotations

from argparse import Namespace

from designer.command_line.as_chosen import figures_of
from designer.command_line.no_box import no_box_yet
from designer.command_line.output import FINE, REFUSED, complain, notice, print_json, print_lines
from designer.library.store import Store, store_folder
from designer.library.store.folder import store_path
from designer.library.store.search import Found
from designer.recipe.quantity import Kind
from designer.workbench.box_search import fits_told, found_document, found_lines

MOST = 100_000


def carry_out(chosen: Namespace) -> int:
    """Print the recipes that match; what is not understood is refused, and nothing is printed."""
    found = _found(" ".join(chosen.words))
    if found.problems:
        complain(found.problems)
        return REFUSED
    if chosen.json:
        print_json(found_document(found))
    else:
        figures = figures_of(chosen)
        told = [fits_told(pot, figures(Kind.VOLUME, pot.foam_line_l)) for pot in found.pots]
        print_lines(*found_lines(found, figures), *told)
    return FINE


def _found(typed: str) -> Found:
    folder = store_folder()
    if not store_path(folder).exists():
        notice([no_box_yet(folder).text])
        return Found(())
    with Store.open(folder, expected=True) as store:
        return store.finder.find(typed, limit=MOST, hurry_s=None)
