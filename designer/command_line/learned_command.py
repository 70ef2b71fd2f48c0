"""`hobwort learned`: what brews taught of the kitchen; taken, let be, given back, left out.

Figures go by the codes that are listed; a pot, a fermenter and a yeast by their names.
"""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Iterator
from typing import Any

from designer.brewday.learning.figures import Figure, Learned
from designer.brewday.results import Range
from designer.command_line.as_chosen import figures_of
from designer.command_line.no_box import no_box_yet
from designer.command_line.output import FINE, notice, print_json, print_lines
from designer.library.store import Store, store_folder
from designer.library.store.folder import store_path
from designer.recipe.message import refused
from designer.translation import named, tr, trn
from designer.units.quoting import one_line
from designer.workbench.figures import Figures
from designer.workbench.learning.figure_places import PLACES, figure_text
from designer.workbench.learning.figure_said import kept_said, value_said
from designer.workbench.learning.figure_words import WORDS
from designer.workbench.learning.questions import bitterness_not_learned
from designer.workbench.learning.taught import (
    BrewRow,
    Taught,
    give_back,
    keep,
    let_count,
    take,
    taught_of,
)

FORM = 1
"""Number of the form of the JSON: it grows when a key changes what it holds, or goes."""


def carry_out(chosen: Namespace) -> int:
    """Print what was learned, or do with it what is said."""
    folder = store_folder()
    if not store_path(folder).exists():
        notice([no_box_yet(folder).text])
        return FINE
    with Store.open(folder, expected=True) as store:
        taught = taught_of(store)
        if chosen.does == "list":
            _print(taught, chosen)
        elif chosen.does in ("leave-out", "count"):
            _count(store, taught, chosen)
        else:
            _decide(store, taught, chosen)
    return FINE


def code_of(figure: Figure) -> str:
    """Return what a figure is called on the command line."""
    return figure.name.lower()


def _print(taught: Taught, chosen: Namespace) -> None:
    if chosen.json:
        print_json(learned_document(taught))
        return
    figures = figures_of(chosen)
    lines = [
        line for each in taught.learned if each.steps for line in _lines(taught, each, figures)
    ]
    told = lines or [
        tr("No brew has told anything of your kitchen yet. Your first brew day starts this.")
    ]
    print_lines(*told, "", bitterness_not_learned().text, *_brew_lines(taught, figures))


def _lines(taught: Taught, known: Learned, figures: Figures) -> Iterator[str]:
    name = tr(WORDS[known.figure].name)
    of = f"{name}, {named(one_line(known.subject))}" if known.subject else name
    start, now = (_range(known.figure, each, figures) for each in (known.start, known.known))
    yield f"{of} ({code_of(known.figure)})"
    yield "  " + tr(
        "at the start {value}, {low} to {high}", value=start[0], low=start[1], high=start[2]
    )
    yield "  " + tr("now {value}, {low} to {high}", value=now[0], low=now[1], high=now[2])
    counted = sum(each.counts for each in known.steps)
    yield "  " + trn("from {number} brew", "from {number} brews", counted)
    if known.disagree:
        yield "  " + tr("The brews say different things, so the range is wide.")
    yield f"  {_state(taught, known, figures)}"


def _range(figure: Figure, found: Range, figures: Figures) -> tuple[str, ...]:
    """Value, low and high, each with its unit."""
    return tuple(_value(figure, each, figures) for each in (found.value, found.low, found.high))


def _value(figure: Figure, value: float, figures: Figures) -> str:
    return value_said(figure, value, figures.exactly, figures.plain)


def _kept(figure: Figure, text: str, figures: Figures) -> str:
    return kept_said(figure, text, figures) if text else tr("nothing")


def _state(taught: Taught, known: Learned, figures: Figures) -> str:
    taken = taught.taken_for(known.figure, known.subject)
    if taken is not None:
        value, before = (_kept(known.figure, each, figures) for each in (taken.value, taken.before))
        return tr("taken: {value}; before it was {before}", value=value, before=before)
    if taught.kept_for(known.figure, known.subject) is not None:
        return tr("left as it is")
    if not known.enough:
        return tr("not sure enough yet to be taken")
    return tr(
        "can be taken: {value}",
        value=_kept(known.figure, figure_text(known.figure, known.known), figures),
    )


