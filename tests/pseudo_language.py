"""A language in which no letter of English is left: what was never looked up stands out.

Each letter of a sentence is changed for one with a mark, and the sentence put between brackets;
what is put in comes after that and stays as it is. So whatever is English in a text that is shown
is either a brewer's own (a name, an amount as typed), a unit, or a sentence that was forgotten.
"""

import re
from dataclasses import fields, is_dataclass

from designer.brewday.predictions import PREDICTIONS
from designer.library import catalogue
from designer.library.sources import STYLE_NUMBERS
from designer.recipe.kinds import KINDS
from designer.recipe.quantity import Quantity, When

_PLAIN = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
_MARKED = "áƀçđéƒğĥíĵķłɱñöþʠřšţúṽŵẋýžÁɃÇĐÉƑĞĤÍĴĶŁṀÑÖÞɊŘŠŢÚṼŴẊÝŽ"
_LETTERS = str.maketrans(_PLAIN, _MARKED)
_KEPT = re.compile(r"\{[^}]*\}|<[^>]+>|&\w+;|\*\.\w+")
"""Places for what is put in, marks of rich text, and endings of files are no words."""
_KEY = re.compile(r"(?<=[\t+])[A-Z]\b")
"""A key of one letter, as a menu has it behind its words, alone or with others."""
_UNITS = {form.unit for kind in KINDS.values() for form in (*kind.metric, *kind.us)}
_UNITS |= {each.unit for each in PREDICTIONS}
UNITS = {word for unit in _UNITS for word in re.findall(r"[A-Za-z]+", unit)} | {
    "C", "EBC", "F", "MB", "P", "SRM", "d", "h", "kB", "m", "packet", "pt", "tablet",
}  # fmt: skip


class PseudoLanguage:
    """The catalogue; `said` holds what was looked up."""

    def __init__(self):
        self.said = set()

    def gettext(self, text):
        self.said.add(text)
        return f"⟦{marked(text)}⟧"

    def pgettext(self, context, message):
        return self.gettext(message)

    def ngettext(self, one, many, number):
        return self.gettext(one if number == 1 else many)


def marked(text):
    """Return a template with marks on all its letters, and its places as they are."""
    ends = [match.span() for match in _KEPT.finditer(text)]
    made, at = "", 0
    for start, end in ends:
        made += text[at:start].translate(_LETTERS) + text[start:end]
        at = end
    return made + text[at:].translate(_LETTERS)


def english_left(text, own=()):
    """Return the words of a text that nobody looked up; `own` are a brewer's own texts."""
    text = _KEY.sub(" ", text)
    text = " ".join(text.split())  # a tip is broken into lines
    if text.endswith("…") and any(each.startswith(text[:-1]) for each in own):
        return []  # shortened with a sign
    for each in sorted(own, key=len, reverse=True):
        text = text.replace(each, " ")
    text = re.sub(r"<[^>]+>|&\w+;", " ", text)
    return [word for word in re.findall(r"[A-Za-z]+", text) if word not in UNITS]


def assert_said(texts, own):
    """All of the texts are in the language, and there is something in each."""
    assert texts
    left = {text: english_left(text, own) for text in texts}
    left = {text: words for text, words in left.items() if words or "⟦" not in text}
    assert not left, left


def own_texts(value):
    """Return all texts that a brewer typed into a recipe: no choices, for those are ours."""
    if isinstance(value, Quantity | When):
        return {value.text}
    if isinstance(value, tuple):
        return {text for each in value for text in own_texts(each)}
    if not is_dataclass(value):
        return set()
    found = set()
    for each in fields(value):
        part = getattr(value, each.name)
        if isinstance(part, str) and not each.metadata.get("choices"):
            found |= {part, " ".join(part.split())}
        else:
            found |= own_texts(part)
    return found - {""}


def catalogue_texts():
    """Return what the catalogue holds in any language: names, sources, whose the styles are."""
    kinds = (catalogue.fermentables, catalogue.hops, catalogue.yeasts, catalogue.aids)
    named = {each.name for kind in (*kinds, catalogue.styles) for each in kind()}
    return named | {each.source for kind in kinds for each in kind()} | {STYLE_NUMBERS}
