"""What an odd reading says as one page to print: the same sentences as read out on the phone."""

from __future__ import annotations

from designer.brewday.explaining.asked import GravitySample
from designer.brewday.explaining.explained import Explained
from designer.sheet.blocks import Form, Head, Paragraph, Section, Sheet, Strong
from designer.translation import tr
from designer.units import ShownUnits
from designer.workbench.figures import Figures
from designer.workbench.reading_text import as_it_was_read, reading_lines


def reading_sheet(
    told: Explained, sample: GravitySample, shown: ShownUnits, about: str, language: str = "en"
) -> Sheet:
    """Return the page; `about` is what was told of the kit."""
    read, verdict, words, *rest = reading_lines(told, sample, _figures(shown, sample))
    blocks = [Paragraph((read,)), Paragraph((Strong(verdict), " ", words))]
    blocks += [_paragraph(each) for each in rest if each.strip() and "--set" not in each]
    head = Head(tr("What the reading says"), about, "", (), (), None)
    section = Section("reading", tr("The reading"), "", tuple(blocks))
    return Sheet("full", head, (section,), "", language, Form(pages=1))


def _figures(shown: ShownUnits, sample: GravitySample) -> Figures:
    return as_it_was_read(Figures(shown), sample)


def _paragraph(line: str) -> Paragraph:
    """Return a line as a paragraph: heads stand out, what belongs to one follows it."""
    if line.startswith(" "):
        name, sign, about = line.strip().partition(":")
        return Paragraph((Strong(f"{name}{sign}"), about) if sign else (name,))
    return Paragraph((Strong(line),))


def reading_page_text(told: Explained, sample: GravitySample, shown: ShownUnits, about: str) -> str:
    """Return the page as text, to be copied into a message."""
    lines = [
        each for each in reading_lines(told, sample, _figures(shown, sample)) if "--set" not in each
    ]
    return "\n".join([*([about] if about else []), *lines, ""])
