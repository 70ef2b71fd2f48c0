"""Which language the system speaks, and the catalogues of those that were translated into.

A catalogue is a `.po` file in resources/translations, compiled when it is first asked for: `de.po`
is the brew sheet's, `program_de.po` would be the program's own.
"""

from __future__ import annotations

import os
import re
from typing import TYPE_CHECKING

from designer import translation
from designer.resource_files import resource_path

if TYPE_CHECKING:
    from gettext import GNUTranslations

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


def catalogue_of(name: str) -> GNUTranslations:
    """Return the catalogue of a `.po` file, such as "de". Raises OSError where there is none."""
    # English, which most start with, needs none of this.
    import io
    from gettext import GNUTranslations

    from designer.po_file import compiled

    source = resource_path(f"translations/{name}.po").read_text(encoding="utf-8")
    return GNUTranslations(io.BytesIO(compiled(source)))


def speak_as_the_system() -> None:
    """Let the program speak the first language of the system that it was translated into."""
    for code in system_languages():
        if code == "en":
            return
        name = f"program_{code}"
        if code.isalpha() and resource_path(f"translations/{name}.po").is_file():
            translation.use(catalogue_of(name))
            return
