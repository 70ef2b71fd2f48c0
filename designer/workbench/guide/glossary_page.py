"""The page of the guide that holds the glossary, made of the program's own."""

from __future__ import annotations

from designer.library.glossary import headed, terms
from designer.translation import tr
from designer.workbench.guide.blocks import Grid, Page, Paragraph, Span, Way, Words
from designer.workbench.guide.spoken import speaking


def glossary_page(language: str) -> Page:
    """Return the glossary in a language, in the order of its alphabet."""
    with speaking(language):
        rows = []
        for each in terms():
            name = headed(each)
            others = [other for other in each.called[1:] if other not in name]
            meaning = tr(each.meaning)
            if others:
                meaning = f"{meaning} {tr('Also: {names}', names=', '.join(others))}."
            if each.source:
                meaning = f"{meaning} {tr('Source: {source}', source=each.source)}."
            rows.append((_strong(name), (Span(meaning),)))
        rows.sort(key=lambda row: row[0][0].text.lower().lstrip("°"))
        about = (
            Span(tr("Point at any of these words in the program and rest: its meaning is shown.")),
        )
        grid = Grid((_plain(tr("Term")), _plain(tr("Meaning"))), tuple(rows))
        return Page("glossary", tr("Glossary"), (Paragraph(about), grid))


def _plain(text: str) -> Words:
    return (Span(text),)


def _strong(text: str) -> Words:
    return (Span(text, Way.STRONG),)
