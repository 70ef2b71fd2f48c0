"""What can be found in the window: pages, fields, lines, ingredients, terms, guide, actions."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields
from functools import partial
from typing import NamedTuple

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu

from designer.guide.headings import headed_pages
from designer.library import glossary
from designer.recipe.document import LINE_TYPES, PART_TYPES
from designer.recipe.fields import facts_of
from designer.recipe.named import lines_of, part_of, value_of
from designer.recipe.place import Place, read_place
from designer.recipe.quantity import Quantity
from designer.translation import labelled, message, named, spoken, tr
from designer.window.compose.process_form import GROUPS
from designer.window.find.adding import add, words_of_adding
from designer.window.paged_window import COMPOSE, PagedWindow
from designer.window.parts.menu_drawings import drawing_of
from designer.window.parts.plain_text import as_read
from designer.window.parts.things_drawn import of_ingredient, of_offer
from designer.window.parts.written_figures import written_figures
from designer.workbench.catalogue_words import PARTS, entry_lines
from designer.workbench.figure_sources import Entry


class Act(NamedTuple):
    """What is offered about a thing that was found, and what does it."""

    words: str
    do: Callable[[], object]


class Thing(NamedTuple):
    """Something that can be found.

    `group` says what kind of thing it is, `beside` what tells it from others of its name. `told` is
    read where the thing is looked at closer. `act` is what is done with it; `at_once` where Return
    alone does it, else what it is and what it would do is read first. `why_off` says why not now.
    """

    title: str
    group: str
    beside: str = ""
    words: str = ""
    told: Callable[[], str] = str
    act: Act | None = None
    at_once: bool = True
    why_off: str = ""
    key: str = ""
    drawing: str = ""
    """What is drawn before it, in `resources/icons`."""


def things_of(window: PagedWindow) -> list[Thing]:
    """Return all that can be found in a window as it is now."""
    found = [*_pages(window)]
    if window.opened.is_open:
        found += [*_fields(window), *_lines(window)]
    return [*found, *_catalogue(window), *_terms(window), *_guide(window), *_actions(window)]


def pages_of(window: PagedWindow) -> list[Thing]:
    """Return the pages, for whoever has typed nothing yet."""
    return list(_pages(window))


def _pages(window: PagedWindow) -> Iterator[Thing]:
    for number, name in enumerate(window.page_names):
        act = Act(tr("Show the page"), partial(window.show_page, number))
        yield Thing(tr(name), tr("Page"), act=act, why_off=window.why_off(number))


# the open recipe


def _fields(window: PagedWindow) -> Iterator[Thing]:
    for place, label in ((Place("name"), tr("Name of the recipe")), (Place("style"), tr("Style"))):
        text = value_of(window.opened.recipe, place.of)
        text = named(text) if place.of == "style" else text
        yield _field(window, place, label, tr("Recipe"), text)
    for group in GROUPS:
        for written in group.places:
            place = read_place(written)
            label, text = _label_and_text(window, place)
            yield _field(window, place, tr(label), tr(group.heading), text)


def _label_and_text(window: PagedWindow, place: Place) -> tuple[str, str]:
    recipe = window.opened.recipe
    if place.of not in PART_TYPES:
        return message("Notes"), value_of(recipe, place.of)
    metadata = next(
        each.metadata for each in fields(PART_TYPES[place.of]) if each.name == place.field
    )
    label = metadata["label"] if "label" in metadata else metadata["facts"].label
    value = value_of(part_of(recipe, place.of), place.field)
    if isinstance(value, Quantity):
        return label, window.display.quantity(metadata["facts"].kind, value)
    return label, tr(str(value)) if metadata.get("choices") and value else str(value or "")


def _field(window: PagedWindow, place: Place, label: str, group: str, text: str) -> Thing:
    shown = " ".join(text.split())[:60]
    beside = labelled(group, shown) if shown else group
    act = Act(tr("Go to the field"), partial(_go_to, window, place))
    return Thing(label, tr("Field"), beside, group, act=act)


def _go_to(window: PagedWindow, place: Place) -> None:
    if place.of == "name":
        window.header.name.setFocus()
        window.header.name.selectAll()
    elif place.of == "style":
        window.header.begin_style()
        window.header.style_field.selectAll()
    else:
        window.show_page(window.page_names.index(COMPOSE))
        window.compose.go_to(place)


def _lines(window: PagedWindow) -> Iterator[Thing]:
    for lines in LINE_TYPES:
        for line in lines_of(window.opened.recipe, lines):
            place = Place(lines, "name", line.line_id)
            amount = window.display.quantity(facts_of(line, "amount").kind, line.amount)
            beside = " · ".join(each for each in (amount, window.display.when(line.when)) if each)
            act = Act(tr("Go to the line"), partial(_go_to, window, place))
            yield Thing(
                named(line.name),
                tr("Line of the recipe"),
                beside,
                line.name,
                act=act,
                drawing=of_ingredient(line.name),
            )


# what is known


def _catalogue(window: PagedWindow) -> Iterator[Thing]:
    for part, (heading, rows) in PARTS.items():
        for row in rows():
            yield _ingredient(window, part, tr(heading), row)


def _ingredient(window: PagedWindow, part: str, heading: str, row: Entry) -> Thing:
    adding = Act(words_of_adding(part), partial(add, window, part, row))
    kind = str(getattr(row, "form", "") or getattr(row, "kind", "") or getattr(row, "code", ""))
    beside = tr(kind) if kind and part != "styles" else kind
    return Thing(
        named(row.name),
        heading,
        beside,
        f"{beside} {heading} {row.name}",
        told=lambda: "\n\n".join(entry_lines(row, written_figures(window.display))[1:]),
        act=adding,
        at_once=False,
        why_off="" if window.opened.is_open else tr("No recipe is open that it could go into"),
        drawing=of_offer(part, row.name),
    )


def _terms(window: PagedWindow) -> Iterator[Thing]:
    for each in glossary.terms():
        name, *others = each.called
        act = Act(tr("Show in the glossary"), partial(_show_term, window, name))
        yield Thing(
            name[:1].upper() + name[1:],
            tr("Glossary"),
            ", ".join(others),
            " ".join(others),
            told=partial(glossary.in_words, each),
            act=act,
            at_once=False,
            drawing="action-glossary",
        )


def _show_term(window: PagedWindow, name: str) -> None:
    from designer.window.glossary_list import GlossaryList

    shown = GlossaryList(window)
    shown.search.setText(name)
    shown.open()


def _guide(window: PagedWindow) -> Iterator[Thing]:
    """The pages of the guide, and below each what its headings lead to."""
    for page in headed_pages(spoken()):
        for heading in ("", *page.headings):
            act = Act(
                tr("Open the guide there"), partial(window.guide_wanted.emit, page.page, heading)
            )
            yield Thing(
                heading or page.title,
                tr("Guide"),
                page.title if heading else "",
                page.title if heading else tr("Guide"),
                act=act,
                drawing="action-help",
            )


# what the menus can do


def _actions(window: PagedWindow) -> Iterator[Thing]:
    for action in window.menuBar().actions():
        menu = action.menu()
        if isinstance(menu, QMenu):
            yield from _of_menu(menu, as_read(action.text()))


def _of_menu(menu: QMenu, path: str) -> Iterator[Thing]:
    for action in menu.actions():
        below = action.menu()
        if isinstance(below, QMenu):
            yield from _of_menu(below, tr("{menu}, {entry}", menu=path, entry=_text(action)))
        elif not action.isSeparator() and action.text():
            yield _action(action, path)


def _text(action: QAction) -> str:
    return as_read(action.text().partition("\t")[0]).rstrip("…")


def _action(action: QAction, path: str) -> Thing:
    key = action.text().partition("\t")[2] or action.shortcut().toString(
        QKeySequence.SequenceFormat.NativeText
    )
    why_off = ""
    if not action.isEnabled():
        why_off = _reason(action)
    return Thing(
        _text(action),
        tr("Menu {path}", path=path),
        tr("chosen now") if action.isCheckable() and action.isChecked() else "",
        path,
        act=Act(tr("Do it"), action.trigger),
        why_off=why_off,
        key=key,
        drawing=drawing_of(action),
    )


def _reason(action: QAction) -> str:
    """Why an action is off: what its tip says, which else repeats its words."""
    tip = action.toolTip()
    plain = as_read(action.text().partition("\t")[0])
    said = tip if tip and not plain.startswith(tip) and tip != plain else ""
    return said or tr("There is nothing just now that it could do")
