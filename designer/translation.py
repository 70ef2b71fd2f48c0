"""Sentences of the program in the language of its user, looked up by gettext.

A sentence is an English template with names in braces for what is put in: figures and names come
in after it was looked up, so that another language can put them in another order, and no brace in
a name is taken for one of ours. The brew sheet has a language of its own (`sheet/language.py`): it
is printed for whoever brews from it.
"""

from __future__ import annotations

from typing import Protocol


class Catalogue(Protocol):
    """What gettext's catalogues can do, of which only this is needed."""

    def gettext(self, message: str, /) -> str:
        """Return a message in the language."""

    def ngettext(self, one: str, many: str, number: int, /) -> str:
        """Return one message or the other, as the language counts."""


_catalogue: Catalogue | None = None
_code = "en"


def use(catalogue: Catalogue | None, code: str = "en") -> None:
    """Speak the language of a catalogue from now on; None is English, which needs none."""
    global _catalogue, _code
    _catalogue, _code = catalogue, code


def spoken() -> str:
    """Return the code of the language that is spoken: "en", "de" ..."""
    return _code


def tr(message: str, /, **parts: object) -> str:
    """Return a sentence in the user's language, with its parts put in."""
    text = _catalogue.gettext(message) if _catalogue is not None and message else message
    return text.format(**parts) if parts else text


def trn(one: str, many: str, number: int, /, **parts: object) -> str:
    """Return `one` or `many` as the language counts, with `{number}` and the parts put in."""
    if _catalogue is not None:
        text = _catalogue.ngettext(one, many, number)
    else:
        text = one if number == 1 else many
    return text.format(number=number, **parts)


def message(text: str) -> str:
    """Mark a text that is to be translated where it is shown, by `tr` of a variable."""
    return text
