"""What the catalogue has goes into the open recipe: a line more, another yeast, another style."""

from __future__ import annotations

from dataclasses import replace

from designer.library.catalogue import YeastEntry, new_yeast
from designer.recipe.edits import ChangeRecipe, changing
from designer.recipe.message import say
from designer.recipe.place import Place
from designer.translation import message, tr
from designer.window.paged_window import COMPOSE, PagedWindow
from designer.workbench.figure_sources import Entry

WORDS = {
    "yeasts": message("Use this yeast"),
    "styles": message("Compare with this style"),
}


def words_of_adding(part: str) -> str:
    """Return what is offered about something of a part of the catalogue."""
    return tr(WORDS[part]) if part in WORDS else tr("Add as a line")


def add(window: PagedWindow, part: str, row: Entry) -> None:
    """Put something of the catalogue into the open recipe, and show it there."""
    window.show_page(window.page_names.index(COMPOSE))
    compose = window.compose
    if isinstance(row, YeastEntry):
        yeast = window.opened.recipe.yeast
        used = new_yeast(row)
        if yeast.form == used.form:
            used = replace(used, amount=yeast.amount, price=yeast.price)
        compose.worked_on.make(ChangeRecipe("yeast", used, changing("Yeast")))
        compose.go_to(Place("yeast", "name"))
    elif part == "styles":
        change = ChangeRecipe("style", row.name, say("change-style", "change style"))
        window.opened.make(change)
        window.header.begin_style()
    else:
        compose.add_named(part, row.name)