def _brew_lines(taught: Taught, figures: Figures) -> Iterator[str]:
    for number, row in enumerate(taught.brews, 1):
        if number == 1:
            yield ""
        yield f"{number} · {row.started[:10]} · {one_line(row.name)}"
        for each in row.seen:
            name = tr(WORDS[each.figure].name)
            said = f"  {name} {_value(each.figure, each.value, figures)}"
            yield said if each.counts else tr("{figure}, left out", figure=said)
        if row.question is not None:
            yield f"  {figures.said(row.question)}"


def learned_document(taught: Taught) -> dict[str, Any]:
    """Return what was learned as plain values, figures in base units."""
    return {
        "form": FORM,
        "figures": [_figure(taught, each) for each in taught.learned],
        "brews": [_brew(number, each) for number, each in enumerate(taught.brews, 1)],
    }


def _figure(taught: Taught, known: Learned) -> dict[str, Any]:
    taken = taught.taken_for(known.figure, known.subject)
    return {
        "figure": code_of(known.figure),
        "subject": known.subject,
        "start": _span(known.start),
        "now": _span(known.known),
        "steps": [
            {
                "brew": each.brew,
                "seen": each.seen,
                "now": _span(each.known),
                "counts": each.counts,
                "odd": each.odd,
            }
            for each in known.steps
        ],
        "enough": known.enough,
        "disagree": known.disagree,
        "taken": None
        if taken is None
        else {
            "value": taken.value,
            "before": taken.before,
            "at": taken.at,
            "brews": list(taken.brews),
        },
    }


def _span(found: Range) -> dict[str, float]:
    return {"value": found.value, "low": found.low, "high": found.high}


def _brew(number: int, row: BrewRow) -> dict[str, Any]:
    return {
        "number": number,
        "uid": row.uid,
        "name": row.name,
        "started": row.started,
        "seen": [
            {
                "figure": code_of(each.figure),
                "subject": each.subject,
                "value": each.value,
                "counts": each.counts,
                "odd": each.odd,
            }
            for each in row.seen
        ],
        "question": None if row.question is None else row.question.text,
    }


def _decide(store: Store, taught: Taught, chosen: Namespace) -> None:
    known, figures = _known(taught, chosen), figures_of(chosen)
    name = tr(WORDS[known.figure].name)
    if chosen.does == "take":
        done = take(store, known)
        print_lines(
            tr(
                "{figure}: {value} is taken.",
                figure=name,
                value=_kept(known.figure, done.value, figures),
            )
        )
    elif chosen.does == "keep":
        keep(store, known)
        print_lines(tr("{figure} is left as it is.", figure=name))
    else:
        was = give_back(store, known.figure, known.subject)
        if was is None:
            print_lines(tr("{figure} was not taken.", figure=name))
            return
        before = _kept(known.figure, was.before, figures)
        print_lines(tr("{figure} is back to {before}.", figure=name, before=before))


def _known(taught: Taught, chosen: Namespace) -> Learned:
    figure = _figure_of(chosen.figure)
    found = [each for each in taught.learned if each.figure is figure]
    if chosen.subject is None and len(found) == 1:
        return found[0]
    known = taught.of(figure, chosen.subject or "")
    if known is not None:
        return known
    names = ", ".join(named(one_line(each.subject)) for each in found)
    if not names:
        raise refused(
            "nothing-learned-of-it", "No brew tells of {figure} yet.", figure=chosen.figure
        )
    raise refused(
        "learned-of-which",
        "{figure} was learned of {names}; name one of these.",
        figure=chosen.figure,
        names=names,
    )


def _figure_of(code: str) -> Figure:
    return next(each for each in PLACES if code_of(each) == code)


def _count(store: Store, taught: Taught, chosen: Namespace) -> None:
    if not 1 <= chosen.number <= len(taught.brews):
        raise refused(
            "no-brew-that-teaches",
            "There is no brew {number}; hobwort learned lists them, the last begun first.",
            number=chosen.number,
        )
    row, figure = taught.brews[chosen.number - 1], _figure_of(chosen.figure)
    counts = chosen.does == "count"
    let_count(store, row.uid, figure, counts=counts)
    name, when = tr(WORDS[figure].name), row.started[:10]
    said = (
        tr("{figure} of the brew of {when} counts.", figure=name, when=when)
        if counts
        else tr("{figure} of the brew of {when} is left out.", figure=name, when=when)
    )
    print_lines(said)
