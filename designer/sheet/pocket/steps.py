"""The steps of the pocket page as plain HTML, as they are read and printed without any script."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from html import escape

from designer.sheet.blocks import Aside, Strong, Table, Words
from designer.sheet.language import Language
from designer.sheet.pocket.blanks import blank_html
from designer.sheet.stove import StoveStep
from designer.units import ShownUnits

_SIGNS = {"care": "⚠ ", "stop": "⛔ "}


def steps_html(
    steps: Iterable[StoveStep], shown: ShownUnits, spoken: Language, tables: Iterable[Table] = ()
) -> str:
    """Return all steps as items of a list, a heading before those of another day.

    `tables` stand where the gravity is read.
    """
    told = "\n".join(map(_table, tables))
    return "\n".join(_items(steps, shown, spoken, told))


def _items(
    steps: Iterable[StoveStep], shown: ShownUnits, spoken: Language, tables: str
) -> Iterator[str]:
    day = 0
    for number, step in enumerate(steps, 1):
        if step.on_day != day:
            day = step.on_day
            yield f'<li class="day">{escape(spoken.say("Day {days}", days=str(day)))}</li>'
        read = tables if step.kind == "read" else ""
        yield _step(step, f"step-{number}", shown, spoken, read)


def _step(step: StoveStep, place: str, shown: ShownUnits, spoken: Language, tables: str) -> str:
    tick = spoken.say("done: {what}", what=label_of(step))
    whens = [step.when.replace("\n", " "), step.left.replace("\n", " "), step.whose]
    when = " · ".join(each for each in whens if each)
    large = f'<span class="amount">{escape(step.amount)}</span> ' if step.amount else ""
    parts = [f'<p class="do">{_words(step.do)}</p>', *_portions(step), *map(_aside, step.asides)]
    parts += [
        blank_html(each, f"{place}-{number}", shown, spoken)
        for number, each in enumerate(step.blanks, 1)
    ]
    parts += [tables] if tables else []
    return (
        f'<li class="step" id="{place}" data-key="{escape(step.key)}">\n<div class="line">'
        f'<label class="tick"><input type="checkbox" aria-label="{escape(tick)}"></label>'
        f'<span class="mark" aria-hidden="true">{escape(step.mark)}</span>'
        f'<button type="button" class="what" aria-expanded="true" aria-controls="{place}-more">'
        f'<span class="title">{escape(step.title)}</span>'
        f'{large}<span class="name">{escape(step.name)}</span>'
        f'<span class="when">{escape(when)} <b class="came"></b></span></button></div>\n'
        f'<div class="more" id="{place}-more">\n' + "\n".join(parts) + "\n"
        '<div class="act row"></div>\n</div>\n</li>'
    )


def label_of(step: StoveStep) -> str:
    """Return a step in a few words, with its boil or fermenter where there are several."""
    return f"{step.title}, {step.whose}" if step.whose else step.title


def _portions(step: StoveStep) -> list[str]:
    """What goes in, where that is several things: one is named in large type already."""
    if len(step.portions) < 2:
        return []
    items = "\n".join(
        f"<li><b>{escape(each.amount)}</b> {escape(each.name)}</li>" for each in step.portions
    )
    return [f'<ul class="portions">\n{items}\n</ul>']


def _table(table: Table) -> str:
    """A table with its columns as rows, for it is high rather than wide on a phone."""
    head, *rows = zip(table.head, *table.rows, strict=True)
    heads = "".join(f'<th scope="col">{escape(cell)}</th>' for cell in head)
    lines = "\n".join(
        f'<tr><th scope="row">{escape(first)}</th>'
        + "".join(f"<td>{escape(cell)}</td>" for cell in cells)
        + "</tr>"
        for first, *cells in rows
    )
    return (
        f"<table>\n<caption>{escape(table.caption)}</caption>\n<thead><tr>{heads}</tr></thead>\n"
        f"<tbody>\n{lines}\n</tbody>\n</table>"
    )


def _aside(aside: Aside) -> str:
    return f'<p class="{escape(aside.kind)}">{_SIGNS.get(aside.kind, "")}{escape(aside.text)}</p>'


def _words(words: Words) -> str:
    return "".join(
        f"<b>{escape(run.text)}</b>" if isinstance(run, Strong) else escape(run) for run in words
    )
