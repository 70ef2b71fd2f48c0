"""`hobwort glossary`: what the words of the trade mean."""

from __future__ import annotations

from argparse import Namespace
from textwrap import wrap

from designer.command_line.output import FINE, print_json, print_lines
from designer.library.glossary import in_words, looked_up, terms
from designer.recipe.message import refused
from designer.translation import tr
from designer.units.quoting import one_line

WIDTH = 100


def carry_out(chosen: Namespace) -> int:
    """Print the terms that are meant; without one, all of them."""
    asked = one_line(" ".join(chosen.term)).strip()
    found = looked_up(asked) if asked else terms()
    if not found:
        raise refused(
            "not-in-glossary",
            "The glossary has no term “{asked}”, and none with such words in its meaning. Try one "
            "word of it, or leave it out to see all {count} terms.",
            asked=asked,
            count=f"{len(terms())}",
        )
    if chosen.json:
        print_json(
            {
                "asked": asked,
                "terms": [
                    {
                        "term": each.called[0],
                        "names": list(each.called[1:]),
                        "meaning": tr(each.meaning),
                        "source": each.source or None,
                    }
                    for each in found
                ],
            }
        )
        return FINE
    for each in found:
        print_lines(*wrap(in_words(each), WIDTH, subsequent_indent="  ", break_on_hyphens=False))
    return FINE
