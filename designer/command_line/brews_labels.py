"""`hobwort brews labels`: labels for the bottles of a brew, to cut out."""

from __future__ import annotations

from argparse import Namespace
from collections.abc import Sequence

from designer.command_line.as_chosen import language_of, paper_of, units_of
from designer.command_line.brews_beer import brewed_beer
from designer.command_line.new_file import kind_of_output, write_out
from designer.command_line.output import FINE, notice
from designer.command_line.packing_options import bottles_told
from designer.library.store.brews import Brew
from designer.recipe.choices import Package
from designer.recipe.message import refused
from designer.sheet.labels import (
    MOST_LABELS,
    BottleLabel,
    as_typed,
    label_words,
    labels_for,
    labels_text,
)
from designer.sheet.language import language
from designer.translation import tr, trn
from designer.units.quoting import one_line
from designer.workbench.brew.entries import Entry
from designer.workbench.brew.packing_of_beer import label_facts

SUFFIXES = (".pdf", ".txt")


def carry_out(chosen: Namespace, brew: Brew, entries: tuple[Entry, ...]) -> int:
    """Write a label for each bottle. Raises RefusedInputError where there is no bottle to label."""
    suffix = kind_of_output(chosen.output, SUFFIXES, chosen.format, force=chosen.force)
    found = brewed_beer(brew, entries, chosen.fermenter)
    packing = bottles_told(chosen.bottles, found.packed.packing)
    if packing.package == Package.KEG and chosen.bottles is None:
        raise refused(
            "no-bottles-to-label",
            "{name} goes into a keg; name the bottles with --bottles to have labels for them.",
            name=one_line(brew.name),
        )
    spoken = language(language_of(chosen))
    facts = label_facts(brew.name, found.reckoned, found.beer, found.packed, found.today)
    given = {"name": chosen.name, "allergens": chosen.allergens}
    typed = {**dict(packing.label), **{key: text for key, text in given.items() if text}}
    words = as_typed(label_words(facts, spoken), typed)
    sizes = [(each.litres, each.count) for each in packing.bottles]
    labels = labels_for(words, sizes, units_of(chosen), spoken)
    if not labels:
        raise refused(
            "no-bottle-counted",
            "No bottle is counted; name them with --bottles, such as 12 x 500 mL.",
        )
    if len(labels) < sum(count for _, count in sizes):
        notice([tr("No more than {number} labels are written at once.", number=MOST_LABELS)])
    content, told = _content(labels, suffix, chosen)
    write_out(
        chosen.output, content, tr("{path}: {labels}.", path=one_line(chosen.output), labels=told)
    )
    return FINE


def _content(labels: Sequence[BottleLabel], suffix: str, chosen: Namespace) -> tuple[bytes, str]:
    """Return what is written, and in words what it is."""
    told = trn("{number} label", "{number} labels", len(labels))
    if suffix == ".txt":
        return labels_text(labels).encode("utf-8"), told
    # Only what is printed needs Qt.
    from designer.paper.plain_imports import import_qt

    import_qt()
    from designer.paper.labels import labels_pdf

    content, pages = labels_pdf(labels, paper_of(chosen), labels[0].words.name)
    return content, tr(
        "{labels} on {pages}", labels=told, pages=trn("{number} page", "{number} pages", pages)
    )
