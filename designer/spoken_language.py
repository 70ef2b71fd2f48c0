"""Which language the program speaks, and the catalogues of those that it was translated into.

What was chosen in the window comes first, then what the system asks for. A catalogue is a `.po`
file in resources/translations: `de.po` is the brew sheet's, `program_de.po` the program's own,
`names_de.po` holds the names of ingredients and styles.
"""

from __future__ import annotations

import os
import re
from typing import TYPE_CHECKING

from designer import translation
from designer.preferences_file import preferences
from designer.resource_files import resource_path

if TYPE_CHECKING:
    from designer.po_file import PoCatalogue

LANGUAGES = {"en": "English", "de": "Deutsch", "fr": "Français"}
"""The languages of program and sheet, each by its own name."""
SYSTEM = "system"
"""What is chosen by whoever wants the language of the system."""
_NARROW_SPACE = "\u202f"
_LONG_NAMES = {"english": "en", "german": "de", "french": "fr"}
"""How one system names the languages of its locales."""


def language_code(locale_name: str) -> str:
    """Return the language of a locale: "de" of "de_AT.UTF-8"."""
    spoken = re.split("[_.@-]", locale_name.lower())[0]
    return _LONG_NAMES.get(spoken, spoken)


def system_languages() -> list[str]:
    """Return the languages that the environment asks for, the one liked best first.

    Where it names none, that of the C library.
    """
    for key in ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
        found = os.environ.get(key)
        if found:
            return [language_code(each) for each in found.split(":")]
    import locale  # the window opens without it where the environment says enough

    return [language_code(locale.getlocale(locale.LC_CTYPE)[0] or "en")]


def catalogue_of(name: str) -> PoCatalogue:
    """Return the catalogue of a `.po` file, such as "de". Raises OSError where there is none."""
    from designer.po_file import PoCatalogue  # English needs none

    source = resource_path(f"translations/{name}.po").read_text(encoding="utf-8")
    return PoCatalogue(source, _typeset_in_french if name.endswith("fr") else str)


def _typeset_in_french(text: str) -> str:
    """French sets a narrow space, at which no line breaks, before high punctuation."""
    for sign in ":;?!%»":
        text = text.replace(f" {sign}", f"{_NARROW_SPACE}{sign}")
    return text.replace("« ", f"«{_NARROW_SPACE}")


def catalogue_if_any(name: str) -> PoCatalogue | None:
    """Return the catalogue of a `.po` file; None where nothing was translated into it."""
    is_there = resource_path(f"translations/{name}.po").is_file()
    return catalogue_of(name) if is_there else None


def names_in(code: str) -> PoCatalogue:
    """Return what a language calls the ingredients and styles of the catalogue, and its words."""
    from designer.po_file import PoCatalogue

    return catalogue_if_any(f"names_{code}") or PoCatalogue()


def wanted_languages() -> list[str]:
    """Return those of `LANGUAGES` that are wanted, the one liked best first, and English last.

    The one that was chosen in the window is alone; where none was the system is asked.
    """
    chosen = preferences().get("language", SYSTEM)
    wanted = [chosen] if chosen in LANGUAGES else system_languages()
    return [code for code in (*wanted, "en") if code in LANGUAGES]


def wanted_language() -> str:
    """Return the language liked best, of sheets too where none is named for them."""
    return wanted_languages()[0]


def speak_as_wanted() -> None:
    """Let the program speak the language liked best of those that it was translated into.

    For English, which it speaks from the start, nothing is done.
    """
    for code in wanted_languages():
        if code == "en":
            return
        catalogue = catalogue_if_any(f"program_{code}")
        if catalogue is not None:
            translation.use(catalogue, code, names_in(code))
            return
