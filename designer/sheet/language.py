"""The language of the sheet: its messages are English sentences, looked up by gettext.

A message holds names in braces for what is put in, and stars around what stands out:
`"Pour *{water}* of cold water into the pot."` What a brewer typed is put in after the message was
taken apart, so no brace or star in a name is ever taken for one of ours. Translations are the
`.po` files in resources/translations, read when a language is first asked for.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from math import ceil
from string import Formatter

from designer.errors import DesignerError
from designer.po_file import PoCatalogue
from designer.resource_files import resource_path
from designer.sheet.blocks import Strong, Words
from designer.spoken_language import LANGUAGES, catalogue_of, names_in
from designer.translation import Catalogue, spoken, tr


@dataclass(frozen=True)
class Language:
    """Messages and marks of a language: `code` is that of `LANGUAGES`.

    `names` has what it calls ingredients, styles and what the catalogue says of them.
    """

    code: str
    decimal_comma: bool
    catalogue: Catalogue
    names: Catalogue

    def say(self, message: str, /, *figures: str, **parts: str) -> str:
        """Return the message in this language with its parts put in."""
        text = self.catalogue.gettext(message) if message else ""
        return text.format(*figures, **parts) if figures or parts else text

    def named(self, name: str) -> str:
        """Return a name of the catalogue in this language; any other as it is."""
        return self.names.gettext(name) if name else ""

    def count(self, one: str, many: str, number: int, /, **parts: str) -> str:
        """Return `one` or `many` of something, as the language counts; `{number}` is put in."""
        text = self.catalogue.ngettext(one, many, number)
        return text.format(number=number, **parts)

    def count_of(self, one: str, many: str, amount: float, shown: str) -> str:
        """Return `one` or `many` of something that may be halved, its amount written as `shown`.

        Up to one there is one of it; in French up to two.
        """
        whole = int(amount) if self.code == "fr" else ceil(amount)
        text = self.catalogue.ngettext(one, many, max(whole, 1))
        return text.format(number=shown)

    def words(self, message: str, /, **parts: str | Words) -> Words:
        """Return the message as runs, strong where it stands between stars.

        A sentence begins with a capital, even where another language puts first what is put in.
        """
        runs: list[str | Strong] = []
        for place, piece in enumerate(self.catalogue.gettext(message).split("*")):
            for run in _put_in(piece, parts):
                strong = place % 2 == 1 and isinstance(run, str)
                runs.append(Strong(str(run)) if strong else run)
        is_sentence = message.lstrip("*")[:1].isupper()
        return _capital(_joined(runs)) if is_sentence else _joined(runs)

    def figure(self, text: str) -> str:
        """Return a figure with the decimal sign of the language."""
        return text.replace(".", ",") if self.decimal_comma else text


def _put_in(piece: str, parts: Mapping[str, str | Words]) -> list[str | Strong]:
    runs: list[str | Strong] = []
    for text, name, _, _ in Formatter().parse(piece):
        runs.append(text)
        if name is not None:
            part = parts[name]
            runs += [part] if isinstance(part, str) else part
    return runs


def _joined(runs: list[str | Strong]) -> Words:
    """Neighbours of one kind as one run, and nothing empty."""
    made: list[str | Strong] = []
    for run in runs:
        last = made[-1] if made else None
        if isinstance(run, Strong) and isinstance(last, Strong):
            made[-1] = Strong(last.text + run.text)
        elif isinstance(run, str) and isinstance(last, str):
            made[-1] = last + run
        elif run not in ("", Strong("")):
            made.append(run)
    return tuple(made)


def _capital(words: Words) -> Words:
    """Words with a capital at their beginning."""
    if not words:
        return words
    first, *rest = words
    text = first.text if isinstance(first, Strong) else first
    text = text[:1].upper() + text[1:]
    return (Strong(text) if isinstance(first, Strong) else text, *rest)


@cache
def language(code: str) -> Language:
    """Return a language by its code, one of `LANGUAGES`.

    Raises ValueError for any other, and DesignerError where its words are not there.
    """
    if code not in LANGUAGES:
        raise ValueError(code)
    if code == "en":
        return Language(code, False, PoCatalogue(), PoCatalogue())
    try:
        return Language(code, True, catalogue_of(code), names_in(code))
    except (OSError, ValueError) as fault:  # ValueError: what the file holds is no text
        path = getattr(fault, "filename", None) or resource_path(f"translations/{code}.po")
        words = tr(
            "The words of the sheet in {language} cannot be read: {path}. Choose another language "
            "for the sheet, or install Hobwort anew.",
            language=LANGUAGES[code],
            path=str(path),
        )
        raise DesignerError(words) from fault


def language_spoken() -> Language:
    """Return the language of the program; English where its words are not there.

    A brew day goes on in English rather than not at all.
    """
    try:
        return language(spoken())
    except DesignerError:
        return language("en")


def message(text: str) -> str:
    """Mark a message that is said elsewhere, by its variable: it is to be translated too."""
    return text


def plural(one: str, many: str) -> tuple[str, str]:
    """Mark a message and its plural, which are counted elsewhere."""
    return one, many
