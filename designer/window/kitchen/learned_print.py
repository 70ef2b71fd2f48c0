"""What the kitchen taught on one page, to hang up beside the stove."""

from __future__ import annotations

from designer.brewday.learning.figures import Learned
from designer.sheet.blocks import Head, Paragraph, Section, Sheet, Table
from designer.translation import tr
from designer.window.kitchen.figure_text import band_text, value_text
from designer.window.kitchen.learned_rows import subject_words
from designer.window.parts.display_format import DisplayFormat
from designer.workbench.learning.figure_words import figure_name
from designer.workbench.learning.questions import bitterness_not_learned
from designer.workbench.learning.taught import Taught


def learned_sheet(
    pot: str, taught: Taught, figures: tuple[Learned, ...], told: str, display: DisplayFormat
) -> Sheet:
    """Return the page of a pot; `told` says of which days it is."""
    head = (tr("Figure"), tr("At the start"), tr("Now known"), tr("Likely range"), tr("Taken"))
    rows = tuple(_row(taught, each, display) for each in figures)
    table = Table(tr("What brews in {pot} say", pot=pot or tr("the pot")), head, rows)
    section = Section("taught", tr("What your kitchen taught"), told, (
        table, Paragraph((bitterness_not_learned().text,)),
    ))  # fmt: skip
    title = Head(tr("What your kitchen taught"), pot, "", (), (), None)
    return Sheet("bench", title, (section,), tr("Hobwort"))


def _row(taught: Taught, learned: Learned, display: DisplayFormat) -> tuple[str, ...]:
    figure = learned.figure
    taken = taught.taken_for(figure, learned.subject)
    known = learned.enough
    return (
        tr("{figure}, {subject}", figure=figure_name(figure), subject=subject_words(learned)),
        value_text(figure, learned.start.value, display),
        value_text(figure, learned.known.value, display) if known else tr("not yet"),
        band_text(learned, learned.known, display) if known else "",
        tr("yes") if taken is not None else tr("no"),
    )
