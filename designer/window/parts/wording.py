"""What Qt itself says and writes, in the language of the program: its dialogs, numbers, dates."""

from __future__ import annotations

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QTranslator

from designer.spoken_language import LANGUAGES
from designer.translation import spoken

_OF_LANGUAGE = {"en": "en_GB", "de": "de_DE", "fr": "fr_FR"}
"""How numbers and dates are written where the system's are those of another language."""


def locale_of(code: str, system: QLocale) -> QLocale:
    """Return how numbers and dates are written in a language: as the system does if it speaks it.

    So it is with a system whose language the program does not have, as long as that is not another
    of the program's: what is shown is English then, and figures are what one is used to.
    """
    own = QLocale.languageToCode(system.language())
    if own == code or (code == "en" and own not in LANGUAGES):
        return system
    return QLocale(_OF_LANGUAGE[code])


def speak_alike(application: QCoreApplication) -> None:
    """Let Qt speak the language of the program; for English nothing is loaded."""
    code = spoken()
    system = QLocale.system()
    wanted = locale_of(code, system)
    if wanted is not system:
        QLocale.setDefault(wanted)
    if code != "en":
        translator = QTranslator(application)
        folder = QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)
        if translator.load(f"qtbase_{code}", folder):
            application.installTranslator(translator)
