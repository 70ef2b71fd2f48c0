"""How the system's locale measures and writes figures, told without Qt as Qt tells it.

Source: Unicode CLDR, measurement systems and decimal signs; a test holds it against Qt's copy of
these.
"""

from __future__ import annotations

import os
import re

from designer.spoken_language import LANGUAGES, language_code
from designer.translation import spoken

_US = {"us", "um"}
_COMMA = {
    "af", "be", "bg", "bs", "ca", "cs", "da", "de", "el", "es", "et", "eu", "fi", "fr", "gl", "hr",
    "hu", "hy", "id", "is", "it", "ka", "kk", "lt", "lv", "mk", "nb", "nl", "nn", "no", "pl", "pt",
    "ro", "ru", "sk", "sl", "sq", "sr", "sv", "tr", "uk", "vi",
}  # fmt: skip
"""Languages that write 1,5."""
_POINT_ALL_THE_SAME = {
    "de_ch", "de_li", "it_ch", "es_mx", "es_us", "es_pr", "es_do", "es_gt", "es_hn", "es_ni",
    "es_pa", "es_pe", "es_sv", "es_cu",
}  # fmt: skip
_COMMA_ALL_THE_SAME = {"en_za", "en_at", "en_be", "en_de", "en_dk", "en_fi", "en_nl", "en_se"}


def measures_in_us() -> bool:
    """Return whether the system's locale measures in US customary units."""
    language, territory = _parts(_name("LC_MEASUREMENT"))
    return territory in _US or (language == "en" and not territory)


def writes_comma() -> bool:
    """Return whether figures have a decimal comma: as the language that is spoken writes them.

    The system's locale says how, if it is of that language; and if the program speaks English
    because it does not have the language of the system.
    """
    language, territory = _parts(_name("LC_NUMERIC"))
    code = spoken()
    if language != code and (code != "en" or language in LANGUAGES):
        return code in _COMMA
    whole = f"{language}_{territory}"
    in_comma = language in _COMMA and whole not in _POINT_ALL_THE_SAME
    return in_comma or whole in _COMMA_ALL_THE_SAME


def _name(category: str) -> str:
    """Return the locale of a category, as the C library looks for it."""
    found = (os.environ.get(key) for key in ("LC_ALL", category, "LANG"))
    return next((each for each in found if each), "C")


def _parts(name: str) -> tuple[str, str]:
    """Return the language and the territory of a locale's name, "" for none."""
    parts = re.match(r"[a-zA-Z]+(?:[_-]([a-zA-Z]{2}))?(?=[.@]|$)", name)
    return language_code(name), (parts[1] or "").lower() if parts else ""
