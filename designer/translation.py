"""Sentences of the program in the language of its user, looked up by gettext.

A sentence is an English template with names in braces for what is put in: figures and names come
in after it was looked up, so that another language can put them in another order, and no brace in
a name is taken for one of ours. The brew sheet has a language of its own (`sheet/language.py`): it
is printed for whoever brews from it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import Protocol


class Catalogue(Protocol):
    """What gettext's catalogues can do, of which only this is needed."""

    def gettext(self, message: str, /) -> str:
        """Return a message in the language."""

    def pgettext(self, context: str, message: str, /) -> str:
        """Return a message in the language, as it is said in a context."""

    def ngettext(self, one: str, many: str, number: int, /) -> str:
        """Return one message or the other, as the language counts."""


_catalogue: Catalogue | None = None
_names: Catalogue | None = None
_code = "en"
_SIGNS = {
    "de": str.maketrans({".": ",", ",": ".", "%": "\u202f%"}),
    "fr": str.maketrans({".": ",", ",": "\u202f", "%": "\u202f%"}),
}
"""What stands in a number for the signs that English has in it: decimals, thousands, per cent."""
_RIGHT_TO_LEFT = ("ar", "fa", "he", "ur")
_turns = False
"""Whether the language is written from right to left: figures in it are not to turn around."""


def use(catalogue: Catalogue | None, code: str = "en", names: Catalogue | None = None) -> None:
    """Speak the language of a catalogue from now on; None is English, which needs none.

    `names` has what ingredients, styles and the like are called in it.
    """
    global _catalogue, _code, _names, _turns
    _catalogue, _code, _names, _turns = catalogue, code, names, code in _RIGHT_TO_LEFT


def spoken() -> str:
    """Return the code of the language that is spoken: "en", "de" ..."""
    return _code


@contextmanager
def speaking(catalogue: Catalogue | None, code: str) -> Iterator[None]:
    """Speak a language within, and then the one before again."""
    before = _catalogue, _code, _names
    use(catalogue, code)
    try:
        yield
    finally:
        use(*before)


def tr(message: str, /, **parts: object) -> str:
    """Return a sentence in the user's language, with its parts put in."""
    text = _catalogue.gettext(message) if _catalogue is not None and message else message
    return text.format(**apart(parts)) if parts else text


def tr_of(context: str, message: str, /, **parts: object) -> str:
    """Return a sentence as `tr` does that other languages say otherwise elsewhere.

    `context` tells translators what it is about there: "Next" of what is found, of a step.
    """
    text = _catalogue.pgettext(context, message) if _catalogue is not None else message
    return text.format(**apart(parts)) if parts else text


def trn(one: str, many: str, number: int, /, **parts: object) -> str:
    """Return `one` or `many` as the language counts, with `{number}` and the parts put in."""
    if _catalogue is not None:
        text = _catalogue.ngettext(one, many, number)
    else:
        text = one if number == 1 else many
    return text.format(**apart({"number": number, **parts}))


def named(name: str) -> str:
    """Return what the user's language calls an ingredient, a style or the like of the catalogue.

    A recipe keeps the English name; any other is a brewer's own, and comes back as it is.
    """
    return _names.gettext(name) if _names is not None and name else name


def isolated(figure: str) -> str:
    """Return a figure with its unit ("5 kg", "4–6") so that it reads from left to right anywhere.

    Only where a language is written the other way is it marked, by signs that nobody sees: Unicode
    Standard Annex 9, "Explicit Directional Isolates".
    """
    return f"\u2066{figure}\u2069" if _turns and figure else figure


def apart(parts: dict[str, object]) -> dict[str, object]:
    """Return what is put into a sentence: numbers with the signs of the language, texts apart.

    Where a language is written from right to left a text keeps the direction that it has.
    """
    if _turns:
        return {
            name: f"\u2068{part}\u2069" if isinstance(part, str) and part else part
            for name, part in parts.items()
        }
    if _code not in _SIGNS:
        return parts
    return {
        name: _Number(part) if isinstance(part, (int, float)) else part
        for name, part in parts.items()
    }


def with_signs(number: str) -> str:
    """Return a number that is written as in English with the signs of the language."""
    return number.translate(_SIGNS.get(_code, {}))


class _Number:
    """A number that is written with the signs of the language, as a sentence asks for it."""

    def __init__(self, value: float) -> None:
        self._value = value

    def __format__(self, wanted: str) -> str:
        return with_signs(format(self._value, wanted))


def in_signs(figure: str) -> str:
    """Return a figure ("1.5 kg") with the decimal sign of the language in place of the point."""
    point = _SIGNS.get(_code, {}).get(ord("."), ".")
    return figure.replace(".", str(point))


def labelled(name: object, said: object) -> str:
    """Return what is said of something behind its name, with the colon as the language sets it."""
    return tr("{name}: {said}", name=name, said=said)


def parted(texts: Iterable[str]) -> str:
    """Return texts as one, with semicolons between them as the language sets them."""
    found = list(texts)
    text = found[0] if found else ""
    for each in found[1:]:
        text = tr("{one}; {next}", one=text, next=each)
    return text


def message(text: str) -> str:
    """Mark a text that is to be translated where it is shown, by `tr` of a variable."""
    return text
